/** What a form says of what was done to it: by a link, or by a remedy that can be undone. */

import { make } from "./dom";

export class Notice {
  readonly element = make("div", { class: "ys-notice", hidden: "" });

  /** Add a sentence to what stands there; "" takes all of it away. */
  say(text: string): void {
    const previous = text && this.element.textContent ? `${this.element.textContent} ` : "";
    this.element.textContent = previous + text;
    this.element.hidden = !text;
  }

  /** Say what was done, with a button that undoes it. */
  offerUndo(text: string, undo: () => void): void {
    const button = make("button", { type: "button", class: "ys-button" }, "Undo");
    button.addEventListener("click", () => {
      this.say("");
      undo();
    });
    this.element.replaceChildren(`${text} `, button);
    this.element.hidden = false;
  }
}
