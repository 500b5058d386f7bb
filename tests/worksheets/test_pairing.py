"""The main job: a tractor and an implement."""

import itertools

import pytest

from calc import arith, matrix, model, search, tables, worksheets
from calc.model import sentences
from calc.search.looking import evenly

SHEET = worksheets.load("pairing")


def demo(tractor, implement, **more):
    """Return the answer for two demo machines."""
    typed = {}
    for table, name in (
        ("machines/demo_tractors", tractor),
        ("machines/demo_implements", implement),
    ):
        row = next(r for r in tables.rows(table) if r["name"] == name)
        typed |= {k: v for k, v in row.items() if k in SHEET.examples()}
    return search.answer(SHEET, {"loader": "off", **typed, **more}, example=True)


LIGHT, HEAVY = "Compact, 25 hp, light frame", "Compact, 25 hp, heavier frame"
CUTTER = "60 in rotary cutter, light duty"


def test_same_class_different_answer():
    """The trade's case: power is borderline on both, weight and overhang decide."""
    light, heavy = demo(LIGHT, CUTTER, material="light"), demo(HEAVY, CUTTER, material="light")
    assert light.finding == model.OVER and light.deciding.check.name == "steering"
    assert heavy.finding == model.CLOSE
    for answer in (light, heavy):
        power = next(v for v in answer.verdicts if v.check.name == "power")
        assert 0.90 < power.value_low / power.check.upper < 1.10


def test_changing_the_width_changes_the_finding():
    assert demo(LIGHT, CUTTER, material="light").finding == model.OVER
    assert demo(LIGHT, CUTTER, material="light", working_width="48 in").finding == model.CLOSE


def test_widest_stock_size_is_48_and_holds():
    answer = demo(LIGHT, CUTTER, material="light")
    remedy = next(r for r in answer.advice.remedies if "working_width" in r.set)
    assert remedy.set["working_width"] == "48 in"
    tried = demo(LIGHT, CUTTER, material="light", **remedy.set)
    assert tried.finding in (model.WITHIN, model.CLOSE)


def test_ballast_remedy_meets_the_front_axle_checks():
    answer = demo(LIGHT, CUTTER, material="light")
    remedy = next(r for r in answer.advice.remedies if "front_ballast" in r.set)
    tried = demo(LIGHT, CUTTER, material="light", **remedy.set)
    margins = {v.check.name: v.margin_low for v in tried.verdicts}
    assert margins["steering"] >= -1e-3 and margins["climb"] >= 0


def test_tractor_that_would_do_is_solved():
    exact = {
        "implement_mass": "520 lb",
        "cg_distance": "36 in",
        "pto_power": "15 hp",
        "lift_capacity": "500 lb",
    }
    answer = search.answer(SHEET, exact, example=True)
    said = [model.words(r.text, "us") for r in answer.advice.remedies]
    assert any("A hitch rated" in s for s in said)
    assert any("at the PTO runs it" in s for s in said)


def test_blank_form_says_what_to_read_first():
    blank = search.answer(SHEET, {item.name: "" for item in SHEET.fields})
    assert blank.finding == model.UNKNOWN
    assert [item.name for item in blank.missing] == ["implement_kind"]
    answer = search.answer(SHEET, {"implement_kind": "rotary_cutter"})
    assert answer.finding == model.UNKNOWN
    assert answer.settle is not None
    said = sentences.settle_sentence(answer, "us")
    assert answer.settle.field.help in said


def test_trap_lift_without_its_distance_is_refused():
    with pytest.raises(search.BadInputs) as caught:
        search.answer(SHEET, {"lift_rated_at": "unstated"}, example=True)
    assert "without its distance" in caught.value.errors["lift_rated_at"]
    assert search.answer(SHEET, {"lift_rated_at": "unstated", "lift_capacity": ""}, example=True)


def test_trap_lift_at_the_balls_counts_for_less_than_the_same_figure_at_24_in():
    def lift(rated_at):
        exact = {"implement_mass": "500 lb", "cg_distance": "36 in", "lift_rated_at": rated_at}
        return next(
            o.value
            for o in search.answer(SHEET, exact, example=True).outputs
            if o.name == "capacity"
        )

    assert lift("0") < lift("305") < lift("610")


def test_post_hole_digger_and_coupler_do_not_go_together():
    answer = demo(HEAVY, "Post hole digger, 9 in auger", quick_coupler="u_frame")
    verdict = next(v for v in answer.verdicts if v.check.name == "coupler")
    assert verdict.finding == model.OVER
    assert any(r.set == {"quick_coupler": "none"} for r in answer.advice.remedies)
    assert not any(
        v.check.name == "coupler" for v in demo(HEAVY, "Post hole digger, 9 in auger").verdicts
    )


def test_coupler_takes_lift_and_front_load():
    exact = {"implement_mass": "400 lb", "cg_distance": "30 in"}
    plain = search.answer(SHEET, exact, example=True)
    coupled = search.answer(SHEET, {**exact, "quick_coupler": "u_frame"}, example=True)
    for name in ("lift", "steering"):
        margins = [
            next(v.margin_low for v in answer.verdicts if v.check.name == name)
            for answer in (plain, coupled)
        ]
        assert margins[1] < margins[0]


def test_box_blade_takes_no_shaft_power():
    answer = demo(LIGHT, "60 in box blade")
    assert not any(v.check.name == "power" for v in answer.verdicts)


def test_axle_loads_add_up():
    answer = search.answer(
        SHEET,
        {"implement_mass": "500 lb", "cg_distance": "36 in", "front_ballast": "100 lb"},
        example=True,
    )
    out = {o.name: o.value for o in answer.outputs}
    assert out["front"] + out["rear"] == pytest.approx((1650 + 500 + 100) * 0.45359237 + 75)


def test_matrix_cells_are_the_answers_of_their_links():
    read = [
        matrix.read_machines(content, role)[0]
        for role, content in (
            ("tractor", 'name,tractor_mass,pto_power\nOne,"2,000 lb",21 hp\n'),
            ("implement", "name,working_width,implement_mass\nCut,60 in,500 lb\n"),
        )
    ]
    built = matrix.build(*read)
    cell = built.cells[0][0]
    assert cell.finding == search.answer(SHEET, cell.inputs).finding
    assert "tractor_mass=2%2C000+lb" in matrix.link(cell)


def test_matrix_names_bad_rows_by_line_and_column():
    machines, problems = matrix.read_machines(
        "name,tractor_mass,engine\nA,heavy,1\nB,900 lb,2\n,800 lb,3\n", "tractor"
    )
    assert [(m.name, m.inputs) for m in machines] == [("A", {}), ("B", {"tractor_mass": "900 lb"})]
    assert "line 1" in problems[0] and "engine" in problems[0]
    assert "line 2, column tractor_mass" in problems[1]
    assert "line 4, column name" in problems[2]


def verdict(answer, name):
    return next((v for v in answer.verdicts if v.check.name == name), None)


def test_tire_size_gives_the_load_that_its_marking_allows():
    """Load index 122 is 1,500 kg a tire (published table), so 3,000 kg an axle."""
    answer = search.answer(SHEET, {"rear_tire": "320/85R24 122A8"}, example=True)
    assert verdict(answer, "rear_tires").limit_low == pytest.approx(3000.0)
    said = search.answer(
        SHEET, {"rear_tire": "320/85R24 122A8", "rear_tire_load": "1,000 lb"}, example=True
    )
    assert verdict(said, "rear_tires").limit_low == pytest.approx(2000 * 0.45359237)
    assert verdict(search.answer(SHEET, {}, example=True), "rear_tires") is None


def test_road_asks_for_width_and_lamps_only_on_the_road():
    off, on = (
        search.answer(SHEET, {}, example=True),
        search.answer(SHEET, {"place": "PA"}, example=True),
    )
    assert verdict(off, "tail_seen") is None and verdict(off, "width") is None
    assert verdict(on, "tail_seen").finding == model.OVER
    remedy = next(r for r in on.advice.remedies if "tail_height" in r.set)
    raised = search.answer(SHEET, {"place": "PA", **remedy.set}, example=True)
    assert verdict(raised, "tail_seen").margin_low >= 0
    wide = search.answer(SHEET, {"place": "PA", "transport_width": "19 ft"}, example=True)
    assert verdict(wide, "width_limit").finding == model.OVER


def test_wider_track_raises_the_static_side_angle():
    angles = [
        next(
            o.value
            for o in search.answer(SHEET, {"track_width": t}, example=True).outputs
            if o.name == "side_up"
        )
        for t in ("40 in", "48 in")
    ]
    assert angles[0] < angles[1]


def test_every_demo_pairing_answers():
    for t, i in itertools.product(
        tables.rows("machines/demo_tractors"), tables.rows("machines/demo_implements")
    ):
        assert demo(t["name"], i["name"]).deciding is not None


@pytest.mark.parametrize("kind", ["rotary_cutter", "box_blade", "trailer", "pallet_forks"])
@pytest.mark.parametrize("more", [{}, {"front_ballast": "200 lb"}, {"mass_as": "scale"}])
def test_what_is_left_in_front_on_a_climb_by_two_formulae(kind, more, monkeypatch):
    """A proof takes what both leave; they are one number, so neither may be off."""
    seen = []

    def both(value, other):
        seen.append((value, other()))
        return value

    box = search.read_box(SHEET, {"implement_kind": kind, **more})
    monkeypatch.setattr(arith, "same", both)
    for shares in evenly(len(box.dimensions), 40):
        at = {d.name: d.at(s) for d, s in zip(box.dimensions, shares, strict=True)}
        SHEET.compute(box.point(at), model.Work(on=False))
    assert len(seen) >= 3 * 40
    for value, other in seen:
        assert other == pytest.approx(value, rel=1e-9, abs=1e-9)
