"""The sentence that leads an answer, and what a sentence of an ask may name."""

from __future__ import annotations

import re
from dataclasses import replace

from calc import model
from calc import quantities as q
from calc.errors import UnknownName
from calc.model import Answer, Verdict, check_text, figures, sentences, words

LONGEST_LEAD = 160  # characters; it is the first line of a short message too
_CLAUSE = re.compile(r"(?:Yes: |Just: )?[^;:]+")  # what a sentence says first


def lead(answer: Answer, system: str) -> str:
    """The answer in a sentence, as a person at the counter would say it.

    A danger beside the question comes before everything. Else the ask's own words where it has
    them for this finding; else what the worksheet or the deciding check says.
    """
    if answer.missing:
        return sentences.missing_of(answer)
    deciding = answer.deciding
    makes = model.makes(deciding) if deciding else ""
    named = deciding.check.name if deciding and makes == answer.finding else ""
    said = _filled(_danger_first(answer), answer, system)
    if said:
        return said
    if deciding and answer.finding == makes == model.UNKNOWN and is_beside(deciding, answer.ask):
        said = _asked_then_open(answer, deciding, system)
        if said:
            return said
    if deciding and answer.finding == model.CLOSE and is_beside(deciding, answer.ask):
        said = _asked_then_close(answer, deciding, system)
        if said:
            return said
    template = answer.ask.sentence(answer.finding, named)
    own = _deciding_own(answer)
    if deciding and own and answer.finding == model.WITHIN and is_beside(deciding, answer.ask):
        # All is well: what is told is what was asked, not the nearest limit of another question.
        said = _filled(answer.ask.met.get(own.check.name, ""), answer, system)
    said = said or _filled(template, answer, system)
    if not said and template:  # it names what nobody gave
        said = _filled(answer.ask.says.get("value", ""), answer, system)
    if said:
        return said
    if deciding and _danger_beside(answer):
        return check_text.check_sentence(deciding, system, deciding.check.heading(model.OVER))
    advised = answer.advice.says.get(answer.ask.key)
    said = words(advised, system) if advised else headline(answer, system)
    return said or _say_first(answer, system)


def _say_first(answer: Answer, system: str) -> str:
    """What a question has to be told, where nothing can be said of it before."""
    fields = [answer.worksheet.field(name) for name in answer.ask.fields]
    blank = [f for f in fields if sentences.field_text(answer, f.name, system) == sentences.UNKNOWN]
    return sentences.missing_sentence(blank) if blank else ""


def _asked_then_open(answer: Answer, beside: Verdict, system: str) -> str:
    """What the question asks, and then the danger beside it that can't be told yet."""
    own = _deciding_own(answer)
    if own and own.finding != model.WITHIN and beside.check.name in answer.ask.doubtful:
        said = _filled(answer.ask.doubtful[beside.check.name], answer, system)
        if said:
            return said
    asked = answer.ask.says.get(model.UNKNOWN, "") if own or _left_blank(answer) else ""
    if own and own.finding == model.UNKNOWN:
        asked = answer.ask.doubtful.get(own.check.name, asked)
    elif own and not asked and not _left_blank(answer):
        asked = answer.ask.sentence(own.finding, own.check.name)
    if own and own.finding != model.UNKNOWN:
        asked = answer.ask.sentence(own.finding, own.check.name)  # what was asked is found
    return _asked_then(asked, own, answer, f"Also open: {_inside(beside)}.", system)


def _asked_then_close(answer: Answer, beside: Verdict, system: str) -> str:
    """What the question asks, and then the danger beside it that is close."""
    own = _deciding_own(answer)
    made = model.makes(own) if own else ""
    if own is None or made not in (model.WITHIN, model.CLOSE):
        return ""
    asked = answer.ask.sentence(made, own.check.name)
    return _asked_then(asked, own, answer, f"Close: {_inside(beside)}.", system)


def _deciding_own(answer: Answer) -> Verdict | None:
    """The verdict that decides among those that the question asks about."""
    own = [verdict for verdict in answer.verdicts if not is_beside(verdict, answer.ask)]
    return model.deciding_of(own, answer.ask.checks)


def _inside(verdict: Verdict) -> str:
    return model.in_sentence(verdict.check.title)


def _asked_then(asked: str, own: Verdict | None, answer: Answer, also: str, system: str) -> str:
    """A question's own sentence, and what stands beside it where a lead has room for both."""
    judged = replace(answer, deciding=own)
    said = _filled(asked, judged, system)
    if answer.finding != model.UNKNOWN or own is None or own.finding == model.UNKNOWN or not said:
        return f"{said} {also}" if said and len(said) + len(also) < LONGEST_LEAD else said
    # What was asked is settled and the answer isn't: its lead says so, and no yes stands first.
    first = also.replace("Also open", "Can't tell yet")
    short = _filled(asked.replace("{state}", _inside(own)), judged, system)
    found = _CLAUSE.match(short)
    clause = f"{found.group().rstrip('.')}." if found else short
    for one in (said, short, clause):
        turned = f"{first} What was asked: {model.in_sentence(one)}"
        both = turned if one.startswith("Yes") else f"{one} {also}"
        if len(both) < LONGEST_LEAD:
            return both
    return first


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
    here, limit = check_text.value_text(verdict, system), check_text.limit_text(verdict, system)
    if not re.search(rf"(?<![\d.,]){re.escape(here)}(?![\d.,]*\d)", said):
        return said
    return f"{verdict.check.heading(verdict.finding)}: {here}, {limit}"


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

    def _count(self, kind: str) -> int:
        """In how many figures a number is told: what is compared in as many as tell it apart."""
        found = self.answer.deciding
        compared = found is not None and found.check.kind == kind
        return check_text.telling(found, self.system) if found and compared else q.FIGURES

    def __missing__(self, name: str) -> _Check:
        if name == "deciding" and self.answer.deciding is not None:
            said = check_text.check_sentence(self.answer.deciding, self.system)
            return _Check(said, None, self.system)
        if name == "headline":
            return _Check(headline(self.answer, self.system), None, self.system)
        if name == "state":
            state = _state(self.answer, self.system)
            if not state:
                raise _Absent(name)  # nothing was checked
            return _Check(state, None, self.system)
        verdict = self.answer.verdict(name)
        output = self.answer.output(name)
        if output is not None:
            text = figures.output_text(output, self.system, self._count(output.kind))
            told = _Check(text, verdict, self.system)
            told.most = figures.most(output, self.system)
            told.sides = figures.sides(output, self.system)
            return told
        fields = {item.name for item in self.answer.worksheet.fields}
        if name in self.answer.worksheet.kinds and name not in fields:
            raise _Absent(name)
        if verdict is not None and name not in self.answer.worksheet.kinds:
            return _Check("", verdict, self.system)
        item = self.answer.worksheet.field(name)
        count = self._count(item.kind) if isinstance(item, model.Field) else q.FIGURES
        said = sentences.field_text(self.answer, name, self.system, count)
        if said == sentences.UNKNOWN:
            raise _Absent(name)  # "at an altitude of unknown" is no sentence
        return _Check(said, verdict, self.system)


def _left_blank(answer: Answer) -> list[model.Unchecked]:
    """The checks of the question that could not be made: those that govern, or are asked for."""
    asked = [item for item in answer.unchecked if answer.asks_for(item.name)]
    return [item for item in asked if item.governs or item.if_asked]


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
        return model.in_sentence(check_text.check_sentence(verdict, system).rstrip("."))
    said = model.in_sentence(check.heading(verdict.finding))
    value, needed = check_text.value_text(verdict, system), check_text.needed(verdict, system)
    return f"{said}, {value} where {needed}"


def _left_open(answer: Answer, item: model.Unchecked) -> str:
    """What couldn't be checked, inside a sentence."""
    named = sentences.quoted(answer.worksheet.field(item.field))
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
        made.value = check_text.value_text(verdict, system) if verdict else text
        made.limit = check_text.bare_limit(verdict, system) if verdict else ""
        made.allowed = check_text.limit_text(verdict, system) if verdict else ""
        return made


def headline(answer: Answer, system: str) -> str:
    """The deciding check in a sentence, or the worksheet's own headline."""
    if answer.advice.headline:
        return words(answer.advice.headline, system)
    open_ = [item for item in answer.unchecked if item.governs]
    if answer.finding == model.UNKNOWN and open_ and not _undecided(answer):
        return sentences.unchecked_sentence(answer, open_[0])
    if answer.deciding is None:
        return ""
    return check_text.check_sentence(answer.deciding, system)


def _undecided(answer: Answer) -> bool:
    return answer.deciding is not None and answer.deciding.finding == model.UNKNOWN
