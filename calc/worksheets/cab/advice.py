"""What to do about it."""

from __future__ import annotations

import math

from calc import model, tables
from calc.mechanics import cab, psychrometrics
from calc.search import Solver
from calc.worksheets.cab.compute import (
    _VERDICT_MARGIN,
    FRESH_AIR_LEAST,
    PULL_DOWN_MARGIN,
    TURNS,
    _sky,
    _turned,
    heat_load,
    taken,
)
from calc.worksheets.cab.fields import _row

CAB_PRESSURE = 50.0  # Pa; value/ISO14269-memory


# --- advice ---------------------------------------------------------------------------------

CAUTIONS = (
    model.Caution(
        "Never weld, drill, cut or bend a rollover structure, and hang nothing on it: it was "
        "tested as it left the works. Bent or altered, it has to be replaced. A roof unit or a "
        "condenser on a folding structure also stops it folding.",
        "value/C16d; value/C16a; value/C16b; value/C16c",
    ),
    model.Caution(
        "Refrigerant is under pressure, freezes skin, and in the United States may only be "
        "handled by certified people with recovery equipment. Filling and opening a circuit is "
        "their work.",
        "value/PRACTICE",
    ),
    model.Caution(
        "Not every cab is a rollover structure: look for its label. With one, wear the seat belt.",
        "value/C16e",
    ),
    model.Caution(
        "A cooled cab is no protection against spray or dust: that takes a cab built and tested "
        "for it, or a respirator.",
        "value/C15",
    ),
    model.Caution(
        "An air thermometer doesn't show the sun on your body, which feels several degrees "
        "warmer. Take breaks and drink.",
        "value/PRACTICE",
    ),
)


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Solve for the unit, the glass and roof, the alternator and the hottest day."""
    remedies: list[model.Remedy] = []
    if _VERDICT_MARGIN[_row("cab/cab_kinds", "kind", v.cab_kind)["verdict"]] < 0.0:
        remedies.append(
            model.Remedy(
                "For this cab the trade fits fans, a white roof and shade instead of cooling. The "
                "numbers below say what a cooling unit would face in it.",
                source="value/CAB-practice",
            )
        )
    if outcome.margin(["capacity"]) < 0.0:
        remedies += _cooler(v, solve)
    if outcome.margin(["current"]) < 0.0:
        remedies += _alternator(v)
    if outcome.margin(["fresh_air"]) < 0.0:
        remedies.append(_more_air(v))
    if outcome.margin(["shaft"]) < 0.0:
        left = outcome.output("left")
        remedies.append(
            model.Remedy(
                model.phrase(
                    "With the cooling on, an implement that needs {power} or less runs.",
                    power=(left, "power"),
                ),
                {"power_needed": f"{math.floor(left / 745.6998716 * 10) / 10:.1f} hp"},
                "value/DERIVED",
            )
        )
    return model.Advice(remedies, CAUTIONS, tables=(_sunny_panes(v), _parts(v)), notes=_notes(v))


def _cooler(v: model.Inputs, solve: Solver) -> list[model.Remedy]:
    need = PULL_DOWN_MARGIN * heat_load(v).total
    found = [
        model.Remedy(
            model.phrase("A unit of {power} or more.", power=(need, "power", "Btu/h")),
            {"cooling_capacity": f"{math.ceil(need / 0.29307107 / 100) * 100} Btu/h"},
            "value/DERIVED",
        )
    ]
    for glass in sorted(tables.rows("cab/glass_kinds"), key=lambda row: -float(row["heat_gain"])):
        for color in ("colored", "white"):
            tried = {"glass_kind": glass["kind"], "roof_color": color}
            if tried == {"glass_kind": v.glass_kind, "roof_color": v.roof_color}:
                continue
            if solve.run(**tried).margin(["capacity"]) >= 0.0:
                named = f"{glass['name'].lower()} and a {color} roof"
                found.append(
                    model.Remedy(f"This unit is enough with {named}.", tried, glass["source"])
                )
                break
        else:
            continue
        break
    hottest = solve.largest("outside_temperature", 283.15, v.outside_temperature, ["capacity"])
    if hottest is not None:
        found.append(
            model.Remedy(
                model.phrase(
                    "As it is, this unit holds the cab up to {t} outside.",
                    t=(hottest, "temperature"),
                ),
                {"outside_temperature": f"{math.floor((hottest - 273.15) * 18 + 320) / 10:.1f} F"},
                "value/DERIVED",
            )
        )
    return found


def _alternator(v: model.Inputs) -> list[model.Remedy]:
    needed = v.cooling_current + v.other_current
    return [
        model.Remedy(
            model.phrase("An alternator of {a} or more carries it.", a=(needed, "current")),
            {"alternator_current": f"{math.ceil(needed)} A"},
            "value/CAB-memory",
        )
    ]


def _more_air(v: model.Inputs) -> model.Remedy:
    needed = FRESH_AIR_LEAST * v.persons
    return model.Remedy(
        model.phrase("Let the fan draw in {air} of fresh air.", air=(needed, "air_flow")),
        {"fresh_air": f"{math.ceil(needed * 3600.0)} m3/h"},
        "value/ISO14269-memory",
    )


def _sunny_panes(v: model.Inputs) -> model.Table:
    """The sun through each pane with the cab turned the worst way."""
    hour = heat_load(v).hour
    sky = _sky(v.latitude, v.month, hour, psychrometrics.pressure_at_altitude(v.altitude))
    gain = float(_row("cab/glass_kinds", "kind", v.glass_kind)["heat_gain"])
    turned = _turned(v, sky)
    nose, quarter = turned.index(max(turned)), TURNS // 4
    panes = (
        ("In front", v.glass_front, sky.upright[nose]),
        ("Right side", v.glass_side, sky.upright[(nose + quarter) % TURNS]),
        ("Behind", v.glass_rear, sky.upright[nose - 2 * quarter]),
        ("Left side", v.glass_side, sky.upright[nose - quarter]),
        ("Roof glass", v.glass_roof, sky.roof),
    )
    bearing = math.degrees(sky.azimuth + 2.0 * math.pi * nose / TURNS) % 360.0
    return model.Table(
        "The sun through each pane",
        ("Pane", "Glass", "Sun on it", "Heat let in"),
        tuple(
            (name, (area, "area"), (falls, "irradiance"), (gain * area * falls, "power", "W"))
            for name, area, falls in panes
        ),
        "value/SPENCER; value/INEICHEN; value/IAM; value/C9",
        model.phrase(
            "Clear sky at your place and month, {hour} by the sun, the nose of the tractor at "
            "{nose} from north; sky and ground light included.",
            hour=(hour, "count"),
            nose=(bearing, "angle"),
        ),
    )


def _parts(v: model.Inputs) -> model.Table:
    rows = tuple((row["name"], row["verdict"], row["why"]) for row in tables.rows("cab/cab_kinds"))
    return model.Table(
        "Which cabs can take cooling", ("Cab", "Cooling", "Why"), rows, "value/CAB-practice"
    )


def _notes(v: model.Inputs) -> list[model.Words]:
    load = heat_load(v)
    other = heat_load(v.but(sun_rule="test" if v.sun_rule == "computed" else "computed"))
    held = cab.leak_area(max(v.fresh_air, 1e-6), CAB_PRESSURE)
    named = "the test climate's sun" if v.sun_rule == "computed" else "the sun of your place"
    notes: list[model.Words] = [
        model.phrase(
            f"With {named} the heat to be removed would be {{other}} instead of {{here}}.",
            other=(other.total, "power", "Btu/h"),
            here=(load.total, "power", "Btu/h"),
        ),
        model.phrase(
            "This fan could hold the pressure that keeps dust out ({p}) only if all the gaps "
            "together were {area} or less.",
            p=(CAB_PRESSURE, "pressure", "Pa"),
            area=(held, "area_small"),
        ),
        model.phrase(
            "Three to four times the fresh air is usually blown round inside: {low} to {high}. "
            "That costs no cooling.",
            low=(cab.recirculation_range(v.fresh_air)[0], "air_flow"),
            high=(cab.recirculation_range(v.fresh_air)[1], "air_flow"),
        ),
        model.phrase(
            "You ask for {here} under the outside. One tractor cab study counted {study} under "
            "the outside as meeting ISO 14269-2.",
            here=(v.outside_temperature - v.inside_temperature, "temperature_difference"),
            study=(11.0, "temperature_difference"),
        ),
        model.phrase(
            "Cars are said to give {low} to {high} to their compressor: a worst case, flat out. A "
            "small cab needs far less once it is cool.",
            low=(5 * 745.6998716, "power"),
            high=(10 * 745.6998716, "power"),
        ),
        "Glass areas and the sun's angle are rough: take the load as good to about a quarter.",
    ]
    takes = taken(v, load.total)
    if v.power_needed is not None and takes.left_pull_down < v.power_needed <= takes.left:
        notes.insert(
            0,
            model.phrase(
                "While it cools a hot cab down only {left} is left at the shaft: cool down first, "
                "then engage the implement.",
                left=(takes.left_pull_down, "power"),
            ),
        )
    if v.sun_rule == "computed" and load.glass_sun > 1.0:
        notes.insert(
            1,
            model.phrase(
                "Turned the best way instead of the worst, the sun through the glass falls from "
                "{worst} to {best}.",
                worst=(load.glass_sun, "power", "W"),
                best=(load.best_turned, "power", "W"),
            ),
        )
    return notes
