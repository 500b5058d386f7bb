"""Liquid in tires: salt, water, and the traps of charts."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import tables
from calc.mechanics import (
    liquid_ballast,
    tires,
)
from calc.mechanics.tire_size import decode
from tests.tire_rows import TABLE_SIZES, size

GAL = 0.003785411784
LB = 0.45359237


# --- properties -----------------------------------------------------------------------------------


@given(st.sampled_from(TABLE_SIZES), st.floats(0, 0.9), st.floats(0, 0.9), st.floats(900, 1300))
def test_more_liquid_never_lowers_axle_load(
    text: str, share: float, more: float, density: float
) -> None:
    less, most = sorted((share, more))
    tire = size(text)
    masses = [
        liquid_ballast.liquid_mass(liquid_ballast.fill_volume(tire, s).value, density)
        for s in (less, most)
    ]
    assert 0 <= masses[0] <= masses[1]


# --- traps ----------------------------------------------------------------------------------------


def test_trap_brine_past_the_eutectic_is_refused() -> None:
    strongest = liquid_ballast.brine_density(0.30) * GAL / LB
    assert strongest < 11.0, "11.3 lb/gal can't hold with the 5 lb recipe"
    with pytest.raises(ValueError, match="30 %"):
        liquid_ballast.brine_density(0.40)
    with pytest.raises(ValueError, match="30 %"):
        liquid_ballast.brine_recipe(0.1, 9 * LB / GAL)


def test_trap_flake_is_not_pure_salt() -> None:
    masses = [liquid_ballast.brine_recipe(0.1, 3.5 * LB / GAL, q)[2] for q in (0.77, 1.0)]
    assert masses[1] / masses[0] - 1 == pytest.approx(0.06, abs=0.005)


def test_trap_the_manuals_two_pound_row_is_water() -> None:
    volume = liquid_ballast.fill_volume(size("18.4R34")).value
    water = liquid_ballast.liquid_mass(volume, 1000)
    brine = liquid_ballast.brine_recipe(volume, 2 * LB / GAL)[2]
    assert water == pytest.approx(378, abs=1)
    assert brine == pytest.approx(430, abs=5)


def test_trap_imperial_gallons() -> None:
    # The same 3.5 lb in an imperial gallon is a weaker brine; ours is the US gallon.
    us, imperial = 3.5 * LB / GAL, 3.5 * LB / 0.00454609
    assert pytest.approx(1000, abs=1) == liquid_ballast.WATER_LB_PER_GALLON * LB / GAL
    densities = [
        liquid_ballast.brine_density(liquid_ballast.brine_mass_fraction(salt))
        for salt in (us, imperial)
    ]
    assert densities[0] - densities[1] > 20


def test_trap_a_full_tire_is_refused() -> None:
    with pytest.raises(ValueError, match="90 %"):
        liquid_ballast.fill_volume(size("14.9-28"), 1.0)


def test_trap_freezing_points_keep_their_minus_sign() -> None:
    for row in tables.rows("tires/ballast_liquids"):
        if row["key"] not in ("water", "washer-32"):
            assert all(float(row[c]) < 0 for c in ("slush_c", "solid_c") if row[c]), row["key"]


def test_general_volume_agrees_with_the_chart_within_its_error() -> None:
    low, high = liquid_ballast.GENERAL_ERROR
    seen = 0
    for row in tables.rows("tires/tire_liquid_fill"):
        designation = decode(row["size"])
        if designation.form != "decimal" or tires.table_row(designation) is None:
            continue
        tire = tires.dimensions(designation)
        found = liquid_ballast.general_volume(
            tire.section_width, tire.overall_diameter, tire.rim_diameter
        )
        printed = float(row["fill_75_us_gal"])
        assert printed * (1 + low) - 0.5 <= found / GAL <= printed * (1 + high) + 0.5, row["size"]
        seen += 1
    assert seen > 15
