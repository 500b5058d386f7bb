"""Numbers about cab cooling for prose."""

from collections.abc import Callable
from functools import cache

from calc import quantities, search, worksheets
from calc.mechanics import cab
from calc.model import Answer, figures


@cache
def _example() -> Answer:
    return search.answer(worksheets.load("cab"), {}, example=True)


def _output(name: str) -> Callable[[], str]:
    return lambda: figures.output_text(next(o for o in _example().outputs if o.name == name), "us")


def _typed(name: str) -> Callable[[], str]:
    return lambda: str(worksheets.load("cab").field(name).example)


WIND, GAPS = 3.0, 200e-4  # m/s and m2: a light wind on a cloth cab


def _wind() -> str:
    return quantities.show(WIND, "speed", figures=1)


def _gaps() -> str:
    return quantities.show(GAPS, "area_small", figures=2)


def _wind_leak() -> str:
    flow = cab.leak_flow(GAPS, cab.wind_pressure(WIND))
    return f"{quantities.show(flow, 'air_flow')} ({quantities.show(flow, 'air_flow', 'metric')})"


def _wind_load() -> str:
    flow = cab.leak_flow(GAPS, cab.wind_pressure(WIND))
    load, _ = cab.fresh_air_load(flow, 38.0, 0.40, 27.0, 0.50)
    return quantities.show(load, "power", unit="Btu/h")


def _tight() -> str:
    area = cab.leak_area(43.0 / 3600.0, 50.0)
    shown = quantities.show(area, "area_small", "metric", unit="cm2")
    return f"{quantities.show(area, 'area_small')} ({shown})"


def _moist_share() -> str:
    whole, sensible = cab.fresh_air_load(43.0 / 3600.0, 38.0, 0.40, 27.0, 0.50)
    return f"{100 * (1 - sensible / whole):.0f} %"


def _vote() -> str:
    return f"{100 * cab.predicted_dissatisfied(0.61):.1f} %"


FACTS: dict[str, Callable[[], str]] = {
    "cab-example-engine": _typed("engine_power"),
    "cab-example-outside": _typed("outside_temperature"),
    "cab-example-inside": _typed("inside_temperature"),
    "cab-example-humidity": _typed("outside_humidity"),
    "cab-example-unit": _typed("cooling_capacity"),
    "cab-example-needed": _typed("power_needed"),
    "cab-example-load": _output("load"),
    "cab-example-sun": _output("sun"),
    "cab-example-need": _output("need"),
    "cab-example-compressor": _output("compressor"),
    "cab-example-pull-down": _output("compressor_pull_down"),
    "cab-example-alternator": _output("alternator"),
    "cab-example-left": _output("left"),
    "cab-example-left-pull-down": _output("left_pull_down"),
    "cab-wind": _wind,
    "cab-gaps": _gaps,
    "cab-wind-leak": _wind_leak,
    "cab-wind-load": _wind_load,
    "cab-tight-area": _tight,
    "cab-moist-share": _moist_share,
    "cab-vote-share": _vote,
}
