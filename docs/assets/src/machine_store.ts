/** The machines that the reader keeps on this device. */

import { createStore, entries, promisifyRequest } from "idb-keyval";
import { FORMAT, LONGEST_NAME, MOST_MACHINES, VERSION, isRecord, readContents } from "./machine_file";
import { type Machine, type Role, sameName } from "./machines";
import { wordsOf } from "./problem";

/** A machine that the reader keeps. */
export interface Kept extends Machine {
  id: string;
}

/** Something the device held that this version could not use, kept for the reader. */
export interface Aside {
  key: string;
  since: string;
  value: unknown;
  why: string;
}

export interface Shelf {
  machines: Kept[];
  aside: Aside[];
  /** Why nothing can be kept in this browser; empty when it can. */
  problem: string;
}

const KEY = "machines";
const ASIDE = "set-aside ";
/** The longest that the browser's storage may take before it is given up [ms]. */
const LONGEST_WAIT = 5000;
/** So many problems of a damaged list are told one by one. */
const TOLD = 5;

/** A change that isn't made; its message is a sentence for the reader. */
class Refused extends Error {}

/** Why something could not be kept, in a sentence. */
export function whyNotKept(problem: unknown): string {
  if (problem instanceof Refused) return problem.message;
  const words = wordsOf(problem);
  if (problem instanceof DOMException && problem.name === "QuotaExceededError") {
    return `There is no room left for it on this device. (${words})`;
  }
  return `This browser lets the page keep nothing. (${words})`;
}

function newId(): string {
  // crypto.randomUUID is missing on pages without a secure context.
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** What stands in the device's store under `KEY`, with ids; `whole` is false when it was mended. */
function openStore(value: unknown): { machines: Kept[]; whole: boolean; why: string } {
  if (value === undefined) return { machines: [], whole: true, why: "" };
  const { machines, problems, refused } = readContents(value);
  const held = isRecord(value) && Array.isArray(value["machines"]) ? value["machines"] : [];
  const ids = new Map<string, string>();
  for (const each of held) {
    if (!isRecord(each)) continue;
    const { role, name, id } = each;
    if (typeof role !== "string" || typeof name !== "string" || typeof id !== "string") continue;
    ids.set(`${role} ${name.trim()}`, id);
  }
  const kept = machines.map((machine) => {
    const known = `${machine.role} ${machine.name}`;
    return { ...machine, id: ids.get(known) ?? known };
  });
  const more = problems.length > TOLD ? [`And ${problems.length - TOLD} more.`] : [];
  const why = refused || [...problems.slice(0, TOLD), ...more].join(" ");
  return { machines: kept, whole: !why, why };
}

/** The form in which the device keeps `machines`: only what can be read again just so. */
function toKeep(machines: Kept[]): unknown {
  if (machines.length > MOST_MACHINES) {
    throw new Refused(
      `This device keeps ${MOST_MACHINES.toLocaleString("en")} machines and no more: delete one first.`,
    );
  }
  const value = { format: FORMAT, version: VERSION, machines };
  const { whole, why } = openStore(value);
  if (!whole) throw new Refused(why);
  return value;
}

/** A name that no other machine of that role has. */
function freeName(machines: readonly Machine[], name: string, role: Role): string {
  if (!machines.some((each) => sameName(each, name, role))) return name;
  for (let number = 2; ; number += 1) {
    const tail = ` (${number})`;
    const tried = name.slice(0, LONGEST_NAME - tail.length) + tail;
    if (!machines.some((each) => sameName(each, tried, role))) return tried;
  }
}

/** The reader's machines. Every change reads, edits and writes in one transaction. */
export class MachineStore {
  private readonly store = createStore("yardstick", "machines");
  private readonly listeners = new Set<(shelf: Shelf) => void>();
  private readonly channel: BroadcastChannel | undefined;
  private shelf: Shelf = { machines: [], aside: [], problem: "" };
  private looked: Promise<void> | undefined;

  constructor() {
    try {
      this.channel = new BroadcastChannel("yardstick-machines");
      this.channel.onmessage = () => void this.look();
    } catch {
      // Some browsers refuse it for a page opened from a file; other tabs then see a change late.
    }
  }

  /** Call `listener` with the machines once they are read and at every change, in any tab. */
  watch(listener: (shelf: Shelf) => void): () => void {
    this.listeners.add(listener);
    this.looked ??= this.look();
    void this.looked.then(() => this.listeners.has(listener) && listener(this.shelf));
    return () => this.listeners.delete(listener);
  }

  /** Keep a machine. One of the same name gets these fields and keeps its others. */
  async save(machine: Machine, fields: readonly string[]): Promise<void> {
    const name = machine.name.trim();
    await this.change((machines) => {
      const old = machines.find((each) => sameName(each, name, machine.role));
      if (!old) return [...machines, { ...machine, name, id: newId() }];
      const others = Object.entries(old.inputs).filter(([field]) => !fields.includes(field));
      const inputs = { ...Object.fromEntries(others), ...machine.inputs };
      return machines.map((each) => (each === old ? { ...old, inputs } : each));
    });
  }

  /** Rename, unless another machine of its role has that name, or the machine is gone. */
  async rename(id: string, name: string): Promise<"renamed" | "taken" | "gone"> {
    let outcome: "renamed" | "taken" | "gone" = "gone";
    await this.change((machines) => {
      const one = machines.find((each) => each.id === id);
      if (!one) return machines;
      const taken = machines.some((each) => each.id !== id && sameName(each, name, one.role));
      outcome = taken ? "taken" : "renamed";
      return taken ? machines : machines.map((each) => (each === one ? { ...one, name } : each));
    });
    return outcome;
  }

  async remove(id: string): Promise<void> {
    await this.change((machines) => machines.filter((each) => each.id !== id));
  }

  /** Add machines from a file: equal ones once, others of a name that is taken beside it. */
  async add(given: readonly Machine[]): Promise<{ added: number; known: number; over: number }> {
    const count = { added: 0, known: 0, over: 0 };
    await this.change((machines) => {
      Object.assign(count, { added: 0, known: 0, over: 0 });
      const all = [...machines];
      for (const machine of given) {
        const text = JSON.stringify(Object.entries(machine.inputs).sort());
        const equal = all.some(
          (each) =>
            sameName(each, machine.name, machine.role) &&
            JSON.stringify(Object.entries(each.inputs).sort()) === text,
        );
        if (equal) count.known += 1;
        else if (all.length >= MOST_MACHINES) count.over += 1;
        else {
          const name = freeName(all, machine.name, machine.role);
          all.push({ ...machine, name, id: newId() });
          count.added += 1;
        }
      }
      return all;
    });
    return count;
  }

  /** Give up what was set aside; only ever on the reader's word. */
  async drop(key: string): Promise<void> {
    await this.inTime("readwrite", (store) => {
      store.delete(key);
      return promisifyRequest(store.transaction);
    });
    await this.tell();
  }

  /** Do `work` in one transaction; when the storage doesn't answer in time it is undone. */
  private async inTime<T>(
    mode: IDBTransactionMode,
    work: (store: IDBObjectStore) => Promise<T>,
  ): Promise<T> {
    let late = false;
    let undo = (): void => undefined;
    const finished = this.store(mode, (store) => {
      undo = () => store.transaction.abort();
      if (late) undo();
      return work(store);
    });
    // Nobody hears of it any more once it was given up.
    finished.catch(() => undefined);
    let timer = 0;
    const limit = new Promise<never>((_, reject) => {
      timer = window.setTimeout(() => {
        late = true;
        try {
          undo();
        } catch {
          // It is being written in this very moment.
          return;
        }
        reject(new Refused("The browser's storage does not answer; another tab may be holding it."));
      }, LONGEST_WAIT);
    });
    return Promise.race([finished, limit]).finally(() => window.clearTimeout(timer));
  }

  private async change(edit: (machines: Kept[]) => Kept[]): Promise<void> {
    await this.write(edit);
    await this.tell();
  }

  /** Put what can't be read where it stays until the reader decides, and go on with the rest. */
  private async setAside(): Promise<void> {
    await this.write((machines) => machines);
    this.channel?.postMessage("changed");
  }

  private async write(edit: (machines: Kept[]) => Kept[]): Promise<void> {
    await this.inTime("readwrite", async (store) => {
      const transaction = store.transaction;
      const finished = promisifyRequest(transaction);
      finished.catch(() => undefined);
      let refusal: unknown;
      const asked = store.get(KEY);
      asked.onsuccess = () => {
        const { machines, whole } = openStore(asked.result);
        try {
          store.put(toKeep(edit(machines)), KEY);
          // In the same transaction, so that no other tab writes over it in between; the moment
          // alone would not tell two of them apart.
          if (!whole) store.put(asked.result, `${ASIDE}${new Date().toISOString()} ${newId()}`);
        } catch (problem) {
          refusal = problem;
          transaction.abort();
        }
      };
      await finished.catch((problem: unknown) => {
        throw refusal ?? problem;
      });
    });
  }

  private async tell(): Promise<void> {
    this.channel?.postMessage("changed");
    await this.look();
  }

  /** Everything that the device holds, by key. */
  private held(): Promise<[IDBValidKey, unknown][]> {
    return this.inTime("readonly", (store) => entries(async (_, take) => take(store)));
  }

  private async read(): Promise<Shelf> {
    let held = new Map(await this.held());
    let problem = "";
    if (!openStore(held.get(KEY)).whole) {
      try {
        await this.setAside();
        held = new Map(await this.held());
      } catch (trouble) {
        problem = whyNotKept(trouble);
      }
    }
    const aside: Aside[] = [];
    for (const [key, value] of held) {
      if (typeof key !== "string" || !key.startsWith(ASIDE)) continue;
      const since = key.slice(ASIDE.length).split(" ")[0]!;
      aside.push({ key, value, since, why: openStore(value).why });
    }
    const { machines } = openStore(held.get(KEY));
    machines.sort((a, b) => a.name.localeCompare(b.name, "en", { numeric: true }));
    return { machines, aside, problem };
  }

  private async look(): Promise<void> {
    try {
      this.shelf = await this.read();
    } catch (problem) {
      const why = `Machines can't be kept or read here. ${whyNotKept(problem)}`;
      this.shelf = { machines: [], aside: [], problem: why };
    }
    for (const listener of this.listeners) listener(this.shelf);
  }
}
