"""Dimensions read from docstrings, and calls of a function that others made, to be scaled.

A parameter's or a result's unit stands in square brackets at the end of its description. In
another coherent set of units every number is its old one times a factor that follows from its
dimension; a formula that holds in one set holds in each.
"""

from __future__ import annotations

import dataclasses
import doctest
import importlib
import inspect
import random
import re
import sys
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from types import FrameType
from typing import Any

from calc import mechanics

Dimension = tuple[float, ...]  # powers of length, mass, time, current, money
Function = Callable[..., Any]

_ROOT = Path(mechanics.__file__).parent
NONE: Dimension = (0, 0, 0, 0, 0)
# Angles, shares and temperatures keep their numbers: a degree is the same step in every set.
_ATOMS: Mapping[str, Dimension] = {
    "m": (1, 0, 0, 0, 0),
    "kg": (0, 1, 0, 0, 0),
    "s": (0, 0, 1, 0, 0),
    "A": (0, 0, 0, 1, 0),
    "money": (0, 0, 0, 0, 1),
    "$": (0, 0, 0, 0, 1),
    "N": (1, 1, -2, 0, 0),
    "Pa": (-1, 1, -2, 0, 0),
    "J": (2, 1, -2, 0, 0),
    "W": (2, 1, -3, 0, 0),
    "V": (2, 1, -3, -1, 0),
    "ohm": (2, 1, -3, -2, 0),
    "Hz": (0, 0, -1, 0, 0),
    "rpm": (0, 0, -1, 0, 0),
    "rev/min": (0, 0, -1, 0, 0),
    "turn": NONE,
    "rad": NONE,
    "deg": NONE,
    "degrees": NONE,
    "deg C": NONE,
    "K": NONE,
    "°C": NONE,
    "percent": NONE,
    "any": NONE,  # two numbers of one unit, of which only the quotient counts
    "h": (0, 0, 1, 0, 0),
    "day": (0, 0, 1, 0, 0),
    "days": (0, 0, 1, 0, 0),
    "year": (0, 0, 1, 0, 0),
    "years": (0, 0, 1, 0, 0),
    "month": (0, 0, 1, 0, 0),
    "fraction": NONE,
    "-": NONE,
    "1": NONE,
}
_POWER = re.compile(r"^(.*?)([0-9²³])?$")
_UNIT = re.compile(r"\[([^\[\]]+)\]")


def dimension(unit: str) -> Dimension | None:
    """Return the dimension of a unit such as "kg m2", "m/s²" or "W/(m2 K)"; None if unknown."""
    unit = unit.strip()
    if unit in _ATOMS:
        return _ATOMS[unit]
    above, _, below = unit.partition("/")
    total = list(NONE)
    for sign, part in ((1, above), (-1, below.strip("()"))):
        for word in part.split():
            match = _POWER.match(word)
            assert match is not None
            atom, power = match[1], {"²": 2, "³": 3, None: 1}.get(match[2]) or int(match[2] or 1)
            if word in _ATOMS:
                atom, power = word, 1
            if atom not in _ATOMS:
                return None
            total = [t + sign * power * a for t, a in zip(total, _ATOMS[atom], strict=True)]
    return tuple(total)


def factor(of: Dimension, scales: Sequence[float]) -> float:
    """Return what a number of a dimension is multiplied with in the other set of units."""
    found = 1.0
    for power, scale in zip(of, scales, strict=True):
        found *= scale**power
    return found


# --- what a docstring says ------------------------------------------------------------------------


def _section(doc: str, title: str) -> str:
    match = re.search(rf"^{title}\n-+\n(.*?)(?=^\S[^\n]*\n-+\n|\Z)", doc, re.MULTILINE | re.DOTALL)
    return match[1] if match else ""


def units_of(section: str) -> dict[str, list[str]]:
    """Return the units that each entry of a section names, by the entry's name."""
    found: dict[str, list[str]] = {}
    for entry in re.split(r"^(?=\S)", section, flags=re.MULTILINE):
        head, _, text = entry.partition("\n")
        units = [unit for group in _UNIT.findall(text) for unit in group.split(", ")]
        names = [name.strip() for name in head.partition(":")[0].split(",") if name.strip()]
        each = len(names) == len(units) > 1  # "mass, length : float" and "[kg, m]" below it
        found |= {name: [units[i]] if each else units for i, name in enumerate(names)}
    return found


def parameters(function: Function) -> dict[str, list[str]]:
    """Return the units of a function's parameters, also where they are as in another one."""
    section = _section(inspect.getdoc(function) or "", "Parameters")
    found = units_of(section)
    for entry in re.split(r"^(?=\S)", section, flags=re.MULTILINE):
        head, _, text = entry.partition("\n")
        other = re.search(r"As in `(\w+)`", text)
        if other is not None:
            theirs = parameters(vars(sys.modules[function.__module__])[other[1]])
            names = [name.strip() for name in head.partition(":")[0].split(",")]
            found |= {name: theirs.get(name, []) for name in names}
    return found


def results(function: Function) -> list[str]:
    """Return the units of what a function returns, in order."""
    doc = inspect.getdoc(function) or ""
    section = _section(doc, "Returns")
    text = section or doc.partition("\n\n")[0]
    return [unit for group in _UNIT.findall(text) for unit in group.split(", ")]


# --- numbers, scaled ------------------------------------------------------------------------------


class Unread(Exception):
    """No dimension can be read for a number."""


def scaled(value: Any, units: Sequence[str], scales: Sequence[float]) -> Any:
    """Return a value, or all numbers in it, in the other set of units.

    Raises
    ------
    Unread
        Where a number has no unit that can be read.
    """
    if value is None or (isinstance(value, bool | str | int) and not units):
        return value
    if isinstance(value, bool | str):
        return value
    if isinstance(value, float | int):
        if len(units) != 1:
            raise Unread
        of = dimension(units[0])
        if of is None:
            raise Unread
        times = factor(of, scales)
        return value if times == 1.0 else value * times
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return _scaled_fields(value, scales)
    if hasattr(value, "_fields"):
        named = _class_units(type(value))
        return type(value)(
            *(scaled(getattr(value, n), named.get(n, []), scales) for n in value._fields)
        )
    if isinstance(value, Mapping):
        return {key: scaled(item, units, scales) for key, item in value.items()}
    if isinstance(value, list | tuple):
        each = all(isinstance(item, list | tuple) and len(item) == len(units) for item in value)
        if len(units) == len(value) and not (each and len(units) > 1):
            pairs: Iterable[tuple[Any, list[str]]] = zip(value, ([u] for u in units), strict=True)
            return type(value)(scaled(item, unit, scales) for item, unit in pairs)
        return type(value)(scaled(item, units, scales) for item in value)
    raise Unread


def _class_units(kind: type) -> dict[str, list[str]]:
    doc = inspect.getdoc(kind) or ""
    return units_of(_section(doc, "Attributes") or _section(doc, "Parameters"))


def _scaled_fields(value: Any, scales: Sequence[float]) -> Any:
    named = _class_units(type(value))
    return dataclasses.replace(
        value,
        **{
            item.name: scaled(getattr(value, item.name), named.get(item.name, []), scales)
            for item in dataclasses.fields(value)
            if item.init
        },
    )


# --- calls --------------------------------------------------------------------------------------


def public() -> dict[str, Function]:
    """Return every public function of the mechanics by "module.name"."""
    found: dict[str, Function] = {}
    for path in sorted(_ROOT.glob("[!_]*.py")):
        module = importlib.import_module(f"calc.mechanics.{path.stem}")
        for name, item in vars(module).items():
            plain = inspect.unwrap(item) if callable(item) else item
            ours = inspect.isfunction(plain) and plain.__module__ == module.__name__
            if ours and not name.startswith("_"):
                found[f"{path.stem}.{name}"] = plain
    return found


def recorded(run: Callable[[], None], most: int = 6) -> dict[str, list[dict[str, Any]]]:
    """Return the arguments of the first different calls of each function while something runs."""
    codes = {inspect.unwrap(f).__code__: name for name, f in public().items()}
    calls: dict[str, list[dict[str, Any]]] = defaultdict(list)

    def see(frame: FrameType, event: str, _: Any) -> None:
        name = codes.get(frame.f_code) if event == "call" else None
        if name is not None and len(calls[name]) < most:
            count = frame.f_code.co_argcount + frame.f_code.co_kwonlyargcount
            given = {key: frame.f_locals[key] for key in frame.f_code.co_varnames[:count]}
            if given not in calls[name]:
                calls[name].append(given)

    sys.setprofile(see)
    try:
        run()
    finally:
        sys.setprofile(None)
    return calls


def run_examples() -> None:
    """Run the examples in the docstrings of the mechanics."""
    for path in sorted(_ROOT.glob("[!_]*.py")):
        module = importlib.import_module(f"calc.mechanics.{path.stem}")
        for test in doctest.DocTestFinder().find(module):
            doctest.DocTestRunner(verbose=False).run(test, out=lambda _: None)


_USUAL: Mapping[Dimension, float] = {
    (0, 1, 0, 0, 0): 900.0,
    (1, 0, -1, 0, 0): 6.0,
    (2, 1, -3, 0, 0): 15000.0,
    (-1, 1, -2, 0, 0): 150000.0,
    (0, 0, 0, 0, 1): 900.0,
}


def drawn(function: Function, seed: str, tries: int = 30) -> list[dict[str, Any]]:
    """Return arguments by chance, which the function takes, for one that nothing calls."""
    rng, units, found = random.Random(seed), parameters(function), []
    for _ in range(tries):
        given: dict[str, Any] = {}
        for name, item in inspect.signature(function).parameters.items():
            of = dimension(units[name][0]) if len(units.get(name, [])) == 1 else None
            if item.annotation in ("float", float) and of is not None:
                given[name] = _USUAL.get(of, 0.5 if of == NONE else 2.0) * rng.uniform(0.2, 1.7)
            elif item.default is not inspect.Parameter.empty:
                given[name] = item.default
            else:
                return found
        try:
            function(**given)
        except ValueError:
            continue
        found.append(given)
    return found
