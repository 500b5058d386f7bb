"""What a tire's sidewall says: the decoded size, and the markings that stand beside it.

References
----------
.. [1] tires/AT-1, tires/AT-3, tires/TR-1: what the marks mean.
.. [2] tires/TG-1: a ply rating is a strength class, not a count of plies.
"""

import re
from dataclasses import dataclass, replace

from calc import tables

_SERVICE = re.compile(
    r"(?:LI\s?)?(\d{2,3})(?:/(\d{2,3}))?\s?([A-Z]\d?)"
    r"(?:/([A-Z]\d?)| ([BD])(?![\w.-]))?(?![A-Z0-9])"  # 115A8/B, 115A8 (B)
)
_PLY = re.compile(
    r"(\d{1,3})\s*-?\s*(?:PR|P\.R\.?|PLY)(?:\s*RAT(?:ED|ING))?(?![A-Z0-9])"
    r"|(?:PR|PLY)(?: RATING)? ?(\d{1,2})(?![A-Z0-9])"
)
_STARS = re.compile(r"(?:X+|(?:[1-3]|ONE|TWO|THREE)[ -]?STARS?)(?![A-Z0-9])")
_TREAD = re.compile(r"([RFI])\s?-?\s?(\d{1,2}[WM]?)(?:'?S)?(?![A-Z0-9])")
_RIBS = re.compile(r"(\d|SINGLE|TRI|TRIPLE|FOUR)\s?-?\s?RIB(?:S|BED)?(?![A-Z0-9])")
RIB_TREADS = {"1": "F-1", "3": "F-2", "4": "F-2M"}  # tires/AT-1
RIB_TREADS |= {"SINGLE": "F-1", "TRI": "F-2", "TRIPLE": "F-2", "FOUR": "F-2M"}
MOST_PLIES = 32
TURF = "R-3"
_LOAD_RANGE = re.compile(r"(?:LR|LOAD\s?RANGE)\s?-?\s?([A-Z])(?![A-Z0-9])")
CONSTRUCTIONS = ("RADIAL", "BIAS")
_BETWEEN = " -/,;.:&"  # what may stand between two marks
NOTHING_MORE = "-"  # a word such as "tire", which adds nothing


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


def with_markings(found: Designation, rest: str, typed: str) -> Designation:
    """Read what stands beside the size: service description, ply rating, tread code, words.

    Raises
    ------
    SizeError
        For a part that isn't known, or that says otherwise than the size.
    """
    services: list[Service] = []
    ply_rating: int | None = None
    tread = spoken = ""  # by its code, and by a word such as turf
    words: list[str] = []
    known_words = tables.by_key("tires/tire_suffixes", "mark")
    known_treads = tables.by_key("tires/tread_codes", "code")
    rest = re.sub(r"\bHF-?\d\b", "HF", re.sub(r"\bF-I\b", "FI", rest)).strip(_BETWEEN)
    while rest:
        word = re.match(r"[A-Z]+", rest)
        if match := _PLY.match(rest):
            ply_rating = _once(ply_rating, _ply(match, typed), "ply ratings", typed)
        elif (match := _RIBS.match(rest)) and match[1] in RIB_TREADS:
            tread = _once(tread, RIB_TREADS[match[1]], "treads", typed)
        elif match := _LOAD_RANGE.match(rest):
            of_range = _ply_of_range(match[1], typed)
            ply_rating = _once(ply_rating, of_range, "ply ratings", typed)
        elif match := _SERVICE.match(rest):
            services.append(_service(match, typed))
            if second := match[4] or match[5]:  # the same load at a second speed
                services.append(replace(services[-1], speed_symbol=_symbol(second, typed)))
        elif (match := _TREAD.match(rest)) and f"{match[1]}-{match[2]}" in known_treads:
            code = f"{match[1]}-{match[2]}"
            if spoken and (spoken == TURF) != (code == TURF):
                _once(spoken, code, "treads", typed)
            tread = _once(tread, code, "treads", typed)
        elif word and word[0] in known_words:
            match = word
            row = known_words[word[0]]
            if tread and row["tread"] and (tread == TURF) != (row["tread"] == TURF):
                _once(tread, row["tread"], "treads", typed)
            spoken = spoken or row["tread"]
            mark = row["same_as"] or word[0]
            if mark not in words and mark != NOTHING_MORE and not row["tread"]:
                words.append(mark)
        elif word and word[0] in CONSTRUCTIONS:
            match = re.match(r"[A-Z]+(?:[ -]PLY)?(?![A-Z0-9])", rest) or word
            if (found.mark == "R") != (word[0] == "RADIAL"):
                raise SizeError(
                    f'"{typed}" says {word[0].lower()}, but the mark before its rim says '
                    "otherwise: R is a radial, a dash a bias tire.",
                    word[0],
                )
        elif match := _STARS.match(rest):
            pass  # a radial's pressure mark, typed as * and read as X, or said
        else:
            raise unknown_part(found.size, rest.split()[0], typed)
        rest = rest[match.end() :].strip(_BETWEEN)
    tread = tread or spoken
    if not tread and found.overall is not None and "AG" in words:
        tread = "R-1"  # of a size that lawns have too, "ag" says bars; common practice, no source
    return replace(
        found, services=tuple(services), ply_rating=ply_rating, tread=tread, words=tuple(words)
    )


def unknown_part(size: str, part: str, typed: str) -> SizeError:
    """What is said of a part behind a size; a bare number may be the ply rating: 13.6-28/8."""
    if part.isdecimal() and int(part) % 2 == 0 and 2 <= int(part) <= MOST_PLIES:
        says = f"a number stands behind {size}: is it the ply rating? Then type {size} {part}PR."
        return SizeError(f'In "{typed}" {says}', part)
    return SizeError(f'In "{typed}" the part "{part}" after the size isn\'t known.', part)


def _once[T](before: T, found: T, what: str, typed: str) -> T:
    """Return what was found, and ask where another of its kind stands before it."""
    if before and before != found:
        raise SizeError(
            f'"{typed}" names two {what}, {before} and {found}: which stands on the sidewall?',
            str(found),
        )
    return found


def _ply_of_range(letter: str, typed: str) -> int:
    ranges = tables.by_key("tires/load_ranges", "letter")
    if letter not in ranges:
        raise SizeError(
            f'In "{typed}" the load range {letter} isn\'t one of {", ".join(ranges)}.', letter
        )
    return int(ranges[letter]["ply_rating"])


def _ply(match: re.Match[str], typed: str) -> int:
    ply = int(match[1] or match[2])
    if ply % 2 or not 2 <= ply <= MOST_PLIES:
        raise SizeError(
            f'In "{typed}" the ply rating reads {ply}; ply ratings are even, from 2 to '
            f"{MOST_PLIES}.",
            str(ply),
        )
    return ply


def _symbol(symbol: str, typed: str) -> str:
    symbols = tables.by_key("tires/speed_symbols", "symbol")
    if symbol not in symbols:
        raise SizeError(
            f'In "{typed}" the speed symbol "{symbol}" isn\'t one of {", ".join(symbols)}.', symbol
        )
    return symbol


def _service(match: re.Match[str], typed: str) -> Service:
    symbol = _symbol(match[3], typed)
    indexes = tables.by_key("tires/load_index", "index")
    for index in (match[1], match[2]):
        if index and index not in indexes:
            first, last = next(iter(indexes)), list(indexes)[-1]
            raise SizeError(
                f'In "{typed}" the load index {index} is outside {first} to {last}.', index
            )
    return Service(int(match[1]), int(match[2]) if match[2] else None, symbol)
