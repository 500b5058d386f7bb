"""Tire swap: the lead, lists and remedies, ranges, unknowns, bad input."""

import pytest
from hypothesis import assume, settings
from hypothesis import given as tried
from hypothesis import strategies as st

from calc import model, search, worksheets
from calc.errors import InputError
from calc.mechanics import front_drive, tires
from calc.mechanics.tire_size import decode
from calc.model import leading
from calc.search import BadInputs
from calc.worksheets.tires.fields import read_speeds
from tests.tire_rows import TABLE_SIZES
from tests.worksheets.asking import (
    answer,
    finding,
    margin,
    middle,
    output,
    remedy,
    table,
)

# --- tire swap: the lead ---------------------------------------------------------------------


def test_one_axle_alone_is_plainly_over() -> None:
    found = answer("tires")
    assert found.finding == model.OVER
    assert found.deciding is not None and found.deciding.check.name == "lead"
    assert output(found, "lead_new") < output(found, "lead_now")


def test_nothing_changed_keeps_the_lead() -> None:
    found = answer("tires", new_rear_tire="")
    assert finding(found, "lead") == model.WITHIN
    assert output(found, "lead_new") == pytest.approx(output(found, "lead_now"))
    assert output(found, "speed_change") == 0


def test_the_same_size_typed_again_is_no_change() -> None:
    found = answer("tires", new_rear_tire="11.2 - 24 6PR", new_front_tire="7 x 16")
    assert output(found, "lead_new") == pytest.approx(output(found, "lead_now"))


def test_table_error_is_a_range_and_a_measurement_is_asked_for() -> None:
    found = answer("tires", new_front_tire="8-16")
    assert finding(found, "lead") == model.UNKNOWN
    assert found.settle is not None
    assert found.settle.field.name.endswith("ten_turns")
    assert "roll-out" in found.settle.field.help
    assert any("roll the tires out" in str(getattr(n, "template", n)) for n in found.advice.notes)


def test_measured_distances_settle_it() -> None:
    found = answer(
        "tires",
        new_front_tire="8-16",
        new_front_ten_turns="24.45 m",
        new_rear_ten_turns="34.63 m",
        old_front_ten_turns="23.28 m",
        old_rear_ten_turns="32.98 m",
        lead_now="3 %",
    )
    assert finding(found, "lead") in (model.WITHIN, model.CLOSE)


def test_gear_ratio_and_measured_tires_give_the_lead_itself() -> None:
    found = answer(
        "tires",
        front_turns="13.92",
        front_tire="14.9-24",
        rear_tire="18.4-38",
        new_front_tire="",
        new_rear_tire="",
        new_front_ten_turns="37.95 m",
        new_rear_ten_turns="52.03 m",
    )
    assert 100 * output(found, "lead_new") == pytest.approx(1.53, abs=0.01)
    assert finding(found, "lead") == model.WITHIN


@tried(st.sampled_from(["1.27", "1.3", "1.45"]), st.sampled_from(TABLE_SIZES))
@settings(max_examples=20)
def test_equal_change_on_both_axles_keeps_the_lead(ratio: str, size: str) -> None:
    tire = tires.dimensions(decode(size))
    ten = 10 * tire.rolling_circumference
    typed = {
        "old_front_ten_turns": f"{ten:.6f} m",
        "old_rear_ten_turns": f"{ten * 1.4:.6f} m",
        "new_front_tire": "9.5-16" if size != "9.5-16" else "9.5-20",
        "new_front_ten_turns": f"{ten * 1.05:.6f} m",
        "new_rear_ten_turns": f"{ten * 1.4 * 1.05:.6f} m",
        "lead_now": ratio + " %",
    }
    assume(6 < ten < 46)
    found = answer("tires", **typed)
    assert output(found, "lead_new") == pytest.approx(float(ratio) / 100, abs=1e-6)


def test_every_window_changes_the_limit() -> None:
    for window in front_drive.windows():
        found = answer("tires", lead_window=window.key, new_rear_tire="")
        check = next(v.check for v in found.verdicts if v.check.name == "lead")
        assert (check.limit, check.upper) == (window.low, window.high)
        assert len(table(found, "other windows").rows) == len(front_drive.windows())


def test_two_wheel_drive_has_no_lead() -> None:
    found = answer("tires", front_drive="no")
    assert all(v.check.name != "lead" for v in found.verdicts)


def test_a_gear_ratio_that_does_not_fit_the_tires_is_said() -> None:
    found = answer("tires", front_turns="12")
    assert any("outside the window already" in str(note) for note in found.advice.notes)


# --- tire swap: lists and remedies -----------------------------------------------------------


def test_lists_put_the_best_lead_first() -> None:
    found = answer("tires")
    for words in ("at the rear", "at the front"):
        rows = table(found, words).rows
        assert rows
        leads = [
            float(str(row[1].numbers["n"]).replace("\u2212", "-"))  # type: ignore[union-attr]
            for row in rows
        ]
        assert [abs(x - 3) for x in leads] == sorted(abs(x - 3) for x in leads)
        for row, lead in zip(rows, leads, strict=True):
            assert row[2] == ("inside" if 1 <= lead <= 5 else "outside")


def test_the_front_size_offered_brings_the_lead_into_the_window() -> None:
    found = answer("tires")
    offered = remedy(found, "new_front_tire")
    tried = answer("tires", **offered.set)
    assert middle(tried, "lead") >= 0
    assert finding(tried, "lead") != model.OVER


def test_the_rear_size_offered_brings_the_lead_into_the_window() -> None:
    found = answer("tires", new_rear_tire="13.6-24")
    tried = answer("tires", **{"new_rear_tire": "13.6-24", **remedy(found, "new_rear_tire").set})
    assert middle(tried, "lead") >= 0


@pytest.mark.parametrize(
    "typed",
    [
        {},
        {"new_front_tire": "8-16"},
        {"new_front_tire": "8-16", "new_rear_tire": "13.6-24"},
        {"new_front_tire": "9.5-16", "new_rear_tire": ""},
        {"front_turns": "14.6"},
    ],
)
def test_the_distances_offered_meet_the_window(typed: dict[str, str]) -> None:
    found = answer("tires", **typed)
    offered = remedy(found, "new_front_ten_turns")
    measured = next(
        item
        for item in found.advice.remedies
        if "_ten_turns" in str(item.set) and item.set.get("new_rear_ten_turns")
    )
    tried = answer("tires", **{**typed, **measured.set})
    assert offered is not None
    assert finding(tried, "lead") in (model.WITHIN, model.CLOSE)


def test_keeping_both_axles_is_offered_and_holds() -> None:
    found = answer("tires")
    keep = next(item for item in found.advice.remedies if item.set.get("new_rear_tire") == "")
    assert answer("tires", **keep.set).finding == model.WITHIN


def test_track_remedies_meet_their_checks() -> None:
    typed = {"side_gap": "1.2 in", "new_rear_tire": "14.9-24"}
    found = answer("tires", **typed)
    assert finding(found, "side_gap") == model.OVER
    tried = answer("tires", **{**typed, **remedy(found, "side_gap").set})
    assert margin(tried, "side_gap") >= 0
    typed = {"width_limit": "50 in"}
    found = answer("tires", **typed)
    assert finding(found, "width") == model.OVER
    tried = answer("tires", **{**typed, **remedy(found, "track_width").set})
    assert 0 <= margin(tried, "width") < 0.01


def test_load_remedy_meets_its_check() -> None:
    typed = {"rear_axle_load": "4,000 lb", "rear_tire_load": "1,800 lb"}
    found = answer("tires", **typed)
    assert finding(found, "rear_load") == model.OVER
    tried = answer("tires", **{**typed, **remedy(found, "rear_axle_load").set})
    assert 0 <= margin(tried, "rear_load") < 0.01


def test_freezing_remedy_meets_its_check() -> None:
    typed = {"liquid": "water", "coldest": "-30 F"}
    found = answer("tires", **typed)
    assert finding(found, "freezing") == model.OVER
    tried = answer("tires", **{**typed, **remedy(found, "liquid").set})
    assert finding(tried, "freezing") in (model.WITHIN, model.CLOSE)


# --- tire swap: the rest ---------------------------------------------------------------------


def test_more_liquid_never_lowers_the_load_on_the_axle() -> None:
    loads = []
    for fill in ("20 %", "40 %", "75 %", "90 %"):
        found = answer(
            "tires",
            liquid="calcium-5",
            fill=fill,
            rear_axle_load="3,000 lb",
            rear_axle_limit="6,000 lb",
        )
        loads.append(next(v.check.value for v in found.verdicts if v.check.name == "rear_axle"))
    assert loads == sorted(loads) and loads[0] < loads[-1]


def test_least_of_tire_and_axle_counts() -> None:
    typed = {"front_tire": "9.5-16", "front_axle_load": "2,400 lb", "new_rear_tire": ""}
    typed["front_tire_load"] = "595 kg"
    found = answer("tires", **typed)
    check = next(v.check for v in found.verdicts if v.check.name == "front_load")
    assert check.limit == pytest.approx(2 * 595)
    found = answer("tires", **typed, front_axle_limit="1040 kg")
    check = next(v.check for v in found.verdicts if v.check.name == "front_load")
    assert check.limit == pytest.approx(1040)
    assert found.finding == model.OVER


def test_speed_symbol_and_pressure() -> None:
    found = answer("tires", gear_speeds="5, 26 mph", new_rear_tire="320/85R24 122A8")
    assert finding(found, "rear_speed") == model.OVER
    found = answer(
        "tires",
        new_rear_tire="320/85R24 122A8",
        rear_axle_load="5,000 lb",
        rear_pressure="10 psi",
        rear_rated_pressure="23 psi",
    )
    check = next(v.check for v in found.verdicts if v.check.name == "rear_load")
    assert check.limit == pytest.approx(2 * 1500 * (10 / 23) ** 0.585)


@tried(st.floats(8, 60), st.floats(0, 8))
@settings(max_examples=25)
def test_a_bigger_circumference_never_lowers_speed(ten: float, more: float) -> None:
    speeds = [
        output(answer("tires", new_rear_ten_turns=f"{turns:.6f} m"), "top_speed")
        for turns in (ten, ten + more)
    ]
    assert speeds[0] <= speeds[1]


def test_clearance_is_less_than_half_the_growth() -> None:
    found = answer("tires", new_rear_tire="12.4-24 R-1")
    growth = (
        tires.dimensions(decode("12.4-24")).overall_diameter
        - tires.dimensions(decode("11.2-24")).overall_diameter
    )
    assert 0 < output(found, "rear_rise") < growth / 2
    rise = next(o for o in found.outputs if o.name == "rear_rise")
    assert rise.low is not None and rise.low < rise.value < (rise.high or 0)


def test_metric_and_inch_input_agree() -> None:
    one = answer("tires", wheelbase="62 in", track_width="42 in")
    two = answer("tires", wheelbase="1574.8 mm", track_width="1066.8 mm")
    assert output(one, "hitch_rise") == pytest.approx(output(two, "hitch_rise"))


def test_blank_form_asks_for_the_sizes() -> None:
    sheet = worksheets.load("tires")
    found = search.answer(sheet, {item.name: "" for item in sheet.fields})
    assert found.finding == model.UNKNOWN
    assert "Rear tires it has now" in leading.lead(found, "us")


@pytest.mark.parametrize(
    ("field", "text", "word"),
    [
        ("new_rear_tire", "16x4", "16x4"),
        ("rear_tire", "12.4Q24", "“Q”"),
        ("front_tire", "<script>alert(1)</script>", "Sizes look like"),
        ("new_front_tire", "9" * 300, "long"),
        ("gear_speeds", "2, banana, 5 mph", "banana"),
        ("gear_speeds", "2, 4 lb", "is a mass"),
        ("new_rear_ten_turns", "3 in", "between"),
        ("front_turns", "0", "more than zero"),
        ("fill", "100 %", "between"),
    ],
)
def test_bad_input_gets_a_sentence(field: str, text: str, word: str) -> None:
    with pytest.raises(BadInputs) as caught:
        answer("tires", **{field: text})
    assert list(caught.value.errors) == [field]
    assert word.strip("“”") in caught.value.errors[field]


def test_fields_that_cannot_stand_together() -> None:
    with pytest.raises(BadInputs, match="size of the rear tires"):
        answer("tires", rear_tire="")
    with pytest.raises(BadInputs, match="never passed"):
        answer("tires", rear_pressure="30 psi", rear_rated_pressure="20 psi")


def test_speeds_as_people_type_them() -> None:
    assert read_speeds("2, 4, 7 mph") == pytest.approx((0.89408, 1.78816, 3.12928))
    assert read_speeds("20 km/h; 5 km/h") == pytest.approx((5 / 3.6, 20 / 3.6))
    for bad in ("", ",", "fast", "900 mph"):
        with pytest.raises(InputError):
            read_speeds(bad)


# --- the pages -------------------------------------------------------------------------------


@tried(st.sampled_from(TABLE_SIZES), st.sampled_from(TABLE_SIZES))
@settings(max_examples=40)
def test_any_pair_of_sizes_answers(front: str, rear: str) -> None:
    found = answer("tires", new_front_tire=front, new_rear_tire=rear)
    assert found.finding in model.FINDING_WORDS
    assert found.pictures


def test_no_threshold_is_promised_for_a_window() -> None:
    # Whatever ten turns the rear tire makes, the front's error can leave the window either way.
    found = answer("tires", front_tire="8-16", rear_tire="12.4-24", new_rear_tire="320/85R24 R-1W")
    assert found.finding == model.UNKNOWN and found.settle is not None
    assert found.settle.low is None and found.settle.high is None


def test_braking_distance_grows_faster_than_speed() -> None:
    found = answer("tires")
    assert output(found, "braking_change") > 2 * output(found, "speed_change") > 0


def test_rims_ratings_and_freezing_that_are_not_known_are_said() -> None:
    notes = [
        model.words(n, "us") for n in answer("tires", new_front_tire="10-16.5 R-4").advice.notes
    ]
    assert any("front needs new rims: code 16.5 instead of 16" in n for n in notes)
    assert any("rear keeps its rim code" in n and "W10 to W12" in n for n in notes)
    notes = [model.words(n, "us") for n in answer("tires", rear_axle_load="3,000 lb").advice.notes]
    assert any("type the sidewall's line" in n for n in notes)
    found = answer("tires", liquid="propylene-glycol-other", coldest="-10 F")
    assert finding(found, "freezing") == "" and found.finding != model.WITHIN
    assert any("Freezing of propylene glycol" in model.words(n, "us") for n in found.advice.notes)


def test_new_tires_measured_but_old_ones_not_is_not_enough() -> None:
    typed = {
        "new_front_tire": "8-16",
        "lead_now": "3 %",
        "new_front_ten_turns": "24.45 m",
        "new_rear_ten_turns": "34.63 m",
    }
    found = answer("tires", **typed)
    assert finding(found, "lead") == model.UNKNOWN
    assert found.settle is not None and found.settle.field.name.startswith("old_")


def test_a_counted_lead_comes_before_the_gear_ratio() -> None:
    found = answer("tires", new_rear_tire="", lead_now="2 %", front_turns="12")
    for name in ("lead_now", "lead_new"):
        assert output(found, name) == pytest.approx(0.02)
