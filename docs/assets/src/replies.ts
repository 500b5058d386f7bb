/** What leaves the page: the link to send, the line about who sends it, and the clipboard. */

import { copyText } from "./dom";
import { siteLists } from "./machines";

/** The line that closes a reply: the shop that hosts the site, or nothing. */
export function sender(): string {
  const shop = siteLists().shop;
  return shop ? [shop.name, shop.contact].filter(Boolean).join(" · ") : "";
}

/** The parts that the shop attaches to remedies; they go with every question. */
export function shopParts(): unknown[] {
  return siteLists().shop?.parts ?? [];
}

/**
 * The address under which somebody else can open `address`; "" when there is none.
 *
 * A page of the offline copy has an address on this device alone. When the build knows where the
 * site stands, the same page there takes its place. `root` is the address of the site's top.
 */
export function sendable(address: string, root: string): string {
  if (!address.startsWith("file:")) return address;
  const site = siteLists().address;
  if (!site || !address.startsWith(root)) return "";
  const [page = "", fragment] = address.slice(root.length).split("#");
  const path = page.replace(/(^|\/)index\.html$/, "$1").replace(/\.html$/, "/");
  return new URL(path, site).href + (fragment ? `#${fragment}` : "");
}

/** Copy a text with its rich form beside it; false when it had to be offered for copying by hand. */
export async function copyRich(html: string, text: string, beside: HTMLElement): Promise<boolean> {
  if (html && typeof ClipboardItem !== "undefined") {
    try {
      const forms = { "text/plain": text, "text/html": html };
      const blobs = Object.entries(forms).map(([type, said]) => [type, new Blob([said], { type })]);
      await navigator.clipboard.write([new ClipboardItem(Object.fromEntries(blobs))]);
      return true;
    } catch {
      // The plain text may still be allowed.
    }
  }
  return copyText(text, beside);
}
