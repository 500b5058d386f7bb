/** One line with the verdict that stays in sight while a field is edited, and leads to the answer. */

import { make, words } from "./dom";

export class Sight {
  private readonly link = make("a", { class: "ys-sight", hidden: "" });
  private readonly seen = new Map<Element, boolean>();
  private readonly watching = new IntersectionObserver((entries) => this.look(entries), {
    threshold: [0, 1],
  });

  constructor(
    private readonly section: HTMLElement,
    private readonly answer: HTMLElement,
    signal: AbortSignal,
  ) {
    // Not inside the section, which is a container: that would hold the line to its own foot.
    if (!document.querySelector("[data-ys-embed]")) document.body.append(this.link);
    this.link.addEventListener("click", (event) => this.lead(event), { signal });
    this.watching.observe(section);
    this.follow();
    // A keyboard on the screen covers its foot: the line stands above it.
    const view = window.visualViewport;
    const lift = (): void => {
      const covered = view ? window.innerHeight - view.height - view.offsetTop : 0;
      this.link.style.setProperty("--ys-lift", `${Math.max(0, Math.round(covered))}px`);
    };
    view?.addEventListener("resize", lift, { signal });
    view?.addEventListener("scroll", lift, { signal });
  }

  release(): void {
    this.watching.disconnect();
    this.link.remove();
  }

  /** Say whether the verdict is for the numbers beside it. */
  stale(is: boolean): void {
    this.link.toggleAttribute("data-stale", is);
  }

  /** Show what a new answer says. */
  show(html: string): void {
    this.link.innerHTML = html;
    this.follow();
  }

  /** Watch the verdict of the answer that stands now. */
  follow(): void {
    // What is remembered of an answer would keep all of it in memory.
    for (const old of [...this.seen.keys()]) {
      if (old === this.section) continue;
      this.watching.unobserve(old);
      this.seen.delete(old);
    }
    const finding = this.answer.querySelector(".ys-finding");
    if (finding) this.watching.observe(finding);
    if (!this.link.firstChild && finding) {
      const said = finding.querySelector(".ys-finding-word")?.cloneNode(true);
      const lead = finding.querySelector(".ys-lead");
      const line = make("span", { "data-finding": finding.getAttribute("data-finding") ?? "" });
      if (said) line.append(...said.childNodes);
      line.append(make("span", {}, lead ? words(lead) : ""));
      this.link.append(line);
    }
  }

  private look(entries: IntersectionObserverEntry[]): void {
    for (const entry of entries) {
      if (!entry.target.isConnected) continue;
      const whole = entry.target !== this.section && entry.intersectionRatio >= 0.99;
      this.seen.set(entry.target, entry.target === this.section ? entry.isIntersecting : whole);
    }
    const finding = this.answer.querySelector(".ys-finding");
    const here = this.seen.get(this.section) ?? false;
    this.link.hidden = !here || !finding || (this.seen.get(finding) ?? false);
    if (finding?.id) this.link.href = `#${finding.id}`;
  }

  private lead(event: Event): void {
    const finding = this.answer.querySelector<HTMLElement>(".ys-finding");
    if (!finding) return;
    event.preventDefault();
    finding.scrollIntoView({ block: "center" });
    finding.focus({ preventScroll: true });
  }
}
