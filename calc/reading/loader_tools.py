"""What a message says of the loader: forks and spears that hang in front, with what they carry."""

from __future__ import annotations

from collections.abc import Sequence

from calc.reading.given import Fact, Given, subject_of
from calc.reading.words import Said, Sense, Token

# A carrier behind the tractor, and the same thing on a loader.
CARRIERS = {"pallet_forks": "forks", "bale_spear": "spear"}
# A tool that hangs behind as a rule, and the same in front.
FRONT_TOOLS = {"snow_blower": "front_blower", "rear_blade": "front_blade", "blade": "front_blade"}
_OF_FRONT = frozenset(["axle", "weight", "weights", "wheel", "wheels", "tire", "tires", "loader"])
_WORDS = {"fork": "forks", "forks": "forks", "spear": "spear", "spike": "spear"}
_IN_FRONT = frozenset(["front", "loader", "fel", "skidsteer"])
_BEHIND = frozenset(["rear", "back", "behind", "3", "three", "hitch"])
_ON_HITCH = _BEHIND | {"3pt", "threepoint"}
_JOINS = frozenset(
    ["on", "of", "the", "my", "a", "an", "end", "front", "mounted", "up", "with", "at", "out"]
)
REACH = 5  # words between the tool and the loader that carries it


def on_the_loader(said: Sequence[Said], tokens: Sequence[Token]) -> list[Said]:
    """Return the phrases, with forks and spears that hang on the loader as that.

    "Front forks", "bale spear on the front loader" and "1200 lb on the forks of the loader" are
    no implements behind the tractor: what they carry is a load of the loader.
    """
    found = []
    inside = {place for each in said for place in range(each.first, each.last)}
    for each in said:
        tool = CARRIERS.get(each.value_of("implement_kind"), "")
        if tool and _is_in_front(each.first, each.last, tokens):
            bare = _as_load(each)  # "a round bale up front" says not what holds it
            each = bare if bare is not each else _tool(each.first, each.last, tool, each.phrase)
        kind = FRONT_TOOLS.get(each.value_of("implement_kind") or each.phrase, "")
        if kind and _hangs_in_front(each.last, tokens):
            each = Said(each.first, each.last, (Sense("implement_kind", kind),), each.phrase)
        found.append(each)
    for place, token in enumerate(tokens):
        tool = _WORDS.get(token.text, "") if place not in inside else ""
        if tool and _is_in_front(place, place + 1, tokens):
            found.append(_tool(place, place + 1, tool, token.text))
        elif tool and _is_on_hitch(place, tokens):  # "forks on the 3 pt"
            kind = next(kind for kind, own in CARRIERS.items() if own == tool)
            sense = Sense("implement_kind", kind)
            found.append(Said(place, place + 1, (sense,), token.text))
    if any(each.value_of("loader_tool") for each in found):
        # What lies on a spear in front is a load: "round bale on the loader's spear".
        found = [_as_load(each) for each in found]
    return sorted(found, key=lambda each: each.first)


def _hangs_in_front(last: int, tokens: Sequence[Token]) -> bool:
    """Whether "on the front" stands behind a tool, and not "on the front axle"."""
    behind = [token.text for token in tokens[last : last + REACH]]
    behind = behind[1:] if behind[:1] in (["is"], ["be"], ["goes"]) else behind
    if behind[:1] not in (["on"], ["in"], ["up"], ["mounted"]) or "front" not in behind:
        return False
    place = behind.index("front")
    return set(behind[:place]) <= _JOINS | {"in"} and not set(behind[place + 1 :][:1]) & _OF_FRONT


def _as_load(each: Said) -> Said:
    bale = each.value_of("implement_kind") == "bale_spear" and each.phrase.split()[-1] == "bale"
    return Said(each.first, each.last, (Sense("subject", "load"),), each.phrase) if bale else each


def _tool(first: int, last: int, tool: str, phrase: str) -> Said:
    return Said(first, last, (Sense("loader_tool", tool), Sense("subject", "load")), phrase)


def _is_in_front(first: int, last: int, tokens: Sequence[Token]) -> bool:
    before = [token.text for token in tokens[max(0, first - 2) : first]]
    words = {token.text for token in tokens}
    alone = {"loader", "fel"} & words and not _BEHIND & words  # nothing hangs behind
    if set(before[-1:]) & _IN_FRONT or alone:
        return True
    for token in tokens[last : last + REACH]:
        if token.text in _IN_FRONT:
            return True
        if token.text not in _JOINS:
            return False
    return False


def _is_on_hitch(place: int, tokens: Sequence[Token]) -> bool:
    for token in tokens[place + 1 : place + 1 + REACH]:
        if token.text in _ON_HITCH:
            return True
        if token.text not in _JOINS:
            return False
    return False


def front_and_behind(said: Sequence[Said]) -> tuple[list[Said], list[Said]]:
    """Return the tools that hang in front and those behind, where a message names both."""
    named = [each for each in said if each.value_of("implement_kind") or each.value_of("generic")]
    front = [each for each in named if each.value_of("implement_kind") in FRONT_TOOLS.values()]
    behind = [each for each in named if each not in front]
    return (front, behind) if front and behind else ([], [])


def part_masses(said: Sequence[Said], given: Given) -> None:
    """Give what is in front its own mass: "blower up front 350 lb, 400 lb spreader behind"."""
    front, behind = front_and_behind(said)
    masses = [a for a in given.loose if "mass" in a.kinds]
    masses += [f.amount for f in given.facts if f.amount and f.fields[0] == "implement_mass"]
    tools = sorted([*front, *behind], key=lambda each: each.first)
    for amount in masses if front else ():
        after = [each for each in tools if each.first == amount.last]
        near = range(amount.first - _NEAR_TOOL, amount.first + 1)
        before = [each for each in tools if each.last in near]
        owner = (after or before[-1:] or behind)[0]
        name = "front_implement_mass" if owner in front else "implement_mass"
        given.loose = [each for each in given.loose if each != amount]
        given.facts = [fact for fact in given.facts if fact.amount != amount]
        why = f"“{owner.phrase}” stands beside it"
        given.facts.append(Fact((name,), amount.first, amount.last, "", amount, why))


def part_widths(said: Sequence[Said], given: Given) -> None:
    """Leave the width of what is in front out: "front blower 62 in and a 6 ft rear blade"."""
    front, behind = front_and_behind(said)
    widths = [f.amount for f in given.facts if f.amount and "working_width" in f.fields]
    widths += [a for a in given.loose if "length" in a.kinds]
    for amount in widths if front else ():
        owner = [s for s in (*front, *behind) if amount.last == s.first]
        owner = owner or [s for s in (*front, *behind) if s.last == amount.first]
        if owner:
            given.loose = [each for each in given.loose if each != amount]
            given.facts = [fact for fact in given.facts if fact.amount != amount]
        if owner and owner[0] in front:
            given.apart.append(amount)
        elif owner:
            why = f"“{owner[0].phrase}” stands beside it"
            wide = Fact(("working_width",), amount.first, amount.last, "length", amount, why)
            given.facts.append(wide)


_NEAR_TOOL = 4  # words before a mass, for the tool that it is of


def place_grapple(said: Sequence[Said], given: Given) -> None:
    """Take a grapple's oil for all that is asked about, where no implement is named behind."""
    grapples = [each for each in said if subject_of(each) == "grapple"]
    named = any(f.fields == ("implement_kind",) for f in (*given.facts, *given.doubtful))
    if grapples and not named:
        first, last = grapples[0].first, grapples[0].last
        why = "a grapple hangs on the loader, and nothing is named behind"
        given.facts.append(Fact(("implement_kind",), first, last, "none", why=why))
