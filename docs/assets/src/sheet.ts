/** One worksheet on a page: its form, its answer, and the talk with Python in between. */

import { LEAVING } from "./build";
import { copyText, make } from "./dom";
import { pageAddress } from "./embed";
import type { Engine, Progress } from "./engine";
import { type LinkState, LONGEST_LINK, readLink, writeLink } from "./link";
import { type Control, type Machine, type Part, listed, partsOf, siteLists, textFor } from "./machines";
import { INPUTS_EVENT } from "./picker";
import type { Row } from "./print";
import { Paper } from "./print";
import type { Request, Response, Stage, Units } from "./protocol";
import { copyRich, sendable, sender } from "./replies";
import { showProgress } from "./trouble";
import { keepTyped, keptTyped } from "./typed";

/** Within a burst of changes an answer waits for this pause; the first of a burst does not. */
const TYPING_PAUSE = 120;
/** An answer that takes longer is said to be on its way [ms]. */
const LATE = 400;
/** A half-typed value is not an error yet: its sentence waits for a longer pause. */
const ERROR_PAUSE = 900;
const UNSEARCHED = "A first look at the middle values; the ranges could not be searched.";
const UNITS_KEY = "yardstick.units";
/** The field of the road pages that says whose rules apply. */
const REGION_FIELD = "place";
const OFF_ROAD = "none";

/** The units in which this site's pages are written. */
function siteUnits(): Units {
  return siteLists().shop?.units ?? "us";
}

export function storedUnits(): Units {
  try {
    const kept = localStorage.getItem(UNITS_KEY);
    if (kept === "metric" || kept === "us") return kept;
  } catch {
    // Without storage there is only the site's own choice.
  }
  return siteUnits();
}

function defaultText(control: Control): string {
  if (control instanceof HTMLSelectElement) {
    const options = [...control.options];
    return (options.find((option) => option.defaultSelected) ?? options[0])?.value ?? "";
  }
  return control.defaultValue;
}

export class Sheet {
  private readonly name: string;
  private readonly form: HTMLFormElement;
  private readonly answer: HTMLElement;
  private readonly status: HTMLElement;
  private readonly tools: HTMLElement;
  private readonly notice = make("div", { class: "ys-notice", hidden: "" });
  private readonly summary = make("div", { class: "ys-summary", hidden: "" });
  /** The last turn that Python has answered. */
  private answered = 0;
  private readonly stale = make("p", { class: "ys-stale", hidden: "" });
  private readonly progress = make("div", { class: "ys-progress", hidden: "" });
  private readonly controls = new Map<string, Control>();
  private readonly defaults: Record<string, string> = {};
  private units: Units = storedUnits();
  private last: Response | undefined;
  /** What the last answer is the answer to. */
  private lastAsked = "";
  private readonly root: string;
  private readonly parts: readonly Part[];
  private readonly paper: Paper;
  private typing = 0;
  private changedAt = -TYPING_PAUSE;
  private erring = 0;
  private asked = 0;
  private readonly stop = new AbortController();
  private readonly unwatch: () => void;

  /** `linked` is true for the worksheet that the inputs in the address belong to. */
  constructor(
    private readonly section: HTMLElement,
    private readonly engine: Engine,
    private readonly linked: boolean,
  ) {
    this.name = section.dataset["worksheet"] ?? "";
    this.form = section.querySelector<HTMLFormElement>(".ys-form")!;
    this.answer = section.querySelector<HTMLElement>(".ys-answer")!;
    this.status = section.querySelector<HTMLElement>(".ys-status")!;
    this.tools = section.querySelector<HTMLElement>(".ys-tools")!;
    for (const element of this.form.elements) {
      const control = element as Control;
      if (!control.name) continue;
      this.controls.set(control.name, control);
      this.defaults[control.name] = defaultText(control);
    }
    this.root = new URL("..", engine.base).href;
    this.parts = partsOf(this.form);
    this.paper = new Paper(
      this.answer,
      () => this.paperRows(),
      () => sendable(this.address(), this.root),
    );
    this.answer.tabIndex = -1;
    this.answer.before(this.progress, this.notice, this.summary, this.stale);
    this.buildTools();
    this.listen();
    this.unwatch = engine.watch((progress) => this.showProgress(progress));
    section.dataset["live"] = "";
    const fromLink = this.linked ? this.takeLink() : this.takeTyped();
    if (!fromLink) this.takeRegion();
    if (fromLink || this.units !== siteUnits() || this.changed()) this.compute();
  }

  /** Let go of the page: its listeners end, and late answers are dropped. */
  release(): void {
    this.asked += 1;
    window.clearTimeout(this.typing);
    window.clearTimeout(this.erring);
    this.stop.abort();
    this.unwatch();
  }

  private inputs(): Record<string, string> {
    const inputs: Record<string, string> = {};
    for (const [name, control] of this.controls) inputs[name] = control.value;
    return inputs;
  }

  private changed(): boolean {
    return Object.entries(this.inputs()).some(([name, value]) => value !== this.defaults[name]);
  }

  private listen(): void {
    const signal = this.stop.signal;
    this.form.addEventListener("submit", (event) => event.preventDefault(), { signal });
    this.form.addEventListener("focusin", () => this.engine.start(), { signal });
    this.form.addEventListener("input", () => this.later(), { signal });
    this.form.addEventListener("change", () => this.later(), { signal });
    this.form.addEventListener("focusout", () => this.last?.ok === false && this.showErrors(), {
      signal,
    });
    this.section.addEventListener("click", (event) => this.follow(event), { signal });
    window.addEventListener("beforeprint", () => this.paper.prepare(), { signal });
    window.addEventListener("afterprint", () => this.paper.clear(), { signal });
    for (const event of ["pagehide", LEAVING]) {
      window.addEventListener(event, () => this.typing && this.writeAddress(), { signal });
    }
    if (this.linked) {
      window.addEventListener("hashchange", () => this.takeLink() && this.compute(), { signal });
    }
  }

  private later(): void {
    window.clearTimeout(this.typing);
    window.clearTimeout(this.erring);
    const burst = performance.now() - this.changedAt < TYPING_PAUSE;
    this.changedAt = performance.now();
    if (!burst) this.compute();
    this.typing = window.setTimeout(() => {
      this.typing = 0;
      this.writeAddress();
      if (burst) this.compute();
    }, TYPING_PAUSE);
  }

  /** A search through ranges takes long, so it starts only when the typing pauses. */
  private async pause(): Promise<void> {
    const left = this.changedAt + TYPING_PAUSE - performance.now();
    if (left > 0) await new Promise((resolve) => window.setTimeout(resolve, left));
  }

  private request(stage: Stage): Request {
    const { name: worksheet, units } = this;
    const link = sendable(this.address(), this.root);
    const short_link = sendable(this.shortAddress(), this.root);
    const about = this.machines().map(({ label, value }) => `${label}: ${value}.`);
    const replies = { link, short_link, about: about.join(" "), sender: sender() };
    return { worksheet, inputs: this.inputs(), units, stage, ...replies };
  }

  private compute(): void {
    this.form.dispatchEvent(new CustomEvent(INPUTS_EVENT));
    this.asked += 1;
    const turn = this.asked;
    window.setTimeout(() => this.answered < turn && this.showWaiting(), this.answered ? LATE : 0);
    void this.askStage(turn, "exact");
  }

  /** The answer on the page isn't for the inputs beside it, and nobody may take or print it so. */
  private showWaiting(): void {
    const whose = this.answered ? "the numbers before" : "the example";
    const failed = this.section.dataset["engine"] === "failed";
    const yours = failed ? "Your numbers have no answer." : "Your numbers are being worked out.";
    this.markStale(`${yours} What stands below is for ${whose}.`);
  }

  private markStale(text: string): void {
    this.stale.textContent = text;
    this.stale.hidden = false;
    this.answer.dataset["stale"] = "";
  }

  private async askStage(turn: number, stage: Stage): Promise<void> {
    const request = this.request(stage);
    const response = await this.engine.ask(request);
    if (!response || turn !== this.asked) return;
    this.answered = turn;
    this.lastAsked = JSON.stringify({ ...request, stage: "full" });
    this.show(response);
    if (!response.ok || response.final) return;
    await this.pause();
    if (turn === this.asked) await this.askStage(turn, "full");
  }

  private show(response: Response): void {
    this.last = response;
    for (const [name, text] of Object.entries(response.hints)) this.showHint(name, text);
    if (response.ok) {
      this.clearErrors();
      this.showAnswer(response);
      return;
    }
    const editing = (document.activeElement as Control | null)?.name ?? "";
    window.clearTimeout(this.erring);
    const wait = editing in response.errors ? ERROR_PAUSE : 0;
    this.erring = window.setTimeout(() => this.showErrors(), wait);
  }

  private showHint(name: string, text: string): void {
    const control = this.controls.get(name);
    if (control && "placeholder" in control) control.placeholder = text;
    const typical = this.fieldOf(name)?.querySelector(".ys-typical");
    if (typical) typical.textContent = text;
  }

  private fieldOf(name: string): HTMLElement | null {
    return this.form.querySelector<HTMLElement>(`.ys-field[data-field="${CSS.escape(name)}"]`);
  }

  /** Replace the answer, never the form; opened details stay open. */
  private showAnswer(response: Response): void {
    const open = new Set(
      [...this.answer.querySelectorAll("details[open] > summary")].map((each) => each.textContent ?? ""),
    );
    const focused = this.answer.contains(document.activeElement);
    this.answer.innerHTML = response.html ?? "";
    for (const details of this.answer.querySelectorAll("details")) {
      if (open.has(details.querySelector("summary")?.textContent ?? "")) details.open = true;
    }
    if (focused) this.answer.focus({ preventScroll: true });
    this.answer.dataset["stage"] = response.stage;
    this.answer.dataset["final"] = String(response.final);
    const finding = this.answer.querySelector(".ys-finding")?.textContent ?? "";
    this.announce(finding.replace(/\s+/g, " ").trim());
  }

  private announce(text: string): void {
    if (this.status.textContent !== text) this.status.textContent = text;
  }

  private showErrors(): void {
    const response = this.last;
    if (!response || response.ok) return;
    window.clearTimeout(this.erring);
    const items: HTMLElement[] = [];
    for (const [name, control] of this.controls) {
      const sentence = response.errors[name];
      this.markField(name, control, sentence);
      if (!sentence) continue;
      const link = make("a", { href: `#${control.id}` }, `${this.labelOf(control)}: ${sentence}`);
      link.addEventListener("click", (event) => {
        event.preventDefault();
        control.closest("details")?.setAttribute("open", "");
        control.focus();
      });
      items.push(make("li", {}, link));
    }
    for (const [name, sentence] of Object.entries(response.errors)) {
      if (!this.controls.has(name)) items.push(make("li", {}, sentence));
    }
    const heading = items.length === 1 ? "One thing to put right" : "Some things to put right";
    const fresh = make(
      "div",
      {},
      make("p", { class: "ys-summary-title" }, heading),
      make("ul", {}, ...items),
    );
    // The same list stays as it is: someone may be about to follow one of its links.
    if (this.summary.textContent !== fresh.textContent) {
      this.summary.replaceChildren(...fresh.childNodes);
    }
    this.summary.hidden = false;
    this.markStale("This answer is for the last inputs that could be read.");
    this.announce(`${heading}. ${items.map((item) => item.textContent).join(" ")}`);
  }

  private labelOf(control: Control): string {
    return control.labels?.[0]?.textContent?.trim() ?? control.name;
  }

  private markField(name: string, control: Control, sentence: string | undefined): void {
    const place = this.fieldOf(name)?.querySelector<HTMLElement>(".ys-error");
    if (place) {
      place.textContent = sentence ?? "";
      place.hidden = !sentence;
    }
    if (sentence) control.setAttribute("aria-invalid", "true");
    else control.removeAttribute("aria-invalid");
    const described = (control.getAttribute("aria-describedby") ?? "").split(" ").filter(Boolean);
    const others = described.filter((id) => id !== place?.id);
    if (sentence && place) others.push(place.id);
    control.setAttribute("aria-describedby", others.join(" "));
  }

  private clearErrors(): void {
    window.clearTimeout(this.erring);
    for (const [name, control] of this.controls) {
      if (control.hasAttribute("aria-invalid")) this.markField(name, control, undefined);
    }
    this.summary.hidden = true;
    this.stale.hidden = true;
    delete this.answer.dataset["stale"];
  }

  private showProgress(progress: Progress): void {
    this.section.dataset["engine"] = progress.state;
    showProgress(this.progress, progress, this.engine);
    if (this.answered < this.asked && !this.stale.hidden) this.showWaiting();
    const passing = this.answer.querySelector(".ys-passing");
    if (passing && progress.state === "failed") passing.textContent = UNSEARCHED;
  }

  /** Take the inputs from the address; false when it holds none. */
  private takeLink(): boolean {
    if (window.location.hash.length > LONGEST_LINK) {
      this.say(
        "The link that opened this page is too long to be one of ours (over 100,000 characters), " +
          "so nothing was taken from it. The form shows the example.",
      );
      return false;
    }
    return this.take(readLink(window.location.hash));
  }

  /** Take what was typed here before the page was loaded anew; false when that was nothing. */
  private takeTyped(): boolean {
    return this.take(readLink(keptTyped(this.name)));
  }

  private take(state: LinkState | null): boolean {
    if (!state) return false;
    this.say("");
    const inputs = this.nameless(state.inputs);
    for (const [name, control] of this.controls) {
      this.setControl(control, inputs[name] ?? (state.whole ? "" : (this.defaults[name] ?? "")));
    }
    const strangers = Object.keys(inputs).filter((name) => !this.controls.has(name));
    if (strangers.length) {
      const names = strangers.slice(0, 12).map((name) => `“${name.slice(0, 60)}”`);
      this.say(
        `The link also sets ${names.join(", ")}${strangers.length > 12 ? " and more" : ""}, ` +
          "which this page does not know. That part was left out; everything else was taken.",
      );
    }
    if (state.units) this.showUnits(state.units);
    return true;
  }

  /** Where the site is a dealer's, the road pages open with the roads of that dealer's region. */
  private takeRegion(): void {
    const control = this.controls.get(REGION_FIELD);
    const region = siteLists().shop?.region;
    if (!(control instanceof HTMLSelectElement) || !region || control.value === OFF_ROAD) return;
    if ([...control.options].some((option) => option.value === region)) control.value = region;
  }

  private setControl(control: Control, value: string): void {
    if (control.value === value) return;
    control.value = value;
    if (control.value !== value && control instanceof HTMLSelectElement) {
      this.say(
        `The link sets “${this.labelOf(control)}” to “${value.slice(0, 60)}”, which is not one of ` +
          "the choices here. The example's choice was kept.",
      );
      control.value = this.defaults[control.name] ?? "";
    }
    // What a link sets must be seen, also behind one more step.
    if (control.value !== this.defaults[control.name]) {
      control.closest("details")?.setAttribute("open", "");
    }
  }

  private say(text: string): void {
    const previous = text && this.notice.textContent ? `${this.notice.textContent} ` : "";
    this.notice.textContent = previous + text;
    this.notice.hidden = !text;
  }

  /** The address that opens this page with these inputs. */
  private address(): string {
    const url = pageAddress();
    url.hash = writeLink(this.inputs(), this.defaults, this.units);
    return url.href;
  }

  /**
   * The shortest address: it names the machines of the site's own lists that are filled in,
   * instead of every number of theirs. It leads to what those lists say on the day it is opened.
   */
  private shortAddress(): string {
    const inputs = this.inputs();
    for (const { role, absent } of this.parts) {
      const same = (machine: Machine): boolean =>
        Object.entries(absent).every(([name, text]) => {
          const control = this.controls.get(name);
          return !control || control.value === textFor(machine, control, text);
        });
      const machine = listed(role).find(same);
      if (!machine) continue;
      for (const name of Object.keys(absent)) delete inputs[name];
      inputs[role] = machine.name;
    }
    const url = pageAddress();
    url.hash = writeLink(inputs, this.defaults, this.units);
    const whole = this.address();
    return url.href.length < whole.length ? url.href : whole;
  }

  /** Put the fields of the machines that a short link names in their names' place. */
  private nameless(inputs: Record<string, string>): Record<string, string> {
    const found: Record<string, string> = { ...inputs };
    for (const { role, absent } of this.parts) {
      const name = found[role];
      if (name === undefined) continue;
      delete found[role];
      const machine = listed(role).find((each) => each.name === name);
      if (!machine) {
        this.say(
          `The link names the ${role} “${name.slice(0, 80)}”, which this site no longer lists. ` +
            "Its numbers are left blank: ask whoever sent the link for them.",
        );
      }
      for (const [field, text] of Object.entries(absent)) {
        const control = this.controls.get(field);
        if (control) found[field] ??= textFor(machine ?? { name, role, inputs: {} }, control, text);
      }
    }
    return found;
  }

  private writeAddress(): void {
    if (!this.linked) {
      keepTyped(this.name, writeLink(this.inputs(), this.defaults, this.units));
      return;
    }
    const url = new URL(window.location.href);
    url.hash = new URL(this.address()).hash;
    history.replaceState(history.state, "", url.href);
  }

  /** A remedy's link sets the fields that it names and keeps the others. */
  private follow(event: Event): void {
    const link = (event.target as Element).closest<HTMLAnchorElement>("a.ys-try");
    const state = link && readLink(link.hash);
    if (!state) return;
    event.preventDefault();
    event.stopPropagation();
    const names: string[] = [];
    for (const [name, value] of Object.entries(state.inputs)) {
      const control = this.controls.get(name);
      if (!control) continue;
      control.value = value;
      control.closest("details")?.setAttribute("open", "");
      names.push(`${this.labelOf(control)}: ${value}`);
    }
    this.writeAddress();
    this.compute();
    this.announce(`Set ${names.join(", ")}.`);
  }

  private button(label: string, action: (button: HTMLButtonElement) => void): HTMLButtonElement {
    const button = make("button", { type: "button", class: "ys-button" }, label);
    button.addEventListener("click", () => action(button));
    return button;
  }

  private buildTools(): void {
    const units = make("div", { class: "ys-units", role: "group", "aria-label": "Units shown" });
    for (const [value, label] of [
      ["us", "US"],
      ["metric", "Metric"],
    ] as const) {
      const button = this.button(label, () => this.chooseUnits(value));
      button.dataset["units"] = value;
      units.append(button);
    }
    this.tools.replaceChildren(
      this.button("Copy link", (button) => void this.copyLink(button)),
      this.button("Copy reply", (button) => void this.copyReply(button)),
      this.button("Copy short text", (button) => void this.copyShort(button)),
      this.button("Print", () => window.print()),
      this.button("Clear all fields", () => this.fill(() => "")),
      this.button("Show the example", () => this.fill((name) => this.defaults[name] ?? "")),
      units,
    );
    this.showUnits(this.units);
  }

  private async copyLink(button: HTMLButtonElement): Promise<void> {
    const link = sendable(this.address(), this.root) || this.address();
    if (await copyText(link, this.tools)) this.copied(button, "Link copied.");
  }

  private copied(button: HTMLButtonElement, done: string): void {
    this.announce(done);
    button.dataset["label"] ??= button.textContent ?? "";
    button.textContent = done.replace(/\.$/, "");
    window.setTimeout(() => (button.textContent = button.dataset["label"] ?? ""), 1500);
  }

  /** The replies to what the form holds now, computed unless the last answer is for just that. */
  private async replies(): Promise<Response | undefined> {
    const request = this.request("full");
    if (this.last?.reply && this.lastAsked === JSON.stringify(request)) return this.last;
    const response = (await this.engine.ask(request)) ?? undefined;
    if (response && !response.ok) {
      this.show(response);
      this.showErrors();
    }
    return response?.ok ? response : undefined;
  }

  private async copyReply(button: HTMLButtonElement): Promise<void> {
    const response = await this.replies();
    if (!response?.reply) return;
    const copied = await copyRich(response.reply_html ?? "", response.reply, this.tools);
    if (copied) this.copied(button, "Reply copied.");
  }

  private async copyShort(button: HTMLButtonElement): Promise<void> {
    const response = await this.replies();
    if (!response?.short || !(await copyText(response.short, this.tools))) return;
    const whole = response.short_has_link || !sendable(this.address(), this.root);
    this.copied(
      button,
      whole ? "Short text copied." : "Copied without the link, which is too long for a message.",
    );
  }

  /** The machines that the form describes, by the names that the lists on top of it give them. */
  private machines(): Row[] {
    const lists = this.form.querySelectorAll<HTMLSelectElement>(".ys-pick > select");
    return [...lists].flatMap((list) => {
      const value = list.value && list.selectedOptions[0]?.label;
      return value ? [{ label: this.labelOf(list), value, standIn: "" }] : [];
    });
  }

  private paperRows(): Row[] {
    const fields = [...this.controls.values()].map((control) => {
      const choice = control instanceof HTMLSelectElement;
      const value = choice ? (control.selectedOptions[0]?.label ?? "") : control.value.trim();
      // An empty field shows the range that stands in for it, if one does.
      const standIn = !choice && "standsIn" in control.dataset ? control.placeholder : "";
      return { label: this.labelOf(control), value, standIn };
    });
    return [...this.machines(), ...fields];
  }

  private fill(text: (name: string) => string): void {
    for (const [name, control] of this.controls) control.value = text(name);
    this.writeAddress();
    this.compute();
  }

  private chooseUnits(units: Units): void {
    try {
      localStorage.setItem(UNITS_KEY, units);
    } catch {
      // Without storage the choice holds for this page alone.
    }
    this.showUnits(units);
    this.writeAddress();
    this.compute();
  }

  private showUnits(units: Units): void {
    this.units = units;
    for (const button of this.tools.querySelectorAll<HTMLElement>("[data-units]")) {
      button.setAttribute("aria-pressed", String(button.dataset["units"] === units));
    }
  }
}
