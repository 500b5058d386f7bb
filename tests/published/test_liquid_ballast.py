"""Liquid ballast against published numbers; the source stands beside each."""

import pytest

from calc import tables
from calc.mechanics import (
    liquid_ballast,
)
from tests.published.rows import published
from tests.tire_rows import size

LB = 0.45359237
GAL = 0.003785411784


@pytest.mark.parametrize(
    ("text", "gallons"),
    [
        ("11.2-24", 24),
        ("12.4-24", 30),
        ("14.9-24", 47),
        ("16.9-30", 73),
        ("18.4-38", 110),
        ("17.5L-24", 55),
        ("7.50-16", 9),
        ("10-16.5", 12),
    ],  # DL-1
)
def test_chart_volume(text: str, gallons: float) -> None:
    of, ours = liquid_ballast.fill_volume, liquid_ballast.fill_volume(size(text)).value / GAL
    why = "kept as read, printed to the gallon"
    published(of, text, gallons, ours, 0.5, why, "tires/DL-1", unit="gal")


@pytest.mark.parametrize(
    ("width", "rim", "gallons"),
    [
        (11.2, 28, 27),
        (12.4, 28, 35),
        (12.4, 38, 46),
        (13.6, 24, 38),
        (13.6, 28, 43),
        (14.9, 26, 48),
        (14.9, 28, 53),
        (14.9, 30, 57),
        (16.9, 28, 69),
        (16.9, 38, 90),
        (18.4, 26, 79),
        (18.4, 34, 100),
        (20.8, 38, 140),
    ],  # DL-1
)
def test_volume_rule_against_the_chart(width: float, rim: float, gallons: float) -> None:
    low, high = liquid_ballast.DECIMAL_ERROR
    found = liquid_ballast.decimal_volume(width, rim) / GAL
    assert gallons * (1 + low) - 0.5 <= found <= gallons * (1 + high) + 0.5
    of, given = liquid_ballast.decimal_volume, f"{width}-{rim} by the rule"
    off, why = max(-low, high) * gallons + 0.5, "whole gallons, and the rule's stated error"
    published(of, given, gallons, found, off, why, "tires/DL-1", unit="gal")


@pytest.mark.parametrize(
    ("text", "full_litres"),
    [("13.6-28", 216), ("14.9-28", 265), ("12.4-28", 169), ("18.4-34", 481)],  # OM-3
)
def test_volume_against_a_second_source(text: str, full_litres: float) -> None:
    volume = liquid_ballast.fill_volume(size(text))
    assert volume.low <= full_litres * 0.75 / 1000 <= volume.high
    middle, half = volume.value * 1000, max(volume.high - volume.value, volume.value - volume.low)
    of, why = liquid_ballast.fill_volume, "the range that we state for the volume"
    given, off = f"{text}, brimful", half * 1000 / 0.75
    published(of, given, full_litres, middle / 0.75, off, why, "tires/OM-3", unit="L")


def test_water_in_an_11_2_24() -> None:
    # DL-1: 24 gal, 200 lb.
    volume = liquid_ballast.fill_volume(size("11.2-24")).value
    density = liquid_ballast.WATER_LB_PER_GALLON * LB / GAL
    of, ours = liquid_ballast.liquid_mass, liquid_ballast.liquid_mass(volume, density) / LB
    given, why = "water in an 11.2-24, 24 gal", "printed to the pound"
    published(of, given, 200, ours, 1, why, "tires/DL-1", unit="lb")


@pytest.mark.parametrize(("pounds", "more_pct"), [(3.5, 20), (5, 28)])  # TG-5
def test_brine_against_water(pounds: float, more_pct: float) -> None:
    fraction = liquid_ballast.brine_mass_fraction(pounds * LB / GAL)
    more = liquid_ballast.brine_density(fraction) / liquid_ballast.brine_density(0.0) - 1
    of, given = liquid_ballast.brine_density, f"{pounds} lb of flake for each gallon of water"
    why = "printed to the percent"
    published(of, given, more_pct, 100 * more, 1, why, "tires/TG-5", unit="% more than water")


@pytest.mark.parametrize(("pounds", "grams_per_litre"), [(3.5, 420), (5, 600)])  # OM-1
def test_salt_per_water(pounds: float, grams_per_litre: float) -> None:
    assert pounds * LB / GAL == pytest.approx(grams_per_litre, rel=0.01)


def test_brine_in_a_12_4_16() -> None:
    # OM-8: 85 kg at 2 lb of flake for each gallon of water; the manual rounds to 5 kg.
    volume = liquid_ballast.fill_volume(size("12.4-16"))
    least, most = (
        liquid_ballast.brine_recipe(part, 2 * LB / GAL)[2] for part in (volume.low, volume.high)
    )
    assert least - 2.5 <= 85 <= most + 2.5


@pytest.mark.parametrize(
    ("key", "degrees_c"),
    [("propylene-glycol-40", -20.6), ("propylene-glycol-30", -12.8), ("methanol-40", -30.0)],  # S8
)
def test_freezing_point(key: str, degrees_c: float) -> None:
    row = tables.by_key("tires/ballast_liquids", "key")[key]
    given, why = f"{row['label']}: solid at", "kept as read, printed to a tenth"
    of, ours = "tires/ballast_liquids", float(row["solid_c"])
    published(of, given, degrees_c, ours, 0.05, why, "tires/S8", unit="°C")


@pytest.mark.parametrize(
    ("key", "slush_f", "solid_f"),
    [("calcium-2", 14, -22), ("calcium-3.5", -11, -52), ("calcium-5", -52, -62)],  # OM-8
)
def test_brine_freezing(key: str, slush_f: float, solid_f: float) -> None:
    row = tables.by_key("tires/ballast_liquids", "key")[key]
    of, name, source = "tires/ballast_liquids", row["label"], "tires/OM-8"
    why = "whole degrees of both scales, up to 1 °F apart"
    slush = float(row["slush_c"]) * 1.8 + 32
    published(of, f"{name}: slush at", slush_f, slush, 1, why, source, unit="°F")
    why = "whole degrees of both scales, up to 1.3 °F apart"
    solid = float(row["solid_c"]) * 1.8 + 32
    published(of, f"{name}: solid at", solid_f, solid, 1.3, why, source, unit="°F")
