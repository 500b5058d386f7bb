"""Which category a hitch or an implement is, by what was measured on it."""

from typing import NamedTuple

from calc import arith
from calc.mechanics import hitch

# The two families of masts differ by about 127 mm (hitch/S1); a quarter of an inch of
# thread is no trouble, an inch is worth a look.
MAST_TOLERANCE = 0.025
# A measured span: charts round it by up to 23 mm, and a tape and worn shoulders add to that.
SPAN_MEASURED = 0.03


class Category(NamedTuple):
    """One category found from measurements, and how far the worst of them lies off."""

    name: str
    misfit: float


def _misfit(item: str, category: str, value: float) -> float:
    """How far a size lies off a category's nearest one [m]; infinite where it has none."""
    if item == "mast_height":
        old = hitch.pin_number(category)
        heights = hitch.size_range(item, category) if hitch.has_size(item, category) else ()
        if hitch.has_size("mast_height_old", old):
            heights = (*heights, hitch.size("mast_height_old", old))
        return arith.min((abs(value - height) for height in heights), default=arith.inf)
    return abs(value - hitch.size(item, category)) if hitch.has_size(item, category) else arith.inf


def identify(
    lower_pin: float | None = None,
    upper_pin: float | None = None,
    span: float | None = None,
    mast: float | None = None,
    *,
    pin_tolerance: float = 2.0e-3,
    span_tolerance: float = SPAN_MEASURED,
) -> tuple[Category, ...]:
    """Return the categories that agree with everything that was measured on the implement.

    A category that has no such part at all, such as one without a top pin, never matches a
    measurement of it. A mast may be of the present or of the older, shorter family.

    Parameters
    ----------
    lower_pin, upper_pin : float, optional
        Pin diameters. [m]
    span : float, optional
        Distance between the shoulders of the lower pins. [m]
    mast : float, optional
        Height of the top pin above the lower pins. [m]
    pin_tolerance : float
        How far a measured pin may lie off: wear, paint and a tape. [m]
    span_tolerance : float
        The same for the span. [m]

    Returns
    -------
    tuple of Category
        Best first; the misfit is the largest one as a share of its tolerance.

    Raises
    ------
    ValueError
        When nothing was measured.

    Examples
    --------
    >>> [c.name for c in identify(0.0366, 0.03175, 0.825)]
    ['3N']
    >>> [c.name for c in identify(0.028, 0.0255)]
    ['2N', '2']
    >>> [c.name for c in identify(0.028, 0.0255, mast=0.610)], [c.name for c in identify(0.022)]
    (['2'], ['1N', '1'])
    """
    measured = [
        (item, value, tolerance)
        for item, value, tolerance in (
            ("lower_pin", lower_pin, pin_tolerance),
            ("upper_pin", upper_pin, pin_tolerance),
            ("shoulder_span", span, span_tolerance),
            ("mast_height", mast, MAST_TOLERANCE),
        )
        if value is not None
    ]
    if not measured:
        raise ValueError("At least one size has to be measured.")
    found = []
    for name in hitch.CATEGORIES:
        misfit = arith.max(_misfit(item, name, value) / most for item, value, most in measured)
        if misfit <= 1.0:
            found.append(Category(name, misfit))
    return tuple(sorted(found, key=lambda c: c.misfit))
