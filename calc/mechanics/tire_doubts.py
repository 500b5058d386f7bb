"""What is asked about a tire size: parts that no tire has, and sizes with a part left out.

References
----------
.. [1] tires/S6, rims and size codes; tires/practice where the trade alone knows.
"""

from collections.abc import Iterable
from dataclasses import replace

from calc import tables
from calc.mechanics.tire_marking import Designation, SizeError, unknown_part

_ODD_FROM = 21
"""From here on rims of tractors are of even inches: 22, 24, 26, 28; common practice, no source."""
_ODD_RIM = 25
"""The odd rim that loaders and graders have; common practice, no source."""
_ODD_WIDTH = 13.0
"""The narrowest tire on that rim, 13.00-25 [in]; common practice, no source."""
_RIM_PARTS = (0.0, 0.1, 0.3, 0.5)
"""What stands behind the point of a rim's diameter: 16.1, 15.3 and the half inches."""
_HALF_INCH_FROM = 14
"""Rims of half inches are 14.5, 15.5, 16.5, 17.5, 19.5 and 22.5; common practice, no source."""
_HIGHEST_RIM, _HIGHEST_RADIAL_RIM = 5.0, 3.0
"""Most of rim over width where the point of an inch width is left out: 400-19 is the tallest of
bias tires, 700R16 of radials; common practice, no source."""
_NARROWEST_ASPECT = 5.0
"""Narrowest tire with an aspect and a width in inches [in]; common practice, no source."""
_WIDEST_ASPECT = 22
"""Widest tire with an aspect and a width in whole inches [in]; common practice, no source."""


_PATTERN = "MPT"

_TALLEST = 1.3
"""Most of section height over width of diameter-first sizes; common practice, no source."""


def check_width_without_point(width_text: str, mark: str, rim: float, typed: str) -> None:
    """Tell 750-16, which is 7.50-16, from a width in millimeters with its height left out.

    Raises
    ------
    SizeError
        For 320R24, and for 112-24, which is 11.2-24.
    """
    if "." in width_text or len(width_text) < 2:
        return
    pointed = f"{int(width_text) / 10:.1f}-{rim:g}"
    if pointed in tables.by_key("tires/tire_dimensions", "size"):
        raise SizeError(f'"{typed}" has no point in its width: is it {pointed}?', width_text)
    if len(width_text) < 3:
        return
    most = _HIGHEST_RADIAL_RIM if mark == "R" else _HIGHEST_RIM
    if rim > most * int(width_text) / 100:
        raise SizeError(
            f'"{typed}" looks like a width in millimeters without the height after it: '
            f"is it {width_text}/85R{rim:g}, or another?",
            width_text,
        )


def asked_about(found: Designation, listed: Iterable[Designation], typed: str) -> Designation:
    """Ask about a size that is another one's with something left out; else return it.

    Parameters
    ----------
    found
        The size as read [-].
    listed
        The sizes of the table [-].
    typed
        The text, for the sentence.

    Raises
    ------
    SizeError
        For 17.5-24, where the table has 17.5L-24 alone, and for 14.9L-24, which has no L; for
        12-16 (12-16.5), 6-16 (6.00-16), 8.50-12 (23x8.50-12) and 280/70-16 (280/70R16).
    """
    if found.form == "metric" and not found.radial:
        return _asked_for_radial(found, {one.size for one in listed}, typed)
    if found.aspect is not None:
        return found
    near = [one for one in listed if one.width == found.width]
    if found.low:
        for one in near:
            if one.rim == found.rim and one.form == "decimal" and one.radial == found.radial:
                raise _left_out(typed, one, "is there really an L on the sidewall?")
        return found
    near.sort(key=lambda one: one.form != "wide")  # 10-16 is 10-16.5 before it is 10.00-16
    if any(one.rim == found.rim and one.form == found.form for one in near):
        return found
    for one in near:
        alike = one.overall == found.overall and one.aspect is None
        if one.rim == found.rim and one.low and alike and one.radial == found.radial:
            raise _left_out(typed, one, "is there an L on the sidewall?")
        if found.rim == int(one.rim) < one.rim and alike and not one.low:
            raise _left_out(typed, one, "is a part of the rim left out?")
        if one.rim == found.rim and one.overall is not None and found.overall is None:
            raise _left_out(typed, one, "is the diameter left out?")
        if one.rim == found.rim and one.form == "steer" and found.form == "whole":
            raise _left_out(typed, one, "is it that one?")
    return found


def _asked_for_radial(found: Designation, sizes: set[str], typed: str) -> Designation:
    radial = found.size.replace("-", "R")
    if found.size in sizes or radial not in sizes:
        return found
    if "BIAS" not in typed.upper():
        asks = "is there an R on the sidewall? If there is none, add “bias”."
        raise SizeError(f'"{typed}" isn\'t a size in the table, but {radial} is: {asks}', typed)
    return replace(found, words=(*found.words, "BIAS"))  # its text is read as it was typed


def _left_out(typed: str, one: Designation, asks: str) -> SizeError:
    return SizeError(f'"{typed}" isn\'t a size in the table, but {one.size} is: {asks}', typed)


def one_tire(first: Designation, second: Designation) -> bool:
    """Whether two sizes are one tire's names in inches and in millimeters, tires/WEB-2.

    The pairs hold for any rim: 12.4R24 is 320/85R24, and 12.4R28 is 320/85R28.
    """
    names = {_without_rim(first.size, first.rim), _without_rim(second.size, second.rim)}
    pairs = (
        {row[name].rpartition("R")[0] for name in ("inch", "metric")}
        for row in tables.rows("tires/inch_metric_pairs")
    )
    return (first.mark, first.rim) == (second.mark, second.rim) and names in pairs


def unsaid(old: Designation, new: Designation) -> bool:
    """Return whether two tires differ by nothing but marks that only one of them is named with,
    or by their names in inches and in millimeters.

    Examples
    --------
    >>> bare = Designation("decimal", 10.0, "10", "-", 16.5)
    >>> tread = replace(bare, tread="R-4")
    >>> unsaid(bare, tread), unsaid(tread, replace(bare, tread="R-1")), unsaid(bare, bare)
    (True, False, False)
    """
    old, new = _with_pattern(old), _with_pattern(new)
    marks = ("tread", "ply_rating", "services", "words")
    two_names = one_tire(old, new)
    if two_names:  # 11.2R24 and 280/85R24
        old = replace(new, **{mark: getattr(old, mark) for mark in marks})
    pairs = {mark: (getattr(old, mark), getattr(new, mark)) for mark in marks}
    differ = {mark: both for mark, both in pairs.items() if both[0] != both[1]}
    if not differ:
        return two_names
    if any(one and other and not _less(one, other) for one, other in differ.values()):
        return False
    return replace(old, **{mark: other for mark, (_, other) in differ.items()}) == new


def _less(one: object, other: object) -> bool:
    """Whether one of two lists of marks is the other with some left out: 122A8, 122A8/119B."""
    if not (isinstance(one, tuple) and isinstance(other, tuple)):
        return False
    return set(one) <= set(other) or set(other) <= set(one)


def _with_pattern(size: Designation) -> Designation:
    """A size with its pattern as its tread where MPT says it: bars, turf or industrial it isn't."""
    if size.tread or _PATTERN not in size.words:
        return size
    return replace(size, tread=_PATTERN, words=tuple(w for w in size.words if w != _PATTERN))


def _without_rim(size: str, rim: float) -> str:
    return size.removesuffix(f"{rim:g}")[:-1]


def check_limits(found: Designation, mark: str, typed: str) -> None:
    """Ask about parts that no tire has.

    Raises
    ------
    SizeError
        Names the part, and says what it may be.
    """
    _check_rim(found, mark, typed)
    _check_width(found, typed)
    size = f"{found.overall:g}-{found.width:g}" if found.overall else ""
    if mark in ("X", "R") and size in tables.by_key("tires/tire_dimensions", "size"):
        raise unknown_part(size, f"{'R' if mark == 'R' else ''}{found.rim:g}", typed)
    if found.overall is not None and found.overall <= found.width:
        raise SizeError(
            f'In "{typed}" the diameter, {found.overall:g}, isn\'t larger than the width, '
            f"{found.width:g}: are the two swapped, or is the diameter another number?",
            f"{found.overall:g}",
        )
    if found.overall is not None and found.overall - found.rim > 2 * _TALLEST * found.width:
        raise SizeError(
            f'In "{typed}" the diameter, {found.overall:g}, is too tall for a width of '
            f"{found.width:g} on a rim of {found.rim:g}: is it a width in millimeters?",
            f"{found.overall:g}",
        )
    if found.overall is not None and not found.rim + 3 <= found.overall <= 90:
        raise SizeError(
            f'In "{typed}" the overall diameter reads {found.overall:g} in, '
            f"which doesn't go with a rim of {found.rim:g} in.",
            f"{found.overall:g}",
        )


def _check_rim(found: Designation, mark: str, typed: str) -> None:
    rim, part = found.rim, round(found.rim % 1, 2)
    if not 4 <= rim <= 54:
        raise SizeError(
            f'In "{typed}" the rim reads {rim:g} in; rims run from 4 to 54 in.', f"{rim:g}"
        )
    loader = rim == _ODD_RIM and _inches(found) >= _ODD_WIDTH
    if rim >= _ODD_FROM and rim % 2 == 1 and not loader:
        raise SizeError(
            f'In "{typed}" the rim reads {rim:g} in, which tractors don\'t have: '
            "is a part left out, such as the rim behind a diameter and a width?",
            f"{rim:g}",
        )
    if mark == "X" and found.overall is None and rim <= found.width:
        raise SizeError(
            f'"{typed}" gives an overall diameter and a width, but no rim after them.', typed
        )
    inch = found.aspect is None and found.overall is None and not found.low
    swapped = found.form == "whole" and rim <= found.width
    swapped = swapped or (found.form == "wide" and rim < found.width / 2)
    swapped = swapped or (inch and found.form != "wide" and rim < found.width and not part)
    if swapped or part not in _RIM_PARTS or (part and rim < _HALF_INCH_FROM):
        raise SizeError(
            f'In "{typed}" the rim reads {rim:g} in, beside a width of '
            f"{found.width_text}: are the two swapped?",
            f"{rim:g}",
        )


def _inches(found: Designation) -> float:
    """The width of a size [in]."""
    return found.width / 25.4 if found.form == "metric" else found.width


def _check_width(found: Designation, typed: str) -> None:
    if not 2.5 <= _inches(found) <= 52:
        raise SizeError(
            f'In "{typed}" the width reads {found.width_text}; '
            "widths run from 2.5 to 52 in, or 65 to 1320 mm.",
            found.width_text,
        )
    if found.older and float(found.older) >= found.width:
        raise SizeError(
            f'In "{typed}" the older code, {found.older}, isn\'t less than the width, '
            f"{found.width_text}: are these two sizes?",
            found.older,
        )
    whole = found.form == "aspect" and "." not in found.width_text
    if whole and (found.width > _WIDEST_ASPECT or found.width >= found.rim):
        raise SizeError(
            f'In "{typed}" the width reads {found.width_text} in: is a digit left out, as of '
            f"{found.width_text}0?",
            found.width_text,
        )
    if found.form == "aspect" and found.width < _NARROWEST_ASPECT:
        raise SizeError(
            f'In "{typed}" the width reads {found.width_text} in: is a digit left out, as of '
            f"1{found.width_text}?",
            found.width_text,
        )
    if found.aspect is not None and not 40 <= found.aspect <= 100:
        raise SizeError(
            f'In "{typed}" the aspect reads {found.aspect:g} %; aspects run from 40 to 100 %.',
            f"{found.aspect:g}",
        )
