"""A tire is more than its size: tread, wear, load index, construction, and the liquid in it."""

import pytest

from calc import model
from calc.mechanics import front_drive, tires
from calc.mechanics.tire_size import decode
from calc.model import leading
from calc.search import BadInputs
from tests.worksheets.asking import finding, findings, given, output

AXLES = ("front", "rear")
PAIR = {"front_tire": "7-16 R-1", "rear_tire": "11.2-24 R-1", "front_drive": "yes"}


def test_another_load_index_of_one_size_is_another_tire() -> None:
    typed = {"front_tire": "8-16", "rear_tire": "320/85R24 125A8", "rear_axle_load": "7000 lb"}
    # S2: load index 115 is 1215 kg, 125 is 1650 kg.
    found = given("tires", **typed, new_rear_tire="320/85R24 115A8")
    assert found.finding == model.OVER and finding(found, "rear_load") == model.OVER
    check = next(v.check for v in found.verdicts if v.check.name == "rear_load")
    assert check.limit == pytest.approx(2 * 1215, rel=1e-3)  # printed as 2,680 lb
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
    lead = leading.lead(found, "us")
    assert "9.5-16" in lead and "rim code 16" in lead and "makers sell" in lead


def test_another_size_is_offered_only_where_the_lead_is_likely_wrong() -> None:
    typed = {"front_tire": "8-16 R-1", "rear_tire": "12.4-24 R-1", "front_drive": "yes"}
    assert not _offered(given("tires", **typed, new_rear_tire="12.4-24 R-4"))
    assert _offered(given("tires", **typed, new_rear_tire="13.6-24 R-1"))


def test_no_pair_of_a_radial_and_a_bias_tire_is_named() -> None:
    typed = {"front_tire": "9.5-16", "rear_tire": "13.6-24", "new_rear_tire": "340/85R24"}
    found = given("tires", ask="partner", front_drive="yes", **typed)
    front = leading.lead(found, "us").split(" in front")[0]
    assert tires.dimensions(decode(front)).designation.radial


def test_the_same_size_with_a_lower_load_index_is_not_the_same_tire() -> None:
    typed = {"rear_tire": "320/85R24 125A8", "front_tire": "8-16"}
    typed |= {"new_rear_tire": "320/85R24 115A8", "front_drive": "no"}
    # 115 is 1,215 kg (tires/S2): 2 x 1,215 kg are 5,357 lb.
    assert given("tires", ask="same", **typed, rear_axle_load="5,400 lb").finding == model.OVER
    assert given("tires", ask="same", **typed, rear_axle_load="5,300 lb").finding != model.OVER


def test_a_liquid_that_neither_rusts_nor_poisons_is_offered_first() -> None:
    typed = {"rear_tire": "13.6-28", "liquid": "water", "coldest": "-10 F"}
    offered = [r.set["liquid"] for r in given("tires", ask="liquid", **typed).advice.remedies]
    # -23.3 C: beet juice holds to -35.6 (WEB-9), half glycol to -33.3 (S8), 3.5 lb to -24 (TG-5).
    assert offered == ["beet", "propylene-glycol", "calcium-3.5"]


def test_mixing_constructions_is_said_and_is_no_limit() -> None:
    found = given("tires", **PAIR, new_rear_tire="280/85R24 R-1")
    assert finding(found, "mix") == model.OVER
    assert next(v.check.grade for v in found.verdicts if v.check.name == "mix") == model.ADVICE


def test_a_load_without_a_row_is_not_checked_and_says_what_to_read() -> None:
    found = given("tires", **PAIR, rear_axle_load="3,000 lb", ask="load")
    assert found.finding == model.UNKNOWN
    assert "rear_tire_load" in {item.field for item in found.unchecked if item.governs}
    assert "max load" in leading.lead(found, "us")
    typed = {**PAIR, "rear_tire": "11.2-24 8PR R-1", "rear_axle_load": "5,000 lb", "ask": "load"}
    # TY-A: 1225 kg each at 240 kPa.
    assert given("tires", **typed).finding == model.CLOSE
    assert given("tires", **typed, rear_pressure="12 psi").finding == model.OVER


@pytest.mark.parametrize("liquid", ["washer", "methanol", "propylene-glycol-other", "other"])
def test_an_unknown_strength_is_not_stays_liquid(liquid: str) -> None:
    typed = {"rear_tire": "12.4-24 R-1", "liquid": liquid, "coldest": "20 F"}
    for ask in ("liquid", "swap"):
        assert given("tires", ask=ask, **typed).finding == model.UNKNOWN


def test_the_liquid_has_an_answer_of_its_own() -> None:
    typed = {"rear_tire": "11.2-24 R-1", "liquid": "calcium-3.5", "fill": "75 %"}
    found = given("tires", ask="liquid", **typed, coldest="-5 F")
    assert found.finding == model.WITHIN
    assert leading.lead(found, "us").startswith("483 lb for both tires")
    assert given("tires", ask="liquid", **typed, coldest="-15 F").finding == model.OVER
    # Without the winter it says from where on: -24 C is -11 F.
    assert "-11" in leading.lead(given("tires", ask="liquid", **typed), "us")


def test_a_pair_that_makers_sell_is_not_talked_out_of() -> None:
    typed = {"front_tire": "9.5-16", "rear_tire": "13.6-24", "front_drive": "yes"}
    typed |= {"new_front_tire": "12-16.5 R4", "new_rear_tire": "17.5L-24 R4"}
    found = given("tires", ask="partner", **typed)
    assert "12-16.5 in front" in leading.lead(found, "us") and not _offered(found)


def test_wear_alone_may_take_the_lead_out_of_its_window() -> None:
    assert given("tires", ask="lead", **PAIR, front_worn="90 %").finding == model.OVER
    assert given("tires", ask="lead", **PAIR, front_worn="5 %").finding != model.OVER


def test_a_new_tire_of_the_same_size_is_another_one_than_a_worn_one() -> None:
    """10 mm of lug are 60 mm of a turn (k = 0.95 to 0.96): reference section 2, wear."""
    worn = given("tires", **PAIR, rear_worn="60 %", new_rear_tire=PAIR["rear_tire"])
    assert output(worn, "speed_change") > 0.015
    assert output(worn, "rear_rise") > 0.012
    assert " 0 % of speed" not in leading.lead(worn, "us")
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
    said = leading.lead(found, "us")
    assert "change of 0" not in said and "-0.561 %" in said  # 70 x 1.52 / 107 - 1


def test_a_rear_that_makers_sell_with_another_front_says_which() -> None:
    # tires/PR-1: 7-14 with 11.2-24 on 25 to 40 hp; the 25x8.5-14 goes with 41 and 43 in rears.
    typed = {"front_tire": "25x8.50-14 R-4", "rear_tire": "43x16.00-20 R-4"}
    found = given("tires", ask="partner", **typed, new_rear_tire="11.2-24 R-1")
    assert leading.lead(found, "us").startswith("Makers sell 11.2-24 with 7-14")


def test_a_pair_that_is_sold_for_another_ratio_is_not_recommended() -> None:
    # tires/PR-1: 7-14 is sold with 9.5-24 and with 11.2-24, whose ratios differ by 5 %.
    typed = {"front_tire": "7-14", "rear_tire": "9.5-24", "new_rear_tire": "11.2-24"}
    found = given("tires", ask="partner", **typed)
    assert "on another gear ratio" in leading.lead(found, "us")
    kept = given("tires", ask="partner", front_tire="7-14", rear_tire="11.2-24")
    assert "a pair that makers sell" in leading.lead(kept, "us")


@pytest.mark.parametrize(("front", "found_of"), [("7.50-16 F-2", model.OVER), ("8-16", "")])
def test_ribs_on_a_driven_axle_are_refused(front: str, found_of: str) -> None:
    # tires/AT-1: F-2 is a free rolling steer tire.
    typed = {"front_tire": "7-16", "rear_tire": "11.2-24", "new_front_tire": front}
    found = given("tires", ask="swap", **typed)
    assert finding(found, "ribs") == found_of
    steered = {**typed, "front_tire": "6.00-16 F-2"}
    assert "ribs" not in findings(given("tires", ask="swap", **steered))


def test_a_new_front_of_one_size_is_another_tire_too() -> None:
    typed = {"front_tire": "11.2-24 6PR", "rear_tire": "16.9-30"}
    other = given("tires", ask="same", **typed, new_front_tire="11.2-24 8PR")
    assert leading.lead(other, "us").startswith("Not the same")
    unsaid = given("tires", ask="same", **typed, new_front_tire="11.2-24")
    assert leading.lead(unsaid, "us").startswith("It may be the same tire")
    alike = given("tires", ask="same", **typed, new_front_tire="11.2-24 6PR")
    assert leading.lead(alike, "us").startswith("By what was typed it is the same tire")


def test_a_question_about_the_fronts_is_asked_of_the_fronts_alone() -> None:
    # 320/70R20 113A8: load index 113 is 1150 kg, so two carry 2300 kg, 5,070 lb (tires/S4).
    for load, expected in (("4,000 lb", model.WITHIN), ("5,200 lb", model.OVER)):
        typed = {"front_tire": "320/70R20 113A8", "front_axle_load": load, "gear_speeds": "15 mph"}
        found = given("tires", ask="load", **typed)
        assert found.finding == expected and not found.missing
    # tires/TY-A: 10-16.5 12PR carries 2170 or 2375 kg by its pattern, a loader's load, which
    # holds to 10 km/h.
    loader = {"front_tire": "10-16.5 12PR R-4", "front_axle_load": "3800 kg"}
    slow = given("tires", ask="load", **loader, gear_speeds="8 km/h")
    assert slow.finding == model.WITHIN
    assert given("tires", ask="load", **loader, gear_speeds="20 km/h").finding == model.UNKNOWN
    same = given("tires", ask="same", front_tire="27x8.50-15 R-3", new_front_tire="27x8.50-15 R-4")
    assert leading.lead(same, "us").startswith("Not the same")
    steered = {"front_tire": "6.00-16 F-2", "new_front_tire": "6.50-16 F-2"}
    assert leading.lead(given("tires", ask="height", **steered), "us").startswith(
        "0 in at the rear"
    )
    assert leading.lead(given("tires", **steered), "us").startswith("The front axle changes by")
    assert given("tires", ask="lead", front_tire="7-16").missing
    alone = given("tires", ask="same", rear_tire="11.2-24")
    assert leading.lead(alone, "us").startswith("Say the new one too")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"front_tire": "9.5-16"}, "Makers sell 9.5-16 with 13.6-24 or 14.9-24 at the rear"),
        ({"rear_tire": "13.6-24"}, "Makers sell 13.6-24 with 9.5-16 at the front"),
        ({"rear_tire": "18.4-30"}, "Say the front tires"),
        # tires/PR-1 pairs each of the two with another: what the axle is geared for isn't known
        ({"front_tire": "10-16.5 R-4", "rear_tire": "13.6-24"}, "10-16.5 with 13.6-24 isn't"),
        ({"front_tire": "9.5-16", "rear_tire": "13.6-24"}, "9.5-16 in front"),
    ],
)
def test_a_partner_is_one_that_makers_sell_or_is_counted(typed: dict[str, str], said: str) -> None:
    assert leading.lead(given("tires", ask="partner", **typed), "us").startswith(said)


def test_a_partner_on_another_rim_says_which_it_has_now() -> None:
    typed = {"front_tire": "9.5-24", "rear_tire": "16.9-28", "new_front_tire": "11.2-24"}
    assert "rim code 30, now 28" in leading.lead(given("tires", ask="partner", **typed), "us")


def test_a_tire_much_narrower_is_no_partner() -> None:
    # 11.2R24 is 285 mm wide, 380/70R24 380 mm: three quarters of the width carries far less.
    typed = {"front_tire": "280/70R16", "rear_tire": "360/70R24", "new_rear_tire": "380/70R24"}
    found = given("tires", ask="partner", **typed)
    assert "11.2R24" not in leading.lead(found, "us")


def test_a_taller_tire_without_room_says_so_where_clearance_was_asked() -> None:
    # 13.6-24 is 1210 mm, 11.2-24 1105 mm: the tread comes 52 mm, 2.1 in, nearer (tires/TY-A);
    # 1 in must be left (tires/OM-16).
    typed = {"rear_tire": "11.2-24", "new_rear_tire": "13.6-24", "ask": "height"}
    tight = given("tires", **typed, fender_gap="2.5 in")
    assert tight.finding == model.OVER and "no room" in leading.lead(tight, "us")
    free = given("tires", **typed, fender_gap="3.6 in")
    assert free.finding != model.OVER and "no room" not in leading.lead(free, "us")


def test_fronts_taller_than_rears_are_a_question() -> None:
    # tires/PR-1: pairs whose rear is no taller than the front are an error of the page.
    for sheet in ("tires", "rollout"):
        with pytest.raises(BadInputs, match="swapped"):
            given(sheet, front_tire="16.9-24", rear_tire="11.2-24")
        assert given(sheet, front_tire="11.2-24", rear_tire="11.2-24").finding


def test_no_other_rear_rim_is_offered_unasked() -> None:
    # 8.3-20 with 12.4-28 stays so: a rear of the same height on 24 in rims is no way to 13.6-28.
    typed = {"front_tire": "8.3-20", "rear_tire": "12.4-28", "new_rear_tire": "13.6-28"}
    found = given("tires", ask="partner", **typed)
    assert leading.lead(found, "us").startswith("No size of the table")
