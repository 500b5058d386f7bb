"""Numbers about power at the shaft for prose."""

from collections.abc import Callable
from functools import cache

from calc import quantities, search, si, tables, worksheets
from calc.mechanics import draft, implement_power, pto, pto_power
from calc.model import Answer


@cache
def _example() -> Answer:
    return search.answer(worksheets.load("pto"), {}, example=True)


def _output(name: str, kind: str = "power") -> Callable[[], str]:
    def text() -> str:
        found = next(o for o in _example().outputs if o.name == name)
        low = found.value if found.low is None else found.low
        high = found.value if found.high is None else found.high
        return quantities.show_range(low, high, kind)

    return text


def _typed(name: str) -> Callable[[], str]:
    return lambda: worksheets.load("pto").field(name).example


def _percent(share: float) -> str:
    return f"{quantities.number(share * 100, 3)} %"


def _power(watts: float) -> str:
    return quantities.show(watts, "power")


def _ratio_of_25(key: str) -> Callable[[], str]:
    return lambda: _power(25 * si.HP * pto_power.pto_ratio(key)[1])


def _band() -> str:
    low, _, high = pto_power.pto_ratio()
    return f"{low * 100:.0f} to {high * 100:.0f} %"


def _pump() -> str:
    return quantities.show_range(*pto_power.pump_drag("hydrostatic"), "power")


def _altitude_from() -> str:
    row = tables.by_key("power/altitude_rules", "key")[pto_power.DEFAULT_ALTITUDE_RULE]
    return f"{float(row['from_ft']):,.0f} ft"


def _altitude_rate() -> str:
    row = tables.by_key("power/altitude_rules", "key")[pto_power.DEFAULT_ALTITUDE_RULE]
    return f"{float(row['percent_per_1000_ft']):g} %"


def _speed_loss() -> str:
    low, high = pto_power.speed_loss(0.78)
    return f"{low * 100:.0f} to {high * 100:.0f} %"


def _left_at(feet: float) -> Callable[[], str]:
    def text() -> str:
        keys = ("na_500", "na_0", "na_2500", "na_msha")
        left = [pto_power.altitude_factor(feet * si.FOOT, key) * 100 for key in keys]
        return f"{min(left):.0f} to {max(left):.0f} %"

    return text


# An outfit of 2,000 kg that climbs 15 % at 6 km/h.
_CLIMB = (2000.0, 0.15, 6 / 3.6)


def _climb() -> str:
    wheels = pto_power.grade_power(*_CLIMB)
    return _power(wheels / pto_power.axle_efficiency("hydrostatic")[1])


def _per_foot(key: str, load: str = "typical") -> Callable[[], str]:
    return lambda: (
        f"{quantities.number(implement_power.density(key, load) * si.FOOT / si.HP, 2)} hp"
    )


def _peak() -> str:
    peak = implement_power.density("rotary_cutter_measured", "heavy")
    return quantities.number(peak / implement_power.density("rotary_cutter_measured"), 2)


def _torque(horsepower: float, rpm: float) -> Callable[[], str]:
    return lambda: quantities.show(pto.torque(horsepower * si.HP, rpm), "torque")


def _drawbar(kind: str) -> Callable[[], str]:
    def text() -> str:
        distance = pto.drawbar_distance(kind)
        metric = quantities.show(distance, "length", "metric")
        return f"{quantities.show(distance, 'length')} ({metric})"

    return text


def _reserve() -> str:
    return f"{pto_power.RESERVE_LOW * 100:.0f} to {pto_power.RESERVE_HIGH * 100:.0f} %"


def _generator() -> str:
    return _power(implement_power.generator_engine_power(10e3))


def _generator_carries() -> str:
    return _power(implement_power.generator_shaft_power(10e3))


# Two 14 in bottoms, 7 in deep, at 5 km/h.
_PLOW = (28 * si.INCH, 5 / 3.6, 7 * si.INCH)


def _plow() -> str:
    return quantities.show(draft.draft("moldboard_plow", *_PLOW, "medium"), "force")


FACTS: dict[str, Callable[[], str]] = {
    "pto-band": _band,
    "pto-25-gross": _ratio_of_25("gross"),
    "pto-25-net": _ratio_of_25("net"),
    "pto-pump": _pump,
    "pto-speed-loss": _speed_loss,
    "pto-left-5000": _left_at(5000),
    "pto-altitude-from": _altitude_from,
    "pto-altitude-rate": _altitude_rate,
    "pto-climb-mass": lambda: quantities.show(_CLIMB[0], "mass"),
    "pto-climb-grade": lambda: _percent(_CLIMB[1]),
    "pto-climb-speed": lambda: quantities.show(_CLIMB[2], "speed"),
    "pto-climb": _climb,
    "pto-axle-gear": lambda: _percent(pto_power.axle_efficiency("gear")[1]),
    "pto-axle-hydrostatic": lambda: _percent(pto_power.axle_efficiency("hydrostatic")[1]),
    "pto-cutter-foot": _per_foot("rotary_cutter"),
    "pto-cutter-measured": _per_foot("rotary_cutter_measured"),
    "pto-cutter-peak": _per_foot("rotary_cutter_measured", "heavy"),
    "pto-cutter-brush": _per_foot("rotary_cutter_brush", "heavy"),
    "pto-peak-ratio": _peak,
    "pto-flail-d497": lambda: (
        f"{quantities.number(implement_power.rotary_power('mower_flail', si.FOOT) / si.HP, 2)} hp"
    ),
    "pto-flail-practice": _per_foot("flail_mower"),
    "pto-reserve": _reserve,
    "pto-torque-540": _torque(25, 540),
    "pto-torque-1000": _torque(25, 1000),
    "pto-drawbar-540": _drawbar("1"),
    "pto-drawbar-1000": _drawbar("2"),
    "pto-generator": _generator,
    "pto-generator-carries": _generator_carries,
    "pto-plow": _plow,
    "pto-plow-speed": lambda: quantities.show(_PLOW[1], "speed", figures=2),
    "pto-plow-spread": lambda: _percent(draft.draft_spread("moldboard_plow")),
    "pto-example-engine": _typed("engine_power"),
    "pto-example-width": _typed("working_width"),
    "pto-example-slope": _typed("slope"),
    "pto-example-speed": _typed("ground_speed"),
    "pto-example-rated": _output("rated"),
    "pto-example-left": _output("left"),
    "pto-example-need": _output("need"),
    "pto-example-torque": _output("torque", "torque"),
    "pto-example-widest": _output("widest", "length"),
}
