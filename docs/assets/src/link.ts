/** The inputs in an address, after the `#`, so that they reach no server's log. */

import type { Units } from "./protocol";

export const LONGEST_LINK = 100_000;

export interface LinkState {
  inputs: Record<string, string>;
  units: Units | undefined;
  /** It holds all that was given: what it leaves out is unknown, never the example's. */
  whole: boolean;
}

/** Words of a link that are no inputs, as calc.links writes them. */
const OTHER_WORDS = new Set(["ask", "on", "example"]);

/** Read the part after `#`; null when it holds no inputs (a plain anchor, or nothing). */
export function readLink(hash: string): LinkState | null {
  const text = hash.replace(/^#/, "");
  if (!text.includes("=")) return null;
  const inputs: Record<string, string> = {};
  let units: Units | undefined;
  let whole = false;
  for (const [name, value] of new URLSearchParams(text)) {
    if (name === "units") units = value === "metric" ? "metric" : "us";
    else if (name === "v") whole = true;
    else if (OTHER_WORDS.has(name)) continue;
    else inputs[name] = value;
  }
  return { inputs, units, whole };
}

/** Write the inputs that differ from `defaults` as the part after `#`; "" when none does. */
export function writeLink(
  inputs: Record<string, string>,
  defaults: Record<string, string>,
  units: Units,
): string {
  const parameters = new URLSearchParams();
  for (const [name, value] of Object.entries(inputs)) {
    if (value !== defaults[name]) parameters.append(name, value);
  }
  if (units === "metric") parameters.append("units", units);
  const text = parameters.toString();
  return text && `#${text}`;
}
