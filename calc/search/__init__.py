"""What holds for everything the inputs may be, and solving for remedies."""

from calc.search.answering import answer, answer_known
from calc.search.box import BadInputs, Box, Dimension, Known, box_of, read, read_box
from calc.search.errors import ErrorEffect, error_effects
from calc.search.forks import NotProvable
from calc.search.looking import SAMPLES, Search, evenly
from calc.search.remedies import Remedies
from calc.search.solver import Solver
from calc.search.standing import prove
from calc.search.verdicts import Foremost, verdicts

__all__ = [
    "SAMPLES",
    "BadInputs",
    "Box",
    "Dimension",
    "ErrorEffect",
    "Foremost",
    "Known",
    "NotProvable",
    "Remedies",
    "Search",
    "Solver",
    "answer",
    "answer_known",
    "box_of",
    "error_effects",
    "evenly",
    "prove",
    "read",
    "read_box",
    "verdicts",
]
