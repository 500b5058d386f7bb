"""Class figures that were recalled and never read, and the power that plows and mowers take."""

import pytest

from calc import model
from tests.worksheets.asking import finding, given

INCH, HP = 0.0254, 745.6998715822702


def _on_the_shaft(kind: str, width: str, power: float, **more: str) -> model.Answer:
    typed = {"implement_kind": kind, "working_width": width, "altitude": "0 ft", **more}
    return given("pto", pto_power=f"{power} hp", **typed)


def test_a_recalled_class_figure_is_no_hard_limit() -> None:
    # 20 hp for a 60 in blower is recalled; what is read for one size goes from 4 to 5 hp a foot.
    least = 20 * 4 / 5
    assert finding(_on_the_shaft("snow_blower", "60 in", 19.4), "class") == model.CLOSE
    assert finding(_on_the_shaft("snow_blower", "60 in", least + 0.1), "class") == model.CLOSE
    assert finding(_on_the_shaft("snow_blower", "60 in", least - 0.1), "class") == model.OVER
    # The same size of a cutter is read: at least 20 hp, power/CUT-F10.
    assert finding(_on_the_shaft("rotary_cutter_light", "60 in", 19.4), "class") == model.OVER


def test_a_blower_goes_slower_in_deeper_snow() -> None:
    # 4, 5 and 8 hp a foot in light, usual and heavy snow, less the reserve of a quarter.
    usual = 4 * 5 / 1.25
    typed = {"material": "typical"}
    assert (
        finding(_on_the_shaft("snow_blower", "60 in", usual + 0.1, **typed), "power") == model.CLOSE
    )
    assert (
        finding(_on_the_shaft("snow_blower", "60 in", usual - 0.1, **typed), "power") == model.OVER
    )


@pytest.mark.parametrize(("width", "power"), [("6.7 ft", 40), ("8 ft", 50)])
def test_a_disk_mower_runs_on_the_tractor_that_a_dealer_names(width: str, power: float) -> None:
    # power/MOW-T14: disk mowers of 6.7 and 8 ft on 40 and 50 PTO hp; silage work asks for more.
    found = _on_the_shaft("disk_mower", width, power, material="typical")
    assert found.finding in (model.WITHIN, model.CLOSE)
    short = _on_the_shaft("disk_mower", width, power / 1.3, material="typical")
    assert short.finding == model.OVER


@pytest.mark.parametrize(
    ("width", "power", "expected"),
    [
        ("12 in", 19, model.CLOSE),
        ("28 in", 19, model.OVER),
        ("28 in", 30, model.CLOSE),
        ("42 in", 30, model.OVER),
        ("28 in", 60, model.WITHIN),
    ],
)
def test_a_plow_is_pulled_by_its_draft(width: str, power: int, expected: str) -> None:
    typed = {"implement_kind": "plow", "working_width": width, "pto_power": f"{power} hp"}
    assert finding(given("pairing", **typed), "pull") == expected


def test_a_plow_needs_the_power_that_its_draft_asks_for() -> None:
    # power/S38: 652 + 5.1 S² in N per cm of depth and m of width, 0.7 of it in loam; 1.8 PTO hp for
    # each drawbar hp on tilled ground; 0.83 of the engine at the shaft.
    pull = 0.7 * (652 + 5.1 * 4.828032**2) * 28 * INCH * 17.78
    engine = pull * 3 * 0.44704 * 1.8 / 0.83 / HP
    typed = {"implement_kind": "plow", "working_width": "28 in"}
    for more, expected in ((0.1, model.CLOSE), (-0.1, model.OVER)):
        found = given("pairing", pto_power=f"{engine * 0.83 + more} hp", **typed)
        assert finding(found, "pull") == expected


def test_a_plow_needs_not_cover_the_wheels() -> None:
    typed = {"working_width": "28 in", "tractor_width": "60 in", "pto_power": "30 hp"}
    assert finding(given("pairing", implement_kind="plow", **typed), "covers") == ""
    assert finding(given("pairing", implement_kind="box_blade", **typed), "covers") == model.OVER
