"""Can this tractor run this implement?"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from calc import pairing, quantities, tables, vocabulary
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import ballast, pto_power, typical
from calc.picture import Chart, Mark, Picture, Series
from calc.quantities import Reading
from calc.vocabulary import field
from calc.worksheets import _raised as raised
from calc.worksheets._loads_view import inputs_view

FRONT_RULES = tuple(
    ws.Option(row["key"], row["label"])
    for row in tables.rows("twenty_percent_rules")
    if row["key"] in ("tractor", "combined", "front_half")
)

FIELDS = (
    field("tractor_kind", default="compact_light"),
    field("pto_power", default="20 hp"),
    field("tractor_mass", default="1,650 lb"),
    field("lift_capacity", default="900 lb"),
    field("lift_rated_at", default="610"),
    field("implement_kind", default="rotary_cutter_light"),
    field("working_width", default="60 in"),
    field("implement_mass"),
    field("material", default="light"),
    field("front_share", default="45 %"),
    field("front_axle_mass"),
    field("wheelbase", default="62 in"),
    field("hitch_distance", default="28 in"),
    field("link_length", default="28 in"),
    field("cg_height", default="22 in"),
    field("transmission"),
    field("hitch_category"),
    field("quick_coupler"),
    field("front_ballast"),
    field("front_ballast_distance", default="26 in"),
    field("track_width", default="42 in"),
    field("axle_pin_height", default="13 in"),
    field("tractor_width"),
    field("front_axle_limit"),
    field("rear_axle_limit"),
    field("total_limit"),
    field("rear_tire"),
    field("rear_tire_load"),
    field("remotes"),
    field("lift_at_ball_ends"),
    field("cg_distance"),
    field("raised_height", default="28 in"),
    field("implement_category"),
    field("power_needed"),
    field("power_limit"),
    field("remotes_needed"),
    field("slope"),
    field("ground_speed"),
    field("altitude"),
    ws.Choice(
        "place", "Roads you use",
        (
            ws.Option(pairing.OFF_ROAD, "It stays off the road"),
            *(ws.Option(row["place"], row["name"]) for row in tables.rows("road_places")),
        ),
        "For width and hidden lamps. The page on lights and marking has the rest of the list.",
        default=pairing.OFF_ROAD, group=vocabulary.ROAD,
    ),
    field("transport_width", group=vocabulary.ROAD),
    field("tail_height", default="40 in", group=vocabulary.ROAD),
    field("lamp_spread", default="44 in", group=vocabulary.ROAD),
    field("lamps_to_implement", default="60 in", group=vocabulary.ROAD),
    field("implement_top", default="44 in", group=vocabulary.ROAD),
    ws.Choice(
        "front_rule", "Rule for the front axle", FRONT_RULES,
        "Sources differ on what the 20 % is of. The manuals that print the formulas take the "
        "tractor's own mass.",
        default="tractor", group="Job",
    ),
)  # fmt: skip


def review(known: ws.KnownSoFar) -> dict[str, str]:
    """Refuse a lift without its distance, and a chipper without its opening."""
    errors = raised.review(known)
    width: Any = known["working_width"]
    if known["implement_kind"] == "chipper" and isinstance(width, Reading) and width.high > 0.3:
        errors["working_width"] = (
            "For a chipper, type the opening that a log goes into, such as 4 in."
        )
    return errors


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return every check of the pairing."""
    return pairing.check_all(v, work)


ROAD_CHECKS = ("tail_seen", "width", "width_limit")
PLATE_CHECKS = ("rear_axle", "rear_tires", "front_axle", "total")
STOCK_WIDTHS_IN = (36, 42, 48, 54, 60, 66, 72, 84, 96)  # common practice, no source


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Solve for a narrower implement, ballast, and the tractor that would do."""
    broken = [check.name for check in outcome.checks if check.margin < 0]
    remedies: list[ws.Remedy] = []
    if broken:
        remedies += _narrower(v, solve)
        if {"steering", "climb"} & set(broken):
            remedies += _ballast(v, solve)
        remedies += _tractor_needed(v, broken, solve)
        remedies += _hitch_remedies(broken)
        remedies += _road_remedies(v, broken, solve)
    return ws.Advice(remedies, _cautions(v), notes=_notes(v))


def _narrower(v: ws.Inputs, solve: Solver) -> list[ws.Remedy]:
    """The widest stock width that meets every check, mass and overhang in proportion."""
    if v.working_width is None or not pairing.power_key(v.implement_kind):
        return []

    mass_at = _along(v, solve, "implement_mass", "mass")
    distance_at = _along(v, solve, "cg_distance", "cg_distance")
    bears_on = [check.name for check in solve.run().checks if check.name not in ROAD_CHECKS]
    widest = solve.largest(
        "working_width", 0.6, v.working_width, bears_on,
        implement_mass=mass_at, cg_distance=distance_at,
    )  # fmt: skip
    if widest is None:
        return []
    stock = [inches for inches in STOCK_WIDTHS_IN if inches * 0.0254 <= widest + 1e-6]
    if not stock or stock[-1] * 0.0254 >= v.working_width - 1e-6:
        return []
    width = stock[-1] * 0.0254
    return [
        ws.Remedy(
            ws.phrase(
                "{width} is the widest stock size that stays within every check at work, taken "
                "as {mass} with its center of gravity {distance} behind the balls. The exact "
                "limit is {exact}.",
                width=(width, "length"),
                mass=(mass_at(width), "mass"),
                distance=(distance_at(width), "length"),
                exact=(widest, "length"),
            ),
            {
                "working_width": f"{stock[-1]} in",
                "implement_mass": quantities.show(mass_at(width), "mass"),
                "cg_distance": quantities.show(distance_at(width), "length"),
            },
            "hitch/DERIVED",
        )
    ]


def _along(v: ws.Inputs, solve: Solver, name: str, usual: str) -> Callable[[float], float]:
    """Return how a property goes with the width: in proportion when it was typed; otherwise at
    the same place in the range that is usual for the width."""
    here = float(getattr(v, name))
    if name not in solve.assumed:
        return lambda width: here * width / v.working_width
    low, high = typical.implement(v.implement_kind, v.working_width)[usual]
    share = (here - low) / (high - low) if high > low else 0.5

    def at(width: float) -> float:
        low, high = typical.implement(v.implement_kind, width)[usual]
        return low + share * (high - low)

    return at


def _ballast(v: ws.Inputs, solve: Solver) -> list[ws.Remedy]:
    """Front ballast that brings back the front axle, if the other limits bear it."""
    now = v.front_ballast or 0.0
    most = v.tractor_mass * 0.5
    needed = solve.smallest("front_ballast", now, most, ("steering", "climb"))
    if needed is None or needed <= now:
        return []
    others = [
        check
        for check in solve.run(front_ballast=needed).checks
        if check.margin < 0 and check.name in PLATE_CHECKS
    ]
    tail = " The plate limits would then be broken, so it isn't a way out." if others else ""
    return [
        ws.Remedy(
            ws.phrase(
                "{mass} of ballast in all, {distance} ahead of the front axle, keeps the front "
                "wheels loaded enough." + tail,
                mass=(needed, "mass"),
                distance=(v.front_ballast_distance, "length"),
            ),
            {
                "front_ballast": f"{needed + 0.5:.0f} kg",
                "front_ballast_distance": f"{v.front_ballast_distance:.3f} m",
            },
            "hitch/H4; hitch/H6",
        )
    ]


def _tractor_needed(v: ws.Inputs, broken: list[str], solve: Solver) -> list[ws.Remedy]:
    """The mass, lift or power that a tractor would need for this implement."""
    remedies = []
    wanted = (
        ("steering", "tractor_mass", "mass", "A tractor of {needed}, balanced like this one, keeps "
         "its front wheels down with this implement."),
        ("lift", "lift_capacity", "mass", "A hitch rated {needed} at the same distance lifts it."),
        ("power", "pto_power", "power", "{needed} at the PTO runs it in this material."),
    )  # fmt: skip
    for check, name, kind, said in wanted:
        if check in broken:
            now = getattr(v, name)
            needed = solve.smallest(name, now, now * 6, (check,))
            if needed is not None:
                remedies.append(
                    ws.Remedy(ws.phrase(said, needed=(needed, kind)), source="hitch/DERIVED")
                )
    return remedies


def _hitch_remedies(broken: list[str]) -> list[ws.Remedy]:
    remedies = []
    if "coupler" in broken:
        remedies.append(
            ws.Remedy(
                "Take the quick coupler off for this implement.", {"quick_coupler": "none"},
                "hitch/H19",
            )
        )  # fmt: skip
    if "pins" in broken or "span" in broken:
        remedies.append(
            ws.Remedy(
                "Ask the implement's maker for pins of the tractor's category; many frames take "
                "either.", source="hitch/PRACTICE",
            )
        )  # fmt: skip
    return remedies


def _road_remedies(v: ws.Inputs, broken: list[str], solve: Solver) -> list[ws.Remedy]:
    if "tail_seen" not in broken:
        return []
    needed = solve.smallest("tail_height", v.tail_height, 3.3, ("tail_seen",))
    if needed is None:
        return []
    return [
        ws.Remedy(
            ws.phrase(
                "Raise the tail lamps to {height}, or put lamps on the implement.",
                height=(needed, "length"),
            ),
            {"tail_height": f"{needed + 0.005:.2f} m"},
            "hitch/DERIVED",
        )
    ]


def _cautions(v: ws.Inputs) -> list[ws.Caution]:
    cautions = [
        ws.Caution(
            "The operator's manuals of both machines come first; where they are stricter, follow "
            "them.", "hitch/PRACTICE",
        ),
        ws.Caution(
            "These are limits at rest on even ground. Slopes, bumps, speed and a raised loader "
            "use up more. Keep the roll-over bar up and the belt on.", "hitch/S7",
        ),
    ]  # fmt: skip
    if pairing.power_key(v.implement_kind):
        cautions.append(
            ws.Caution(
                "Stop the engine and wait until the shaft stands still before going near it. Keep "
                "every guard on, and keep people well away from a cutter's discharge.",
                "hitch/PRACTICE",
            )
        )  # fmt: skip
    return cautions


def _notes(v: ws.Inputs) -> list[ws.Words]:
    """What the other rules and the other materials would ask for."""
    notes: list[ws.Words] = []
    mass, _ = raised.behind_axle(v)
    front = raised.front_axle_of(v)
    added = mass + (v.front_ballast or 0.0)
    others = [
        (
            option.label,
            ballast.front_load_required(v.tractor_mass, front, added, option.value),
        )
        for option in FRONT_RULES
        if option.value != v.front_rule
    ]
    said = "; ".join(f"{label.lower()} asks for {{n{i}}}" for i, (label, _) in enumerate(others))
    notes.append(
        ws.Phrase(
            f"Other rules for the front axle: {said}.",
            {f"n{i}": (value, "mass") for i, (_, value) in enumerate(others)},
        )
    )
    key = pairing.power_key(v.implement_kind)
    if key and v.power_needed is None:
        low, usual, high = pto_power.demand_range(key, v.working_width)
        notes.append(
            ws.phrase(
                "Power by material, common practice: {low} light, {usual} typical, {high} heavy.",
                low=(low, "power"), usual=(usual, "power"), high=(high, "power"),
            )
        )  # fmt: skip
    return notes


def picture(v: ws.Inputs, outcome: ws.Outcome) -> list[Picture]:
    """Draw the side view with its loads, and demand against width."""
    met = {check.name: check.margin >= 0 for check in outcome.checks}
    view = inputs_view(
        v,
        front_load=outcome.output("front_load"),
        rear_load=outcome.output("rear_load"),
        front_ok=met["steering"] and met["climb"],
        rear_ok=met.get("rear_axle", True) and met.get("rear_tires", True),
    )
    chart = _demand_chart(v, outcome)
    return [view, chart] if chart else [view]


def _demand_chart(v: ws.Inputs, outcome: ws.Outcome) -> Chart | None:
    key = pairing.power_key(v.implement_kind)
    if not key or v.power_needed is not None or pto_power.is_total(key):
        return None
    widths = [v.working_width * (0.4 + 0.1 * i) for i in range(11)]
    left = outcome.output("power_left")
    return Chart(
        "Power wanted against working width",
        ws.phrase(
            "The band runs from light to heavy work; the dashed line is the {left} that the "
            "tractor has left for the shaft.",
            left=(left, "power"),
        ),
        "Working width", "length", "Power", "power",
        [
            Series("light to heavy material", widths,
                   [pto_power.demand(key, w, "light") for w in widths], "accent",
                   [pto_power.demand(key, w, "heavy") for w in widths]),
            Series("this material", widths, [pto_power.demand(key, w, v.material) for w in widths],
                   "ink"),
            Series("power left at the shaft", [widths[0], widths[-1]], [left, left], "bad dashed"),
        ],
        [Mark("this implement", v.working_width, outcome.output("power_demand"))],
    )  # fmt: skip


WORKSHEET = ws.Worksheet(
    name="pairing",
    title="Tractor and implement",
    question="Can this tractor run this implement?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    review=review,
    page="pairing",
    example="a light 25 hp compact and a 60 in light-duty rotary cutter whose mass isn't known.",
)
