/**
 * The worker: starts Python, then answers one request after another. The runtime's own script follows
 * in the same file, so the downloads begin before it is run.
 */

import { Cold, type Functions } from "./cold";
import { crc32 } from "./digest";
import { PartTrouble, carriedPart, fetchModule, fetchPart, keptPart } from "./downloads";
import { wordsOf } from "./problem";
import { startFor, type Cause, type FromWorker, type PackedParts, type Part, type Request, type Runtime, type Start, type ToWorker } from "./protocol";
import type { Bytes } from "./unpacking";

declare const RUNTIME: Runtime;
/** True where pages are opened from files: the page then hands over what a server would give. */
declare const OFFLINE: boolean;

interface Python {
  pyimport(name: string): { respond(request: string): string };
}

declare function loadPyodide(options: Record<string, unknown>): Promise<Python>;

const scope = globalThis as unknown as {
  postMessage(message: FromWorker): void;
  onmessage: ((event: MessageEvent<ToWorker>) => void) | null;
  fetch: typeof fetch;
};
const networkFetch = scope.fetch.bind(globalThis);
const { cold, memory, shares } = RUNTIME;
const way = location.hash as Start;
/** The calculator that all questions are about, if this start is for one alone. */
const worksheet = Object.keys(shares).find((name) => startFor(name) === way) ?? "";
const library = shares[worksheet] ?? RUNTIME.library;
/** So many bytes within so many milliseconds make a link quick. */
const QUICK = { bytes: 1e6, within: 100 };
/** As many of the memory have to be here so soon: what is quick may have been kept by the browser. */
const MEMORY_WITHIN = 300;
const loaded = new Map<Part, number>();
const itsFolder = OFFLINE ? "https://offline.invalid/" : new URL(".", location.href).href;
/** All of the runtime, where the part of it that is hardly ever called could not be had. */
const whole = way === "#whole" ? RUNTIME.whole : null;
const wasm = whole ?? RUNTIME.wasm;
const rest = new Cold(itsFolder + (cold?.name ?? ""), whole ? null : cold);
/** What this start takes; the memory, where it is taken, stands for the library. */
let wanted = [wasm, library];
/** Whether this Python can be asked about `worksheet` alone. */
let isNarrow = false;

function say(message: FromWorker): void {
  scope.postMessage(message);
}

function count(part: Part, bytes: number): void {
  loaded.set(part, bytes);
  const sum = (of: (part: Part) => number) => wanted.reduce((whole, each) => whole + of(each), 0);
  say({
    kind: "progress",
    loaded: sum((each) => loaded.get(each) ?? 0),
    total: sum((each) => each.size),
  });
}

/** What Python is made of. */
interface Parts {
  module: Promise<WebAssembly.Module>;
  /** The memory of a Python that has started already; null where starting anew is quicker. */
  memory: Promise<Bytes | null>;
  /** Begin to fetch the library, or take what was begun. */
  library: () => Promise<Bytes>;
}

/** Whether bytes come so quickly that the memory, the larger part, is here sooner than a start. */
class Link {
  private first = 0;
  private decide!: (quick: boolean) => void;
  readonly isQuick = new Promise<boolean>((resolve) => (this.decide = resolve));

  constructor() {
    const { connection } = navigator as { connection?: { saveData?: boolean } };
    if (connection?.saveData) this.decide(false);
  }

  /** Note that so many bytes are here; the last time, that there are no more. */
  note(bytes: number, last = false): void {
    const now = performance.now();
    this.first ||= now;
    const within = now - this.first <= QUICK.within;
    if (last || !within || bytes >= QUICK.bytes) this.decide(within && bytes >= QUICK.bytes);
  }
}

/** What one calculator takes of the library, or all of it: that is kept where the share is not. */
async function fetchLibrary(folder: string): Promise<Bytes> {
  isNarrow = worksheet !== "";
  if (isNarrow) {
    try {
      return await fetchPart(folder + library.name, library, count);
    } catch {
      isNarrow = false;
      wanted = [wasm, RUNTIME.library];
    }
  }
  const url = folder + RUNTIME.library.name;
  return (await keptPart(url, RUNTIME.library)) ?? fetchPart(url, RUNTIME.library, count);
}

/** Begin every download at once. */
function download(folder: string): Parts {
  const link = new Link();
  const counting = (part: Part, bytes: number): void => {
    link.note(bytes, bytes === part.length);
    count(part, bytes);
  };
  const module = whole
    ? fetchPart(folder + whole.name, whole, counting).then((bytes) => WebAssembly.compile(bytes))
    : fetchModule(folder + wasm.name, wasm, counting, link.isQuick);
  module.catch(() => link.note(0, true));
  let fetched: Promise<Bytes> | undefined;
  const itsLibrary = () => (fetched ??= fetchLibrary(folder));
  const itsMemory = async (): Promise<Bytes | null> => {
    const kept = await keptPart(folder + memory.name, memory);
    if (kept) {
      wanted = [wasm];
      return kept;
    }
    // It is said where it is waited for.
    itsLibrary().catch(() => undefined);
    if (!(await link.isQuick)) return null;
    wanted = [wasm, memory];
    const late = new AbortController();
    const timer = setTimeout(() => late.abort(), MEMORY_WITHIN);
    const counted = (part: Part, bytes: number): void => {
      if (bytes >= QUICK.bytes) clearTimeout(timer);
      count(part, bytes);
    };
    return fetchPart(folder + memory.name, memory, counted, late.signal);
  };
  // After a start that failed everything is had from its sources.
  const anew = way === "#anew" || whole !== null;
  return {
    module,
    memory: anew ? Promise.resolve(null) : itsMemory().catch(() => null),
    library: itsLibrary,
  };
}

/** Take the parts that the offline copy carries. */
function unpack(given: PackedParts): Parts {
  const take = (part: Part) => carriedPart(given[part.name] ?? "", part);
  const itsLibrary = take(library);
  const itsRest = cold ? take(cold).then((bytes) => rest.hold(bytes)) : undefined;
  return {
    module: take(wasm).then(async (bytes) => {
      await itsRest;
      return WebAssembly.compile(bytes);
    }),
    memory: Promise.resolve(null),
    library: () => itsLibrary,
  };
}

/**
 * Hand the parts over when the runtime asks for them, as if they came from `folder`: it is compiled
 * while its scripts are still being read. Returns what puts the browser's own ways back.
 */
function handOver(
  folder: string,
  module: Promise<WebAssembly.Module>,
  itsLibrary: Promise<Bytes>,
): () => void {
  const { instantiateStreaming } = WebAssembly;
  WebAssembly.instantiateStreaming = async (_source, imports) => {
    const compiled = await module;
    const joined = rest.joinedTo(imports as Functions, () => instance);
    const instance = await WebAssembly.instantiate(compiled, joined);
    return { module: compiled, instance };
  };
  scope.fetch = async (input, options) => {
    const url = input instanceof Request ? input.url : String(input);
    if (url === folder + library.name) return new Response(await itsLibrary);
    if (url === folder + wasm.name) return new Response();
    return networkFetch(input, options);
  };
  return () => {
    WebAssembly.instantiateStreaming = instantiateStreaming;
    scope.fetch = networkFetch;
  };
}

type Respond = (request: string) => string;

/** Start Python, as if its parts lay in `folder`; with a memory it needs no library. */
async function start(
  folder: string,
  module: Promise<WebAssembly.Module>,
  itsLibrary: Promise<Bytes>,
  itsMemory?: Bytes,
): Promise<Respond> {
  const restore = handOver(folder, module, itsLibrary);
  const python = loadPyodide({
    indexURL: folder,
    stdLibURL: folder + library.name,
    lockFileContents: RUNTIME.index,
    ...(itsMemory && { _loadSnapshot: itsMemory }),
  });
  // The runtime itself would wait for ever for a part that can't be had.
  await Promise.all([python, module, itsLibrary]).finally(restore);
  const running = await python;
  running.pyimport("dataclass_methods");
  return running.pyimport("calc.render.live").respond;
}

/** Start from the memory; null when that does not give the answer that the build knows. */
async function startFrom(itsMemory: Bytes, folder: string, parts: Parts): Promise<Respond | null> {
  try {
    const nothing = Promise.resolve(new Uint8Array());
    const respond = await start(folder, parts.module, nothing, itsMemory);
    const answer = new TextEncoder().encode(respond(RUNTIME.known.request));
    return crc32(answer) === RUNTIME.known.answer ? respond : null;
  } catch {
    return null;
  }
}

/** Start by the quicker of the two ways; where the memory can't be used, by the other. */
async function startOneWay(folder: string, parts: Parts): Promise<Respond> {
  const itsMemory = await parts.memory;
  const respond = itsMemory && (await startFrom(itsMemory, folder, parts));
  if (respond) {
    isNarrow = false;
    return respond;
  }
  wanted = [wasm, isNarrow ? library : RUNTIME.library];
  return start(folder, parts.module, parts.library());
}

let answering: Promise<Respond> | undefined;
/** Stands in an answer where Python broke off. */
const FAULT = '"fault": ';

/** Whether a question is about the calculator that this Python was started for. */
function isOurs(request: string): boolean {
  return (JSON.parse(request) as Request).worksheet === worksheet;
}

function fail(cause: Cause, problem: unknown): void {
  if (rest.problem) say({ kind: "whole", detail: rest.problem });
  else if (problem instanceof PartTrouble) say({ kind: "failed", cause: problem.cause, detail: problem.detail });
  else say({ kind: "failed", cause, detail: wordsOf(problem) });
}

// The runtime also loads its parts in promises of its own.
addEventListener("unhandledrejection", (event) => {
  event.preventDefault();
  fail("start", event.reason);
});

function begin(folder: string, parts: Parts): void {
  answering = startOneWay(folder, parts);
  answering.then(
    () => {
      if (rest.problem) return fail("start", rest.problem);
      say({ kind: "ready" });
      // Once there is no network, not every browser asks the service worker in the middle of an answer.
      if (cold && !OFFLINE) void keptPart(folder + cold.name, cold).then((bytes) => rest.hold(bytes));
    },
    (problem) => fail("start", problem),
  );
}

scope.onmessage = async ({ data }) => {
  if (data.kind === "start") {
    // A page opened from a file has no address that a worker could resolve against.
    begin(itsFolder, unpack(data.parts));
    return;
  }
  // Why it did not start is said once.
  const respond = await answering!.catch(() => null);
  if (!respond) return;
  try {
    const response = isNarrow && !isOurs(data.request) ? null : respond(data.request);
    if (rest.problem) fail("died", rest.problem);
    // Something was not there that a share should hold: whatever it is, the whole library has it.
    else if (response === null || (isNarrow && response.includes(FAULT))) say({ kind: "beyond" });
    else say({ kind: "answer", response });
  } catch (problem) {
    fail("died", problem);
  }
};

// No message is waited for: it would come by way of the page's thread, which is busy at the start.
if (!OFFLINE) begin(itsFolder, download(itsFolder));
