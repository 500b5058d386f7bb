/** The page that lists the reader's machines: rename, delete, take out to a file, bring in. */

import { make } from "./dom";
import { LARGEST_FILE, LONGEST_NAME, readContents, toFile } from "./machine_file";
import type { Aside, Kept, MachineStore, Shelf } from "./machine_store";
import { ROLES, type Role, sameName } from "./machines";

const HEADINGS: Record<Role, string> = { tractor: "Tractors", implement: "Implements" };

interface Described {
  label: string;
  options?: Record<string, string>;
}

function button(label: string, action: () => void, said = label): HTMLButtonElement {
  const made = make("button", { type: "button", class: "ys-button", "aria-label": said }, label);
  made.addEventListener("click", action);
  return made;
}

function download(name: string, text: string): void {
  const url = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  make("a", { href: url, download: name }).click();
  window.setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

export class MachinesPage {
  /** What each field is called, and each option of a choice. */
  private readonly fields: Record<string, Described>;
  private readonly pairing: string;
  /** The fields of the pairing by role, each with the text for one that isn't given. */
  private readonly absent: Record<Role, Record<string, string>>;
  private readonly list = make("div");
  private readonly said = make("p", { class: "ys-notice", role: "status", hidden: "" });
  private readonly file = make("input", {
    type: "file",
    accept: ".json,application/json",
    hidden: "",
    "aria-label": "File with machines",
  });
  private shelf: Shelf = { machines: [], aside: [], problem: "" };
  private readonly unwatch: () => void;

  constructor(
    place: HTMLElement,
    private readonly store: MachineStore,
  ) {
    this.fields = JSON.parse(place.dataset["fields"] ?? "{}") as Record<string, Described>;
    this.pairing = place.dataset["pairing"] ?? "";
    this.absent = JSON.parse(place.dataset["absent"] ?? "{}") as typeof this.absent;
    this.file.addEventListener("change", () => void this.takeFile());
    place.replaceChildren(
      this.said,
      this.list,
      make(
        "div",
        { class: "ys-tools" },
        button("Export to a file", () => this.exportAll()),
        button("Import from a file", () => this.file.click()),
        this.file,
      ),
    );
    this.unwatch = store.watch((shelf) => this.show(shelf));
  }

  release(): void {
    this.unwatch();
  }

  private say(...parts: (Node | string)[]): void {
    this.said.replaceChildren(...parts);
    this.said.hidden = false;
  }

  private show(shelf: Shelf): void {
    this.shelf = shelf;
    const parts: HTMLElement[] = [];
    if (shelf.problem) parts.push(make("p", { class: "ys-stale" }, shelf.problem));
    for (const aside of shelf.aside) parts.push(this.asideBox(aside));
    for (const role of ROLES) {
      const machines = shelf.machines.filter((machine) => machine.role === role);
      parts.push(make("h3", {}, HEADINGS[role]));
      if (machines.length) {
        const items = machines.map((machine) => this.item(machine));
        parts.push(make("ul", { class: "ys-machines" }, ...items));
      } else {
        parts.push(make("p", { class: "ys-note" }, `No ${role} is kept on this device yet.`));
      }
    }
    this.list.replaceChildren(...parts);
  }

  private item(machine: Kept): HTMLElement {
    const name = make("strong", {}, machine.name);
    const known = Object.entries(machine.inputs).map(([field, text]) => {
      const { label, options } = this.fields[field] ?? { label: field };
      return `${label}: ${options?.[text] ?? text}`;
    });
    const query = new URLSearchParams(
      Object.entries(this.absent[machine.role]).map(([field, text]) => [
        field,
        machine.inputs[field] ?? text,
      ]),
    );
    const open = make("a", { href: `${this.pairing}#${query}` }, "Open in the pairing");
    const item = make("li", {}, name, make("p", { class: "ys-note" }, known.join(" · ")));
    item.append(
      make(
        "div",
        { class: "ys-machine-tools" },
        open,
        button("Rename", () => this.rename(machine, item), `Rename ${machine.name}`),
        button("Delete", () => void this.remove(machine), `Delete ${machine.name}`),
      ),
    );
    return item;
  }

  private rename(machine: Kept, item: HTMLElement): void {
    const id = `rename-${machine.id}`;
    const input = make("input", { id, type: "text", maxlength: String(LONGEST_NAME) });
    input.value = machine.name;
    const error = make("p", { class: "ys-error", role: "alert", hidden: "" });
    const finish = async (): Promise<void> => {
      const name = input.value.trim();
      const others = this.shelf.machines.filter((each) => each.id !== machine.id);
      const taken = `Another ${machine.role} is called that. Choose a name of its own.`;
      if (!name || others.some((each) => sameName(each, name, machine.role))) {
        error.textContent = name ? taken : "A machine needs a name.";
        error.hidden = false;
        input.focus();
      } else if (!(await this.attempt(() => this.store.rename(machine.id, name)))) {
        // Another tab took the name in the same moment.
        this.say(taken);
      }
    };
    input.addEventListener("keydown", (event) => {
      if (event.key === "Enter") void finish();
      else if (event.key === "Escape") this.show(this.shelf);
    });
    item.replaceChildren(
      make("div", { class: "ys-field" }, make("label", { for: id }, "New name"), input, error),
      button("Save", () => void finish(), "Save the new name"),
      button("Cancel", () => this.show(this.shelf)),
    );
    input.select();
  }

  private async remove(machine: Kept): Promise<void> {
    if (!(await this.attempt(() => this.store.remove(machine.id).then(() => true)))) return;
    const undo = button("Undo", () => {
      void this.attempt(() => this.store.add([machine]).then(() => true));
      this.said.hidden = true;
    });
    this.say(`“${machine.name}” was deleted from this device. `, undo);
    undo.focus();
  }

  /** Do something with the store; what goes wrong is said, and counts as done. */
  private async attempt(action: () => Promise<boolean>): Promise<boolean> {
    try {
      return await action();
    } catch (problem) {
      this.say(`That could not be kept: ${problem instanceof Error ? problem.message : problem}`);
      return true;
    }
  }

  private exportAll(): void {
    if (!this.shelf.machines.length) {
      this.say("There is nothing to export yet.");
      return;
    }
    download("yardstick-machines.json", toFile(this.shelf.machines));
    this.say(`${this.shelf.machines.length} machines were written to yardstick-machines.json.`);
  }

  private async takeFile(): Promise<void> {
    const file = this.file.files?.[0];
    this.file.value = "";
    if (!file) return;
    if (file.size > LARGEST_FILE) {
      this.say(`“${file.name}” is too large to be a list of machines; nothing was taken from it.`);
      return;
    }
    let value: unknown;
    try {
      value = JSON.parse(await file.text());
    } catch {
      this.say(`“${file.name}” is not readable as JSON; nothing was taken from it.`);
      return;
    }
    await this.bringIn(value, `“${file.name}”`);
  }

  private async bringIn(value: unknown, from: string): Promise<boolean> {
    const { machines, problems, refused } = readContents(value);
    if (refused) {
      this.say(`Nothing was taken from ${from}. ${refused}`);
      return false;
    }
    return this.attempt(async () => {
      const { added, known, over } = await this.store.add(machines);
      const said = [`Taken from ${from}: ${added} machines.`];
      if (known) said.push(`${known} were here already, exactly so.`);
      if (over) said.push(`${over} were left out: this device keeps no more of them.`);
      this.say([...said, ...problems].join(" "));
      return true;
    });
  }

  /** Something an older or broken store left: kept until the reader decides. */
  private asideBox(aside: Aside): HTMLElement {
    const since = new Date(aside.since);
    const when = Number.isNaN(since.getTime()) ? "" : ` on ${since.toLocaleString()}`;
    const box = make(
      "div",
      { class: "ys-summary" },
      make("p", { class: "ys-summary-title" }, `A list of machines was set aside${when}`),
      make("p", {}, `${aside.why} Nothing of it was deleted.`.trim()),
    );
    const tools = make("div", { class: "ys-tools" });
    const { machines, problems, refused } = readContents(aside.value);
    // What could be read of a damaged list is in use already.
    if (!refused && !problems.length && machines.length) {
      const back = async (): Promise<void> => {
        if (await this.bringIn(aside.value, "the list set aside")) await this.store.drop(aside.key);
      };
      tools.append(button("Put it back", () => void back()));
    }
    const text = (): string => `${JSON.stringify(aside.value, null, 2)}\n`;
    const drop = (): void => {
      if (!window.confirm("Delete the list that was set aside, for good?")) return;
      void this.attempt(() => this.store.drop(aside.key).then(() => true));
    };
    tools.append(
      button("Save it to a file", () => download("yardstick-set-aside.json", text())),
      button("Delete it", drop, "Delete the list that was set aside"),
    );
    box.append(tools);
    return box;
  }
}
