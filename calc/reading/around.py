"""What the words around an amount speak of: the noun behind it, the one last before it, how far."""

from __future__ import annotations

from itertools import pairwise

from calc import tables
from calc.reading import beside
from calc.reading.amounts import Amount
from calc.reading.given import subject_of
from calc.reading.words import Said, Token, common, stem

_COMMA, _AND = 2, 1  # a comma counts as two words, "and" as one more
# Words that may stand between an amount and its noun.
ADJECTIVES = frozenset(tables.small_words("adjectives"))
_DRAGGED = frozenset(["drag", "dragging", "skid", "skidding", "pull", "pulling", "tow", "towing"])
_BEGINNING = frozenset(["a", "an", "my", "our", "the", "this", "that", "his", "your"])
_OWNED = frozenset(["of", "on", "for"])
_BEING = frozenset(["is", "are", "was", "weighs", "measures"])
OF_AN_ENGINE = frozenset(["hp", "PS", "kW"])  # cooling is told in Btu/h
_NEAR = 3  # words behind a mass, for a "plus"
LIFTED = frozenset(["load", "goods"])
_MODALS = frozenset(["can", "could", "will", "would", "does", "do"])
_NEAR_MODAL = 8  # words between it and "lift"
_LIFTERS = frozenset(["arm", "arms", "links", "balls"])
LEAST_MEANT = 100.0  # a number without a unit that is shown when nothing takes it
_SHORTEST_NAME = 4  # letters
_NO_NAMES = frozenset(tables.small_words("no names"))
_CARRIERS = frozenset(["pallet_forks", "bale_spear"])  # behind the tractor


class Around:
    """The words of one message around its amounts, and what they speak of."""

    def __init__(
        self,
        tokens: list[Token],
        said: list[Said],
        cued: list[Said],
        amounts: list[Amount],
        ends: list[int],
    ) -> None:
        self.tokens, self.said, self.cued, self.amounts = tokens, said, cued, amounts
        self.inside = {i: a for a in amounts for i in range(a.first, a.last)}
        words = {token.text for token in tokens}
        self.words = words | {stem(word) for word in words}
        carried = any(each.value_of("implement_kind") in _CARRIERS for each in said)
        on_loader = any(each.value_of("loader_tool") for each in said)
        grapple = any(subject_of(each) == "grapple" for each in said)
        # "lift is rated 1650 lb, a 1200 lb bale 3 ft back": it hangs on the hitch
        hung = bool(self.words & {"rated", "ball", "hitch", "pt", "3pt"})
        carried |= "loader" not in words and "lift" in self.words and hung
        carried |= "loader" not in words and bool(words & {"point", "pt", "3pt", "threepoint"})
        lifted = on_loader or grapple or ("loader" in words and not words & _DRAGGED)
        named = {"goods": "load" if lifted else "implement" if carried else "goods"}
        self.subjects = [
            (each, "implement" if self._is_behind(each) else named.get(subject, subject))
            for each in said
            if (subject := subject_of(each))
        ]
        self.ends = ends

    def _is_behind(self, goods: Said) -> bool:
        """Whether goods hang behind, whatever a loader does: "loader on, 740 lb bale behind"."""
        own = self.inside.get(goods.last)
        last = own.last if own and "mass" in own.kinds else goods.last  # "bale 1400 lb on back"
        behind = [token.text for token in self.tokens[last : last + 3] if token.text != "the"]
        there = behind[:1] == ["behind"] or behind[:2] in (["on", "back"], ["on", "rear"])
        return subject_of(goods) == "goods" and there

    def sentence(self, place: int) -> tuple[int, int]:
        """Return where the sentence around `place` begins and ends."""
        begin = 0
        for end in self.ends:
            if place < end:
                return begin, end
            begin = end
        return begin, len(self.tokens)

    def noun_behind(self, amount: Amount) -> str:
        """Return what the noun right behind an amount speaks of: "1650 lb tractor"."""
        place = amount.last
        if "speed" in amount.kinds and self._word_before(amount) == "at":
            return ""  # "at 6 mph trains 50 mph"
        if self._word_before(amount) in _BEING and self._is_said_of(amount):
            return ""  # "the cutter is 84 in wide, tractor 66 in"
        opens = self._opens(amount)
        while place < len(self.tokens):
            inner = self.inside.get(place)
            if self._is_aside(place):  # "a 42 hp (35 pto) tractor"
                place = self.inside[place + 1].last
                place += 1 + (self.tokens[place].text != ")")
                continue
            if inner:
                if set(inner.kinds) & set(amount.kinds) and self.tokens[place - 1].text not in (
                    "or",
                    "/",
                ):
                    return ""
                place = inner.last
                continue
            named = self._named_at(place)
            if named:
                return named
            joins = self.tokens[place].text in ("or", "/") and place + 1 in self.inside
            # "my 1650 lb, 20 pto hp tractor"
            joins |= self.tokens[place].text == "," and place + 1 in self.inside and opens
            named_so = "length" in amount.kinds and self._is_a_name(place)
            if not (joins or named_so) and self.tokens[place].text not in ADJECTIVES:
                return ""
            place += 1
        return ""

    def _is_a_name(self, place: int) -> bool:
        """Whether a word that says nothing here stands right before a tool: "6 ft titan cutter"."""
        word = self.tokens[place].text
        own = len(word) >= _SHORTEST_NAME and word.isalpha() and stem(word) not in common()
        tool = any(s.first == place + 1 and what == "implement" for s, what in self.subjects)
        return own and tool and word not in _NO_NAMES

    def _is_aside(self, place: int) -> bool:
        """Whether an amount stands in brackets here, and nothing but its words."""
        inner = self.inside.get(place + 1)
        behind = [t.text for t in self.tokens[inner.last : inner.last + 2]] if inner else []
        return self.tokens[place].text == "(" and ")" in behind

    def _beside_power(self, amount: Amount) -> str:
        """Return whose a mass is that stands right beside a power: "35 hp 3200 lb"."""
        place = amount.first - 1
        place -= place > 0 and self.tokens[place].text == ","
        beside_it = (self.inside.get(place), self.inside.get(amount.last))
        horses = any(each and each.kinds.get("power") in OF_AN_ENGINE for each in beside_it)
        return "tractor" if horses and "mass" in amount.kinds else ""

    def _is_right_behind(self, amount: Amount, subject: str) -> bool:
        return any(said.last == amount.first and s == subject for said, s in self.subjects)

    def _before_power(self, amount: Amount) -> str:
        """Return whose a mass is that a power follows past a comma: "weighs 1850 lb, 24 hp"."""
        comma = [token.text for token in self.tokens[amount.last : amount.last + 1]] == [","]
        power = self.inside.get(amount.last + 1) if comma and "mass" in amount.kinds else None
        return "tractor" if power and power.kinds.get("power") in OF_AN_ENGINE else ""

    def _opens(self, amount: Amount) -> bool:
        """Whether an amount begins what is said of a thing: "my 1650 lb", "a 28 hp, 2400 lb"."""
        place = amount.first - 1
        while place in self.inside or (place > 0 and self.tokens[place].text == ","):
            place -= 1
        return place >= 0 and self.tokens[place].text in _BEGINNING

    def _word_before(self, amount: Amount) -> str:
        return self.tokens[amount.first - 1].text if amount.first else ""

    def _is_said_of(self, amount: Amount) -> bool:
        """Whether a noun and one word, such as "is", stand right before an amount."""
        return any(said.last == amount.first - 1 for said, _ in self.subjects)

    def _named_at(self, place: int) -> str:
        """Return what a noun speaks of; of "backhoe trailer" the last word does.

        Of "60 in mower deck shaft" the deck does: shafts are given with what their length is.
        """
        found = ""
        for said, subject in self.subjects:
            if said.first == place and (found, subject) != ("implement", "shaft"):
                found, place = subject, said.last
        return found

    def about(self, amount: Amount) -> str:
        """Return what the sentence speaks of where an amount stands: the noun last before it."""
        begin, end = self.sentence(amount.first)
        before = [s for said, s in self.subjects if begin <= said.first < amount.first]
        if "implement" in before and beside.is_wanted(self.tokens, amount):
            return "implement"
        if before:
            return before[-1]
        if any("power" in a.kinds for a in self.amounts if begin <= a.first < amount.first):
            return "tractor"  # "it has 16 hp and weighs ..."
        if self._word_before(amount) in _BEING and self._is_closed(amount):
            return ""  # "mine weighs 2200 lb, box blade 500 lb"
        after = [(said, s) for said, s in self.subjects if amount.last <= said.first < end]
        if not after or len({s for _, s in after}) > 1 or self._has_its_own(after[0][0], amount):
            return ""
        return after[0][1]

    def _has_its_own(self, noun: Said, amount: Amount) -> bool:
        """Whether a like amount stands behind a noun past a comma: "3.2 t, tractor 2.9 t"."""
        own = self.inside.get(noun.last)
        apart = any(token.text == "," for token in self.tokens[amount.last : noun.first])
        return apart and own is not None and bool(set(own.kinds) & set(amount.kinds))

    def _is_closed(self, amount: Amount) -> bool:
        """Whether a comma or "and" stands behind an amount."""
        behind = self.tokens[amount.last : amount.last + 1]
        return any(token.text in (",", "and") for token in behind)

    def _named_before(self, amount: Amount, subject: str) -> bool:
        """Whether a noun stands before an amount, and no other amount of its kind between."""
        begin, _ = self.sentence(amount.first)
        named = [
            said.last
            for said, each in self.subjects
            if begin <= said.first < amount.first and each == subject
        ]
        between = [a for a in self.amounts if named and named[-1] <= a.first < amount.first]
        return bool(named) and not any(set(a.kinds) & set(amount.kinds) for a in between)

    def widths_of_tools(self) -> list[Amount]:
        """Return the lengths that stand right before implements, where both differ."""
        tools = {each.first: each.phrase for each, what in self.subjects if what == "implement"}
        wide: list[tuple[str, Amount]] = []
        for amount in (each for each in self.amounts if "length" in each.kinds):
            place = amount.last
            while place not in tools and self._is_adjective(place):
                place += 1
            wide += [(tools[place], amount)] if place in tools else []
        differ = len({tool for tool, _ in wide}) > 1 and len({a.number for _, a in wide}) > 1
        return [amount for _, amount in wide] if differ else []

    def added(self) -> list[Amount]:
        """Return the masses that are told with "plus": what they make together nobody says."""
        masses = [each for each in self.amounts if "mass" in each.kinds]
        return [
            each
            for one, other in pairwise(masses)
            for each in (one, other)
            if {"plus", "+"} & {token.text for token in self.tokens[one.last : other.first][:_NEAR]}
        ]

    def _is_adjective(self, place: int) -> bool:
        return place < len(self.tokens) and self.tokens[place].text in ADJECTIVES

    def gap(self, first: int, last: int) -> float:
        """Return how far apart two places stand."""
        total = 0.0
        place = first
        while place < last:
            inner = self.inside.get(place)
            text = self.tokens[place].text
            total += _COMMA if text in (",", "(") else 1 + (text == "and") * _AND
            place = inner.last if inner else place + 1
        return total

    def _past_owner(self, place: int) -> int:
        """Return the place behind whose a cue is: "tongue weight on my trailer is 700 lb"."""
        if self.tokens[place].text not in _OWNED:
            return place
        noun = place + 1
        if noun < len(self.tokens) and self.tokens[noun].text in _BEGINNING:
            noun += 1
        while self._is_adjective(noun):
            noun += 1
        return next((said.last for said, _ in self.subjects if said.first == noun), place)

    def _is_to_be_lifted(self, amount: Amount) -> bool:
        """Whether a mass, or a number large enough, stands right behind such a "lift"."""
        weighs = "mass" in amount.kinds or (not amount.kinds and tells_something(amount))
        ends = [said for said in self.cued if said.last == amount.first]
        return weighs and any(s.value_of("cue") == "lift" and self._is_lifted(s) for s in ends)

    def _is_lifted(self, said: Said) -> bool:
        """Whether "lift" tells of what is lifted: "lifting 750 lb of rock", "will it lift 900"."""
        if self._named_at(said.last) in LIFTED or self.tokens[said.last - 1].text == "lifting":
            return True
        begin, _ = self.sentence(said.first)
        before = [t.text for t in self.tokens[max(begin, said.first - _NEAR_MODAL) : said.first]]
        before = before[before.index(",") + 1 :] if "," in before else before
        # "my hitch can lift 900" tells of the hitch, "can my hitch lift 900" asks about a load
        return bool(_MODALS & set(before[:-1])) and before[-1] not in _MODALS

    def _tells_of_links(self, amount: Amount) -> bool:
        """Whether a length is the hitch's: "the blade won't clear, arms go to 28 in"."""
        before = [token.text for token in self.tokens[max(0, amount.first - 3) : amount.first]]
        return bool(_LIFTERS & set(before))


def tells_something(amount: Amount) -> bool:
    """Whether a number without a unit was meant: a price or a mass, not "2 of them"."""
    return not amount.spelled and amount.value >= LEAST_MEANT
