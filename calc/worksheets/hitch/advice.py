"""What to do about it."""

from __future__ import annotations

from calc import model
from calc.mechanics import hitch, hitch_fit, identify_hitch, implement_power, typical
from calc.search import Remedies
from calc.subjects import hitching
from calc.worksheets.hitch.compute import (
    NOT_HUNG,
    OPENINGS,
    bushing_for,
    category_names,
    coupled,
    found_categories,
    place_of,
    top_hole,
    tractor_category,
)
from calc.worksheets.hitch.fields import COUPLERS

PINS = tuple(OPENINGS)
FITTING = (*PINS, "span", "hook_span")
BESIDE = ("hook_height", "mast", "travel")


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Return the bushings to fit, what else would go on, and what the measurements mean."""
    broken = set(remedies.broken)
    if coupled(v):
        _coupler_remedies(broken, remedies)
    if "span" in broken:
        _span_remedy(v, found, remedies)
    known = "hitch_category" not in remedies.assumed or v.ball_hole is not None
    remedies.do("subframe", ("subframe",))
    if known and "top_pin" in broken and v.upper_pin is not None:
        size = top_hole(v)
        words = hitching.pin_words(size)
        remedies.change("top_pin", {"upper_pin": size}, mends=("top_pin",), pin=words)
    if found.over & set(FITTING):
        _other_category(v, remedies)
    parts = _bushings(v, found)
    fit = [_bushing_remedy(found, parts)] if parts else []
    return model.Advice(
        remedies=fit,
        cautions=_cautions(v, found),
        tables=_tables(v),
        notes=_notes(v, found),
        says=_leads(v, found, parts),
    )


# --- remedies ----------------------------------------------------------------------------------


def _bushings(v: model.Inputs, found: model.Found) -> list[str]:
    """The bushings that are wanted and not on yet, one phrase for each place."""
    parts = []
    for verdict in found.verdicts:
        name = verdict.check.name
        if name not in PINS or verdict.margin_low != 0.0 or v.sleeves == "fitted":
            continue
        pin = found.lower_pin_size if place_of(name) == "lower" else found.upper_pin_size
        row = bushing_for(v, name, pin)
        if row and verdict.check.grade == model.ADVICE:
            which = "each lower pin" if place_of(name) == "lower" else "the top pin"
            parts.append(f"{row['inside_in']} in inside, {row['outside_in']} in outside on {which}")
    return parts


def _bushing_remedy(found: model.Found, parts: list[str]) -> model.Remedy:
    said = found.phrase("Fit bushings, counter stock: {parts}.", parts="; ".join(parts))
    return model.Remedy(
        said, {"sleeves": "fitted"}, "hitch/PRACTICE; hitch/H19", key="hitch.sleeves"
    )


def _span_remedy(v: model.Inputs, found: model.Found, remedies: Remedies) -> None:
    if v.links_narrowest is None or v.links_widest is None:
        remedies.do("measure_links", ("span",), source="hitch/DERIVED", span=(found.span, "length"))
        return
    gap = hitch_fit.reach_gap(v.links_narrowest, v.links_widest, found.span)
    key = "links_wider" if gap > 0 else "links_closer"
    numbers = {"gap": (abs(gap), "length"), "span": (found.span, "length")}
    remedies.do(key, ("span",), source="hitch/DERIVED", **numbers)


def _coupler_remedies(broken: set[str], remedies: Remedies) -> None:
    if broken:
        remedies.choose("quick_coupler", "none", source="hitch/DERIVED")
    if "conflict" in broken:
        remedies.choose("top_link", "fixed", mends=("conflict",), source="hitch/PRACTICE")
    if "hook_span" in broken:
        for key in COUPLERS:
            remedies.choose("coupler_category", key, mends=("hook_span",), source="hitch/DERIVED")
    if "hook_height" in broken:
        remedies.choose("mast_hole", "yes", mends=("hook_height",), source="hitch/PRACTICE")


def _other_category(v: model.Inputs, remedies: Remedies) -> None:
    """Which category of implement would go on this hitch, when this one doesn't."""
    best = hitch.pin_number(tractor_category(v))
    blank = {"lower_pin": None, "upper_pin": None, "implement_span": None, "mast_height": None}
    values = {"implement_category": best, "sleeves": "fitted", **blank}
    near = hitching.takes_either(v.implement_category, best)
    key = "implement_category" if near else "other_implement"
    remedies.change(key, values, source="hitch/DERIVED", n=best)


# --- the leading sentence ----------------------------------------------------------------------


def _leads(v: model.Inputs, found: model.Found, parts: list[str]) -> dict[str, model.Words]:
    said: dict[str, model.Words] = {"category": _category_said(v, found)}
    fits = _fits_said(v, found, parts, ("conflict", "coupler_on_tractor", *FITTING, *BESIDE))
    if fits:
        said["fits"] = said["coupler"] = fits
    if typical.mount(v.implement_kind) in NOT_HUNG:
        said["fits"] = said["coupler"] = said["sleeves"] = found.note("not_hung")
        return said
    said["span"] = _span_said(v, found)
    if v.mast_height is not None and "hitch_category" in found.assumed and v.ball_hole is None:
        said["mast"] = _mast_said(v, found)
    said["sleeves"] = _sleeves_said(v, found, parts)
    return said


def _fits_said(
    v: model.Inputs, found: model.Found, parts: list[str], checks: tuple[str, ...]
) -> model.Words:
    """The sentence for what was found of these checks; none where it can't be told."""
    finding = model.finding_of(found.verdicts, found.outcome.unchecked, checks)
    deciding = model.deciding_of(found.verdicts, checks)
    if deciding is None or finding in (model.UNKNOWN, model.COMPARED):
        return ""
    if finding == model.OVER:
        return _after("No: ", deciding.check.sentence) or found.note(
            "links", span=(found.span, "length")
        )
    bushings = f", with bushings: {'; '.join(parts)}" if parts else ""
    if finding == model.CLOSE and deciding.finding != model.WITHIN:  # else bushings alone
        worst = found.outcome.check(deciding.check.name) or deciding.check
        return _after("It can, but: ", worst.sentence)
    if parts:
        return f"Yes{bushings}."
    key = "on_coupler" if coupled(v) else "plain"
    return found.note(key, pin=hitching.pin_words(found.lower_pin_size))


def _sleeves_said(v: model.Inputs, found: model.Found, parts: list[str]) -> model.Words:
    """Which bushings the pins want; nothing where it can't be told."""
    finding = model.finding_of(found.verdicts, found.outcome.unchecked, PINS)
    if finding == model.WITHIN and not parts and v.sleeves != "fitted":
        into = "slots" if coupled(v) else "balls"
        pin = hitching.pin_words(found.lower_pin_size)
        return found.note(f"no_bushings_{into}", pin=pin)
    return _fits_said(v, found, parts, PINS)


def _after(start: str, sentence: model.Words) -> model.Words:
    """A check's sentence after "No: "."""
    if not sentence:
        return ""
    if isinstance(sentence, str):
        return start + sentence[0].lower() + sentence[1:]
    text = sentence.template
    if text.startswith("{"):
        return model.Phrase(start.replace(":", ".") + text, sentence.numbers)
    return model.Phrase(start + text[0].lower() + text[1:], sentence.numbers)


def _category_said(v: model.Inputs, found: model.Found) -> model.Words:
    names = found_categories(v)
    number = hitch.bore_category(v.ball_hole) if v.ball_hole is not None else None
    if len(names) == 1:
        return found.note("is_one", names=category_names(names))
    if names:
        wanted = "mast" if v.mast_height is None and v.implement_span is not None else "span"
        if v.lower_pin is None and v.implement_span is None:
            wanted = "by_mast"
        elif v.lower_pin is None:
            wanted = "pin"
        return found.note(f"is_several_{wanted}", names=category_names(names))
    if v.ball_hole is not None:
        return found.note("by_hole", n=number) if number else found.note("no_hole")
    given = (v.lower_pin, v.upper_pin, v.implement_span, v.mast_height)
    alone = [item for item in given if item is not None]
    if len(alone) == 1 and alone[0] in (v.lower_pin, v.upper_pin):
        of_pin = [category.name for category in identify_hitch.identify(upper_pin=alone[0])]
        if of_pin:
            key = "by_top_pin" if v.upper_pin is not None else "is_top_pin"
            flat = hitch.size("lower_pin", hitch.pin_number(of_pin[0]))
            said = category_names(tuple(of_pin))
            return found.note(key, names=said, pin=hitching.pin_words(flat))
    return found.note("measure" if all(item is None for item in given) else "is_none")


def _span_said(v: model.Inputs, found: model.Found) -> model.Words:
    notes = [] if v.implement_span is None else _span_notes(v, found)
    return notes[0] if notes else found.note("flat", span=(found.span, "length"))


def _mast_said(v: model.Inputs, found: model.Found) -> model.Words:
    """What a mast is by itself, while nobody said on which hitch it goes."""
    known = [key for key in "01234" if hitch.has_size("mast_height", key)]
    fits = {key: hitching.mast_fit(key, v.mast_height) for key in known}
    nearest = min(known, key=lambda key: abs(fits[key].gap))
    return found.note("mast_alone", n=nearest, mast=(fits[nearest].height, "length"))


# --- beside it ---------------------------------------------------------------------------------


def _cautions(v: model.Inputs, found: model.Found) -> list[model.Caution]:
    keys = ["hitching", "linch_pin"]
    if coupled(v):
        keys.append("latches")
        if implement_power.kind_row(v.implement_kind):
            keys.append("shaft")
    return found.cautions(*keys)


def _measured(v: model.Inputs) -> list[tuple[str, float, str]]:
    """What was measured on the implement: its name, the size, and the item of the tables."""
    found = []
    if v.lower_pin is not None:
        found.append(("Lower pin", float(v.lower_pin), "lower_pin"))
    if v.upper_pin is not None:
        found.append(("Top pin", float(v.upper_pin), "upper_pin"))
    if v.implement_span is not None:
        number = hitching.nearest("lower_pin", v.lower_pin) if v.lower_pin else "1"
        flat = hitching.as_shoulders(v.implement_span, v.span_between, number)
        found.append(("Span between shoulders", flat, "shoulder_span"))
    if v.mast_height is not None:
        found.append(("Mast", float(v.mast_height), "mast_height"))
    return found


def _tables(v: model.Inputs) -> list[model.Table]:
    rows: list[tuple[model.Cell, ...]] = []
    for label, value, item in _measured(v):
        known = [key for key in "01234" if hitch.has_size(item, key)]
        nearest = min(known, key=lambda key: abs(hitch.size(item, key) - value))
        nominal = hitch.size(item, nearest)
        off = (value - nominal, "length")
        rows.append((label, (value, "length"), f"Category {nearest}", (nominal, "length"), off))
    if not rows:
        return []
    return [
        model.Table(
            "What was measured, and the nearest size of the tables",
            ("Part", "Measured", "Nearest", "Its size", "Off by"),
            tuple(rows),
            "hitch/H1; hitch/W3",
        )
    ]


def _notes(v: model.Inputs, found: model.Found) -> list[model.Words]:
    notes: list[model.Words] = []
    if v.implement_span is not None:
        notes += _span_notes(v, found)
    if v.ball_hole is not None:
        number = hitch.bore_category(v.ball_hole)
        notes.append(found.note("hole", n=number) if number else found.note("no_hole"))
    if v.pto_power is not None:
        meant = hitch.categories_for_power(v.pto_power)
        key = "power" if meant else "no_power"
        notes.append(found.note(key, names=category_names(meant)))
    if coupled(v) and v.coupler_slots == "wide":
        notes.append(found.note("why_sleeves"))
    return notes


def _span_notes(v: model.Inputs, found: model.Found) -> list[model.Words]:
    """Say which figure of the charts a span is, where it is one between ball centers."""
    fit = hitch_fit.span_category(v.implement_span)
    if fit.between != "ball centers" or abs(fit.misfit) > hitching.AS_PRINTED:
        return []
    key = "centers" if v.span_between == "shoulders" else "read_as_centers"
    flat = hitch.size("shoulder_span", fit.number)
    return [found.note(key, n=fit.number, flat=(flat, "length"))]
