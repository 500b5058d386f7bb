/** One calculator in another site's page: tells that page its height, and nothing else. */

/** The address that stands for this page in links: a framed page stands for the whole one. */
export function pageAddress(): URL {
  const full = document.querySelector<HTMLAnchorElement>(".ys-embed-full[data-linked]");
  return new URL(full ? full.href : window.location.href);
}

export class Embed {
  private constructor(private readonly place: HTMLElement) {}

  /** The embed that this page is, if it is one. */
  static here(): Embed | null {
    const place = document.querySelector<HTMLElement>("[data-ys-embed]");
    return place && new Embed(place);
  }

  /** Follow the page's height, and lead to the whole page with what the form holds. */
  follow(): void {
    new ResizeObserver(() => this.tellHeight()).observe(this.place);
    const link = this.place.querySelector<HTMLAnchorElement>(".ys-embed-full[data-linked]");
    if (!link) return;
    const lead = (): void => void (link.hash = window.location.hash);
    for (const event of ["pointerdown", "focus", "click"]) link.addEventListener(event, lead);
  }

  private tellHeight(): void {
    const height = Math.ceil(this.place.getBoundingClientRect().bottom + window.scrollY);
    // Any site may frame the page, and a height is nobody's secret.
    if (window.parent !== window) window.parent.postMessage({ yardstick: "height", height }, "*");
  }
}
