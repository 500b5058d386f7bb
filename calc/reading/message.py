"""A customer's message, read: the questions that it asks, each with the fields that it fills."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from itertools import pairwise

from calc import worksheets
from calc.machines import Machine
from calc.reading import (
    asked,
    instead,
    labels,
    leftover,
    loader_tools,
    marked,
    own_words,
    pieces,
    prices,
    shafts,
    tires,
)
from calc.reading.amounts import amounts_of
from calc.reading.choosing import place_choices
from calc.reading.facts import Placing, place_amounts
from calc.reading.filling import named_machines, question
from calc.reading.found import Filled, Message, Question, Span
from calc.reading.given import Fact, Given
from calc.reading.words import (
    Said,
    Token,
    cue_phrases,
    lexicon,
    phrases_of,
    place_of,
    plain,
    sentence_ends,
    span,
    stems_of,
    tokens_of,
)

LONGEST = 4000  # characters; what is longer is no message to a counter


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
    original = text[:LONGEST]
    text = labels.unquoted(own_words.without_reply(original))
    named = labels.named_in(text) if "\n" in text else []
    parts = [
        _read(labels.section(text, named, which), each, machines, system)
        for which, each in enumerate(named)
    ] or [_read(text, None, machines, system, also)]
    questions = tuple(each for part in parts for each in part.questions)
    used = {span for q in questions for each in q.filled for span in each.spans}
    used |= {span for q in questions for each in q.unclear for span in each.spans}
    lost = {span for part in parts for span in part.lost if not _within(span, used)}
    facts = tuple(fact for part in parts for fact in part.facts)
    if named and also:
        rest = [name for name in also if name not in {q.worksheet for q in questions}]
        more = _read(text, named[0], machines, system, rest)
        questions += more.questions[1:]
    return Message(original, questions, tuple(sorted(lost)), facts)


def _read(
    text: str,
    named: labels.Named | None,
    machines: Sequence[Machine],
    system: str,
    also: Sequence[str] = (),
) -> Message:
    """Read a message, or the part of one that stands under a question of ours."""
    known, key, start, end = named or ("", "", 0, 0)
    text = labels.without_helps(text, known) if known else text
    bare = plain(text)
    tokens = tokens_of(bare)
    given = Given()
    taken = set(range(*span(tokens, start, end)))
    known = known or (labels.most_labels(text, worksheets.names()) if ":" in text else "")
    if known:
        taken |= labels.place_labelled(text, tokens, known, given)
    found = _words(text, bare, tokens, given, taken)
    if known:
        found = [asked.Asked(known, asked.ask_of(known, (key,)), ())]
    found = [instead.suited(each, tokens, given) for each in found]
    found += [
        asked.Asked(name, "", ()) for name in also if name not in {f.worksheet for f in found}
    ]
    listed = named_machines(bare, tokens, machines)
    questions = [question(each, given, tokens, listed, system) for each in found]
    if not known and ":" not in text:
        questions = [_with_labels(q, text, bare, tokens, listed, system) for q in questions]
    lost = [place_of(tokens, a.first, a.last) for a in (*given.loose, *given.apart)]
    lost += [place_of(tokens, f.first, f.last) for f in given.facts if f.amount]
    return Message(text, tuple(questions), tuple(lost), tuple(given.facts))


def _within(span: Span, used: Collection[Span]) -> bool:
    return any(start <= span[0] and span[1] <= end for start, end in used)


def _words(
    text: str, bare: str, tokens: list[Token], given: Given, taken: set[int]
) -> list[asked.Asked]:
    """Place all that stands in a message, and return what it asks."""
    stems = stems_of(tokens)
    taken |= marked.place_nothings(bare, tokens)
    sizes = tires.tires_in(bare)
    for match in (*sizes, *tires.marks_apart(bare, sizes)):
        first, last = span(tokens, match.start(), match.end())
        taken.update(range(first, last))
    said = loader_tools.on_the_loader(phrases_of(tokens, stems, taken, lexicon()), tokens)
    words = {s.value for each in said for s in each.senses if s.sense == "word"} | set(stems)
    tires.place_tires(bare, sizes, tokens, given)
    busy = taken | marked.place_bolts(bare, tokens, words, given)
    busy |= shafts.place_shafts(tokens, said, given)
    ends = sentence_ends(tokens)
    amounts = prices.in_thousands(tokens, amounts_of(tokens, busy))
    measured = {i for each in amounts if each.kinds for i in range(each.first, each.last)}
    cued = phrases_of(tokens, stems, taken | measured, cue_phrases())
    amounts = pieces.multiplied(tokens, amounts)
    placing = Placing(tokens, said, cued, amounts, ends)
    placing.subjects += [(_tire(tokens, match), "tire") for match in sizes]
    placing.subjects.sort(key=lambda item: item[0].first)
    marked.place_categories(bare, tokens, placing.subjects, given)
    category = {
        i
        for f in (*given.facts, *given.doubtful)
        if f.fields[0].endswith("category")
        for i in range(f.first, f.last)
    }
    placing.amounts = [a for a in placing.amounts if not category & set(range(a.first, a.last))]
    place_amounts(placing, given)
    marked.place_lift_distance(tokens, given)
    tires.place_inflation(tokens, given)
    leftover.place_year(tokens, placing.subjects, given)
    leftover.place_bare_masses(tokens, placing.subjects, given)
    leftover.place_uphill(tokens, given)
    leftover.place_proud(tokens, given)
    leftover.place_widest(tokens, given)
    leftover.place_folded(tokens, given)
    shafts.place_engine_speed(tokens, given)
    prices.place_own(tokens, amounts, given)
    prices.place_repaired(tokens, given)
    prices.place_storage(tokens, amounts, given)
    prices.place_rate(tokens, given)
    leftover.place_hours(given)
    leftover.place_units(given)
    leftover.place_calcium(tokens, given)
    leftover.leave_needed(tokens, given)
    leftover.place_arms(given)
    leftover.place_altitude(given)
    leftover.place_hole(tokens, given)
    loader_tools.part_masses(said, given)
    loader_tools.part_widths(said, given)
    free = [s for s in said if not measured.issuperset(range(s.first, s.last))]
    place_choices(free, tokens, given)
    leftover.place_generator(given)
    for begin, end in pairwise([0, *ends]):
        pieces.place_lamps(tokens, begin, end, given)
    pieces.place_counted_leds(tokens, given)
    marked.place_place(text, tokens, given)
    chosen = {i for f in given.facts if f.amount is None for i in range(f.first, f.last)}
    given.loose = [a for a in given.loose if not chosen.issuperset(range(a.first, a.last))]
    found = asked.questions(asked.marks_of(stems, said, given), ends)
    asks = {(each.worksheet, each.ask) for each in found}
    if ("pairing", "hydraulics") in asks:
        loader_tools.place_grapple(said, given)
    if ("lamp-wiring", "flasher") in asks:
        pieces.place_led_flashers(tokens, given)
    return found


def _tire(tokens: list[Token], match: re.Match[str]) -> Said:
    first, last = span(tokens, match.start(), match.end())
    return Said(first, last, (), match[0])


def _with_labels(
    first: Question,
    text: str,
    bare: str,
    tokens: list[Token],
    machines: Mapping[str, Filled],
    system: str,
) -> Question:
    """Return the question read once more where labels of its worksheet stand in the message."""
    given = Given()
    taken = labels.place_labelled(bare, tokens, first.worksheet, given)
    certain = [fact for fact in given.facts if " " in tokens_text(tokens, fact)]
    if not certain:
        return first
    _words(text, bare, tokens, given, taken)
    found = asked.Asked(first.worksheet, first.ask, ())
    again = question(found, given, tokens, machines, system)
    return Question(first.worksheet, first.ask, first.spans, again.filled, again.unclear)


def tokens_text(tokens: list[Token], fact: Fact) -> str:
    """Return the words of a fact, for one that must have more than one."""
    return " ".join(token.text for token in tokens[fact.first : fact.last])
