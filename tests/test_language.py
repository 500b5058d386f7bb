"""Every sentence that the worksheets generate, listed for review and held to mechanical rules.

`python -m tests.test_language` prints them all, each once, for reading aloud.
"""

import random
import re
from functools import cache

import pytest

from calc import model, quantities, search, tables, worksheets
from calc.model import check_text, leading, sentences, words
from calc.render.asking_back import ask_back
from calc.render.reply import reply
from calc.render.text_message import short

NAMES = worksheets.names()
RANDOM = 4  # sets of random inputs for each worksheet and each of its asks' kinds

RULES = {
    "an article before a question word": r"\b(?:the|a|an) (?:how|what|which|whether|where|when)\b",
    "two articles": r"\b(?:a an|an a|the the|a the|the a|an the|a a|an an)\b",
    "a before a vowel": r"(?<!\d )\b[Aa] (?:[aeio]|u(?!ni|se|su|ti|s\b))[a-z]",
    "an before a consonant": r"\b[Aa]n (?![aeiouAEIOUhFHLMNRSX8“\W]|1[18])\w",
    "two spaces": r"\S  +\S",
    "two full stops": r"(?<!\.)\.\.(?!\.)",
    "a full stop after another mark": r"[?!:;,]\.(?!\d)",
    "a space before a mark": r" [,.;:?!](?!\d)(?!\.\.)",
    "a small letter after a full stop": r"(?<![0-9.]|\b[A-Za-z])(?<!in)(?<!approx)\. [a-z]",
    "a word twice": r"\b(?!that\b|had\b|in\b)([a-z]{2,}) \1\b",
    "a name of the sums": r"\b[a-z]+_[a-z_]+\b",
    "a placeholder": r"\{[^}]*\}|\bnan\b|\binf\b",
    "a number nobody says": r"\d\.\d{6,}|\de[+-]\d",
    # A source is a numbered note with its real name.
    "a source by its code": r"\bsources? [A-Z]+\d",
    "an empty pair": r"\(\s*\)|“\s*”|\[\s*\]",
}


def balanced(said: str) -> bool:
    """Whether every bracket and quote that opens is closed."""
    return said.count("(") == said.count(")") and said.count("“") == said.count("”")


def broken_rules(said: str) -> list[str]:
    """Return the rules that a sentence breaks."""
    found = [rule for rule, pattern in RULES.items() if re.search(pattern, said)]
    return found if balanced(said) else [*found, "a bracket or quote left open"]


def random_inputs(sheet: model.Worksheet, pick: random.Random) -> dict[str, str]:
    """Inputs of which some are given, some are ranges and some are left out."""
    typed: dict[str, str] = {}
    for item in sheet.fields:
        if pick.random() < 0.4:
            continue
        if isinstance(item, model.Choice):
            typed[item.name] = pick.choice(item.options).value
        elif isinstance(item, model.Field):
            low, high = (quantities.base(end, item.kind) for end in (item.low, item.high))
            unit = quantities.unit_for(item.kind, "us")
            share = 0.02 + 0.96 * pick.random() ** 2
            value = unit.from_base(low + share * (high - low))
            typed[item.name] = f"{value:.4g} {unit.symbol}".strip()
        elif item.example:
            typed[item.name] = item.example
    return typed


def said_of(answer: model.Answer, system: str) -> list[str]:
    """Every sentence of one answer."""
    advice = answer.advice
    said = [
        leading.lead(answer, system),
        leading.sight(answer, system),
        leading.headline(answer, system),
        sentences.settle_sentence(answer, system),
        *(check_text.check_sentence(verdict, system) for verdict in answer.verdicts),
        *(verdict.check.heading(verdict.finding) for verdict in answer.verdicts),
        *(verdict.check.why for verdict in answer.verdicts),
        *(sentences.unchecked_sentence(answer, item) for item in answer.unchecked),
        *(sentences.assumed_sentence(item, system) for item in answer.assumed),
        *(words(remedy.text, system) for remedy in advice.remedies),
        *(sentences.mends(answer, remedy) for remedy in advice.remedies),
        *(caution.text for caution in advice.cautions),
        *(words(note, system) for note in advice.notes),
        *(words(output.note, system) for output in answer.outputs),
        *reply(answer, system).split("\n"),
        *ask_back(answer, system).split("\n"),
    ]
    return [one.removeprefix("- ") for one in said if one]


@cache
def opened(name: str, ask: str, example: bool) -> model.Answer:
    """The answer of a page that nobody has touched, or that is begun with nothing given."""
    return search.answer(worksheets.load(name), {}, ask=ask, example=example)


@cache
def generated(name: str) -> dict[str, str]:
    """Every sentence of a worksheet, with the inputs that bring it about."""
    sheet, pick = worksheets.load(name), random.Random(f"{name} aloud")
    found: dict[str, str] = {}

    def add(
        typed: dict[str, str], system: str = "us", ask: str = "", example: bool = False
    ) -> None:
        try:
            if typed or system != "us":
                answer = search.answer(sheet, typed, system, ask=ask, example=example)
            else:
                answer = opened(name, ask, example)
        except search.BadInputs:
            return
        for said in said_of(answer, system):
            found.setdefault(said, f"ask={ask} example={example} {typed}")

    for ask in [item.key for item in sheet.asks] or [""]:
        add({}, ask=ask, example=True)
        add({}, ask=ask)
        add(random_inputs(sheet, pick), ask=ask, example=True)
    add({}, "metric", example=True)
    for _ in range(RANDOM):
        add(random_inputs(sheet, pick))
        add(random_inputs(sheet, pick), "metric", example=True)
    return found


@pytest.mark.parametrize("name", NAMES)
def test_every_generated_sentence_keeps_the_rules(name: str) -> None:
    wrong = {
        said: (rules, how) for said, how in generated(name).items() if (rules := broken_rules(said))
    }
    assert not wrong, "\n".join(
        f"{rules}: {said!r} from {how}" for said, (rules, how) in wrong.items()
    )


@pytest.mark.parametrize("name", NAMES)
def test_the_line_in_sight_tells_the_number_of_the_lead(name: str) -> None:
    """Begun or untouched, under every question, in both systems of units."""
    sheet = worksheets.load(name)
    for ask in sheet.asks:
        for system in ("us", "metric"):
            for example in (True, False):
                answer = opened(name, ask.key, example)
                said, short = leading.lead(answer, system), leading.sight(answer, system)
                if short != said:
                    assert answer.deciding
                    assert check_text.value_text(answer.deciding, system) in said


@pytest.mark.parametrize("name", NAMES)
def test_a_leading_sentence_can_be_said_aloud(name: str) -> None:
    """It ends like a sentence, begins like one and is short enough to be the whole of a message."""
    sheet = worksheets.load(name)
    for ask in [item.key for item in sheet.asks] or [""]:
        for example in (True, False):
            answer = opened(name, ask, example)
            said = leading.lead(answer, "us")
            assert (
                said
                and said[-1] in ".?!”"
                and (said[0].isupper() or said[0].isdigit() or said[0] in "$-“")
            )
            assert short(answer).endswith((")", ".", "?", "!"))


@pytest.mark.parametrize("name", NAMES)
def test_any_field_can_be_named_where_it_is_asked_for(name: str) -> None:
    """The settling sentence takes any label, a question or a clause, by quoting it."""
    sheet = worksheets.load(name)
    for item in sheet.fields:
        said = [
            sentences.missing_sentence([item]),
            sentences.settle_sentence(_settled_by(sheet, item), "us"),
        ]
        for one in said:
            assert f"“{item.label.rstrip('?')}”" in one
            assert not broken_rules(one), one


def _settled_by(sheet: model.Worksheet, item: model.AnyField) -> model.Answer:
    from dataclasses import replace

    first = sheet.asks[0].key if sheet.asks else ""
    return replace(opened(sheet.name, first, True), settles=(model.Settle(item, None, None, 0.5),))


@pytest.mark.parametrize(
    ("said", "rule"),
    [
        ("What would settle it best is the how far off a driver sees you.", "an article before"),
        ("Fit a an axle.", "two articles"),
        ("It stops.. Then it goes.", "two full stops"),
        ("It is down. the rest follows.", "a small letter"),
        ("It weighs 3  lb.", "two spaces"),
        ("It weighs (3 lb.", "left open"),
        ("Take a axle.", "a before a vowel"),
        ("Say the tractor_mass.", "a name of the sums"),
        ("At 0.00000000939 in it is met.", "a number nobody says"),
        ("It burns 2 gal (source S42).", "a source by its code"),
    ],
)
def test_the_rules_catch_what_they_are_for(said: str, rule: str) -> None:
    assert any(rule in broken for broken in broken_rules(said))


def test_questions_of_the_index_keep_the_rules() -> None:
    for row in tables.rows("words/questions"):
        assert not broken_rules(row["question"]), row["question"]


if __name__ == "__main__":
    for each in NAMES:
        print(f"\n== {each}")
        for sentence in generated(each):
            print(f"- {sentence}")
