"""Finding what holds for everything the inputs may be, and solving for remedies.

How the box of possible values is searched:

1. the middle, and each input moved alone to each of its ends, which shows what each check
   hangs on and in which direction;
2. for each check the corner that this predicts to be worst, and the one predicted best; then
   one input after another is flipped there, and a flip that makes it worse (or better) is kept;
3. every corner of the inputs that sway the deciding check most (all of the box's corners when
   there are at most `CORNER_INPUTS` inputs), the others held at the worst corner found;
4. `SAMPLES` points that fill the space evenly, from a fixed seed (see `evenly`).

A check is met only when it is met at every point computed; the answer is "can't tell yet"
when the points disagree. The search is deterministic: the same inputs give the same answer.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from calc import quantities
from calc import worksheet as ws
from calc.errors import InputError
from calc.quantities import Reading
from calc.worksheet import Inputs, Outcome, Worksheet

CORNER_INPUTS = 6
SAMPLES = 48
SEED = 0.5
BISECTIONS = 24


class BadInputs(InputError):
    """Some fields can't be used; `errors` holds a sentence for each."""

    def __init__(self, errors: Mapping[str, str]) -> None:
        super().__init__(" ".join(errors.values()))
        self.errors = dict(errors)


@dataclass(frozen=True, slots=True)
class Dimension:
    """An input that isn't exact: its ends, or the options it may be."""

    name: str
    low: Any
    high: Any
    middle: Any
    options: tuple[Any, ...] = ()
    typed: bool = False

    @property
    def ends(self) -> tuple[Any, ...]:
        """The values that a corner may take."""
        return self.options or (self.low, self.high)

    def at(self, share: float) -> Any:
        """The value a share of the way from one end to the other."""
        if self.options:
            return self.options[min(int(share * len(self.options)), len(self.options) - 1)]
        return self.low + share * (self.high - self.low)


@dataclass(frozen=True, slots=True)
class Box:
    """Everything the inputs may be."""

    base: Mapping[str, Any]  # every input, uncertain ones at their middle
    dimensions: tuple[Dimension, ...]
    assumed: tuple[ws.Assumed, ...]

    def point(self, values: Mapping[str, Any]) -> Inputs:
        """Return the inputs with those values of the uncertain ones."""
        return Inputs({**self.base, **values})


def read_box(sheet: Worksheet, typed: Mapping[str, str], system: str = "us") -> Box:
    """Turn what was typed into the box of possible values. A field that isn't given has its
    default; one that is blank is unknown.

    Raises
    ------
    BadInputs
        With a sentence for each field that can't be used, and for each unknown name.
    """
    errors: dict[str, str] = {}
    known: dict[str, Any] = {}
    names = {item.name for item in sheet.fields}
    for name in typed:
        if name not in names:
            errors[name] = f"{sheet.title} has no field called “{quantities.shorten(name)}”."
    for item in sheet.fields:
        try:
            known[item.name] = item.read(typed.get(item.name, item.default), system)
        except InputError as error:
            errors[item.name] = str(error)
            known[item.name] = None
    if not errors:
        errors.update(sheet.review(known))
    if errors:
        raise BadInputs(errors)
    return _box(sheet, known)


def _box(sheet: Worksheet, known: dict[str, Any]) -> Box:
    base: dict[str, Any] = {}
    dimensions: list[Dimension] = []
    assumed: list[ws.Assumed] = []
    for item in sheet.fields:
        value = known[item.name]
        if isinstance(item, ws.Field):
            if value is None:
                typical = item.typical_for(known)
                if typical is None:
                    base[item.name] = None
                    continue
                assumed.append(ws.Assumed(item, typical))
                value = Reading(typical.low, typical.high)
                typed = False
            else:
                typed = True
            base[item.name] = value.middle
            if not value.exact:
                dimensions.append(
                    Dimension(item.name, value.low, value.high, value.middle, typed=typed)
                )
        elif isinstance(item, ws.Choice) and value is None:
            base[item.name] = item.unsure[0]
            assumed.append(ws.Assumed(item, None, item.unsure))
            if len(item.unsure) > 1:
                dimensions.append(
                    Dimension(
                        item.name, item.unsure[0], item.unsure[-1], item.unsure[0], item.unsure
                    )
                )
        else:
            base[item.name] = value
    return Box(base, tuple(dimensions), tuple(assumed))


class Search:
    """Computes points of a box, each once, and keeps the extremes of every check and output."""

    def __init__(self, sheet: Worksheet, box: Box) -> None:
        self.sheet = sheet
        self.box = box
        self._silent = ws.Work(on=False)
        self._seen: dict[tuple[Any, ...], Outcome] = {}
        self.worst: dict[str, tuple[float, dict[str, Any], ws.Check]] = {}
        self.best: dict[str, tuple[float, dict[str, Any], ws.Check]] = {}
        self.present: dict[str, int] = {}
        self.values: dict[str, list[float]] = {}
        self.limits: dict[str, list[float]] = {}
        self.outputs: dict[str, list[float]] = {}
        self.middle = {dim.name: dim.middle for dim in box.dimensions}
        self.middle_outcome = self.at(self.middle)

    @property
    def count(self) -> int:
        """How many points were computed."""
        return len(self._seen)

    def at(self, values: Mapping[str, Any]) -> Outcome:
        """Return the outcome at one point of the box."""
        key = tuple(values[dim.name] for dim in self.box.dimensions)
        outcome = self._seen.get(key)
        if outcome is None:
            outcome = self.sheet.compute(self.box.point(values), self._silent)
            self._seen[key] = outcome
            self._keep(outcome, dict(values))
        return outcome

    def _keep(self, outcome: Outcome, values: dict[str, Any]) -> None:
        for check in outcome.checks:
            name, margin = check.name, check.margin
            self.present[name] = self.present.get(name, 0) + 1
            if name not in self.worst:
                self.worst[name] = self.best[name] = (margin, values, check)
                self.values[name] = [check.value, check.value]
                self.limits[name] = [check.limit, check.limit]
                continue
            if margin < self.worst[name][0]:
                self.worst[name] = (margin, values, check)
            if margin > self.best[name][0]:
                self.best[name] = (margin, values, check)
            _stretch(self.values[name], check.value)
            _stretch(self.limits[name], check.limit)
        for output in outcome.outputs:
            _stretch(self.outputs.setdefault(output.name, [output.value] * 2), output.value)

    # The four parts of the search, in the order that the module describes.

    def run(self) -> None:
        """Search the whole box."""
        if not self.box.dimensions:
            return
        sways = self._one_at_a_time()
        for name in list(self.worst):
            self._walk(name, sways.get(name, {}), worst=True)
            self._walk(name, sways.get(name, {}), worst=False)
        if self.worst:
            self._corners(sways)
        else:
            self._output_corners()
        self._fill()

    def _output_corners(self) -> None:
        """Without checks, go to the corners where each output is predicted lowest and highest."""
        alone = {
            dim.name: [(end, self.at({**self.middle, dim.name: end})) for end in dim.ends]
            for dim in self.box.dimensions
        }
        for output in self.middle_outcome.outputs:
            for pick in (min, max):
                corner = {}
                for name, ends in alone.items():
                    reached = [
                        (one.value, end)
                        for end, outcome in ends
                        for one in outcome.outputs
                        if one.name == output.name
                    ]
                    found = pick(reached, key=lambda pair: pair[0], default=None)
                    corner[name] = found[1] if found else self.middle[name]
                self.at(corner)

    def _one_at_a_time(self) -> dict[str, dict[str, list[tuple[float, Any]]]]:
        """Return, for each check and input, the margins at the input's ends."""
        sways: dict[str, dict[str, list[tuple[float, Any]]]] = {}
        middle = {check.name: check.margin for check in self.middle_outcome.checks}
        for dim in self.box.dimensions:
            for end in dim.ends:
                outcome = self.at({**self.middle, dim.name: end})
                for check in outcome.checks:
                    if check.margin != middle.get(check.name):
                        entry = sways.setdefault(check.name, {}).setdefault(dim.name, [])
                        entry.append((check.margin, end))
        return sways

    def _walk(self, name: str, sway: Mapping[str, list[tuple[float, Any]]], *, worst: bool) -> None:
        """Go to the predicted worst (or best) corner of a check, then flip what improves on it."""
        pick = min if worst else max
        corner = dict(self.middle)
        for dim_name, ends in sway.items():
            corner[dim_name] = pick(ends, key=lambda end: end[0])[1]
        reached = self._margin(name, corner)
        for dim in self.box.dimensions:
            if dim.name not in sway:
                continue
            for end in dim.ends:
                if end == corner[dim.name]:
                    continue
                flipped = {**corner, dim.name: end}
                margin = self._margin(name, flipped)
                if margin is not None and (
                    reached is None or (margin < reached if worst else margin > reached)
                ):
                    corner, reached = flipped, margin

    def _margin(self, name: str, values: Mapping[str, Any]) -> float | None:
        check = self.at(values).check(name)
        return check.margin if check else None

    def _corners(self, sways: Mapping[str, Mapping[str, list[tuple[float, Any]]]]) -> None:
        chosen = list(self.box.dimensions)
        start = dict(self.middle)
        if len(chosen) > CORNER_INPUTS:
            name = min(self.worst, key=lambda check: self.worst[check][0])
            start = dict(self.worst[name][1])
            sway = sways.get(name, {})

            def reach(dim: Dimension) -> float:
                margins = [end[0] for end in sway.get(dim.name, [])]
                return max(margins) - min(margins) if margins else 0.0

            chosen = sorted(chosen, key=reach, reverse=True)[:CORNER_INPUTS]
        for ends in itertools.product(*[dim.ends for dim in chosen]):
            self.at({**start, **{dim.name: end for dim, end in zip(chosen, ends, strict=True)}})

    def _fill(self) -> None:
        for shares in evenly(len(self.box.dimensions), SAMPLES):
            self.at(
                {
                    dim.name: dim.at(share)
                    for dim, share in zip(self.box.dimensions, shares, strict=True)
                }
            )

    def verdicts(self) -> list[ws.Verdict]:
        """Return a verdict for each check met anywhere in the box, in order of margin."""
        nominal = {check.name: check for check in self.middle_outcome.checks}
        found = []
        for name, (margin_low, _, worst_check) in self.worst.items():
            check = nominal.get(name, worst_check)
            margin_high = self.best[name][0]
            if self.present[name] < self.count:
                # Somewhere in the box the check doesn't apply, so it isn't broken everywhere.
                margin_high = max(margin_high, 0.0)
            low, high = self.values[name]
            found.append(
                ws.Verdict(
                    check,
                    _finding(margin_low, margin_high, check.close_band),
                    low,
                    high,
                    margin_low,
                    margin_high,
                    *self.limits[name],
                )
            )
        return sorted(found, key=_rank)


def _stretch(ends: list[float], value: float) -> None:
    if value < ends[0]:
        ends[0] = value
    elif value > ends[1]:
        ends[1] = value


def evenly(dimensions: int, count: int) -> list[list[float]]:
    """Return points that fill the unit cube evenly, the same each time.

    The j-th coordinate of the i-th point is the fractional part of SEED + i times the square
    root of the j-th prime number, which no fraction approximates well.

    References
    ----------
    .. [1] R. D. Richtmyer's sequence, one of the additive recurrences. Any low-discrepancy
       sequence would do.
    """
    steps: list[float] = []
    candidate = 2
    while len(steps) < dimensions:
        if all(candidate % divisor for divisor in range(2, int(candidate**0.5) + 1)):
            steps.append(candidate**0.5)
        candidate += 1
    return [[(SEED + i * step) % 1.0 for step in steps] for i in range(1, count + 1)]


def _finding(margin_low: float, margin_high: float, band: float) -> str:
    if margin_high < 0:
        return ws.OVER
    if margin_low < 0:
        return ws.UNKNOWN
    return ws.CLOSE if margin_low < band else ws.WITHIN


_ORDER = {ws.OVER: 0, ws.UNKNOWN: 1, ws.CLOSE: 2, ws.WITHIN: 3}


def _rank(verdict: ws.Verdict) -> tuple[int, float]:
    margin = verdict.margin_high if verdict.finding == ws.OVER else verdict.margin_low
    return _ORDER[verdict.finding], margin


# --- which number would settle it ------------------------------------------------------------


def settle(search: Search, verdict: ws.Verdict) -> ws.Settle | None:
    """Return the input whose fixing narrows the deciding margin most, and from where it is met."""
    name = verdict.check.name
    worst, best = search.worst[name], search.best[name]
    width = worst[0] - best[0]
    if not width:
        return None
    chosen: tuple[float, Dimension] | None = None
    for dim in search.box.dimensions:
        fixed_low = search._margin(name, {**worst[1], dim.name: dim.middle})
        fixed_high = search._margin(name, {**best[1], dim.name: dim.middle})
        if fixed_low is None or fixed_high is None:
            continue
        narrows = 1 - (fixed_high - fixed_low) / -width
        if chosen is None or narrows > chosen[0] + 1e-9:
            chosen = narrows, dim
    if chosen is None or chosen[0] <= 0:
        return None
    dim = chosen[1]
    # A window can be left on either side: what mends its worst corner may break the other one.
    open_ended = not dim.options and verdict.check.sense != "between"
    low, high = _thresholds(search, name, dim, worst[1]) if open_ended else (None, None)
    return ws.Settle(search.sheet.field(dim.name), low, high, chosen[0])


def _thresholds(
    search: Search, name: str, dim: Dimension, worst: Mapping[str, Any]
) -> tuple[float | None, float | None]:
    """Return from which value up, or down, a check is met with everything else at its worst."""

    def met(value: float) -> bool:
        check = search.sheet.compute(
            search.box.point({**worst, dim.name: value}), search._silent
        ).check(name)
        return check is None or check.margin >= 0

    met_low, met_high = met(dim.low), met(dim.high)
    if met_low == met_high:
        return None, None
    if met_high:
        return _last_met(met, dim.high, dim.low), None
    return None, _last_met(met, dim.low, dim.high)


def _last_met(met: Callable[[float], bool], good: float, bad: float) -> float:
    """Return the value nearest to `bad` that is still met, by halving from `good`."""
    for _ in range(BISECTIONS):
        half = (good + bad) / 2
        if met(half):
            good = half
        else:
            bad = half
    return good


# --- remedies --------------------------------------------------------------------------------


class Solver:
    """Solves for remedies at one point: the middle, or where the deciding check is worst."""

    def __init__(
        self,
        sheet: Worksheet,
        point: Inputs,
        assumed: frozenset[str] = frozenset(),
        *,
        ranged: bool = False,
    ) -> None:
        self.sheet = sheet
        self.point = point
        self.assumed = assumed  # names of the fields whose typical range stands in
        self.ranged = ranged  # whether any input is a range or unknown
        self._silent = ws.Work(on=False)

    def run(self, **changes: Any) -> Outcome:
        """Return the outcome with some inputs replaced."""
        return self.sheet.compute(self.point.but(**changes), self._silent)

    def largest(
        self, name: str, low: float, high: float, checks: Sequence[str] = (), **also: Any
    ) -> float | None:
        """Return the largest value of an input, from `low` to `high`, that meets the checks.

        `checks` names them (all when empty). An item of `also` replaces another input: a value,
        or a function of the value tried, for inputs that go with it (a wider cutter is heavier).
        None when even `low` doesn't meet them; it assumes that more is worse.
        """
        return self._edge(name, low, high, checks, also)

    def smallest(
        self, name: str, low: float, high: float, checks: Sequence[str] = (), **also: Any
    ) -> float | None:
        """Return the smallest value that meets the checks; None when even `high` doesn't."""
        return self._edge(name, high, low, checks, also)

    def _edge(
        self,
        name: str,
        easy: float,
        hard: float,
        checks: Sequence[str],
        also: Mapping[str, Any],
    ) -> float | None:
        def met(value: float) -> bool:
            others = {key: item(value) if callable(item) else item for key, item in also.items()}
            return self.run(**{name: value}, **others).margin(checks) >= 0

        if met(hard):
            return hard
        return _last_met(met, easy, hard) if met(easy) else None


# --- the whole answer ------------------------------------------------------------------------


def answer(
    sheet: Worksheet, typed: Mapping[str, str], system: str = "us", *, full: bool = True
) -> ws.Answer:
    """Return the answer of a worksheet for what was typed.

    With `full` False only the middle of the box is computed, for a first quick look; the
    answer's `final` then says whether a full pass would say more.

    Raises
    ------
    BadInputs
        With a sentence for each field that can't be used.
    """
    box = read_box(sheet, typed, system)
    search = Search(sheet, box)
    if full:
        search.run()
    verdicts = search.verdicts()
    deciding = verdicts[0] if verdicts else None
    finding = deciding.finding if deciding else ws.COMPARED
    work = ws.Work()
    middle = box.point(search.middle)
    outcome = sheet.compute(middle, work)
    point = middle
    if deciding and box.dimensions:
        point = box.point(search.worst[deciding.check.name][1])
    at_point = outcome if point is middle else sheet.compute(point, ws.Work(on=False))
    assumed = frozenset(item.field.name for item in box.assumed)
    solver = Solver(sheet, point, assumed, ranged=bool(box.dimensions))
    advice = sheet.advise(point, at_point, solver)
    outputs = [_with_range(output, search.outputs[output.name]) for output in outcome.outputs]
    drawn = sheet.picture(middle, replace(outcome, outputs=outputs))
    pictures = () if drawn is None else (tuple(drawn) if isinstance(drawn, Sequence) else (drawn,))
    return ws.Answer(
        sheet,
        dict(typed),
        finding,
        deciding,
        verdicts,
        outputs,
        work.steps,
        advice,
        box.assumed,
        settle(search, deciding) if full and deciding and finding == ws.UNKNOWN else None,
        pictures,
        search.count,
        final=full or not box.dimensions,
    )


def _with_range(output: ws.Output, ends: Sequence[float]) -> ws.Output:
    return output if ends[0] == ends[1] else replace(output, low=ends[0], high=ends[1])


def known_of(sheet: Worksheet, typed: Mapping[str, str]) -> dict[str, Any]:
    """Return what can be read of the inputs, leaving None where a field can't be used."""
    known: dict[str, Any] = {}
    for item in sheet.fields:
        try:
            known[item.name] = item.read(typed.get(item.name, item.default))
        except InputError:
            known[item.name] = None
    return known
