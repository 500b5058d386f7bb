"""Whether pins, spans and a mast fit a hitch of another category, and the sleeves they take.

References
----------
.. [1] hitch/W1, hitch/W3, hitch/W4: attachment dimensions and ball bores.
.. [2] hitch/H19: bushings on a post hole digger's pins.
"""

from typing import NamedTuple

from calc import arith, quantities, si, tables
from calc.mechanics import hitch

# Bores are 0.2 to 1.1 mm larger than their pins (table hitch_sizes) and a category 4
# pin may be 1.1 mm under size; a pin of the next lower number leaves 6 mm and more.
LOOSE = 1.5e-3

# Spans of the same category may each be 1.5 mm off (hitch/W1).
SPAN_TOLERANCE = 1.5e-3

# Balls of category 1 and 2 stand 870 - 718 mm apart in span, which stabilizers often
# bridge (hitch/W1).
SPAN_REACH = 0.152


class SpanFit(NamedTuple):
    """A measured span read against the tables."""

    number: str
    between: str
    misfit: float


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
    ours, theirs = hitch.pin_number(implement), hitch.pin_number(tractor)
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
    return hitch.size("shoulder_span", implement) - hitch.size("shoulder_span", tractor)


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
    width = hitch.size("ball_width", number) if hitch.has_size("ball_width", number) else 0.0
    return span - width


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
    return value * si.INCH


def sixteenths(length: float) -> str:
    """Return a length to the nearest sixteenth of an inch, the way the trade says it.

    Examples
    --------
    >>> sixteenths(0.022), sixteenths(0.0366), sixteenths(0.0508)
    ('7/8', '1-7/16', '2')
    """
    return quantities.sixteenths(length / si.INCH)


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
    if int(hitch.pin_number(tractor)) - int(hitch.pin_number(implement)) != 1:
        return ()
    found = (sleeve("ball", place, hitch.pin_number(implement)) for place in ("lower", "upper"))
    return tuple(row for row in found if row)


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
    >>> round(mast_gap(hitch.size("mast_height", "2"), hitch.size("mast_height_old", "2")) * 1000)
    -127
    """
    for value in (tractor_mast, implement_mast):
        if not (value > 0.0 and arith.isfinite(value)):
            raise ValueError("A mast height is above 0.")
    return implement_mast - tractor_mast
