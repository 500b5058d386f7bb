"""The driveline worksheet: how far its joints bend, raised and at work, and what they shake."""

import pytest

from calc import model, search, worksheets
from calc.model import leading
from tests.worksheets.asking import findings, margins, output, remedy

SHEET = worksheets.load("driveline")


def answer(ask: str = "", **typed: str) -> model.Answer:
    return search.answer(SHEET, typed, ask=ask)


def said(found: model.Answer) -> str:
    return leading.lead(found, "us")


RAISED = {"raised_distance": "39 in", "raised_tilt": "0 deg"}


@pytest.mark.parametrize(
    ("joint", "rise", "finding"),
    [
        # value/P3c: stop the PTO beyond 35 degrees; 39 in x sin 35 is 22.37 in.
        ("standard", "22.3 in", model.CLOSE),
        ("standard", "22.5 in", model.OVER),
        # hitch/H18b and value/JT-1: 70 and 80 degrees; 39 in x sin is 36.65 and 38.41 in.
        ("wide_both", "22.5 in", model.WITHIN),
        ("wide_both", "37.5 in", model.CLOSE),
    ],
)
def test_raised_joints_by_kind(joint: str, rise: str, finding: str) -> None:
    found = answer("raised", **RAISED, pto_raised="running", joint=joint, raised_rise=rise)
    assert found.finding == finding


def test_one_wide_angle_joint_leaves_the_other_a_standard_one() -> None:
    found = answer("raised", **RAISED, pto_raised="running", joint="wide", raised_rise="30 in")
    assert findings(found)["raised"] == model.WITHIN
    assert findings(found)["raised_rear"] == model.OVER


def test_raised_angle_counts_only_while_the_pto_turns() -> None:
    typed = {**RAISED, "raised_rise": "26 in", "joint": "standard"}
    stopped = answer("raised", **typed, pto_raised="stopped")
    assert stopped.finding == model.COMPARED and "41.8" in said(stopped)
    running = answer("raised", **typed, pto_raised="running")
    assert running.finding == model.OVER
    lower = answer(
        "raised", **{**typed, "pto_raised": "running", **remedy(running, "raised_rise").set}
    )
    assert lower.finding == model.CLOSE


@pytest.mark.parametrize(
    ("rise", "finding"),
    # hitch/H18d 15 degrees advised, value/JT-1 25 the limit; 36 in x sin is 9.32 and 15.21 in.
    [
        ("-9.2 in", model.WITHIN),
        ("-9.4 in", model.CLOSE),
        ("15.1 in", model.CLOSE),
        ("15.3 in", model.OVER),
    ],
)
def test_steady_angles_over_the_advice_are_close(rise: str, finding: str) -> None:
    found = answer(
        "angles",
        working_distance="36 in",
        working_rise=rise,
        working_tilt="0 deg",
        joint="standard",
    )
    assert found.finding == finding


def test_a_wide_angle_joint_has_the_same_limit_in_steady_work() -> None:
    # value/JT-1: 25 degrees for a wide-angle joint that runs steadily.
    typed = {"working_distance": "36 in", "working_tilt": "0 deg", "joint": "wide_both"}
    assert margins(answer("angles", **typed, working_rise="15.1 in"))["angle"] >= 0
    assert findings(answer("angles", **typed, working_rise="15.3 in"))["angle"] == model.OVER


def test_a_tilted_gearbox_is_leveled() -> None:
    typed = {"working_distance": "36 in", "working_rise": "-14 in", "working_tilt": "10 deg"}
    found = answer("angles", **typed, joint="standard")
    assert findings(found)["rear"] == model.OVER
    tried = answer("angles", **{**typed, "joint": "standard", **remedy(found, "working_tilt").set})
    assert tried.finding in (model.WITHIN, model.CLOSE)


def test_an_offset_bends_both_joints() -> None:
    typed = {"working_distance": "36 in", "working_rise": "0 in", "working_tilt": "0 deg"}
    found = answer("angles", **typed, side_offset="18 in", joint="standard")
    assert output(found, "front_angle") == pytest.approx(30.0)
    assert output(found, "rear_angle") == pytest.approx(30.0)
    assert output(found, "swing") == pytest.approx(0.0, abs=1e-12)


def test_trap_turned_yokes_double_the_swing() -> None:
    typed = {"working_distance": "35 in", "working_rise": "-4 in", "working_tilt": "0 deg"}
    in_line, turned = answer(**typed, yokes="in_line"), answer("shakes", **typed, yokes="turned")
    assert output(in_line, "swing") == pytest.approx(0.0, abs=1e-12)
    assert output(turned, "swing") > 0.02
    assert findings(turned)["yokes"] == model.OVER
    tried = answer("shakes", **{**typed, **remedy(turned, "yokes").set})
    assert output(tried, "swing") < 1e-12


def test_trap_the_speed_rule_is_not_used_below_its_table() -> None:
    # value/NV-1 starts at 1 000 rpm with 12 degrees and gives 8 at 2 000.
    typed = {
        "working_distance": "36 in",
        "working_rise": "-8 in",
        "working_tilt": "0 deg",
        "joint": "standard",
    }
    assert "shaking" not in findings(answer("angles", **typed, pto_speed="990 rpm"))
    at_1000 = answer("angles", **typed, pto_speed="1000 rpm")
    assert findings(at_1000)["shaking"] == model.OVER
    assert at_1000.finding == model.CLOSE  # advice
    straighter = {**typed, "working_rise": "-4.9 in"}
    assert findings(answer("angles", **straighter, pto_speed="2000 rpm"))["shaking"] == model.CLOSE
