/** One answer on paper: its inputs, blanks to write on and to sign, and its link as a code. */

import { encode } from "uqr";

import { make } from "./dom";
import type { Row } from "./form_rows";

/** A longer link makes squares too small for a phone to read off paper. */
export const LONGEST_CODE = 800;
const SVG = "http://www.w3.org/2000/svg";
const QUIET = 4;
const SIGNED = ["Measured by", "Date", "Machine's number"];

/** The link as a picture, or null when it has too many letters for one. */
export function code(link: string): SVGSVGElement | null {
  if (!link || new TextEncoder().encode(link).length > LONGEST_CODE) return null;
  const { data, size } = encode(link, { ecc: "M", border: QUIET });
  let path = "";
  data.forEach((row, y) =>
    row.forEach((dark, x) => {
      if (dark) path += `M${x} ${y}h1v1h-1z`;
    }),
  );
  const svg = document.createElementNS(SVG, "svg");
  svg.setAttribute("viewBox", `0 0 ${size} ${size}`);
  svg.setAttribute("class", "ys-code");
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", "The link to this page, filled in, as a code for a phone's camera");
  const dark = document.createElementNS(SVG, "path");
  dark.setAttribute("d", path);
  svg.append(dark);
  return svg;
}

function inputs(rows: readonly Row[], link: string): HTMLElement {
  const list = make("dl");
  for (const { label, value, standIn } of rows) {
    if (!value && !standIn) continue;
    const shown = value
      ? make("dd", {}, value)
      : make("dd", { class: "ys-blank" }, make("small", {}, `not known: ${standIn}`));
    list.append(make("div", {}, make("dt", {}, label), shown));
  }
  const picture = code(link);
  const caption = make("figcaption", {}, "This page, filled in");
  return make(
    "div",
    { class: "ys-print ys-print-inputs" },
    list,
    ...(picture ? [make("figure", { class: "ys-print-code" }, picture, caption)] : []),
  );
}

function foot(link: string): HTMLElement {
  const blanks = SIGNED.map((each) => make("span", {}, each));
  // A code that can't be drawn leaves the letters of the link, for as much as they are worth.
  const address = link && !code(link) ? [make("p", { class: "ys-print-link" }, link)] : [];
  return make(
    "div",
    { class: "ys-print ys-print-foot" },
    make("div", { class: "ys-blanks" }, ...blanks),
    ...address,
  );
}

function title(details: Element): string {
  return details.querySelector("summary")?.textContent ?? "";
}

/** Puts what paper needs around the answer, and takes it away again. */
export class Paper {
  /** What was folded on the screen, by its summary: a new answer may have come in meanwhile. */
  private readonly opened = new Set<string>();

  constructor(
    private readonly answer: HTMLElement,
    private readonly rows: () => Row[],
    private readonly link: () => string,
  ) {}

  prepare(): void {
    this.clear();
    const link = this.link();
    this.answer.before(inputs(this.rows(), link));
    this.answer.after(foot(link));
    for (const details of this.answer.querySelectorAll("details")) {
      if (!details.open) this.opened.add(title(details));
      details.open = true;
    }
  }

  clear(): void {
    for (const element of this.answer.parentElement?.querySelectorAll(".ys-print") ?? []) {
      element.remove();
    }
    for (const details of this.answer.querySelectorAll("details")) {
      if (this.opened.has(title(details))) details.open = false;
    }
    this.opened.clear();
  }
}
