/**
 * The questions of a shop's round-up. Each has its answer from the build, and becomes live when
 * somebody opens its numbers: one Python serves them all, and it starts with the first.
 */

import { Asking, LATE } from "./asking";
import { make } from "./dom";
import type { Engine } from "./engine";
import { Errors, type Fields } from "./errors";
import { NO_LINK, readLink, writeLink } from "./link";
import type { Control } from "./machines";
import type { Request, Response, Stage } from "./protocol";
import { labelOf, rowOf, toggleHelp } from "./rows";
import { Standing } from "./standing";
import { showProgress } from "./trouble";
import { keepTyped, keptTyped } from "./typed";
import { siteUnits, storedUnits, withUnit } from "./units";

const WAITING = "Your numbers are being worked out. What stands below is for the numbers before.";
const UNREAD = "This answer is for the last numbers that could be read.";

class Entry implements Fields {
  readonly controls = new Map<string, Control>();
  private readonly id: string;
  private readonly form: HTMLFormElement;
  private readonly answer: HTMLElement;
  private readonly built: string;
  private readonly details: HTMLDetailsElement;
  private readonly progress = make("div", { class: "ys-progress", hidden: "" });
  private readonly status = make("div", { class: "ys-status", role: "status" });
  private readonly standing: Standing;
  private readonly asking: Asking;
  private readonly stop = new AbortController();
  private isExample: boolean;
  private unwatch = (): void => undefined;
  private isLive = false;

  constructor(
    private readonly section: HTMLElement,
    private readonly engine: Engine,
  ) {
    const find = <T extends HTMLElement>(part: string): T => section.querySelector<T>(part)!;
    this.id = find("h2").id;
    this.form = find<HTMLFormElement>("form");
    this.answer = find(".ys-entry-answer");
    this.built = this.answer.innerHTML;
    this.details = find<HTMLDetailsElement>(".ys-entry-numbers");
    this.isExample = "example" in section.dataset;
    for (const element of this.form.elements) {
      const control = element as Control;
      if (control.name) this.controls.set(control.name, control);
    }
    const errors = new Errors(this);
    this.standing = new Standing(this.answer, errors, UNREAD, (text) => {
      this.status.textContent = text;
    });
    this.asking = new Asking(
      engine,
      (stage) => this.request(stage),
      (response) => this.show(response),
      () => this.settle(),
    );
    this.answer.before(this.progress, this.standing.line, this.status);
    this.form.before(errors.summary);
    this.form.append(this.buildTools());
    this.listen();
    this.takeKept();
  }

  release(): void {
    this.asking.stop();
    this.stop.abort();
    this.unwatch();
    this.standing.stop();
  }

  labelOf(control: Control): string {
    return labelOf(control);
  }

  rowOf(name: string): HTMLElement | null {
    return rowOf(this.form, name);
  }

  reveal(): void {
    this.details.open = true;
  }

  private listen(): void {
    const { signal } = this.stop;
    this.details.addEventListener("toggle", () => this.details.open && this.wake(), { signal });
    for (const kind of ["input", "change"]) {
      this.form.addEventListener(kind, (event) => this.edited((event.target as Control).name), { signal });
    }
    this.form.addEventListener("submit", (event) => event.preventDefault(), { signal });
    this.form.addEventListener("click", toggleHelp, { signal });
  }

  private buildTools(): HTMLElement {
    const add = (label: string, action: () => void): HTMLElement => {
      const button = make("button", { type: "button", class: "ys-button" }, label);
      button.addEventListener("click", action);
      return button;
    };
    const clear = add("Clear them all", () => {
      for (const control of this.controls.values()) control.value = "";
      this.edited("");
      this.controls.values().next().value?.focus();
    });
    return make("div", { class: "ys-reply-tools" }, clear, add("As it was", () => this.restore()));
  }

  /** The first opening starts Python; the answer stays as it was built until a number changes. */
  private wake(): void {
    if (this.isLive) return;
    this.isLive = true;
    this.engine.start();
    this.unwatch = this.engine.watch((progress) => showProgress(this.progress, progress, this.engine));
    if (storedUnits() !== siteUnits()) this.compute();
  }

  private given(): Record<string, string> {
    const filled = [...this.controls].filter(([, control]) => control.value.trim());
    return this.isExample ? {} : Object.fromEntries(filled.map(([name, control]) => [name, withUnit(control, storedUnits())]));
  }

  private request(stage: Stage): Request {
    return {
      worksheet: this.section.dataset["worksheet"] ?? "",
      inputs: this.given(),
      example: this.isExample,
      ask: this.section.dataset["ask"] ?? "",
      units: storedUnits(),
      stage,
      entry: this.id,
    };
  }

  /** The first number of somebody's own ends the example: nothing of it stands beside that. */
  private edited(name: string): void {
    if (this.isExample) {
      this.isExample = false;
      for (const [other, control] of this.controls) if (other !== name) control.value = "";
    }
    this.wake();
    this.section.dataset["changed"] = "";
    const turn = this.asking.asked + 1;
    window.setTimeout(() => this.asking.answered < turn && this.standing.mark(WAITING), LATE);
    this.asking.changed();
  }

  private compute(): void {
    this.asking.compute();
  }

  private show(response: Response): void {
    for (const [name, text] of Object.entries(response.hints)) {
      const control = this.controls.get(name);
      if (control && "placeholder" in control) control.placeholder = text;
    }
    if (!response.ok) {
      this.standing.refuse(response.errors);
      return;
    }
    this.fresh(response.html ?? "");
    this.answer.dataset["final"] = String(response.final);
    if (response.final) this.status.textContent = this.answer.querySelector(".ys-lead")?.textContent ?? "";
  }

  /** Put an answer in place that is for what the form holds. */
  private fresh(html: string): void {
    this.standing.clear();
    this.answer.innerHTML = html;
  }

  /** As the shop has it. */
  private restore(): void {
    this.asking.stop();
    this.form.reset();
    this.isExample = "example" in this.section.dataset;
    delete this.section.dataset["changed"];
    this.asking.answered = this.asking.asked;
    this.fresh(this.built);
    this.settle();
    if (storedUnits() !== siteUnits()) this.compute();
  }

  private fragment(): string {
    const { ask = "", sheet = "" } = this.section.dataset;
    const units = storedUnits();
    return writeLink({ ...NO_LINK, ask, sheet, units, example: this.isExample, inputs: this.given() });
  }

  /** The page that the question belongs to opens with the same numbers. */
  private settle(): void {
    const fragment = this.fragment();
    const link = this.section.querySelector<HTMLAnchorElement>(".ys-entry-page")!;
    link.hash = fragment;
    keepTyped(this.id, "changed" in this.section.dataset ? fragment : "");
  }

  /** What was typed before the page was loaded anew. */
  private takeKept(): void {
    const kept = readLink(keptTyped(this.id));
    if (!kept) return;
    this.isExample = false;
    for (const [name, control] of this.controls) control.value = kept.inputs[name] ?? "";
    this.section.dataset["changed"] = "";
    this.details.open = true;
    this.wake();
    this.settle();
    this.compute();
  }
}

/** Every question of a round-up's page. */
export class Entries {
  private readonly all: Entry[];

  constructor(sections: Iterable<HTMLElement>, engine: Engine) {
    this.all = [...sections].map((section) => new Entry(section, engine));
  }

  release(): void {
    for (const entry of this.all) entry.release();
  }
}
