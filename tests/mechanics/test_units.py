"""Units can't slip: in another coherent set of units every formula gives the same, scaled.

Every public function of the mechanics is called with what its examples and the worksheets give
it, then with the same quantities in units that are a tenth longer, heavier and so on. Dimensions
are read from the docstrings. A constant with a dimension that hides in a formula, a foot taken
for a meter or a mass for a force shows at once, since it doesn't scale. Where a constant has to
be there the function stands in a list below with the reason, and has to be one that fails.
"""

from __future__ import annotations

import dataclasses
import functools
import math
import random
import sys
from collections.abc import Mapping
from typing import Any

import pytest

from calc import model, search, worksheets
from scripts import soundness
from tests.mechanics import scaling

# Length, mass, time, current, money. The second keeps g at its number: time goes with the root
# of length.
FREE = (1.1, 0.93, 1.07, 1.05, 1.2)
WITH_G = (1.1, 0.93, math.sqrt(1.1), 1.05, 1.2)
FUNCTIONS = scaling.public()


@functools.cache
def _calls() -> Mapping[str, list[dict[str, Any]]]:
    """What the examples and the worksheets call the functions with."""

    def run() -> None:
        scaling.run_examples()
        for name in worksheets.names():
            sheet, rng = worksheets.load(name), random.Random(f"units {name}")
            boxes = [search.read_box(sheet, {}, example=True)]
            boxes += [search.read_box(sheet, given) for given in soundness.boxes(sheet, rng, 4)]
            for box in boxes:
                sheet.compute(box.point(soundness.random_point(box, rng)), model.Work(on=True))

    # What an earlier test has had worked out would not be called again.
    for name, module in list(sys.modules.items()):
        if name.startswith(("calc.mechanics.", "calc.subjects.", "calc.worksheets.")):
            for each in vars(module).values():
                if hasattr(each, "cache_clear"):
                    each.cache_clear()
    return scaling.recorded(run)


def _same(one: Any, other: Any) -> bool:
    if isinstance(one, float | int) and not isinstance(one, bool):
        return one == other or math.isclose(one, other, rel_tol=1e-6, abs_tol=1e-12)
    if dataclasses.is_dataclass(one):
        names = [item.name for item in dataclasses.fields(one)]
        return all(_same(getattr(one, name), getattr(other, name)) for name in names)
    if isinstance(one, Mapping):
        return all(_same(one[key], other[key]) for key in one)
    if isinstance(one, list | tuple):
        return len(one) == len(other) and all(map(_same, one, other))
    return bool(one == other)


def found(name: str, scales: tuple[float, ...]) -> str:
    """Say what became of a function: "scales", "differs", "unread", "keys only" or "not called".

    "keys only": no argument has a dimension, so there is nothing to scale, as with a table.
    """
    function = FUNCTIONS[name]
    calls = [*_calls().get(name, []), *scaling.drawn(function, name)]
    units, returned = scaling.parameters(function), scaling.results(function)
    state = "not called"
    for given in calls:
        try:
            before = function(**given)
        except ValueError:  # an example of what is refused
            continue
        try:
            moved = {key: scaling.scaled(v, units.get(key, []), scales) for key, v in given.items()}
            if _same(given, moved):
                state = "keys only" if state == "not called" else state
                continue
            wanted = scaling.scaled(before, returned, scales)
        except scaling.Unread:
            return "unread"
        try:
            after = function(**moved)
        except (ValueError, LookupError):
            return "differs"
        if not _same(wanted, after):
            return "differs"
        state = "scales"
    return state


# Formulas that hold g: they scale in units in which g keeps its number.
HOLD_G = """
    braking.shared_deceleration braking.heaviest_towed braking.holding_heat ground.contact_area
    ground.mean_pressure pto_power.grade_power pto_power.rolling_power pto_power.travel_power
    sight.stopping_sight_distance stability.tip_speed_in_turn
"""

# Functions with constants that have a dimension, by reason.
CONSTANTS: Mapping[str, str] = {
    "a table or a fit between printed points, in the units in which they are printed": """
        bolts.proof_stress braking.approval_class braking.mass_limit
        air_conditioner.alternator_share front_drive.index_group hitch_fit.shoulder_span
        joint_ratings.series_power joint_ratings.longest_by_chart road_limits.road_speed_limit
        pto.power_guide smv_emblem.emblem_by_law smv_emblem.emblem_use tire_load.speed_factor
        tire_load.sheet_load typical.implement typical.published
        wiring.fuse_size wiring.wire_resistance
    """,
    "an empirical formula of its source, whose coefficients have dimensions": """
        braking.approval_stopping_distance auger.auger_power auger.class_least
        auger.class_bears
        auger.auger_power_range auger.widest_auger duals.least_spacing fuel.diesel_rate
        fuel.older_diesel_rate fuel.average_diesel_rate fuel.engine_oil_rate
        ground.contact_pressure_band ownership.repair_cost pto_power.altitude_factor
        implement_power.rotary_power implement_power.demand implement_power.saving_at_half_speed
        used_value.remaining_value lift.minimum_lift_force
    """,
    "properties of air, water or salt": """
        cab.fresh_air_load cab.leak_area cab.leak_flow cab.wind_pressure
        liquid_ballast.brine_mass_fraction liquid_ballast.brine_recipe
        psychrometrics.humidity_ratio psychrometrics.specific_volume
        psychrometrics.humidity_ratio_from_wet_bulb psychrometrics.pressure_at_altitude
    """,
    "the day, the hour and the year are those of the calendar": """
        sun.declination sun.hour_angle sun.altitude_and_azimuth ownership.years_to_pay_back
        road_rules.standard_binds smv_emblem.emblem_on_towed
    """,
    "a length or a voltage of its own: an eye's height, a reach, the limit of a formula": """
        mirrors.lowest_clear_height smv_emblem.emblem_fails lift.greatest_distance
        electrical_load.lamp_current
    """,
}

# Functions whose numbers have no coherent unit or stand in something larger, by reason.
UNREAD: Mapping[str, str] = {
    "says itself that it takes or gives the trade's own unit (hp, inch, mph, mil, met, cm)": """
        ballast.target_mass cab.person_heat liquid_ballast.decimal_volume wiring.area_needed
        wiring.smallest_gauge wiring.gauge_for sight.printed_stopping_us_ft sun.clear_sky
        hitch_fit.sixteenths fuel.propane_rate tire_rating.printed_speed
    """,
    "the unit of an argument depends on a key beside it": """
        draft.draft implement_power.needed implement_class.class_power
        implement_class.class_spread
    """,
    "takes or gives a row, a decoded tire or another whole": """
        overload.shear_bolt overload.bolts_between digger.reach hitch_fit.span_category
        identify_hitch.identify road_rules.needs liquid_ballast.fill_volume chances.triangle
        chances.simulate tire_rating.service_ratings tire_rating.sheet_points tire_rating.rating
        tire_rating.load_in_row tire_marking.with_markings tire_doubts.asked_about
        tire_doubts.unsaid tire_doubts.one_tire tire_doubts.check_width_without_point
        tire_doubts.check_limits
        tires.lookup_key tires.table_row
        tires.estimated_diameter tires.lug_depth tires.dimensions tires.same_dimensions
        tires.change_error typical.narrowed tire_load.interpolate
    """,
    "checks numbers of more than one unit, and gives none": """
        bounds.check_geometry
    """,
    "looks a number up in a table and says so in one line": """
        air_conditioner.next_unit auger.next_auger hitch.bore_category
        joint_ratings.smallest_series typical.next_width
        joint_ratings.angle_at_speed traction.net_traction_ratio
    """,
}
HELD = set(HOLD_G.split())
FAILS = set(" ".join(CONSTANTS.values()).split())
NOT_READ = set(" ".join(UNREAD.values()).split())


@pytest.mark.parametrize("name", FUNCTIONS)
def test_scaled_inputs_give_the_scaled_result(name):
    state = found(name, FREE)
    if name in HELD:
        assert (state, found(name, WITH_G)) == ("differs", "scales")
    elif name in FAILS:
        assert state == "differs"
    elif name in NOT_READ:
        assert state == "unread"
    else:
        assert state in ("scales", "keys only", "not called")


def test_most_functions_with_a_dimension_are_held():
    """What is listed stays the smaller part, and names functions that there are."""
    states = [found(name, FREE) for name in FUNCTIONS]
    assert states.count("scales") + len(HELD) > 1.7 * (len(FAILS) + len(NOT_READ))
    assert set(FUNCTIONS) >= HELD | FAILS | NOT_READ


def test_slipped_units_are_found():
    """A foot among meters, and a mass taken for a force, don't scale."""

    def moment(mass: float, arm: float) -> float:
        """Return a moment. [N m]"""
        return mass * arm

    def gap(length: float) -> float:
        """Return a gap. [m]"""
        return length - 0.3048

    for function, given, units in (
        (moment, {"mass": 2.0, "arm": 3.0}, {"mass": ["kg"], "arm": ["m"]}),
        (gap, {"length": 2.0}, {"length": ["m"]}),
    ):
        moved = {key: scaling.scaled(value, units[key], FREE) for key, value in given.items()}
        wanted = scaling.scaled(function(**given), scaling.results(function), FREE)
        assert not _same(wanted, function(**moved))


@pytest.mark.parametrize(
    ("unit", "powers"),
    [
        ("m", (1, 0, 0, 0, 0)),
        ("kg m2", (2, 1, 0, 0, 0)),
        ("m/s²", (1, 0, -2, 0, 0)),
        ("W/(m2 K)", (0, 1, -3, 0, 0)),
        ("$/day", (0, 0, -1, 0, 1)),
        ("N m", (2, 1, -2, 0, 0)),
        ("fraction", (0, 0, 0, 0, 0)),
        ("hp", None),
    ],
)
def test_dimension_of_a_unit(unit, powers):
    assert scaling.dimension(unit) == powers
