/** Whether an answer is for the inputs beside it, and which of them can't be used. */

import { ERROR_PAUSE } from "./asking";
import { make } from "./dom";
import type { Errors } from "./errors";

export class Standing {
  /** What stands above an answer that is for other inputs. */
  readonly line = make("p", { class: "ys-stale", hidden: "" });
  private refused: Readonly<Record<string, string>> | undefined;
  private waiting = 0;

  constructor(
    private readonly answer: HTMLElement,
    private readonly errors: Errors,
    /** What is said of an answer while some of the inputs can't be read. */
    private readonly unread: string,
    private readonly announce: (text: string) => void,
    private readonly onChange: (isStale: boolean) => void = () => undefined,
  ) {}

  get isStale(): boolean {
    return !this.line.hidden;
  }

  /** The answer isn't for the inputs beside it. */
  mark(text: string): void {
    this.line.textContent = text;
    this.line.hidden = false;
    this.answer.dataset["stale"] = "";
    this.onChange(true);
  }

  /** The answer is for the inputs, and all of them can be used. */
  clear(): void {
    this.stop();
    this.refused = undefined;
    this.errors.clear();
    this.line.hidden = true;
    delete this.answer.dataset["stale"];
    this.onChange(false);
  }

  /** Some inputs can't be used; that waits while somebody is still typing in one of them. */
  refuse(errors: Readonly<Record<string, string>>): void {
    this.stop();
    this.refused = errors;
    const editing = (document.activeElement as HTMLInputElement | null)?.name ?? "";
    this.waiting = window.setTimeout(() => this.say(), editing in errors ? ERROR_PAUSE : 0);
  }

  /** Say now which inputs can't be used, if there are any. */
  say(): void {
    if (!this.refused) return;
    this.stop();
    const said = this.errors.show(this.refused);
    this.mark(this.unread);
    this.announce(said);
  }

  stop(): void {
    window.clearTimeout(this.waiting);
  }
}
