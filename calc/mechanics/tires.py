"""Tire dimensions from the table of sizes, or estimated from the size with the error said.

References
----------
.. [1] tires/TRA-memory and tires/TD-1, TD-2, WEB-1: rows of tire_dimensions.csv, each value
   with its own source.
.. [2] tires/ISO7867-memory: metric diameter = rim + 2 x width x aspect.
.. [3] tires/WEB-6: a tire deflects at most 18 % of its section height.
.. [4] tires/S13: about 3 % between makers on diameter and on width.
"""

from dataclasses import dataclass
from functools import cache

from calc import arith, tables
from calc.mechanics.tire_size import Designation, decode

INCH = 0.0254
DEFLECTION = 0.18
"""Share of the section height lost under rated load and pressure [-], tires/WEB-6."""
MAKER_SPREAD = 0.015
"""Half of the 3 % that makers may differ in diameter [-], tires/S13: the error of a value that
is read from one maker's data sheet and used for another's tire."""
OUTSIDE_RULE = 0.05
"""Error given to an estimate outside the widths its rule was fitted to [-]."""
LOADED_RADIUS_ERROR = 0.01
"""Error of the loaded radius from the deflection rule [-]: one published row is 0.9 % off."""


@dataclass(frozen=True, slots=True)
class Dimensions:
    """Size of one tire in meters; errors are half-widths as a share of the value.

    `basis` is "data sheet", "design value", "standard's formula" or "estimate".
    """

    designation: Designation
    overall_diameter: float
    section_width: float
    static_loaded_radius: float
    rolling_circumference: float
    diameter_error: float
    circumference_error: float
    basis: str
    source: str
    circumference_source: str
    tread: str = ""
    ply_rating: int | None = None

    @property
    def rim_diameter(self) -> float:
        """Nominal rim diameter [m]."""
        return self.designation.rim * INCH

    @property
    def tread_class(self) -> str:
        """Class of the tread: lug, R-3, R-4, steer, or "" when not known."""
        return tread_class(self.tread)

    @property
    def section_height(self) -> float:
        """Height of the tire above the rim [m]."""
        return (self.overall_diameter - self.rim_diameter) / 2.0

    @property
    def effective_radius(self) -> float:
        """Rolling circumference over two pi [m]; lies between loaded and free radius."""
        return self.rolling_circumference / (2.0 * arith.pi)

    @property
    def loaded_radius_error(self) -> float:
        """Half-width of the loaded radius as a share of it [-]."""
        return arith.hypot(self.diameter_error, LOADED_RADIUS_ERROR)


def lookup_key(designation: Designation) -> str:
    """Return the key of a size in the table: a D or B mark counts as bias."""
    mark = "R" if designation.radial else "-"
    plain = Designation(
        designation.form,
        designation.width,
        designation.width_text,
        mark,
        designation.rim,
        designation.aspect,
        designation.overall,
        designation.low,
    )
    return plain.size


@cache
def _index() -> dict[str, tuple[tables.Row, ...]]:
    found: dict[str, list[tables.Row]] = {}
    for row in tables.rows("tires/tire_dimensions"):
        found.setdefault(lookup_key(decode(row["size"])), []).append(row)
    return {key: tuple(rows) for key, rows in found.items()}


def table_row(designation: Designation) -> tables.Row | None:
    """Return the row of tire_dimensions.csv for a size, by ply rating where there are several.

    Examples
    --------
    >>> table_row(decode("23x10.50-12 6PR"))["overall_diameter_mm"]
    '580'
    >>> table_row(decode("7.00-16")) is None
    True
    """
    rows = _index().get(lookup_key(designation), ())
    for row in rows:
        if row["ply_rating"] == str(designation.ply_rating):
            return row
    return rows[0] if rows else None


def rolling_factor(tread: str) -> tuple[float, float]:
    """Return rolling circumference over pi times overall diameter, and its error.

    Parameters
    ----------
    tread
        Tread code such as "R-1" or "R-4"; "" where it isn't known [-].

    Returns
    -------
    tuple of float
        Factor k and its half-width [-]. Published tires give 0.938 to 0.957.
    """
    factors = tables.by_key("tires/rolling_factors", "tread")
    row = factors["lug"]
    for part in tread.split("/"):
        row = factors.get(part, row)
    return float(row["factor"]), float(row["error"])


def estimated_diameter(designation: Designation) -> tuple[float, float]:
    """Estimate the overall diameter from the size alone.

    Parameters
    ----------
    designation
        A decoded size [-].

    Returns
    -------
    tuple of float
        Overall diameter [m] and the half-width of its error as a share [-].

    Notes
    -----
    OD = rim + 2 a w with a the height over width: exact in the aspect and metric forms, a line
    in the width for the inch forms (tire_estimates.csv), and c times the first number in the
    flotation form.

    Examples
    --------
    >>> round(estimated_diameter(decode("13.6-28"))[0], 3)
    1.312
    >>> round(estimated_diameter(decode("320/85R24"))[0], 4)
    1.1536
    """
    rule = tables.by_key("tires/tire_estimates", "form")[designation.form]
    error = float(rule["error_pct"]) / 100.0
    unit = 0.001 if designation.form == "metric" else INCH
    width_in = designation.width * unit / INCH
    if not float(rule["low_width_in"]) <= width_in <= float(rule["high_width_in"]):
        error = arith.max(error, OUTSIDE_RULE)
    if designation.overall is not None:
        return designation.overall * INCH * float(rule["diameter_factor"]), error
    if designation.aspect is not None:
        ratio = designation.aspect / 100.0
    else:
        ratio = float(rule["height_ratio"]) + float(rule["height_ratio_per_inch"]) * width_in
    return designation.rim * INCH + 2.0 * ratio * designation.width * unit, error


def loaded_radius(overall_diameter: float, rim_diameter: float) -> float:
    """Return the static loaded radius at rated load and pressure.

    Parameters
    ----------
    overall_diameter
        Overall diameter, new and inflated [m].
    rim_diameter
        Nominal rim diameter [m].

    Returns
    -------
    float
        SLR = OD / 2 - 0.18 h, h = (OD - rim) / 2 [m]. IF and VF tires deflect more.
    """
    return overall_diameter / 2.0 - DEFLECTION * (overall_diameter - rim_diameter) / 2.0


def rolling_circumference(overall_diameter: float, tread: str = "") -> float:
    """Return the distance rolled in one turn under normal load.

    Parameters
    ----------
    overall_diameter
        Overall diameter, new and inflated [m].
    tread
        Tread code, "" where it isn't known [-].

    Returns
    -------
    float
        RC = k pi OD [m].
    """
    return rolling_factor(tread)[0] * arith.pi * overall_diameter


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
        RC - 2 pi times the height lost [m]; the tire rolls on what is left.
    """
    return circumference - 2.0 * arith.pi * lug_height


@cache
def dimensions(designation: Designation) -> Dimensions:
    """Return the dimensions of a size: the table's row where there is one, else the estimate.

    Parameters
    ----------
    designation
        A decoded size [-].

    Returns
    -------
    Dimensions
        Lengths [m] with the half-widths of their errors [-]. The error of the circumference
        joins, as the root of the sum of squares, the error of the diameter and that of k; a
        published circumference has the spread between makers instead.

    Examples
    --------
    >>> found = dimensions(decode("14.9-24"))
    >>> round(found.rolling_circumference, 3), found.basis
    (3.795, 'design value')
    """
    row = table_row(designation)
    if row is None or row["source"] == "tires/size-name":
        return _estimated(designation, row)
    diameter_error = float(row["diameter_tolerance_pct"]) / 100.0
    published_rolling = row["rolling_circumference_source"] != "tires/derived"
    tread = designation.tread or row["tread"]
    diameter = float(row["overall_diameter_mm"]) / 1000.0
    return Dimensions(
        designation,
        diameter,
        float(row["section_width_mm"]) / 1000.0,
        float(row["static_loaded_radius_mm"]) / 1000.0,
        float(row["rolling_circumference_mm"]) / 1000.0
        if published_rolling
        else rolling_circumference(diameter, tread),
        diameter_error,
        MAKER_SPREAD
        if published_rolling
        else arith.hypot(diameter_error, rolling_factor(tread)[1]),
        _basis(row["source"]),
        row["source"],
        row["rolling_circumference_source"],
        tread,
        int(row["ply_rating"]) if row["ply_rating"] else None,
    )


def _basis(source: str) -> str:
    if source.endswith("ISO7867-memory"):
        return "standard's formula"
    return "design value" if source.endswith("memory") else "data sheet"


def _estimated(designation: Designation, row: tables.Row | None) -> Dimensions:
    rule = tables.by_key("tires/tire_estimates", "form")[designation.form]
    diameter, error = estimated_diameter(designation)
    unit = 0.001 if designation.form == "metric" else INCH
    tread = designation.tread or (row["tread"] if row else "")
    return Dimensions(
        designation,
        diameter,
        designation.width * unit * float(rule["width_factor"]),
        loaded_radius(diameter, designation.rim * INCH),
        rolling_circumference(diameter, tread),
        error,
        arith.hypot(error, rolling_factor(tread)[1]),
        "standard's formula" if designation.form == "metric" else "estimate",
        rule["source"],
        "tires/derived",
        tread,
    )


def change_error(old: Dimensions, new: Dimensions) -> float:
    """Return the error of new over old rolling circumference.

    Parameters
    ----------
    old, new
        Two tires of different sizes [-].

    Returns
    -------
    float
        Half-width as a share [-]. The factor k is one and the same for both where tread class
        and construction agree, and drops out.
    """
    worked_out = {old.circumference_source, new.circumference_source} == {"tires/derived"}
    alike = old.designation.radial == new.designation.radial and old.tread_class == new.tread_class
    if worked_out and alike:
        return arith.hypot(old.diameter_error, new.diameter_error)
    return arith.hypot(old.circumference_error, new.circumference_error)


@cache
def every_tire() -> tuple[Dimensions, ...]:
    """Return the dimensions of every size of the table, once for each size."""
    sizes = dict.fromkeys(row["size"] for row in tables.rows("tires/tire_dimensions"))
    return tuple(dimensions(decode(text)) for text in sizes)


def tread_class(tread: str) -> str:
    """Return the class of a tread code: "lug", "R-3", "R-4", "steer", or "" when not known.

    Parameters
    ----------
    tread
        A code, or two with a slash where a size is made with either [-].

    Examples
    --------
    >>> tread_class("R-1W"), tread_class("R-3/R-4"), tread_class("F-2/I-1")
    ('lug', 'R-3/R-4', 'steer')
    """
    if tread[:1] in ("F", "I"):
        return "steer"
    return "lug" if tread[:3] in ("R-1", "R-2") and tread != "R-14" else tread
