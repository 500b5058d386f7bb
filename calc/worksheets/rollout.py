"""Roll-out sheet: three measurements in the yard, and what they say about the front drive."""

from __future__ import annotations

import math

from calc import vocabulary
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import front_drive
from calc.picture import Arrow, Dimension, Disc, Item, Label, Line, Scene
from calc.worksheets import _tires as common
from calc.worksheets._tires import TURNS

MEASURED, COUNTED = "Measured", "Counted turns, if you want the lead itself"


def _windows() -> tuple[ws.Option, ...]:
    return tuple(ws.Option(w.key, w.label, w.source) for w in front_drive.windows())


def _span(low: float, high: float) -> ws.Typical:
    return ws.Typical(
        TURNS * low, TURNS * high, "tires/practice", "tires of compact and utility tractors"
    )


FIELDS: tuple[ws.AnyField, ...] = (
    vocabulary.field("old_front_ten_turns", label="Ten turns of a front tire (A)",
                     help="Front drive disengaged. Distance along the ground between the first "
                     "and the last mark.", default="76 ft 5 in",
                     typical=_span(*common.FRONT_SPAN), essential=True, group=MEASURED),
    vocabulary.field("old_rear_ten_turns", label="Ten turns of a rear tire (B)",
                     help="The same for a rear tire; roll, don't pull a load.",
                     default="108 ft 3 in", typical=_span(*common.REAR_SPAN), essential=True,
                     group=MEASURED),
    vocabulary.field("front_turns",
                     help="Wheels off the ground and blocked up safely, front drive and "
                     "differential lock engaged, rear wheel turned by hand ten times. Count to a "
                     "tenth. Or ten times the gear ratio printed in the manual.", default="14.6",
                     typical=ws.Typical(12.0, 16.0, "tires/WEB-7", "front drives"),
                     essential=True, group=MEASURED),
    ws.Choice(
        "lead_window", "Window of lead", _windows(),
        "Use your tractor manual's own window where it prints one.",
        default=front_drive.DEFAULT_WINDOW, group=MEASURED,
    ),
    vocabulary.field("front_tire", default="7-16 R-1", group="Sizes, to compare"),
    vocabulary.field("rear_tire", default="11.2-24 R-1", group="Sizes, to compare"),
    ws.Field(
        "front_turns_free", "Front turns over the course, front drive off", "count", "3", "200",
        "The same straight, level course both times, 50 m (165 ft) or more.", optional=True,
        group=COUNTED,
    ),
    ws.Field(
        "front_turns_engaged", "Front turns over the course, front drive on", "count", "3", "200",
        "Walking speed, no load. Count to a tenth of a turn, or by lugs.", optional=True,
        group=COUNTED,
    ),
)  # fmt: skip


def review(known: ws.KnownSoFar) -> dict[str, str]:
    """Return a sentence for each field that can't stand beside the others."""
    free, engaged = known.get("front_turns_free"), known.get("front_turns_engaged")
    if (free is None) != (engaged is None):
        missing = "front_turns_free" if free is None else "front_turns_engaged"
        return {missing: "The lead needs both counts, with the front drive off and on."}
    if free is not None and engaged is not None:
        ratio = engaged.middle / free.middle
        if not 0.7 <= ratio <= 1.4:
            return {
                "front_turns_engaged": "The two counts differ by more than two fifths: they must "
                "be over the same course."
            }
    return {}


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return the checks and outputs at one set of values."""
    window = front_drive.window(v.lead_window)
    front, rear = v.old_front_ten_turns / TURNS, v.old_rear_ten_turns / TURNS
    ratio = front_drive.gear_ratio_from_turns(TURNS, v.front_turns)
    lead = front_drive.lead(front, rear, ratio)
    work.step(
        "Gear ratio", "i", "front turns / rear turns",
        (("front turns", v.front_turns, "count"), ("rear turns", TURNS, "count")),
        ratio, "count", "tires/WEB-7",
    )  # fmt: skip
    work.step(
        "Lead from A, B and C", "lead", "A × i / B − 1",
        (("A", v.old_front_ten_turns, "length"), ("i", ratio, "count"),
         ("B", v.old_rear_ten_turns, "length")),
        lead, "fraction", "tires/TG-3", "", "",
    )  # fmt: skip
    why = (
        "Too little, and the rear pushes the front; too much, and the driveline winds up and wears "
        "tires and gears."
    )
    checks = [
        ws.between(
            "lead", "Front-drive lead", lead, window.low, window.high, "fraction", window.source,
            why=why,
        )
    ]  # fmt: skip
    outputs = [
        ws.Output("front_rolling", "One turn of the front tire", front, "length"),
        ws.Output("rear_rolling", "One turn of the rear tire", rear, "length"),
        ws.Output("gear_ratio", "Gear ratio, front turns for each rear turn", ratio, "count"),
        ws.Output("lead", "Lead from A, B and C", lead, "fraction"),
    ]
    if v.front_turns_free is not None and v.front_turns_engaged is not None:
        counted = front_drive.lead_from_turns(v.front_turns_free, v.front_turns_engaged)
        outputs.append(
            ws.Output("lead_counted", "Lead from the counted turns", counted, "fraction")
        )
        checks.append(
            ws.between(
                "counted", "Front-drive lead, counted", counted, window.low, window.high,
                "fraction", window.source, why=why,
            )
        )  # fmt: skip
        work.step(
            "Lead from counted turns", "lead", "N on / N off − 1",
            (("N on", v.front_turns_engaged, "count"), ("N off", v.front_turns_free, "count")),
            counted, "fraction", "tires/S7",
        )  # fmt: skip
    return ws.Outcome(checks, outputs)


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Return what tire would suit, the sheet itself, and how far the table is off."""
    window = front_drive.window(v.lead_window)
    remedies: list[ws.Remedy] = []
    if outcome.check("lead") and outcome.margin(["lead"]) < 0:
        ratio = v.front_turns / TURNS
        front = front_drive.front_circumference_for(
            v.old_rear_ten_turns / TURNS, ratio, window.middle
        )
        rear = front_drive.rear_circumference_for(
            v.old_front_ten_turns / TURNS, ratio, window.middle
        )
        for letter, name, other, length in (
            ("A", "front", "rear", front), ("B", "rear", "front", rear)
        ):  # fmt: skip
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        f"With these {other} tires, {name} tires that roll {{d}} in ten turns "
                        f"({letter}) have the best lead.",
                        d=(TURNS * length, "length", "ft"),
                    ),
                    set={f"old_{name}_ten_turns": f"{TURNS * length:.3f} m"},
                    source="tires/TG-3",
                )
            )
    return ws.Advice(remedies, _cautions(), [_sheet(), _blanks()], _notes(v))


def _notes(v: ws.Inputs) -> list[ws.Words]:
    notes: list[ws.Words] = []
    for axle, rolled in (("front", v.old_front_ten_turns), ("rear", v.old_rear_ten_turns)):
        tire = common.dimensions(getattr(v, f"{axle}_tire"))
        if tire is None:
            continue
        off = rolled / TURNS / tire.rolling_circumference - 1
        notes.append(
            ws.phrase(
                f"The {axle} tire rolls {{off}} % against the table's value for {{size}}, which "
                "may itself be off by {error} %.",
                off=common.signed(off), size=tire.designation.size,
                error=f"{100 * tire.circumference_error:.1f}",
            )
        )  # fmt: skip
    notes.append(
        ws.phrase(
            "Half an inch in the distances hardly matters; a tenth of a turn in C moves the lead "
            "by {points} points. So count C with the most care, or over twenty rear turns.",
            points=f"{10 / v.front_turns:.1f}",
        )
    )
    return notes


def _sheet() -> ws.Table:
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
    return ws.Table(
        "In the yard", ("Step",), tuple((step,) for step in steps), "tires/S7", checklist=True
    )


def _blanks() -> ws.Table:
    blank = "______________"
    rows = (
        ("Tractor, hours, date", blank), ("Front tire: size, make, pressure", blank),
        ("Rear tire: size, make, pressure", blank), ("A, ten front turns", blank),
        ("B, ten rear turns", blank), ("C, front turns for ten rear turns", blank),
        ("Lug height left, front and rear", blank),
    )  # fmt: skip
    return ws.Table("Write down", ("What", "Value"), rows)


def _cautions() -> list[ws.Caution]:
    return [
        ws.Caution(
            "Counting C lifts the tractor: on firm level ground, on stands made for its weight, "
            "brake off, engine stopped and key out, wheels turned by hand. If any of that isn't "
            "at hand, take the ratio from the manual instead."
        ),
        ws.Caution(
            "Nobody walks beside a moving wheel: chalk and measure only while the tractor stands "
            "still with the brake on."
        ),
        ws.Caution(
            "Never drive with the front drive engaged on hard ground just to see whether it "
            "winds up.", "tires/TG-3",
        ),
    ]  # fmt: skip


def picture(v: ws.Inputs, outcome: ws.Outcome) -> Scene:
    """Return the two tires rolled out along the ground, to scale, a tick for each turn."""
    a, b = v.old_front_ten_turns, v.old_rear_ten_turns
    front, rear = a / TURNS / (2 * math.pi), b / TURNS / (2 * math.pi)
    longest = max(a, b)
    items: list[Item] = []
    lanes = ((0.22 * longest, a, front, "A: front"), (0.0, b, rear, "B: rear"))
    for ground, length, radius, name in lanes:
        items.append(Line([(-rear, ground), (longest + rear, ground)], "ground"))
        for x in (0.0, length):
            items.append(Disc((x, ground + radius), radius, "fill"))
            items.append(Disc((x, ground + radius), radius, "ink", hole=True))
        for turn in range(TURNS + 1):
            x = length * turn / TURNS
            items.append(Line([(x, ground), (x, ground - 0.015 * longest)], "accent"))
        items.append(
            Arrow((0.25 * length, ground + radius), (0.75 * length, ground + radius), style="soft")
        )
        items.append(Label((length / 2, ground + radius), name, dy=-1.0))
        below = ground - 0.075 * longest
        items.append(
            Dimension((0, below), (length, below), ws.phrase("{d}", d=(length, "length", "ft")))
        )
    return Scene(
        "Ten turns of each tire",
        ws.phrase("Rolled along the ground: {a} at the front, {b} at the rear",
                  a=(a, "length", "ft"), b=(b, "length", "ft")),
        items,
    )  # fmt: skip


WORKSHEET = ws.Worksheet(
    name="rollout",
    title="Roll-out sheet",
    question="What lead does my front drive have?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    review=review,
    page="tires/rollout",
    example="a compact on 7-16 and 11.2-24 tires, measured in the yard.",
)
