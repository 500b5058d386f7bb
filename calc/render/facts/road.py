"""Numbers about road travel for prose."""

from collections.abc import Callable
from functools import cache

from calc import quantities, search, si, tables, worksheets
from calc.mechanics import braking, electrical_load, mirrors, road_gaps, sight, smv_emblem, wiring
from calc.model import Answer, figures
from calc.worksheets.rail_crossing.compute import SIGNAL_WARNING, STOP_LINE


@cache
def _example(name: str) -> Answer:
    return search.answer(worksheets.load(name), {}, example=True)


def _output(sheet: str, name: str) -> Callable[[], str]:
    return lambda: figures.output_text(
        next(o for o in _example(sheet).outputs if o.name == name), "us"
    )


def _typed(sheet: str, name: str) -> Callable[[], str]:
    return lambda: str(worksheets.load(sheet).field(name).example)


def _limit(sheet: str, name: str) -> Callable[[], str]:
    def find() -> str:
        check = next(v.check for v in _example(sheet).verdicts if v.check.name == name)
        unit = check.unit_us
        return quantities.show(check.limit, check.kind, "us", unit=unit)

    return find


def _shown(value: float, kind: str, unit: str = "") -> Callable[[], str]:
    return lambda: quantities.show(value, kind, "us", unit=unit)


def _emblem_all() -> str:
    low, high = smv_emblem.emblem_height_for_all()
    return f"{low / si.FOOT:.0f} to {high / si.FOOT:.0f} ft"


def _heights(place: str) -> Callable[[], str]:
    """The heights of one emblem rule as printed: "2 to 6 ft"."""

    def find() -> str:
        row = tables.by_key("road/emblem_rules", "place")[place]
        low, high = row["height_low"], row["height_high"]
        return f"{low.partition(' ')[0]} to {high}" if high else f"at least {low}"

    return find


def _range(kind: str) -> Callable[[], str]:
    def find() -> str:
        row = tables.by_key("road/charging_outputs", "kind")[kind]
        return f"{row['low_amps']} to {row['high_amps']} A"

    return find


def _brakes(index: int, column: str) -> Callable[[], str]:
    return lambda: tables.rows("road/brake_minimums")[index][column]


def _covered() -> str:
    known = {row["place"] for row in tables.rows("road/state_road_rules")}
    states = {row["place"] for row in tables.rows("road/road_places") if row["country"] == "US"}
    return str(len(known & states))


def _ratio_stop() -> str:
    """How much longer braking is with an unbraked load of one and a half times the tractor."""
    alone = braking.stopping_distance(10.0, 3.55, brake_delay=0.0)
    left = braking.towing_deceleration(3.55, 1.0, 1.5)
    return f"{braking.stopping_distance(10.0, left, brake_delay=0.0) / alone:.1f}"


def _rule(key: str, column: str) -> Callable[[], str]:
    """A value of one rule: its position, or the limit in its condition."""
    return lambda: (
        tables.by_key("road/road_requirements", "rule")[key][column].split(">")[-1].strip("=")
    )


def _rule_speed() -> str:
    """The speed up to which the largest unbraked ratio holds, in whole mph as it is printed."""
    row = tables.by_key("road/towed_mass_rules", "rule")["unbraked-32"]
    return f"{float(row['speed_to_kmh']) / 1.609344:.0f} mph"


def _size(part: str) -> str:
    return tables.by_key("road/emblem_sizes", "part")[part]["value"]


FACTS: dict[str, Callable[[], str]] = {
    # closing
    "closing-car": _typed("closing", "car_speed"),
    "closing-own": _typed("closing", "road_speed"),
    "closing-seen": _typed("closing", "sight_distance"),
    "closing-entrance": _typed("closing", "entrance_sight"),
    "closing-length": _typed("closing", "combination_length"),
    "closing-cross-speed": _typed("closing", "crossing_speed"),
    "closing-spare": _typed("closing", "spare_gap"),
    "closing-speed": _output("closing", "closing_speed"),
    "closing-time": _output("closing", "closing_time"),
    "closing-gap": _output("closing", "gap"),
    "closing-stop": _output("closing", "stopping"),
    "closing-clear-time": _output("closing", "clear_time"),
    "closing-clear-sight": _output("closing", "clear_sight"),
    "closing-passing": _output("closing", "passing_sight"),
    "closing-gap-20": _shown(sight.slow_down_gap(20 * si.MPH, 0), "distance"),
    "closing-gap-40": _shown(sight.slow_down_gap(40 * si.MPH, 0), "distance"),
    "closing-reaction": _shown(sight.REACTION_TIME, "seconds"),
    "closing-braking": _shown(sight.BRAKING_DECELERATION, "acceleration"),
    "closing-car-gap": lambda: f"{road_gaps.gap_time('car', 'left'):g} s",
    "closing-look": _shown(road_gaps.START_DELAY, "seconds"),
    "closing-half-mile": lambda: f"{sight.closing_time(804.672, 60 * si.MPH, 15 * si.MPH):.0f} s",
    "rail-time": _output("rail-crossing", "time"),
    "rail-view": _output("rail-crossing", "needed"),
    "rail-stop": _shown(STOP_LINE, "distance"),
    "rail-signal": _shown(SIGNAL_WARNING, "seconds"),
    # lighting
    "emblem-height-all": _emblem_all,
    "emblem-heights": _heights("US-STD"),
    "emblem-heights-old": _heights("US-STD-old"),
    "emblem-heights-middle": _heights("CA"),
    "emblem-height-least": _heights("MO"),
    "emblem-speed": lambda: tables.by_key("road/emblem_rules", "place")["US-STD"]["speed_to"],
    "emblem-tall": lambda: _size("height"),
    "emblem-seen": lambda: f"{_size('seen from')} to {_size('seen to')}",
    "emblem-life": lambda: _size("life"),
    "road-states": _covered,
    "road-example-width": _typed("road", "transport_width"),
    "road-example-top": _typed("road", "implement_top"),
    "road-example-tail": _typed("road", "tail_height"),
    "road-example-clear": _limit("road", "tail_seen"),
    "road-eye": _shown(mirrors.EYE_HEIGHT, "distance"),
    "road-mirror": _shown(mirrors.MIRROR_VIEW, "distance"),
    "road-wide": _rule("S4", "when"),
    "road-edge": _rule("S4", "edge"),
    "road-reach": _rule("S12", "when"),
    "road-reach-wide": _rule("S15", "when"),
    "road-behind": _rule("S13", "when"),
    "road-last-unit": _rule("S20", "when"),
    "road-lamp-low": _rule("S2", "height_low"),
    "road-lamp-high": _rule("S2", "height_high"),
    # wiring
    "wiring-output": _typed("lamp-wiring", "output"),
    "wiring-dynamo": _range("dynamo"),
    "wiring-alternator": _range("alternator"),
    "wiring-run": _typed("lamp-wiring", "run"),
    "wiring-gauge": _typed("lamp-wiring", "gauge"),
    "wiring-road": _output("lamp-wiring", "road_load"),
    "wiring-field": _output("lamp-wiring", "field_load"),
    "wiring-circuit": _output("lamp-wiring", "circuit_current"),
    "wiring-drop": _output("lamp-wiring", "drop"),
    "wiring-light": _output("lamp-wiring", "light"),
    "wiring-fuse": _output("lamp-wiring", "need_fuse"),
    "wiring-allowed": _limit("lamp-wiring", "drop"),
    "wiring-lamp": lambda: f"{electrical_load.lamp_current(55):.2f} A",
    "wiring-lamp-wrong": lambda: f"{55 / electrical_load.CHARGING_VOLTAGE:.2f} A",
    "wiring-light-left": lambda: f"{100 * electrical_load.light_left(0.10):.0f} %",
    "wiring-safety-drop": lambda: f"{100 * wiring.SAFETY_LAMP_DROP:.0f} %",
    "wiring-other-drop": lambda: f"{100 * wiring.OTHER_DROP:.0f} %",
    "wiring-fuse-margin": lambda: f"{wiring.FUSE_MARGIN:g}",
    # towing
    "towing-tractor": _typed("road-towing", "tractor_mass"),
    "towing-load": _typed("road-towing", "towed_mass"),
    "towing-speed": _typed("road-towing", "road_speed"),
    "towing-grade": _typed("road-towing", "grade"),
    "towing-limit": _output("road-towing", "limit"),
    "towing-alone": _output("road-towing", "alone"),
    "towing-stop": _output("road-towing", "stop"),
    "towing-class": _brakes(0, "class"),
    "towing-least": lambda: f"{_brakes(0, 'deceleration')()} m/s²",
    "towing-rule-speed": _rule_speed,
    "towing-longer": _ratio_stop,
    "towing-ratio": lambda: tables.by_key("road/towed_mass_rules", "rule")["unbraked-32"]["ratio"],
}
