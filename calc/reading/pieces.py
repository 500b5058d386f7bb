"""Amounts of several pieces: weights of a bracket, bottoms of a plow, lamps by their watts."""

from __future__ import annotations

from dataclasses import replace

from calc import tables
from calc.reading.amounts import Amount
from calc.reading.given import Fact, Given
from calc.reading.words import MARK, NUMBER, Said, Token, words_at

_TIMES = frozenset(["of", "x", "@", "at"])
WHEELED = frozenset(["wagons", "trailers", "carts", "racks", "gravity"])
_TOWED = WHEELED | {"loads", "bales", "pallets"}
_LEAST_TOWED = 500.0  # of each, where no unit is said
_APIECE = frozenset(["each", "apiece", "ea"])
_WEIGHTS = frozenset(["weight", "weights", "suitcase", "suitcases"])
_MOST_PIECES = 30  # weights on a bracket, or bottoms of a plow
_WIDEST_BOTTOM = 20.0  # [in]


def multiplied(tokens: list[Token], amounts: list[Amount]) -> list[Amount]:
    """Return the amounts with "6 of 42 lb" of weights as 252 lb, and "2 bottom 14 in" as 28 in."""
    bottoms = next((place for place, token in enumerate(tokens) if token.text in _BOTTOMS), -1)
    joined = bottoms > 0 and tokens[bottoms - 1].text == "-"  # "4-bottom"
    count = next((a for a in amounts if a.last == bottoms - joined and _are_pieces(a)), None)
    found: list[Amount] = []
    for amount in amounts:
        each_mass = _each_of(tokens, amount, amounts)
        if each_mass:
            mass = float(each_mass)
            each = replace(amount, last=amount.last + 2, number=f"{mass:g}", value=mass)
            found.append(_product(amount, each, amount.first))
        elif _is_part(tokens, amount):
            share = f"{100 * amount.value:.4g}"
            found.append(replace(amount, number=share, kinds={"fraction": "%"}))
        elif _is_watts(tokens, amount):
            found.append(replace(amount, kinds={"power": "W"}))
        elif _is_across(tokens, amount, amounts):
            continue  # "a 4x5 bale"
        elif found and _weigh_together(tokens, found[-1], amount):
            found[-1] = _product(found[-1], amount, found[-1].first)
        elif count and _is_of_a_bottom(tokens, amount):
            across = replace(amount, kinds={"length": "in"})
            found.append(_product(count, across, amount.first))
        else:
            found.append(amount)
    return found


_FILLS = frozenset(["water", "fluid", "liquid", "beet", "calcium", "methanol"])


def _is_part(tokens: list[Token], amount: Amount) -> bool:
    """Whether a number says how full a thing is: "3/4 full", "filled two thirds"."""
    before = words_at(tokens, amount.first - 1, amount.first)
    behind = words_at(tokens, amount.last, amount.last + 2)
    said = behind[:1] in (["full"], ["fill"]) or before == ["filled"]
    said |= behind[:1] == ["of"] and bool(_FILLS & set(behind))
    return said and not amount.kinds and 0 < amount.value < 1


_MAKES = {"halogen": "halogen", "halogens": "halogen", "led": "led", "leds": "led"}


def _is_watts(tokens: list[Token], amount: Amount) -> bool:
    """Whether a number is the watts of a lamp of the table: "halogen 55s", "2 x 55 halogens"."""
    seconds = "seconds" in amount.kinds and tokens[amount.last - 1].text == "s"
    if amount.spelled or (amount.kinds and not seconds):
        return False
    before = words_at(tokens, amount.first - 1, amount.first)
    behind = words_at(tokens, amount.last, amount.last + 1)
    beside = before + (behind if before == ["x"] or seconds else [])
    makes = {_MAKES[word] for word in beside if word in _MAKES}
    rows = tables.rows("road/lamp_loads") if makes else ()
    return any(r["watts"] == amount.number and r["lamp"].split("-")[0] in makes for r in rows)


def counts_watts(tokens: list[Token], count: Amount, each: Amount, cued: list[Said]) -> bool:
    """Whether a number counts lamps that only their watts name: "2 halogen 55s", "2x55 W"."""
    between = words_at(tokens, count.last, each.first)
    named = any(each.last <= said.first <= each.last + 1 for said in cued)
    bare = not count.kinds and (not between or between[0] in ("led", "halogen", "x"))
    return bare and each.kinds.get("power") == "W" and not named


MOST_LAMPS = 8  # of a list: more behind "lamps" are watts


def is_tallied(tokens: list[Token], amount: Amount, said: Said) -> bool:
    """Whether a count stands behind what it counts, in a list: "tails 2, flashers 2"."""
    ends = all(token.kind == MARK for token in tokens[amount.last :][:1])
    return said.last == amount.first and ends and amount.value <= MOST_LAMPS


_BOTTOMS = frozenset(["bottom", "bottoms", "furrow", "furrows"])


def _are_pieces(amount: Amount) -> bool:
    return not amount.kinds and amount.value.is_integer() and 2 <= amount.value <= _MOST_PIECES


def _weigh_together(tokens: list[Token], count: Amount, each: Amount) -> bool:
    """Whether so many pieces and a mass are those of weights: "6 of 42 lb", "six 42 lb weights"."""
    between = set(words_at(tokens, count.last, each.first))
    beside = {token.text for token in (*tokens[: each.first], *tokens[each.last :][:2])}
    apiece = not _APIECE.isdisjoint(words_at(tokens, each.last, each.last + 1))
    heavy = "mass" in each.kinds or (not each.kinds and each.value >= _LEAST_TOWED)
    near = words_at(tokens, count.last, min(count.last + 2, each.first))
    if _are_pieces(count) and heavy and apiece and WHEELED & set(near):
        return not {".", "?", ";"} & between  # "2 hay wagons hooked together, 4000 lb each"
    pieces = _are_pieces(count) and "mass" in each.kinds
    return pieces and between <= _TIMES | _WEIGHTS and bool(beside & _WEIGHTS)


def _is_across(tokens: list[Token], amount: Amount, amounts: list[Amount]) -> bool:
    """Whether a bare number is the first of two sizes: the 4 of "4x5", and not of "4x55 W"."""
    behind = tokens[amount.last : amount.last + 2]
    joined = len(behind) == 2 and behind[0].text == "x" and behind[1].kind == NUMBER
    touches = joined and behind[0].start == tokens[amount.last - 1].end
    return touches and not amount.kinds and all(a.first != amount.last + 1 for a in amounts)


def _each_of(tokens: list[Token], count: Amount, amounts: list[Amount]) -> str:
    """Return the 70 of "suitcase 4x70": what each of so many weights weighs, without a unit."""
    behind = tokens[count.last : count.last + 2]
    beside = {t.text for t in (*tokens[: count.first][-3:], *tokens[count.last + 2 :][:2])}
    pieces = _are_pieces(count) and len(behind) == 2 and bool(beside & _WEIGHTS)
    pieces &= all(a.first != count.last + 1 or not a.kinds for a in amounts)  # "4 x 42 lb"
    return (
        behind[1].text
        if pieces and behind[0].text in ("x", "@") and behind[1].kind == NUMBER
        else ""
    )


def _is_of_a_bottom(tokens: list[Token], amount: Amount) -> bool:
    """Whether a size is that of a bottom: "2 bottom 14 in", "3 bottom plow, 14s", "2 bottom 14"."""
    inches = amount.kinds.get("length") == "in" or amount.kinds.get("seconds") == "s"
    before = tokens[amount.first - 1].text if amount.first else ""
    inches |= not amount.kinds and before in _BOTTOMS
    return inches and amount.number.isdigit() and amount.value <= _WIDEST_BOTTOM


def _product(count: Amount, each: Amount, first: int) -> Amount:
    value = count.value * each.value
    return replace(each, first=first, number=f"{value:g}", value=value)


_LAMPS = frozenset(
    [
        "head",
        "heads",
        "halogen",
        "halogens",
        "led",
        "leds",
        "lamp",
        "lamps",
        "light",
        "lights",
        "headlight",
        "headlights",
        "headlamp",
        "headlamps",
        "worklight",
        "worklights",
        "bar",
        "bars",
    ]
)
_OTHER_LAMPS = frozenset(
    ["tail", "taillight", "taillights", "turn", "flashers", "beacon", "beacons"]
)
_LEDS = frozenset(["led", "leds", "bar", "bars"])  # a light bar has no bulbs
_HEAD = frozenset(["head", "heads", "headlight", "headlights", "headlamp", "headlamps"])


def place_lamps(tokens: list[Token], begin: int, end: int, given: Given) -> None:
    """Take the watts of the lamps of a sentence for their kind.

    Where the table has no such lamp, what the words alone say of the kind is dropped.
    """
    for amount in [a for a in given.loose if a.kinds.get("power") == "W"]:
        whole = tokens[amount.last : amount.last + 1]  # "100 W of lights" is all of them
        if begin <= amount.first < end and not any(token.text == "of" for token in whole):
            _place_lamp(_lamps_beside(tokens[begin:end], amount, begin), amount, begin, end, given)


def place_counted_leds(tokens: list[Token], given: Given) -> None:
    """Take "4 leds" for the kind of the lamps that it counts."""
    for fact in given.facts:
        named = words_at(tokens, fact.last, fact.last + 2)
        alone = named[:1] in (["led"], ["leds"]) and not (_LAMPS | _OTHER_LAMPS) & set(named[1:])
        watts = any(f.fields == ("work_lamp",) and f.text.startswith("led") for f in given.facts)
        if fact.fields == ("work_count",) and alone and not watts:
            why = "so they are called"
            given.facts = [f for f in given.facts if f.fields != ("work_lamp",)]
            given.facts.append(Fact(("work_lamp",), fact.last, fact.last + 1, "led-work", why=why))
            return


def place_led_flashers(tokens: list[Token], given: Given) -> None:
    """Take "leds" in a question about the flasher for the kind of its lamps, if none is named."""
    if any(fact.fields == ("flash_lamp",) for fact in given.facts):
        return
    for place, token in enumerate(tokens):
        if token.text in ("led", "leds"):
            why = "the question is about those that flash"
            given.facts.append(Fact(("flash_lamp",), place, place + 1, "led-turn", why=why))
            return


def _place_lamp(beside: set[str], amount: Amount, begin: int, end: int, given: Given) -> None:
    if not beside & _LAMPS:
        return
    name = "head_lamp" if beside & _HEAD else "work_lamp"
    make = "led" if beside & _LEDS and "halogen" not in beside else "halogen"
    fitting = [
        row["lamp"]
        for row in tables.rows("road/lamp_loads")
        if row["watts"] == amount.number and row["lamp"].startswith(make)
    ]
    why = "its watts and its kind"
    others = [f for f in given.facts if f.fields == (name,) and f.why == why]
    given.facts = [
        f
        for f in given.facts
        if f.fields != (name,) or f.text in fitting or not begin <= f.first < end
    ]
    if len(fitting) == 1:
        given.loose.remove(amount)
        own = Fact((name,), amount.first, amount.last, fitting[0], why=why)
        others += [f for f in given.doubtful if f.fields == (name,) and f not in others]
        if all(f.text == own.text for f in others):
            given.facts.append(own)
        else:  # "two 27 W leds beside two 55 W halogens"
            unsaid = ((name,), (name.replace("lamp", "count"),))
            given.facts = [f for f in given.facts if f.fields[:1] not in unsaid]
            given.doubtful += [*others, own]


_JOINED = frozenset(["+", "and", "plus"])
_NEAR_LAMP = 4  # words between an amount of watts and the lamps that it is of


def _lamps_beside(sentence: list[Token], amount: Amount, begin: int) -> set[str]:
    """Return the words from an amount up to the lamps behind it, or else before it."""
    after = sentence[amount.last - begin :][:_NEAR_LAMP]
    counts = [
        place for place, token in enumerate(after) if token.kind == NUMBER or token.text in _JOINED
    ]
    # "2 headlights 55 w, 2 tail lights": what is counted next is other lamps
    behind = [token.text for token in after[: counts[0] if counts else None]]
    before = [token.text for token in sentence[: amount.first - begin]][-_NEAR_LAMP:]
    for words in (behind, before[::-1]):
        places = [place for place, word in enumerate(words) if word in _LAMPS]
        if places:
            make = {word for word in before[-1:] if words is behind and word in _MAKES}
            reach = places[0] + (1 if words is behind else 3)
            while words is behind and words[reach : reach + 1] and words[reach] in _LAMPS:
                reach += 1  # "light bar"
            found = make | set(words[:reach])
            if words is behind and found <= _MAKES.keys():
                # "2 headlights 60 W halogen"
                begin = max((p for p, word in enumerate(before) if word[0].isdigit()), default=-1)
                found |= set(before[begin + 1 :]) & _LAMPS
            return found
    return set()
