"""Numbers about lawn implements for prose."""

import math
from collections.abc import Callable
from functools import cache

from calc import quantities, search, si, tables, worksheets
from calc.mechanics import turf
from calc.model import Answer, figures


@cache
def _example() -> Answer:
    return search.answer(worksheets.load("lawn"), {}, example=True)


def _output(name: str) -> Callable[[], str]:
    return lambda: figures.output_text(next(o for o in _example().outputs if o.name == name), "us")


def _typed(name: str) -> Callable[[], str]:
    return lambda: str(worksheets.load("lawn").field(name).example)


def _limit(state: str) -> Callable[[], str]:
    def shown() -> str:
        row = tables.by_key("lawn/turf_limits", "state")[state]
        return f"{row['limit_psi']} psi ({row['limit_kpa']} kPa)"

    return shown


def _pressed(psi: float) -> Callable[[], str]:
    def shown() -> str:
        found = turf.mean_pressure(psi * si.PSI, "tenth")
        return (
            f"{quantities.show(found, 'pressure')} ({quantities.show(found, 'pressure', 'metric')})"
        )

    return shown


def _inflation() -> str:
    found = turf.inflation_for(turf.turf_limit("moist"), "tenth")
    return quantities.show(found, "pressure", figures=2)


def _allowance(tool: str) -> Callable[[], str]:
    def shown() -> str:
        row = tables.by_key("lawn/lawn_tools", "key")[tool]
        return quantities.show(float(row["allowance_mm"]) / 1000.0, "length", figures=2)

    return shown


def _percent(degrees: float) -> Callable[[], str]:
    return lambda: f"{100 * math.tan(math.radians(degrees)):.0f} %"


FACTS: dict[str, Callable[[], str]] = {
    "lawn-limit-dry": _limit("dry"),
    "lawn-limit-moist": _limit("moist"),
    "lawn-limit-wet": _limit("wet"),
    "lawn-inflation-moist": _inflation,
    "lawn-pressed-12": _pressed(12.0),
    "lawn-pressed-20": _pressed(20.0),
    "lawn-allowance-spring": _allowance("spring-tine"),
    "lawn-allowance-core": _allowance("core"),
    "lawn-ten-degrees": _percent(10.0),
    "lawn-fifteen-degrees": _percent(15.0),
    "lawn-example-area": _typed("lawn_area"),
    "lawn-example-width": _typed("working_width"),
    "lawn-example-front": _typed("front_inflation"),
    "lawn-example-rear": _typed("rear_inflation"),
    "lawn-example-thatch": _typed("thatch"),
    "lawn-example-head": _typed("head_depth"),
    "lawn-example-clear": _output("reach_down"),
    "lawn-example-front-ground": _output("front_pressure"),
    "lawn-example-rear-ground": _output("rear_pressure"),
    "lawn-example-deep": _output("deep"),
    "lawn-example-passes": _output("passes"),
    "lawn-example-time": _output("time"),
    "lawn-example-fuel": _output("fuel"),
    "lawn-example-tine": _output("tine_force"),
}
