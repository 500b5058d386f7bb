/** The bar under the verdict: what leaves the page, whose numbers stand in it, and the units. */

import { copyText, make } from "./dom";
import type { Response, Units } from "./protocol";
import { copyRich } from "./replies";

/** What the bar asks of its worksheet. */
export interface Doing {
  link(): string;
  /** Whether somebody else can open that link. */
  isSendable(): boolean;
  replies(): Promise<Response | undefined>;
  showExample(): void;
  clear(): void;
  chooseUnits(units: Units): void;
  announce(text: string): void;
}

const BAR_PLACE = ".ys-bar-place";
/** How long a button says what it did, ms. */
const SHOWN = 3000;

export class Tools {
  private readonly askBack: HTMLButtonElement;
  private readonly clear: HTMLButtonElement;
  private readonly example: HTMLButtonElement;

  constructor(
    private readonly bar: HTMLElement,
    private readonly doing: Doing,
  ) {
    const units = make("div", { class: "ys-units", role: "group", "aria-label": "Units shown" });
    for (const [value, label] of [
      ["us", "US"],
      ["metric", "Metric"],
    ] as const) {
      const button = this.button(label, () => doing.chooseUnits(value));
      button.dataset["units"] = value;
      units.append(button);
    }
    this.askBack = this.button("Copy what to ask", (button) => void this.copyAskBack(button));
    this.askBack.hidden = true;
    this.clear = this.button("Clear all fields", () => doing.clear());
    this.example = this.button("Show the example", () => doing.showExample());
    bar.replaceChildren(
      this.button("Copy reply", (button) => void this.copyReply(button)),
      this.button("Copy short text", (button) => void this.copyShort(button)),
      this.askBack,
      this.button("Copy link", (button) => void this.copyLink(button)),
      this.button("Print", () => window.print()),
      this.clear,
      this.example,
      units,
    );
  }

  /** Say which units are shown, and which way the numbers can be changed as a whole. */
  show(units: Units, isExample: boolean): void {
    for (const button of this.bar.querySelectorAll<HTMLElement>("[data-units]")) {
      button.setAttribute("aria-pressed", String(button.dataset["units"] === units));
    }
    this.clear.hidden = this.example.hidden = isExample;
  }

  /** Offer to ask for the numbers that settle it, where an answer has some to ask for. */
  offerAskBack(response: Response): void {
    this.askBack.hidden = !response.asks_back;
  }

  /** Stand under the verdict of the answer that `change` puts in place; focus in here stays. */
  keepThrough(answer: HTMLElement, change: () => void): void {
    const focused = this.hasFocus ? (document.activeElement as HTMLElement) : null;
    change();
    answer.querySelector(BAR_PLACE)?.append(this.bar);
    focused?.focus({ preventScroll: true });
  }

  get hasFocus(): boolean {
    return this.bar.contains(document.activeElement);
  }

  private button(label: string, action: (button: HTMLButtonElement) => void): HTMLButtonElement {
    const button = make("button", { type: "button", class: "ys-button" }, label);
    button.addEventListener("click", () => action(button));
    return button;
  }

  private copied(button: HTMLButtonElement, done: string): void {
    this.doing.announce(done);
    button.dataset["label"] ??= button.textContent ?? "";
    button.textContent = done.replace(/\.$/, "");
    window.setTimeout(() => (button.textContent = button.dataset["label"] ?? ""), SHOWN);
  }

  private async copyLink(button: HTMLButtonElement): Promise<void> {
    if (await copyText(this.doing.link(), this.bar)) this.copied(button, "Link copied.");
  }

  private async copyReply(button: HTMLButtonElement): Promise<void> {
    const response = await this.doing.replies();
    if (!response?.reply) return;
    const copied = await copyRich(response.reply_html ?? "", response.reply, this.bar);
    if (copied) this.copied(button, "Reply copied.");
  }

  private async copyAskBack(button: HTMLButtonElement): Promise<void> {
    const response = await this.doing.replies();
    if (!response?.ask_back || !(await copyText(response.ask_back, this.bar))) return;
    this.copied(button, "Questions copied.");
  }

  private async copyShort(button: HTMLButtonElement): Promise<void> {
    const response = await this.doing.replies();
    if (!response?.short || !(await copyText(response.short, this.bar))) return;
    const whole = response.short_has_link || !this.doing.isSendable();
    this.copied(
      button,
      whole ? "Short text copied." : "Copied without the link, which is too long for a message.",
    );
  }
}
