/**
 * The part of the runtime that is hardly ever called. It is had in the middle of an answer, when it
 * is, so everything here waits for it; compiled code can't.
 */

import { crc32 } from "./digest";
import { wordsOf } from "./problem";
import type { Part } from "./protocol";
import type { Bytes } from "./unpacking";

export type Functions = Record<string, WebAssembly.ModuleImports>;

export class Cold {
  /** Why it can't be had; from then on nothing that Python says counts. */
  problem = "";
  private held: Bytes | null = null;

  /** `part` is null where the runtime is whole. */
  constructor(
    private readonly url: string,
    private readonly part: Part | null,
  ) {}

  /** Take what is here before it is called for. */
  hold(bytes: Bytes | null): void {
    this.held = bytes;
  }

  /** What the runtime imports, with a way to load the rest of it. */
  joinedTo(imports: Functions, instance: () => WebAssembly.Instance): Functions {
    if (!this.part) return imports;
    const load = (): void => {
      try {
        const module = new WebAssembly.Module(this.held ?? this.fetched(this.part!));
        // It puts its functions into a table of the first part.
        new WebAssembly.Instance(module, { ...imports, first: instance().exports });
      } catch (problem) {
        this.problem = wordsOf(problem);
        throw problem;
      }
    };
    return { ...imports, cold: { load } };
  }

  /** From the server, or from what answers in its place; once more, past what is kept. */
  private fetched(part: Part): Bytes {
    for (const anew of [false, true]) {
      const request = new XMLHttpRequest();
      request.open("GET", this.url, false);
      if (anew) request.setRequestHeader("Cache-Control", "no-cache");
      request.responseType = "arraybuffer";
      request.send();
      const bytes = new Uint8Array((request.response as ArrayBuffer | null) ?? new ArrayBuffer());
      if (bytes.byteLength === part.length && crc32(bytes) === part.crc) return bytes;
    }
    throw new Error(`${part.name} can't be had`);
  }
}
