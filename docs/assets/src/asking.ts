/** When a form's question goes to Python: at once, or when a burst of typing pauses. */

import type { Engine } from "./engine";
import { ADDED, type Request, type Response, type Stage } from "./protocol";

/** Within a burst of changes an answer waits for this pause; the first of a burst does not. */
const TYPING_PAUSE = 120;
/** An answer that takes longer is said to be on its way [ms]. */
export const LATE = 400;
/** A half-typed value is not an error yet: its sentence waits for a longer pause [ms]. */
export const ERROR_PAUSE = 900;

export class Asking {
  /** The number of the last question, and of the last that was wholly answered. */
  asked = 0;
  answered = 0;
  /** How long the last whole answer took after the verdict [ms]. */
  private took = Infinity;
  private typing = 0;
  private changedAt = -TYPING_PAUSE;

  constructor(
    private readonly engine: Engine,
    private readonly request: (stage: Stage) => Request,
    private readonly show: (response: Response, request: Request) => void,
    /** Called when the typing pauses: what was typed is settled for now. */
    private readonly paused: () => void,
  ) {}

  /** Whether something was typed that `paused` hasn't been told of. */
  get isTyping(): boolean {
    return this.typing !== 0;
  }

  stop(): void {
    this.asked += 1;
    window.clearTimeout(this.typing);
  }

  /** A field was changed: ask now, or when the burst that this is part of pauses. */
  changed(): void {
    window.clearTimeout(this.typing);
    const burst = performance.now() - this.changedAt < TYPING_PAUSE;
    this.changedAt = performance.now();
    if (!burst) this.compute();
    this.typing = window.setTimeout(() => {
      this.typing = 0;
      if (burst) this.compute();
      this.paused();
    }, TYPING_PAUSE);
  }

  compute(): void {
    this.asked += 1;
    void this.stage(this.asked, "exact");
  }

  /** What a reader opens, and nobody waits for before. */
  effects(): void {
    void this.stage(this.asked, "effects");
  }

  /** Where a search through ranges takes long it starts only when the typing pauses. */
  private async pause(): Promise<void> {
    if (this.took < TYPING_PAUSE) return;
    const left = this.changedAt + TYPING_PAUSE - performance.now();
    if (left > 0) await new Promise((resolve) => window.setTimeout(resolve, left));
  }

  private async stage(turn: number, stage: Stage): Promise<void> {
    const request = this.request(stage);
    const begun = performance.now();
    const response = await this.engine.ask(request);
    if (response && stage === "full") this.took = performance.now() - begun;
    if (!response || turn !== this.asked) return;
    if (response.final || !response.ok) this.answered = turn;
    this.show(response, request);
    if (!response.ok || ADDED.includes(stage)) return;
    // A few lines have no room for the odds.
    const added = response.finding === "unknown" && !request.entry ? "odds" : null;
    const next = response.final ? added : "full";
    if (!next) return;
    await this.pause();
    if (turn === this.asked) await this.stage(turn, next);
  }
}
