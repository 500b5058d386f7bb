/**
 * The part of an address after the `#`, so that inputs reach no server's log; as calc.links writes
 * and reads it. Both are held to the vectors in tests/data/links.json.
 */

import type { Units } from "./protocol";

export const LONGEST_LINK = 100_000;
const VERSION = "2";
/** The units of bare numbers in a link that names none. */
export const LINKS_UNITS: Units = "us";
/** In the example's place: the page's own. */
const PAGES = "1";
/** Words of a link that are no fields, in the order in which they are written. */
const WORDS = ["v", "on", "ask", "example", "wanted", "units"];

/** Names that fields had in older links, and options that choices had, as in calc.links. */
const ALIASES = new Map([["chipper_opening", "working_width"]]);
const OPTION_ALIASES = new Map([["joint=advised", "standard"]]);

export interface LinkState {
  inputs: Record<string, string>;
  /** "" where the link doesn't say. */
  units: Units | "";
  /** Which question leads; "" for the page's first. */
  ask: string;
  /** The worksheet that it is for, where a page holds several; "" for the first. */
  sheet: string;
  /** Whether it opens the page's example. */
  example: boolean;
  /** Which of the inputs are an example's, and nobody's own. */
  examples: string[];
  /** "" for a link of the time before links had one. */
  version: string;
  /** The only fields that whoever opens it is asked for. */
  wanted: string[];
}

export const NO_LINK: LinkState = {
  inputs: {},
  units: "",
  ask: "",
  sheet: "",
  example: false,
  examples: [],
  version: VERSION,
  wanted: [],
};

function names(listed: string): string[] {
  return listed.split(",").filter(Boolean);
}

/** Read the part after `#`; null when it holds no inputs (a plain anchor, or nothing). */
export function readLink(hash: string): LinkState | null {
  const text = hash.replace(/^#/, "");
  if (!text.includes("=")) return null;
  const inputs: Record<string, string> = {};
  const words: Record<string, string> = {};
  for (const [name, value] of new URLSearchParams(text)) {
    if (WORDS.includes(name)) words[name] = value;
    else inputs[ALIASES.get(name) ?? name] = OPTION_ALIASES.get(`${name}=${value}`) ?? value;
  }
  const { v = "", on = "", ask = "", example = "", wanted = "", units = "" } = words;
  return {
    inputs,
    units: units && (units === "metric" ? "metric" : "us"),
    ask,
    sheet: on,
    example: example === PAGES,
    examples: example === PAGES ? [] : names(example),
    version: v,
    wanted: names(wanted),
  };
}

/** Write what differs from nothing; inputs that are blank are left out. */
export function writeLink(state: LinkState): string {
  const parts = new URLSearchParams();
  const words: Record<string, string> = {
    v: VERSION,
    on: state.sheet,
    ask: state.ask,
    example: state.example ? PAGES : state.examples.join(","),
    wanted: state.wanted.join(","),
    units: state.units === LINKS_UNITS ? "" : state.units,
  };
  for (const word of WORDS) if (words[word]) parts.append(word, words[word] ?? "");
  for (const [name, value] of Object.entries(state.inputs)) {
    if (value.trim()) parts.append(name, value.trim());
  }
  return parts.toString();
}
