"""The worksheet on PTO power."""

import pytest

from calc import model, search, si, tables, worksheets
from calc.mechanics import auger, implement_power, pto, pto_power
from calc.model import leading
from calc.model.pictures import Bars, Chart
from tests.worksheets.asking import output_of, verdict

SHEET = worksheets.load("pto")
PTO_20 = {"engine_power": "", "pto_power": "20 hp", "slope": "0 %"}


def answer(**typed: str) -> model.Answer:
    return search.answer(SHEET, typed, example=True)


def tried(remedy: model.Remedy, **typed: str) -> model.Answer:
    return search.answer(SHEET, {**typed, **remedy.set}, example=True)


def test_an_engine_power_alone_leaves_a_range() -> None:
    found = answer(material="typical")
    assert found.finding == model.UNKNOWN
    assert found.settle is not None and found.settle.field.name == "pto_share"
    rated = output_of(found, "rated")
    low, _, high = pto_power.pto_ratio()
    drag = pto_power.pump_drag("hydrostatic")
    assert rated.low == pytest.approx(25 * si.HP * low - drag[1])
    assert rated.high == pytest.approx(25 * si.HP * high - drag[0])


def test_a_known_pto_power_settles_it_and_asks_nothing_more() -> None:
    found = answer(engine_power="", pto_power="24 hp")
    assert found.finding == model.CLOSE
    assert not found.assumed
    assert output_of(found, "rated").value == pytest.approx(24 * si.HP)


def test_both_powers_known_uses_the_shaft_s() -> None:
    found = answer(engine_power="25 hp", pto_power="18 hp")
    assert output_of(found, "rated").value == pytest.approx(18 * si.HP)
    assert not found.assumed


def test_gear_drive_has_no_pump_to_drag() -> None:
    found = answer(transmission="gear", engine_rating="net")
    assert output_of(found, "rated").value == pytest.approx(25 * si.HP * 0.90)


def test_power_left_is_that_of_the_mechanics() -> None:
    found = answer(
        engine_power="",
        pto_power="20 hp",
        slope="15 %",
        ground_speed="6 km/h",
        tractor_mass="1800 kg",
        implement_mass="200 kg",
        altitude="4500 ft",
        air_temperature="95 F",
    )
    travel = pto_power.travel_power(
        2000, 0.15, 6 / 3.6, 0.0, pto_power.axle_efficiency("hydrostatic")[1]
    )
    expected = 20 * si.HP * 0.88 * 0.98 - travel
    assert output_of(found, "left").value == pytest.approx(expected)


def test_torque_is_that_of_the_mechanics() -> None:
    found = answer(**PTO_20)
    assert output_of(found, "torque").value == pytest.approx(pto.torque(20 * si.HP, 540))


@pytest.mark.parametrize(
    "kind",
    [row["kind"] for row in tables.rows("power/pto_kinds")],
)
@pytest.mark.parametrize("material", implement_power.LOADS)
def test_every_kind_asks_for_what_the_mechanics_say(kind: str, material: str) -> None:
    width = "4 in" if kind == "chipper" else "60 in"
    typed = {**PTO_20, "implement_kind": kind, "material": material, "working_width": width}
    found = answer(**typed, auger_diameter="9 in")
    row = implement_power.kind_row(kind)
    assert row is not None
    size = {
        "width": 60 * 0.0254,
        "opening": 4 * 0.0254,
        "throughput": 6 / 3.6,
        "rating": 10e3,
        "total": 0.0,
        "auger": 9 * 0.0254,
    }[row["size"]]
    expected = implement_power.needed(kind, size, material, "practice", 0.20)
    if kind == "post_hole_digger":
        soil = {"light": "sand", "typical": "loam", "heavy": "clay"}[material]
        expected = auger.auger_power(size, auger.soil_factor(soil))
    running = "need_low" if kind == "generator" else "need"  # with ease where motors start on it
    assert output_of(found, running).value == pytest.approx(expected)
    assert found.pictures


def test_every_kind_of_the_implement_table_with_a_shaft_is_known() -> None:
    kinds = {row["kind"] for row in tables.rows("machines/typical_implements")}
    assert kinds - {row["kind"] for row in tables.rows("power/pto_kinds")} == {
        *("bale_spear", "ballast_box", "box_blade", "core_aerator", "landscape_rake", "other"),
        *("disk_harrow", "land_plane", "plow", "front_blade"),
        *(
            "backhoe",
            "none",
            "trailer",
            "pallet_forks",
            "rear_blade",
            "sprayer",
            "spring_tine_rake",
        ),
    }
    for row in tables.rows("power/pto_kinds"):
        if row["power_key"]:
            implement_power.density(row["power_key"])
        if row["rotary_key"]:
            implement_power.rotary_power(row["rotary_key"], 1.0, 1.0)


def test_headline_says_the_power_where_all_is_well() -> None:
    found = answer(**{**PTO_20, "implement_kind": "tedder", "working_width": "7 ft"})
    assert found.finding == model.WITHIN
    assert "hp is left at the shaft, and it runs with ease from" in leading.lead(found, "us")


def test_kind_without_a_shaft_is_a_comparison() -> None:
    found = answer(implement_kind="box_blade")
    assert found.finding == model.COMPARED
    assert "driven from the PTO" in leading.headline(found, "us")


def test_chipper_asks_for_its_opening() -> None:
    with pytest.raises(search.BadInputs) as caught:
        answer(implement_kind="chipper")
    assert "opening" in caught.value.errors["working_width"]
    found = answer(**PTO_20, implement_kind="chipper", working_width="")
    assert found.finding in (model.OVER, model.UNKNOWN, model.CLOSE)


def test_engine_speeds_the_wrong_way_round_are_refused() -> None:
    with pytest.raises(search.BadInputs) as caught:
        answer(rated_rpm="2000 rpm", pto_engine_rpm="2600 rpm")
    assert "pto_engine_rpm" in caught.value.errors


def test_an_engine_is_never_weaker_than_its_shaft() -> None:
    """A PTO power alone says what the engine has at least; a weaker engine beside it is refused."""
    typed = {"pto_power": "60 hp", "implement_kind": "generator", "generator_rating": "25 kW"}
    found = answer(**typed, engine_power="")
    assert verdict(found, "starting").finding == model.WITHIN
    assert "pto_power" in search.read(SHEET, {**typed, "engine_power": "25 hp"}).errors


def test_standing_work_takes_nothing_for_driving() -> None:
    found = answer(engine_power="", pto_power="20 hp", slope="30 %", implement_kind="generator")
    assert output_of(found, "left").value == pytest.approx(20 * si.HP)


def test_maker_s_range_must_hold_at_both_ends() -> None:
    typed = {**PTO_20, "power_needed": "18 to 25 hp"}
    found = answer(**typed)
    assert found.finding == model.UNKNOWN
    assert isinstance(found.pictures[0], Bars)
    assert answer(**{**typed, "power_needed": "10 to 15 hp"}).finding == model.WITHIN


# --- sources side by side ---------------------------------------------------------------


def test_trade_custom_and_d497_stand_side_by_side() -> None:
    typed = {**PTO_20, "implement_kind": "flail_mower"}
    custom, d497 = answer(**typed), answer(**typed, figures="d497")
    assert output_of(custom, "need").value == pytest.approx(
        implement_power.demand("flail_mower", 1.524, "light")
    )
    shaft = implement_power.rotary_power("mower_flail", 1.524)
    assert output_of(d497, "need").value == pytest.approx(shaft * 1.2)
    labels = [str(row[0]) for row in custom.advice.tables[0].rows]
    assert any("ASAE D497" in label for label in labels)
    assert any("practice" in label for label in labels)
    assert isinstance(custom.pictures[0], Chart)
    assert any("D497" in str(series.label) for series in custom.pictures[0].series)


def test_rolling_is_taken_off_with_d497_only() -> None:
    typed = {**PTO_20, "implement_kind": "flail_mower"}
    custom, d497 = answer(**typed), answer(**typed, figures="d497")
    assert output_of(custom, "left").value == pytest.approx(20 * si.HP)
    rolling = pto_power.travel_power(
        (1650 + 500) * 0.45359237,
        0.0,
        3 * 0.44704,
        0.065,
        pto_power.axle_efficiency("hydrostatic")[1],
    )
    assert output_of(d497, "left").value == pytest.approx(20 * si.HP - rolling)


def test_altitude_rules_are_listed_and_chosen() -> None:
    typed = {**PTO_20, "altitude": "4500 ft"}
    by_default = output_of(answer(**typed), "left").value
    assert by_default == pytest.approx(20 * si.HP * 0.88)
    other = answer(**typed, altitude_rule="na_2500")
    assert output_of(other, "left").value == pytest.approx(20 * si.HP * 0.94)
    table = other.advice.tables[1]
    assert len(table.rows) == len(tables.rows("power/altitude_rules")) - 1
    assert any("(used here)" in str(row[0]) for row in table.rows)


def test_every_rating_is_a_choice_with_its_source() -> None:
    for row in tables.rows("power/engine_to_pto"):
        found = answer(engine_rating=row["key"])
        assumed = [a for a in found.assumed if a.field.name == "pto_share"]
        assert assumed and assumed[0].typical is not None
        assert assumed[0].typical.source.split("; ")[0] == row["source"].split("; ")[0]


# --- shafts -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("tractor", "implement", "finding"),
    [
        ("1-540", "1-540", model.WITHIN),
        ("1-1000", "2-1000", model.CLOSE),
        ("1-1000", "1-540", model.OVER),
        ("2-1000", "1-540", model.OVER),
    ],
)
def test_shafts(tractor: str, implement: str, finding: str) -> None:
    typed = {**PTO_20, "tractor_shaft": tractor, "implement_shaft": implement}
    found = answer(**typed)
    assert verdict(found, "shaft").finding == finding
    if finding == model.OVER:
        remedy = next(r for r in found.advice.remedies if "implement_shaft" in r.set)
        assert verdict(tried(remedy, **typed), "shaft").finding == model.WITHIN


def test_a_shaft_too_small_for_the_power_is_named() -> None:
    found = answer(
        engine_power="", pto_power="120 hp", implement_kind="disk_mower", working_width="4.5 m"
    )
    assert verdict(found, "guide").finding == model.OVER
    assert all(v.check.name != "guide" for v in answer(**PTO_20).verdicts)


@pytest.mark.parametrize(
    ("limit", "finding"),
    [
        ("20 hp", model.WITHIN),
        ("19 hp", model.CLOSE),
        ("16.7 hp", model.CLOSE),  # 20 / 1.2 is 16.67
        ("16.6 hp", model.OVER),
        ("15 hp", model.OVER),
    ],
)
def test_a_driveline_bears_a_fifth_more_and_no_more(limit: str, finding: str) -> None:
    assert verdict(answer(**PTO_20, power_limit=limit), "driveline").finding == finding


# --- traps ------------------------------------------------------------------------------


def test_trap_engine_power_typed_as_pto_power() -> None:
    """25 engine hp must not pass where 25 PTO hp are asked for."""
    typed = {"material": "typical", "slope": "0 %"}
    assert answer(**typed, engine_power="25 hp").finding == model.UNKNOWN
    assert verdict(answer(**typed, engine_power="25 hp"), "power").margin_high < 1
    assert answer(**typed, engine_power="", pto_power="25 hp").finding == model.WITHIN


def test_trap_power_measured_at_another_engine_speed() -> None:
    plain = answer(engine_power="", pto_power="31 hp")
    slower = answer(
        engine_power="", pto_power="31 hp", rated_rpm="1900 rpm", pto_engine_rpm="1484 rpm"
    )
    low, high = output_of(slower, "rated").low, output_of(slower, "rated").high
    assert low is not None and high is not None
    assert low <= 26 * si.HP <= high < output_of(plain, "rated").value


def test_trap_degrees_are_not_percent() -> None:
    degrees = answer(engine_power="", pto_power="24 hp", slope="10 deg")
    percent = answer(engine_power="", pto_power="24 hp", slope="10 %")
    assert output_of(degrees, "left").value < output_of(percent, "left").value


def test_trap_metric_horsepower_is_smaller() -> None:
    metric = answer(engine_power="", pto_power="24 PS")
    assert output_of(metric, "rated").value == pytest.approx(24 * 735.49875)


def test_trap_reserve_is_not_counted_twice() -> None:
    """Trade custom holds its reserve: the reserve field changes D497 figures alone."""
    typed = {**PTO_20, "implement_kind": "flail_mower"}
    assert output_of(answer(**typed, reserve="50 %"), "need").value == pytest.approx(
        output_of(answer(**typed), "need").value
    )
    more = output_of(answer(**typed, figures="d497", reserve="50 %"), "need").value
    assert more == pytest.approx(
        output_of(answer(**typed, figures="d497"), "need").value * 1.5 / 1.2
    )


def test_rotor_and_tips_follow_the_gearbox() -> None:
    found = answer(**PTO_20, gearbox_ratio="1.4815", blade_circle="60 in")
    assert output_of(found, "rotor").value == pytest.approx(800, abs=0.1)
    assert output_of(found, "tips").value == pytest.approx(63.8, abs=0.05)


def test_half_the_speed_saves_less_than_half() -> None:
    notes = " ".join(model.words(note, "us") for note in answer(**PTO_20).advice.notes)
    low, high = implement_power.saving_at_half_speed(3 * 0.44704)
    assert 0.0 < low < high < 0.5
    assert f"{low * 100:.0f} to {high * 100:.0f} %" in notes


def test_unknown_width_and_power_say_which_to_find() -> None:
    found = answer(engine_power="", pto_power="", working_width="", material="")
    assert found.finding == model.UNKNOWN
    assert found.settle is not None
    assert {a.field.name for a in found.assumed} == {"pto_power", "working_width", "material"}


def test_chart_draws_a_band_where_the_power_is_not_known() -> None:
    chart = answer().pictures[0]
    assert isinstance(chart, Chart)
    band = [series for series in chart.series if "range" in str(series.label)]
    assert len(band) == 1 and band[0].upper[0] > band[0].y[0]
    exact = answer(**PTO_20).pictures[0]
    assert isinstance(exact, Chart)
    assert not [series for series in exact.series if "range" in str(series.label)]
