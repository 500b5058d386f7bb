"""Wires, fuses and lamp current: properties, own examples and traps."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import tables
from calc.mechanics import (
    electrical_load,
    wiring,
)

FOOT = 0.3048


# --- wiring ---------------------------------------------------------------------------------------


@given(st.floats(0.1, 40), st.floats(0.5, 20))
def test_the_gauge_picked_keeps_within_the_drop(current, loop):
    area = wiring.area_needed(current, loop, 0.36)
    gauge = wiring.smallest_gauge(area)
    if gauge is None:
        assert area > 37360
    else:
        drop = wiring.voltage_drop(current, wiring.wire_resistance(gauge, loop, "SAE"))
        assert drop <= 0.36
        assert wiring.longest_run(current, gauge, 0.36) >= loop - 1e-9


@given(st.floats(0, 32))
def test_a_fuse_carries_its_load_at_80_percent(current):
    fuse = wiring.fuse_size(current)
    assert fuse is not None
    assert current <= 0.8 * fuse + 1e-6


def test_no_fuse_beyond_the_largest_blade():
    assert wiring.fuse_size(33) is None


def test_road_load_example():
    one = electrical_load.lamp_current
    lit = [(2, one(55), 1), (2, 0.59, 1), (4, one(21), 0.5), (2, one(55), 1), (1, 3.0, 1)]
    assert electrical_load.load_current(lit) == pytest.approx(26.1, abs=0.1)
    assert electrical_load.charging_margin(20, electrical_load.load_current(lit)) < 0
    assert electrical_load.charging_margin(40, electrical_load.load_current(lit)) > 0
    road = [lit[0], lit[1], lit[2], lit[4]]
    assert electrical_load.load_current(road) == pytest.approx(16.9, abs=0.1)


@pytest.mark.parametrize(("gauge", "volts"), [(18, 1.02), (14, 0.40), (12, 0.25)])
def test_drop_example(gauge, volts):
    loop = wiring.loop_length(20 * FOOT)
    drop = wiring.voltage_drop(4, wiring.wire_resistance(gauge, loop, "AWG"))
    assert drop == pytest.approx(volts, abs=0.006)


def test_chassis_return_counts_the_wire_once():
    assert wiring.loop_length(6.0, return_wire=False, ground_allowance=1.0) == 7.0


def test_wire_areas_follow_the_gauge_formula():
    # Diameter 0.005 in x 92^((36 - n) / 39); tables round the diameter first.
    for row in tables.rows("road/wire_sizes"):
        area = (5 * 92 ** ((36 - int(row["gauge"])) / 39)) ** 2
        assert float(row["awg_circular_mils"]) == pytest.approx(area, rel=6e-4)
        assert float(row["sae_circular_mils"]) < 1.06 * area


def test_battery_hours():
    assert electrical_load.battery_hours(70, 5) == pytest.approx(7)
    assert electrical_load.battery_hours(70, 0) == math.inf


# --- traps ----------------------------------------------------------------------------------------


def test_trap_wire_table_contradicts_itself():
    area = wiring.area_needed(20, 10 * FOOT, 0.36)
    assert area == pytest.approx(wiring.area_needed(10, 20 * FOOT, 0.36))
    assert area == pytest.approx(5972, abs=1)
    assert wiring.smallest_gauge(area, "AWG") == 12
    assert wiring.smallest_gauge(area, "SAE") == 10


def test_trap_loop_or_one_way():
    one_way = 20 * FOOT
    assert wiring.loop_length(one_way) == pytest.approx(2 * one_way)
    drop = wiring.voltage_drop(4, wiring.wire_resistance(14, wiring.loop_length(one_way), "AWG"))
    assert drop == pytest.approx(0.404, abs=0.001)  # not 0.20


def test_trap_temperature_of_the_resistance_table():
    at_20 = wiring.wire_resistance(10, 1000 * FOOT, "AWG")
    assert at_20 == pytest.approx(0.9989)
    assert wiring.wire_resistance(10, 1000 * FOOT, "AWG", 25) == pytest.approx(1.0185, abs=5e-4)


def test_trap_open_air_current_is_not_a_fuse_size():
    # 12 gauge in open air is put at 41 A in physics tables; a 9.2 A load is fused at 15 A.
    assert (
        wiring.fuse_size(electrical_load.load_current([(2, electrical_load.lamp_current(55), 1)]))
        == 15
    )
    assert not [column for column in tables.rows("road/wire_sizes")[0] if "current" in column]


def test_trap_connector_pins_differ():
    pins = tables.by_key("road/connector_pins", "pin")
    assert "power" in pins["4"]["north_america"]
    assert "power" in pins["7"]["north_america"]
    grounds = [
        next(pin for pin, row in pins.items() if row[side] == "ground")
        for side in ("north_america", "iso_1724")
    ]
    assert grounds == ["1", "3"]


def test_trap_half_a_filament_lamps_current_is_not_watts_over_charging_voltage():
    assert electrical_load.lamp_current(55) > 55 / 13.8
    assert electrical_load.lamp_current(55, voltage=13.8) > electrical_load.lamp_current(55)
    assert electrical_load.lamp_current(20, "constant power", 13.8) == pytest.approx(20 / 13.8)
