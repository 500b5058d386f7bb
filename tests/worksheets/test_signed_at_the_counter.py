"""What a specialist would sign: which remedy is offered, and what a reply says before all else."""

import pytest

from calc import model
from calc.mechanics import typical
from calc.model import leading
from calc.render import to_do
from tests.worksheets.asking import finding, given, remedy


def lead(found: model.Answer) -> str:
    return leading.lead(found, "us")


def test_a_driveline_that_is_too_small_is_helped_by_a_larger_one() -> None:
    typed = {"implement_kind": "rotary_cutter", "working_width": "60 in", "pto_power": "55 hp"}
    found = given("pairing", "power", power_limit="45 hp", **typed)
    assert finding(found, "driveline") == model.OVER  # 1.2 x 45 is 54
    offered = remedy(found, "power_limit").set
    assert finding(given("pairing", "power", **{**typed, **offered}), "driveline") != model.OVER


def test_what_is_too_heavy_to_tow_is_helped_by_brakes_of_its_own() -> None:
    typed = {"implement_kind": "trailer", "tractor_kind": "compact_large", "loader": "none"}
    for mass, told in (("10,000 lb", True), ("2,000 lb", False)):
        found = given("pairing", tractor_mass="4,400 lb", implement_mass=mass, **typed)
        assert any("Brakes on" in model.words(r.text, "us") for r in found.advice.remedies) == told


def test_hay_machines_are_offered_in_their_own_widths() -> None:
    inches = [round(width / 0.0254) for width in typical.stock_widths("disk_mower")]
    assert inches == [66, 80, 96, 108]
    typed = {"implement_kind": "disk_mower", "pto_power": "39 hp", "material": "typical"}
    found = given("pto", working_width="8 ft", **typed)
    assert remedy(found, "working_width").set["working_width"] == "80.4 in"


@pytest.mark.parametrize(
    ("ask", "typed", "said"),
    [
        (
            "across",
            {"cross_slope": "5 %", "loader_payload": "700 lb"},
            "Better not: 5 % (2.86 deg) across",
        ),
        (
            "power",
            {"power_needed": "25 hp", "pto_power": "30 hp", "slope": "15 %", "altitude": "0 ft"},
            "Just: 26 to 27.9 hp is left",
        ),
    ],
)
def test_a_settled_question_is_told_before_what_is_open_beside_it(
    ask: str, typed: dict[str, str], said: str
) -> None:
    machine = {"implement_kind": "box_blade", "tractor_mass": "2000 lb", "track_width": "44 in"}
    found = given("pairing", ask, **machine, **typed)
    assert found.finding == model.UNKNOWN and lead(found).startswith(said)


def test_which_drive_is_told_while_nobody_knows_whether_the_wheels_hold() -> None:
    found = given("drive", "ground", engine_power="40 hp", soil="hard", pull="2000 lbf")
    assert finding(found, "grip") == model.UNKNOWN
    assert lead(found).startswith("The gear drive") and "slip too much" not in lead(found)


def test_a_baler_that_no_width_measures_is_told_by_its_class() -> None:
    typed = {"implement_kind": "small_square_baler", "tractor_kind": "compact_large"}
    found = given("pairing", "power", pto_power="32 hp", tractor_mass="3200 lb", **typed)
    assert "makers ask for 30 to 40 hp" in lead(found)
    assert not any(item.name == "power" and item.governs for item in found.unchecked)
    assert to_do.what_to_do(found, "us")[1]


def test_a_power_that_is_there_is_told_as_there_while_the_front_wheels_are_open() -> None:
    typed = {"power_needed": "25 hp", "altitude": "0 ft", "slope": "0 %", "transmission": "gear"}
    found = given("pairing", "power", implement_kind="other", pto_power="28 hp", **typed)
    assert found.finding == model.UNKNOWN and finding(found, "power") == model.CLOSE
    assert lead(found).startswith("Just: 28 hp is left") and "Also open" in lead(found)


def test_a_question_is_helped_first_with_what_it_asks_about() -> None:
    typed = {"implement_kind": "rotary_tiller", "working_width": "60 in", "loader": "off"}
    machine = {"tractor_mass": "2000 lb", "tractor_kind": "compact_light"}
    found = given("pairing", "front", implement_mass="600 lb", **typed, **machine)
    assert finding(found, "class") == model.OVER and finding(found, "steering") == model.UNKNOWN
    assert "weights" in to_do.what_to_do(found, "us")[1][0]


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"shaft": "1000-21", "implement_shaft": "1000-20"}, "the other yoke"),
        ({"power_limit": "52 hp"}, "the clutch must be set right"),
        ({"power_limit": "60 hp"}, "it runs with ease from"),
    ],
)
def test_what_is_close_is_told_by_what_makes_it_close(typed: dict[str, str], said: str) -> None:
    work = {"implement_kind": "flail_mower", "working_width": "72 in", "material": "light"}
    tractor = {"tractor_kind": "utility", "pto_power": "60 hp", "tractor_mass": "6000 lb"}
    tractor |= {"loader": "none", "lift_capacity": "4000 lb", "lift_rated_at": "610"}
    here = {"slope": "0 %", "altitude": "0 ft", "implement_mass": "900 lb"}
    found = given("pairing", "power", **work, **tractor, **here, **typed)
    assert said in lead(found)


def test_what_is_towed_is_told_by_its_weight() -> None:
    machine = {"tractor_mass": "5000 lb", "tractor_kind": "utility", "tongue_load": "600 lb"}
    found = given("ballast", implement_kind="trailer", implement_mass="6000 lb", **machine)
    assert found.finding == model.CLOSE and lead(found).startswith("Just: it weighs 6,000 lb")


@pytest.mark.parametrize(
    ("travel", "state"),
    # 610 mm is 24 in as a tape shows it; half an inch off is still that.
    [("24 in", model.WITHIN), ("23.6 in", model.WITHIN), ("23.4 in", model.CLOSE)],
)
def test_a_full_hitch_by_the_tape_is_no_limited_one(travel: str, state: str) -> None:
    found = given("hitch", hitch_category="1", implement_category="1", lift_travel=travel)
    assert finding(found, "travel") == state
    assert len(lead(found)) < leading.LONGEST_LEAD


@pytest.mark.parametrize(("width", "told"), [("60 in", True), ("54 in", False)])
def test_a_cutter_that_is_too_heavy_behind_may_ride_on_its_own_wheels(
    width: str, told: bool
) -> None:
    typed = {"implement_kind": "rotary_cutter", "implement_mass": "850 lb", "loader": "none"}
    machine = {"tractor_mass": "2200 lb", "tractor_kind": "compact_light"}
    found = given("pairing", "run", working_width=width, **typed, **machine)
    assert finding(found, "steering") == model.OVER
    said = [model.words(item.text, "us") for item in found.advice.remedies]
    assert any("pull-type" in text for text in said) == told


@pytest.mark.parametrize(("power", "state"), [("18.1 hp", model.CLOSE), ("17.9 hp", model.OVER)])
def test_a_width_that_is_rounded_is_of_the_same_class(power: str, state: str) -> None:
    # One maker asks 18 PTO hp for 49 in, which most call 50 (power/TILL-W).
    typed = {"implement_kind": "rotary_tiller", "working_width": "50 in", "material": "light"}
    assert finding(given("pto", pto_power=power, **typed), "class") == state
