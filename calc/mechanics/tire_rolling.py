"""How a tire rolls: its loaded radius, and the way it goes in a turn, new and worn.

References
----------
.. [1] tires/WEB-6: a tire deflects at most 18 % of its section height.
.. [2] tires/TY-A, TY-C: rolling circumferences and loaded radii of published sizes.
"""

from calc import arith, tables

DEFLECTION = 0.18
"""Share of a bias tire's section height lost at rated load and pressure [-], tires/WEB-6."""
RADIAL_DEFLECTION = 0.215
"""The same of a radial [-]: 0.199 to 0.248 in eight rows of tires/TY-C."""
LOADED_RADIUS_ERROR = 0.01
"""Error of the loaded radius from the deflection rule [-]: one published row is 0.9 % off."""
RADIAL_RADIUS_ERROR = 0.02
"""The same of a radial [-]: the farthest of eight rows of tires/TY-C."""


def rolling_factor(tread: str, radial: bool = False) -> tuple[float, float]:
    """Return rolling circumference over pi times overall diameter, and its error.

    Parameters
    ----------
    tread
        Tread code such as "R-1" or "R-4"; "" where it isn't known [-].
    radial
        Whether the tire is a radial [-].

    Returns
    -------
    tuple of float
        Factor k and its half-width [-]. Published bias tires give 0.938 to 0.957, radials 0.947
        to 0.967.
    """
    factors = tables.by_key("tires/rolling_factors", "tread")
    if radial:
        return float(factors["radial"]["factor"]), float(factors["radial"]["error"])
    row = factors["lug"]
    for part in tread.split("/"):
        row = factors.get(part, row)
    return float(row["factor"]), float(row["error"])


def loaded_radius(overall_diameter: float, rim_diameter: float, radial: bool = False) -> float:
    """Return the static loaded radius at rated load and pressure.

    Parameters
    ----------
    overall_diameter
        Overall diameter, new and inflated [m].
    rim_diameter
        Nominal rim diameter [m].
    radial
        Whether the tire is a radial [-].

    Returns
    -------
    float
        SLR = OD / 2 - 0.18 h, or 0.215 h for a radial, h = (OD - rim) / 2 [m]. IF and VF tires
        deflect more.
    """
    share = RADIAL_DEFLECTION if radial else DEFLECTION
    return overall_diameter / 2.0 - share * (overall_diameter - rim_diameter) / 2.0


def rolling_circumference(overall_diameter: float, tread: str = "", radial: bool = False) -> float:
    """Return the distance rolled in one turn under normal load.

    Parameters
    ----------
    overall_diameter
        Overall diameter, new and inflated [m].
    tread
        Tread code, "" where it isn't known [-].
    radial
        Whether the tire is a radial [-].

    Returns
    -------
    float
        RC = k pi OD [m].
    """
    return rolling_factor(tread, radial)[0] * arith.pi * overall_diameter


def worn_circumference(circumference: float, lug_height: float) -> float:
    """Return the rolling circumference once the lugs are worn by `lug_height`.

    Parameters
    ----------
    circumference
        Rolling circumference when new [m].
    lug_height
        Height of rubber lost [m], 0 to 0.08.

    Returns
    -------
    float
        RC - 2 pi k times the height lost [m]: 60 mm for 10 mm of lug, at any size.
    """
    return circumference - 2.0 * arith.pi * rolling_factor("")[0] * lug_height
