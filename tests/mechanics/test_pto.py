"""The power take-off: torque, types, speeds."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.mechanics import pto


@given(st.floats(0.0, 500e3), st.floats(100.0, 3000.0))
def test_power_and_torque_are_inverse(power: float, rpm: float) -> None:
    assert pto.power(pto.torque(power, rpm), rpm) == pytest.approx(power, rel=1e-12)


@pytest.mark.parametrize(("power", "rpm"), [(1.0, 0.0), (1.0, -540.0), (-1.0, 540.0)])
def test_impossible_shafts_are_refused(power: float, rpm: float) -> None:
    with pytest.raises(ValueError):
        pto.torque(power, rpm)


def test_same_power_at_1000_takes_54_percent_of_the_torque() -> None:
    assert pto.torque(30e3, 1000) / pto.torque(30e3, 540) == pytest.approx(0.54)


def test_30_hp_at_540() -> None:
    assert pto.torque(30 * 745.69987, 540) == pytest.approx(395.6, abs=0.05)
    assert pto.torque(30 * 745.69987, 540) / 1.35581795 == pytest.approx(291.8, abs=0.05)


def test_25_hp_at_540_in_pound_feet() -> None:
    assert pto.torque(25 * 745.69987, 540) / 1.35581795 == pytest.approx(243, abs=0.5)


def test_no_drawbar_distance_for_type_4() -> None:
    with pytest.raises(LookupError):
        pto.drawbar_distance("4")
    with pytest.raises(LookupError):
        pto.type_row("5")


@given(st.floats(500.0, 4000.0), st.floats(100.0, 1300.0))
def test_ratio_gives_the_shaft_speed_back(engine: float, shaft: float) -> None:
    ratio = pto.engine_speed_ratio(engine, shaft)
    assert pto.shaft_speed(engine, ratio) == pytest.approx(shaft)


# --- traps ---------------------------------------------------------------------------------


def test_trap_six_splines_may_turn_at_1000() -> None:
    """Counting splines doesn't tell the speed; the power guide differs with it."""
    assert pto.type_row("1")["other_rpm"] == "1000"
    assert pto.power_guide("1", 1000) > pto.power_guide("1", 540)


def test_trap_57_centimeters() -> None:
    """A page prints the type 4 shaft as 57.5 cm."""
    assert 0.05 < float(pto.type_row("4")["diameter_mm"]) / 1000 < 0.06


def test_trap_both_small_shafts_are_35_mm() -> None:
    """A tape over the splines can't tell 6 from 21; the count can."""
    assert pto.type_row("1")["diameter_mm"] == pto.type_row("2")["diameter_mm"]
    assert pto.identify(6, 0.035) != pto.identify(21, 0.035)
    assert pto.identify(20, 0.035) is None
