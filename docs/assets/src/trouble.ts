/** What the reader sees of the engine: the bytes that arrive, and why there is no answer. */

import { reload } from "./build";
import { make } from "./dom";
import type { Engine, Progress } from "./engine";
import type { Cause, Trouble } from "./protocol";

const WORDS: Record<Cause, string> = {
  network: "The calculator could not be loaded: there is no network, or it broke off.",
  missing: "The calculator could not be loaded: a part of it is missing.",
  damaged: "The calculator could not be loaded: a part of it arrived damaged, twice.",
  newer: "This site has a newer version than this page. What you typed stays when you reload it.",
  frame: "The calculator does not run inside this frame. It does on a page of its own:",
  start: "The calculator could not start in this browser.",
  died: "The calculator broke down over these inputs, twice.",
  late: "The calculator took too long over these inputs, twice.",
};
const SLOW = "Nothing has arrived for a while. The network may be slow.";

/** Less than this would be told as 0.0 MB [bytes]. */
const LEAST_SHOWN = 100_000;

function million(bytes: number): string {
  return (bytes / 1e6).toFixed(1);
}

function button(label: string, action: () => void): HTMLButtonElement {
  const made = make("button", { type: "button", class: "ys-button" }, label);
  made.addEventListener("click", action);
  return made;
}

/** Try again; whoever pressed the button stays where they are. */
function tryAgain(place: HTMLElement, engine: Engine): HTMLButtonElement {
  return button("Try again", () => {
    engine.retry();
    place.tabIndex = -1;
    place.focus({ preventScroll: true });
  });
}

function wayOut(cause: Cause, place: HTMLElement, engine: Engine): HTMLElement {
  if (cause === "newer") return button("Reload", reload);
  if (cause !== "frame") return tryAgain(place, engine);
  return make("a", { href: window.location.href, target: "_blank" }, "open this page by itself");
}

function failed({ cause, detail }: Trouble): HTMLElement {
  const because = detail && cause !== "frame" && cause !== "newer" ? ` (${detail})` : "";
  return make("p", { class: "ys-failed", role: "alert" }, `${WORDS[cause]}${because} `);
}

/** Show in `place` how far the engine is; nothing once it is ready. */
export function showProgress(place: HTMLElement, progress: Progress, engine: Engine): void {
  const { state, loaded, total, slow, trouble } = progress;
  place.hidden = state === "ready";
  if (state === "failed" && trouble) {
    const said = failed(trouble);
    said.append(wayOut(trouble.cause, place, engine));
    place.replaceChildren(said);
    return;
  }
  let bar = place.querySelector("progress");
  if (!bar) {
    bar = make("progress", { "aria-label": "Loading the calculator" });
    place.replaceChildren(bar, make("span"));
  }
  if (total) {
    bar.max = total;
    bar.value = loaded;
  }
  place.querySelector("span")!.textContent =
    total && loaded >= total
      ? "Starting the calculator"
      : total && loaded >= LEAST_SHOWN
        ? `Loading the calculator: ${million(loaded)} of ${million(total)} MB`
        : "Loading the calculator";
  place.querySelector(".ys-slow")?.remove();
  if (slow) {
    place.append(
      make("span", { class: "ys-slow", role: "status" }, `${SLOW} `, tryAgain(place, engine)),
    );
  }
}
