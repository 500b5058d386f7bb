"""The sums."""

from __future__ import annotations

from calc import model
from calc.mechanics import front_drive
from calc.subjects.tires import TURNS


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Return the checks and outputs at one set of values."""
    window = front_drive.window(v.lead_window)
    front, rear = v.old_front_ten_turns / TURNS, v.old_rear_ten_turns / TURNS
    ratio = front_drive.gear_ratio_from_turns(TURNS, v.front_turns)
    lead = front_drive.lead(front, rear, ratio)
    work.step(
        "Gear ratio",
        "i",
        "front turns / rear turns",
        (("front turns", v.front_turns, "count"), ("rear turns", TURNS, "count")),
        ratio,
        "count",
        "tires/WEB-7",
    )
    work.step(
        "Lead from A, B and C",
        "lead",
        "A × i / B − 1",
        (
            ("A", v.old_front_ten_turns, "length"),
            ("i", ratio, "count"),
            ("B", v.old_rear_ten_turns, "length"),
        ),
        lead,
        "fraction",
        "tires/TG-3",
        "",
        "",
    )
    why = (
        "Too little, and the rear pushes the front; too much, and the driveline winds up and wears "
        "tires and gears."
    )
    checks = [
        model.between(
            "lead",
            "Front-drive lead",
            lead,
            window.low,
            window.high,
            "fraction",
            window.source,
            why=why,
        )
    ]
    outputs = [
        model.Output("front_rolling", "One turn of the front tire", front, "length"),
        model.Output("rear_rolling", "One turn of the rear tire", rear, "length"),
        model.Output("gear_ratio", "Gear ratio, front turns for each rear turn", ratio, "count"),
        model.Output("lead", "Lead from A, B and C", lead, "fraction"),
    ]
    if v.front_turns_free is not None and v.front_turns_engaged is not None:
        counted = front_drive.lead_from_turns(v.front_turns_free, v.front_turns_engaged)
        outputs.append(
            model.Output("lead_counted", "Lead from the counted turns", counted, "fraction")
        )
        checks.append(
            model.between(
                "counted",
                "Front-drive lead, counted",
                counted,
                window.low,
                window.high,
                "fraction",
                window.source,
                why=why,
            )
        )
        work.step(
            "Lead from counted turns",
            "lead",
            "N on / N off − 1",
            (("N on", v.front_turns_engaged, "count"), ("N off", v.front_turns_free, "count")),
            counted,
            "fraction",
            "tires/S7",
        )
    return model.Outcome(checks, outputs)
