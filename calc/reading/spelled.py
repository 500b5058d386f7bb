"""Numbers in words, with the parts of one that people say: "five", "half an", "seven eighths"."""

from __future__ import annotations

from calc import quantities

_SINGLE = ("acre", "ton", "hectare", "inch")  # of which "an acre" is one
_PARTS = {"half": 2, "halves": 2, "quarter": 4, "quarters": 4, "eighth": 8, "eighths": 8}
_TOPS = {"a": 1, "an": 1, "one": 1, "three": 3, "five": 5, "seven": 7}


def spelled(words: list[str]) -> tuple[str, float, int] | None:
    """Return the number that some words begin with: its text, its value, how many words it takes.

    >>> spelled(["half", "an", "inch"]), spelled(["one", "and", "a", "quarter"])
    (('0.5', 0.5, 2), ('1.25', 1.25, 4))
    """
    if words[0] in ("a", "an") and words[1:2] and words[1] in _SINGLE:
        return "1", 1.0, 1
    if part := _part(words):
        return f"{part[0]:g}", part[0], part[1]
    if words[0] == "half":
        return "0.5", 0.5, 2 if words[1:2] in (["a"], ["an"]) else 1
    number = quantities.spelled(words)
    return (str(number[0]), float(number[0]), number[1]) if number else None


def _part(words: list[str]) -> tuple[float, int] | None:
    """Return "three quarter", "one and a half", "seven eighths" as a number, and its words."""
    top, part = _TOPS.get(words[0], 0), _PARTS.get(words[1] if len(words) > 1 else "", 0)
    if top and part and top < part:
        return top / part, 2
    whole = quantities.spelled(words[:1])
    if whole and words[1:2] == ["and"] and (rest := _part(words[2:] or [""])):
        return whole[0] + rest[0], 2 + rest[1]
    return None
