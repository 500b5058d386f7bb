"""What the tire worksheets share: ranges for distances rolled, ratings, lists, outlines."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from calc import arith, model
from calc.mechanics import front_drive, tire_load, tires
from calc.mechanics.tire_size import Designation
from calc.model.pictures import Item, Shape

LEAST_TURNS = 8
"""Front turns for ten of the rear; fewer are a gear ratio typed by mistake [-]."""
TURNS = 10
"""Turns that the roll-out sheet counts."""
FRONT_SPAN = (1.6, 3.4)
REAR_SPAN = (2.4, 5.3)
"""Rolling circumference of any compact or utility tire, from the table's smallest and largest
that are used there [m]."""
SPREAD_WIDTH = 1.45
"""Sizes listed for an axle are within this factor of the section width asked about [-]."""
LISTED = 6
OUTSIDE = 2
"""Sizes listed that miss the window, so that a reader sees what comes next."""


def dimensions(designation: Designation | None) -> tires.Dimensions | None:
    """Return the dimensions of a size, or None where there is none."""
    return None if designation is None else tires.dimensions(designation)


def same(old: Designation | None, new: Designation | None) -> bool:
    """Whether an axle keeps its tires: no new size, or the one it has."""
    return new is None or (old is not None and tires.lookup_key(old) == tires.lookup_key(new))


def describe(tire: tires.Dimensions) -> str:
    """Say where the dimensions of a tire come from and how far they may be off."""
    word = {
        "data sheet": "from one maker's data sheet",
        "design value": "a design value",
        "standard's formula": "from the standard's formula",
        "estimate": "estimated from the size",
    }[tire.basis]
    return f"{tire.designation.size}: {word}, diameter within {100 * tire.diameter_error:.1f} %"


def review_turns(known: model.KnownSoFar) -> dict[str, str]:
    """Ask whether a count below three is the gear ratio: C counts ten turns of the rear."""
    turns = known.get("front_turns")
    if turns is None or turns.low >= LEAST_TURNS:
        return {}
    return {
        "front_turns": f"{turns.middle:g} turns for ten of the rear? As a gear ratio, for one turn "
        f"of the rear, it is {TURNS * turns.middle:g} turns for ten: type that."
    }


def direct(lead_now: object, front_turns: object) -> bool:
    """Whether the lead is worked from the gear ratio, and not from the lead it has now."""
    return lead_now is None and front_turns is not None


def _broad(axle: str) -> model.Typical:
    low, high = FRONT_SPAN if axle == "front" else REAR_SPAN
    return model.Typical(
        TURNS * low, TURNS * high, "tires/practice", "tires of compacts and utilities"
    )


def new_rolled(axle: str) -> Callable[[model.KnownSoFar], model.Typical]:
    """Return the usual range of ten turns of a new tire, from what is known of the sizes.

    From the gear ratio the circumference itself matters and has its whole error. From the lead
    it has now only the change matters, and what old and new tire share drops out.
    """

    def find(known: model.KnownSoFar) -> model.Typical:
        old, new = known.get(f"{axle}_tire"), known.get(f"new_{axle}_tire")
        rolled = known.get(f"old_{axle}_ten_turns")
        from_ratio = direct(known.get("lead_now"), known.get("front_turns"))
        if same(old, new):
            if rolled is not None:
                return model.Typical(
                    rolled.low, rolled.high, "tires/derived", "the tires it has now"
                )
            if old is None:
                return _broad(axle)
            kept = tires.dimensions(old)
            return around(kept, kept.circumference_error if from_ratio else 0.0)
        assert new is not None
        tire = tires.dimensions(new)
        if old is None or rolled is not None or from_ratio:
            return around(tire, tire.circumference_error)
        return around(tire, tires.change_error(tires.dimensions(old), tire))

    return find


def old_rolled(axle: str) -> Callable[[model.KnownSoFar], model.Typical]:
    """Return the usual range of ten turns of a tire that is to be changed.

    Its error counts once the new tire is measured and the old one isn't; before that the change
    has an error of its own, which the new tire's range holds.
    """

    def find(known: model.KnownSoFar) -> model.Typical:
        old, new = known.get(f"{axle}_tire"), known.get(f"new_{axle}_tire")
        if old is None:
            return _broad(axle)
        measured = known.get(f"new_{axle}_ten_turns") is not None
        counts = measured or direct(known.get("lead_now"), known.get("front_turns"))
        tire = tires.dimensions(old)
        return around(tire, tire.circumference_error if counts and not same(old, new) else 0.0)

    return find


def around(tire: tires.Dimensions, error: float) -> model.Typical:
    """Return ten turns of a tire by the table, with an error to both sides [m]."""
    middle = TURNS * tire.rolling_circumference
    return model.Typical(
        middle * (1 - error), middle * (1 + error), tire.circumference_source, tire.designation.size
    )


def assumed_or(rolled: float, tire: tires.Dimensions | None, errors: Sequence[float]) -> float:
    """Return a tire's circumference for a list: measured where it was, else the table's.

    A finding is worked at the end of a range that is worst; a list of sizes is not.
    """
    one = rolled / TURNS
    if tire is None:
        return one
    middle = tire.rolling_circumference
    for error in (0.0, *errors):
        if arith.min(abs(one / middle - 1 - error), abs(one / middle - 1 + error)) < 1e-9:
            return middle
    return one


# --- both axles, before and after ---------------------------------------------------------------


def factory_lead() -> model.Typical:
    """Return the lead that makers lay front drives out for."""
    aimed = front_drive.window("limits")
    return model.Typical(
        aimed.target_low, aimed.target_high, aimed.source, "front drives as makers lay them out"
    )


class Pair:
    """The tires of both axles, before and after."""

    __slots__ = ("front", "front_new", "front_stays", "rear", "rear_new", "rear_stays")

    def __init__(self, v: model.Inputs) -> None:
        self.front = dimensions(v.front_tire)
        self.rear = dimensions(v.rear_tire)
        self.front_stays = same(v.front_tire, v.new_front_tire)
        self.rear_stays = same(v.rear_tire, v.new_rear_tire)
        self.front_new = self.front if self.front_stays else dimensions(v.new_front_tire)
        self.rear_new = self.rear if self.rear_stays else dimensions(v.new_rear_tire)

    def circumferences(self, v: model.Inputs) -> tuple[float, float, float, float]:
        """Rolling circumference: front and rear now, front and rear new [m]."""
        front_new, rear_new = v.new_front_ten_turns / TURNS, v.new_rear_ten_turns / TURNS
        front = self.now("front", v.old_front_ten_turns, front_new)
        rear = self.now("rear", v.old_rear_ten_turns, rear_new)
        return front, rear, front_new, rear_new

    def now(self, axle: str, rolled: float, new_circumference: float) -> float:
        """Rolling circumference of the tires an axle has now [m]."""
        front = axle == "front"
        tire = self.front if front else self.rear
        if tire is None:
            return sum(FRONT_SPAN if front else REAR_SPAN) / 2
        stays = self.front_stays if front else self.rear_stays
        return new_circumference if stays else rolled / TURNS


def leads(v: model.Inputs, pair: Pair) -> tuple[float, float]:
    """Return the lead now and with the new tires [-]."""
    front, rear, front_new, rear_new = pair.circumferences(v)
    if direct(v.lead_now, v.front_turns):
        ratio = front_drive.gear_ratio_from_turns(TURNS, v.front_turns)
        return (
            front_drive.lead(front, rear, ratio),
            front_drive.lead(front_new, rear_new, ratio),
        )
    now = v.lead_now if v.lead_now is not None else v.factory_lead
    return now, front_drive.lead_after_change(now, front_new / front, rear_new / rear)


def rating(tire: tires.Dimensions | None) -> tire_load.Rating | None:
    """Return the rating of a tire where there is one."""
    return None if tire is None else tire_load.rating(tire.designation)


# --- sizes that suit ---------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Match:
    """A size of the table with the lead it would give [-]."""

    tire: tires.Dimensions
    lead: float


def _alike(candidate: tires.Dimensions, wanted: str) -> bool:
    if candidate.tread_class == "steer":
        return False
    return not wanted or bool(set(wanted.split("/")) & set(candidate.tread_class.split("/")))


def matches(
    lead_of: Callable[[float], float],
    like: tires.Dimensions,
    aim: float,
    allowed: Callable[[tires.Dimensions], bool],
) -> list[Match]:
    """Return the sizes whose lead is nearest to `aim`, best first.

    `lead_of` gives the lead for a rolling circumference. Only treads of the class of `like` and
    widths near its own are listed.
    """
    found = [
        Match(tire, lead_of(tire.rolling_circumference))
        for tire in tires.every_tire()
        if _alike(tire, like.tread_class)
        and like.section_width / SPREAD_WIDTH < tire.section_width
        and tire.section_width < like.section_width * SPREAD_WIDTH
        and allowed(tire)
    ]
    return sorted(found, key=lambda match: (abs(match.lead - aim), match.tire.designation.size))


def _shown(found: Sequence[Match], window: front_drive.Window) -> list[Match]:
    inside = [match for match in found if window.low <= match.lead <= window.high]
    others = [match for match in found if match not in inside]
    return inside[:LISTED] + others[:OUTSIDE]


def match_table(
    title: str, found: Sequence[Match], window: front_drive.Window, note: model.Words
) -> model.Table:
    """Return a list of sizes as a table, best lead first."""
    rows = tuple(
        (
            match.tire.designation.size,
            model.phrase("{n} %", n=signed(match.lead)),
            "inside" if window.low <= match.lead <= window.high else "outside",
            (TURNS * match.tire.rolling_circumference, "length", "ft"),
            (match.tire.overall_diameter, "length"),
            f"± {100 * match.tire.circumference_error:.1f} %",
        )
        for match in _shown(found, window)
    )
    columns = ("Size", "Lead", "Window", "Ten turns", "Overall diameter", "Error of one turn")
    return model.Table(title, columns, rows, "tires/derived", note)


def signed(share: float) -> str:
    """A share as a signed percentage, such as "+2.8"."""
    shown = f"{100 * share:+.1f}".replace("-", "\u2212")
    return "0.0" if shown[1:] == "0.0" else shown


# --- drawing -----------------------------------------------------------------------------------


def outline(x: float, tire: tires.Dimensions, style: str, points: int = 72) -> Item:
    """Return a tire from the side, standing on the ground at y = 0 and flattened there."""
    radius, height = tire.overall_diameter / 2, tire.static_loaded_radius
    return Shape(
        [
            (
                x + radius * arith.cos(2 * arith.pi * i / points),
                arith.max(0.0, height + radius * arith.sin(2 * arith.pi * i / points)),
            )
            for i in range(points)
        ],
        style,
    )


def outline_points(x: float, tire: tires.Dimensions, points: int = 72) -> list[tuple[float, float]]:
    """Return the same outline as a closed line."""
    shape = outline(x, tire, "fill", points)
    assert isinstance(shape, Shape)
    return [*shape.points, shape.points[0]]
