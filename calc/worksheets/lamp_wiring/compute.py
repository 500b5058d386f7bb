"""The sums."""

from __future__ import annotations

from calc import arith, model
from calc.mechanics import wiring
from calc.worksheets.lamp_wiring.fields import _LAMPS

FOOT = wiring.FOOT

ORDER = ("head", "tail", "flash", "beacon", "work")
_NAMES = {
    "head": "Head lamps",
    "tail": "Tail lamps",
    "flash": "Flashing lamps",
    "beacon": "Beacons",
    "work": "Work lamps",
}


def _one(lamp: str) -> float:
    """The current of one lamp: as its data sheet says, else from its watts."""
    row = _LAMPS[lamp]
    if row["amps"]:
        return float(row["amps"])
    return wiring.lamp_current(float(row["watts"]), row["behavior"], float(row["volts"]))


_CURRENT = {key: _one(key) for key in _LAMPS}


def _lit(v: model.Inputs, kind: str) -> float:
    """The current of all lamps of one kind while they are lit."""
    if kind == "beacon":
        return arith.number(v.beacon_count * _CURRENT["led-beacon"])
    return arith.number(getattr(v, f"{kind}_count") * _CURRENT[getattr(v, f"{kind}_lamp")])


def _average(v: model.Inputs, kind: str) -> float:
    return _lit(v, kind) * (wiring.FLASHER_DUTY if kind == "flash" else 1.0)


def _road(v: model.Inputs) -> float:
    """On the road the work lamps are off."""
    return sum(_average(v, kind) for kind in ORDER if kind != "work") + arith.number(
        v.other_current
    )


def _field(v: model.Inputs) -> float:
    """In the field the flashing lamps are off and the work lamps on."""
    return sum(_average(v, kind) for kind in ("head", "tail", "beacon", "work")) + arith.number(
        v.other_current
    )


def _loop(v: model.Inputs) -> float:
    return wiring.loop_length(v.run, v.way_back == "wire", 0.5 * v.run)


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Return the checks of charging, wire and fuse."""
    road, field_load = _road(v), _field(v)
    current = _lit(v, v.circuit)
    loop = _loop(v)
    allowed = v.drop_allowed * wiring.RATED_VOLTAGE
    drop = wiring.voltage_drop(current, wiring.wire_resistance(int(v.gauge), loop, v.wire_standard))
    fuse = wiring.fuse_size(current)
    checks = [
        model.at_most(
            "road",
            "Load on the road",
            road,
            v.output,
            "current",
            f"{_cited(v, ORDER[:4])}; road/ALT-memory",
            why="The battery runs down and the lamps go dim.",
        ),
        model.at_most(
            "field",
            "Load in the field",
            field_load,
            v.output,
            "current",
            f"{_cited(v, ('head', 'tail', 'work'))}; road/ALT-memory",
            why="The battery runs down.",
        ),
    ]
    if current > 0:
        checks.append(
            model.at_most(
                "drop",
                "Voltage lost in the wire",
                drop,
                allowed,
                "voltage",
                "road/WEB-12; road/WEB-14; road/DROP-practice",
                why="Lamps lose light much faster than voltage.",
            )
        )
    if v.fuse is not None and current > 0:
        checks.append(
            model.at_least(
                "fuse",
                "Fuse fitted",
                v.fuse,
                wiring.FUSE_MARGIN * current,
                "current",
                "road/FUSE-practice",
                close_band=0.0,
                why="It blows on a warm night although nothing is wrong.",
            )
        )
    outputs = [
        model.Output("road_load", "Average current on the road", road, "current"),
        model.Output("field_load", "Average current in the field", field_load, "current"),
        model.Output("spare", "Left for the battery on the road", v.output - road, "current"),
        model.Output("circuit_current", "Current of the circuit while lit", current, "current"),
    ]
    if current > 0:
        outputs += [
            model.Output("drop", "Voltage lost in the wire", drop, "voltage"),
            model.Output(
                "light",
                "Light left in a filament lamp at that loss",
                wiring.light_left(arith.min(drop / wiring.RATED_VOLTAGE, 1.0)),
                "fraction",
            ),
        ]
        if fuse is not None:
            outputs.append(model.Output("fuse", "Fuse for it", fuse, "current"))
    short = arith.max(road, field_load) - v.output
    if short > 0:
        hours = wiring.battery_hours(v.battery, short)
        outputs.append(
            model.Output(
                "hours",
                "Until half the battery is gone",
                hours * 3600,
                "duration",
                "at the larger of the two loads",
            )
        )
    if work.on:
        _steps(v, work, road, current, loop, drop)
    return model.Outcome(checks, outputs)


def _cited(v: model.Inputs, kinds: tuple[str, ...]) -> str:
    keys = ["led-beacon" if k == "beacon" else getattr(v, f"{k}_lamp") for k in kinds]
    used = [
        _LAMPS[key]["source"]
        for key, kind in zip(keys, kinds, strict=True)
        if getattr(v, f"{kind}_count") > 0
    ]
    return "; ".join(dict.fromkeys([*used, "road/WORK-practice"]))


def _steps(
    v: model.Inputs, work: model.Work, road: float, current: float, loop: float, drop: float
) -> None:
    for kind in ORDER:
        if kind != "work" and getattr(v, f"{kind}_count"):
            lamp = "led-beacon" if kind == "beacon" else getattr(v, f"{kind}_lamp")
            duty = wiring.FLASHER_DUTY if kind == "flash" else 1.0
            work.step(
                _NAMES[kind],
                "I",
                "n I₁ × share of time lit",
                (
                    ("n", arith.number(getattr(v, f"{kind}_count")), "count"),
                    ("I₁", _CURRENT[lamp], "current"),
                    ("share", duty, "fraction"),
                ),
                _average(v, kind),
                "current",
                _LAMPS[lamp]["source"],
            )
    work.step(
        "Load on the road",
        "I",
        "sum + everything else",
        (("else", v.other_current, "current"),),
        road,
        "current",
        "road/CALC-1",
    )
    if current > 0:
        work.step(
            "Length of copper",
            "L",
            "2 × one way" if v.way_back == "wire" else "one way × 1.5 for the frame",
            (("one way", v.run, "length"),),
            loop,
            "length",
            "road/CALC-1",
            unit_us="ft",
            unit_metric="m",
        )
        work.step(
            "Voltage lost",
            "V",
            "I R L",
            (
                ("I", current, "current"),
                (
                    "R",
                    wiring.wire_resistance(int(v.gauge), 1.0, v.wire_standard),
                    "resistance_per_length",
                ),
            ),
            drop,
            "voltage",
            "road/WEB-14; road/SAE-memory; road/PHY-1",
        )
