"""What people type about a quantity, read into the base unit of its kind."""

import re
from dataclasses import dataclass, replace
from functools import cache, lru_cache

from calc.errors import InputError
from calc.quantities.phrases import shorten
from calc.quantities.spelled import in_digits
from calc.quantities.units import Kind, Unit, kind, kinds

LONGEST_TEXT = 120
LARGEST_NUMBER = 1e15
SMALLEST_NUMBER = 1e-15  # in base units; what is less is nothing, and no sum may divide by it


@dataclass(frozen=True, slots=True)
class Reading:
    """What is known of one number: a single value, or a range, in the base unit of its kind."""

    low: float
    high: float
    text: str = ""
    about: bool = False  # whether the ends come of rounding: "about 600 lb"
    unit: str = ""  # the one unit that is written in it

    @property
    def exact(self) -> bool:
        """Whether it is a single value."""
        return self.low == self.high

    @property
    def middle(self) -> float:
        """The value half way."""
        return (self.low + self.high) / 2


def base(text: str, kind_name: str) -> float:
    """Return an exact quantity written in our own code or tables, in its base unit."""
    reading = parse(text, kind_name)
    if reading is None or not reading.exact:
        raise InputError(f"“{text}” is not an exact quantity.")
    return reading.low


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
_SIGN = re.compile(r"[$€£]\s*(?=[\d.])")
_BETWEEN = re.compile(r"\s*(?:to|through|\.\.+|…|and|-)\s*(?=[-+.\d$€£])", re.I)
# "1:5", "1 in 5" and "1-in-5"; and "1/5" where it is neither a part of 1-1/5 nor of one percent.
_RATIO = re.compile(
    r"(?<![\d.])(-?)(\d+(?:\.\d+)?)\s*(?::|-?in-?)\s*(\d+(?:\.\d+)?)(?![\d.])", re.I
)
_PART = re.compile(r"(?<![\d.])(?<!\d[ -])(-?)(\d+)\s*/\s*(\d+)(?![\d.])(?!\s*(?:%|°|p|d))", re.I)
_BARE_DEGREES = re.compile(r"\s*(?:°|deg(?:ree)?s?)(?!\s*[a-z])", re.I)
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
    "550-700 lb", "600 lb +/- 20 lb"), a number in words ("six feet"), and a rounded number
    ("about 600 lb", which is the range that rounds to 600).

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
    plain = text.translate(_PLAIN).replace("''", '"').strip()
    if plain.lower() in UNKNOWN_WORDS:
        return None
    plain = in_digits(plain)
    if kind_name == "slope":
        plain = _RATIO.sub(_percent, plain)
    if kind_name in ("slope", "fraction", "load_share"):
        plain = _PART.sub(_percent, plain)
    if kind_name.startswith("money_per"):
        plain = _SIGN.sub("", plain)  # "$120 an hour", and "$120" for what is paid by the hour
    if bare and kind_name.startswith("temperature"):
        plain = _BARE_DEGREES.sub("", plain)
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
    low, high = (end if abs(end) >= SMALLEST_NUMBER else 0.0 for end in (low, high))
    units = {term.unit.symbol for term in (*low_terms, *high_terms) if term.unit}
    unit = units.pop() if len(units) == 1 else ""
    return Reading(low, high, text.strip(), about is not None and low != high, unit)


def _percent(found: re.Match[str]) -> str:
    """Return "1:5", "1 in 5" or "1/5" as a percentage: typed in percent, nobody means 0.2 %."""
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
    return re.compile(rf"(?:\s*|-)({pattern})(?![a-zA-Z²³])(?:\.(?=\s*\d))?", re.I), {
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
