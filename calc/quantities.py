"""What people type about a quantity, and how a quantity is shown.

Inside the package every quantity is a float in the base unit of its kind (SI, with
the few exceptions that kinds.csv names: rpm, degrees and currency). Text is turned
into that base unit here and nowhere else, and back.
"""

import math
import re
from dataclasses import dataclass, replace
from functools import cache, lru_cache

from calc import tables
from calc.errors import InputError, UnknownName

LONGEST_TEXT = 120
LARGEST_NUMBER = 1e15
SMALLEST_SHOWN = 1e-7  # what is less, in any unit that is shown, is what rounding left

SYSTEMS = ("us", "metric")


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit of a kind: base value = curve(number x factor + offset)."""

    symbol: str
    factor: float
    offset: float
    curve: str
    aliases: tuple[str, ...]

    def to_base(self, number: float) -> float:
        """Return `number` of this unit in the base unit of its kind."""
        if self.curve == "tan":
            return math.tan(math.radians(number)) if abs(number) < 90 else math.inf
        return number * self.factor + self.offset

    def from_base(self, value: float) -> float:
        """Return a value in the base unit as a number of this unit."""
        if self.curve == "tan":
            return math.degrees(math.atan(value))
        return (value - self.offset) / self.factor


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity: its base unit and the units it may be written in."""

    name: str
    noun: str
    base: str
    us: str
    metric: str
    bare: bool
    example: str
    units: tuple[Unit, ...]
    stands_for: str = ""  # the unit that a bare number is in
    like: str = ""  # the kind whose units it has, where it is only shown and never typed
    never_below_zero: bool = False  # whether less than nothing is said as nothing

    def unit(self, symbol: str) -> Unit:
        """Return the unit with that symbol."""
        for unit in self.units:
            if unit.symbol == symbol:
                return unit
        raise UnknownName(f"{symbol!r} is not a unit of {self.noun}.")

    @property
    def accepted(self) -> str:
        """The units a reader may use, as a phrase."""
        return joined([unit.symbol for unit in self.units if unit.symbol], "or")


@dataclass(frozen=True, slots=True)
class Reading:
    """What is known of one number: a single value, or a range, in the base unit of its kind."""

    low: float
    high: float
    text: str = ""
    about: bool = False  # whether the ends come of rounding: "about 600 lb"

    @property
    def exact(self) -> bool:
        """Whether it is a single value."""
        return self.low == self.high

    @property
    def middle(self) -> float:
        """The value half way."""
        return (self.low + self.high) / 2


def joined(words: list[str], last: str = "and") -> str:
    """Return words as a phrase: "a", "a and b", "a, b and c"."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


@cache
def kinds() -> dict[str, Kind]:
    """Return every kind of quantity by name."""
    units: dict[str, list[Unit]] = {}
    for row in tables.rows("words/units"):
        aliases = tuple(word for word in row["aliases"].split("|") if word)
        units.setdefault(row["kind"], []).append(
            Unit(
                row["unit"], float(row["factor"]), float(row["offset"] or 0), row["curve"], aliases
            )
        )
    return {
        row["kind"]: Kind(
            row["kind"],
            row["noun"],
            row["base"],
            row["us"],
            row["metric"],
            row["bare"] == "yes",
            row["example"],
            tuple(units[row["like"] or row["kind"]]),
            like=row["like"],
            never_below_zero=row["never_below"] == "0",
        )
        for row in tables.rows("words/kinds")
    }


def kind(name: str) -> Kind:
    """Return the kind of quantity called `name`.

    Raises
    ------
    UnknownName
        When there is none.
    """
    try:
        return kinds()[name]
    except KeyError:
        raise UnknownName(f"There is no kind of quantity called {name!r}.") from None


def base(text: str, kind_name: str) -> float:
    """Return an exact quantity written in our own code or tables, in its base unit."""
    reading = parse(text, kind_name)
    if reading is None or not reading.exact:
        raise InputError(f"“{text}” is not an exact quantity.")
    return reading.low


# --- reading what people type ------------------------------------------------------------

_PLAIN = str.maketrans(
    {
        "\u2033": '"',
        "\u201d": '"',
        "\u201c": '"',
        "\u2032": "'",
        "\u2019": "'",
        "\u2018": "'",
        "\u2212": "-",
        "\u2013": "-",
        "\u2014": "-",
        "\u00a0": " ",
        "\u202f": " ",
        "\u2009": " ",
        "\u00bd": " 1/2",
        "\u00bc": " 1/4",
        "\u00be": " 3/4",
        "\u215b": " 1/8",
        "\u215c": " 3/8",
        "\u215d": " 5/8",
        "\u215e": " 7/8",
    }
)
_ABOUT = re.compile(r"(?:about|approximately|approx\.?|around|roughly|circa|ca\.?|~)\s*", re.I)
_FRACTION = re.compile(r"(?:(\d+)[ -]+)?(\d+)/(\d+)(?![\d.])")
_NUMBER = re.compile(
    r"[+-]?(?:\d{1,3}(?:,\d{3})+(?!\d)|\d+(?:,\d+(?!\d*\.))?|(?=\.\d))(?:\.\d*)?"
    r"(?:e[+-]?\d+)?",
    re.I,
)
_BETWEEN = re.compile(r"\s*(?:to|through|\.\.+|…|and|-)\s*(?=[-+.\d$€£])", re.I)
_RATIO = re.compile(r"(?<![\d.])(-?)(\d+(?:\.\d+)?)\s*(?::|in)\s*(\d+(?:\.\d+)?)(?![\d.])")
_PLUS_MINUS = re.compile(r"\s*(?:±|\+/-|\+-|plus or minus)\s*", re.I)
UNKNOWN_WORDS = frozenset(["", "?", "??", "unknown", "not sure", "don't know", "dont know"])


@dataclass(slots=True)
class _Term:
    number: float
    step: float  # the size of the last significant place
    unit: Unit | None


@lru_cache(maxsize=4096)
def parse(text: str, kind_name: str, bare: str = "") -> Reading | None:
    """Return what `text` says of a quantity, or None when it says that it is unknown.

    Accepts a single quantity ("5 ft 2 in", "1-7/16 in", "1,250 lb"), a range ("12 to 14 in",
    "550-700 lb", "600 lb +/- 20 lb"), and a rounded number ("about 600 lb", which is the range
    that rounds to 600).

    Parameters
    ----------
    text
        What was typed.
    kind_name
        The kind of quantity that is wanted.
    bare
        The unit that a number without one is in, as the form shows it; without it such a number
        is refused, except of kinds that have no unit.

    Raises
    ------
    InputError
        With a sentence for the person who typed it.
    """
    wanted = kind(kind_name)
    if bare:
        wanted = replace(wanted, stands_for=bare)
    plain = text.translate(_PLAIN).strip()
    if plain.lower() in UNKNOWN_WORDS:
        return None
    if kind_name == "slope":
        plain = _RATIO.sub(_rise_over_run, plain)
    if len(plain) > LONGEST_TEXT:
        raise InputError(
            f"That is {len(plain):,} characters long; write {wanted.noun} such as {wanted.example}."
        )
    about = _ABOUT.match(plain)
    body = plain[about.end() :] if about else plain
    if body.lower().startswith("between "):
        body = body[8:].lstrip()
    low_terms, position = _terms(body, 0, wanted, text)
    high_terms: list[_Term] = []
    spread = _PLUS_MINUS.match(body, position)
    gap = None if spread else _BETWEEN.match(body, position)
    if spread or gap:
        position = (spread or gap).end()  # type: ignore[union-attr]
        high_terms, position = _terms(body, position, wanted, text)
    rest = body[position:].strip(" .")
    if rest:
        raise _unreadable(rest, text, wanted)
    if spread:
        middle = _total(low_terms, high_terms, wanted, text)
        half = abs(_total(high_terms, low_terms, wanted, text) - _zero(low_terms, high_terms))
        low, high = middle - half, middle + half
    elif gap:
        low = _total(low_terms, high_terms, wanted, text)
        high = _total(high_terms, low_terms, wanted, text)
        if low > high:
            raise InputError(
                f"The range “{shorten(text)}” runs downward; write the smaller number first."
            )
    elif about:
        low, high = _rounding(low_terms, wanted, text)
    else:
        low = high = _total(low_terms, [], wanted, text)
    if not (abs(low) <= LARGEST_NUMBER and abs(high) <= LARGEST_NUMBER):
        raise InputError(f"“{shorten(text)}” is too large to be {wanted.noun}.")
    return Reading(low, high, text.strip(), about is not None and low != high)


def shorten(text: str, most: int = 40) -> str:
    """Return `text` on one line, cut where it is long, for quoting in a sentence."""
    line = " ".join(text.split())
    return line if len(line) <= most else line[: most - 1] + "…"


def _rise_over_run(found: re.Match[str]) -> str:
    """Return "1:5" or "1 in 5" as a percentage."""
    run = float(found[3])
    return f"{found[1]}{100 * float(found[2]) / run:.12g} %" if run else found[0]


def _terms(body: str, start: int, wanted: Kind, text: str) -> tuple[list[_Term], int]:
    """Read one quantity, which may be compound ("5 ft 2 in"), from `start`."""
    terms: list[_Term] = []
    position = start
    while True:
        begin = position
        while begin < len(body) and body[begin] == " ":
            begin += 1
        lead = _unit_at(body, begin, wanted) if wanted.bare and not terms else None
        if lead:
            begin = lead[1]
        read = _number_at(body, begin)
        if read is None:
            break
        if terms and terms[-1].unit is None:
            break
        number, step, position = read
        found = _unit_at(body, position, wanted)
        if found:
            unit: Unit | None = found[0]
            position = found[1]
        else:
            unit = lead[0] if lead else None
            _check_other_kind(body, position, wanted, text)
        terms.append(_Term(number, step, unit))
        if not _number_at(body, position + (body[position : position + 1] == " ")):
            break
        if body[position : position + 1] in "-+":
            break
    if not terms:
        raise InputError(
            f"“{shorten(text)}” is not {wanted.noun}. "
            f"Write a number{'' if wanted.bare else ' and a unit'}, for example {wanted.example}."
        )
    return terms, position


def _number_at(body: str, position: int) -> tuple[float, float, int] | None:
    fraction = _FRACTION.match(body, position)
    if fraction and int(fraction[3]):
        whole, top, bottom = int(fraction[1] or 0), int(fraction[2]), int(fraction[3])
        return whole + top / bottom, 1 / bottom, fraction.end()
    match = _NUMBER.match(body, position)
    if not match or not any(letter.isdigit() for letter in match[0]):
        return None
    written = match[0]
    if re.fullmatch(r"[+-]?\d{1,3}(?:,\d{3})+(?:\.\d*)?(?:e[+-]?\d+)?", written, re.I):
        written = written.replace(",", "")
    return float(written.replace(",", ".")), _last_place(written.replace(",", ".")), match.end()


def _last_place(written: str) -> float:
    """Return the size of the last significant place of a number as written: 600 -> 100."""
    digits, _, power = written.lower().lstrip("+-").partition("e")
    scale = 10.0 ** min(int(power or 0), 300)
    if "." in digits:
        return float(10.0 ** -len(digits.split(".")[1]) * scale)
    kept = digits.rstrip("0")
    return float(10.0 ** (len(digits) - len(kept)) * scale) if kept else scale


@cache
def _unit_pattern(kind_name: str) -> tuple[re.Pattern[str], dict[str, Unit]]:
    names: dict[str, Unit] = {}
    for unit in kind(kind_name).units:
        for alias in (unit.symbol, *unit.aliases):
            if alias:
                names.setdefault(alias.lower(), unit)
    longest_first = sorted(names, key=len, reverse=True)
    pattern = "|".join(re.escape(name).replace(r"\ ", r"\s*") for name in longest_first)
    pattern = pattern or "(?!)"  # a year has no unit to be read
    return re.compile(rf"\s*({pattern})(?![a-zA-Z²³])", re.I), {
        name.replace(" ", ""): unit for name, unit in names.items()
    }


def _unit_at(body: str, position: int, wanted: Kind) -> tuple[Unit, int] | None:
    pattern, names = _unit_pattern(wanted.name)
    match = pattern.match(body, position)
    if not match or (match[1][-1].isalnum() and body[match.end() : match.end() + 1] == "/"):
        return None
    return names[re.sub(r"\s+", "", match[1].lower())], match.end()


def _check_other_kind(body: str, position: int, wanted: Kind, text: str) -> None:
    """Raise when a unit of another kind stands where one of the wanted kind should."""
    for other in kinds().values():
        if other.name != wanted.name and _unit_at(body, position, other):
            raise InputError(
                f"“{shorten(text)}” is {other.noun}, and {wanted.noun} is needed here"
                + (f": use {wanted.accepted}." if wanted.accepted else ".")
            )


def _unreadable(rest: str, text: str, wanted: Kind) -> InputError:
    return InputError(
        f"“{shorten(rest)}” in “{shorten(text)}” can't be read. "
        f"Write {wanted.noun} such as {wanted.example}."
    )


def _units_of(terms: list[_Term], other: list[_Term], wanted: Kind, text: str) -> list[Unit]:
    """Return a unit for each term, borrowed from the other end of a range where it is missing."""
    units: list[Unit] = []
    for term in terms:
        if term.unit:
            units.append(term.unit)
        elif units and units[-1].symbol == "ft":
            units.append(wanted.unit("in"))
        elif other and other[-1].unit:
            units.append(other[0].unit or other[-1].unit)
        elif wanted.bare:
            units.append(wanted.units[0])
        elif wanted.stands_for:
            units.append(wanted.unit(wanted.stands_for))
        else:
            raise InputError(f"Add a unit to “{shorten(text)}”: {wanted.accepted}.")
    return units


def _total(terms: list[_Term], other: list[_Term], wanted: Kind, text: str) -> float:
    units = _units_of(terms, other, wanted, text)
    sign = -1 if terms[0].number < 0 else 1
    total = units[0].to_base(terms[0].number)
    for index in range(1, len(terms)):
        if units[index].factor >= units[index - 1].factor:
            raise InputError(
                f"“{shorten(text)}” holds two numbers; write one, or a range such as “12 to 14”."
            )
        total += sign * units[index].to_base(terms[index].number)
    return total


def _zero(terms: list[_Term], other: list[_Term]) -> float:
    unit = terms[-1].unit or other[-1].unit
    return unit.offset if unit else 0.0


def _rounding(terms: list[_Term], wanted: Kind, text: str) -> tuple[float, float]:
    """Return the range of values that round to what was written."""
    half = terms[-1].step / 2
    ends = []
    for change in (-half, half):
        last = terms[-1]
        moved = [*terms[:-1], _Term(last.number + change, last.step, last.unit)]
        ends.append(_total(moved, [], wanted, text))
    return ends[0], ends[1]


# --- showing ---------------------------------------------------------------------------------


def number(value: float, figures: int = 3) -> str:
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


NOTHING = "nothing"


def _shown(value: float, unit: Unit, kind_name: str, figures: int) -> str:
    """Return a value in a unit, without it; what can't be below zero is nothing there."""
    found = unit.from_base(value)
    if kind_name == "year":
        return f"{found:.6g}"
    said = amount(found) if unit.symbol == "$" else number(found, figures)
    return NOTHING if said.startswith("-") and kind(kind_name).never_below_zero else said


def summed(kind_name: str) -> str:
    """Return the kind in which sums are written out: a load may come out below zero there.

    >>> summed("load"), summed("length")
    ('mass', 'length')
    """
    return kind(kind_name).like or kind_name


def unit_for(kind_name: str, system: str) -> Unit:
    """Return the unit in which a kind is shown in a system ("us" or "metric")."""
    shown = kind(kind_name)
    return shown.unit(shown.us if system == "us" else shown.metric)


SHORT_TIME = 5400.0  # s; below an hour and a half people say minutes


def _own_unit(kind_name: str, system: str, value: float) -> Unit:
    """The unit of a system in which a value is said: a time of less than that, in minutes."""
    if kind_name == "duration" and 0.0 < abs(value) < SHORT_TIME:
        return kind(kind_name).unit("min")
    return unit_for(kind_name, system)


def with_unit(shown: str, symbol: str) -> str:
    """Return a number with its unit the way it is written."""
    if not shown[-1].isdigit():
        return shown
    if symbol == "$":
        return f"-${shown[1:]}" if shown.startswith("-") else f"${shown}"
    if symbol in ("F", "C"):
        return f"{shown} °{symbol}"
    return f"{shown} {symbol}" if symbol else shown


def show(
    value: float, kind_name: str, system: str = "us", *, unit: str = "", figures: int = 3
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
    >>> show(-10.0, "mass"), show(-10.0, "load"), show_range(-10.0, 45.4, "load")
    ('-22 lb', 'nothing', 'nothing to 100 lb')
    """
    chosen = kind(kind_name).unit(unit) if unit else _own_unit(kind_name, system, value)
    return with_unit(_shown(value, chosen, kind_name, figures), chosen.symbol)


def show_range(
    low: float, high: float, kind_name: str, system: str = "us", *, unit: str = "", figures: int = 3
) -> str:
    """Return a range in the reader's units, or one value where both ends show the same."""
    chosen = kind(kind_name).unit(unit) if unit else _own_unit(kind_name, system, high)
    ends = sorted((low, high), key=chosen.from_base)
    first, second = (_shown(end, chosen, kind_name, figures) for end in ends)
    if first == second:
        return with_unit(first, chosen.symbol)
    if chosen.symbol == "$":
        return f"{with_unit(first, '$')} to {with_unit(second, '$')}"
    return f"{first} to {with_unit(second, chosen.symbol)}"
