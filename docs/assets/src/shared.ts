/**
 * What the device's share menu brings. The manifest has it posted to the page that reads messages, and
 * the service worker takes it there: a text in the address would be in the host's log on the first
 * visit, before the worker is in control. Where there is no worker any more, the post does reach the
 * host, as a body, which a static host refuses and doesn't write down.
 */

export const SHARED_PAGE = "messages/";
/** The parts of what is shared, as the manifest names them. */
export const SHARED_PARTS = ["title", "text"];
/** The name of the text behind the # of the address. */
export const SHARED_NAME = "shared";
/** A longer text is no message [characters]. */
export const LONGEST_SHARED = 20_000;

/** A message from the share menu; it is taken out of the address at once. */
export function shared(): string {
  const text = new URLSearchParams(location.hash.slice(1)).get(SHARED_NAME) ?? "";
  if (text) history.replaceState(history.state, "", location.pathname);
  return text;
}
