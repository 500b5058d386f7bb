/**
 * The worker: starts Python, then answers one request after another. The runtime's own script follows
 * in the same file, so the downloads begin before it is run.
 */

import type { FromWorker, PackedParts, Part, Runtime, ToWorker } from "./protocol";

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
const parts: Part[] = [RUNTIME.wasm, RUNTIME.library];
const total = parts.reduce((sum, part) => sum + part.size, 0);
let loaded = 0;

function say(message: FromWorker): void {
  scope.postMessage(message);
}

/** Count the bytes of `response` as they arrive, on a copy, so that it stays the browser's own. */
function counted(response: globalThis.Response): globalThis.Response {
  if (!response.ok || !response.body) {
    throw new Error(`A part of the calculator could not be loaded (${response.status}).`);
  }
  void response
    .clone()
    .body!.pipeTo(
      new WritableStream<Uint8Array>({
        write(chunk) {
          loaded += chunk.byteLength;
          say({ kind: "progress", loaded, total });
        },
      }),
    )
    // Whoever reads the response itself reports what went wrong.
    .catch(() => undefined);
  return response;
}

function isGzipped(bytes: Uint8Array): boolean {
  return bytes[0] === 0x1f && bytes[1] === 0x8b;
}

function unpack(bytes: Uint8Array): ReadableStream<Uint8Array> {
  const stream = new DecompressionStream("gzip");
  // Fed through its writer, because some browsers cannot stream a Blob from a file page.
  const writer = stream.writable.getWriter();
  void writer.write(bytes as BufferSource).then(() => writer.close());
  return stream.readable as ReadableStream<Uint8Array>;
}

/** A part that the offline copy carries, as if it came from a server. */
function fromMemory(packed: string, part: Part): globalThis.Response {
  const bytes = Uint8Array.from(atob(packed), (letter) => letter.charCodeAt(0));
  const type = part === RUNTIME.wasm ? "application/wasm" : "application/octet-stream";
  return new Response(unpack(bytes), { headers: { "Content-Type": type } });
}

/** A part from the server, unpacked unless the server did that on the way. */
async function fromServer(url: string, part: Part): Promise<globalThis.Response> {
  const response = counted(await networkFetch(url));
  if (part === RUNTIME.wasm) return response;
  const bytes = new Uint8Array(await response.arrayBuffer());
  return isGzipped(bytes) ? new Response(unpack(bytes)) : new Response(bytes as BodyInit);
}

/** Begin every download at once; Python then takes each part from here. */
function beginDownloads(
  folder: string,
  given: PackedParts | undefined,
): Map<string, Promise<globalThis.Response>> {
  const answers = new Map<string, Promise<globalThis.Response>>();
  for (const part of parts) {
    const url = folder + part.name;
    const packed = given?.[part.name];
    const answer = packed ? Promise.resolve(fromMemory(packed, part)) : fromServer(url, part);
    // A failure is reported by whoever waits for the part, not as an unhandled one.
    answer.catch(() => undefined);
    answers.set(url, answer);
  }
  return answers;
}

/** Some hosts don't know the type of a .wasm file, and the browser insists on it. */
function asWasm(response: globalThis.Response): globalThis.Response {
  const type = "application/wasm";
  if (response.headers.get("Content-Type")?.startsWith(type)) return response;
  return new Response(response.body, { headers: { "Content-Type": type } });
}

/**
 * Compile the runtime while its scripts are still being read, and hand it over when the runtime
 * asks for it.
 */
function compileEarly(response: Promise<globalThis.Response>): { restore(): void } {
  const original = WebAssembly.instantiateStreaming;
  const compiled = WebAssembly.compileStreaming(response.then(asWasm));
  compiled.catch(() => undefined);
  WebAssembly.instantiateStreaming = async (_source, imports) => {
    const module = await compiled;
    return { module, instance: await WebAssembly.instantiate(module, imports) };
  };
  return {
    restore() {
      WebAssembly.instantiateStreaming = original;
    },
  };
}

/** Start Python from the parts in `folder`, or from those `given`, as if they lay there. */
async function start(folder: string, given?: PackedParts): Promise<Python> {
  const answers = beginDownloads(folder, given);
  scope.fetch = (input, options) => {
    const url = input instanceof Request ? input.url : String(input);
    return answers.get(url) ?? networkFetch(input, options);
  };
  const compiled = compileEarly(answers.get(folder + RUNTIME.wasm.name)!);
  // Until the runtime's script has run.
  await Promise.resolve();
  const python = await loadPyodide({
    indexURL: folder,
    stdLibURL: folder + RUNTIME.library.name,
    lockFileContents: RUNTIME.index,
  });
  scope.fetch = networkFetch;
  compiled.restore();
  return python;
}

let live: Promise<{ respond(request: string): string }> | undefined;

function fail(problem: unknown): void {
  say({ kind: "failed", message: problem instanceof Error ? problem.message : String(problem) });
}

// The runtime also loads its parts in promises of its own.
addEventListener("unhandledrejection", (event) => {
  event.preventDefault();
  fail(event.reason);
});

function begin(folder: string, given?: PackedParts): void {
  live = start(folder, given).then((python) => {
    python.pyimport("dataclass_methods");
    return python.pyimport("calc.render.live");
  });
  live.then(() => say({ kind: "ready" }), fail);
}

scope.onmessage = async ({ data }) => {
  if (data.kind === "start") {
    // A page opened from a file has no address that a worker could resolve against.
    begin("https://offline.invalid/", data.parts);
    return;
  }
  try {
    const { respond } = await live!;
    say({ kind: "answer", id: data.id, response: respond(data.request) });
  } catch (problem) {
    fail(problem);
  }
};

// No message is waited for: it would come by way of the page's thread, which is busy at the start.
if (!OFFLINE) begin(new URL(".", location.href).href);
