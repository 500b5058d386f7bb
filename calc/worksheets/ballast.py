"""Lift and ballast: can the hitch lift it, and what is left on each axle.

The implement is raised at rest on level ground. The front axle rules, the rating
distances and the usual masses are tables; everything else is a balance of moments.
"""

import math
from collections.abc import Callable

from calc import tables, vocabulary
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import ballast, hitch, lift, typical
from calc.picture import Chart, Mark, Picture, Scene, Series
from calc.worksheets._loads_view import inputs_view
from calc.worksheets._raised import (
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
    review,
    steering_check,
    tip_angles,
)

EVEN = 1e-9
BRACKET_SHARE = 0.20  # front weights beyond this share of the tractor are out of proportion
FULL_HEIGHT = 2.0  # a bucket raised full height on a compact [m], common practice
NARROWEST = 0.75  # how far below the narrowest usual width the search goes
RULE_CHOICES = ("tractor", "combined", "front_half")


def _rules() -> tuple[ws.Option, ...]:
    rows = tables.by_key("twenty_percent_rules", "key")
    return tuple(ws.Option(key, rows[key]["label"], rows[key]["note"]) for key in RULE_CHOICES)


LOADER, LIMITS = "Loader", "Limits on the plate"

FIELDS: tuple[ws.AnyField, ...] = (
    vocabulary.tractor_kind("compact_light"),
    vocabulary.field("tractor_mass", default="1,650 lb"),
    vocabulary.field("lift_capacity", default="900 lb"),
    vocabulary.field("lift_rated_at"),
    vocabulary.implement_kind("rotary_cutter_light"),
    vocabulary.field("working_width", default="60 in"),
    vocabulary.field("implement_mass", default="480 lb"),
    vocabulary.field("cg_distance", default="34 in", essential=True),
    vocabulary.field("front_ballast", essential=True),
    vocabulary.field("front_ballast_distance", default="26 in"),
    ws.Choice(
        "front_rule", "Front axle rule", _rules(),
        "Manuals give the same 20 % of different things. Use the tractor manual's own rule where "
        "it has one.",
        default=ballast.default_rule(), essential=True, group="Rule",
    ),
    vocabulary.field("front_axle_mass"),
    vocabulary.field("front_share", default="45 %"),
    vocabulary.field("wheelbase", default="62 in"),
    vocabulary.field("hitch_distance", default="28 in"),
    vocabulary.field("link_length", default="28 in"),
    vocabulary.field("lift_at_ball_ends"),
    vocabulary.field("quick_coupler"),
    vocabulary.field("track_width", default="42 in"),
    vocabulary.field("cg_height", default="22 in"),
    vocabulary.field("axle_pin_height", default="13 in"),
    vocabulary.field("raised_height", default="28 in"),
    vocabulary.field("rear_axle_limit", group=LIMITS),
    vocabulary.field("front_axle_limit", group=LIMITS),
    vocabulary.field("total_limit", group=LIMITS),
    vocabulary.field("rear_tire_load", group=LIMITS),
    ws.Field(
        "loader_payload", "Load in the loader bucket", "mass", "10 lb", "6,000 lb",
        "Only when you lift with the loader: what is in the bucket. The loader itself belongs to "
        "the tractor's mass.",
        optional=True, group=LOADER,
    ),
    ws.Field(
        "loader_reach", "Front axle to the middle of the bucket", "length", "12 in", "120 in",
        "Level distance with the arms level, where the bucket is farthest out.",
        default="56 in", typical=ws.Typical(1.1, 1.6, "hitch/PRACTICE", "loaders on compacts"),
        group=LOADER,
    ),
    ws.Field(
        "loader_height", "Height of the load in the bucket", "length", "6 in", "160 in",
        "From the ground to the middle of the load as you carry it.",
        default="16 in", typical=ws.Typical(0.3, 0.5, "hitch/PRACTICE", "a bucket carried low"),
        group=LOADER,
    ),
)  # fmt: skip


# --- arithmetic ------------------------------------------------------------------------------


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return the checks and outputs at one set of values."""
    mass, base = float(v.tractor_mass), float(v.wheelbase)
    front_axle = front_axle_of(v)
    weights = v.front_ballast or 0.0
    ahead = float(v.front_ballast_distance)
    rear_mass, reach = behind_axle(v)
    added = rear_mass + weights

    capacity = capacity_of(v)
    front = ballast.front_axle_load(front_axle, base, reach, 0.0, rear_mass, weights, ahead)
    rear = mass + added - front
    wanted = ballast.front_load_required(mass, front_axle, added, v.front_rule)
    rule = tables.by_key("twenty_percent_rules", "key")[v.front_rule]
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
            ws.at_least(
                "rear_alone", "Load on the rear axle, implement off, front ballast on", alone,
                ballast.REAR_SHARE * mass, "mass", SEEN_LOADS,
                why="Too much at the front takes grip and brakes off the rear wheels.",
            )
        )  # fmt: skip
    outputs = _outputs(v, front_axle, front, rear, capacity, rear_mass, reach, weights, wanted)
    if v.loader_payload is not None:
        loader_checks, loader_outputs = _loader(v, work, front_axle, front, rear)
        checks += loader_checks
        outputs += loader_outputs
    return ws.Outcome(checks, outputs)


def _outputs(
    v: ws.Inputs,
    front_axle: float,
    front: float,
    rear: float,
    capacity: float,
    rear_mass: float,
    reach: float,
    weights: float,
    wanted: float,
) -> list[ws.Output]:
    mass, base = float(v.tractor_mass), float(v.wheelbase)
    ahead = float(v.front_ballast_distance)
    pivot, credit = pivot_of(v)
    rated_at = rated_at_of(v)
    felt = lift.effective_mass(v.implement_mass, v.cg_distance, rated_at, pivot, credit)
    needed = ballast.front_ballast_needed(
        mass, front_axle, base, reach, 0.0, rear_mass, ahead, v.front_rule
    )
    greatest = ballast.greatest_rear_mass(
        mass, front_axle, base, reach, 0.0, weights, ahead, v.front_rule
    )
    hung = [(rear_mass, -reach, float(v.raised_height))]
    if weights:
        hung.append((weights, base + ahead, float(v.cg_height)))
    side, back = tip_angles(v, [])
    side_up, back_up = tip_angles(v, hung)
    return [
        ws.Output("capacity", "Lift at the implement's center of gravity", capacity, "mass"),
        ws.Output("felt", "The implement as the hitch feels it at its rating point", felt, "mass"),
        ws.Output("front", "Front axle load, implement raised", front, "mass"),
        ws.Output("front_share", "Front axle load as a share of the tractor's mass", front / mass,
                  "fraction"),
        ws.Output("rear", "Rear axle load, implement raised", rear, "mass"),
        ws.Output(
            "rise", "Rise of the rear axle load", rear - (mass - front_axle), "mass",
            "more than the implement's own mass, for it also lifts the front",
        ),
        ws.Output("ballast", "Front ballast that the rule asks for in all", needed, "mass"),
        ws.Output("greatest", "Heaviest rear mass here that the rule allows", greatest, "mass"),
        ws.Output("gross", "Mass of everything", front + rear, "mass"),
        ws.Output("side", "Static tip angle sideways, tractor alone", side, "angle", NOT_A_SLOPE),
        ws.Output("side_up", "Static tip angle sideways, implement raised", side_up, "angle",
                  NOT_A_SLOPE),
        ws.Output("back", "Static tip angle rearward, tractor alone", back, "angle", NOT_A_SLOPE),
        ws.Output("back_up", "Static tip angle rearward, implement raised", back_up, "angle",
                  NOT_A_SLOPE),
    ]  # fmt: skip


def _loader(
    v: ws.Inputs, work: ws.Work, front_axle: float, front: float, rear: float
) -> tuple[list[ws.Check], list[ws.Output]]:
    """Return what a load in the bucket does, the implement hanging on the hitch as it is."""
    base, payload, out = float(v.wheelbase), float(v.loader_payload), float(v.loader_reach)
    front_full, rear_full = ballast.axle_loads(front, rear, base, [(payload, base + out)])
    least = ballast.LOADER_REAR_SHARE * (front_full + rear_full)
    weights, ahead = v.front_ballast or 0.0, float(v.front_ballast_distance)
    bare = ballast.axle_loads(
        front_axle, v.tractor_mass - front_axle, base, [(weights, base + ahead)]
    )
    counter = ballast.loader_counterweight(*bare, base, v.hitch_distance, payload, out)
    side, _ = tip_angles(v, [(payload, base + out, float(v.loader_height))])
    if work.on:
        work.step(
            "Rear axle load, bucket full, implement on the hitch", "R_N", "R − N B / b",
            (("R", rear, "mass"), ("N", payload, "mass"), ("B", out, "length"),
             ("b", base, "length")),
            rear_full, "mass", "hitch/H7; hitch/DERIVED",
        )  # fmt: skip
        work.step(
            "Counterweight at the hitch balls, implement off", "M",
            "[5 N B + b (P + N − 5 G)] / [5 (c + b) − b], at least 0",
            (("N", payload, "mass"), ("B", out, "length"), ("b", base, "length"),
             ("P", sum(bare), "mass"), ("G", bare[1], "mass"), ("c", v.hitch_distance, "length")),
            counter, "mass", "hitch/H7",
        )  # fmt: skip
    checks = [
        ws.at_least(
            "loader_rear", "Load on the rear axle, bucket full, implement on the hitch",
            rear_full, least, "mass", "hitch/H7",
            why="The rear wheels carry the brakes and keep the tractor from tipping onto its nose.",
        )
    ]  # fmt: skip
    if v.front_axle_limit is not None:
        checks.append(
            ws.at_most(
                "loader_front", "Front axle load, bucket full, implement on the hitch", front_full,
                v.front_axle_limit, "mass", "hitch/H7",
                why="An overloaded front axle wears its bearings and seals, then fails.",
            )
        )  # fmt: skip
    outputs = [
        ws.Output("loader_front", "Front axle load, bucket full", front_full, "mass"),
        ws.Output("loader_rear", "Rear axle load, bucket full", rear_full, "mass"),
        ws.Output(
            "counterweight", "Counterweight at the hitch balls for that load, implement off",
            counter, "mass",
        ),
        ws.Output(
            "side_bucket", "Static tip angle sideways, bucket full, implement off", side, "angle",
            NOT_A_SLOPE,
        ),
    ]  # fmt: skip
    return checks, outputs


def _show(
    v: ws.Inputs,
    work: ws.Work,
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
            "Effective pivot ahead of the balls, from two ratings", "r", "s C₁ / (C₀ − C₁)",
            (("s", rated_at, "length"), ("C₀", v.lift_at_ball_ends, "mass"),
             ("C₁", v.lift_capacity, "mass")),
            pivot, "length", "hitch/DERIVED",
        )  # fmt: skip
    if v.quick_coupler != "none":
        work.step(
            "Coupler: implement set back by", "s", "usual setback",
            (("coupler", coupler_mass(), "mass"),), hitch.coupler_setback(), "length",
            "hitch/PRACTICE; hitch/COUPLER-memory",
        )  # fmt: skip
    work.step(
        "Lift at the implement's center of gravity", "C", "C_r (r + d_r) / (r + d), at most C_r",
        (("C_r", v.lift_capacity, "mass"), ("d_r", rated_at, "length"), ("r", pivot, "length"),
         ("d", v.cg_distance, "length")),
        capacity, "mass", SEEN_LIFT,
    )  # fmt: skip
    if v.front_axle_mass is None:
        work.step(
            "Front axle load without the implement", "T_F", "share × T",
            (("share", v.front_share, "fraction"), ("T", v.tractor_mass, "mass")),
            front_axle, "mass", "hitch/DERIVED",
        )  # fmt: skip
    work.step(
        "Front axle load, implement raised", "F", "[T_F b + I_F (a + b) − I_R (c + d)] / b",
        (("T_F", front_axle, "mass"), ("b", v.wheelbase, "length"),
         ("I_F", v.front_ballast or 0.0, "mass"), ("a", v.front_ballast_distance, "length"),
         ("I_R", rear_mass, "mass"), ("c + d", reach, "length")),
        front, "mass", "hitch/H4; hitch/H5; hitch/H6",
    )  # fmt: skip
    work.step(
        "Rear axle load, implement raised", "R", "T + I_F + I_R − F",
        (("T", v.tractor_mass, "mass"), ("I_F", v.front_ballast or 0.0, "mass"),
         ("I_R", rear_mass, "mass"), ("F", front, "mass")),
        rear, "mass", "hitch/H4; hitch/H6",
    )  # fmt: skip
    work.step(
        f"Least front axle load: {rule['label']}", "F_min", "share × what the rule counts",
        (("share", float(rule["front_share"]), "fraction"), ("T", v.tractor_mass, "mass"),
         ("T_F", front_axle, "mass"), ("added", rear_mass + (v.front_ballast or 0.0), "mass")),
        wanted, "mass", rule["source"],
    )  # fmt: skip
    side, back = tip_angles(v, [])
    work.step(
        "Static tip angle sideways, front axle pivoting, tractor alone", "θ",
        "atan[(t/2)(b − x) / (b h − x p)]",
        (("t", v.track_width, "length"), ("b", v.wheelbase, "length"),
         ("x", v.wheelbase * front_axle / v.tractor_mass, "length"),
         ("h", v.cg_height, "length"), ("p", v.axle_pin_height, "length")),
        side, "angle", "hitch/DERIVED; hitch/X15",
    )  # fmt: skip
    work.step(
        "Static tip angle rearward, tractor alone", "φ", "atan(x / h)",
        (("x", v.wheelbase * front_axle / v.tractor_mass, "length"),
         ("h", v.cg_height, "length")),
        back, "angle", "hitch/X5",
    )  # fmt: skip


# --- advice ----------------------------------------------------------------------------------


def _mass_text(kg: float, upward: bool = False) -> str:
    """A mass as field text, rounded to the safe side so that trying it meets the limit."""
    pounds = kg / 0.45359237
    return f"{math.ceil(pounds) if upward else math.floor(pounds)} lb"


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Return remedies solved from the limits, with cautions and the other rules."""
    remedies: list[ws.Remedy] = []
    broken = {check.name for check in outcome.checks if check.margin < 0}
    if "steering" in broken:
        remedies += _steering_remedies(v, solve)
    if "lift" in broken:
        remedies += _lift_remedies(v, solve)
    if "rear_alone" in broken:
        behind = ballast.rear_ballast_needed(
            v.tractor_mass, front_axle_of(v), v.wheelbase, v.hitch_distance, 0.0,
            v.front_ballast, v.front_ballast_distance,
        )  # fmt: skip
        remedies.append(
            ws.Remedy(
                ws.phrase(
                    "With this at the front and the implement off, hang at least {mass} at the "
                    "hitch balls to keep the rear wheels loaded.",
                    mass=(behind, "mass"),
                )
            )
        )
    if broken & {"loader_rear", "loader_front"}:
        remedies += _loader_remedies(v, solve)
    if "rear_alone" in broken or "front_axle" in broken:
        most = solve.largest("front_ballast", 0.0, v.front_ballast or 0.0,
                             ("rear_alone", "front_axle"))  # fmt: skip
        if most is not None:
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        "At most {most} at the front there keeps the axles within limits with the "
                        "implement off.",
                        most=(most, "mass"),
                    ),
                    {"front_ballast": _mass_text(most)},
                )
            )
    if broken:
        narrower = _narrower(v, solve)
        if narrower is not None:
            remedies.append(narrower)
        heaviest = solve.largest("implement_mass", 10.0, v.implement_mass)
        if heaviest is not None:
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        "As the tractor stands, {mass} is the heaviest implement with its center "
                        "of gravity {d} behind the balls that stays within every limit.",
                        mass=(heaviest, "mass"), d=(v.cg_distance, "length"),
                    ),
                    {"implement_mass": _mass_text(heaviest)},
                )
            )  # fmt: skip
    return ws.Advice(remedies, _cautions(v), [_rules_table(v)], _notes(v, outcome))


def _steering_remedies(v: ws.Inputs, solve: Solver) -> list[ws.Remedy]:
    found = []
    mass = solve.smallest("front_ballast", 0.0, 3.0 * v.tractor_mass, ("steering",))
    if mass is not None:
        extra = mass - (v.front_ballast or 0.0)
    if mass is not None and extra > BRACKET_SHARE * v.tractor_mass:
        found.append(
            ws.Remedy(
                ws.phrase(
                    "It would take {extra} more at the front, more than a weight bracket usually "
                    "holds: a lighter or shorter implement, or a heavier tractor, is the way.",
                    extra=(extra, "mass"),
                ),
                source="hitch/PRACTICE",
            )
        )
    elif mass is not None:
        also = " Check it against the front axle limit." if v.front_axle_limit is None else ""
        found.append(
            ws.Remedy(
                ws.phrase(
                    "Add {extra} at the front, {a} ahead of the front axle." + also,
                    extra=(extra, "mass"), a=(v.front_ballast_distance, "length"),
                ),
                {"front_ballast": _mass_text(mass, upward=True)},
            )
        )  # fmt: skip
    reach = solve.largest("cg_distance", 0.05, v.cg_distance, ("steering",))
    if reach is not None and reach >= _nearest():
        found.append(
            ws.Remedy(
                ws.phrase(
                    "The same mass with its center of gravity {d} behind the balls would do: a "
                    "shorter implement.",
                    d=(reach, "length"),
                ),
                {"cg_distance": f"{math.floor(reach * 1000)} mm"},
            )
        )
    heavier = solve.smallest("tractor_mass", v.tractor_mass, 2.0 * v.tractor_mass, ("steering",),
                             front_axle_mass=None,
                             front_share=front_axle_of(v) / v.tractor_mass)  # fmt: skip
    if heavier is not None:
        found.append(
            ws.Remedy(
                ws.phrase(
                    "A tractor of {mass} with the same share in front and the same wheelbase "
                    "carries it without more ballast.",
                    mass=(heavier, "mass"),
                )
            )
        )
    return found


def _nearest() -> float:
    """Return the shortest usual distance of any implement's center of gravity."""
    return min(float(row["cg_low_m"]) for row in tables.rows("typical_implements"))


def _narrower(v: ws.Inputs, solve: Solver) -> ws.Remedy | None:
    """Return the widest implement of this kind that is within limits, in proportion to the usual.

    The implement at hand is scaled as the usual ones of its kind grow with their width.
    """
    rows = [r for r in tables.rows("typical_implements") if r["kind"] == v.implement_kind]
    if not rows[0]["width_m"] or not rows[-1]["mass_high_kg"]:
        return None

    def usual(name: str, width: float) -> float:
        return sum(typical.implement(v.implement_kind, width)[name]) / 2.0

    def scaled(name: str, field: str) -> Callable[[float], float]:
        ratio = getattr(v, field) / usual(name, v.working_width)
        return lambda width: ratio * usual(name, width)

    mass, reach = scaled("mass", "implement_mass"), scaled("cg_distance", "cg_distance")
    narrowest = NARROWEST * float(rows[0]["width_m"])
    width = solve.largest(
        "working_width", narrowest, v.working_width, implement_mass=mass, cg_distance=reach
    )
    if width is None or width <= narrowest or width >= v.working_width - 0.02:
        return None
    return ws.Remedy(
        ws.phrase(
            "{width} is the widest of this kind that stays within every limit, if it weighs and "
            "reaches back in proportion: about {mass}, {reach} behind the balls.",
            width=(width, "length"),
            mass=(mass(width), "mass"), reach=(reach(width), "length"),
        ),
        {
            "working_width": f"{math.floor(width * 1000)} mm",
            "implement_mass": _mass_text(mass(width)),
            "cg_distance": f"{math.floor(reach(width) * 1000)} mm",
        },
        rows[0]["source"],
    )  # fmt: skip


def _lift_remedies(v: ws.Inputs, solve: Solver) -> list[ws.Remedy]:
    found = []
    rating = solve.smallest("lift_capacity", v.lift_capacity, 20.0 * v.lift_capacity, ("lift",),
                            lift_at_ball_ends=None)  # fmt: skip
    place = dict((o.value, o.label) for o in vocabulary.LIFT_RATED_AT)[v.lift_rated_at]
    if rating is not None:
        found.append(
            ws.Remedy(
                ws.phrase(
                    "It takes a hitch rated {rating}, measured {place}.",
                    rating=(rating, "mass"), place=place[0].lower() + place[1:],
                )
            )
        )  # fmt: skip
    lightest = solve.largest("implement_mass", 5.0, v.implement_mass, ("lift",))
    if lightest is not None:
        found.append(
            ws.Remedy(
                ws.phrase("This hitch lifts {mass} that far back.", mass=(lightest, "mass")),
                {"implement_mass": _mass_text(lightest)},
            )
        )
    reach = solve.largest("cg_distance", 0.05, v.cg_distance, ("lift",))
    if reach is not None and reach >= _nearest():
        found.append(
            ws.Remedy(
                ws.phrase(
                    "It lifts this mass with its center of gravity up to {d} behind the balls.",
                    d=(reach, "length"),
                ),
                {"cg_distance": f"{math.floor(reach * 1000)} mm"},
            )
        )
    return found


def _loader_remedies(v: ws.Inputs, solve: Solver) -> list[ws.Remedy]:
    found = []
    names = ("loader_rear", "loader_front")
    payload = solve.largest("loader_payload", 1.0, v.loader_payload, names)
    if payload is not None:
        found.append(
            ws.Remedy(
                ws.phrase(
                    "With this on the hitch, {mass} is the most to lift in the bucket.",
                    mass=(payload, "mass"),
                ),
                {"loader_payload": _mass_text(payload)},
            )
        )
    counter = solve.smallest("implement_mass", v.implement_mass, 3000.0, names)
    if counter is not None and counter > v.implement_mass:
        found.append(
            ws.Remedy(
                ws.phrase(
                    "{mass} on the hitch at the same distance balances that bucket load: a "
                    "ballast box, if the hitch lifts it and the rear axle carries it.",
                    mass=(counter, "mass"),
                ),
                {"implement_mass": _mass_text(counter, upward=True)},
            )
        )
    return found


def _cautions(v: ws.Inputs) -> list[ws.Caution]:
    found = [
        ws.Caution(
            "A tip angle here is the most a machine could stand on at rest on smooth, hard "
            "ground. It is never a slope to work on: bumps, holes, soft ground, turning and speed "
            "tip tractors on far less, and most lose their grip first. Keep to the slope in the "
            "operator's manual.",
            "hitch/X16; hitch/X7",
        ),
        ws.Caution(
            "Roll bar up and belt fastened whenever you drive. Don't wear a belt with the roll bar "
            "folded down.",
            "hitch/S7",
        ),
        ws.Caution(
            "These loads are for standing still on the level. Braking, bumps and a climb take more "
            "off the front axle: carry the implement low and drive slowly.",
            "hitch/H4",
        ),
        ws.Caution(
            "What a hitch lifts in the field is not what may be carried on the road: the axle, "
            "tire and total limits on the plate and the law where you drive come first.",
            "hitch/H13",
        ),
        ws.Caution(
            "Never work or reach under a raised implement or bucket. Lower it, or block it up.",
            "hitch/PRACTICE",
        ),
    ]
    if v.loader_payload is not None:
        found.append(
            ws.Caution(
                "Loader manuals call ballast on the hitch required, not optional. Carry the bucket "
                "low: a load held high lowers the tip angle sideways.",
                "hitch/H21",
            )
        )
    return found


def _rules_table(v: ws.Inputs) -> ws.Table:
    """Return what each rule would say of the same machine."""
    mass, base = float(v.tractor_mass), float(v.wheelbase)
    front_axle, (rear_mass, reach) = front_axle_of(v), behind_axle(v)
    weights, ahead = v.front_ballast or 0.0, float(v.front_ballast_distance)
    front = ballast.front_axle_load(front_axle, base, reach, 0.0, rear_mass, weights, ahead)
    gross = mass + rear_mass + weights
    lines: list[tuple[ws.Cell, ...]] = []
    needed: ws.Cell
    for row in tables.rows("twenty_percent_rules"):
        if row["key"] == "loader":
            continue
        if row["base"] == "implement":
            most, here = float(row["front_share"]) * mass, rear_mass
            ask: ws.Words = ws.phrase("at most {m} on the lift arms", m=(most, "mass"))
            met, needed = here <= most + EVEN, "\u2014"
        elif row["base"] == "combined_drive":
            least, here = float(row["rear_share"]) * gross, gross - front
            ask = ws.phrase("at least {m} on the rear axle", m=(least, "mass"))
            met, needed = here >= least - EVEN, "\u2014"
        else:
            least = ballast.front_load_required(mass, front_axle, rear_mass + weights, row["key"])
            here = front
            ask = ws.phrase("at least {m} on the front axle", m=(least, "mass"))
            met = here >= least - 1e-6
            total = ballast.front_ballast_needed(
                mass, front_axle, base, reach, 0.0, rear_mass, ahead, row["key"]
            )
            needed = ws.phrase("{m}", m=(total, "mass")) if total > EVEN else "none"
        lines.append((row["label"], ask, (here, "mass"), "yes" if met else "no", needed))
    keys = dict.fromkeys(
        part.strip()
        for row in tables.rows("twenty_percent_rules")
        if row["key"] != "loader"
        for part in row["source"].split(";")
    )
    return ws.Table(
        "What the different rules say of this machine",
        ("Rule", "It asks for", "Here", "Met", "Front ballast in all"),
        tuple(lines),
        "; ".join(keys),
        "The ballast stands where you said, ahead of the front axle.",
    )


def _notes(v: ws.Inputs, outcome: ws.Outcome) -> list[ws.Words]:
    notes: list[ws.Words] = []
    pivot, credit = pivot_of(v)
    if credit and math.isinf(pivot):
        notes.append("Both lift figures are the same, so the lift is taken not to fall with "
                     "distance: the links run parallel.")  # fmt: skip
    elif not credit:
        notes.append(
            "How the lift falls with distance is estimated from the length of the lower links, "
            "the safe side for a small tractor. No credit is taken for an implement nearer than "
            "the rating point."
        )
    if v.cg_distance > lift.GREATEST_DISTANCE:
        notes.append(
            ws.phrase(
                "The estimate of lift isn't borne out past {d} behind the balls: ask the maker.",
                d=(lift.GREATEST_DISTANCE, "length"),
            )
        )
    side, side_up = outcome.output("side"), outcome.output("side_up")
    back, back_up = outcome.output("back"), outcome.output("back_up")
    if back_up < back and side_up > side:
        notes.append(
            ws.phrase(
                "The raised implement takes the static tip angle rearward from {back} to {up}. "
                "Sideways it comes out larger only because the load has moved onto the rear "
                "wheels and off the swinging front axle; a tractor that is light in front is no "
                "safer across a slope.",
                back=(back, "angle"), up=(back_up, "angle"),
            )
        )  # fmt: skip
    if v.loader_payload is not None:
        low, high = (
            tip_angles(v, [(v.loader_payload, v.wheelbase + v.loader_reach, height)])[0]
            for height in (v.loader_height, FULL_HEIGHT)
        )
        notes.append(
            ws.phrase(
                "With the load {at} up, the static tip angle sideways is {low}; raised to {top} it "
                "is {high}.",
                at=(v.loader_height, "length"), low=(low, "angle"),
                top=(FULL_HEIGHT, "length"), high=(high, "angle"),
            )
        )  # fmt: skip
    if outcome.output("front") < 0:
        notes.append(
            "A front axle load below zero means that the front wheels would leave the ground as "
            "the implement comes up."
        )
    return notes


# --- pictures --------------------------------------------------------------------------------


def picture(v: ws.Inputs, outcome: ws.Outcome) -> list[Picture]:
    """Return the side view with the loads on it, bucket empty and full, and lift by distance."""
    front = _met(outcome, "steering")
    rear = _met(outcome, "rear_axle", "rear_tires")
    load = ("front", front), ("rear", rear)
    views: list[Picture] = [_side_view(v, outcome, *load)]
    if v.loader_payload is not None:
        front, rear = _met(outcome, "loader_front"), _met(outcome, "loader_rear")
        full = ("loader_front", front), ("loader_rear", rear)
        views.append(_side_view(v, outcome, *full, payload=v.loader_payload))
    return [*views, _distance_chart(v)]


def _met(outcome: ws.Outcome, *names: str) -> bool:
    return all(check.margin >= 0 for check in outcome.checks if check.name in names)


def _side_view(
    v: ws.Inputs,
    outcome: ws.Outcome,
    front: tuple[str, bool],
    rear: tuple[str, bool],
    payload: float | None = None,
) -> Scene:
    """Return the side view with the loads of two outputs, each with whether it is in limits."""
    return inputs_view(
        v,
        front_load=outcome.output(front[0]),
        rear_load=outcome.output(rear[0]),
        front_ok=front[1],
        rear_ok=rear[1],
        payload=payload,
        payload_ahead=v.loader_reach,
        title="Side view, bucket full" if payload else "Side view with the loads",
    )


def _distance_chart(v: ws.Inputs) -> Chart:
    """Return what the hitch lifts and what steering allows against the distance."""
    far = max(lift.GREATEST_DISTANCE, float(v.cg_distance) * 1.1)
    xs = [far * i / 36 for i in range(2, 37)]
    lifts = [capacity_of(v.but(cg_distance=x)) for x in xs]
    front_axle, weights = front_axle_of(v), v.front_ballast or 0.0
    allowed = [_steering_limit(v.but(cg_distance=x), front_axle, weights) for x in xs]
    return Chart(
        "Lift and steering against distance",
        ws.phrase(
            "What the hitch lifts, and what the front axle rule allows, by the distance of the "
            "implement's center of gravity behind the balls. Yours is {mass} at {d}.",
            mass=(v.implement_mass, "mass"), d=(v.cg_distance, "length"),
        ),
        "Center of gravity behind the hitch balls", "length", "Mass of the implement", "mass",
        [
            Series("what the hitch lifts", xs, lifts, "accent thick"),
            Series("what the front axle rule allows", xs, allowed, "ink dashed"),
        ],
        [Mark("your implement", v.cg_distance, v.implement_mass, "ink")],
    )  # fmt: skip


def _steering_limit(v: ws.Inputs, front_axle: float, weights: float) -> float:
    coupler = 0.0 if v.quick_coupler == "none" else coupler_mass()
    _, reach = behind_axle(v)
    total = ballast.greatest_rear_mass(
        v.tractor_mass, front_axle, v.wheelbase, reach, 0.0, weights, v.front_ballast_distance,
        v.front_rule,
    )  # fmt: skip
    return max(total - coupler, 0.0)


WORKSHEET = ws.Worksheet(
    name="ballast",
    title="Lift and ballast",
    question="Can I lift it, and will the front wheels stay down?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    review=review,
    page="lift/lift-and-ballast",
    example="a light 25 hp compact of 1,650 lb with a 60 in light-duty rotary cutter of 480 lb.",
)
