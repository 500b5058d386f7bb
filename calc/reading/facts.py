"""What a message gives: each amount, choice, tire and place with the field that it is of.

Every rule is one that can be told to the reader: the noun right behind an amount, a cue beside
it, the machine that the sentence is about. What no rule places stays loose and is asked.
"""

from __future__ import annotations

from dataclasses import replace

from calc import quantities, si, tables
from calc.reading import beside, pieces, prices
from calc.reading.amounts import Amount
from calc.reading.around import ADJECTIVES, LIFTED, OF_AN_ENGINE, Around, tells_something
from calc.reading.either import alternatives
from calc.reading.given import UNSAID, Cue, Fact, Given, cues
from calc.reading.words import MARK, Said

# How far a cue may stand from its amount, in words as `Around.gap` counts them.
FARTHEST, FARTHEST_BARE = 6, 2
FARTHEST_BEHIND = 4  # behind its amount: "3 amps each, 16 ft off, what fuse" is no 3 A fuse
FARTHEST_COUNTED = 3  # "two 55 W halogen head lamps"
LEAST_PRICE = 50.0  # of a number without a unit
LARGEST_SHARE = 100.0  # [%] of a number without a unit
LIGHTEST_TRACTOR = 900 * si.POUND
NEAR_NOUN = 4  # where the noun right behind says whose an amount is: "a 50 ft wagon"
# Words that may stand between a cue and a bare number.
_LINKS = frozenset(tables.small_words("links"))
_NO_WIDTH = frozenset(tables.small_words("no width"))
# "two 55 W halogen lamps", "4 x 55 W lamps"
_LAMPS = frozenset(["led", "leds", "halogen", "halogens", "x"])
_BEFORE_STATE = (["when"], ["when", "it", "is"], ["while"])  # "40 when raised"
_NEEDING = frozenset(["take", "takes", "need", "needs", "want", "wants", "require", "requires"])
_OUTLETS = frozenset(["remote", "remotes", "outlet", "outlets"])
_TAKING = frozenset(["take", "takes", "lose", "loses", "eat", "eats", "steal", "steals"])
_STICKS = frozenset(["out", "back", "behind"])  # "it sticks out 4 ft" is no width
_PLACES = frozenset(["back", "front", "rear"])
_LOADER = frozenset(["loader", "fel", "bucket"])


class Placing(Around):
    """The rules by which amounts find their fields, over one message."""

    def options(self, amount: Amount) -> list[Fact]:
        """Return the fields that an amount may be of, the likeliest first."""
        behind = self.noun_behind(amount)
        if behind == "cab" and amount.kinds.get("power") in OF_AN_ENGINE:
            behind = "tractor"  # "a 40 hp cab"
        found = []
        if amount.whose:
            name = "pto_power" if amount.whose == "pto" else "engine_power"
            return [self._fact(amount, (name,), "power", f"“{amount.whose}” stands in it", 0)]
        if amount.kinds.get("power") == "Btu/h":
            why = "so much is cooled"
            return [self._fact(amount, ("cooling_capacity",), "power", why, 0)]
        if amount.kinds.get("power") == "W":
            return []  # of a lamp, which says its kind, or of a heater
        if "power" in amount.kinds and self._is_a_loss(amount):
            return []
        if "length" in amount.kinds and beside.is_overlap(self.tokens, amount):
            return []  # what is left of two tubes is no tube's length
        after = [token.text for token in self.tokens[amount.last : amount.last + 1]]
        if "power" in amount.kinds and behind == "tractor" and after == ["pto"]:
            why = "“pto” stands behind it"  # "a 22 kW PTO tractor"
            return [self._fact(amount, ("pto_power",), "power", why, 0)]
        if counted := self._counted_before(amount):
            why = "“x” says how many"
            return [self._fact(amount, counted, "count", why, 0)]
        is_its = behind != "tractor" and self._names(amount, "generator")
        if amount.kinds.get("power") == "kW" and is_its:
            why = "a generator's size is said in kW"
            return [self._fact(amount, ("generator_rating",), "power", why, 0)]
        if "mass" in amount.kinds and self._is_loaders_rating(amount):
            why = "“rated” stands before it"
            return [self._fact(amount, ("loader_rating",), "mass", why, 0)]
        if self._word_before(amount) in _NEEDING and self._outlets_behind(amount):
            why = "it takes so many"
            return [self._fact(amount, ("remotes_needed",), "count", why, 0)]
        if behind not in (*LIFTED, "implement") and self._is_to_be_lifted(amount):
            why = "“lift” asks of it"
            by_loader = bool(_LOADER & self.words)
            name = "loader_payload" if by_loader else "implement_mass"
            return [self._fact(amount, (name,), "mass", why, 0)]
        if told := beside.told(self.tokens, amount):
            name, kind, why = told
            return [self._fact(amount, tuple(name.split()), kind, why, 0)]
        if behind:
            found += self._by_subject(amount, behind, 0.5, "its noun stands right behind it")
        right_behind = self._is_right_behind(amount, "implement")
        if "length" in amount.kinds and right_behind and not self._is_elsewhere(amount, ""):
            why = "its noun stands right before it"  # "blade 96 in, 610 lb behind 42 hp"
            found += self._by_subject(amount, "implement", 0.8, why)
        subject = behind or self._beside_power(amount) or self.about(amount)
        subject = subject or self._before_power(amount)
        if subject == "cab" and amount.kinds.get("power") in ("hp", "PS"):
            subject = "tractor"  # "a/c on 45 hp"
        found += self._by_cues(amount, subject, NEAR_NOUN if behind else FARTHEST)
        if not behind and subject and not self._is_elsewhere(amount, subject):
            found += self._by_subject(amount, subject, 4.5, "the sentence speaks of it")
        if not found:
            found += self._by_subject(amount, "", UNSAID, "such a number is usually that")
        return sorted(found, key=lambda fact: fact.cost)

    def _names(self, amount: Amount, cue: str) -> bool:
        """Whether the sentence around an amount has a cue."""
        begin, end = self.sentence(amount.first)
        return any(begin <= said.first < end and said.value_of("cue") == cue for said in self.cued)

    def _is_a_loss(self, amount: Amount) -> bool:
        """Whether a power is what something other than an implement takes: "will a/c take 5 hp"."""
        begin, _ = self.sentence(amount.first)
        near = max(begin, amount.first - 2)
        before = {token.text for token in self.tokens[near : amount.first]}
        return bool(before & _TAKING) and self.about(amount) != "implement"

    def _counted_before(self, amount: Amount) -> tuple[str, ...]:
        """Return what counts the things before it: "55 W lights x2", "lights 2 x 55 W"."""
        behind = [token.text for token in self.tokens[amount.last : amount.last + 1]]
        times = behind in (["x"], ["@"])
        by = self._word_before(amount) == "x"
        each = self.inside.get(amount.last) or self.inside.get(amount.last + 1)
        if each and pieces.counts_watts(self.tokens, amount, each, self.cued):
            return ("work_count",)
        if amount.kinds or amount.spelled or not (times or by):
            return ()
        place = amount.first - by
        each = self.inside.get(amount.last + 1)
        if times and each and any(said.first == each.last for said in self.cued):
            return ()  # "lamps: 2 x 55 W heads"
        phrases = [said.value_of("cue") for said in self.cued if said.last == place]
        found = [c.fields for each in phrases for c in cues()[each] if c.kind == "count"]
        return found[0] if found else ()

    def _is_loaders_rating(self, amount: Amount) -> bool:
        """Whether a mass is what a loader is rated for: "rated at 1100 lb", "a 1200 lb loader"."""
        begin, _ = self.sentence(amount.first)
        behind = [token.text for token in self.tokens[amount.last : amount.last + 2]]
        if behind[:1] == ["loader"] and behind[1:] not in (["on"], ["off"], ["bucket"], ["load"]):
            return True
        before = [token.text for token in self.tokens[begin : amount.first]]
        lifts = before[-2:] == ["loader", "lifts"]
        return lifts or ("loader" in before and bool({"rated", "rate"} & set(before[-2:])))

    def _outlets_behind(self, amount: Amount) -> bool:
        behind = [t.text for t in self.tokens[amount.last : amount.last + 4]]
        behind = behind[1:] if behind[:1] == ["rear"] else behind
        if behind[:1] in (["set"], ["sets"]) and behind[1:2] != ["of"]:
            # "has 2 sets of remotes, the blade needs 1 set for the angle"
            return any(token.text in _OUTLETS for token in self.tokens[: amount.first])
        if behind[:1] in (["set"], ["sets"], ["pair"]):  # "one set of remotes"
            behind = behind[2:] if behind[1:2] == ["of"] else behind[1:]
        return bool(_OUTLETS & set(behind[:1]))

    def _is_elsewhere(self, amount: Amount, subject: str) -> bool:
        """Whether an amount is not of what the sentence speaks of: "30 in back", a cutter's hp."""
        if "power" in amount.kinds and subject == "implement":
            return True
        if "mass" in amount.kinds and subject == "tractor" and self._word_before(amount) == "with":
            return True  # "climb it with 800 lb"
        if "mass" in amount.kinds and subject == "tractor" and self._is_too_light(amount):
            return True
        if "mass" in amount.kinds and subject == "weights" and self._is_for(amount, ""):
            return True  # "how many weights for a 900 lb spreader"
        if "length" not in amount.kinds:
            return False
        if subject == "implement" and self._tells_of_links(amount):
            return True
        if subject == "tractor" and all(each != subject for _, each in self.subjects):
            return True  # a power alone told of it: "is 30 hp enough for a light 5 ft"
        if self._word_before(amount) in _STICKS:
            return True
        if self._is_size_of_what_follows(amount):
            return False
        behind = self.tokens[amount.last : amount.last + 1]
        return any(token.text in _NO_WIDTH for token in behind)

    def _is_too_light(self, amount: Amount) -> bool:
        """Whether a mass is no tractor's: the lightest subcompact has more."""
        unit = amount.kinds["mass"]
        return quantities.base(f"{amount.value:.10g} {unit}", "mass") < LIGHTEST_TRACTOR

    def _by_subject(self, amount: Amount, subject: str, cost: float, why: str) -> list[Fact]:
        return [
            self._fact(amount, cue.fields, cue.kind, why, cost)
            for cue in cues()[""]
            if cue.subject == subject and cue.kind in amount.kinds
        ]

    def _by_cues(self, amount: Amount, subject: str, farthest: float) -> list[Fact]:
        begin, end = self.sentence(amount.first)
        found = []
        for said in self.cued:
            if not (begin <= said.first < end) or self._is_of_a_name(said):
                continue
            before = said.last <= amount.first
            if not before and said.first < amount.last:
                continue
            apart = (
                self.gap(self._past_owner(said.last), amount.first)
                if before
                else self.gap(amount.last, said.first)
            )
            if apart > (farthest if before else min(farthest, FARTHEST_BEHIND)):
                continue
            if before and self._is_of_the_one_before(said, amount):
                continue
            if not before and apart == 0 and self._heads_the_next(said, amount):
                continue
            phrase = said.value_of("cue")
            if before and self._is_for(amount, phrase):
                continue
            if phrase.endswith("with loader") and self._is_right_behind(amount, "tractor"):
                continue  # "sub compact 1700 lb with loader"
            if before and phrase == "lift" and self._is_lifted(said):
                continue  # "lift pallets of 900 lb" says nothing of the hitch
            own = self.inside.get(said.last)
            if not before and own and beside.is_told_of(self.tokens, said.last, own, amount):
                continue
            own_cues = [each for each in cues()[phrase] if each.fields]
            as_is = any("as_is_price" in each.fields for each in own_cues)
            if as_is and prices.is_no_worth(self.tokens, amount):
                continue
            hung = self._named_at(said.first) == "implement"
            for cue in own_cues:
                if hung and cue.fields[0] == "loader_payload":
                    continue  # "pallet 1,800 lb on 3pt forks"
                cost = self._cost(cue, amount, subject, before, apart, said)
                if cost is not None:
                    why = f"“{phrase}” stands beside it"
                    found.append(self._fact(amount, cue.fields, cue.kind, why, cost))
        return found

    def _is_for(self, amount: Amount, phrase: str) -> bool:
        """Whether a mass is what a cue is for: "how much front weight for a 900 lb spreader"."""
        before = [token.text for token in self.tokens[max(0, amount.first - 2) : amount.first]]
        before = before[:-1] if before[-1:] in (["a"], ["an"], ["my"]) else before
        return "mass" in amount.kinds and before[-1:] == ["for"] and not phrase.endswith("for")

    def _is_of_the_one_before(self, cue: Said, amount: Amount) -> bool:
        """Whether cues stand behind their amounts here: "46 collapsed 43 raised"."""
        ends = {each.last: each for each in self.amounts}
        behind = {each.last: each for each in self.cued}
        head = ends.get(cue.first)
        if head is None or not self._has_its_cue_behind(amount):
            return False
        own = [each for each in cues()[cue.value_of("cue")] if each.side != "before"]
        if not any(each.kind in head.kinds if head.kinds else each.bare for each in own):
            return False  # "6 acres at 3.5 mph with": no land is "at"
        while (said := behind.get(head.first)) and (earlier := ends.get(said.first)):
            head = earlier
        return head.first not in behind

    def _has_its_cue_behind(self, amount: Amount) -> bool:
        """Whether a cue right behind an amount may be its: "raised", not "at the ball ends"."""
        return any(
            each.side != "before" and (each.kind in amount.kinds if amount.kinds else each.bare)
            for said in self.cued
            if said.first == amount.last
            for each in cues()[said.value_of("cue")]
        )

    def _heads_the_next(self, cue: Said, amount: Amount) -> bool:
        """Whether a cue between two like amounts is of the second: "6000 lb lift 3200 lb"."""
        behind = self.inside.get(cue.last)
        if behind is None or not set(behind.kinds) & set(amount.kinds):
            return False
        own = self._has_its_cue_behind(behind)
        sided = any(each.side == "after" for each in cues()[cue.value_of("cue")])
        return not own and not sided and not self.noun_behind(behind)

    def _is_of_a_name(self, cue: Said) -> bool:
        """Whether a word of place is part of a machine's name: the "back" of "back blade"."""
        if cue.value_of("cue") not in _PLACES:
            return False
        return any(s.first <= cue.first < s.last and s.last - s.first > 1 for s, _ in self.subjects)

    def _cost(
        self, cue: Cue, amount: Amount, subject: str, before: bool, apart: float, said: Said
    ) -> float | None:
        """Return how far a cue is from an amount that it fits; None where it doesn't fit."""
        tallied = before and cue.kind == "count" and pieces.is_tallied(self.tokens, amount, said)
        if cue.side and (cue.side == "before") != before and not tallied:
            return None
        if cue.subject and cue.subject != subject:
            return None
        if cue.among and cue.among.isdisjoint(self.words):
            return None
        if cue.subject and cue.phrase == "at" and not self._named_before(amount, subject):
            return None  # "at 6 mph, trains 50 mph": the first is no train's
        if cue.subject and cue.phrase == "behind" and self._is_size_of_what_follows(amount):
            return None
        if amount.kinds:
            if cue.kind not in amount.kinds:
                return None
        elif not self._fits_bare(cue, amount, before, apart, said):
            return None
        length = 0.1 * (said.last - said.first)
        closeness = 0.2 * bool(cue.side) + 0.3 * bool(cue.subject)
        return apart + 1 - length - closeness + 0.4 * (not cue.side and not before)

    def _is_size_of_what_follows(self, amount: Amount) -> bool:
        """Whether an amount is the size of what comes behind a tractor: "blade 72 in behind it"."""
        if "length" not in amount.kinds:
            return False
        noun = any(said.last == amount.first and s == "implement" for said, s in self.subjects)
        reach = range(amount.last + 1, amount.last + FARTHEST)
        return noun and any(said.first in reach and s == "tractor" for said, s in self.subjects)

    def _fits_bare(self, cue: Cue, amount: Amount, before: bool, apart: float, said: Said) -> bool:
        """Whether a number without a unit may be of a cue's field."""
        if not cue.bare or (amount.spelled and cue.kind != "count"):
            return False
        if cue.kind == "fraction" and amount.value > LARGEST_SHARE:
            return False
        if cue.kind == "money" and amount.value < LEAST_PRICE:
            return False  # "add 2 lamps"
        if not before:
            # "two 55 watt lamps": another amount may stand between.
            words = [
                token.text
                for place, token in enumerate(self.tokens[amount.last : said.first], amount.last)
                if place not in self.inside
            ]
            if cue.kind == "count":
                adjectives = all(text in ADJECTIVES or text in _LAMPS for text in words)
                return apart <= FARTHEST_COUNTED and adjectives
            return apart == 0 or words in _BEFORE_STATE
        if cue.kind == "count" and cue.side == "after":
            return pieces.is_tallied(self.tokens, amount, said)
        between = self.tokens[self._past_owner(said.last) : amount.first]
        return apart <= FARTHEST_BARE and all(
            t.text in _LINKS or (t.kind == MARK and t.text in ":=") for t in between
        )

    def _fact(
        self, amount: Amount, fields: tuple[str, ...], kind: str, why: str, cost: float
    ) -> Fact:
        return Fact(fields, amount.first, amount.last, kind, amount, why, cost=cost)


def place_amounts(placing: Placing, given: Given) -> None:
    """Give every amount its field, the surest first; one that comes too late takes its next.

    Of "5 ft or 6 ft" neither is taken.
    """
    given.apart += [
        amount
        for amount in placing.amounts
        if beside.is_apart(placing.tokens, amount) or prices.is_paid_down(placing.tokens, amount)
    ]
    own = [amount for amount in placing.amounts if amount not in given.apart]
    # "an 8 ft blade and a 5 ft tiller, which one", "grapple 480 lb plus log 900 lb"
    given.apart += placing.widths_of_tools() + placing.added()
    own = [amount for amount in own if amount not in given.apart]
    waiting = [(placing.options(amount), amount) for amount in own]
    first = {amount.first: options[0] for options, amount in waiting if options}
    either = {
        place: other
        for place, other in alternatives(placing.tokens, placing.amounts).items()
        if not _differ(first, place, other.first)
        and not any(
            prices.is_mended(placing.tokens, a) for a in own if a.first in (place, other.first)
        )
    }
    held: set[tuple[str, ...]] = set()
    while waiting:
        waiting.sort(key=lambda item: item[0][0].cost if item[0] else 99)
        options, amount = waiting.pop(0)
        partner = either.get(amount.first)
        options = [each for each in options if each.fields not in held]
        if not options:
            given.loose.append(amount)
            continue
        held.add(options[0].fields)
        if partner is None:
            given.facts.append(options[0])
        else:
            waiting = [item for item in waiting if item[1] is not partner]
            both = [
                options[0],
                replace(options[0], first=partner.first, last=partner.last, amount=partner),
            ]
            given.doubtful += sorted(both, key=lambda fact: fact.first)
    _leave_unladen(placing, given)
    given.loose = [each for each in given.loose if each.kinds or tells_something(each)]


_ON_IT = ("towed", "goods", "implement")
_OF_GOODS = ("implement_mass", "loader_payload", "load_mass", "load_carried")
_HAULED = ("bale_spear", "pallet_forks")  # so bales and pallets are read


def _leave_unladen(placing: Placing, given: Given) -> None:
    """Leave open what is towed where another mass may be what lies on it.

    "Trailer weighs 1200 lb empty, hauling 3000 lb": neither is the mass that has to be stopped.
    """
    masses = [f for f in given.facts if f.amount and "mass" in f.amount.kinds]
    towed = [f for f in given.facts if f.amount and f.fields[0] == "towed_mass"]
    hung = {each.value_of("implement_kind") for each in placing.said} - {"", *_HAULED}
    others = [a for a in given.loose if "mass" in a.kinds and placing.about(a) in _ON_IT]
    others += [f.amount for f in masses if f.amount and f.fields[0] in _OF_GOODS and not hung]
    # "a sprayer 900 lb empty plus 200 gal"
    filled = "empty" in placing.words and any("volume" in a.kinds for a in given.loose)
    if towed and (filled or len(towed) + len(others) > 1):
        given.facts = [fact for fact in given.facts if fact not in towed]
        given.loose += [fact.amount for fact in towed if fact.amount]


def _differ(first: dict[int, Fact], one: int, other: int) -> bool:
    """Whether each of two amounts says what it is: "8000 trade or 9500 private"."""
    if one not in first or other not in first:
        return False
    a, b = first[one], first[other]
    return max(a.cost, b.cost) < NEAR_NOUN and set(a.fields).isdisjoint(b.fields)
