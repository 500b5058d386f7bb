"""Cab cooling's current, sizes and moist air against printed numbers; the source beside each."""

import pytest

from calc import quantities, search, tables, worksheets
from calc.mechanics import air_conditioner, psychrometrics
from tests.published.rows import published
from tests.worksheets.asking import margins

SHEET = worksheets.load("cab")


@pytest.mark.parametrize(("rpm", "amperes"), [(1300, 16), (5000, 48)])
def test_hot_output_of_a_50_a_alternator(rpm: int, amperes: int) -> None:
    # value/EM-3: a small three-cylinder diesel's 50 A alternator, hot, whole amperes.
    ours, given = (
        50 * air_conditioner.alternator_share(float(rpm)),
        f"50 A alternator, hot, at {rpm} rpm",
    )
    why, source = "whole amperes", "value/EM-3"
    published(
        air_conditioner.alternator_share, given, float(amperes), ours, 0.5, why, source, unit="A"
    )


@pytest.mark.parametrize(("amperes", "met"), [(15.9, True), (16.1, False)])
def test_at_idle_it_carries_16_a(amperes: float, met: bool) -> None:
    # value/EM-3, as a limit: just inside and just outside of 16 A with nothing else on.
    typed = {
        "alternator_current": "50 A",
        "alternator_speed": "1300 rpm",
        "other_current": "0 A",
        "cooling_current": f"{amperes} A",
    }
    found = search.answer(SHEET, typed, ask="current")
    assert (margins(found)["current"] >= 0) is met


@pytest.mark.parametrize("btu", [5000, 7000, 10000, 22000])
def test_sizes_that_were_read_are_sold(btu: int) -> None:
    # value/C13, value/TI-1, value/EM-2 and value/TP-1.
    assert any(
        size == pytest.approx(quantities.base(f"{btu} Btu/h", "power"))
        for size in air_conditioner.unit_sizes()
    )


def test_a_rooftop_unit_in_both_units() -> None:
    # value/TP-1: 22 000 Btu/h, 6.4 kW.
    assert quantities.base("22000 Btu/h", "power") == pytest.approx(6400.0, abs=50.0)


def test_battery_units_are_of_the_sizes_that_were_read() -> None:
    # value/BH-1: 4 600 to 10 000 Btu/h.
    rows = [row for row in tables.rows("cab/cab_units") if "Battery" in row["name"]]
    assert rows and all(4600 <= float(row["capacity_btu_h"]) <= 10000 for row in rows)


def test_partial_pressures_of_a_room() -> None:
    # value/PSU-1: 25 C, 100 kPa, 75 %: saturation 3.169 kPa, vapor 2.38, dry air 97.62.
    saturated = psychrometrics.saturation_pressure(25.0)
    of, source = psychrometrics.saturation_pressure, "value/PSU-1"
    for given, ours, printed, off in (
        ("saturation at 25 °C", saturated, 3169.0, 1.0),
        ("vapor at 25 °C and 75 %", 0.75 * saturated, 2380.0, 5.0),
        ("dry air of 100 kPa", 100_000.0 - 0.75 * saturated, 97_620.0, 5.0),
    ):
        published(of, given, printed, ours, off, "printed to its last digit", source, unit="Pa")


def test_humidity_ratio_of_a_room() -> None:
    # value/PSU-1: 0.0152, printed to three figures from a vapor pressure of 2.38, which is itself
    # rounded: half of its last digit is 0.00003.
    found = psychrometrics.humidity_ratio(25.0, 0.75, 100_000.0)
    given, why = "25 °C, 75 %, 100 kPa", "from a rounded vapor pressure, to three figures"
    published(psychrometrics.humidity_ratio, given, 0.0152, found, 0.00008, why, "value/PSU-1")


def test_enthalpy_of_a_room() -> None:
    # value/PSU-1: (1.005)(25) + (0.0152)(2547.2) = 63.8 kJ/kg.
    found = psychrometrics.enthalpy(25.0, 0.0152)
    given, why, source = "25 °C, 0.0152", "printed to a tenth", "value/PSU-1"
    published(psychrometrics.enthalpy, given, 63.8, found / 1000.0, 0.1, why, source, unit="kJ/kg")
