"""PTO power as it is asked at the counter: with what a caller gives, and nothing of the example."""

import pytest

from calc import model, search, si, tables, worksheets
from calc.mechanics import implement_power
from calc.model import leading
from tests.worksheets.asking import output_of, verdict

SHEET = worksheets.load("pto")


def given(**typed: str) -> model.Answer:
    return search.answer(SHEET, typed)


def test_a_round_baler_is_too_much_for_a_subcompact() -> None:
    found = given(
        implement_kind="round_baler",
        tractor_kind="subcompact",
        pto_power="17 hp",
        tractor_mass="1650 lb",
        implement_mass="3800 lb",
    )
    assert found.finding == model.OVER
    assert verdict(found, "class").finding == model.OVER
    assert verdict(found, "towed").finding == model.OVER
    assert any("own wheels" in caution.text for caution in found.advice.cautions)


@pytest.mark.parametrize("kind", ["round_baler", "round_baler_fixed", "small_square_baler"])
def test_no_baler_runs_below_its_class(kind: str) -> None:
    least = {"small_square_baler": 30}.get(kind, 45)  # 4 by 5, machine-and-power.md 4.2
    typed = {"implement_kind": kind, "implement_mass": "1600 kg"}
    assert verdict(given(**typed, pto_power=f"{least - 1} hp"), "class").finding == model.OVER
    assert verdict(given(**typed, pto_power=f"{least + 1} hp"), "class").finding == model.CLOSE


@pytest.mark.parametrize("kind", [r["kind"] for r in tables.rows("power/pto_kinds")])
def test_light_work_is_never_below_the_mean_of_d497(kind: str) -> None:
    row = implement_power.kind_row(kind)
    assert row is not None
    if not row["rotary_key"]:
        return
    through = row["size"] == "throughput"
    mean = implement_power.rotary_power(row["rotary_key"], *((0.0, 2.0) if through else (2.0, 0.0)))
    assert implement_power.needed(kind, 2.0, "light", "d497", 0.0) == pytest.approx(mean)
    assert implement_power.needed(kind, 2.0, "heavy", "d497", 0.0) > mean


@pytest.mark.parametrize(
    ("rpm", "low", "high"), [("2500 rpm", 0.0, 0.03), ("1700 rpm", 0.25, 0.30)]
)
def test_power_below_rated_speed_follows_the_torque_curve(
    rpm: str, low: float, high: float
) -> None:
    rated = output_of(given(pto_power="35 hp", rated_rpm="2600 rpm", pto_engine_rpm=rpm), "rated")
    assert rated.low is not None and rated.high is not None
    assert 1 - rated.high / (35 * si.HP) == pytest.approx(low, abs=0.01)
    assert 1 - rated.low / (35 * si.HP) == pytest.approx(high, abs=0.01)


def test_a_little_below_rated_speed_a_cutter_still_runs() -> None:
    found = given(
        pto_power="35 hp",
        rated_rpm="2600 rpm",
        pto_engine_rpm="2500 rpm",
        implement_kind="rotary_cutter",
        working_width="72 in",
        material="typical",
        tractor_kind="compact_large",
    )
    assert found.finding in (model.WITHIN, model.CLOSE)


def test_a_generator_is_started_on_pto_power() -> None:
    """Two horsepower at the shaft for each kilowatt, whatever the engine is called."""
    typed = {"implement_kind": "generator", "generator_rating": "10 kW"}
    assert verdict(given(**typed, pto_power="19.9 hp"), "starting").finding == model.OVER
    assert verdict(given(**typed, pto_power="20.1 hp"), "starting").finding == model.WITHIN
    engine = given(**typed, pto_power="18 hp", engine_power="25 hp")
    assert verdict(engine, "starting").finding == model.OVER


def test_altitude_knows_a_turbocharger() -> None:
    typed = {"pto_power": "30 hp", "altitude": "7000 ft"}
    plain, turbo = (given(**typed, breathing=key) for key in ("natural", "turbo"))
    assert output_of(plain, "left").value < output_of(turbo, "left").value < 30 * si.HP
    unknown = output_of(given(**typed), "left")
    assert unknown.low == pytest.approx(output_of(plain, "left").value)
    assert unknown.high == pytest.approx(output_of(turbo, "left").value)


def test_too_much_tractor_for_a_light_cutter() -> None:
    """A light 5 ft cutter is made for 18 to 40 PTO hp; a fifth more is close."""
    typed = {"implement_kind": "rotary_cutter_light", "working_width": "5 ft", "material": "light"}
    assert verdict(given(**typed, pto_power="40.5 hp"), "duty").finding == model.CLOSE
    assert verdict(given(**typed, pto_power="39 hp"), "duty").finding == model.WITHIN
    assert verdict(given(**typed, pto_power="48.1 hp"), "duty").finding == model.OVER


def test_nothing_is_assumed_of_an_implement_that_nobody_named() -> None:
    found = given(pto_power="30 hp")
    assert found.finding == model.UNKNOWN
    assert next(item.name for item in found.unchecked) == "power"


@pytest.mark.parametrize("ask", [item.key for item in SHEET.asks])
def test_every_ask_leads_with_a_sentence(ask: str) -> None:
    cutter = {"pto_power": "30 hp", "implement_kind": "rotary_cutter", "working_width": "60 in"}
    for typed in (cutter, {"pto_power": "30 hp"}, {"implement_kind": "generator"}):
        assert leading.lead(search.answer(SHEET, typed, ask=ask), "us").endswith(".")


def test_what_is_short_for_a_class_is_said_at_its_altitude() -> None:
    typed = {"implement_kind": "finish_mower", "working_width": "60 in", "pto_power": "19 hp"}
    found = search.answer(worksheets.load("pto"), {**typed, "altitude": "9000 ft"})
    assert "19 hp is there" not in leading.lead(found, "us")


def test_too_much_tractor_is_told_what_to_buy() -> None:
    typed = {"implement_kind": "rotary_cutter_light", "working_width": "48 in"}
    found = search.answer(worksheets.load("pto"), {**typed, "pto_power": "70 hp"})
    assert any(item.key == "pto.lighter_duty" for item in found.advice.remedies)


@pytest.mark.parametrize(
    ("power", "wanted"),
    [("59 hp", model.WITHIN), ("61 hp", model.CLOSE), ("95 hp", model.CLOSE), ("97 hp", "over")],
)
def test_a_cutter_of_unknown_gearbox_bears_what_medium_duty_does(power: str, wanted: str) -> None:
    """Medium duty, 5 ft: to 60 PTO hp, from memory; heavy ones of a width bear 1.6 times that."""
    cutter = {"implement_kind": "rotary_cutter", "working_width": "5 ft", "material": "light"}
    found = search.answer(SHEET, {**cutter, "pto_power": power})
    assert next(v for v in found.verdicts if v.check.name == "duty").finding == wanted
    plate = search.answer(SHEET, {**cutter, "pto_power": power, "power_limit": "90 hp"})
    assert "duty" not in {v.check.name for v in plate.verdicts}


def test_advice_that_is_not_followed_leads_a_close_answer() -> None:
    cutter = {"implement_kind": "rotary_cutter", "working_width": "5 ft", "material": "light"}
    found = search.answer(SHEET, {**cutter, "pto_power": "90 hp"})
    assert found.finding == model.CLOSE
    assert leading.lead(found, "us").startswith("More than enough")


@pytest.mark.parametrize(
    ("kind", "typed", "least"),
    [  # machine-and-power.md 4.2: a small square baler wants 30 hp, a light 5 ft cutter 18 to 20
        ("small_square_baler", {}, 30),
        ("rotary_cutter_light", {"working_width": "60 in", "material": "light"}, 20),
    ],
)
def test_what_it_takes_is_no_less_than_makers_ask_for(
    kind: str, typed: dict[str, str], least: float
) -> None:
    found = search.answer(SHEET, {"implement_kind": kind, **typed}, ask="takes")
    assert leading.lead(found, "us").startswith(f"It runs from {least} hp")


def test_the_widest_is_a_width_that_is_sold() -> None:
    typed = {"pto_power": "33 hp", "implement_kind": "rotary_cutter", "material": "heavy"}
    found = search.answer(SHEET, typed, ask="widest")
    assert leading.lead(found, "us").startswith("60 in with the usual reserve and 72 in")


def test_no_lighter_baler_is_named_for_a_tractor_below_its_class() -> None:
    found = given(
        implement_kind="round_baler",
        tractor_kind="subcompact",
        pto_power="17 hp",
        tractor_mass="1650 lb",
        implement_mass="3800 lb",
    )
    touched = {name for item in found.advice.remedies for name in item.set}
    assert not touched & {"tractor_mass", "implement_mass"}
