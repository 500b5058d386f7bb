/** The start: makes every worksheet on the page live, on this page and on the next ones. */

import { catchUp, fits, reload } from "./build";
import { filterChecks } from "./checks";
import { reachTables } from "./dom";
import { Embed } from "./embed";
import { Engine } from "./engine";
import { Entries } from "./entries";
import { Finding } from "./finding";
import { Keeping } from "./keep";
import { MachineStore } from "./machine_store";
import { MachinesPage } from "./machines_page";
import { MessagesPage } from "./messages";
import { Picker } from "./picker";
import { SendBack } from "./sending";
import { isFor, Sheet } from "./sheet";
import { arrived } from "./typed";

interface Observable {
  subscribe(next: () => void): void;
}

declare global {
  interface Window {
    /** Given by the theme: speaks whenever a page was put in place without a reload. */
    document$?: Observable;
  }
}

const script = document.currentScript as HTMLScriptElement;
const engine = new Engine(new URL(".", script.src).href);
const machines = new MachineStore();
const keeping = new Keeping(new URL("..", engine.base).href);
let sheets: Sheet[] = [];
const embed = Embed.here();
let yard: { release(): void }[] = [];

function whenIdle(action: () => void): void {
  const connection = (navigator as { connection?: { saveData?: boolean } }).connection;
  // A reader who saves data pays for the calculator only by touching the form.
  if (connection?.saveData) return;
  if ("requestIdleCallback" in window) window.requestIdleCallback(action, { timeout: 2000 });
  else setTimeout(action, 200);
}

/** On a calculator's page the link past the navigation leads to the calculator. */
function skipTo(section: HTMLElement | undefined): void {
  const link = document.querySelector<HTMLAnchorElement>(".md-skip");
  if (!link || !section) return;
  section.tabIndex = -1;
  link.addEventListener("click", (event) => {
    event.preventDefault();
    // The theme would follow it to the title.
    event.stopPropagation();
    section.focus();
    section.scrollIntoView();
  });
}

/** The calculator of a page that asks Python about nothing else. */
function onlyOne(): string | undefined {
  const [one, ...more] = document.querySelectorAll<HTMLElement>("section.ys, #ys-find, #ys-messages");
  return more.length ? undefined : one?.dataset["worksheet"];
}

let leaveTables = (): void => undefined;

function mount(): void {
  leaveTables();
  leaveTables = reachTables(document.querySelector(".md-content") ?? document.body);
  filterChecks(document);
  for (const sheet of sheets) sheet.release();
  engine.forget();
  // The server has another build by now: its pages don't go with this one's scripts.
  if (!fits()) {
    reload();
    return;
  }
  engine.only = onlyOne();
  const sections = [...document.querySelectorAll<HTMLElement>("section.ys[data-worksheet]")];
  sheets = sections.map((section, index) => new Sheet(section, engine, isFor(section, !index), !index));
  skipTo(sections[0]);
  for (const each of yard) each.release();
  yard = [...document.querySelectorAll<HTMLElement>(".ys-form .ys-pick")].map(
    (place) => new Picker(place, place.closest("form")!, machines, new URL("..", engine.base).href),
  );
  const page = document.querySelector<HTMLElement>("#ys-machines");
  if (page) yard.push(new MachinesPage(page, machines));
  const box = document.querySelector<HTMLElement>("#ys-find");
  if (box) yard.push(new Finding(box, engine, machines));
  const entries = [...document.querySelectorAll<HTMLElement>("section.ys-entry")];
  if (entries.length) yard.push(new Entries(entries, engine));
  const messages = document.querySelector<HTMLElement>("#ys-messages");
  const back = SendBack.here();
  if (back) yard.push(back);
  if (messages) yard.push(new MessagesPage(messages, engine, machines));
  arrived();
  keeping.show();
  if (embed) embed.follow();
  else if (sheets.length || box || messages) whenIdle(() => engine.start());
  // Whatever the site keeps on the device comes after the answer that the reader waits for.
  else whenIdle(() => void keeping.begin());
}

engine.watch(({ state }) => {
  if (state === "ready") whenIdle(() => void keeping.begin());
  // A damaged file may be the cause; with the copy put right, the next start succeeds.
  if (state === "failed") keeping.check();
});

function begin(): void {
  if (window.document$) window.document$.subscribe(mount);
  else if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", mount);
  else mount();
  window.yardstickRuns = true;
}

if (fits()) begin();
else void catchUp();
