"""Random inputs of a worksheet, each tried, and cut down to the fewest that fail."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from hypothesis import strategies as st

from calc import model, quantities, search, worksheets
from scripts.faults import Tally, faults_of_answer, faults_of_errors, kind_of, thrown
from scripts.hostile import inputs_of

PROVED_ONE_IN = 20  # a proof over ranges takes as long as twenty single answers


@dataclass(frozen=True)
class Asked:
    """How inputs are asked about."""

    ask: str
    system: str
    full: bool  # over all that the inputs may be, not for their middle alone


def try_inputs(
    sheet: model.Worksheet, inputs: Mapping[str, str], asked: Asked
) -> tuple[bool, list[str]]:
    """Answer inputs; return whether they were taken, and what was wrong."""
    try:
        answer = search.answer(sheet, inputs, asked.system, ask=asked.ask, full=asked.full)
    except search.BadInputs as bad:
        return False, list(faults_of_errors(bad.errors))
    except Exception as error:
        return False, [thrown(error)]
    try:
        return True, list(faults_of_answer(answer, asked.system))
    except Exception as error:
        return True, [thrown(error)]


def _fewer(case: dict[str, str], fails: Callable[[dict[str, str]], bool]) -> dict[str, str]:
    """Return the inputs of a case that are needed for it to fail."""
    for name in tuple(case):
        less = {key: text for key, text in case.items() if key != name}
        if fails(less):
            case = less
    return case


def fuzz_worksheet(name: str) -> tuple[st.SearchStrategy[Any], Callable[[Any, Tally], None]]:
    """Return what to try with a worksheet, and how."""
    sheet = worksheets.load(name)
    asks = [ask.key for ask in sheet.asks] or [""]
    how = st.builds(
        Asked,
        st.sampled_from(asks),
        st.sampled_from(quantities.SYSTEMS),
        st.integers(1, PROVED_ONE_IN).map(lambda draw: draw == PROVED_ONE_IN),
    )

    def attempt(case: tuple[dict[str, str], Asked], tally: Tally) -> None:
        inputs, asked = case
        taken, faults = try_inputs(sheet, inputs, asked)
        tally.taken += taken
        for fault in faults:
            kind = kind_of(fault)
            if kind in tally.faults:
                continue

            def fails(less: dict[str, str], kind: str = kind) -> bool:
                return any(kind_of(f) == kind for f in try_inputs(sheet, less, asked)[1])

            shortest = _fewer(inputs, fails)
            said = next(f for f in try_inputs(sheet, shortest, asked)[1] if kind_of(f) == kind)
            tally.note(kind, (said, shortest, asked))

    return st.tuples(inputs_of(sheet), how), attempt
