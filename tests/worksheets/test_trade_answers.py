"""What a dealer would send for tires, duals, wire and towing: no wrong yes, no number assumed."""

import pytest

from calc import model, search, worksheets
from calc.model import leading
from calc.render import reply

# ISO 4251 gives A8 as 40 km/h.
A8_PRINTED = 25  # as sidewalls print 40 km/h [mph]


def answer(name: str, ask: str = "", **typed: str) -> model.Answer:
    return search.answer(worksheets.load(name), typed, ask=ask)


def lead(found: model.Answer) -> str:
    return leading.lead(found, "us")


def findings(found: model.Answer) -> dict[str, str]:
    return {verdict.check.name: verdict.finding for verdict in found.verdicts}


# --- one tire ------------------------------------------------------------------------------------


@pytest.mark.parametrize("ask", ["load", "pressure"])
@pytest.mark.parametrize(("mph", "over"), [(A8_PRINTED - 0.1, False), (A8_PRINTED + 0.1, True)])
def test_a_load_holds_up_to_the_speed_of_the_symbol(ask: str, mph: float, over: bool) -> None:
    typed = {"tire": "320/85R24 122A8", "tire_mass": "2,300 lb", "rated_pressure": "23 psi"}
    found = answer("tire-size", ask, road_speed=f"{mph:.3f} mph", **typed)
    assert (found.finding == model.OVER) == over
    assert ("speed symbol" in lead(found)) == over


def test_what_a_tire_carries_is_told_without_a_load() -> None:
    # Load index 122 is 1,500 kg, 3,310 lb.
    found = answer("tire-size", "load", tire="320/85R24 122A8", road_speed="20 mph")
    assert lead(found).startswith("One tire carries 3,310 lb")


# --- the axle ------------------------------------------------------------------------------------


def test_a_load_that_was_given_is_not_asked_for_again() -> None:
    found = answer("tires", "load", rear_tire="17.5L-24 10PR R-4", rear_axle_load="9,000 lb")
    assert found.finding == model.UNKNOWN
    assert "9,000 lb" in lead(found) and "scale" not in lead(found)
    assert "scale" in lead(answer("tires", "load", rear_tire="17.5L-24 10PR R-4"))


def test_tires_that_carry_it_say_nothing_for_the_axle() -> None:
    found = answer("tires", "load", rear_tire="320/85R24 122A8", rear_axle_load="5,000 lb")
    assert found.finding == model.WITHIN
    assert "tires carry 6,610 lb" in lead(found) and "axle's own limit" in lead(found)


def test_a_liquid_that_nobody_named_has_no_mass() -> None:
    found = answer("tires", "liquid", rear_tire="14.9-24 R-1")
    assert lead(found).startswith("Name the liquid first")
    assert found.output("liquid_mass") is None


# --- duals ---------------------------------------------------------------------------------------


def test_rims_made_for_duals_are_special_rims() -> None:
    typed = {"rear_tire": "14.9-28 R-1", "adapter_length": "10 in", "inner_offset": "1.5 in"}
    made = lead(answer("duals", "rims", outer_wheel="dual", **typed))
    assert made.startswith("These rims are made for duals") and "13 in" in made
    ordinary = lead(answer("duals", "rims", outer_wheel="reversed", **typed))
    assert ordinary.startswith("Yes") and "13 in" in ordinary


@pytest.mark.parametrize(
    ("allowed", "said"),
    [("", "Only if the operator's manual"), ("yes", "The manual allows them"), ("no", "No: ")],
)
def test_what_the_manual_says_is_kept(allowed: str, said: str) -> None:
    assert lead(answer("duals", "may", manual_allows=allowed)).startswith(said)


# --- wire ----------------------------------------------------------------------------------------


def test_a_gauge_that_nobody_gave_is_never_too_thin() -> None:
    typed = {"circuit": "work", "work_count": "6", "work_lamp": "halogen-55", "run": "20 ft"}
    found = answer("lamp-wiring", "wire", **typed)
    assert lead(found).startswith("8 gauge")
    assert model.OVER not in (findings(found)["wire_carries"], findings(found)["drop"])


# FAA AC 43.13-1B, table 11-3: the fuse of each gauge.
@pytest.mark.parametrize(("fuse", "gauge"), [("15 A", 14), ("20 A", 12), ("30 A", 10)])
def test_a_fuse_alone_tells_the_wire_that_it_needs(fuse: str, gauge: int) -> None:
    found = answer("lamp-wiring", "fuse", fuse=fuse)
    assert found.finding == model.UNKNOWN
    assert f"a {fuse} fuse needs {gauge} gauge or thicker" in lead(found)


@pytest.mark.parametrize(("gauge", "largest"), [("18", "10 A"), ("14", "15 A"), ("12", "20 A")])
def test_a_smaller_fuse_is_the_largest_that_protects_the_wire(gauge: str, largest: str) -> None:
    typed = {"circuit": "work", "work_count": "1", "work_lamp": "halogen-55"}
    found = answer("lamp-wiring", "fuse", gauge=gauge, fuse="40 A", **typed)
    assert found.finding == model.OVER
    sets = [item.set["fuse"] for item in found.advice.remedies if "fuse" in item.set]
    assert largest in sets


# --- the reply -----------------------------------------------------------------------------------


def test_a_reply_mends_nothing_that_only_another_question_leaves_open() -> None:
    typed = {"gauge": "18", "fuse": "20 A"}
    text = reply.reply(answer("lamp-wiring", "fuse", **typed))
    assert "10 A fuse" in text and "alternator of" not in text
    # Under its own question it is said.
    assert "alternator of" in reply.reply(answer("lamp-wiring", "carry", **typed))


def test_what_is_broken_beside_the_question_is_mended() -> None:
    typed = {"gauge": "18", "fuse": "20 A", "output": "20 A", "work_count": "4"}
    found = answer("lamp-wiring", "fuse", charging="dynamo", work_lamp="halogen-55", **typed)
    assert findings(found)["field"] == model.OVER
    assert "load in the field" in reply.reply(found)


def test_a_chain_for_a_load_that_nobody_weighed() -> None:
    assert "unknown" not in lead(answer("road-towing", "chain"))
    assert "6,000 lb or more" in lead(answer("road-towing", "chain", towed_mass="6,000 lb"))


def test_how_fast_without_a_load_ends_at_the_printed_rule() -> None:
    # The unbraked rule for small tractors (road/WEB-15, road/BRAKE-4) is for at most 20 mph.
    assert lead(answer("road-towing", "fastest")).startswith("20 mph at most")


def test_a_danger_of_pulling_out_is_spoken_under_another_question() -> None:
    typed = {"maneuver": "cross", "entrance_sight": "500 ft", "sight_distance": "1,000 ft"}
    said = lead(answer("closing", "caught", car_speed="55 mph", **typed))
    assert said.startswith("Don't pull out: you see 500 ft")


# --- pressure, makers' limits and the manual -----------------------------------------------------

# The row of 16.9-28 10PR in the bias tire data file (tires/TY-A) ends at 200 kPa; half a psi more
# is what a gauge doesn't tell.
ROW_END_KPA = 200


@pytest.mark.parametrize(("kpa", "over"), [(ROW_END_KPA, False), (ROW_END_KPA + 4, True)])
def test_no_load_is_carried_at_more_pressure_than_the_row_has(kpa: int, over: bool) -> None:
    typed = {"tire": "16.9-28 10PR R-1", "tire_mass": "2,000 lb", "pressure": f"{kpa} kPa"}
    found = answer("tire-size", "load", **typed)
    assert (found.finding == model.OVER) == over
    axle = {"rear_tire": "16.9-28 10PR R-1", "rear_axle_load": "4,000 lb"}
    both = answer("tires", "load", rear_pressure=f"{kpa} kPa", **axle)
    assert (both.finding == model.OVER) == over
    assert ("rating is for" in lead(both)) == over


@pytest.mark.parametrize(
    ("allowed", "finding"), [("yes", model.WITHIN), ("", model.UNKNOWN), ("no", model.OVER)]
)
def test_no_load_is_right_on_duals_that_the_manual_forbids(allowed: str, finding: str) -> None:
    typed = {"rear_tire": "14.9-28", "rear_tire_load": "3,000 lb", "rear_axle_load": "5,000 lb"}
    found = answer("duals", "load", manual_allows=allowed, rear_axle_limit="6,000 lb", **typed)
    assert found.finding == finding


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"pto_power": "40.1 hp", "power_limit": "40 hp"}, "40 hp that this digger's maker"),
        ({"pto_power": "30 hp", "auger_limit": "11.9 in"}, "11.9 in that this digger's maker"),
        ({"pto_power": "30 hp", "power_least": "30.1 hp"}, "30.1 hp that this digger's maker"),
    ],
)
def test_how_wide_an_auger_minds_the_makers_limits(typed: dict[str, str], said: str) -> None:
    found = answer("digger", "size", auger_diameter="12 in", soil="sand", **typed)
    assert found.finding == model.OVER and said in lead(found)
    at_limit = {"pto_power": "40 hp", "power_limit": "40 hp", "auger_limit": "12 in"}
    fits = answer("digger", "size", auger_diameter="12 in", soil="sand", **at_limit)
    assert fits.finding in (model.WITHIN, model.CLOSE)


def test_the_widest_auger_that_is_sold_may_stand_right_at_the_limit() -> None:
    typed = {"pto_power": "30 hp", "auger_diameter": "12 in", "auger_limit": "9 in"}
    found = answer("digger", "size", **typed)
    sets = [item.set.get("auger_diameter") for item in found.advice.remedies]
    assert "9 in" in sets


def test_a_tire_that_nothing_tells_apart_is_not_called_another() -> None:
    typed = {"front_tire": "8-16 R-1", "rear_tire": "13.6-24 R-1", "front_drive": "yes"}
    alike = lead(answer("tires", "same", new_rear_tire="13.6-24 R-1", **typed))
    assert alike.startswith("By what was typed it is the same tire")
    other = lead(answer("tires", "same", new_rear_tire="13.6-24 R-3", **typed))
    assert other.startswith("Not the same")


# --- the front axle, the speed sign, the payments ------------------------------------------------


def test_the_axle_that_is_open_is_the_one_that_is_named() -> None:
    typed = {"rear_tire": "320/85R24 122A8", "rear_axle_load": "5,000 lb"}
    front = answer("tires", "load", front_tire="8-16", front_axle_load="2,500 lb", **typed)
    assert front.finding == model.UNKNOWN and "2,500 lb on the front axle" in lead(front)


# Load index 104 is 900 kg: two tires carry 1,800 kg, which is printed in whole pounds.
@pytest.mark.parametrize(("kg", "over"), [(1799, False), (1803, True)])
def test_a_load_on_the_front_axle_is_answered_too(kg: int, over: bool) -> None:
    typed = {"rear_tire": "320/85R24 122A8", "rear_axle_load": "5,000 lb"}
    typed |= {"front_tire": "240/70R16 104A8", "front_axle_load": f"{kg} kg"}
    found = answer("tires", "load", **typed)
    assert (found.finding == model.OVER) == over
    assert "front axle" in lead(found)


# 75 Pa.C.S. 4529: not on anything that travels faster than 25 mph.
@pytest.mark.parametrize(
    ("mph", "said"), [("25", "is for machines built"), ("26", "comes off here")]
)
def test_no_speed_sign_where_the_emblem_comes_off(mph: str, said: str) -> None:
    found = answer("road", "symbol", place="PA", top_speed=f"{mph} mph", road_speed="20 mph")
    assert lead(found).startswith("No") and said in lead(found)


def test_payments_without_a_trade_in_name_none() -> None:
    typed = {"new_price": "$30,000", "loan_rate": "5 %", "loan_months": "60"}
    assert "nothing traded in" in lead(answer("resale", "payments", **typed))
    traded = answer("resale", "payments", trade_offer="$12,000", **typed)
    assert "with the trade-in" in lead(traded)


def _keys(name: str, **typed: str) -> set[str]:
    found = search.answer(worksheets.load(name), typed)
    return {remedy.key.split(".")[-1] for remedy in found.advice.remedies}


def test_duals_that_the_manual_forbids_are_sold_no_wheels() -> None:
    typed = {"rear_tire": "13.6-28", "adapter_length": "0 in"}
    bought = {"adapter_length", "dual_wheels", "rear_tire_load", "outer_tire"}
    assert _keys("duals", **typed, manual_allows="yes") & bought
    assert not _keys("duals", **typed, manual_allows="no") & bought


def test_a_track_is_narrowed_by_no_more_than_a_fifth() -> None:
    typed = {"rear_tire": "18.4-38", "track_width": "72 in", "adapter_length": "22 in"}
    typed |= {"manual_allows": "yes", "width_limit": "120 in"}
    assert "track_width" not in _keys("duals", **typed)
    assert "outer_off" in _keys("duals", **typed)


@pytest.mark.parametrize(
    ("kind", "power", "width", "key"),
    [
        ("snow_blower", "21.5 hp", "66 in", "lighter_snow"),
        ("rotary_tiller", "27 hp", "60 in", "lighter_ground"),
        ("rotary_cutter", "22 hp", "60 in", "material"),
    ],
)
def test_lighter_work_is_said_in_words_of_that_work(
    kind: str, power: str, width: str, key: str
) -> None:
    typed = {"implement_kind": kind, "pto_power": power, "working_width": width}
    climbs = {"slope": "8 %", "tractor_mass": "2,500 lb", "ground_speed": "2 mph"}
    assert key in _keys("pto", **typed, **climbs, material="heavy")
