"""Numbers about post hole diggers, drivelines, and repairing before a sale, for prose."""

import math
from collections.abc import Callable
from functools import cache

from calc import quantities, search, si, tables, worksheets
from calc.mechanics import auger, chances, driveline, joint_ratings, overload, universal_joint
from calc.model import Answer, Field
from calc.worksheets.resale import compute as sale
from calc.worksheets.resale.picture import swings

NINE = 9 * si.INCH
SETBACK = "4 in"  # hitch/PRACTICE: what a Category 1 coupler adds
UNEVEN = (20.0, 15.0)  # degrees at the two ends, for the example of angles that don't match


@cache
def _example(name: str) -> Answer:
    return search.answer(worksheets.load(name), {}, example=True)


def _shown(value: float, kind: str, metric: bool = True) -> str:
    us, other = quantities.show(value, kind, "us"), quantities.show(value, kind, "metric")
    return f"{us} ({other})" if metric and other != us else us


def _value(sheet: str, name: str) -> float:
    return next(o.value for o in _example(sheet).outputs if o.name == name)


def _output(sheet: str, name: str, metric: bool = True) -> Callable[[], str]:
    def text() -> str:
        found = next(o for o in _example(sheet).outputs if o.name == name)
        return _shown(found.value, found.kind, metric)

    return text


def _money(name: str) -> Callable[[], str]:
    return lambda: sale.dollars(_value("resale", name))


def _typed(sheet: str, name: str) -> Callable[[], str]:
    return lambda: str(worksheets.load(sheet).field(name).example)


def _base(sheet: str, name: str) -> float:
    item = worksheets.load(sheet).field(name)
    assert isinstance(item, Field)
    return quantities.base(item.example, item.kind)


def _rule(key: str) -> Callable[[], str]:
    def text() -> str:
        row = tables.by_key("digger/digger_rules", "key")[key]
        kind = {"in": "length", "ft": "distance", "rpm": "rotation"}[row["unit"]]
        return _shown(quantities.base(f"{row['value']} {row['unit']}", kind), kind)

    return text


def _joint(key: str) -> Callable[[], str]:
    row = tables.by_key("driveline/driveline_joint_limits", "key")[key]
    return lambda: f"{row['running_deg']} degrees"


def _gap_rule() -> str:
    rows = tables.rows("driveline/driveline_closing_rules")
    return next(row["name"] for row in rows if row["default"])


def _setting(key: str) -> Callable[[], str]:
    return lambda: tables.by_key("driveline/overload_settings", "key")[key]["times_torque"]


def _at_speed(rpm: float) -> Callable[[], str]:
    return lambda: f"{joint_ratings.angle_at_speed(rpm):g} degrees"


def _percent(value: float, places: int = 0) -> str:
    return f"{100 * value:.{places}f} %"


def _uneven(in_line: bool) -> Callable[[], str]:
    first, second = (math.radians(angle) for angle in UNEVEN)
    return lambda: _percent(universal_joint.two_joint_swing(first, second, in_line), 1)


def _evidence(key: str) -> Callable[[], str]:
    row = tables.by_key("money/resale_evidence", "key")[key]
    low, high = float(row["low"]), float(row["high"] or row["low"])
    kind = {"$": "money", "%": "fraction", "$/h": "money_per_hour"}.get(row["unit"], "count")
    factor = 0.01 if kind == "fraction" else 1.0
    return lambda: quantities.show_range(factor * low, factor * high, kind)


def _auger(soil: str) -> Callable[[], str]:
    return lambda: quantities.show_range(*auger.auger_power_range(NINE, soil), "power", "us")


def _with_coupler() -> str:
    found = search.answer(worksheets.load("driveline"), {"setback": SETBACK}, example=True)
    return _shown(next(o.value for o in found.outputs if o.name == "overlap_longest"), "length")


def _thread_loss() -> str:
    full = overload.shear_bolt("3/8", "grade_2", False, 2, 0.6875 * si.INCH).torque
    cut = overload.shear_bolt("3/8", "grade_2", True, 2, 0.6875 * si.INCH).torque
    return _percent(1.0 - cut / full)


def _spread(share: float, sign: float = 1.0) -> Callable[[], str]:
    def text() -> str:
        box = search.read_box(worksheets.load("resale"), {}, example=True)
        spread = chances.simulate(sale.plan(box.point({})), sale.SEED, sale.ROUNDS)
        return sale.dollars(sign * spread.at(share))

    return text


def _first_swing() -> str:
    box = search.read_box(worksheets.load("resale"), {}, example=True)
    return swings(box.point({}))[0][0].lower()


def _faster() -> str:
    return sale.dollars(10 * _value("resale", "daily"))


def _better_chance() -> str:
    """What ten points more of chance are worth as it stands."""
    gap = _base("resale", "as_is_price") - _base("resale", "fallback")
    return sale.dollars(0.10 * gap)


FACTS: dict[str, Callable[[], str]] = {
    "digger-power": _typed("digger", "pto_power"),
    "digger-auger": _typed("digger", "auger_diameter"),
    "digger-auger-length": _typed("digger", "auger_length"),
    "digger-boom": _typed("digger", "boom_length"),
    "digger-yoke": _typed("digger", "yoke_distance"),
    "digger-depth": _output("digger", "depth"),
    "digger-clear": _output("digger", "tip_clearance"),
    "digger-travel": _output("digger", "travel_ratio"),
    "digger-drift": _output("digger", "drift"),
    "digger-lean": _output("digger", "lean"),
    "digger-needs": _auger("loam"),
    "digger-needs-clay": _auger("clay"),
    "digger-torque": _output("digger", "torque"),
    "digger-auger-torque": _output("digger", "auger_torque"),
    "digger-auger-speed": _output("digger", "auger_speed"),
    "digger-bolt": _output("digger", "bolt_torque"),
    "digger-raised-angle": _output("digger", "raised_angle"),
    "digger-bystanders": _rule("bystanders"),
    "digger-engine-speed": _rule("engine_speed"),
    "digger-shaft-speed": _rule("shaft_speed"),
    "digger-start": _rule("start"),
    "digger-outside": _rule("pins_outside"),
    "digger-inside": _rule("pins_inside"),
    "driveline-setback": lambda: SETBACK,
    "driveline-closed": _typed("driveline", "closed_length"),
    "driveline-tube": _typed("driveline", "tube_length"),
    "driveline-gap-rule": _gap_rule,
    "driveline-rule": lambda: driveline.overlap_rules()[0].name,
    "driveline-clutch-low": _setting("clutch_low"),
    "driveline-clutch-high": _setting("clutch_high"),
    "driveline-shortest": _output("driveline", "shortest"),
    "driveline-longest": _output("driveline", "longest"),
    "driveline-gap": _output("driveline", "gap"),
    "driveline-overlap": _output("driveline", "overlap_longest"),
    "driveline-overlap-coupler": _with_coupler,
    "driveline-front": _output("driveline", "front_angle"),
    "driveline-rear": _output("driveline", "rear_angle"),
    "driveline-swing": _output("driveline", "swing"),
    "driveline-torque": _output("driveline", "torque"),
    "driveline-bolt": _output("driveline", "released"),
    "driveline-advised": _joint("advised"),
    "driveline-most": _joint("standard"),
    "driveline-steady": _joint("steady"),
    "driveline-wide-steady": _joint("wide_steady"),
    "driveline-wide": _joint("wide"),
    "driveline-wide-turns": _joint("wide_turns"),
    "driveline-at-1000": _at_speed(1000.0),
    "driveline-at-2000": _at_speed(2000.0),
    "driveline-uneven-first": lambda: f"{UNEVEN[0]:g}",
    "driveline-uneven-second": lambda: f"{UNEVEN[1]:g}",
    "driveline-uneven-single": lambda: _percent(
        universal_joint.fluctuation(math.radians(UNEVEN[0])), 1
    ),
    "driveline-uneven-left": _uneven(True),
    "driveline-uneven-turned": _uneven(False),
    "driveline-thread-loss": _thread_loss,
    "resale-price": _typed("resale", "as_is_price"),
    "resale-parts": _typed("resale", "parts"),
    "resale-hours": _typed("resale", "hours"),
    "resale-cost": _money("cost"),
    "resale-as-is": _money("as_is"),
    "resale-repaired": _money("repaired"),
    "resale-gain": _money("gain_expected"),
    "resale-break-even": _money("break_even"),
    "resale-chance": lambda: _percent(_value("resale", "chance_pays")),
    "resale-trade": _money("trade"),
    "resale-trade-offer": _typed("resale", "trade_offer"),
    "resale-tax-saved": _money("tax_saved"),
    "resale-private": _money("private_price"),
    "resale-daily": _output("resale", "daily"),
    "resale-low": _spread(0.10, -1.0),
    "resale-high": _spread(0.90),
    "resale-first": _first_swing,
    "resale-faster": _faster,
    "resale-better-chance": _better_chance,
    "resale-condition": _evidence("condition"),
    "resale-auction-repairs": _evidence("auction_repairs"),
    "resale-auction-fee": _evidence("auction_fee"),
    "resale-ceiling": _evidence("ceiling"),
    "resale-days": _evidence("days"),
    "resale-shop-rate": _evidence("shop_rate"),
}
