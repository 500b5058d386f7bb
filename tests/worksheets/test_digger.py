"""The post hole digger worksheet: its example, what is unknown, its asks, its remedies."""

import pytest

from calc import model, search, worksheets
from calc.model import leading
from tests.worksheets.asking import assert_refused, findings, margins, output, remedy

SHEET = worksheets.load("digger")
HITCH = {
    "link_low": "9 in",
    "link_high": "33 in",
    "bracket_height": "30 in",
    "boom_length": "62 in",
    "yoke_distance": "30 in",
    "yoke_rise": "8 in",
    "housing_clearance": "8 in",
}


def example(**typed: str) -> model.Answer:
    return search.answer(SHEET, typed, example=True)


def answer(ask: str = "", **typed: str) -> model.Answer:
    return search.answer(SHEET, typed, ask=ask)


def said(found: model.Answer) -> str:
    return leading.lead(found, "us")


def test_the_example_is_within_limits() -> None:
    found = example()
    assert found.finding == model.WITHIN
    assert not found.advice.remedies
    assert found.pictures
    assert output(found, "auger_speed") == pytest.approx(180)


def test_a_quick_coupler_is_over_and_its_removal_helps() -> None:
    found = example(quick_coupler="u_frame")
    assert found.finding == model.OVER
    assert found.deciding is not None and found.deciding.check.name == "coupler"
    assert example(**remedy(found, "quick_coupler").set).finding == model.WITHIN


@pytest.mark.parametrize(
    ("power", "finding"),
    # value/P6c: a light digger is for 14 to 24 hp; power/PRACTICE: 35 with the flights full.
    [
        ("13.9 hp", model.OVER),
        ("14.1 hp", model.CLOSE),
        ("34.9 hp", model.CLOSE),
        ("35.1 hp", model.WITHIN),
    ],
)
def test_power_is_a_range(power: str, finding: str) -> None:
    found = answer("size", pto_power=power, auger_diameter="12 in", soil="clay")
    assert found.finding == finding


@pytest.mark.parametrize(
    ("auger", "power"),
    # Classes of the trade, value/DIGGERCLASS-memory: to 12 in from 15 hp, to 18 in from 20 hp.
    [
        ("6 in", "15 hp"),
        ("9 in", "15 hp"),
        ("9 in", "19 hp"),
        ("12 in", "15 hp"),
        ("12 in", "24 hp"),
        ("18 in", "20 hp"),
        ("18 in", "45 hp"),
        ("24 in", "30 hp"),
    ],
)
@pytest.mark.parametrize("soil", ["sand", "loam", "clay"])
def test_everyday_augers_are_not_refused(auger: str, power: str, soil: str) -> None:
    found = answer("size", pto_power=power, auger_diameter=auger, soil=soil)
    assert found.finding in (model.WITHIN, model.CLOSE)


def test_a_steady_feed_takes_more_and_a_slow_one_is_offered() -> None:
    typed = {"pto_power": "18 hp", "auger_diameter": "12 in", "soil": "clay", "feed": "steady"}
    found = answer("size", **typed)
    assert found.finding == model.OVER
    assert answer("size", **{**typed, **remedy(found, "feed").set}).finding == model.CLOSE


def test_the_widest_auger_sold_is_offered() -> None:
    typed = {"auger_diameter": "18 in", "soil": "clay", "pto_power": "16 hp"}
    found = answer("size", **typed)
    assert findings(found)["power"] == model.OVER
    item = remedy(found, "auger_diameter")
    assert item.set["auger_diameter"] == "12 in"
    assert margins(answer("size", **{**typed, **item.set}))["power"] >= 0


MAKER = {"auger_limit": "12 in", "power_least": "14 hp", "power_limit": "24 hp"}  # value/P6c


@pytest.mark.parametrize(
    ("typed", "broken"),
    [
        ({"auger_diameter": "12 in", "pto_power": "24 hp"}, None),
        ({"auger_diameter": "12.1 in", "pto_power": "24 hp"}, "auger"),
        ({"auger_diameter": "9 in", "pto_power": "24.1 hp"}, "maker_most"),
        ({"auger_diameter": "9 in", "pto_power": "14 hp"}, None),
        ({"auger_diameter": "9 in", "pto_power": "13.9 hp"}, "maker_least"),
    ],
)
def test_the_makers_limits_hold_both_ways(typed: dict[str, str], broken: str | None) -> None:
    found = answer("works", **MAKER, **typed)
    over = {v.check.name for v in found.verdicts if v.finding == model.OVER}
    assert over == ({broken} if broken else set())


def test_what_the_maker_names_is_not_refused_for_power() -> None:
    # 14 hp is less than the trade's 15 hp for 12 in in clay, and the maker names it.
    found = answer("size", **MAKER, auger_diameter="12 in", pto_power="14 hp", soil="clay")
    assert findings(found)["power"] == model.CLOSE


def test_makers_limits_that_nobody_read_leave_it_open() -> None:
    found = example(auger_limit="", power_limit="")
    assert found.finding == model.UNKNOWN
    open_ = {item.name for item in found.unchecked if item.governs}
    assert open_ == {"auger_known", "maker_known"}


def test_longest_auger_that_clears_the_ground() -> None:
    found = answer("clears", **HITCH, auger_length="60 in")
    assert found.finding == model.OVER
    tried = answer(
        "clears", **{**HITCH, "auger_length": "60 in", **remedy(found, "auger_length").set}
    )
    assert 0 <= margins(tried)["clearance"] < 0.2


def test_a_nearer_yoke_hole_lifts_the_point() -> None:
    found = example(auger_length="54 in")
    typed = {"auger_length": "54 in", **remedy(found, "yoke_distance").set}
    assert margins(example(**typed))["clearance"] >= 0


def test_a_longer_auger_reaches_the_depth() -> None:
    found = example(auger_length="40 in")
    assert findings(found)["depth"] == model.OVER
    tried = example(**remedy(found, "auger_length").set)
    assert margins(tried)["depth"] >= 0 and margins(tried)["clearance"] >= 0


def test_the_deepest_hole_is_offered_when_nothing_reaches() -> None:
    found = example(depth_wanted="70 in")
    tried = example(**remedy(found, "depth_wanted").set)
    assert margins(tried)["depth"] >= 0


def test_a_depth_that_nobody_asked_for_is_only_told() -> None:
    found = answer("depth", **HITCH, auger_length="48 in")
    assert found.finding == model.COMPARED
    assert "40 in" in said(found)


@pytest.mark.parametrize("grade", ["grade_5", "grade_8"])
def test_a_harder_bolt_is_refused_and_no_other_is_picked(grade: str) -> None:
    found = answer("bolt", bolt_grade=grade, bolt_size="1/2", pto_power="25 hp")
    assert found.finding == model.OVER
    assert said(found).startswith("No")
    touched = {name for item in found.advice.remedies for name in item.set}
    assert touched == {"bolt_as_manual"}
    manual = answer("bolt", bolt_grade=grade, bolt_size="1/2", bolt_as_manual="yes")
    assert manual.finding == model.WITHIN


def test_a_bolt_that_nobody_looked_up_is_not_judged_by_the_tractor() -> None:
    for size in ("1/4", "1/2"):
        found = answer("bolt", bolt_grade="grade_2", bolt_size=size, pto_power="25 hp")
        assert found.finding == model.UNKNOWN
        assert "protection_known" in {item.name for item in found.unchecked}


def test_a_fast_shaft_is_slowed() -> None:
    found = example(pto_speed="1000 rpm")
    assert findings(found)["speed"] == model.OVER
    assert example(**remedy(found, "pto_speed").set).finding == model.WITHIN
    assert answer("speed", pto_speed="540 rpm").finding == model.WITHIN
    assert answer("speed", pto_speed="541 rpm").finding == model.OVER


def test_a_high_gearbox_bends_the_joint_and_a_shorter_auger_helps() -> None:
    typed = {"stub_height": "12 in", "boom_length": "50 in", "auger_length": "46 in"}
    typed["depth_wanted"] = "24 in"
    found = example(**typed)
    assert findings(found)["angle"] == model.OVER
    item = next(
        r
        for r in found.advice.remedies
        if "auger_length" in r.set and "joint" in model.words(r.text, "us")
    )
    assert margins(example(**{**typed, **item.set}))["angle"] >= 0


def test_hardpan_is_refused_and_clay_is_tried() -> None:
    found = example(soil="hardpan")
    assert findings(found)["soil"] == model.OVER
    assert "soil" not in findings(example(**remedy(found, "soil").set))


def test_trap_slow_digging_does_not_get_full_power() -> None:
    slow = example(pto_speed="254 rpm")
    assert output(slow, "power_left") == pytest.approx(output(example(), "power_left") * 254 / 540)
    assert any("rated" in model.words(note, "us") for note in slow.advice.notes)


def test_trap_the_yoke_note_follows_the_spread_of_the_links() -> None:
    wide = example(link_spread="33 in").advice.tables[0].rows
    narrow = example(link_spread="25 in").advice.tables[0].rows
    assert any("outside" in str(row) for row in wide)
    assert any("inside" in str(row) for row in narrow)


def test_a_boom_that_cannot_follow_says_so() -> None:
    found = example(yoke_distance="12 in")
    assert findings(found)["lift"] == model.OVER
    assert not found.pictures
    with pytest.raises(search.BadInputs) as caught:
        example(link_low="34 in")
    assert "link_high" in caught.value.errors


def test_not_sure_of_the_soil_holds_for_every_soil() -> None:
    found = answer("size", auger_diameter="12 in", pto_power="13.5 hp")
    verdict = next(v for v in found.verdicts if v.check.name == "power")
    assert verdict.finding == model.UNKNOWN
    assert verdict.limit_low < verdict.limit_high


def test_a_stuck_auger_is_never_hoisted() -> None:
    text = said(answer("stuck", pto_power="22 hp", gear_ratio="3"))
    assert "Never hoist" in text and "lb-ft" in text


def test_blank_form_cannot_tell_yet() -> None:
    found = answer()
    assert found.finding == model.UNKNOWN
    assert found.settle is not None
    assert len(found.assumed) >= 10


def test_ranges_carry_through_to_the_numbers() -> None:
    found = example(auger_length="46 to 50 in")
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
    assert_refused("digger", field, text, says)


@pytest.mark.parametrize(
    ("limit", "sold"),
    # 35 hp turns 12 in in clay with full flights (value/P7); sold are 9, 12 and 16 in.
    [("", "12 in"), ("12 in", "12 in"), ("10 in", "9 in")],
)
def test_the_widest_is_an_auger_that_is_sold_and_that_the_maker_allows(
    limit: str, sold: str
) -> None:
    typed = {"pto_power": "35 hp", "soil": "clay", "auger_limit": limit}
    found = search.answer(SHEET, {k: v for k, v in typed.items() if v}, ask="size")
    assert leading.lead(found, "us").startswith(f"{sold} with full flights")


def test_the_widest_sold_is_the_one_that_is_offered() -> None:
    # 15 hp fed slowly is just what 12 in takes in clay.
    found = answer("size", pto_power="15 hp", auger_diameter="18 in", soil="clay")
    assert "12 in is the widest sold" in said(found)
    assert remedy(found, "auger_diameter").set["auger_diameter"] == "12 in"


def test_nothing_given_asks_for_manual_links_and_auger() -> None:
    assert said(answer("works")).startswith("Can't say yet")


def test_what_is_near_its_limit_is_named() -> None:
    typed = {"pto_power": "24 hp", "auger_diameter": "9 in", "soil": "loam", "power_limit": "24 hp"}
    makers = {"power_least": "14 hp", "auger_limit": "9 in", "bolt_as_manual": "yes"}
    found = answer("works", **HITCH, **typed, **makers, auger_length="48 in")
    assert found.finding == model.CLOSE and margins(found)["power"] > 1
    assert "the joint bends" in said(found)


def test_no_auger_is_sized_for_soil_that_none_cuts() -> None:
    hard = answer("size", pto_power="30 hp", soil="hardpan")
    assert hard.finding == model.OVER and leading.lead(hard, "us").startswith("Not here")
    clay = answer("size", pto_power="30 hp", soil="clay")
    assert leading.lead(clay, "us").startswith("9 in with full flights")


def test_an_auger_over_its_makers_limit_is_offered_once() -> None:
    found = answer("works", auger_diameter="12 in", auger_limit="9 in")
    offered = [item.set["auger_diameter"] for item in found.advice.remedies]
    assert found.finding == model.OVER and len(offered) == 1
    # With too little power as well, each limit has its own remedy.
    weak = answer(
        "works", auger_diameter="24 in", auger_limit="18 in", pto_power="10 hp", soil="clay"
    )
    assert len([r for r in weak.advice.remedies if "auger_diameter" in r.set]) == 2


def test_what_the_manual_must_allow_is_all_that_is_left_of_a_measured_digger() -> None:
    typed = {**HITCH, "auger_length": "36 in", "pto_power": "20 hp", "soil": "loam"}
    measured = answer("works", **typed, auger_diameter="9 in")
    assert measured.finding == model.UNKNOWN
    assert said(measured).startswith("It turns on the digger's manual")
    assert said(answer("works", **typed)).startswith("Can't say yet: say the auger")
    named = {**MAKER, "bolt_as_manual": "yes"}
    assert answer("works", **typed, **named, auger_diameter="9 in").finding == model.WITHIN


@pytest.mark.parametrize(
    ("ask", "typed", "said"),
    [
        ("coupler", {}, "Say first: “Quick coupler”"),
        ("coupler", {"quick_coupler": "none"}, "Yes: without a U-frame"),
        ("size", {"soil": "clay"}, "Say first: “Kind of tractor” or “PTO power”"),
        ("size", {"tractor_kind": "compact_light"}, "6 to 12 in with full flights"),
    ],
)
def test_what_the_question_is_of_has_to_be_said_first(
    ask: str, typed: dict[str, str], said: str
) -> None:
    # Who asks about his coupler has one: that none is usual answers somebody else.
    assert leading.lead(answer(ask, **typed), "us").startswith(said)
