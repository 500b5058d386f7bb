/**
 * Stands in the head of a page, before its style sheets. When the address carries inputs, an answer
 * will be wanted, so Python starts before the rest of the page is read; the engine takes the worker
 * over.
 */

import type { FromWorker, Runtime } from "./protocol";

declare const RUNTIME: Runtime;

export interface Early {
  worker: Worker;
  /** What the worker said before the engine listened. */
  heard: FromWorker[];
}

if (window.location.hash.includes("=")) {
  const place = document.querySelector<HTMLMetaElement>("meta[name=yardstick-assets]")!.content;
  const worker = new Worker(new URL(place + RUNTIME.folder + RUNTIME.worker, document.baseURI));
  const heard: FromWorker[] = [];
  worker.onmessage = (event: MessageEvent<FromWorker>) => heard.push(event.data);
  window.yardstickEarly = { worker, heard };
}
