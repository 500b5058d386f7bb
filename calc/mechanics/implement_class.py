"""The tractor power that a size of implement is made for, by its makers' least and most."""

from functools import cache
from itertools import accumulate

from calc import arith, si, tables

_CLASS_UNITS = {"ft": si.FOOT, "in": si.INCH, "kg": 1.0}

RECALLED_SHARE = 0.8
"""Where one figure is recalled, or was read of one maker and another size isn't asked for harder,
others may ask for as little as this of it: the least and the most that read figures of one size
have is 4 to 5 hp a foot (power/CUT-F10), which is as near as they ever come [-]."""


@cache
def _class_rows(kind: str) -> tuple[dict[str, str], ...]:
    return tuple(row for row in tables.rows("power/class_power") if row["kind"] == kind)


def class_by(kind: str) -> str:
    """Return what the class of a kind goes by: "width", "mass", "total"; "" where none is known.

    Examples
    --------
    >>> class_by("round_baler"), class_by("chipper"), class_by("generator")
    ('mass', 'width', '')
    """
    rows = _class_rows(kind)
    return rows[0]["by"] if rows else ""


def has_most(kind: str) -> bool:
    """Return whether it is known how much tractor a kind bears.

    Examples
    --------
    >>> has_most("rotary_cutter"), has_most("round_baler"), has_most("generator")
    (True, False, False)
    """
    rows = _class_rows(kind)
    return bool(rows and rows[0]["most_hp"])


def class_source(kind: str) -> str:
    """Return the citation of a kind's class figures."""
    cited = "; ".join(row["source"] for row in _class_rows(kind)).split("; ")
    return "; ".join(dict.fromkeys(cited))


def class_power(kind: str, size: float) -> tuple[float, float, float | None]:
    """Return the PTO power that a class of implement is made for. [W]

    Makers' least figures differ for one size: below the lowest of them nobody sells it to a
    tractor, from the highest on all do. A figure that was recalled and never read is taken for
    the highest; the lowest is `RECALLED_SHARE` of it, or that of a smaller size if it is more.
    The most is what its gearbox or frame bears. Between sizes of the table a straight line is
    drawn; beyond its ends power goes with size.

    Parameters
    ----------
    kind : str
        A kind of the table class_power.
    size : float
        Working width or opening [m], or mass of the implement [kg], as `class_by` says.

    Returns
    -------
    tuple
        Lowest and highest of the least figures, and the most or None where it isn't known.

    Raises
    ------
    LookupError
        When the table has no such kind.

    Examples
    --------
    >>> five_feet = class_power("rotary_cutter_light", 5 * si.FOOT)
    >>> [round(power / si.HP) for power in five_feet]
    [20, 20, 40]
    >>> round(class_power("round_baler", 1600.0)[0] / si.HP)
    45
    >>> [round(power / si.HP) for power in class_power("snow_blower", 5 * si.FOOT)]
    [16, 20, 40]
    """
    rows = _class_rows(kind)
    if not rows:
        raise LookupError(f"No class of {kind!r} is in the table class_power.")
    figures = (_lowest(rows), _column(rows, "least_high_hp"), _column(rows, "most_hp"))
    low, high, most = (_read(rows, size, column) for column in figures)
    return low, high, most if has_most(kind) else None


def class_spread(kind: str, size: float) -> float:
    """Return by how much makers' least figures differ for one size. [W]

    The highest less the lowest of `class_power`, whose parameters it has; over a range of sizes
    its ends are narrower than theirs.

    Examples
    --------
    >>> round(class_spread("rotary_cutter", 6 * si.FOOT) / si.HP)
    6
    """
    rows = _class_rows(kind)
    ends = zip(_lowest(rows), _column(rows, "least_high_hp"), strict=True)
    return _read(rows, size, [high - low for low, high in ends])


def _column(rows: tuple[dict[str, str], ...], column: str) -> list[float]:
    return [float(row[column] or 0.0) for row in rows]


def _lowest(rows: tuple[dict[str, str], ...]) -> list[float]:
    """Return the lowest of the least figures of each row [hp]; a larger size asks for no less."""
    taken = [RECALLED_SHARE if row["least_recalled"] else 1.0 for row in rows]
    figures = zip(_column(rows, "least_low_hp"), taken, strict=True)
    return list(accumulate((figure * share for figure, share in figures), max))


def _read(rows: tuple[dict[str, str], ...], size: float, figures: list[float]) -> float:
    """Return figures in hp read between the rows, in proportion beyond their ends. [W]"""
    sizes = [float(row["size"]) * _CLASS_UNITS[row["unit"]] for row in rows]
    beyond = 1.0
    if sizes[-1] > 0.0:
        beyond = arith.max(1.0, size / sizes[-1]) * arith.min(1.0, size / sizes[0])
    return si.HP * beyond * arith.along(size, sizes, figures)
