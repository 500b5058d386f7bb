"""What hitch category is it, do these two fit, which sleeves, and does the coupler agree?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from calc import quantities
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import hitch, pto_power
from calc.picture import Dimension, Disc, Item, Label, Line, Picture, Scene, Shape
from calc.vocabulary import field

MEASURED = "Implement, measured"
LINKS = "Tractor, measured"
COUPLER = "Quick coupler"
SPAN_SOURCE = "hitch/W1; hitch/H1; hitch/W3"
# What a tape or a worn caliper may be off on a pin; sizes of neighboring categories differ by 6 mm.
MEASURING_ERROR = 1.0e-3
# The same for a span: half a ball width, the smallest step between two figures of the tables.
TAPE_ON_SPAN = 0.015
COUPLERS = ("1", "2", "3N", "3")
# The coupler of the tables that comes nearest to a hitch for which they have none.
NEAREST_COUPLER = {"0": "1", "1N": "1", "2N": "1", "4N": "3", "4": "3"}
OFTEN_SWINGING = ("rotary_cutter", "rotary_cutter_light", "flail_mower")

FIELDS = (
    field("hitch_category", default="2", essential=True, unsure=("0", "1", "2", "3")),
    field("implement_category", default="1", essential=True, unsure=("0", "1", "2", "3")),
    field("implement_kind", default="rotary_cutter"),
    ws.Choice(
        "sleeves", "Sleeves on the implement's pins",
        (ws.Option("none", "None fitted"), ws.Option("fitted", "Fitted, the right size")),
        "Steel tubes that slide over a pin and bring it up to a larger hole or slot.",
        default="none", essential=True, group="Implement",
    ),
    field("quick_coupler", essential=True, group=COUPLER),
    ws.Field(
        "lower_pin", "Diameter of a lower pin", "length", "0.4 in", "2.5 in",
        "With a caliper where the ball runs, not over paint or a sleeve. A tape will do.",
        optional=True, group=MEASURED, unit_us="in",
    ),
    ws.Field(
        "upper_pin", "Diameter of the top pin", "length", "0.4 in", "2.5 in",
        "The loose pin through the mast, or the hole it came out of.",
        optional=True, group=MEASURED, unit_us="in",
    ),
    ws.Field(
        "implement_span", "Distance between the lower pins", "length", "10 in", "60 in",
        "From one pin's shoulder to the other's, where the balls stop.",
        optional=True, group=MEASURED,
    ),
    ws.Choice(
        "span_between", "That distance is measured between",
        (
            ws.Option("shoulders", "The shoulders of the pins"),
            ws.Option("ball centers", "The middles of the balls"),
        ),
        "Charts print either; they differ by the width of one ball.",
        default="shoulders", group=MEASURED,
    ),
    ws.Field(
        "mast_height", "Height of the top pin above the lower pins", "length", "6 in", "50 in",
        "Straight up from the line of the lower pins to the hole in use.",
        optional=True, group=MEASURED,
    ),
    ws.Field(
        "ball_hole", "Hole in a lower ball", "length", "0.4 in", "2.5 in",
        "Across the hole of the ball at the end of a lower link.",
        optional=True, group=LINKS, unit_us="in",
    ),
    field("pto_power", typical=None, optional=True, essential=False, group=LINKS),
    ws.Field(
        "links_narrowest", "Lower links, narrowest setting", "length", "6 in", "60 in",
        "Between the inner faces of the two balls, stabilizers turned all the way in.",
        optional=True, group=LINKS,
    ),
    ws.Field(
        "links_widest", "Lower links, widest setting", "length", "6 in", "70 in",
        "Between the inner faces of the two balls, stabilizers turned all the way out.",
        optional=True, group=LINKS,
    ),
    ws.Field(
        "lift_travel", "Travel of the balls from lowest to highest", "length", "4 in", "60 in",
        "Height of a ball above level ground, hitch up, less the same with the hitch down.",
        optional=True, group=LINKS,
    ),
    ws.Choice(
        "coupler_category", "Category of the coupler",
        (
            ws.Option("tractor", "The same as the tractor's"),
            *(ws.Option(key, f"Category {key}") for key in COUPLERS),
        ),
        "By its hooks: about 27 in apart is Category 1, 32 in is 2, 38 in is 3.",
        default="tractor", group=COUPLER,
    ),
    ws.Choice(
        "coupler_slots", "Its slots are cut for",
        (
            ws.Option("wide", "Category 3 pins, as most are"),
            ws.Option("own", "Pins of its own category"),
        ),
        "Most take a 1-7/16 in pin below and a 1-1/4 in pin on top; some Category 1 couplers are "
        "cut small.",
        default="wide", unsure=("wide", "own"), group=COUPLER,
    ),
    ws.Choice(
        "mast_hole", "Hole in the mast at the coupler's top hook",
        (
            ws.Option("unseen", "Not looked yet"),
            ws.Option("yes", "Yes"),
            ws.Option("no", "No"),
        ),
        "The hook stands about 15 in above the lower hooks in Category 1 and 2, 19 in in "
        "Category 3. Many masts have a second hole for it.",
        default="unseen", group=COUPLER,
    ),
    ws.Choice(
        "top_link", "At the top the implement has",
        (
            ws.Option("fixed", "A pin through a fixed mast"),
            ws.Option("swinging", "A swinging or floating link"),
        ),
        "Many rotary cutters and flail mowers have a link that swings, so that they follow the "
        "ground.",
        default="fixed", unsure=("fixed", "swinging"), group=COUPLER,
    ),
)  # fmt: skip


# --- what is known of the two machines ---------------------------------------------------------


def _nearest(item: str, value: float) -> str:
    """The pin number whose size is nearest."""
    return min("01234", key=lambda number: abs(hitch.size(item, number) - value))


def _tractor_category(v: ws.Inputs) -> str:
    """The hitch's category; a measured hole overrules the number that was picked."""
    number = hitch.bore_category(v.ball_hole) if v.ball_hole is not None else None
    agrees = number is None or number == hitch.pin_number(v.hitch_category)
    return str(v.hitch_category) if agrees or number is None else number


def _implement_category(v: ws.Inputs) -> str:
    """The implement's category; a measured lower pin overrules the number that was picked."""
    if v.lower_pin is None:
        return str(v.implement_category)
    number = _nearest("lower_pin", v.lower_pin)
    return str(v.implement_category) if number == v.implement_category[0] else number


def _ball_hole(v: ws.Inputs) -> float:
    return float(v.ball_hole or hitch.size("lower_bore", hitch.pin_number(_tractor_category(v))))


def _top_hole(v: ws.Inputs) -> float:
    """The pin that the tractor's top link is bored for; its hole is a little larger."""
    return hitch.size("upper_pin", hitch.pin_number(_tractor_category(v)))


def _lower_pin(v: ws.Inputs) -> float:
    return float(v.lower_pin or hitch.size("lower_pin", v.implement_category))


def _upper_pin(v: ws.Inputs) -> float:
    return float(v.upper_pin or hitch.size("upper_pin", hitch.pin_number(_implement_category(v))))


def _span(v: ws.Inputs) -> float:
    """The implement's span between shoulders, measured or by its category."""
    category = _implement_category(v)
    if v.implement_span is None:
        return hitch.size("shoulder_span", category)
    return hitch.shoulder_span(v.implement_span, v.span_between, hitch.pin_number(category))


def _has_top_link(v: ws.Inputs) -> bool:
    return bool(v.implement_kind != "post_hole_digger")


# --- checks ----------------------------------------------------------------------------------


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return the checks that apply with or without a coupler."""
    coupled = v.quick_coupler == "u_frame"
    checks = _coupler_checks(v, work) if coupled else _plain_checks(v, work)
    if v.lift_travel is not None:
        checks.append(_travel_check(v))
    return ws.Outcome(checks, _outputs(v))


def _outputs(v: ws.Inputs) -> list[ws.Output]:
    coupled = v.quick_coupler == "u_frame"
    hole = _slot(v, "lower") if coupled else _ball_hole(v)
    theirs = hitch.coupler_hook_span(_coupler(v)) if coupled else _link_span(v)
    return [
        ws.Output("lower_pin", "Lower pin", _lower_pin(v), "length"),
        ws.Output("hole", "Lower slot of the coupler" if coupled else "Hole of the ball", hole,
                  "length"),
        ws.Output("slack", "Play of the bare pin", hole - _lower_pin(v), "length"),
        ws.Output("implement_span", "Span of the implement, between shoulders", _span(v), "length"),
        ws.Output("tractor_span", "Span of the hooks" if coupled else "Span of the hitch", theirs,
                  "length"),
    ]  # fmt: skip


def _link_span(v: ws.Inputs) -> float:
    if v.links_narrowest is not None and v.links_widest is not None:
        return float(min(max(_span(v), v.links_narrowest), v.links_widest))
    return hitch.size("shoulder_span", _tractor_category(v))


def _plain_checks(v: ws.Inputs, work: ws.Work) -> list[ws.Check]:
    checks = [_ball_check(v, work)]
    if _has_top_link(v):
        checks.append(_top_pin_check(v))
    checks.append(_span_check(v, work))
    if v.mast_height is not None and _has_top_link(v):
        checks.append(_mast_check(v, work))
    return checks


def _ball_check(v: ws.Inputs, work: ws.Work) -> ws.Check:
    pin, hole = _lower_pin(v), _ball_hole(v)
    work.step("Play of a lower pin in its ball", "s", "D − d",
              (("D", hole, "length"), ("d", pin, "length")), hole - pin, "length",
              "hitch/W4; hitch/W1; hitch/H1")  # fmt: skip
    return _pin_check(
        "lower_pins", "Lower pins in the balls", pin, hole, hitch.pin_fit(pin, hole), v,
        sleeve=_ball_sleeve(v, "lower"), hole_word="ball",
        source="hitch/H1; hitch/W1; hitch/W4; hitch/H19",
    )  # fmt: skip


def _top_pin_check(v: ws.Inputs) -> ws.Check:
    pin, hole = _upper_pin(v), _top_hole(v)
    return _pin_check(
        "top_pin", "Top pin in the top link", pin, hole, _cut_for(pin, hole), v,
        sleeve=_ball_sleeve(v, "upper"), hole_word="top link", source="hitch/W3; hitch/PRACTICE",
    )  # fmt: skip


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
    v: ws.Inputs,
    *,
    sleeve: dict[str, str] | None,
    hole_word: str,
    source: str,
) -> ws.Check:
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
    sentence = ws.phrase(
        said, pin=_pin_words(pin), hole=_pin_words(hole), play=(hole - pin, "length"),
        word=hole_word,
    )  # fmt: skip
    return ws.fits(name, title, margin, sentence, source, why=why if margin < 1 else "")


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


def _ball_sleeve(v: ws.Inputs, place: str) -> dict[str, str] | None:
    """The stock sleeve between a pin and the tractor's ball or top link, if there is one."""
    pin = _lower_pin(v) if place == "lower" else _upper_pin(v)
    theirs = _nearest(f"{place}_pin", pin)
    ours = hitch.pin_number(_tractor_category(v))
    return hitch.sleeve("ball", place, theirs) if int(ours) - int(theirs) == 1 else None


def _span_check(v: ws.Inputs, work: ws.Work) -> ws.Check:
    span = _span(v)
    if v.links_narrowest is not None and v.links_widest is not None:
        return ws.between(
            "span", "Span of the implement between the links", span, v.links_narrowest,
            v.links_widest, "length", "hitch/DERIVED", close_band=0.0,
            why="The links can't be set that far, so the balls don't reach the pins.",
        )  # fmt: skip
    ours = hitch.size("shoulder_span", _tractor_category(v))
    gap = span - ours
    work.step("Difference of the spans", "g", "span of the implement − span of the hitch",
              (("implement", span, "length"), ("hitch", ours, "length")), gap, "length",
              SPAN_SOURCE)  # fmt: skip
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
    sentence = ws.phrase(
        said, span=(span, "length"), ours=(ours, "length"), gap=(abs(gap), "length"),
        way="wider" if gap > 0 else "narrower",
    )  # fmt: skip
    return ws.fits("span", "Span of the lower links", margin, sentence, SPAN_SOURCE)


def _mast_check(v: ws.Inputs, work: ws.Work) -> ws.Check:
    category = _tractor_category(v)
    number = hitch.pin_number(category)
    # Category 4 has two heights: the nearer one is meant.
    heights = hitch.size_range("mast_height", category)
    ours = min(heights, key=lambda height: abs(height - v.mast_height))
    gap = hitch.mast_gap(ours, v.mast_height)
    work.step("Difference of the masts", "m", "mast of the implement − mast of the category",
              (("implement", v.mast_height, "length"), ("category", ours, "length")), gap,
              "length", hitch.size_source("mast_height", category))  # fmt: skip
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
    sentence = ws.phrase(said, gap=(abs(gap), "length"), ours=(ours, "length"))
    return ws.fits("mast", "Height of the mast", margin, sentence, source)


def _travel_check(v: ws.Inputs) -> ws.Check:
    number = max(hitch.pin_number(_tractor_category(v)), "1")
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
    sentence = ws.phrase(
        said, travel=(v.lift_travel, "length"), least=(least, "length"), n=number,
        near=(0.305, "length"), limited=(limited, "length"),
    )  # fmt: skip
    source = "hitch/ISO730-memory; hitch/H14"
    return ws.fits("travel", "Travel of the hitch", margin, sentence, source)


# --- with a quick coupler ----------------------------------------------------------------------


def _coupler(v: ws.Inputs) -> str:
    """The category of the coupler."""
    if v.coupler_category != "tractor":
        return str(v.coupler_category)
    ours = _tractor_category(v)
    return NEAREST_COUPLER.get(ours, ours)


def _slot(v: ws.Inputs, place: str) -> float:
    if v.coupler_slots == "own":
        return hitch.size(f"{place}_pin", hitch.pin_number(_coupler(v)))
    return hitch.coupler_slot(_coupler(v), place)


def _coupler_sleeve(v: ws.Inputs, place: str) -> dict[str, str] | None:
    """The stock sleeve between a pin and the coupler's slot, if there is one."""
    if v.coupler_slots == "own":
        return None
    pin = _lower_pin(v) if place == "lower" else _upper_pin(v)
    return hitch.sleeve("coupler", place, _nearest(f"{place}_pin", pin))


def _coupler_checks(v: ws.Inputs, work: ws.Work) -> list[ws.Check]:
    checks = [_coupler_on_tractor(v)]
    if v.implement_kind == "post_hole_digger":
        row = hitch.coupler_conflict("post_hole_digger")
        assert row is not None
        why, source = row["why"], row["source"]
        return [*checks, ws.fits("conflict", "Coupler and implement", -1.0, why, source)]
    for place, pin in (("lower", _lower_pin(v)), ("upper", _upper_pin(v))):
        checks.append(_slot_check(v, work, place, pin))
    checks += [_hook_span_check(v, work), _hook_height_check(v), *_conflicts(v)]
    return checks


def _coupler_on_tractor(v: ws.Inputs) -> ws.Check:
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
    sentence = ws.phrase(said, c=_coupler(v), t=ours)
    return ws.fits("coupler_on_tractor", "Coupler on the tractor", margin, sentence,
                   "hitch/S2; hitch/S3")  # fmt: skip


def _slot_check(v: ws.Inputs, work: ws.Work, place: str, pin: float) -> ws.Check:
    slot = _slot(v, place)
    if place == "lower":
        work.step("Play of a lower pin in its slot", "s", "slot − d",
                  (("slot", slot, "length"), ("d", pin, "length")), slot - pin, "length",
                  "hitch/PRACTICE; hitch/H1")  # fmt: skip
    title = "Lower pins in the coupler" if place == "lower" else "Top pin in the coupler"
    return _pin_check(
        f"slot_{place}", title, pin, slot, _cut_for(pin, slot), v,
        sleeve=_coupler_sleeve(v, place), hole_word="slot", source="hitch/PRACTICE",
    )  # fmt: skip


def _hook_span_check(v: ws.Inputs, work: ws.Work) -> ws.Check:
    hooks, span = hitch.coupler_hook_span(_coupler(v)), _span(v)
    gap = span - hooks
    work.step("Difference to the hooks", "g", "span of the implement − span of the hooks",
              (("implement", span, "length"), ("hooks", hooks, "length")), gap, "length",
              "hitch/S3; hitch/DERIVED")  # fmt: skip
    tolerance = 2 * hitch.SPAN_TOLERANCE if v.implement_span is None else TAPE_ON_SPAN
    reaches = abs(gap) <= tolerance
    said = (
        "The hooks stand {hooks} apart, as the pins do."
        if reaches
        else "The hooks stand {hooks} apart and can't be moved; the pins stand {span} apart."
    )
    sentence = ws.phrase(said, hooks=(hooks, "length"), span=(span, "length"))
    return ws.fits("hook_span", "Span of the hooks", 1.0 if reaches else -1.0, sentence,
                   "hitch/S3; hitch/W1; hitch/H1")  # fmt: skip


def _hook_height_check(v: ws.Inputs) -> ws.Check:
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
    return ws.fits(
        "hook_height", "Hole for the top hook", margin, ws.phrase(said, hook=(hook, "length")),
        "hitch/COUPLER-memory; hitch/W2",
        why="Without it the top hook has nothing to take; on some couplers that hook moves.",
    )  # fmt: skip


def _conflicts(v: ws.Inputs) -> list[ws.Check]:
    checks = []
    if v.top_link == "swinging":
        row = hitch.coupler_conflict("swinging_top_link")
        assert row is not None
        checks.append(ws.fits("conflict", "Coupler and implement", -1.0, row["why"], row["source"]))
    driven = hitch.coupler_conflict("pto_driven")
    if pto_power.kind_row(v.implement_kind) and driven:
        checks.append(
            ws.fits("driveline", "Drive shaft behind the coupler", 0.0, driven["why"],
                    driven["source"])
        )  # fmt: skip
    return checks


# --- advice ------------------------------------------------------------------------------------


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Return the sleeves to fit, what else would go on, and what the measurements mean."""
    remedies: list[ws.Remedy] = []
    if v.quick_coupler == "u_frame":
        remedies += _coupler_remedies(outcome, solve)
    remedies += _span_remedies(v, outcome)
    remedies += _category_remedies(v, outcome, solve)
    sleeves = _sleeve_remedies(v, outcome, solve) if v.sleeves == "none" else []
    # What is broken comes first; where nothing is, the sleeves are the thing to do.
    remedies = [*remedies, *sleeves] if outcome.margin() < 0.0 else [*sleeves, *remedies]
    return ws.Advice(remedies, _cautions(v), _tables(v), _notes(v))


PIN_CHECKS = ("lower_pins", "top_pin", "slot_lower", "slot_upper")


def _sleeve_remedies(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> list[ws.Remedy]:
    fitted = solve.run(sleeves="fitted")
    parts = []
    for check in outcome.checks:
        after = fitted.check(check.name)
        if check.name in PIN_CHECKS and check.margin == 0.0 and after and after.margin > 0.0:
            place = "lower" if check.name in ("lower_pins", "slot_lower") else "upper"
            row = _coupler_sleeve(v, place) if "slot" in check.name else _ball_sleeve(v, place)
            which = "each lower pin" if place == "lower" else "the top pin"
            if row:
                sizes = f"{row['inside_in']} in inside and {row['outside_in']} in outside"
                parts.append(f"{sizes} on {which}")
    if not parts:
        return []
    text = f"Fit sleeves: {'; '.join(parts)}."
    return [ws.Remedy(text, {"sleeves": "fitted"}, "hitch/PRACTICE; hitch/H19")]


def _span_remedies(v: ws.Inputs, outcome: ws.Outcome) -> list[ws.Remedy]:
    check = outcome.check("span")
    if check is None or check.margin > 0.0:
        return []
    span = _span(v)
    if check.sense == "between":
        gap = hitch.reach_gap(v.links_narrowest, v.links_widest, span)
        said = (
            "The links would have to open {gap} wider, to {span}."
            if gap > 0
            else "The links would have to close {gap} further, to {span}."
        )
        text = ws.phrase(said, gap=(abs(gap), "length"), span=(span, "length"))
        return [ws.Remedy(text, source="hitch/DERIVED")]
    said = (
        "Turn the stabilizers and measure between the inner faces of the balls: they must reach "
        "{span}. Put the narrowest and widest setting in above to settle it."
    )
    return [ws.Remedy(ws.phrase(said, span=(span, "length")), source="hitch/DERIVED")]


def _coupler_remedies(outcome: ws.Outcome, solve: Solver) -> list[ws.Remedy]:
    remedies = []
    broken = [check.name for check in outcome.checks if check.margin < 0]
    if broken and solve.run(quick_coupler="none").margin() >= 0.0:
        remedies.append(
            ws.Remedy("Take the coupler off for this implement; on the plain hitch it goes on.",
                      {"quick_coupler": "none"}, "hitch/DERIVED")
        )  # fmt: skip
    if "conflict" in broken and solve.run(top_link="fixed").margin(("conflict",)) >= 0.0:
        remedies.append(
            ws.Remedy(
                "Or ask the implement's maker for the adapter that holds its top pin still for a "
                "coupler.", {"top_link": "fixed"}, "hitch/PRACTICE",
            )
        )  # fmt: skip
    if "hook_span" in broken:
        fitting = [
            key
            for key in COUPLERS
            if solve.run(coupler_category=key).margin(("hook_span", "coupler_on_tractor")) >= 0.0
        ]
        remedies += [
            ws.Remedy(f"A Category {key} coupler has its hooks where these pins are.",
                      {"coupler_category": key}, "hitch/DERIVED")
            for key in fitting
        ]  # fmt: skip
    if "hook_height" in broken and solve.run(mast_hole="yes").margin(("hook_height",)) >= 0.0:
        remedies.append(
            ws.Remedy(
                "Ask the implement's maker for a coupler bracket that puts a hole at the hook's "
                "height; don't drill the mast.", {"mast_hole": "yes"}, "hitch/PRACTICE",
            )
        )  # fmt: skip
    return remedies


def _category_remedies(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> list[ws.Remedy]:
    """Which categories of implement would go on this hitch, when this one doesn't."""
    broken = [check.name for check in outcome.checks if check.margin < 0]
    names = (*PIN_CHECKS, "span", "hook_span")
    if not set(names) & set(broken):
        return []
    remedies = []
    blank = {"lower_pin": None, "upper_pin": None, "implement_span": None}
    going = []
    for key in hitch.CATEGORIES:
        if key != v.implement_category and hitch.has_size("upper_pin", hitch.pin_number(key)):
            tried = solve.run(implement_category=key, sleeves="fitted", **blank)
            if tried.margin(names) >= 0.0:
                going.append(key)
    if going:
        best = hitch.pin_number(_tractor_category(v))
        key = best if best in going else going[-1]
        said = quantities.joined([f"Category {item}" for item in going], "or")
        remedies.append(
            ws.Remedy(
                f"It takes {said} implements; many frames take a second set of pins.",
                {
                    "implement_category": key, "sleeves": "fitted", "lower_pin": "",
                    "upper_pin": "", "implement_span": "",
                },
                "hitch/DERIVED",
            )
        )  # fmt: skip
    return remedies


def _cautions(v: ws.Inputs) -> list[ws.Caution]:
    cautions = [
        ws.Caution(
            "Hitch with the engine off and the implement on the ground, and never stand between "
            "tractor and implement while somebody works the hitch.", "hitch/PRACTICE",
        ),
        ws.Caution(
            "Every pin gets its linch pin. Pins that go in say nothing about the weight: check "
            "lift and front axle as well, and follow both operator's manuals.", "hitch/PRACTICE",
        ),
    ]  # fmt: skip
    if v.quick_coupler == "u_frame":
        cautions.append(
            ws.Caution(
                "See both lower latches closed before lifting. No standard promises that every "
                "coupler takes every implement.", "hitch/S2",
            )
        )  # fmt: skip
        if pto_power.kind_row(v.implement_kind):
            cautions.append(
                ws.Caution(
                    "The coupler moves the implement back: measure the drive shaft again at its "
                    "shortest and longest before running it.", "hitch/PRACTICE",
                )
            )  # fmt: skip
    return cautions


def _measured(v: ws.Inputs) -> list[tuple[str, float, str]]:
    """What was measured on the implement: its name, the size, and the item of the tables."""
    found = []
    if v.lower_pin is not None:
        found.append(("Lower pin", float(v.lower_pin), "lower_pin"))
    if v.upper_pin is not None:
        found.append(("Top pin", float(v.upper_pin), "upper_pin"))
    if v.implement_span is not None:
        found.append(("Span between shoulders", _span(v), "shoulder_span"))
    return found


def _tables(v: ws.Inputs) -> list[ws.Table]:
    measured = _measured(v)
    if not measured:
        return []
    rows: list[tuple[ws.Cell, ...]] = []
    for label, value, item in measured:
        known = [key for key in "01234" if hitch.has_size(item, key)]
        nearest = min(known, key=lambda key: abs(hitch.size(item, key) - value))
        nominal = hitch.size(item, nearest)
        rows.append(
            (label, (value, "length"), f"Category {nearest}", (nominal, "length"),
             (value - nominal, "length"))
        )  # fmt: skip
    return [
        ws.Table(
            "What was measured, and the nearest size of the tables",
            ("Part", "Measured", "Nearest", "Its size", "Off by"), tuple(rows),
            "hitch/H1; hitch/W3",
        )
    ]  # fmt: skip


def _notes(v: ws.Inputs) -> list[ws.Words]:
    notes: list[ws.Words] = []
    sizes = {item: value for _, value, item in _measured(v)}
    if sizes:
        found = hitch.identify(
            sizes.get("lower_pin"), sizes.get("upper_pin"), sizes.get("shoulder_span")
        )
        if found:
            names = quantities.joined([f"Category {item.name}" for item in found], "or")
            more = " The span between the lower pins settles which." if len(found) > 1 else ""
            notes.append(f"By its measurements the implement is {names}.{more}")
        else:
            notes.append(
                "The measurements together agree with no single category: it may have stepped pins "
                "for two, or a span of its own. The checks above use the sizes as measured."
            )
    if v.ball_hole is not None:
        number = hitch.bore_category(v.ball_hole)
        notes.append(
            f"A lower ball with that hole is Category {number}; what is measured counts more than "
            "what is picked."
            if number
            else "No category has that hole in its lower balls: measure across the hole."
        )
    if v.pto_power is not None:
        meant = [f"Category {key}" for key in hitch.categories_for_power(v.pto_power)]
        notes.append(
            f"By its power the tractor is meant for {quantities.joined(meant, 'or')}. Power only "
            "suggests; pins and span decide."
            if meant
            else "No category is meant for that power in the edition of 1994; go by pins and span."
        )
    coupled = v.quick_coupler == "u_frame"
    if coupled and v.top_link == "fixed" and v.implement_kind in OFTEN_SWINGING:
        notes.append(
            "Many cutters and flail mowers have a top link that swings. If this one does, say so "
            "above: then the hook doesn't take it without an adapter."
        )
    if coupled and v.coupler_slots == "wide":
        notes.append(
            "Why sleeves: the slots are cut for one size, that of Category 3 pins. The sleeve "
            "brings a smaller pin up to it, keeps it centered in the hook, and takes the wear "
            "instead of the pin."
        )
    return notes


# --- picture -----------------------------------------------------------------------------------


def picture(v: ws.Inputs, outcome: ws.Outcome) -> Sequence[Picture]:
    """Draw the spans from behind, and pins in their holes enlarged, both to scale."""
    return [_spans_scene(v, outcome), _pins_scene(v, outcome)]


def _box(x: float, y: float, wide: float, tall: float, style: str) -> Shape:
    left, right, low, high = x - wide / 2, x + wide / 2, y - tall / 2, y + tall / 2
    return Shape([(left, low), (right, low), (right, high), (left, high)], style)


def _spans_scene(v: ws.Inputs, outcome: ws.Outcome) -> Scene:
    coupled = v.quick_coupler == "u_frame"
    span, ours = _span(v), outcome.output("tractor_span")
    pin, hole = _lower_pin(v), outcome.output("hole")
    number = hitch.pin_number(_coupler(v) if coupled else _tractor_category(v))
    ball = hitch.size("ball_width", number) if hitch.has_size("ball_width", number) else 0.03
    if coupled:
        mast = hitch.coupler_hook_height(_coupler(v))
    else:
        mast = float(v.mast_height or hitch.size("mast_height", _implement_category(v)))
    drop = 0.3 * mast + 0.12
    items: list[Item] = []
    # The implement seen from behind: a beam between the shoulders, pins outward, the mast.
    items.append(_box(0, 0, span, 1.6 * pin, "fill"))
    items.append(
        Shape([(-0.20 * span, 0.8 * pin), (0.20 * span, 0.8 * pin), (0.045, mast + 0.03),
               (-0.045, mast + 0.03)], "fill")
    )  # fmt: skip
    for side in (-1, 1):
        items.append(_box(side * (span / 2 + 0.045), 0, 0.09, pin, "accent"))
        # The dashed line is the inner face of the ball or hook, carried up to the implement.
        edge = side * ours / 2
        items.append(Line([(edge, -drop - 0.05), (edge, 0.10)], "soft dashed"))
        items.append(_box(side * (ours / 2 + ball / 2), -drop, ball, 1.9 * hole, "ink"))
    items.append(Disc((0, mast), _upper_pin(v) / 2, "accent"))
    items.append(Line([(-ours / 2, -drop), (ours / 2, -drop)], "soft"))
    items += [
        Dimension((-span / 2, 0), (span / 2, 0), ws.phrase("{s}", s=(span, "length")), -0.06 - pin),
        Dimension(
            (-ours / 2, -drop), (ours / 2, -drop), ws.phrase("{s}", s=(ours, "length")), -0.07
        ),
        Dimension(
            (span / 2 + 0.13, 0), (span / 2 + 0.13, mast), ws.phrase("{m}", m=(mast, "length"))
        ),
        Label((0, 0.35 * mast), "implement"),
        Label((0, -drop + 0.03), "coupler hooks" if coupled else "balls of the lower links"),
    ]
    said = (
        "From behind, to scale: the implement's pins stand {span} apart between shoulders; the "
        "{what} below are drawn {ours} apart."
    )
    return Scene(
        "Span and mast",
        ws.phrase(said, span=(span, "length"), ours=(ours, "length"),
                  what="coupler's hooks" if coupled else "tractor's balls"),
        items,
    )  # fmt: skip


def _pins_scene(v: ws.Inputs, outcome: ws.Outcome) -> Scene:
    coupled = v.quick_coupler == "u_frame"
    lower, upper = _lower_pin(v), _upper_pin(v)
    lower_hole = outcome.output("hole")
    upper_hole = _slot(v, "upper") if coupled else _top_hole(v)
    largest = max(lower, upper, lower_hole, upper_hole)
    items: list[Item] = []
    pairs: list[tuple[str, float, float]] = [("lower pin", lower, lower_hole)]
    if _has_top_link(v):
        pairs.append(("top pin", upper, upper_hole))
    for index, (name, pin, hole) in enumerate(pairs):
        x, below = index * 2.4 * largest, -0.62 * largest
        found = _cut_for(pin, hole)
        state = {"fits": "fits", "sleeve": "loose", "too big": "doesn't go in"}[found]
        word = "slot" if coupled else "hole"
        items += [
            Disc((x, 0), pin / 2, "bad" if found == "too big" else "accent"),
            Disc((x, 0), hole / 2, "ink thick", hole=True),
            Label((x, 0.62 * largest), f"{name}: {state}"),
            Label((x, below), f"pin {_pin_words(pin)}"),
            Label((x, below), f"{word} {_pin_words(hole)}", dy=1.2),
        ]
    # Points without ink on either side keep the labels inside the picture.
    for x in (-1.0 * largest, (len(pairs) - 1) * 2.4 * largest + 1.0 * largest):
        items.append(Line([(x, 0), (x, 0)], "soft"))
    what = "slot of the coupler" if coupled else "hole of the ball or top link"
    return Scene(
        "Pins and holes",
        f"End on and to one scale: each filled circle is a pin, the ring around it the {what}.",
        items,
    )


def review(known: Mapping[str, Any]) -> dict[str, str]:
    """Refuse link settings that stand the wrong way round."""
    narrowest, widest = known.get("links_narrowest"), known.get("links_widest")
    if narrowest is not None and widest is not None and narrowest.high > widest.low:
        return {
            "links_widest": "The widest setting of the links is less than the narrowest one: "
            "measure both between the inner faces of the balls."
        }
    return {}


WORKSHEET = ws.Worksheet(
    name="hitch",
    title="Hitch category",
    question="Will this implement fit my three-point hitch?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    review=review,
    page="fit/hitch-categories",
    example="a Category 1 rotary cutter on a Category 2 hitch, no coupler.",
)
