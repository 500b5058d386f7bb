/** The units that a reader chose, on this device. */

import { siteLists } from "./machines";
import type { Units } from "./protocol";

const UNITS_KEY = "yardstick.units";

/** The units in which this site's pages are written. */
export function siteUnits(): Units {
  return siteLists().shop?.units ?? "us";
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
