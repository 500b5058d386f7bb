"""Tire sizes as people type them: decoded to a value, and printed back the same way each time.

References
----------
.. [1] tires/S1, ISO 4251-1: which sizes are standardized; tires/S6, rims and size codes.
.. [2] tires/TG-1: a ply rating is a strength class, not a count of plies.
"""

import re
from dataclasses import dataclass
from functools import cache

from calc import tables

_LONGEST = 80
_SEPARATORS = str.maketrans(
    {"\u2010": "-", "\u2011": "-", "\u2012": "-", "\u2013": "-", "\u2014": "-", "\u2212": "-"}
    | {"\u00d7": "X", '"': " ", "\u201d": " ", "\u2033": " ", "(": " ", ")": " ", "\u2605": " "}
)
_RIM = r"\s*-?\s*(?P<rim>\d{1,3}(?:\.\d)?)(?![\d.])"
_SERVICE = re.compile(r"(\d{2,3})(?:/(\d{2,3}))?\s?([A-Z]\d?)(?![A-Z0-9])")
_PLY = re.compile(r"(\d{1,2})\s*-?\s*(?:PR|P\.R\.|PLY)(?:\s*RAT(?:ED|ING))?(?![A-Z0-9])")
_TREAD = re.compile(r"([RFI])\s?-?\s?(\d{1,2}[WM]?)(?![A-Z0-9])")


@cache
def _patterns() -> tuple[tuple[str, re.Pattern[str]], ...]:
    """The forms in the order they are tried; compiled when a size is first read."""
    return tuple(
        (form, re.compile(pattern))
        for form, pattern in (
            (
                "flotation",
                r"(?P<overall>\d{2}(?:\.\d+)?)\s*X\s*(?P<width>\d{1,2}(?:\.\d+)?)\s*(?P<low>LL)?"
                r"\s*(?P<mark>[RBDX-])" + _RIM,
            ),
            (
                "metric",
                r"(?P<flexion>IF|VF)?\s*(?P<width>\d{3,4})\s*/\s*(?P<aspect>\d{2,3})"
                r"\s*(?P<mark>[RBD-])" + _RIM,
            ),
            (
                "aspect",
                r"(?P<width>\d{1,2}(?:\.\d+)?)\s*/\s*(?P<aspect>[4-9]\d)\s*(?P<mark>[RBD-])" + _RIM,
            ),
            (
                "double",
                r"(?P<width>\d{1,2}\.\d)\s*/\s*(?P<older>\d{1,2})\s*(?P<mark>[RBD-])" + _RIM,
            ),
            (
                "inch",
                r"(?P<width>\d{1,2}(?:\.\d{1,2})?|\d{3,4})\s*(?P<low>LL?)?\s*(?P<mark>[RBDX-])"
                + _RIM,
            ),
        )
    )


class SizeError(ValueError):
    """A tire size that can't be read; `part` is the text that stopped it."""

    def __init__(self, sentence: str, part: str) -> None:
        super().__init__(f"{sentence} Sizes look like {accepted_forms()}.")
        self.part = part


@dataclass(frozen=True, slots=True)
class Service:
    """A service description: load index as a single (and as a dual) tire, and speed symbol."""

    load_index: int
    dual_load_index: int | None
    speed_symbol: str

    @property
    def text(self) -> str:
        """The marking, such as "122A8" or "112/110A8"."""
        dual = f"/{self.dual_load_index}" if self.dual_load_index else ""
        return f"{self.load_index}{dual}{self.speed_symbol}"


@dataclass(frozen=True, slots=True)
class Designation:
    """A decoded tire size.

    `form` names the rule that gives its diameter: decimal, steer, whole, wide, low, aspect,
    metric or flotation. `width` is in inches, or millimetres in the metric form; `rim` and
    `overall` are in inches; `aspect` is in percent.
    """

    form: str
    width: float
    width_text: str
    mark: str
    rim: float
    aspect: float | None = None
    overall: float | None = None
    low: str = ""
    flexion: str = ""
    older: str = ""
    services: tuple[Service, ...] = ()
    ply_rating: int | None = None
    tread: str = ""
    words: tuple[str, ...] = ()

    @property
    def radial(self) -> bool:
        """Whether the construction is radial; bias otherwise."""
        return self.mark == "R"

    @property
    def size(self) -> str:
        """The size alone, written one way: "320/85R24", "26x12.00-12", "12.4-24"."""
        rim = f"{self.mark}{self.rim:g}"
        if self.overall is not None:
            return f"{self.overall:g}x{self.width_text}{self.low}{rim}"
        if self.aspect is not None:
            return f"{self.flexion}{self.width_text}/{self.aspect:g}{rim}"
        older = f"/{self.older}" if self.older else ""
        return f"{self.width_text}{self.low}{older}{rim}"

    @property
    def text(self) -> str:
        """The size with everything that was read beside it."""
        parts = [self.size, "/".join(service.text for service in self.services)]
        parts.append(f"{self.ply_rating}PR" if self.ply_rating else "")
        parts += [self.tread, *self.words]
        return " ".join(part for part in parts if part)


def accepted_forms() -> str:
    """Return an example of each accepted form, in one line."""
    examples = [row["example"] for row in tables.rows("tires/tire_designations")]
    return ", ".join(examples[:-1]) + " or " + examples[-1]


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
    tidy = re.sub(r"(?<=\d),(?=\d)", ".", text.translate(_SEPARATORS).upper()).replace("*", "X")
    tidy = " ".join(tidy.split())
    for form, pattern in _patterns():
        match = pattern.match(tidy)
        if match:
            parts = {key: value or "" for key, value in match.groupdict().items()}
            designation = _from_parts(form, parts, text.strip())
            return _with_markings(designation, tidy[match.end() :], text.strip())
    raise _explain(tidy, text.strip())


def _from_parts(form: str, parts: dict[str, str], typed: str) -> Designation:
    width_text, mark = parts["width"], parts["mark"]
    rim = float(parts["rim"])
    if form == "double":
        form = "inch"
    if form == "inch":
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
    _check_limits(designation, mark, typed)
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
    if decimals == "0" or (decimals == "5" and int(whole) < 9):
        return "steer", width_text + "0"
    return ("steer" if len(decimals) == 2 else "decimal"), width_text


def _check_limits(found: Designation, mark: str, typed: str) -> None:
    width_in = found.width / 25.4 if found.form == "metric" else found.width
    if not 4 <= found.rim <= 54:
        raise SizeError(
            f'In "{typed}" the rim reads {found.rim:g} in; rims run from 4 to 54 in.',
            f"{found.rim:g}",
        )
    if mark == "X" and found.overall is None and found.rim <= found.width:
        raise SizeError(
            f'"{typed}" gives an overall diameter and a width, but no rim after them.', typed
        )
    if not 2.5 <= width_in <= 52:
        raise SizeError(
            f'In "{typed}" the width reads {found.width_text}; '
            "widths run from 2.5 to 52 in, or 65 to 1320 mm.",
            found.width_text,
        )
    if found.aspect is not None and not 40 <= found.aspect <= 100:
        raise SizeError(
            f'In "{typed}" the aspect reads {found.aspect:g} %; aspects run from 40 to 100 %.',
            f"{found.aspect:g}",
        )
    if found.overall is not None and not found.rim + 3 <= found.overall <= 90:
        raise SizeError(
            f'In "{typed}" the overall diameter reads {found.overall:g} in, '
            f"which doesn't go with a rim of {found.rim:g} in.",
            f"{found.overall:g}",
        )


def _with_markings(found: Designation, rest: str, typed: str) -> Designation:
    """Read what stands after the size: service description, ply rating, tread code, words."""
    services: list[Service] = []
    ply_rating: int | None = None
    tread = ""
    words: list[str] = []
    known_words = tables.by_key("tires/tire_suffixes", "mark")
    known_treads = tables.by_key("tires/tread_codes", "code")
    rest = rest.strip(" -/,;")
    while rest:
        word = re.match(r"[A-Z]+", rest)
        if match := _PLY.match(rest):
            ply_rating = int(match[1])
        elif match := _SERVICE.match(rest):
            services.append(_service(match, typed))
        elif (match := _TREAD.match(rest)) and f"{match[1]}-{match[2]}" in known_treads:
            tread = f"{match[1]}-{match[2]}"
        elif word and word[0] in known_words:
            match = word
            if word[0] not in words:
                words.append(word[0])
        elif match := re.match(r"X+(?![A-Z0-9])", rest):
            pass  # the stars of a radial's pressure mark, typed as * and read as X
        else:
            part = rest.split()[0]
            raise SizeError(f'In "{typed}" the part "{part}" after the size isn\'t known.', part)
        rest = rest[match.end() :].strip(" -/,;")
    return Designation(
        found.form,
        found.width,
        found.width_text,
        found.mark,
        found.rim,
        found.aspect,
        found.overall,
        found.low,
        found.flexion,
        found.older,
        tuple(services),
        ply_rating,
        tread,
        tuple(words),
    )


def _service(match: re.Match[str], typed: str) -> Service:
    symbols = tables.by_key("tires/speed_symbols", "symbol")
    if match[3] not in symbols:
        raise SizeError(
            f'In "{typed}" the speed symbol "{match[3]}" isn\'t one of {", ".join(symbols)}.',
            match[3],
        )
    indexes = tables.by_key("tires/load_index", "index")
    for index in (match[1], match[2]):
        if index and index not in indexes:
            first, last = next(iter(indexes)), list(indexes)[-1]
            raise SizeError(
                f'In "{typed}" the load index {index} is outside {first} to {last}.', index
            )
    return Service(int(match[1]), int(match[2]) if match[2] else None, match[3])


def _explain(tidy: str, typed: str) -> SizeError:
    """Say which part of a size stopped the reading."""
    numbers = re.findall(r"\d+(?:\.\d+)?", tidy)
    if not numbers:
        return SizeError(f'"{typed}" has no numbers; a size has a width and a rim.', typed)
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
