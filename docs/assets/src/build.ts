/** Which build of the site this script is of, and which one the pages are of. */

/** Names everything that the pages and the calculator share; written by the build. */
declare const BUILD: string;

/** The build that the page in front of the reader is of; "" in the offline copy. */
export function buildOfPage(): string {
  return document.querySelector<HTMLMetaElement>("meta[name=yardstick-build]")?.content ?? "";
}

/** Whether the page in front of the reader goes with this script. */
export function fits(): boolean {
  return [BUILD, ""].includes(buildOfPage());
}

/** Fetch this page again; null when it can't be had, else whether it goes with this script. */
async function serverFits(): Promise<boolean | null> {
  try {
    const response = await fetch(window.location.href.split("#")[0]!, { cache: "reload" });
    return response.ok ? (await response.text()).includes(BUILD) : null;
  } catch {
    return null;
  }
}

/** Whether the server shows this page in another build by now. */
export async function isNewer(): Promise<boolean> {
  return (await serverFits()) === false;
}

/** The browser kept a page of an earlier build than this script: load what the server has. */
export async function catchUp(): Promise<void> {
  if (await serverFits()) reload();
}

/**
 * Said before the page is loaded anew: whatever was typed is to be put where it stays. Whoever holds
 * something that has no such place prevents it.
 */
export const LEAVING = "ys-leaving";

/** Load the page anew, on the reader's word; what was typed into forms stays. */
export function reload(): void {
  window.dispatchEvent(new Event(LEAVING));
  window.location.reload();
}

function isTyping(): boolean {
  return document.hasFocus() && Boolean(document.activeElement?.matches("input, select, textarea"));
}

/** Load the page anew unless that would disturb the reader; false when it would. */
export function reloadQuietly(): boolean {
  if (isTyping()) return false;
  if (!window.dispatchEvent(new Event(LEAVING, { cancelable: true }))) return false;
  window.location.reload();
  return true;
}
