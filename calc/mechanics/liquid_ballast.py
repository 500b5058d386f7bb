"""Liquid in tires: how much goes in, what it weighs, when it freezes.

References
----------
.. [1] tires/DL-1: volumes at 75 % fill; tires/OM-3: volumes at 100 %, lower for the 16.9 sizes.
.. [2] tires/derived: the two volume formulas, fitted to [1].
.. [3] tires/TG-5, tires/OM-8, tires/OM-1: calcium chloride mixes.
.. [4] tires/brine-memory: density of brine against mass fraction.
"""

from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from calc import arith, si, tables
from calc.mechanics.tire_size import Designation, decode
from calc.mechanics.tires import Dimensions, lookup_key

WATER_LB_PER_GALLON = 8.345
FLAKE_PURITY = 0.77
VALVE_FILL = 0.75
"""Share filled when liquid stands at the valve at the top [-], tires/OM-1."""
GENERAL_ERROR = (-0.09, 0.13)
DECIMAL_ERROR = (-0.028, 0.039)
CHART_ERROR = 0.05


@dataclass(frozen=True, slots=True)
class Volume:
    """Volume of liquid in one tire [m3], with its band and its source."""

    value: float
    low: float
    high: float
    source: str


@cache
def _fill_rows() -> dict[str, tables.Row]:
    return {lookup_key(decode(row["size"])): row for row in tables.rows("tires/tire_liquid_fill")}


def _bias_key(designation: Designation) -> str:
    return lookup_key(designation).replace("R", "-")


def decimal_volume(width_in: float, rim_in: float) -> float:
    """Return the 75 % volume of a plain inch size with one decimal.

    Parameters
    ----------
    width_in
        Width, 8.3 to 20.8 [in].
    rim_in
        Rim diameter, 16 to 42 [in].

    Returns
    -------
    float
        0.00703 w^2.202 d^0.892 US gal, given in [m3]; error -2.8 to +3.9 %.

    Examples
    --------
    >>> round(decimal_volume(14.9, 28) / si.GALLON, 1)
    52.6
    """
    return arith.number(0.00703 * width_in**2.202 * rim_in**0.892 * si.GALLON)


def general_volume(section_width: float, overall_diameter: float, rim_diameter: float) -> float:
    """Return the 75 % volume of any tire from its outside dimensions.

    Parameters
    ----------
    section_width
        Section width [m].
    overall_diameter
        Overall diameter [m].
    rim_diameter
        Rim diameter [m].

    Returns
    -------
    float
        0.62 times a ring of elliptical section [m3]; error -9 to +13 %.

    Examples
    --------
    >>> round(general_volume(0.378, 1.365, 28 * 0.0254) / si.GALLON, 1)
    51.8
    """
    height = (overall_diameter - rim_diameter) / 2.0
    ring = arith.pi**2 / 8.0 * section_width * height * (overall_diameter + rim_diameter)
    return 0.62 * ring


def fill_volume(dimensions: Dimensions, share: float = VALVE_FILL) -> Volume:
    """Return the liquid in one tire: the chart's row where there is one, else a formula.

    Parameters
    ----------
    dimensions
        The tire [-].
    share
        Share of the tire filled, 0 to 0.9 [-].

    Returns
    -------
    Volume
        Volume with its band [m3]. Where a second chart disagrees, the band takes it in.

    Raises
    ------
    ValueError
        When the share is negative or above 0.9, the most any manual read allows.
    """
    if not 0.0 <= share <= 0.9:
        raise ValueError("A tire is filled to 90 % at most; it needs air to carry load.")
    scale = share / VALVE_FILL
    found = _full_volume(dimensions)
    return Volume(found.value * scale, found.low * scale, found.high * scale, found.source)


def _full_volume(dimensions: Dimensions) -> Volume:
    designation = dimensions.designation
    row = _fill_rows().get(_bias_key(designation))
    if row:
        value = float(row["fill_75_us_gal"]) * si.GALLON
        second = float(row["full_litres"]) / 1000.0 * VALVE_FILL if row["full_litres"] else value
        low, high = (
            arith.min(value * (1 - CHART_ERROR), second),
            arith.max(value * (1 + CHART_ERROR), second),
        )
        return Volume(value, low, high, row["source"])
    low_error, high_error = GENERAL_ERROR
    if designation.form == "decimal":
        low_error, high_error = DECIMAL_ERROR
        value = decimal_volume(designation.width, designation.rim)
    else:
        value = general_volume(
            dimensions.section_width, dimensions.overall_diameter, dimensions.rim_diameter
        )
    return Volume(value, value * (1 + low_error), value * (1 + high_error), "tires/derived")


def brine_mass_fraction(salt_per_water: float, purity: float = FLAKE_PURITY) -> float:
    """Return the mass fraction of calcium chloride in a mix.

    Parameters
    ----------
    salt_per_water
        Salt as bought per volume of water [kg/m3].
    purity
        Share of calcium chloride in the salt: flake 0.77, pellets about 0.94 [-].

    Returns
    -------
    float
        c q / (water + c) [-].
    """
    water = WATER_LB_PER_GALLON * si.POUND / si.GALLON
    return salt_per_water * purity / (water + salt_per_water)


def brine_density(mass_fraction: float) -> float:
    """Return the density of calcium chloride brine at 20 degrees C.

    Parameters
    ----------
    mass_fraction
        Share of calcium chloride, 0 to 0.30 [-].

    Returns
    -------
    float
        Density, interpolated [kg/m3].

    Raises
    ------
    ValueError
        Above 0.30: a stronger brine freezes warmer, not colder, and is near saturation.
    """
    rows = tables.rows("tires/calcium_chloride_density")
    points = [(float(row["mass_fraction"]), float(row["density_kg_l"]) * 1000.0) for row in rows]
    if not 0.0 <= mass_fraction <= points[-1][0]:
        raise ValueError("Brine is used up to 30 % calcium chloride by mass.")
    for (x0, y0), (x1, y1) in pairwise(points):
        if mass_fraction <= x1:
            return y0 + (y1 - y0) * (mass_fraction - x0) / (x1 - x0)
    return points[-1][1]


def brine_recipe(
    volume: float, salt_per_water: float, purity: float = FLAKE_PURITY
) -> tuple[float, float, float]:
    """Return water, salt and total mass that fill a volume with brine.

    Parameters
    ----------
    volume
        Volume of brine wanted [m3].
    salt_per_water
        Salt as bought per volume of water [kg/m3].
    purity
        Share of calcium chloride in the salt [-].

    Returns
    -------
    tuple of float
        Volume of water [m3], mass of salt [kg], mass of brine [kg].

    Examples
    --------
    >>> pound_per_gallon = si.POUND / si.GALLON
    >>> water, salt, total = brine_recipe(53 * si.GALLON, 5 * pound_per_gallon)
    >>> round(water / si.GALLON), round(salt / si.POUND), round(total / si.POUND)
    (42, 210, 562)
    """
    density = brine_density(brine_mass_fraction(salt_per_water, purity))
    water_density = WATER_LB_PER_GALLON * si.POUND / si.GALLON
    water = volume * density / (water_density + salt_per_water)
    return water, water * salt_per_water, volume * density


def liquid_mass(volume: float, density: float) -> float:
    """Return the mass of liquid in a tire.

    Parameters
    ----------
    volume
        Volume [m3].
    density
        Density [kg/m3].

    Returns
    -------
    float
        Mass [kg]. It loads the tire and the ground, not the axle shaft or its bearings.
    """
    return volume * density
