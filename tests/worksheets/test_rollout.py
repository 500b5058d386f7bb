"""Roll-out: the lead as counted, what is missing, loose ground."""

import pytest

from calc import model, worksheets
from calc.search import BadInputs
from tests.worksheets.asking import answer, finding, given, output, remedy, table


def test_rollout_lead_is_the_definition() -> None:
    found = answer(
        "rollout", old_front_ten_turns="37.95 m", old_rear_ten_turns="52.03 m", front_turns="13.92"
    )
    assert 100 * output(found, "lead") == pytest.approx(1.53, abs=0.01)


def test_rollout_says_what_the_other_windows_would_give() -> None:
    # 5.5 % of lead: tires/TG-3 ends at 5, tires/WEB-7 at 6, tires/OM-6 at 7, tires/TG-4 at 4.
    ratio = f"{10 * 1.055 * 52.03 / 37.95:.4f}"
    found = answer(
        "rollout", old_front_ten_turns="37.95 m", old_rear_ten_turns="52.03 m", front_turns=ratio
    )
    rows = {row[0]: row[1] for row in table(found, "other windows").rows}
    inside = {label for label, state in rows.items() if state == "inside"}
    assert {label.split(" %")[0] for label in inside} == {"0 to 6", "1 to 7"}


def test_rollout_fields_are_those_of_the_swap() -> None:
    swap = {item.name for item in worksheets.load("tires").fields}
    assert {"old_front_ten_turns", "old_rear_ten_turns", "front_turns"} <= swap


def test_rollout_reading_error_is_a_range() -> None:
    found = answer("rollout", front_turns="14.3 to 14.9")
    assert finding(found, "lead") == model.UNKNOWN
    assert found.settle is not None and found.settle.field.name == "front_turns"


def test_rollout_remedies_meet_the_window() -> None:
    found = answer("rollout", front_turns="13.5")
    assert found.finding == model.OVER
    for field in ("old_front_ten_turns", "old_rear_ten_turns"):
        tried = answer("rollout", **{"front_turns": "13.5", **remedy(found, field).set})
        assert tried.finding == model.WITHIN


def test_rollout_counts_come_in_pairs() -> None:
    with pytest.raises(BadInputs, match="both counts"):
        answer("rollout", front_turns_free="20")
    found = answer("rollout", front_turns_free="20", front_turns_engaged="20.5")
    assert output(found, "lead_counted") == pytest.approx(0.025)
    with pytest.raises(BadInputs, match="same course"):
        answer("rollout", front_turns_free="20", front_turns_engaged="60")


def test_rollout_says_which_measurement_is_missing() -> None:
    found = given("rollout", old_front_ten_turns="76 ft 5 in", front_turns="14.6")
    assert found.finding == model.UNKNOWN
    assert [item.field for item in found.unchecked] == ["old_rear_ten_turns"]


def test_rollout_takes_a_size_until_the_tire_is_rolled() -> None:
    found = given("rollout", front_tire="7-16", rear_tire="11.2-24", front_turns="14.6")
    assert found.finding == model.UNKNOWN and not found.unchecked


def test_rollout_asks_whether_a_gear_ratio_was_typed() -> None:
    with pytest.raises(BadInputs, match="turns for ten: type that"):
        given("rollout", front_turns="1.47")


def test_rollout_on_loose_ground_counts_both_axles() -> None:
    counted = {"front_turns_free": "20", "front_turns_engaged": "20.3", "course": "loose"}
    found = given("rollout", **counted)
    assert found.finding == model.UNKNOWN
    assert "rear_turns_engaged" in {item.field for item in found.unchecked}
    # The slip takes 1 % off the rear's turns: 20.3 / 20 is 1.5 %, and the lead is 2.5 %.
    found = given("rollout", **counted, rear_turns_free="14", rear_turns_engaged="13.86")
    assert 100 * output(found, "lead") == pytest.approx(2.53, abs=0.01)
    assert found.finding == model.WITHIN


def test_rollout_prints_a_checklist() -> None:
    assert table(answer("rollout"), "yard").checklist
