"""The sums."""

from __future__ import annotations

from collections.abc import Callable

from calc import arith, model
from calc.mechanics import electrical_load, wiring
from calc.worksheets.lamp_wiring.fields import CHARGING, FUSES, GAUGES, LAMPS

ORDER = ("head", "tail", "flash", "beacon", "work")
FREEZING = 273.15  # K
TABLED = 20.0  # degC, at which wire is tabled


def _one(lamp: str) -> float:
    """The current of one lamp: as its data sheet says, else from its watts."""
    row = LAMPS[lamp]
    if row["amps"]:
        return float(row["amps"])
    return electrical_load.lamp_current(float(row["watts"]), row["behavior"], float(row["volts"]))


CURRENT = {key: _one(key) for key in LAMPS}


def of_lamp[T](v: model.Inputs, kind: str, made_of: Callable[[str], T]) -> T:
    """What is made of the lamp of a kind that is fitted."""
    found: T = made_of("led-beacon") if kind == "beacon" else v.each(f"{kind}_lamp", made_of)
    return found


def lit(v: model.Inputs, kind: str) -> float:
    """The current of all lamps of one kind while they are lit. [A]"""
    return arith.number(getattr(v, f"{kind}_count") * of_lamp(v, kind, CURRENT.__getitem__))


def average(v: model.Inputs, kind: str) -> float:
    """The same over time: lamps that flash are lit half of it. [A]"""
    return lit(v, kind) * (electrical_load.FLASHER_DUTY if kind == "flash" else 1.0)


def loop(v: model.Inputs, run: float | None = None) -> float:
    """Length of copper, out and back, for the run given or another. [m]"""
    one_way = v.run if run is None else run
    found: float = v.each(
        "way_back", lambda way: wiring.loop_length(one_way, way == "wire", 0.5 * one_way)
    )
    return found


def temperature(v: model.Inputs) -> float:
    """Temperature of the copper. [degC]"""
    return TABLED if v.wire_temperature is None else v.wire_temperature - FREEZING


def _is_alone(lie: str, by: str) -> bool:
    """Whether the figure for wires that lie alone holds: it is for wire of AWG size only."""
    return lie == "alone" and by == "AWG"


def alone(v: model.Inputs) -> bool:
    """Whether the figure for wires that lie alone holds for these."""
    return _is_alone(v.bundle, v.wire_standard)


def largest(v: model.Inputs) -> float:
    """The largest fuse that protects the wire that is fitted. [A]"""

    def of(gauge: str) -> float:
        fuses = [wiring.largest_fuse(int(gauge), alone=one) for one in (False, True)]
        found: float = v.each(
            "bundle",
            lambda lie: v.each("wire_standard", lambda by: fuses[_is_alone(lie, by)]),
        )
        return found

    found: float = v.each("gauge", of)
    return found


def lost(v: model.Inputs, current: float, gauge: int, copper: float | None = None) -> float:
    """The voltage that a gauge would lose over the circuit's copper, or over so much. [V]"""
    metre = v.each(
        "wire_standard", lambda by: wiring.wire_resistance(gauge, 1.0, by, temperature(v))
    )
    return wiring.voltage_drop(current, metre * (loop(v) if copper is None else copper))


def compute(v: model.Inputs, at: model.At) -> None:
    """Check wire and fuse first, then charging."""
    _wire(v, at)
    on = [kind for kind in ORDER if kind != "work"]
    for kind in on:
        setattr(at, f"{kind}_average", average(v, kind))
    on_road = at.head_average + at.tail_average + at.flash_average + at.beacon_average
    at.road_load = on_road + arith.number(v.other_current)
    field = ("head", "tail", "beacon", "work")  # the flashing lamps are off
    at.field_load = sum(average(v, kind) for kind in field) + arith.number(v.other_current)
    at.at_most("road", "road_load", "output", f"{_cited(v, on)}; road/ALT-memory")
    at.at_most("field", "field_load", "output", f"{_cited(v, field)}; road/ALT-memory")
    at.group(("flasher",), _flasher, v, at)
    at.group(("need_fuse", "need_gauge", "light", "spare", "at_idle", "hours"), _shown, v, at)
    if at.showing:
        _steps(v, at)


def _flasher(v: model.Inputs, at: model.At) -> None:
    if v.flash_lamp == "led-turn":
        fits = 1.0 if v.flasher == "electronic" else -1.0
        at.fits("flasher", fits, "road/LED-flash", v.flasher)


def _fuse_gauge(v: model.Inputs, at: model.At) -> None:
    """The thinnest wire that the fuse which is fitted protects."""
    gauge = wiring.gauge_for(v.fuse, 0.0, v.wire_standard, alone=alone(v), thinnest=int(GAUGES[0]))
    at.fuse_gauge = float(gauge if gauge is not None else GAUGES[-1])


def _wire(v: model.Inputs, at: model.At) -> None:
    at.largest = largest(v)
    source = "road/FAA-43; road/CFR-425; road/UL-1426"
    if v.fuse is None:
        at.not_checked("wire_fuse", "fuse")
    else:
        at.at_most("wire_fuse", "fuse", "largest", source, grade=model.DANGER, close_band=0.0)
        at.group(("fuse_gauge",), _fuse_gauge, v, at)
    at.circuit_current = v.each("circuit", lambda kind: lit(v, kind))
    at.carried = wiring.FUSE_MARGIN * at.circuit_current
    at.biggest = FUSES[-1]
    if not at.circuit_current > 0:
        return
    at.at_most("one_fuse", "carried", "biggest", "road/FUSE-practice", close_band=0.0)
    at.at_most("wire_carries", "carried", "largest", source, close_band=0.0)
    if v.fuse is not None:
        at.at_least("fuse_holds", "fuse", "carried", "road/FUSE-practice", close_band=0.0)
    at.loop = loop(v)
    at.allowed = v.drop_allowed * electrical_load.RATED_VOLTAGE
    at.drop = v.each("gauge", lambda gauge: lost(v, at.circuit_current, int(gauge)))
    metre = loop(v, 1.0)
    each = v.each("gauge", lambda gauge: lost(v, at.circuit_current, int(gauge), metre))
    at.longest = at.allowed / each
    at.at_most(
        "drop",
        "drop",
        "allowed",
        "road/WEB-12; road/WEB-14; road/DROP-practice",
        grade=model.ADVICE,
    )


def _shown(v: model.Inputs, at: model.At) -> None:
    """What is told: the fuse and the wire that are needed, and what is left for the battery."""
    if not model.shows():
        return
    fuse = wiring.fuse_size(at.circuit_current)
    at.need_fuse = FUSES[-1] if fuse is None else fuse
    area = 0.0
    if at.circuit_current > 0:
        area = wiring.area_needed(at.circuit_current, at.loop, at.allowed, temperature(v))
        share = arith.min(at.drop / electrical_load.RATED_VOLTAGE, 1.0)
        at.light = electrical_load.light_left(share)
    gauge = wiring.gauge_for(at.need_fuse, area, v.wire_standard, alone=alone(v))
    at.need_gauge = float(gauge if gauge is not None else GAUGES[-1])
    at.spare = v.output - at.road_load
    at.at_idle = v.output * arith.number(CHARGING[v.charging]["idle_share"])
    short = arith.max(at.road_load, at.field_load) - v.output
    if short > 0:
        at.hours = electrical_load.battery_hours(v.battery, short) * 3600


def _cited(v: model.Inputs, kinds: tuple[str, ...] | list[str]) -> str:
    used = [
        of_lamp(v, kind, lambda lamp: LAMPS[lamp]["source"])
        for kind in kinds
        if arith.perhaps(arith.below(0.0, getattr(v, f"{kind}_count")))
    ]
    return "; ".join(dict.fromkeys([*used, "road/WORK-practice"]))


def _steps(v: model.Inputs, at: model.At) -> None:
    for kind in ORDER[:-1]:
        count = arith.number(getattr(v, f"{kind}_count"))
        if not count:
            continue
        lamp = of_lamp(v, kind, str)
        share = electrical_load.FLASHER_DUTY if kind == "flash" else 1.0
        at.step(
            f"{kind}_average",
            "I = n I₁ × share of time lit",
            LAMPS[lamp]["source"],
            n=(count, "count"),
            **{"I₁": (CURRENT[lamp], "current"), "share": (share, "fraction")},
        )
    at.step("road_load", "I = sum + everything else", "road/CALC-1", **{"else": "other_current"})
    if not at.circuit_current > 0:
        return
    at.step("carried", "I_f = 1.25 I", "road/FUSE-practice", I="circuit_current")
    way = "2 × one way" if v.way_back == "wire" else "one way × 1.5 for the frame"
    at.step("loop", f"L = {way}", "road/CALC-1", **{"one way": "run"})
    metre = wiring.wire_resistance(int(v.gauge), 1.0, v.wire_standard, temperature(v))
    warm = FREEZING + temperature(v)
    at.step(
        "drop",
        "V = I R L, R at T",
        "road/WEB-14; road/WEB-12; road/PHY-1",
        I="circuit_current",
        R=(metre, "resistance_per_length"),
        L="loop",
        T=(warm, "temperature"),
    )
