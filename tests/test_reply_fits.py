"""Replies that fit what was asked: what is asked back, which caution stands, what is listed."""

from dataclasses import replace

import pytest

from calc import model, search, worksheets
from calc.model import sentences
from calc.render.asking_back import ask_back, wanted
from calc.render.reply import reply
from calc.render.text_message import short

LIFT = {
    "tractor_mass": "2600 lb",
    "pto_power": "25 hp",
    "implement_kind": "rotary_tiller",
    "implement_mass": "1200 lb",
    "cg_distance": "24 in",
}
LOADER = {"tractor_mass": "2600 lb", "pto_power": "25 hp", "loader_payload": "800 lb"}


def answered(name, ask, **given):
    return search.answer(worksheets.load(name), given, ask=ask)


def test_wire_is_not_answered_from_what_is_usual_alone():
    nothing = answered("lamp-wiring", "wire")
    assert [item.name for item in nothing.missing] == ["work_count", "circuit"]
    said = reply(nothing)
    assert said.startswith("Say first: “Work lamps”") and "Nobody gave these" not in said
    for item in nothing.missing:
        assert f"“{item.label}”: {item.help}" in said
    assert [item.name for item in wanted(nothing)] == ["work_count", "circuit"]
    for given in ({"work_count": "2"}, {"circuit": "head"}, {"gauge": "20", "fuse": "30 A"}):
        assert not answered("lamp-wiring", "wire", **given).missing
    assert not search.answer(worksheets.load("lamp-wiring"), {}, example=True, ask="wire").missing


def test_the_lift_is_asked_back_where_it_is_open_beside_the_front_wheels():
    found = answered("ballast", "carry", **LIFT)
    open_ = [v.check.name for v in found.verdicts if v.finding == model.UNKNOWN]
    assert found.deciding.check.name == "steering" and "lift" in open_
    assert "Hitch lift capacity" in ask_back(found)
    known = answered("ballast", "carry", **LIFT, lift_capacity="2000 lb", lift_rated_at="610")
    assert "Hitch lift capacity" not in ask_back(known)


def test_a_short_text_about_the_loader_has_the_loaders_caution():
    found = answered("ballast", "behind", **LOADER)
    assert "Loader manuals call ballast on the hitch required" in short(found)
    lifted = answered("ballast", "lift", **LIFT)
    assert "Loader manuals" not in short(lifted)


def test_nothing_on_the_hitch_has_no_usual_mass():
    line = next(
        line
        for line in reply(answered("ballast", "behind", **LOADER)).split("\n")
        if line.startswith("Nobody gave these")
    )
    assert "Nothing on the hitch" in line and "Implement mass" not in line
    carried = reply(answered("ballast", "carry", tractor_mass="2600 lb", implement_kind="other"))
    assert "Implement mass: " in carried


def test_oil_that_nobody_asked_for_is_not_held_to_be_enough():
    tractor = {"pto_power": "25 hp", "implement_kind": "none", "implement_flow": "6 gpm"}
    open_ = answered("pairing", "hydraulics", **tractor)
    assert open_.finding == model.UNKNOWN
    assert [item.name for item in wanted(open_)] == ["flow_needed", "remotes_needed"]
    for needed, finding in (("8 gpm", model.OVER), ("5 gpm", model.WITHIN)):
        found = answered("pairing", "hydraulics", **tractor, flow_needed=needed)
        assert found.finding == finding
    outlets = answered("pairing", "hydraulics", **tractor, remotes="2", remotes_needed="1")
    assert outlets.finding == model.WITHIN
    # Whoever asks whether the tractor runs it isn't kept waiting for that.
    run = answered("pairing", "run", **tractor)
    assert not {"flow", "remotes"} & {item.name for item in run.unchecked}


def test_a_choice_is_asked_back_where_no_number_settles_it():
    found = answered("road", "width", place="TX", transport_width="13 ft")
    assert found.finding == model.UNKNOWN and not found.settles
    assert wanted(found)[0].name == "behind_kind"
    assert "worth fitting" not in reply(found)


def test_a_caution_of_its_own_comes_before_filling_the_room():
    found = answered("ballast", "behind", tractor_mass="3200 lb", loader_payload="900 lb")
    link = "https://shop.example/lift/#" + 40 * "x"
    said = short(found, link=link, sender="Hill Farm Supply")
    assert "required, not optional." in said and link in said


def usual(found):
    return next(line for line in reply(found).split("\n") if line.startswith("Nobody gave these"))


def test_what_is_usual_names_what_moves_the_question():
    wire = usual(answered("lamp-wiring", "wire", work_count="4", run="12 ft"))
    assert "The way back: " in wire and "Kind of work lamp" in wire
    assert "Tail lamps" not in wire and "Charging output" not in wire
    head = usual(answered("lamp-wiring", "wire", circuit="head"))
    assert "Head lamps: 2" in head and "Kind of head lamp" in head
    assert "Work lamps: " not in head
    rut = usual(answered("lawn", "ruts", tractor_mass="2600 lb"))
    assert "pressure: " in rut and "sprinkler" not in rut
    for sprinklers in ("yes", "no"):
        cored = usual(answered("lawn", "tool", tool="core", sprinklers=sprinklers))
        assert ("sprinkler heads" in cored) == (sprinklers == "yes")


@pytest.mark.parametrize(
    ("field", "low", "high", "said"),
    [
        ("work_count", None, 1.75, "At 1 or less"),
        ("work_count", 1.25, None, "At 2 or more"),
        ("work_count", None, 2.0 - 1e-9, "At 2 or less"),
        ("run", None, 2.5, "At 8.2 ft or less"),
    ],
)
def test_of_lamps_there_is_no_half(field, low, high, said):
    found = answered("lamp-wiring", "thick", gauge="16")
    settle = model.Settle(found.worksheet.field(field), low, high, 1.0)
    assert said in sentences.settle_sentence(replace(found, settles=(settle,)), "us")


def test_a_short_text_says_what_to_do_before_the_end_of_a_caution():
    said = short(answered("digger", "speed", pto_speed="1000 rpm"), link="https://e.example/#a=1")
    assert "Run the shaft at 540 rpm or slower." in said


def test_what_the_question_itself_says_is_not_listed_again():
    said = reply(answered("digger", "speed", pto_speed="1000 rpm"))
    assert said.startswith("No: 1,000 rpm is more than the 540 rpm")
    assert "Also found" not in said


def test_what_a_check_waits_for_is_asked_and_not_called_usual():
    said = reply(answered("closing", "view", road_speed="15 mph", car_speed="50 mph"))
    assert "Find" not in said and "Pulling out is checked" not in said


def test_wiring_has_the_wirings_caution_and_a_driveline_its_own():
    assert "Disconnect the battery" in reply(
        answered("lamp-wiring", "flasher", flash_lamp="led-turn")
    )
    bolt = reply(answered("driveline", "bolt"))
    assert "Only the bolt that the manual names" in bolt
