/** On top of a form: pick a tractor or an implement, or keep the one that is filled in. */

import { LEAVING } from "./build";
import { make } from "./dom";
import { INPUTS_EVENT, OWN_EVENT } from "./form";
import { LONGEST_NAME } from "./machine_file";
import { type Kept, type MachineStore, type Shelf, whyNotKept } from "./machine_store";
import type { Control, Machine, Role } from "./machines";
import { sameName, siteLists, textFor } from "./machines";
import { unitsOf, withUnit } from "./units";

/** So many equal fields are no accident: the form then says which machine it describes. */
const TELLING = 3;
const TITLES: Record<Role, string> = { tractor: "Tractor", implement: "Implement" };

export class Picker {
  private readonly role: Role;
  /** The fields that a machine of this role fills here, with the text for one not given. */
  private readonly absent: Record<string, string>;
  private readonly controls = new Map<string, Control>();
  private readonly select: HTMLSelectElement;
  private readonly note: HTMLElement;
  private readonly saving = make("div", { class: "ys-pick-save", hidden: "" });
  private readonly offered: Machine[] = [];
  private mine: Kept[] = [];
  /** Why the reader's own machines can't be had. */
  private problem = "";
  /** The machine that the reader picked or saved last. */
  private picked = "";
  /** The machine that the form described last. */
  private shown = "";
  private readonly stop = new AbortController();
  private readonly unwatch: () => void;

  constructor(
    place: HTMLElement,
    private readonly form: HTMLFormElement,
    private readonly store: MachineStore,
    /** The address of the site's top. */
    private readonly root: string,
  ) {
    this.role = place.dataset["role"] as Role;
    this.absent = JSON.parse(place.dataset["fields"] ?? "{}") as Record<string, string>;
    for (const element of form.elements) {
      const control = element as Control;
      if (Object.hasOwn(this.absent, control.name)) this.controls.set(control.name, control);
    }
    const id = `${form.parentElement?.id ?? "ys"}-pick-${this.role}`;
    this.select = make("select", { id, "aria-describedby": `${id}-note` });
    this.note = make("p", { class: "ys-hint", id: `${id}-note` });
    const name = `Save this ${this.role}`;
    const keep = make("button", { type: "button", class: "ys-button", "aria-label": name }, "Save");
    keep.addEventListener("click", () => this.openSaving(keep));
    place.replaceChildren(
      make("label", { for: id }, TITLES[this.role]),
      keep,
      this.select,
      this.note,
      this.saving,
    );
    place.hidden = false;
    const signal = this.stop.signal;
    this.select.addEventListener("change", () => this.pick(), { signal });
    // What happens in here is no input of the worksheet.
    for (const kind of ["input", "change"]) {
      place.addEventListener(kind, (event) => event.stopPropagation(), { signal });
    }
    form.addEventListener(INPUTS_EVENT, () => this.compare(), { signal });
    const stay = (event: Event): void => void (this.saving.hidden || event.preventDefault());
    window.addEventListener(LEAVING, stay, { signal });
    this.unwatch = store.watch((shelf) => this.offer(shelf));
    this.offer({ machines: [], aside: [], problem: "" });
  }

  release(): void {
    this.stop.abort();
    this.unwatch();
  }

  /** Fill the list: the reader's own machines first, then the site's. */
  private offer(shelf: Shelf): void {
    this.problem = shelf.problem;
    this.mine = shelf.machines.filter((machine) => machine.role === this.role);
    const groups: { title: string; machines: Machine[] }[] = [
      { title: "My machines", machines: this.mine },
      ...siteLists().groups,
    ];
    this.offered.length = 0;
    this.select.replaceChildren(make("option", { value: "" }, "Pick one"));
    for (const { title, machines } of groups) {
      const fitting = machines.filter((machine) => machine.role === this.role);
      if (!fitting.length) continue;
      const group = make("optgroup", { label: title });
      for (const machine of fitting) {
        const option = make("option", { value: String(this.offered.length) }, machine.name);
        if (machine.told) option.dataset["told"] = machine.told;
        group.append(option);
        this.offered.push(machine);
      }
      this.select.append(group);
    }
    this.compare();
  }

  private textFor(machine: Machine, name: string, control: Control): string {
    return textFor(machine, control, this.absent[name] ?? "");
  }

  /**
   * How many of the machine's own fields stand here just so; 0 when one stands otherwise. A blank
   * says nothing, for the machine or against it. A choice always stands somewhere: alone it tells
   * something only of a machine that has no numbers here.
   */
  private likeness(machine: Machine): number {
    let [numbers, choices, blanks] = [0, 0, 0];
    for (const [name, control] of this.controls) {
      if (!Object.hasOwn(machine.inputs, name)) continue;
      const choice = control instanceof HTMLSelectElement;
      if (!control.value) blanks += choice ? 0 : 1;
      else if (control.value !== this.textFor(machine, name, control)) return 0;
      else if (choice) choices += 1;
      else numbers += 1;
    }
    return numbers || !blanks ? numbers + choices : 0;
  }

  private pick(): void {
    const machine = this.offered[Number(this.select.value)];
    if (!this.select.value || !machine) return;
    this.form.dispatchEvent(new CustomEvent(OWN_EVENT));
    for (const [name, control] of this.controls) {
      control.value = this.textFor(machine, name, control);
    }
    this.picked = machine.name;
    this.saving.hidden = true;
    this.form.dispatchEvent(new Event("input", { bubbles: true }));
    this.compare();
  }

  /** Show which machine the fields describe, or from which one they were changed. */
  private compare(): void {
    let index = this.offered.findIndex((m) => m.name === this.picked && this.likeness(m) > 0);
    if (index < 0) {
      const most = Math.max(...this.offered.map((machine) => this.likeness(machine)), 0);
      if (most >= TELLING) index = this.offered.findIndex((m) => this.likeness(m) === most);
    }
    this.select.value = index >= 0 ? String(index) : "";
    if (index >= 0) this.shown = this.offered[index]?.name ?? "";
    this.note.textContent = index < 0 && this.shown ? `Changed from “${this.shown}”.` : this.problem;
  }

  /** Ask for a name; whoever gives up is at the button again. */
  private openSaving(button: HTMLButtonElement): void {
    const input = make("input", {
      type: "text",
      maxlength: String(LONGEST_NAME),
      autocomplete: "off",
      id: `${this.select.id}-name`,
    });
    input.value = this.mine.some((machine) => machine.name === this.shown) ? this.shown : "";
    const said = make("p", { class: "ys-hint", role: "status" });
    const save = make("button", { type: "button", class: "ys-button" }, "Save");
    const cancel = make("button", { type: "button", class: "ys-button" }, "Cancel");
    const look = (): void => {
      const taken = this.mine.find((machine) => sameName(machine, input.value, this.role));
      save.textContent = taken ? "Replace" : "Save";
      said.textContent = taken
        ? `You keep a ${this.role} of that name: its fields on this page are replaced.`
        : "It is kept on this device alone.";
    };
    const finish = async (): Promise<void> => {
      const name = input.value.trim();
      if (!name) {
        said.textContent = `Give this ${this.role} a name.`;
        input.focus();
        return;
      }
      try {
        await this.save(name);
        this.saving.hidden = true;
        const page = make("a", { href: new URL(siteLists().page, this.root).href }, "My machines");
        this.note.replaceChildren(`“${name}” is saved on this device. `, page, " lists all you keep.");
        this.select.focus();
      } catch (problem) {
        said.textContent = `It could not be saved. ${whyNotKept(problem)}`;
      }
    };
    input.addEventListener("input", look);
    input.addEventListener("keydown", (event) => {
      if (event.key === "Enter") {
        event.preventDefault();
        void finish();
      } else if (event.key === "Escape") cancel.click();
    });
    save.addEventListener("click", () => void finish());
    cancel.addEventListener("click", () => {
      this.saving.hidden = true;
      button.focus();
    });
    this.saving.replaceChildren(
      make("label", { for: input.id }, `Name for this ${this.role}`),
      input,
      save,
      cancel,
      said,
    );
    this.saving.hidden = false;
    look();
    input.focus();
  }

  private async save(name: string): Promise<void> {
    const inputs: Record<string, string> = {};
    for (const [field, control] of this.controls) {
      if (!(control instanceof HTMLSelectElement)) control.value = withUnit(control, unitsOf(this.form));
      if (control.value.trim()) inputs[field] = control.value.trim();
    }
    await this.store.save({ name, role: this.role, inputs }, [...this.controls.keys()]);
    this.picked = name;
    this.compare();
  }
}
