"""Every limit that a source sets, written again, with a state just inside and just outside it.

A row of `edges.csv` names a check, one field, and the number that its source prints. The field is
solved, by halving, so that what is limited stands two parts in a thousand inside that number and
as far outside; the check's state has to differ as the row says. The number is the source's, read
there, and never the constant of the code: a limit that slips in the code is missed on one side.
"""

from __future__ import annotations

import csv
import functools
import math
import random
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from calc import model, quantities, search, sources, worksheets
from scripts import soundness

SILENT = model.Work(on=False)
NEAR = 0.002  # of the limit: how far inside and outside
# The units in which sources print their limits, beside those in which the package computes.
UNITS: Mapping[str, Callable[[float], float]] = {
    "count": lambda x: x,
    "inch": lambda x: x * 0.0254,
    "millimeter": lambda x: x / 1000.0,
    "foot": lambda x: x * 0.3048,
    "pound": lambda x: x * 0.45359237,
    "power": lambda x: x * 745.6998715822702,  # horsepower
    "psi": lambda x: x * 6894.757293168361,
    "mph": lambda x: x * 0.44704,
    "kmh": lambda x: x / 3.6,
    "angle": lambda x: math.tan(math.radians(x)),  # of a slope, which is a rise over a run
}
ROWS = list(csv.DictReader((Path(__file__).parent / "edges.csv").open(encoding="utf-8")))
OK = (model.WITHIN, model.CLOSE)


def _names(row: Mapping[str, str]) -> str:
    return f"{row['worksheet']} {row['check']} {row['limit']} {row['given'][:30]}"


def _given(row: Mapping[str, str]) -> dict[str, str]:
    """What stands beside the field that is moved: the page's example, and what the row says."""
    parts = [part.split("=", 1) for part in row["given"].split("; ") if part]
    return {name.strip(): text for name, text in parts}


def _typed(unit: str, value: float) -> str:
    """A value as it is typed: before its unit, or within a text."""
    return unit.format(f"{value:.12g}") if "{}" in unit else f"{value:.12g} {unit}".strip()


def _state(check: model.Check) -> str:
    if check.margin < 0.0:
        return model.OVER
    return model.WITHIN if check.margin >= check.close_band else model.CLOSE


@functools.cache
def _kept(worksheet: str, items: tuple[tuple[str, str], ...]) -> search.Box:
    return search.read_box(worksheets.load(worksheet), dict(items), example=True)


def _box(row: Mapping[str, str], text: str = "") -> search.Box:
    """What stands still while the field is moved from its low end."""
    typed = {**_given(row), row["field"]: text or _typed(row["unit"], float(row["low"]))}
    return _kept(row["worksheet"], tuple(typed.items()))


def _at(row: Mapping[str, str], value: float) -> tuple[float, model.Check]:
    """What is limited, and the check, with the field at a value in the row's unit."""
    sheet, text = worksheets.load(row["worksheet"]), _typed(row["unit"], value)
    item = sheet.field(row["field"])
    if isinstance(item, model.Field):
        point = _box(row).point({item.name: quantities.base(text, item.kind)})
    else:
        point = _box(row, text).point({})
    outcome = sheet.compute(point, SILENT)
    check = outcome.check(row["check"])
    assert check is not None, f"{row['check']} is not made at {text}"
    named: dict[str, Any] = {**point.values()}
    named |= {output.name: output.value for output in outcome.outputs}
    named |= {"value": check.value, "field": getattr(point, row["field"])}
    named["tan"] = named["field"]
    return float(eval(row["what"], {"__builtins__": {}}, named)), check  # a row of our own


def _solved(row: Mapping[str, str], target: float, apart: float) -> tuple[float, model.Check]:
    """The check with what is limited at a target, found by halving."""
    low, high = float(row["low"]), float(row["high"])
    below = _at(row, low)[0] < target
    assert below != (_at(row, high)[0] < target), "The row's span doesn't hold its limit."
    for _ in range(45):
        middle = (low + high) / 2
        reached, check = _at(row, middle)
        if abs(reached - target) <= apart:
            break
        if (reached < target) == below:
            low = middle
        else:
            high = middle
    return reached, check


@pytest.mark.parametrize("row", ROWS, ids=_names)
def test_state_differs_just_inside_and_just_outside(row):
    limit = UNITS[row["kind"]](float(row["limit"]))
    step = float(row["near"] or NEAR) * (abs(limit) or 1.0)
    sign = 1.0 if row["outside"] == "above" else -1.0
    states = []
    for side in (-sign, sign):
        reached, check = _solved(row, limit + side * step, 0.1 * step)
        assert reached == pytest.approx(limit + side * step, abs=0.1 * step)
        states.append(_state(check))
    inside, outside = row["states"].split("/")
    assert states[0] in (OK if inside == "ok" else (inside,))
    assert states[1] == outside


# --- every check has a row, or says why not ------------------------------------------------------

# Beside the limits that a source prints there are three kinds, held elsewhere: a plate's, which
# the reader gives; one that is worked out, whose sums tests/published and tests/second_ways hold;
# and a choice of words, where no number decides. A check that is in none of the lists fails here.
PLATE = """
    ballast: asked front_axle front_lift front_tires loader_front loader_lift
    ballast: rear_axle rear_tires total
    cab: current
    digger: auger depth maker_least maker_most
    driveline: lift
    duals: axle tires
    hitch: span_own
    lamp-wiring: field road
    pairing: asked front_axle front_tires loader_front loader_lift power rear_axle
    pairing: front_lift rear_tires remotes total
    pto: driveline
    road: rated_speed symbol_speed
    road-towing: chain drawbar manual
    tires: front_load rear_load width
"""
SUMS = """
    ballast: lift
    cab: shaft
    closing: any_way clear join slow stop truck
    digger: lift power
    drive: grip
    driveline: parting
    duals: bending
    hitch: mast span travel
    lawn: boxes front_print heads rear_print tines
    pairing: lift power side_raised loader_rear tail_seen
    pto: power starting
    rail-crossing: view
    resale: gain repair sale trade
    road: amber_seen lane mirror tail_seen
    road-towing: room
    rollout: counted
    tires: deck_gap fender_gap front_gap
"""
WORDS = """
    ballast: front_place subframe
    cab: cab
    digger: coupler protection soil
    driveline: protection yokes
    duals: manual pair
    hitch: conflict coupler top_pin coupler_on_tractor driveline hook_height hook_span measured
    hitch: slot_lower slot_upper subframe
    lamp-wiring: flasher
    lawn: soil turf
    pairing: coupler coupler_on_tractor covers front_place pins shaft span subframe top_pin
    pto: shaft
    road: amber_flashers_height_standard amber_flashers_standard behind daylight emblem_off
    road: amber_flashers_edge_standard escort head_lamps_seen head_lamps_standard no_symbol permit
    road: emblem_seen no_emblem
    road: rear_reflectors_standard special_order speed_symbol tail_lamps_height_standard
    road: tail_lamps_edge_standard tail_lamps_standard turn_signals_standard
    road-towing: unbraked
    tires: freezing mix
"""


def _listed(name: str) -> set[str]:
    """The checks of a worksheet that hold no number of a source."""
    lines = [line.split(":") for text in (PLATE, SUMS, WORDS) for line in text.split("\n")]
    kept = [parts[1] for parts in lines if parts[0].strip() == name]
    return set(" ".join(kept).split())


@pytest.mark.parametrize("name", worksheets.names())
def test_every_check_has_a_row_or_says_why_not(name):
    sheet, rng = worksheets.load(name), random.Random(f"edges {name}")
    made = set()
    for inputs in soundness.boxes(sheet, rng, 20):
        box = search.read_box(sheet, inputs)
        for _ in range(2):
            outcome = sheet.compute(box.point(soundness.random_point(box, rng)), SILENT)
            made |= {check.name for check in outcome.checks}
    held = {row["check"] for row in ROWS if row["worksheet"] == name}
    assert made - held - _listed(name) == set()
    assert not held & _listed(name)


def test_every_row_cites_a_source_that_exists():
    for row in ROWS:
        assert sources.find(row["source"])[0], row
