"""The post hole digger worksheet: its example, ranges, unknowns, bad input, remedies."""

import pytest

from calc import model, search, worksheets
from tests.worksheets.asking import blank, findings, margins, output, remedy

SHEET = worksheets.load("digger")


def answer(**typed: str) -> model.Answer:
    return search.answer(SHEET, typed, example=True)


def test_the_example_is_within_limits() -> None:
    found = answer()
    assert found.finding == model.WITHIN
    assert not found.advice.remedies
    assert found.pictures
    assert output(found, "auger_speed") == pytest.approx(180)


def test_a_quick_coupler_is_over_and_its_removal_helps() -> None:
    found = answer(quick_coupler="u_frame")
    assert found.finding == model.OVER
    assert found.deciding is not None and found.deciding.check.name == "coupler"
    assert answer(**remedy(found, "quick_coupler").set).finding == model.WITHIN


def test_widest_auger_that_the_power_turns() -> None:
    typed = {"auger_diameter": "14 in", "soil": "clay"}
    found = answer(**typed)
    assert findings(found)["power"] == model.OVER
    tried = answer(**{**typed, **remedy(found, "auger_diameter").set})
    assert 0 <= margins(tried)["power"] < 0.05


def test_longest_auger_that_clears_the_ground() -> None:
    found = answer(auger_length="60 in")
    assert findings(found)["clearance"] == model.OVER
    tried = answer(**remedy(found, "auger_length").set)
    assert 0 <= margins(tried)["clearance"] < 0.05


def test_a_nearer_yoke_hole_lifts_the_point() -> None:
    found = answer(auger_length="54 in")
    typed = {"auger_length": "54 in", **remedy(found, "yoke_distance").set}
    tried = answer(**typed)
    assert margins(tried)["clearance"] >= 0


def test_a_longer_auger_reaches_the_depth() -> None:
    found = answer(auger_length="40 in")
    assert findings(found)["depth"] == model.OVER
    tried = answer(**remedy(found, "auger_length").set)
    assert margins(tried)["depth"] >= 0 and margins(tried)["clearance"] >= 0


def test_the_deepest_hole_is_offered_when_nothing_reaches() -> None:
    found = answer(depth_wanted="70 in")
    item = remedy(found, "depth_wanted")
    tried = answer(**item.set)
    assert margins(tried)["depth"] >= 0


def test_a_hard_bolt_is_replaced_by_one_that_shears_in_time() -> None:
    found = answer(bolt_grade="grade_8", bolt_size="1/2")
    assert findings(found)["bolt"] == model.OVER
    tried = answer(**remedy(found, "bolt_size").set)
    assert findings(tried)["bolt"] == model.WITHIN
    assert margins(tried)["bolt_work"] >= 0


def test_a_fast_shaft_is_slowed() -> None:
    found = answer(pto_speed="1000 rpm")
    assert findings(found)["speed"] == model.OVER
    assert answer(**remedy(found, "pto_speed").set).finding == model.WITHIN


def test_a_high_gearbox_bends_the_joint_and_a_shorter_auger_helps() -> None:
    typed = {"stub_height": "12 in", "boom_length": "50 in", "auger_length": "46 in"}
    found = answer(**typed)
    assert findings(found)["angle"] == model.OVER
    item = next(
        r
        for r in found.advice.remedies
        if "auger_length" in r.set and "joint" in model.words(r.text, "us")
    )
    assert margins(answer(**{**typed, **item.set}))["angle"] >= 0


def test_hardpan_is_refused_and_clay_is_tried() -> None:
    found = answer(soil="hardpan")
    assert findings(found)["soil"] == model.OVER
    assert "soil" not in findings(answer(**remedy(found, "soil").set))


def test_trap_slow_digging_does_not_get_full_power() -> None:
    slow = answer(pto_speed="254 rpm")
    assert output(slow, "power_left") == pytest.approx(output(answer(), "power_left") * 254 / 540)
    assert any("rated" in model.words(note, "us") for note in slow.advice.notes)


def test_trap_the_yoke_note_follows_the_spread_of_the_links() -> None:
    wide = answer(link_spread="33 in").advice.tables[0].rows
    narrow = answer(link_spread="25 in").advice.tables[0].rows
    assert any("outside" in str(row) for row in wide)
    assert any("inside" in str(row) for row in narrow)


def test_a_boom_that_cannot_follow_says_so() -> None:
    found = answer(yoke_distance="12 in")
    assert findings(found)["lift"] == model.OVER
    assert not found.pictures
    assert findings(answer(link_low="34 in"))["lift"] == model.OVER


def test_not_sure_of_the_soil_holds_for_every_soil() -> None:
    found = answer(soil="", auger_diameter="12 in")
    verdict = next(v for v in found.verdicts if v.check.name == "power")
    assert verdict.finding == model.UNKNOWN
    assert verdict.value_low < verdict.value_high
    assert found.settle is not None


def test_blank_form_cannot_tell_yet() -> None:
    found = search.answer(SHEET, blank(SHEET))
    assert found.finding == model.UNKNOWN
    assert found.settle is not None
    assert len(found.assumed) >= 10


def test_ranges_carry_through_to_the_numbers() -> None:
    found = answer(auger_length="46 to 50 in")
    depth = next(item for item in found.outputs if item.name == "depth")
    assert depth.low is not None and depth.high is not None and depth.low < depth.high


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("auger_diameter", "2 in", "between"),
        ("pto_speed", "540 mph", "speed"),
        ("boom_length", "long", "length"),
        ("soil", "moon dust", "not one of the options"),
    ],
)
def test_bad_input_gets_its_own_sentence(field: str, text: str, says: str) -> None:
    with pytest.raises(search.BadInputs) as caught:
        answer(**{field: text})
    assert says in caught.value.errors[field]
    assert list(caught.value.errors) == [field]
