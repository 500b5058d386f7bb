/** The form of a worksheet: whose numbers stand in it, which question it asks, and its marks. */

import { Chosen } from "./chosen";
import { make } from "./dom";
import { type Control, siteLists } from "./machines";
import type { Units } from "./protocol";
import { labelOf, rowOf, toggleHelp } from "./rows";
import { storedUnits, unitsOf, withUnit } from "./units";

/** Said by a worksheet whenever its inputs have changed, by whatever hand. */
export const INPUTS_EVENT = "ys-inputs";
/** Said to a form before somebody's machine is put into it. */
export const OWN_EVENT = "ys-own";
/** The field of the road pages that says whose rules apply. */
const REGION_FIELD = "place";
const OFF_ROAD = "none";

/** A question that a worksheet answers, and the fields that matter for it. */
export interface Ask {
  key: string;
  question: string;
  fields: string[];
}

/** What a form held, to come back to. */
export interface Held {
  values: Record<string, string>;
  example: Record<string, string> | null;
}

function valueAtStart(control: Control): string {
  if (control instanceof HTMLSelectElement) {
    const options = [...control.options];
    return (options.find((option) => option.defaultSelected) ?? options[0])?.value ?? "";
  }
  return control.defaultValue;
}

export class Form {
  readonly controls = new Map<string, Control>();
  ask: Ask;
  /** The page's own example. */
  private readonly pages: Record<string, string> = {};
  /** The example that is shown, the page's or a question's, none of it changed; null where none is. */
  private shown: Record<string, string> | null = this.pages;
  /** Every row in its place when no question is asked. */
  private readonly rows: HTMLElement[];
  private readonly asked: HTMLElement;
  private readonly more: HTMLDetailsElement;
  private readonly chooser = make("select", { "aria-label": "What do you want to know?" });

  constructor(
    readonly element: HTMLFormElement,
    readonly asks: readonly Ask[],
    private readonly onAsk: () => void,
    signal: AbortSignal,
  ) {
    for (const each of element.elements) {
      const control = each as Control;
      if (!control.name) continue;
      this.controls.set(control.name, control);
      this.pages[control.name] = valueAtStart(control);
    }
    this.units = storedUnits();
    this.rows = [...element.querySelectorAll<HTMLElement>(".ys-row")];
    this.asked = element.querySelector<HTMLElement>(".ys-asked")!;
    this.more = element.querySelector<HTMLDetailsElement>(".ys-more")!;
    this.ask = asks[0] ?? { key: "", question: "", fields: [] };
    this.buildChooser(signal);
    // What an edit means is settled before anybody else hears of it.
    for (const kind of ["input", "change"]) {
      element.addEventListener(kind, (event) => this.edited(event.target), { signal, capture: true });
    }
    element.addEventListener(OWN_EVENT, () => this.startOwn(), { signal });
    element.addEventListener("click", toggleHelp, { signal });
    element.addEventListener("submit", (event) => event.preventDefault(), { signal });
    new Chosen(element, ["input", "change", INPUTS_EVENT], signal);
    this.takeRegion();
  }

  get isExample(): boolean {
    return this.shown !== null;
  }

  /** The example that is shown: true for the page's own, false where none is. */
  get example(): boolean | Record<string, string> {
    return this.shown === this.pages || (this.shown ?? false);
  }

  /** The inputs that somebody gave: none of the example's, and no blanks. */
  given(): Record<string, string> {
    const inputs: Record<string, string> = {};
    for (const [name, control] of this.controls) {
      const isShown = this.shown !== null && control.value === (this.shown[name] ?? "");
      if (control.value.trim() && !isShown) inputs[name] = withUnit(control, this.units);
    }
    return inputs;
  }

  /** The units of numbers that stand without one. */
  get units(): Units {
    return unitsOf(this.element);
  }

  set units(units: Units) {
    this.element.dataset["units"] = units;
  }

  /** Show other units from here on; what was typed without one keeps the one that it was typed in. */
  showIn(units: Units): void {
    for (const control of this.controls.values()) {
      if (control instanceof HTMLInputElement) control.value = withUnit(control, this.units);
    }
    this.units = units;
  }

  hold(): Held {
    const values: Record<string, string> = {};
    for (const [name, control] of this.controls) values[name] = control.value;
    return { values, example: this.shown };
  }

  restore(held: Held): void {
    this.shown = held.example;
    this.fill(held.values);
    this.mark();
  }

  /** Show the page's example, and nothing of anybody else's. */
  showExample(): void {
    this.shown = this.pages;
    this.fill(this.pages);
    this.takeRegion();
    this.mark();
  }

  /** The numbers are somebody's own from here on: of an example only what was given and `kept` stay. */
  startOwn(kept: string[] = []): void {
    if (!this.isExample) return;
    const own = [...Object.keys(this.given()), ...kept];
    this.shown = null;
    for (const [name, control] of this.controls) {
      if (!own.includes(name)) control.value = "";
    }
    if (!own.includes(REGION_FIELD)) this.takeRegion();
    this.mark();
  }

  clear(): void {
    this.shown = null;
    this.fill({});
    this.takeRegion();
    this.mark();
  }

  /**
   * Hold just what a link says: no number of the page's example, and no region of the dealer's.
   * Those named in `examples` are nobody's, and go with the first that somebody gives.
   */
  take(inputs: Readonly<Record<string, string>>, examples: readonly string[] = []): string[] {
    this.shown = null;
    this.fill({});
    const refused = Object.entries(inputs).flatMap(([name, value]) => (this.set(name, value) ? [] : [name]));
    const held = examples.filter((name) => this.controls.has(name));
    if (held.length) this.shown = Object.fromEntries(held.map((name) => [name, this.controls.get(name)!.value]));
    return refused;
  }

  /** The example's numbers, taken over as if they had been given: to try a change on them. */
  keepAll(): void {
    this.shown = null;
    this.mark();
  }

  /** Hold these values as they stand; the other fields are blank. */
  private fill(values: Readonly<Record<string, string>>): void {
    for (const [name, control] of this.controls) control.value = values[name] ?? "";
  }

  /** Set a field; false when it has no such choice. */
  set(name: string, value: string): boolean {
    const control = this.controls.get(name);
    if (!control) return true;
    const unsure = control.dataset["unsure"];
    control.value = value === unsure ? "" : value;
    if (control instanceof HTMLSelectElement && value && value !== unsure && control.value !== value) {
      control.value = "";
      return false;
    }
    return true;
  }

  labelOf(control: Control): string {
    return labelOf(control);
  }

  rowOf(name: string): HTMLElement | null {
    return rowOf(this.element, name);
  }

  /** Open whatever folds a control away. */
  reveal(control: Control): void {
    control.closest("details")?.setAttribute("open", "");
  }

  /** Mark what was given, and say how much of it lies folded. */
  mark(): void {
    let [folded, given] = [0, 0];
    const own = this.given();
    for (const name of this.controls.keys()) {
      const row = this.rowOf(name);
      const theirs = name in own;
      row?.classList.toggle("ys-given", theirs);
      if (!row || !this.more.contains(row)) continue;
      folded += 1;
      if (theirs) given += 1;
    }
    const count = this.more.querySelector(".ys-more-count");
    if (count) count.textContent = `${folded} more${given ? `, ${given} filled in` : ""}`;
  }

  showHint(name: string, text: string): void {
    const control = this.controls.get(name);
    if (control && "placeholder" in control) control.placeholder = text;
  }

  /** Ask another of the worksheet's questions: its fields stand on top. */
  askFor(key: string): void {
    const ask = this.asks.find((each) => each.key === key) ?? this.asks[0];
    if (!ask || ask === this.ask) return;
    this.ask = ask;
    this.chooser.value = ask.key;
    this.arrange(ask.fields);
  }

  /** Put the rows of these fields on top, in their order; every other one under its heading. */
  arrange(fields: readonly string[]): void {
    for (const row of this.rows) {
      const group = this.groupOf(row.dataset["group"] ?? "");
      group?.append(row);
    }
    for (const name of fields) {
      const row = this.rowOf(name);
      if (row) this.asked.append(row);
    }
    const groups = [...this.more.querySelectorAll<HTMLElement>(".ys-group")];
    for (const group of groups) group.hidden = !group.querySelector(".ys-row");
    this.more.hidden = groups.every((group) => group.hidden);
    this.mark();
  }

  private groupOf(name: string): HTMLElement | null {
    return this.more.querySelector<HTMLElement>(`.ys-group[data-group="${CSS.escape(name)}"]`);
  }

  private edited(target: EventTarget | null): void {
    const name = (target as Partial<Control> | null)?.name;
    if (name && this.controls.has(name)) this.startOwn([name]);
    this.mark();
  }

  /** Where the site is a dealer's, the road pages are about the roads of that dealer's region. */
  private takeRegion(): void {
    const control = this.controls.get(REGION_FIELD);
    const region = siteLists().shop?.region;
    if (!(control instanceof HTMLSelectElement) || !region) return;
    const places = [...control.options].map((option) => option.value);
    // Where a page is about the yard unless a road is named, no road is.
    if (places.includes(region) && !places.includes(OFF_ROAD)) control.value = region;
  }

  private buildChooser(signal: AbortSignal): void {
    if (this.asks.length < 2) return;
    for (const { key, question } of this.asks) {
      this.chooser.append(make("option", { value: key }, question));
    }
    const row = this.element.querySelector<HTMLElement>(".ys-ask-row");
    if (!row) return;
    row.replaceChildren(this.chooser);
    // Which question it is, is no input of the worksheet.
    for (const kind of ["input", "change"]) {
      row.addEventListener(kind, (event) => event.stopPropagation(), { signal });
    }
    this.chooser.addEventListener(
      "change",
      () => {
        this.askFor(this.chooser.value);
        this.onAsk();
      },
      { signal },
    );
  }
}
