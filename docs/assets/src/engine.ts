/** Python in its worker: one for the whole visit, one request in flight, the newest wins. */

import type { Early } from "./first";
import type { FromWorker, PackedParts, Request, Response, Runtime, ToWorker } from "./protocol";

declare const RUNTIME: Runtime;
/** The script that carries Python, in the offline copy; empty elsewhere. */
declare const CARRIED: string;

/** What the offline copy's first script leaves for us: everything a server would have given. */
interface Carried {
  worker: string;
  parts: PackedParts;
}

declare global {
  interface Window {
    yardstickCarried?: Carried;
    yardstickEarly?: Early;
    /** The browser's own Worker, kept before the search's stand-in for file pages replaces it. */
    yardstickWorker?: typeof Worker;
  }
}

export interface Progress {
  state: "loading" | "ready" | "failed";
  loaded: number;
  total: number;
  message: string;
}

interface Waiting {
  request: Request;
  resolve(response: Response | null): void;
}

export class Engine {
  private worker: Worker | undefined;
  private started = false;
  /** What was said before the worker was there to hear it. */
  private early: ToWorker[] = [];
  private inFlight: Waiting | undefined;
  private next: Waiting | undefined;
  private count = 0;
  private listeners = new Set<(progress: Progress) => void>();
  private progress: Progress = { state: "loading", loaded: 0, total: 0, message: "" };

  /** `base` is the address of the folder that holds the client script. */
  constructor(readonly base: string) {}

  /** Start Python if it is not started; calling it again costs nothing. */
  start(): void {
    if (this.started) return;
    this.started = true;
    this.report({ state: "loading" });
    if (!CARRIED) {
      this.startWorker();
      return;
    }
    const script = document.createElement("script");
    script.src = new URL(CARRIED, this.base).href;
    script.onload = () => this.startWorker();
    script.onerror = () => this.fail("A file of the offline copy is missing.");
    document.head.append(script);
  }

  private startWorker(): void {
    const early = window.yardstickEarly;
    if (early) {
      this.listenTo(early.worker);
      for (const message of early.heard.splice(0)) this.hear(message);
      return;
    }
    const carried = window.yardstickCarried;
    const address = carried
      ? URL.createObjectURL(new Blob([carried.worker], { type: "text/javascript" }))
      : new URL(RUNTIME.folder + RUNTIME.worker, this.base).href;
    try {
      const worker = new (window.yardstickWorker ?? Worker)(address);
      if (carried) worker.postMessage({ kind: "start", parts: carried.parts } satisfies ToWorker);
      this.listenTo(worker);
    } catch (problem) {
      this.fail(String(problem));
    }
  }

  private listenTo(worker: Worker): void {
    this.worker = worker;
    worker.onmessage = (event: MessageEvent<FromWorker>) => this.hear(event.data);
    worker.onerror = (event) => this.fail(event.message || "The worker did not start.");
    for (const message of this.early.splice(0)) this.tell(message);
  }

  /** True once Python has answered that it is ready. */
  get ready(): boolean {
    return this.progress.state === "ready";
  }

  /** Call `listener` now and at every change, until the returned function is called. */
  watch(listener: (progress: Progress) => void): () => void {
    this.listeners.add(listener);
    if (this.started) listener(this.progress);
    return () => this.listeners.delete(listener);
  }

  /** Answer `request`, or null when a newer one took its place or Python is not to be had. */
  ask(request: Request): Promise<Response | null> {
    this.start();
    return new Promise((resolve) => {
      this.next?.resolve(null);
      this.next = { request, resolve };
      this.send();
    });
  }

  private send(): void {
    if (this.inFlight || !this.next) return;
    if (this.progress.state === "failed") {
      this.next.resolve(null);
      this.next = undefined;
      return;
    }
    this.inFlight = this.next;
    this.next = undefined;
    this.count += 1;
    this.tell({ kind: "ask", id: this.count, request: JSON.stringify(this.inFlight.request) });
  }

  private hear(message: FromWorker): void {
    if (message.kind === "progress") {
      this.report({ loaded: message.loaded, total: message.total });
    } else if (message.kind === "ready") {
      this.report({ state: "ready" });
    } else if (message.kind === "failed") {
      this.fail(message.message);
    } else {
      const done = this.inFlight;
      this.inFlight = undefined;
      done?.resolve(JSON.parse(message.response) as Response);
      this.send();
    }
  }

  private fail(message: string): void {
    this.worker?.terminate();
    this.report({ state: "failed", message });
    this.inFlight?.resolve(null);
    this.inFlight = undefined;
    this.send();
  }

  private tell(message: ToWorker): void {
    if (this.worker) this.worker.postMessage(message);
    else this.early.push(message);
  }

  private report(change: Partial<Progress>): void {
    this.progress = { ...this.progress, ...change };
    for (const listener of this.listeners) listener(this.progress);
  }
}
