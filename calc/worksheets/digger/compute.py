"""The sums."""

from __future__ import annotations

from calc import arith, model, tables
from calc.mechanics import digger, driveline, pto
from calc.subjects.shear_bolt import INCH

RATED_SPEED = 540.0
TRANSPORT_CLEARANCE = 0.10  # between holes, on even ground
BOLT_PLANES = 2  # the bolt goes through the shaft


def _boom(v: model.Inputs, height: float) -> digger.BoomPoint | None:
    try:
        return digger.boom_at(height, v.bracket_height, v.boom_length, v.yoke_distance, v.yoke_rise)
    except ValueError:
        return None


def _distance_behind(v: model.Inputs, gearbox_height: float) -> float:
    """How far behind the boom pin the gearbox is at a height. [m]"""
    sine = (gearbox_height - v.bracket_height) / v.boom_length
    return arith.number(v.boom_length * arith.sqrt(arith.max(0.0, 1.0 - sine * sine)))


def _shaft(v: model.Inputs, gearbox_height: float) -> tuple[float, float]:
    """Length of the driveline [m] and its angle [deg] with the gearbox at a height."""
    run = arith.max(0.01, _distance_behind(v, gearbox_height) - v.gearbox_input - v.stub_behind)
    rise = gearbox_height - v.stub_height
    return arith.hypot(run, rise), arith.degrees(arith.atan2(rise, run))


def _shaft_ends(v: model.Inputs, low: float, high: float) -> tuple[float, float]:
    """Shortest and longest driveline over the lift [m]."""
    lengths = [_shaft(v, low + (high - low) * k / 8.0)[0] for k in range(9)]
    return arith.min(lengths), arith.max(lengths)


def _bolt(v: model.Inputs) -> float:
    return driveline.shear_bolt(
        v.bolt_size, v.bolt_grade, v.bolt_plane == "thread", BOLT_PLANES, 0.5 * v.shaft_diameter
    ).torque


def _maker_bolt(v: model.Inputs) -> float:
    """Torque of the bolt that the manual names, at its strongest: shank in the plane."""
    return driveline.shear_bolt("3/8", "grade_2", False, BOLT_PLANES, 0.5 * v.shaft_diameter).torque


def _coupler_check(v: model.Inputs) -> model.Check:
    plain = v.quick_coupler != "u_frame"
    return model.fits(
        "coupler",
        "Top link replaced by the boom",
        1.0 if plain else -1.0,
        "The boom pins to the top-link bracket and the yoke to the lower links."
        if plain
        else "A U-frame coupler has no place for the boom, which pins to the tractor's own "
        "top-link bracket.",
        "hitch/H19",
        why="The digger hangs on the bracket and the lower links alone.",
    )


def _anchor() -> tuple[tuple[str, float, str], ...]:
    """The one power figure of the trade that the others are scaled from, for the working."""
    row = tables.by_key("digger/digger_power", "key")["anchor"]
    return (
        ("P₁₂", float(row["hp"]) * digger.HP, "power"),
        ("f₁₂", digger.soil_factor(row["soil"]), "count"),
        ("D₁₂", float(row["diameter_in"]) * INCH, "length"),
    )


def _speed_check(v: model.Inputs) -> model.Check:
    slow = v.pto_speed <= RATED_SPEED
    return model.fits(
        "speed",
        "Shaft speed",
        1.0 if slow else -1.0,
        model.phrase(
            "{speed} is within the 540 rpm that the digger is made for."
            if slow
            else "{speed} is more than the 540 rpm that the digger is made for.",
            speed=(v.pto_speed, "rotation"),
        ),
        "value/P6c",
        why="" if slow else "The auger whips and throws, and the driveline can fail.",
    )


def _bolt_check(bolt: float, maker: float) -> model.Check:
    soft = bolt <= maker * (1.0 + 1e-9)
    return model.fits(
        "bolt",
        "Shear bolt no stronger than the manual's",
        1.0 if soft else -1.0,
        model.phrase(
            "It lets go at {bolt}; the manual's 3/8 in grade 2, at its strongest, at {maker}.",
            bolt=(bolt, "torque"),
            maker=(maker, "torque"),
        ),
        "value/P6b",
        why="" if soft else "Something dearer than the bolt breaks first.",
    )


def _power_checks(
    v: model.Inputs, work: model.Work
) -> tuple[list[model.Check], list[model.Output]]:
    factor = digger.soil_factor(v.soil)
    needed = digger.auger_power(v.auger_diameter, factor)
    needed_torque = pto.torque(needed, RATED_SPEED)
    torque = pto.torque(v.pto_power, RATED_SPEED)
    share = arith.min(1.0, v.pto_speed / RATED_SPEED)
    auger_torque = digger.auger_torque(torque, v.gear_ratio)
    bolt, maker = _bolt(v), _maker_bolt(v)
    if work.on:
        work.step(
            "Power the auger asks for at 540 rpm",
            "P",
            "P₁₂ f / f₁₂ × (D / D₁₂)²",
            (*_anchor(), ("D", v.auger_diameter, "length"), ("f", factor, "count")),
            needed,
            "power",
            "value/P7; power/PRACTICE; value/AUGER-memory",
        )
        work.step(
            "Torque of the tractor at the shaft",
            "T",
            "P / ω",
            (("P", v.pto_power, "power"), ("n", RATED_SPEED, "rotation")),
            torque,
            "torque",
            "power/S5",
        )
        work.step(
            "Torque at the auger",
            "Tₐ",
            "T i η",
            (("T", torque, "torque"), ("i", v.gear_ratio, "count"), ("η", 0.95, "fraction")),
            auger_torque,
            "torque",
            "value/DERIVED",
        )
        work.step(
            "Torque at which the bolt shears",
            "T_b",
            "2 τ A d/2",
            (("τ A", bolt / v.shaft_diameter, "force"), ("d", v.shaft_diameter, "length")),
            bolt,
            "torque",
            "value/P5; value/P10",
        )
    checks = [
        model.at_most(
            "power",
            "Power for the auger at 540 rpm",
            needed,
            v.pto_power,
            "power",
            "value/P7; power/PRACTICE",
            why="The engine stalls or the bolt shears in every hole.",
        ),
        _speed_check(v),
        _bolt_check(bolt, maker),
        model.at_least(
            "bolt_work",
            "Shear bolt strong enough for the job",
            bolt,
            needed_torque,
            "torque",
            "value/DERIVED",
            why="It would shear in ordinary digging.",
        ),
    ]
    outputs = [
        model.Output(
            "power_needed",
            "Power the auger asks for",
            needed,
            "power",
            "at 540 rpm, from trade custom and the square of the diameter",
        ),
        model.Output(
            "power_left",
            "PTO power at the speed you dig at",
            v.pto_power * share,
            "power",
            "if the torque stays the same below 540 rpm",
        ),
        model.Output("torque", "PTO torque at the shaft", torque, "torque"),
        model.Output(
            "auger_torque",
            "Torque at the auger",
            auger_torque,
            "torque",
            "what turns the boom, the yoke or a person if the auger stops",
        ),
        model.Output("auger_speed", "Auger speed", v.pto_speed / v.gear_ratio, "rotation"),
        model.Output(
            "bolt_torque",
            "Shear bolt lets go at",
            bolt,
            "torque",
            "new and static; real bolts scatter by about a fifth",
        ),
        model.Output("bolt_times", "Bolt torque over the tractor's", bolt / torque, "count"),
    ]
    if _soil_row(v)["diggable"] == "no":
        checks.append(
            model.fits(
                "soil",
                "Soil that an auger can cut",
                -1.0,
                "An auger polishes dry, hard clay and shale and kicks the tractor about.",
                "value/AUGER-memory",
            )
        )
    return checks, outputs


def _soil_row(v: model.Inputs) -> tables.Row:
    return tables.by_key("digger/digger_soils", "key")[v.soil]


def _lift_check(follows: bool) -> model.Check:
    return model.fits(
        "lift",
        "Lift that the boom can follow",
        1.0 if follows else -1.0,
        "The yoke reaches the boom over the whole lift."
        if follows
        else "With these sizes the boom would have to pass the upright, or the links are no "
        "higher raised than lowered: measure the heights and the boom again.",
        "value/DERIVED",
    )


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Give the checks and numbers at one set of values."""
    checks, outputs = _power_checks(v, work)
    checks.insert(0, _coupler_check(v))
    low = _boom(v, v.link_low)
    high = _boom(v, v.link_high) if v.link_high > v.link_low else None
    checks.append(_lift_check(low is not None and high is not None))
    if low is None or high is None:
        return model.Outcome(checks, outputs)
    found = digger.reach(
        low, high, v.bracket_height, v.boom_length, v.auger_length, v.housing_clearance
    )
    start = arith.min(v.auger_length, high.gearbox_height)
    deep = arith.min(start, arith.max(low.gearbox_height, v.housing_clearance))
    digging_angle = arith.max(abs(_shaft(v, start)[1]), abs(_shaft(v, deep)[1]))
    raised_angle = abs(_shaft(v, high.gearbox_height)[1])
    shortest, longest = _shaft_ends(v, low.gearbox_height, high.gearbox_height)
    if work.on:
        _show_reach(v, work, low, high, found)
    checks += [
        model.at_least(
            "clearance",
            "Point above ground when raised",
            found.tip_clearance,
            TRANSPORT_CLEARANCE,
            "length",
            "value/PRACTICE",
            why="The auger drags between holes, and can't be set on the mark.",
        ),
        model.at_least(
            "depth",
            "Depth of hole",
            found.depth,
            v.depth_wanted,
            "length",
            "value/DERIVED",
            why="The boom or the housing is down before the hole is deep enough.",
            close_band=0.0,
        ),
        model.at_most(
            "angle",
            "Joint angle while digging",
            digging_angle,
            35.0,
            "angle",
            "hitch/H18b",
            why="A standard joint knocks, wears and can come apart.",
        ),
    ]
    outputs += [
        model.Output("depth", "Depth it can dig", found.depth, "length"),
        model.Output(
            "tip_clearance", "Point above ground when raised", found.tip_clearance, "length"
        ),
        model.Output(
            "gearbox_low",
            "Gearbox height, lowered",
            low.gearbox_height,
            "length",
            "below zero means that the ground stops it first",
        ),
        model.Output("gearbox_high", "Gearbox height, raised", high.gearbox_height, "length"),
        model.Output(
            "travel_ratio",
            "Gearbox travel for each inch of lift",
            v.boom_length / v.yoke_distance,
            "count",
        ),
        model.Output(
            "drift",
            "Walk of the gearbox while it digs",
            found.drift,
            "length",
            "how far to creep the tractor so that the hole stays plumb",
        ),
        model.Output(
            "lean",
            "Lean of the auger if the tractor stands still",
            arith.degrees(found.lean),
            "angle",
        ),
        model.Output("digging_angle", "Largest joint angle while digging", digging_angle, "angle"),
        model.Output(
            "raised_angle",
            "Joint angle fully raised",
            raised_angle,
            "angle",
            "stop the PTO before you raise it this far" if raised_angle > 35.0 else "",
        ),
        model.Output(
            "shaft_shortest",
            "Driveline, shortest",
            shortest,
            "length",
            "groove to groove, for the driveline worksheet",
        ),
        model.Output("shaft_longest", "Driveline, longest", longest, "length"),
        model.Output(
            "spoil",
            "Soil out of the hole",
            digger.hole_volume(v.auger_diameter, arith.min(found.depth, v.depth_wanted)),
            "volume",
            "undisturbed; it heaps up to more",
        ),
    ]
    return model.Outcome(checks, outputs)


def _show_reach(
    v: model.Inputs,
    work: model.Work,
    low: digger.BoomPoint,
    high: digger.BoomPoint,
    found: digger.Reach,
) -> None:
    for name, point in (("lowered", low), ("raised", high)):
        work.step(
            f"Gearbox height, {name}",
            "z",
            "z_A + L (z_l + y − z_A) / a",
            (
                ("z_A", v.bracket_height, "length"),
                ("L", v.boom_length, "length"),
                ("z_l", point.link_height, "length"),
                ("y", v.yoke_rise, "length"),
                ("a", v.yoke_distance, "length"),
            ),
            point.gearbox_height,
            "length",
            "value/DERIVED",
        )
    work.step(
        "Depth of hole",
        "h",
        "min(z_high, L_a) − max(z_low, c)",
        (
            ("z_high", high.gearbox_height, "length"),
            ("L_a", v.auger_length, "length"),
            ("z_low", low.gearbox_height, "length"),
            ("c", v.housing_clearance, "length"),
        ),
        found.depth,
        "length",
        "value/DERIVED",
    )
    low_end = arith.max(low.gearbox_height, v.housing_clearance)
    high_end = arith.min(v.auger_length, high.gearbox_height)
    start, deep = (
        _distance_behind(v, height) for height in (high_end, arith.min(low_end, high_end))
    )
    work.step(
        "Walk of the gearbox",
        "D",
        "|x_start − x_deep|",
        (("x_start", start, "length"), ("x_deep", deep, "length")),
        found.drift,
        "length",
        "value/DERIVED",
    )
