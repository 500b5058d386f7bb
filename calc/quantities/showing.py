"""How a quantity is shown: its significant figures, its unit, and both ends of a range."""

import math

from calc.quantities.units import SYSTEMS, Unit, kind, unit_for

FIGURES = 3  # significant ones, where nothing asks for more
SMALLEST_SHOWN = 1e-7  # what is less, in any unit that is shown, is what rounding left


def number(value: float, figures: int = FIGURES) -> str:
    """Return `value` with that many significant figures, thousands marked, no useless zeros.

    >>> number(1743.2), number(0.2), number(59.96), number(-0.0)
    ('1,740', '0.2', '60', '0')
    """
    if not math.isfinite(value):
        return "no limit" if value > 0 else "none"
    if abs(value) < SMALLEST_SHOWN:
        return "0"
    places = figures - 1 - math.floor(math.log10(abs(value)))
    rounded = round(value, places)
    if rounded == 0:
        return "0"
    shown = f"{rounded:,.{max(places, 0)}f}"
    return shown.rstrip("0").rstrip(".") if "." in shown else shown


COINS_BELOW = 20.0  # an amount below this is said with its cents, from there on in whole dollars


def amount(value: float) -> str:
    """Return an amount of money as it is said: whole dollars, with cents where it is small.

    >>> amount(12532.88), amount(4.4521), amount(-50.2), amount(8.0)
    ('12,533', '4.45', '-50', '8')
    """
    if not math.isfinite(value):
        return number(value)
    small = abs(value) < COINS_BELOW and round(value, 2) != round(value)
    rounded = round(value, 2 if small else 0)
    return f"{rounded or 0.0:,.2f}" if small else f"{rounded or 0.0:,.0f}"


def sixteenths(inches: float) -> str:
    """Return inches to the nearest sixteenth, the way the trade says it.

    >>> sixteenths(0.866), sixteenths(1.44), sixteenths(2.0)
    ('7/8', '1-7/16', '2')
    """
    whole, part = divmod(round(inches * 16.0), 16)
    bottom = 16
    while part and part % 2 == 0:
        part, bottom = part // 2, bottom // 2
    if not part:
        return str(whole)
    return f"{whole}-{part}/{bottom}" if whole else f"{part}/{bottom}"


PIN_ROUNDED = 0.012  # in; a standard's whole millimeter is as near to the sixteenth that is meant
NOTHING = "nothing"
TINY = 0.1  # in the unit shown, beside an end of 1 or more
SMALL, LARGE = 10.0, 100.0  # in the unit shown; pounds beside hundreds are told whole


MILLIMETERS_TO = 1e4  # a tape reads each of them, of a shaft or a tire


def figures_of(found: float, unit: Unit, figures: int = FIGURES) -> int:
    """Return in how many figures a number of a unit is told: a length in millimeters to each, and
    one that stands on a mark of a tape as it is.

    >>> show(1.2347, "length", "metric"), show(12.347, "length", "metric")
    ('1,235 mm', '12,300 mm')
    >>> show(32.25 * 0.0254, "length"), show(32.26 * 0.0254, "length")
    ('32.25 in', '32.3 in')
    """
    if unit.symbol == "mm" and 1e3 <= abs(found) < MILLIMETERS_TO:
        return max(figures, 4)
    eighths = 8.0 * found
    if unit.symbol == "in" and SMALL <= abs(found) < LARGE and abs(eighths - round(eighths)) < 1e-6:
        return max(figures, 5)
    return figures


def _shown(value: float, unit: Unit, kind_name: str, figures: int) -> str:
    """Return a value in a unit, without it, a temperature in whole degrees.

    What can't be below zero is nothing there.
    """
    found = unit.from_base(value)
    if kind_name == "year":
        return f"{found:.6g}"
    if kind_name == "pin" and unit.symbol == "in":
        near = round(found * 16.0) / 16.0
        if near and abs(found - near) <= PIN_ROUNDED:
            return sixteenths(found)
    if kind_name == "temperature" and math.isfinite(found):
        found = math.floor(found + 0.5)
    said = amount(found) if unit.symbol == "$" else number(found, figures)
    none = said == "0" or said.startswith("-")
    return NOTHING if none and kind(kind_name).never_below_zero else said


SHORT_TIME = 5400.0  # s; below an hour and a half people say minutes


def _said_in(kind_name: str, system: str, value: float, unit: str = "") -> Unit:
    """The unit in which a value is said: `unit`, or the system's, and little time in minutes.

    Thousands are how a price is typed, and not how it is said: 28.5k is $28,500.
    """
    if unit and unit != "k$":
        return kind(kind_name).unit(unit)
    if kind_name == "duration" and 0.0 < abs(value) < SHORT_TIME:
        return kind(kind_name).unit("min")
    return unit_for(kind_name, system)


# Symbols that are words, by what they are called where there is more than one.
_SPELLED_OUT = {"acre": "acres"}


def with_unit(shown: str, symbol: str) -> str:
    """Return a number with its unit the way it is written."""
    if not shown[-1].isdigit():
        return shown
    if symbol == "$":
        return f"-${shown[1:]}" if shown.startswith("-") else f"${shown}"
    if symbol in ("F", "C"):
        return f"{shown} °{symbol}"
    if symbol in _SPELLED_OUT and shown != "1":
        symbol = _SPELLED_OUT[symbol]
    return f"{shown} {symbol}" if symbol else shown


def show(
    value: float, kind_name: str, system: str = "us", *, unit: str = "", figures: int = FIGURES
) -> str:
    """Return a value in the reader's units.

    Parameters
    ----------
    value
        In the base unit of its kind.
    kind_name
        The kind of quantity.
    system
        "us" or "metric".
    unit
        A unit to use instead of the system's own.
    figures
        Significant figures.

    Examples
    --------
    >>> show(-10.0, "mass"), show(0.0, "load"), show_range(-10.0, 45.4, "load")
    ('-22 lb', 'nothing', 'nothing to 100 lb')

    Pins and their holes are said in sixteenths of an inch where they are of such a size:

    >>> show(0.022, "pin"), show(0.0285, "pin"), show(0.0235, "pin"), show(0.022, "pin", "metric")
    ('7/8 in', '1-1/8 in', '0.925 in', '22 mm')
    """
    chosen = _said_in(kind_name, system, value, unit)
    count = figures_of(chosen.from_base(value), chosen, figures)
    return with_unit(_shown(value, chosen, kind_name, count), chosen.symbol)


def show_both(value: float, kind_name: str, figures: int = FIGURES) -> str:
    """Return a value in US units with the metric one behind it, where that is another.

    >>> show_both(0.0254, "length"), show_both(0.5, "fraction")
    ('1 in (25.4 mm)', '50 %')
    """
    us, metric = (show(value, kind_name, system, figures=figures) for system in SYSTEMS)
    return us if us == metric else f"{us} ({metric})"


def _no_finer(value: float, largest: float, symbol: str, figures: int) -> int:
    """In how many figures an end far below the largest is told: tenths say nothing there.

    >>> [_no_finer(value, 305.0, "lb", 3) for value in (3.83, 44.6, 120.0)]
    [1, 2, 3]
    >>> _no_finer(3.83, 99.9, "lb", 3), _no_finer(0.02, 60.2, "deg", 3)
    (3, 1)
    """
    if value < TINY and largest >= 1.0:
        return 1
    whole = LARGE if symbol == "lb" else SMALL
    if value >= whole or largest < LARGE:
        return figures
    return max(1, figures - (1 if value >= SMALL else 2))


_AS_THEY_ARE = ("year", "pin", "temperature", "money", "angle")  # told whole, or in their own steps
# A solved edge is found by halving, and units are turned: so far it may be off a round number,
# as a share of a step.
_SLACK = 5e-4


def whole_steps(steps: float, *, up: bool) -> int:
    """Return how many whole steps reach a number of them, or keep below it."""
    return math.ceil(steps - _SLACK) if up else math.floor(steps + _SLACK)


def kept_to(
    limit: float, kind_name: str, system: str, *, unit: str, figures: int, up: bool
) -> float:
    """Return a limit that keeps the right side of itself when it is shown in so many figures.

    >>> [
    ...     show(kept_to(1645.0, "mass", "us", unit="", figures=3, up=up), "mass")
    ...     for up in (False, True)
    ... ]
    ['3,620 lb', '3,630 lb']
    """
    chosen = _said_in(kind_name, system, limit, unit)
    found = chosen.from_base(limit)
    if not found or not math.isfinite(found) or kind_name in _AS_THEY_ARE:
        return limit
    figures = figures_of(found, chosen, figures)
    step = 10.0 ** (math.floor(math.log10(abs(found))) + 1 - figures)
    return chosen.to_base(whole_steps(found / step, up=up) * step)


def show_range(
    low: float,
    high: float,
    kind_name: str,
    system: str = "us",
    *,
    unit: str = "",
    figures: int = FIGURES,
) -> str:
    """Return a range in the reader's units, or one value where both ends show the same."""
    chosen = _said_in(kind_name, system, high, unit)
    ends = sorted((low, high), key=chosen.from_base)
    if kind_name == "duration" and chosen.symbol == "h" and 0 < chosen.from_base(ends[0]) < 1:
        # "37 min to 5 h": nobody says 0.62 h.
        return " to ".join(show(end, kind_name, system, figures=figures) for end in ends)
    # "3.83 to 305 lb": the small end to hundredths says more than anybody reads.
    there = [abs(chosen.from_base(end)) for end in ends]
    told = (
        _no_finer(one, max(there), chosen.symbol, figures_of(one, chosen, figures)) for one in there
    )
    first, second = (
        _shown(end, chosen, kind_name, count) for end, count in zip(ends, told, strict=True)
    )
    if first == second:
        return with_unit(first, chosen.symbol)
    if chosen.symbol == "$":
        return f"{with_unit(first, '$')} to {with_unit(second, '$')}"
    return f"{first} to {with_unit(second, chosen.symbol)}"
