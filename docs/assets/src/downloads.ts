/**
 * The runtime's parts: fetched, counted on the way, and taken only when they are what the build wrote.
 * What comes otherwise is fetched once more, past everything that the browser keeps.
 */

import { isWhole } from "./digest";
import { wordsOf } from "./problem";
import type { Cause, Part, Trouble } from "./protocol";
import { type Bytes, isPlain, unpacked } from "./unpacking";

/** Why a part can't be had. */
export class PartTrouble extends Error implements Trouble {
  constructor(
    override readonly cause: Cause,
    readonly detail: string,
  ) {
    super(detail);
  }
}

/** Called with the bytes of a part that are here so far. */
export type Counting = (part: Part, loaded: number) => void;

// The worker answers Python's own fetches; these are for the network.
const networkFetch = globalThis.fetch.bind(globalThis);

async function ask(
  url: string,
  part: Part,
  cache: RequestCache,
  signal?: AbortSignal,
): Promise<Response> {
  let response: Response;
  try {
    response = await networkFetch(url, { cache, signal: signal ?? null });
  } catch (problem) {
    throw new PartTrouble("network", wordsOf(problem));
  }
  if (!response.ok) throw new PartTrouble("missing", `${part.name}: ${response.status}`);
  return response;
}

/** Everything that arrives of `response`. */
async function gather(response: Response, part: Part, count: Counting): Promise<Bytes> {
  const chunks: Bytes[] = [];
  let size = 0;
  try {
    const reader = response.body!.getReader();
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      chunks.push(value);
      size += value.byteLength;
      count(part, size);
    }
  } catch (problem) {
    throw new PartTrouble("network", wordsOf(problem));
  }
  const whole = new Uint8Array(size);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.byteLength;
  }
  return whole;
}

async function content(bytes: Bytes, part: Part): Promise<Bytes> {
  const found = await unpacked(bytes).catch(() => new Uint8Array());
  if (await isWhole(found, part)) return found;
  throw new PartTrouble("damaged", `${part.name}: ${bytes.byteLength} bytes`);
}

async function twice<T>(attempt: (cache: RequestCache) => Promise<T>): Promise<T> {
  try {
    return await attempt("default");
  } catch {
    return attempt("reload");
  }
}

/** The content of a part that lies at `url`, unless `signal` puts an end to it. */
export function fetchPart(
  url: string,
  part: Part,
  count: Counting,
  signal?: AbortSignal,
): Promise<Bytes> {
  return twice(async (cache) =>
    content(await gather(await ask(url, part, cache, signal), part, count), part),
  );
}

/** The content of a part that the site keeps on this device, unpacked; null where it doesn't. */
export async function keptPart(url: string, part: Part): Promise<Bytes | null> {
  try {
    const found = await caches.match(url, { ignoreVary: true });
    const bytes = found && new Uint8Array(await found.arrayBuffer());
    return bytes && (await isWhole(bytes, part)) ? bytes : null;
  } catch {
    // Not every browser, nor every page, has such a place.
    return null;
  }
}

/** The content of a part that the offline copy carries, gzipped, in base64. */
export async function carriedPart(packed: string, part: Part): Promise<Bytes> {
  let bytes: Bytes;
  try {
    bytes = Uint8Array.from(atob(packed), (letter) => letter.charCodeAt(0));
  } catch (problem) {
    throw new PartTrouble("damaged", `${part.name}: ${wordsOf(problem)}`);
  }
  return content(bytes, part);
}

/** Some hosts don't know the type of a .wasm file, and the browser insists on it. */
function asWasm(response: Response): Response {
  const type = "application/wasm";
  if (response.headers.get("Content-Type")?.startsWith(type)) return response;
  return new Response(response.body, { headers: { "Content-Type": type } });
}

/** What `response` brings, compiled while it arrives. */
async function compiled(
  response: Response,
  part: Part,
  count: Counting,
): Promise<WebAssembly.Module> {
  // Looked at in a copy, so that what is compiled stays the browser's own.
  const copy = response.clone();
  const module = WebAssembly.compileStreaming(asWasm(response));
  // Of what is damaged only that is of interest.
  module.catch(() => undefined);
  await content(await gather(copy, part, count), part);
  return module;
}

/** The same from the packed file beside it, counted as if it were as large. */
async function compiledPacked(
  url: string,
  part: Part,
  count: Counting,
): Promise<WebAssembly.Module> {
  const larger = part.size / (part.packed ?? part.size);
  const bytes = await fetchPart(`${url}.gz`, part, (_, loaded) => count(part, loaded * larger));
  return WebAssembly.compile(bytes);
}

/**
 * The runtime that lies at `url`, compiled. On a link that isn't quick the packed file is had instead of
 * one that a host sends as it is.
 */
export function fetchModule(
  url: string,
  part: Part,
  count: Counting,
  isQuick: Promise<boolean>,
): Promise<WebAssembly.Module> {
  return twice(async (cache) => {
    const whole = new AbortController();
    const response = await ask(url, part, cache, whole.signal);
    if (isPlain(response)) void isQuick.then((quick) => quick || whole.abort());
    try {
      return await compiled(response, part, count);
    } catch (problem) {
      if (!whole.signal.aborted) throw problem;
      return compiledPacked(url, part, count);
    }
  });
}
