/** What is chosen in a list, in words that wrap: a browser cuts them off where they are too long. */

import { make } from "./dom";

const LISTS = ":is(.ys-row, .ys-pick, .ys-ask-row) > select";

/** Writes the chosen words over every list of a form, anew on each of the events in `changes`. */
export class Chosen {
  private pending = 0;
  private readonly widths = new ResizeObserver(() => this.later());

  constructor(
    private readonly form: HTMLFormElement,
    changes: readonly string[],
    signal: AbortSignal,
  ) {
    for (const kind of changes) {
      form.addEventListener(kind, () => this.later(), { signal, capture: true });
    }
    this.widths.observe(form);
    signal.addEventListener("abort", () => this.widths.disconnect());
  }

  /** Once for all that changes at the same time, when everybody has heard of it. */
  private later(): void {
    if (this.pending) return;
    this.pending = window.requestAnimationFrame(() => {
      this.pending = 0;
      this.show();
    });
  }

  private show(): void {
    for (const list of this.form.querySelectorAll<HTMLSelectElement>(LISTS)) {
      const said = list.selectedOptions[0]?.label ?? "";
      const before = list.previousElementSibling;
      const words = before?.matches(".ys-chosen")
        ? before
        : make("span", { class: "ys-chosen", "aria-hidden": "true" });
      if (words !== before) list.before(words);
      // Written only when it changes, so that nobody who watches the page is woken for nothing.
      if (words.textContent !== said) words.textContent = said;
    }
  }
}
