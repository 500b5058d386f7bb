"""Numbers about tires, front drive, liquid and duals for prose."""

from collections.abc import Callable
from functools import cache

from calc import quantities, search, si, tables, worksheets
from calc.mechanics import duals, front_drive, liquid_ballast, tire_load, tire_rolling, tires
from calc.mechanics.tire_size import decode
from calc.model import Answer, Output
from calc.subjects import tire_partners
from calc.worksheets.tires.compute import LIQUID_SPEED
from calc.worksheets.tires.fields import read_speeds


def percent(share: float, places: int = 1) -> str:
    """Return a share in percent with a real minus sign."""
    return f"{100 * share:.{places}f} %".replace("-", "\u2212")


@cache
def _example(name: str) -> Answer:
    return search.answer(worksheets.load(name), {}, example=True)


def _of(name: str, output: str) -> Output:
    return next(found for found in _example(name).outputs if found.name == output)


def _output(name: str, output: str) -> Callable[[], str]:
    def show() -> str:
        found = _of(name, output)
        return quantities.show_both(found.value, found.kind)

    return show


def _change(name: str, output: str) -> Callable[[], str]:
    return lambda: percent(abs(_of(name, output).value))


def _times(name: str, output: str) -> Callable[[], str]:
    return lambda: quantities.number(_of(name, output).value, 2)


def _range(name: str, output: str) -> Callable[[], str]:
    def show() -> str:
        found = _of(name, output)
        low = found.value if found.low is None else found.low
        high = found.value if found.high is None else found.high
        return f"{100 * low:.1f} to {100 * high:.1f} %".replace("-", "\u2212")

    return show


def _typed(name: str, field: str) -> Callable[[], str]:
    return lambda: worksheets.load(name).field(field).example


def _limit(name: str, check: str) -> Callable[[], str]:
    def show() -> str:
        found = next(v.check for v in _example(name).verdicts if v.check.name == check)
        return quantities.show_both(found.limit, found.kind)

    return show


def _window() -> str:
    window = front_drive.window()
    return f"{100 * window.low:.0f} to {100 * window.high:.0f} %"


def _estimate_error() -> str:
    errors = [tire.circumference_error for tire in tires.every_tire()]
    return f"{100 * min(errors):.1f} to {100 * max(errors):.1f} %"


def _pair_change(inch: str, metric: str) -> Callable[[], str]:
    def show() -> str:
        one, two = (tires.dimensions(decode(text)) for text in (inch, metric))
        return percent(abs(two.overall_diameter / one.overall_diameter - 1))

    return show


def _wear(lug_mm: float) -> Callable[[], str]:
    def show() -> str:
        tire = tires.dimensions(decode("14.9-24"))
        left = tire_rolling.worn_circumference(tire.rolling_circumference, lug_mm / 1000)
        return percent(1 - left / tire.rolling_circumference, 0)

    return show


def _flake_error() -> str:
    pound_per_gallon = si.POUND / si.GALLON
    flake, pure = (
        liquid_ballast.brine_recipe(1.0, 3.5 * pound_per_gallon, purity)[2]
        for purity in (liquid_ballast.FLAKE_PURITY, 1.0)
    )
    return percent(pure / flake - 1, 0)


def _plain_height() -> str:
    found = decode("9.5-24")
    plain = (found.rim + 2 * 0.85 * found.width) * si.INCH
    return percent(1 - plain / tires.dimensions(found).overall_diameter, 0)


def _liquid(size: str, key: str) -> Callable[[], str]:
    def show() -> str:
        volume = liquid_ballast.fill_volume(tires.dimensions(decode(size))).value
        row = tables.by_key("tires/ballast_liquids", "key")[key]
        return quantities.show_both(
            liquid_ballast.liquid_mass(volume, 1000 * float(row["density_kg_l"])), "mass"
        )

    return show


def _volume(size: str) -> Callable[[], str]:
    return lambda: quantities.show_both(
        liquid_ballast.fill_volume(tires.dimensions(decode(size))).value, "volume"
    )


def _addition(key: str) -> Callable[[], str]:
    row = tables.by_key("tires/pressure_additions", "key")[key]
    return lambda: f"{round(float(row['add_kpa']) / 6.894757)} psi ({row['add_kpa']} kPa)"


FACTS: dict[str, Callable[[], str]] = {
    "tires-window": _window,
    "tires-example-rear-now": _typed("tires", "rear_tire"),
    "tires-example-rear-new": _typed("tires", "new_rear_tire"),
    "tires-example-front-now": _typed("tires", "front_tire"),
    "tires-example-speed-change": lambda: percent(
        tires.dimensions(decode("13.6-24")).rolling_circumference
        / tires.dimensions(decode("11.2-24")).rolling_circumference
        - 1
    ),
    "tires-example-lead-now": _range("tires", "lead_now"),
    "tires-example-lead-new": _range("tires", "lead_new"),
    "tires-example-top-now": lambda: quantities.show_both(
        max(read_speeds("1.5, 3, 5, 8, 12 mph")), "speed"
    ),
    "tires-example-top-new": _output("tires", "top_speed"),
    "tires-example-rise": _output("tires", "rear_rise"),
    "tires-example-growth": lambda: quantities.show_both(
        tires.dimensions(decode("13.6-24")).overall_diameter
        - tires.dimensions(decode("11.2-24")).overall_diameter,
        "length",
    ),
    "tires-example-pull": _change("tires", "pull_change"),
    "tires-step": lambda: percent(tire_partners.DIAMETER_STEP, 0),
    "tires-deflection": lambda: percent(tire_rolling.DEFLECTION, 0),
    "tires-rolling-factor": lambda: f"{tire_rolling.rolling_factor('R-1')[0]:g}",
    "tires-turf-factor": lambda: f"{tire_rolling.rolling_factor('R-4')[0]:g}",
    "tires-circumference-error": _estimate_error,
    "tires-maker-spread": lambda: percent(2 * tires.MAKER_SPREAD, 0),
    "tires-flotation-short": lambda: percent(1 - 0.94, 0),
    "tires-pair-11": _pair_change("11.2R24", "280/85R24"),
    "tires-pair-13": _pair_change("13.6R28", "340/85R28"),
    "tires-half-pressure": lambda: percent(tire_load.load_at_pressure(1.0, 1.0, 2.0), 0),
    "tires-turf-diameter": lambda: quantities.show_both(
        tires.dimensions(decode("20x8.00-8")).overall_diameter, "length"
    ),
    "tires-inch-error": lambda: percent(tires.estimated_diameter(decode("12.4-24"))[1]),
    "tires-plain-height": _plain_height,
    "tires-flake-error": _flake_error,
    "tires-wear": _wear(27.5),
    "tires-fender-gap": lambda: quantities.show_both(duals.FENDER_GAP, "length", 2),
    "tires-bead": lambda: (
        f"{round(tire_load.BEAD_SEATING_LIMIT / si.PSI)} psi "
        f"({tire_load.BEAD_SEATING_LIMIT / 1000:.0f} kPa)"
    ),
    "tires-liquid-speed": lambda: quantities.show_both(LIQUID_SPEED, "speed", 2),
    "tires-add-loader": _addition("loader"),
    "tires-add-slope": _addition("slope"),
    "tires-add-liquid": _addition("liquid"),
    "tires-liquid-size": lambda: "14.9-28",
    "tires-liquid-volume": _volume("14.9-28"),
    "tires-liquid-water": _liquid("14.9-28", "water"),
    "tires-liquid-brine": _liquid("14.9-28", "calcium-5"),
    "tires-liquid-beet": _liquid("14.9-28", "beet"),
    "rollout-lead": _change("rollout", "lead"),
    "rollout-a": _typed("rollout", "old_front_ten_turns"),
    "rollout-b": _typed("rollout", "old_rear_ten_turns"),
    "rollout-c": _typed("rollout", "front_turns"),
    "rollout-ratio": lambda: f"{_of('rollout', 'gear_ratio').value:.2f}",
    "size-example": _typed("tire-size", "tire"),
    "size-example-load": _output("tire-size", "rated"),
    "size-example-speed": _output("tire-size", "rated_speed"),
    "size-example-diameter": _output("tire-size", "overall_diameter"),
    "size-example-rolling": _output("tire-size", "rolling"),
    "duals-example-tire": _typed("duals", "rear_tire"),
    "duals-example-adapter": _typed("duals", "adapter_length"),
    "duals-example-spacing": _output("duals", "spacing"),
    "duals-example-least": _limit("duals", "spacing"),
    "duals-example-gap": _output("duals", "gap"),
    "duals-example-gap-loaded": _output("duals", "gap_loaded"),
    "duals-example-width": _output("duals", "width"),
    "duals-example-width-single": _output("duals", "width_single"),
    "duals-example-overhang": _typed("duals", "axle_overhang"),
    "duals-example-shared": _times("duals", "bending_shared"),
    "duals-example-outer": _times("duals", "bending_outer"),
    "duals-example-load": _typed("duals", "rear_axle_load"),
    "duals-example-limit": _typed("duals", "rear_axle_limit"),
    "duals-example-may": _output("duals", "equal_bending"),
    "duals-example-gain": _output("duals", "side_gain"),
    "duals-factor": lambda: f"{tire_load.dual_factor(2):g}",
    "duals-pair": lambda: f"{2 * tire_load.dual_factor(2):g}",
    "duals-triple": lambda: f"{3 * tire_load.dual_factor(3):g}",
    "duals-bulge": lambda: percent(duals.BULGE, 0),
    "duals-torque": _output("duals", "torque"),
    "duals-clamp": _output("duals", "clamp"),
    "duals-thread": _typed("duals", "thread"),
    "duals-grade": _typed("duals", "grade"),
}
