"""Tire dimensions from the table of sizes, or estimated from the size with the error said.

References
----------
.. [1] tires/TY-A, TD-1, TD-2, WEB-1, same-width, TRA-memory: rows of tire_dimensions.csv, each
   value with its own source.
.. [2] tires/size-formula: metric diameter = rim + 2 x width x aspect.
.. [3] tires/S13: about 3 % between makers on diameter and on width.
"""

from dataclasses import dataclass
from functools import cache

from calc import arith, si, sources, tables
from calc.mechanics import tire_rolling
from calc.mechanics.tire_size import Designation, decode

LUG_DEPTH, LUG_DEPTH_PER_INCH = 0.0143, 0.00122
"""Lug depth of an R-1 new: a part [m], and one for each inch of width [m/in]; a fit to
tires/TY-A, within 4 mm for the mean of a width and 7 mm for one tire."""
MAKER_SPREAD = 0.015
"""Half of the 3 % that makers may differ in diameter [-], tires/S13: the error of a value that
is read from one maker's data sheet and used for another's tire."""
OUTSIDE_RULE, OUTSIDE_PER_INCH = 0.05, 0.025
"""Error given to an estimate outside the widths its rule was fitted to [-], and what each inch
further out adds [1/in], our own choice: a 7.5L-15 and a 14.00-24 stand well above their lines."""


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
        return self.designation.rim * si.INCH

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
        rule = (
            tire_rolling.RADIAL_RADIUS_ERROR
            if self.designation.radial
            else tire_rolling.LOADED_RADIUS_ERROR
        )
        return arith.hypot(self.diameter_error, rule)


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


def _treads_agree(row_tread: str, tread: str) -> bool:
    """Whether a row stands for a tread: its own code, or one that is made to its dimensions."""
    return not tread or bool(set(row_tread.split("/")) & {tread, tread.removesuffix("W")})


def table_row(designation: Designation) -> tables.Row | None:
    """Return the row of tire_dimensions.csv for a size, by tread and ply rating where there are
    several. A size without a tread gets its first row.

    Examples
    --------
    >>> table_row(decode("23x10.50-12 6PR"))["overall_diameter_mm"]
    '580'
    >>> table_row(decode("7.00-16")) is None
    True
    """
    rows = _index().get(lookup_key(designation), ())
    rows = tuple(r for r in rows if _treads_agree(r["tread"], designation.tread)) or rows
    for row in rows:
        if row["ply_rating"] == str(designation.ply_rating):
            return row
    return rows[0] if rows else None


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
    form = designation.form
    if form == "flotation" and _bar_tread(designation.tread):
        form = "flotation-bar"
    rule = tables.by_key("tires/tire_estimates", "form")[form]
    error = float(rule["error_pct"]) / 100.0
    unit = 0.001 if designation.form == "metric" else si.INCH
    width_in = designation.width * unit / si.INCH
    low, high = float(rule["low_width_in"]), float(rule["high_width_in"])
    if not low <= width_in <= high:
        beyond = arith.max(low - width_in, width_in - high)
        error = arith.max(error, OUTSIDE_RULE + OUTSIDE_PER_INCH * beyond)
    if designation.overall is not None:
        return designation.overall * si.INCH * float(rule["diameter_factor"]), error
    if designation.aspect is not None:
        ratio = designation.aspect / 100.0
    else:
        ratio = float(rule["height_ratio"]) + float(rule["height_ratio_per_inch"]) * width_in
    return designation.rim * si.INCH + 2.0 * ratio * designation.width * unit, error


def _bar_tread(tread: str) -> bool:
    return tread.startswith(("R-1", "R-4")) and not tread.startswith("R-3")


def lug_depth(designation: Designation, tread: str = "") -> float:
    """Return the depth of a tread when new.

    Parameters
    ----------
    designation
        A decoded size [-].
    tread
        Tread code; "" counts as R-1 [-].

    Returns
    -------
    float
        (14.3 + 1.22 w) mm for an R-1 of w inches, times the factor of the tread [m].

    Examples
    --------
    >>> [round(1000 * lug_depth(decode("11.2-24"), tread)) for tread in ("R-1", "R-4")]
    [28, 20]
    """
    width_in = designation.width / 25.4 if designation.form == "metric" else designation.width
    factor = float(_tread_row(tread)["lug_depth_factor"])
    return factor * (LUG_DEPTH + LUG_DEPTH_PER_INCH * width_in)


def _tread_row(tread: str) -> tables.Row:
    """The row of treads.csv for a code; where two stand for one row the first, else R-1."""
    rows = tables.by_key("tires/treads", "tread")
    return rows.get(tread.split("/")[0], rows["R-1"])


def tread_change(listed: str, tread: str) -> tuple[float, float]:
    """Return how a tire's diameter differs with another tread than the one listed.

    Parameters
    ----------
    listed, tread
        Tread code of the table's row, and of the tire; "" where it isn't known [-].

    Returns
    -------
    tuple of float
        Factor on the diameter, and the half-width that it adds to the error [-].

    Examples
    --------
    >>> tread_change("R-1", "R-3")
    (0.98, 0.015)
    """
    if not tread or not listed or tread in listed.split("/"):
        return 1.0, 0.0
    if listed[0] in "FI" or tread[0] in "FI":
        return 1.0, MAKER_SPREAD
    old, new = _tread_row(listed), _tread_row(tread)
    factor = (100.0 + float(new["diameter_change_pct"])) / (
        100.0 + float(old["diameter_change_pct"])
    )
    return factor, (float(old["band_pct"]) + float(new["band_pct"])) / 100.0


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
    tread = designation.tread or row["tread"]
    radial = designation.radial
    factor, band = tread_change(row["tread"], designation.tread)
    diameter = float(row["overall_diameter_mm"]) / 1000.0 * factor
    diameter_error = arith.hypot(_row_error(row), band)
    published_rolling = row["rolling_circumference_source"] != "tires/derived" and not band
    published_radius = row["static_loaded_radius_source"] != "tires/derived" and not band
    return Dimensions(
        designation,
        diameter,
        float(row["section_width_mm"]) / 1000.0,
        float(row["static_loaded_radius_mm"]) / 1000.0
        if published_radius
        else tire_rolling.loaded_radius(diameter, designation.rim * si.INCH, radial),
        float(row["rolling_circumference_mm"]) / 1000.0
        if published_rolling
        else tire_rolling.rolling_circumference(diameter, tread, radial),
        diameter_error,
        MAKER_SPREAD
        if published_rolling
        else arith.hypot(diameter_error, tire_rolling.rolling_factor(tread, radial)[1]),
        _basis(row["source"]),
        row["source"],
        row["rolling_circumference_source"] if published_rolling else "tires/derived",
        tread,
        int(row["ply_rating"]) if row["ply_rating"] else None,
    )


def _row_error(row: tables.Row) -> float:
    """The half-width of a row's diameter [-]: the makers' spread, and what the row itself may
    be off where it wasn't read."""
    own = float(row["diameter_tolerance_pct"]) / 100.0
    if sources.find(row["source"])[0].status != "read":
        return arith.hypot(own, MAKER_SPREAD)
    return arith.max(own, MAKER_SPREAD)


def _basis(source: str) -> str:
    if source == "tires/size-formula":
        return "standard's formula"
    return "data sheet" if sources.find(source)[0].status == "read" else "design value"


def _estimated(designation: Designation, row: tables.Row | None) -> Dimensions:
    rule = tables.by_key("tires/tire_estimates", "form")[designation.form]
    diameter, error = estimated_diameter(designation)
    if designation.overall is None:  # the rules for those hold the spread already
        error = arith.hypot(error, MAKER_SPREAD)
        listed, own = row["tread"] if row else "R-1", designation.tread
        # The rules are those of the tread that a size is usual with: of many it is an R-4.
        factor, band = (1.0, 0.0) if own[:1] != "R" or own == "R-4" else tread_change(listed, own)
        diameter, error = diameter * factor, error + band
    unit = 0.001 if designation.form == "metric" else si.INCH
    tread = designation.tread or (row["tread"] if row else "")
    return Dimensions(
        designation,
        diameter,
        designation.width * unit * float(rule["width_factor"]),
        tire_rolling.loaded_radius(diameter, designation.rim * si.INCH, designation.radial),
        tire_rolling.rolling_circumference(diameter, tread, designation.radial),
        error,
        arith.hypot(error, tire_rolling.rolling_factor(tread, designation.radial)[1]),
        "standard's formula" if designation.form == "metric" else "estimate",
        rule["source"],
        "tires/derived",
        tread,
    )


def same_dimensions(old: Designation, new: Designation) -> bool:
    """Whether two tires are of one size, and no tread says otherwise.

    Another ply rating, load index or mark makes it another tire, of the same dimensions.
    """
    treads = {old.tread, new.tread} - {""}
    return lookup_key(old) == lookup_key(new) and len(treads) < 2


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
    if same_dimensions(old.designation, new.designation):
        return arith.hypot(MAKER_SPREAD, MAKER_SPREAD)
    worked_out = {old.circumference_source, new.circumference_source} == {"tires/derived"}
    alike = old.designation.radial == new.designation.radial and old.tread_class == new.tread_class
    if worked_out and alike:
        return arith.hypot(old.diameter_error, new.diameter_error)
    return arith.hypot(old.circumference_error, new.circumference_error)


@cache
def every_tire() -> tuple[Dimensions, ...]:
    """Return the dimensions of every size of the table, once for each size."""
    found: dict[str, str] = {}
    for row in tables.rows("tires/tire_dimensions"):
        found.setdefault(row["size"], row["tread"].split("/")[0])
    return tuple(dimensions(decode(f"{size} {tread}")) for size, tread in found.items())


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
