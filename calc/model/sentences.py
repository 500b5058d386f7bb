"""The sentences of an answer: what is found, why, and what would settle it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from calc import model
from calc import quantities as q
from calc.errors import UnknownName
from calc.model import Answer, Verdict, words

LONGEST_LEAD = 160  # characters; it is the first line of a short message too


def _unit(item: model.Check | model.Output | model.Step, system: str) -> str:
    return item.unit_us if system == "us" else item.unit_metric


def value_text(verdict: Verdict, system: str) -> str:
    """The value of a check, or its range."""
    check = verdict.check
    return q.show_range(
        verdict.value_low, verdict.value_high, check.kind, system, unit=_unit(check, system)
    )


def limit_text(verdict: Verdict, system: str) -> str:
    """The limit of a check as a phrase, such as "at most 620 lb"."""
    check = verdict.check
    unit = _unit(check, system)
    if check.sense == "between":
        shown = q.show_range(check.limit, check.upper, check.kind, system, unit=unit)
        return f"between {shown.replace(' to ', ' and ')}"
    if check.sense == "at least" and verdict.limit_high <= 0.0 and _ends_at_nothing(check):
        return f"more than {q.NOTHING}"
    shown = q.show_range(verdict.limit_low, verdict.limit_high, check.kind, system, unit=unit)
    if verdict.finding == model.OVER and shown == value_text(verdict, system):
        # What is broken by less than is shown, or by being reached.
        return f"{PAST[check.sense]} {shown}"
    return f"{check.sense} {shown}"


PAST = {"at most": "less than", "at least": "more than"}


def _ends_at_nothing(check: model.Check) -> bool:
    return q.kind(check.kind).never_below_zero


def margin_text(verdict: Verdict) -> str:
    """What is left below or above the limit, as a share of it."""
    if verdict.check.sense == "fits":
        return ""
    low, high = _percent(verdict.margin_low), _percent(verdict.margin_high)
    return low if low == high else f"{low} to {high}"


def _percent(margin: float) -> str:
    shown = round(margin * 100)
    if abs(shown) > 999:
        return "over 999 %" if shown > 0 else "under -999 %"
    return f"{shown} %".replace("-", "\u2212")


def check_sentence(verdict: Verdict, system: str, heading: str = "") -> str:
    """One sentence that says what a check found, under its title or another heading."""
    check = verdict.check
    if check.sentence:
        said = words(check.sentence, system)
        if check.sense == "fits" and verdict.finding == model.UNKNOWN:
            said = f"{check.title}: it depends on what isn't known yet."
        return said
    said = f"{value_text(verdict, system)}, and {_needed(verdict, system)}"
    return f"{heading or check.title}: {said}."


def _needed(verdict: Verdict, system: str) -> str:
    shown = limit_text(verdict, system)
    if verdict.check.sense == "at most":
        return f"{shown} is allowed"
    if verdict.check.sense == "at least":
        return f"{shown} is needed"
    return f"it should lie {shown}"


def lead(answer: Answer, system: str) -> str:
    """The answer in a sentence, as a person at the counter would say it.

    A danger beside the question comes before everything. Else the ask's own words where it has
    them for this finding; else what the worksheet or the deciding check says.
    """
    if answer.missing:
        return missing_sentence(answer.missing)
    deciding = answer.deciding
    named = deciding.check.name if deciding and model.makes(deciding) == answer.finding else ""
    said = _filled(_danger_first(answer), answer, system)
    if said:
        return said
    if deciding and answer.finding == model.UNKNOWN and is_beside(deciding, answer.ask):
        said = _asked_then_open(answer, deciding, system)
        if said:
            return said
    if deciding and answer.finding == model.CLOSE and is_beside(deciding, answer.ask):
        said = _asked_then_close(answer, deciding, system)
        if said:
            return said
    said = _filled(answer.ask.sentence(answer.finding, named), answer, system)
    if said:
        return said
    if deciding and _danger_beside(answer):
        return check_sentence(deciding, system, deciding.check.heading(model.OVER))
    advised = answer.advice.says.get(answer.ask.key)
    return words(advised, system) if advised else headline(answer, system)


def _asked_then_open(answer: Answer, beside: Verdict, system: str) -> str:
    """What the question asks, and then the danger beside it that can't be told yet."""
    own = _deciding_own(answer)
    asked = answer.ask.says.get(model.UNKNOWN, "") if own or _left_blank(answer) else ""
    return _asked_then(asked, own, answer, f"Also open: {_inside(beside)}.", system)


def _asked_then_close(answer: Answer, beside: Verdict, system: str) -> str:
    """What the question asks, and then the danger beside it that is close."""
    own = _deciding_own(answer)
    if own is None or own.finding not in (model.WITHIN, model.CLOSE):
        return ""
    asked = answer.ask.sentence(own.finding, own.check.name)
    return _asked_then(asked, own, answer, f"Close: {_inside(beside)}.", system)


def _deciding_own(answer: Answer) -> Verdict | None:
    """The verdict that decides among those that the question asks about."""
    own = [verdict for verdict in answer.verdicts if not is_beside(verdict, answer.ask)]
    return model.deciding_of(own, answer.ask.checks)


def _inside(verdict: Verdict) -> str:
    return model.in_sentence(verdict.check.title)


def _asked_then(asked: str, own: Verdict | None, answer: Answer, also: str, system: str) -> str:
    """A question's own sentence, and what stands beside it where a lead has room for both."""
    said = _filled(asked, replace(answer, deciding=own), system)
    return f"{said} {also}" if said and len(said) + len(also) < LONGEST_LEAD else said


def _filled(template: str, answer: Answer, system: str) -> str:
    """Return a sentence with its numbers; empty where it names what doesn't apply here."""
    try:
        return template.format_map(_Told(answer, system))
    except (_Absent, UnknownName):
        return ""


def is_beside(verdict: Verdict, ask: model.Ask) -> bool:
    """Whether a verdict is of a check that the question didn't ask about."""
    return bool(ask.checks) and verdict.check.name not in ask.checks


def _danger_first(answer: Answer) -> str:
    """What a worksheet says before any limit that is broken: of these dangers it can't tell yet.

    Its words name them (`before_limits`): "too heavy, and it would stop in so many feet" is no
    answer while it may not stop at all.
    """
    deciding = answer.deciding
    if deciding is None or deciding.finding != model.OVER or deciding.check.grade == model.DANGER:
        return ""
    words = answer.worksheet.words
    open_ = [v.check.name for v in answer.verdicts if v.finding == model.UNKNOWN]
    named = [name for name in words.get("before_limits", ()) if name in open_]
    said = words["doubtful"][named[0]] if named else ""
    # A question that has its own words for it (how strong a chain) says what it asked about.
    return said if named and answer.ask.doubtful.get(named[0]) == said else ""


def _danger_beside(answer: Answer) -> bool:
    """Whether what decides is a danger that the question didn't ask about."""
    found = answer.deciding
    if found is None or found.finding != model.OVER or found.check.grade != model.DANGER:
        return False
    return is_beside(found, answer.ask)


def sight(answer: Answer, system: str) -> str:
    """The number that the lead sentence tells, in as few words as there are for it.

    That is the deciding check where the lead tells its value, and else the lead itself: two
    numbers for one question would contradict each other.
    """
    said, verdict = lead(answer, system), answer.deciding
    if verdict is None or verdict.check.sense == "fits" or answer.finding == model.COMPARED:
        return said
    here, limit = value_text(verdict, system), limit_text(verdict, system)
    if not re.search(rf"(?<![\d.,]){re.escape(here)}(?![\d.,]*\d)", said):
        return said
    return f"{verdict.check.heading(verdict.finding)}: {here}, {limit}"


def check_said(verdict: Verdict, system: str) -> str:
    """What a check found, without its title."""
    check = verdict.check
    if check.sentence:
        return check_sentence(verdict, system)
    return f"{value_text(verdict, system)}; {_needed(verdict, system)}."


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
    return (
        f"{share} of {odds.tried} of them, spread evenly over what isn't known, pass every check. "
        "That says nothing about yours until its numbers are known."
    )


def mends(answer: Answer, remedy: model.Remedy) -> str:
    """Which of the broken checks a remedy mends."""
    if not remedy.mends:
        return ""
    broken = [v for v in answer.verdicts if v.check.name in remedy.mends]
    titles = [model.in_sentence(v.check.title) for v in broken]
    if remedy.whole:
        return "Mends it." if len(titles) <= 1 else "Mends all of it."
    return f"Mends {q.joined(titles)}." if titles else ""


def missing_sentence(fields: Sequence[model.AnyField]) -> str:
    """Which needed fields nobody filled in."""
    return f"Say first: {q.joined([quoted(item) for item in fields])}."


def quoted(item: model.AnyField) -> str:
    """A field's label as a sentence may hold any label: “How far off a driver sees you”."""
    return f"“{item.label.rstrip('?')}”"


class _Absent(LookupError):
    """A sentence names a number of the sums that they didn't give."""


class _Told(dict[str, str]):
    """What a sentence of an ask may name: fields, numbers, and checks as {name.value}.

    {deciding} is the sentence of the check that decides, {headline} what the advice says.
    {state} is the state that the deciding check found, with its numbers.
    """

    def __init__(self, answer: Answer, system: str) -> None:
        super().__init__()
        self.answer, self.system = answer, system

    def __missing__(self, name: str) -> _Check:
        if name == "deciding" and self.answer.deciding is not None:
            said = check_sentence(self.answer.deciding, self.system)
            return _Check(said, None, self.system)
        if name == "headline":
            return _Check(headline(self.answer, self.system), None, self.system)
        if name == "state":
            return _Check(_state(self.answer, self.system), None, self.system)
        verdict = self.answer.verdict(name)
        output = self.answer.output(name)
        if output is not None:
            told = _Check(output_text(output, self.system), verdict, self.system)
            told.most = _most(output, self.system)
            told.sides = _sides(output, self.system)
            return told
        fields = {item.name for item in self.answer.worksheet.fields}
        if name in self.answer.worksheet.kinds and name not in fields:
            raise _Absent(name)
        if verdict is not None and name not in self.answer.worksheet.kinds:
            return _Check("", verdict, self.system)
        return _Check(field_text(self.answer, name, self.system), verdict, self.system)


def _left_blank(answer: Answer) -> list[model.Unchecked]:
    """The governing checks of the question that could not be made."""
    return [item for item in answer.unchecked if item.governs and answer.asks_for(item.name)]


def _state(answer: Answer, system: str) -> str:
    """The deciding check inside a sentence: the state found, and its numbers; no full stop."""
    verdict = answer.deciding
    open_ = _left_blank(answer)
    if answer.finding == model.UNKNOWN and open_ and not _undecided(answer):
        return _left_open(answer, open_[0])
    if verdict is None:
        return ""
    check = verdict.check
    if check.sentence:
        return model.in_sentence(check_sentence(verdict, system).rstrip("."))
    said = model.in_sentence(check.heading(verdict.finding))
    return f"{said}, {value_text(verdict, system)} where {limit_text(verdict, system)} is right"


def _left_open(answer: Answer, item: model.Unchecked) -> str:
    """What couldn't be checked, inside a sentence."""
    named = quoted(answer.worksheet.field(item.field))
    return f"{model.in_sentence(item.title)} isn't checked while {named} is blank"


class _Check(str):
    """A number as text; with the check of the same name, `.value` and `.limit` are its own."""

    value: str
    limit: str
    allowed: str  # the limit as a phrase, "at most 620 lb"
    most: str  # of an output: as the most that may be
    sides: str  # of a gain or a loss: "$300 less to $900 more"

    def __new__(cls, text: str, verdict: Verdict | None, system: str) -> _Check:
        made = super().__new__(cls, text)
        made.value = value_text(verdict, system) if verdict else text
        made.limit = _bare_limit(verdict, system) if verdict else ""
        made.allowed = limit_text(verdict, system) if verdict else ""
        return made


def _bare_limit(verdict: Verdict, system: str) -> str:
    check = verdict.check
    unit = _unit(check, system)
    if check.band or check.sense == "between":
        low, high = sorted((check.limit, check.upper))
        return q.show_range(low, high, check.kind, system, unit=unit)
    return q.show_range(verdict.limit_low, verdict.limit_high, check.kind, system, unit=unit)


def field_text(answer: Answer, name: str, system: str) -> str:
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
    text = answer.given.get(name, item.example if answer.is_example else "")
    if not text:
        return "unknown"
    if isinstance(item, model.Field):
        reading = item.read(text, system)
        if reading is None:
            return "unknown"
        unit = item.unit(system)
        return q.show_range(reading.low, reading.high, item.kind, system, unit=unit)
    if isinstance(item, model.Choice):
        return item.shown(item.read(text) or text)
    return str(getattr(item.read(text), "text", text))  # as it was understood


def headline(answer: Answer, system: str) -> str:
    """The deciding check in a sentence, or the worksheet's own headline."""
    if answer.advice.headline:
        return words(answer.advice.headline, system)
    open_ = [item for item in answer.unchecked if item.governs]
    if answer.finding == model.UNKNOWN and open_ and not _undecided(answer):
        return unchecked_sentence(answer, open_[0])
    if answer.deciding is None:
        return ""
    return check_sentence(answer.deciding, system)


def _undecided(answer: Answer) -> bool:
    return answer.deciding is not None and answer.deciding.finding == model.UNKNOWN


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
        return f"{said} By itself it may not be enough; then the next one is named here."
    low, high = (q.base(end, item.kind) for end in (item.low, item.high))
    if abs(edge) < 1e-6 * (high - low):
        edge = 0.0  # found by halving, so a hair beside nothing
    shown = q.show(edge, item.kind, system, unit=item.unit(system))
    return f"{said} At {shown} or {side} this check is met, whatever the other unknowns are."


def assumed_sentence(assumed: model.Assumed, system: str) -> str:
    """What stood in for an input that wasn't known."""
    item = assumed.field
    if assumed.typical is None:
        assert isinstance(item, model.Choice)
        listed = q.joined([item.shown(value) for value in assumed.options], "or")
        taken = "taken as" if len(assumed.options) == 1 else "any of"
        return f"{item.label}: {taken} {listed}."
    assert isinstance(item, model.Field)
    typical = assumed.typical
    shown = q.show_range(typical.low, typical.high, item.kind, system, unit=item.unit(system))
    of = f", usual for {typical.of}" if typical.of else ""
    return f"{item.label}: {shown}{of}."


def hint(item: model.AnyField, known: model.KnownSoFar, system: str) -> str:
    """What stands in an empty field: the usual range that is used, or how one is written."""
    if isinstance(item, model.Entry):
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


def output_text(output: model.Output, system: str) -> str:
    """An output's value, or its range."""
    unit = _unit(output, system)
    if output.low is not None and output.high is not None:
        return q.show_range(output.low, output.high, output.kind, system, unit=unit)
    return q.show(output.value, output.kind, system, unit=unit)


def _most(output: model.Output, system: str) -> str:
    """An output that is the most one may do: over a range the end that is safe comes first."""
    unit = _unit(output, system)
    ends = [end for end in (output.low, output.high) if end is not None]
    said = [q.show(end, output.kind, system, unit=unit) for end in ends or [output.value]]
    if len(set(said)) == 1:
        return f"{said[0]} at most"
    return f"{said[0]} at most to be sure ({said[-1]} at best)"


def _sides(output: model.Output, system: str) -> str:
    """A difference that may be a loss as well as a gain."""
    ends = [end for end in (output.low, output.high) if end is not None] or [output.value]
    unit = _unit(output, system)
    said = [
        f"{q.show(abs(end), output.kind, system, unit=unit)} {'less' if end < 0 else 'more'}"
        for end in ends
    ]
    return q.joined(list(dict.fromkeys(said)), "to")


def step_numbers(step: model.Step, system: str) -> str:
    """The numbers put into a formula."""
    return ", ".join(
        f"{symbol} = {q.show(value, q.summed(kind), system, figures=4)}"
        for symbol, value, kind in step.numbers
    )


def step_value(step: model.Step, system: str) -> str:
    """The result of a step."""
    return q.show(step.value, q.summed(step.kind), system, unit=_unit(step, system), figures=4)


def cell_text(cell: model.Cell, system: str) -> str:
    """A cell of a table in the reader's units."""
    if isinstance(cell, tuple):
        unit = cell[2] if len(cell) > 2 else ""
        return q.show(cell[0], cell[1], system, unit=unit)
    return words(cell, system)


def citations(answer: Answer) -> list[str]:
    """Every source that an answer rests on, without places, in order of appearance."""
    cited: dict[str, None] = {}

    def add(citation: str) -> None:
        for part in citation.split(";"):
            if part.strip():
                cited.setdefault(part.partition(",")[0].strip())

    for verdict in answer.verdicts:
        add(verdict.check.source)
    for step in answer.working:
        add(step.source)
    for assumed in answer.assumed:
        if assumed.typical:
            add(assumed.typical.source)
    for remedy in answer.advice.remedies:
        add(remedy.source)
    for caution in answer.advice.cautions:
        add(caution.source)
    for table in answer.advice.tables:
        add(table.source)
    return list(cited)
