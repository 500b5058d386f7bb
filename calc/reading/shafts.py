"""The shafts of a message: a speed of 540 or 1000 goes to the machine that it is said of."""

from __future__ import annotations

from collections.abc import Sequence

from calc import tables
from calc.reading.amounts import Amount, units
from calc.reading.given import Fact, Given, subject_of
from calc.reading.words import NUMBER, Said, Token

_SHAFTS = {"540": "1-540", "1000": "1-1000"}
_FILLERS = frozenset(["rpm", "speed", "setting", "-", "pto", "only"])
_HERE = frozenset(["on", "the", "its"])
_MEASURED = frozenset(["mass", "length", "money"])
_SHAFT_WORDS = frozenset(["shaft", "stub", "driveline", "yoke", "input", "gearbox"])
_HAS = frozenset(tables.small_words("shaft has"))
_MINE = frozenset(["my", "our", "tractor", "tractors"])


def place_shafts(tokens: Sequence[Token], said: Sequence[Said], given: Given) -> set[int]:
    """Take every shaft speed for the tractor's shaft or the implement's; return its tokens.

    The machine named right behind it has it ("540 mower", "1000 rpm tractor"), or the one right
    before ("the tractor is 540"). A bare shaft is the tractor's, unless the message gives that
    one another speed.
    """
    speeds = [p for p, t in enumerate(tokens) if t.text in _SHAFTS and _is_speed(tokens, p, said)]
    subjects = {each.first: subject_of(each) for each in said if subject_of(each)}
    ends = {each.last: subject_of(each) for each in said if subject_of(each)}
    found: dict[str, list[Fact]] = {}
    bare: list[tuple[int, int]] = []
    for place in speeds:
        last, by_pto = _past_fillers(tokens, place + 1)
        whose = _whose(tokens, place, last, subjects, ends)
        if not whose and by_pto:
            whose = "tractor"
        if not whose:
            bare.append((place, last))
            continue
        _put(tokens, found, whose, place, last)
    for place, last in bare:
        shaft = last < len(tokens) and tokens[last].text in _SHAFT_WORDS
        behind = [token.text for token in tokens[last : last + 3] if token.text not in _HERE]
        if behind[:1] == ["gearbox"] and "implement_shaft" not in found:
            _put(tokens, found, "implement", place, last)  # "540 on the gearbox"
            continue
        others = {f.text for f in found.get("tractor_shaft", ())}
        if shaft:
            mine = not others or others == {_SHAFTS[tokens[place].text]}
            _put(tokens, found, "tractor" if mine else "implement", place, last)
        elif set(found) == {"implement_shaft"} and _SHAFTS[tokens[place].text] not in {
            fact.text for fact in found["implement_shaft"]
        }:
            _put(tokens, found, "tractor", place, last)  # "run my 540 mower at 1000"
    spoken = _place_splines(tokens, subjects, found)
    taken: set[int] = set()
    for facts in found.values():
        (given.facts if len({f.text for f in facts}) == 1 else given.doubtful).extend(facts)
        taken |= {place for fact in facts for place in range(fact.first, fact.last)}
    # "2100 rpm for 540" gives no mass of 540.
    return (
        taken | spoken | {p for p in speeds if tokens[p].text == "540" and not _has_unit(tokens, p)}
    )


# How many splines a shaft of 1000 rpm has; six are those of 540 as well.
_SPLINES = {"21": "2-1000", "20": "3-1000"}
_NEAR_SPLINE = 8  # words before the count of splines, for what they are of


def _place_splines(
    tokens: Sequence[Token], subjects: dict[int, str], found: dict[str, list[Fact]]
) -> set[int]:
    """Take "21 spline" for the shaft of the machine named last before it; return its tokens."""
    taken: set[int] = set()
    for place, token in enumerate(tokens[1:]):
        if token.text not in ("spline", "splines"):
            continue
        behind, place = place + 2, place - (tokens[place].text == "-")  # "21-spline"
        if place < 0 or tokens[place].kind != NUMBER:
            continue
        taken |= {place, behind - 1}
        near = range(max(0, place - _NEAR_SPLINE), place)
        named = [subjects.get(i) or ("tractor" if tokens[i].text in _MY else "") for i in near]
        # "a 21 spline baler" is the baler's, whatever was named before
        input_of = "implement" if [t.text for t in tokens[behind : behind + 1]] == ["input"] else ""
        whose = (
            input_of
            or subjects.get(behind)
            or next((each for each in reversed(named) if each), "tractor")
        )
        option = _SPLINES.get(tokens[place].text, "")
        name = f"{whose}_shaft"
        # "1000 rpm 21 spline" says which of the two shafts of that speed it is
        same = all(fact.text[1:] == option[1:] for fact in found.get(name, ()))
        if option and whose in ("tractor", "implement") and same:
            why = "so many splines has a shaft of 1000 rpm"
            first = min([place, *(fact.first for fact in found.get(name, ()))])
            found[name] = [Fact((name,), first, behind, option, why=why)]
    return taken


_MY = frozenset(["pto", "my", "mine", "tractor"])


def _has_unit(tokens: Sequence[Token], place: int) -> bool:
    return any(token.text == "rpm" for token in tokens[place + 1 : place + 2])


def _put(
    tokens: Sequence[Token], found: dict[str, list[Fact]], whose: str, place: int, last: int
) -> None:
    name = f"{whose}_shaft"
    why = f"the speed of the {whose}'s shaft"
    fact = Fact((name,), place, last, _SHAFTS[tokens[place].text], why=why)
    found.setdefault(name, []).append(fact)


def _past_fillers(tokens: Sequence[Token], place: int) -> tuple[int, bool]:
    """Return the place behind "rpm" and "pto", and whether "pto" was among them."""
    by_pto = False
    while place < len(tokens) and tokens[place].text in _FILLERS:
        by_pto |= tokens[place].text == "pto"
        place += 1
    return place, by_pto


def _is_speed(tokens: Sequence[Token], place: int, said: Sequence[Said]) -> bool:
    """Whether 540 or 1000 is that of a shaft, and no mass, price or speed of an engine."""
    if place and tokens[place - 1].text in ("$", ".", "/"):
        return False
    behind = tokens[place + 1].text if place + 1 < len(tokens) else ""
    if _MEASURED & units().get((behind,), {}).keys():
        return False  # "the blade is 540 lb, the tractor 22 hp at the pto"
    if behind in _FILLERS - {"-", "only"}:
        return True
    if behind in _SHAFT_WORDS:
        return True
    words = {token.text for token in tokens}
    spoken = (
        {"540", "1000"} <= words
        or bool(words & {"rpm", "shaft", "spline", "splines"})
        or ("pto" in words and tokens[place].text == "540")
    )
    named = any(each.first == place + 1 and subject_of(each) for each in said)
    return spoken and (named or not behind[:1].isalpha() or tokens[place].text == "540")


def _whose(
    tokens: Sequence[Token],
    place: int,
    last: int,
    subjects: dict[int, str],
    ends: dict[int, str],
) -> str:
    behind = subjects.get(last, "")
    if behind in ("tractor", "implement"):
        return behind
    back = place
    while back and tokens[back - 1].text in _HAS:
        back -= 1
    before = ends.get(back, "") if back < place else ""
    return before if before in ("tractor", "implement") else ""


_FOR = frozenset(["for", "at", "=", "makes", "gives", "is", "to", "get", "make", "turn"])
SLOWEST_ENGINE, FASTEST_ENGINE = 1100, 4500  # [rpm]; a bare number between may be an engine's


def place_engine_speed(tokens: Sequence[Token], given: Given) -> None:
    """Take "2100 rpm for 540" and "540 at 2100" for the engine's speed at the PTO's.

    Beside it another speed that no word says anything of is no field of ours.
    """
    found = None
    for amount in list(given.loose):
        turns = "rotation" in amount.kinds or not amount.kinds
        if not (turns and SLOWEST_ENGINE <= amount.value <= FASTEST_ENGINE) or amount.spelled:
            continue
        behind = [token.text for token in tokens[amount.last : amount.last + 4]]
        before = [token.text for token in tokens[max(0, amount.first - 5) : amount.first]]
        ahead = [text for text in behind if text not in _FOR and text not in ("the", "rpm")]
        back = [text for text in before if text not in _FOR and text not in ("pto", "rpm", "-")]
        joined = bool(set(behind[:2]) & _FOR) and ahead[:1] in (["540"], ["pto"])
        if joined or (bool(set(before[-2:]) & _FOR) and back[-1:] == ["540"]):
            found = amount
    if found is None:
        return
    given.loose.remove(found)
    why = "the engine's speed for 540"
    given.facts.append(Fact(("pto_engine_rpm",), found.first, found.last, "", found, why))
    others = [a for a in given.loose if _may_turn(a)]
    given.apart += others
    given.loose = [a for a in given.loose if a not in others]


def _may_turn(amount: Amount) -> bool:
    return "rotation" in amount.kinds or (not amount.kinds and amount.value >= SLOWEST_ENGINE)
