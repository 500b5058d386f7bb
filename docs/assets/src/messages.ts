/** The dealer's page: a customer's message, the questions found in it, and one reply to them all. */

import { copyText, make } from "./dom";
import type { Engine } from "./engine";
import { KEPT_MESSAGE } from "./finding";
import { NO_LINK, readLink, writeLink } from "./link";
import { type Machine, siteLists } from "./machines";
import type { MachineStore } from "./machine_store";
import type { Request, Response } from "./protocol";
import { type Choice, type Read, type ReadQuestion, type Span, readMessage } from "./reading";
import { copyRich, sendable, sender } from "./replies";
import { RoundUp } from "./round_up";
import { shared } from "./shared";
import { storedUnits } from "./units";

const PAUSE = 200;
const MARKS: Record<string, string> = { within: "✓", close: "!", over: "✗", unknown: "?", compared: "=" };

/** What Python says of one question. */
interface Verdict extends Response {
  finding: string;
  finding_words: string;
  lead: string;
}

/** A question on the page: what the message gave, as the dealer has put it right since. */
class Card {
  readonly place = make("section", { class: "ys-question" });
  private readonly verdict = make("p", { class: "ys-question-verdict", role: "status" });
  readonly inputs = new Map<string, string>();
  /** The fields that the reply asks for. */
  readonly wanted = new Set<string>();
  answer: Verdict | undefined;
  removed = false;

  constructor(
    readonly question: ReadQuestion,
    private readonly text: string,
    private readonly changed: (card: Card) => void,
    private readonly point: (spans: Span[]) => void,
    private readonly keep: (card: Card) => void,
  ) {
    for (const { name, text: given } of question.filled) this.inputs.set(name, given);
    for (const { name } of question.missing) this.wanted.add(name);
    this.draw();
  }

  private draw(): void {
    const { question } = this;
    const remove = make("button", { type: "button", class: "ys-button" }, "Not asked");
    remove.addEventListener("click", () => {
      this.removed = true;
      this.place.remove();
      this.changed(this);
    });
    const keep = make("button", { type: "button", class: "ys-button" }, "Keep");
    keep.addEventListener("click", () => {
      this.keep(this);
      keep.textContent = "Kept";
    });
    const rows = make("div", { class: "ys-question-fields" });
    for (const each of question.filled) {
      const words = each.spans.map(([start, end]) => `“${this.text.slice(start, end)}”`).join(", ");
      rows.append(this.row(each.name, each.label, each.text, each.options, words, each.why, each.spans));
    }
    for (const each of question.unclear) rows.append(this.choice(each.spans, each.options));
    const missing = question.missing.map(({ name, label, help, options }) =>
      this.row(name, label, "", options, "", help, []),
    );
    const more = make("details", { class: "ys-question-missing" });
    more.append(make("summary", {}, `Not said: ${question.missing.map(({ label }) => label).join(", ")}`), ...missing);
    const head = make("div", { class: "ys-question-head" }, make("h2", {}, question.question), keep, remove);
    this.place.append(head, this.verdict, rows, ...(missing.length ? [more] : []));
  }

  /** One field: its label, what the message gives for it, and the words that this came from. */
  private row(
    name: string,
    label: string,
    text: string,
    options: Choice[],
    words: string,
    why: string,
    spans: Span[],
  ): HTMLElement {
    const control = options.length ? select(options, text) : make("input", { type: "text", autocomplete: "off" });
    control.value = text;
    control.addEventListener("change", () => this.set(name, control.value));
    const row = make("div", { class: "ys-question-row" }, make("label", {}, make("span", {}, label), control));
    row.dataset["field"] = name;
    const note = make("small", {}, why);
    if (words) {
      const from = make("button", { type: "button", class: "ys-from", title: why }, words);
      from.addEventListener("click", () => this.point(spans));
      const clear = make("button", { type: "button", class: "ys-button", "aria-label": `Not that: ${label}` }, "×");
      clear.addEventListener("click", () => {
        control.value = "";
        this.set(name, "");
      });
      row.append(from, clear);
    } else row.append(note);
    return row;
  }

  /** Words that may be one thing or another: one tap says which. */
  private choice(spans: Span[], options: ReadQuestion["unclear"][number]["options"]): HTMLElement {
    const words = spans.map(([start, end]) => this.text.slice(start, end)).join(" or ");
    const row = make("div", { class: "ys-unclear" }, make("span", {}, `“${words}” is which?`));
    for (const { name, text, label, shown } of options) {
      const one = options.every((each) => each.name === name);
      const pick = make("button", { type: "button", class: "ys-button" }, one ? shown : label);
      pick.addEventListener("click", () => {
        const found = { name, text, label, shown, spans, why: "picked here", options: [] };
        row.replaceWith(this.row(name, label, text, [], `“${words}”`, found.why, spans));
        this.set(name, text);
      });
      row.append(pick);
    }
    const none = make("button", { type: "button", class: "ys-button" }, "None of these");
    none.addEventListener("click", () => row.remove());
    row.append(none);
    return row;
  }

  private set(name: string, text: string): void {
    if (text.trim()) this.inputs.set(name, text.trim());
    else this.inputs.delete(name);
    this.changed(this);
  }

  /** The fields that are still wanted and nobody gave. */
  get lacking(): { name: string; label: string; help: string }[] {
    return this.question.missing.filter(({ name }) => this.wanted.has(name) && !this.inputs.has(name));
  }

  /** The part of an address that opens it; with `ask`, it asks for what is lacking. */
  fragment(ask = false): string {
    const given = readLink(this.question.link) ?? NO_LINK;
    const wanted = ask ? this.lacking.map(({ name }) => name) : [];
    return writeLink({ ...given, units: storedUnits(), inputs: Object.fromEntries(this.inputs), wanted });
  }

  show(answer: Verdict | undefined): void {
    this.answer = answer;
    const problems = Object.values(answer?.errors ?? {});
    this.place.dataset["finding"] = answer?.ok ? answer.finding : "";
    this.verdict.textContent = !answer
      ? "…"
      : answer.ok
        ? `${MARKS[answer.finding] ?? ""} ${answer.finding_words}. ${answer.lead}`
        : problems.join(" ");
  }
}

function select(options: Choice[], text: string): HTMLSelectElement {
  const control = make("select", {}, make("option", { value: "" }, "Not said"));
  for (const { text: value, shown } of options) control.append(make("option", { value }, shown));
  control.value = text;
  return control;
}

export class MessagesPage {
  private readonly message = make("textarea", { id: "ys-message", rows: "7", spellcheck: "false" });
  private readonly marked = make("div", { class: "ys-marked", hidden: "" });
  private readonly found = make("div", { class: "ys-message-found" });
  private readonly said = make("p", { role: "status", class: "ys-message-said" });
  private readonly reply = make("textarea", { id: "ys-reply", rows: "10" });
  private readonly tools = make("div", { class: "ys-reply-tools" });
  private readonly note = make("span", { role: "status" });
  private readonly roundUp: RoundUp;
  private machines: readonly Machine[] = [];
  private cards: Card[] = [];
  private rich = "";
  private short = "";
  /** The dealer has changed the reply: it isn't written over any more. */
  private edited = false;
  private counted = false;
  private turn = 0;
  private waiting = 0;
  private readonly unwatch: () => void;

  constructor(
    place: HTMLElement,
    private readonly engine: Engine,
    store: MachineStore,
  ) {
    const listed = siteLists().groups.flatMap((group) => group.machines);
    this.machines = listed;
    this.unwatch = store.watch((shelf) => (this.machines = [...shelf.machines, ...listed]));
    const left = make("div", { class: "ys-message-in" });
    left.append(make("label", { for: "ys-message" }, "The message"), this.message, this.marked, this.said);
    const answer = make("div", { class: "ys-message-reply", hidden: "" });
    answer.append(make("label", { for: "ys-reply" }, "The reply"), this.reply, this.tools, this.note);
    this.roundUp = new RoundUp(engine);
    place.replaceChildren(left, make("div", { class: "ys-message-out" }, this.found, answer, this.roundUp.place));
    this.buildTools();
    this.message.addEventListener("input", () => this.later());
    this.reply.addEventListener("input", () => (this.edited = true));
    this.message.value = shared() || kept();
    if (this.message.value) void this.read();
  }

  release(): void {
    this.turn += 1;
    window.clearTimeout(this.waiting);
    this.unwatch();
  }

  private later(): void {
    window.clearTimeout(this.waiting);
    this.waiting = window.setTimeout(() => void this.read(), PAUSE);
  }

  private async read(): Promise<void> {
    this.turn += 1;
    const { turn } = this;
    const text = this.message.value;
    if (!text.trim()) return this.show(null);
    const read = await readMessage(this.engine, text, storedUnits(), this.machines);
    if (turn === this.turn && read) this.show(read);
  }

  private show(read: Read | null): void {
    this.edited = false;
    this.counted = false;
    this.reply.dataset["final"] = "false";
    const text = read?.text ?? "";
    this.cards = (read?.questions ?? []).map(
      (question) => new Card(question, text, (card) => void this.answerAgain(card), (spans) => this.point(spans), (kept) => this.keep(kept)),
    );
    const lost = (read?.lost ?? []).map(([start, end]) => `“${text.slice(start, end)}”`);
    this.said.textContent = !read
      ? ""
      : !read.questions.length
        ? "No question of this site was found in it. Look for one on the first page."
        : lost.length
          ? `Not understood: ${lost.join(", ")}.`
          : "";
    this.found.replaceChildren(...this.cards.map((card) => card.place));
    this.mark(read);
    this.reply.closest<HTMLElement>(".ys-message-reply")!.hidden = !this.cards.length;
    void this.answerAll();
  }

  /** The message with the words that were understood marked in it. */
  private mark(read: Read | null): void {
    const spans = new Map<string, Span>();
    for (const question of read?.questions ?? []) {
      for (const each of [...question.filled, ...question.unclear]) {
        for (const span of each.spans) spans.set(span.join(), span);
      }
    }
    const text = read?.text ?? "";
    const parts: Node[] = [];
    let place = 0;
    for (const [start, end] of [...spans.values()].sort((one, other) => one[0] - other[0])) {
      if (start < place) continue;
      parts.push(new Text(text.slice(place, start)));
      parts.push(make("mark", { "data-start": String(start) }, text.slice(start, end)));
      place = end;
    }
    parts.push(new Text(text.slice(place)));
    this.marked.replaceChildren(...parts);
    this.marked.hidden = !spans.size;
  }

  /** Show where in the message a field comes from. */
  private point(spans: Span[]): void {
    const starts = new Set(spans.map(([start]) => String(start)));
    for (const mark of this.marked.querySelectorAll<HTMLElement>("mark")) {
      const meant = starts.has(mark.dataset["start"] ?? "");
      mark.classList.toggle("ys-pointed", meant);
      if (meant) mark.scrollIntoView({ block: "nearest" });
    }
  }

  private keep(card: Card): void {
    const { question, worksheet, ask, page } = card.question;
    void this.roundUp.keep({ question, worksheet, ask, page, link: card.fragment(), note: "" });
  }

  private get asked(): Card[] {
    return this.cards.filter((card) => !card.removed);
  }

  private async answerAll(): Promise<void> {
    const { turn } = this;
    // One after the other: the newest question of a worksheet would take an older one's place.
    for (const card of this.asked) {
      card.show(undefined);
      const answer = await this.answer(card);
      if (turn !== this.turn) return;
      card.show(answer);
    }
    this.write();
  }

  private async answerAgain(card: Card): Promise<void> {
    const { turn } = this;
    if (!card.removed) {
      const answer = await this.answer(card);
      if (turn !== this.turn || !answer) return;
      card.show(answer);
    }
    this.write();
  }

  private async answer(card: Card): Promise<Verdict | undefined> {
    const { worksheet, ask } = card.question;
    const request: Request = {
      worksheet,
      ask,
      inputs: Object.fromEntries(card.inputs),
      example: false,
      units: storedUnits(),
      stage: "replies",
      link: this.address(card),
      short_link: this.address(card),
    };
    return ((await this.engine.ask(request)) as Verdict | null) ?? undefined;
  }

  private address(card: Card): string {
    const root = new URL("..", this.engine.base).href;
    const file = location.protocol === "file:";
    const page = `${root}${card.question.page}${file ? ".html" : "/"}`;
    return sendable(`${page}#${card.fragment(true)}`, root);
  }

  /** Write the reply to every question, in the order asked. */
  private write(): void {
    const cards = this.asked.filter((card) => card.answer?.ok);
    const many = cards.length > 1;
    const plain = cards.map((card, place) => {
      const title = many ? `${place + 1}. ${card.question.question}\n` : "";
      return `${title}${card.answer?.reply ?? card.answer?.lead ?? ""}${askBack(card)}`;
    });
    this.rich = cards
      .map((card) => `${many ? `<h4>${card.question.question}</h4>` : ""}${card.answer?.reply_html ?? ""}`)
      .join("");
    this.short = cards.map((card) => `${card.answer?.lead ?? ""} ${this.address(card)}`.trim()).join("\n");
    if (!this.edited) this.reply.value = plain.join("\n\n");
    const shop = sender();
    if (shop && !this.edited && !this.reply.value.includes(shop)) this.reply.value += `\n\n${shop}`;
    this.reply.dataset["final"] = String(cards.length > 0 && cards.length === this.asked.length);
  }

  /** A message is counted once, when its reply goes out. */
  private countOnce(): void {
    if (this.counted) return;
    this.counted = true;
    const answered = this.asked.map((card) => ({
      question: card.question.question,
      lacking: card.lacking.map(({ label }) => label),
    }));
    this.roundUp.count(answered);
  }

  private buildTools(): void {
    const add = (label: string, action: (button: HTMLButtonElement) => void): void => {
      const button = make("button", { type: "button", class: "ys-button" }, label);
      button.addEventListener("click", () => action(button));
      this.tools.append(button);
    };
    const copied = (done: boolean): void => {
      if (!done) return;
      this.note.textContent = "Copied.";
      this.countOnce();
    };
    add("Copy", (button) => void copyText(this.reply.value, button).then(copied));
    add("Copy for mail", (button) => void copyRich(this.edited ? "" : this.rich, this.reply.value, button).then(copied));
    add("Copy short", (button) => void copyText(this.short, button).then(copied));
    const send = (address: string): void => {
      this.countOnce();
      location.assign(address);
    };
    add("Mail", () => send(`mailto:?body=${encodeURIComponent(this.reply.value)}`));
    add("Text", () => send(`sms:?body=${encodeURIComponent(this.short)}`));
    if ("share" in navigator) {
      const share = (): Promise<void> => navigator.share({ text: this.reply.value });
      add("Share", () => void share().then(() => this.countOnce(), () => undefined));
    }
    add("Write it anew", () => {
      this.edited = false;
      this.write();
    });
  }
}

/** What a reply asks for, where its answer hangs on numbers that nobody gave. */
function askBack(card: Card): string {
  if (card.answer?.finding !== "unknown" || !card.lacking.length) return "";
  const wanted = card.lacking.map(({ label, help }) => `- ${label}${help ? `: ${help}` : ""}`);
  return `\nCould you tell me:\n${wanted.join("\n")}`;
}

/** A message kept from the front page's box. */
function kept(): string {
  try {
    const text = sessionStorage.getItem(KEPT_MESSAGE) ?? "";
    sessionStorage.removeItem(KEPT_MESSAGE);
    return text;
  } catch {
    return "";
  }
}
