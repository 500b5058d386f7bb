"""What one tire is rated for: load, speed and pressure, by its marking or its data sheet.

References
----------
.. [1] tires/TD-1, tires/TD-2: load at pressure and speed of single tires.
.. [2] tires/pressure-memory: load grows with pressure to the power 0.585.
"""

from dataclasses import dataclass
from functools import cache

from calc import arith, si, tables
from calc.mechanics import tire_load
from calc.mechanics.tire_size import Designation, decode
from calc.mechanics.tires import lookup_key, tread_class

POUND, PSI = si.POUND, si.PSI
PRINTED_LOAD = 5 * POUND
"""Step of loads of 1,000 to 9,999 lb that are printed in pounds [kg], half a step of the third
figure: 1360 kg as 3,000 lb; common practice, no source."""
LOADER_SPEED = 10 / 3.6
"""Fastest that loads of R-4 rows hold at [m/s]: their data sheet names no speed, and a loader
tire whose speeds are printed carries as much up to 10 km/h alone, tires/TD-1."""


@dataclass(frozen=True, slots=True)
class Rating:
    """Load on one tire [kg], and what it holds for.

    `speed` [m/s] is the fastest it holds at, where its source says one; `pressure` [Pa] the
    pressure that it needs, where that is known. `weaker` is the other of two patterns of one size
    and ply, where a sheet has two.
    """

    load: float
    speed: float | None
    source: str
    pressure: float | None = None
    weaker: "Rating | None" = None

    def holds_at(self, speed: float) -> bool:
        """Return whether it holds at a speed [m/s]: up to its own as that is printed."""
        most = arith.inf if self.speed is None else printed_speed(self.speed)
        return bool(speed <= most * (1 + 1e-9))


def printed_speed(limit: float) -> float:
    """Return a speed as it is printed in whole mph, or itself where that is less [m/s].

    40 km/h of the symbol A8 is printed as 25 mph; common practice, no source.

    Examples
    --------
    >>> round(printed_speed(40 / 3.6) / si.MPH), round(printed_speed(50 / 3.6) * 3.6)
    (25, 50)
    """
    return arith.max(limit, arith.round(limit / si.MPH) * si.MPH)


def service_ratings(designation: Designation) -> tuple[Rating, ...]:
    """Return the load and speed of each service description, the slowest first.

    Two descriptions are two speeds of one tire: 122A8/119B carries 1500 kg at 40 km/h and 1360
    kg at 50 km/h.
    """
    indexes = tables.by_key("tires/load_index", "index")
    found = [
        Rating(
            tire_load.load_of_index(service.load_index),
            tire_load.speed_of_symbol(service.speed_symbol),
            indexes[str(service.load_index)]["source"],
        )
        for service in designation.services
    ]
    return tuple(sorted(found, key=lambda rated: (rated.speed, rated.load)))


@cache
def sheet_points(designation: Designation) -> tuple[tuple[float, float, float | None, str], ...]:
    """Return the rows of load at pressure for a size and its ply rating.

    Parameters
    ----------
    designation
        A decoded size [-]. Without a ply rating there is no row: the rating belongs to the tire,
        not to its size. A tread that is given must be the row's, and without one there is none
        of a tread that its size is also made without.

    Returns
    -------
    tuple
        Pressure [Pa], load [kg], speed [m/s] or None, and source, by pressure.
    """
    if designation.ply_rating is None:
        return ()
    key, ply = lookup_key(designation), str(designation.ply_rating)
    wanted = tread_class(designation.tread)
    found: list[tuple[float, float, float | None, str]] = []
    for row in tables.rows("tires/tire_loads"):
        tread = row["tread"]
        agrees = tread_class(tread) == wanted if wanted else not _told_by_tread(designation, tread)
        if agrees and row["ply_rating"] == ply and lookup_key(decode(row["size"])) == key:
            pressure, load = float(row["pressure_kpa"]) * 1000.0, float(row["load_kg"])
            slow = LOADER_SPEED if tread_class(row["tread"]) == "R-4" else None
            found.append((pressure, load, slow, row["source"]))
    sheets = _printed_points(key, ply)
    if found and sheets and max(found)[1] > max(sheets)[1] + PRINTED_LOAD:
        return ()  # two patterns of one ply: only the sidewall tells which of them it is
    return tuple(sorted(found or sheets, key=lambda point: point[:2]))


def _told_by_tread(designation: Designation, tread: str) -> bool:
    """Whether only its tread tells that a row is of a tire: rice lugs, and industrial ones of a
    farm size such as 16.9-28, carry more than the R-1 of that size and ply, tires/TY-A."""
    return tread == "R-2" or (tread == "R-4" and designation.form == "decimal")


def _printed_points(key: str, ply: str) -> list[tuple[float, float, float | None, str]]:
    """The rows of pressure and load as their sheet prints them, in psi and pounds."""
    found: list[tuple[float, float, float | None, str]] = []
    for row in tables.rows("tires/tire_load_at_pressure"):
        if row["ply_rating"] == ply and lookup_key(decode(row["size"])) == key:
            pressure, load = float(row["pressure_psi"]) * PSI, float(row["load_lb"]) * POUND
            speed = float(row["speed_km_h"]) / 3.6 if row["speed_km_h"] else None
            found.append((pressure, load, speed, row["source"]))
    return found


def rating(designation: Designation, speed: float | None = None) -> Rating | None:
    """Return what a tire may carry, by its own marking or by the row of its ply rating.

    Parameters
    ----------
    designation
        A decoded size [-].
    speed
        Travel speed [m/s]; None takes the slowest speed that its marking or its row has.

    Returns
    -------
    Rating or None
        The service description that reaches the speed (the fastest where none does), else the
        row's load at its highest pressure. A size alone, the list of one machine, or another
        ply's row say nothing of this tire: then the sidewall has to be read.

    Examples
    --------
    >>> rating(decode("320/85R24 119A8")).load, rating(decode("11.2-24 8PR R-1")).load
    (1360.0, 1225.0)
    >>> rating(decode("12.4-24 6PR")) is None, rating(decode("9.5-16")) is None
    (True, True)
    """
    services, points = service_ratings(designation), sheet_points(designation)
    # A sheet with several speeds says more than a mark, which holds for one of them, tires/TD-1.
    if services and len({speed for _, _, speed, _ in points if speed is not None}) < 2:
        reach = [r for r in services if speed is None or r.holds_at(speed)]
        return reach[0] if reach else services[-1]
    if not points:
        return None
    pressure = points[-1][0]
    at_most = [point for point in points if point[0] == pressure]
    at_speed = sorted((point[2] or 0.0, point) for point in at_most)
    reach_point = next((p for v, p in at_speed if speed is None or v == 0 or v >= speed), None)
    _, load, limit, source = reach_point or at_speed[-1][1]
    return Rating(load, limit, source, pressure, _weaker(points))


def _weaker(points: tuple[tuple[float, float, float | None, str], ...]) -> Rating | None:
    """The weaker of rows that are a pattern each, as tires/TY-A has them: a pressure and the most
    it carries. Other sheets have several pressures of one tire."""
    if len(points) == 1 or points[0][3] != "tires/TY-A":
        return None
    pressure, load, limit, source = min(points, key=lambda point: point[1])
    return Rating(load, limit, source, pressure)


def load_in_row(designation: Designation, pressure: float, speed: float | None = None) -> float:
    """Return the load of a tire at a pressure, from the rows of its ply rating.

    Parameters
    ----------
    designation
        A decoded size with a row (`sheet_points`) [-].
    pressure
        Pressure in the tire, above 0 [Pa]. Above the row's highest it carries no more.
    speed
        Travel speed [m/s], as in `rating`.

    Returns
    -------
    float
        Load [kg]: between the row's pressures by interpolation, below its lowest by
        (p / p_ref)^0.585.

    Raises
    ------
    ValueError
        When there is no row.

    Examples
    --------
    >>> round(load_in_row(decode("11.2-24 8PR"), 120000.0))
    817
    """
    top = rating(designation, speed)
    if top is None or top.pressure is None:
        raise ValueError(f"No row of load at pressure is known for {designation.text}.")
    curve = [
        (p, load)
        for p, load, limit, _ in sheet_points(designation)
        if limit is None or top.speed is None or abs(limit - top.speed) < 1e-9
    ]
    lowest = curve[0][0]
    inside = tire_load.interpolate(curve, arith.min(arith.max(pressure, lowest), top.pressure))
    at_row = arith.number(top.load if inside is None else inside)
    return arith.number(
        at_row * (arith.min(pressure, lowest) / lowest) ** tire_load.PRESSURE_EXPONENT
    )
