"""What must never be in an answer, and what was found of it."""

import html
import json
import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from calc import model, quantities, search
from calc.errors import YardstickError
from calc.render import data, reply
from calc.render.answer import answer_html

NOT_A_NUMBER = re.compile(r"(?<![a-z])(?:nan|inf|infinity)(?![a-z])", re.I)
RESIDUE = re.compile(r"(?<![\d.])0\.0{7,}\d")
SENTENCE = re.compile(r"[.!?…][”’)]?$")


@dataclass
class Tally:
    """What was tried of one subject, and the shortest case of each kind of fault."""

    count: int = 0
    taken: int = 0  # inputs that were answered; the others were refused in sentences
    faults: dict[str, Any] = field(default_factory=dict)

    def note(self, fault: str, case: Any) -> None:
        """Keep a case of a fault when it is the shortest."""
        known = self.faults.get(fault)
        if known is None or len(repr(case)) < len(repr(known)):
            self.faults[fault] = case


def faults_of_text(what: str, text: str) -> Iterator[str]:
    """Say what in a text for readers is no number that anybody can use."""
    for pattern, name in ((NOT_A_NUMBER, "no number"), (RESIDUE, "what rounding left")):
        found = pattern.search(text)
        if found:
            yield f"{what} shows {name}, “{found[0]}”"


def faults_of_errors(errors: Mapping[str, str]) -> Iterator[str]:
    """Say which sentences about inputs aren't sentences."""
    for name, sentence in errors.items():
        if not SENTENCE.search(sentence):
            yield f"the error of {name or 'the form'} is no sentence: {sentence}"


def faults_of_remedies(answer: model.Answer) -> Iterator[str]:
    """Say which values that a remedy puts in its field refuses."""
    sheet = answer.worksheet
    for remedy in answer.advice.remedies:
        for name, text in remedy.set.items():
            try:
                for system in quantities.SYSTEMS:
                    sheet.field(name).read(text, system)
            except YardstickError as error:
                yield f"the remedy {remedy.key} sets {name} to what it refuses: {error}"
        if remedy.set:
            known = search.read(sheet, {**answer.given, **remedy.set})
            for name in known.errors.keys() - remedy.set.keys():
                yield f"the remedy {remedy.key} makes {name} refused: {known.errors[name]}"
            for name in known.errors.keys() & remedy.set.keys():
                yield f"the remedy {remedy.key} sets {name}, refused: {known.errors[name]}"


def faults_of_answer(answer: model.Answer, system: str) -> Iterator[str]:
    """Say what in an answer must never be."""
    for verdict in answer.verdicts:
        numbers = (verdict.value_low, verdict.value_high, verdict.limit_low, verdict.limit_high)
        if any(math.isnan(number) for number in numbers):
            yield f"the check {verdict.check.name} is NaN"
    for output in answer.outputs:
        if math.isnan(output.value):
            yield f"the output {output.name} is NaN"
    yield from faults_of_text("the page", html.unescape(answer_html(answer, system)))
    yield from faults_of_text("the reply", reply.reply(answer, system))
    json.dumps(data.data(answer, system), allow_nan=False)
    yield from faults_of_remedies(answer)


def thrown(error: Exception) -> str:
    """Name what was thrown, and where in our own code it came from."""
    place, trace = "", error.__traceback__
    while trace is not None:
        code = trace.tb_frame.f_code
        if "/calc/" in code.co_filename or "/scripts/" in code.co_filename:
            place = f"{Path(code.co_filename).stem}.{code.co_name}, line {trace.tb_lineno}"
        trace = trace.tb_next
    return f"{type(error).__name__} at {place}: {error}"


def kind_of(fault: str) -> str:
    """A fault without its numbers: what counts as the same fault."""
    return re.sub(r"[-+]?\d[\d.,]*(?:e[-+]?\d+)?", "#", fault)
