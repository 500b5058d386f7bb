"""A customer's message, read: the questions that it asks, each with the fields that it fills."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from calc import model, quantities, worksheets
from calc.errors import InputError
from calc.machines import Machine
from calc.mechanics import implement_power, pto_power
from calc.reading import asked, labels, marked
from calc.reading.amounts import Amount, amounts_of
from calc.reading.choosing import place_choices
from calc.reading.facts import Fact, Given, Placing, place_amounts
from calc.reading.words import (
    Said,
    Token,
    cue_phrases,
    lexicon,
    phrases_of,
    plain,
    sentence_ends,
    stems_of,
    tokens_of,
)

LONGEST = 4000  # characters; what is longer is no message to a counter
Span = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Filled:
    """A field of a question, the text that it takes, and the words that it came from."""

    name: str
    text: str
    spans: tuple[Span, ...]
    why: str
    others: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Unclear:
    """Words that may mean several things; `options` are pairs of a field and a text."""

    spans: tuple[Span, ...]
    options: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Question:
    """One question of a message: the worksheet and ask that answer it, and what it gives them."""

    worksheet: str
    ask: str
    spans: tuple[Span, ...]
    filled: tuple[Filled, ...]
    unclear: tuple[Unclear, ...] = ()

    @property
    def inputs(self) -> dict[str, str]:
        """The texts given, by field."""
        return {each.name: each.text for each in self.filled}

    @property
    def missing(self) -> tuple[str, ...]:
        """The fields that the ask wants and the message doesn't give."""
        ask = worksheets.load(self.worksheet).ask(self.ask)
        return tuple(name for name in ask.fields if name not in self.inputs)


@dataclass(frozen=True, slots=True)
class Message:
    """A message, read. `lost` are the amounts that no question takes."""

    text: str
    questions: tuple[Question, ...]
    lost: tuple[Span, ...] = ()
    facts: tuple[Fact, ...] = field(default=(), repr=False)


def read(
    text: str,
    *,
    machines: Sequence[Machine] = (),
    system: str = "us",
    also: Sequence[str] = (),
) -> Message:
    """Read a message as it came.

    Parameters
    ----------
    text
        What somebody wrote; what is longer than `LONGEST` is cut there.
    machines
        Machines that may be named in it, with what they give.
    system
        "us" or "metric": the units of numbers that stand without one.
    also
        Worksheets that are filled with what the message gives though it doesn't ask for them;
        they stand behind the questions that it asks.
    """
    text = text[:LONGEST]
    bare = plain(text)
    tokens = tokens_of(bare)
    given = Given()
    names = worksheets.names() if "\n" in text else ()
    known, key, start, end = labels.named_in(text, names)
    taken = set(range(*marked.span(tokens, start, end)))
    known = known or (labels.most_labels(text, worksheets.names()) if ":" in text else "")
    if known:
        taken |= labels.place_labelled(text, tokens, known, given)
    found = _words(text, bare, tokens, given, taken)
    if known:
        found = [asked.Asked(known, asked.ask_of(known, (key,)), ())]
    found = [_suited(each, given) for each in found]
    found += [
        asked.Asked(name, "", ()) for name in also if name not in {f.worksheet for f in found}
    ]
    named = _machines(bare, tokens, machines)
    questions = [_question(each, given, tokens, named, system) for each in found]
    if not known and ":" not in text:
        questions = [_with_labels(q, text, bare, tokens, named, system) for q in questions]
    used = {span for q in questions for each in q.filled for span in each.spans}
    used |= {span for q in questions for each in q.unclear for span in each.spans}
    lost = [_span(tokens, a.first, a.last) for a in (*given.loose, *given.apart)]
    lost += [_span(tokens, f.first, f.last) for f in given.facts if f.amount]
    return Message(
        text,
        tuple(questions),
        tuple(sorted({span for span in lost if not _within(span, used)})),
        tuple(given.facts),
    )


# Of what no shaft drives the weight and the pull decide, which another worksheet judges.
_WITHOUT_SHAFT = {"widest": "run", "takes": "power", "enough": "run"}


def _suited(found: asked.Asked, given: Given) -> asked.Asked:
    """Return a question of shaft power as one of the pairing where no shaft drives the tool."""
    kinds = {fact.text for fact in given.facts if fact.fields == ("implement_kind",)}
    ask = _WITHOUT_SHAFT.get(found.ask, "") if found.worksheet == "pto" else ""
    driven = any(implement_power.kind_row(kind) is not None for kind in kinds)
    if not ask or not kinds or driven:
        return found
    return replace(found, worksheet="pairing", ask=ask)


def _within(span: Span, used: Collection[Span]) -> bool:
    return any(start <= span[0] and span[1] <= end for start, end in used)


def _words(
    text: str, bare: str, tokens: list[Token], given: Given, taken: set[int]
) -> list[asked.Asked]:
    """Place all that stands in a message, and return what it asks."""
    stems = stems_of(tokens)
    tires = marked.tires_in(bare)
    for match in tires:
        first, last = marked.span(tokens, match.start(), match.end())
        taken.update(range(first, last))
    said = phrases_of(tokens, stems, taken, lexicon())
    words = {s.value for each in said for s in each.senses if s.sense == "word"} | set(stems)
    marked.place_tires(bare, [m for m in tires], tokens, given)
    busy = taken | marked.place_bolts(bare, tokens, words, given)
    ends = sentence_ends(tokens)
    amounts = amounts_of(tokens, busy)
    measured = {i for each in amounts if each.kinds for i in range(each.first, each.last)}
    cued = phrases_of(tokens, stems, taken | measured, cue_phrases())
    amounts = marked.multiplied(tokens, amounts)
    placing = Placing(tokens, said, cued, amounts, ends)
    placing.subjects += [(_tire(tokens, match), "tire") for match in tires]
    placing.subjects.sort(key=lambda item: item[0].first)
    marked.place_categories(bare, tokens, placing.subjects, given)
    category = {
        i for f in given.facts if f.fields[0].endswith("category") for i in range(f.first, f.last)
    }
    placing.amounts = [a for a in placing.amounts if not category & set(range(a.first, a.last))]
    place_amounts(placing, given)
    marked.place_lift_distance(tokens, given)
    marked.place_year(tokens, placing.subjects, given)
    marked.place_hours(given)
    marked.place_altitude(given)
    free = [s for s in said if not measured.issuperset(range(s.first, s.last))]
    place_choices(free, tokens, given)
    marked.place_generator(given)
    for begin, end in pairwise([0, *ends]):
        marked.place_lamps(tokens, begin, end, given)
    marked.place_place(text, tokens, given)
    chosen = {i for f in given.facts if f.amount is None for i in range(f.first, f.last)}
    given.loose = [a for a in given.loose if not chosen.issuperset(range(a.first, a.last))]
    return asked.questions(asked.marks_of(stems, said, given), ends)


def _tire(tokens: list[Token], match: re.Match[str]) -> Said:
    first, last = marked.span(tokens, match.start(), match.end())
    return Said(first, last, (), match[0])


def _span(tokens: list[Token], first: int, last: int) -> Span:
    return tokens[first].start, tokens[last - 1].end


def _question(
    found: asked.Asked,
    given: Given,
    tokens: list[Token],
    machines: Mapping[str, Filled],
    system: str,
) -> Question:
    """Return a question with every fact that its worksheet has a field for."""
    sheet = worksheets.load(found.worksheet)
    names = {item.name: item for item in sheet.fields}
    filled = {name: each for name, each in machines.items() if name in names}
    for fact in sorted((_at_shaft(f, names) for f in given.facts), key=lambda each: each.cost):
        place = _span(tokens, fact.first, fact.last)
        for name in fact.fields:
            text = text_for(names[name], fact, system) if name in names else None
            if text is not None and (name not in filled or filled[name].text == text):
                earlier = filled[name].spans if name in filled else ()
                filled[name] = Filled(name, text, (*earlier, place), fact.why, fact.others)
                break
            if text is not None and name in machines:
                filled[name] = Filled(name, text, (place,), fact.why, fact.others)
                break
    of_ask = _OF_ASK.get((found.worksheet, found.ask), {})
    loose = []
    # What the words place in a field that this worksheet lacks is as loose to it.
    elsewhere = [f.amount for f in given.facts if f.amount and names.keys().isdisjoint(f.fields)]
    free = [*given.loose, *(elsewhere if of_ask else [])]
    for amount in free:
        name = _of_ask(of_ask, amount, [each for each in free if each is not amount])
        fact = Fact((name,), amount.first, amount.last, amount=amount)
        text = text_for(names[name], fact, system) if name and name not in filled else None
        if text is not None:
            place = _span(tokens, amount.first, amount.last)
            filled[name] = Filled(name, text, (place,), "the question is about it")
        elif amount in given.loose:
            loose.append(amount)
    spans = tuple(_span(tokens, place, place + 1) for place in found.places)
    unclear = _unclear(sheet, found.ask, replace(given, loose=loose), filled, tokens, system)
    return Question(found.worksheet, found.ask, spans, tuple(filled.values()), unclear)


# What a question is about is told by its words alone where one amount of the kind stands loose:
# what is paid for by the month is the price, and its months are those of the loan.
_LOAN = {"money": "new_price", "duration": "loan_months", "fraction": "loan_rate"}
_OF_ASK = {("resale", "payments"): _LOAN}
LEAST_PRICE = 1000.0  # below it a loose number may be a payment, a fee or a down payment


def _of_ask(fields: Mapping[str, str], amount: Amount, others: Sequence[Amount]) -> str:
    """Return the field of a question that a loose amount is of, "" where another may be it."""
    for kind, name in fields.items():
        fits = kind in amount.kinds or (kind == "money" and not amount.kinds)
        rival = any(kind in each.kinds or (kind == "money" and not each.kinds) for each in others)
        large = kind != "money" or amount.value >= LEAST_PRICE
        if fits and large and not rival:
            return name
    return ""


def _at_shaft(fact: Fact, names: Collection[str]) -> Fact:
    """Return what reaches the PTO of an engine's power, for a worksheet that asks for that alone.

    "35 hp" of a tractor is its engine's as a rule.
    """
    asks = "pto_power" in names and "engine_power" not in names
    if not asks or fact.fields != ("engine_power",) or fact.amount is None:
        return fact
    symbol = fact.amount.kinds.get("power", "")
    number = reaching_shaft(fact.amount.text(symbol), symbol)
    amount = replace(fact.amount, number=number, hedged=False)
    why = f"{fact.why}; so much reaches the PTO"
    return replace(fact, fields=("pto_power",), amount=amount, why=why)


def reaching_shaft(engine_power: str, symbol: str) -> str:
    """Return what of an engine's power reaches the PTO, as a range in the same unit.

    >>> reaching_shaft("35 hp", "hp")
    '27.1 to 31.5'
    """
    read = quantities.parse(engine_power, "power")
    assert read is not None
    unit = quantities.base(f"1 {symbol}", "power")
    drag = pto_power.pump_drag("hydrostatic")[1]
    low, _ = pto_power.at_pto(read.low, drag)
    _, high = pto_power.at_pto(read.high, drag)
    return f"{low / unit:.3g} to {high / unit:.3g}"


def text_for(item: model.AnyField, fact: Fact, system: str = "us") -> str | None:
    """Return what a field takes of a fact; None when it takes nothing of it.

    A slope that a field wants downhill is one downhill.
    """
    if fact.amount is None:
        return fact.text if _takes(item, fact.text, system) else None
    if not isinstance(item, model.Field):
        return fact.amount.number if _takes(item, fact.amount.number, system) else None
    symbol = _unit(fact.amount, item, system)
    if symbol is None:
        return None
    text = fact.amount.text(symbol)
    if _takes(item, text, system):
        return text
    down = f"-{text}"
    return down if item.kind == "slope" and _takes(item, down, system) else None


def _unit(amount: Amount, item: model.Field, system: str) -> str | None:
    if not amount.kinds:
        return item.unit(system) or quantities.unit_for(item.kind, system).symbol
    if item.kind == "length" and "distance" in amount.kinds:
        return amount.kinds["distance"]
    if item.kind == "distance" and "length" in amount.kinds:
        return amount.kinds["length"]
    return amount.kinds.get(item.kind)


def _takes(item: model.AnyField, text: str, system: str) -> bool:
    try:
        return item.read(text, system) is not None
    except InputError:
        return False


def _unclear(
    sheet: model.Worksheet,
    ask: str,
    given: Given,
    filled: Mapping[str, Filled],
    tokens: list[Token],
    system: str,
) -> tuple[Unclear, ...]:
    """Return what may be one thing or another for a worksheet, to be asked."""
    found = []
    groups: dict[tuple[str, ...], list[Fact]] = {}
    for fact in given.doubtful:
        groups.setdefault(fact.fields, []).append(fact)
    for names, facts in groups.items():
        name = next((n for n in names if n in sheet.examples() and n not in filled), "")
        texts = [text for fact in facts for text in _texts(sheet, name, fact, system)]
        if texts:
            spans = tuple(dict.fromkeys(_span(tokens, f.first, f.last) for f in facts))
            found.append(Unclear(spans, tuple((name, text) for text in dict.fromkeys(texts))))
    for amount in given.loose:
        options = tuple(_fields_for(sheet, ask, amount, filled, system))
        if options:
            found.append(Unclear((_span(tokens, amount.first, amount.last),), options))
    return tuple({each.options: each for each in found}.values())


def _texts(sheet: model.Worksheet, name: str, fact: Fact, system: str) -> list[str]:
    """Return what a field of that name may take of a doubtful fact."""
    if not name:
        return []
    said = text_for(sheet.field(name), fact, system) if fact.text or fact.amount else None
    others = [text for text in fact.others if _takes(sheet.field(name), text, system)]
    return [*([said] if said else []), *others]


MOST_OPTIONS = 4


def _fields_for(
    sheet: model.Worksheet, ask: str, amount: Amount, filled: Mapping[str, Filled], system: str
) -> list[tuple[str, str]]:
    """Return the few fields that a loose amount may be of: those of the ask, then the essential."""
    found = []
    asked_for = sheet.ask(ask).fields

    def order(item: model.AnyField) -> tuple[bool, bool]:
        return item.name not in asked_for, not item.essential

    for item in sorted(sheet.fields, key=order):
        if isinstance(item, model.Field) and item.name not in filled and _can_be(item, amount):
            fact = Fact((item.name,), amount.first, amount.last, amount=amount)
            text = text_for(item, fact, system)
            if text is not None:
                found.append((item.name, text))
    return found[:MOST_OPTIONS]


def _can_be(item: model.Field, amount: Amount) -> bool:
    """Whether a loose amount may be offered for a field: a year is no price, 5 ft no altitude."""
    if item.name == "altitude":
        return not amount.kinds or marked.may_be_altitude(amount)
    if marked.may_be_year(amount) and amount.value % 50:
        return item.kind == "year"
    return amount.kinds.get("power") != "W" or item.kind != "power"


def _machines(text: str, tokens: list[Token], machines: Sequence[Machine]) -> dict[str, Filled]:
    """Return what the machines that are named in a message give."""
    found: dict[str, Filled] = {}
    plain_text = " ".join(text.lower().split())
    for machine in sorted(machines, key=lambda each: -len(each.name)):
        name = " ".join(machine.name.lower().split())
        if len(name) < 4 or name not in plain_text:
            continue
        start = text.lower().find(name)
        spans = ((start, start + len(name)),) if start >= 0 else ()
        for field_name, value in machine.inputs.items():
            found.setdefault(field_name, Filled(field_name, value, spans, f"“{machine.name}”"))
    return found


def _with_labels(
    question: Question,
    text: str,
    bare: str,
    tokens: list[Token],
    machines: Mapping[str, Filled],
    system: str,
) -> Question:
    """Return the question read once more where labels of its worksheet stand in the message."""
    given = Given()
    taken = labels.place_labelled(bare, tokens, question.worksheet, given)
    certain = [fact for fact in given.facts if " " in tokens_text(tokens, fact)]
    if not certain:
        return question
    _words(text, bare, tokens, given, taken)
    found = asked.Asked(question.worksheet, question.ask, ())
    again = _question(found, given, tokens, machines, system)
    return Question(question.worksheet, question.ask, question.spans, again.filled, again.unclear)


def tokens_text(tokens: list[Token], fact: Fact) -> str:
    """Return the words of a fact, for one that must have more than one."""
    return " ".join(token.text for token in tokens[fact.first : fact.last])
