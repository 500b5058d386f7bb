"""What to do about it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from calc import model, quantities, si
from calc.mechanics import fuel, ownership
from calc.search import Remedies
from calc.worksheets.drive.compute import (
    _RATIO,
    LIFE,
    _efficiency,
    compare,
    fastest,
    to_ground,
    towed_share,
)
from calc.worksheets.drive.fields import BASES

HELD = {"load_mass": ("grip", "towed"), "slope": ("grip", "slope"), "pull": ("grip",)}
"""Which checks less of a thing helps: what is towed pushes on any slope."""

# --- advice ---------------------------------------------------------------------------------


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Say the result in a sentence, and what would make either drive do the job."""
    compared = compare(v)
    for name, options in (
        ("load_mass", {"most": 6.0}),
        ("slope", {"end": 0.0, "step": 1.0, "plainly": "slope" in found.broken}),
        ("pull", {"end": 0.0}),
    ):
        mends = tuple(check for check in HELD[name] if check in found.broken)
        if getattr(v, name) and mends:
            remedies.less(name, mends=mends, source="power/D497-memory", **options)
    if v.driven == "two":
        remedies.choose("driven", "four", mends=("grip",), source="power/D497-memory")
    remedies.more("tractor_mass", mends=("grip",), another=True, source="power/D497-memory")
    towed = towed_share(v) > 0
    remedies.do("brakes", ("towed",), source="power/TOW-M10")
    keys = (*(("towing",) if towed else ()), "rolls", "slope")
    return model.Advice(
        [] if found.broken else _remedies(v, compared),
        found.cautions(*keys),
        tables=(_side_by_side(v, compared), _other_basis(v)),
        notes=_notes(v, compared, found),
        headline=_headline(v, compared, found),
        says={"worth": _headline(v, compared, found)},
    )


BOTH = "Either drive has the power for this job."


def _able(v: model.Inputs, found: dict[str, Any]) -> list[str]:
    return [
        one.kind
        for one, spent in zip(found["drives"], found["years"], strict=True)
        if spent.share <= 1.0
    ]


# What moves the money most: while nobody said one of them, the sums are those of its middle.
MOVES = frozenset(["hours_per_year", "loader_share", "price_difference", "time_value"])


def _headline(v: model.Inputs, found: dict[str, Any], over: model.Found) -> model.Words:
    grip = over.finding("grip")
    if v.shaft_power >= v.engine_power * _RATIO:
        return model.phrase(
            "The shaft alone asks for more than the {power} that this engine gives there, "
            "whichever drive turns the wheels.",
            power=(v.engine_power * _RATIO, "power"),
        )
    able = _able(v, found)
    if grip == model.UNKNOWN:
        first = "Whether the wheels hold this pull isn't known yet."
    elif not found["job"].grips:
        first = "The wheels slip too much for this job, whichever drive turns them."
    elif len(able) == 2:
        first = BOTH
    elif able:
        first = "At this speed only the gear drive has the power for this job."
    else:
        first = "At this speed neither drive has the power for this job."
    saved, more = found["time_saved"], found["more_fuel"]
    numbers: dict[str, Any] = {
        "hours": (abs(saved), "duration"),
        "fuel": (abs(more), "volume"),
        "cost": (abs(more) * v.fuel_price, "money"),
    }
    if abs(saved) < 60.0:
        time = "takes the same time"
    else:
        time = "saves about {hours}" if saved > 0 else "takes about {hours} longer"
    burn = "burns about {fuel} more fuel" if more >= 0 else "burns about {fuel} less fuel"
    year = f"Over a year of the same work the hydrostatic {time} and {burn} ({{cost}})"
    if found["extra"] <= 0.0:
        back = "there is no price difference to earn back"
    elif found["pay_back"] <= LIFE:
        numbers["back"] = (found["pay_back"], "duration")
        back = "it has paid back its price after about {back}"
    elif found["saving"] > 0.0:
        numbers["life"] = (LIFE, "duration")
        back = "it doesn't pay back within a tractor's life of {life}"
    else:
        back = "in money it never pays back its price"
    guessed = found["extra"] > 0.0 and MOVES & over.assumed
    middle = ", by the middle of what nobody said" if guessed else ""
    money = f"{year}; {back}{middle}."
    # What was asked is the money, as long as either drive can do the job at all.
    said = (first, money) if first != BOTH else (money,) if middle else (money, first)
    return model.phrase(" ".join(said), **numbers)


def _remedies(v: model.Inputs, found: dict[str, Any]) -> list[model.Remedy]:
    remedies = []
    for one, spent in zip(found["drives"], found["years"], strict=True):
        speed = fastest(one, v)
        if spent.share > 1.0 and speed > 0.2:
            slower = math.floor(speed / si.MPH * 20.0) / 20.0
            if slower * si.MPH < 0.22:
                continue
            remedies.append(
                model.Remedy(
                    model.phrase(
                        f"With the {one.kind} drive this job goes at {{speed}} and no faster.",
                        speed=(speed, "speed"),
                    ),
                    {"ground_speed": f"{slower:.2f} mph"},
                    "power/DERIVED",
                )
            )
    if 0.0 < found["pay_back"] <= LIFE:
        years = found["pay_back"] / v.hours_per_year
        remedies.append(
            model.Remedy(
                model.phrase(
                    "To break even in ten years of your hours, the difference in price may be "
                    "{price} at most.",
                    price=(v.price_difference * 10.0 / years, "money"),
                ),
                {
                    "price_difference": quantities.show(
                        min(50000.0, v.price_difference * 10.0 / years), "money"
                    )
                },
                "power/DERIVED",
            )
        )
    return remedies


def _side_by_side(v: model.Inputs, found: dict[str, Any]) -> model.Table:
    (gear, hydro), (g, h) = found["drives"], found["years"]
    gear_path, hydro_path = to_ground(gear, v), to_ground(hydro, v)
    rows: tuple[tuple[model.Cell, ...], ...] = (
        ("Full engine power into the drive", (gear_path[0], "power"), (hydro_path[0], "power")),
        ("At the axle", (gear_path[1], "power"), (hydro_path[1], "power")),
        ("Loader cycle", (found["cycles"][0], "seconds"), (found["cycles"][1], "seconds")),
        ("Hours in a year", (g.hours, "duration"), (h.hours, "duration")),
        ("Fuel cost in a year", (g.fuel * v.fuel_price, "money"), (h.fuel * v.fuel_price, "money")),
    )
    return model.Table("Side by side", ("What", "Gear", "Hydrostatic"), rows, "power/DERIVED")


def _other_basis(v: model.Inputs) -> model.Table:
    rows = []
    for option in BASES:
        other = v.but(basis=option.value)
        found = compare(other)
        rows.append(
            (
                option.label,
                (_efficiency("gear", option.value), "fraction"),
                (_efficiency("hydrostatic", option.value), "fraction"),
                (found["more_fuel"], "volume"),
            )
        )
    return model.Table(
        "What the other figures for the losses give",
        ("Losses from", "Gear to axle", "Hydrostatic to axle", "More fuel in a year"),
        tuple(rows),
        "power/S33; power/D497-memory; power/GENERAL-memory",
    )


def _notes(v: model.Inputs, compared: dict[str, Any], found: model.Found) -> Sequence[model.Words]:
    full = v.engine_power * _RATIO
    notes: list[model.Words] = [found.note(key) for key in ("liking", "shaft", "cycles")]
    if v.fuel_equation in ("later", "older"):
        notes.append(found.note("rule", rate=(fuel.average_diesel_rate(full), "fuel_rate")))
    if v.time_value > 0.0:
        cost = (ownership.labor_cost_per_hour(v.time_value), "money_per_hour")
        notes.append(found.note("labor", cost=cost))
    if v.loader_share > 0.0:
        notes.append(found.note("loader"))
    shares = [spent.share for spent in compared["years"]]
    if min(shares) < fuel.LOWEST_LOAD:
        notes.append(found.note("low"))
    if max(shares) > 1.0:
        notes.append(found.note("full"))
    if towed_share(v) > 0:
        notes.append(found.note("towed"))
    return notes
