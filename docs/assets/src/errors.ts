/** What can't be used of the inputs: a sentence beside each field, and a list above the answer. */

import { make } from "./dom";
import type { Control } from "./machines";

/** The fields that sentences are said of. */
export interface Fields {
  readonly controls: ReadonlyMap<string, Control>;
  labelOf(control: Control): string;
  rowOf(name: string): HTMLElement | null;
  /** Open whatever folds a control away. */
  reveal(control: Control): void;
}

export class Errors {
  readonly summary = make("div", { class: "ys-summary", hidden: "" });

  constructor(private readonly form: Fields) {}

  /** Show the sentences, by field name; returns them all as one text. */
  show(errors: Readonly<Record<string, string>>): string {
    const items: HTMLElement[] = [];
    for (const [name, control] of this.form.controls) {
      const sentence = errors[name];
      this.markField(name, control, sentence);
      if (!sentence) continue;
      const said = `${this.form.labelOf(control)}: ${sentence}`;
      const link = make("a", { href: `#${control.id}` }, said);
      link.addEventListener("click", (event) => {
        event.preventDefault();
        this.form.reveal(control);
        control.focus();
      });
      items.push(make("li", {}, link));
    }
    for (const [name, sentence] of Object.entries(errors)) {
      if (!this.form.controls.has(name)) items.push(make("li", {}, sentence));
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
    return `${heading}. ${items.map((item) => item.textContent).join(" ")}`;
  }

  clear(): void {
    for (const [name, control] of this.form.controls) {
      if (control.hasAttribute("aria-invalid")) this.markField(name, control, undefined);
    }
    this.summary.hidden = true;
  }

  private markField(name: string, control: Control, sentence: string | undefined): void {
    const place = this.form.rowOf(name)?.querySelector<HTMLElement>(".ys-error");
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
}
