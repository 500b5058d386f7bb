"""Rear three-point hitch: the categories, and the pins, spans and power of each.

A category is a string: "0", "1N", "1", "2N", "2", "3N", "3", "4N", "4", and "1L" for
the limited category 1 of garden tractors. Its figure is the pin number; N means the
span of the next lower number.

References
----------
.. [1] hitch/H1 and hitch/H2: pins, spans and power ranges after ISO 730-1.
.. [2] hitch/W1, hitch/W3, hitch/W4: attachment dimensions and ball bores.
.. [3] hitch/ISO730-memory: what was recalled without the text.
"""

from functools import cache

from calc import tables

CATEGORIES = ("0", "1N", "1", "2N", "2", "3N", "3", "4N", "4")
LIMITED = "1L"


def pin_number(category: str) -> str:
    """Return the pin number of a category: "3" for "3N".

    Raises
    ------
    LookupError
        When there is no such category.

    Examples
    --------
    >>> pin_number("3N"), pin_number("1L")
    ('3', '1')
    """
    if category not in CATEGORIES and category != LIMITED:
        raise LookupError(f"No hitch category is called {category!r}.")
    return category[0]


def span_number(category: str) -> str:
    """Return the number whose span a category has: "2" for "3N".

    Category 1N has a span of its own and returns "1N".

    Examples
    --------
    >>> span_number("3N"), span_number("2"), span_number("1N")
    ('2', '2', '1N')
    """
    number = pin_number(category)
    if not category.endswith("N") or category == "1N":
        return category if category == "1N" else number
    return str(int(number) - 1)


@cache
def _sizes() -> dict[tuple[str, str], dict[str, str]]:
    return {(row["item"], row["category"]): row for row in tables.rows("hitch/hitch_sizes")}


def _row(item: str, category: str) -> dict[str, str]:
    try:
        return _sizes()[item, category]
    except KeyError:
        raise LookupError(f"The tables hold no {item} for category {category!r}.") from None


def size(item: str, category: str) -> float:
    """Return one size of a category from the table hitch_sizes.

    Parameters
    ----------
    item : str
        "lower_pin", "upper_pin", "lower_bore", "ball_width", "shoulder_span",
        "ball_spacing", "mast_height", "mast_height_old" and the others of the table.
    category : str
        A category.

    Returns
    -------
    float
        The nominal size, or the middle where the table has a range. [m]

    Raises
    ------
    LookupError
        When the tables hold no such size.

    Examples
    --------
    >>> size("lower_pin", "2"), size("shoulder_span", "3N")
    (0.028, 0.825)
    """
    row = _row(item, category)
    if row["mm"]:
        return float(row["mm"]) / 1000.0
    return (float(row["low_mm"]) + float(row["high_mm"])) / 2000.0


def size_range(item: str, category: str) -> tuple[float, float]:
    """Return one size as (low, high), equal where the table has one figure. [m]

    Examples
    --------
    >>> size_range("pivot_spacing", "2")
    (0.39, 0.505)
    """
    row = _row(item, category)
    if row["mm"]:
        return float(row["mm"]) / 1000.0, float(row["mm"]) / 1000.0
    return float(row["low_mm"]) / 1000.0, float(row["high_mm"]) / 1000.0


def size_source(item: str, category: str) -> str:
    """Return the citation of one size."""
    return _row(item, category)["source"]


def has_size(item: str, category: str) -> bool:
    """Return whether the tables hold this size for the category."""
    return (item, category) in _sizes()


def bore_category(bore: float, tolerance: float = 2.0e-3) -> str | None:
    """Return the pin number that a lower ball's bore is made for, or None. [m]

    Examples
    --------
    >>> bore_category(0.0287), bore_category(0.022), bore_category(0.033)
    ('2', '1', None)
    """
    nearest = min("01234", key=lambda n: abs(bore - size("lower_bore", n)))
    return nearest if abs(bore - size("lower_bore", nearest)) <= tolerance else None


def categories_for_power(pto_power: float, basis: str = "iso_1994") -> tuple[str, ...]:
    """Return the categories whose power range holds a tractor.

    Power suggests a category; pins and spans decide it. The ranges overlap on purpose.

    Parameters
    ----------
    pto_power : float
        Power at the PTO (drawbar power for the basis "older_drawbar"). [W]
    basis : str
        "iso_1994", "iso_2009" or "older_drawbar" of the table hitch_power.

    Examples
    --------
    >>> categories_for_power(40e3), categories_for_power(90e3)
    (('1', '2'), ('2', '3'))
    """
    return tuple(
        row["category"]
        for row in tables.rows("hitch/hitch_power")
        if row["basis"] == basis
        and float(row["low_kw"]) * 1000.0 <= pto_power <= float(row["high_kw"]) * 1000.0
    )
