/** The page that lists the reader's machines: rename, delete, take out to a file, bring in. */

import { LEAVING } from "./build";
import { make } from "./dom";
import { LARGEST_FILE, LONGEST_NAME, asText, readContents, toFile } from "./machine_file";
import { type Aside, type Kept, type MachineStore, type Shelf, whyNotKept } from "./machine_store";
import { ROLES, type Role, own, sameName } from "./machines";

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
  /** The machines that are being given a new name, each with its place in the list. */
  private readonly renaming = new Map<string, { item: HTMLElement; input: HTMLInputElement }>();
  private readonly stop = new AbortController();
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
    // A name that is half typed has no place but this page.
    const stay = (event: Event): void => void (this.renaming.size && event.preventDefault());
    window.addEventListener(LEAVING, stay, { signal: this.stop.signal });
  }

  release(): void {
    this.stop.abort();
    this.unwatch();
  }

  private say(...parts: (Node | string)[]): void {
    this.said.replaceChildren(...parts);
    this.said.hidden = false;
  }

  private show(shelf: Shelf): void {
    this.shelf = shelf;
    this.missRenamed();
    const stay = this.focusKept();
    const parts: HTMLElement[] = [];
    if (shelf.problem) parts.push(make("p", { class: "ys-stale" }, shelf.problem));
    for (const aside of shelf.aside) parts.push(this.asideBox(aside));
    for (const role of ROLES) {
      const machines = shelf.machines.filter((machine) => machine.role === role);
      parts.push(make("h3", {}, HEADINGS[role]));
      if (machines.length) {
        const items = machines.map((each) => this.renaming.get(each.id)?.item ?? this.item(each));
        parts.push(make("ul", { class: "ys-machines" }, ...items));
      } else {
        parts.push(make("p", { class: "ys-note" }, `No ${role} is kept on this device yet.`));
      }
    }
    this.list.replaceChildren(...parts);
    stay();
  }

  /** Returns what puts the reader back where they are in the list, once it is made anew. */
  private focusKept(): () => void {
    const focused = document.activeElement;
    if (!(focused instanceof HTMLElement) || !this.list.contains(focused)) return () => undefined;
    if (focused instanceof HTMLInputElement) {
      const { selectionStart, selectionEnd } = focused;
      return () => {
        focused.focus();
        focused.setSelectionRange(selectionStart, selectionEnd);
      };
    }
    const label = focused.getAttribute("aria-label");
    return () => {
      const buttons = [...this.list.querySelectorAll<HTMLElement>("button")];
      buttons.find((each) => each.getAttribute("aria-label") === label)?.focus();
    };
  }

  /** Say which machines are gone that were being given a new name. */
  private missRenamed(): void {
    for (const [id, { input }] of this.renaming) {
      if (this.shelf.machines.some((each) => each.id === id)) continue;
      this.renaming.delete(id);
      this.say(`The machine that was to be called “${input.value}” was deleted in another tab.`);
    }
  }

  private item(machine: Kept): HTMLElement {
    const name = make("strong", {}, machine.name);
    const known = Object.entries(machine.inputs).map(([field, text]) => {
      const { label, options = {} } = own(this.fields, field) ?? { label: field };
      return `${label}: ${own(options, text) ?? text}`;
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
    const close = (): void => {
      this.renaming.delete(machine.id);
      this.show(this.shelf);
    };
    const refuse = (why: string): void => {
      error.textContent = why;
      error.hidden = false;
      input.focus();
    };
    const finish = async (): Promise<void> => {
      const name = input.value.trim();
      const others = this.shelf.machines.filter((each) => each.id !== machine.id);
      const taken = `Another ${machine.role} is called that. Choose a name of its own.`;
      if (!name) refuse("A machine needs a name.");
      else if (others.some((each) => sameName(each, name, machine.role))) refuse(taken);
      else {
        try {
          const outcome = await this.store.rename(machine.id, name);
          if (outcome === "renamed") close();
          else if (outcome === "taken") refuse(taken);
          else this.missRenamed();
        } catch (problem) {
          refuse(`It keeps its name. ${whyNotKept(problem)}`);
        }
      }
    };
    input.addEventListener("keydown", (event) => {
      if (event.key === "Enter") void finish();
      else if (event.key === "Escape") close();
    });
    this.renaming.set(machine.id, { item, input });
    item.replaceChildren(
      make("div", { class: "ys-field" }, make("label", { for: id }, "New name"), input, error),
      button("Save", () => void finish(), "Save the new name"),
      button("Cancel", close),
    );
    input.select();
  }

  private async remove(machine: Kept): Promise<void> {
    if (!(await this.attempt(() => this.store.remove(machine.id)))) return;
    const undo = button("Undo", () => {
      this.said.hidden = true;
      void this.bringBack(machine);
    });
    this.say(`“${machine.name}” was deleted from this device. `, undo);
    undo.focus();
  }

  private async bringBack(machine: Kept): Promise<void> {
    await this.attempt(async () => {
      const { over } = await this.store.add([machine]);
      if (over) this.say(`“${machine.name}” has no place any more: this device keeps no more machines.`);
    });
  }

  /** Do something with the store; false when it went wrong, which is said. */
  private async attempt(action: () => Promise<void>): Promise<boolean> {
    try {
      await action();
      return true;
    } catch (problem) {
      this.say(`That was not done. ${whyNotKept(problem)}`);
      return false;
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
    const drop = (): void => {
      if (!window.confirm("Delete the list that was set aside, for good?")) return;
      void this.attempt(() => this.store.drop(aside.key));
    };
    tools.append(
      button("Save it to a file", () => download("yardstick-set-aside.json", asText(aside.value))),
      button("Delete it", drop, "Delete the list that was set aside"),
    );
    box.append(tools);
    return box;
  }
}
