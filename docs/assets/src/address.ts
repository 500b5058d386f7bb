/** The addresses of a page with what its form holds: the whole one, and a shorter one to the same. */

import { pageAddress } from "./embed";
import type { Form } from "./form";
import { type LinkState, NO_LINK, writeLink } from "./link";
import { type Machine, type Part, listed, partsOf, textFor } from "./machines";

export class Address {
  private readonly parts: readonly Part[];

  constructor(
    private readonly form: Form,
    /** The worksheet's name where it isn't the page's first; "" for the first. */
    private readonly sheet: string,
  ) {
    this.parts = partsOf(form.element);
  }

  /** What an address to this form says; "" for the page as it opens by itself. */
  fragment(inputs: Record<string, string> = this.form.given()): string {
    const first = this.form.asks[0]?.key ?? "";
    const ask = this.form.ask.key === first ? "" : this.form.ask.key;
    const { example, units } = this.form;
    if (example === true && units === "us" && !ask && !Object.keys(inputs).length) return "";
    const state: LinkState = { ...NO_LINK, inputs, ask, sheet: this.sheet, units };
    if (typeof example === "boolean") return writeLink({ ...state, example });
    const examples = Object.keys(example).filter((name) => !(name in inputs));
    return writeLink({ ...state, inputs: { ...example, ...inputs }, examples });
  }

  /** The address that opens this page with these inputs. */
  whole(): string {
    const url = pageAddress();
    url.hash = this.fragment();
    return url.href;
  }

  /**
   * The shortest address: it names the machines of the site's own lists that are filled in,
   * instead of every number of theirs. It leads to what those lists say on the day it is opened.
   */
  short(): string {
    const whole = this.whole();
    if (this.form.isExample) return whole;
    const inputs = this.form.given();
    for (const { role, absent } of this.parts) {
      const same = (machine: Machine): boolean =>
        Object.entries(absent).every(([name, text]) => {
          const control = this.form.controls.get(name);
          return !control || control.value === textFor(machine, control, text);
        });
      const machine = listed(role).find(same);
      if (!machine) continue;
      for (const name of Object.keys(absent)) delete inputs[name];
      inputs[role] = machine.name;
    }
    const url = pageAddress();
    url.hash = this.fragment(inputs);
    return url.href.length < whole.length ? url.href : whole;
  }

  /** Put the fields of the machines that a short link names in their names' place. */
  nameless(inputs: Record<string, string>, say: (text: string) => void): Record<string, string> {
    const found: Record<string, string> = { ...inputs };
    for (const { role, absent } of this.parts) {
      const name = found[role];
      if (name === undefined) continue;
      delete found[role];
      const machine = listed(role).find((each) => each.name === name);
      if (!machine) {
        say(
          `The link names the ${role} “${name.slice(0, 80)}”, which this site no longer lists. ` +
            "Its numbers are left blank: ask whoever sent the link for them.",
        );
      }
      for (const [field, text] of Object.entries(absent)) {
        const control = this.form.controls.get(field);
        if (control) found[field] ??= textFor(machine ?? { name, role, inputs: {} }, control, text);
      }
    }
    return found;
  }
}
