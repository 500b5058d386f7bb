"""The sums."""

from __future__ import annotations

from calc import arith, model, quantities
from calc.mechanics import hitch, pto_power

SPAN_SOURCE = "hitch/W1; hitch/H1; hitch/W3"
# What a tape or a worn caliper may be off on a pin; sizes of neighboring categories differ by 6 mm.
MEASURING_ERROR = 1.0e-3
# The same for a span: half a ball width, the smallest step between two figures of the tables.
TAPE_ON_SPAN = 0.015
# The coupler of the tables that comes nearest to a hitch for which they have none.
NEAREST_COUPLER = {"0": "1", "1N": "1", "2N": "1", "4N": "3", "4": "3"}


# --- what is known of the two machines ---------------------------------------------------------


def _nearest(item: str, value: float) -> str:
    """The pin number whose size is nearest."""
    return min("01234", key=lambda number: abs(hitch.size(item, number) - value))


def _tractor_category(v: model.Inputs) -> str:
    """The hitch's category; a measured hole overrules the number that was picked."""
    number = hitch.bore_category(v.ball_hole) if v.ball_hole is not None else None
    agrees = number is None or number == hitch.pin_number(v.hitch_category)
    return str(v.hitch_category) if agrees or number is None else number


def _implement_category(v: model.Inputs) -> str:
    """The implement's category; a measured lower pin overrules the number that was picked."""
    if v.lower_pin is None:
        return str(v.implement_category)
    number = _nearest("lower_pin", v.lower_pin)
    return str(v.implement_category) if number == v.implement_category[0] else number


def _ball_hole(v: model.Inputs) -> float:
    return arith.number(
        v.ball_hole or hitch.size("lower_bore", hitch.pin_number(_tractor_category(v)))
    )


def _top_hole(v: model.Inputs) -> float:
    """The pin that the tractor's top link is bored for; its hole is a little larger."""
    return hitch.size("upper_pin", hitch.pin_number(_tractor_category(v)))


def _lower_pin(v: model.Inputs) -> float:
    return arith.number(v.lower_pin or hitch.size("lower_pin", v.implement_category))


def _upper_pin(v: model.Inputs) -> float:
    return arith.number(
        v.upper_pin or hitch.size("upper_pin", hitch.pin_number(_implement_category(v)))
    )


def _span(v: model.Inputs) -> float:
    """The implement's span between shoulders, measured or by its category."""
    category = _implement_category(v)
    if v.implement_span is None:
        return hitch.size("shoulder_span", category)
    return hitch.shoulder_span(v.implement_span, v.span_between, hitch.pin_number(category))


def _has_top_link(v: model.Inputs) -> bool:
    return bool(v.implement_kind != "post_hole_digger")


# --- checks ----------------------------------------------------------------------------------


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Return the checks that apply with or without a coupler."""
    coupled = v.quick_coupler == "u_frame"
    checks = _coupler_checks(v, work) if coupled else _plain_checks(v, work)
    if v.lift_travel is not None:
        checks.append(_travel_check(v))
    return model.Outcome(checks, _outputs(v))


def _outputs(v: model.Inputs) -> list[model.Output]:
    coupled = v.quick_coupler == "u_frame"
    hole = _slot(v, "lower") if coupled else _ball_hole(v)
    theirs = hitch.coupler_hook_span(_coupler(v)) if coupled else _link_span(v)
    return [
        model.Output("lower_pin", "Lower pin", _lower_pin(v), "length"),
        model.Output(
            "hole", "Lower slot of the coupler" if coupled else "Hole of the ball", hole, "length"
        ),
        model.Output("slack", "Play of the bare pin", hole - _lower_pin(v), "length"),
        model.Output(
            "implement_span", "Span of the implement, between shoulders", _span(v), "length"
        ),
        model.Output(
            "tractor_span",
            "Span of the hooks" if coupled else "Span of the hitch",
            theirs,
            "length",
        ),
    ]


def _link_span(v: model.Inputs) -> float:
    if v.links_narrowest is not None and v.links_widest is not None:
        return arith.number(arith.min(arith.max(_span(v), v.links_narrowest), v.links_widest))
    return hitch.size("shoulder_span", _tractor_category(v))


def _plain_checks(v: model.Inputs, work: model.Work) -> list[model.Check]:
    checks = [_ball_check(v, work)]
    if _has_top_link(v):
        checks.append(_top_pin_check(v))
    checks.append(_span_check(v, work))
    if v.mast_height is not None and _has_top_link(v):
        checks.append(_mast_check(v, work))
    return checks


def _ball_check(v: model.Inputs, work: model.Work) -> model.Check:
    pin, hole = _lower_pin(v), _ball_hole(v)
    work.step(
        "Play of a lower pin in its ball",
        "s",
        "D − d",
        (("D", hole, "length"), ("d", pin, "length")),
        hole - pin,
        "length",
        "hitch/W4; hitch/W1; hitch/H1",
    )
    return _pin_check(
        "lower_pins",
        "Lower pins in the balls",
        pin,
        hole,
        hitch.pin_fit(pin, hole),
        v,
        sleeve=_ball_sleeve(v, "lower"),
        hole_word="ball",
        source="hitch/H1; hitch/W1; hitch/W4; hitch/H19",
    )


def _top_pin_check(v: model.Inputs) -> model.Check:
    pin, hole = _upper_pin(v), _top_hole(v)
    return _pin_check(
        "top_pin",
        "Top pin in the top link",
        pin,
        hole,
        _cut_for(pin, hole),
        v,
        sleeve=_ball_sleeve(v, "upper"),
        hole_word="top link",
        source="hitch/W3; hitch/PRACTICE",
    )


def _cut_for(pin: float, made_for: float) -> str:
    """Whether a pin suits an opening that is known by the pin it is made for."""
    if abs(made_for - pin) <= hitch.LOOSE:
        return "fits"
    return "sleeve" if made_for > pin else "too big"


def _pin_check(
    name: str,
    title: str,
    pin: float,
    hole: float,
    found: str,
    v: model.Inputs,
    *,
    sleeve: dict[str, str] | None,
    hole_word: str,
    source: str,
) -> model.Check:
    """A check on a pin and what it goes into: fits, wants a sleeve, or doesn't go in."""
    if found == "sleeve" and not sleeve:
        margin, said = -1.0, "A {pin} pin in a {hole} {word}: no stock sleeve bridges that."
    elif found == "sleeve" and v.sleeves == "fitted":
        margin, said = 1.0, "A {pin} pin, brought up to the {hole} {word} by a sleeve."
    elif found == "sleeve":
        margin, said = 0.0, "A {pin} pin in a {hole} {word} has {play} of play: fit a sleeve."
    elif found == "too big" and pin - hole <= MEASURING_ERROR:
        margin = 0.0
        said = (
            "A {pin} pin and a {hole} {word} are within a tape's error of each other: measure both "
            "with a caliper."
        )
    elif found == "too big":
        margin, said = -1.0, "A {pin} pin doesn't go into a {hole} {word}."
    else:
        margin, said = 1.0, "A {pin} pin goes into a {hole} {word}."
    why = "Run loose, the pin hammers, wears the hole and can shear its linch pin."
    if margin < 0:
        why = "Never grind a pin or drill out a ball: both are hardened and sized for the load."
    sentence = model.phrase(
        said,
        pin=_pin_words(pin),
        hole=_pin_words(hole),
        play=(hole - pin, "length"),
        word=hole_word,
    )
    return model.fits(name, title, margin, sentence, source, why=why if margin < 1 else "")


def _pin_words(size: float) -> str:
    """A pin the way the trade says it when it is of a category, else in decimals."""
    metric = quantities.show(size, "length", "metric", figures=3)
    for item in ("lower_pin", "upper_pin"):
        nearest = hitch.size(item, _nearest(item, size))
        if abs(nearest - size) <= 0.3e-3:
            return f"{hitch.sixteenths(nearest)} in ({metric})"
    fraction = hitch.sixteenths(size)
    if abs(hitch.inches(fraction) - size) <= 0.1e-3:
        return f"{fraction} in ({metric})"
    return f"{quantities.show(size, 'length', 'us')} ({metric})"


def _ball_sleeve(v: model.Inputs, place: str) -> dict[str, str] | None:
    """The stock sleeve between a pin and the tractor's ball or top link, if there is one."""
    pin = _lower_pin(v) if place == "lower" else _upper_pin(v)
    theirs = _nearest(f"{place}_pin", pin)
    ours = hitch.pin_number(_tractor_category(v))
    return hitch.sleeve("ball", place, theirs) if int(ours) - int(theirs) == 1 else None


def _span_check(v: model.Inputs, work: model.Work) -> model.Check:
    span = _span(v)
    if v.links_narrowest is not None and v.links_widest is not None:
        return model.between(
            "span",
            "Span of the implement between the links",
            span,
            v.links_narrowest,
            v.links_widest,
            "length",
            "hitch/DERIVED",
            close_band=0.0,
            why="The links can't be set that far, so the balls don't reach the pins.",
        )
    ours = hitch.size("shoulder_span", _tractor_category(v))
    gap = span - ours
    work.step(
        "Difference of the spans",
        "g",
        "span of the implement − span of the hitch",
        (("implement", span, "length"), ("hitch", ours, "length")),
        gap,
        "length",
        SPAN_SOURCE,
    )
    tolerance = 2 * hitch.SPAN_TOLERANCE if v.implement_span is None else TAPE_ON_SPAN
    if abs(gap) <= tolerance:
        margin, said = 1.0, "Both are built to {ours} between shoulders."
    elif abs(gap) <= hitch.SPAN_REACH:
        margin = 0.0
        said = (
            "The implement's {span} is {gap} {way} than the category's {ours}. Stabilizers often "
            "take that up: measure how far yours can be set."
        )
    else:
        margin = -1.0
        said = (
            "The implement's {span} is {gap} {way} than the category's {ours}, more than "
            "stabilizers usually take up."
        )
    sentence = model.phrase(
        said,
        span=(span, "length"),
        ours=(ours, "length"),
        gap=(abs(gap), "length"),
        way="wider" if gap > 0 else "narrower",
    )
    return model.fits("span", "Span of the lower links", margin, sentence, SPAN_SOURCE)


def _mast_check(v: model.Inputs, work: model.Work) -> model.Check:
    category = _tractor_category(v)
    number = hitch.pin_number(category)
    # Category 4 has two heights: the nearer one is meant.
    heights = hitch.size_range("mast_height", category)
    ours = min(heights, key=lambda height: abs(height - v.mast_height))
    gap = hitch.mast_gap(ours, v.mast_height)
    work.step(
        "Difference of the masts",
        "m",
        "mast of the implement − mast of the category",
        (("implement", v.mast_height, "length"), ("category", ours, "length")),
        gap,
        "length",
        hitch.size_source("mast_height", category),
    )
    source = hitch.size_source("mast_height", category)
    if abs(gap) <= hitch.MAST_TOLERANCE:
        said, margin = "The mast has the height of the category.", 1.0
    elif hitch.has_size("mast_height_old", number) and (
        abs(hitch.mast_gap(hitch.size("mast_height_old", number), v.mast_height))
        <= hitch.MAST_TOLERANCE
    ):
        margin = 0.0
        said = (
            "It is the older, shorter mast, {gap} off the {ours} of the present standard. Pins and "
            "span fit; see that the top link is long enough and that the implement stays level."
        )
        source = f"{source}; hitch/S1; {hitch.size_source('mast_height_old', number)}"
    else:
        margin = 0.0
        said = (
            "The mast is {gap} off the {ours} of the category. See that the top link can be set "
            "to it and that the implement stays level through the lift."
        )
    sentence = model.phrase(said, gap=(abs(gap), "length"), ours=(ours, "length"))
    return model.fits("mast", "Height of the mast", margin, sentence, source)


def _travel_check(v: model.Inputs) -> model.Check:
    number = arith.max(hitch.pin_number(_tractor_category(v)), "1")
    least = hitch.size("lift_range_min", number)
    limited = hitch.size("lift_range_min", hitch.LIMITED)
    if v.lift_travel >= least:
        said, margin = "The balls travel {travel}; the category asks for {least}.", 1.0
    else:
        margin = 0.0
        said = (
            "The balls travel {travel}, and a full Category {n} hitch at least {least}: it is a "
            "limited hitch. Pins fit, but an implement may not clear the ground, and the lift may "
            "be rated {near} behind the balls. One limited Category 1 hitch travels {limited}."
        )
    sentence = model.phrase(
        said,
        travel=(v.lift_travel, "length"),
        least=(least, "length"),
        n=number,
        near=(0.305, "length"),
        limited=(limited, "length"),
    )
    source = "hitch/ISO730-memory; hitch/H14"
    return model.fits("travel", "Travel of the hitch", margin, sentence, source)


# --- with a quick coupler ----------------------------------------------------------------------


def _coupler(v: model.Inputs) -> str:
    """The category of the coupler."""
    if v.coupler_category != "tractor":
        return str(v.coupler_category)
    ours = _tractor_category(v)
    return NEAREST_COUPLER.get(ours, ours)


def _slot(v: model.Inputs, place: str) -> float:
    if v.coupler_slots == "own":
        return hitch.size(f"{place}_pin", hitch.pin_number(_coupler(v)))
    return hitch.coupler_slot(_coupler(v), place)


def _coupler_sleeve(v: model.Inputs, place: str) -> dict[str, str] | None:
    """The stock sleeve between a pin and the coupler's slot, if there is one."""
    if v.coupler_slots == "own":
        return None
    pin = _lower_pin(v) if place == "lower" else _upper_pin(v)
    return hitch.sleeve("coupler", place, _nearest(f"{place}_pin", pin))


def _coupler_checks(v: model.Inputs, work: model.Work) -> list[model.Check]:
    checks = [_coupler_on_tractor(v)]
    if v.implement_kind == "post_hole_digger":
        row = hitch.coupler_conflict("post_hole_digger")
        assert row is not None
        why, source = row["why"], row["source"]
        return [*checks, model.fits("conflict", "Coupler and implement", -1.0, why, source)]
    for place, pin in (("lower", _lower_pin(v)), ("upper", _upper_pin(v))):
        checks.append(_slot_check(v, work, place, pin))
    checks += [_hook_span_check(v, work), _hook_height_check(v), *_conflicts(v)]
    return checks


def _coupler_on_tractor(v: model.Inputs) -> model.Check:
    ours = _tractor_category(v)
    pins = hitch.pins_fit(ours, _coupler(v))
    span = hitch.spans_fit(ours, _coupler(v))
    if pins == "too big" or span == "no":
        margin, said = -1.0, "A Category {c} coupler doesn't go on a Category {t} hitch."
    elif pins == "fits" and span == "same":
        margin, said = 1.0, "A Category {c} coupler is made for this hitch."
    else:
        margin = 0.0
        said = (
            "A Category {c} coupler on a Category {t} hitch wants bushings in the balls or the "
            "links set to its width: ask the coupler's maker."
        )
    sentence = model.phrase(said, c=_coupler(v), t=ours)
    return model.fits(
        "coupler_on_tractor", "Coupler on the tractor", margin, sentence, "hitch/S2; hitch/S3"
    )


def _slot_check(v: model.Inputs, work: model.Work, place: str, pin: float) -> model.Check:
    slot = _slot(v, place)
    if place == "lower":
        work.step(
            "Play of a lower pin in its slot",
            "s",
            "slot − d",
            (("slot", slot, "length"), ("d", pin, "length")),
            slot - pin,
            "length",
            "hitch/PRACTICE; hitch/H1",
        )
    title = "Lower pins in the coupler" if place == "lower" else "Top pin in the coupler"
    return _pin_check(
        f"slot_{place}",
        title,
        pin,
        slot,
        _cut_for(pin, slot),
        v,
        sleeve=_coupler_sleeve(v, place),
        hole_word="slot",
        source="hitch/PRACTICE",
    )


def _hook_span_check(v: model.Inputs, work: model.Work) -> model.Check:
    hooks, span = hitch.coupler_hook_span(_coupler(v)), _span(v)
    gap = span - hooks
    work.step(
        "Difference to the hooks",
        "g",
        "span of the implement − span of the hooks",
        (("implement", span, "length"), ("hooks", hooks, "length")),
        gap,
        "length",
        "hitch/S3; hitch/DERIVED",
    )
    tolerance = 2 * hitch.SPAN_TOLERANCE if v.implement_span is None else TAPE_ON_SPAN
    reaches = abs(gap) <= tolerance
    said = (
        "The hooks stand {hooks} apart, as the pins do."
        if reaches
        else "The hooks stand {hooks} apart and can't be moved; the pins stand {span} apart."
    )
    sentence = model.phrase(said, hooks=(hooks, "length"), span=(span, "length"))
    return model.fits(
        "hook_span",
        "Span of the hooks",
        1.0 if reaches else -1.0,
        sentence,
        "hitch/S3; hitch/W1; hitch/H1",
    )


def _hook_height_check(v: model.Inputs) -> model.Check:
    hook = hitch.coupler_hook_height(_coupler(v))
    near = v.mast_height is not None and (
        abs(hitch.mast_gap(hook, v.mast_height)) <= hitch.MAST_TOLERANCE
    )
    if near or v.mast_hole == "yes":
        margin, said = 1.0, "The mast has a hole at the top hook, {hook} above the lower hooks."
    elif v.mast_hole == "no":
        margin, said = -1.0, "The mast has no hole at the top hook, {hook} above the lower hooks."
    else:
        margin, said = 0.0, "Look for a hole in the mast {hook} above the lower pins."
    return model.fits(
        "hook_height",
        "Hole for the top hook",
        margin,
        model.phrase(said, hook=(hook, "length")),
        "hitch/COUPLER-memory; hitch/W2",
        why="Without it the top hook has nothing to take; on some couplers that hook moves.",
    )


def _conflicts(v: model.Inputs) -> list[model.Check]:
    checks = []
    if v.top_link == "swinging":
        row = hitch.coupler_conflict("swinging_top_link")
        assert row is not None
        checks.append(
            model.fits("conflict", "Coupler and implement", -1.0, row["why"], row["source"])
        )
    driven = hitch.coupler_conflict("pto_driven")
    if pto_power.kind_row(v.implement_kind) and driven:
        checks.append(
            model.fits(
                "driveline", "Drive shaft behind the coupler", 0.0, driven["why"], driven["source"]
            )
        )
    return checks
