"""What words leave open and the amount itself says: a year, hours of a meter, a height, a hill."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from calc import quantities, tables
from calc.reading.amounts import Amount
from calc.reading.given import Fact, Given, subject_of
from calc.reading.words import MARK, Said, Token

_FUELS = frozenset(["gas", "diesel"])  # "a 1955 gas tractor"
_MADE = frozenset(["built", "made", "model", "from", "year", "vintage"])
FIRST_YEAR, LAST_YEAR = 1930, 2040  # a bare number between them may be a year


def may_be_year(amount: Amount) -> bool:
    """Whether a bare number may be the year that something was made in."""
    whole = not amount.kinds and not amount.spelled and amount.number.isdigit()
    return whole and FIRST_YEAR <= amount.value <= LAST_YEAR


def place_year(tokens: list[Token], subjects: list[tuple[Said, str]], given: Given) -> None:
    """Take "2015 tractor", "a 1998 model", "built in 1982" for the year of the tractor."""
    others = {subject for _, subject in subjects} - {"tractor"}
    for amount in list(given.loose):
        if not may_be_year(amount):
            continue
        place = amount.last
        place += any(token.text in _FUELS for token in tokens[place : place + 1])
        behind = [s for said, s in subjects if said.first == place]
        around = tokens[max(0, amount.first - 2) : amount.first] + tokens[amount.last :][:1]
        said = any(token.text in _MADE for token in around)
        powers = [f for f in given.facts if f.amount and "power" in f.amount.kinds]
        if any(fact.first == amount.last for fact in powers):
            behind = ["tractor"]  # "my 2012 35 hp"
        before = [token.text for token in tokens[max(0, amount.first - 2) : amount.first]]
        if before == ["tractor", "is"]:
            behind = ["tractor"]
        if behind == ["tractor"] or (said and not behind and not {"implement", "towed"} & others):
            given.loose.remove(amount)
            why = "a year beside the tractor" if behind else "a year that it was made in"
            fact = Fact(("tractor_made",), amount.first, amount.last, "", amount, why)
            given.facts.append(fact)


# [lb] of what somebody calls a tractor, what hangs behind it, and a load, as bare numbers.
_BARE = {
    "tractor": ("tractor_mass", 1000.0, 15000.0),
    "implement": ("implement_mass", 200.0, 5000.0),
    "load": ("loader_payload", 200.0, 5000.0),
    "towed": ("towed_mass", 500.0, 40000.0),
}
# Masses that lie on no trailer, which a bare one behind "wagon" may then be the whole of.
_NO_LOAD = ("tractor_mass", "chain_rating", "manual_limit", "tongue_weight", "drawbar_limit")
_BEING = frozenset(tables.small_words("links")) | {"weighs", "weigh", "full", "loaded"}
_FILL = frozenset(["wet", "dry", "dirt", "gravel", "sand", "mulch", "full"])  # "bucket of dirt"
_AND = frozenset(tables.small_words("after a mass"))
_WEIGHING = frozenset(["front", "weigh", "weighs", "weight", "lift", "ballast"])
_PRICED = frozenset(tables.small_words("priced"))


def place_bare_masses(tokens: list[Token], subjects: list[tuple[Said, str]], given: Given) -> None:
    """Take "tractor 2900", "the mower is 780" for masses in a message that gives another mass."""
    own = [f for f in given.facts if f.amount and f.fields[0] in _MASSES]
    units = {f.amount.kinds.get("mass", "lb") for f in own if f.amount}
    units |= {a.kinds["mass"] for a in given.loose if "mass" in a.kinds}
    words = {token.text for token in tokens}
    units = units or ({""} if words & _WEIGHING else set())
    named = {f.fields[0] for f in given.facts}
    others = [f.amount for f in given.facts if f.amount and f.fields[0] not in _NO_LOAD]
    loaded = any("mass" in amount.kinds for amount in (*given.loose, *others))
    if len(units) != 1 or _PRICED & {token.text for token in tokens}:
        return
    for amount in [a for a in given.loose if not (a.kinds or a.spelled or may_be_year(a))]:
        behind = tokens[amount.last : amount.last + 1]
        before = [item for item in subjects if item[0].last <= amount.first][-1:]
        goods = [said for said, _ in subjects if said.first == amount.last]
        if goods and subject_of(goods[0]) == "goods":  # "a 1100 bale"
            before = [item for item in subjects if item[0] is goods[0]]
            behind = []
        if not before or not (not behind or behind[0].kind == MARK or behind[0].text in _AND):
            continue
        between = {token.text for token in tokens[before[0][0].last : amount.first]}
        name, least, most = _BARE.get(before[0][1], ("", 0.0, 0.0))
        if name == "towed_mass" and loaded:
            continue  # "2 bales 900 lb each on a trailer that weighs 2200"
        being = _BEING | _FILL if name == "loader_payload" else _BEING
        if name and name not in named and between <= being and least <= amount.value <= most:
            given.loose.remove(amount)
            named.add(name)
            unit = next(iter(units))
            mass = replace(amount, kinds={"mass": unit} if unit else {})
            why = f"the {before[0][1]} stands before it, where masses are told"
            given.facts.append(Fact((name,), amount.first, amount.last, "", mass, why))


_MASSES = frozenset(["loader_rating", "lift_capacity", *(n for n, *_ in _BARE.values())])


def place_generator(given: Given) -> None:
    """Take a generator's size for the kind of implement too, where no other is named.

    A size that stands behind its label is of the form, which has the kind beside it.
    """
    rated = [f for f in given.facts if f.fields == ("generator_rating",) and f.cost >= 0]
    named = [f for f in (*given.facts, *given.doubtful) if f.fields == ("implement_kind",)]
    if rated and not named:
        first, last = rated[0].first, rated[0].last
        why = "a generator's size says it"
        given.facts.append(Fact(("implement_kind",), first, last, "generator", why=why))


FEWEST_ON_A_METER = 150  # [h]; fewer are hours of work, or hours a year


def place_hours(given: Given) -> None:
    """Take so many hours, which nothing else places, for what the hour meter shows."""
    for amount in list(given.loose):
        if amount.kinds.get("duration") == "h" and amount.value >= FEWEST_ON_A_METER:
            given.loose.remove(amount)
            why = "so many hours are those of a meter"
            given.facts.append(Fact(("hour_meter",), amount.first, amount.last, "", amount, why))


_NEEDED = frozenset(["need", "needs", "require", "required", "requires", "must", "have"])
_FITTED = ("head_lamps", "tail_lamps", "amber_flashers", "turn_signals")


def leave_needed(tokens: list[Token], given: Given) -> None:
    """Take "do I need 2 headlights" for no lamps that are fitted; wiring counts them still."""
    for place, fact in enumerate(given.facts):
        before = {token.text for token in tokens[max(0, fact.first - 3) : fact.first]}
        if fact.fields[-1] in _FITTED and len(fact.fields) > 1 and before & _NEEDED:
            given.facts[place] = replace(fact, fields=fact.fields[:-1])


_FLAKE = {2.0: "calcium-2", 3.5: "calcium-3.5", 5.0: "calcium-5"}  # [lb] in a gallon of water


def place_calcium(tokens: list[Token], given: Given) -> None:
    """Take "calcium, 3.5 lb mix" for the liquid with so much flake in a gallon."""
    if not any(token.text.startswith("calcium") for token in tokens):
        return
    for amount in [*given.loose, *[f.amount for f in given.facts if f.amount]]:
        if amount.kinds.get("mass") == "lb" and amount.value in _FLAKE:
            given.loose = [each for each in given.loose if each is not amount]
            given.facts = [fact for fact in given.facts if fact.amount is not amount]
            why = "so much flake is in a gallon"
            text = _FLAKE[amount.value]
            given.facts.append(Fact(("liquid",), amount.first, amount.last, text, why=why))
            return


_SMALL_UNITS = ("mm", "cm")


def place_units(given: Given) -> None:
    """Take the unit of the other lengths for bare ones: "900 mm level, 940 raised"."""
    lengths = [f.amount for f in given.facts if f.amount and f.text == "length"]
    units = {each.kinds.get("length", "") for each in lengths if each.kinds}
    unit = units.pop() if len(units) == 1 else ""
    if unit not in _SMALL_UNITS:
        return
    for place, fact in enumerate(given.facts):
        if fact.amount and fact.text == "length" and not fact.amount.kinds:
            own = replace(fact.amount, kinds={"length": unit})
            given.facts[place] = replace(fact, amount=own)


def place_arms(given: Given) -> None:
    """Take "lower arms spread 26 to 31 in" as the least and the most that they stand apart."""
    for fact in [f for f in given.facts if f.fields == ("links_narrowest",) and f.amount]:
        ends = fact.amount.number.split(" to ") if fact.amount else []
        if fact.amount and len(ends) == 2:
            given.facts.remove(fact)
            for name, end in zip(("links_narrowest", "links_widest"), ends, strict=True):
                own = replace(fact.amount, number=end, hedged=False)
                given.facts.append(replace(fact, fields=(name,), amount=own))


_HOLES = frozenset(["hole", "holes", "auger", "dig", "digging", "digger", "drill"])


def place_hole(tokens: list[Token], given: Given) -> None:
    """Take "holes 9 in x 36 in" and "6 in holes 3 ft deep" for how wide and how deep."""
    if _HOLES.isdisjoint(token.text for token in tokens):
        return
    amounts = [*given.loose, *(f.amount for f in given.facts if f.amount)]
    long = sorted((a for a in amounts if "length" in a.kinds), key=lambda each: each.first)
    for wide, deep in pairwise(long):
        between = [token.text for token in tokens[wide.last : deep.first]]
        said_deep = any(token.text == "deep" for token in tokens[deep.last : deep.last + 1])
        if between in (["x"], ["by"]) or (said_deep and between in ([], [","])):
            given.loose = [each for each in given.loose if each not in (wide, deep)]
            given.facts = [fact for fact in given.facts if fact.amount not in (wide, deep)]
            why = "a hole so wide and so deep"
            for name, each in (("auger_diameter", wide), ("depth_wanted", deep)):
                fact = Fact((name,), each.first, each.last, "length", each, why)
                given.facts.append(fact)
            return


LOWEST_PLACE = {"ft": 1500, "m": 500}  # less is a distance on the ground


def may_be_altitude(amount: Amount) -> bool:
    """Whether an amount is so many feet or meters that it is how high a place lies."""
    return amount.value >= LOWEST_PLACE.get(amount.kinds.get("distance", ""), float("inf"))


def place_altitude(given: Given) -> None:
    """Take so many feet or meters, which nothing else places, for how high the place lies.

    No wire and no machine is so long: "run a tiller at 6500 ft" says how high.
    """
    long = [f for f in given.facts if f.amount and (f.fields[-1] == "run" or f.text == "length")]
    for fact in long:
        if fact.amount and may_be_altitude(fact.amount):
            given.facts.remove(fact)
            given.loose.append(fact.amount)
    for amount in list(given.loose):
        if may_be_altitude(amount):
            given.loose.remove(amount)
            why = "so many feet are those of a place"
            given.facts.append(Fact(("altitude",), amount.first, amount.last, "", amount, why))


_UP = frozenset(["up", "uphill", "climb", "climbs", "climbing"])
_NEAR_HILL = 3  # words before the slope; behind it the next two


def place_uphill(tokens: list[Token], given: Given) -> None:
    """Leave a slope that is climbed out of the fields for a downgrade, and ask about that.

    Whoever climbs it with a load may have to come down it again, or not.
    """
    for place, fact in enumerate(given.facts):
        amount = fact.amount
        if amount is None or "grade" not in fact.fields or amount.number.startswith("-"):
            continue
        before = [t.text for t in tokens[max(0, amount.first - _NEAR_HILL) : amount.first]]
        behind = [t.text for t in tokens[amount.last : amount.last + 2]]
        around = {*before, *behind}
        rest = tuple(name for name in fact.fields if name != "grade")
        up = bool(_UP & around) and not (before[-2:] == ["up", "to"] or {"down"} & around)
        if up and rest:
            given.doubtful.append(replace(fact, fields=("grade",)))
            given.facts[place] = replace(fact, fields=rest)


_PROUD = frozenset(["proud", "stick", "sticks", "sticking"])


def place_proud(tokens: list[Token], given: Given) -> None:
    """Take a sprinkler head that stands so far above the soil for one, and not for a sunk one."""
    for place, fact in enumerate(given.facts):
        amount = fact.amount
        if amount is None or "head_depth" not in fact.fields or amount.number.startswith("-"):
            continue
        around = tokens[max(0, amount.first - 2) : amount.last + 2]
        if _PROUD & {token.text for token in around} and " to " not in amount.number:
            given.facts[place] = replace(fact, amount=replace(amount, number=f"-{amount.value:g}"))


_FOLDED = frozenset(["folded", "folds", "fold"])


def place_folded(tokens: list[Token], given: Given) -> None:
    """Take the width beside "folded" for that on the road, and no other one."""
    placed = [fact.amount for fact in given.facts if fact.amount]
    beside = [
        amount
        for amount in (*given.loose, *placed)
        if "length" in amount.kinds
        and _FOLDED & {t.text for t in tokens[max(0, amount.first - 2) : amount.last + 1]}
    ]
    if len(beside) != 1:
        return
    given.facts = [
        replace(fact, fields=_FLAT) if "transport_width" in fact.fields else fact
        for fact in given.facts
        if fact.amount != beside[0]
    ]
    given.loose = [amount for amount in given.loose if amount != beside[0]]
    first, last = beside[0].first, beside[0].last
    why = "“folded” stands beside it"
    given.facts.append(Fact(("transport_width",), first, last, "", beside[0], why))


_FLAT = ("working_width",)  # unfolded, at work


def place_widest(tokens: list[Token], given: Given) -> None:
    """Of two widths the larger is that on the road: a 60 in mower rides on a trailer 8 ft wide."""
    wide = [
        amount
        for amount in (*given.loose, *(f.amount for f in given.facts if f.amount))
        if "length" in amount.kinds
        and any(token.text == "wide" for token in tokens[amount.last : amount.last + 1])
    ]
    if len(wide) != 2:
        return
    texts = [quantities.base(each.text(each.kinds["length"]), "length") for each in wide]
    larger = wide[texts.index(max(texts))]
    for place, fact in enumerate(given.facts):
        if fact.amount in wide and "transport_width" in fact.fields:
            rest = tuple(name for name in fact.fields if name != "transport_width")
            fields = ("transport_width", *rest) if fact.amount == larger else rest
            given.facts[place] = replace(fact, fields=fields or ("working_width",))
    if larger in given.loose:
        given.loose.remove(larger)
        why = "the wider of the two"
        fact = Fact(("transport_width",), larger.first, larger.last, "", larger, why)
        given.facts.append(fact)
