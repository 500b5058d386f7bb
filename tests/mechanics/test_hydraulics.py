"""Hydraulic power and force: properties and the traps."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.mechanics import hydraulics

HP = 745.6998715822702
GPM = 231 * 0.0254**3 / 60
PSI = 0.45359237 * 9.80665 / 0.0254**2


def test_liters_and_bar():
    # kW = L/min x bar / 600
    assert hydraulics.fluid_power(45e-3 / 60, 180e5) / 1000 == pytest.approx(45 * 180 / 600)


@given(st.floats(1e-5, 1e-2), st.floats(1e5, 3e7), st.floats(0.4, 1.0))
def test_in_is_more_than_out(flow, pressure, efficiency):
    oil = hydraulics.fluid_power(flow, pressure)
    assert hydraulics.pump_shaft_power(flow, pressure, efficiency) >= oil
    assert hydraulics.motor_shaft_power(flow, pressure, efficiency) <= oil


@given(st.floats(1e5, 3e7), st.floats(0.02, 0.2), st.floats(0.0, 0.9), st.floats(1e-5, 1e-2))
def test_power_of_a_moving_cylinder_is_that_of_the_oil(pressure, bore, share, flow):
    rod = share * bore
    force = hydraulics.cylinder_force(pressure, bore, rod)
    seconds = hydraulics.cylinder_time(flow, bore, 0.5, rod)
    assert force * 0.5 / seconds == pytest.approx(hydraulics.fluid_power(flow, pressure))


def test_trap_web_example_of_50_gpm():
    # A circulating page makes 34.6 hp of 50 gpm, 2,000 psi and 85 %.
    oil = hydraulics.fluid_power(50 * GPM, 2000 * PSI) / HP
    out = hydraulics.motor_shaft_power(50 * GPM, 2000 * PSI, 0.85) / HP
    needed = hydraulics.pump_shaft_power(50 * GPM, 2000 * PSI, 0.85) / HP
    assert [oil, out, needed] == pytest.approx([58.3, 49.6, 68.6], abs=0.05)


def test_trap_kilonewtons_as_tonnes():
    # 273 kN holds 27.9 t, not 2.8 t.
    bore = math.sqrt(4 * 273000 / (math.pi * 150e5))
    force = hydraulics.cylinder_force(150e5, bore)
    assert force / 9.80665 == pytest.approx(27838, abs=50)


def test_trap_total_flow_includes_steering():
    assert hydraulics.remote_flow(9 * GPM, 3.5 * GPM) == pytest.approx(5.5 * GPM)
    with pytest.raises(ValueError, match="more than the total"):
        hydraulics.remote_flow(3 * GPM, 4 * GPM)


@pytest.mark.parametrize(
    "call",
    [
        lambda: hydraulics.fluid_power(-1, 1),
        lambda: hydraulics.pump_shaft_power(1, 1, 0.0),
        lambda: hydraulics.motor_shaft_power(1, 1, 1.2),
        lambda: hydraulics.cylinder_force(1e5, 0.05, 0.05),
        lambda: hydraulics.cylinder_time(0.0, 0.05, 0.5),
    ],
)
def test_nonsense_is_refused(call):
    with pytest.raises(ValueError, match=r"\w"):
        call()
