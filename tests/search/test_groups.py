"""Groups of checks that alone read an open choice, and what decides in a list of many answers."""

import itertools

import pytest

from calc import machines, matrix, model, search, worksheets
from calc.model import At
from calc.search.looking import evenly
from calc.search.proof import Proof
from calc.search.standing import Standing
from calc.subjects import shaft_power

SHEET = worksheets.load("pairing")
NAMES = [item.name for item in SHEET.fields]
PAIRS = list(
    itertools.islice(
        itertools.product(machines.demo("tractor")[::2], machines.demo("implement")), 0, None, 3
    )
)


def box_of(tractor, implement, **more):
    """The box of two machines, of which every third column isn't known."""
    given = {**tractor.fill(NAMES), **implement.fill(NAMES)}
    kept = [name for place, name in enumerate(given) if place % 3 or name == "implement_kind"]
    return search.read_box(SHEET, {**{name: given[name] for name in kept}, "loader": "on", **more})


def points_of(box, count):
    """Points spread evenly over a box, and as many of its corners."""
    for place, shares in enumerate(evenly(len(box.dimensions), count)):
        ends = [float(share >= 0.5) if place % 2 else share for share in shares]
        at = {d.name: d.at(s) for d, s in zip(box.dimensions, ends, strict=True)}
        yield SHEET.compute(box.point(at), model.Work(on=False))


def test_a_group_makes_no_check_that_it_does_not_name(monkeypatch):
    """A look that leaves a group out would miss one."""
    seen = set()
    own = At.group

    def group(self, names, make, *args):
        before = len(self._checks)
        own(self, names, make, *args)
        made = {check.name for check in self._checks[before:]}
        assert made <= set(names)
        seen.update(made)

    monkeypatch.setattr(At, "group", group)
    for tractor, implement in PAIRS:
        box = box_of(tractor, implement, loader_payload="300 lb")
        list(points_of(box, 8))
    assert seen >= {"lift", "power", "class", "duty", "loader_lift"}


def test_no_check_is_missing_where_the_other_groups_are_left_out():
    """What a run for one group gives of it is what a run for everything gives."""
    for tractor, implement in PAIRS:
        box = box_of(tractor, implement)
        at = {d.name: d.at(0.3) for d in box.dimensions}
        whole = SHEET.compute(box.point(at), model.Work(on=False))
        for names in (("lift",), ("power",), ("class", "duty")):
            alone = model.run_group(
                names, lambda at=at, box=box: SHEET.compute(box.point(at), model.Work(on=False))
            )
            for name in names:
                assert alone.check(name) == whole.check(name)


def test_choices_of_two_groups_are_not_multiplied():
    """Two groups with three choices of ten options each take 20 runs, not 100."""
    choices = {name: tuple(range(10)) for name in ("one", "two")}
    left = {("one",): "one", ("two",): "two"}

    def run(values, group):
        found = {}
        for names, choice in left.items():
            if group is None and model.checks.leaving():
                model.checks.leave(names, choice)
                continue
            if group in (None, names):
                found["margin", choice] = values["x"] + values[choice]
        return found

    def at(values, key):
        return values["x"] + values[key[1]]

    proof = Proof(run, at, {}, {"x": (0.0, 1.0)}, choices)
    assert proof.look(4000.0) == {("margin", "one"), ("margin", "two")}
    assert proof.complete
    assert proof.runs == 21
    for name in choices:
        assert proof.at_least(("margin", name), 0.0, 900.0).settled
        worst = proof.at_least(("margin", name), 9.0, 900.0, sign=-1)
        assert worst.failed


def numbers_of(parts, outer=lambda v: 0.0):
    """A proof over x and y from 0 to 1: a number that no group makes, and one of each group."""

    def compute(v):
        at = At(SHEET, v, model.Work(on=False))
        at.outer = outer(v)
        for name, make in parts.items():
            at.group((name,), lambda name=name, make=make: setattr(at, name, make(v)))
        return {("margin", name): value for name, value in at._values.items()}

    def run(values, group):
        v = model.Inputs(values)
        return compute(v) if group is None else model.run_group(group, lambda: compute(v))

    def at(values, key):
        return run(values, None).get(key)

    return Proof(run, at, {}, {"x": (0.0, 1.0), "y": (0.0, 1.0)})


def stairs(value):
    """A number that eight comparisons make."""
    return sum(1.0 for step in range(8) if value > (step + 0.5) / 8)


def test_ways_through_two_groups_are_not_multiplied():
    """Nine ways through each of two groups: 18 and one without them, not 81."""
    proof = numbers_of({"one": lambda v: stairs(v.x), "two": lambda v: stairs(v.y)})
    before = proof.effort
    assert proof.look(4000.0) == {("margin", name) for name in ("outer", "one", "two")}
    assert proof.complete
    assert proof.runs == 3
    assert before - proof.effort < 81 * 0.5  # a way is half a point at least
    for name in ("one", "two"):
        assert proof.at_least(("margin", name), 0.0, 900.0).settled
        assert proof.at_least(("margin", name), 0.5, 900.0).failed


def test_what_a_group_makes_on_one_way_alone_is_not_taken_for_all_of_it():
    """On one way through what is outside, its own comparison is decided; not on the other."""
    parts = {"inner": lambda v: 1.0 if v.x > 0.25 else -1.0}
    proof = numbers_of(parts, outer=lambda v: 1.0 if v.x > 0.5 else 0.0)
    proof.look(4000.0)
    assert proof.at_least(("margin", "inner"), 0.0, 900.0).failed


def test_a_group_whose_checks_are_met_is_not_looked_into():
    given = {"implement_kind": "box_blade", "loader": "on", "loader_payload": "300 lb"}
    box = search.read_box(SHEET, {**given, "loader_rating": "900 lb"})
    assert "loader_rating_at" in {dim.name for dim in box.dimensions}
    seen = search.Search(SHEET, box)
    every, few = (Standing(seen).proof for _ in range(2))
    assert every.look(4000.0) > few.look(4000.0, seen.worst)
    assert few.runs == 1 < every.runs
    assert few.complete


@pytest.mark.parametrize("pair", PAIRS, ids=lambda pair: f"{pair[0].name}, {pair[1].name}")
def test_the_check_that_is_truly_worst_decides(pair):
    """No point shows another check of the same weight nearer to its limit or further past it."""
    box = box_of(*pair)
    with model.checks_alone():
        decides = search.Foremost(search.Search(SHEET, box)).verdict()
    seen = {}
    for outcome in points_of(box, 200):
        for check in outcome.checks:
            seen.setdefault(check.name, []).append(check)
    for name, made in seen.items():
        margins = [check.margin for check in made]
        finding = model.finding_over(min(margins), max(margins), made[0].close_band)
        if name == decides.check.name or made[0].grade != decides.check.grade:
            continue
        order = [model.OVER, model.UNKNOWN, model.CLOSE, model.WITHIN]
        if len(made) == 200 and finding != model.OVER:  # else a met one may have been missed
            assert order.index(finding) >= order.index(decides.finding)
            if finding == decides.finding:
                # Ends are found to half a hundredth of their width.
                room = 0.006 * (decides.margin_high - decides.margin_low) + 1e-9
                assert min(margins) >= decides.margin_low - room


def test_what_no_check_hangs_on_changes_no_check():
    for tractor, implement in PAIRS:
        box = box_of(tractor, implement)
        found = search.Foremost(search.Search(SHEET, box)).verdict()
        with model.checks_alone():
            assert search.Foremost(search.Search(SHEET, box)).verdict() == found


def test_a_cell_says_what_the_pairing_page_says():
    for tractor, implement in PAIRS[:4]:
        cell = matrix.pair(tractor, implement, SHEET, job=matrix.JOB)
        page = search.answer(SHEET, cell.inputs)
        assert page.deciding.check.name == cell.check


def test_how_it_breathes_decides_what_the_air_takes_of_the_power():
    for feet in (-500.0, 0.0, 499.0, 501.0, 3000.0, 9000.0):
        for breathing in ("natural", "turbo"):
            for rule in ("na_500", "na_0", "na_2500", "na_msha", "none"):
                v = model.Inputs({"altitude": feet * 0.3048, "breathing": breathing})
                known = shaft_power.altitude_share(v.altitude, breathing, rule)
                assert shaft_power.altitude_share_of(v, rule) == known
    assert shaft_power.altitude_share_of(model.Inputs({"altitude": None})) == 1.0
