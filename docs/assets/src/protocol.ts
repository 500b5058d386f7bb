/** What the page and the worker say to each other, and what the build tells both. */

import type { Mark } from "./digest";

/** One file of the runtime: its name beside the worker script, and the mark of its content. */
export interface Part extends Mark {
  name: string;
  /** The bytes that travel. */
  size: number;
  /** The same of the packed file beside it, where there is one. */
  packed?: number;
}

/** Written by the build: where the runtime lies. */
export interface Place {
  /** Folder of the runtime's files, relative to the folder of the client script. */
  folder: string;
  worker: string;
}

/** Written by the build: what the runtime consists of. */
export interface Runtime {
  wasm: Part;
  /** What of it is hardly ever called; null where it is whole. */
  cold: Part | null;
  /** All of it as it comes, for when that part can't be had. */
  whole: Part | null;
  /** The standard library, and calc with what it stands on. */
  library: Part;
  /** What of that the page of one calculator takes, by its name. */
  shares: Record<string, Part>;
  /** What Python's memory holds once it has started from these two and has answered. */
  memory: Part;
  /** A request, and the CRC-32 of its answer, by which a Python is known to be in order. */
  known: { request: string; answer: number };
  /** The runtime's own package index, emptied: nothing is ever loaded by name. */
  index: string;
}

/** A form's state, as `calc.render.live.respond` takes it. */
export interface Request {
  worksheet: string;
  /** The inputs that somebody gave. */
  inputs: Record<string, string>;
  /** The example that the page shows, true for its own: it stands in for what wasn't given. */
  example: boolean | Record<string, string>;
  /** Which of the worksheet's questions leads. */
  ask: string;
  units: Units;
  stage: Stage;
  /** Which of several questions on a page it is; its answer is then a few lines. */
  entry?: string;
  /** For the replies: the address of the page, filled in; left out where it leads nowhere. */
  link?: string;
  /** The shortest address of the same, for a message. */
  short_link?: string;
  /** A line that names the machines, where they have names. */
  about?: string;
  /** A line about who replies. */
  sender?: string;
  /** The parts that the shop attaches to remedies. */
  parts?: unknown[];
}

export type Units = "us" | "metric";
/** How it stands at the middle values, the whole answer, or what is added to it: how the machines
 * that fit divide, what errors of measuring do, and what is sent. */
export type Stage = "exact" | "full" | "odds" | "effects" | "replies";

/** The stages that add to an answer on the page and are no answer themselves. */
export const ADDED: readonly Stage[] = ["odds", "effects"];

export interface Response {
  stage: Stage;
  ok: boolean;
  /** False where the whole answer is still to come: then there is no more than how it stands. */
  final: boolean;
  finding?: string;
  html?: string;
  /** What somebody says who speaks of it, where the question is one of several. */
  outline?: string[];
  /** The line that stays in sight. */
  sight?: string;
  odds?: string;
  effects?: string;
  errors: Record<string, string>;
  hints: Record<string, string>;
  reply?: string;
  reply_html?: string;
  short?: string;
  short_has_link?: boolean;
  /** Whether there is something to ask the customer. */
  asks_back?: boolean;
  /** What to ask the customer while it can't be told; empty once it can. */
  ask_back?: string;
}

/** A runtime part as the offline copy carries it: gzipped, in base64, by name. */
export type PackedParts = Record<string, string>;

/** Behind the address of the worker's script, which knows no page: how it is to start. */
export type Start =
  /** For whatever may be asked. */
  | ""
  /** For one calculator. */
  | `#for-${string}`
  /** Without the memory of an earlier Python. */
  | "#anew"
  /** The same, and with all of the runtime as it comes. */
  | "#whole";

/** How the worker is to start for a page with this calculator alone ("": for any other page). */
export function startFor(worksheet: string | undefined): Start {
  return worksheet ? `#for-${worksheet}` : "";
}

/** From the page to the worker. Only the offline copy starts it: elsewhere it starts by itself. */
export type ToWorker =
  | { kind: "start"; parts: PackedParts }
  | { kind: "ask"; request: string };

/** Why the calculator isn't there, or an answer. */
export type Cause =
  /** The network broke off, or there is none. */
  | "network"
  /** The server has no such file. */
  | "missing"
  /** A file isn't the one that the build wrote. */
  | "damaged"
  /** The server has a version of the site that this page is not of. */
  | "newer"
  /** The page stands in a frame that lets it run nothing. */
  | "frame"
  /** The worker, or Python in it, did not start. */
  | "start"
  /** It died in the middle of an answer. */
  | "died"
  /** It took longer over an answer than anybody waits. */
  | "late";

export interface Trouble {
  cause: Cause;
  /** What the browser says of it. */
  detail: string;
}

/** From the worker to the page. */
export type FromWorker =
  | { kind: "progress"; loaded: number; total: number }
  | { kind: "ready" }
  | { kind: "answer"; response: string }
  /** A part that is hardly ever called can't be had: start anew with all of the runtime. */
  | { kind: "whole"; detail: string }
  /** This Python was started for one calculator, and the question takes more: start another. */
  | { kind: "beyond" }
  | ({ kind: "failed" } & Trouble);
