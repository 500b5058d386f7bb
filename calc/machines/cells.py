"""Columns and cells of a list, as shops write them: a unit in the column's name, a bare number, a
rating distance in inches, a kind by its everyday name."""

from __future__ import annotations

import contextlib
import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from calc import quantities, tables
from calc.errors import InputError
from calc.machines import vocabulary
from calc.model import AnyField, Choice, Field

# "tractor_mass_lb", "Tractor mass (lb)", "Tractor mass, lb", "Tractor mass [lb]"
_UNIT = re.compile(r"^(?P<what>.+?)[\s_,-]*[\s_,(\[-](?P<unit>[^\s_,()\[\]]+)[)\]]?$")
# What shops call a column that is named otherwise here.
COLUMNS = {
    "kind": {"tractor": "tractor_kind", "implement": "implement_kind"},
    "width": {"implement": "working_width"},
    "mass": {"tractor": "tractor_mass", "implement": "implement_mass"},
    "weight": {"tractor": "tractor_mass", "implement": "implement_mass"},
    "wt": {"tractor": "tractor_mass", "implement": "implement_mass"},
    **{
        heading: {"tractor": "tractor_mass", "implement": "implement_mass"}
        for heading in ("tractor_weight", "implement_weight", "operating_weight", "base_weight")
    },
    **{
        heading: {"tractor": "lift_capacity"}
        for heading in ("3pt_lift", "3_pt_lift", "3_point_lift", "hitch_lift", "rear_lift")
    },
    "quick_hitch": {"tractor": "quick_coupler"},
    "loader_lift": {"tractor": "loader_rating"},
    "loader_capacity": {"tractor": "loader_rating"},
    "rated_at": {"tractor": "lift_rated_at"},
    "ldr": {"tractor": "loader"},
    **{heading: {"implement": "power_limit"} for heading in ("max_pto", "pto_max")},
    **{
        heading: {"implement": "power_needed"}
        for heading in ("pto_min", "min_pto", "pto_required", "pto_needed")
    },
    "cut": {"implement": "working_width"},
    "lift_cap.": {"tractor": "lift_capacity"},
    "make/model": dict.fromkeys(("tractor", "implement"), "name"),
    "type": {"implement": "implement_kind"},
    "size": {"implement": "working_width"},
    "category": {"tractor": "hitch_category", "implement": "implement_category"},
    "cat": {"tractor": "hitch_category", "implement": "implement_category"},
    "hitch_cat": {"tractor": "hitch_category", "implement": "implement_category"},
    "hitch": {"tractor": "hitch_category", "implement": "implement_category"},
    **{
        heading: dict.fromkeys(("tractor", "implement"), "name")
        for heading in ("model", "machine", "unit", "item", "description")
    },
    "tractor": {"tractor": "name"},
    "implement": {"implement": "name"},
    **{
        heading: dict.fromkeys(("tractor", "implement"), "note")
        for heading in ("notes", "remarks", "comments")
    },
    **{
        heading: dict.fromkeys(("tractor", "implement"), "price")
        for heading in ("asking_price", "list_price", "our_price", "sale_price", "asking")
    },
    "stock": dict.fromkeys(("tractor", "implement"), "stock_number"),
    "stock_no": dict.fromkeys(("tractor", "implement"), "stock_number"),
    "stock_#": dict.fromkeys(("tractor", "implement"), "stock_number"),
    "stock_no.": dict.fromkeys(("tractor", "implement"), "stock_number"),
}
# What shops call a kind; each is an option of `implement_kind`.
KINDS = {
    "disk": "disk_harrow",
    "disc": "disk_harrow",
    "disc_harrow": "disk_harrow",
    "moldboard_plow": "plow",
    "bottom_plow": "plow",
    "land_leveler": "land_plane",
    "grading_scraper": "land_plane",
    "forks": "pallet_forks",
    "cutter": "rotary_cutter",
    "brush_cutter": "rotary_cutter",
    "tiller": "rotary_tiller",
    "auger": "post_hole_digger",
    "aerator": "core_aerator",
    "rake": "landscape_rake",
}
ON_THE_LOADER = ("grapple", "root_grapple", "brush_grapple", "bucket", "loader_bucket")
# Words of a cell whose last ones don't tell its kind: it isn't what hangs behind.
NOT_HUNG = {"loader", "skid", "grapple", "front", "mid", "hay"}
# Headings that name a field only together with a unit: a column "PTO" may as well hold 540.
MEASURED = {
    "pto": "pto_power",
    "engine": "engine_power",
    "gross": "engine_power",
    "lift": "lift_capacity",
    "lift cap.": "lift_capacity",
    "power": "engine_power",
    "pto min": "power_needed",
    "min pto": "power_needed",
    "min": "power_needed",
    "max": "power_limit",
}
HORSEPOWER = "hp"  # a heading by itself, of the engine as a rule
# What shops write for an option.
SAID = {
    **dict.fromkeys(("4wd", "4x4", "mfwd", "fwa", "mfd"), "four"),
    **dict.fromkeys(("2wd", "4x2"), "two"),
    # By itself 540 has 6 splines; 1000 on what goes behind a compact tractor has 21.
    **dict.fromkeys(("540", "540_rpm"), "540-6"),
    **dict.fromkeys(("1000", "1000_rpm"), "1000-21"),
    **dict.fromkeys(("2000", "2000_rpm", "mid_pto"), "mid"),
}
# Cells that say that nobody knows.
BLANKS = frozenset(
    ["-", "--", "\u2013", "\u2014", "n/a", "na", "tbd", "?", "unknown", "none given"]
)
_WITH, _WITHOUT = ("yes", "y", "with", "w/", "incl"), ("no", "n", "without", "w/o", "less")
# What "yes" and "no" are under a heading that asks whether it has one.
HAS = {
    "loader": ("on", "none"),
    "mid_pto": ("yes", "none"),
    "cab": ("cab", "open"),
    "quick_coupler": ("u_frame", "none"),
}
ROMAN = {"I": "1", "II": "2", "III": "3"}
# "Lift (lb) @ 24 in": the heading says where the figures hold.
_WHERE = r"\d+(?:\.\d+)?\s*(?:in|mm|\"|)|(?:the )?balls?(?: ends?)?"
_BACK = (
    r"(?:\s*(?:behind|back|aft|rear)(?:\s+of)?(?:\s+(?:the\s+)?(?:balls?(?: ends?)?|eyes|pins))?)?"
)
_AT = re.compile(
    rf"\s*(?:@|\bat\b|(?=\d+\s*\S+\s+behind))\s*(?P<where>{_WHERE}){_BACK}"
    r"\.?\s*(?P<unit>[,(\[]\s*[^\s()\[\]]+[)\]]?)?\s*$",
    re.I,
)
_PLACE = re.compile(
    rf"\s*(?:\(\s*(?:at|@)?|@|\bat\b|,\s)\s*(?P<where>{_WHERE}){_BACK}\s*\)?\s*$", re.I
)
_SHAFT = re.compile(r"\s*@\s*(?:540|1,?000)(?:\s*rpm)?$", re.I)  # "45 hp @ 540"
_SPACED = re.compile(r"(?<=\d)[ \u00a0\u202f](?=\d{3}(?!\d))")  # "1 640 kg"
_BALLS = re.compile(r"(at )?(the )?(lift )?balls?( ends?)?", re.I)
_REMARK = re.compile(r"\s*\([^()]*\)\s*$")
_SIZES = re.compile(r"\d\S*(?:\s+(?:ft|foot|feet|in|inch|cm|m|mm)\b)?")
_SIZE_BEFORE = re.compile(r"^\d+[\s-]*(?:ft|foot|feet|in|inch|\"|')?[\s-]+")
INCHES_BELOW = 60.0  # a bare rating distance below this is in inches, else in millimeters
MISSED_BY = 0.008  # m: 24 in is 609.6 mm


@dataclass(frozen=True, slots=True)
class Column:
    """What a column fills, and the unit that its bare numbers are in."""

    name: str
    unit: str = ""
    rated_at: str = ""  # the option of `lift_rated_at` that the heading names
    beside: str = ""  # the unit that the column's other cells have, where it is one


def is_blank(text: str) -> bool:
    """Whether a cell says nothing: it is empty, or says that nobody knows."""
    return not text or text.casefold() in BLANKS


def column(written: str, role: str, named: dict[str, AnyField], beside: tuple[str, ...]) -> Column:
    """Return the field that a column's heading means; one without a name for none."""
    if len(written) > quantities.LONGEST_TEXT:  # some patterns take the square of its length
        return Column("")
    at = _AT.search(written)
    if at:
        said = written[: at.start()] + (at["unit"] or "")
        # With its distance it is the hitch's; a plain "Lift" may be the loader's.
        plain = "hitch lift" if said.strip().lower() == "lift" else said
        lift = column(plain, role, named, beside)
        if lift.name == "lift_capacity" and role == "tractor":
            choice = named["lift_rated_at"]
            assert isinstance(choice, Choice)
            try:
                return Column(lift.name, lift.unit, _rating_distance(choice, at["where"]))
            except InputError:
                return Column("")
    written = written.rstrip("?: ")
    labels = {item.label.lower(): name for name, item in named.items()}

    def means(text: str) -> str:
        said = " ".join(text.replace("_", " ").lower().split())
        for plain in (said, said.replace("-", " ").rstrip(".")):
            name = labels.get(plain, plain.replace(" ", "_"))
            name = COLUMNS.get(name, {}).get(role, name)
            if name in named or name in beside:
                return name
        return ""

    if written.strip().lower() == HORSEPOWER and role == "tractor":
        return Column("engine_power", HORSEPOWER)
    whole = labels.get(written.strip().lower()) or means(written)
    if whole:
        return Column(whole)
    found = _UNIT.match(written.strip())
    what = found["what"] if found else ""
    name = means(what) or MEASURED.get(what.strip().lower(), "")
    item = named.get(name)
    remark = _REMARK.search(written)
    if remark and not isinstance(item, Field):
        return column(written[: remark.start()], role, named, beside)
    if not found or not isinstance(item, Field):
        return Column("")
    symbol = _symbol(found["unit"], item)
    return Column(name, symbol) if symbol else Column("")


def _symbol(written: str, item: Field) -> str:
    plain = written.lower()
    for unit in quantities.kind(item.kind).units:
        if plain in (unit.symbol.lower(), *(alias.lower() for alias in unit.aliases)):
            return unit.symbol
    return ""


def lift_and_place(text: str) -> tuple[str, str]:
    """Return a lift figure and where it holds: "1985 (ball ends)" and "2,320 lb @ 24 in".

    The place is empty where the cell doesn't say.
    """
    found = _PLACE.search(text) if len(text) <= quantities.LONGEST_TEXT else None
    return (text[: found.start()].strip(), found["where"]) if found else (text, "")


def unit_beside(name: str, texts: Iterable[str]) -> str:
    """Return the one unit that cells of a column have; empty for none, or several."""
    item = vocabulary.field(name) if name else None
    if not isinstance(item, Field):
        return ""
    short = (text.strip() for text in texts if len(text) <= quantities.LONGEST_TEXT)
    found = {m[1] for text in short if (m := re.fullmatch(r"[\d.,]+\s*([^\d.,]+)", text))}
    return _symbol(found.pop().strip(), item) if len(found) == 1 else ""


def cell(name: str, text: str, unit: str, system: str, beside: str = "") -> str:
    """Return a cell's text as the field takes it everywhere: with its unit, by its option.

    Parameters
    ----------
    name
        The field.
    text
        The cell, not blank.
    unit
        The unit that the column's heading names; empty for none.
    system
        "us" or "metric": bare numbers of a column without a unit are in the form's unit.
    beside
        The unit of the column's other cells, which a bare number has where it can be.

    Raises
    ------
    InputError
        When it can't be used.
    """
    if len(text) > quantities.LONGEST_TEXT:
        raise InputError(f"That is {len(text):,} characters long; no field takes so much.")
    item = vocabulary.field(name)
    if isinstance(item, Choice):
        return _option(item, text)
    if isinstance(item, Field):
        if beside and not unit:
            with contextlib.suppress(InputError):
                return cell(name, text, beside, system)
        text = _with_unit(item, text, unit, system)
    item.read(text, system)
    return text


def _with_unit(item: Field, text: str, unit: str, system: str) -> str:
    if item.kind == "mass":
        text = _SPACED.sub("", text)
        if text.endswith("#"):
            text = f"{text[:-1].strip()} lb"  # "3,600#" is so many pounds
    elif item.name == "pto_power":
        text = _SHAFT.sub("", text)
    try:
        quantities.parse(text, item.kind)
        return text
    except InputError:
        meant = unit or item.unit(system) or quantities.unit_for(item.kind, system).symbol
        quantities.parse(text, item.kind, meant)  # refuses whatever more than a unit would mend
        return f"{text} {meant}".strip()


def _option(item: Choice, text: str) -> str:
    if item.name == "lift_rated_at":
        return _rating_distance(item, text)
    plain = text.strip().lower()
    key = re.sub(r"[\s-]+", "_", plain)
    if item.name == "implement_kind":
        if key in ON_THE_LOADER:
            raise InputError(
                f"“{quantities.shorten(text)}” is carried on the loader, and the pages judge what "
                "is on the hitch: it is listed without a kind."
            )
        key = KINDS.get(key, key)
        if key not in {option.value for option in item.options}:
            bare = _SIZE_BEFORE.sub("", plain)
            key = KINDS.get(re.sub(r"[\s-]+", "_", bare), _kinds_said().get(bare, key))
        if key not in {option.value for option in item.options}:
            key = _kind_at_end(plain) or key
    first = plain.split()[0].rstrip(".")
    if item.name in HAS and first in _WITH + _WITHOUT:
        return HAS[item.name][first in _WITHOUT]
    if item.name == "quick_coupler" and first == "quick":
        return "u_frame"
    if item.name == "tractor_kind" and key == "compact":
        return "any"  # of what size, its mass and power say
    values = {option.value for option in item.options}
    key = SAID[key] if SAID.get(key) in values else key
    key = key if key in values else key.replace("_", "")  # a "sub-compact"
    if key in values:
        return key
    if item.name in ("hitch_category", "implement_category"):
        short = re.sub(r"^(category|cat\.?)\s*", "", plain).upper()
        short = ROMAN.get(short, short)
        if short in values:
            return short
    return item.read(text) or ""


def _kind_at_end(plain: str) -> str:
    """Return the kind that a cell ends with ("heavy box scraper"); none for a loader's tools."""
    words = re.findall(r"[a-z]+", _SIZES.sub(" ", plain.split(" - ")[0]))
    if words and words[-1] in ("light", "heavy"):
        words.insert(0, words.pop())  # "rotary cutter, light"
    if words and words[-1] in ("rear", "front"):
        where = words.pop()  # "snow blower, front"
        if where == "front":
            return _kinds_said().get(" ".join(["front", *words]), "")
    said = _kinds_said()
    whole = said.get(" ".join(words), "")
    if whole or NOT_HUNG & set(words):
        return whole
    if _REMARK.search(plain):  # "rotary cutter (heavy)"
        return _kind_at_end(_REMARK.sub("", plain))
    ends = (" ".join(words[start:]) for start in range(len(words)))
    found = (said.get(end) or said.get(end.removesuffix("s")) or KINDS.get(end) for end in ends)
    return next(filter(None, found), "")


@cache
def _kinds_said() -> dict[str, str]:
    """Return the kinds by what people call them in messages."""
    rows = tables.rows("words/lexicon")
    return {row["phrase"]: row["value"] for row in rows if row["sense"] == "implement_kind"}


def _rating_distance(item: Choice, text: str) -> str:
    """Return the option that a distance behind the balls means: "24 in", "24" and "610 mm"."""
    options = {option.value for option in item.options}
    if _BALLS.fullmatch(text.strip()):
        return "0"
    for option in item.options:
        if text.lower() in (option.value, option.label.lower()):
            return option.value
    try:
        bare = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*", text)
        unit = "in" if bare and float(bare[1]) < INCHES_BELOW else "mm"
        reading = quantities.parse(text, "length", unit)
    except InputError:
        item.read(text)
        raise
    for value in options - {"unstated"}:
        if reading and abs(reading.middle - float(value) / 1000.0) <= MISSED_BY:
            return value
    raise InputError(
        f"“{quantities.shorten(text)}” is no distance that lift figures are given at: write 24 in, "
        "12 in or 0 (at the ball ends)."
    )
