"""The sums."""

from __future__ import annotations

from calc import arith, model, tables
from calc.mechanics import duals, front_drive, liquid_ballast, stability, tire_load, tires, travel
from calc.subjects import tires as common
from calc.subjects.tires import TURNS

LIQUID_SPEED = 32 / 3.6
"""Fastest with liquid in the tires [m/s], tires/OM-1."""


# --- arithmetic ------------------------------------------------------------------------------


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Return the checks and outputs at one set of values."""
    pair = common.Pair(v)
    checks: list[model.Check] = []
    outputs: list[model.Output] = []
    if v.front_drive == "yes":
        _front_drive(v, pair, checks, outputs, work)
    if pair.rear is not None:
        _speed(v, pair, checks, outputs, work)
        _heights(v, pair, checks, outputs, work)
        _balance(v, pair, outputs, work)
    _widths(v, pair, checks, outputs)
    gained = _liquid(v, pair, checks, outputs, work)
    _loads(v, pair, gained, checks, outputs, work)
    return model.Outcome(checks, outputs)


def _front_drive(
    v: model.Inputs,
    pair: common.Pair,
    checks: list[model.Check],
    outputs: list[model.Output],
    work: model.Work,
) -> None:
    window = front_drive.window(v.lead_window)
    now, new = common.leads(v, pair)
    checks.append(
        model.between(
            "lead",
            "Front-drive lead with the new tires",
            new,
            window.low,
            window.high,
            "fraction",
            window.source,
            why="Too little, and the rear pushes the front: no pull, hard steering, power hop. "
            "Too much, and the driveline winds up, wears tires and breaks gears.",
        )
    )
    outputs.append(model.Output("lead_now", "Lead with the tires it has now", now, "fraction"))
    outputs.append(model.Output("lead_new", "Lead with the new tires", new, "fraction"))
    if not work.on:
        return
    front, rear, front_new, rear_new = pair.circumferences(v)
    if common.direct(v.lead_now, v.front_turns):
        work.step(
            "Lead with the new tires",
            "lead",
            "RCf × i / RCr − 1",
            (
                ("RCf", front_new, "length"),
                ("i", v.front_turns / TURNS, "count"),
                ("RCr", rear_new, "length"),
            ),
            new,
            "fraction",
            "tires/TG-3",
        )
        return
    for name, before, after in (("front", front, front_new), ("rear", rear, rear_new)):
        work.step(
            f"Rolling circumference, {name}: new over now",
            f"k{name[0]}",
            "RC new / RC now",
            (("RC new", after, "length"), ("RC now", before, "length")),
            after / before,
            "count",
            "tires/derived",
        )
    work.step(
        "Lead with the new tires",
        "lead",
        "(1 + lead now) × kf / kr − 1",
        (
            ("lead now", now, "fraction"),
            ("kf", front_new / front, "count"),
            ("kr", rear_new / rear, "count"),
        ),
        new,
        "fraction",
        "tires/derived",
    )


def _speed(
    v: model.Inputs,
    pair: common.Pair,
    checks: list[model.Check],
    outputs: list[model.Output],
    work: model.Work,
) -> None:
    _, rear, _, rear_new = pair.circumferences(v)
    outputs.append(
        model.Output(
            "speed_change", "Change of speed in every gear", rear_new / rear - 1, "fraction"
        )
    )
    if not v.gear_speeds:
        return
    top = travel.speed_after(v.gear_speeds[-1], rear, rear_new)
    outputs.append(model.Output("top_speed", "Top speed with the new tires", top, "speed"))
    work.step(
        "Top speed with the new tires",
        "v₂",
        "v₁ × RC new / RC now",
        (
            ("v₁", v.gear_speeds[-1], "speed"),
            ("RC new", rear_new, "length"),
            ("RC now", rear, "length"),
        ),
        top,
        "speed",
        "tires/derived",
    )
    for axle, tire in (("front", pair.front_new), ("rear", pair.rear_new)):
        rated = common.rating(tire)
        if rated is not None and rated.speed is not None:
            checks.append(
                model.at_most(
                    f"{axle}_speed",
                    f"Top speed against the {axle} tire's speed symbol",
                    top,
                    rated.speed,
                    "speed",
                    "tires/ISO4251-memory",
                    why="Above its symbol a tire runs hot and may come apart.",
                )
            )
    if v.liquid != "none":
        checks.append(
            model.at_most(
                "liquid_speed",
                "Top speed with liquid in the tires",
                top,
                LIQUID_SPEED,
                "speed",
                "tires/OM-1",
                why="Liquid makes tires ride hard and sway; keep below this speed.",
            )
        )


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
    v: model.Inputs,
    pair: common.Pair,
    checks: list[model.Check],
    outputs: list[model.Output],
    work: model.Work,
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
        outputs.append(model.Output("deck_rise", "Mower deck's hangers rise by", deck, "length"))
    pitch = travel.pitch_change(front_rise, rear_rise, v.wheelbase)
    outputs.append(model.Output("pitch", "Nose tips up by", arith.degrees(pitch), "angle"))
    if work.on and pair.rear is not None and pair.rear_new is not None:
        work.step(
            "Rise of the rear axle",
            "ΔC",
            "loaded radius new − now",
            (
                ("r new", pair.rear_new.static_loaded_radius, "length"),
                ("r now", pair.rear.static_loaded_radius, "length"),
            ),
            rear_rise,
            "length",
            "tires/derived",
        )
        ratio = travel.pull_ratio(
            pair.rear.static_loaded_radius, pair.rear_new.static_loaded_radius
        )
        work.step(
            "Pull for equal axle torque",
            "F₂ / F₁",
            "r now / r new",
            (
                ("r now", pair.rear.static_loaded_radius, "length"),
                ("r new", pair.rear_new.static_loaded_radius, "length"),
            ),
            ratio,
            "count",
            "tires/derived",
        )
    rear_growth = _diameter_change(pair.rear, pair.rear_new) / 2
    front_growth = _diameter_change(pair.front, pair.front_new) / 2
    for name, title, gap, growth in (
        ("fender", "Gap between rear tread and fender", v.fender_gap, rear_growth),
        ("deck", "Gap between mower deck and rear tread", v.deck_gap, rear_growth),
        ("front_lock", "Gap at the front tire, wheel turned", v.front_gap, front_growth),
    ):
        _gap(name, title, gap, growth, checks)


def _balance(
    v: model.Inputs, pair: common.Pair, outputs: list[model.Output], work: model.Work
) -> None:
    """The static side angle before and after: taller tires lift the center of gravity."""
    front_rise, rear_rise = _radius_changes(pair)
    ahead = v.front_share * v.wheelbase
    rise = travel.clearance_change(front_rise, rear_rise, ahead, v.wheelbase)
    angles = [
        arith.degrees(
            stability.side_tip_angle_pivoting(
                v.track_width,
                arith.max(v.cg_height + up, 0.1),
                v.wheelbase,
                ahead,
                arith.max(v.axle_pin_height + pin, 0.0),
            )
        )
        for up, pin in ((0.0, 0.0), (rise, front_rise))
    ]
    said = "limit at rest on smooth, hard ground, track unchanged; never a slope to work on"
    outputs.append(model.Output("cg_rise", "Center of gravity rises by", rise, "length"))
    outputs.append(model.Output("side_now", "Static side angle now", angles[0], "angle", said))
    outputs.append(
        model.Output("side_new", "Static side angle with the new tires", angles[1], "angle", said)
    )
    work.step(
        "Static side angle with the new tires",
        "θ",
        "atan(t/2 × (b − x) / (b h − x p))",
        (
            ("t", v.track_width, "length"),
            ("b", v.wheelbase, "length"),
            ("x", ahead, "length"),
            ("h", v.cg_height + rise, "length"),
            ("p", v.axle_pin_height + front_rise, "length"),
        ),
        angles[1],
        "angle",
        "tires/derived",
    )


def _radius_error(old: tires.Dimensions | None, new: tires.Dimensions | None, stays: bool) -> float:
    """Return how far the change of loaded radius may be off [m]."""
    if stays or old is None or new is None:
        return 0.0
    return arith.hypot(
        old.loaded_radius_error * old.static_loaded_radius,
        new.loaded_radius_error * new.static_loaded_radius,
    )


def _banded(name: str, label: str, value: float, off: float) -> model.Output:
    """Return an output with the range that the table's own error gives it."""
    if not off:
        return model.Output(name, label, value, "length")
    return model.Output(name, label, value, "length", low=value - off, high=value + off)


def _gap(
    name: str, title: str, gap: float | None, growth: float, checks: list[model.Check]
) -> None:
    if gap is not None:
        checks.append(
            model.at_least(
                f"{name}_gap",
                title,
                gap - growth,
                duals.FENDER_GAP,
                "length",
                "tires/OM-16",
                why="Mud and flexing close a small gap; then the tire rubs.",
            )
        )


def _widths(
    v: model.Inputs, pair: common.Pair, checks: list[model.Check], outputs: list[model.Output]
) -> None:
    if pair.rear is None or pair.rear_new is None:
        return
    growth = pair.rear_new.section_width - pair.rear.section_width
    _gap("side", "Gap between rear sidewall and fender", v.side_gap, growth / 2, checks)
    width = travel.overall_width(v.track_width, pair.rear_new.section_width)
    before = travel.overall_width(v.track_width, pair.rear.section_width)
    outputs.append(model.Output("width_now", "Width over the rear tires now", before, "length"))
    outputs.append(
        model.Output("width", "Width over the new rear tires, same track", width, "length")
    )
    if v.width_limit is not None:
        checks.append(
            model.at_most(
                "width",
                "Width over the new rear tires",
                width,
                v.width_limit,
                "length",
                "tires/derived",
                why="It won't pass.",
            )
        )
    ratio = travel.pull_ratio(pair.rear.static_loaded_radius, pair.rear_new.static_loaded_radius)
    outputs.append(
        model.Output("pull_change", "Change of pull in the same gear", ratio - 1, "fraction")
    )
    _, rear, _, rear_new = pair.circumferences(v)
    braking = travel.braking_ratio(
        rear_new / rear, pair.rear.static_loaded_radius, pair.rear_new.static_loaded_radius
    )
    outputs.append(
        model.Output(
            "braking_change",
            "Change of braking distance from top speed",
            braking - 1,
            "fraction",
            "with the brakes at their limit",
        )
    )


def _liquid(
    v: model.Inputs,
    pair: common.Pair,
    checks: list[model.Check],
    outputs: list[model.Output],
    work: model.Work,
) -> float:
    """Return the mass of liquid that both new rear tires hold [kg]."""
    if v.liquid == "none" or pair.rear_new is None:
        return 0.0
    row = tables.by_key("tires/ballast_liquids", "key")[v.liquid]
    density = float(row["density_kg_l"]) * 1000
    volume = liquid_ballast.fill_volume(pair.rear_new, v.fill)
    mass = liquid_ballast.liquid_mass(volume.value, density)
    outputs.append(
        model.Output(
            "liquid_volume",
            "Liquid in each new rear tire",
            volume.value,
            "volume",
            model.phrase(
                "between {low} and {high}", low=(volume.low, "volume"), high=(volume.high, "volume")
            ),
        )
    )
    outputs.append(model.Output("liquid_mass", "Ballast in both new rear tires", 2 * mass, "mass"))
    if pair.rear is not None:
        before = liquid_ballast.fill_volume(pair.rear, v.fill).value * density
        outputs.append(
            model.Output(
                "liquid_gained",
                "More than the old tires would hold, both",
                2 * (mass - before),
                "mass",
            )
        )
    work.step(
        "Ballast in one rear tire",
        "m",
        "V × density",
        (("V", volume.value, "volume"), ("density", density, "density")),
        mass,
        "mass",
        row["source"],
    )
    if v.coldest is not None and (row["slush_c"] or row["solid_c"]):
        starts = 273.15 + arith.number(row["slush_c"] or row["solid_c"])
        ok = v.coldest >= starts
        checks.append(
            model.fits(
                "freezing",
                "Freezing of the liquid",
                1.0 if ok else -1.0,
                model.phrase(
                    "It stays liquid: it starts to freeze at {at}."
                    if ok
                    else "It freezes: slush starts at {at}, and a frozen tire can't be driven on.",
                    at=(starts, "temperature"),
                ),
                row["freeze_source"],
                why="" if ok else "Ice inside a tire breaks it when it is driven on.",
            )
        )
    return 2 * mass


def _loads(
    v: model.Inputs,
    pair: common.Pair,
    liquid: float,
    checks: list[model.Check],
    outputs: list[model.Output],
    work: model.Work,
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
                model.Output(f"{axle}_tire_load", f"One {axle} tire may carry", each, "mass")
            )
        if load is None or (each is None and limit is None):
            continue
        allowed = tire_load.axle_capacity(
            2, arith.inf if each is None else each, arith.inf if limit is None else limit
        )
        checks.append(
            model.at_most(
                f"{axle}_load",
                f"Load on the {axle} axle",
                load + added,
                allowed,
                "mass",
                source,
                why="An overloaded tire or axle runs hot and fails.",
            )
        )
        work.step(
            f"What the {axle} axle may carry",
            "L",
            "the least of two tires and the axle's limit",
            (("tire", 0.0 if each is None else each, "mass"),),
            allowed,
            "mass",
            "tires/OM-10",
        )


def _at_pressure(v: model.Inputs, axle: str, load: float, work: model.Work) -> float:
    used, rated = getattr(v, f"{axle}_pressure"), getattr(v, f"{axle}_rated_pressure")
    if used is None or rated is None:
        return load
    pressure = arith.min(used, rated)
    found = tire_load.load_at_pressure(load, pressure, rated)
    work.step(
        f"Load of a {axle} tire at the pressure you run",
        "L",
        "L rated × (p / p rated)^0.585",
        (("L rated", load, "mass"), ("p", pressure, "pressure"), ("p rated", rated, "pressure")),
        found,
        "mass",
        "tires/pressure-memory",
    )
    return found
