"""Numbers about drives for prose."""

from collections.abc import Callable
from functools import cache

from calc import quantities, search, tables, worksheets
from calc.mechanics import fuel, pto_power, transmission
from calc.model import Answer, figures


@cache
def _example() -> Answer:
    return search.answer(worksheets.load("drive"), {}, example=True)


def _output(name: str) -> Callable[[], str]:
    return lambda: figures.output_text(next(o for o in _example().outputs if o.name == name), "us")


def _middle(name: str) -> Callable[[], str]:
    def shown() -> str:
        found = next(o for o in _example().outputs if o.name == name)
        return quantities.show(found.value, found.kind, figures=2)

    return shown


def _throttled() -> str:
    full, slow = fuel.diesel_rate(1.0, 0.5), fuel.diesel_rate(1.0, 0.5, 0.8)
    return f"{100 * (1 - slow / full):.0f} %"


def _typed(name: str) -> Callable[[], str]:
    return lambda: str(worksheets.load("drive").field(name).example)


def _share(kind: str, basis: str) -> Callable[[], str]:
    return lambda: f"{100 * transmission.full_load_efficiency(kind, basis):.0f} %"


def _less() -> str:
    ratio = transmission.full_load_efficiency(
        "hydrostatic", "drawbar tests"
    ) / transmission.full_load_efficiency("gear", "drawbar tests")
    return f"{100 * (1 - ratio):.0f} %"


def _drag() -> str:
    low, high = pto_power.pump_drag("hydrostatic")
    return quantities.show_range(low, high, "power")


def _reversal(key: str) -> Callable[[], str]:
    return lambda: tables.by_key("power/reversal_times", "key")[key]["typical_s"]


def _cycle_gain() -> str:
    values = {o.name: o.value for o in _example().outputs}
    return f"{100 * (values['hydrostatic_cycles'] / values['gear_cycles'] - 1):.0f} %"


FACTS: dict[str, Callable[[], str]] = {
    "drive-gear-share": _share("gear", "drawbar tests"),
    "drive-hydro-share": _share("hydrostatic", "drawbar tests"),
    "drive-gear-share-parts": _share("gear", "component figures"),
    "drive-hydro-share-parts": _share("hydrostatic", "component figures"),
    "drive-hydro-less": _less,
    "drive-pump-drag": _drag,
    "drive-shuttle-seconds": _reversal("shuttle"),
    "drive-hydro-seconds": _reversal("hydrostatic"),
    "drive-cycle-gain": _cycle_gain,
    "drive-throttled": _throttled,
    "drive-example-engine": _typed("engine_power"),
    "drive-example-speed": _typed("ground_speed"),
    "drive-example-slope": _typed("slope"),
    "drive-example-shaft": _typed("shaft_power"),
    "drive-example-hours": _typed("hours_per_year"),
    "drive-example-loader": _typed("loader_share"),
    "drive-example-price": _typed("price_difference"),
    "drive-example-kept": _typed("kept_at_sale"),
    "drive-example-time": _typed("time_value"),
    "drive-example-gear-ground": _output("gear_ground_power"),
    "drive-example-hydro-ground": _output("hydrostatic_ground_power"),
    "drive-example-gear-load": _output("gear_load"),
    "drive-example-hydro-load": _output("hydrostatic_load"),
    "drive-example-gear-cycles": _middle("gear_cycles"),
    "drive-example-hydro-cycles": _middle("hydrostatic_cycles"),
    "drive-example-saved": _middle("time_saved"),
    "drive-example-fuel": _middle("more_fuel"),
    "drive-example-saving": _middle("saving"),
    "drive-example-back": _middle("pay_back"),
}
