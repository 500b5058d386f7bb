"""Sentences about what is known: what stood in, what is missing, and what would settle it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc import model, si
from calc import quantities as q
from calc.model import Answer

UNKNOWN = "unknown"  # what stands for an input that nobody gave, where a page lists them
AS_TYPED = 5  # figures of what somebody gave, in the unit that it was given in
HAIR = 1e-6  # what halving leaves of a number


def standing_sentence(answer: Answer) -> str:
    """What stands behind a finding over ranges; nothing where every number is exact."""
    if answer.searched <= 1 or not answer.final or answer.missing:
        return ""
    if answer.standing == model.PROVED and answer.finding != model.UNKNOWN:
        return "So it is for every machine within the ranges that stand in."
    if answer.standing == model.SAMPLED:
        return f"Seen at {answer.searched:,} points of the ranges that stand in; not proved."
    return ""


def odds_sentence(answer: Answer) -> str:
    """How the machines that fit what was given divide; never as a promise."""
    odds = answer.odds
    if odds is None:
        return ""
    if odds.pass_all == 0:
        share = "None"
    elif odds.pass_all == odds.tried:
        share = "All"
    else:
        tenths = round(10 * odds.pass_all / odds.tried)
        share = "Fewer than 1 in 10" if tenths == 0 else f"About {tenths} in 10"
        share = "Nearly all" if tenths == 10 else share
    spread = f"of {odds.tried} of them, spread evenly over what isn't known,"
    yours = "That says nothing about yours until its numbers are known."
    if answer.worksheet.compares_money:
        pays = model.in_sentence(answer.worksheet.finding_words(model.WITHIN))
        return f"For {model.in_sentence(share)} {spread} {pays}. {yours}"
    blank = [item for item in answer.unchecked if item.governs]
    every = "every check"
    if blank:
        every = f"every check but the {len(blank)} that a blank number kept from being made"
    return f"{share} {spread} pass {every}. {yours}"


def mends(answer: Answer, remedy: model.Remedy) -> str:
    """Which of the broken checks a remedy mends."""
    if not remedy.mends:
        return ""
    broken = [v for v in answer.verdicts if v.check.name in remedy.mends]
    titles = [model.in_sentence(v.check.title) for v in broken]
    if remedy.whole:
        return "Mends it." if len(titles) <= 1 else "Mends all of it."
    return f"Mends {listed(titles)}." if titles else ""


def listed(titles: Sequence[str]) -> str:
    """Several titles in a row; semicolons part those that hold a comma or an "and"."""
    if any(", " in title or " and " in title for title in titles):
        return "; ".join(titles)
    return q.joined(list(titles))


def missing_sentence(fields: Sequence[model.AnyField], word: str = "and") -> str:
    """Which needed fields nobody filled in."""
    return f"Say first: {q.joined([quoted(item) for item in fields], word)}."


def missing_of(answer: Answer) -> str:
    """The same of an answer that waits for them. Of those a question begins with one will do."""
    either = {item.name for item in answer.missing} <= set(answer.ask.first)
    return missing_sentence(answer.missing, "or" if either else "and")


def quoted(item: model.AnyField) -> str:
    """A field's label as a sentence may hold any label: “How far off a driver sees you”."""
    return f"“{item.label.rstrip('?')}”"


def field_text(answer: Answer, name: str, system: str, count: int = q.FIGURES) -> str:
    """An input as text: what was given, or the range that stood in for it."""
    item = answer.worksheet.field(name)
    for assumed in answer.assumed:
        if assumed.field.name != name:
            continue
        if assumed.typical and isinstance(item, model.Field):
            ends = (assumed.typical.low, assumed.typical.high)
            return q.show_range(*ends, item.kind, system, unit=item.unit(system))
        if isinstance(item, model.Choice):
            return q.joined([item.shown(value) for value in assumed.options], "or")
    text = answer.given.get(name) or answer.example.get(name, "")
    if not text:
        return UNKNOWN
    if isinstance(item, model.Field):
        reading = item.read(text, system)
        if reading is None:
            return UNKNOWN
        unit = item.unit(system)
        shown = q.show_range(reading.low, reading.high, item.kind, system, unit=unit, figures=count)
        in_inches = (unit or q.unit_for(item.kind, system).symbol) == "in"
        return _as_fraction(reading, shown) if in_inches and "/" in text else shown
    if isinstance(item, model.Choice):
        return item.shown(item.read(text) or text)
    return str(getattr(item.read(text), "text", text))  # as it was understood


def _as_fraction(reading: q.Reading, shown: str) -> str:
    """Inches that were typed as a fraction, which is how a gauge and a chart have them."""
    fraction = f"{q.sixteenths(reading.low / si.INCH)} in"
    same = reading.exact and abs(q.base(fraction, "length") - reading.low) < 1e-9
    return fraction if same else shown


def given_text(answer: Answer, name: str, system: str) -> str:
    """An input that somebody gave, in the unit that it was given in.

    Where the answer speaks of it in another one, that stands behind it: "12 deg (21.3 %)".
    """
    item = answer.worksheet.field(name)
    if not isinstance(item, model.Field) or name not in answer.given:
        return field_text(answer, name, system)
    shown = field_text(answer, name, system, q.FIGURES if "/" in answer.given[name] else AS_TYPED)
    reading = item.read(answer.given[name], system)
    if reading is None or not reading.unit:
        return shown
    ends = reading.low, reading.high
    own = q.show_range(*ends, item.kind, system, unit=reading.unit, figures=AS_TYPED)
    usual = item.unit(system) or q.unit_for(item.kind, system).symbol
    if reading.unit == usual or own == shown:
        return shown
    return f"{own} ({field_text(answer, name, system)})"


def unchecked_sentence(answer: Answer, item: model.Unchecked, *others: model.Unchecked) -> str:
    """What could not be checked, and where the number for it is read.

    `others` wait for the same number.
    """
    field = answer.worksheet.field(item.field)
    titles = [item.title, *(model.in_sentence(other.title) for other in others)]
    joined = q.joined(list(dict.fromkeys(titles)))
    return f"{joined}: not checked while {quoted(field)} is blank. {field.help}"


def settle_sentence(answer: Answer, system: str) -> str:
    """Which single number would settle it, from where, and where to read it."""
    found = answer.settle
    if found is None:
        return ""
    item = found.field
    said = f"What would settle it best: {quoted(item)}. {item.help}"
    if not isinstance(item, model.Field):
        return said
    edge, side = (found.low, "more") if found.low is not None else (found.high, "less")
    if edge is None:
        return f"{said} By itself it may not be enough."
    low, high = (q.base(end, item.kind) for end in (item.low, item.high))
    if abs(edge) < HAIR * (high - low):
        edge = 0.0  # found by halving, so a hair beside nothing
    if item.kind in ("count", "year"):  # of lamps there is no half
        whole = math.ceil(edge - HAIR) if side == "more" else math.floor(edge + HAIR)
        edge = float(whole)
    shown = q.show(edge, item.kind, system, unit=item.unit(system))
    return f"{said} At {shown} or {side} this check is met, whatever the other unknowns are."


def then_sentence(answer: Answer) -> str:
    """Which number to find after the one that would settle it best, and where to read it."""
    if len(answer.settles) < 2:
        return ""
    item = answer.settles[1].field
    return f"Then: {quoted(item)}. {item.help}".strip()


def assumed_sentence(assumed: model.Assumed, system: str) -> str:
    """What stood in for an input that wasn't known."""
    item, label = assumed.field, assumed.field.label.rstrip("?")
    if assumed.typical is None:
        assert isinstance(item, model.Choice)
        listed = q.joined([item.shown(value) for value in assumed.options], "or")
        if len(assumed.options) > 1:
            return f"{label}: any of {listed}."
        ends_open = label.endswith((" as", " by", " from", " is"))  # "built as: taken as"
        return f"{label}: {'' if ends_open else 'taken as '}{listed}."
    assert isinstance(item, model.Field)
    typical = assumed.typical
    shown = q.show_range(typical.low, typical.high, item.kind, system, unit=item.unit(system))
    of = f", usual for {typical.of}" if typical.of else ""
    return f"{label}: {shown}{of}."


def hint(item: model.AnyField, known: model.KnownSoFar, system: str) -> str:
    """What stands in an empty field: the usual range that is used, or how one is written."""
    if isinstance(item, model.Entry):
        if item.blank:
            return f"blank: {item.blank}"
        written = item.such_as or item.example
        return f"such as {written}" if written else ""
    if not isinstance(item, model.Field):
        return ""
    typical, unit = item.typical_for(known), item.unit(system)
    if typical is not None:
        return f"usual {q.show_range(typical.low, typical.high, item.kind, system, unit=unit)}"
    reading = item.read(item.example, system) if item.example else None
    if reading is None:
        return "not given"
    return f"such as {q.show_range(reading.low, reading.high, item.kind, system, unit=unit)}"
