"""What to do about it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from calc import model, quantities
from calc.mechanics import fuel, ownership
from calc.search import Solver
from calc.worksheets.drive.compute import (
    _RATIO,
    LIFE,
    _efficiency,
    compare,
    fastest,
    job,
    to_ground,
)
from calc.worksheets.drive.fields import BASES

# --- advice ---------------------------------------------------------------------------------


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Say the result in a sentence, and what would make either drive do the job."""
    found = compare(v)
    return model.Advice(
        _remedies(v, found),
        CAUTIONS,
        tables=(_side_by_side(v, found), _other_basis(v)),
        notes=_notes(v, found),
        headline=_headline(v, found),
    )


CAUTIONS = (
    model.Caution(
        "A hydrostatic drive rolls on when the oil is lost and may creep when hot; a gear drive "
        "rolls when the clutch is down. Set the parking brake before you leave the seat, and come "
        "down a hill in the range or gear you would climb it in.",
        "power/PRACTICE",
    ),
    model.Caution(
        "Nothing here says that a slope is safe to drive. The operator's manual comes first.",
        "power/PRACTICE",
    ),
)


def _able(v: model.Inputs, found: dict[str, Any]) -> list[str]:
    return [
        one.kind
        for one, spent in zip(found["drives"], found["years"], strict=True)
        if spent.share <= 1.0
    ]


def _headline(v: model.Inputs, found: dict[str, Any]) -> model.Words:
    if v.shaft_power >= v.engine_power * _RATIO:
        return model.phrase(
            "The shaft alone asks for more than the {power} that this engine gives there, "
            "whichever drive turns the wheels.",
            power=(v.engine_power * _RATIO, "power"),
        )
    able = _able(v, found)
    if not found["job"].grips:
        first = "The wheels slip too much for this job, whichever drive turns them."
    elif len(able) == 2:
        first = "Either drive has the power for this job."
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
    second = f"Over a year of the same work the hydrostatic {time} and {burn} ({{cost}})."
    if found["extra"] <= 0.0:
        third = "There is no price difference to earn back."
    elif found["pay_back"] <= LIFE:
        numbers["back"] = (found["pay_back"], "duration")
        third = "At that rate it has paid back its price after about {back}."
    elif found["saving"] > 0.0:
        numbers["life"] = (LIFE, "duration")
        third = "At that rate it doesn't pay back within a tractor's life of {life}."
    else:
        third = "In money it never pays back its price."
    fourth = "Which one you like to drive is yours to say."
    return model.phrase(f"{first} {second} {third} {fourth}", **numbers)


def _remedies(v: model.Inputs, found: dict[str, Any]) -> list[model.Remedy]:
    remedies = []
    for one, spent in zip(found["drives"], found["years"], strict=True):
        speed = fastest(one, v)
        if spent.share > 1.0 and speed > 0.2:
            slower = math.floor(speed / 0.44704 * 20.0) / 20.0
            if slower * 0.44704 < 0.22:
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
    if not found["job"].grips:
        remedies += _grip(v)
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


def _grip(v: model.Inputs) -> list[model.Remedy]:
    """The tractor mass at which the wheels hold the pull at an acceptable slip."""
    low, high = v.tractor_mass, 6.0 * v.tractor_mass

    def grips(mass: float) -> bool:
        return job(v.but(tractor_mass=mass), v.ground_speed).grips

    if grips(low) or not grips(high):
        return []
    for _ in range(24):
        half = (low + high) / 2.0
        low, high = (low, half) if grips(half) else (half, high)
    return [
        model.Remedy(
            model.phrase(
                "For this pull the tractor would have to weigh {mass}: weight on the driven "
                "wheels, not the drive, is what limits it.",
                mass=(high, "mass"),
            ),
            {"tractor_mass": f"{math.ceil(high / 0.45359237)} lb"},
            "power/D497-memory",
        )
    ]


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
    return model.Table("Side by side", ("", "Gear", "Hydrostatic"), rows, "power/DERIVED")


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


def _notes(v: model.Inputs, found: dict[str, Any]) -> Sequence[model.Words]:
    full = v.engine_power * _RATIO
    notes: list[model.Words] = [
        "The loss of a hydrostatic drive lands on the wheels. The PTO is geared from the engine "
        "either way, so standing still the shaft loses only the pump's drag.",
        "No measured comparison of loader cycles was found: the cycle is worked out from "
        "distances, speed and the time you give for changing direction.",
    ]
    if v.fuel_equation in ("later", "older"):
        notes.append(
            model.phrase(
                "As a check on the fuel: an Extension rule for a year of mixed work gives {rate} "
                "for this engine (source S42).",
                rate=(fuel.average_diesel_rate(full), "fuel_rate"),
            )
        )
    if v.time_value > 0.0:
        notes.append(
            model.phrase(
                "If you pay somebody, count {cost} for an hour on the meter: a tenth more goes to "
                "fueling and walking (source S47).",
                cost=(ownership.labor_cost_per_hour(v.time_value), "money_per_hour"),
            )
        )
    if v.loader_share > 0.0:
        notes.append(
            "Loader work is counted at the power of driving loaded, and at no less than a fifth "
            "of the engine, below which the fuel equation doesn't hold."
        )
    if min(spent.share for spent in found["years"]) < fuel.LOWEST_LOAD:
        notes.append(
            "On this job the engine runs below a fifth of its power, where the fuel equation no "
            "longer holds: its value at a fifth is used, which reads high."
        )
    if max(spent.share for spent in found["years"]) > 1.0:
        notes.append(
            "A drive that lacks the power for the speed given is counted at full load and at the "
            "speed that its power allows, so the same work takes it longer."
        )
    return notes
