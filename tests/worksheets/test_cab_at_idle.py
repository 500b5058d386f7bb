"""What the cab page says of an alternator at idle, and what its questions begin with."""

import pytest

from calc import model
from calc.model import leading
from tests.worksheets.asking import given


@pytest.mark.parametrize(("rated", "idle"), [("60 A", "19.2 A"), ("150 A", "48 A")])
def test_what_is_there_at_idle_is_told_and_not_refused(rated: str, idle: str) -> None:
    # value/EM-3: 16 of 50 A hot at 1,300 rpm, an engine's idle. 48 A carry 20 A of cooling there.
    typed = {"alternator_current": rated, "cooling_current": "20 A", "other_current": "10 A"}
    found = given("cab", "current", **typed, alternator_speed="5000 rpm")
    assert found.finding == model.WITHIN
    assert f"At idle the alternator gives {idle}" in leading.lead(found, "us")


def test_what_cooling_leaves_hangs_on_an_engine_or_on_what_is_needed() -> None:
    assert leading.lead(given("cab", "left"), "us").startswith("Say first: “Engine power”")
    # A compact with a cab has 25 to 45 hp: at 8,000 ft none of them leaves 30.
    high = given("cab", "left", altitude="8,000 ft", power_needed="30 hp")
    assert high.finding == model.OVER
