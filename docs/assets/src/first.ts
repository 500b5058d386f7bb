/**
 * Stands in the head of a page, before its style sheets. When the address carries inputs, an answer
 * will be wanted, so Python starts before the rest of the page is read; the engine takes the worker
 * over. It is also the one script that is always there, so it says when the other never came.
 */

import { startFor, type FromWorker, type Place } from "./protocol";

declare const RUNTIME: Place;

export interface Early {
  worker: Worker;
  /** What the worker said before the engine listened. */
  heard: FromWorker[];
}

declare global {
  interface Window {
    yardstickEarly?: Early | undefined;
    /** Set by the client script once it runs. */
    yardstickRuns?: true;
  }
}

function startEarly(): void {
  const { content, dataset } = document.querySelector<HTMLMetaElement>("meta[name=yardstick-assets]")!;
  const script = content + RUNTIME.folder + RUNTIME.worker + startFor(dataset["worksheet"]);
  const worker = new Worker(new URL(script, document.baseURI));
  const heard: FromWorker[] = [];
  worker.onmessage = (event: MessageEvent<FromWorker>) => heard.push(event.data);
  worker.onerror = (event) => {
    event.preventDefault();
    heard.push({ kind: "failed", cause: "start", detail: event.message ?? "" });
  };
  window.yardstickEarly = { worker, heard };
}

/** Load the client script once more, past what the browser keeps of it. */
async function loadAgain(): Promise<void> {
  const script = document.querySelector<HTMLScriptElement>('script[src$="/yardstick.js"]');
  if (!script) return;
  // Whether or not it comes, the browser says next.
  await fetch(script.src, { cache: "reload" }).catch(() => undefined);
  const again = document.createElement("script");
  again.src = script.src;
  again.onload = again.onerror = sayWhetherItRuns;
  script.replaceWith(again);
}

function sayWhetherItRuns(): void {
  for (const old of document.querySelectorAll(".ys-dead")) old.remove();
  if (window.yardstickRuns) return;
  for (const answer of document.querySelectorAll("section.ys .ys-answer")) {
    const text = document.createElement("p");
    text.className = "ys-failed ys-dead";
    text.setAttribute("role", "alert");
    text.textContent =
      "The calculator could not be loaded, so what stands below is the example alone. ";
    const button = document.createElement("button");
    button.className = "ys-button";
    button.textContent = "Try again";
    button.onclick = () => void loadAgain();
    text.append(button);
    answer.before(text);
  }
}

if (window.location.hash.includes("=")) {
  try {
    startEarly();
  } catch {
    // A frame may forbid it; the engine will try, and say so.
  }
}
window.addEventListener("load", () => window.yardstickRuns || void loadAgain());
