/** What a form holds, as rows of text: the machines by their names, the fields by their labels. */

import type { Form } from "./form";

export interface Row {
  label: string;
  value: string;
  /** The range that stands in while the value isn't known; "" when nothing does. */
  standIn: string;
}

/** The machines that the form describes, by the names that the lists on top of it give them. */
export function machineRows(form: Form): Row[] {
  const lists = form.element.querySelectorAll<HTMLSelectElement>(".ys-pick > select");
  return [...lists].flatMap((list) => {
    const chosen = list.value ? list.selectedOptions[0] : undefined;
    if (!chosen?.label) return [];
    const told = chosen.dataset["told"];
    const value = told ? `${chosen.label} (${told})` : chosen.label;
    return [{ label: form.labelOf(list), value, standIn: "" }];
  });
}

/** The machines, and every field with what was given or stands in. */
export function formRows(form: Form): Row[] {
  const fields = [...form.controls.values()].map((control) => {
    const choice = control instanceof HTMLSelectElement;
    const picked = choice && control.value !== "";
    const value = choice
      ? picked
        ? (control.selectedOptions[0]?.label ?? "")
        : ""
      : control.value.trim();
    // An empty field shows the range that stands in for it, if one does.
    const standIn = !choice && "standsIn" in control.dataset ? control.placeholder : "";
    return { label: form.labelOf(control), value, standIn };
  });
  return [...machineRows(form), ...fields];
}
