"""What an answer about a tractor and a tool begins with, and on what of the tractor it rests."""

from __future__ import annotations

import pytest

from calc import model, search, worksheets
from calc.model import leading, words
from calc.quantities import base
from tests.worksheets.asking import given


def lead(name: str, ask: str, **typed: str) -> str:
    return leading.lead(given(name, ask, **typed), "us")


@pytest.mark.parametrize(
    ("power", "finding"),
    [
        # An article asks for a tractor of 20 hp, of which 69 % reach a PTO at the least.
        ("20 hp", model.WITHIN),
        ("19.9 hp", model.CLOSE),
        ("14.1 hp", model.CLOSE),
        ("13.9 hp", model.OVER),
    ],
)
def test_a_rake_is_pulled_by_the_tractor_that_its_article_names(power: str, finding: str) -> None:
    rake = {"implement_kind": "rotary_rake", "working_width": "11 ft", "pto_power": power}
    verdict = given("pto", "enough", **rake).verdict("class")
    assert verdict is not None and verdict.finding == finding


def test_a_tractor_told_by_its_engine_is_no_heavier_than_such_tractors() -> None:
    found = given("pto", "enough", engine_power="20 hp", implement_kind="tedder")
    (mass,) = [item for item in found.assumed if item.field.name == "tractor_mass"]
    assert mass.typical is not None and "of this engine power" in mass.typical.of
    assert mass.typical.high < base("3,300 lb", "mass")  # 25 hp compacts, as published
    by_shaft = given("pto", "enough", engine_power="20 hp", pto_power="17 hp")
    (mass,) = [item for item in by_shaft.assumed if item.field.name == "tractor_mass"]
    assert mass.typical is not None and "of this PTO power" in mass.typical.of


def test_a_baler_of_unsaid_size_is_a_question_of_power_first() -> None:
    said = lead("pto", "enough", pto_power="40 hp", implement_kind="round_baler")
    assert "makers ask for" in said and "to tow" not in said
    towed = lead("pto", "enough", engine_power="40 hp", implement_kind="small_square_baler")
    assert towed.startswith("It runs from") and "whether it may be towed is open" in towed


def test_what_no_shaft_drives_is_said_to_be_so() -> None:
    said = lead("pto", "enough", pto_power="25 hp", implement_kind="box_blade")
    assert said.startswith("Box blade: nothing on it is driven")
    assert lead("pto", "enough", pto_power="25 hp").startswith("Say which kind")


@pytest.mark.parametrize(
    ("weight", "finding"),
    # 0.72 to 0.81 of 1,980 lb reach 24 in behind the balls: 1,426 to 1,604 lb.
    [
        ("1,270 lb", model.WITHIN),
        ("1,420 lb", model.CLOSE),
        ("1,440 lb", model.UNKNOWN),
        ("1,590 lb", model.UNKNOWN),
        ("1,620 lb", model.OVER),
    ],
)
def test_a_figure_at_the_ball_ends_alone_is_brought_to_24_in_once(
    weight: str, finding: str
) -> None:
    found = given(
        "ballast",
        "lift",
        lift_at_ball_ends="1,980 lb",
        implement_mass=weight,
        cg_distance="24 in",
        loader="off",
    )
    verdict = found.verdict("lift")
    assert verdict is not None and verdict.finding == finding


def test_a_figure_without_its_place_may_hold_at_either() -> None:
    found = given(
        "ballast", "lift", lift_capacity="1,980 lb", implement_mass="1,700 lb", cg_distance="24 in"
    )
    verdict = found.verdict("lift")
    assert verdict is not None and verdict.finding == model.UNKNOWN


def test_a_lift_too_weak_names_no_load_of_a_tractor_that_nobody_told() -> None:
    lift = {"lift_capacity": "1,980 lb", "lift_rated_at": "0", "cg_distance": "24 in"}
    found = given("ballast", "lift", implement_mass="1,650 lb", **lift)
    loads = [words(remedy.text, "us") for remedy in found.advice.remedies]
    assert [text for text in loads if "heaviest" in text] == [
        "1,420 lb is the heaviest that does, with its center of gravity 24 in behind the balls."
    ]


@pytest.mark.parametrize(
    ("kind", "power", "starts"),
    [
        # A box blade of 7 ft goes with engines to two and a half times the 40 hp that pull it.
        ("box_blade", 99.8, "Stout ones are made"),
        ("box_blade", 100.2, "Yes: even stout ones"),
        # A landscape rake isn't sold in a heavy duty: one and three quarters of 30 hp.
        ("landscape_rake", 52.4, "Stout ones are made"),
        ("landscape_rake", 52.6, "Yes: even stout ones"),
        ("plow", 60.0, "Read on its plate"),
        ("round_baler", 60.0, "Can't tell yet: tractor against what such a tool bears"),
    ],
)
def test_too_much_tractor_for_a_tool_without_a_gearbox(
    kind: str, power: float, starts: str
) -> None:
    tool = {"implement_kind": kind, "pto_power": f"{0.83 * power:.4f} hp", "loader": "off"}
    width = {} if kind in ("plow", "round_baler") else {"working_width": "7 ft"}
    more = {"implement_mass": "3,500 lb", "tractor_mass": "6,000 lb"} if not width else {}
    more = more if kind == "round_baler" else {}
    assert lead("pairing", "duty", **tool, **width, **more).startswith(starts)


@pytest.mark.parametrize(
    ("power", "width", "finding"),
    [
        ("84 hp", {"working_width": "7 ft"}, model.CLOSE),  # an engine of 101 hp, of 100
        ("82 hp", {"working_width": "7 ft"}, model.WITHIN),
        ("60 hp", {}, model.WITHIN),  # 72 hp, and a width that nobody said is no reason to doubt
    ],
)
def test_too_much_tractor_for_a_tool_is_something_to_know(
    power: str, width: dict[str, str], finding: str
) -> None:
    tool = {"implement_kind": "box_blade", "implement_mass": "600 lb", **width}
    found = given("pairing", "run", pto_power=power, tractor_mass="8000 lb", loader="on", **tool)
    assert found.finding == finding


def test_a_load_that_is_up_is_taken_along_the_slope_and_not_across() -> None:
    across = {"cross_slope": "22 %", "loader_payload": "500 lb", "tractor_mass": "3000 lb"}
    found = given("pairing", "across", **across)
    first = found.advice.remedies[0]
    assert words(first.text, "us").startswith("Turn and go straight up or down")
    empty = given("pairing", "across", cross_slope="22 %", loader="off", tractor_mass="3000 lb")
    assert words(empty.advice.remedies[0].text, "us").startswith("Cross nothing steeper")


def test_a_span_alone_is_told_by_a_pin() -> None:
    said = lead("hitch", "category", implement_span="26.9 in")
    assert said == "Category 1 or 2N by the span: a lower pin's thickness settles which."
    pin = lead("hitch", "category", implement_span="26.9 in", lower_pin="7/8 in")
    assert pin.startswith("Category 1, ")


@pytest.mark.parametrize(
    ("ask", "kind", "starts"),
    [
        ("hitching", "trailer", "It doesn't hang on the three-point hitch"),
        ("hitching", "mid_mower", "It doesn't hang on the three-point hitch"),
        ("hitching", "plow", "Yes: its pins, top pin and span"),
        ("lift", "round_baler", "It doesn't hang on the three-point hitch"),
        ("in_front", "box_blade", "It isn't made to hang in front"),
        ("in_front", "mid_mower", "It isn't made to hang in front"),
        ("in_front", "front_blade", "Yes: raised it puts"),
    ],
)
def test_what_is_asked_of_a_hitch_is_said_of_what_hangs_there(
    ask: str, kind: str, starts: str
) -> None:
    sides = {"hitch_category": "1", "implement_category": "1", "implement_mass": "300 lb"}
    front = {"front_axle_limit": "3,000 lb", "tractor_mass": "3,000 lb", "loader": "none"}
    front["mid_pto"] = "yes"
    assert lead("pairing", ask, implement_kind=kind, **sides, **front).startswith(starts)


@pytest.mark.parametrize(
    ("system", "said"), [("us", "12 in is right"), ("metric", "305 mm is right")]
)
def test_what_clears_is_told_in_the_units_that_are_read(system: str, said: str) -> None:
    typed = {"balls_highest": "30 in", "pins_on_ground": "19 in", "implement_kind": "plow"}
    found = search.answer(worksheets.load("pairing"), typed, system, ask="clear")
    assert said in leading.lead(found, system)


def test_a_hitch_that_does_not_lift_it_off_the_ground_clears_nothing() -> None:
    typed = {"balls_highest": "20 in", "pins_on_ground": "22 in", "implement_kind": "plow"}
    assert lead("pairing", "clear", **typed) == "No: it is carried only 0 in clear of the ground."


def test_nothing_in_the_loader_asks_for_nothing_behind() -> None:
    loader = {"tractor_mass": "3200 lb", "loader": "on", "wheelbase": "68 in"}
    for ask in ("loader", "behind"):
        assert "0 lb" not in lead("ballast", ask, loader_payload="0 lb", **loader)


def test_what_is_broken_is_said_before_a_rating_that_has_to_be_read() -> None:
    small = {"tractor_mass": "2150 lb", "tractor_kind": "subcompact"}
    said = lead("ballast", "loader", loader_payload="1100 lb", **small)
    assert said.startswith("Not as it is: 1,100 lb in front wants at least")
    box = {"implement_kind": "ballast_box", "implement_mass": "1,500 lb"}
    open_ = lead("ballast", "loader", loader_payload="300 lb", **small, **box)
    assert open_.startswith("First read the loader's rating")


def test_front_tires_that_a_loader_overloads_are_helped_by_taking_it_off() -> None:
    tires = {"tractor_mass": "3200 lb", "front_tire_load": "900 lb", "pto_power": "33 hp"}
    found = given("pairing", "run", implement_kind="none", loader="on", **tires)
    assert any(remedy.set.get("loader") == "off" for remedy in found.advice.remedies)


def test_a_slope_across_that_may_do_is_neither_right_nor_refused() -> None:
    """Nobody said how wide and tall it is: the answer has both limits and what to measure."""
    said = lead("pairing", "across", cross_slope="5 %")
    assert said.startswith("Can't tell yet: 5 %") and "measure its track" in said
    assert lead("pairing", "across", cross_slope="25 deg").startswith("No: ")


@pytest.mark.parametrize(
    ("front", "finding"), [("510 lb", model.CLOSE), ("490 lb", model.OVER), ("1,000 lb", "within")]
)
def test_a_front_axle_is_judged_with_nothing_behind(front: str, finding: str) -> None:
    """20 % of the tractor's own mass must stay on it (hitch/twenty_percent_rules)."""
    ticket = {"mass_as": "scale", "tractor_mass": "2,500 lb", "front_axle_mass": front}
    for name, ask in (("pairing", "front"), ("ballast", "carry")):
        answer = given(name, ask, **ticket, implement_kind="none", loader="off")
        verdict = answer.verdict("front_alone")
        assert verdict is not None and verdict.finding == finding == answer.finding
        assert "front wheels" in leading.lead(answer, "us")


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"remotes_needed": "2"}, "It needs pairs of outlets: 2."),
        ({"remotes": "1", "implement_flow": "7 gpm"}, "Your tractor's side is told"),
        ({}, "nothing was held against them yet"),
    ],
)
def test_oil_is_asked_of_the_side_that_is_open(typed: dict[str, str], says: str) -> None:
    assert says in lead("pairing", "hydraulics", **typed)


def test_a_lift_is_told_without_a_loader_that_nobody_named() -> None:
    hung = {"implement_kind": "rotary_cutter", "implement_mass": "700 lb", "cg_distance": "36 in"}
    rated = {"lift_capacity": "1800 lb", "lift_rated_at": "0"}
    answer = given("ballast", "lift", **hung, **rated)
    assert answer.finding == model.WITHIN and "loader" not in leading.lead(answer, "us")


def test_without_its_slope_a_climb_is_told_on_the_level() -> None:
    load = {"tractor_mass": "2800 lb", "load_mass": "2500 lb", "load_rides": "towed"}
    assert lead("drive", "climbs", **load).startswith("Say how steep it is: on the level")
    assert lead("drive", "climbs", **load, slope="15 %").startswith("It depends: on 15 %")


def test_what_is_known_is_not_asked_for_again() -> None:
    """With the axle's limit given it is the front wheels, rear one up, that are open."""
    ends = {"tractor_mass": "1300 kg", "front_implement_mass": "200 kg", "loader": "none"}
    behind = {"implement_kind": "ballast_box", "implement_mass": "300 kg"}
    plates = {"front_axle_limit": "1300 kg", "front_lift_capacity": "400 kg"}
    said = lead("pairing", "both", **ends, **behind, **plates)
    assert said.startswith("It depends: rear one up your front wheels carry")
    assert lead("pairing", "both", **behind).startswith("Say first: ")


def test_a_range_of_weights_from_none_begins_with_nothing() -> None:
    cutter = {"implement_kind": "rotary_cutter_light", "working_width": "48 in"}
    said = lead("pairing", "weight", **cutter, tractor_mass="2000 lb", loader="off")
    assert said.startswith("It may want nothing to ")


def test_a_mid_shaft_is_met_by_a_mid_pto() -> None:
    made = {"implement_shaft": "mid-2000"}
    assert given("pto", "shafts", **made, mid_pto="yes").finding == model.WITHIN
    assert given("pto", "shafts", **made, mid_pto="none").finding == model.OVER
    assert given("pto", "shafts", **made).finding == model.UNKNOWN


def test_of_a_pulled_tool_the_engine_is_told() -> None:
    disk = {"implement_kind": "disk_harrow", "working_width": "6.5 ft", "pto_power": "53.5 hp"}
    assert lead("pairing", "power", **disk).startswith("Yes: it takes an engine of ")


def test_a_box_goes_beside_a_deck_and_not_in_its_place() -> None:
    deck = {"implement_kind": "mid_mower", "tractor_mass": "1700 lb", "loader_payload": "500 lb"}
    offered = {item.key for item in given("ballast", "behind", **deck).advice.remedies}
    assert "ballast.box" in offered and "ballast.box_instead" not in offered


def test_no_climb_is_offered_that_manuals_forbid() -> None:
    mower = {"implement_kind": "flail_mower", "working_width": "60 in", "material": "light"}
    steep = given("pto", "enough", **mower, pto_power="30 hp", slope="30 deg")
    assert steep.finding == model.OVER
    assert "pto.slope" not in {item.key for item in steep.advice.remedies}
    assert "pto.keep_off" in {item.key for item in steep.advice.remedies}
