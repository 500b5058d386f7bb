"""Tires that go together: sizes that suit an axle, and pairs that makers sell."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

from calc import model, tables
from calc.mechanics import duals, front_drive, tires
from calc.mechanics.tire_size import Designation, decode
from calc.subjects.tires import TURNS, signed

WIDER, NARROWER = 1.45, 1.25
"""Sizes listed for an axle are at most so many times wider or narrower than the section asked
about [-], our own choice: much narrower ones don't carry what the axle has on it."""
LISTED = 6
DIAMETER_STEP = 0.05
"""Sizes offered are within this share of the diameter that the axle has now [-], our own
choice: beyond it gaps, hitch height and gearing change too much."""
OUTSIDE = 2
"""Sizes listed that miss the window, so that a reader sees what comes next."""


@dataclass(frozen=True, slots=True)
class Match:
    """A size of the table with the lead it would give [-]."""

    tire: tires.Dimensions
    lead: float


def _alike(candidate: tires.Dimensions, wanted: str) -> bool:
    if candidate.tread_class == "steer":
        return False
    return not wanted or bool(set(wanted.split("/")) & set(candidate.tread_class.split("/")))


def suits(
    now: tires.Dimensions, other: tires.Dimensions, gap: float | None = None
) -> Callable[[tires.Dimensions], bool]:
    """Return whether a size may be offered in place of the one that an axle has.

    Parameters
    ----------
    now
        The tire that the axle has [-]: a size offered stays within 5 % of its diameter.
    other
        The tire of the other axle, of whose construction a driven front must be [-].
    gap
        Gap above the tread that the axle has, where it was measured [m].
    """

    def allowed(tire: tires.Dimensions) -> bool:
        grown = tire.overall_diameter - now.overall_diameter
        fits = gap is None or grown <= 0 or gap - grown / 2 >= duals.FENDER_GAP
        return (
            fits
            and abs(grown) <= DIAMETER_STEP * now.overall_diameter
            and tire.designation.radial == other.designation.radial
        )

    return allowed


@cache
def approved_pairs() -> tuple[tuple[str, str, tables.Row], ...]:
    """Return the pairs that makers sell together: keys of front and rear, and the row."""
    return tuple(
        (
            tires.lookup_key(decode(row["front"])),
            tires.lookup_key(decode(row["rear"])),
            row,
        )
        for row in tables.rows("tires/approved_pairs")
    )


def approved(front: Designation, rear: Designation) -> bool:
    """Whether a maker sells a pair of sizes together, on some tractor.

    The pair is one of its tread: turf behind, where it is sold with turf in front, is no pair
    with an industrial tread in front. A tread that nobody said may be the one.
    """
    return bool(_sold(front, rear))


def _sold(front: Designation, rear: Designation) -> list[tables.Row]:
    keys = tires.lookup_key(front), tires.lookup_key(rear)
    said = {_tread(size) for size in (front, rear) if size.tread}
    return [row for *pair, row in approved_pairs() if (*pair,) == keys and said <= {row["tread"]}]


def _tread(size: Designation) -> str:
    """A tread, R-1W as R-1: of one size both are made as tall, tires/TG-6."""
    return size.tread.removesuffix("W")


def laid_out(front: Designation, rear: Designation, new: tuple[Designation, Designation]) -> bool:
    """Whether the drive that a pair is on was laid out for the new pair too.

    Parameters
    ----------
    front, rear
        The pair that the tractor has [-].
    new
        Front and rear that it gets [-]: the same sizes and treads again, or a pair that a maker
        sells on that tractor without another gear ratio (`one_drive`: their ratios are less than
        4 % apart, tires/PR-1).
    """
    if _alike_when_new(front, new[0]) and _alike_when_new(rear, new[1]):
        return True
    now, then = (
        {r["tractor"] for r in _sold(*pair) if r["one_drive"]} for pair in ((front, rear), new)
    )
    return bool(now & then)


def _alike_when_new(old: Designation, new: Designation) -> bool:
    treads = {tires.dimensions(size).tread.removesuffix("W") for size in (old, new)}
    return tires.lookup_key(old) == tires.lookup_key(new) and len(treads) == 1


def sold_with(size: Designation, axle: str = "front") -> list[str]:
    """The sizes for an axle that makers sell with one of the other, on tractors geared so; of
    its tread, where that is said."""
    key, said = tires.lookup_key(size), _tread(size)
    pairs = [pair for pair in approved_pairs() if said in ("", pair[2]["tread"])]
    if axle == "front":
        return list(dict.fromkeys(front for front, rear, _ in pairs if rear == key))
    return list(dict.fromkeys(rear for front, rear, _ in pairs if front == key))


def matches(
    lead_of: Callable[[float], float],
    like: tires.Dimensions,
    aim: float,
    allowed: Callable[[tires.Dimensions], bool],
) -> list[Match]:
    """Return the sizes whose lead is nearest to `aim`, best first.

    `lead_of` gives the lead for a rolling circumference. Only
    treads of the class of `like` and widths near its own are listed.
    """
    found = [
        Match(tire, lead_of(tire.rolling_circumference))
        for tire in tires.every_tire()
        if _alike(tire, like.tread_class)
        and like.section_width / NARROWER < tire.section_width < like.section_width * WIDER
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
            f"{match.tire.designation.rim:g}",
            f"± {100 * match.tire.circumference_error:.1f} %",
        )
        for match in _shown(found, window)
    )
    columns = (
        "Size",
        "Lead",
        "Window",
        "Ten turns",
        "Overall diameter",
        "Rim code",
        "Error of one turn",
    )
    return model.Table(title, columns, rows, "tires/derived", note)
