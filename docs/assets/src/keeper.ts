/**
 * The service worker: keeps the whole site on the device, one whole version at a time.
 *
 * The build writes the list of the site's files into it, each with the digest of its content, so
 * that a file of another version, or a damaged one, is never taken for ours.
 */

interface Listed {
  /** Relative to the site's root; "pairing/" stands for the page in that folder. */
  url: string;
  bytes: number;
  /** A gzipped file has two: a server may hand it over unpacked. */
  digests: string[];
  /** True for a gzipped file that is kept as it is used. */
  unpacked?: boolean;
}

interface Waits extends Event {
  waitUntil(work: Promise<unknown>): void;
}

interface Fetching extends Waits {
  request: Request;
  respondWith(response: Promise<Response>): void;
}

interface Told extends Waits {
  data: ToKeeper;
  ports: readonly MessagePort[];
  source: { postMessage(message: FromKeeper): void } | null;
}

interface Scope {
  __WB_MANIFEST: Listed[];
  registration: ServiceWorkerRegistration;
  clients: {
    claim(): Promise<void>;
    matchAll(options: object): Promise<{ postMessage(message: FromKeeper): void }[]>;
  };
  skipWaiting(): Promise<void>;
  addEventListener(kind: "install" | "activate", action: (event: Waits) => void): void;
  addEventListener(kind: "fetch", action: (event: Fetching) => void): void;
  addEventListener(kind: "message", action: (event: Told) => void): void;
}

import { sha256 } from "./digest";
import { KEPT, unpacked } from "./unpacking";
import type { FromKeeper, Reason, ToKeeper } from "./keep";
import { LONGEST_SHARED, SHARED_NAME, SHARED_PAGE, SHARED_PARTS } from "./shared";

declare const VERSION: string;
declare const self: Scope;

/** The server's file is not the one that this version lists. */
class OtherVersion extends Error {}

const root = self.registration.scope;
const files = new Map(self.__WB_MANIFEST.map((file) => [new URL(file.url, root).href, file]));
const total = [...files.values()].reduce((sum, file) => sum + file.bytes, 0);
// Another site of ours may stand in another folder of the same host.
const ours = `yardstick ${new URL(root).pathname} `;
const current = ours + VERSION;
// The page has the larger part of what a browser fetches at once.
const AT_ONCE = 2;
/** Files whose content was found right since this worker started. */
const checked = new Set<string>();
/** Ends what this version still fetches once the next one takes over: a browser waits for it. */
const leaving = new AbortController();
/**
 * A page that asks for a file just while the browser ends this worker starts it again, and the next
 * version then waits until this one has been idle for as long as the browser pleases. So this one
 * leaves in a pause, which is this long, or, where none comes, after so long.
 */
const PAUSE = 1_000;
const LONGEST_STAY = 10_000;
let lastAsked = -PAUSE;

async function isRight(response: Response, file: Listed): Promise<boolean> {
  return file.digests.includes(await sha256(await response.arrayBuffer()));
}

/** Fetch a file from the server; it is taken only if it is the one that is listed. */
async function download(url: string, file: Listed): Promise<Response> {
  for (const cache of ["no-cache", "reload"] as const) {
    const asked = { cache, credentials: "same-origin", signal: leaving.signal } as const;
    const bringing = fetch(url, asked).then(async (found) => [found, await found.arrayBuffer()] as const);
    const [response, bytes] = await bringing.catch((problem: unknown) => {
      throw leaving.signal.aborted ? new OtherVersion(url) : problem;
    });
    if (!response.ok || !file.digests.includes(await sha256(bytes))) continue;
    // Made anew, because a page may not be answered with a response that was redirected.
    const headers = new Headers(response.headers);
    headers.delete("Content-Encoding");
    headers.set(KEPT, "yes");
    const content = file.unpacked ? await unpacked(new Uint8Array(bytes)) : bytes;
    headers.set("Content-Length", String(content.byteLength));
    return new Response(content, { headers });
  }
  throw new OtherVersion(url);
}

/** The kept file, or undefined when it is missing or damaged. */
async function kept(cache: Cache, url: string, file: Listed): Promise<Response | undefined> {
  const found = await cache.match(url, { ignoreVary: true });
  if (!found || checked.has(url)) return found;
  // Looked at in a copy: the one that is handed out is still to be read as a stream.
  if (!(await isRight(found, file))) return undefined;
  checked.add(url);
  return cache.match(url, { ignoreVary: true });
}

async function tell(message: FromKeeper): Promise<void> {
  const clients = await self.clients.matchAll({ includeUncontrolled: true });
  for (const client of clients) client.postMessage(message);
}

async function earlier(): Promise<Cache[]> {
  const names = (await caches.keys()).filter((name) => name.startsWith(ours) && name !== current);
  return Promise.all(names.map((name) => caches.open(name)));
}

/** Put one file in place: from what is kept, from an earlier version, or from the server. */
async function keep(cache: Cache, older: Cache[], url: string, file: Listed): Promise<void> {
  if (await kept(cache, url, file)) return;
  for (const other of older) {
    const same = await other.match(url, { ignoreVary: true });
    if (same && (await isRight(same.clone(), file))) {
      await cache.put(url, same);
      return;
    }
  }
  await cache.put(url, await download(url, file));
  checked.add(url);
}

/** Put every file in place; returns the number that could not be had. */
async function keepAll(report: boolean): Promise<unknown[]> {
  const cache = await caches.open(current);
  const older = await earlier();
  const queue = [...files];
  const problems: unknown[] = [];
  let done = 0;
  const lane = async (): Promise<void> => {
    for (let next = queue.shift(); next && !leaving.signal.aborted; next = queue.shift()) {
      const [url, file] = next;
      try {
        await keep(cache, older, url, file);
      } catch (problem) {
        problems.push(problem);
        // Without this file there is no whole version, so the rest is not fetched in vain.
        if (report) queue.length = 0;
      }
      done += file.bytes;
      if (report) await tell({ kind: "keeping", done, total });
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, lane));
  return problems;
}

function reason(problem: unknown): Reason {
  if (problem instanceof OtherVersion) return "changed";
  // A network that is gone is a TypeError.
  if (!(problem instanceof DOMException)) return "network";
  return problem.name === "QuotaExceededError" ? "room" : "storage";
}

async function install(): Promise<void> {
  const [problem] = await keepAll(true).catch((problem: unknown) => [problem]);
  if (problem === undefined) return;
  await tell({ kind: "failed", reason: reason(problem) });
  throw problem;
}

async function activate(): Promise<void> {
  for (const name of await caches.keys()) {
    if (name.startsWith(ours) && name !== current) await caches.delete(name);
  }
}

async function check(): Promise<FromKeeper | null> {
  const problems = await keepAll(false).catch((problem: unknown) => [...files].map(() => problem));
  if (leaving.signal.aborted) return null;
  if (problems.some((each) => reason(each) === "changed")) await giveWay();
  return {
    kind: "kept",
    version: VERSION,
    size: total,
    files: files.size,
    missing: problems.length,
    reason: problems.length ? reason(problems[0]) : null,
  };
}

let checking: Promise<FromKeeper | null> | undefined;

/** Look at everything once for all who ask meanwhile. */
async function answerCheck(source: Told["source"]): Promise<void> {
  checking ??= check().finally(() => (checking = undefined));
  const found = await checking;
  if (found) source?.postMessage(found);
}

function after(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}

/** Leave what is being done, and say so in a pause of the pages' requests. */
async function leave(told: readonly MessagePort[]): Promise<void> {
  leaving.abort();
  const latest = performance.now() + LONGEST_STAY;
  for (let now = performance.now(); now < latest && now - lastAsked < PAUSE; now = performance.now()) {
    await after(lastAsked + PAUSE - now);
  }
  for (const port of told) port.postMessage("left");
}

/** Take over from the version that is in use, once it has left what it does. */
async function take(): Promise<void> {
  const { active } = self.registration;
  if (active) {
    const { port1, port2 } = new MessageChannel();
    const left = new Promise((resolve) => (port1.onmessage = resolve));
    active.postMessage({ kind: "leave" } satisfies ToKeeper, [port2]);
    await Promise.race([left, after(LONGEST_STAY + PAUSE)]);
  }
  await self.skipWaiting();
}

/** What is kept can't be made whole, because the server has another version: let that one in. */
async function giveWay(): Promise<void> {
  const registration = await self.registration.update();
  const next = registration as unknown as ServiceWorkerRegistration | undefined;
  const { installing, waiting } = next ?? self.registration;
  (installing ?? waiting)?.postMessage({ kind: "take" } satisfies ToKeeper);
}

function notice(text: string, again: boolean): Response {
  const refresh = again ? '<meta http-equiv="refresh" content="3">' : "";
  const html =
    `<!doctype html><html lang="en"><meta charset="utf-8">${refresh}` +
    '<meta name="viewport" content="width=device-width"><title>Yardstick</title>' +
    `<body style="font:1.1rem/1.5 system-ui;max-width:34rem;margin:3rem auto;padding:0 1rem">` +
    `<h1>This page can't be shown</h1><p>${text}</p><p><a href="${root}">Go to the first page</a></p>`;
  const headers = { "Content-Type": "text/html; charset=utf-8", "Cache-Control": "no-store" };
  return new Response(html, { status: 503, headers });
}

async function answer(event: Fetching, url: string, file: Listed): Promise<Response> {
  try {
    // A browser that can't open what it kept still gets its page, and so does one without room.
    const cache = await caches.open(current).catch(() => null);
    const found = cache && (await kept(cache, url, file).catch(() => undefined));
    if (found) return found;
    const fresh = await download(url, file);
    if (cache) event.waitUntil(cache.put(url, fresh.clone()).catch(() => undefined));
    return fresh;
  } catch (problem) {
    const changed = reason(problem) === "changed";
    if (changed) event.waitUntil(giveWay().catch(() => undefined));
    if (event.request.mode !== "navigate") return Response.error();
    return changed
      ? notice("A new version of the site is being fetched. This page opens by itself.", true)
      : notice(
          "It is missing from the copy of the site that this device keeps, or damaged there, and " +
            "there is no network to fetch it again. Other pages may still open.",
          false,
        );
  }
}

/**
 * Answer what the device's share menu posts: the text goes on to the page that reads messages, behind
 * the # of its address, which no browser sends. So what is shared never leaves the device.
 */
async function takeShared(request: Request): Promise<Response> {
  const given = await request.formData().catch(() => new FormData());
  const text = SHARED_PARTS.map((name) => given.get(name))
    .filter((part): part is string => typeof part === "string" && part.trim() !== "")
    .join("\n");
  const fragment = new URLSearchParams({ [SHARED_NAME]: text.slice(0, LONGEST_SHARED) });
  return Response.redirect(`${root}${SHARED_PAGE}#${fragment}`, 303);
}

async function elsewhere(request: Request, url: string): Promise<Response> {
  if (files.has(`${url}/`)) return Response.redirect(`${url}/`, 302);
  try {
    return await fetch(request);
  } catch {
    return notice("It is not among the pages kept on this device, and there is no network.", false);
  }
}

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));

self.addEventListener("fetch", (event) => {
  lastAsked = performance.now();
  const { method, mode, url } = event.request;
  const plain = url.split(/[?#]/)[0]!.replace(/\/index\.html$/, "/");
  if (method === "POST" && plain === root + SHARED_PAGE) event.respondWith(takeShared(event.request));
  if (method !== "GET" || !plain.startsWith(root)) return;
  const file = files.get(plain);
  if (file) event.respondWith(answer(event, plain, file));
  else if (mode === "navigate") event.respondWith(elsewhere(event.request, plain));
});

self.addEventListener("message", (event) => {
  const { data, source, ports } = event;
  if (data.kind === "take") event.waitUntil(take());
  if (data.kind === "leave") event.waitUntil(leave(ports));
  // A page that was loaded before there was a worker is answered from here only if it is of the
  // very version that is kept.
  if (data.kind === "claim" && data.version === VERSION) event.waitUntil(self.clients.claim());
  if (data.kind === "check") event.waitUntil(answerCheck(source));
});
