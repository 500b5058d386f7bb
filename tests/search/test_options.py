"""What an open choice may give is held in one run, and no option of it is missed."""

import itertools
import math
import random
from typing import NamedTuple

import pytest

from calc import arith, machines, model, search, worksheets
from calc.search import intervals
from calc.search.forks import Forks, begin
from calc.search.options import across
from calc.search.parts import Choosing, Part
from calc.search.proof import Proof
from calc.search.standing import Chosen, Standing, prove

KEY = ("output", "only")


class Pair(NamedTuple):
    low: float
    high: float
    source: str


@pytest.fixture(autouse=True)
def afresh():
    begin(Forks())


def ends(value):
    return intervals.parts(value)[:2]


def test_numbers_lie_between_the_least_and_the_greatest_and_change_step_by_step():
    made = across("kind", [1.0, 4.0, 2.0])
    assert ends(made) == (1.0, 4.0)
    assert made.slopes == {"kind": (-2.0, 3.0)}
    assert across("kind", [2.5, 2.5]) == 2.5
    assert across("kind", [None, None]) is None


def test_one_formula_times_each_option_keeps_its_order():
    """Three hundred watts a meter are more than two hundred, whatever the width."""
    width = intervals.variable("width", 1.0, 2.0)
    made = across("kind", [200.0 * width, 300.0 * width])
    assert ends(made) == (200.0, 600.0)
    assert made.slopes["width"] == (200.0, 300.0)
    assert made.slopes["kind"] == pytest.approx((100.0, 200.0))


def test_a_tuple_is_taken_part_by_part_and_a_text_is_only_shown():
    made = across("kind", [Pair(1.0, 2.0, "a"), Pair(1.0, 3.0, "b")])
    assert isinstance(made, Pair)
    assert (made.low, ends(made.high), made.source) == (1.0, (2.0, 3.0), "")
    assert across("kind", [Pair(1.0, 2.0, "a")] * 2).source == "a"


@pytest.mark.parametrize("made", [[1.0, None], [True, False], [1.0, "one"], [(1.0,), (1.0, 2.0)]])
def test_what_has_nothing_in_common_is_gone_through(made):
    with pytest.raises(model.OpenChoice, match="kind"):
        across("kind", made)


def test_an_option_that_refuses_the_inputs_is_gone_through():
    v = Chosen(Choosing({"other": "x"}, {"kind": ("a", "b")}))
    with pytest.raises(model.OpenChoice, match="kind"):
        v.each("kind", {"a": 1.0}.__getitem__)
    assert v.each("other", str.upper) == "X"
    assert v.but(kind="a").each("kind", {"a": 1.0}.__getitem__) == 1.0


def test_a_range_of_options_is_cut_between_two_of_them():
    part = Part({"kind": "a"}, {"x": (0.0, 1.0), "kind": (0, 4)}, {}, {"kind": tuple("abcde")})
    first, second = part.halves("kind")
    assert [list(half.left().get("kind", ())) for half in (first, second)] == [
        ["a", "b", "c"],
        ["d", "e"],
    ]
    assert (part.middle()["kind"], part.away("kind")) == (2, 2)
    assert (second.middle()["kind"], second.away("kind")) == (3, 1)
    assert second.given["kind"] == "d"
    assert [one.given["kind"] for one in second.picked("kind")] == ["d", "e"]
    assert second.point({"x": 0.5, "kind": 4}) == {"x": 0.5, "kind": "e"}
    made = second.halves("kind")[1]
    assert (made.given["kind"], made.left(), made.picks) == ("e", {}, {"kind": "e"})


def tables_of(rng):
    """A formula of two numbers and two choices, by looking numbers up for each option."""
    one = dict(zip("abcd", (rng.uniform(-2.0, 2.0) for _ in range(4)), strict=True))
    two = dict(zip("pqr", (rng.uniform(0.1, 2.0) for _ in range(3)), strict=True))

    def formula(v):
        rate = v.each("one", one.__getitem__)
        share = v.each("two", lambda key: v.x * two[key])
        made = arith.max(rate * v.y, share - 1.0) - v.y / (1.0 + share)
        return made if rate > 0.3 else made + share  # a comparison that options leave open

    return formula


@pytest.mark.parametrize("seed", range(20))
def test_the_least_over_all_options_is_found_and_no_more_is_proved(seed):
    rng = random.Random(seed)
    formula = tables_of(rng)
    low, high = sorted(rng.uniform(0.0, 3.0) for _ in range(2))
    ranges = {"x": (low, high), "y": (1.0, 1.0 + rng.random())}
    choices = {"one": tuple("abcd"), "two": tuple("pqr")}

    def run(values, group):
        return {KEY: formula(Chosen(values) if values.left else model.Inputs(values))}

    def at(values, key):
        return formula(model.Inputs(values))

    def proof():
        return Proof(run, at, {}, ranges, choices, 9000.0)

    places = [place / 20 for place in range(21)]
    points = (
        {n: a + s * (b - a) for s, (n, (a, b)) in zip(shares, ranges.items(), strict=True)}
        for shares in itertools.product(places, repeat=2)
    )
    least = min(
        at({**point, "one": one, "two": two}, KEY)
        for point in points
        for one, two in itertools.product(*choices.values())
    )
    found = proof().least(KEY, (math.inf, -math.inf), 9000.0)
    assert found.settled
    assert found.bound <= least + 1e-9
    assert found.value == pytest.approx(at(found.point, KEY))
    above = proof().at_least(KEY, least + 1e-6, 9000.0)
    assert above.failed
    below = proof().at_least(KEY, found.bound - 1e-3, 9000.0)
    assert below.settled and not below.failed


def test_the_power_of_a_pairing_takes_one_run_for_all_its_options():
    """Material, breathing and transmission have twelve combinations."""
    sheet = worksheets.load("pairing")
    given = machines.demo("tractor")[2].fill([item.name for item in sheet.fields])
    del given["transmission"]
    inputs = {**given, "implement_kind": "rotary_cutter", "working_width": "60 in"}
    box = search.read_box(sheet, {**inputs, "loader": "on"})
    proof = Standing(search.Search(sheet, box)).proof
    assert {"material", "breathing", "transmission"} <= proof.choices.keys()
    assert proof.combinations >= 12
    found = proof.look(4000.0)
    assert ("margin", "power") in found
    assert (proof.complete, proof.runs) == (True, 1)


def test_a_band_whose_width_hangs_on_the_inputs_is_proved_by_its_ends():
    """What is left at work is just enough on the steepest climb, and not a watt more is claimed."""
    sheet = worksheets.load("pairing")
    given = machines.demo("tractor")[4].fill([item.name for item in sheet.fields])
    inputs = {**given, "loader": "off", "implement_kind": "rotary_cutter", "working_width": "60 in"}

    def found(power):
        box = search.read_box(sheet, {**inputs, "pto_power": power})
        seen = search.Search(sheet, box)
        standing = prove(seen)
        assert standing.held["power"] == seen.finding("power")[0]
        return standing.held["power"]

    within = next(power for power in range(20, 60) if found(f"{power} hp") == model.WITHIN)
    assert found(f"{within - 1} hp") == model.CLOSE
    over = next(power for power in range(60, 1, -1) if found(f"{power} hp") == model.OVER)
    assert found(f"{over + 1} hp") == model.UNKNOWN
