/** The machines that the reader keeps on this device. */

import { createStore, entries, promisifyRequest } from "idb-keyval";
import { FORMAT, LONGEST_NAME, MOST_MACHINES, VERSION, isRecord, readContents } from "./machine_file";
import { type Machine, type Role, sameName } from "./machines";

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
    if (isRecord(each) && typeof each["id"] === "string") {
      ids.set(`${String(each["role"])} ${String(each["name"]).trim()}`, each["id"]);
    }
  }
  const kept = machines.map((machine) => ({
    ...machine,
    id: ids.get(`${machine.role} ${machine.name}`) ?? newId(),
  }));
  return { machines: kept, whole: !refused && !problems.length, why: refused || problems.join(" ") };
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

  /** Rename; false when another machine of its role has that name. */
  async rename(id: string, name: string): Promise<boolean> {
    let done = true;
    await this.change((machines) => {
      const one = machines.find((each) => each.id === id);
      if (!one) return machines;
      done = !machines.some((each) => each.id !== id && sameName(each, name, one.role));
      return done ? machines.map((each) => (each === one ? { ...one, name } : each)) : machines;
    });
    return done;
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
    await this.store("readwrite", (store) => {
      store.delete(key);
      return promisifyRequest(store.transaction);
    });
    await this.tell();
  }

  private async change(edit: (machines: Kept[]) => Kept[]): Promise<void> {
    await this.store("readwrite", async (store) => {
      const transaction = store.transaction;
      const finished = promisifyRequest(transaction);
      finished.catch(() => undefined);
      const asked = store.get(KEY);
      asked.onsuccess = () => {
        const { machines, whole } = openStore(asked.result);
        // In the same transaction, so that no other tab writes over it in between.
        if (!whole) store.put(asked.result, ASIDE + new Date().toISOString());
        store.put({ format: FORMAT, version: VERSION, machines: edit(machines) }, KEY);
      };
      await finished;
    });
    await this.tell();
  }

  private async tell(): Promise<void> {
    this.channel?.postMessage("changed");
    await this.look();
  }

  private async look(): Promise<void> {
    try {
      let held = await entries<string, unknown>(this.store);
      if (!openStore(held.find(([key]) => key === KEY)?.[1]).whole) {
        await this.change((machines) => machines);
        held = await entries<string, unknown>(this.store);
      }
      const aside = held
        .filter(([key]) => String(key).startsWith(ASIDE))
        .map(([key, value]) => ({
          key,
          value,
          since: key.slice(ASIDE.length),
          why: openStore(value).why,
        }));
      const { machines } = openStore(held.find(([key]) => key === KEY)?.[1]);
      machines.sort((a, b) => a.name.localeCompare(b.name, "en", { numeric: true }));
      this.shelf = { machines, aside, problem: "" };
    } catch (problem) {
      const said = problem instanceof Error ? problem.message : String(problem);
      this.shelf = {
        machines: [],
        aside: [],
        problem: `This browser lets the page keep nothing, so machines can't be saved here. (${said})`,
      };
    }
    for (const listener of this.listeners) listener(this.shelf);
  }
}
