"""Numbers of the demo machines for the page on pairing."""

from __future__ import annotations

from functools import cache

from calc import quantities, search, tables, worksheets


@cache
def _front(tractor: str, width: str) -> tuple[float, float, float]:
    """Return the tractor's mass, and the ends of the front share with the cutter up."""
    row = next(r for r in tables.rows("machines/demo_tractors") if r["name"] == tractor)
    fields = {item.name for item in worksheets.load("pairing").fields}
    typed = {name: value for name, value in row.items() if name in fields}
    found = search.answer(
        worksheets.load("pairing"), {**typed, "working_width": width, "loader": "off"}, example=True
    )
    share = next(o for o in found.outputs if o.name == "front_share_left")
    low = share.value if share.low is None else share.low
    high = share.value if share.high is None else share.high
    return quantities.base(row["tractor_mass"], "mass"), low, high


LIGHT, HEAVY = "Compact, 25 hp, light frame", "Compact, 25 hp, heavier frame"


def _mass(tractor: str) -> str:
    return quantities.show(_front(tractor, "60 in")[0], "mass")


def _share(tractor: str, width: str) -> str:
    _, low, high = _front(tractor, width)
    return quantities.show_range(low, high, "fraction", figures=2)


FACTS = {
    "pairing.light_mass": lambda: _mass(LIGHT),
    "pairing.heavy_mass": lambda: _mass(HEAVY),
    "pairing.light_front": lambda: _share(LIGHT, "60 in"),
    "pairing.heavy_front": lambda: _share(HEAVY, "60 in"),
    "pairing.light_front_48": lambda: _share(LIGHT, "48 in"),
}
