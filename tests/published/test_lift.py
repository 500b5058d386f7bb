"""Lift and hydraulic power against numbers printed elsewhere."""

import pytest

from calc import quantities
from calc.mechanics import hydraulics, lift
from tests.published.rows import published

LB = 0.45359237
IN = 0.0254
GPM = 231 * IN**3 / 60
PSI = LB * 9.80665 / IN**2
HP = 745.6998715822702


def test_effective_weight_of_a_planter():
    # "about 39 %" more is the same number, printed to the percent.
    felt = lift.effective_mass(10000 * LB, 48 * IN, 24 * IN, 37 * IN)
    given = "10,000 lb at 48 in, felt at 24 in, links meeting at 37 in"
    place = "example of a planter"
    why = "printed to a tenth of a pound"
    published(
        lift.effective_mass, given, 13934.4, felt / LB, 0.1, why, "hitch/H13", place, unit="lb"
    )
    times = felt / (10000 * LB)
    why = "printed to the percent"
    published(lift.effective_mass, given, 1.39, times, 0.005, why, "hitch/H13", place)


@pytest.mark.parametrize(("inches", "printed"), [(48, 7868.8), (0, 6065.6)])
def test_effective_weight_in_its_two_parts(inches, printed):
    # What grows with the distance, and what doesn't.
    def felt(inches):
        return lift.effective_mass(10000.0, inches * IN, 24 * IN, 37 * IN, inside_credit=True)

    published(
        lift.effective_mass,
        f"the part of 10,000 lb that {'grows to 48 in' if inches else 'does not grow'}",
        printed,
        felt(48) - felt(0) if inches else felt(0),
        0.1,
        "printed to a tenth of a pound",
        "hitch/H13",
        "the two parts of the example",
        unit="lb",
    )


def test_effective_weight_at_the_rating_point_is_the_weight():
    published(
        lift.effective_mass,
        "a load at 24 in, the point that the form is built for",
        1.0,
        lift.effective_mass(1000.0, 24 * IN, 24 * IN, 37 * IN) / 1000.0,
        1e-9,
        "the form's own definition: 24 + 37 = 61",
        "hitch/H13",
        "the form",
    )


@pytest.mark.parametrize(
    ("power_kw", "kilonewton"), [(25, 7.75), (65, 20.15), (100, 20.15 + 0.155 * 35)]
)
def test_least_lift_force_of_the_standard(power_kw, kilonewton):
    published(
        lift.minimum_lift_force,
        f"{power_kw} kW at the shaft",
        kilonewton,
        lift.minimum_lift_force(power_kw * 1000) / 1000,
        0.005,
        "coefficients printed to 0.005",
        "hitch/S5",
        "PAES 118:2001, clause 6.3, Table 5",
        unit="kN",
    )


def test_least_lift_force_is_continuous_at_65_kw():
    # hitch/S5: both branches give 20.15 kN.
    below = lift.minimum_lift_force(65000.0)
    above = lift.minimum_lift_force(65000.0001)
    assert above == pytest.approx(below, rel=1e-6)


@pytest.mark.parametrize(
    ("key", "inches", "source", "place"),
    [
        ("305", 12, "hitch/H14", "450 lb at 12 in (305 mm)"),
        ("610", 24, "hitch/S5", "PAES 119, clause 5.2.2.2: 610 mm (24 in)"),
    ],
)
def test_distance_of_a_lift_rating(key, inches, source, place):
    ours = lift.rating_distance(key) / IN
    why = "inches rounded to the millimeter"
    of = lift.rating_distance
    published(of, f"rating at {key} mm", inches, ours, 0.0005 / IN, why, source, place, unit="in")


def test_garden_hitch_in_kilograms():
    ours = quantities.base("450 lb", "mass")
    published(
        "ballast", "450 lb", 204, ours, 0.5, "printed to the kilogram", "hitch/H14", unit="kg"
    )


def test_loader_at_500_mm():
    # 2,330 lb at the pins, 1,705 lb at 500 mm, said to be 27 % less.
    arm = lift.loader_arm_length(2330, 1705, 0.5)
    assert lift.loader_capacity_at(2330, arm, 0.5) == pytest.approx(1705)
    lost = 100 - lift.loader_capacity_at(100, arm, 0.5)
    published(
        lift.loader_capacity_at,
        "2,330 lb at the pins, 500 mm ahead of them",
        27,
        lost,
        0.5,
        "printed to the percent",
        "value/G3",
        unit="% less",
    )


def test_hydraulic_power():
    ours = hydraulics.fluid_power(20 * GPM, 1500 * PSI) / HP
    given = "20 gal/min at 1,500 psi"
    of = hydraulics.fluid_power
    published(of, given, 17.5, ours, 0.05, "printed to a tenth", "hitch/X8", unit="hp")


def test_hydraulic_power_constant():
    # hp = gpm x psi / 1714 as trade tables print it; no source that was read.
    assert HP / hydraulics.fluid_power(GPM, PSI) == pytest.approx(1714, abs=0.5)


def test_cylinder_force():
    ours = hydraulics.cylinder_force(150e5, 0.100) / 1000
    given = "100 mm piston at 150 bar"
    of = hydraulics.cylinder_force
    published(of, given, 117.8, ours, 0.05, "printed to 0.1 kN", "hitch/X3", unit="kN")
