/**
 * Runs in the head of a page. When the address carries inputs, an answer will be wanted, so Python
 * starts before the rest of the page is read; the engine takes the worker over.
 */

import type { FromWorker, Runtime, ToWorker } from "./protocol";

declare const RUNTIME: Runtime;

export interface Early {
  worker: Worker;
  /** What the worker said before the engine listened. */
  heard: FromWorker[];
}

if (window.location.hash.includes("=")) {
  const base = new URL(".", (document.currentScript as HTMLScriptElement).src).href;
  const worker = new Worker(new URL(RUNTIME.folder + RUNTIME.worker, base).href);
  const heard: FromWorker[] = [];
  worker.onmessage = (event: MessageEvent<FromWorker>) => heard.push(event.data);
  worker.postMessage({ kind: "start", base } satisfies ToWorker);
  (window as { yardstickEarly?: Early }).yardstickEarly = { worker, heard };
}
