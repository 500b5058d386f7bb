"""The sums."""

from __future__ import annotations

from calc import model
from calc.mechanics import front_drive
from calc.subjects.tires import TURNS


def compute(v: model.Inputs, at: model.At) -> None:
    """Name the lead by A, B and C, and the one that was counted; check them."""
    window = front_drive.window(v.lead_window)
    if v.old_front_ten_turns is not None:
        at.front_rolling = v.old_front_ten_turns / TURNS
    if v.old_rear_ten_turns is not None:
        at.rear_rolling = v.old_rear_ten_turns / TURNS
    if v.front_turns is not None:
        at.gear_ratio = front_drive.gear_ratio_from_turns(TURNS, v.front_turns)
        at.step(
            "gear_ratio",
            "i = front turns / rear turns",
            "tires/WEB-7",
            **{"front turns": "front_turns", "rear turns": (TURNS, "count")},
        )
    counted = _counted(v, at)
    measured = _measured(v, at)
    if counted and measured:
        at.between("counted", "lead_counted", window.low, window.high, window.source)
    elif counted:
        at.lead = at.lead_counted
    if counted or measured:
        at.between("lead", "lead", window.low, window.high, window.source)


def _measured(v: model.Inputs, at: model.At) -> bool:
    """The lead by A, B and C; whether all three are there."""
    names = ("old_front_ten_turns", "old_rear_ten_turns", "front_turns")
    missing = [name for name in names if getattr(v, name) is None]
    if missing:
        if "lead_counted" not in at:
            at.not_checked("lead", missing[0])
        return False
    at.lead = front_drive.lead(at.front_rolling, at.rear_rolling, at.gear_ratio)
    at.step(
        "lead",
        "lead = A × i / B − 1",
        "tires/TG-3",
        A="old_front_ten_turns",
        i="gear_ratio",
        B="old_rear_ten_turns",
    )
    return True


def _counted(v: model.Inputs, at: model.At) -> bool:
    """The lead by counting. On loose ground both axles slip, so the rear is counted as well."""
    if v.front_turns_free is None or v.front_turns_engaged is None:
        return False
    free, engaged = v.front_turns_free, v.front_turns_engaged
    if v.rear_turns_free is not None and v.rear_turns_engaged is not None:
        at.lead_counted = front_drive.lead_from_all_turns(
            free, engaged, v.rear_turns_free, v.rear_turns_engaged
        )
        at.step(
            "lead_counted",
            "lead = (Nf on / Nf off) / (Nr on / Nr off) − 1",
            "tires/derived",
            **{"Nf on": "front_turns_engaged", "Nf off": "front_turns_free"},
            **{"Nr on": "rear_turns_engaged", "Nr off": "rear_turns_free"},
        )
        return True
    if v.course != "hard":
        at.not_checked("counted", "rear_turns_engaged")
        return False
    at.lead_counted = front_drive.lead_from_turns(free, engaged)
    at.step(
        "lead_counted",
        "lead = N on / N off − 1",
        "tires/S7",
        **{"N on": "front_turns_engaged", "N off": "front_turns_free"},
    )
    return True
