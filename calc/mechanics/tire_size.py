"""Tire sizes as people type them: decoded to a value, and printed back the same way each time.

References
----------
.. [1] tires/S1, ISO 4251-1: which sizes are standardized; tires/S6, rims and size codes.
.. [2] tires/TG-1: a ply rating is a strength class, not a count of plies.
"""

import re
from functools import cache

from calc import tables
from calc.mechanics import tire_doubts
from calc.mechanics.tire_marking import Designation, Service, SizeError, with_markings

__all__ = ["Designation", "Service", "SizeError", "decode"]

_LONGEST = 80
_SEPARATORS = str.maketrans(
    {"\u2010": "-", "\u2011": "-", "\u2012": "-", "\u2013": "-", "\u2014": "-", "\u2212": "-"}
    | {"\u00d7": "X", "\u2605": " "}
    | dict.fromkeys("\"'\u2018\u2019\u201c\u201d\u2032\u2033()[]", " ")
)
_RIM = r"\s*-?\s*(?P<rim>\d{1,3}(?:\.\d)?)(?!\d|\.\d| ?-?P(?:R|LY)(?! ?(?:RATING )?\d))"
_THREE = re.compile(
    r"(\d{2}(?:\.\d+)?) ?[X /] ?(\d{1,2}(?:\.\d+)?) ?[ /-] ?(\d{1,2}(?:\.5)?)(?![\d.]| ?P(?:R|LY))"
)
_SPELLINGS = tuple(
    (re.compile(form), plain)
    for form, plain in (
        (  # R1 6 ply 7-16
            r"^((?:\S*[A-Z]\S* )*)(\d{1,2} ?-? ?(?:PR|PLY)(?: RAT(?:ED|ING))?)[ ,]+(?=\d)(.+)",
            r"\1\3 \2",
        ),
        (r"(?<=[\dL]) BY (?=\d)", "X"),
        (r"^(\d{2}) ?[X/-] ?(\d{1,2})([05]0)(?= ?[-X/R ] ?\d)", r"\1X\2.\3"),  # 18x850-8
        (r"^((?:[IV]F )?[\d./X ]+?) ?[-/] ?R(?= ?\d{2})", r"\1R"),  # 340/85-R24
        (  # 18.4x30 radial, 320/85-24 radial
            r"^(\d{1,2}(?:\.\d{1,2})? ?[X ]|\d{3}/\d{2} ?[-X ]) ?(?=\d{2}\b.*\bRADIAL\b)",
            lambda found: f"{found[1][:-1]}R",
        ),
        (r"^(\d{3}/\d{2}) ?X ?(?=\d{2}\b)", r"\1-"),  # 320/85x24
        (r"^(\d{2}\.\d) ?[-X] ?([4-9]\d) ?[-X] ?(?=\d{2})", r"\1/\2-"),  # 12.5-80-18
        (r"^(\d{1,2}(?:\.\d{1,2})? ?[-X] ?\d{2}\.5)0(?![\d.]|-)", r"\1"),  # 12-16.50
    )
)
_OLDER = re.compile(r"(\d{1,2}\.\d) ?[-/] ?(\d{1,2}) ?[-X] ?(\d{2})(?![\d.])")
_SECOND = re.compile(
    r"[ /]+(\d{1,3}(?:\.\d{1,2})? ?(?:/ ?\d{2})? ?[RD-] ?\d{2}(?:\.\d)?)(?![\d.]| ?-?P(?:R|LY))"
)
_ANOTHER = re.compile(
    r"(?<!\S)\d{1,3}(?:\.\d{1,2})?(?:[X/]\d{1,3}(?:\.\d{1,2})?)?[RX-]\d{2}(?:\.\d)?(?![\d.])"
)
# 12,4-24, but neither 13.6-24,8PR nor 320/85R24,122A8
_DECIMAL_COMMA = re.compile(r"(?<=\d),(?=\d{1,2}(?!\d| ?-?P(?:R|LY|\.R)|[A-H]\d?\b))")
_INCHES = re.compile(r"(?<=[\d ])IN(?:CH(?:ES)?)?\b\.?")
_MARKING = re.compile(  # 121A8, 8PR, R-4
    r"(?:LI ?)?\d{2,3}(?:/\d{2,3})? ?[A-Z]\d?(?:[ /-]*\d{2,3} ?[A-Z]\d?)?"
    r"|\d{1,2} ?-? ?P(?:R|LY)(?: RAT(?:ED|ING))?|[RF] ?-? ?\d{1,2}W?(?: TIRES?)?"
)
_GREATEST_TREAD = 4  # are treads; no radial has a rim of 1 to 4 in


@cache
def _patterns() -> tuple[tuple[str, re.Pattern[str]], ...]:
    """The forms in the order they are tried; compiled when a size is first read."""
    return tuple(
        (form, re.compile(pattern))
        for form, pattern in (
            (
                "flotation",
                r"(?P<overall>\d{2}(?:\.\d+)?)\s*[X-]\s*(?P<width>\d{1,2}(?:\.\d+)?)\s*(?P<low>LL)?"
                r"\s*(?P<mark>[RBDX/-])" + _RIM,
            ),
            (
                "metric",
                r"(?P<flexion>IF|VF)?\s*(?P<width>\d{3,4})\s*/\s*(?P<aspect>\d{2,3})"
                r"\s*(?P<mark>[RBD-])" + _RIM,
            ),
            (
                "aspect",
                r"(?P<width>\d{1,2}(?:\.\d+)?)\s*/\s*(?P<aspect>[4-9]\d)\s*(?P<mark>[RBDX/-])"
                + _RIM,
            ),
            (
                "double",
                r"(?P<width>\d{1,2}\.\d{1,2})\s*/\s*(?P<older>\d{1,2}(?:\.\d{2})?)"
                r"\s*(?P<mark>[RBD-])" + _RIM,
            ),
            (
                "inch",
                r"(?P<width>\d{1,2}(?:\.\d{1,2})?|\d{3,4})\s*(?P<low>LL?)?\s*(?P<mark>[RBDX-])"
                + _RIM,
            ),
            (
                "inch",  # a slash or a space where the dash should be: 12.4/24, 11.2 24
                r"(?P<width>\d{1,2}(?:\.\d{1,2})?)(?P<low>LL?)?\s*(?P<mark>[/ ])" + _RIM + r"(?!L)",
            ),
            (
                "inch",  # the L stands for the dash: 9.5L15
                r"(?P<width>\d{1,2}(?:\.\d{1,2})?)(?P<low>LL?)(?P<mark>)" + _RIM,
            ),
        )
    )


@cache
def decode(text: str) -> Designation:
    """Decode a tire size as typed or as read from a sidewall.

    Parameters
    ----------
    text
        The size, with or without service description, ply rating, tread code and words such as
        NHS; dashes, times signs, spaces, decimal commas and capitals in any style [-].

    Raises
    ------
    SizeError
        When a part can't be read; its sentence names the part and shows the accepted forms.

    Examples
    --------
    >>> decode("320/85 R 24 122A8").size
    '320/85R24'
    >>> decode("12.4 x 24").size
    '12.4-24'
    >>> decode("23 x 8.5 - 12 NHS").text
    '23x8.50-12 NHS'
    """
    if len(text) > _LONGEST:
        part = text[:20] + "..."
        raise SizeError(f'"{part}" is too long for a tire size.', part)
    tidy = _DECIMAL_COMMA.sub(".", text.translate(_SEPARATORS).upper()).replace("*", "X")
    tidy = _joined(" ".join(_INCHES.sub(" ", tidy).replace("T/", "T").split()))
    typed = text.strip()
    first: SizeError | None = None
    for start in _starts(tidy):
        try:
            found = _size_at(tidy[start:], typed)
            if found is not None:
                designation, rest = found
                rest = f"{tidy[:start]} {_without_second_name(designation, rest, typed)}"
                _check_another(designation, rest, typed)
                read = with_markings(designation, rest, typed)
                return tire_doubts.asked_about(read, _listed(), typed)
        except SizeError as error:
            first = first or error
    raise first or _explain(tidy, typed)


@cache
def _listed() -> tuple[Designation, ...]:
    """The sizes of the table, as they are written there."""
    sizes = tables.by_key("tires/tire_dimensions", "size")
    found = (_size_at(size.upper(), size) for size in sizes)
    return tuple(one[0] for one in found if one is not None)


def _joined(tidy: str) -> str:
    """Put the signs between the parts of a size where spaces or a slash stand for them."""
    tidy = re.sub(r"^(P|LT|ST)(?=\d{3} ?/)", r"\1 ", tidy)  # LT235/75R15: a mark before the size
    tidy = re.sub(r"^(\d{1,2}(?:\.\d+)?) (LL?) (?=\d)", r"\1\2-", tidy)  # 11 L 15
    # 420 85 R28, 320-85R24, 320 85 24
    tidy = re.sub(r"^((?:[IV]F )?\d{3}) ?[ -] ?([4-9]\d)(?= ?[RBD -] ?\d{2})", r"\1/\2", tidy)
    for form, plain in _SPELLINGS:
        tidy = form.sub(plain, tidy)
    older = _OLDER.match(tidy)
    if older and float(older[2]) < float(older[1]) < float(older[3]):  # 12.4-11-24
        return f"{older[1]}/{older[2]}-{older[3]}{tidy[older.end() :]}"
    three = _THREE.match(tidy)
    if three is None:
        return tidy
    overall, width, rim = three.groups()
    # 26 12.00 12: only the overall diameter is larger than both that follow.
    if float(overall) <= max(float(width), float(rim)):
        return tidy
    return f"{overall}X{width}-{rim}{tidy[three.end() :]}"


def _starts(tidy: str) -> list[int]:
    """Where the size may stand: first, or after markings such as "R-1" or "TURF" before it."""
    words = [0, *(match.end() for match in re.finditer(" ", tidy))]
    return [
        start for start in words if start == 0 or re.fullmatch(r"(?:\S*[A-Z]\S* )+", tidy[:start])
    ]


def _size_at(tidy: str, typed: str) -> tuple[Designation, str] | None:
    """Return the size that a text begins with, and what stands after it."""
    for form, pattern in _patterns():
        match = pattern.match(tidy)
        if not match:
            continue
        parts = {key: value or "" for key, value in match.groupdict().items()}
        if parts["mark"] == "R" and float(parts["rim"]) <= _GREATEST_TREAD:
            continue  # 15x19.5 R4: a tread, not a rim
        if parts["mark"] in ("/", " ", ""):
            parts["mark"] = "X"
        return _from_parts(form, parts, typed), tidy[match.end() :]
    return None


def _without_second_name(found: Designation, rest: str, typed: str) -> str:
    """Drop a tire's second name from what stands after its first: 380/85R28 (14.9R28).

    Raises
    ------
    SizeError
        Where the second is another tire.
    """
    match = _SECOND.match(rest)
    if match is None:
        return rest
    second = _size_at(match[1], typed)
    if second is None:
        return rest
    if not tire_doubts.one_tire(found, second[0]):
        raise SizeError(
            f'"{typed}" names two sizes, {found.size} and {second[0].size}: which of them is it?',
            match[1],
        )
    return rest[match.end() :]


def _check_another(found: Designation, rest: str, typed: str) -> None:
    """Ask where another size stands further on: 9.5-24 or 8.3-24.

    Raises
    ------
    SizeError
        Where another is read there.
    """
    for match in _ANOTHER.finditer(rest):
        second = _size_at(match[0], typed)
        if second is not None and second[0].size != found.size:
            raise SizeError(
                f'"{typed}" names two sizes, {found.size} and {second[0].size}: one at a time.',
                match[0],
            )


def _from_parts(form: str, parts: dict[str, str], typed: str) -> Designation:
    width_text, mark = parts["width"], parts["mark"]
    rim = float(parts["rim"])
    if form == "double":
        form = "inch"
    if form == "inch":
        tire_doubts.check_width_without_point(width_text, mark, rim, typed)
        form, width_text = _inch_form(width_text, parts.get("low", ""), rim)
    elif form == "flotation" and not parts["low"]:
        width_text = f"{float(width_text):.2f}"
    elif form == "metric":
        width_text = f"{int(width_text)}"
    overall = float(parts["overall"]) if parts.get("overall") else None
    designation = Designation(
        form,
        float(width_text),
        width_text,
        "-" if mark == "X" else mark,
        rim,
        float(parts["aspect"]) if parts.get("aspect") else None,
        overall,
        parts.get("low", ""),
        parts.get("flexion", ""),
        parts.get("older", ""),
    )
    tire_doubts.check_limits(designation, mark, typed)
    return designation


def _inch_form(width_text: str, low: str, rim: float) -> tuple[str, str]:
    """Tell the families of inch sizes apart by how the width is written."""
    if "." not in width_text and len(width_text) >= 3:
        # An older way of writing 7.50-16 leaves the point out: 750-16.
        width_text = f"{int(width_text) / 100:.2f}"
    whole, _, decimals = width_text.partition(".")
    if low:
        return "low", width_text
    if not decimals:
        return ("wide" if rim % 1 == 0.5 else "whole"), whole
    # 7.5-16 is how people type 7.50-16, but 9.5-24 is a size of its own.
    if decimals == "0":
        return _trailing_zero(whole, rim)
    if decimals == "5" and int(whole) < 9:
        return "steer", width_text + "0"
    if decimals == "00" and rim % 1 == 0.5:
        return "wide", whole  # 12.00-16.5 is 12-16.5
    sizes = tables.by_key("tires/tire_dimensions", "size")
    plain = width_text.rstrip("0")
    if f"{plain}-{rim:g}" in sizes and f"{width_text}-{rim:g}" not in sizes:
        return "decimal", plain  # 9.50-24 is 9.5-24; 7.50-16 is a size of its own
    return ("steer" if len(decimals) == 2 else "decimal"), width_text


def _trailing_zero(whole: str, rim: float) -> tuple[str, str]:
    """7.0-14 is 7-14, but 6.0-16 is 6.00-16: whichever of the two is made.

    Raises
    ------
    SizeError
        Where both are made, and they are different tires.
    """
    sizes = tables.by_key("tires/tire_dimensions", "size")
    steer_size = f"{whole}.00-{rim:g}"
    plain = f"{whole}-{rim:g}" in sizes
    steer = steer_size in sizes or steer_size in tables.by_key("tires/look_alikes", "steer")
    if plain and steer:
        raise SizeError(
            f"{whole}.0-{rim:g} may be {whole}-{rim:g}, a drive tire, or {whole}.00-{rim:g}, "
            "another tire: which stands on the sidewall?",
            f"{whole}.0",
        )
    if plain or (not steer and rim % 1 == 0.5):
        return ("wide" if rim % 1 == 0.5 else "whole"), whole
    return "steer", f"{whole}.00"


def _explain(tidy: str, typed: str) -> SizeError:
    """Say which part of a size stopped the reading."""
    numbers = re.findall(r"\d+(?:\.\d+)?", tidy)
    if not numbers:
        return SizeError(f'"{typed}" has no numbers; a size has a width and a rim.', typed)
    if _MARKING.fullmatch(tidy):
        return SizeError(
            f'"{typed}" stands beside a size, and is none by itself: type the size before it.',
            typed,
        )
    lead = re.match(r"[^\d]+", tidy)
    if lead and lead[0].strip() not in ("IF", "VF"):
        part = lead[0].strip()
        return SizeError(f'In "{typed}" the part "{part}" before the size isn\'t known.', part)
    if len(numbers) == 1:
        return SizeError(f'"{typed}" gives {numbers[0]} but no rim after it.', numbers[0])
    if re.match(r"\d+(\.\d+)?\s*X\s*\d+(\.\d+)?\s*(LL?)?$", tidy):
        return SizeError(
            f'"{typed}" gives an overall diameter and a width, but no rim after them.', typed
        )
    if re.match(r"(IF|VF)?\s*\d+(\.\d+)?\s*/\s*\d+\s*/?\s*\d*$", tidy):
        return SizeError(
            f'In "{typed}" the mark before the rim is missing: R for radial, - for bias.', "/"
        )
    between = re.match(r"[\d.\s]+(?:/[\d.\s]+)?([^\d.\s]+)", tidy)
    part = between[1] if between else typed
    return SizeError(
        f'In "{typed}" the part "{part}" can\'t stand between the width and the rim.', part
    )
