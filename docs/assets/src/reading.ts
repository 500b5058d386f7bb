/** What Python reads in a message, and the asking for it. */

import type { Engine } from "./engine";
import type { Machine } from "./machines";
import type { Request, Units } from "./protocol";

export type Span = [number, number];

export interface Choice {
  text: string;
  shown: string;
}

/** A field that a question wants and the message doesn't give, and where to read it. */
export interface Missing {
  name: string;
  label: string;
  help: string;
  options: Choice[];
}

/** A field of a question: its name, what it takes, how that is shown, and the words it came from. */
export interface Filled {
  name: string;
  text: string;
  label: string;
  shown: string;
  spans: Span[];
  why: string;
  /** Every option of a choice; none for what is typed. */
  options: Choice[];
}

export interface Option {
  name: string;
  text: string;
  label: string;
  shown: string;
}

export interface ReadQuestion {
  /** False for a worksheet that was only to be filled. */
  asked: boolean;
  worksheet: string;
  ask: string;
  question: string;
  page: string;
  /** The part of an address that opens it with what the message gives. */
  link: string;
  spans: Span[];
  filled: Filled[];
  missing: Missing[];
  unclear: { spans: Span[]; options: Option[] }[];
}

export interface Read {
  ok: boolean;
  text: string;
  questions: ReadQuestion[];
  lost: Span[];
}

/** Ask Python to read `text`; null when a newer message took its place. */
export async function readMessage(
  engine: Engine,
  text: string,
  units: Units,
  machines: readonly Machine[],
  also: readonly string[] = [],
): Promise<Read | null> {
  const named = machines
    .filter((machine) => text.toLowerCase().includes(machine.name.toLowerCase()))
    .map(({ name, role, inputs }) => ({ name, role, inputs }));
  const request = { kind: "read", worksheet: "", stage: "full", inputs: {}, units, text, machines: named, also };
  const answer = (await engine.ask(request as unknown as Request)) as unknown as Read | null;
  return answer?.ok ? answer : null;
}
