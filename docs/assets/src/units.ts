/** The units that a reader chose, on this device. */

import { type Control, siteLists } from "./machines";
import type { Units } from "./protocol";

const UNITS_KEY = "yardstick.units";

/** The units in which this site's pages are written. */
export function siteUnits(): Units {
  return siteLists().shop?.units ?? "us";
}

/** The units that a form shows. */
export function unitsOf(form: HTMLElement): Units {
  return form.dataset["units"] === "metric" ? "metric" : "us";
}

/** What a number may stand among that has no unit: "about 60", "12 to 14", "up to 1,500". */
const WORDS = /\b(?:about|at|between|and|least|most|to|up)\b/gi;
const BARE = /^[\s\d.,/+±–-]*\d[\s\d.,/+±–-]*$/;

/**
 * What stands in a field, with the unit that the form shows for it where it says none: so it means
 * the same in a link, in a list, and once the form shows other units.
 */
export function withUnit(control: Control, units: Units, text: string = control.value): string {
  const [us = "", metric = ""] = (control.dataset["units"] ?? "").split("|");
  const unit = units === "us" ? us : metric;
  return unit && BARE.test(text.replace(WORDS, "")) ? `${text.trim()} ${unit}` : text;
}

export function storedUnits(): Units {
  try {
    const kept = localStorage.getItem(UNITS_KEY);
    if (kept === "metric" || kept === "us") return kept;
  } catch {
    // Without storage there is only the site's own choice.
  }
  return siteUnits();
}

export function storeUnits(units: Units): void {
  try {
    localStorage.setItem(UNITS_KEY, units);
  } catch {
    // Without storage the choice holds for this page alone.
  }
}
