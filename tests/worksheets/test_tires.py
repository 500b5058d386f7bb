"""Tire swap, duals, tire size, roll-out: examples, ranges, unknowns, bad input, remedies."""

import pytest
from hypothesis import assume, settings
from hypothesis import given as tried
from hypothesis import strategies as st

from calc import model, search, tables, worksheets
from calc.errors import InputError
from calc.mechanics import front_drive, tires
from calc.mechanics.tire_size import decode
from calc.model import sentences
from calc.search import BadInputs
from calc.worksheets.duals import compute as duals_sheet
from calc.worksheets.tires.fields import read_speeds

AXLES = ("front", "rear")
TABLE_SIZES = [row["size"] for row in tables.rows("tires/tire_dimensions")]


def answer(name: str, **typed: str) -> model.Answer:
    return search.answer(worksheets.load(name), typed, example=True)


def given(name: str, ask: str = "", **typed: str) -> model.Answer:
    """What a caller gave, and nothing of the example."""
    return search.answer(worksheets.load(name), typed, ask=ask)


def finding(found: model.Answer, check: str) -> str:
    return next((v.finding for v in found.verdicts if v.check.name == check), "")


def margin(found: model.Answer, check: str) -> float:
    return next(v.margin_low for v in found.verdicts if v.check.name == check)


def middle(found: model.Answer, check: str) -> float:
    return next(v.check.margin for v in found.verdicts if v.check.name == check)


def output(found: model.Answer, name: str) -> float:
    return next(o.value for o in found.outputs if o.name == name)


def remedy(found: model.Answer, field: str) -> model.Remedy:
    return next(item for item in found.advice.remedies if field in item.set)


def table(found: model.Answer, words: str) -> model.Table:
    return next(item for item in found.advice.tables if words in item.title)


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
    assert finding(tried, "freezing") == model.WITHIN


# --- tire swap: a tire is more than its size ---------------------------------------------------

PAIR = {"front_tire": "7-16 R-1", "rear_tire": "11.2-24 R-1", "front_drive": "yes"}


def test_another_load_index_of_one_size_is_another_tire() -> None:
    typed = {"front_tire": "8-16", "rear_tire": "320/85R24 125A8", "rear_axle_load": "7000 lb"}
    # S2: load index 115 is 1215 kg, 125 is 1650 kg.
    found = given("tires", **typed, new_rear_tire="320/85R24 115A8")
    assert found.finding == model.OVER and finding(found, "rear_load") == model.OVER
    check = next(v.check for v in found.verdicts if v.check.name == "rear_load")
    assert check.limit == pytest.approx(2 * 1215)
    assert finding(given("tires", **typed), "rear_load") == model.CLOSE


def test_another_tread_of_one_size_moves_the_lead() -> None:
    now = given("tires", **PAIR)
    turf = given("tires", **PAIR, new_rear_tire="11.2-24 R-3")
    assert output(turf, "speed_change") == pytest.approx(0.98 * 0.94 / 0.95 - 1, abs=0.002)
    assert output(turf, "lead_new") > output(now, "lead_new") + 0.02
    rice = given("tires", **PAIR, new_rear_tire="11.2-24 R-2")
    assert finding(rice, "lead") == model.OVER


def test_ten_turns_that_were_measured_stand_before_the_table() -> None:
    rolled = {"old_front_ten_turns": "23.0 m", "old_rear_ten_turns": "32.5 m"}
    found = given("tires", **PAIR, **rolled, front_turns="14.5")
    assert output(found, "lead_new") == pytest.approx(23.0 * 1.45 / 32.5 - 1)
    found = given("tires", **PAIR, **rolled, new_rear_tire="12.4-24 R-1", front_turns="14.5")
    assert output(found, "lead_now") == pytest.approx(23.0 * 1.45 / 32.5 - 1)


def test_worn_fronts_lose_lead_and_new_ones_bring_it_back() -> None:
    fresh, worn = given("tires", **PAIR), given("tires", **PAIR, front_worn="100 %")
    lost = output(fresh, "lead_now") - output(worn, "lead_now")
    # 60 mm a turn for each 10 mm of lug: 23 mm of a 7-16's lug are about 6 % of its 2.33 m.
    assert lost == pytest.approx(0.06, abs=0.01)
    renewed = given("tires", **PAIR, front_worn="100 %", new_front_tire="7-16 R-1 8PR")
    assert output(renewed, "lead_new") == pytest.approx(output(fresh, "lead_new"))


def test_diameter_first_sizes_stand_by_their_tread() -> None:
    bar, turf = (tires.dimensions(decode(f"25x8.50-14 {tread}")) for tread in ("R-1", "R-3"))
    assert bar.overall_diameter == pytest.approx(25 * 0.0254)
    assert turf.overall_diameter < bar.overall_diameter


@pytest.mark.parametrize("window", [w.key for w in front_drive.windows()])
@pytest.mark.parametrize(
    ("front", "rear"),
    [("7-16 R-1", "11.2-24 R-1"), ("8-16", "12.4-24"), ("25x8.50-14 R-4", "43x16.00-20 R-4")],
)
def test_a_factory_fit_with_nothing_changed_never_fails(front: str, rear: str, window: str) -> None:
    typed = {"front_tire": front, "rear_tire": rear, "lead_window": window}
    typed |= {"front_axle_load": "1,500 lb", "rear_axle_load": "3,000 lb", "fender_gap": "0.5 in"}
    for turns in ("", "13", "16"):
        assert given("tires", **typed, front_turns=turns).finding != model.OVER


def _offered(found: model.Answer) -> list[tuple[str, str, str]]:
    """Axle, size and sentence of each tire that is offered by its size."""
    return [
        (axle, item.set[f"new_{axle}_tire"], model.words(item.text, "us"))
        for item in found.advice.remedies
        for axle in ("front", "rear")
        if item.set.get(f"new_{axle}_tire") and not item.set.get("new_rear_ten_turns")
    ]


def test_partners_offered_stay_near_and_of_one_construction() -> None:
    fronts, rears = ("8-16", "9.5-16", "9.5-24"), ("11.2-24", "13.6-24", "16.9-28", "16.9-30")
    count = 0
    for front in fronts:
        for rear in rears:
            for new in rears:
                typed = {"front_tire": f"{front} R-1", "rear_tire": f"{rear} R-1"}
                typed |= {"new_rear_tire": f"{new} R-1", "front_drive": "yes"}
                now = {axle: tires.dimensions(decode(typed[f"{axle}_tire"])) for axle in AXLES}
                for axle, size, said in _offered(given("tires", **typed)):
                    tire = tires.dimensions(decode(size))
                    near = now[axle].overall_diameter
                    assert tire.overall_diameter == pytest.approx(near, rel=0.05)
                    assert not tire.designation.radial
                    assert "rim code stays" in said or "instead of" in said
                    count += 1
    assert count >= 5


def test_a_gap_that_was_measured_limits_what_is_offered() -> None:
    typed = {"front_tire": "8-16 R-1", "rear_tire": "12.4-24 R-1", "new_rear_tire": "13.6-24 R-1"}
    typed["front_drive"] = "yes"
    # 9.5-16 is 845 mm across and 8-16 826 mm: 9.5 mm come off the gap, and 25 mm stay.
    wide = [size for _, size, _ in _offered(given("tires", **typed, front_gap="36 mm"))]
    tight = [size for _, size, _ in _offered(given("tires", **typed, front_gap="33 mm"))]
    assert any(size.startswith("9.5-16") for size in wide)
    assert not any(size.startswith("9.5-16") for size in tight)


def test_the_pair_that_makers_sell_comes_first() -> None:
    typed = {"front_tire": "8-16 R-1", "rear_tire": "12.4-24 R-1", "new_rear_tire": "13.6-24 R-1"}
    found = given("tires", ask="partner", front_drive="yes", **typed)
    lead = sentences.lead(found, "us")
    assert "9.5-16" in lead and "rim code 16" in lead and "makers sell" in lead


def test_mixing_constructions_is_said_and_is_no_limit() -> None:
    found = given("tires", **PAIR, new_rear_tire="280/85R24 R-1")
    assert finding(found, "mix") == model.OVER
    assert next(v.check.grade for v in found.verdicts if v.check.name == "mix") == model.ADVICE


def test_a_load_without_a_row_is_not_checked_and_says_what_to_read() -> None:
    found = given("tires", **PAIR, rear_axle_load="3,000 lb", ask="load")
    assert found.finding == model.UNKNOWN
    assert "rear_tire_load" in {item.field for item in found.unchecked if item.governs}
    assert "max load" in sentences.lead(found, "us")
    typed = {**PAIR, "rear_tire": "11.2-24 8PR R-1", "rear_axle_load": "5,000 lb", "ask": "load"}
    # TY-A: 1225 kg each at 240 kPa.
    assert given("tires", **typed).finding == model.CLOSE
    assert given("tires", **typed, rear_pressure="12 psi").finding == model.OVER


# --- tire swap: liquids ------------------------------------------------------------------------


@pytest.mark.parametrize("liquid", ["washer", "methanol", "propylene-glycol-other", "other"])
def test_an_unknown_strength_is_not_stays_liquid(liquid: str) -> None:
    typed = {"rear_tire": "12.4-24 R-1", "liquid": liquid, "coldest": "20 F"}
    for ask in ("liquid", "swap"):
        assert given("tires", ask=ask, **typed).finding == model.UNKNOWN


def test_the_liquid_has_an_answer_of_its_own() -> None:
    typed = {"rear_tire": "11.2-24 R-1", "liquid": "calcium-3.5", "fill": "75 %"}
    found = given("tires", ask="liquid", **typed, coldest="-10 F")
    assert found.finding == model.WITHIN
    assert sentences.lead(found, "us").startswith("483 lb for both tires")
    assert given("tires", ask="liquid", **typed, coldest="-15 F").finding == model.OVER
    # Without the winter it says from where on: -24 C is -11 F.
    assert "-11" in sentences.lead(given("tires", ask="liquid", **typed), "us")


def test_a_pair_that_makers_sell_is_not_talked_out_of() -> None:
    typed = {"front_tire": "9.5-16", "rear_tire": "13.6-24", "front_drive": "yes"}
    typed |= {"new_front_tire": "12-16.5 R4", "new_rear_tire": "17.5L-24 R4"}
    found = given("tires", ask="partner", **typed)
    assert "12-16.5 in front" in sentences.lead(found, "us") and not _offered(found)


def test_wear_alone_may_take_the_lead_out_of_its_window() -> None:
    assert given("tires", ask="lead", **PAIR, front_worn="90 %").finding == model.OVER
    assert given("tires", ask="lead", **PAIR, front_worn="5 %").finding != model.OVER


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
    assert "Rear tires it has now" in sentences.lead(found, "us")


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


# --- duals -----------------------------------------------------------------------------------


def test_duals_need_the_manual() -> None:
    assert finding(answer("duals"), "manual") == model.UNKNOWN
    assert finding(answer("duals", manual_allows="no"), "manual") == model.OVER
    assert finding(answer("duals", manual_allows="yes"), "manual") == model.WITHIN
    assert answer("duals", manual_allows="no", rear_axle_load="500 lb").finding == model.OVER


def test_bending_by_the_outer_tire_alone_is_a_caution() -> None:
    typed = {"manual_allows": "yes", "width_limit": "", "rear_tire_load": "3,000 lb"}
    found = answer("duals", **typed, adapter_length="20 in")
    assert finding(found, "bending") == model.OVER and found.finding == model.CLOSE
    assert output(found, "bending_outer") > output(found, "bending_shared") > 1


@pytest.mark.parametrize(
    ("typed", "check", "field"),
    [
        ({"adapter_length": "10 in", "width_limit": ""}, "spacing", "adapter_length"),
        ({"adapter_length": "10 in", "width_limit": ""}, "spacing", "outer_offset"),
        (
            {"adapter_length": "8 in", "outer_wheel": "same", "width_limit": ""},
            "spacing",
            "adapter_length",
        ),
        ({"rear_axle_load": "7,000 lb"}, "axle", "rear_axle_load"),
        ({}, "width", "track_width"),
        ({"rear_tire_load": "900 lb"}, "tires", "rear_tire_load"),
    ],
)
def test_dual_remedies_meet_their_checks(typed: dict[str, str], check: str, field: str) -> None:
    found = answer("duals", **typed)
    assert finding(found, check) == model.OVER
    tried = answer("duals", **{**typed, **remedy(found, field).set})
    assert margin(tried, check) >= 0


def test_the_axle_is_measured_against_its_widest_single_track() -> None:
    # Singles 8 in farther out bend it as much as they may: (7 + 8) / (7 + 19) of 6,600 lb.
    found = answer("duals", manual_allows="yes")
    assert output(found, "equal_bending") / 0.45359237 == pytest.approx(6600 * 15 / 26, rel=1e-3)
    wide = answer(
        "duals",
        manual_allows="yes",
        widest_track="120 in",
        width_limit="",
        rear_tire_load="3,000 lb",
        adapter_length="20 in",
    )
    assert wide.finding == model.WITHIN


def test_an_axle_that_nobody_gave_is_not_checked() -> None:
    found = given("duals", manual_allows="yes", rear_axle_load="2500 lb", width_limit="")
    assert found.finding != model.OVER
    assert {"axle", "spacing"} <= {item.name for item in found.unchecked}
    assert {v.check.name for v in found.verdicts}.isdisjoint({"axle", "bending", "tires"})


@pytest.mark.parametrize("manual", ["yes", "no", ""])
def test_special_rims_do_not_depend_on_the_manual(manual: str) -> None:
    typed = {"rear_tire": "14.9-28", "inner_offset": "1.5 in", "manual_allows": manual}
    found = given("duals", ask="rims", **typed, adapter_length="10 in")
    assert found.finding == model.OVER and "13 in" in sentences.lead(found, "us")
    found = given("duals", ask="rims", **typed, adapter_length="17 in")
    assert found.finding == model.CLOSE


def test_radial_and_bias_make_no_pair() -> None:
    found = answer("duals", outer_tire="14.9R28 R-1")
    assert finding(found, "pair") == model.OVER


def test_wheels_made_for_duals_reach_the_least_spacing() -> None:
    found = answer("duals", outer_wheel="dual", adapter_length="0 in")
    check = next(v.check for v in found.verdicts if v.check.name == "spacing")
    assert check.value == pytest.approx(check.limit)


def test_ways_table_agrees_with_the_arithmetic() -> None:
    found = answer("duals")
    rows = table(found, "least spacing").rows
    length = rows[0][1]
    assert isinstance(length, tuple)
    tried = answer("duals", outer_wheel="reversed", adapter_length=f"{length[0]:.5f} m")
    check = next(v.check for v in tried.verdicts if v.check.name == "spacing")
    assert check.value == pytest.approx(check.limit, abs=1e-4)


def test_unequal_tires_are_refused() -> None:
    assert finding(answer("duals", outer_tire="13.6-28"), "pair") == model.OVER
    assert finding(answer("duals", outer_tire="14.9-28 R-1"), "pair") == model.WITHIN


def test_wider_stance_raises_the_static_angle() -> None:
    found = answer("duals")
    assert output(found, "side_gain") > 0
    notes = [str(o.note) for o in found.outputs if o.name.startswith("side_")][:2]
    assert all("never a slope" in note for note in notes)
    assert any("never a safe slope" in c.text for c in found.advice.cautions)


def test_bolt_grade_and_thread_must_go_together() -> None:
    with pytest.raises(BadInputs, match="metric"):
        answer("duals", thread="M12", grade="5")
    assert output(answer("duals", thread="M12", grade="10.9"), "torque") > 0


def test_retorque_is_a_checklist() -> None:
    assert table(answer("duals"), "Tighten").checklist


def test_least_spacing_takes_the_wider_tire() -> None:
    sheet = worksheets.load("duals")
    box = search.read_box(sheet, {"outer_tire": "18.4-28"}, example=True)
    least, _ = duals_sheet.least_spacing(box.point({}))
    assert least == pytest.approx(0.578)


# --- tire size -------------------------------------------------------------------------------


def test_size_example() -> None:
    found = answer("tire-size")
    assert found.finding == model.WITHIN
    assert output(found, "rated") == 1500
    assert output(found, "overall_diameter") == pytest.approx(1.154, abs=0.001)


@pytest.mark.parametrize("size", TABLE_SIZES[::7])
def test_any_size_of_the_table_answers(size: str) -> None:
    found = answer("tire-size", tire=size, tire_mass="", road_speed="")
    assert found.finding == model.COMPARED and "across" in sentences.lead(found, "us")
    for o in found.outputs:
        if o.low is not None and o.high is not None:
            assert o.low < o.value < o.high


def test_size_overload_and_overspeed_remedies() -> None:
    typed = {"tire_mass": "5,000 lb", "road_speed": "30 mph"}
    found = answer("tire-size", **typed)
    assert finding(found, "load") == finding(found, "speed") == model.OVER
    for field, check in (("tire_mass", "load"), ("road_speed", "speed")):
        tried = answer("tire-size", **{**typed, **remedy(found, field).set})
        assert margin(tried, check) >= 0


def test_size_pressure_lowers_the_load() -> None:
    found = answer("tire-size", pressure="10 psi", rated_pressure="23 psi")
    assert output(found, "carries") == pytest.approx(1500 * (10 / 23) ** 0.585)
    with pytest.raises(BadInputs, match="maximum"):
        answer("tire-size", pressure="30 psi", rated_pressure="23 psi")


def test_trap_low_speed_bonus_is_not_counted_on() -> None:
    slow = answer("tire-size", road_speed="6 mph")
    fast = answer("tire-size", road_speed="20 mph")
    limits = [
        next(v.check.limit for v in found.verdicts if v.check.name == "load")
        for found in (slow, fast)
    ]
    assert limits[0] == limits[1] == 1500


def test_a_size_needs_no_load_to_be_read() -> None:
    found = given("tire-size", tire="15x19.5 R4")
    assert found.finding == model.COMPARED
    assert "15-19.5 R-4" in sentences.lead(found, "us")


def test_without_a_rating_the_sidewalls_line_is_asked_for() -> None:
    for size in ("9.5-16", "320/85R24", "12.4-24 6PR"):
        found = given("tire-size", tire=size, tire_mass="900 lb")
        assert found.finding == model.UNKNOWN
        assert [item.field for item in found.unchecked if item.name == "load"] == ["rated_load"]
        assert "max load" in sentences.lead(found, "us")


def test_a_load_index_at_a_pressure_needs_the_pressure_it_holds_at() -> None:
    typed = {"tire": "320/85R24 122A8", "tire_mass": "2500 lb", "pressure": "10 psi"}
    found = given("tire-size", **typed)
    assert [item.field for item in found.unchecked if item.name == "load"] == ["rated_pressure"]
    found = given("tire-size", **typed, rated_pressure="23 psi")
    assert finding(found, "load") == model.OVER


def test_a_row_carries_less_at_less_pressure() -> None:
    # tires/TY-A: 16.9-28 10PR R-1 carries 2380 kg at 200 kPa.
    at_row = given("tire-size", tire="16.9-28 10PR R-1", pressure="200 kPa", ask="load")
    assert output(at_row, "carries") == pytest.approx(2380)
    less = given("tire-size", tire="16.9-28 10PR R-1", pressure="138 kPa", ask="load")
    assert 1700 < output(less, "carries") < 2380
    more = given("tire-size", tire="16.9-28 10PR R-1", pressure="300 kPa", ask="load")
    assert output(more, "carries") == pytest.approx(2380)


def test_two_service_descriptions_are_two_speeds() -> None:
    typed = {"tire": "320/85R24 122A8/119B", "tire_mass": "1400 kg"}
    assert finding(given("tire-size", **typed, road_speed="24 mph"), "load") == model.CLOSE
    assert finding(given("tire-size", **typed, road_speed="30 mph"), "load") == model.OVER
    assert finding(given("tire-size", **typed, road_speed="33 mph"), "speed") == model.OVER


def test_size_parts_are_explained() -> None:
    found = answer("tire-size", tire="VF380/85R34 153/150D 8PR R-1W NHS")
    parts = [row[0] for row in table(found, "part").rows]
    assert parts == ["VF", "380", "/85", "R", "34", "153/150D", "/150", "8PR", "R-1W", "NHS"]


# --- roll-out --------------------------------------------------------------------------------


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


def test_size_pressure_for_the_load_and_the_work() -> None:
    typed = {"tire": "23x10.50-12 6PR", "tire_mass": "900 lb", "rated_pressure": "32 psi"}
    plain = output(answer("tire-size", **typed, road_speed=""), "pressure_needed")
    loader = output(answer("tire-size", **typed, road_speed="", work="loader"), "pressure_needed")
    assert loader - plain == pytest.approx(30_000)
    found = answer("tire-size", **typed, road_speed="", pressure=f"{plain / 6894.757:.4f} psi")
    assert output(found, "carries") == pytest.approx(900 * 0.45359237, rel=1e-3)
    assert output(found, "contact_area") == pytest.approx(900 * 0.45359237 * 9.80665 / plain, 1e-3)


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


def test_a_new_tire_of_the_same_size_is_another_one_than_a_worn_one() -> None:
    """10 mm of lug are 60 mm of a turn (k = 0.95 to 0.96): reference section 2, wear."""
    worn = given("tires", **PAIR, rear_worn="60 %", new_rear_tire=PAIR["rear_tire"])
    assert output(worn, "speed_change") > 0.015
    assert output(worn, "rear_rise") > 0.012
    assert " 0 % of speed" not in sentences.lead(worn, "us")
    kept = given("tires", **PAIR, new_rear_tire=PAIR["rear_tire"])
    assert output(kept, "speed_change") == 0


def test_lug_that_is_left_says_the_same_as_the_share_that_is_gone() -> None:
    """An 11.2's lug is (14.3 + 1.22 w) mm when new: 28 mm; 14 mm left is half of it."""
    by_share = given("tires", **PAIR, rear_worn="50 %", new_rear_tire=PAIR["rear_tire"])
    by_lug = given("tires", **PAIR, rear_lug="13.98 mm", new_rear_tire=PAIR["rear_tire"])
    for name in ("speed_change", "rear_rise", "lead_now"):
        assert output(by_lug, name) == pytest.approx(output(by_share, name), rel=1e-2)
    with pytest.raises(BadInputs, match="not both"):
        given("tires", **PAIR, rear_lug="14 mm", rear_worn="50 %")


def test_a_lug_deeper_than_the_tables_loses_nothing() -> None:
    deep = given("tires", **PAIR, rear_lug="45 mm", new_rear_tire=PAIR["rear_tire"])
    assert output(deep, "rear_rise") == pytest.approx(0, abs=1e-9)


def test_a_makers_own_fit_beside_the_window_says_its_lead_and_no_change() -> None:
    rolled = {"old_front_ten_turns": "70 ft", "old_rear_ten_turns": "107 ft"}
    found = given("tires", ask="lead", **PAIR, **rolled, front_turns="15.2")
    said = sentences.lead(found, "us")
    assert "change of 0" not in said and "-0.561 %" in said  # 70 x 1.52 / 107 - 1


@pytest.mark.parametrize("typed", ["24-11.2", "28-14.9", "16-7", "24-24", "20-8.3"])
def test_width_and_rim_the_wrong_way_round_are_a_question(typed: str) -> None:
    with pytest.raises(BadInputs, match="swapped"):
        given("tire-size", tire=typed)


@pytest.mark.parametrize(
    "typed", ["18.4-16.1", "12.5/80-15.3", "15-10.5", "31x15.50-15", "21.5L-16.1"]
)
def test_wide_tires_on_small_rims_are_read(typed: str) -> None:
    assert given("tire-size", tire=typed).finding == model.COMPARED
