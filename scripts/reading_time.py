"""The time that the browser takes to read a customer's message, on the page that does it."""

from __future__ import annotations

import csv
import statistics
from pathlib import Path
from typing import TYPE_CHECKING

from scripts import _setup, visits

if TYPE_CHECKING:
    from playwright.sync_api import Browser

MESSAGES = _setup.ROOT / "tests" / "data" / "messages_kept.csv"
# Read while the browser settles in, and not counted.
WARMING = 5
# From the end of the pause after the typing until the questions stand on the page.
READ = """async (text) => {
    const area = document.querySelector('#ys-message');
    const reply = document.querySelector('#ys-reply');
    const shown = new Promise((done) =>
        new MutationObserver(() => done(performance.now())).observe(
            document.querySelector('.ys-message-found'), { childList: true }));
    area.value = text;
    area.dispatchEvent(new Event('input'));
    const start = await new Promise((wait) => setTimeout(() => wait(performance.now()), PAUSE));
    // Where neither this message nor the one before asks anything, nothing changes.
    const none = new Promise((wait) => setTimeout(() => wait(null), 2000));
    const end = await Promise.race([shown, none]);
    const nap = () => new Promise((wait) => setTimeout(wait, 10));
    for (let n = 0; n < 300 && reply.dataset.final !== 'true'; n += 1) await nap();
    return end === null ? null : end - start;
}"""
PAUSE = 200


def times(browser: Browser, site: Path) -> dict[str, float]:
    """Return the middle and the 95th percentile of the times of the messages. [ms]"""
    with MESSAGES.open(encoding="utf-8", newline="") as file:
        texts = list(dict.fromkeys(row["message"] for row in csv.DictReader(file)))
    context = browser.new_context()
    page = context.new_page()
    with visits.served(site) as address:
        page.goto(f"{address}messages/")
        page.wait_for_selector("#ys-message")
        script = READ.replace("PAUSE", str(PAUSE))
        found = [page.evaluate(script, text) for text in texts[:WARMING] + texts][WARMING:]
    context.close()
    taken = [each for each in found if each is not None]
    return {
        "median, ms": statistics.median(taken),
        "95th percentile, ms": statistics.quantiles(taken, n=20)[-1],
    }
