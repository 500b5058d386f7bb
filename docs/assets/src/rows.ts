/** The rows of a form: what a control is called, the row that it stands in, and the help behind its "?". */

import type { Control } from "./machines";

export function labelOf(control: Control): string {
  return control.labels?.[0]?.textContent?.trim() ?? control.name;
}

export function rowOf(form: HTMLElement, name: string): HTMLElement | null {
  return form.querySelector<HTMLElement>(`.ys-row[data-field="${CSS.escape(name)}"]`);
}

/** Open or close the help of a row, where a click was on its "?". */
export function toggleHelp(event: Event): void {
  const button = (event.target as Element).closest<HTMLElement>(".ys-help");
  if (!button) return;
  const open = button.getAttribute("aria-expanded") !== "true";
  button.setAttribute("aria-expanded", String(open));
  button.closest(".ys-row")?.classList.toggle("ys-open", open);
}
