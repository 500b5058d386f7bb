/** Machines: what one is, those that the site lists, and the fields that they fill. */

export type Role = "tractor" | "implement";
export const ROLES: readonly Role[] = ["tractor", "implement"];

/** A machine: the texts of the fields that are known of it, by field name. */
export interface Machine {
  name: string;
  role: Role;
  inputs: Record<string, string>;
  /** What is said of it beside its numbers: a stock number, a price. */
  beside?: Record<string, string>;
  /** The same as a reply says it: "stock 4411, $18,500". */
  told?: string;
}

/** What the build tells of the dealer who hosts the site. */
export interface Shop {
  name: string;
  contact: string;
  region: string;
  units: "us" | "metric";
  /** Parts that the dealer attaches to remedies, as calc.render.parts writes them. */
  parts?: unknown[];
}

/** What the build writes beside the client script: the lists that every page offers. */
export interface SiteLists {
  shop: Shop | null;
  /** Where the site stands, if the build was told. */
  address: string;
  /** The page of the reader's machines, from the site's top. */
  page: string;
  groups: { title: string; machines: Machine[] }[];
}

declare global {
  interface Window {
    yardstickLists?: SiteLists;
  }
}

export function siteLists(): SiteLists {
  return window.yardstickLists ?? { shop: null, address: "", page: "machines/", groups: [] };
}

/** A field's control in a form. */
export type Control = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

/** The fields of a form that a machine of a role fills, each with the text for one not given. */
export interface Part {
  role: Role;
  absent: Record<string, string>;
}

/** What a form's own marks say of it: which of its fields describe a tractor, which an implement. */
export function partsOf(form: HTMLElement): Part[] {
  return [...form.querySelectorAll<HTMLElement>(".ys-pick")].map((place) => ({
    role: place.dataset["role"] as Role,
    absent: JSON.parse(place.dataset["fields"] ?? "{}") as Record<string, string>,
  }));
}

/** What `record` itself says of `key`: a name may be one that every object knows. */
export function own<T>(record: Record<string, T>, key: string): T | undefined {
  return Object.hasOwn(record, key) ? record[key] : undefined;
}

/** The text that `machine` puts into a field, `absent` when it doesn't give it. */
export function textFor(machine: Machine, control: Control, absent: string): string {
  const text = own(machine.inputs, control.name) ?? absent;
  if (!(control instanceof HTMLSelectElement)) return text;
  const options = [...control.options];
  const wanted = text.trim().toLowerCase();
  const found = options.find((o) => [o.value, o.label].some((t) => t.toLowerCase() === wanted));
  const standing = options.find((option) => option.defaultSelected) ?? options[0];
  return found?.value ?? options.find((option) => !option.value)?.value ?? standing?.value ?? "";
}

/** The machines of a role that the site itself lists. */
export function listed(role: Role): Machine[] {
  const all = siteLists().groups.flatMap((group) => group.machines);
  return all.filter((machine) => machine.role === role);
}

export function sameName(one: Machine, name: string, role: Role): boolean {
  return one.role === role && one.name.toLowerCase() === name.trim().toLowerCase();
}
