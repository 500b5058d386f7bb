"""A slice of what `scripts/fuzz.py` tries, with a seed that stays; and that it can fail."""

from dataclasses import replace

import pytest

from calc import model, search
from scripts import faults, fuzz, fuzz_worksheets

SEED, OF_EACH, OF_OTHERS = 4, 6, 40


@pytest.mark.parametrize("name", fuzz.SUBJECTS)
def test_nothing_that_is_typed_linked_or_brought_breaks_it(name):
    tally = fuzz.fuzz(name, SEED, OF_OTHERS if name in fuzz.OTHERS else OF_EACH)
    assert tally.count and tally.taken
    assert not tally.faults


FIELD = model.Field(
    "a", "length", "1 in", "10 in", label="A", typical=model.Typical(0.1, 0.2, "hitch/DERIVED")
)


def toy(compute, **more):
    """A worksheet of one field."""
    silent = (lambda v, outcome, solve: model.Advice()), (lambda v, outcome: None)
    return model.Worksheet("toy", "Toy", "Toy?", (FIELD,), compute, *silent, **more)


def within(v, work):
    return model.Outcome([model.at_most("only", "Only", v.a, 1.0, "length", "hitch/DERIVED")])


def shows(value):
    output = model.Output("b", "B", value, "length")
    return lambda v, work: model.Outcome(within(v, work).checks, [output])


def crashes(v, work):
    raise ZeroDivisionError("a is never 0")


@pytest.mark.parametrize(
    ("sheet", "said"),
    [
        (toy(within), ""),
        (toy(shows(0.5)), ""),
        (toy(shows(float("nan"))), "NaN"),
        (toy(crashes), "ZeroDivisionError at "),
        (toy(within, review=lambda known: {"a": "no sentence"}), "no sentence"),
    ],
)
def test_what_must_never_be_is_found(sheet, said):
    for full in (True, False):
        _, found = fuzz_worksheets.try_inputs(
            sheet, {"a": "5 in"}, fuzz_worksheets.Asked("", "us", full)
        )
        assert bool(found) == bool(said) and all(said in fault for fault in found)


def test_texts_are_looked_through():
    assert (
        list(faults.faults_of_text("it", "a finance information of 0.0000001 and 1,000.00000001"))
        == []
    )
    for text in ('<path d="M nan 3">', "-inf ft", "0.00000000186 ft"):
        assert len(list(faults.faults_of_text("it", text))) == 1


def test_a_remedy_outside_its_field_is_found():
    sheet = toy(within)
    answer = search.answer(sheet, {"a": "5 in"})
    for text, wrong in (("10 in", False), ("10.1 in", True), ("1 in", False), ("0.9 in", True)):
        advice = model.Advice(remedies=[model.Remedy("Try it.", {"a": text})])
        tried = replace(answer, advice=advice)
        assert bool(list(faults.faults_of_remedies(tried))) == wrong


def test_the_fewest_inputs_that_fail_are_kept():
    def fails(case):
        return {"b", "d"} <= case.keys()

    assert fuzz_worksheets._fewer(dict.fromkeys("abcde", ""), fails) == {"b": "", "d": ""}


def test_the_same_seed_tries_the_same(monkeypatch):
    seen = []
    cases = fuzz.OTHERS["lists"][0]
    record = (cases, lambda case, tally: seen[-1].append(case))
    monkeypatch.setattr(fuzz, "OTHERS", {"lists": record})
    for seed in (1, 1, 2):
        seen.append([])
        fuzz.fuzz("lists", seed, 20)
    assert seen[0] == seen[1] != seen[2]
