"""The sums."""

from __future__ import annotations

from calc import arith, model, tables
from calc.mechanics import ballast, hitch, lift
from calc.subjects.raised import (
    NOT_A_SLOPE,
    SEEN_LIFT,
    SEEN_LOADS,
    behind_axle,
    capacity_of,
    coupler_mass,
    front_axle_of,
    lift_check,
    pivot_of,
    plate_checks,
    rated_at_of,
    steering_check,
    tip_angles,
)

# --- arithmetic ------------------------------------------------------------------------------


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Return the checks and outputs at one set of values."""
    mass, base = arith.number(v.tractor_mass), arith.number(v.wheelbase)
    front_axle = front_axle_of(v)
    weights = v.front_ballast or 0.0
    ahead = arith.number(v.front_ballast_distance)
    rear_mass, reach = behind_axle(v)
    added = rear_mass + weights

    capacity = capacity_of(v)
    front = ballast.front_axle_load(front_axle, base, reach, 0.0, rear_mass, weights, ahead)
    rear = mass + added - front
    wanted = ballast.front_load_required(mass, front_axle, added, v.front_rule)
    rule = tables.by_key("hitch/twenty_percent_rules", "key")[v.front_rule]
    if work.on:
        _show(v, work, front_axle, rear_mass, reach, capacity, front, rear, wanted, rule)

    checks = [
        lift_check(v, capacity),
        steering_check(v, front, wanted),
    ]
    checks += plate_checks(v, front, rear, mass + added)
    if weights:
        alone = mass - front_axle - weights * ahead / base
        checks.append(
            model.at_least(
                "rear_alone",
                "Load on the rear axle, implement off, front ballast on",
                alone,
                ballast.REAR_SHARE * mass,
                "mass",
                SEEN_LOADS,
                why="Too much at the front takes grip and brakes off the rear wheels.",
            )
        )
    outputs = _outputs(v, front_axle, front, rear, capacity, rear_mass, reach, weights, wanted)
    if v.loader_payload is not None:
        loader_checks, loader_outputs = _loader(v, work, front_axle, front, rear)
        checks += loader_checks
        outputs += loader_outputs
    return model.Outcome(checks, outputs)


def _outputs(
    v: model.Inputs,
    front_axle: float,
    front: float,
    rear: float,
    capacity: float,
    rear_mass: float,
    reach: float,
    weights: float,
    wanted: float,
) -> list[model.Output]:
    mass, base = arith.number(v.tractor_mass), arith.number(v.wheelbase)
    ahead = arith.number(v.front_ballast_distance)
    pivot, credit = pivot_of(v)
    rated_at = rated_at_of(v)
    felt = lift.effective_mass(v.implement_mass, v.cg_distance, rated_at, pivot, credit)
    needed = ballast.front_ballast_needed(
        mass, front_axle, base, reach, 0.0, rear_mass, ahead, v.front_rule
    )
    greatest = ballast.greatest_rear_mass(
        mass, front_axle, base, reach, 0.0, weights, ahead, v.front_rule
    )
    hung = [(rear_mass, -reach, arith.number(v.raised_height))]
    if weights:
        hung.append((weights, base + ahead, arith.number(v.cg_height)))
    side, back = tip_angles(v, [])
    side_up, back_up = tip_angles(v, hung)
    return [
        model.Output("capacity", "Lift at the implement's center of gravity", capacity, "mass"),
        model.Output(
            "felt", "The implement as the hitch feels it at its rating point", felt, "mass"
        ),
        model.Output("front", "Front axle load, implement raised", front, "mass"),
        model.Output(
            "front_share",
            "Front axle load as a share of the tractor's mass",
            front / mass,
            "fraction",
        ),
        model.Output("rear", "Rear axle load, implement raised", rear, "mass"),
        model.Output(
            "rise",
            "Rise of the rear axle load",
            rear - (mass - front_axle),
            "mass",
            "more than the implement's own mass, for it also lifts the front",
        ),
        model.Output("ballast", "Front ballast that the rule asks for in all", needed, "mass"),
        model.Output("greatest", "Heaviest rear mass here that the rule allows", greatest, "mass"),
        model.Output("gross", "Mass of everything", front + rear, "mass"),
        model.Output(
            "side", "Static tip angle sideways, tractor alone", side, "angle", NOT_A_SLOPE
        ),
        model.Output(
            "side_up", "Static tip angle sideways, implement raised", side_up, "angle", NOT_A_SLOPE
        ),
        model.Output(
            "back", "Static tip angle rearward, tractor alone", back, "angle", NOT_A_SLOPE
        ),
        model.Output(
            "back_up", "Static tip angle rearward, implement raised", back_up, "angle", NOT_A_SLOPE
        ),
    ]


def _loader(
    v: model.Inputs, work: model.Work, front_axle: float, front: float, rear: float
) -> tuple[list[model.Check], list[model.Output]]:
    """Return what a load in the bucket does, the implement hanging on the hitch as it is."""
    base, payload, out = (
        arith.number(v.wheelbase),
        arith.number(v.loader_payload),
        arith.number(v.loader_reach),
    )
    front_full, rear_full = ballast.axle_loads(front, rear, base, [(payload, base + out)])
    least = ballast.LOADER_REAR_SHARE * (front_full + rear_full)
    weights, ahead = v.front_ballast or 0.0, arith.number(v.front_ballast_distance)
    bare = ballast.axle_loads(
        front_axle, v.tractor_mass - front_axle, base, [(weights, base + ahead)]
    )
    counter = ballast.loader_counterweight(*bare, base, v.hitch_distance, payload, out)
    side, _ = tip_angles(v, [(payload, base + out, arith.number(v.loader_height))])
    if work.on:
        work.step(
            "Rear axle load, bucket full, implement on the hitch",
            "R_N",
            "R − N B / b",
            (
                ("R", rear, "mass"),
                ("N", payload, "mass"),
                ("B", out, "length"),
                ("b", base, "length"),
            ),
            rear_full,
            "mass",
            "hitch/H7; hitch/DERIVED",
        )
        work.step(
            "Counterweight at the hitch balls, implement off",
            "M",
            "[5 N B + b (P + N − 5 G)] / [5 (c + b) − b], at least 0",
            (
                ("N", payload, "mass"),
                ("B", out, "length"),
                ("b", base, "length"),
                ("P", sum(bare), "mass"),
                ("G", bare[1], "mass"),
                ("c", v.hitch_distance, "length"),
            ),
            counter,
            "mass",
            "hitch/H7",
        )
    checks = [
        model.at_least(
            "loader_rear",
            "Load on the rear axle, bucket full, implement on the hitch",
            rear_full,
            least,
            "mass",
            "hitch/H7",
            why="The rear wheels carry the brakes and keep the tractor from tipping onto its nose.",
        )
    ]
    if v.front_axle_limit is not None:
        checks.append(
            model.at_most(
                "loader_front",
                "Front axle load, bucket full, implement on the hitch",
                front_full,
                v.front_axle_limit,
                "mass",
                "hitch/H7",
                why="An overloaded front axle wears its bearings and seals, then fails.",
            )
        )
    outputs = [
        model.Output("loader_front", "Front axle load, bucket full", front_full, "mass"),
        model.Output("loader_rear", "Rear axle load, bucket full", rear_full, "mass"),
        model.Output(
            "counterweight",
            "Counterweight at the hitch balls for that load, implement off",
            counter,
            "mass",
        ),
        model.Output(
            "side_bucket",
            "Static tip angle sideways, bucket full, implement off",
            side,
            "angle",
            NOT_A_SLOPE,
        ),
    ]
    return checks, outputs


def _show(
    v: model.Inputs,
    work: model.Work,
    front_axle: float,
    rear_mass: float,
    reach: float,
    capacity: float,
    front: float,
    rear: float,
    wanted: float,
    rule: dict[str, str],
) -> None:
    """Write down the working."""
    pivot, credit = pivot_of(v)
    rated_at = rated_at_of(v)
    if credit:
        work.step(
            "Effective pivot ahead of the balls, from two ratings",
            "r",
            "s C₁ / (C₀ − C₁)",
            (
                ("s", rated_at, "length"),
                ("C₀", v.lift_at_ball_ends, "mass"),
                ("C₁", v.lift_capacity, "mass"),
            ),
            pivot,
            "length",
            "hitch/DERIVED",
        )
    if v.quick_coupler != "none":
        work.step(
            "Coupler: implement set back by",
            "s",
            "usual setback",
            (("coupler", coupler_mass(), "mass"),),
            hitch.coupler_setback(),
            "length",
            "hitch/PRACTICE; hitch/COUPLER-memory",
        )
    work.step(
        "Lift at the implement's center of gravity",
        "C",
        "C_r (r + d_r) / (r + d), at most C_r",
        (
            ("C_r", v.lift_capacity, "mass"),
            ("d_r", rated_at, "length"),
            ("r", pivot, "length"),
            ("d", v.cg_distance, "length"),
        ),
        capacity,
        "mass",
        SEEN_LIFT,
    )
    if v.front_axle_mass is None:
        work.step(
            "Front axle load without the implement",
            "T_F",
            "share × T",
            (("share", v.front_share, "fraction"), ("T", v.tractor_mass, "mass")),
            front_axle,
            "mass",
            "hitch/DERIVED",
        )
    work.step(
        "Front axle load, implement raised",
        "F",
        "[T_F b + I_F (a + b) − I_R (c + d)] / b",
        (
            ("T_F", front_axle, "mass"),
            ("b", v.wheelbase, "length"),
            ("I_F", v.front_ballast or 0.0, "mass"),
            ("a", v.front_ballast_distance, "length"),
            ("I_R", rear_mass, "mass"),
            ("c + d", reach, "length"),
        ),
        front,
        "mass",
        "hitch/H4; hitch/H5; hitch/H6",
    )
    work.step(
        "Rear axle load, implement raised",
        "R",
        "T + I_F + I_R − F",
        (
            ("T", v.tractor_mass, "mass"),
            ("I_F", v.front_ballast or 0.0, "mass"),
            ("I_R", rear_mass, "mass"),
            ("F", front, "mass"),
        ),
        rear,
        "mass",
        "hitch/H4; hitch/H6",
    )
    work.step(
        f"Least front axle load: {rule['label']}",
        "F_min",
        "share × what the rule counts",
        (
            ("share", float(rule["front_share"]), "fraction"),
            ("T", v.tractor_mass, "mass"),
            ("T_F", front_axle, "mass"),
            ("added", rear_mass + (v.front_ballast or 0.0), "mass"),
        ),
        wanted,
        "mass",
        rule["source"],
    )
    side, back = tip_angles(v, [])
    work.step(
        "Static tip angle sideways, front axle pivoting, tractor alone",
        "θ",
        "atan[(t/2)(b − x) / (b h − x p)]",
        (
            ("t", v.track_width, "length"),
            ("b", v.wheelbase, "length"),
            ("x", v.wheelbase * front_axle / v.tractor_mass, "length"),
            ("h", v.cg_height, "length"),
            ("p", v.axle_pin_height, "length"),
        ),
        side,
        "angle",
        "hitch/DERIVED; hitch/X15",
    )
    work.step(
        "Static tip angle rearward, tractor alone",
        "φ",
        "atan(x / h)",
        (("x", v.wheelbase * front_axle / v.tractor_mass, "length"), ("h", v.cg_height, "length")),
        back,
        "angle",
        "hitch/X5",
    )
