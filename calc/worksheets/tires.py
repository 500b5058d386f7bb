"""Tire swap: what other tires do to lead, speed, clearance, width, load and ballast."""

from __future__ import annotations

import math
import re

from calc import quantities, tables, vocabulary
from calc import worksheet as ws
from calc.errors import InputError
from calc.mechanics import (
    duals,
    front_drive,
    liquid_ballast,
    stability,
    tire_load,
    tires,
    travel,
)
from calc.worksheets import _tires as common
from calc.worksheets._tire_advice import advise
from calc.worksheets._tire_view import picture
from calc.worksheets._tires import TURNS

NOW, NEW, DRIVE = "Tires it has now", "New tires", "Front drive"
GAPS, LOADS, LIQUID, SPEED = "Gaps and width", "Loads", "Liquid", "Speed"
BALANCE = "Balance"
LIQUID_SPEED = 32 / 3.6
"""Fastest with liquid in the tires [m/s], tires/OM-1."""
FASTEST_GEAR = 20.0


def read_speeds(text: str) -> tuple[float, ...]:
    """Return the speeds of a list such as "2, 4, 7, 12 mph" in m/s, slowest first.

    Raises
    ------
    InputError
        When one of them isn't a speed.
    """
    parts = [part.strip() for part in re.split(r"[,;]", text) if part.strip()]
    unit = re.search(r"[a-zA-Z/]+\s*$", parts[-1]) if parts else None
    found = []
    for part in parts[:24]:
        whole = part if re.search("[a-zA-Z]", part) or unit is None else f"{part} {unit[0]}"
        reading = quantities.parse(whole, "speed")
        if reading is None or not reading.exact or not 0.02 <= reading.low <= FASTEST_GEAR:
            raise InputError(
                f"“{quantities.shorten(part)}” in the list of speeds isn't a speed between "
                "0.05 and 45 mph. Write them like “2, 4, 7, 12 mph”."
            )
        found.append(reading.low)
    if not found:
        raise InputError("Write the speeds like “2, 4, 7, 12 mph”.")
    return tuple(sorted(found))


def _windows() -> tuple[ws.Option, ...]:
    return tuple(ws.Option(w.key, w.label, w.source) for w in front_drive.windows())


def _liquids() -> tuple[ws.Option, ...]:
    rows = tables.rows("ballast_liquids")
    options = [ws.Option(row["key"], row["label"], row["note"]) for row in rows]
    return (ws.Option("none", "none: air only"), *options)


def _ten_turns(name: str, label: str, help: str, **more: object) -> ws.Field:
    return ws.Field(
        name, label, "length", "18 ft", "230 ft", help, group=DRIVE, unit_us="ft", unit_metric="m",
        **more,  # type: ignore[arg-type]
    )  # fmt: skip


_ROLL = (
    "From the roll-out sheet: mark tire and ground, roll straight for ten turns at work load and "
    "pressure, measure. A data sheet's rolling circumference times ten does as well."
)

FIELDS: tuple[ws.AnyField, ...] = (
    vocabulary.field("front_tire", default="7-16 R-1", essential=True, group=NOW),
    vocabulary.field("rear_tire", default="11.2-24 R-1", essential=True, group=NOW),
    ws.Entry(
        "new_front_tire", "New front tires", "Leave blank when the front tires stay.",
        vocabulary.read_tire_size, essential=True, group=NEW, example="blank: the fronts stay",
    ),
    ws.Entry(
        "new_rear_tire", "New rear tires", "Leave blank when the rear tires stay.",
        vocabulary.read_tire_size, default="12.4-24 R-1", essential=True, group=NEW,
        example="blank: the rears stay",
    ),
    ws.Choice(
        "front_drive", "Front-wheel drive",
        (ws.Option("yes", "Yes"), ws.Option("no", "No: two-wheel drive")),
        "A tractor with a driven front axle (four-wheel drive) has bar lugs or drive treads at "
        "the front.",
        default="yes", essential=True, group=DRIVE,
    ),
    ws.Choice(
        "lead_window", "Window of lead", _windows(),
        "Use your tractor manual's own window where it prints one.",
        default=front_drive.DEFAULT_WINDOW, group=DRIVE,
    ),
    vocabulary.field("front_turns", group=DRIVE),
    ws.Field(
        "lead_now", "Front-drive lead with the tires it has now", "fraction", "-20 %", "25 %",
        "If it was measured by counting turns; a lag is below zero. Otherwise leave it blank.",
        optional=True, group=DRIVE,
    ),
    ws.Field(
        "factory_lead", "Lead the tractor was laid out for", "fraction", "-5 %", "12 %",
        "Used when neither the gear ratio nor the lead it has now is known, and right only if the "
        "tires it has now are of a size its maker approved.",
        typical=common.factory_lead(), group=DRIVE,
    ),
    vocabulary.field("old_front_ten_turns", typical=common.old_rolled("front"), group=DRIVE),
    vocabulary.field("old_rear_ten_turns", typical=common.old_rolled("rear"), group=DRIVE),
    _ten_turns("new_front_ten_turns", "Ten turns of the new front tires", _ROLL,
               typical=common.new_rolled("front")),
    _ten_turns("new_rear_ten_turns", "Ten turns of the new rear tires", _ROLL,
               typical=common.new_rolled("rear")),
    ws.Entry(
        "gear_speeds", "Speed in each gear or range, tires it has now",
        "From the decal or the specification, with commas; the last one is the top speed.",
        read_speeds, default="1.5, 3, 5, 8, 12 mph", group=SPEED, example="1.5, 3, 5, 8, 12 mph",
    ),
    vocabulary.field("wheelbase", default="62 in"),
    vocabulary.field("hitch_distance", default="28 in"),
    ws.Field(
        "deck_ahead", "Middle of a mower deck ahead of the rear axle", "length", "5 in", "100 in",
        "Level distance; leave blank without a mid-mount deck.", optional=True, default="30 in",
        group=GAPS,
    ),
    ws.Field(
        "fender_gap", "Gap between rear tread and fender now", "length", "0 in", "30 in",
        "The least gap above the tread, tires up to pressure.", optional=True, group=GAPS,
    ),
    ws.Field(
        "side_gap", "Gap between rear sidewall and fender now", "length", "0 in", "30 in",
        "The least gap beside the tire, toward the fender or the lift arm.", optional=True,
        group=GAPS,
    ),
    ws.Field(
        "front_gap", "Gap at the front tire, wheel turned fully, now", "length", "0 in", "30 in",
        "From the tread to whatever it comes nearest to: axle, frame, loader bracket.",
        optional=True, group=GAPS,
    ),
    ws.Field(
        "deck_gap", "Gap between mower deck and rear tread now", "length", "0 in", "40 in",
        "The least gap with the deck at any height.", optional=True, group=GAPS,
    ),
    vocabulary.field("track_width", default="42 in", group=GAPS),
    ws.Field(
        "width_limit", "Narrowest gate, trailer or row", "length", "24 in", "200 in",
        "What the tractor must go through or onto.", optional=True, group=GAPS,
    ),
    ws.Field(
        "rear_axle_load", "Largest load on the rear axle", "mass", "200 lb", "20,000 lb",
        "Rear wheels on the scale with the heaviest implement raised; or from the lift and "
        "ballast page.",
        optional=True, group=LOADS,
    ),
    vocabulary.field("rear_tire_load", group=LOADS),
    vocabulary.field("rear_axle_limit", group=LOADS),
    ws.Field(
        "front_axle_load", "Largest load on the front axle", "mass", "100 lb", "15,000 lb",
        "Front wheels on the scale with a full bucket.", optional=True, group=LOADS,
    ),
    ws.Field(
        "front_tire_load", "Load one front tire may carry", "mass", "100 lb", "8,000 lb",
        "From the load index or the load table at the pressure you use.", optional=True,
        group=LOADS,
    ),
    vocabulary.field("front_axle_limit", group=LOADS),
    ws.Field(
        "rear_pressure", "Pressure you run in the new rear tires", "pressure", "5 psi", "90 psi",
        "Cold, from a gauge made for low pressure.", optional=True, group=LOADS,
    ),
    ws.Field(
        "rear_rated_pressure", "Pressure at which the rear rating holds", "pressure", "5 psi",
        "90 psi", "On the sidewall beside the largest load, or in the tire's load table.",
        optional=True, group=LOADS,
    ),
    ws.Field(
        "front_pressure", "Pressure you run in the new front tires", "pressure", "5 psi", "90 psi",
        "Cold, from a gauge made for low pressure.", optional=True, group=LOADS,
    ),
    ws.Field(
        "front_rated_pressure", "Pressure at which the front rating holds", "pressure", "5 psi",
        "90 psi", "On the sidewall beside the largest load, or in the tire's load table.",
        optional=True, group=LOADS,
    ),
    vocabulary.field("cg_height", default="22 in", group=BALANCE),
    vocabulary.field("front_share", default="42 %", group=BALANCE),
    vocabulary.field("axle_pin_height", default="13 in", group=BALANCE),
    ws.Choice(
        "liquid", "Liquid in the rear tires", _liquids(),
        "Pumped in through the valve; see what each weighs and when it freezes in the table below.",
        default="none", group=LIQUID,
    ),
    ws.Field(
        "fill", "Share of the tire filled", "fraction", "10 %", "90 %",
        "With the valve at the top, liquid level with it is 75 %.", default="75 %",
        typical=ws.Typical(0.4, 0.75, "tires/OM-1", "liquid in rear tires"), group=LIQUID,
    ),
    ws.Field(
        "coldest", "Coldest it gets", "temperature", "-60 F", "60 F",
        "Where the tractor stands in winter.", optional=True, group=LIQUID,
    ),
)  # fmt: skip


def review(known: ws.KnownSoFar) -> dict[str, str]:
    """Return a sentence for each field that can't stand beside the others."""
    found: dict[str, str] = {}
    for axle in ("front", "rear"):
        if known.get(f"new_{axle}_tire") is not None and known.get(f"{axle}_tire") is None:
            found[f"{axle}_tire"] = (
                f"Give the size of the {axle} tires it has now: old and new are compared."
            )
    for axle in ("front", "rear"):
        used, rated = known.get(f"{axle}_pressure"), known.get(f"{axle}_rated_pressure")
        if used is not None and rated is not None and used.high > rated.low:
            found[f"{axle}_pressure"] = (
                "The pressure is above the one at which the rating holds: a sidewall's maximum is "
                "never passed."
            )
    return found


# --- arithmetic ------------------------------------------------------------------------------


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return the checks and outputs at one set of values."""
    pair = common.Pair(v)
    checks: list[ws.Check] = []
    outputs: list[ws.Output] = []
    if v.front_drive == "yes":
        _front_drive(v, pair, checks, outputs, work)
    if pair.rear is not None:
        _speed(v, pair, checks, outputs, work)
        _heights(v, pair, checks, outputs, work)
        _balance(v, pair, outputs, work)
    _widths(v, pair, checks, outputs)
    gained = _liquid(v, pair, checks, outputs, work)
    _loads(v, pair, gained, checks, outputs, work)
    return ws.Outcome(checks, outputs)


def _front_drive(
    v: ws.Inputs, pair: common.Pair, checks: list[ws.Check], outputs: list[ws.Output], work: ws.Work
) -> None:
    window = front_drive.window(v.lead_window)
    now, new = common.leads(v, pair)
    checks.append(
        ws.between(
            "lead", "Front-drive lead with the new tires", new, window.low, window.high,
            "fraction", window.source,
            why="Too little, and the rear pushes the front: no pull, hard steering, power hop. "
            "Too much, and the driveline winds up, wears tires and breaks gears.",
        )
    )  # fmt: skip
    outputs.append(ws.Output("lead_now", "Lead with the tires it has now", now, "fraction"))
    outputs.append(ws.Output("lead_new", "Lead with the new tires", new, "fraction"))
    if not work.on:
        return
    front, rear, front_new, rear_new = pair.circumferences(v)
    if common.direct(v.lead_now, v.front_turns):
        work.step(
            "Lead with the new tires", "lead", "RCf × i / RCr − 1",
            (("RCf", front_new, "length"), ("i", v.front_turns / TURNS, "count"),
             ("RCr", rear_new, "length")),
            new, "fraction", "tires/TG-3",
        )  # fmt: skip
        return
    for name, before, after in (("front", front, front_new), ("rear", rear, rear_new)):
        work.step(
            f"Rolling circumference, {name}: new over now", f"k{name[0]}", "RC new / RC now",
            (("RC new", after, "length"), ("RC now", before, "length")),
            after / before, "count", "tires/derived",
        )  # fmt: skip
    work.step(
        "Lead with the new tires", "lead", "(1 + lead now) × kf / kr − 1",
        (("lead now", now, "fraction"), ("kf", front_new / front, "count"),
         ("kr", rear_new / rear, "count")),
        new, "fraction", "tires/derived",
    )  # fmt: skip


def _speed(
    v: ws.Inputs, pair: common.Pair, checks: list[ws.Check], outputs: list[ws.Output], work: ws.Work
) -> None:
    _, rear, _, rear_new = pair.circumferences(v)
    outputs.append(
        ws.Output("speed_change", "Change of speed in every gear", rear_new / rear - 1, "fraction")
    )
    if not v.gear_speeds:
        return
    top = travel.speed_after(v.gear_speeds[-1], rear, rear_new)
    outputs.append(ws.Output("top_speed", "Top speed with the new tires", top, "speed"))
    work.step(
        "Top speed with the new tires", "v₂", "v₁ × RC new / RC now",
        (("v₁", v.gear_speeds[-1], "speed"), ("RC new", rear_new, "length"),
         ("RC now", rear, "length")),
        top, "speed", "tires/derived",
    )  # fmt: skip
    for axle, tire in (("front", pair.front_new), ("rear", pair.rear_new)):
        rated = common.rating(tire)
        if rated is not None and rated.speed is not None:
            checks.append(
                ws.at_most(
                    f"{axle}_speed", f"Top speed against the {axle} tire's speed symbol", top,
                    rated.speed, "speed", "tires/ISO4251-memory",
                    why="Above its symbol a tire runs hot and may come apart.",
                )
            )  # fmt: skip
    if v.liquid != "none":
        checks.append(
            ws.at_most(
                "liquid_speed", "Top speed with liquid in the tires", top, LIQUID_SPEED, "speed",
                "tires/OM-1", why="Liquid makes tires ride hard and sway; keep below this speed.",
            )
        )  # fmt: skip


def _radius_changes(pair: common.Pair) -> tuple[float, float]:
    """Return the change of loaded radius at the front and the rear [m]."""
    changes = []
    for old, new in ((pair.front, pair.front_new), (pair.rear, pair.rear_new)):
        known = old is not None and new is not None
        changes.append(new.static_loaded_radius - old.static_loaded_radius if known else 0.0)  # type: ignore[union-attr]
    return changes[0], changes[1]


def _diameter_change(old: tires.Dimensions | None, new: tires.Dimensions | None) -> float:
    if old is None or new is None:
        return 0.0
    return new.overall_diameter - old.overall_diameter


def _heights(
    v: ws.Inputs, pair: common.Pair, checks: list[ws.Check], outputs: list[ws.Output], work: ws.Work
) -> None:
    front_rise, rear_rise = _radius_changes(pair)
    hitch = travel.clearance_change(front_rise, rear_rise, -v.hitch_distance, v.wheelbase)
    off = _radius_error(pair.rear, pair.rear_new, pair.rear_stays)
    outputs.append(_banded("rear_rise", "Rear axle and drawbar rise by", rear_rise, off))
    outputs.append(_banded("hitch_rise", "Hitch balls rise by", hitch, off))
    off = _radius_error(pair.front, pair.front_new, pair.front_stays)
    outputs.append(_banded("front_rise", "Front axle rises by", front_rise, off))
    if v.deck_ahead is not None:
        deck = travel.clearance_change(front_rise, rear_rise, v.deck_ahead, v.wheelbase)
        outputs.append(ws.Output("deck_rise", "Mower deck's hangers rise by", deck, "length"))
    pitch = travel.pitch_change(front_rise, rear_rise, v.wheelbase)
    outputs.append(ws.Output("pitch", "Nose tips up by", math.degrees(pitch), "angle"))
    if work.on and pair.rear is not None and pair.rear_new is not None:
        work.step(
            "Rise of the rear axle", "ΔC", "loaded radius new − now",
            (("r new", pair.rear_new.static_loaded_radius, "length"),
             ("r now", pair.rear.static_loaded_radius, "length")),
            rear_rise, "length", "tires/derived",
        )  # fmt: skip
        ratio = travel.pull_ratio(
            pair.rear.static_loaded_radius, pair.rear_new.static_loaded_radius
        )
        work.step(
            "Pull for equal axle torque", "F₂ / F₁", "r now / r new",
            (("r now", pair.rear.static_loaded_radius, "length"),
             ("r new", pair.rear_new.static_loaded_radius, "length")),
            ratio, "count", "tires/derived",
        )  # fmt: skip
    rear_growth = _diameter_change(pair.rear, pair.rear_new) / 2
    front_growth = _diameter_change(pair.front, pair.front_new) / 2
    for name, title, gap, growth in (
        ("fender", "Gap between rear tread and fender", v.fender_gap, rear_growth),
        ("deck", "Gap between mower deck and rear tread", v.deck_gap, rear_growth),
        ("front_lock", "Gap at the front tire, wheel turned", v.front_gap, front_growth),
    ):
        _gap(name, title, gap, growth, checks)


def _balance(v: ws.Inputs, pair: common.Pair, outputs: list[ws.Output], work: ws.Work) -> None:
    """The static side angle before and after: taller tires lift the center of gravity."""
    front_rise, rear_rise = _radius_changes(pair)
    ahead = v.front_share * v.wheelbase
    rise = travel.clearance_change(front_rise, rear_rise, ahead, v.wheelbase)
    angles = [
        math.degrees(
            stability.side_tip_angle_pivoting(
                v.track_width, max(v.cg_height + up, 0.1), v.wheelbase, ahead,
                max(v.axle_pin_height + pin, 0.0),
            )
        )
        for up, pin in ((0.0, 0.0), (rise, front_rise))
    ]  # fmt: skip
    said = "limit at rest on smooth, hard ground, track unchanged; never a slope to work on"
    outputs.append(ws.Output("cg_rise", "Center of gravity rises by", rise, "length"))
    outputs.append(ws.Output("side_now", "Static side angle now", angles[0], "angle", said))
    outputs.append(
        ws.Output("side_new", "Static side angle with the new tires", angles[1], "angle", said)
    )
    work.step(
        "Static side angle with the new tires", "θ", "atan(t/2 × (b − x) / (b h − x p))",
        (("t", v.track_width, "length"), ("b", v.wheelbase, "length"), ("x", ahead, "length"),
         ("h", v.cg_height + rise, "length"), ("p", v.axle_pin_height + front_rise, "length")),
        angles[1], "angle", "tires/derived",
    )  # fmt: skip


def _radius_error(old: tires.Dimensions | None, new: tires.Dimensions | None, stays: bool) -> float:
    """Return how far the change of loaded radius may be off [m]."""
    if stays or old is None or new is None:
        return 0.0
    return math.hypot(
        old.loaded_radius_error * old.static_loaded_radius,
        new.loaded_radius_error * new.static_loaded_radius,
    )


def _banded(name: str, label: str, value: float, off: float) -> ws.Output:
    """Return an output with the range that the table's own error gives it."""
    if not off:
        return ws.Output(name, label, value, "length")
    return ws.Output(name, label, value, "length", low=value - off, high=value + off)


def _gap(name: str, title: str, gap: float | None, growth: float, checks: list[ws.Check]) -> None:
    if gap is not None:
        checks.append(
            ws.at_least(
                f"{name}_gap", title, gap - growth, duals.FENDER_GAP, "length", "tires/OM-16",
                why="Mud and flexing close a small gap; then the tire rubs.",
            )
        )  # fmt: skip


def _widths(
    v: ws.Inputs, pair: common.Pair, checks: list[ws.Check], outputs: list[ws.Output]
) -> None:
    if pair.rear is None or pair.rear_new is None:
        return
    growth = pair.rear_new.section_width - pair.rear.section_width
    _gap("side", "Gap between rear sidewall and fender", v.side_gap, growth / 2, checks)
    width = travel.overall_width(v.track_width, pair.rear_new.section_width)
    before = travel.overall_width(v.track_width, pair.rear.section_width)
    outputs.append(ws.Output("width_now", "Width over the rear tires now", before, "length"))
    outputs.append(ws.Output("width", "Width over the new rear tires, same track", width, "length"))
    if v.width_limit is not None:
        checks.append(
            ws.at_most(
                "width", "Width over the new rear tires", width, v.width_limit, "length",
                "tires/derived", why="It won't pass.",
            )
        )  # fmt: skip
    ratio = travel.pull_ratio(pair.rear.static_loaded_radius, pair.rear_new.static_loaded_radius)
    outputs.append(
        ws.Output("pull_change", "Change of pull in the same gear", ratio - 1, "fraction")
    )
    _, rear, _, rear_new = pair.circumferences(v)
    braking = travel.braking_ratio(
        rear_new / rear, pair.rear.static_loaded_radius, pair.rear_new.static_loaded_radius
    )
    outputs.append(
        ws.Output(
            "braking_change", "Change of braking distance from top speed", braking - 1, "fraction",
            "with the brakes at their limit",
        )
    )  # fmt: skip


def _liquid(
    v: ws.Inputs, pair: common.Pair, checks: list[ws.Check], outputs: list[ws.Output], work: ws.Work
) -> float:
    """Return the mass of liquid that both new rear tires hold [kg]."""
    if v.liquid == "none" or pair.rear_new is None:
        return 0.0
    row = tables.by_key("ballast_liquids", "key")[v.liquid]
    density = float(row["density_kg_l"]) * 1000
    volume = liquid_ballast.fill_volume(pair.rear_new, v.fill)
    mass = liquid_ballast.liquid_mass(volume.value, density)
    outputs.append(
        ws.Output(
            "liquid_volume", "Liquid in each new rear tire", volume.value, "volume",
            ws.phrase("between {low} and {high}", low=(volume.low, "volume"),
                      high=(volume.high, "volume")),
        )
    )  # fmt: skip
    outputs.append(ws.Output("liquid_mass", "Ballast in both new rear tires", 2 * mass, "mass"))
    if pair.rear is not None:
        before = liquid_ballast.fill_volume(pair.rear, v.fill).value * density
        outputs.append(
            ws.Output(
                "liquid_gained", "More than the old tires would hold, both", 2 * (mass - before),
                "mass",
            )
        )  # fmt: skip
    work.step(
        "Ballast in one rear tire", "m", "V × density",
        (("V", volume.value, "volume"), ("density", density, "density")),
        mass, "mass", row["source"],
    )  # fmt: skip
    if v.coldest is not None and (row["slush_c"] or row["solid_c"]):
        starts = 273.15 + float(row["slush_c"] or row["solid_c"])
        ok = v.coldest >= starts
        checks.append(
            ws.fits(
                "freezing", "Freezing of the liquid", 1.0 if ok else -1.0,
                ws.phrase(
                    "It stays liquid: it starts to freeze at {at}." if ok else
                    "It freezes: slush starts at {at}, and a frozen tire can't be driven on.",
                    at=(starts, "temperature"),
                ),
                row["freeze_source"],
                why="" if ok else "Ice inside a tire breaks it when it is driven on.",
            )
        )  # fmt: skip
    return 2 * mass


def _loads(
    v: ws.Inputs,
    pair: common.Pair,
    liquid: float,
    checks: list[ws.Check],
    outputs: list[ws.Output],
    work: ws.Work,
) -> None:
    for axle, tire, load, typed, limit, added in (
        ("rear", pair.rear_new, v.rear_axle_load, v.rear_tire_load, v.rear_axle_limit, liquid),
        ("front", pair.front_new, v.front_axle_load, v.front_tire_load, v.front_axle_limit, 0.0),
    ):
        rated = common.rating(tire)
        if typed is not None:
            rated = tire_load.Rating(typed, None, "tires/derived")
        each = None if rated is None else rated.load
        source = "tires/derived" if rated is None else rated.source
        if each is not None:
            each = _at_pressure(v, axle, each, work)
        if each is not None:
            outputs.append(
                ws.Output(f"{axle}_tire_load", f"One {axle} tire may carry", each, "mass")
            )
        if load is None or (each is None and limit is None):
            continue
        allowed = tire_load.axle_capacity(
            2, math.inf if each is None else each, math.inf if limit is None else limit
        )
        checks.append(
            ws.at_most(
                f"{axle}_load", f"Load on the {axle} axle", load + added, allowed, "mass", source,
                why="An overloaded tire or axle runs hot and fails.",
            )
        )  # fmt: skip
        work.step(
            f"What the {axle} axle may carry", "L", "the least of two tires and the axle's limit",
            (("tire", 0.0 if each is None else each, "mass"),), allowed, "mass", "tires/OM-10",
        )  # fmt: skip


def _at_pressure(v: ws.Inputs, axle: str, load: float, work: ws.Work) -> float:
    used, rated = getattr(v, f"{axle}_pressure"), getattr(v, f"{axle}_rated_pressure")
    if used is None or rated is None:
        return load
    pressure = min(used, rated)
    found = tire_load.load_at_pressure(load, pressure, rated)
    work.step(
        f"Load of a {axle} tire at the pressure you run", "L", "L rated × (p / p rated)^0.585",
        (("L rated", load, "mass"), ("p", pressure, "pressure"), ("p rated", rated, "pressure")),
        found, "mass", "tires/pressure-memory",
    )  # fmt: skip
    return found


WORKSHEET = ws.Worksheet(
    name="tires",
    title="Tire swap",
    question="What happens if I change the tires?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    review=review,
    page="tires/swap",
    example="a compact on 7-16 and 11.2-24 drive tires gets taller rears, the fronts stay.",
)
