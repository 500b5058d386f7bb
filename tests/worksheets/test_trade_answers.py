"""What a dealer would send for tires, duals, wire and towing: no wrong yes, no number assumed."""

import pytest

from calc import model, search, worksheets
from calc.model import sentences
from calc.render import reply

# ISO 4251 gives A8 as 40 km/h.
A8_MPH = 40 / 1.609344


def answer(name: str, ask: str = "", **typed: str) -> model.Answer:
    return search.answer(worksheets.load(name), typed, ask=ask)


def lead(found: model.Answer) -> str:
    return sentences.lead(found, "us")


def findings(found: model.Answer) -> dict[str, str]:
    return {verdict.check.name: verdict.finding for verdict in found.verdicts}


# --- one tire ------------------------------------------------------------------------------------


@pytest.mark.parametrize("ask", ["load", "pressure"])
@pytest.mark.parametrize(("mph", "over"), [(A8_MPH - 0.1, False), (A8_MPH + 0.1, True)])
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
