"""The drive worksheet: default example, ranges, unknowns, bad input, remedies."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import model, search, worksheets
from calc.model import leading
from calc.render import data
from calc.render.answer import answer_html
from calc.render.reply import reply
from calc.render.text_message import short
from calc.search import answer
from calc.worksheets.drive import compute as drive
from tests.worksheets.asking import assert_refused

SHEET = worksheets.load("drive")


def outputs(**typed: str) -> dict[str, float]:
    return {output.name: output.value for output in answer(SHEET, typed, example=True).outputs}


def point(**typed: str) -> model.Inputs:
    box = search.read_box(SHEET, typed, example=True)
    return box.point({dim.name: dim.middle for dim in box.dimensions})


def test_default_example_is_a_comparison() -> None:
    found = answer(SHEET, {}, example=True)
    assert found.finding == model.COMPARED
    assert [verdict.check.name for verdict in found.verdicts] == ["slope", "grip"]
    assert [item.field.name for item in found.assumed] == [
        "gear_reversal_time",
        "hydrostatic_reversal_time",
    ]
    said = reply(found)
    # The money was asked about, so it leads.
    assert said.startswith("Over a year of the same work the hydrostatic saves about 2.9 h")
    assert "Either drive has the power" in said and "yours to say" in answer_html(found)
    assert len(short(found)) < 320
    assert "Side by side" in answer_html(found)
    assert data.data(found)["worksheet"] == "drive"


def test_hydrostatic_brings_less_to_the_ground_and_shuttles_faster() -> None:
    found = outputs()
    assert found["hydrostatic_ground_power"] < found["gear_ground_power"]
    assert found["hydrostatic_cycles"] > found["gear_cycles"]
    assert found["time_saved"] > 0.0 and found["more_fuel"] > 0.0


def test_the_kind_of_shuttle_changes_the_time_taken_for_it() -> None:
    clutch, power = outputs(gear_shift="clutch"), outputs(gear_shift="power-shuttle")
    assert clutch["time_saved"] > outputs()["time_saved"] > power["time_saved"]


def test_trap_the_shaft_loses_only_the_drag() -> None:
    found = outputs(pump_drag="1 hp")
    assert found["gear_at_shaft"] - found["hydrostatic_at_shaft"] == pytest.approx(745.7, 1e-4)


def test_full_power_follows_the_paired_tests() -> None:
    v = point(shaft_power="0 hp")
    axles = [drive.to_ground(drive.drive(kind, v), v)[1] for kind in drive.DRIVES]
    full = v.engine_power * 0.86
    assert axles[0] / full == pytest.approx(0.92)
    assert axles[1] / full == pytest.approx(0.82)


def test_trap_slope_and_shaft_share_one_engine() -> None:
    flat = outputs(slope="0 %")
    steep = outputs(slope="20 %")
    assert steep["gear_load"] > flat["gear_load"] + 0.1
    more_shaft = outputs(slope="20 %", shaft_power="12 hp")
    assert more_shaft["gear_fastest"] < steep["gear_fastest"]


def test_trap_an_overloaded_engine_is_not_extrapolated() -> None:
    found = answer(SHEET, {"ground_speed": "9 mph", "slope": "25 %"}, example=True)
    values = {output.name: output.value for output in found.outputs}
    assert values["hydrostatic_load"] > 1.0
    assert values["hydrostatic_fuel_rate"] == pytest.approx(drive.fuel_rate(point(), 1.0), rel=1e-9)
    assert "neither drive has the power" in reply(found)


def test_only_the_gear_drive_can() -> None:
    found = answer(SHEET, {"ground_speed": "5 mph", "slope": "25 %", "pull": "0 lbf"}, example=True)
    assert "only the gear drive" in reply(found)
    speeds = [remedy for remedy in found.advice.remedies if "ground_speed" in remedy.set]
    assert len(speeds) == 1
    tried = answer(SHEET, {**found.given, **speeds[0].set}, example=True)
    assert "Either drive has the power" in reply(tried)


@pytest.mark.parametrize(
    "typed", [{"pull": "1,500 lbf"}, {"slope": "35 %", "soil": "soft", "driven": "two"}]
)
def test_grip_remedy_really_holds(typed: dict[str, str]) -> None:
    found = answer(SHEET, typed, example=True)
    assert found.finding == model.OVER and "don't hold" in leading.headline(found, "us") + str(
        found.verdicts[0].check.broken
    )
    mass = [remedy for remedy in found.advice.remedies if "tractor_mass" in remedy.set]
    if "pull" in typed:
        assert len(mass) == 1
        tried = answer(SHEET, {**typed, **mass[0].set}, example=True)
        assert tried.verdicts[0].margin_low >= 0.0
    else:
        assert not mass  # on a slope weight doesn't help: it has to be lifted too


def test_price_remedy_breaks_even_in_ten_years() -> None:
    found = answer(SHEET, {}, example=True)
    price = next(r for r in found.advice.remedies if "price_difference" in r.set)
    tried = outputs(**price.set)
    assert tried["pay_back"] / 3600.0 == pytest.approx(1000.0, rel=0.01)


def test_time_that_costs_nothing_never_pays() -> None:
    found = answer(SHEET, {"time_value": "0 $/h"}, example=True)
    assert all(output.name != "pay_back" for output in found.outputs)
    assert "never pays back" in reply(found)


@pytest.mark.parametrize("equation", ["later", "older", "gasoline", "propane"])
def test_every_fuel_equation_answers(equation: str) -> None:
    found = outputs(fuel_equation=equation)
    assert 0.0 < found["gear_fuel_rate"] <= found["hydrostatic_fuel_rate"]
    assert found["more_fuel"] > 0.0


def test_interest_lengthens_the_pay_back() -> None:
    plain = outputs(interest="0 %")
    assert plain["years"] * 100.0 == pytest.approx(plain["pay_back"] / 3600.0, rel=1e-6)
    typed = {"price_difference": "$400"}
    assert outputs(**typed, interest="6 %")["years"] > outputs(**typed, interest="0 %")["years"]


def test_most_pull_follows_weight_not_drive() -> None:
    light, heavy = outputs(tractor_mass="1,500 lb"), outputs(tractor_mass="3,500 lb")
    assert heavy["most_pull"] / light["most_pull"] == pytest.approx(4000 / 2000, rel=1e-6)
    # Net traction on firm ground at 15 % slip is 0.564 of the load.
    assert light["most_pull"] == pytest.approx(0.564 * 2000 * 4.4482216, rel=0.001)


def test_no_price_difference() -> None:
    assert "no price difference" in reply(answer(SHEET, {"price_difference": "$0"}, example=True))


def test_shaft_beyond_the_engine() -> None:
    assert "The shaft alone asks for more" in reply(
        answer(SHEET, {"shaft_power": "60 hp"}, example=True)
    )


def test_ranges_reach_the_outputs() -> None:
    found = answer(SHEET, {"slope": "0 % to 15 %", "time_value": "0 to 30 $/h"}, example=True)
    saving = next(output for output in found.outputs if output.name == "saving")
    assert saving.low is not None and saving.high is not None
    assert saving.low < 0.0 < saving.high
    inside = outputs(slope="7 %", time_value="11 $/h")["saving"]
    assert saving.low <= inside <= saving.high


def test_blank_form_still_answers_and_stays_quick() -> None:
    blank = {item.name: "" for item in SHEET.fields}
    found = answer(SHEET, blank, example=True)
    assert found.searched < 400
    assert len(found.assumed) > 10
    assert all(
        output.low is not None
        for output in found.outputs
        if not output.hidden and output.name != "pay_back"
    )


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("engine_power", "0 hp", "more than zero"),
        ("engine_power", "-5 hp", "more than zero"),
        ("slope", "200 %", "must lie between"),
        ("haul", "12 lb", "distance"),
        ("soil", "moon dust", "not one of the options"),
        ("fuel_price", "cheap", "price"),
        ("ground_speed", "9 to 3 mph", "9"),
    ],
)
def test_bad_input_gets_its_own_sentence(field: str, typed: str, said: str) -> None:
    assert_refused("drive", field, typed, said)


@settings(max_examples=60, deadline=None)
@given(
    power=st.floats(6.0, 120.0),
    mass=st.floats(600.0, 9000.0),
    slope=st.floats(0.0, 40.0),
    speed=st.floats(0.5, 12.0),
    drag=st.floats(0.0, 6.0),
    soil=st.sampled_from(["hard", "firm", "tilled", "soft"]),
    basis=st.sampled_from(["drawbar tests", "component figures"]),
)
def test_hydrostatic_never_beats_gears_at_the_wheels(
    power: float, mass: float, slope: float, speed: float, drag: float, soil: str, basis: str
) -> None:
    found = outputs(
        engine_power=f"{power:.2f} hp",
        tractor_mass=f"{mass:.0f} lb",
        slope=f"{slope:.2f} %",
        ground_speed=f"{speed:.2f} mph",
        pump_drag=f"{drag:.2f} hp",
        soil=soil,
        basis=basis,
    )
    assert found["hydrostatic_ground_power"] <= found["gear_ground_power"] + 1e-9
    assert found["hydrostatic_fastest"] <= found["gear_fastest"] + 1e-9
    assert found["hydrostatic_at_shaft"] <= found["gear_at_shaft"] + 1e-9


@settings(max_examples=40, deadline=None)
@given(a=st.floats(0.0, 15.0), b=st.floats(0.0, 15.0))
def test_slower_shuttling_never_saves_time(a: float, b: float) -> None:
    low, high = sorted((a, b))
    quick = outputs(hydrostatic_reversal_time=f"{low:.2f} s")["time_saved"]
    slow = outputs(hydrostatic_reversal_time=f"{high:.2f} s")["time_saved"]
    assert slow <= quick + 1e-6


# --- grip -------------------------------------------------------------------------------------


def test_a_light_two_wheel_drive_can_not_take_a_heavy_load_up_a_hill() -> None:
    typed = {"tractor_mass": "2000 lb", "load_mass": "6000 lb", "driven": "two", "slope": "20 %"}
    found = answer(SHEET, typed)
    assert found.finding == model.OVER
    assert any("brakes" in caution.text for caution in found.advice.cautions)
    assert answer(SHEET, typed, ask="climbs").finding == model.OVER


@pytest.mark.parametrize(
    ("kind", "load", "slope", "finding"),
    [
        ("any", "5,500 lb", "10 %", model.CLOSE),  # above 1.0 of the tractor, below 1.5; M10
        ("any", "6,500 lb", "10 %", model.OVER),
        (
            "compact_large",
            "4,200 lb",
            "10 %",
            model.OVER,
        ),  # a compact tows no more than itself; T26
        ("any", "8,000 lb", "0 %", model.WITHIN),  # nothing pushes on the level
    ],
)
def test_what_climbs_must_come_down_again(kind: str, load: str, slope: str, finding: str) -> None:
    typed = {
        "tractor_kind": kind,
        "tractor_mass": "4,000 lb",
        "load_mass": load,
        "load_rides": "towed",
        "slope": slope,
        "driven": "four",
        "soil": "hard",
    }
    found = answer(SHEET, typed, ask="climbs")
    assert found.finding == finding
    if finding == model.OVER:
        assert {"load_mass", ""} == {"".join(r.set) for r in found.advice.remedies}


def test_what_is_towed_puts_no_weight_on_the_driven_wheels() -> None:
    carried, towed = (outputs(load_rides=key)["most_pull"] for key in ("carried", "towed"))
    assert towed < carried


def test_ground_and_driven_wheels_change_what_reaches_the_ground() -> None:
    # On concrete 90 of 105 PTO hp with gears, 80 with a hydrostatic drive (power/S33).
    concrete = outputs(soil="hard", shaft_power="0 hp")
    full = 25 * 745.7 * 0.86
    assert concrete["gear_ground_power"] / full == pytest.approx(90 / 105, abs=0.005)
    assert concrete["hydrostatic_ground_power"] / full == pytest.approx(80 / 105, abs=0.005)
    soft = outputs(soil="soft", shaft_power="0 hp", driven="two")["gear_ground_power"]
    assert soft < outputs(soil="soft", shaft_power="0 hp")["gear_ground_power"]


def test_without_a_slope_it_is_not_said_to_climb() -> None:
    """What the wheels hold on the level is no answer to a question about a hill."""
    typed = {"tractor_mass": "4000 lb", "driven": "four", "soil": "firm"}
    found = search.answer(SHEET, typed, ask="climbs")
    assert found.finding == model.UNKNOWN
    assert [item.field for item in found.unchecked] == ["slope"]
    assert found.settle is not None and found.settle.field.name == "slope"
    given = search.answer(SHEET, {**typed, "slope": "5 %"}, ask="climbs")
    assert given.finding == model.WITHIN
    assert not search.answer(SHEET, typed, ask="fuel").unchecked
