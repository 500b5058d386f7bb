/**
 * The front page's box: questions, pages and machines, found as one types. It works at once, from
 * what the build wrote beside it; when Python has read the text, the links carry its numbers.
 */

import { make } from "./dom";
import type { Engine } from "./engine";
import { type Machine, siteLists } from "./machines";
import type { MachineStore } from "./machine_store";
import { type Read, readMessage } from "./reading";
import { storedUnits } from "./units";
import { type Marks, Words } from "./words";

interface Entry {
  text: string;
  worksheet: string;
  ask: string;
  href: string;
  fragment: string;
  subject: string;
  /** One of a shop's round-up: it opens there, in the shop's own words. */
  kept: boolean;
  words: string;
}

type Pattern = [needs: string, without: string, worksheet: string, ask: string, strong: number];

interface Known {
  entries: Entry[];
  weights: Record<string, number>;
  phrases: Record<string, string>;
  common: string;
  patterns: Pattern[];
  messages: string;
  machines: string;
}

/** A result: what it says, what it leads to, and the numbers of the reader that it carries. */
interface Found {
  text: string;
  href: string;
  worksheet: string;
  note: string;
}

const MOST = 6;
/** Results of one worksheet: what else there may be is seen at once. */
const MOST_OF_ONE = 2;
const MOST_MACHINES = 3;
/** Python reads when the typing pauses for so long [ms]. */
const PAUSE = 150;
/** What a strong pattern counts, beside the weights of words. */
const PATTERN = 12;
/** What is said of a question of the shop's round-up. */
const KEPT = "We are asked this: with our answer";
export const KEPT_MESSAGE = "yardstick.message";

export class Finding {
  private readonly known: Known;
  private readonly words: Words;
  private readonly box: HTMLInputElement;
  private readonly list: HTMLElement;
  private readonly said: HTMLElement;
  private machines: readonly Machine[] = [];
  private readonly unwatch: () => void;
  private readonly stop = new AbortController();
  private waiting = 0;
  private turn = 0;
  private read: Read | null = null;

  constructor(
    place: HTMLElement,
    private readonly engine: Engine,
    store: MachineStore,
  ) {
    const data = place.querySelector<HTMLTemplateElement>("#ys-find-data")!;
    this.known = JSON.parse(data.content.textContent) as Known;
    this.words = new Words(this.known.phrases, this.known.common);
    this.box = place.querySelector("input")!;
    this.list = place.querySelector("#ys-found")!;
    this.said = place.querySelector("#ys-find-said")!;
    place.hidden = false;
    const listed = siteLists().groups.flatMap((group) => group.machines);
    this.machines = listed;
    this.unwatch = store.watch((shelf) => (this.machines = [...shelf.machines, ...listed]));
    const { signal } = this.stop;
    this.box.addEventListener("input", () => this.changed(), { signal });
    this.box.addEventListener("keydown", (event) => event.key === "Enter" && this.open(event), { signal });
    for (const tile of document.querySelectorAll<HTMLElement>(".ys-subject")) {
      tile.addEventListener("click", (event) => this.show(event, tile.dataset["subject"] ?? ""), { signal });
    }
    if (this.box.value) this.changed();
  }

  release(): void {
    this.turn += 1;
    window.clearTimeout(this.waiting);
    this.stop.abort();
    this.unwatch();
  }

  /** Open the first result. */
  private open(event: Event): void {
    const first = this.list.querySelector<HTMLAnchorElement>("a");
    event.preventDefault();
    first?.click();
  }

  private changed(): void {
    this.turn += 1;
    const { turn } = this;
    this.read = null;
    window.clearTimeout(this.waiting);
    const text = this.box.value.trim();
    this.list.replaceChildren();
    this.said.textContent = "";
    if (text.length < 2) return;
    const found = this.find(text);
    this.draw(text, found);
    this.waiting = window.setTimeout(() => void this.fill(turn, text, found), PAUSE);
  }

  private async fill(turn: number, text: string, found: Entry[]): Promise<void> {
    const also = [...new Set(found.map((entry) => entry.worksheet))];
    const read = await readMessage(this.engine, text, storedUnits(), this.machines, also);
    if (turn !== this.turn || !read) return;
    this.read = read;
    this.draw(text, found);
  }

  /** The entries that a text leads to, the likeliest first. */
  private find(text: string): Entry[] {
    const marks = this.words.marksOf(text);
    const meant = this.meant(marks);
    const words = new Set(marks.flatMap((mark) => [...mark]));
    const scored = this.known.entries.map((entry) => {
      const own = new Set(entry.words.split(" "));
      let score = 0;
      for (const word of words) if (own.has(word)) score += this.known.weights[word] ?? 0;
      const place = meant.findIndex(
        ([, , worksheet, ask]) => worksheet === entry.worksheet && (!entry.ask || !ask || entry.ask === ask),
      );
      if (place >= 0) score += PATTERN - place;
      return { entry, score };
    });
    scored.sort((one, other) => other.score - one.score);
    const best = scored[0]?.score ?? 0;
    const counts = new Map<string, number>();
    return scored
      .filter(({ score }) => score > 1.5 && score > best / 3)
      .filter(({ entry: { worksheet } }) => {
        counts.set(worksheet, (counts.get(worksheet) ?? 0) + 1);
        return counts.get(worksheet)! <= MOST_OF_ONE;
      })
      .slice(0, MOST)
      .map(({ entry }) => entry);
  }

  /** The patterns that a text matches; the weak ones only where no strong one does. */
  private meant(marks: Marks): Pattern[] {
    const present = new Set(marks.flatMap((mark) => [...mark]));
    const matches = this.known.patterns.filter(([needs, without]) => {
      if (without && without.split(" ").some((word) => present.has(word))) return false;
      return distinct(needs.split(" ").map((each) => each.split("/")), marks, new Set());
    });
    const strong = matches.filter(([, , , , is]) => is);
    return strong.length ? strong : matches;
  }

  private machinesIn(text: string): Machine[] {
    const words = text.toLowerCase().split(/[\s,]+/).filter((word) => word.length > 1);
    return this.machines
      .filter((machine) => words.every((word) => machine.name.toLowerCase().includes(word)))
      .slice(0, MOST_MACHINES);
  }

  private results(found: Entry[]): Found[] {
    const questions = this.read?.questions ?? [];
    const asked = questions.filter((each) => each.asked);
    const own = asked.map(({ worksheet, question, link, filled }) => {
      const entry = this.known.entries.find((each) => !each.kept && each.worksheet === worksheet);
      const note = filled.map(({ label, shown }) => `${label}: ${shown}`).join("; ");
      return { text: question, href: `${entry?.href ?? ""}#${link}`, worksheet, note };
    });
    const seen = new Set(own.filter(({ note }) => note).map(({ worksheet }) => worksheet));
    const kept = found
      .filter((each) => each.kept)
      .map(({ text, href, fragment, worksheet }) => ({ text, href: `${href}#${fragment}`, worksheet, note: KEPT }));
    const others = found
      .filter((each) => !each.kept && !seen.has(each.worksheet))
      .map(({ text, href, fragment, worksheet, ask }) => {
        const filled = questions.find((each) => each.worksheet === worksheet);
        if (!filled?.filled.length) {
          return { text, href: fragment ? `${href}#${fragment}` : href, worksheet, note: "" };
        }
        const note = filled.filled.map(({ label, shown }) => `${label}: ${shown}`).join("; ");
        const link = new URLSearchParams(filled.link);
        if (ask) link.set("ask", ask);
        // The index's own wording may name other numbers than the reader's.
        return { text: filled.question, href: `${href}#${link}`, worksheet, note };
      });
    const once = new Map<string, Found>();
    const filled = own.filter(({ note }) => note);
    // What the shop has answered in its own words stands first where it is the likeliest.
    const first = found[0]?.kept ? [...kept, ...filled] : [...filled, ...kept];
    for (const each of [...first, ...others]) {
      if (!once.has(each.text)) once.set(each.text, each);
    }
    return [...once.values()].slice(0, MOST);
  }

  private draw(text: string, found: Entry[]): void {
    const results = this.results(found);
    const links = results.map(({ text: said, href, note }) => link(said, href, note));
    for (const machine of this.machinesIn(text)) {
      const href = `${this.known.machines}#v=2&${new URLSearchParams(machine.inputs)}`;
      links.push(link(machine.name, href, "A machine of the list: what it can run"));
    }
    const several = (this.read?.questions.filter((each) => each.asked).length ?? 0) > 1;
    if (several || text.length > 120) {
      const message = link("Read it as a message", this.known.messages, "every question in it, and one reply");
      message.addEventListener("click", () => keepMessage(text));
      links.unshift(message);
    }
    this.list.replaceChildren(...links);
    this.list.dataset["read"] = String(!!this.read);
    this.said.textContent = links.length
      ? ""
      : "No question of this site is like that. The questions below are all there are.";
  }

  /** Show the questions of a subject in place of going to its first page. */
  private show(event: MouseEvent, subject: string): void {
    if (event.metaKey || event.ctrlKey || event.shiftKey) return;
    const entries = this.known.entries.filter((entry) => entry.subject === subject);
    if (!entries.length) return;
    event.preventDefault();
    event.stopPropagation();
    this.turn += 1;
    this.box.value = "";
    this.said.textContent = `${entries.length} questions`;
    this.list.replaceChildren(
      ...entries.map(({ text, href, fragment }) => link(text, fragment ? `${href}#${fragment}` : href, "")),
    );
    this.box.scrollIntoView({ block: "start" });
    this.list.querySelector("a")?.focus({ preventScroll: true });
  }
}

function link(text: string, href: string, note: string): HTMLAnchorElement {
  return make("a", { href }, make("b", {}, text), ...(note ? [make("small", {}, note)] : []));
}

/** Keep a message for the page that reads it, on this device and until the tab is closed. */
function keepMessage(text: string): void {
  try {
    sessionStorage.setItem(KEPT_MESSAGE, text);
  } catch {
    // Without storage it has to be pasted there once more.
  }
}

/** Whether each need has a place of its own in the text. */
function distinct(needs: string[][], marks: Marks, used: Set<number>): boolean {
  const [first, ...rest] = needs;
  if (!first) return true;
  return marks.some((mark, place) => {
    if (used.has(place) || !first.some((word) => mark.has(word))) return false;
    return distinct(rest, marks, new Set([...used, place]));
  });
}
