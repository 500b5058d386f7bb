"""Drives, fuel, work rate and cost against published numbers.

Each case names its source; the tolerance is the rounding of the source.
"""

import math

import numpy_financial as npf
import pytest

from calc import tables
from calc.mechanics import field_work, fuel, ownership, traction, transmission
from tests.published.rows import published

HP = 745.699872
GALLON = 3.785411784e-3
ACRE = 4046.8564224
FOOT = 0.3048
MPH = 0.44704
HOUR = 3600.0


@pytest.mark.parametrize(
    ("drawbar", "pto", "printed_percent"),
    [
        (90.0, 105.0, 86.0),  # power/S33, test 1255, 16-speed gear
        (80.0, 105.0, 76.0),  # power/S33, test 1257, hydrostatic, same engine
    ],
)
def test_drawbar_share_of_the_paired_tests(
    drawbar: float, pto: float, printed_percent: float
) -> None:
    of, given = transmission.efficiency_from_test, f"{drawbar:g} of {pto:g} hp at the drawbar"
    ours, why = of(drawbar, pto, 1.0) * 100.0, "printed to a whole percent"
    published(of, given, printed_percent, ours, 0.5, why, "power/S33", unit="%")


@pytest.mark.parametrize(("drive", "drawbar"), [("gear", 90.0), ("hydrostatic", 80.0)])
def test_kept_efficiency_reproduces_the_paired_tests(drive: str, drawbar: float) -> None:
    # power/S33: 90 and 80 of 105 hp, through the tractive efficiency of 0.93 that the table names.
    of, given = transmission.full_load_efficiency, f"{drive} drive of 105 hp, 0.93 on concrete"
    ours, why = of(drive, "drawbar tests") * 0.93 * 105.0, "our efficiency is kept to 0.01"
    published(of, given, drawbar, ours, 0.6, why, "power/S33", unit="hp")


@pytest.mark.parametrize(
    ("width_ft", "mph", "efficiency", "acres_per_hour"),
    [
        (40.0, 6.0, 0.70, 20.4),  # power/S45, fertilizer spreader
        (50.0, 6.0, 0.70, 25.5),  # power/S45
        (10.0, 5.0, 0.63, 3.8),  # power/S45, manure spreader
        (15.0, 5.0, 0.63, 5.7),  # power/S45
        (15.0, 6.0, 0.63, 6.9),  # power/S45
        (20.0, 6.0, 0.63, 9.2),  # power/S45
        (7 * 16 / 12, 5.0, 0.85, 4.8),  # power/S45, plow, seven 16 in bottoms
        (8 * 16 / 12, 5.0, 0.85, 5.5),  # power/S45
        (8 * 18 / 12, 5.0, 0.85, 6.2),  # power/S45
        (9 * 30 / 12, 5.0, 0.65, 8.9),  # power/S45, nine knives at 30 in
    ],
)
def test_field_capacity(
    width_ft: float, mph: float, efficiency: float, acres_per_hour: float
) -> None:
    of, given = field_work.field_capacity, f"{width_ft:.4g} ft, {mph:g} mph, {efficiency:.0%}"
    ours = of(width_ft * FOOT, mph * MPH, efficiency) * HOUR / ACRE
    why = "printed to a tenth, from 8.25 or 825"
    published(of, given, acres_per_hour, ours, 0.055, why, "power/S45", unit="ac/h")


def test_fuel_from_specific_output() -> None:
    # power/S52: 200 hp at 17 hp.h/gal burns 11.76 gal/h.
    of, given = fuel.rate_from_output, "200 hp at 17 hp·h/gal"
    ours = of(200.0 * HP, 17.0 * HP * HOUR / GALLON) / GALLON * HOUR
    published(of, given, 11.76, ours, 0.005, "printed to 0.01", "power/S52", unit="gal/h")


def test_yearly_average_fuel() -> None:
    # power/S42: 0.06 gal/h per maximum PTO hp for gasoline, times 0.73 for diesel.
    of, given = fuel.average_diesel_rate, "1 PTO hp: 0.06 gal/h, times 0.73 for diesel"
    ours, why = of(HP) / GALLON * HOUR, "two printed factors multiplied, to four figures"
    published(of, given, 0.0438, ours, 0.00005, why, "power/S42", unit="gal/h")


def test_labor_factor() -> None:
    # power/S47: 13.50 an hour, factor 1.1, gives 14.85.
    of, given = ownership.labor_cost_per_hour, "13.50 an hour, 1.1 labor hours an hour"
    published(of, given, 14.85, of(13.50), 0.005, "printed to a cent", "power/S47", unit="$/h")


@pytest.mark.parametrize("soil", ["hard", "firm"])
def test_best_slip_lies_in_the_published_band(soil: str) -> None:
    # power/S8 prints the band for each soil; it is read from the table that cites it.
    row = tables.by_key("power/soil_mobility", "soil")[soil]
    found = traction.best_slip(float(row["mobility_number"]))
    assert float(row["best_slip_low"]) - 0.005 <= found <= float(row["best_slip_high"]) + 0.005


@pytest.mark.parametrize(
    ("hours", "percent"),
    [(1000, 1), (2000, 3), (3000, 6), (4000, 11), (5000, 18), (6000, 25)],
)
def test_repair_share_of_list_price(hours: float, percent: float) -> None:
    # power/D497-memory: a printed Extension table of accumulated repair costs, recalled.
    assert ownership.repair_cost("tractor", 100.0, hours) == pytest.approx(percent, abs=0.5)


def test_repair_share_near_another_fleet() -> None:
    # power/S48: 2.53 % of price at 2 000 h in another fleet, against 2.8 % here.
    of, given = ownership.repair_cost, "a tractor at 2,000 h, another fleet"
    ours, why = of("tractor", 100.0, 2000.0), "another fleet: half a percent of the price apart"
    published(of, given, 2.53, ours, 0.5, why, "power/S48", unit="%")


@pytest.mark.parametrize(
    ("cost", "saving", "rate"), [(1000.0, 250.0, 0.06), (1800.0, 310.0, 0.085), (500.0, 90.0, 0.01)]
)
def test_years_to_pay_back_against_a_finance_library(
    cost: float, saving: float, rate: float
) -> None:
    # numpy_financial.nper, a general reference library.
    expected = float(npf.nper(rate, -saving, cost))
    assert ownership.years_to_pay_back(cost, saving, rate) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("load", [0.5, 0.75, 1.0])
def test_older_fuel_equation_in_us_units(load: float) -> None:
    # power/D497-memory prints gal/hp.h = 0.52 X + 0.77 - 0.04 sqrt(738 X + 173). Its
    # coefficients have two figures and nearly cancel; the rounding of the last one, 0.0005 of
    # the root, is the tolerance.
    root = math.sqrt(738.0 * load + 173.0)
    printed = 0.52 * load + 0.77 - 0.04 * root
    ours = fuel.older_diesel_rate(HP, load) / load / GALLON * HOUR
    assert ours == pytest.approx(printed, abs=0.0005 * root)


def test_later_fuel_equation_in_us_units() -> None:
    # power/D497-memory: gal/h = (0.0434 X + 0.019) P_hp.
    for load in (0.2, 0.5, 1.0):
        printed = 0.0434 * load + 0.019
        ours = fuel.diesel_rate(HP, load) / GALLON * HOUR
        assert ours == pytest.approx(printed, abs=0.0005 + 0.00005 * load)
