"""What a message asks: patterns of words, each of which belongs to one question of the site.

A pattern is a row of `words/asked`: all of its words stand in one sentence, in any order; `a/b` is
either of them, `!a` must not stand there. A word in angle brackets is a kind of thing: any
implement, any tire, an amount of power. Of patterns that share a word the longest counts. A weak
pattern counts only where no strong one does.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache

from calc import tables, worksheets
from calc.mechanics import typical
from calc.reading.given import DRIVEN_BY_RATING, Given, subject_of
from calc.reading.words import Said, common, stem

STRONG = "strong"


@dataclass(frozen=True, slots=True)
class Pattern:
    """A row of the table: what must stand in a sentence, what must not, and what it then asks."""

    needs: tuple[tuple[str, ...], ...]
    without: frozenset[str]
    worksheet: str
    asks: tuple[str, ...]
    strong: bool


@dataclass(frozen=True, slots=True)
class Asked:
    """A question that a message asks, and the tokens that ask it."""

    worksheet: str
    ask: str
    places: tuple[int, ...]
    named: bool = True  # whether its words say which ask, or only of what they speak


def _plain(word: str) -> str:
    return word if word.startswith("<") else stem(word)


@cache
def patterns() -> tuple[Pattern, ...]:
    """Return every pattern, in the order in which they are tried."""
    found = []
    for row in tables.rows("words/asked"):
        if row["worksheet"] not in worksheets.names():
            continue
        words = row["words"].split()
        needs = tuple(tuple(map(_plain, w.split("/"))) for w in words if not w.startswith("!"))
        without = frozenset(_plain(word[1:]) for word in words if word.startswith("!"))
        asks = tuple(row["ask"].split())
        found.append(Pattern(needs, without, row["worksheet"], asks, row["strength"] == STRONG))
    return tuple(sorted(found, key=lambda pattern: (-len(pattern.needs), not pattern.asks)))


@cache
def ask_of(worksheet: str, asks: tuple[str, ...]) -> str:
    """Return the first of `asks` that the worksheet has, else its main one's key."""
    own = [ask.key for ask in worksheets.load(worksheet).asks]
    return next((key for key in asks if key in own), own[0] if own else "")


@cache
def _mounted() -> frozenset[str]:
    """Return the kinds of implement that every page about implements knows."""
    return frozenset(key for key, _ in typical.implement_kinds())


def meanings(each: Said) -> set[str]:
    """Return the words that a phrase stands for in patterns: its synonyms, and what it names."""
    words = {stem(sense.value) for sense in each.senses if sense.sense == "word"}
    kind, subject = each.value_of("implement_kind"), subject_of(each)
    if kind and kind not in _mounted():
        subject = subject if subject == "generator" else "crop"
    words |= {f"<{subject}>"} if subject else set()
    words |= {subject} & {DRIVEN_BY_RATING}  # "pto genset" is one too
    words |= {f"<{sense.sense}>" for sense in each.senses if sense.sense in _KINDS}
    words |= {f"<{sense.value}>" for sense in each.senses if sense.sense in _NAMED}
    words |= {"lamp" for sense in each.senses if sense.sense.endswith("_lamp")}
    words |= {sense.sense for sense in each.senses if sense.sense == "liquid"}
    return words


def right_words() -> frozenset[str]:
    """Return the words that are never taken for misspelled ones."""
    return common()


def marks_of(stems: Sequence[str], said: Sequence[Said], given: Given) -> list[set[str]]:
    """Return the words that stand at each place: stems, their meanings, and kinds of things."""
    marks: list[set[str]] = [{word} for word in stems]
    for each in said:
        words = meanings(each)
        for place in range(each.first, each.last):
            marks[place] |= words
    for amount in (*given.loose, *(f.amount for f in given.facts if f.amount)):
        if amount.first and amount.value >= LEAST_SAID:
            # "weighs about 500 lb" asks for no weight, "worth 7k" for no price.
            place = amount.first - 1
            while place and stems[place] in _BEFORE_AMOUNT:
                place -= 1
            marks[place] -= {_HEAVY, _WORTH}
        if "money" in amount.kinds:
            marks[amount.last - 1].discard("hop")  # "350 bucks" buck nobody
    for place, word in enumerate(stems[1:], 1):
        if word == "power" and stems[place - 1] in _SO_MUCH:
            marks[place].discard("run")  # "do I lose power" runs nothing
    for place in range(len(stems) - 2):
        if stems[place + 1 : place + 3] == ["to", "know"]:
            marks[place] -= _WANTING  # "need to know if" needs nothing else
    for fact in given.facts:
        if fact.amount and fact.amount.kinds:
            # "35 hp tractor" asks for no power.
            for place in range(fact.first, fact.last):
                marks[place] -= _POWER_UNITS
        if fact.amount and "pto_power" in fact.fields:
            # "22 kW at the pto" asks for nothing of the shaft.
            for place in range(fact.first, min(fact.last + 3, len(marks))):
                marks[place].discard("pto")
        words = {f"<{name}>" for name in fact.fields}
        words |= {"<size>"} if any(name.endswith("tire") for name in fact.fields) else set()
        power = fact.amount and "power" in fact.amount.kinds
        if (power and fact.fields[0] != "power_needed") or fact.fields[0] in _OF_TRACTOR:
            words.add("<power>")
        # At one place: the tokens of one tire are not two tires.
        marks[fact.first] |= words
    return marks


_BEFORE_AMOUNT = frozenset(map(stem, tables.small_words("hedges"))) | {"in", "at", "only"}
_OF_TRACTOR = ("pto_power", "engine_power")
# Words that two questions of one sentence may share.
_QUESTION_WORDS = frozenset(map(stem, tables.small_words("question words")))
_ASKING = frozenset(["?", *map(stem, tables.small_words("asking words"))])
_BEING = frozenset(["is", "are"])
_MODAL = frozenset(["must", "can", "could", "will", "would", "should", "need", "want", "may"])
_WANTING = frozenset(["need", "want"])
_WHO = frozenset(["i", "we", "they", "he", "she", "you"])
_IF = frozenset(["if", "whether", "what", "how", "which", "when", "where", "why"])
_BEGINNING = frozenset([",", "and", "but", "or", ";", "-", ".", ":"])
_SO_MUCH = frozenset(map(stem, ["lose", "lost", "losing", "enough", "much", "more", "less", "any"]))
_POWER_UNITS = frozenset(["cool", "hp", "kw", "horse", stem("horse"), stem("horsepower")])
LEAST_SAID = 50.0  # in any unit; "heavy 2 bottom plow" says no mass
_HEAVY, _WORTH, _IT, _TOOL = "heavy", "worth", "it", "<implement>"
_CARS = "<traffic>"
_NAMED = frozenset(["implement_kind", "implement_shaft"])
_KINDS = frozenset(["tool", "soil_state", "quick_coupler", "liquid", "machine", "hours"])


def questions(marks: list[set[str]], ends: Sequence[int]) -> list[Asked]:
    """Return what a message asks, in the order in which it asks."""
    begin, found, told = 0, list[Asked](), list[Asked]()
    named, asking, before = False, set[int](), 0
    for end in ends:
        # "Have you a 6 ft mower? Will it go on my 33 hp?"
        own = any(_TOOL in each for each in marks[begin:end])
        for each in marks[begin:end] if named and not own else ():
            if _IT in each:
                each.add(_TOOL)
                break
        named |= own
        asks = any(_asks(marks, place, begin) for place in range(begin, end))
        here = _of_sentence(marks, begin, end, strong=True)
        if asks and not here and before < begin:
            # "I mow 8 acres with a 6 ft mower. How long at 4 mph?"
            reach = set(range(begin, end))
            both = _of_sentence(marks, before, end, strong=True)
            here = [each for each in both if _is_asked_in(each, marks, reach)]
        (found if asks else told).extend(here)
        asking |= set(range(begin, end)) if asks else set()
        before, begin = end if asks else begin, end
    if not found and asking:
        # "The shaft is 31 in closed. Do I have to cut it?"
        both = _of_sentence(marks, 0, len(marks), strong=True)
        found = [each for each in both if _is_asked_in(each, marks, asking)]
    # "Fluid in the tires. Need a ballast box?" asks nothing about the fluid.
    found = found or told
    if not found:
        found = _of_sentence(marks, 0, len(marks), strong=True)
    if not found:
        found = _of_sentence(marks, 0, len(marks), strong=False)[:1]
    trains = [each for each in (*found, *told) if each.worksheet == "rail-crossing"]
    if trains and not any(_CARS in each for each in marks):
        # "I cross tracks at 4 mph. How far must I see?" asks of trains where it tells of no cars.
        asks_sight = any(each.worksheet == "closing" for each in found)
        found = [each for each in found if each.worksheet != "closing"]
        found += trains[:1] if asks_sight else []
    return _once(found)


def _is_asked_in(found: Asked, marks: list[set[str]], asking: set[int]) -> bool:
    """Whether a word of a question stands where a message asks, and not only "what" or "need"."""
    return any(marks[p].isdisjoint(_QUESTION_WORDS) for p in found.places if p in asking)


def _asks(marks: list[set[str]], place: int, begin: int) -> bool:
    """Whether a word asks; "is" does so at the beginning: "the pins are 28 in" asks nothing."""
    words = marks[place] & _ASKING
    if words & _MODAL and place > begin and marks[place - 1] & _WHO:
        # "we must go along the road" asks nothing, "if we must" does
        return place - 1 > begin and bool(marks[place - 2] & _IF)
    if words and words <= _BEING:
        return place == begin or not marks[place - 1].isdisjoint(_BEGINNING)
    return bool(words)


def _of_sentence(marks: list[set[str]], begin: int, end: int, *, strong: bool) -> list[Asked]:
    present: dict[str, list[int]] = {}
    for place in range(begin, end):
        for word in marks[place]:
            present.setdefault(word, []).append(place)
    anywhere = set[str]().union(*marks)
    taken: dict[int, str] = {}
    found: list[Asked] = []
    for pattern in patterns():
        # One word alone is read by the whole message: "A slope of 15 degrees. Rollover?"
        said = present if len(pattern.needs) > 1 else anywhere
        if pattern.strong != strong or not pattern.without.isdisjoint(said):
            continue
        places = _matched(pattern.needs, present, ())
        if places is None:
            continue
        if any(taken.get(place, pattern.worksheet) != pattern.worksheet for place in places):
            continue
        if any(each.worksheet == pattern.worksheet for each in found):
            continue
        own = [place for place in places if marks[place].isdisjoint(_QUESTION_WORDS)]
        taken.update(dict.fromkeys(own, pattern.worksheet))
        ask = ask_of(pattern.worksheet, pattern.asks)
        found.append(Asked(pattern.worksheet, ask, tuple(sorted(places)), bool(pattern.asks)))
    return sorted(found, key=lambda each: each.places[-1 if strong else 0])


def _matched(
    needs: tuple[tuple[str, ...], ...], present: dict[str, list[int]], used: tuple[int, ...]
) -> tuple[int, ...] | None:
    """Return a place for each need, no place twice; None when one has none."""
    if not needs:
        return used
    for word in needs[0]:
        for place in present.get(word, ()):
            if place not in used:
                rest = _matched(needs[1:], present, (*used, place))
                if rest is not None:
                    return rest
    return None


def _once(found: list[Asked]) -> list[Asked]:
    """Return every worksheet's question once, where it is first asked, as it is most plainly."""
    seen: dict[str, Asked] = {}
    for each in found:
        first = seen.setdefault(each.worksheet, each)
        if each.named and not first.named:
            seen[each.worksheet] = replace(each, places=first.places + each.places)
    kept = list(seen.values())
    for pair in _ALIKE:
        both = [each for each in kept if (each.worksheet, each.ask) in pair]
        kept = [each for each in kept if each not in both[1:]]
    return kept


# What two pages answer alike is answered once.
_ALIKE = (
    {("pairing", "front"), ("ballast", "carry")},
    {("pairing", "weight"), ("ballast", "front_weight")},
    {("pairing", "lift"), ("ballast", "lift")},
)
