"""Remedies: things that one can buy or do, solved where the box is worst and proven there.

`advise` names what may be changed (`remedies.less("towed_mass")`); how far, in which whole size,
what it mends, and whether it may be offered at all is worked out here, once for every
worksheet. Offered is only what mends a broken check at that check's worst point, breaks no
other, and stays in proportion to what is there. Those that mend everything come first.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import Any

from calc import model, quantities
from calc.model import Inputs, Number, Remedy
from calc.search.bisection import last_met
from calc.search.rounding import sold, step_of, step_said, steps_to, typed
from calc.search.solver import Solver

# A change beyond this ratio is no advice: nobody buys a tractor five times as heavy.
IN_PROPORTION = 2.5
# While nobody knows whether anything is wrong, what is there is cut by no more than this ratio.
UNSURE = 1.5
# Broken by less than this a check counts as met: it is what rounding leaves.
_NOTHING = -1e-9
# A size that can be bought counts as meeting an edge that halving left this far off: 24 halvings
# leave some 1e-7. Whether it does meet the checks is asked afterwards.
_BARELY = 1 - 1e-6

Also = Mapping[str, Any]


class Remedies:
    """Collects the remedies of one answer."""

    def __init__(self, solve: Solver) -> None:
        self._solve = solve
        self._sheet = solve.sheet
        self._found: list[Remedy] = []
        self._also_at: dict[str, tuple[Inputs, ...]] = {}  # where else a check was worst
        self.broken = solve.broken
        self.over = {v.check.name for v in solve.verdicts if v.finding == model.OVER}
        self.assumed = solve.assumed  # names of the fields whose usual range stands in

    def found(self) -> list[Remedy]:
        """Return the remedies, each said once: first those that mend everything, then
        those that mend what is broken worst, then the rest."""
        unlike: dict[str, Remedy] = {}
        for remedy in self._found:
            unlike.setdefault(model.words(remedy.text, "us"), remedy)
        worst = self.broken[0] if self.broken else ""

        def order(remedy: Remedy) -> tuple[bool, bool, int]:
            return not remedy.whole, worst not in remedy.mends, -len(remedy.mends)

        return sorted(unlike.values(), key=order)

    # --- what may be changed --------------------------------------------------------------------

    def less(self, name: str, **options: Any) -> Remedy | None:
        """Offer the largest smaller value of a field that meets the checks.

        See `_changed` for the options.
        """
        return self._changed(name, up=False, **options)

    def more(self, name: str, **options: Any) -> Remedy | None:
        """Offer the smallest larger value of a field that meets the checks."""
        return self._changed(name, up=True, **options)

    def choose(
        self,
        name: str,
        value: Any,
        *,
        mends: Iterable[str] = (),
        also: Also | None = None,
        key: str = "",
        source: str = "",
        **numbers: Number,
    ) -> Remedy | None:
        """Offer another option of a choice, with other inputs changed along with it."""
        if getattr(self._solve.point, name) == value:
            return None
        return self._offer(key or name, {name: value, **(also or {})}, mends, source, numbers)

    def change(
        self,
        key: str,
        values: Mapping[str, Any],
        *,
        mends: Iterable[str] = (),
        source: str = "",
        **numbers: Number,
    ) -> Remedy | None:
        """Offer several inputs changed together, by the value of each."""
        return self._offer(key, values, mends, source, numbers)

    def change_leaving(
        self, key: str, values: Mapping[str, Any], mends: Iterable[str], leaves: Iterable[str]
    ) -> Remedy | None:
        """Offer the same where it may break checks that nobody said anything of."""
        return self._offer(key, values, mends, "", {}, leaves)

    def change_plainly(
        self, key: str, values: Mapping[str, Any], mends: Iterable[str], leaves: Iterable[str]
    ) -> Remedy | None:
        """Offer the same where it meets the checks by more than just.

        `leaves` are checks that the remedy's own words tell the reader to look at.
        """
        return self._offer(key, values, mends, "", {}, leaves, plainly=True)

    def do(
        self,
        key: str,
        mends: Iterable[str],
        *,
        source: str = "",
        **numbers: Number,
    ) -> Remedy | None:
        """Offer something that no field stands for, where one of the checks named is broken."""
        mended = tuple(name for name in mends if name in self.broken)
        if not mended:
            return None
        return self._add(key, {}, mended, source, numbers, self._solve.point)

    def do_instead(self, key: str, of: str, *, source: str = "") -> Remedy | None:
        """Offer something else where the check `of` is broken: it mends nothing."""
        if of not in self.broken:
            return None
        return self._add(key, {}, (), source, {}, self._solve.point)

    def whole(self, name: str, value: float, *, step: float = 0.0, up: bool = False) -> float:
        """Return a value of a field as it is said and bought: rounded down, or up, to a step.

        `step` is in the field's US unit; in metric units it is the nearest whole one of theirs.
        """
        item = self._sheet.field(name)
        assert isinstance(item, model.Field)
        return self._typed_size(item, value, step, up=up)

    # --- how far --------------------------------------------------------------------------------

    def _changed(
        self,
        name: str,
        *,
        up: bool,
        mends: Iterable[str] = (),
        stock: Sequence[float] = (),
        step: float = 0.0,
        also: Also | None = None,
        most: float = IN_PROPORTION,
        end: float | None = None,
        another: bool = False,
        plainly: bool = False,
        unsure: float = UNSURE,
        key: str = "",
        source: str = "",
        **numbers: Number,
    ) -> Remedy | None:
        """Offer a changed value of a quantity.

        Parameters
        ----------
        name
            The field.
        up
            Whether it grows.
        mends
            The checks that it is meant for; those of them that are broken are solved together.
            Without any, all broken ones that the far end of the change meets.
        stock
            The sizes that can be bought, in base units; the nearest that meets the checks.
        step
            The step to round to, in the field's US unit; by kind when zero. In metric units the
            nearest whole one.
        also
            Other inputs that go with it: values, or functions of the value tried.
        most
            The largest ratio of the new value to the old one, or of the old to the new.
        end
            How far at most, in base units, where the ratio says nothing (from zero on).
        another
            Whether it means another machine: nobody buys one for what may be in order already,
            so it is offered for checks that are broken whatever the unknown numbers are.
        plainly
            Whether it must meet the checks by more than just: where people get hurt.
        unsure
            The largest ratio of the old value to the new one while nobody knows whether anything
            is wrong; what one loads as one likes may be cut by more.
        key
            The name of its words under `remedies`; the field's own when empty.
        """
        item = self._sheet.field(name)
        now = getattr(self._solve.point, name)
        if now is None or not isinstance(item, model.Field):
            return None
        aimed = [check for check in (mends or self.broken) if check in self.broken]
        # What nobody gave is looked at from where a check is worst, or its edge is passed over.
        worst = [getattr(self._solve.worst_of(check), name) for check in aimed]
        now = (min if up else max)([now, *(value for value in worst if value is not None)])
        low, high = (quantities.base(edge, item.kind) for edge in (item.low, item.high))
        for_sure = [check for check in aimed if check in self.over]
        reach = end if end is not None else (now * most if up else now / most)
        if not up and not for_sure and name not in self.assumed:
            reach = max(reach, now / unsure)
        far = min(reach, high) if up else max(reach, low)
        stock = sold(stock, item, self._solve.system)
        wanted = for_sure if another else aimed
        at_far = {name: far, **_with(also, far)}
        wanted = [c for c in wanted if self._meets(c, at_far, plainly=plainly)]
        if not wanted or far == now:
            return None

        def met(value: float) -> bool:
            changes = {name: value, **_with(also, value)}
            return all(self._meets(check, changes, plainly=plainly) for check in wanted)

        def size(edge: float) -> float | None:
            return self._whole(item, edge, stock, step, up=up)

        def solved() -> float | None:
            value = size(last_met(met, far, now, size))
            if value is None:
                return None
            if not met(value):
                value = self._next(item, value, stock, step, up=up)
            past = value > now if up else value < now
            return value if past and low <= value <= high and met(value) else None

        value = solved()
        if value is None:
            return None
        moved = [c for c in wanted if self._moves(c, {name: value, **_with(also, value)})]
        if moved:
            if not all(self._meets(c, at_far, plainly=plainly) for c in moved):
                return None
            value = solved()
        if value is None:
            return None
        changes = {name: value, **_with(also, value)}
        return self._offer(key or name, changes, wanted, source, numbers, plainly=plainly)

    def _whole(
        self, item: model.Field, edge: float, stock: Sequence[float], step: float, *, up: bool
    ) -> float | None:
        """Return the size that can be bought or typed, on the side that meets the checks.

        None where it would have to be bought and none is sold.
        """
        if stock:
            inside = [s for s in stock if (s >= edge * _BARELY if up else s * _BARELY <= edge)]
            return (min if up else max)(inside, default=None)
        return self._typed_size(item, edge, step, up=up)

    def _typed_size(self, item: model.Field, edge: float, step: float, *, up: bool) -> float:
        """Return the round number at an edge, on the side that meets the checks."""
        unit, step = step_of(item, self._solve.system, step)
        step = step_said(unit.from_base(edge), unit, step)
        return unit.to_base(steps_to(edge, unit, step, up=up) * step)

    def _next(
        self, item: model.Field, value: float, stock: Sequence[float], step: float, *, up: bool
    ) -> float:
        """Return the next size beyond one that just misses."""
        if stock:
            beyond = [s for s in stock if (s > value if up else s < value)]
            return (min if up else max)(beyond, default=value)
        unit, step = step_of(item, self._solve.system, step)
        step = step_said(unit.from_base(value), unit, step)
        return unit.to_base(unit.from_base(value) + (step if up else -step))

    # --- whether it may be offered --------------------------------------------------------------

    def _meets(self, check: str, changes: Mapping[str, Any], *, plainly: bool = False) -> bool:
        for point in (self._solve.worst_of(check), *self._also_at.get(check, ())):
            found = self._solve.check(check, point, **changes)
            band = found.close_band if found and plainly else 0.0
            if found and found.margin < band + _NOTHING:
                return False
        return True

    def _moves(self, check: str, changes: Mapping[str, Any]) -> bool:
        """Whether a change brings a check's worst point elsewhere, where it is broken; kept."""
        point = self._solve.worst_after(check, changes)
        found = None if point is None else self._solve.check(check, point, **changes)
        if point is None or found is None or found.margin >= _NOTHING:
            return False
        self._also_at[check] = (*self._also_at.get(check, ()), point)
        return True

    def _offer(
        self,
        key: str,
        changes: Mapping[str, Any],
        mends: Iterable[str],
        source: str,
        numbers: Mapping[str, Number],
        leaves: Iterable[str] = (),
        *,
        plainly: bool = False,
    ) -> Remedy | None:
        """Add a remedy if it mends what it is for and breaks nothing that was met."""
        mended = tuple(
            check for check in self.broken if self._meets(check, changes, plainly=plainly)
        )
        if not mended or not set(mends) <= {*mended, *self._met()}:
            return None
        if self._breaks(changes, set(leaves)):
            return None
        return self._add(key, changes, mended, source, numbers, self._solve.worst_of(mended[0]))

    def _met(self) -> set[str]:
        return {v.check.name for v in self._solve.verdicts} - set(self.broken)

    def _breaks(self, changes: Mapping[str, Any], leaves: Collection[str]) -> bool:
        """Whether a check that was met is broken by the change, at any worst point known."""
        passed = {*self.broken, *leaves}
        for point in self._solve.worst_points((*self.broken, *self._met())):
            before = {c.name: c.margin for c in self._solve.now(point).checks}
            for after in self._solve.at(point, **changes).checks:
                fell = after.margin < _NOTHING and before.get(after.name, 1.0) >= _NOTHING
                if fell and after.grade != model.ADVICE and after.name not in passed:
                    return True
        return False

    def _add(
        self,
        key: str,
        changes: Mapping[str, Any],
        mended: tuple[str, ...],
        source: str,
        numbers: Mapping[str, Number],
        point: Inputs,
    ) -> Remedy:
        put_in = point.but(**changes)
        named = {
            name: model.number_of(self._sheet, name, value)
            for name, value in put_in.values().items()
            if value is not None and (name in self._sheet.kinds or isinstance(value, str))
        }
        said = model.said_of(self._sheet.words, "remedies", key)
        remedy = Remedy(
            model.Phrase(said["label"], {**named, **numbers}),
            {name: self.typed(name, value) for name, value in changes.items()},
            source or said.get("source", ""),
            mended,
            set(mended) >= set(self.broken),
            f"{self._sheet.name}.{key}",
        )
        self._found.append(remedy)
        return remedy

    def typed(self, name: str, value: Any) -> str:
        """Return a value as the text that tries it out."""
        item = self._sheet.field(name)
        if value is None or not isinstance(item, model.Field):
            return "" if value is None else str(value)
        unit, _ = step_of(item, self._solve.system)
        return typed(unit.from_base(value), unit)


def _with(also: Also | None, value: float) -> dict[str, Any]:
    """Return the inputs that go with a value tried."""
    return {name: item(value) if callable(item) else item for name, item in (also or {}).items()}
