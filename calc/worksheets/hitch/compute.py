"""The sums."""

from __future__ import annotations

from calc import arith, model
from calc.mechanics import hitch, hitch_fit, implement_power, quick_coupler, typical
from calc.subjects import hitching, hung

NOT_HUNG = ("towed", "front", "mid")
TAPE_ON_TRAVEL = 0.013  # two heights by a tape, each to a quarter of an inch [m]

# --- what is known of the two machines ---------------------------------------------------------


def found_categories(v: model.Inputs) -> tuple[str, ...]:
    """Return the categories that agree with all that was measured on the implement."""
    return hitching.candidates(
        v.lower_pin, v.upper_pin, v.implement_span, v.mast_height, v.span_between
    )


def tractor_category(v: model.Inputs) -> str:
    """Return the hitch's category."""
    return hitching.tractor_category(v.hitch_category, v.ball_hole)


def implement_category(v: model.Inputs) -> str:
    """Return the implement's category, what is measured first."""
    return hitching.category_of(
        v.implement_category,
        v.lower_pin,
        v.upper_pin,
        v.implement_span,
        v.mast_height,
        v.span_between,
    )


def coupled(v: model.Inputs) -> bool:
    """Return whether a quick coupler stands between the two."""
    return bool(v.quick_coupler == "u_frame")


def coupler(v: model.Inputs) -> str:
    """Return the category of the coupler."""
    if v.coupler_category != "tractor":
        return str(v.coupler_category)
    return hitching.coupler_for(tractor_category(v))


def slot(v: model.Inputs, place: str) -> float:
    """Return the pin that a slot of the coupler is cut for. [m]"""
    if v.coupler_slots == "own":
        return hitch.size(f"{place}_pin", hitch.pin_number(coupler(v)))
    return quick_coupler.coupler_slot(coupler(v), place)


def has_top_link(v: model.Inputs) -> bool:
    """Return whether the implement hangs on a top link; a digger's boom takes its place."""
    return bool(v.implement_kind != "post_hole_digger")


def top_hole(v: model.Inputs) -> float:
    """Return the pin that the tractor's top link is bored for; its hole is a little larger. [m]"""
    return hitch.size("upper_pin", hitch.pin_number(tractor_category(v)))


def _sizes(v: model.Inputs, at: model.At) -> None:
    """Name pins, holes and spans, from what was measured or from the category."""
    ours, theirs = tractor_category(v), implement_category(v)
    number = hitch.pin_number(theirs)
    at.lower_pin_size = v.lower_pin or hitch.size("lower_pin", theirs)
    at.upper_pin_size = v.upper_pin or hitch.size("upper_pin", number)
    at.ball = v.ball_hole or hitch.size("lower_bore", hitch.pin_number(ours))
    at.hole = slot(v, "lower") if coupled(v) else at.ball
    at.slack = at.hole - at.lower_pin_size
    at.span = (
        hitch.size("shoulder_span", theirs)
        if v.implement_span is None
        else hitching.as_shoulders(v.implement_span, v.span_between, number)
    )
    at.tractor_span = hitch.size("shoulder_span", ours)
    if coupled(v):
        at.tractor_span = quick_coupler.coupler_hook_span(coupler(v))
    elif v.links_narrowest is not None and v.links_widest is not None:
        at.tractor_span = arith.min(arith.max(at.span, v.links_narrowest), v.links_widest)
    at.gap = at.span - at.tractor_span
    at.apart = abs(at.gap)


# --- checks ----------------------------------------------------------------------------------


def compute(v: model.Inputs, at: model.At) -> None:
    """Make the checks that apply with or without a coupler."""
    _sizes(v, at)
    how = typical.mount(v.implement_kind)
    if how == "subframe":
        hung.refuse(at)
        return
    if how in NOT_HUNG:
        return
    if coupled(v):
        _coupler_checks(v, at)
    else:
        _plain_checks(v, at)
    if v.lift_travel is not None:
        _travel(v, at)
    _measured(v, at)


def _plain_checks(v: model.Inputs, at: model.At) -> None:
    ours = tractor_category(v)
    _pin(
        v,
        at,
        "lower_pins",
        at.lower_pin_size,
        at.ball,
        hitch_fit.pin_fit(at.lower_pin_size, at.ball),
    )
    at.step("slack", "s = D − d", "hitch/W4; hitch/W1; hitch/H1", D="ball", d="lower_pin_size")
    if has_top_link(v):
        made_for = top_hole(v)
        found = hitching.cut_for(at.upper_pin_size, made_for)
        _pin(v, at, "top_pin", at.upper_pin_size, made_for, found)
    _span(v, at)
    if v.mast_height is not None and has_top_link(v):
        _mast(v, at, ours)


OPENINGS = {"lower_pins": "ball", "top_pin": "top link", "slot_lower": "slot", "slot_upper": "slot"}


def place_of(check: str) -> str:
    """Return "lower" or "upper" for a check on pins."""
    return "lower" if check in ("lower_pins", "slot_lower") else "upper"


def bushing_for(v: model.Inputs, check: str, pin: float) -> dict[str, str] | None:
    """Return the stock bushing for a check on pins, or None. [m]"""
    place = place_of(check)
    if check.startswith("slot"):
        return hitching.slot_bushing(place, pin, slot(v, place))
    return hitching.ball_bushing(place, pin, tractor_category(v))


def _pin(v: model.Inputs, at: model.At, name: str, pin: float, hole: float, found: str) -> None:
    source = hitching.PIN_SOURCE if name == "lower_pins" else "hitch/W3; hitch/PRACTICE"
    title = at.title(name)
    at.add(
        hitching.pin_check(
            name,
            title,
            pin,
            hole,
            found,
            bushing_for(v, name, pin),
            fitted=v.sleeves == "fitted",
            opening=OPENINGS[name],
            source=source,
        )
    )


def _span(v: model.Inputs, at: model.At) -> None:
    if v.links_narrowest is not None and v.links_widest is not None:
        ends = ("links_narrowest", "links_widest")
        at.between("span", "span", *ends, "hitch/DERIVED", close_band=0.0)
        return
    at.step("gap", "g = implement − hitch", hitching.SPAN_SOURCE, implement="span")
    margin, says = hitching.span_margin(at.gap, v.implement_span is not None)
    at.fits("span", margin, hitching.SPAN_SOURCE, says, way=hitching.way(at.gap))


def _mast(v: model.Inputs, at: model.At, category: str) -> None:
    found = hitching.mast_fit(category, v.mast_height)
    at.mast, at.mast_gap = found.height, found.gap
    formula = "m = implement − category"
    at.step("mast_gap", formula, found.source, implement="mast_height", category="mast")
    hitching.check_mast(at, category, v.mast_height)


def _travel(v: model.Inputs, at: model.At) -> None:
    number = arith.max(hitch.pin_number(tractor_category(v)), "1")
    at.least_travel = hitch.size("lift_range_min", number)
    full = v.lift_travel >= at.least_travel - TAPE_ON_TRAVEL
    at.fits(
        "travel",
        1.0 if full else 0.0,
        "hitch/ISO730-memory; hitch/H14",
        "full" if full else "limited",
        n=number,
    )


def _measured(v: model.Inputs, at: model.At) -> None:
    """Check that what was measured on the implement agrees with one category."""
    given = (v.lower_pin, v.implement_span, v.mast_height)
    if all(item is None for item in given):
        return
    found = found_categories(v)
    says = {0: "none", 1: "one"}.get(len(found), "several")
    at.fits(
        "measured",
        1.0 if len(found) == 1 else 0.0,
        "hitch/H1; hitch/W3; hitch/W1",
        says,
        # Several still leave a next thing to measure; none says that something is off.
        grade=model.ADVICE if found else model.LIMIT,
        names=category_names(found),
    )


def category_names(found: tuple[str, ...]) -> str:
    """Return categories in words: "Category 2N or 2"."""
    return f"Category {' or '.join(found)}" if found else ""


# --- with a quick coupler ----------------------------------------------------------------------


def _coupler_checks(v: model.Inputs, at: model.At) -> None:
    _coupler_on_tractor(v, at)
    if v.implement_kind == "post_hole_digger":
        row = quick_coupler.coupler_conflict("post_hole_digger")
        assert row is not None
        at.fits("conflict", -1.0, row["source"], "row", reason=row["why"])
        return
    for place, pin in (("lower", at.lower_pin_size), ("upper", at.upper_pin_size)):
        made_for = slot(v, place)
        _pin(v, at, f"slot_{place}", pin, made_for, hitching.cut_for(pin, made_for))
    at.step("slack", "s = slot − d", "hitch/PRACTICE; hitch/H1", slot="hole", d="lower_pin_size")
    at.step("gap", "g = implement − hooks", "hitch/S3; hitch/DERIVED", implement="span")
    reaches = hitching.span_margin(at.gap, v.implement_span is not None)[0] > 0
    at.fits(
        "hook_span",
        1.0 if reaches else -1.0,
        "hitch/S3; hitch/W1; hitch/H1",
        "same" if reaches else "far",
    )
    _hook_height(v, at)
    _conflicts(v, at)


def _coupler_on_tractor(v: model.Inputs, at: model.At) -> None:
    ours = tractor_category(v)
    margin, says = hitching.coupler_fit(ours, coupler(v))
    at.fits("coupler_on_tractor", margin, "hitch/S2; hitch/S3", says, c=coupler(v), t=ours)


def _hook_height(v: model.Inputs, at: model.At) -> None:
    hitching.check_hook_height(at, coupler(v), v.mast_height, str(v.mast_hole))


def _conflicts(v: model.Inputs, at: model.At) -> None:
    """Check what takes the top hook's place, and what the coupler moves back."""
    swinging, driven = (
        quick_coupler.coupler_conflict(key) for key in ("swinging_top_link", "pto_driven")
    )
    assert swinging is not None and driven is not None
    often = v.implement_kind in hitching.OFTEN_SWINGING
    if v.top_link == "swinging":
        at.fits("conflict", -1.0, swinging["source"], "row", reason=swinging["why"])
    elif v.top_link == "unseen" and often:
        at.not_checked("conflict", "top_link")
    if implement_power.kind_row(v.implement_kind):
        at.fits("driveline", 0.0, driven["source"], "row", grade=model.ADVICE, reason=driven["why"])
