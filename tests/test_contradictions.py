"""Figures that can't stand beside each other, and what is known of one from the other."""

import pytest

from calc import machines, model, quantities, search, worksheets
from calc.errors import InputError

CARRIED = {"implement_kind": "rotary_cutter", "implement_mass": "300 lb"}


def refused(name, **inputs):
    return search.read(worksheets.load(name), inputs).errors


def test_a_lift_figure_at_the_balls_alone_bounds_the_lift():
    """100 lb at the ball ends is less everywhere behind them: 300 lb is over, never within."""
    sheet = worksheets.load("ballast")
    for more in ({}, {"lift_rated_at": "610"}, {"lift_rated_at": "305"}):
        answer = search.answer(sheet, {**CARRIED, "lift_at_ball_ends": "100 lb", **more})
        lift = next(v for v in answer.verdicts if v.check.name == "lift")
        assert lift.finding == model.OVER
        assert lift.limit_high <= quantities.base("100 lb", "mass")


def test_without_the_kind_of_implement_it_isnt_within():
    given = {"lift_at_ball_ends": "100 lb", "implement_mass": "300 lb"}
    assert search.answer(worksheets.load("ballast"), given).finding == model.OVER


@pytest.mark.parametrize("name", ["ballast", "pairing", "capability"])
@pytest.mark.parametrize(("ball", "wrong"), [("899 lb", True), ("900 lb", False)])
def test_a_hitch_lifts_no_less_at_the_ball_ends(name, ball, wrong):
    said = {"lift_capacity": "900 lb", "lift_rated_at": "610", "lift_at_ball_ends": ball}
    assert ("lift_at_ball_ends" in refused(name, **said)) == wrong


@pytest.mark.parametrize(
    ("pto", "wrong"), [("20 hp", False), ("20.1 hp", True), ("19 to 22 hp", False)]
)
def test_a_pto_has_no_more_power_than_the_engine(pto, wrong):
    assert ("pto_power" in refused("pto", engine_power="20 hp", pto_power=pto)) == wrong


def read_list(columns, row):
    return machines.read_machines(f"name,tractor_mass,{columns}\nA,1650 lb,{row}\n", "tractor")


@pytest.mark.parametrize(
    ("columns", "row", "left", "place"),
    [
        ("engine_power,pto_power", "20 hp,30 hp", set(), "column pto_power"),
        ("engine_power,pto_power", "30 hp,20 hp", {"engine_power", "pto_power"}, ""),
        (
            "lift_capacity,lift_rated_at,lift_at_ball_ends",
            "900 lb,24 in,300 lb",
            set(),
            "column lift_at_ball_ends",
        ),
        ("lift_at_ball_ends", "300 lb", {"lift_at_ball_ends"}, ""),
        ("lift_capacity", "300 lb", set(), "column lift_rated_at"),
    ],
)
def test_a_list_leaves_out_figures_that_contradict(columns, row, left, place):
    """Which of the two is wrong, nobody can tell: both go, and the row is used without them."""
    (machine,), problems = read_list(columns, row)
    assert set(machine.inputs) == {"tractor_mass"} | left
    assert len(problems) == bool(place) and all(place in problem for problem in problems)


@pytest.mark.parametrize("coil", ["8 mm", "0.4 in", "29 mm", "8 to 40 mm"])
def test_a_coil_bounds_the_wire_that_nobody_measured(coil):
    """The usual wire of 3.5 to 6 mm doesn't fit into a coil of 8 mm."""
    sheet = worksheets.load("lawn")
    given = {"tool": "spring-tine", "tine_coil": coil}
    box = search.read_box(sheet, given)
    wire = next(dim for dim in box.dimensions if dim.name == "tine_wire")
    assert 2 * wire.high < quantities.parse(coil, "length").low
    assert search.answer(sheet, given).outputs


@pytest.mark.parametrize("wire", ["4 mm", "14.5 mm", "15 mm"])
def test_a_wire_bounds_the_coil(wire):
    given = {"tool": "spring-tine", "tine_wire": wire}
    assert search.answer(worksheets.load("lawn"), given).outputs


def test_about_nothing_is_up_to_half_a_step():
    """What rounds to 0 in may be half an inch, and never less than nothing where that can't be."""
    deflection = worksheets.load("lawn").field("tine_deflection")
    reading = deflection.read("about 0 in")
    assert (reading.low, reading.high) == (0.0, pytest.approx(0.0127))
    assert deflection.read("about 6 in").high == pytest.approx(6 * 0.0254)
    with pytest.raises(InputError, match="must lie between"):
        deflection.read("-0.5 to 0.5 in")


def test_what_rounding_left_is_nothing():
    assert quantities.show(5.7e-14, "length", "us", unit="ft") == "0 ft"
    assert quantities.number(-3e-16) == "0"
    assert quantities.number(1.1e-7) != "0"


def post(least, refuses):
    """A post that is to be set deeper, and a hole whose depth may refuse that."""
    deep = model.Field("deep", "length", "0 in", "40 in", label="Depth", needed=True)
    hole = model.Field("hole", "length", "0 in", "40 in", label="Hole", optional=True)

    def compute(v, work):
        depth = (least, "length", "hitch/DERIVED")
        return model.Outcome([model.at_least("deep", "Depth", v.deep, *depth)])

    def advise(v, outcome, solve):
        return model.Advice(remedies=[model.Remedy("Set it deeper.", {"deep": "30 in"})])

    def review(known):
        shallow = known["hole"] and known["deep"] and known["deep"].high > known["hole"].high
        return {"deep": "It can't be deeper than its hole."} if shallow and refuses else {}

    return model.Worksheet(
        "toy", "Toy", "Toy?", (deep, hole), compute, advise, lambda v, o: None, review=review
    )


@pytest.mark.parametrize(("hole", "offered"), [("29.9 in", False), ("30 in", True), ("", True)])
def test_a_remedy_that_the_fields_would_refuse_isnt_offered(hole, offered):
    """What a reader tries out with one click is taken, beside all that was given."""
    for refuses in (True, False):
        answer = search.answer(post(0.7, refuses), {"deep": "10 in", "hole": hole})
        assert answer.finding == model.OVER
        assert bool(answer.advice.remedies) == (offered or not refuses)


def test_a_machine_may_have_any_name():
    for name in ("constructor", "__proto__", "toString", "=1+1"):
        (machine,), problems = machines.read_machines(f"name,mass\n{name},900 lb\n", "tractor")
        assert (machine.name, problems) == (name, ())


@pytest.mark.parametrize("payload", ["0 lb", "0 to 0 lb", ""])
def test_nothing_in_a_loader_that_is_off_is_no_load(payload):
    sheet = worksheets.load("ballast")
    given = {"loader": "off", "implement_kind": "core_aerator", "loader_payload": payload}
    for full in (True, False):
        answer = search.answer(sheet, given, ask="behind", full=full)
        assert answer.verdicts
        assert not any(v.check.name.startswith("loader") for v in answer.verdicts)


@pytest.mark.parametrize("heading", ["a\nb", "x" * 5000])
def test_a_strange_heading_is_told_on_one_short_line(heading):
    told = [
        problem
        for columns in (f'"{heading}"', '"tractor\nmass",tractor_mass')
        for problem in machines.read_machines(f"name,{columns}\nA,1,2\n", "tractor")[1]
    ]
    assert told and all("\n" not in problem and len(problem) < 200 for problem in told)
