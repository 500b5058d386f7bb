/**
 * The round-up: answers that a dealer keeps, in words of his own, on this device. From it come a file
 * that the build turns into a page of the shop's site, an outline to speak from, and a printed sheet.
 */

import { createStore, get, set } from "idb-keyval";

import { copyText, make } from "./dom";
import type { Engine } from "./engine";
import { readLink } from "./link";
import { wordsOf } from "./problem";
import { sender } from "./replies";
import { storedUnits } from "./units";

/** One kept answer; its question is the dealer's wording, never the sender's. */
export interface Kept {
  question: string;
  worksheet: string;
  ask: string;
  /** The part of an address that opens it. */
  link: string;
  page: string;
  note: string;
}

/** How often each question was asked, and each number was lacking; kept on this device alone. */
interface Counts {
  asked: Record<string, number>;
  lacking: Record<string, number>;
}

const COUNTS_KEY = "yardstick.asked";
const COLUMNS = ["question", "worksheet", "ask", "inputs", "note"];
const TOLD = 3;
const FILE = "round_up.csv";

function counts(): Counts {
  try {
    const kept = JSON.parse(localStorage.getItem(COUNTS_KEY) ?? "{}") as Partial<Counts>;
    // Spread, so that whatever else stands there becomes an empty list.
    return { asked: { ...Object(kept.asked) }, lacking: { ...Object(kept.lacking) } };
  } catch {
    return { asked: {}, lacking: {} };
  }
}

/** Count an answered question, and the numbers that it lacked. */
function count(question: string, lacking: readonly string[]): void {
  const all = counts();
  all.asked[question] = (all.asked[question] ?? 0) + 1;
  for (const label of lacking) all.lacking[label] = (all.lacking[label] ?? 0) + 1;
  try {
    localStorage.setItem(COUNTS_KEY, JSON.stringify(all));
  } catch {
    // Without storage nothing is counted.
  }
}

function most(of: Record<string, number>): string {
  const ranked = Object.entries(of).sort(([, one], [, other]) => other - one);
  return ranked.slice(0, TOLD).map(([said, times]) => `${said} (${times})`).join(", ");
}

/** A cell of the file; what a spreadsheet would take for a formula is marked as text. */
function cell(given: string): string {
  const text = /^[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/.test(given) ? `'${given}` : given;
  return /[",\n\r]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** The kept answers as the file that a shop's folder takes. */
export function asFile(entries: readonly Kept[]): string {
  const rows = entries.map(({ question, worksheet, ask, link, note }) => {
    const inputs = new URLSearchParams(readLink(link)?.inputs ?? {}).toString();
    return [question, worksheet, ask, inputs, note].map(cell).join(",");
  });
  return `${[COLUMNS.join(","), ...rows].join("\n")}\n`;
}

export class RoundUp {
  readonly place = make("details", { class: "ys-round-up" });
  private readonly store = createStore("yardstick-round-up", "entries");
  private readonly list = make("ol", {});
  private readonly said = make("p", { role: "status" });
  private readonly told = make("p", { class: "ys-counts" });
  private readonly sheet = make("div", { class: "ys-round-up-sheet" });
  private readonly summary = make("summary", {});
  private entries: Kept[] = [];

  constructor(private readonly engine: Engine) {
    const tools = make("div", { class: "ys-reply-tools" });
    const add = (label: string, action: (button: HTMLButtonElement) => void): void => {
      const button = make("button", { type: "button", class: "ys-button" }, label);
      button.addEventListener("click", () => action(button));
      tools.append(button);
    };
    add("Copy as an outline", (button) => void this.copyOutline(button));
    add("Save for the shop's site", () => this.download());
    add("Print", () => void this.print());
    this.place.append(this.summary, this.told, this.list, tools, this.said, this.sheet);
    this.draw();
    void this.load();
  }

  private async load(): Promise<void> {
    try {
      this.entries = ((await get("entries", this.store)) as Kept[] | undefined) ?? [];
      this.draw();
    } catch (problem) {
      this.said.textContent = `This browser lets the page keep nothing. (${wordsOf(problem)})`;
    }
  }

  async keep(entry: Kept): Promise<void> {
    this.entries = [...this.entries, entry];
    await this.changed();
  }

  private async changed(): Promise<void> {
    this.draw();
    try {
      await set("entries", this.entries, this.store);
    } catch (problem) {
      this.said.textContent = `It could not be kept on this device. (${wordsOf(problem)})`;
    }
  }

  /** Count what a reply that goes out answers. */
  count(answered: readonly { question: string; lacking: readonly string[] }[]): void {
    for (const { question, lacking } of answered) count(question, lacking);
    this.tell();
  }

  private draw(): void {
    this.summary.textContent = `Your round-up: ${this.entries.length} kept`;
    this.tell();
    this.list.replaceChildren(...this.entries.map((entry, place) => this.row(entry, place)));
  }

  /** Say what is asked most, and what it lacks. */
  private tell(): void {
    const { asked, lacking } = counts();
    const lines = [most(asked) && `Asked most: ${most(asked)}.`, most(lacking) && `Most often lacking: ${most(lacking)}.`];
    this.told.textContent = lines.filter(Boolean).join(" ");
  }

  private row(entry: Kept, place: number): HTMLElement {
    const question = make("input", { type: "text", "aria-label": "The question, in your words" });
    question.value = entry.question;
    const note = make("textarea", { rows: "2", "aria-label": "A note of your own", placeholder: "A note of your own" });
    note.value = entry.note;
    question.addEventListener("change", () => void this.edit(place, { question: question.value.trim() || entry.question }));
    note.addEventListener("change", () => void this.edit(place, { note: note.value.trim() }));
    const root = new URL("..", this.engine.base).href;
    const file = location.protocol === "file:";
    const open = make("a", { href: `${root}${entry.page}${file ? ".html" : "/"}#${entry.link}` }, "Open");
    const button = (label: string, name: string, action: () => void): HTMLButtonElement => {
      const made = make("button", { type: "button", class: "ys-button", "aria-label": name }, label);
      made.addEventListener("click", action);
      return made;
    };
    const up = button("↑", `Move up: ${entry.question}`, () => void this.move(place, -1));
    const down = button("↓", `Move down: ${entry.question}`, () => void this.move(place, 1));
    const drop = button("×", `Take out: ${entry.question}`, () => void this.drop(place));
    return make("li", {}, question, note, make("div", { class: "ys-reply-tools" }, open, up, down, drop));
  }

  private async edit(place: number, change: Partial<Kept>): Promise<void> {
    this.entries = this.entries.map((each, i) => (i === place ? { ...each, ...change } : each));
    await this.changed();
  }

  private async move(place: number, by: number): Promise<void> {
    const to = place + by;
    if (to < 0 || to >= this.entries.length) return;
    const all = [...this.entries];
    [all[place], all[to]] = [all[to]!, all[place]!];
    this.entries = all;
    await this.changed();
  }

  private async drop(place: number): Promise<void> {
    this.entries = this.entries.filter((_, i) => i !== place);
    await this.changed();
  }

  /** Each question, with what somebody says who speaks of it. */
  private async outline(): Promise<{ title: string; lines: string[] }[]> {
    const parts = [];
    for (const entry of this.entries) {
      const link = readLink(entry.link);
      const { worksheet, ask, question, note } = entry;
      const inputs = link?.inputs ?? {};
      const units = storedUnits();
      const example = !Object.keys(inputs).length;
      const asked = { worksheet, ask, inputs, example, units, stage: "full" as const, entry: `kept ${parts.length}` };
      const answer = await this.engine.ask(asked);
      const problems = Object.values(answer?.errors ?? {});
      const lines = [...(answer?.outline ?? problems), note].filter(Boolean);
      parts.push({ title: question, lines });
    }
    return parts;
  }

  private async copyOutline(button: HTMLButtonElement): Promise<void> {
    const parts = await this.outline();
    const text = parts
      .map(({ title, lines }, place) => [`${place + 1}. ${title}`, ...lines.map((line) => `   - ${line}`)].join("\n"))
      .join("\n\n");
    if (await copyText(text, button)) this.said.textContent = "Outline copied.";
  }

  private download(): void {
    const address = URL.createObjectURL(new Blob([asFile(this.entries)], { type: "text/csv" }));
    make("a", { href: address, download: FILE }).click();
    window.setTimeout(() => URL.revokeObjectURL(address), 10_000);
    this.said.textContent = `Put ${FILE} into the folder of the shop's lists, and build the site.`;
  }

  private async print(): Promise<void> {
    this.said.textContent = "";
    const parts = await this.outline();
    this.sheet.replaceChildren(
      make("h2", {}, "What customers ask us"),
      make("p", {}, [sender(), "For planning; the operator's manual and the plate on the machine come first."].filter(Boolean).join(" · ")),
      ...parts.map(({ title, lines }) =>
        make("section", {}, make("h3", {}, title), ...lines.map((line) => make("p", {}, line))),
      ),
    );
    document.body.dataset["prints"] = "round-up";
    window.print();
    delete document.body.dataset["prints"];
  }
}
