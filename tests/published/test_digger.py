"""Post hole digger against printed numbers; the source stands beside each."""

import math

import pytest

from calc import search, si, tables, worksheets
from calc.mechanics import auger, pto
from tests.published.rows import published
from tests.worksheets.asking import margins

INCH = 0.0254
FOOT = 0.3048
PSI = 6894.757293168361
LB_IN = 0.1129848290276167
LB_FT = 1.3558179483314004
GALLON = 3.785411784e-3


@pytest.mark.parametrize(("inches", "times"), [(12, 4.0), (18, 9.0)])
def test_power_goes_with_the_square_of_the_diameter(inches: float, times: float) -> None:
    of, given, why = auger.power_scaled, f"from 6 in to {inches} in", "the printed rule"
    ours = auger.power_scaled(1.0, 6 * INCH, inches * INCH)
    published(of, given, times, ours, 1e-9, why, "value/P7", "6 to 18 in", unit="×")


@pytest.mark.parametrize(
    ("hp", "rpm", "printed"),
    [(12, 1750, 432.17), (15, 1500, 630.25)],
)
def test_torque_in_pound_inches(hp: float, rpm: float, printed: float) -> None:
    ours = pto.torque(hp * si.HP, rpm) / LB_IN
    why = "two places, from 63 025 for 63 025.36"
    published(
        pto.torque, f"{hp} hp at {rpm} rpm", printed, ours, 0.01, why, "value/P12", unit="lb in"
    )


def test_torque_of_30_kw_at_540() -> None:
    ours, why = pto.torque(30_000.0, 540), "whole number, from 9550 for 9549.3"
    published(pto.torque, "30 kW at 540 rpm", 531, ours, 0.6, why, "hitch/X3", unit="N m")


def test_torque_of_45_hp_at_2400() -> None:
    # The exact 98.5 was cut off, so ours, cut in the same way, is the same number.
    ours = math.floor(pto.torque(45 * si.HP, 2400) / LB_FT)
    why = "whole number, cut"
    published(pto.torque, "45 hp at 2,400 rpm", 98, ours, 0, why, "power/S50", unit="lb ft")


@pytest.mark.parametrize(
    ("flow", "displacement", "printed"), [(6, 0.75, 1848), (24.35, 3.75, 1500)]
)
def test_hydraulic_motor_speed(flow: float, displacement: float, printed: float) -> None:
    speed, _ = auger.hydraulic_motor(flow * GALLON / 60, 1.0, displacement * INCH**3)
    given, why = f"{flow} gal/min into {displacement} in³ a turn", "whole number"
    of = auger.hydraulic_motor
    published(of, given, printed, speed * 60, 0.5, why, "value/P12", unit="rpm")


@pytest.mark.parametrize(
    ("displacement", "pressure", "printed"), [(2.5, 2000, 796.19), (2.25, 2200, 788.22)]
)
def test_hydraulic_motor_torque(displacement: float, pressure: float, printed: float) -> None:
    _, torque = auger.hydraulic_motor(1.0, pressure * PSI, displacement * INCH**3)
    given, ours = f"{displacement} in³ a turn at {pressure} psi", torque / LB_IN
    why = "worked there with 3.14, which reads up to 0.06 % high"
    of = auger.hydraulic_motor
    published(of, given, printed, ours, 0.0006 * printed, why, "value/P12", unit="lb in")


@pytest.mark.parametrize(
    ("printed", "one", "unit", "rounding"),
    [
        (2.36, FOOT**3, "ft³", 0.005),
        (0.087, (3 * FOOT) ** 3, "yd³", 0.0005),
        (0.0667, 1.0, "m³", 0.00005),
    ],
)
def test_volume_of_a_hole(printed: float, one: float, unit: str, rounding: float) -> None:
    ours = auger.hole_volume(12 * INCH, 3 * FOOT) / one
    given, why = "12 in across, 3 ft deep", "half of its last place"
    of = auger.hole_volume
    published(of, given, printed, ours, rounding, why, "value/P13", unit=unit)


def test_remotes_that_drive_an_auger() -> None:
    # Speed times torque must give the fluid's power back.
    speed, torque = auger.hydraulic_motor(20 * GALLON / 60, 1500 * PSI, 20 * INCH**3)
    ours = 2 * math.pi * speed * torque / si.HP
    given, why = "20 gal/min at 1,500 psi", "printed to a tenth"
    of = auger.hydraulic_motor
    published(of, given, 17.5, ours, 0.05, why, "hitch/X8", unit="hp")


def test_light_duty_digger_suits_its_tractors() -> None:
    # value/P6c: one light-duty digger is made for tractors of 14 to 24 hp. Its usual 6 and 9 in
    # augers in loam must stay below the strongest, and a 12 in in clay must not fit the weakest.
    rows = tables.by_key("digger/digger_power", "key")
    loam, clay = auger.soil_factor("loam"), auger.soil_factor("clay")
    strongest = float(rows["tractor_high"]["hp"]) * si.HP
    weakest = float(rows["tractor_low"]["hp"]) * si.HP
    assert auger.auger_power(6 * INCH, loam) < strongest
    assert auger.auger_power(9 * INCH, loam) < strongest
    assert auger.auger_power(12 * INCH, clay) > weakest


@pytest.mark.parametrize("inches", [6, 9, 12, 16, 18])
def test_augers_that_are_sold(inches: int) -> None:
    # value/WEB-11: augers sold for three-point diggers.
    sold = [float(row["diameter_in"]) for row in tables.rows("digger/digger_augers")]
    assert inches in sold


@pytest.mark.parametrize("inches", [12, 18])
def test_a_rental_tractor_of_45_hp_turns_its_augers(inches: int) -> None:
    # value/RL-1: 12 to 18 in augers are paired with 45 hp and more.
    low, _ = auger.auger_power_range(inches * INCH, "clay")
    assert low < 45 * 0.86 * si.HP


@pytest.mark.parametrize(
    ("power", "met"), [(13.9, False), (14.1, True), (23.9, True), (24.1, False)]
)
def test_a_light_digger_takes_tractors_of_14_to_24_hp(power: float, met: bool) -> None:
    # value/P6c: for small tractors of 14 to 24 hp, held both ways.
    typed = {"pto_power": f"{power} hp", "power_least": "14 hp", "power_limit": "24 hp"}
    found = margins(search.answer(worksheets.load("digger"), typed))
    assert (min(found["maker_least"], found["maker_most"]) >= 0) is met


def test_only_a_grade_2_bolt_unless_the_manual_says_so() -> None:
    # value/P6b: grade 2 only.
    sheet = worksheets.load("digger")
    for grade, over in (("grade_2", False), ("grade_5", True), ("grade_8", True)):
        found = search.answer(sheet, {"bolt_grade": grade}, ask="bolt")
        assert (found.finding == "over") is over
