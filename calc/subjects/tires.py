"""What the tire worksheets share: ranges for distances rolled, ratings, lists, outlines."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from calc import arith, model, sources, tables
from calc.mechanics import front_drive, tire_doubts, tire_rating, tire_rolling, tires
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


def dimensions(designation: Designation | None) -> tires.Dimensions | None:
    """Return the dimensions of a size, or None where there is none."""
    return None if designation is None else tires.dimensions(designation)


def same(old: Designation | None, new: Designation | None, worn: bool = False) -> bool:
    """Whether an axle keeps its tires: no new ones, or nothing that tells them apart.

    One size with another tread, ply rating or load index is another tire, and so is a new one of
    the same size where something was said of the old one's wear.
    """
    return new is None or (old == new and not worn)


def _stays(given: Callable[[str], Any], axle: str) -> bool:
    """Whether an axle keeps its tires; `given` looks a field up."""
    return same(given(f"{axle}_tire"), given(f"new_{axle}_tire"), says_wear(given, axle))


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


def review_pair(known: model.KnownSoFar) -> dict[str, str]:
    """Ask whether front and rear are swapped: no rear tire is smaller than its front, tires/PR-1.

    Sizes that may be off count as the nearest they can be.
    """
    front, rear = dimensions(known.get("front_tire")), dimensions(known.get("rear_tire"))
    near, far = known.get("old_front_ten_turns"), known.get("old_rear_ten_turns")
    if near is not None and far is not None and near.low > far.high:
        return {"old_front_ten_turns": "A front tire rolls no farther than a rear one: swapped?"}
    if front is None or rear is None:
        return {}
    least = front.overall_diameter * (1 - front.diameter_error)
    if least <= rear.overall_diameter * (1 + rear.diameter_error):
        return {}
    return {"front_tire": "These front tires are taller than the rear ones: are the two swapped?"}


def direct(lead_now: object, front_turns: object) -> bool:
    """Whether the lead is worked from the gear ratio, and not from the lead it has now."""
    return lead_now is None and front_turns is not None


def _direct(known: model.KnownSoFar) -> bool:
    return direct(known.get("lead_now"), known.get("front_turns"))


WEAR = ("worn", "lug")
"""Ways to say how far the tires of an axle are worn: the share that is gone, or what is left."""


def says_wear(given: Callable[[str], object], axle: str) -> bool:
    """Whether anything was said of the wear of an axle's tires; `given` looks a field up."""
    return any(given(f"{axle}_{way}") is not None for way in WEAR)


def lug_lost(tire: tires.Dimensions | None, worn: float | None, left: float | None) -> float:
    """Return the height of lug that is gone [m].

    Parameters
    ----------
    tire
        The tire; None where its size isn't known [-].
    worn
        Share of the lug that is gone, None where nobody said [-].
    left
        Lug that is left, which comes before the share; None where nobody measured [m]. More
        than the table's lug of a new tire is taken as none lost.
    """
    if tire is None or (worn is None and left is None):
        return 0.0
    whole = tires.lug_depth(tire.designation, tire.tread)
    if left is not None:
        return arith.number(arith.max(0.0, whole - left))
    assert worn is not None
    return worn * whole


def _worn(known: model.KnownSoFar, axle: str, tire: tires.Dimensions) -> float:
    """What wear takes off a turn of a tire that it has now, as a share of the turn [-]."""
    worn, left = (known.get(f"{axle}_{way}") for way in WEAR)
    lost = lug_lost(tire, worn and worn.middle, left and left.middle)
    return turn_lost(tire, lost) / tire.rolling_circumference


def turn_lost(tire: tires.Dimensions | None, lost: float) -> float:
    """Return how much less a tire rolls in one turn once `lost` of its lugs is gone [m]."""
    if tire is None:
        return 0.0
    new = tire.rolling_circumference
    return new - tire_rolling.worn_circumference(new, lost)


def new_rolled(axle: str) -> Callable[[model.KnownSoFar], model.Typical | None]:
    """Return the usual range of ten turns of a new tire, from what is known of the sizes.

    From the gear ratio the circumference itself matters and has its whole error. From the lead
    it has now only the change matters, and what old and new tire share drops out. Ten turns that
    were measured stand before any table, for the tire that they were measured on.
    """

    def find(known: model.KnownSoFar) -> model.Typical | None:
        old, new = known.get(f"{axle}_tire"), known.get(f"new_{axle}_tire")
        rolled = known.get(f"old_{axle}_ten_turns")
        from_ratio = _direct(known)
        if _stays(known.get, axle):
            if rolled is not None or old is None:
                return None
            kept = tires.dimensions(old)
            error = kept.circumference_error if from_ratio else 0.0
            return around(kept, error, _worn(known, axle, kept))
        assert new is not None
        tire = tires.dimensions(new)
        if old is None or rolled is not None or from_ratio:
            return around(tire, tire.circumference_error)
        return around(tire, tires.change_error(tires.dimensions(old), tire))

    return find


def old_rolled(axle: str) -> Callable[[model.KnownSoFar], model.Typical | None]:
    """Return the usual range of ten turns of a tire that is to be changed.

    Its error counts once the new tire is measured and the old one isn't; before that the change
    has an error of its own, which the new tire's range holds.
    """

    def find(known: model.KnownSoFar) -> model.Typical | None:
        old = known.get(f"{axle}_tire")
        if old is None or _stays(known.get, axle):  # then one distance serves now and after
            return None
        measured = known.get(f"new_{axle}_ten_turns") is not None
        counts = measured or _direct(known)
        tire = tires.dimensions(old)
        error = tire.circumference_error if counts else 0.0
        return around(tire, error, _worn(known, axle, tire))

    return find


def size_errors(given: Callable[[str], Any]) -> list[float]:
    """Half-widths of the change of circumference of each axle that gets another tire [-]."""
    changed = [
        (given(f"{axle}_tire"), given(f"new_{axle}_tire"))
        for axle in ("front", "rear")
        if not _stays(given, axle)
    ]
    return [
        tires.change_error(tires.dimensions(old), tires.dimensions(new))
        for old, new in changed
        if old is not None
    ]


def around(tire: tires.Dimensions, error: float, worn: float = 0.0) -> model.Typical:
    """Return ten turns of a tire by the table, with an error to both sides, less its wear [m]."""
    middle = TURNS * tire.rolling_circumference * (1 - worn)
    return model.Typical(
        middle * (1 - error), middle * (1 + error), tire.circumference_source, tire.designation.size
    )


# --- both axles, before and after ---------------------------------------------------------------


def factory_lead(errors: Sequence[float] = ()) -> model.Typical:
    """Return the lead that makers lay front drives out for.

    Parameters
    ----------
    errors
        Half-widths of the change of circumference of each axle that gets another size [-]. They
        have nothing to do with the lead that was laid out, so that all of it together is off by
        no more than the root of the sum of squares: what the sizes leave of that is kept.
    """
    aimed = front_drive.window("limits")
    of, kept = "front drives as makers lay them out", aimed.target_high - aimed.middle
    if errors:
        of += ", beside what the sizes may be off"
        kept = arith.hypot(kept, arith.hypot(*errors, 0.0)) - sum(errors)
    kept = arith.max(0.0, kept)
    return model.Typical(aimed.middle - kept, aimed.middle + kept, aimed.source, of)


class Pair:
    """The tires of both axles, before and after."""

    __slots__ = (
        "front",
        "front_lost",
        "front_new",
        "front_rolled",
        "front_stays",
        "named",
        "rear",
        "rear_lost",
        "rear_new",
        "rear_rolled",
        "rear_stays",
        "rolled",
        "unsaid",
        "worn",
    )

    def __init__(self, v: model.Inputs) -> None:
        self.front = dimensions(v.front_tire)
        self.rear = dimensions(v.rear_tire)
        front_worn, rear_worn = (says_wear(partial(getattr, v), a) for a in ("front", "rear"))
        self.worn = front_worn or rear_worn
        front_same = same(v.front_tire, v.new_front_tire, front_worn)
        rear_same = same(v.rear_tire, v.new_rear_tire, rear_worn)
        # Two distances of one axle are two tires, whatever the new ones are called.
        old, new = _turns(v, "old"), _turns(v, "new")
        self.front_stays = front_same and None in (old[0], new[0])
        self.rear_stays = rear_same and None in (old[1], new[1])
        self.front_rolled = front_same and not self.front_stays
        self.rear_rolled = rear_same and not self.rear_stays
        self.rolled = self.front_rolled or self.rear_rolled
        self.named = v.new_front_tire is not None or v.new_rear_tire is not None
        self.unsaid = any(
            old and new and tire_doubts.unsaid(old, new)
            for old, new in ((v.front_tire, v.new_front_tire), (v.rear_tire, v.new_rear_tire))
        )
        self.front_new = self.front if front_same else dimensions(v.new_front_tire)
        self.rear_new = self.rear if rear_same else dimensions(v.new_rear_tire)
        self.front_lost = lug_lost(self.front, v.front_worn, v.front_lug)
        self.rear_lost = lug_lost(self.rear, v.rear_worn, v.rear_lug)

    @property
    def renewed(self) -> bool:
        """Whether what changes is nothing but worn lugs for new ones."""
        same_sizes = self.front == self.front_new and self.rear == self.rear_new
        return self.changed and same_sizes and not self.rolled

    @property
    def changed(self) -> bool:
        """Whether any tire changes."""
        return not (self.front_stays and self.rear_stays)

    def circumferences(self, v: model.Inputs) -> tuple[Turn, Turn, Turn, Turn]:
        """Rolling circumference: front and rear now, front and rear new [m]; None where no size
        and no measurement gives it."""
        old, new = _turns(v, "old"), _turns(v, "new")
        front, rear, front_new, rear_new = *old, *new
        if self.front_stays:
            front = front_new = old[0] if new[0] is None else new[0]
        if self.rear_stays:
            rear = rear_new = old[1] if new[1] is None else new[1]
        return front, rear, front_new, rear_new


Turn = float | None


def _turns(v: model.Inputs, when: str) -> tuple[Turn, Turn]:
    """One turn of a front and of a rear tire, old or new [m]."""
    front, rear = (getattr(v, f"{when}_{axle}_ten_turns") for axle in ("front", "rear"))
    return (None if front is None else front / TURNS, None if rear is None else rear / TURNS)


def listed(v: model.Inputs, pair: Pair) -> bool:
    """Whether the new pair has the lead that the drive was laid out with, as nothing measured
    tells another."""
    unmeasured = v.lead_now is None and v.front_turns is None
    return bool(v.pair_listed == "yes" and unmeasured and pair.changed)


def leads(v: model.Inputs, pair: Pair) -> tuple[float, float] | None:
    """Return the lead now and with the new tires [-]; None where nothing gives it.

    What a tractor was laid out for holds for the tires it has now when they were new.
    """
    front, rear, front_new, rear_new = pair.circumferences(v)
    if front_new is None or rear_new is None or front is None or rear is None:
        return None
    if direct(v.lead_now, v.front_turns):
        ratio = front_drive.gear_ratio_from_turns(TURNS, v.front_turns)
        return (
            front_drive.lead(front, rear, ratio),
            front_drive.lead(front_new, rear_new, ratio),
        )
    if v.lead_now is not None:
        now = v.lead_now
    else:
        worn_front = front / (front + turn_lost(pair.front, pair.front_lost))
        worn_rear = rear / (rear + turn_lost(pair.rear, pair.rear_lost))
        now = front_drive.lead_after_change(v.factory_lead, worn_front, worn_rear)
        if listed(v, pair):
            kept = (worn_front if pair.front_stays else 1.0, worn_rear if pair.rear_stays else 1.0)
            return now, front_drive.lead_after_change(v.factory_lead, *kept)
    return now, front_drive.lead_after_change(now, front_new / front, rear_new / rear)


def rims_of(designation: Designation) -> str:
    """Return the rims that the standard or a data file lists for a size; "" where none does."""
    text = designation.width_text
    key = text if designation.aspect is None else f"{text}/{designation.aspect:g}"
    if designation.form in ("decimal", "metric"):
        row = tables.by_key("tires/tire_rims", "size").get(key)
        if row:
            return row["rims"]
    read = tables.by_key("tires/tire_rims_read", "size").get(tires.lookup_key(designation))
    return read["rims"] if read else ""


def fastest(designation: Designation | None) -> float | None:
    """Return the fastest speed of a tire's markings [m/s]; None where they say none."""
    if designation is None:
        return None
    speeds = [rated.speed for rated in tire_rating.service_ratings(designation)]
    marked = max((speed for speed in speeds if speed is not None), default=None)
    return marked and max(marked, *sheet_speeds(designation), 0.0)


def sheet_speeds(designation: Designation) -> set[float]:
    """Return the speeds that a tire's sheet has loads for [m/s], where it has several."""
    speeds = {
        speed for _, _, speed, _ in tire_rating.sheet_points(designation) if speed is not None
    }
    return speeds if len(speeds) > 1 else set()


def rating(tire: tires.Dimensions | None) -> tire_rating.Rating | None:
    """Return the rating of a tire where there is one."""
    return None if tire is None else tire_rating.rating(tire.designation)


# --- showing --------------------------------------------------------------------------------


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


def window_table(lead: float) -> model.Table:
    """Return what each printed window says of a lead [-]."""
    rows = tuple(
        (
            w.label,
            "inside" if w.low <= lead <= w.high else "outside",
            sources.find(w.source)[0].title,
        )
        for w in front_drive.windows()
    )
    return model.Table(
        "What other windows say",
        ("Window", f"Lead of {signed(lead)} %", "Source"),
        rows,
        note="Manuals and guides disagree; the tractor's own manual comes first.",
    )
