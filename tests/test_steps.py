"""Each shown step, recomputed from what it shows.

A formula that can be read as arithmetic (its numbers by their symbols, π, powers, roots, angles in
degrees) is worked out again by this file's own reader, for the example and for random machines,
and must give the value that stands beside it. A formula in words ("sum of the parts") is left.
"""

import math
import random
import re

import pytest

from calc import model, search, worksheets
from scripts import soundness

GREEK = {"π": math.pi, "g": 9.80665}
# The sums hold these in base units, but the formula speaks of days or liters.
OTHER_UNITS = {"duration", "money_per_hour", "fuel_rate", "money_per_volume", "temperature"}
FUNCTIONS = {
    "atan": lambda x: math.degrees(math.atan(x)),
    "asin": lambda x: math.degrees(math.asin(x)),
    "sin": lambda x: math.sin(math.radians(x)),
    "min": min,
    "max": max,
    "abs": abs,
    "sqrt": math.sqrt,
}
SIGNS = {"−": "-", "×": "*", "[": "(", "]": ")", "²": "**2", "³": "**3", "⁴": "**4"}
TOKEN = re.compile(r"\s+|\d+(?:\.\d+)?|\*\*[234]|[-+*/(),]|atan|asin|sin|min|max|abs|sqrt")


def reading(formula: str, numbers: dict[str, float]) -> str | None:
    """Return a formula as Python, None where some of it is words."""
    text = re.sub(r"^(.*), at most (\S+)$", r"min(\1, \2)", formula)
    text = re.sub(r"\|([^|]+)\|", r"abs(\1)", text).replace("√(", "sqrt(")
    text = re.sub(r"atan (\w+)", r"atan(\1)", text)
    names = sorted({*numbers, *GREEK}, key=len, reverse=True)
    done: list[str] = []
    while text:
        name = next((name for name in names if _starts(text, name)), None)
        if name is not None:
            found, length = f"({(GREEK | numbers)[name]!r})", len(name)
        elif text[0] in SIGNS:
            found, length = SIGNS[text[0]], 1
        elif match := TOKEN.match(text):
            found, length = match[0], match.end()
        else:
            return None
        if not found.isspace():
            value = found[0] == "(" or found[0].isdigit() or found in FUNCTIONS
            after = done and (done[-1][-1] == ")" or done[-1][-1].isdigit())
            if value and after:
                done.append("*")
            done.append(found)
        text = text[length:]
    return "".join(done)


def _starts(text: str, name: str) -> bool:
    """Whether a text begins with a name, and not with a longer word."""
    after = text[len(name) : len(name) + 1]
    return text.startswith(name) and not ((after.isalnum() and after not in "²³⁴") or after == "_")


def recomputed(step: model.Step) -> float | None:
    """Return a step's value from the formula and the numbers that it shows."""
    kinds = {step.kind, *(kind for _, _, kind in step.numbers)}
    if kinds & OTHER_UNITS:
        return None
    code = reading(step.formula, {name: value for name, value, _ in step.numbers})
    if code is None or not step.numbers:
        return None
    try:
        value = eval(code, {"__builtins__": {}}, dict(FUNCTIONS))
    except (SyntaxError, TypeError):
        return None
    return float(value)


def test_the_reader_reads() -> None:
    """By hand: 2 · 3² − 1 = 17; atan 1 = 45 degrees; the lesser of two."""
    numbers = {"a": 2.0, "b c": 3.0, "T_F,min": 1.0}
    for formula, value in (
        ("a b c² − T_F,min", 17.0),
        ("[a + b c] / (a − T_F,min)", 5.0),
        ("atan(T_F,min)", 45.0),
        ("a b c, at most a", 2.0),
        ("|a − b c|", 1.0),
        ("π √(b c + T_F,min)", 2 * math.pi),
    ):
        code = reading(formula, numbers)
        assert code is not None
        assert eval(code, {"__builtins__": {}}, dict(FUNCTIONS)) == pytest.approx(value)
    assert reading("sum of the parts", numbers) is None


def machines(sheet: model.Worksheet) -> list[model.Inputs]:
    """The example, and some random machines."""
    box = search.read_box(sheet, {}, example=True)
    found = [box.point({})]
    rng = random.Random(f"steps {sheet.name}")
    for inputs in soundness.boxes(sheet, rng, 12):
        box = search.read_box(sheet, inputs)
        found += [box.point(soundness.random_point(box, rng)) for _ in range(3)]
    return found


@pytest.mark.parametrize("name", worksheets.names())
def test_each_step_gives_what_stands_beside_it(name: str) -> None:
    sheet = worksheets.load(name)
    wrong: list[str] = []
    read: set[str] = set()
    for inputs in machines(sheet):
        work = model.Work()
        sheet.compute(inputs, work)
        for step in work.steps:
            ours = recomputed(step)
            if ours is None:
                continue
            read.add(step.label)
            if step.label in DIFFER:
                continue
            if ours != pytest.approx(step.value, rel=1e-6, abs=1e-9):
                wrong.append(f"{step.label}: {step.formula} = {ours}, shown {step.value}; {step}")
    assert not wrong, "\n".join(wrong[:3])
    assert len(read) >= LEAST_READ.get(name, 0), sorted(read)


# How many steps of each calculator are recomputed at least: the reader can't fall silent.
LEAST_READ = {
    "ballast": 4,
    "closing": 3,
    "digger": 5,
    "drive": 3,
    "driveline": 3,
    "duals": 5,
    "pairing": 3,
    "pto": 2,
    "road-towing": 2,
    "tire-size": 2,
    "tires": 5,
}

# Steps whose formula leaves out a case that the sums have, each to be mended where it stands.
DIFFER = {
    "Lift at the implement's center of gravity": "some ratings stand for another pivot than r",
    "Overlap where the rule looks": "some rules look at another length than L₁",
}
