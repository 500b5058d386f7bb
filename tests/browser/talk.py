"""Words for what the tests do on a page."""

from __future__ import annotations

import json
import time

from playwright.sync_api import Error, Locator, Page

from calc.render import live
from scripts.visits import given as given

ADDRESS_PAUSE = 150
POLL = 20  # ms between two looks
PATIENCE = 30  # s until a wait is given up
ANSWERED = ".ys-answer[data-final=true]"


def field(page: Page, name: str) -> Locator:
    """The control of one field."""
    return page.locator(f".ys-form [name={name}]")


def finding(page: Page) -> str:
    """The finding that the page shows: within, close, over, unknown or compared."""
    return page.locator(".ys-answer .ys-body").get_attribute("data-finding") or ""


def inputs(page: Page) -> dict[str, str]:
    """Every field of the form as it stands."""
    shown: dict[str, str] = page.evaluate(
        "Object.fromEntries([...document.querySelector('.ys-form').elements]"
        ".filter((each) => each.name).map((each) => [each.name, each.value]))"
    )
    return shown


def until(page: Page, expression: str, arg: object = None) -> None:
    """Wait until an expression is true on the page.

    The browser's own way to poll needs `eval` in the page, which the site's headers refuse.
    """
    started = time.monotonic()
    while not _true(page, expression, arg):
        assert time.monotonic() - started < PATIENCE, f"never true: {expression}"
        page.wait_for_timeout(POLL)


def _true(page: Page, expression: str, arg: object) -> bool:
    """Whether it is true now; a page that is just being left is not."""
    try:
        return bool(page.evaluate(expression, arg))
    except Error as error:
        if "context was destroyed" in str(error):
            return False
        raise


def settle(page: Page) -> None:
    """Wait until the answer on the page is the whole answer to what the form holds."""
    wanted = json.loads(native(inputs(page)))
    deciding = wanted["lead"]
    until(
        page,
        "(text) => document.querySelector('.ys-answer[data-final=true]:not([data-stale])')"
        "?.textContent.includes(text)",
        deciding,
    )
    # The address is written once the typing pauses, which may be after the answer has come.
    page.wait_for_timeout(ADDRESS_PAUSE)


def native(
    typed: dict[str, str], worksheet: str = "pairing", units: str = "us", **more: str
) -> str:
    """What native Python answers to the same form; `more` is what the replies need."""
    asked = {"worksheet": worksheet, "inputs": typed, "units": units, "stage": "full", **more}
    return live.respond(json.dumps(asked))


def link(address: str, **typed: str) -> str:
    """The address of the pairing page with the numbers of its example given, and these."""
    return f"{address}pairing/#{given(**typed)}"


def without_memory(page: Page) -> None:
    """Let Python start from its library, as on a slow link."""
    page.route("**/memory.gz", lambda route: route.abort())
