"""What to do about it."""

from __future__ import annotations

import math

from calc import model, si, tables
from calc.mechanics import air_conditioner, cab, psychrometrics
from calc.search import Remedies
from calc.worksheets.cab.compute import told_no
from calc.worksheets.cab.fields import row
from calc.worksheets.cab.heat import TURNS, heat_load, sky_at, turned_sun

CAB_PRESSURE = 50.0  # Pa; value/ISO14269-memory
CAUTIONS = ("structure", "refrigerant", "label", "respirator", "body")
ALTERNATORS = (50.0, 60.0, 75.0, 85.0, 100.0, 120.0)  # as sold, value/PRACTICE
WORKING = 5000.0
"""The alternator's speed with the engine near its rated one, value/PRACTICE [rev/min]."""


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Offer what helps; to a cab that is told no, nothing to buy."""
    if "cab" in found.over:
        remedies.do_instead("shade", "cab", source="value/CAB-practice")
    else:
        if not told_no(v):  # where the kind of cab is open, that is told first
            _unit(v, found, remedies)
        remedies.more(
            "alternator_current",
            mends=("current",),
            stock=ALTERNATORS,
            most=3.0,
            another=True,
            source="value/EM-3",
        )
        remedies.more("alternator_speed", mends=("current",), end=WORKING, source="value/EM-3")
    if "fresh_air" in found.over:
        enough = found.air_needed / max(v.fresh_air, 1e-4) * 1.1
        remedies.more("fresh_air", mends=("fresh_air",), step=1.0, most=max(2.5, enough))
    if "shaft" in found.over:
        remedies.less("power_needed", mends=("shaft",), step=0.5, source="value/DERIVED")
    shown = (_sunny_panes(v), _kinds())
    return model.Advice((), found.cautions(*CAUTIONS), shown, _notes(v, found))


def _unit(v: model.Inputs, found: model.Found, remedies: Remedies) -> None:
    if "capacity" not in found.over:
        return
    coolest = v.inside_temperature - 5.0
    remedies.less("outside_temperature", mends=("capacity",), end=coolest, step=1.0)
    remedies.more(
        "cooling_capacity",
        mends=("capacity",),
        stock=air_conditioner.unit_sizes(),
        most=5.0,
        source="value/DERIVED",
    )
    for glass in sorted(tables.rows("cab/glass_kinds"), key=lambda r: -float(r["heat_gain"])):
        for color in ("colored", "white"):
            tried = {"glass_kind": glass["kind"], "roof_color": color}
            if tried == {"glass_kind": v.glass_kind, "roof_color": v.roof_color}:
                continue
            if remedies.change("glass", tried, mends=("capacity",), source=glass["source"]):
                return


def _sunny_panes(v: model.Inputs) -> model.Table:
    """The sun through each pane with the cab turned the worst way."""
    hour = heat_load(v).hour
    sky = sky_at(v.latitude, v.month, hour, psychrometrics.pressure_at_altitude(v.altitude))
    gain = float(row("cab/glass_kinds", "kind", v.glass_kind)["heat_gain"])
    turned = turned_sun(v, sky)
    nose, quarter = turned.index(max(turned)), TURNS // 4
    panes = (
        ("In front", v.glass_front, sky.upright(nose)),
        ("Right side", v.glass_side, sky.upright(nose + quarter)),
        ("Behind", v.glass_rear, sky.upright(nose - 2 * quarter)),
        ("Left side", v.glass_side, sky.upright(nose - quarter)),
        ("Roof glass", v.glass_roof, sky.roof),
    )
    bearing = math.degrees(sky.azimuth + 2.0 * math.pi * nose / TURNS) % 360.0
    return model.Table(
        "The sun through each pane",
        ("Pane", "Glass", "Sun on it", "Heat let in"),
        tuple(
            (
                name,
                (area, "area"),
                (falls, "irradiance"),
                (gain * area * falls, "power", "Btu/h", "W"),
            )
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


def _kinds() -> model.Table:
    rows = tuple((r["name"], r["verdict"], r["why"]) for r in tables.rows("cab/cab_kinds"))
    return model.Table(
        "Which cabs can take cooling", ("Cab", "Cooling", "Why"), rows, "value/CAB-practice"
    )


def _notes(v: model.Inputs, found: model.Found) -> list[model.Words]:
    load = heat_load(v)
    other = heat_load(v.but(sun_rule="test" if v.sun_rule == "computed" else "computed"))
    recirculated = cab.recirculation_range(v.fresh_air)
    held = cab.leak_area(max(v.fresh_air, 1e-6), CAB_PRESSURE)
    cooled = v.outside_temperature - v.inside_temperature
    notes: list[model.Words] = []
    if v.power_needed is not None and found.left_pull_down < v.power_needed <= found.left:
        notes.append(found.note("cool_first"))
    notes.append(found.note("idle"))
    notes.append(
        found.note(
            "other_sun" if v.sun_rule == "test" else "test_sun",
            other=(other.total, "power", "Btu/h"),
            here=(load.total, "power", "Btu/h"),
        )
    )
    if v.sun_rule == "computed" and load.glass_sun > 1.0:
        turned = {"worst": load.glass_sun, "best": load.best_turned}
        numbers: dict[str, model.Number] = {
            k: (w, "power", "Btu/h", "W") for k, w in turned.items()
        }
        notes.append(found.note("turned", **numbers))
    notes += [
        found.note("pressure", p=(CAB_PRESSURE, "pressure", "Pa"), area=(held, "area_small")),
        found.note(
            "blown_round",
            low=(recirculated[0], "air_flow"),
            high=(recirculated[1], "air_flow"),
        ),
        found.note(
            "study",
            here=(cooled, "temperature_difference"),
            study=(11.0, "temperature_difference"),
        ),
        found.note("cars", low=(5 * si.HP, "power"), high=(10 * si.HP, "power")),
        found.note("altitude"),
        found.note("rough"),
    ]
    return notes
