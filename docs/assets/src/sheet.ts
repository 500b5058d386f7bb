/** One worksheet on a page: its form, its answer, and what stands between them. */

import { Address } from "./address";
import { Asking, LATE } from "./asking";
import { LEAVING } from "./build";
import { make, words } from "./dom";
import type { Engine, Progress } from "./engine";
import { Errors } from "./errors";
import { type Ask, Form, INPUTS_EVENT } from "./form";
import { formRows, machineRows } from "./form_rows";
import { type LinkState, LONGEST_LINK, readLink } from "./link";
import { Notice } from "./notice";
import { LONGEST_CODE, Paper } from "./print";
import type { Request, Response, Stage, Units } from "./protocol";
import { sendable, sender, shopParts } from "./replies";
import { Sight } from "./sight";
import { Standing } from "./standing";
import { TOO_LONG, fillIn } from "./take_link";
import { Tools } from "./tools";
import { showProgress } from "./trouble";
import { keepTyped, keptTyped } from "./typed";
import { siteUnits, storeUnits } from "./units";

/** How often what is to be copied is asked for. */
const TURNS = 5;
const UNSEARCHED = "A first look at the middle values; the ranges could not be searched.";
const QUESTIONS_EXAMPLE =
  "An example: the numbers only show how the question is answered. Yours take their place.";
const UNREAD = "This answer is for the last inputs that could be read.";

/** Whether the link in the address is for this worksheet; without a name it is for the first. */
export function isFor(section: HTMLElement, isFirst: boolean): boolean {
  const named = readLink(window.location.hash)?.sheet;
  const others = document.querySelector(`section.ys[data-worksheet="${CSS.escape(named ?? "")}"]`);
  return named && others ? section.dataset["worksheet"] === named : isFirst;
}

/** The words of a part of the verdict, as a sentence. */
function spoken(part: Element): string {
  const text = words(part);
  return /[.!?]$/.test(text) || !text ? text : `${text}.`;
}

export class Sheet {
  private readonly name: string;
  private readonly answer: HTMLElement;
  private readonly status: HTMLElement;
  private readonly notice = new Notice();
  private readonly progress = make("div", { class: "ys-progress", hidden: "" });
  private readonly form: Form;
  private readonly standing: Standing;
  private readonly asking: Asking;
  private readonly address: Address;
  private readonly tools: Tools;
  private readonly sight: Sight;
  private readonly paper: Paper;
  private readonly path = window.location.pathname;
  private readonly root: string;
  private readonly stop = new AbortController();
  private readonly unwatch: () => void;
  /** The words about the page's own example. */
  private pagesExample?: string;

  /** `linked` is true for the worksheet that the inputs in the address belong to. */
  constructor(
    private readonly section: HTMLElement,
    private readonly engine: Engine,
    private readonly linked: boolean,
    isFirst: boolean,
  ) {
    const find = (part: string): HTMLElement => section.querySelector<HTMLElement>(part)!;
    this.name = section.dataset["worksheet"] ?? "";
    this.answer = find(".ys-answer");
    this.status = find(".ys-status");
    this.root = new URL("..", engine.base).href;
    const { signal } = this.stop;
    const asks = JSON.parse(section.dataset["asks"] ?? "[]") as Ask[];
    this.form = new Form(find(".ys-form") as HTMLFormElement, asks, () => this.settled(), signal);
    this.address = new Address(this.form, isFirst ? "" : this.name);
    this.asking = new Asking(
      engine,
      (stage) => this.request(stage),
      (response, request) => this.show(response, request),
      () => {
        this.writeAddress();
        this.sayVerdict();
      },
    );
    this.tools = new Tools(find(".ys-tools"), {
      link: () => sendable(this.address.whole(), this.root) || this.address.whole(),
      isSendable: () => sendable(this.address.whole(), this.root) !== "",
      replies: () => this.replies(),
      clear: () => this.change(() => this.form.clear()),
      showExample: () => this.change(() => this.form.showExample()),
      chooseUnits: (units) => this.chooseUnits(units),
      announce: (text) => this.announce(text),
    });
    const paperLink = (): string => {
      const whole = sendable(this.address.whole(), this.root);
      // A code of the machines' names may be drawn where one of all their numbers can't be.
      return whole.length <= LONGEST_CODE ? whole : sendable(this.address.short(), this.root);
    };
    this.paper = new Paper(this.answer, () => formRows(this.form), paperLink);
    this.answer.tabIndex = -1;
    this.sight = new Sight(section, this.answer, signal);
    const errors = new Errors(this.form);
    const announce = (text: string): void => this.announce(text);
    const onChange = (isStale: boolean): void => this.sight.stale(isStale);
    this.standing = new Standing(this.answer, errors, UNREAD, announce, onChange);
    this.answer.before(this.progress, this.notice.element, errors.summary, this.standing.line);
    this.tools.keepThrough(this.answer, () => undefined);
    this.buildExampleNote();
    this.listen(signal);
    this.unwatch = engine.watch((progress) => this.showProgress(progress));
    section.dataset["live"] = "";
    const taken = this.linked ? this.takeLink() : this.take(readLink(keptTyped(this.name)));
    this.showState();
    const asIs = this.form.isExample && !Object.keys(this.form.given()).length;
    if (taken || this.form.units !== siteUnits() || !asIs) this.compute();
  }

  /** Let go of the page: its listeners end, and late answers are dropped. */
  release(): void {
    this.asking.stop();
    this.sight.release();
    this.standing.stop();
    this.stop.abort();
    this.unwatch();
  }

  private listen(signal: AbortSignal): void {
    const form = this.form.element;
    form.addEventListener("focusin", () => this.engine.start(), { signal });
    for (const kind of ["input", "change"]) {
      form.addEventListener(kind, () => this.edited(), { signal });
    }
    form.addEventListener("focusout", () => this.standing.say(), { signal });
    this.section.addEventListener("click", (event) => this.follow(event), { signal });
    window.addEventListener("beforeprint", () => this.paper.prepare(), { signal });
    window.addEventListener("afterprint", () => this.paper.clear(), { signal });
    for (const event of ["pagehide", LEAVING]) {
      const keep = (): void => void (this.asking.isTyping && this.writeAddress());
      window.addEventListener(event, keep, { signal });
    }
    if (this.linked) {
      window.addEventListener("hashchange", () => this.takeLink() && this.compute(), { signal });
    }
  }

  // --- what is asked ----------------------------------------------------------------------------

  private request(stage: Stage): Request {
    const link = sendable(this.address.whole(), this.root);
    const short_link = sendable(this.address.short(), this.root);
    const about = machineRows(this.form).map(({ label, value }) => `${label}: ${value}.`);
    return {
      worksheet: this.name,
      inputs: this.form.given(),
      example: this.form.example,
      ask: this.form.ask.key,
      units: this.form.units,
      stage,
      link,
      short_link,
      about: about.join(" "),
      sender: sender(),
      parts: shopParts(),
    };
  }

  private edited(): void {
    this.showState();
    this.beforeAnswer();
    this.asking.changed();
  }

  private compute(): void {
    this.beforeAnswer();
    this.asking.compute();
  }

  private beforeAnswer(): void {
    this.form.element.dispatchEvent(new CustomEvent(INPUTS_EVENT));
    const turn = this.asking.asked + 1;
    const wait = this.asking.answered ? LATE : 0;
    window.setTimeout(() => this.asking.answered < turn && this.showWaiting(), wait);
  }

  /** Change the form as a whole, and answer. */
  private change(action: () => void): void {
    action();
    this.settled();
  }

  private settled(): void {
    this.form.mark();
    this.showState();
    this.writeAddress();
    this.compute();
  }

  private startOwn(): void {
    this.change(() => this.form.startOwn());
    const first = this.form.element.querySelector<HTMLElement>(".ys-asked :is(input, select)");
    first?.focus();
  }

  private showState(): void {
    this.tools.show(this.form.units, this.form.isExample);
    this.section.toggleAttribute("data-example", this.form.isExample);
    const note = this.section.querySelector<HTMLElement>(".ys-example p");
    if (!note) return;
    this.pagesExample ??= note.textContent ?? "";
    note.textContent = this.form.example === true ? this.pagesExample : QUESTIONS_EXAMPLE;
  }

  private buildExampleNote(): void {
    const note = this.section.querySelector(".ys-example");
    const button = make("button", { type: "button", class: "ys-button" }, "Start with my numbers");
    button.addEventListener("click", () => this.startOwn());
    note?.querySelector(".ys-button")?.remove();
    note?.append(button);
  }

  // --- what comes back --------------------------------------------------------------------------

  /** The answer on the page isn't for the inputs beside it, and nobody may take or print it so. */
  private showWaiting(): void {
    const whose = this.asking.answered ? "the numbers before" : "the example";
    const failed = this.section.dataset["engine"] === "failed";
    const yours = failed ? "Your numbers have no answer." : "Your numbers are being worked out.";
    const below = this.isFirstLook ? "below the verdict" : "below";
    this.standing.mark(`${yours} What stands ${below} is for ${whose}.`);
  }

  /** Whether the verdict alone is for the numbers in the form. */
  private get isFirstLook(): boolean {
    return this.answer.dataset["final"] === "false";
  }

  private show(response: Response, request: Request): void {
    if (request.stage === "odds") {
      this.showOdds(response.odds ?? "");
      return;
    }
    if (request.stage === "effects") {
      const place = this.answer.querySelector<HTMLElement>(".ys-effects > div");
      if (place) place.innerHTML = response.effects ?? "";
      return;
    }
    for (const [name, text] of Object.entries(response.hints)) this.form.showHint(name, text);
    if (response.ok) {
      this.standing.clear();
      this.showAnswer(response);
    } else this.standing.refuse(response.errors);
  }

  private showAnswer(response: Response): void {
    if (response.final) this.replaceAnswer(response.html ?? "");
    else this.answer.querySelector(".ys-finding")!.outerHTML = response.html ?? "";
    this.answer.dataset["stage"] = response.stage;
    this.answer.dataset["final"] = String(response.final);
    this.sight.show(response.sight ?? "");
    if (response.final) {
      this.tools.offerAskBack(response);
      this.offerEffects();
      this.sayVerdict();
    }
  }

  /** Replace the answer, never the form; opened details stay open. */
  private replaceAnswer(html: string): void {
    const title = (details: Element): string =>
      details.querySelector("summary")?.firstChild?.textContent ?? "";
    const open = new Set([...this.answer.querySelectorAll("details[open]")].map(title));
    const focused = this.answer.contains(document.activeElement) && !this.tools.hasFocus;
    this.tools.keepThrough(this.answer, () => {
      this.answer.innerHTML = html;
    });
    for (const details of this.answer.querySelectorAll("details")) {
      if (open.has(title(details))) details.open = true;
    }
    if (focused) this.answer.focus({ preventScroll: true });
  }

  private showOdds(html: string): void {
    const place = this.answer.querySelector<HTMLElement>(".ys-odds");
    if (!place || !html) return;
    place.innerHTML = html;
    place.hidden = false;
  }

  /** What errors of measuring do is worked out when somebody opens it. */
  private offerEffects(): void {
    const effects = this.answer.querySelector<HTMLDetailsElement>(".ys-effects");
    if (!effects) return;
    effects.hidden = false;
    effects.addEventListener("toggle", () => {
      if (effects.open && !effects.querySelector("div")?.childElementCount) this.asking.effects();
    });
  }

  /** The verdict as it is said aloud: its sentences apart, without the numbers of the notes. */
  private verdict(): string {
    const parts = this.answer.querySelectorAll(".ys-finding-word, .ys-lead, .ys-why");
    return [...parts].map(spoken).join(" ");
  }

  /** Once for each change: a first look's follows with the whole answer, a half-typed number has none. */
  private sayVerdict(): void {
    const isWhole = this.asking.answered === this.asking.asked && !this.isFirstLook;
    if (isWhole && !this.asking.isTyping && !this.standing.isStale) this.announce(this.verdict());
  }

  private announce(text: string): void {
    if (this.status.textContent !== text) this.status.textContent = text;
  }

  private showProgress(progress: Progress): void {
    this.section.dataset["engine"] = progress.state;
    showProgress(this.progress, progress, this.engine);
    if (this.asking.answered < this.asking.asked && this.standing.isStale) this.showWaiting();
    const passing = this.answer.querySelector(".ys-passing");
    if (passing && progress.state === "failed") passing.textContent = UNSEARCHED;
  }

  // --- the address ------------------------------------------------------------------------------

  /** Take the inputs from the address; false when it holds none. */
  private takeLink(): boolean {
    if (window.location.hash.length > LONGEST_LINK) {
      this.notice.say(TOO_LONG);
      return false;
    }
    return this.take(readLink(window.location.hash));
  }

  private take(state: LinkState | null): boolean {
    if (!state) return false;
    this.notice.say("");
    fillIn(state, this.form, this.address, (text) => this.notice.say(text));
    this.form.mark();
    this.showState();
    return true;
  }

  private writeAddress(): void {
    const fragment = this.address.fragment();
    if (!this.linked) {
      keepTyped(this.name, fragment);
      return;
    }
    // The theme changes the address of the next page before it puts the page in place.
    if (window.location.pathname !== this.path) return;
    const url = new URL(window.location.href);
    url.hash = fragment;
    history.replaceState(history.state, "", url.href);
  }

  // --- what is tapped ---------------------------------------------------------------------------

  private follow(event: Event): void {
    const target = event.target as Element;
    const remedy = target.closest<HTMLAnchorElement>("a.ys-try");
    const note = target.closest<HTMLAnchorElement>("a.ys-note-mark");
    if (!remedy && !note) return;
    event.preventDefault();
    event.stopPropagation();
    if (remedy) this.tryOut(remedy);
    else if (note) this.showNote(note);
  }

  /** A remedy sets the fields that it names and keeps the others; that can be undone. */
  private tryOut(link: HTMLAnchorElement): void {
    const inputs = new URLSearchParams(link.hash.slice(1));
    const before = this.form.hold();
    this.form.keepAll();
    const said: string[] = [];
    for (const [name, value] of inputs) {
      const control = this.form.controls.get(name);
      if (!control) continue;
      this.form.set(name, value);
      const shown = control instanceof HTMLSelectElement ? control.selectedOptions[0]?.label : value;
      said.push(`${this.form.labelOf(control)}: ${shown ?? ""}`);
    }
    this.settled();
    const done = `Tried: ${said.join(", ")}.`;
    this.notice.offerUndo(done, () => this.change(() => this.form.restore(before)));
    this.announce(done);
  }

  /** A note's number leads to the note, which lies folded. */
  private showNote(mark: HTMLAnchorElement): void {
    const note = document.getElementById(mark.hash.slice(1));
    note?.closest("details")?.setAttribute("open", "");
    note?.focus();
  }

  // --- what leaves the page ---------------------------------------------------------------------

  /** The replies to what the form holds now. */
  private async replies(): Promise<Response | undefined> {
    // A question gives way to the page's own next one; what is to be copied is asked for again.
    for (let turn = 0; turn < TURNS; turn += 1) {
      const request = this.request("replies");
      const response = await this.engine.ask(request);
      if (!response) continue;
      if (response.ok) return response;
      this.show(response, request);
      this.standing.say();
      return undefined;
    }
    return undefined;
  }

  private chooseUnits(units: Units): void {
    storeUnits(units);
    this.form.showIn(units);
    this.settled();
  }
}
