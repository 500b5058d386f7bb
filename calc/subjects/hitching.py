"""Hitching: pins, bushings, spans and masts of a tractor's three-point hitch and an implement.

The one home of what the pages on hitches and on pairings say of them. A category stands in for
what nobody measured; what is measured counts more than the category that was picked.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from calc import model, quantities
from calc.mechanics import hitch, hitch_fit, identify_hitch, quick_coupler
from calc.model.wording import read_words

SPAN_SOURCE = "hitch/W1; hitch/H1; hitch/W3"
PIN_SOURCE = "hitch/H1; hitch/W1; hitch/W4; hitch/H19"
# What a tape or a worn caliper may be off on a pin; sizes of neighboring categories differ by 6 mm.
MEASURING_ERROR = 1.0e-3
# The same for a span: half a ball width, the smallest step between two figures of the tables.
TAPE_ON_SPAN = 0.015
# A span this near to a figure that charts print between ball centers was taken from a chart.
AS_PRINTED = 0.012
# The coupler of the tables that comes nearest to a hitch for which they have none.
NEAREST_COUPLER = {"0": "1", "1N": "1", "2N": "1", "4N": "3", "4": "3"}
OFTEN_SWINGING = ("rotary_cutter", "rotary_cutter_light", "flail_mower")


MEASURED = {
    "lower_pin": ("0.4 in", "2.5 in", "in"),
    "upper_pin": ("0.4 in", "2.5 in", "in"),
    "implement_span": ("10 in", "60 in", ""),
    "mast_height": ("6 in", "50 in", ""),
}
"""What is measured on an implement: the least and the most that is real, and the unit shown."""


def measured(name: str, group: str) -> model.Field:
    """Return the field of something measured on an implement, by its name in `MEASURED`."""
    low, high, unit = MEASURED[name]
    return model.Field(name, "length", low, high, optional=True, group=group, unit_us=unit)


# --- which category ----------------------------------------------------------------------------


@lru_cache(maxsize=256)
def nearest(item: str, value: float) -> str:
    """Return the pin number whose size of an item is nearest to a measurement [m]."""
    return min("01234", key=lambda number: abs(hitch.size(item, number) - value))


def tractor_category(picked: str, ball_hole: float | None = None) -> str:
    """Return the hitch's category; a measured hole overrules the number that was picked."""
    number = hitch.bore_category(ball_hole) if ball_hole is not None else None
    agrees = number is None or number == hitch.pin_number(picked)
    return str(picked) if agrees or number is None else number


def as_shoulders(span: float, between: str, number: str) -> float:
    """Return a measured span between shoulders. [m]

    `between` is "shoulders", "ball centers", or "either" where nobody said: a figure that
    charts print between ball centers is then read as one.
    """
    if between == "either":
        between = printed_between(span)
    return hitch_fit.shoulder_span(span, between, number)


def printed_between(span: float) -> str:
    """Return "ball centers" for a span that charts print so, else "shoulders". [m]

    Examples
    --------
    >>> printed_between(0.718), printed_between(0.683), printed_between(0.752)
    ('ball centers', 'shoulders', 'shoulders')
    """
    fit = hitch_fit.span_category(span)
    if fit.between == "ball centers" and abs(fit.misfit) <= AS_PRINTED:
        return "ball centers"
    return "shoulders"


def candidates(
    lower_pin: float | None,
    upper_pin: float | None,
    span: float | None,
    mast: float | None,
    between: str = "shoulders",
) -> tuple[str, ...]:
    """Return the categories that agree with all that was measured, best first; () for none.

    A top pin alone names none: it is a loose part, and the wrong one is often in.
    A mast of its own height is forgiven where the pins and the span agree on a category. [m]
    """
    if lower_pin is None and span is None and mast is None:
        return ()  # a top pin is a loose part: alone it tells nothing
    number = nearest("lower_pin", lower_pin) if lower_pin is not None else "1"
    flat = None if span is None else as_shoulders(span, between, number)
    found = identify_hitch.identify(lower_pin, upper_pin, flat, mast)
    if not found and mast is not None and (lower_pin, upper_pin, span) != (None, None, None):
        found = identify_hitch.identify(lower_pin, upper_pin, flat)
    return tuple(item.name for item in found)


def implement_category(picked: str, found: tuple[str, ...], lower_pin: float | None = None) -> str:
    """Return the category to go by: what was picked if it agrees with what was measured.

    Else the best of `found`; where nothing agrees with everything, that of the lower pin.
    """
    if found:
        # Of several that agree a plain category is meant before a narrow one.
        plain = [name for name in found if not name.endswith("N")]
        return str(picked) if picked in found else (plain or found)[0]
    if lower_pin is None:
        return str(picked)
    number = nearest("lower_pin", lower_pin)
    return str(picked) if number == picked[0] else number


def category_of(
    picked: str,
    lower_pin: float | None,
    upper_pin: float | None,
    span: float | None,
    mast: float | None,
    between: str,
) -> str:
    """Return the implement's category: by its pins and span, with the mast where it was measured.

    A mast or a top pin alone tells neither pins nor span: then it is what was picked. [m]
    """
    if lower_pin is None and span is None:
        return str(picked)
    found = candidates(lower_pin, upper_pin, span, mast, between)
    return implement_category(picked, found, lower_pin)


def coupler_for(category: str) -> str:
    """Return the U-frame coupler that goes with a hitch, the nearest one of the tables."""
    return NEAREST_COUPLER.get(category, category)


def coupler_fit(tractor: str, coupler: str) -> tuple[float, str]:
    """Return the margin of a coupler on a hitch, by categories, and which sentence says it.

    Examples
    --------
    >>> coupler_fit("1", "1"), coupler_fit("0", "1"), coupler_fit("2", "1")
    ((1.0, 'made'), (-1.0, 'no'), (0.0, 'ask'))
    """
    pins, span = hitch_fit.pins_fit(tractor, coupler), hitch_fit.spans_fit(tractor, coupler)
    if pins == "too big" or span == "no":
        return -1.0, "no"
    return (1.0, "made") if pins == "fits" and span == "same" else (0.0, "ask")


# --- pins --------------------------------------------------------------------------------------


@lru_cache(maxsize=256)
def pin_words(size: float) -> str:
    """Return a pin the way the trade says it when it is of a category, else in decimals. [m]"""
    metric = quantities.show(size, "length", "metric", figures=3)
    for item in ("lower_pin", "upper_pin"):
        number = nearest(item, size)
        if abs(hitch.size(item, number) - size) <= 0.3e-3:
            return f"{hitch_fit.sixteenths(hitch.size(item, number))} in ({metric})"
    return f"{quantities.show(size, 'pin', 'us')} ({metric})"


def ball_bushing(place: str, pin: float, tractor: str) -> dict[str, str] | None:
    """Return the stock bushing between a pin [m] and a tractor's ball or top link, or None.

    Parameters
    ----------
    place
        "lower" or "upper".
    tractor
        The hitch's category.

    Examples
    --------
    >>> ball_bushing("lower", 0.028, "3")["outside_in"]
    '1-7/16'
    """
    theirs, ours = nearest(f"{place}_pin", pin), hitch.pin_number(tractor)
    return hitch_fit.sleeve("ball", place, theirs) if int(ours) - int(theirs) == 1 else None


def slot_bushing(place: str, pin: float, slot: float) -> dict[str, str] | None:
    """Return the stock bushing between a pin and a coupler's slot, or None.

    A slot as narrow as the pins of its own category takes what a ball of that size takes.

    Parameters
    ----------
    place
        "lower" or "upper".
    pin, slot
        Diameter of the pin, and of the one that the slot is cut for. [m]

    Examples
    --------
    >>> slot_bushing("lower", 0.0222, 0.0366)["outside_in"]
    '1-7/16'
    >>> slot_bushing("lower", 0.0222, 0.0286)["outside_in"]
    '1-1/8'
    """
    number = nearest(f"{place}_pin", pin)
    for use in ("coupler", "ball"):
        row = hitch_fit.sleeve(use, place, number)
        if row and abs(hitch_fit.inches(row["outside_in"]) - slot) <= hitch_fit.LOOSE:
            return row
    return None


def cut_for(pin: float, made_for: float) -> str:
    """Return how a pin suits an opening known by the pin it is made for [m]: "fits", "sleeve"
    (the pin is loose) or "too big"."""
    if abs(made_for - pin) <= hitch_fit.LOOSE:
        return "fits"
    return "sleeve" if made_for > pin else "too big"


def pin_check(
    name: str,
    title: str,
    pin: float,
    hole: float,
    found: str,
    bushing: dict[str, str] | None,
    *,
    fitted: bool,
    opening: str,
    source: str = PIN_SOURCE,
) -> model.Check:
    """Return a check on a pin and what it goes into.

    A stock bushing is routine: that one is wanted is advice and colors nothing.

    Parameters
    ----------
    pin, hole
        Diameters; for a top link or a slot the pin that it is made for. [m]
    found
        "fits", "sleeve" or "too big".
    bushing
        The stock bushing that bridges them, or None.
    fitted
        Whether it is on already.
    opening
        "ball", "top link" or "slot".
    """
    more: dict[str, str] = {}
    if found == "sleeve" and not bushing:
        margin, key = -1.0, "none"
    elif found == "sleeve":
        margin, key = (1.0, "fitted") if fitted else (0.0, "bushing")
    elif found == "too big":
        margin, key = (0.0, "near") if pin - hole <= MEASURING_ERROR else (-1.0, "too big")
    else:
        margin, key = 1.0, "fits"
    said = read_words("calc.subjects")["hitching"]
    if key == "bushing":
        more = {"grade": model.ADVICE, "why": said["loose"]}
    elif margin < 1.0:
        more = {"why": said["loose"] if key == "none" else said["hard"]}
    sizes = bushing or {"inside_in": "", "outside_in": ""}
    sentence = model.phrase(
        said["pins"][key],
        pin=pin_words(pin),
        hole=pin_words(hole),
        play=(hole - pin, "length"),
        opening=opening,
        inside=sizes["inside_in"],
        outside=sizes["outside_in"],
    )
    return model.fits(name, title, margin, sentence, source, **more)


# --- span --------------------------------------------------------------------------------------


def span_margin(gap: float, measured: bool) -> tuple[float, str]:
    """Return the margin of a difference between two spans [m], and which sentence says it.

    A measured span is told from its category's as loosely as a category is told by it: charts
    round Category 1 to 26 in and Category 2 to 32 in.

    Examples
    --------
    >>> span_margin(0.165, True), span_margin(0.165, False), span_margin(0.19, True)
    ((0.0, 'adjust'), (-1.0, 'far'), (-1.0, 'far'))
    """
    tolerance = TAPE_ON_SPAN if measured else 2 * hitch_fit.SPAN_TOLERANCE
    if abs(gap) <= tolerance:
        return 1.0, "same"
    reach = hitch_fit.SPAN_REACH + (identify_hitch.SPAN_MEASURED if measured else 0.0)
    return (0.0, "adjust") if abs(gap) <= reach else (-1.0, "far")


def way(gap: float) -> str:
    """Return "wider" or "narrower"."""
    return "wider" if gap > 0 else "narrower"


def takes_either(theirs: str, ours: str) -> bool:
    """Return whether frames of one category are made that take the pins of the other as well.

    Two sets of pins are for neighbors, and not for a garden tractor's.

    Examples
    --------
    >>> takes_either("2", "1"), takes_either("3", "1"), takes_either("0", "1")
    (True, False, False)
    """
    theirs, ours = hitch.pin_number(theirs), hitch.pin_number(ours)
    return abs(int(theirs) - int(ours)) <= 1 and "0" not in (theirs, ours)


# --- mast --------------------------------------------------------------------------------------


class Mast(NamedTuple):
    """A measured mast against the one of a category. Lengths in m."""

    height: float
    gap: float
    says: str
    source: str


def mast_fit(category: str, measured: float) -> Mast:
    """Return how a measured mast [m] stands to that of a tractor's category.

    `says` is "same", "old" for the shorter mast of older implements, or "other".

    Examples
    --------
    >>> mast_fit("2", 0.61).says, mast_fit("2", 0.483).says, mast_fit("1", 0.61).says
    ('same', 'old', 'other')
    """
    # Category 4 has two heights: the nearer one is meant.
    heights = hitch.size_range("mast_height", category)
    height = min(heights, key=lambda one: abs(one - measured))
    gap, source = hitch_fit.mast_gap(height, measured), hitch.size_source("mast_height", category)
    if abs(gap) <= identify_hitch.MAST_TOLERANCE:
        return Mast(height, gap, "same", source)
    number = hitch.pin_number(category)
    if hitch.has_size("mast_height_old", number):
        old = hitch.size("mast_height_old", number)
        if abs(hitch_fit.mast_gap(old, measured)) <= identify_hitch.MAST_TOLERANCE:
            more = hitch.size_source("mast_height_old", number)
            return Mast(height, gap, "old", f"{source}; hitch/S1; {more}")
    return Mast(height, gap, "other", source)


def check_mast(at: model.At, category: str, measured: float) -> None:
    """Check a measured mast [m]; the top link takes up another height, so it is never over."""
    found = mast_fit(category, measured)
    said = read_words("calc.subjects")["hitching"]["mast"][found.says]
    sentence = at.phrase(said, off=(abs(found.gap), "length"), mast=(found.height, "length"))
    margin = 1.0 if found.says == "same" else 0.0
    at.add(model.fits("mast", at.title("mast"), margin, sentence, found.source))


def check_hook_height(at: model.At, coupler: str, measured: float | None, seen: str) -> None:
    """Check that a coupler's top hook finds a hole in the mast.

    Parameters
    ----------
    coupler
        Its category.
    measured
        Height of the mast's hole above the lower pins; one at the hook's height settles it. [m]
    seen
        "yes", "no" or "unseen", where the measured one isn't at that height.
    """
    at.hook = quick_coupler.coupler_hook_height(coupler)
    off = None if measured is None else abs(hitch_fit.mast_gap(at.hook, measured))
    near = off is not None and off <= identify_hitch.MAST_TOLERANCE
    says = "yes" if near else seen
    margin = {"yes": 1.0, "no": -1.0}.get(says, 0.0)
    words = read_words("calc.subjects")["hitching"]["hook_height"]
    sentence = at.phrase(words[says], hook=(at.hook, "length"))
    more = {key: at.said("checks", "hook_height").get(key, "") for key in ("broken", "why")}
    at.add(model.fits("hook_height", at.title("hook_height"), margin, sentence, "hitch/W2", **more))
