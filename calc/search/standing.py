"""What stands behind a finding over ranges: a proof, two machines that differ, or points seen.

`prove` asks, of the points that a `Search` has computed, whether they tell the truth about the
whole box: first whether every check's least and greatest margin are known (`calc.search.proof`
finds most of them at one corner), then whether the finding that they give holds everywhere. A
point that contradicts is computed like any other, so the search has it from then on. What the
effort doesn't settle is searched by points, and says so.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from calc import model
from calc.model import Inputs, Outcome
from calc.search.enclosing import Key
from calc.search.intervals import Interval
from calc.search.looking import Search
from calc.search.options import across
from calc.search.parts import Choosing
from calc.search.proof import Group, Proof

EFFORT = 5000.0  # for the findings of one answer, in points
FIRST, NEXT, LAST = 40.0, 400.0, 2000.0  # of which a question has at first, then, and at last
LOOK = 4000.0  # for seeing that no check is missing
ORDER = 400.0  # for which of the checks of one finding decides
VALUES, VALUE = 200.0, 40.0  # for the ends of all that is shown, and of one number
PAST_ROUNDING = 1e-9  # a check is missed only past this share of its limit
BEYOND = ("left", "inside")  # how far a value is beyond its limit, and beyond what is close to it


class Chosen(Inputs):
    """The inputs of a run of which some choices are open: to read one asks for its options."""

    __slots__ = ("_choosing",)

    def __init__(self, values: Choosing) -> None:
        super().__init__(values)
        self._choosing = values

    def __getattr__(self, name: str) -> Any:
        if name in self._choosing.left:
            raise model.OpenChoice(name)
        return super().__getattr__(name)

    def each(self, name: str, made_of: Callable[[Any], Any]) -> Any:
        """Return what is made of a choice: of all its options at once where it is open."""
        options = self._choosing.left.get(name)
        if options is None:
            return made_of(getattr(self, name))
        try:
            made = [made_of(option) for option in options]
        except (ValueError, ZeroDivisionError, LookupError):  # one option refuses the inputs
            raise model.OpenChoice(name) from None
        return across(name, made)

    def values(self) -> dict[str, Any]:
        """Return all values: every open choice is asked for."""
        for name in self._choosing.left:
            raise model.OpenChoice(name)
        return super().values()

    def but(self, **changes: Any) -> Inputs:
        """Return the same values with some replaced."""
        left = {n: options for n, options in self._choosing.left.items() if n not in changes}
        return Chosen(Choosing({**self.__dict__, **changes}, left))


class Standing:
    """What is known of a search's numbers over its whole box."""

    def __init__(self, search: Search, effort: float = EFFORT) -> None:
        self.search = search
        # Of the numbers whose ends are known to be the true ones: what sign times it is at least.
        self.settled: dict[tuple[Key, int], float] = {}
        self.complete = not search.box.dimensions  # whether no check can be missing
        self.held: dict[str, str] = {}  # for each check, the finding that holds everywhere
        self.clear: set[str] = set()  # checks that no point had met, and none can break
        ranges = {dim.name: (dim.low, dim.high) for dim in search.box.dimensions if not dim.options}
        choices = {dim.name: dim.options for dim in search.box.dimensions if dim.options}
        self.proof = Proof(self._run, self._at, search.box.base, ranges, choices, effort)

    # One run, on intervals or at a point.

    def _run(self, values: dict[str, Any], group: Group) -> Mapping[Key, Any]:
        def compute() -> Outcome:
            asked = Chosen(values) if isinstance(values, Choosing) else Inputs(values)
            return self.search.sheet.compute(asked, self.search.silent)

        if group is None:
            return numbers(compute())
        if isinstance(group, tuple):
            return numbers(model.run_group(group, compute))
        made = model.run_for(group, compute)
        return {} if made is None else numbers(Outcome([made]))

    def _at(self, values: Mapping[str, Any], key: Key) -> float | None:
        outcome = self.search.at(values)
        what, name = key
        if what == "output":
            return next((value for known, value in outcome.amounts() if known == name), None)
        check = outcome.check(name)
        if check is None:
            return None
        if what in BEYOND:
            beyond = beyond_of(check)
            return None if beyond is None else beyond[BEYOND.index(what)]
        number: float = getattr(check, what)
        return number

    # Questions.

    def ends(self, key: Key, most: float) -> bool:
        """Find a number's true ends; whether both are known."""
        self._end(key, 1, most)
        self._end(key, -1, most)
        return self.known(key)

    def _end(self, key: Key, sign: int, most: float) -> None:
        if (key, sign) not in self.settled:
            low, high = self.search.ends(key)
            ends = (low, high) if sign > 0 else (-high, -low)
            found = self.proof.least(key, ends, most, sign=sign)
            if found.settled:
                self.settled[key, sign] = found.bound

    def settle_margins(self, names: Sequence[str]) -> None:
        """Find how near to their limits, or past them, some checks come: that ranks them."""
        self.proof.effort = ORDER
        for name in names:
            over = self.search.finding(name)[0] == model.OVER
            self._end(("margin", name), -1 if over else 1, ORDER / len(names))

    def leads(self, leader: str, others: Sequence[str]) -> bool:
        """Prove that no other check has a worse margin, as a ranking reads them, than `leader`."""
        self.proof.effort = ORDER
        most = ORDER / len(others)
        if self.search.finding(leader)[0] == model.OVER:  # all of it counts, the others' points do
            goal = -min(self.search.margins(name)[1] for name in others)
            return self._proved(("margin", leader), goal, most, sign=-1)
        goal = self.search.margins(leader)[0]
        return all(self._proved(("margin", name), goal, most) for name in others)

    def _proved(self, key: Key, goal: float, most: float, *, sign: int = 1) -> bool:
        found = self.proof.at_least(key, goal, most, sign=sign)
        return found.settled and not found.failed

    def known(self, key: Key) -> bool:
        """Whether both ends of a number are the true ones."""
        return (key, 1) in self.settled and (key, -1) in self.settled

    def settle(self, name: str, most: float) -> None:
        """Prove what the points find of a check, or find the point that contradicts it."""
        while name not in self.held:
            finding, band = self.search.finding(name)
            if finding == model.UNKNOWN or self._holds(name, finding, band, most):
                self.held[name] = finding
            elif self.search.finding(name)[0] == finding:
                return

    def _holds(self, name: str, finding: str, band: float, most: float) -> bool:
        key = ("margin", name)
        if finding == model.OVER:
            found = self.proof.at_least(key, 1.1 * PAST_ROUNDING, most, sign=-1, everywhere=True)
        else:
            goal = (band if finding == model.WITHIN else 0.0) - 0.9 * PAST_ROUNDING
            if self.settled.get((key, 1), -math.inf) >= goal:
                return True
            if self._beyond(name, finding, most):
                return True
            if self.search.finding(name)[0] != finding:
                return False
            return self._proved(key, goal, most)
        return found.settled and not found.failed

    def _beyond(self, name: str, finding: str, most: float) -> bool:
        """Prove that a value is beyond its limit, or what is close to it, wherever it is checked.

        That needs no quotient, whose ends are wide and whose slopes have no sign where the limit,
        or the width of a band, hangs on the same inputs.
        """
        key = (BEYOND[finding == model.WITHIN], name)
        if not self.proof.made_with(("margin", name), key):
            return False
        return self._proved(key, 0.0, most)

    def absent(self, name: str, most: float) -> bool:
        """Prove that a check that no point met is nowhere broken, or meet it."""
        found = self.proof.at_least(("margin", name), model.CLOSE_BAND, most)
        if found.settled and not found.failed:
            self.clear.add(name)
        return name in self.clear

    def hold_clear(self) -> None:
        """Hold that what was proved clear before any point met it is met, now that one did."""
        for name in self.clear & self.search.worst.keys():
            if self.search.worst[name][2].close_band <= model.CLOSE_BAND:
                self.held.setdefault(name, model.WITHIN)


def prove(search: Search, *, values: bool = True, effort: float = EFFORT) -> Standing:
    """Prove what a search's box allows, search what is left, and return what stands.

    With `values` False only the findings are settled, not the ends of what is shown.
    """
    standing = Standing(search, effort)
    if not search.box.dimensions:
        return standing
    # Everything at once, first: most checks are settled by it, one at a time or not at all.
    standing.proof.effort = LOOK
    words = search.sheet.words.get("checks", {})
    told = {shown.name for shown in search.sheet.outputs} - words.keys()  # no check is missing then
    found = standing.proof.look(LOOK, {*search.worst, *told})
    met = {name for what, name in found if what == "margin"}
    spare = standing.proof.effort
    standing.proof.effort = effort
    _settle_all(standing)
    standing.proof.effort = max(spare, FIRST * len(search.worst))
    if met - search.worst.keys():
        search.around()  # most of them are met there, and to find them one by one takes longer
    unmet = [name for name in sorted(met - search.worst.keys()) if not standing.absent(name, LAST)]
    standing.hold_clear()
    _settle_all(standing)  # what was first met now
    standing.complete = standing.proof.complete and not (set(unmet) - search.worst.keys())
    left = [name for name in search.worst if name not in standing.held]
    if left or not standing.complete:
        search.run(left)
        standing.hold_clear()
        for name in search.worst:
            standing.settle(name, FIRST)
    if values:
        settle_values(standing, search.shown())
    return standing


def _settle_all(standing: Standing) -> None:
    """Settle every check: the costly ones last, lest they leave nothing to the others."""
    for most in (FIRST, NEXT, LAST):
        for name in _by_margin(standing.search):
            if name not in standing.held:
                standing.settle(name, most)


def _by_margin(search: Search) -> list[str]:
    return sorted(search.worst, key=lambda name: search.worst[name][0])


def settle_values(standing: Standing, keys: list[Key]) -> None:
    """Find the true ends of what is shown, and search for those that stay open."""
    standing.proof.effort = VALUES
    most = max(VALUE, VALUES / max(len(keys), 1))  # a search costs as much, and is less sure
    left = [key for key in keys if not standing.ends(key, most)]
    if left:
        standing.search.run({name for what, name in left if what != "output"})
    standing.hold_clear()


def beyond_of(check: model.Check) -> tuple[Any, Any] | None:
    """Return how far a value is on the good side of its limit, and of what is close to it.

    None where these don't tell a margin: of a limit that may be 0, a window, a fit.
    """
    if check.band:  # all inside of most bands is close
        return check.beyond if check.close_band == model.INSIDE_BAND else None
    if check.sense not in ("at most", "at least"):
        return None
    limit: Any = check.limit
    value: Any = check.value
    if not (limit.low if limit.__class__ is Interval else limit) > 0.0:
        return None
    if check.sense == "at most":
        return limit - value, limit * (1.0 - check.close_band) - value
    return value - limit, value - limit * (1.0 + check.close_band)


def numbers(outcome: Outcome) -> dict[Key, Any]:
    """Return every number of an outcome: each check's margin, value and limit, each output.

    What a check is beyond its limits is left out where its margin's ends settle it already.
    """
    found: dict[Key, Any] = {}
    for check in outcome.checks:
        found["margin", check.name] = check.margin
        found["value", check.name] = check.value
        found["limit", check.name] = check.limit
        margin: Any = check.margin
        if margin.__class__ is not Interval or margin.low < check.close_band:
            beyond = beyond_of(check)
            if beyond is not None:
                found["left", check.name], found["inside", check.name] = beyond
    for name, value in outcome.amounts():
        found["output", name] = value
    return found
