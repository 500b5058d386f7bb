"""What to do about it."""

from __future__ import annotations

from collections.abc import Callable

from calc import model, quantities
from calc.mechanics import ballast, pto_power, typical
from calc.search import Solver
from calc.subjects import raised
from calc.worksheets.pairing import checks as pairing
from calc.worksheets.pairing.fields import FRONT_RULES

ROAD_CHECKS = ("tail_seen", "width", "width_limit")
PLATE_CHECKS = ("rear_axle", "rear_tires", "front_axle", "total")
STOCK_WIDTHS_IN = (36, 42, 48, 54, 60, 66, 72, 84, 96)  # common practice, no source


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Solve for a narrower implement, ballast, and the tractor that would do."""
    broken = [check.name for check in outcome.checks if check.margin < 0]
    remedies: list[model.Remedy] = []
    if broken:
        remedies += _narrower(v, solve)
        if {"steering", "climb"} & set(broken):
            remedies += _ballast(v, solve)
        remedies += _tractor_needed(v, broken, solve)
        remedies += _hitch_remedies(broken)
        remedies += _road_remedies(v, broken, solve)
    return model.Advice(remedies, _cautions(v), notes=_notes(v))


def _narrower(v: model.Inputs, solve: Solver) -> list[model.Remedy]:
    """The widest stock width that meets every check, mass and overhang in proportion."""
    if v.working_width is None or not pairing.power_key(v.implement_kind):
        return []

    mass_at = _along(v, solve, "implement_mass", "mass")
    distance_at = _along(v, solve, "cg_distance", "cg_distance")
    bears_on = [check.name for check in solve.run().checks if check.name not in ROAD_CHECKS]
    widest = solve.largest(
        "working_width",
        0.6,
        v.working_width,
        bears_on,
        implement_mass=mass_at,
        cg_distance=distance_at,
    )
    if widest is None:
        return []
    stock = [inches for inches in STOCK_WIDTHS_IN if inches * 0.0254 <= widest + 1e-6]
    if not stock or stock[-1] * 0.0254 >= v.working_width - 1e-6:
        return []
    width = stock[-1] * 0.0254
    return [
        model.Remedy(
            model.phrase(
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


def _along(v: model.Inputs, solve: Solver, name: str, usual: str) -> Callable[[float], float]:
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


def _ballast(v: model.Inputs, solve: Solver) -> list[model.Remedy]:
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
        model.Remedy(
            model.phrase(
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


def _tractor_needed(v: model.Inputs, broken: list[str], solve: Solver) -> list[model.Remedy]:
    """The mass, lift or power that a tractor would need for this implement."""
    remedies = []
    wanted = (
        (
            "steering",
            "tractor_mass",
            "mass",
            "A tractor of {needed}, balanced like this one, keeps "
            "its front wheels down with this implement.",
        ),
        ("lift", "lift_capacity", "mass", "A hitch rated {needed} at the same distance lifts it."),
        ("power", "pto_power", "power", "{needed} at the PTO runs it in this material."),
    )
    for check, name, kind, said in wanted:
        if check in broken:
            now = getattr(v, name)
            needed = solve.smallest(name, now, now * 6, (check,))
            if needed is not None:
                remedies.append(
                    model.Remedy(model.phrase(said, needed=(needed, kind)), source="hitch/DERIVED")
                )
    return remedies


def _hitch_remedies(broken: list[str]) -> list[model.Remedy]:
    remedies = []
    if "coupler" in broken:
        remedies.append(
            model.Remedy(
                "Take the quick coupler off for this implement.",
                {"quick_coupler": "none"},
                "hitch/H19",
            )
        )
    if "pins" in broken or "span" in broken:
        remedies.append(
            model.Remedy(
                "Ask the implement's maker for pins of the tractor's category; many frames take "
                "either.",
                source="hitch/PRACTICE",
            )
        )
    return remedies


def _road_remedies(v: model.Inputs, broken: list[str], solve: Solver) -> list[model.Remedy]:
    if "tail_seen" not in broken:
        return []
    needed = solve.smallest("tail_height", v.tail_height, 3.3, ("tail_seen",))
    if needed is None:
        return []
    return [
        model.Remedy(
            model.phrase(
                "Raise the tail lamps to {height}, or put lamps on the implement.",
                height=(needed, "length"),
            ),
            {"tail_height": f"{needed + 0.005:.2f} m"},
            "hitch/DERIVED",
        )
    ]


def _cautions(v: model.Inputs) -> list[model.Caution]:
    cautions = [
        model.Caution(
            "The operator's manuals of both machines come first; where they are stricter, follow "
            "them.",
            "hitch/PRACTICE",
        ),
        model.Caution(
            "These are limits at rest on even ground. Slopes, bumps, speed and a raised loader "
            "use up more. Keep the roll-over bar up and the belt on.",
            "hitch/S7",
        ),
    ]
    if pairing.power_key(v.implement_kind):
        cautions.append(
            model.Caution(
                "Stop the engine and wait until the shaft stands still before going near it. Keep "
                "every guard on, and keep people well away from a cutter's discharge.",
                "hitch/PRACTICE",
            )
        )
    return cautions


def _notes(v: model.Inputs) -> list[model.Words]:
    """What the other rules and the other materials would ask for."""
    notes: list[model.Words] = []
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
        model.Phrase(
            f"Other rules for the front axle: {said}.",
            {f"n{i}": (value, "mass") for i, (_, value) in enumerate(others)},
        )
    )
    key = pairing.power_key(v.implement_kind)
    if key and v.power_needed is None:
        low, usual, high = pto_power.demand_range(key, v.working_width)
        notes.append(
            model.phrase(
                "Power by material, common practice: {low} light, {usual} typical, {high} heavy.",
                low=(low, "power"),
                usual=(usual, "power"),
                high=(high, "power"),
            )
        )
    return notes
