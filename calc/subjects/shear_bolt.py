"""What lets go first: the bolt or clutch that protects an implement, and when it is the right one.

It protects the implement's gearbox and the driveline, not the tractor, and only the implement's
manual knows which one they need. So the tractor's power never picks a bolt here: a bolt is right
when it is the manual's, and otherwise its torque is held against what it has to protect.
"""

from typing import Any

from calc import arith, model, si, tables
from calc.mechanics import overload

STUB = 1.375 * si.INCH  # hitch/S5: Types 1 and 2
UNSTATED = "unstated"
HARD_GRADES = ("grade_5", "grade_8")  # behind a clutch these hold the yoke; they don't let go
SOFT_GRADE = "grade_2"  # it shears: behind a clutch the bolt would go before the clutch slips


def options(table: str) -> tuple[model.Option, ...]:
    """The rows of a table, by key and name, as options."""
    return tuple(model.Option(row["key"], row["name"]) for row in tables.rows(table))


def _known_or_not(name: str, table: str, example: str, group: str) -> model.Choice:
    unknown = model.Option(UNSTATED, "Not known")
    return model.Choice(
        name, (*options(table), unknown), example=example, group=group, usual=UNSTATED
    )


def fields(group: str, size: str) -> tuple[model.AnyField, ...]:
    """Whether it is the manual's, and a bolt's size, grade and place; `size` is the example's."""
    return (
        model.Choice(
            "bolt_as_manual",
            (
                model.Option("yes", "Yes, the manual names it"),
                model.Option("no", "No, or another one"),
                model.Option(UNSTATED, "Not looked up"),
            ),
            example="yes",
            essential=True,
            group=group,
            usual=UNSTATED,
        ),
        _known_or_not("bolt_size", "driveline/shear_bolt_sizes", size, group),
        _known_or_not("bolt_grade", "driveline/shear_bolt_grades", "grade_2", group),
        model.Choice(
            "bolt_plane",
            (model.Option("shank", "Smooth shank"), model.Option("thread", "Threads")),
            example="shank",
            unsure=("shank", "thread"),
            group=group,
        ),
    )


def bolt_torque(v: model.Inputs, planes: int, diameter: float) -> float | None:
    """Return the torque at which the bolt shears, when its size and grade are known. [N m]"""
    if UNSTATED in (v.bolt_size, v.bolt_grade):
        return None
    threads = v.bolt_plane == "thread"
    return overload.shear_bolt(v.bolt_size, v.bolt_grade, threads, planes, 0.5 * diameter).torque


def check_as_manual(at: Any, v: model.Inputs, *, bolt: bool = True, clutch: bool = False) -> None:
    """Check that what protects the implement is what its manual names."""
    if v.bolt_as_manual == "yes":
        at.fits("protection", 1.0, "value/MM-4", "manual")
    elif v.bolt_as_manual == "no":
        at.fits("protection", -1.0, "value/MM-4", "other")
    elif bolt and v.bolt_grade in HARD_GRADES:
        at.fits("protection", -1.0, "value/MM-5; value/FO-4", "hard")
    elif clutch and v.bolt_grade == SOFT_GRADE:
        at.fits("protection", -1.0, "value/MM-5; value/FO-4", "soft")
    else:
        at.not_checked("protection_known", "bolt_as_manual")


def inches(value: float, parts: int, *, up: bool = False) -> str:
    """A length as field text, to so many parts of an inch, rounded to the safe side."""
    count = value / si.INCH * parts
    return f"{(arith.ceil(count + 1e-6) if up else arith.floor(count - 1e-6)) / parts:g} in"
