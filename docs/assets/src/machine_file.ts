/** The readable file in which machines travel; the device keeps them in the same form. */

import type { Machine } from "./machines";
import { wordsOf } from "./problem";

export const FORMAT = "yardstick-machines";
export const VERSION = 1;
export const MOST_MACHINES = 2000;
export const LONGEST_NAME = 80;
const LONGEST_TEXT = 120;
const FIELD_NAME = /^[a-z][a-z0-9_]{0,39}$/;
/** Room for `MOST_MACHINES` described in full. */
export const LARGEST_FILE = 5_000_000;

interface Contents {
  machines: Machine[];
  /** A sentence for each part that could not be taken. */
  problems: string[];
  /** Why the whole can't be taken; empty when it can. */
  refused: string;
}

export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** Take one machine out of what a file or the device holds; a sentence when it can't be. */
function readMachine(value: unknown, number: number): Machine | string {
  const where = `Machine ${number}`;
  if (!isRecord(value)) return `${where} is not a machine.`;
  const { name, role, inputs } = value;
  if (typeof name !== "string" || !name.trim()) return `${where} has no name.`;
  if (name.length > LONGEST_NAME) return `${where} has a name of over ${LONGEST_NAME} characters.`;
  if (role !== "tractor" && role !== "implement") {
    return `${where}, “${name}”, is neither a tractor nor an implement.`;
  }
  if (!isRecord(inputs)) return `${where}, “${name}”, has no fields.`;
  const texts: Record<string, string> = {};
  for (const [field, text] of Object.entries(inputs)) {
    if (typeof text !== "string" || !FIELD_NAME.test(field) || text.length > LONGEST_TEXT) {
      return `${where}, “${name}”: its field “${field.slice(0, 40)}” can't be read.`;
    }
    texts[field] = text;
  }
  return { name: name.trim(), role, inputs: texts };
}

/** Read what a file or the device holds. */
export function readContents(value: unknown): Contents {
  const nothing = { machines: [], problems: [] };
  if (!isRecord(value) || value["format"] !== FORMAT) {
    return { ...nothing, refused: "It is not a list of machines from this calculator." };
  }
  const version = value["version"];
  if (typeof version === "number" && version > VERSION) {
    return {
      ...nothing,
      refused:
        `It was written by a newer version of this calculator (format ${version}; this one ` +
        `reads format ${VERSION}).`,
    };
  }
  if (version !== VERSION || !Array.isArray(value["machines"])) {
    return { ...nothing, refused: "It is damaged: its list of machines can't be read." };
  }
  const machines: Machine[] = [];
  const problems: string[] = [];
  value["machines"].slice(0, MOST_MACHINES).forEach((each, index) => {
    const machine = readMachine(each, index + 1);
    if (typeof machine === "string") problems.push(machine);
    else machines.push(machine);
  });
  if (value["machines"].length > MOST_MACHINES) {
    problems.push(`Only the first ${MOST_MACHINES} machines were taken.`);
  }
  return { machines, problems, refused: "" };
}

export function toFile(machines: readonly Machine[]): string {
  const plain = machines.map(({ name, role, inputs }) => ({ name, role, inputs }));
  return `${JSON.stringify({ format: FORMAT, version: VERSION, machines: plain }, null, 2)}\n`;
}

/** `value` with words for what JSON has none: a damaged store may hold anything. */
function plain(value: unknown, above: readonly unknown[] = []): unknown {
  if (typeof value === "bigint") return `${value}n`;
  if (typeof value === "number" && !Number.isFinite(value)) return String(value);
  if (typeof value !== "object" || value === null) return value;
  if (above.includes(value)) return "the whole of this again";
  const inside = (each: unknown): unknown => plain(each, [...above, value]);
  if (value instanceof Date) return String(value);
  if (value instanceof Map) return [...value].map(inside);
  if (Array.isArray(value) || value instanceof Set) return Array.from(value as Iterable<unknown>, inside);
  if (ArrayBuffer.isView(value) && !(value instanceof DataView)) {
    return Array.from(value as unknown as Iterable<unknown>, inside);
  }
  return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, inside(each)]));
}

/** Anything at all as readable text. */
export function asText(value: unknown): string {
  try {
    return `${JSON.stringify(plain(value), null, 2)}\n`;
  } catch (problem) {
    // Nested too deep, or longer than a text can be.
    return `It can't be written as text: ${wordsOf(problem)}\n`;
  }
}
