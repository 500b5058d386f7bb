/**
 * What was typed into a form that the address doesn't hold: a page's second calculator. It is kept
 * for this tab alone, and taken back when the page is loaded anew or gone back to.
 */

const PREFIX = "yardstick.typed";

/** How this page was come to: only who returns finds what was typed. */
let returning = ["reload", "back_forward"].includes(
  (performance.getEntriesByType("navigation")[0] as PerformanceNavigationTiming | undefined)?.type ??
    "",
);
let { pathname } = window.location;

window.addEventListener("popstate", () => {
  if (window.location.pathname !== pathname) returning = true;
});

/** To be called when the forms of a page have taken what is theirs. */
export function arrived(): void {
  returning = false;
  pathname = window.location.pathname;
}

function keyOf(worksheet: string): string {
  return `${PREFIX} ${window.location.pathname} ${worksheet}`;
}

/** Keep what a link to these inputs has after its address; "" when they are the example's. */
export function keepTyped(worksheet: string, fragment: string): void {
  try {
    if (fragment) sessionStorage.setItem(keyOf(worksheet), fragment);
    else sessionStorage.removeItem(keyOf(worksheet));
  } catch {
    // Without storage the inputs last as long as the page.
  }
}

/** What was kept of this worksheet; "" for nothing, or for somebody who comes to the page afresh. */
export function keptTyped(worksheet: string): string {
  try {
    if (returning) return sessionStorage.getItem(keyOf(worksheet)) ?? "";
    sessionStorage.removeItem(keyOf(worksheet));
  } catch {
    // Without storage nothing was kept.
  }
  return "";
}
