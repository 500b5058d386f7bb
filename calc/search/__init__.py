"""What holds for everything the inputs may be, and solving for remedies."""

from calc.search.answering import answer
from calc.search.box import BadInputs, Box, Dimension, known_of, read_box
from calc.search.intervals import NotProvable
from calc.search.looking import SAMPLES, Search, evenly
from calc.search.solver import Solver
from calc.search.standing import prove
from calc.search.verdicts import foremost, verdicts

__all__ = [
    "SAMPLES",
    "BadInputs",
    "Box",
    "Dimension",
    "NotProvable",
    "Search",
    "Solver",
    "answer",
    "evenly",
    "foremost",
    "known_of",
    "prove",
    "read_box",
    "verdicts",
]
