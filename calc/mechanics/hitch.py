"""Rear three-point hitch: categories, pins and spans, sleeves, quick couplers.

A category is a string: "0", "1N", "1", "2N", "2", "3N", "3", "4N", "4", and "1L" for
the limited category 1 of garden tractors. Its figure is the pin number; N means the
span of the next lower number.

References
----------
.. [1] hitch/H1 and hitch/H2: pins, spans and power ranges after ISO 730-1.
.. [2] hitch/W1, hitch/W3, hitch/W4: attachment dimensions and ball bores.
.. [3] hitch/ISO730-memory: what was recalled without the text.
.. [4] hitch/H19: bushings on a post hole digger's pins.
.. [5] hitch/S3: ISO 11001-1, scope of the U-frame coupler.
"""

from functools import cache
from typing import NamedTuple

from calc import arith, tables

CATEGORIES = ("0", "1N", "1", "2N", "2", "3N", "3", "4N", "4")
LIMITED = "1L"

# Bores are 0.2 to 1.1 mm larger than their pins (table hitch_sizes) and a category 4
# pin may be 1.1 mm under size; a pin of the next lower number leaves 6 mm and more.
LOOSE = 1.5e-3
# Spans of the same category may each be 1.5 mm off (hitch/W1).
SPAN_TOLERANCE = 1.5e-3
# Balls of category 1 and 2 stand 870 - 718 mm apart in span, which stabilizers often
# bridge (hitch/W1).
SPAN_REACH = 0.152
# The two families of masts differ by about 127 mm (hitch/S1); a quarter of an inch of
# thread is no trouble, an inch is worth a look.
MAST_TOLERANCE = 0.025


class Category(NamedTuple):
    """One category found from measurements, and how far the worst of them lies off."""

    name: str
    misfit: float


class SpanFit(NamedTuple):
    """A measured span read against the tables."""

    number: str
    between: str
    misfit: float


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


def pin_slack(pin: float, bore: float) -> float:
    """Return how much larger a bore is than a pin. [m]

    .. math:: s = D_{bore} - d_{pin}

    Parameters
    ----------
    pin : float
        Pin diameter, above 0. [m]
    bore : float
        Bore of the ball or slot, above 0. [m]

    Raises
    ------
    ValueError
        When either isn't above 0.

    Examples
    --------
    >>> round(pin_slack(0.022, 0.0287) * 1000, 1)
    6.7
    """
    if not (pin > 0.0 and bore > 0.0):
        raise ValueError("A pin and a bore are larger than nothing.")
    return bore - pin


def pin_fit(pin: float, bore: float) -> str:
    """Return "fits", "sleeve" (the pin is loose) or "too big".

    Parameters
    ----------
    pin : float
        Pin diameter. [m]
    bore : float
        Bore it goes into. [m]

    Examples
    --------
    >>> pin_fit(0.022, 0.0224), pin_fit(0.022, 0.0287), pin_fit(0.028, 0.0224)
    ('fits', 'sleeve', 'too big')
    """
    slack = pin_slack(pin, bore)
    if slack < 0.0:
        return "too big"
    return "fits" if slack <= LOOSE else "sleeve"


def pins_fit(tractor: str, implement: str) -> str:
    """Return how an implement's lower pins suit a tractor's balls, by category.

    Returns
    -------
    str
        "fits", "sleeve" or "too big".

    Examples
    --------
    >>> pins_fit("2", "1"), pins_fit("2", "3N"), pins_fit("3N", "3")
    ('sleeve', 'too big', 'fits')
    """
    ours, theirs = pin_number(implement), pin_number(tractor)
    if ours == theirs:
        return "fits"
    return "sleeve" if ours < theirs else "too big"


def span_difference(tractor: str, implement: str) -> float:
    """Return the implement's shoulder span less the tractor's, by category. [m]

    Examples
    --------
    >>> round(span_difference("1", "2") * 1000)
    142
    """
    return size("shoulder_span", implement) - size("shoulder_span", tractor)


def spans_fit(tractor: str, implement: str) -> str:
    """Return "same", "adjust" (stabilizers may bridge it: measure) or "no", by category.

    Examples
    --------
    >>> spans_fit("2", "3N"), spans_fit("1", "2"), spans_fit("0", "1"), spans_fit("1", "3")
    ('same', 'adjust', 'no', 'no')
    """
    gap = abs(span_difference(tractor, implement))
    if gap <= 2.0 * SPAN_TOLERANCE:
        return "same"
    return "adjust" if gap <= SPAN_REACH else "no"


def reach_gap(low: float, high: float, span: float) -> float:
    """Return how far a span lies outside what the lower links can be set to.

    Parameters
    ----------
    low, high : float
        Narrowest and widest shoulder span that the links can be set to. [m]
    span : float
        Shoulder span of the implement. [m]

    Returns
    -------
    float
        0 inside the range; below 0 when too narrow, above 0 when too wide. [m]

    Raises
    ------
    ValueError
        When low is above high.

    Examples
    --------
    >>> reach_gap(0.65, 0.75, 0.683)
    0.0
    """
    if low > high:
        raise ValueError("The narrowest setting is wider than the widest.")
    return arith.min(0.0, span - low) + arith.max(0.0, span - high)


def span_category(span: float) -> SpanFit:
    """Return which number's span a measurement is, between shoulders or ball centers.

    Charts print either. Both readings are tried and the nearer one is returned.

    Parameters
    ----------
    span : float
        Span as measured or as a chart prints it, above 0. [m]

    Examples
    --------
    >>> span_category(26 * 0.0254)[:2]
    ('1', 'shoulders')
    >>> span_category(28 * 0.0254)[:2]
    ('1', 'ball centers')
    """
    if not span > 0.0:
        raise ValueError("A span is larger than nothing.")
    found = []
    for row in tables.rows("hitch/hitch_sizes"):
        if row["item"] in ("shoulder_span", "ball_spacing") and row["category"] in "01234":
            between = "shoulders" if row["item"] == "shoulder_span" else "ball centers"
            misfit = span - float(row["mm"]) / 1000.0
            found.append(SpanFit(row["category"], between, misfit))
    return min(found, key=lambda fit: abs(fit.misfit))


def shoulder_span(span: float, between: str, number: str) -> float:
    """Return the span between shoulders of a span measured either way. [m]

    One ball width is the difference.

    Parameters
    ----------
    span : float
        Span as measured. [m]
    between : str
        "shoulders" or "ball centers".
    number : str
        Pin number, for the ball's width.

    Examples
    --------
    >>> round(shoulder_span(0.718, "ball centers", "1") * 1000)
    683
    """
    if between == "shoulders":
        return span
    width = size("ball_width", number) if has_size("ball_width", number) else 0.0
    return span - width


def _misfit(item: str, category: str, value: float) -> float:
    """How far a size lies off a category's nearest one [m]; infinite where it has none."""
    if item == "mast_height":
        old = pin_number(category)
        heights = size_range(item, category) if has_size(item, category) else ()
        if has_size("mast_height_old", old):
            heights = (*heights, size("mast_height_old", old))
        return arith.min((abs(value - height) for height in heights), default=arith.inf)
    return abs(value - size(item, category)) if has_size(item, category) else arith.inf


def identify(
    lower_pin: float | None = None,
    upper_pin: float | None = None,
    span: float | None = None,
    mast: float | None = None,
    *,
    pin_tolerance: float = 2.0e-3,
    span_tolerance: float = 0.03,
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
    for name in CATEGORIES:
        misfit = arith.max(_misfit(item, name, value) / most for item, value, most in measured)
        if misfit <= 1.0:
            found.append(Category(name, misfit))
    return tuple(sorted(found, key=lambda c: c.misfit))


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


def inches(text: str) -> float:
    """Return a length printed in inches, such as "1-7/16", in meters.

    Examples
    --------
    >>> round(inches("1-7/16") * 1000, 2), round(inches("7/8") * 1000, 3), inches("1")
    (36.51, 22.225, 0.0254)
    """
    whole, _, part = text.rpartition("-")
    top, _, bottom = part.partition("/")
    value = float(top) / float(bottom or 1) + float(whole or 0)
    return value * 0.0254


def sixteenths(length: float) -> str:
    """Return a length to the nearest sixteenth of an inch, the way the trade says it.

    Examples
    --------
    >>> sixteenths(0.022), sixteenths(0.0366), sixteenths(0.0508)
    ('7/8', '1-7/16', '2')
    """
    whole, part = divmod(arith.round(length / 0.0254 * 16.0), 16)
    bottom = 16
    while part and part % 2 == 0:
        part, bottom = part // 2, bottom // 2
    if not part:
        return str(whole)
    return f"{whole}-{part}/{bottom}" if whole else f"{part}/{bottom}"


def sleeve(use: str, place: str, pin: str) -> dict[str, str] | None:
    """Return the row of the sleeve that brings a pin up to an opening, or None.

    Parameters
    ----------
    use : str
        "coupler" for the slots of a U-frame coupler, "ball" for a plain hitch one
        number larger than the pin. The two are different parts.
    place : str
        "lower" or "upper".
    pin : str
        Pin number.

    Examples
    --------
    >>> sleeve("coupler", "lower", "1")["outside_in"], sleeve("ball", "lower", "1")["outside_in"]
    ('1-7/16', '1-1/8')
    """
    for row in tables.rows("hitch/coupler_sleeves"):
        if (row["use"], row["place"], row["pin_number"]) == (use, place, pin):
            return row
    return None


def ball_sleeves(tractor: str, implement: str) -> tuple[dict[str, str], ...]:
    """Return the sleeves that a plain hitch needs for an implement of a lower number.

    Empty when the pins fit, and when no single stock sleeve bridges the two (more than
    one number apart).

    Examples
    --------
    >>> [row["inside_in"] for row in ball_sleeves("2", "1")]
    ['7/8', '3/4']
    >>> ball_sleeves("1", "1")
    ()
    """
    if int(pin_number(tractor)) - int(pin_number(implement)) != 1:
        return ()
    found = (sleeve("ball", place, pin_number(implement)) for place in ("lower", "upper"))
    return tuple(row for row in found if row)


def coupler_row(coupler: str) -> dict[str, str]:
    """Return the row of a U-frame coupler: "1", "2", "3N" or "3".

    Raises
    ------
    LookupError
        When the table has no such coupler.
    """
    try:
        return tables.by_key("hitch/coupler_sizes", "coupler")[coupler]
    except KeyError:
        raise LookupError(f"No U-frame coupler of category {coupler!r} is in the table.") from None


def coupler_hook_span(coupler: str) -> float:
    """Return the distance between a coupler's lower hooks, the category's span. [m]"""
    return size("shoulder_span", coupler_row(coupler)["span_category"])


def coupler_hook_height(coupler: str) -> float:
    """Return how far a coupler's upper hook stands above its lower hooks. [m]"""
    return float(coupler_row(coupler)["upper_hook_above_mm"]) / 1000.0


def coupler_slot(coupler: str, place: str) -> float:
    """Return the pin that a coupler's "lower" or "upper" slot is cut for. [m]"""
    return float(coupler_row(coupler)[f"{place}_slot_mm"]) / 1000.0


def coupler_sleeves(coupler: str, implement: str) -> tuple[dict[str, str], ...]:
    """Return the sleeves that bring an implement's pins up to a coupler's slots.

    Returns
    -------
    tuple of dict
        Rows of coupler_sleeves; empty when the pins are as large as the slots.

    Raises
    ------
    ValueError
        When a pin is larger than its slot.

    Examples
    --------
    >>> [row["outside_in"] for row in coupler_sleeves("1", "1")]
    ['1-7/16', '1-1/4']
    >>> coupler_sleeves("3", "3")
    ()
    """
    number = pin_number(implement)
    found = []
    for place in ("lower", "upper"):
        if size(f"{place}_pin", number) > coupler_slot(coupler, place) + LOOSE:
            raise ValueError(f"A category {number} {place} pin is larger than the coupler's slot.")
        row = sleeve("coupler", place, number)
        if row:
            found.append(row)
    return tuple(found)


def coupler_pins_fit(coupler: str, implement: str) -> str:
    """Return "fits", "sleeve", "no stock sleeve" or "too big" for pins in a coupler.

    Examples
    --------
    >>> coupler_pins_fit("1", "1"), coupler_pins_fit("3", "3"), coupler_pins_fit("3", "4N")
    ('sleeve', 'fits', 'too big')
    >>> coupler_pins_fit("1", "0")
    'no stock sleeve'
    """
    try:
        found = coupler_sleeves(coupler, implement)
    except ValueError:
        return "too big"
    if found:
        return "sleeve"
    return "fits" if pin_number(implement) == "3" else "no stock sleeve"


def coupler_span_difference(coupler: str, implement: str) -> float:
    """Return the implement's shoulder span less the coupler's hook span. [m]

    A coupler's hooks can't be moved, so more than a few millimeters is a "no".
    """
    return size("shoulder_span", implement) - coupler_hook_span(coupler)


def coupler_setback() -> float:
    """Return how far a U-frame coupler moves an implement back. [m]"""
    return float(tables.by_key("hitch/coupler_effects", "key")["setback"]["mm"]) / 1000.0


def coupler_mass() -> tuple[float, float]:
    """Return the usual mass of a category 1 U-frame coupler, (low, high). [kg]"""
    row = tables.by_key("hitch/coupler_effects", "key")["mass"]
    return float(row["low_kg"]), float(row["high_kg"])


def coupler_conflict(key: str) -> dict[str, str] | None:
    """Return the row that says why a kind of implement and a U-frame coupler disagree.

    The row's `verdict` is "no", "adapter", "measure" or "check". None: no conflict known.

    Examples
    --------
    >>> coupler_conflict("post_hole_digger")["verdict"], coupler_conflict("box_blade")
    ('no', None)
    """
    return tables.by_key("hitch/coupler_conflicts", "key").get(key)


def mast_gap(tractor_mast: float, implement_mast: float) -> float:
    """Return the implement's mast height less the hitch's. [m]

    Masts of the ISO and of the older US family differ by about 127 mm in category 2
    and 3: pins and span fit, the top link doesn't.

    Parameters
    ----------
    tractor_mast, implement_mast : float
        Heights of the top link's pin above the lower pins. [m]

    Raises
    ------
    ValueError
        When either isn't a finite height above 0.

    Examples
    --------
    >>> round(mast_gap(size("mast_height", "2"), size("mast_height_old", "2")) * 1000)
    -127
    """
    for value in (tractor_mast, implement_mast):
        if not (value > 0.0 and arith.isfinite(value)):
            raise ValueError("A mast height is above 0.")
    return implement_mast - tractor_mast
