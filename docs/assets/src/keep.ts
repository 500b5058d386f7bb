/** The page's side of keeping the site on the device: when, how far, and what the reader sees. */

import { reload, reloadQuietly } from "./build";
import { make } from "./dom";
import { wordsOf } from "./problem";

export type ToKeeper =
  | { kind: "take" }
  | { kind: "leave" }
  | { kind: "claim"; version: string }
  | { kind: "check" };

export type FromKeeper =
  | { kind: "keeping"; done: number; total: number }
  | { kind: "failed"; reason: Reason }
  | {
      kind: "kept";
      version: string;
      size: number;
      files: number;
      missing: number;
      reason: Reason | null;
    };

export type Reason = "room" | "changed" | "network" | "storage";

interface InstallOffer extends Event {
  prompt(): Promise<void>;
}

const WORKER = "service-worker.js";
const REFUSED_KEY = "yardstick.keep";
const LOOK_AGAIN = 3_600_000;
const TAKEN = "This page is of an earlier version than the rest of the site.";
const FAILURES: Record<Reason, string> = {
  room: "The site could not be kept on this device: there is no room left.",
  changed: "The site was being changed while it was fetched. It will be kept at the next visit.",
  network: "The site is not kept on this device yet: the network broke off.",
  storage: "The site could not be kept on this device: the browser's storage does not work.",
};

/** The browser's side of service workers; null where there is none, or a frame may not look at it. */
function container(): ServiceWorkerContainer | null {
  try {
    return navigator.serviceWorker ?? null;
  } catch {
    return null;
  }
}

function million(bytes: number): string {
  return (bytes / 1e6).toFixed(1);
}

export class Keeping {
  private readonly version = document.documentElement.dataset["version"] ?? "";
  private readonly container = container();
  private registration: ServiceWorkerRegistration | undefined;
  private controlled = Boolean(this.container?.controller);
  private begun = false;
  /** By the clock of the page, which nobody sets. */
  private lookedAt = performance.now();
  private text = "";
  private whole = false;
  /** True while the line counts what has been fetched. */
  private fetching = false;
  private offer: InstallOffer | undefined;

  /** `root` is the address of the site's first page. */
  constructor(private readonly root: string) {
    if (!this.possible) return;
    this.container?.addEventListener("message", (event) => this.hear(event.data as FromKeeper));
    this.container?.addEventListener("controllerchange", () => {
      // Another version took over, so this page is of a version that is gone.
      if (this.controlled && !reloadQuietly()) this.offerReload(TAKEN, reload);
      this.controlled = true;
    });
    window.addEventListener("online", () => this.check());
    document.addEventListener("visibilitychange", () => this.lookForNewer());
    window.addEventListener("beforeinstallprompt", (event) => {
      event.preventDefault();
      this.offer = event as InstallOffer;
      this.show();
    });
  }

  /** Only a page of its own, from a server, over a connection that nobody can tamper with. */
  private get possible(): boolean {
    const served = window.location.protocol.startsWith("http") && window.isSecureContext;
    return served && Boolean(this.version) && window.top === window && this.container !== null;
  }

  /** Keep the site, unless the reader asked not to; calling it again costs nothing. */
  async begin(asked = false): Promise<void> {
    if (!this.possible || (this.begun && !asked) || (!asked && this.refused)) return;
    this.begun = true;
    try {
      const url = new URL(WORKER, this.root).href;
      const registration = await this.container!.register(url);
      if (!registration) return;
      this.registration = registration;
      registration.addEventListener("updatefound", () => this.follow(registration.installing));
      this.follow(registration.installing);
      if (registration.waiting && registration.active) this.announce(registration.waiting);
      if (registration.active) this.settled(registration.active);
    } catch {
      this.say("This browser does not keep the site for use without signal.", false);
    }
  }

  private get refused(): boolean {
    try {
      return localStorage.getItem(REFUSED_KEY) === "no";
    } catch {
      return false;
    }
  }

  private remember(refused: boolean): void {
    try {
      if (refused) localStorage.setItem(REFUSED_KEY, "no");
      else localStorage.removeItem(REFUSED_KEY);
    } catch {
      // Without storage the choice holds for this page alone.
    }
  }

  private follow(worker: ServiceWorker | null): void {
    if (!worker) return;
    const newer = Boolean(this.registration?.active);
    worker.addEventListener("statechange", () => {
      if (worker.state === "installed" && newer) this.announce(worker);
      if (worker.state === "activated") this.settled(worker);
      // It died on the way, and nobody else says so.
      if (worker.state === "redundant" && !this.whole && this.fetching) {
        this.hear({ kind: "failed", reason: "network" });
      }
    });
  }

  private settled(worker: ServiceWorker): void {
    if (!this.container?.controller) this.tell(worker, { kind: "claim", version: this.version });
    this.check();
  }

  private tell(worker: ServiceWorker, message: ToKeeper): void {
    worker.postMessage(message);
  }

  /** Look at everything that is kept, and fetch again what is missing or damaged. */
  check(): void {
    const worker = this.registration?.active;
    if (worker) this.tell(worker, { kind: "check" });
  }

  private lookForNewer(): void {
    if (document.hidden || !this.registration || performance.now() - this.lookedAt < LOOK_AGAIN) return;
    this.lookedAt = performance.now();
    // Without a network there is nothing newer to be had.
    this.registration.update().catch(() => undefined);
  }

  private hear(message: FromKeeper): void {
    if (message.kind === "keeping") {
      if (this.whole) return;
      const share = `${million(message.done)} of ${million(message.total)} MB`;
      this.say(`Keeping this site on this device: ${share}`, false);
      this.fetching = true;
    } else if (message.kind === "failed") {
      if (!this.whole) this.say(FAILURES[message.reason], false);
    } else if (message.kind === "kept") {
      this.sayKept(message.size, message.missing, message.reason);
    }
  }

  private sayKept(size: number, missing: number, reason: Reason | null): void {
    if (!missing) {
      this.say(`Kept on this device for use without signal (${million(size)} MB)`, true);
      return;
    }
    const parts = missing === 1 ? "A file" : `${missing} files`;
    const be = missing === 1 ? "is" : "are";
    const why = {
      room: "there is no room to keep it whole",
      changed: "the site has a new version, which is being fetched",
      network: "there is no network to fetch what is missing",
      storage: "the browser's storage does not work",
    }[reason ?? "network"];
    this.say(`${parts} of the copy on this device ${be} missing or damaged, and ${why}.`, false);
  }

  private say(text: string, whole: boolean): void {
    this.text = text;
    this.whole = whole;
    this.fetching = false;
    this.show();
  }

  /** Write the state into the foot of the page that is shown, and onto the page about it. */
  show(): void {
    const foot = document.querySelector(".md-footer-meta .md-copyright");
    let line = document.querySelector<HTMLElement>(".ys-kept");
    if (foot && !line && this.text) {
      line = make("p", { class: "ys-kept" });
      foot.append(line);
    }
    if (line && line.textContent !== this.text) line.textContent = this.text;
    const place = document.querySelector<HTMLElement>("#ys-keep");
    if (place) this.fill(place);
  }

  private fill(place: HTMLElement): void {
    const buttons: HTMLElement[] = [];
    const button = (label: string, action: () => void): void => {
      const made = make("button", { type: "button", class: "ys-button" }, label);
      made.addEventListener("click", action);
      buttons.push(made);
    };
    const { offer } = this;
    if (offer) button("Install it as an app", () => void offer.prompt());
    if (this.whole) button("Remove it from this device", () => void this.remove());
    else if (this.possible && !this.begun) button("Keep it on this device", () => this.again());
    const removed = this.refused ? "Not kept on this device, as you chose." : "Not kept yet.";
    const unable = "This page can't keep the site: that needs a browser's own window and https.";
    const state = this.text || (this.possible ? removed : unable);
    place.replaceChildren(make("p", { role: "status" }, state), ...buttons);
  }

  private again(): void {
    this.remember(false);
    void this.begin(true);
  }

  /** Give up what is kept; it stays given up until the reader asks for it. */
  private async remove(): Promise<void> {
    this.remember(true);
    try {
      await this.registration?.unregister();
      const ours = `yardstick ${new URL(this.root).pathname} `;
      for (const name of await caches.keys()) {
        if (name.startsWith(ours)) await caches.delete(name);
      }
    } catch (problem) {
      this.say(`The browser did not remove it. (${wordsOf(problem)})`, true);
      return;
    }
    // The worker still answers this page, and would keep again what it fetches for it.
    reload();
  }

  private announce(worker: ServiceWorker): void {
    this.offerReload("A new version is ready.", () => {
      // Another page may have let it in, or a newer one in its place.
      if (worker.state !== "installed") reload();
      worker.addEventListener("statechange", () => {
        if (["activated", "redundant"].includes(worker.state)) reload();
      });
      this.tell(worker, { kind: "take" });
    });
  }

  private offerReload(text: string, action: () => void): void {
    document.querySelector(".ys-newer")?.remove();
    const now = make("button", { type: "button", class: "ys-button" }, "Reload");
    const later = make("button", { type: "button", class: "ys-button" }, "Later");
    const box = make("div", { class: "ys-newer", role: "status" }, make("span", {}, text), now, later);
    now.addEventListener("click", () => {
      box.replaceChildren(make("span", {}, "Loading it…"));
      action();
    });
    later.addEventListener("click", () => box.remove());
    document.body.append(box);
  }
}
