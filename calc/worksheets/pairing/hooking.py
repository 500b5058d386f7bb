"""Whether the implement goes on the hitch: pins, span, mast and quick coupler."""

from __future__ import annotations

from calc import model
from calc.mechanics import hitch, hitch_fit, quick_coupler
from calc.model import At, Inputs
from calc.subjects import hitching

NOT_SURE = "unsure"


def check(v: Inputs, at: At) -> None:
    """Check pins and span; where a category is open say so, gravely if the implement's is known."""
    theirs, ours = implement_category(v), v.hitch_category
    if NOT_SURE in (theirs, ours):
        open_ = "hitch_category" if ours == NOT_SURE else "implement_category"
        told = theirs != NOT_SURE or v.upper_pin is not None
        at.not_checked("pins", open_, governs=told)
        if ours != NOT_SURE and v.upper_pin is not None and v.implement_kind != "post_hole_digger":
            _top_pin(v, at, ours, ours)
        if v.quick_coupler == "u_frame":
            _conflict(v, at)
        return
    if v.quick_coupler == "u_frame":
        _coupler_checks(v, at, theirs)
        return
    pin, number = v.lower_pin or hitch.size("lower_pin", theirs), hitch.pin_number(ours)
    ball = hitch.size("lower_bore", number)
    bushing = hitching.ball_bushing("lower", pin, ours)
    _pins(at, pin, ball, hitch_fit.pin_fit(pin, ball), bushing, "ball")
    if v.implement_kind != "post_hole_digger":  # its boom takes the top link's place
        _top_pin(v, at, theirs, ours)
    measured = v.implement_span is not None
    gap = hitch_fit.span_difference(ours, theirs)
    if measured:
        span = hitching.as_shoulders(v.implement_span, "either", hitch.pin_number(theirs))
        gap = span - hitch.size("shoulder_span", ours)
    margin, says = hitching.span_margin(gap, measured)
    at.fits("span", margin, hitching.SPAN_SOURCE, says, way=hitching.way(gap))
    if v.mast_height is not None and v.implement_kind != "post_hole_digger":
        hitching.check_mast(at, ours, v.mast_height)


def implement_category(v: Inputs) -> str:
    """Return the implement's category: by what was measured on it, as the page on hitches does."""
    return hitching.category_of(
        v.implement_category, v.lower_pin, v.upper_pin, v.implement_span, v.mast_height, "either"
    )


def takes_either(v: Inputs) -> bool:
    """Whether frames of the implement's category are made that take the tractor's pins as well."""
    theirs, ours = implement_category(v), v.hitch_category
    return NOT_SURE in (theirs, ours) or hitching.takes_either(theirs, ours)


def _top_pin(v: Inputs, at: At, theirs: str, ours: str) -> None:
    """Check the implement's top pin, measured or of its category, in the hitch's top link."""
    pin, made_for = (hitch.size("upper_pin", hitch.pin_number(name)) for name in (theirs, ours))
    pin = v.upper_pin or pin
    at.add(
        hitching.pin_check(
            "top_pin",
            at.title("top_pin"),
            pin,
            made_for,
            hitching.cut_for(pin, made_for),
            hitching.ball_bushing("upper", pin, ours),
            fitted=False,
            opening="top link",
            source="hitch/W3; hitch/PRACTICE",
        )
    )


def _pins(
    at: At, pin: float, hole: float, found: str, bushing: dict[str, str] | None, opening: str
) -> None:
    """Check the lower pins."""
    at.add(
        hitching.pin_check(
            "pins", at.title("pins"), pin, hole, found, bushing, fitted=False, opening=opening
        )
    )


def _conflict(v: Inputs, at: At) -> None:
    """Check what keeps the kind of implement off a coupler; cutters often have a swinging link."""
    swings = v.implement_kind in hitching.OFTEN_SWINGING
    conflict = quick_coupler.coupler_conflict("swinging_top_link" if swings else v.implement_kind)
    if conflict:
        margin = {"no": -1.0, "adapter": 0.0, "measure": 0.0, "check": 0.0}[conflict["verdict"]]
        why, source = conflict["why"], conflict["source"]
        at.add(model.fits("coupler", "Quick coupler", margin, why, source))


def _coupler_checks(v: Inputs, at: At, theirs: str) -> None:
    """Check the coupler on the tractor, and the implement's pins in it."""
    _conflict(v, at)
    coupler = hitching.coupler_for(v.hitch_category)
    margin, says = hitching.coupler_fit(v.hitch_category, coupler)
    named = {"c": coupler, "t": v.hitch_category}
    at.fits("coupler_on_tractor", margin, "hitch/S2; hitch/S3", says, **named)
    pin = v.lower_pin or hitch.size("lower_pin", theirs)
    slot = quick_coupler.coupler_slot(coupler, "lower")
    bushing = hitching.slot_bushing("lower", pin, slot)
    _pins(at, pin, slot, hitching.cut_for(pin, slot), bushing, "slot")
    gap, measured = quick_coupler.coupler_span_difference(coupler, theirs), False
    if v.implement_span is not None:
        span = hitching.as_shoulders(v.implement_span, "either", hitch.pin_number(theirs))
        gap, measured = span - quick_coupler.coupler_hook_span(coupler), True
    reaches = hitching.span_margin(gap, measured)[0] > 0
    says = "hooks" if reaches else "hooks_elsewhere"
    at.fits("span", 1.0 if reaches else -1.0, "hitch/S3; hitch/W1; hitch/H1", says)
    if v.mast_height is not None:
        hitching.check_hook_height(at, coupler, v.mast_height, "unseen")
    elif v.implement_kind != "post_hole_digger":
        # Most masts have the hole: it colors no row of a matrix, and is named as not looked at.
        at.not_checked("hook_height", "mast_height", governs=False)
