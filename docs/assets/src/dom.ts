/** A few words for making elements. */

export function make<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Record<string, string> = {},
  ...children: (Node | string)[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.append(...children);
  return element;
}

/** The words of an element without the numbers of its notes. */
export function words(part: Element): string {
  const kept = [...part.childNodes].filter(
    (node) => !(node instanceof Element && node.matches(".ys-note-mark, sup")),
  );
  return kept.map((node) => node.textContent ?? "").join(" ").replace(/\s+/g, " ").trim();
}

/** Put `text` where a reader can take it by hand, when the clipboard is refused. */
function offerText(beside: HTMLElement, text: string): void {
  beside.parentElement?.querySelector(".ys-copy")?.remove();
  const area = make("textarea", { readonly: "", rows: "6", "aria-label": "Text to copy" });
  area.value = text;
  const close = make("button", { type: "button" }, "Close");
  const box = make(
    "div",
    { class: "ys-copy" },
    make("p", {}, "This browser does not let the page copy. Select the text and copy it yourself."),
    area,
    close,
  );
  close.addEventListener("click", () => box.remove());
  beside.after(box);
  area.focus();
  area.select();
}

/** Copy `text`; returns false when it had to be offered for copying by hand. */
export async function copyText(text: string, beside: HTMLElement): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    offerText(beside, text);
    return false;
  }
}

/**
 * Let the keyboard reach tables that scroll: the theme wraps them without it, sooner or later.
 * Returns what ends it.
 */
export function reachTables(root: ParentNode & Node): () => void {
  const reach = (): void => {
    for (const wrap of root.querySelectorAll<HTMLElement>(".md-typeset__scrollwrap")) {
      wrap.tabIndex = 0;
    }
  };
  const watching = new MutationObserver(reach);
  watching.observe(root, { childList: true, subtree: true });
  reach();
  return () => watching.disconnect();
}
