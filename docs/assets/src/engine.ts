/**
 * Python in its worker: one for the whole visit, one request in flight, the newest of a form wins. What
 * doesn't work is tried once more before it is said, and again whenever the reader asks for it.
 */

import { isNewer } from "./build";
import { wordsOf } from "./problem";
import { ADDED, startFor, type FromWorker, type PackedParts, type Place, type Request, type Response, type Start, type ToWorker, type Trouble } from "./protocol";

declare const RUNTIME: Place;
/** The script that carries Python, in the offline copy; empty elsewhere. */
declare const CARRIED: string;

/** The longest that an answer may take, and twice that the second time [s]. */
const LONGEST_ANSWER = 30;
/** The longest silence of a start before the reader hears of it [s]. */
const LONGEST_SILENCE = 20;
const TICK = 1000;

/** What the offline copy's first script leaves for us: everything a server would have given. */
interface Carried {
  worker: string;
  parts: PackedParts;
}

declare global {
  interface Window {
    yardstickCarried?: Carried;
    /** The browser's own Worker, kept before the search's stand-in for file pages replaces it. */
    yardstickWorker?: typeof Worker;
  }
}

export interface Progress {
  state: "loading" | "ready" | "failed";
  /** Bytes that have arrived, and all that are wanted; 0 when that isn't known yet. */
  loaded: number;
  total: number;
  /** Nothing has been heard of the start for a while; it may still come. */
  slow: boolean;
  /** Why it failed. */
  trouble: Trouble | null;
}

const FRESH: Progress = { state: "loading", loaded: 0, total: 0, slow: false, trouble: null };

/** A question, from when it is asked until its answer. */
class Question {
  readonly text: string;
  readonly answer: Promise<Response | null>;
  settle!: (answer: Response | null) => void;
  /** How often Python died of it, or took too long. */
  failures = 0;

  constructor(readonly request: Request) {
    this.text = JSON.stringify(request);
    this.answer = new Promise((resolve) => (this.settle = resolve));
  }

  /** Whether nobody wants this answer any more once `newer` is asked. */
  isOutdatedBy(newer: Request): boolean {
    const { worksheet, stage, entry } = this.request;
    if (worksheet !== newer.worksheet || entry !== newer.entry) return false;
    if (newer.stage === "exact" || newer.stage === stage) return true;
    return newer.stage === "full" && ADDED.includes(stage);
  }
}

export class Engine {
  private worker: Worker | undefined;
  private started = false;
  private inFlight: Question | undefined;
  private waiting: Question[] = [];
  /** The question that Python died of, or that took too long. */
  private blamed: Question | undefined;
  /** True once a start has failed, until one succeeds. */
  private again = false;
  /** True once anything has failed: from then on no start takes the quicker way. */
  private failed = false;
  /** True once a part that is hardly ever called could not be had: then all of the runtime is taken. */
  private whole = false;
  /** The calculator that is all that the page asks about: less has to come for it alone. */
  only: string | undefined;
  /** Counts the starts: what an earlier one still says is nobody's business. */
  private turn = 0;
  /** Seconds since the worker was last heard of, or asked. */
  private silence = 0;
  private ticking = 0;
  private listeners = new Set<(progress: Progress) => void>();
  private progress = FRESH;

  /** `base` is the address of the folder that holds the client script. */
  constructor(readonly base: string) {
    window.addEventListener("online", () => {
      if (this.progress.trouble?.cause === "network") this.retry();
    });
  }

  /** Start Python if it is not started; calling it again costs nothing. */
  start(): void {
    if (this.started) return;
    this.started = true;
    this.begin();
  }

  /** Start anew, on the reader's word; what was asked and not answered is asked again. */
  retry(): void {
    if (!this.started || this.progress.state === "ready") return;
    this.again = false;
    this.failed = true;
    this.whole = false;
    this.blamed = undefined;
    for (const question of this.waiting) question.failures = 0;
    this.begin();
  }

  /** Call `listener` now and at every change, until the returned function is called. */
  watch(listener: (progress: Progress) => void): () => void {
    this.listeners.add(listener);
    if (this.started) listener(this.progress);
    return () => this.listeners.delete(listener);
  }

  /**
   * Answer `request`; null when a newer one of the same worksheet took its place, or `forget` was
   * called. While Python is not to be had the answer is still to come: `watch` tells why.
   */
  ask(request: Request): Promise<Response | null> {
    this.start();
    const question = new Question(request);
    const same = [this.inFlight, ...this.waiting].find((each) => each?.text === question.text);
    if (same) return same.answer;
    this.waiting = this.waiting.filter((each) => {
      const outdated = each.isOutdatedBy(request);
      if (outdated) each.settle(null);
      return !outdated;
    });
    this.waiting.push(question);
    this.send();
    if (this.blamed && this.progress.state === "failed") this.passOver(this.blamed);
    return question.answer;
  }

  /** Give up every question that waits: nobody is there for the answers. */
  forget(): void {
    for (const question of this.waiting.splice(0)) question.settle(null);
  }

  /** Start anew for the other questions; `blamed`, if somebody still waits for it, comes last. */
  private passOver(blamed: Question): void {
    this.blamed = undefined;
    const others = this.waiting.filter((each) => each !== blamed);
    if (others.length < this.waiting.length) {
      blamed.failures = 1;
      others.push(blamed);
    }
    this.waiting = others;
    this.begin();
  }

  private begin(): void {
    this.end();
    this.startTicking();
    if (CARRIED && !window.yardstickCarried) this.loadCarried();
    else this.startWorker();
  }

  private startTicking(): void {
    this.report(FRESH);
    this.ticking = window.setInterval(() => this.tick(), TICK);
  }

  /** End the worker; the question that it had goes behind the others. */
  private end(): void {
    this.turn += 1;
    this.worker?.terminate();
    this.worker = undefined;
    this.silence = 0;
    window.clearInterval(this.ticking);
    if (this.inFlight) this.waiting.push(this.inFlight);
    this.inFlight = undefined;
  }

  private loadCarried(): void {
    const { turn } = this;
    const script = document.createElement("script");
    const missing = { cause: "missing", detail: CARRIED } as const;
    script.src = new URL(CARRIED, this.base).href;
    script.onload = () => {
      if (turn !== this.turn) return;
      if (window.yardstickCarried) this.startWorker();
      else this.fail({ ...missing, cause: "damaged" });
    };
    script.onerror = () => turn === this.turn && this.fail(missing);
    document.head.append(script);
  }

  private get script(): string {
    return new URL(RUNTIME.folder + RUNTIME.worker, this.base).href;
  }

  private get way(): Start {
    if (this.whole) return "#whole";
    return this.failed ? "#anew" : startFor(this.only);
  }

  private startWorker(): void {
    const early = window.yardstickEarly;
    window.yardstickEarly = undefined;
    if (early) {
      const { turn } = this;
      this.listenTo(early.worker);
      for (const message of early.heard) if (turn === this.turn) this.hear(message);
      return;
    }
    const carried = window.yardstickCarried;
    const blob = carried && new Blob([carried.worker], { type: "text/javascript" });
    try {
      const worker = new (window.yardstickWorker ?? Worker)(
        blob ? URL.createObjectURL(blob) : this.script + this.way,
      );
      if (carried) worker.postMessage({ kind: "start", parts: carried.parts } satisfies ToWorker);
      this.listenTo(worker);
    } catch (problem) {
      this.fail({ cause: "start", detail: wordsOf(problem) });
    }
  }

  private listenTo(worker: Worker): void {
    const { turn } = this;
    this.worker = worker;
    const broken = (detail: string): void => {
      const cause = this.progress.state === "ready" ? "died" : "start";
      if (turn === this.turn) this.stumble({ cause, detail });
    };
    worker.onmessage = (event: MessageEvent<FromWorker>) => turn === this.turn && this.hear(event.data);
    worker.onmessageerror = () => broken("a message could not be read");
    worker.onerror = (event) => {
      event.preventDefault();
      broken(event.message ?? "");
    };
    this.send();
  }

  private send(): void {
    if (this.inFlight || !this.worker) return;
    this.inFlight = this.waiting.shift();
    if (!this.inFlight) return;
    this.silence = 0;
    this.worker.postMessage({ kind: "ask", request: this.inFlight.text } satisfies ToWorker);
  }

  private hear(message: FromWorker): void {
    this.silence = 0;
    if (message.kind === "progress") {
      this.report({ loaded: message.loaded, total: message.total, slow: false });
    } else if (message.kind === "ready") {
      this.again = false;
      this.report({ state: "ready", slow: false });
    } else if (message.kind === "failed") {
      this.stumble(message);
    } else if (message.kind === "whole") {
      // The offline copy has one runtime, and what is whole has no such part.
      if (CARRIED || this.whole) this.stumble({ cause: "died", detail: message.detail });
      else {
        this.whole = true;
        this.begin();
      }
    } else if (message.kind === "beyond") {
      this.only = undefined;
      this.begin();
    } else {
      this.take(message.response);
    }
  }

  private take(text: string): void {
    let answer: Response;
    try {
      answer = JSON.parse(text) as Response;
    } catch (problem) {
      this.stumble({ cause: "died", detail: wordsOf(problem) });
      return;
    }
    this.inFlight?.settle(answer);
    this.inFlight = undefined;
    this.send();
  }

  /** Once a second: a clock that is put forward, or a device that slept, costs nobody an answer. */
  private tick(): void {
    this.silence += 1;
    const { state, slow } = this.progress;
    if (state === "loading") {
      if (!slow && this.silence >= LONGEST_SILENCE) this.report({ slow: true });
    } else if (this.inFlight && this.silence >= LONGEST_ANSWER * (1 + this.inFlight.failures)) {
      this.stumble({ cause: "late", detail: `${this.silence} s` });
    }
  }

  /** Something went wrong: start once more, with the same question, before it is said. */
  private stumble(trouble: Trouble): void {
    this.failed = true;
    const running = this.progress.state === "ready";
    const question = this.inFlight;
    this.end();
    // What the worker says of its parts it has tried twice itself.
    let final = !["start", "died", "late"].includes(trouble.cause);
    if (running && question) {
      question.failures += 1;
      final = question.failures > 1;
      this.blamed = final ? question : undefined;
    } else {
      final ||= this.again;
      this.again = true;
    }
    if (final) void this.giveUp(trouble);
    else void this.freshen(!running);
  }

  /** Start the second try; after a start that failed the script may be damaged where it is kept. */
  private async freshen(damaged: boolean): Promise<void> {
    const { turn } = this;
    this.startTicking();
    if (damaged && !CARRIED) {
      try {
        const response = await fetch(this.script, { cache: "reload" });
        await response.arrayBuffer();
        if (turn !== this.turn) return;
        if (!response.ok) {
          await this.giveUp({ cause: "missing", detail: `${RUNTIME.worker}: ${response.status}` });
          return;
        }
      } catch (problem) {
        if (turn === this.turn) this.fail({ cause: "network", detail: wordsOf(problem) });
        return;
      }
    }
    this.begin();
  }

  /** Say it; what is missing or other than it should be may be of another version of the site. */
  private async giveUp(trouble: Trouble): Promise<void> {
    const { turn } = this;
    const perhaps = ["missing", "damaged", "start"].includes(trouble.cause) && !CARRIED;
    const newer = perhaps && (await isNewer());
    if (turn === this.turn) this.fail(newer ? { ...trouble, cause: "newer" } : trouble);
  }

  private fail(trouble: Trouble): void {
    this.end();
    // In a frame without an origin of its own every file is somebody else's.
    const framed = window.origin === "null" && !CARRIED;
    const said: Trouble = framed ? { ...trouble, cause: "frame" } : trouble;
    this.report({ state: "failed", slow: false, trouble: said });
  }

  private report(change: Partial<Progress>): void {
    this.progress = { ...this.progress, ...change };
    for (const listener of this.listeners) listener(this.progress);
  }
}
