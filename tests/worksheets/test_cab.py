"""The cab worksheet: default example, ranges, unknowns, bad input, remedies."""

import html
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import model, search, tables, worksheets
from calc.model import leading
from calc.render import data
from calc.render.answer import answer_html
from calc.render.reply import reply
from calc.render.text_message import short
from calc.search import answer
from calc.worksheets.cab import heat as sheet_module
from tests.worksheets.asking import assert_refused, remedy

SHEET = worksheets.load("cab")


def point(**typed: str) -> model.Inputs:
    box = search.read_box(SHEET, typed, example=True)
    return box.point({dim.name: dim.middle for dim in box.dimensions})


def outputs(**typed: str) -> dict[str, float]:
    return {output.name: output.value for output in answer(SHEET, typed, example=True).outputs}


def finding(check: str, **typed: str) -> str:
    return next(
        v.finding for v in answer(SHEET, typed, example=True).verdicts if v.check.name == check
    )


def test_default_example() -> None:
    found = answer(SHEET, {}, example=True)
    assert found.finding == model.CLOSE
    assert [item.field.name for item in found.assumed] == ["leak_area"]
    assert "list of parts" in reply(found)
    assert "weld" in answer_html(found)
    assert len(short(found)) < 320
    assert "Refrigerant" in answer_html(found)
    assert data.data(found)["finding"] == "close"
    assert len(found.pictures) == 2


def test_default_load_is_of_the_size_of_the_hand_worked_one() -> None:
    # The hand-worked cab comes to 2 334 W; the example's is of the same size and climate.
    assert outputs()["load"] == pytest.approx(2334.0, rel=0.15)


def test_worked_climate_with_the_test_sun() -> None:
    load = sheet_module.heat_load(
        point(
            outside_temperature="38 C",
            outside_humidity="40 %",
            inside_temperature="27 C",
            inside_humidity="50 %",
            altitude="0 ft",
            fresh_air="43 m3/h",
            leak_area="0 in2",
            floor_area="1.6 m2",
            floor_temperature="50 C",
            roof_area="1.3 m2",
            sun_rule="test",
            fan_power="150 W",
        )
    )
    assert load.roof == pytest.approx(173.0, abs=1.0)
    assert load.floor == pytest.approx(110.0, abs=1.0)
    assert load.air == pytest.approx(338.0, abs=1.0)


@pytest.mark.parametrize("row", tables.rows("cab/cab_kinds"), ids=lambda row: row["kind"])
def test_every_kind_of_cab_has_its_verdict(row: tables.Row) -> None:
    found = answer(SHEET, {"cab_kind": row["kind"], "leak_area": ""}, example=True)
    check = next(v for v in found.verdicts if v.check.name == "cab")
    expected = {
        "yes": model.WITHIN,
        "parts list first": model.CLOSE,
        "rarely": model.OVER,
        "no": model.OVER,
    }
    assert check.finding == expected[row["verdict"]]
    assert row["why"].rstrip(".") in html.unescape(str(answer_html(found)))


def test_trap_no_cab_takes_a_hole_in_its_structure() -> None:
    for kind in ("factory-option", "bolted", "open"):
        said = " ".join(
            c.text for c in answer(SHEET, {"cab_kind": kind}, example=True).advice.cautions
        )
        assert "Never weld, drill" in said and "certified people" in said


def test_trap_leaks_refuse_a_soft_cab() -> None:
    # Wind through the gaps of a soft cab brings several times the fresh air asked for.
    leaky = outputs(cab_kind="soft", leak_area="300 cm2", wind="3 m/s")
    tight = outputs(leak_area="20 cm2", wind="3 m/s")
    assert leaky["outside_air"] > 3.0 * tight["outside_air"]
    assert leaky["load"] > tight["load"] + 500.0


def test_trap_all_the_glass_at_once_would_be_two_to_three_times_too_much() -> None:
    v = point(sun_rule="test")
    load = sheet_module.heat_load(v)
    gain = 0.87
    every_pane = gain * 950.0 * (v.glass_front + v.glass_rear + 2 * v.glass_side)
    assert every_pane / load.glass_sun > 2.0


def test_sun_depends_on_place_and_hour() -> None:
    noon = outputs(solar_hour="12", month="7")
    dusk = outputs(solar_hour="19", month="7")
    assert noon["sun_height"] > dusk["sun_height"]
    winter = sheet_module.heat_load(point(month="12", latitude="60 deg", solar_hour="16"))
    assert winter.glass_sun == 0.0


@settings(max_examples=40, deadline=None)
@given(
    latitude=st.floats(-50.0, 60.0),
    month=st.integers(1, 12),
    hour=st.integers(6, 18),
    roof_glass=st.floats(0.0, 15.0),
)
def test_blank_hour_is_the_worst_of_the_day(
    latitude: float, month: int, hour: int, roof_glass: float
) -> None:
    typed = {
        "latitude": f"{latitude:.2f} deg",
        "month": str(month),
        "glass_roof": f"{roof_glass:.2f} ft2",
    }
    worst = sheet_module.heat_load(point(**typed))
    at_hour = sheet_module.heat_load(point(**typed, solar_hour=str(hour)))
    assert worst.total >= at_hour.total - 1e-6


def test_panes_add_up_to_the_load() -> None:
    found = answer(SHEET, {"glass_roof": "2 ft2"}, example=True)
    panes = next(t for t in found.advice.tables if t.title == "The sun through each pane")
    heat = sum(row[3][0] for row in panes.rows)
    v = point(glass_roof="2 ft2")
    assert heat == pytest.approx(sheet_module.heat_load(v).glass_sun, rel=1e-9)
    assert len(panes.rows) == 5


def test_turning_the_cab_helps() -> None:
    load = sheet_module.heat_load(point())
    assert 0.0 < load.best_turned < load.glass_sun


SMALL = {"cooling_capacity": "9,600 Btu/h", "cab_kind": "factory-option"}


def test_small_unit_and_each_of_its_remedies() -> None:
    assert finding("capacity", **SMALL) == model.OVER
    found = answer(SHEET, SMALL, example=True)
    tried = [item.set for item in found.advice.remedies if item.set]
    assert {"cooling_capacity", "glass_kind", "outside_temperature"} <= {
        name for changes in tried for name in changes
    }
    for changes in tried:
        assert finding("capacity", **{**SMALL, **changes}) != model.OVER


def test_units_are_offered_as_they_are_sold() -> None:
    sold = {float(row["capacity_btu_h"]) for row in tables.rows("cab/cab_units")}
    assert {5000.0, 7000.0, 10000.0, 22000.0} <= sold  # value/C13, TI-1, EM-2, TP-1
    offered = remedy(answer(SHEET, SMALL, example=True), "cooling_capacity")
    text = offered.set["cooling_capacity"]
    assert float(text.replace(",", "").split()[0]) in sold


@pytest.mark.parametrize("kind", ["bolted", "soft", "open"])
@pytest.mark.parametrize("ask", [ask.key for ask in SHEET.asks])
def test_a_cab_that_is_told_no_is_offered_nothing_to_buy(kind: str, ask: str) -> None:
    typed = {"cab_kind": kind, "cooling_capacity": "5,000 Btu/h", "alternator_current": "20 A"}
    found = answer(SHEET, typed, ask=ask)
    touched = {name for item in found.advice.remedies for name in item.set}
    assert not touched & {"cooling_capacity", "alternator_current", "glass_kind"}
    # What is done instead mends nothing of it, and no heat is told that no unit would remove.
    (shade,) = (item for item in found.advice.remedies if item.key == "cab.shade")
    assert not shade.mends
    if ask in ("can", "size"):
        assert "Btu/h" not in leading.lead(found, "us")


def test_an_electric_unit_is_no_larger_than_one_that_is_sold() -> None:
    # 30 000 Btu/h is the largest of the table; twice as much heat has no unit that is enough.
    typed = {"cab_kind": "open", "unit_drive": "electric", "unit_performance": "2"}
    most = answer(SHEET, typed, ask="current").output("amperes")
    assert most is not None and most.high is not None
    fans = 35.0  # A, value/BLOWER-1, CAB-memory: 20 + 15; no clutch without a belt
    assert most.high == pytest.approx(fans + 30000 * 0.29307 / 2 / 13.5, rel=0.01)


def test_the_hottest_day_is_solved_to_the_edge() -> None:
    offered = remedy(answer(SHEET, SMALL, example=True), "outside_temperature")
    degrees = float(offered.set["outside_temperature"].split()[0])
    hotter = {**SMALL, "outside_temperature": f"{degrees + 1.1:.1f} F"}
    assert finding("capacity", **hotter) == model.OVER


def test_alternator_remedy() -> None:
    typed = {"alternator_current": "40 A"}
    assert finding("current", **typed) == model.OVER
    offered = remedy(answer(SHEET, typed, example=True), "alternator_current")
    assert finding("current", **{**typed, **offered.set}) != model.OVER


def test_an_alternator_is_offered_once_and_only_where_it_is_surely_needed() -> None:
    def offered(**typed: str) -> list[str]:
        remedies = answer(SHEET, typed, ask="current").advice.remedies
        return [r.set["alternator_current"] for r in remedies if "alternator_current" in r.set]

    known = {"cooling_current": "28 A", "other_current": "12 A"}
    # 28 + 12 = 40 A; hot at 3,600 rpm it gives 0.72 of its rating (value/EM-3): 55.6 A does.
    assert offered(alternator_current="35 A", **known) == ["60 A"]
    assert offered(alternator_current="45 A") == []


@pytest.mark.parametrize(
    ("rating", "broken"),
    # value/EM-3: hot it gives 48 A of 50 at 5 000 rpm, 0.96 of its rating. 28 + 15 = 43 A.
    [("44.7 A", True), ("44.9 A", False)],
)
def test_the_alternator_is_hot_and_at_working_speed(rating: str, broken: bool) -> None:
    typed = {
        "alternator_speed": "5000 rpm",
        "alternator_current": rating,
        "cooling_current": "28 A",
        "other_current": "15 A",
    }
    found = answer(SHEET, typed, ask="current")
    assert (found.finding == model.OVER) == broken


def test_trap_at_idle_a_50_a_alternator_gives_16() -> None:
    # value/EM-3: 16 A hot at 1 300 rpm of the alternator.
    typed = {"alternator_speed": "1300 rpm", "alternator_current": "50 A"}
    assert outputs(**typed)["hot_output"] == pytest.approx(16.0)
    assert finding("current", **typed) == model.OVER


def test_an_electric_unit_draws_what_its_efficiency_says() -> None:
    # 7 000 Btu/h is 2 051 W; at 2.5 and 13.5 V that is 60.8 A, and 20 A of fans come on top.
    typed = {
        "unit_drive": "electric",
        "cooling_capacity": "7000 Btu/h",
        "unit_performance": "2.5",
        "cooling_current": "20 A",
    }
    found = outputs(**typed)
    assert found["amperes"] == pytest.approx(80.8, abs=0.05)
    assert found["compressor"] == 0.0
    assert finding("current", **typed) == model.OVER


def test_altitude_takes_its_share_before_the_compressor() -> None:
    found = answer(SHEET, {"altitude": "8000 ft", "power_needed": "30 hp"})
    assert found.finding == model.OVER
    example = answer(SHEET, {"altitude": "8000 ft", "power_needed": "30 hp"}, example=True)
    assert example.finding == model.OVER
    here = outputs(altitude="8000 ft")
    # power/S27: 3 % for each 1 000 ft above 500 ft, so 22.5 % at 8 000 ft.
    site = 40 * 745.6998716 * 0.775
    assert here["site_power"] == pytest.approx(site)
    assert here["left"] == pytest.approx(0.86 * (site - here["compressor"] - here["alternator"]))


def test_a_turbocharged_engine_loses_what_its_own_rule_says() -> None:
    here = outputs(altitude="8000 ft", breathing="turbo")
    # power/S27: none to about 1,000 m (3,281 ft), then about 1 % for each 100 m (328 ft).
    site = 40 * 745.6998716 * (1 - 0.01 * (8000 - 3280.84) / 328.084)
    assert here["site_power"] == pytest.approx(site)


def test_an_open_kind_of_cab_is_offered_no_shade_before_it_is_known() -> None:
    def offered(**typed: str) -> set[str]:
        return {r.key.split(".")[-1] for r in answer(SHEET, typed).advice.remedies}

    assert "shade" not in offered(engine_power="40 hp")
    assert "shade" in offered(engine_power="40 hp", cab_kind="soft")


def test_what_else_is_on_follows_the_lamps() -> None:
    def other(lamps: str) -> tuple[float, float]:
        found = answer(SHEET, {"lamps": lamps})
        typical = next(a.typical for a in found.assumed if a.field.name == "other_current")
        assert typical is not None
        return typical.low, typical.high

    assert other("day") < other("road") < other("work")


def test_fresh_air_remedy() -> None:
    typed = {"fresh_air": "5 cfm", "wind": "0 mph"}
    assert finding("fresh_air", **typed) == model.OVER
    offered = remedy(answer(SHEET, typed, example=True), "fresh_air")
    assert finding("fresh_air", **{**typed, **offered.set}) != model.OVER


def test_shaft_remedy() -> None:
    typed = {"engine_power": "25 hp", "power_needed": "20 hp"}
    assert finding("shaft", **typed) == model.OVER
    offered = remedy(answer(SHEET, typed, example=True), "power_needed")
    assert finding("shaft", **{**typed, **offered.set}) != model.OVER


def test_cooling_down_may_leave_less_than_holding() -> None:
    notes = answer(SHEET, {"power_needed": "31 hp"}, example=True).advice.notes
    assert any("cool down first" in model.words(note, "us") for note in notes)
    notes = answer(SHEET, {"power_needed": "25 hp"}, example=True).advice.notes
    assert not any("cool down first" in model.words(note, "us") for note in notes)


def test_trap_cooling_comes_off_before_the_loss_to_the_shaft() -> None:
    found = outputs()
    # Up to 500 ft an engine loses nothing, power/S27.
    expected = 0.86 * (40 * 745.6998716 - found["compressor"] - found["alternator"])
    assert found["left"] == pytest.approx(expected, rel=1e-6)


def test_trap_a_compact_needs_about_two_horsepower_not_ten() -> None:
    found = outputs()
    assert 1.0 < found["compressor"] / 745.7 < 2.5
    assert found["compressor_pull_down"] / 745.7 < 5.0


def test_ranges_and_unknowns() -> None:
    found = answer(
        SHEET, {"outside_temperature": "80 F to 120 F", "cooling_capacity": "9,600 Btu/h"}
    )
    check = next(v for v in found.verdicts if v.check.name == "capacity")
    assert check.finding == model.UNKNOWN
    empty = answer(SHEET, {})
    assert empty.finding == model.UNKNOWN
    assert empty.settle is not None and empty.settle.field.help
    assert len(empty.assumed) > 15


def test_unknown_kind_of_cab_is_named_as_what_would_settle_it() -> None:
    found = answer(SHEET, {"cab_kind": ""}, example=True)
    assert found.finding == model.UNKNOWN
    assert found.settle is not None and found.settle.field.name == "cab_kind"


def test_blank_power_needed_leaves_the_check_out() -> None:
    found = answer(SHEET, {"power_needed": ""}, example=True)
    assert all(v.check.name != "shaft" for v in found.verdicts)


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("cooling_capacity", "0", "unit"),
        ("cooling_capacity", "-3 kW", "more than zero"),
        ("outside_temperature", "300 F", "must lie between"),
        ("glass_front", "3 ft", "area"),
        ("latitude", "95 deg", "must lie between"),
        ("month", "Thermidor", "not one of the options"),
        ("outside_humidity", "140 %", "must lie between"),
    ],
)
def test_bad_input_gets_its_own_sentence(field: str, typed: str, said: str) -> None:
    assert_refused("cab", field, typed, said)


@settings(max_examples=50, deadline=None)
@given(
    latitude=st.floats(-55.0, 60.0),
    month=st.integers(1, 12),
    hour=st.floats(5.0, 19.0),
    outside=st.floats(60.0, 125.0),
    humidity=st.floats(10.0, 95.0),
)
def test_every_part_is_finite_and_more_heat_outside_is_never_less_load(
    latitude: float, month: int, hour: float, outside: float, humidity: float
) -> None:
    typed = {
        "latitude": f"{latitude:.2f} deg",
        "month": str(month),
        "solar_hour": f"{hour:.2f}",
        "outside_humidity": f"{humidity:.1f} %",
    }
    cool = sheet_module.heat_load(point(**typed, outside_temperature=f"{outside:.2f} F"))
    warm = sheet_module.heat_load(point(**typed, outside_temperature=f"{outside + 3.0:.2f} F"))
    assert math.isfinite(cool.total)
    assert warm.total > cool.total
    assert cool.glass_sun >= cool.best_turned >= 0.0


@settings(max_examples=30, deadline=None)
@given(gap_a=st.floats(0.0, 80.0), gap_b=st.floats(0.0, 80.0))
def test_more_gaps_never_bring_less_air(gap_a: float, gap_b: float) -> None:
    low, high = sorted((gap_a, gap_b))
    less = sheet_module.heat_load(point(leak_area=f"{low:.2f} in2")).outside_air
    more = sheet_module.heat_load(point(leak_area=f"{high:.2f} in2")).outside_air
    assert less <= more


def test_what_is_near_its_limit_is_named_and_no_unit_that_nobody_named() -> None:
    # 48 A hot of 50 A (value/EM-3: 96 % at 5 000 rpm); 15 A of other loads leave 33.
    amps = {"alternator_current": "50 A", "other_current": "15 A", "alternator_speed": "5000 rpm"}
    typed = {"cab_kind": "factory-option", "fresh_air": "40 cfm", **amps}
    near = answer(SHEET, {**typed, "cooling_current": "32 A"}, ask="can")
    assert near.finding == model.CLOSE and "current is short" in leading.lead(near, "us")
    over = answer(SHEET, {**typed, "cooling_current": "34 A"}, ask="can")
    assert over.finding == model.OVER
    unnamed = leading.lead(answer(SHEET, {"cab_kind": "factory-option"}, ask="size"), "us")
    assert "the one named" not in unnamed
    named = {"cab_kind": "factory-option", "cooling_capacity": "30,000 Btu/h"}
    assert "the one named" in leading.lead(answer(SHEET, named, ask="size"), "us")


def test_a_unit_that_is_too_small_takes_no_more_than_it_has_while_it_holds() -> None:
    typed = {"engine_power": "35 hp", "altitude": "0 ft", "outside_temperature": "110 F"}
    for size, capped in (("5,000 Btu/h", True), ("30,000 Btu/h", False)):
        found = answer(SHEET, {**typed, "cooling_capacity": size}, ask="left")
        most, left, cooling_down = (
            (item.high or item.value, item.low or item.value)
            for name in ("compressor", "left", "left_pull_down")
            for item in found.outputs
            if item.name == name
        )
        # Holding at the better COP, 5,000 Btu/h take 1465 W / (0.95 x 2.0) at most.
        assert (most[0] < 772) == capped
        assert left[1] >= cooling_down[1]
