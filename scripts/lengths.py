"""How long the calculators' pages are on a phone, and whether the verdict stays in sight.

    python3 scripts/lengths.py [SITE]

prints, for each calculator opened on a screen of 390 x 844 px, everything folded: how many
screens down the first field and the answer begin and how long the page is; and, on a screen of
360 x 740 px, the fields that can't be edited with the verdict in sight.
"""

from __future__ import annotations

import sys
import threading
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from scripts import _browsers, _environment, _setup

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

PHONE = {"width": 390, "height": 844}
SMALL = {"width": 360, "height": 740}
# Of screens: the first field, the answer from that field on, and the whole page.
FIRST_FIELD, ANSWER_AFTER, WHOLE = 1.0, 1.5, 5.0
# What is measured on the page of one calculator.
PLACES = """name => {
  const top = (part) => document.querySelector(`#ys-${name} ${part}`).getBoundingClientRect().top;
  const first = Math.min(...[...document.querySelectorAll(`#ys-${name} .ys-rows > *`)]
    .filter((row) => row.getClientRects().length).map((row) => row.getBoundingClientRect().bottom));
  return [first + scrollY, top(".ys-finding") + scrollY, document.documentElement.scrollHeight];
}"""
# Whether a verdict can be seen: the one in the answer, or the line that stands in for it.
IN_SIGHT = """() => {
  const seen = (element) => {
    const box = element?.getBoundingClientRect();
    return !!box && box.height > 0 && box.top >= 0 && box.bottom <= innerHeight + 1;
  };
  return seen(document.querySelector("#ys-NAME .ys-finding")) ||
    [...document.querySelectorAll(".ys-sight")].some(seen);
}"""


@dataclass(frozen=True)
class Length:
    """A calculator's page in screens of a phone, and the fields edited without the verdict."""

    name: str
    first_field: float
    answer_after: float
    whole: float
    blind: tuple[str, ...]

    @property
    def short(self) -> bool:
        """Whether it is as short as it should be."""
        return (
            self.first_field <= FIRST_FIELD
            and self.answer_after <= ANSWER_AFTER
            and self.whole <= WHOLE
        )


def length(browser: Browser, address: str, name: str, page_path: str) -> Length:
    """Measure one calculator; the site is served at `address`."""
    context = browser.new_context(viewport=PHONE, service_workers="block")  # type: ignore[arg-type]
    page = context.new_page()
    page.goto(f"{address}{page_path}/")
    page.wait_for_selector(f"#ys-{name}[data-live]", state="attached")
    first, answer, whole = page.evaluate(PLACES, name)
    screen = PHONE["height"]
    page.set_viewport_size(SMALL)  # type: ignore[arg-type]
    blind = _blind(page, name)
    context.close()
    return Length(name, first / screen, (answer - first) / screen, whole / screen, blind)


def _blind(page: Page, name: str) -> tuple[str, ...]:
    """The fields during whose edit no verdict is in sight."""
    page.evaluate("name => document.querySelector(`#ys-${name} .ys-more`).open = true", name)
    blind = []
    look = IN_SIGHT.replace("NAME", name)
    for control in page.locator(f"#ys-{name} .ys-row :is(input, select)").all():
        control.focus()
        control.scroll_into_view_if_needed()
        for _ in range(50):
            if page.evaluate(look):
                break
            page.wait_for_timeout(20)
        else:
            blind.append(control.get_attribute("name") or "")
    return tuple(blind)


def main() -> int:
    """Print the table."""
    _environment.ensure_environment("test")
    from playwright.sync_api import sync_playwright

    from calc import worksheets
    from scripts import serve

    site = Path(sys.argv[1]) if len(sys.argv) > 1 else _setup.TESTED
    serving = serve.server(site)
    threading.Thread(target=serving.serve_forever, daemon=True).start()
    address = f"http://127.0.0.1:{serving.server_address[1]}/"
    print(f"{'calculator':16} field at  answer after  whole  edited blind")
    with sync_playwright() as driver:
        path = _browsers.find_browser()
        browser = driver.chromium.launch(executable_path=path, args=["--no-sandbox"])
        for name in worksheets.names():
            found = length(browser, address, name, worksheets.load(name).page)
            mark = "" if found.short and not found.blind else "  *"
            print(
                f"{name:16} {found.first_field:8.2f} {found.answer_after:13.2f} "
                f"{found.whole:6.2f}  {len(found.blind)}{mark}"
            )
        browser.close()
    return 0


if __name__ == "__main__":
    _setup.command(main)
