"""What to do about it."""

from __future__ import annotations

import math

from calc import model, tables
from calc.mechanics import turf
from calc.search import Solver
from calc.worksheets.lawn.compute import GRAVITY, RIDE_ON_LIMIT, _reach_down, _tine, wheel
from calc.worksheets.lawn.fields import IN_SOIL, _tool

# --- advice ---------------------------------------------------------------------------------

CAUTIONS = (
    model.Caution(
        "Keep people and animals well away: tines break and throw wire and stones.",
        "value/PRACTICE",
    ),
    model.Caution(
        "On a slope go up and down, not across, and turn slowly. Tight turns mark turf more than "
        "the tread does.",
        "value/L3f; value/L8; value/L9",
    ),
    model.Caution(
        "No slope is called safe here. Makers of ride-on mowers allow 15 degrees bare and 10 "
        "degrees (18 %) with anything attached; a compact tractor has no such blanket figure, so "
        "ask its manual.",
        "value/L9",
    ),
    model.Caution(
        "Have gas, power and telephone lines located before anything works deeper than the grass "
        "roots; the call is free in the United States.",
        "value/PRACTICE",
    ),
)


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Solve for tire pressures, depth, tool mass and slope; list what to flag."""
    remedies: list[model.Remedy] = []
    for axle in ("front", "rear"):
        if outcome.margin([f"{axle}_ground"]) < 0.0:
            remedies += _softer(v, axle, solve)
        if outcome.margin([f"{axle}_print"]) < 0.0:
            remedies += _firmer(v, axle)
    if v.soil_state == "wet" and outcome.margin(["front_ground", "rear_ground"]) < 0.0:
        dried = solve.run(soil_state="moist").margin(["front_ground", "rear_ground"])
        said = "and these tires are within limits" if dried >= 0.0 else "and try again"
        remedies.insert(
            0,
            model.Remedy(
                f"Wait until a heel no longer leaves a mark: the soil then stands more, {said}.",
                {"soil_state": "moist"} if dried >= 0.0 else {},
                "value/L7d",
            ),
        )
    if outcome.margin(["heads", "boxes"]) < 0.0:
        remedies += _clear(v, solve)
    if outcome.margin(["tines"]) < 0.0:
        needed = v.tine_count * _tine(v)[1] / GRAVITY
        remedies.append(
            model.Remedy(
                model.phrase(
                    "Weight on the tray until the tool weighs {m}, if its tray limit allows it.",
                    m=(needed, "mass"),
                ),
                {"implement_mass": f"{math.ceil(needed / 0.45359237)} lb"},
                "value/L3a; value/L3d",
            )
        )
    if outcome.margin(["slope"]) < 0.0:
        remedies.append(
            model.Remedy(
                model.phrase("Leave out what is steeper than {s}.", s=(RIDE_ON_LIMIT, "slope")),
                {"slope": f"{math.floor(RIDE_ON_LIMIT * 1000) / 10:.1f} %"},
                "value/L9",
            )
        )
    lists = () if v.sprinklers == "no" and v.tool not in IN_SOIL else (_flag_list(v),)
    return model.Advice(remedies, CAUTIONS, tables=lists, notes=_notes(v))


def _softer(v: model.Inputs, axle: str, solve: Solver) -> list[model.Remedy]:
    """The inflation that meets the limit, if the tire then still carries its load."""
    limit = turf.turf_limit(v.soil_state)
    one = wheel(axle, v)
    if one.measured:
        return [
            model.Remedy(
                model.phrase(
                    f"The {axle} tires would need a print of {{a}} each: softer or wider tires, "
                    "or less load.",
                    a=(one.load / limit, "area_small"),
                ),
                {f"{axle}_print": f"{math.ceil(one.load / limit / 0.00064516 * 10) / 10:.1f} in2"},
                "value/DERIVED",
            )
        ]
    target = turf.inflation_for(limit, v.pressure_rule)
    shown = math.floor(target / 6894.757 * 10.0) / 10.0
    fits = shown >= 2.0
    if fits and one.largest_print is not None:
        fits = solve.run(**{f"{axle}_inflation": shown * 6894.757}).margin([f"{axle}_print"]) >= 0.0
    if fits:
        return [
            model.Remedy(
                model.phrase(
                    f"Let the {axle} tires down to {{p}}, if their load table allows it and the "
                    "manual doesn't ask for more; pump them up again for the road and the loader.",
                    p=(shown * 6894.757, "pressure", "psi"),
                ),
                {f"{axle}_inflation": f"{shown:.1f} psi"},
                "value/L7d; value/DERIVED",
            )
        ]
    return [
        model.Remedy(
            model.phrase(
                f"No pressure suits these {axle} tires here: each would need a print of {{a}}. "
                "Wider tires or a lighter machine would do it.",
                a=(one.load / limit, "area_small"),
            ),
            source="value/DERIVED",
        )
    ]


def _firmer(v: model.Inputs, axle: str) -> list[model.Remedy]:
    one = wheel(axle, v)
    if one.largest_print is None:
        return []
    pressure = turf.inflation_for(one.load / one.largest_print, v.pressure_rule)
    psi = math.ceil(max(2.0, pressure / 6894.757) * 10.0) / 10.0
    return [
        model.Remedy(
            model.phrase(
                f"The {axle} tires need {{p}} or more for their load.",
                p=(psi * 6894.757, "pressure", "psi"),
            ),
            {f"{axle}_inflation": f"{psi:.1f} psi"},
            "value/DERIVED",
        )
    ]


def _clear(v: model.Inputs, solve: Solver) -> list[model.Remedy]:
    found = [
        model.Remedy(
            model.phrase(
                "Flag every head and box and work round them: they would have to be {d} below "
                "the soil to be clear of this tool.",
                d=(_reach_down(v), "length"),
            ),
            source="value/DERIVED",
        )
    ]
    if v.tool_depth > 0.0:
        shallow = solve.largest("tool_depth", 0.0, v.tool_depth, ["heads", "boxes"])
        if shallow is not None:
            found.append(
                model.Remedy(
                    model.phrase("No deeper than {d} it stays clear.", d=(shallow, "length")),
                    {"tool_depth": f"{math.floor(shallow * 1e4) / 10.0:.1f} mm"},
                    "value/DERIVED",
                )
            )
    if v.tool != "spring-tine":
        gentle = {"tool": "spring-tine", "tool_depth": 0.0}
        if solve.run(**gentle).margin(["heads", "boxes"]) >= 0.0:
            found.append(
                model.Remedy(
                    "A spring-tine rake, tips set to touch, stays clear of them.",
                    {"tool": "spring-tine", "tool_depth": "0 in"},
                    "value/L3d",
                )
            )
    return found


def _flag_list(v: model.Inputs) -> model.Table:
    wanted = [
        row for row in tables.rows("lawn/flag_list") if row["tools"] == "all" or v.tool in IN_SOIL
    ]
    return model.Table(
        "Flag before you start",
        ("What", "Why"),
        tuple((row["item"], row["why"]) for row in wanted),
        "; ".join(dict.fromkeys(row["source"] for row in wanted)),
        checklist=True,
    )


def _notes(v: model.Inputs) -> list[model.Words]:
    notes: list[model.Words] = [f"{_tool(v.tool)['name']}: {_tool(v.tool)['boxes'].lower()}."]
    if v.tool in ("spring-tine", "rigid-blade"):
        if turf.thatch_passes(v.thatch) == 0:
            notes.append(
                model.phrase(
                    "Up to {h}, thatch helps the lawn and needs no raking. The time is for one "
                    "pass all the same.",
                    h=(0.5 * turf.INCH, "length"),
                )
            )
        elif turf.thatch_passes(v.thatch) == 2:
            notes.append(
                "So much thatch takes two treatments, spring and fall, the second crosswise; "
                "rake it up and aerate after."
            )
        notes.append(
            model.phrase(
                "Mow {h} lower than usual first and work on dry grass, cool-season grass in early "
                "fall or spring, warm-season grass in late spring.",
                h=(0.5 * turf.INCH, "length"),
            )
        )
    if v.tool == "core":
        notes.append(
            model.phrase(
                "Cores come out best when the soil had {h} of water two days before.",
                h=(turf.INCH, "length"),
            )
        )
    others = [
        model.phrase(
            f"Taken as “{row['name'].split(' (')[0].lower()}” the front tires press {{p}}.",
            p=(turf.mean_pressure(v.front_inflation, row["key"]), "pressure"),
        )
        for row in tables.rows("lawn/contact_pressure_rules")
        if row["key"] != v.pressure_rule
    ]
    if v.front_print is None:
        notes += others
    notes.append(
        "Bar lugs press harder than the mean under each bar until they have sunk in, and leave "
        "their pattern; turf tires don't."
    )
    return notes
