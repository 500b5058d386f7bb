"""The sheet itself."""

from __future__ import annotations

from calc import model, quantities
from calc.machines import vocabulary
from calc.search import Remedies
from calc.subjects import loader
from calc.subjects.standing import stand
from calc.worksheets.capability import able
from calc.worksheets.capability.compute import BRAKED, EVEN

# What has to be read on the machine where nobody said it, in the order of what it may change.
PLATES = (
    "tractor_mass",
    "pto_power",
    "lift_capacity",
    "front_axle_mass",
    "wheelbase",
    "hitch_distance",
    "front_axle_limit",
    "rear_axle_limit",
    "rear_tire_load",
    "front_tire_load",
    "loader_rating",
    "counterweight_asked",
)
LOADER_PLATES = ("front_tire_load", "loader_rating", "counterweight_asked")
NONE = "none"
MOST_ASKED = ("rotary_cutter", "box_blade")


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Return the sheet: implements, loads and what is still to be read."""
    worst = able.unfavorable(v, remedies.assumed)
    listed = [able.widths(worst, kind, label) for kind, label in able.kinds()]
    loads = _loads(v, worst)
    open_ = "loader" in remedies.assumed
    notes = [found.note("how"), *([found.note(f"taken_{worst.loader}")] if open_ else [])]
    return model.Advice(
        cautions=found.cautions("manuals", "rest", "plates", "towing"),
        tables=[_widths_table(listed), loads, _plates_table(v, remedies.assumed)],
        notes=notes,
        headline=_either(worst, found) if open_ else _headline(worst, found, listed),
    )


def _either(worst: model.Inputs, found: model.Found) -> model.Words:
    """Say what runs with the loader on and off, where nobody said which."""
    numbers: dict[str, model.Number] = {}
    for fitted in ("on", "off"):
        for kind in MOST_ASKED:
            width, _ = able.widest(worst.but(loader=fitted), kind, "typical")
            numbers[f"{kind}_{fitted}"] = (width, "length") if width else NONE
    none = all(width is NONE for width in numbers.values())
    return found.note("either_none" if none else "either", **numbers)


def _headline(worst: model.Inputs, found: model.Found, listed: list[able.Widths]) -> model.Words:
    """Say the two implements that most are asked about, and what may be towed."""
    asked = [item for kind in MOST_ASKED for item in listed if item.kind == kind]
    widths, end = [item.widths[1] for item in asked], ""
    weights = max(item.weights for item in asked)
    if not all(widths):
        # Weights in front are what a tractor without a loader goes out with.
        widths = [able.widest(worst, kind, "typical", weights)[0] for kind in MOST_ASKED]
        end = "_weighted" if weights and all(widths) else "_none"
    cutter, blade = widths
    numbers = {
        "cutter": (cutter, "length"),
        "blade": (blade, "length"),
        "weights": (weights, "mass"),
    }
    towed = (_towed(worst)[0], "mass")
    key = ("with" if worst.loader == "on" else "without") + end
    return found.note(key, towed=towed, **numbers)


def _towed(worst: model.Inputs) -> tuple[float, float]:
    """Return the heaviest trailer without brakes and with its own, in whole steps. [kg]"""
    mass = stand(worst.but(loader_payload=None)).mass
    even, braked = (able.STEP * (share * mass // able.STEP) for share in (EVEN, BRAKED))
    return even, braked


def _cell(width: float, light: float) -> model.Cell:
    if not width and light:
        return model.phrase("{w}, a light one", w=(light, "length"))
    return (width, "length") if width else NONE


def _named(item: able.Widths) -> str:
    """The kind of implement, with the condition that its widths stand under."""
    if not item.waits:
        return item.label
    labels = [vocabulary.field(name).label for name in item.waits]
    limits = quantities.joined([label[:1].lower() + label[1:] for label in labels])
    return f"{item.label}, if {limits} {'allows' if len(labels) == 1 else 'allow'} it"


def _widths_table(listed: list[able.Widths]) -> model.Table:
    rows = []
    for item in listed:
        more: model.Cell = "\u2014"
        if item.weights:
            more = model.phrase(
                "{w} with {m} in front", w=(item.with_weights, "length"), m=(item.weights, "mass")
            )
        rows.append((_named(item), *map(_cell, item.widths, item.light), more, item.limit))
    return model.Table(
        "Widest stock size that passes every check",
        ("Implement", "Light work", "Usual work", "Heavy work", "With weights", "What stops more"),
        tuple(rows),
        "hitch/TYPICAL-memory; hitch/MACHINE-memory; hitch/PRACTICE; power/PRACTICE",
        "Each at the heavy end of what is usual for its width; a lighter one may pass wider.",
    )


def _loads(v: model.Inputs, worst: model.Inputs) -> model.Table:
    bale, bale_stop = able.heaviest(worst, able.SPEAR, able.SPEAR_MASS, 0.85)
    even, braked = _towed(worst)
    pallet, pallet_stop = able.heaviest(worst, able.FORKS, able.FORKS_MASS, 0.75)
    rows: list[tuple[model.Cell, ...]] = [
        ("Round bale on a rear spear", _mass(bale), "", bale_stop),
        ("Pallet on rear forks", _mass(pallet), "", pallet_stop),
    ]
    if v.loader != "none":
        rows += [_loader_row(worst, tool, label) for tool, label in _TOOLS]
    rows += [
        ("Trailer without brakes", (even, "mass"), "", "the tractor's own mass"),
        (
            "Trailer with its own brakes",
            (braked, "mass"),
            "",
            "one compact's manual; yours comes first",
        ),
    ]
    return model.Table(
        "Heaviest loads",
        ("Load", "At most", "Behind, at least", "What stops more"),
        tuple(rows),
        "hitch/T26; hitch/M8; hitch/T6L; hitch/H7; hitch/M4L",
        "Rounded down to 50 lb. Level ground, carried low, at a walk.",
    )


_TOOLS = (
    ("bucket", "In the loader's bucket"),
    ("forks", "Pallet on the loader's forks"),
    ("spear", "Round bale on the loader's spear"),
)


def _mass(value: float) -> model.Cell:
    return (value, "mass") if value else NONE


def _loader_row(v: model.Inputs, tool: str, label: str) -> tuple[model.Cell, ...]:
    lifts = able.on_loader(v, tool)
    if lifts is None:
        return (label, "read the loader's rating", "", "")
    stands = stand(v.but(loader="on", loader_payload=None))
    out = v.loader_reach if v.loader_reach is not None else 1.4
    behind = loader.counterweight(stands, v.hitch_distance, lifts, out)
    why: model.Cell = "the loader's rating, farther out"
    most = stands.front + lifts * (1.0 + out / stands.base)
    if v.front_axle_limit is None:
        why = model.phrase("front axle would carry {f}: read its limit", f=(most, "mass"))
    elif most > v.front_axle_limit:
        spare = max(v.front_axle_limit - stands.front, 0.0) / (1.0 + out / stands.base)
        lifts = able.STEP * (spare // able.STEP)
        why = "the front axle's limit"
    return (label, _mass(lifts), (behind, "mass"), why)


def _plates_table(v: model.Inputs, assumed: frozenset[str]) -> model.Table:
    rows = []
    for name in PLATES:
        if v.loader in ("off", "none") and name in LOADER_PLATES:
            continue
        if getattr(v, name) is None or name in assumed:
            item = vocabulary.field(name)
            rows.append((item.label, item.help, "__________"))
    return model.Table(
        "Still to be read on the machine",
        ("Number", "Where", "It is"),
        tuple(rows) or (("Nothing", "every number was given", ""),),
        checklist=bool(rows),
    )
