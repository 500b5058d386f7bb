"""A tractor, an implement and a job: every check at once.

Each group of checks is a function of its own, so that a worksheet on one subject and the
pairing say the same. All values are in base units; names are those of the vocabulary.
"""

from __future__ import annotations

from calc import arith, model, tables
from calc.mechanics import ballast, hitch, pto_power
from calc.model import Check, Inputs, Output, Work
from calc.subjects import raised

OFF_ROAD = "none"


def power_key(kind: str) -> str:
    """Return the row of power_density for a kind of implement; empty when it needs no shaft."""
    row = pto_power.kind_row(kind)
    return row["power_key"] if row else ""


def hitch_checks(v: Inputs) -> list[Check]:
    """Return whether pins and span go together, with what between them."""
    theirs, ours = v.implement_category, v.hitch_category
    if v.quick_coupler == "u_frame":
        return _coupler_checks(v)
    pins = hitch.pins_fit(ours, theirs)
    span = hitch.spans_fit(ours, theirs)
    pin_words = {
        "fits": ("The pins are the size of the balls.", 1.0),
        "sleeve": (
            "The implement's pins are smaller than the tractor's balls: fit sleeves, never run "
            "them loose.",
            0.0,
        ),
        "too big": ("The implement's pins are too large for the tractor's balls.", -1.0),
    }[pins]
    span_words = {
        "same": ("Both are built to the same span.", 1.0),
        "adjust": (
            "The spans differ by a hand's width; the stabilizers may take it up: measure both.",
            0.0,
        ),
        "no": ("The spans are too far apart for the stabilizers to bridge.", -1.0),
    }[span]
    return [
        model.fits("pins", "Lower hitch pins", pin_words[1], pin_words[0], "hitch/W1; hitch/H19"),
        model.fits("span", "Lower hitch span", span_words[1], span_words[0], "hitch/W1; hitch/H1"),
    ]


def _coupler_checks(v: Inputs) -> list[Check]:
    coupler = v.hitch_category if v.hitch_category in ("1", "2", "3", "3N") else ""
    checks = []
    conflict = hitch.coupler_conflict(v.implement_kind)
    if conflict:
        margin = {"no": -1.0, "adapter": 0.0, "measure": 0.0, "check": 0.0}[conflict["verdict"]]
        checks.append(
            model.fits("coupler", "Quick coupler", margin, conflict["why"], conflict["source"])
        )
    if not coupler:
        said = f"No U-frame coupler of Category {v.hitch_category} is in the tables."
        return [*checks, model.fits("pins", "Pins in the coupler", -1.0, said, "hitch/S3")]
    pins = hitch.coupler_pins_fit(coupler, v.implement_category)
    said, margin = {
        "fits": ("The pins fill the coupler's slots.", 1.0),
        "sleeve": (
            "The coupler's slots are cut for one size of pin: fit a sleeve on each lower pin and "
            "on the top pin, which also keeps them centered and takes the wear.",
            0.0,
        ),
        "no stock sleeve": ("No stock sleeve brings pins this small up to the slots.", -1.0),
        "too big": ("The implement's pins are larger than the coupler's slots.", -1.0),
    }[pins]
    gap = abs(hitch.coupler_span_difference(coupler, v.implement_category))
    reaches = gap <= 2 * hitch.SPAN_TOLERANCE
    span_words = (
        "The hooks stand as far apart as the implement's pins."
        if reaches
        else "The coupler's hooks can't be moved, and the implement's pins stand elsewhere."
    )
    return [
        *checks,
        model.fits("pins", "Pins in the coupler", margin, said, "hitch/COUPLER-memory"),
        model.fits("span", "Span of the coupler", 1.0 if reaches else -1.0, span_words, "hitch/W1"),
    ]


def demand(v: Inputs) -> float | None:
    """Return the shaft power that the implement takes, or None when it takes none. [W]"""
    if v.power_needed is not None:
        return arith.number(v.power_needed)
    key = power_key(v.implement_kind)
    if not key:
        return None
    return pto_power.demand(key, v.working_width, v.material)


def power_checks(v: Inputs, work: Work) -> tuple[list[Check], list[Output]]:
    """Return power at the shaft against what the implement takes."""
    needed = demand(v)
    if needed is None:
        return [], []
    mass = v.tractor_mass + v.implement_mass
    drive = "gear" if v.transmission == "gear" else "hydrostatic"
    efficiency = pto_power.axle_efficiency(drive)[1]
    climb = pto_power.grade_power(mass, v.slope, v.ground_speed) / efficiency
    share = pto_power.altitude_factor(v.altitude)
    left = pto_power.power_left(v.pto_power, share, 1.0, climb)
    if work.on:
        altitude_rule = tables.by_key("power/altitude_rules", "key")[
            pto_power.DEFAULT_ALTITUDE_RULE
        ]
        work.step(
            "Share of the power left at this altitude",
            "f",
            f"1 − {altitude_rule['label']}",
            (("h", v.altitude, "distance"),),
            share,
            "fraction",
            altitude_rule["source"],
        )
        work.step(
            "Power that the climb takes from the engine",
            "P_c",
            "m g sin(atan s) v / η",
            (
                ("m", mass, "mass"),
                ("s", v.slope, "slope"),
                ("v", v.ground_speed, "speed"),
                ("η", efficiency, "fraction"),
            ),
            climb,
            "power",
            "power/S29",
        )
        work.step(
            "Power left for the implement",
            "P",
            "f P_pto − P_c",
            (
                ("f", share, "fraction"),
                ("P_pto", v.pto_power, "power"),
                ("P_c", climb, "power"),
            ),
            left,
            "power",
            "power/DERIVED",
        )
        if v.power_needed is None:
            key = power_key(v.implement_kind)
            row = tables.by_key("power/power_density", "key")[key]
            total = pto_power.is_total(key)
            work.step(
                "Power that the implement takes",
                "P_i",
                "table value" if total else "p w",
                ()
                if total
                else (
                    ("p", pto_power.density(key, v.material), "power_per_width"),
                    ("w", v.working_width, "length"),
                ),
                needed,
                "power",
                row["source"],
            )
    source = "power/S16; power/PRACTICE" if v.power_needed is None else "power/DERIVED"
    checks = [
        model.at_least(
            "power",
            "PTO power for the implement",
            left,
            needed,
            "power",
            source,
            why="Short of power, the engine bogs in thick growth and the cut is ragged; a smaller "
            "bite or a slower pace helps a little.",
            close_band=pto_power.RESERVE,
        )
    ]
    if v.power_limit is not None:
        checks.append(
            model.at_most(
                "driveline",
                "PTO power against the implement's driveline",
                v.pto_power,
                v.power_limit,
                "power",
                "power/S25",
                why="A tractor above the rating leans on the slip clutch or shear bolt: keep it "
                "set right.",
            )
        )
    return checks, [
        Output("power_left", "Power left for the implement", left, "power"),
        Output("power_demand", "Power the implement takes", needed, "power"),
    ]


def load_checks(v: Inputs, work: Work) -> tuple[list[Check], list[Output]]:
    """Return lift, axle loads and plate limits with the implement raised."""
    capacity = raised.capacity_of(v)
    mass, reach = raised.behind_axle(v)
    front_unladen = raised.front_axle_of(v)
    added, ahead = v.front_ballast or 0.0, v.front_ballast_distance
    front = ballast.front_axle_load(front_unladen, v.wheelbase, reach, 0.0, mass, added, ahead)
    total = v.tractor_mass + mass + added
    wanted = ballast.front_load_required(v.tractor_mass, front_unladen, mass + added, v.front_rule)
    if work.on:
        _show_loads(v, work, capacity, front, wanted)
    checks = [
        raised.lift_check(v, capacity),
        raised.steering_check(v, front, wanted),
        _climb_check(v, front, total),
        *raised.plate_checks(v, front, total - front, total),
    ]
    return checks, [
        Output("front_load", "Front axle load, implement raised", front, "mass"),
        Output("rear_load", "Rear axle load, implement raised", total - front, "mass"),
        Output(
            "front_share_raised",
            "Front axle load as a share of the tractor's mass",
            front / v.tractor_mass,
            "fraction",
        ),
        Output(
            "overhang", "Rear axle to the center of gravity of what hangs there", reach, "length"
        ),
        Output("lift", "Lift where the implement's mass is", capacity, "mass"),
    ]


def _show_loads(v: Inputs, work: Work, capacity: float, front: float, wanted: float) -> None:
    mass, reach = raised.behind_axle(v)
    pivot, _ = raised.pivot_of(v)
    rule = tables.by_key("hitch/twenty_percent_rules", "key")[v.front_rule]
    work.step(
        "Lift where the implement's mass is",
        "C",
        "C_r (r + d_r) / (r + d), at most C_r",
        (
            ("C_r", v.lift_capacity, "mass"),
            ("r", pivot, "length"),
            ("d_r", raised.rated_at_of(v), "length"),
            ("d", v.cg_distance, "length"),
        ),
        capacity,
        "mass",
        raised.SEEN_LIFT,
    )
    work.step(
        "Front axle load, implement raised",
        "T_F'",
        "[I_F (a + b) + T_F b − I_R e] / b",
        (
            ("I_F", v.front_ballast or 0.0, "mass"),
            ("a", v.front_ballast_distance, "length"),
            ("b", v.wheelbase, "length"),
            ("T_F", raised.front_axle_of(v), "mass"),
            ("I_R", mass, "mass"),
            ("e", reach, "length"),
        ),
        front,
        "mass",
        raised.SEEN_LOADS,
    )
    work.step(
        "Load that must stay on the front axle",
        "T_F,min",
        rule["label"],
        (("T_E", v.tractor_mass, "mass"),),
        wanted,
        "mass",
        rule["source"],
    )


def _climb_check(v: Inputs, front: float, total: float) -> Check:
    """Return the front axle load on the steepest climb; at zero the wheels leave the ground.

    The line of weight moves back by height times slope; the height of the whole is taken as
    the tractor's. The margin counts zero as the limit and the common 20 % as one.
    """
    left = front - total * v.cg_height * v.slope / v.wheelbase
    share = left / v.tractor_mass
    return Check(
        "climb",
        "Front axle share left on the steepest climb",
        "fraction",
        share,
        0.0,
        "at least",
        share / ballast.FRONT_SHARE,
        "hitch/DERIVED",
        why="At nothing the front wheels leave the ground. Real ground has bumps: this is a limit "
        "at rest, not a slope that is safe.",
        close_band=0.5,
    )


def other_checks(v: Inputs) -> list[Check]:
    """Return checks on hydraulics and on how the implement covers the tractor."""
    checks = []
    needed = v.remotes_needed or 0.0
    if needed > 0 and v.remotes is not None:
        checks.append(
            model.at_least(
                "remotes",
                "Rear hydraulic outlets (pairs)",
                v.remotes,
                needed,
                "count",
                "hitch/PRACTICE",
                close_band=0.0,
            )
        )
    if v.tractor_width is not None and power_key(v.implement_kind):
        covers = v.working_width >= v.tractor_width
        said = (
            "It cuts as wide as the tractor's wheels stand."
            if covers
            else "It is narrower than the tractor: one wheel rolls on what isn't cut yet."
        )
        checks.append(
            model.fits(
                "covers", "Width against the wheels", 1.0 if covers else 0.0, said, "hitch/PRACTICE"
            )
        )
    return checks


def tip_outputs(v: Inputs) -> list[Output]:
    """Return static tip angles with the implement raised, never as a slope that is safe."""
    mass, reach = raised.behind_axle(v)
    added = [(mass, -reach, arith.number(v.raised_height))]
    if v.front_ballast:
        added.append((v.front_ballast, v.wheelbase + v.front_ballast_distance, v.cg_height))
    side, rear = raised.tip_angles(v, added)
    return [
        Output(
            "side_tip",
            "Static tip angle sideways, implement raised",
            side,
            "angle",
            raised.NOT_A_SLOPE,
        ),
        Output(
            "rear_tip",
            "Static tip angle rearward, implement raised",
            rear,
            "angle",
            raised.NOT_A_SLOPE,
        ),
    ]


def with_tire_load(v: Inputs) -> Inputs:
    """Return the inputs with the load of one rear tire from its size, where only that is known."""
    if v.rear_tire is None or v.rear_tire_load is not None:
        return v
    from calc.mechanics import tire_load

    found = tire_load.rating(v.rear_tire)
    return v if found is None else v.but(rear_tire_load=found.load)


def road_checks(v: Inputs) -> list[Check]:
    """Return width and hidden lamps on the road, when the job goes there."""
    if v.place == OFF_ROAD:
        return []
    from calc.mechanics import mirrors
    from calc.subjects import road_list

    wide = v.working_width if power_key(v.implement_kind) != "chipper_opening" else 0.0
    behind = v.transport_width if v.transport_width is not None else wide
    width = arith.max(behind, v.tractor_width or 0.0)
    clear = arith.max(
        mirrors.lowest_clear_height(
            side, v.lamps_to_implement, v.implement_top, behind / 2, behind / 2
        )
        for side in (v.lamp_spread / 2, -v.lamp_spread / 2)
    )
    seen = model.at_least(
        "tail_seen",
        "Tail lamps seen over the implement",
        v.tail_height,
        clear,
        "length",
        "road/CALC-1; road/DOT-1",
        close_band=0.0,
        why="Hidden lamps are no lamps.",
    )
    return [*road_list.width_checks(v.place, "dark", width), *([seen] if clear > 0 else [])]


def check_all(v: Inputs, work: Work) -> model.Outcome:
    """Return every check of a pairing."""
    v = with_tire_load(v)
    powered, power_out = power_checks(v, work)
    loaded, load_out = load_checks(v, work)
    checks = [*hitch_checks(v), *powered, *loaded, *other_checks(v), *road_checks(v)]
    return model.Outcome(checks, [*load_out, *power_out, *tip_outputs(v)])
