"""What to do about it."""

from __future__ import annotations

from calc import model
from calc.mechanics import front_drive
from calc.search import Solver
from calc.subjects import tires as common
from calc.subjects.tires import TURNS


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Return what tire would suit, the sheet itself, and how far the table is off."""
    window = front_drive.window(v.lead_window)
    remedies: list[model.Remedy] = []
    if outcome.check("lead") and outcome.margin(["lead"]) < 0:
        ratio = v.front_turns / TURNS
        front = front_drive.front_circumference_for(
            v.old_rear_ten_turns / TURNS, ratio, window.middle
        )
        rear = front_drive.rear_circumference_for(
            v.old_front_ten_turns / TURNS, ratio, window.middle
        )
        for letter, name, other, length in (
            ("A", "front", "rear", front),
            ("B", "rear", "front", rear),
        ):
            remedies.append(
                model.Remedy(
                    model.phrase(
                        f"With these {other} tires, {name} tires that roll {{d}} in ten turns "
                        f"({letter}) have the best lead.",
                        d=(TURNS * length, "length", "ft"),
                    ),
                    set={f"old_{name}_ten_turns": f"{TURNS * length:.3f} m"},
                    source="tires/TG-3",
                )
            )
    return model.Advice(remedies, _cautions(), [_sheet(), _blanks()], _notes(v))


def _notes(v: model.Inputs) -> list[model.Words]:
    notes: list[model.Words] = []
    for axle, rolled in (("front", v.old_front_ten_turns), ("rear", v.old_rear_ten_turns)):
        tire = common.dimensions(getattr(v, f"{axle}_tire"))
        if tire is None:
            continue
        off = rolled / TURNS / tire.rolling_circumference - 1
        notes.append(
            model.phrase(
                f"The {axle} tire rolls {{off}} % against the table's value for {{size}}, which "
                "may itself be off by {error} %.",
                off=common.signed(off),
                size=tire.designation.size,
                error=f"{100 * tire.circumference_error:.1f}",
            )
        )
    notes.append(
        model.phrase(
            "Half an inch in the distances hardly matters; a tenth of a turn in C moves the lead "
            "by {points} points. So count C with the most care, or over twenty rear turns.",
            points=f"{10 / v.front_turns:.1f}",
        )
    )
    return notes


def _sheet() -> model.Table:
    steps = (
        "Set tires to their working pressure, with the ballast, loader and implement they work "
        "with.",
        "Pick a straight, level, hard course of 50 m (165 ft) or more. Front drive off.",
        "Chalk each tire and the ground where the tread touches, straight below the axle.",
        "Roll straight at walking speed for ten turns of a front tire; chalk the ground; measure: "
        "that is A.",
        "The same for ten turns of a rear tire: that is B.",
        "Read the gear ratio from the manual and multiply by ten, or have the wheels blocked up "
        "and count: that is C.",
        "Write A, B and C into the fields of the same letter, here or on the tire swap page.",
    )
    return model.Table(
        "In the yard", ("Step",), tuple((step,) for step in steps), "tires/S7", checklist=True
    )


def _blanks() -> model.Table:
    blank = "______________"
    rows = (
        ("Tractor, hours, date", blank),
        ("Front tire: size, make, pressure", blank),
        ("Rear tire: size, make, pressure", blank),
        ("A, ten front turns", blank),
        ("B, ten rear turns", blank),
        ("C, front turns for ten rear turns", blank),
        ("Lug height left, front and rear", blank),
    )
    return model.Table("Write down", ("What", "Value"), rows)


def _cautions() -> list[model.Caution]:
    return [
        model.Caution(
            "Counting C lifts the tractor: on firm level ground, on stands made for its weight, "
            "brake off, engine stopped and key out, wheels turned by hand. If any of that isn't "
            "at hand, take the ratio from the manual instead."
        ),
        model.Caution(
            "Nobody walks beside a moving wheel: chalk and measure only while the tractor stands "
            "still with the brake on."
        ),
        model.Caution(
            "Never drive with the front drive engaged on hard ground just to see whether it "
            "winds up.",
            "tires/TG-3",
        ),
    ]
