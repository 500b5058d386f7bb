"""The driveline worksheet: what its joints carry, and the bolt or clutch that protects it."""

import pytest

from calc import model, search, worksheets
from calc.model import leading
from tests.worksheets.asking import findings, margins, remedy

SHEET = worksheets.load("driveline")


def answer(ask: str = "", **typed: str) -> model.Answer:
    return search.answer(SHEET, typed, ask=ask)


def said(found: model.Answer) -> str:
    return leading.lead(found, "us")


@pytest.mark.parametrize(
    ("series", "speed", "power"),
    [
        ("na1", "540 rpm", 16),
        ("na3", "540 rpm", 30),
        ("na3", "1000 rpm", 47),
        ("na7", "1000", 114),
        ("eu4", "540 rpm", 42),
    ],
)
def test_series_carry_what_is_printed(series: str, speed: str, power: int) -> None:
    # value/SU-1 and value/SU-2.
    typed = {"series": series, "pto_speed": speed}
    assert answer("joints", **typed, pto_power=f"{power - 0.1} hp").finding == model.WITHIN
    assert answer("joints", **typed, pto_power=f"{power + 0.1} hp").finding == model.CLOSE
    # A fifth over its rating, as on every page that knows a driveline's (power/S25).
    assert answer("joints", **typed, pto_power=f"{1.2 * power - 0.1} hp").finding == model.CLOSE
    over = answer("joints", **typed, pto_power=f"{1.2 * power + 0.1} hp")
    assert over.finding == model.OVER
    for item in over.advice.remedies:
        if "series" in item.set:
            assert answer("joints", **{**typed, **item.set}, pto_power="16.1 hp").finding


def test_a_series_without_a_rating_at_the_speed_is_not_checked() -> None:
    found = answer("joints", series="eu4", pto_speed="1000 rpm", pto_power="30 hp")
    assert found.finding == model.UNKNOWN


def test_no_bolt_is_picked_from_the_power() -> None:
    found = answer(pto_power="20 hp", bolt_size="1/2")
    assert found.finding != model.OVER
    asked = answer("bolt", pto_power="20 hp", bolt_size="1/2", overload="bolt")
    assert asked.finding == model.UNKNOWN
    for each in (found, asked):
        assert not any("bolt_size" in item.set for item in each.advice.remedies)


@pytest.mark.parametrize("size", ["1/4", "5/16", "3/8", "7/16", "1/2"])
@pytest.mark.parametrize("overload", ["bolt", "flange_bolt", "clutch", "none", "unstated"])
def test_never_another_bolt_than_the_manuals(overload: str, size: str) -> None:
    for manual in ("yes", "no", "unstated"):
        found = answer(
            "bolt",
            overload=overload,
            bolt_size=size,
            bolt_grade="grade_5",
            bolt_as_manual=manual,
            pto_power="25 hp",
            power_limit="40 hp",
            series="na3",
        )
        touched = {name for item in found.advice.remedies for name in item.set}
        assert not touched & {"bolt_size", "bolt_grade", "bolt_plane", "overload"}


def test_the_manuals_bolt_is_right_whatever_is_worked_out() -> None:
    found = answer(
        "bolt",
        overload="bolt",
        bolt_as_manual="yes",
        bolt_size="1/2",
        bolt_grade="grade_2",
        series="na1",
    )
    assert found.finding == model.WITHIN


def test_without_a_hub_no_bolt_is_offered() -> None:
    found = answer("bolt", overload="none", bolt_as_manual="no")
    assert found.finding == model.OVER
    assert not any(item.set for item in found.advice.remedies)
    assert "yoke" in model.words(found.advice.remedies[0].text, "us")


def test_a_clutch_is_held_against_gearbox_and_series_not_the_tractor() -> None:
    # value/P4a: it slips at three times the nominal torque; value/SU-1: series 3 carries 30 hp
    # at 540 rpm, 396 N m, so 1 187 N m is the most.
    typed = {"overload": "clutch", "series": "na3"}
    for power in ("10 hp", "60 hp"):
        inside = answer("bolt", **typed, pto_power=power, clutch_torque="1186 N m")
        assert findings(inside)["release"] == model.WITHIN
        outside = answer("bolt", **typed, pto_power=power, clutch_torque="1188 N m")
        assert findings(outside)["release"] == model.OVER
        tried = answer("bolt", **{**typed, **remedy(outside, "clutch_torque").set})
        assert margins(tried)["release"] >= 0
    weak = answer("bolt", **typed, power_limit="20 hp", clutch_torque="1000 N m")
    assert findings(weak)["release"] == model.OVER


@pytest.mark.parametrize(
    ("overload", "grade", "finding"),
    [  # value/MM-5, FO-4: grade 2 shears; the same hole takes grade 8 behind a slip clutch
        ("bolt", "grade_2", model.UNKNOWN),
        ("bolt", "grade_8", model.OVER),
        ("clutch", "grade_2", model.OVER),
        ("clutch", "grade_8", model.UNKNOWN),
    ],
)
def test_a_bolt_that_shears_and_one_that_holds(overload: str, grade: str, finding: str) -> None:
    typed = {"pto_power": "30 hp", "bolt_size": "1/2", "overload": overload, "bolt_grade": grade}
    assert search.answer(SHEET, typed, ask="bolt").finding == finding


@pytest.mark.parametrize(
    ("overload", "says"),
    [("clutch", "only holds the yoke"), ("none", "Nothing lets go"), ("bolt", "manual names")],
)
def test_which_bolt_hangs_on_what_protects_it(overload: str, says: str) -> None:
    # value/FO-4, value/MM-5: behind a slip clutch the same hole takes a hard retaining bolt.
    found = answer("bolt", overload=overload)
    assert found.finding == model.UNKNOWN
    assert says in said(found)


def test_a_series_is_not_asked_for_again_past_its_chart() -> None:
    # value/SU-1 ends at 1000 rpm, value/SU-2 gives 540 rpm alone.
    assert "ends at 1,000 rpm" in said(answer("joints", series="na1", pto_speed="2000 rpm"))
    assert "ends at 540 rpm" in said(answer("joints", series="eu4", pto_speed="1000 rpm"))
    assert "measure its cross" in said(answer("joints"))
