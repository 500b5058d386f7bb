/**
 * The worker: starts Python, then answers one request after another. The runtime's own script follows
 * in the same file, so the downloads begin before it is run.
 */

import { PartTrouble, carriedPart, fetchModule, fetchPart } from "./downloads";
import { wordsOf } from "./problem";
import type { Cause, FromWorker, PackedParts, Part, Runtime, ToWorker } from "./protocol";

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
const { wasm, library } = RUNTIME;
const loaded = new Map<Part, number>();

function say(message: FromWorker): void {
  scope.postMessage(message);
}

function count(part: Part, bytes: number): void {
  loaded.set(part, bytes);
  const sum = [...loaded.values()].reduce((one, other) => one + other, 0);
  say({ kind: "progress", loaded: sum, total: wasm.size + library.size });
}

/** What Python is made of. */
interface Parts {
  module: Promise<WebAssembly.Module>;
  library: Promise<Uint8Array<ArrayBuffer>>;
}

/** Begin every download at once. */
function download(folder: string): Parts {
  return {
    module: fetchModule(folder + wasm.name, wasm, count),
    library: fetchPart(folder + library.name, library, count),
  };
}

/** Take the parts that the offline copy carries. */
function unpack(given: PackedParts): Parts {
  const take = (part: Part) => carriedPart(given[part.name] ?? "", part);
  return { module: take(wasm).then((bytes) => WebAssembly.compile(bytes)), library: take(library) };
}

/**
 * Hand the parts over when the runtime asks for them, as if they came from `folder`: it is compiled
 * while its scripts are still being read. Returns what puts the browser's own ways back.
 */
function handOver(folder: string, parts: Parts): () => void {
  const { instantiateStreaming } = WebAssembly;
  WebAssembly.instantiateStreaming = async (_source, imports) => {
    const module = await parts.module;
    return { module, instance: await WebAssembly.instantiate(module, imports) };
  };
  scope.fetch = async (input, options) => {
    const url = input instanceof Request ? input.url : String(input);
    if (url === folder + library.name) return new Response(await parts.library);
    if (url === folder + wasm.name) return new Response();
    return networkFetch(input, options);
  };
  return () => {
    WebAssembly.instantiateStreaming = instantiateStreaming;
    scope.fetch = networkFetch;
  };
}

/** Start Python from the `parts`, as if they lay in `folder`. */
async function start(folder: string, parts: Parts): Promise<Python> {
  const restore = handOver(folder, parts);
  // Until the runtime's script has run.
  await Promise.resolve();
  const python = loadPyodide({
    indexURL: folder,
    stdLibURL: folder + library.name,
    lockFileContents: RUNTIME.index,
  });
  // The runtime itself would wait for ever for a part that can't be had.
  const started = Promise.all([python, parts.module, parts.library]);
  return started.then(() => python).finally(restore);
}

let answering: Promise<(request: string) => string> | undefined;

function fail(cause: Cause, problem: unknown): void {
  if (problem instanceof PartTrouble) say({ kind: "failed", cause: problem.cause, detail: problem.detail });
  else say({ kind: "failed", cause, detail: wordsOf(problem) });
}

// The runtime also loads its parts in promises of its own.
addEventListener("unhandledrejection", (event) => {
  event.preventDefault();
  fail("start", event.reason);
});

function begin(folder: string, parts: Parts): void {
  answering = start(folder, parts).then((python) => {
    python.pyimport("dataclass_methods");
    return python.pyimport("calc.render.live").respond;
  });
  answering.then(
    () => say({ kind: "ready" }),
    (problem) => fail("start", problem),
  );
}

scope.onmessage = async ({ data }) => {
  if (data.kind === "start") {
    // A page opened from a file has no address that a worker could resolve against.
    begin("https://offline.invalid/", unpack(data.parts));
    return;
  }
  // Why it did not start is said once.
  const respond = await answering!.catch(() => null);
  if (!respond) return;
  try {
    say({ kind: "answer", response: respond(data.request) });
  } catch (problem) {
    fail("died", problem);
  }
};

// No message is waited for: it would come by way of the page's thread, which is busy at the start.
if (!OFFLINE) {
  const folder = new URL(".", location.href).href;
  begin(folder, download(folder));
}
