"""Lift and hydraulic power against numbers printed elsewhere."""

import pytest

from calc import quantities
from calc.mechanics import hydraulics, lift

LB = 0.45359237
IN = 0.0254
GPM = 231 * IN**3 / 60
PSI = LB * 9.80665 / IN**2
HP = 745.6998715822702


def test_effective_weight_of_a_planter():
    # hitch/H13: 10,000 lb with its center of gravity 48 in back is felt as 13,934.4 lb at 24 in,
    # "about 39 %" more; printed to a tenth of a pound.
    felt = lift.effective_mass(10000 * LB, 48 * IN, 24 * IN, 37 * IN)
    assert felt / LB == pytest.approx(13934.4, abs=0.1)
    assert felt / (10000 * LB) == pytest.approx(1.39, abs=0.005)


def test_effective_weight_in_its_two_parts():
    # hitch/H13: 7,868.8 lb that grows with the distance and 6,065.6 lb that doesn't.
    def felt(inches):
        return lift.effective_mass(10000.0, inches * IN, 24 * IN, 37 * IN, inside_credit=True)

    assert felt(48) - felt(0) == pytest.approx(7868.8, abs=0.1)
    assert felt(0) == pytest.approx(6065.6, abs=0.1)


def test_effective_weight_at_the_rating_point_is_the_weight():
    # hitch/H13: the form is built for 24 in; 24 + 37 = 61.
    assert lift.effective_mass(1000.0, 24 * IN, 24 * IN, 37 * IN) == pytest.approx(1000.0)


@pytest.mark.parametrize(
    ("power_kw", "kilonewton"), [(25, 7.75), (65, 20.15), (100, 20.15 + 0.155 * 35)]
)
def test_least_lift_force_of_the_standard(power_kw, kilonewton):
    # hitch/S5, PAES 118:2001 clause 6.3 Table 5.
    assert lift.minimum_lift_force(power_kw * 1000) == pytest.approx(kilonewton * 1000)


def test_least_lift_force_is_continuous_at_65_kw():
    # hitch/S5: both branches give 20.15 kN.
    below = lift.minimum_lift_force(65000.0)
    above = lift.minimum_lift_force(65000.0001)
    assert below == pytest.approx(20150.0)
    assert above == pytest.approx(below, rel=1e-6)


def test_garden_hitch_is_rated_at_12_in():
    # hitch/H14: 450 lb (204 kg) at 12 in (305 mm).
    assert lift.rating_distance("305") == pytest.approx(12 * IN, abs=0.0005)
    assert quantities.base("450 lb", "mass") == pytest.approx(204, abs=0.5)


def test_lift_test_point_is_24_in_back():
    # hitch/S5, PAES 119 clause 5.2.2.2: 610 mm (24 in).
    assert lift.rating_distance("610") == pytest.approx(24 * IN, abs=0.0005)


def test_loader_at_500_mm():
    # value/G3: 2,330 lb at the pins, 1,705 lb at 500 mm, said to be 27 % less.
    arm = lift.loader_arm_length(2330, 1705, 0.5)
    assert lift.loader_capacity_at(2330, arm, 0.5) == pytest.approx(1705)
    lost = 1 - lift.loader_capacity_at(100, arm, 0.5) / 100
    assert lost == pytest.approx(0.27, abs=0.005)


def test_hydraulic_power():
    # hitch/X8: 20 gpm at 1,500 psi is 17.5 hp.
    assert hydraulics.fluid_power(20 * GPM, 1500 * PSI) / HP == pytest.approx(17.5, abs=0.05)


def test_hydraulic_power_constant():
    # hp = gpm x psi / 1714 as trade tables print it.
    assert HP / hydraulics.fluid_power(GPM, PSI) == pytest.approx(1714, abs=0.5)


def test_cylinder_force():
    # hitch/X3: 100 mm piston at 150 bar: 117.8 kN.
    assert hydraulics.cylinder_force(150e5, 0.100) == pytest.approx(117800, abs=50)
