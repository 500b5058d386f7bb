"""The words of a message that name a value of a choice."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from calc.reading import loader_tools
from calc.reading.given import NOT_FIELDS, SUBJECTS, Fact, Given
from calc.reading.words import MARK, Said, Token

WANTED = "ballast_box"  # "do I need a ballast box" gives none
_HEAVY, _LIGHT = "rotary_cutter", "rotary_cutter_light"
_HUNG = (["off", "the"], ["off", "my"], ["off", "of"])  # "hang it off the back"
_LENGTHS = frozenset(["in", "inch", "inches", "ft", "cm", "mm"])
LEAST_LIFT = 100  # [lb] or kg of a hitch; a bare number below it is a height
_HAVING = frozenset(["with", "has", "have", "got", "its", "own"])
_HOW_MUCH = frozenset(["how heavy", "how big", "how much", "what weight", "what size"])
_COMPARED = ("tool", "liquid", "outer_wheel")
_NOT_THERE = frozenset(["removed", "off"])


def _is_asked_for(each: Said, tokens: list[Token]) -> bool:
    """Whether a phrase names what is asked for: "do I need trailer brakes", not "need to rake"."""
    if each.value_of("hours"):
        return False  # "what do I need at night"
    before = [token.text for token in tokens[max(0, each.first - 3) : each.first]]
    follows = {token.text for token in tokens[each.last : each.last + 1]}
    if each.value_of("soil_state") and {"how", "too"} & set(before[-1:]):
        return True  # "how wet is too wet"
    compared = any(each.value_of(sense) for sense in _COMPARED)
    if compared and "or" in {*before[-1:], *follows, tokens[each.first].text}:
        return True  # "rake or aerate", "calcium or beet juice"
    if "?" in follows and each.value_of("trailer_brakes") == "own" and not _HAVING & {*before}:
        return True  # "trailer brakes?"
    behind = " ".join(token.text for token in tokens[each.last : each.last + 2])
    last = not tokens[each.last + 1 : each.last + 2] or tokens[each.last + 1].kind == MARK
    if each.value_of("implement_kind") == WANTED and (
        behind in _HOW_MUCH or (last and behind.startswith("weigh"))
    ):
        return True  # "ballast box how heavy?"
    if follows & {"needed", "required"}:
        return True
    return "need" in before and not {"to", "in", "at", "on", "before", "for"} & set(before)


def _is_away(each: Said, tokens: list[Token]) -> bool:
    """Whether what a phrase names is said not to be there: "backhoe removed", "without a tiller".

    A phrase that holds such a word itself says what it says.
    """
    behind = tokens[each.last : each.last + 1]
    before = [token.text for token in tokens[max(0, each.first - 2) : each.first]]
    without = before[-1:] in (["without"], ["no"]) or (
        before[-2:-1] == ["without"] and before[-1] in ("a", "the", "my", "any")
    )
    hung = [token.text for token in tokens[each.last : each.last + 2]] in _HUNG
    return without or (not hung and any(token.text in _NOT_THERE for token in behind))


def _is_height(each: Said, tokens: list[Token]) -> bool:
    """Whether "at the balls" tells where a height is, not a lift: "lift is 30 in at the balls"."""
    before = tokens[each.first - 1].text if each.first else ""
    low = before.isdigit() and int(before) < LEAST_LIFT  # "lift height 28 at the balls"
    return each.value_of("lift_rated_at") == "0" and (before in _LENGTHS or low)


def place_choices(said: Iterable[Said], tokens: list[Token], given: Given) -> None:
    """Take every word that names a value of a choice; where two disagree, neither is taken."""
    found: dict[str, list[Fact]] = {}
    generic: list[Said] = []
    said = [each for each in said if not _is_height(each, tokens)]
    tools = {each.first for each in said if each.value_of("implement_kind")}
    for each in said:
        for sense in each.senses:
            if sense.sense == "generic":
                generic += [] if _is_away(each, tokens) else [each]
            elif sense.sense == "material" and each.last in tools:
                continue  # "a brush flail": the word is part of its name
            elif sense.sense not in NOT_FIELDS and not (
                _is_away(each, tokens)
                if sense.sense in SUBJECTS and sense.value != WANTED
                else _is_asked_for(each, tokens)
            ):
                why = f"“{each.phrase}” says it" if each.exact else "spelled almost so"
                fact = Fact((sense.sense,), each.first, each.last, sense.value, why=why)
                found.setdefault(sense.sense, []).append(fact)
    front, _ = loader_tools.front_and_behind(said)
    if front:  # the one behind is the implement; the other has its mass alone
        held = {each.first for each in front}
        found["implement_kind"] = [f for f in found["implement_kind"] if f.first not in held]
    light = any(
        tokens[place].text == "light" and tokens[place + 1].text == "duty"
        for place in range(len(tokens) - 1)
    )
    for each in generic:
        _place_generic(each, found, light=light)
    if light:  # "rotary cutter (light duty)"
        cutters = found.get("implement_kind", [])
        found["implement_kind"] = [
            replace(f, text=_LIGHT) if f.text == _HEAVY else f for f in cutters
        ]
    for facts in found.values():
        values = {fact.text for fact in facts}
        (given.facts if len(values) == 1 and facts[0].text else given.doubtful).extend(facts)


def _place_generic(each: Said, found: dict[str, list[Fact]], *, light: bool) -> None:
    """Take "cutter" for the cutter that the message names elsewhere, or for the usual one.

    "Light duty 5 ft cutter" names the light one.
    """
    options = tuple(each.value_of("generic").split())
    named = found.setdefault("implement_kind", [])
    if any(fact.text for fact in named):
        kinds = {fact.text for fact in named}
        if kinds.isdisjoint(options) and not any(each.phrase[:4] in kind for kind in kinds):
            # a second machine: "a ballast box, and will it pull the rake"
            named.append(Fact(("implement_kind",), each.first, each.last, others=options))
        return
    usual = options[0] if all(option.startswith(options[0]) for option in options) else ""
    if usual and light:
        usual = next((option for option in options if option.endswith("_light")), usual)
    why = f"“{each.phrase}” may be any of these" if not usual else f"“{each.phrase}” says it"
    named.append(Fact(("implement_kind",), each.first, each.last, usual, why=why, others=options))
