"""What to do about it."""

from __future__ import annotations

from calc import model
from calc.mechanics import front_drive
from calc.search import Remedies
from calc.subjects import tires as common
from calc.subjects.blank import still
from calc.subjects.tires import TURNS

CENTIMETER = 0.01


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Return what tire would suit, the sheet itself, and how far the table is off."""
    if "gear_ratio" in found and "front_rolling" in found and "rear_rolling" in found:
        _suit(v, found, remedies)
    remedies.do("recount", ("lead", "counted"), source="tires/S7")
    cautions = found.cautions("lifting", "beside", "hard_ground")
    tables = [_sheet(), _blanks()]
    if "lead" in found:
        tables.append(common.window_table(found.lead))
    missing = still(v, found, _needed(v))
    says = {ask: found.note(f"ask_{ask}", missing=missing) for ask in ("lead", "wear")}
    return model.Advice(cautions=cautions, tables=tables, notes=_notes(v, found), says=says)


def _needed(v: model.Inputs) -> tuple[str, ...]:
    """What the lead takes: the rear's turns where the front's were counted on loose ground, or A,
    B and C."""
    if v.front_turns_free is None:
        return ("old_front_ten_turns", "old_rear_ten_turns", "front_turns")
    return ("rear_turns_free", "rear_turns_engaged")


def _suit(v: model.Inputs, found: model.Found, remedies: Remedies) -> None:
    """Offer the distance that other tires must roll, to the centimeter."""
    window = front_drive.window(v.lead_window)
    ratio = found.gear_ratio
    front = front_drive.front_circumference_for(found.rear_rolling, ratio, window.middle)
    rear = front_drive.rear_circumference_for(found.front_rolling, ratio, window.middle)
    for axle, length in (("front", front), ("rear", rear)):
        rolled = round(TURNS * length / CENTIMETER) * CENTIMETER
        name = f"old_{axle}_ten_turns"
        remedies.change(name, {name: rolled}, mends=("lead",), source="tires/TG-3")


def _notes(v: model.Inputs, found: model.Found) -> list[model.Words]:
    notes: list[model.Words] = []
    for axle, rolled in (("front", v.old_front_ten_turns), ("rear", v.old_rear_ten_turns)):
        tire = common.dimensions(getattr(v, f"{axle}_tire"))
        if tire is None or rolled is None:
            continue
        off = rolled / TURNS / tire.rolling_circumference - 1
        error = f"{100 * tire.circumference_error:.1f}"
        more = {"axle": axle, "size": tire.designation.size, "error": error}
        notes.append(found.note("off", off=common.signed(off), **more))
    if v.front_turns is not None:
        notes.append(found.note("count", points=f"{10 / v.front_turns:.1f}"))
    notes.append(found.note("slip"))
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
        ("Front tire: size, make, tread, pressure", blank),
        ("Rear tire: size, make, tread, pressure", blank),
        ("A, ten front turns", blank),
        ("B, ten rear turns", blank),
        ("C, front turns for ten rear turns", blank),
        ("Lug height left, front and rear", blank),
    )
    return model.Table("Write down", ("What", "Value"), rows)
