/**
 * What a customer sends back: the page was opened by a link that asks for a few numbers, and its
 * fields leave it as a text that the dealer's page reads again without loss.
 */

import { copyText, make } from "./dom";
import { readLink } from "./link";
import type { Control } from "./machines";

/** The text to send back: the question, and a line for each field that is filled in. */
export function returnText(section: HTMLElement, ask: string): string {
  const asks = JSON.parse(section.dataset["asks"] ?? "[]") as { key: string; question: string }[];
  const question = asks.find(({ key }) => key === ask) ?? asks[0];
  const form = section.querySelector<HTMLFormElement>(".ys-form")!;
  const lines = [...form.elements].flatMap((element) => {
    const control = element as Control;
    if (!control.name || !control.value.trim()) return [];
    const label = control.labels?.[0]?.textContent?.trim() ?? control.name;
    const chosen = control instanceof HTMLSelectElement ? control.selectedOptions[0]?.label : undefined;
    return [`${label.replace(/\?$/, "")}: ${chosen ?? control.value.trim()}`];
  });
  return [question?.question ?? section.getAttribute("aria-label") ?? "", ...lines].join("\n");
}

export class SendBack {
  private readonly place = make("div", { class: "ys-send-back", role: "group", "aria-label": "Send this back" });

  constructor(section: HTMLElement, ask: string) {
    const said = make("span", { role: "status" });
    const text = (): string => returnText(section, ask);
    const add = (label: string, action: (button: HTMLButtonElement) => void): void => {
      const button = make("button", { type: "button", class: "ys-button" }, label);
      button.addEventListener("click", () => action(button));
      this.place.append(button);
    };
    this.place.append(make("p", {}, "You were asked for the numbers on top. Fill in what you know, then send it back:"));
    add("Copy to send back", (button) =>
      void copyText(text(), button).then((done) => done && (said.textContent = "Copied.")),
    );
    add("Text", () => location.assign(`sms:?body=${encodeURIComponent(text())}`));
    add("Mail", () => location.assign(`mailto:?body=${encodeURIComponent(text())}`));
    if ("share" in navigator) add("Share", () => void navigator.share({ text: text() }).catch(() => undefined));
    this.place.append(said);
    section.querySelector(".ys-form")?.after(this.place);
  }

  /** On a page whose link asks for something. */
  static here(): SendBack | null {
    const link = readLink(window.location.hash);
    if (!link?.wanted.length) return null;
    const named = `section.ys[data-worksheet="${CSS.escape(link.sheet)}"]`;
    const section = document.querySelector<HTMLElement>(link.sheet ? named : "section.ys[data-worksheet]");
    return section ? new SendBack(section, link.ask) : null;
  }

  release(): void {
    this.place.remove();
  }
}
