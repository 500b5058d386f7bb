"""What people type about a quantity, and how a quantity is shown.

Inside the package every quantity is a float in the base unit of its kind (SI, with
the few exceptions that kinds.csv names: rpm, degrees and currency). Text is turned
into that base unit here and nowhere else, and back.
"""

from calc.quantities.phrases import joined, shorten
from calc.quantities.reading import LONGEST_TEXT, UNKNOWN_WORDS, Reading, base, parse
from calc.quantities.showing import (
    FIGURES,
    NOTHING,
    amount,
    kept_to,
    number,
    show,
    show_both,
    show_range,
    sixteenths,
    whole_steps,
    with_unit,
)
from calc.quantities.spelled import TIMES, one_end, spelled
from calc.quantities.units import SYSTEMS, Kind, Unit, kind, kinds, summed, unit_for

__all__ = [
    "FIGURES",
    "LONGEST_TEXT",
    "NOTHING",
    "SYSTEMS",
    "TIMES",
    "UNKNOWN_WORDS",
    "Kind",
    "Reading",
    "Unit",
    "amount",
    "base",
    "joined",
    "kept_to",
    "kind",
    "kinds",
    "number",
    "one_end",
    "parse",
    "shorten",
    "show",
    "show_both",
    "show_range",
    "sixteenths",
    "spelled",
    "summed",
    "unit_for",
    "whole_steps",
    "with_unit",
]
