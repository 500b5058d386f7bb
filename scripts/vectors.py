"""Requests that reach every worksheet and every kind of answer, good and bad.

The browser's Python is trimmed by what answering a few of them imports, and tested by comparing its
answers to all of them with native Python's.
"""

from __future__ import annotations

import json
import random
from collections.abc import Iterator, Mapping, Sequence

HOSTILE = "<script>alert(1)</script>"


def _request(
    name: str,
    inputs: Mapping[str, str],
    units: str = "us",
    stage: str = "full",
    *,
    example: bool = False,
    ask: str = "",
) -> str:
    asked = {"worksheet": name, "inputs": dict(inputs), "units": units, "stage": stage}
    return json.dumps({**asked, "example": example, "ask": ask})


def _widened(text: str) -> str:
    """Return a range around a typed number ("60 in" becomes "57 to 63 in"), else the text."""
    number, _, unit = text.strip().partition(" ")
    try:
        value = float(number.replace(",", ""))
    except ValueError:
        return text
    return f"{value * 0.95:g} to {value * 1.05:g} {unit}".strip()


def _drawn(text: str, draw: random.Random) -> str:
    """Return a typed number as another ("60 in" becomes "43.2 in", or a range), else the text."""
    number, _, unit = text.strip().partition(" ")
    try:
        value = float(number.replace(",", ""))
    except ValueError:
        return text
    low = value * draw.uniform(0.5, 2)
    high = low * draw.choice((1, 1, 1.2))
    return (f"{low:.4g} {unit}" if low == high else f"{low:.4g} to {high:.4g} {unit}").strip()


def _of_worksheet(name: str, defaults: Mapping[str, str], asks: Sequence[str]) -> Iterator[str]:
    blank = dict.fromkeys(defaults, "")
    for ask in asks or [""]:
        yield _request(name, {}, example=True, ask=ask)
        yield _request(name, {}, ask=ask)
    yield _request(name, blank, stage="odds")
    yield _request(name, defaults)
    yield _request(name, defaults, stage="exact")
    yield _request(name, defaults, units="metric")
    for inputs in (defaults, blank):
        yield _request(name, inputs, stage="replies")
    yield _request(name, blank)
    yield _request(name, blank, stage="exact")
    yield _request(name, {field: _widened(text) for field, text in defaults.items()})
    yield _request(name, dict.fromkeys(defaults, HOSTILE))
    yield _request(name, dict.fromkeys(defaults, "-1e400 furlongs"))
    yield _request(name, {**defaults, "no_such_field": "1"})


def requests() -> list[str]:
    """Return every request, as the text that the page would send."""
    from calc import worksheets

    found: list[str] = []
    for name in worksheets.names():
        sheet = worksheets.load(name)
        found += _of_worksheet(name, sheet.examples(), [ask.key for ask in sheet.asks])
    message = "1650 lb tractor, 20 pto hp: can it lift a 5 ft cutter? What lights do I need?"
    found += [json.dumps({"kind": "read", "text": text}) for text in (message, HOSTILE, "")]
    return [*found, _request("no-such-worksheet", {}), "not JSON", "[]"]


def probes() -> list[str]:
    """Return fewer requests that reach every module: each worksheet, and each kind of answer once.

    What they missed would show as a fault where all of `requests` are compared.
    """
    from calc import worksheets

    found: list[str] = []
    names = worksheets.names()
    for name in names:
        sheet = worksheets.load(name)
        found.append(_request(name, {}, example=True))
        found.append(_request(name, sheet.examples(), stage="exact"))
    every_kind = [text for text in requests() if f'"worksheet": "{names[0]}"' in text]
    others = [text for text in requests() if '"worksheet"' not in text]
    return [*found, *every_kind, *others]


def fresh(seed: int, number: int = 40) -> list[str]:
    """Return requests that nobody has looked at: examples whose numbers are drawn anew."""
    from calc import worksheets

    draw = random.Random(seed)
    names = [name for name in worksheets.names() if worksheets.load(name).examples()]
    found = []
    for name in draw.choices(names, k=number):
        examples = worksheets.load(name).examples()
        kept = [field for field in examples if draw.random() < 0.9]
        inputs = {field: _drawn(examples[field], draw) for field in kept}
        units, stage = draw.choice(("us", "metric")), draw.choice(("exact", "full", "replies"))
        found.append(_request(name, inputs, units, stage))
    return found


def known() -> str:
    """Return one request, quickly answered, by whose answer a browser knows its Python."""
    from calc import worksheets

    name = "rollout"
    return _request(name, worksheets.load(name).examples(), stage="exact")
