"""The caution that fits what was found."""

from __future__ import annotations

import re

from calc import model
from calc.model import Answer
from calc.render import concerns

LEAST_CAUTION = "The manuals come first."

# Words that say nothing of what a caution is about, by their first letters.
_SAY_NOTHING = """
all and any are but can down each far few for get goes has here how its let may more not now off
one only out over own per put say see than the they too two under use was way yes yet you
about above after befor being below both could every first from have into keep less more
most much never nothi only other over same than that their them then there these they this
those tract under until what when where which while with your
lamp lamps light turn turns
"""
_EMPTY = frozenset(_SAY_NOTHING.split())


def stems(text: str) -> set[str]:
    """The words that say what a text is about, each by its first letters."""
    return {word[:5] for word in re.findall(r"[a-z]{3,}", text.lower())} - _EMPTY


def choose(answer: Answer, lead: str) -> str:
    """The caution that has most in common with what was found, else with what was asked.

    The first where none has anything.
    """
    cautions = answer.advice.cautions
    if not cautions:
        return LEAST_CAUTION
    broken = [v.check for v in answer.verdicts if concerns.is_broken(v)]
    said, found = stems(lead), stems(" ".join(f"{c.heading(model.OVER)} {c.why}" for c in broken))
    asked = stems(answer.ask.question)

    def fitting(caution: model.Caution) -> tuple[int, int, int]:
        about = stems(caution.text)
        return len(about & said), len(about & found), len(about & asked)

    return max(cautions, key=fitting).text
