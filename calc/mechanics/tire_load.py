"""What a tire may carry: load index, speed, pressure, and the axle it stands on.

References
----------
.. [1] tires/S2, tires/WEB-3, tires/WEB-11, tires/ISO4251-memory: load index and speed symbols.
.. [2] tires/TD-1, tires/TD-2: load at pressure and speed of single tires.
.. [3] tires/pressure-memory: load grows with pressure to the power 0.585.
.. [4] tires/R106-memory: load against speed of tires with a load index.
.. [5] tires/OM-10: load per tire and per axle of compact tractors.
"""

from collections.abc import Sequence
from functools import cache

from calc import arith, si, tables
from calc.mechanics.tire_size import Designation, decode
from calc.mechanics.tires import lookup_key

PRESSURE_EXPONENT = 0.585
"""Exponent of load against pressure [-], tires/pressure-memory."""
LEAST_PRESSURE = 6 * si.PSI
"""Least that makers recommend for any tractor tire [Pa], 41 kPa in tires/AB-3."""
BEAD_SEATING_LIMIT = 240000.0
"""Never seat a bead above this pressure [Pa], tires/OM-15."""


def load_of_index(load_index: int) -> float:
    """Return the load of a load index.

    Parameters
    ----------
    load_index
        Load index, 60 to 175 [-].

    Returns
    -------
    float
        Load on one tire at the speed of its symbol [kg].

    Raises
    ------
    ValueError
        When the index isn't in the table.

    Examples
    --------
    >>> load_of_index(122)
    1500.0
    """
    row = tables.by_key("tires/load_index", "index").get(str(load_index))
    if row is None:
        raise ValueError(f"The load index {load_index} isn't in the table of 60 to 175.")
    return float(row["load_kg"])


def speed_of_symbol(symbol: str) -> float:
    """Return the speed of a speed symbol.

    Parameters
    ----------
    symbol
        A1 to A8, B to G, or J [-].

    Returns
    -------
    float
        Speed [m/s].

    Raises
    ------
    ValueError
        When there is no such symbol.
    """
    row = tables.by_key("tires/speed_symbols", "symbol").get(symbol)
    if row is None:
        raise ValueError(f"There is no speed symbol {symbol}.")
    return float(row["speed_km_h"]) / 3.6


def interpolate(points: Sequence[tuple[float, float]], x: float) -> float | None:
    """Interpolate in sorted points; None outside them.

    Parameters
    ----------
    points : sequence of tuple
        What is known: an abscissa and a value each, sorted.
    x : float
        Abscissa; a millionth outside is what rounding left. [any]

    Returns
    -------
    float or None
        The value along straight lines. [any]
    """
    if not points or not points[0][0] * (1 - 1e-6) <= x <= points[-1][0] * (1 + 1e-6):
        return None
    return arith.along(x, *zip(*points, strict=True))


@cache
def _speed_points(kind: str) -> tuple[tuple[float, float], ...]:
    return tuple(
        (float(row["speed_km_h"]) / 3.6, 1.0 + float(row["change_pct"]) / 100.0)
        for row in tables.rows("tires/tire_speed_factors")
        if row["kind"] == kind
    )


def speed_factor(kind: str, speed: float) -> float:
    """Return the load at a speed over the load at the symbol's own speed.

    Parameters
    ----------
    kind
        Speed symbol with a published row: "A3", "A8" or "D" [-].
    speed
        Travel speed, within the row [m/s]. Slower than the row gives its first value.

    Returns
    -------
    float
        Factor [-].

    Raises
    ------
    ValueError
        When the symbol has no row, or the speed is above it.

    Examples
    --------
    >>> round(speed_factor("A8", 40 / 3.6), 2), round(speed_factor("A8", 10 / 3.6), 2)
    (1.0, 1.5)
    """
    points = _speed_points(kind)
    if not points:
        raise ValueError(f"No table of load against speed is known for the symbol {kind}.")
    factor = interpolate(points, arith.max(speed, points[0][0]))
    if factor is None:
        raise ValueError("The tire has no load at that speed: it is above the table.")
    return factor


def load_at_pressure(load: float, pressure: float, reference_pressure: float) -> float:
    """Return the load at a pressure below the one a rating is given for.

    Parameters
    ----------
    load
        Load at the reference pressure [kg].
    pressure
        Pressure in the tire, above 0 and no higher than the reference [Pa].
    reference_pressure
        Pressure of the rating [Pa].

    Returns
    -------
    float
        L (p / p_ref)^0.585 [kg].

    Raises
    ------
    ValueError
        When the pressure is zero, or above the reference: a rating is never stretched upward.
    """
    if pressure <= 0.0:
        raise ValueError("A tire carries load only with pressure above zero.")
    if pressure > reference_pressure * (1.0 + 1e-9):
        raise ValueError("The pressure is above the one the rating is given for.")
    return arith.number(load * (pressure / reference_pressure) ** PRESSURE_EXPONENT)


def pressure_for_load(load: float, rated_load: float, rated_pressure: float) -> float:
    """Return the pressure that a load needs, by the same law turned round.

    Parameters
    ----------
    load
        Load on one tire, no more than the rated load [kg].
    rated_load
        Load of the rating [kg].
    rated_pressure
        Pressure of the rating [Pa].

    Returns
    -------
    float
        p_ref (L / L_ref)^(1 / 0.585) [Pa].

    Raises
    ------
    ValueError
        When the load is above the rated load.
    """
    if load > rated_load * (1.0 + 1e-9):
        raise ValueError("No pressure within the rating carries that load.")
    return arith.number(rated_pressure * (load / rated_load) ** (1.0 / PRESSURE_EXPONENT))


def sheet_load(size: str, ply_rating: int, pressure: float, speed: float) -> float:
    """Return the load from a maker's table of pressure and speed, never outside it.

    Parameters
    ----------
    size
        Tire size with rows in tire_load_at_pressure.csv [-].
    ply_rating
        Ply rating [-].
    pressure
        Pressure, inside the table [Pa].
    speed
        Travel speed, no higher than the table; 0 where the sheet gives one load only [m/s].

    Returns
    -------
    float
        Load on one tire [kg].

    Raises
    ------
    ValueError
        When the size has no rows, or pressure or speed is outside them.

    Examples
    --------
    >>> round(sheet_load("12-16.5", 12, 80 * si.PSI, 15 / 3.6) / si.POUND)
    6174
    """
    by_speed: dict[float, list[tuple[float, float]]] = {}
    for row in tables.rows("tires/tire_load_at_pressure"):
        if row["size"] == size and row["ply_rating"] == str(ply_rating):
            point = (float(row["pressure_psi"]) * si.PSI, float(row["load_lb"]) * si.POUND)
            by_speed.setdefault(arith.number(row["speed_km_h"] or 0.0) / 3.6, []).append(point)
    if not by_speed:
        raise ValueError(f"No data sheet is known for {size} {ply_rating}PR.")
    at_pressure = [(v, interpolate(sorted(points), pressure)) for v, points in by_speed.items()]
    curve = sorted((v, load) for v, load in at_pressure if load is not None)
    load = interpolate(curve, arith.max(speed, curve[0][0])) if curve else None
    if load is None:
        raise ValueError("The pressure or the speed is outside the data sheet.")
    return load


def road_limit(designation: Designation) -> float | None:
    """Return the load that a compact's manual allows this size on the road, where there is one.

    Parameters
    ----------
    designation
        A decoded size [-].

    Returns
    -------
    float or None
        Load on one tire [kg], tires/OM-10.
    """
    return _road_limits().get(lookup_key(designation))


@cache
def _road_limits() -> dict[str, float]:
    return {
        lookup_key(decode(row["size"])): float(row["load_kg"])
        for row in tables.rows("tires/tire_road_limits")
    }


def axle_capacity(
    tires: int, tire_load: float, axle_rating: float, rim_load: float = arith.number("inf")
) -> float:
    """Return what an axle may carry: the least of tires, rims and the axle itself.

    Parameters
    ----------
    tires
        Tires on the axle: 2, 4 or 6 [-].
    tire_load
        Load on one single tire [kg].
    axle_rating
        Load allowed on the axle [kg].
    rim_load
        Load allowed on one rim [kg].

    Returns
    -------
    float
        min(n x min(tire x dual factor, rim), axle) [kg].

    Examples
    --------
    >>> axle_capacity(2, 595.0, 1040.0)
    1040.0
    """
    per_tire = arith.min(tire_load * dual_factor(tires // 2), rim_load)
    return arith.min(tires * per_tire, axle_rating)


def dual_factor(wheels_per_side: int) -> float:
    """Return the load factor per tire of wheels side by side.

    Parameters
    ----------
    wheels_per_side
        1 single, 2 dual, 3 triple [-].

    Returns
    -------
    float
        1, 0.88 or 0.82 [-], tires/dual-memory.

    Raises
    ------
    ValueError
        When the count isn't 1, 2 or 3.
    """
    row = tables.by_key("tires/dual_load_factors", "wheels").get(str(wheels_per_side))
    if row is None:
        raise ValueError("Wheels side by side are one, two or three.")
    return float(row["factor_per_tire"])


def pressure_with_additions(pressure: float, additions: tuple[str, ...], limit: float) -> float:
    """Return a chart's pressure with what the work adds, held at the sidewall's maximum.

    No chart begins below `LEAST_PRESSURE`, however little the tire bears.

    Parameters
    ----------
    pressure
        Pressure from the load chart [Pa].
    additions
        Keys of pressure_additions.csv: "loader", "slope", "liquid" [-].
    limit
        Maximum on the sidewall [Pa].

    Returns
    -------
    float
        Pressure to set, never above the sidewall's maximum [Pa].
    """
    rows = tables.by_key("tires/pressure_additions", "key")
    added = sum(float(rows[key]["add_kpa"]) * 1000.0 for key in additions)
    return arith.min(arith.max(pressure, LEAST_PRESSURE) + added, limit)
