/** What a link says, put into a form; and what of it the form has no place for. */

import type { Address } from "./address";
import type { Form } from "./form";
import { LINKS_UNITS, type LinkState } from "./link";
import { withUnit } from "./units";

/** So many strange names are named. */
const NAMED = 12;
const OLDER =
  "This link was made before links held every number: what it left to the page's example is " +
  "unknown here.";
export const TOO_LONG =
  "The link that opened this page is too long to be one of ours (over 100,000 characters), " +
  "so nothing was taken from it. The form shows the example.";

/** Fill the form as the link says, and say what couldn't be taken. */
export function fillIn(
  state: LinkState,
  form: Form,
  address: Address,
  say: (text: string) => void,
): void {
  const inputs = address.nameless(state.inputs, say);
  if (state.units) form.units = state.units;
  else if (form.units !== LINKS_UNITS) meantIn(form, inputs);
  if (state.example) form.showExample();
  else for (const name of form.take(inputs, state.examples)) sayNotOffered(form, name, inputs[name] ?? "", say);
  const strangers = Object.keys(inputs).filter((name) => !form.controls.has(name));
  if (strangers.length) {
    const names = strangers.slice(0, NAMED).map((name) => `“${name.slice(0, 60)}”`);
    say(
      `The link also sets ${names.join(", ")}${strangers.length > NAMED ? " and more" : ""}, ` +
        "which this page does not know. That part was left out; everything else was taken.",
    );
  }
  if (!state.version && !state.example && Object.keys(inputs).length) say(OLDER);
  form.askFor(state.ask);
  if (state.wanted.length) form.arrange(state.wanted);
}

/** A link that names no units has its bare numbers in those of the links' own. */
function meantIn(form: Form, inputs: Record<string, string>): void {
  for (const [name, text] of Object.entries(inputs)) {
    const control = form.controls.get(name);
    if (control) inputs[name] = withUnit(control, LINKS_UNITS, text);
  }
}

function sayNotOffered(form: Form, name: string, value: string, say: (text: string) => void): void {
  const control = form.controls.get(name);
  if (!control) return;
  say(
    `The link sets “${form.labelOf(control)}” to “${value.slice(0, 60)}”, which is not one ` +
      "of the choices here. It was left open.",
  );
}
