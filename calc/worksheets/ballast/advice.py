"""What to do about it."""

from __future__ import annotations

import math
from collections.abc import Callable

from calc import model, tables
from calc.machines import vocabulary
from calc.mechanics import ballast, lift, typical
from calc.search import Solver
from calc.subjects.raised import behind_axle, front_axle_of, pivot_of, tip_angles

EVEN = 1e-9
BRACKET_SHARE = 0.20  # front weights beyond this share of the tractor are out of proportion
FULL_HEIGHT = 2.0  # a bucket raised full height on a compact [m], common practice
NARROWEST = 0.75  # how far below the narrowest usual width the search goes


# --- advice ----------------------------------------------------------------------------------


def _mass_text(kg: float, upward: bool = False) -> str:
    """A mass as field text, rounded to the safe side so that trying it meets the limit."""
    pounds = kg / 0.45359237
    return f"{math.ceil(pounds) if upward else math.floor(pounds)} lb"


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Return remedies solved from the limits, with cautions and the other rules."""
    remedies: list[model.Remedy] = []
    broken = {check.name for check in outcome.checks if check.margin < 0}
    if "steering" in broken:
        remedies += _steering_remedies(v, solve)
    if "lift" in broken:
        remedies += _lift_remedies(v, solve)
    if "rear_alone" in broken:
        behind = ballast.rear_ballast_needed(
            v.tractor_mass,
            front_axle_of(v),
            v.wheelbase,
            v.hitch_distance,
            0.0,
            v.front_ballast,
            v.front_ballast_distance,
        )
        remedies.append(
            model.Remedy(
                model.phrase(
                    "With this at the front and the implement off, hang at least {mass} at the "
                    "hitch balls to keep the rear wheels loaded.",
                    mass=(behind, "mass"),
                )
            )
        )
    if broken & {"loader_rear", "loader_front"}:
        remedies += _loader_remedies(v, solve)
    if "rear_alone" in broken or "front_axle" in broken:
        most = solve.largest(
            "front_ballast", 0.0, v.front_ballast or 0.0, ("rear_alone", "front_axle")
        )
        if most is not None:
            remedies.append(
                model.Remedy(
                    model.phrase(
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
                model.Remedy(
                    model.phrase(
                        "As the tractor stands, {mass} is the heaviest implement with its center "
                        "of gravity {d} behind the balls that stays within every limit.",
                        mass=(heaviest, "mass"),
                        d=(v.cg_distance, "length"),
                    ),
                    {"implement_mass": _mass_text(heaviest)},
                )
            )
    return model.Advice(remedies, _cautions(v), [_rules_table(v)], _notes(v, outcome))


def _steering_remedies(v: model.Inputs, solve: Solver) -> list[model.Remedy]:
    found = []
    mass = solve.smallest("front_ballast", 0.0, 3.0 * v.tractor_mass, ("steering",))
    if mass is not None:
        extra = mass - (v.front_ballast or 0.0)
    if mass is not None and extra > BRACKET_SHARE * v.tractor_mass:
        found.append(
            model.Remedy(
                model.phrase(
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
            model.Remedy(
                model.phrase(
                    "Add {extra} at the front, {a} ahead of the front axle." + also,
                    extra=(extra, "mass"),
                    a=(v.front_ballast_distance, "length"),
                ),
                {"front_ballast": _mass_text(mass, upward=True)},
            )
        )
    reach = solve.largest("cg_distance", 0.05, v.cg_distance, ("steering",))
    if reach is not None and reach >= _nearest():
        found.append(
            model.Remedy(
                model.phrase(
                    "The same mass with its center of gravity {d} behind the balls would do: a "
                    "shorter implement.",
                    d=(reach, "length"),
                ),
                {"cg_distance": f"{math.floor(reach * 1000)} mm"},
            )
        )
    heavier = solve.smallest(
        "tractor_mass",
        v.tractor_mass,
        2.0 * v.tractor_mass,
        ("steering",),
        front_axle_mass=None,
        front_share=front_axle_of(v) / v.tractor_mass,
    )
    if heavier is not None:
        found.append(
            model.Remedy(
                model.phrase(
                    "A tractor of {mass} with the same share in front and the same wheelbase "
                    "carries it without more ballast.",
                    mass=(heavier, "mass"),
                )
            )
        )
    return found


def _nearest() -> float:
    """Return the shortest usual distance of any implement's center of gravity."""
    return min(float(row["cg_low_m"]) for row in tables.rows("machines/typical_implements"))


def _narrower(v: model.Inputs, solve: Solver) -> model.Remedy | None:
    """Return the widest implement of this kind that is within limits, in proportion to the usual.

    The implement at hand is scaled as the usual ones of its kind grow with their width.
    """
    rows = [r for r in tables.rows("machines/typical_implements") if r["kind"] == v.implement_kind]
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
    return model.Remedy(
        model.phrase(
            "{width} is the widest of this kind that stays within every limit, if it weighs and "
            "reaches back in proportion: about {mass}, {reach} behind the balls.",
            width=(width, "length"),
            mass=(mass(width), "mass"),
            reach=(reach(width), "length"),
        ),
        {
            "working_width": f"{math.floor(width * 1000)} mm",
            "implement_mass": _mass_text(mass(width)),
            "cg_distance": f"{math.floor(reach(width) * 1000)} mm",
        },
        rows[0]["source"],
    )


def _lift_remedies(v: model.Inputs, solve: Solver) -> list[model.Remedy]:
    found = []
    rating = solve.smallest(
        "lift_capacity", v.lift_capacity, 20.0 * v.lift_capacity, ("lift",), lift_at_ball_ends=None
    )
    place = dict((o.value, o.label) for o in vocabulary.LIFT_RATED_AT)[v.lift_rated_at]
    if rating is not None:
        found.append(
            model.Remedy(
                model.phrase(
                    "It takes a hitch rated {rating}, measured {place}.",
                    rating=(rating, "mass"),
                    place=place[0].lower() + place[1:],
                )
            )
        )
    lightest = solve.largest("implement_mass", 5.0, v.implement_mass, ("lift",))
    if lightest is not None:
        found.append(
            model.Remedy(
                model.phrase("This hitch lifts {mass} that far back.", mass=(lightest, "mass")),
                {"implement_mass": _mass_text(lightest)},
            )
        )
    reach = solve.largest("cg_distance", 0.05, v.cg_distance, ("lift",))
    if reach is not None and reach >= _nearest():
        found.append(
            model.Remedy(
                model.phrase(
                    "It lifts this mass with its center of gravity up to {d} behind the balls.",
                    d=(reach, "length"),
                ),
                {"cg_distance": f"{math.floor(reach * 1000)} mm"},
            )
        )
    return found


def _loader_remedies(v: model.Inputs, solve: Solver) -> list[model.Remedy]:
    found = []
    names = ("loader_rear", "loader_front")
    payload = solve.largest("loader_payload", 1.0, v.loader_payload, names)
    if payload is not None:
        found.append(
            model.Remedy(
                model.phrase(
                    "With this on the hitch, {mass} is the most to lift in the bucket.",
                    mass=(payload, "mass"),
                ),
                {"loader_payload": _mass_text(payload)},
            )
        )
    counter = solve.smallest("implement_mass", v.implement_mass, 3000.0, names)
    if counter is not None and counter > v.implement_mass:
        found.append(
            model.Remedy(
                model.phrase(
                    "{mass} on the hitch at the same distance balances that bucket load: a "
                    "ballast box, if the hitch lifts it and the rear axle carries it.",
                    mass=(counter, "mass"),
                ),
                {"implement_mass": _mass_text(counter, upward=True)},
            )
        )
    return found


def _cautions(v: model.Inputs) -> list[model.Caution]:
    found = [
        model.Caution(
            "A tip angle here is the most a machine could stand on at rest on smooth, hard "
            "ground. It is never a slope to work on: bumps, holes, soft ground, turning and speed "
            "tip tractors on far less, and most lose their grip first. Keep to the slope in the "
            "operator's manual.",
            "hitch/X16; hitch/X7",
        ),
        model.Caution(
            "Roll bar up and belt fastened whenever you drive. Don't wear a belt with the roll bar "
            "folded down.",
            "hitch/S7",
        ),
        model.Caution(
            "These loads are for standing still on the level. Braking, bumps and a climb take more "
            "off the front axle: carry the implement low and drive slowly.",
            "hitch/H4",
        ),
        model.Caution(
            "What a hitch lifts in the field is not what may be carried on the road: the axle, "
            "tire and total limits on the plate and the law where you drive come first.",
            "hitch/H13",
        ),
        model.Caution(
            "Never work or reach under a raised implement or bucket. Lower it, or block it up.",
            "hitch/PRACTICE",
        ),
    ]
    if v.loader_payload is not None:
        found.append(
            model.Caution(
                "Loader manuals call ballast on the hitch required, not optional. Carry the bucket "
                "low: a load held high lowers the tip angle sideways.",
                "hitch/H21",
            )
        )
    return found


def _rules_table(v: model.Inputs) -> model.Table:
    """Return what each rule would say of the same machine."""
    mass, base = float(v.tractor_mass), float(v.wheelbase)
    front_axle, (rear_mass, reach) = front_axle_of(v), behind_axle(v)
    weights, ahead = v.front_ballast or 0.0, float(v.front_ballast_distance)
    front = ballast.front_axle_load(front_axle, base, reach, 0.0, rear_mass, weights, ahead)
    gross = mass + rear_mass + weights
    lines: list[tuple[model.Cell, ...]] = []
    needed: model.Cell
    for row in tables.rows("hitch/twenty_percent_rules"):
        if row["key"] == "loader":
            continue
        if row["base"] == "implement":
            most, here = float(row["front_share"]) * mass, rear_mass
            ask: model.Words = model.phrase("at most {m} on the lift arms", m=(most, "mass"))
            met, needed = here <= most + EVEN, "\u2014"
        elif row["base"] == "combined_drive":
            least, here = float(row["rear_share"]) * gross, gross - front
            ask = model.phrase("at least {m} on the rear axle", m=(least, "mass"))
            met, needed = here >= least - EVEN, "\u2014"
        else:
            least = ballast.front_load_required(mass, front_axle, rear_mass + weights, row["key"])
            here = front
            ask = model.phrase("at least {m} on the front axle", m=(least, "mass"))
            met = here >= least - 1e-6
            total = ballast.front_ballast_needed(
                mass, front_axle, base, reach, 0.0, rear_mass, ahead, row["key"]
            )
            needed = model.phrase("{m}", m=(total, "mass")) if total > EVEN else "none"
        lines.append((row["label"], ask, (here, "mass"), "yes" if met else "no", needed))
    keys = dict.fromkeys(
        part.strip()
        for row in tables.rows("hitch/twenty_percent_rules")
        if row["key"] != "loader"
        for part in row["source"].split(";")
    )
    return model.Table(
        "What the different rules say of this machine",
        ("Rule", "It asks for", "Here", "Met", "Front ballast in all"),
        tuple(lines),
        "; ".join(keys),
        "The ballast stands where you said, ahead of the front axle.",
    )


def _notes(v: model.Inputs, outcome: model.Outcome) -> list[model.Words]:
    notes: list[model.Words] = []
    pivot, credit = pivot_of(v)
    if credit and math.isinf(pivot):
        notes.append(
            "Both lift figures are the same, so the lift is taken not to fall with "
            "distance: the links run parallel."
        )
    elif not credit:
        notes.append(
            "How the lift falls with distance is estimated from the length of the lower links, "
            "the safe side for a small tractor. No credit is taken for an implement nearer than "
            "the rating point."
        )
    if v.cg_distance > lift.GREATEST_DISTANCE:
        notes.append(
            model.phrase(
                "The estimate of lift isn't borne out past {d} behind the balls: ask the maker.",
                d=(lift.GREATEST_DISTANCE, "length"),
            )
        )
    side, side_up = outcome.output("side"), outcome.output("side_up")
    back, back_up = outcome.output("back"), outcome.output("back_up")
    if back_up < back and side_up > side:
        notes.append(
            model.phrase(
                "The raised implement takes the static tip angle rearward from {back} to {up}. "
                "Sideways it comes out larger only because the load has moved onto the rear "
                "wheels and off the swinging front axle; a tractor that is light in front is no "
                "safer across a slope.",
                back=(back, "angle"),
                up=(back_up, "angle"),
            )
        )
    if v.loader_payload is not None:
        low, high = (
            tip_angles(v, [(v.loader_payload, v.wheelbase + v.loader_reach, height)])[0]
            for height in (v.loader_height, FULL_HEIGHT)
        )
        notes.append(
            model.phrase(
                "With the load {at} up, the static tip angle sideways is {low}; raised to {top} it "
                "is {high}.",
                at=(v.loader_height, "length"),
                low=(low, "angle"),
                top=(FULL_HEIGHT, "length"),
                high=(high, "angle"),
            )
        )
    if outcome.output("front") < 0:
        notes.append(
            "A front axle load below zero means that the front wheels would leave the ground as "
            "the implement comes up."
        )
    return notes
