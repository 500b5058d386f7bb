"""The lawn worksheet: default example, ranges, unknowns, bad input, remedies."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import model, search, worksheets
from calc.render import data
from calc.render.answer import answer_html
from calc.render.reply import reply, short
from calc.search import BadInputs, answer
from calc.worksheets.lawn import compute as lawn

SHEET = worksheets.load("lawn")
FIRM_CORE = {"tool": "core", "tool_depth": "2.5 in", "implement_mass": "500 lb"}


def point(**typed: str) -> model.Inputs:
    box = search.read_box(SHEET, typed, example=True)
    return box.point({dim.name: dim.middle for dim in box.dimensions})


def outputs(**typed: str) -> dict[str, float]:
    return {output.name: output.value for output in answer(SHEET, typed, example=True).outputs}


def finding(check: str, **typed: str) -> str:
    return next(
        v.finding for v in answer(SHEET, typed, example=True).verdicts if v.check.name == check
    )


def test_default_example() -> None:
    found = answer(SHEET, {}, example=True)
    assert found.finding in (model.WITHIN, model.CLOSE)
    assert [item.field.name for item in found.assumed] == ["tool_depth"]
    assert len(found.pictures) == 2
    assert "Flag before you start" in answer_html(found)
    assert len(short(found)) < 320
    assert data.data(found)["worksheet"] == "lawn"


def test_worked_time() -> None:
    found = outputs(working_width="48 in", thatch="1 in")
    assert found["passes"] == 2.0
    assert found["time"] / 3600.0 == pytest.approx(1.72, abs=0.005)


def test_worked_tine() -> None:
    found = outputs(tine_coil="29 mm", tine_leg="150 mm", tine_deflection="20 mm")
    assert found["tine_force"] == pytest.approx(5.9, abs=0.05)


@pytest.mark.parametrize(
    ("psi", "expected"), [("12 psi", (model.WITHIN, model.CLOSE)), ("20 psi", (model.OVER,))]
)
def test_worked_pressures(psi: str, expected: tuple[str, ...]) -> None:
    assert finding("front_ground", front_inflation=psi) in expected


def test_trap_front_tires_may_press_harder_than_rear_ones() -> None:
    found = outputs(front_inflation="22 psi", rear_inflation="10 psi")
    assert found["front_pressure"] > found["rear_pressure"]
    assert (
        answer(SHEET, {"front_inflation": "22 psi"}, example=True).deciding.check.name
        == "front_ground"
    )


def test_soil_state_matters() -> None:
    assert finding("rear_ground", rear_inflation="18 psi", soil_state="dry") != model.OVER
    assert finding("rear_ground", rear_inflation="18 psi", soil_state="moist") == model.OVER
    wet = answer(SHEET, {"soil_state": "wet"}, example=True)
    assert wet.finding == model.OVER
    wait = next(r for r in wet.advice.remedies if "soil_state" in r.set)
    tried = answer(SHEET, {"soil_state": "wet", **wait.set}, example=True)
    assert tried.finding != model.OVER


def test_unknown_soil_state_is_open() -> None:
    found = answer(SHEET, {"soil_state": ""}, example=True)
    assert found.finding == model.UNKNOWN
    assert found.settle is not None and found.settle.field.name == "soil_state"


def test_pressure_remedy_meets_the_limit() -> None:
    typed = {"front_inflation": "22 psi"}
    remedy = next(
        r for r in answer(SHEET, typed, example=True).advice.remedies if "front_inflation" in r.set
    )
    assert finding("front_ground", **{**typed, **remedy.set}) != model.OVER
    assert finding("front_print", **{**typed, **remedy.set}) != model.OVER


def test_no_pressure_suits_a_heavy_machine_on_small_tires() -> None:
    typed = {"tractor_mass": "6,000 lb", "front_inflation": "30 psi"}
    found = answer(SHEET, typed, example=True)
    assert any("No pressure suits" in model.words(r.text, "us") for r in found.advice.remedies)


def test_a_tire_too_soft_for_its_load_is_told_its_pressure() -> None:
    typed = {"rear_inflation": "3 psi", "tractor_mass": "2,200 lb"}
    assert finding("rear_print", **typed) == model.OVER
    remedy = next(
        r for r in answer(SHEET, typed, example=True).advice.remedies if "rear_inflation" in r.set
    )
    assert finding("rear_print", **{**typed, **remedy.set}) != model.OVER


def test_a_measured_print_gives_pressure_by_load() -> None:
    v = point(front_print="40 in2")
    one = lawn.wheel("front", v)
    assert one.pressure == pytest.approx(one.load / (40 * 0.00064516))
    assert one.load == pytest.approx(1650 * 0.45359237 * 9.80665 * 0.42 / 2)
    typed = {"front_print": "12 in2"}
    remedy = next(
        r for r in answer(SHEET, typed, example=True).advice.remedies if "front_print" in r.set
    )
    assert finding("front_ground", **{**typed, **remedy.set}) != model.OVER


def test_lifting_the_tool_loads_the_rear_wheels_by_more_than_its_mass() -> None:
    bare = lawn.wheel("rear", point(implement_mass="20 lb")).load
    loaded = lawn.wheel("rear", point(implement_mass="320 lb")).load
    assert loaded - bare > 300 * 0.45359237 * 9.80665 / 2


def test_trap_unknown_heads_are_flagged() -> None:
    found = answer(SHEET, {"head_depth": ""}, example=True)
    heads = next(v for v in found.verdicts if v.check.name == "heads")
    assert heads.finding == model.OVER or heads.finding == model.UNKNOWN
    assert any("Flag every head" in model.words(r.text, "us") for r in found.advice.remedies)


def test_trap_the_head_counts_where_it_stands_today() -> None:
    assert finding("heads", head_depth="1 in") == model.WITHIN
    assert finding("heads", head_depth="-0.5 in") == model.OVER


def test_core_aerator_flags_everything() -> None:
    found = answer(SHEET, {**FIRM_CORE, "head_depth": "0.6 in"}, example=True)
    assert finding("heads", **FIRM_CORE) == model.OVER
    listed = next(t for t in found.advice.tables if t.checklist)
    said = " ".join(str(row[0]) for row in listed.rows)
    assert "Dog fence" in said and "Drip line" in said and "Gas" in said
    gentle = next(r for r in found.advice.remedies if r.set.get("tool") == "spring-tine")
    again = {**FIRM_CORE, "head_depth": "0.6 in", **gentle.set}
    assert finding("heads", **again) != model.OVER


def test_depth_remedy_is_the_edge() -> None:
    typed = {"tool": "rigid-blade", "tool_depth": "10 mm", "head_depth": "20 mm"}
    typed["box_depth"] = "2 in"
    assert finding("heads", **typed) == model.OVER
    remedy = next(
        r
        for r in answer(SHEET, typed, example=True).advice.remedies
        if "tool" not in r.set and r.set
    )
    millimeters = float(remedy.set["tool_depth"].split()[0])
    assert finding("heads", **{**typed, **remedy.set}) != model.OVER
    assert finding("heads", **{**typed, "tool_depth": f"{millimeters + 1:.0f} mm"}) == model.OVER


def test_no_sprinklers_leaves_their_checks_out() -> None:
    found = answer(SHEET, {"sprinklers": "no"}, example=True)
    assert {v.check.name for v in found.verdicts}.isdisjoint({"heads", "boxes"})
    assert len(found.pictures) == 1


def test_light_tool_jumps_and_weight_holds_it() -> None:
    typed = {"implement_mass": "40 lb", "tine_wire": "6 mm", "tine_coil": "31 mm"}
    assert finding("tines", **typed) == model.OVER
    remedy = next(
        r for r in answer(SHEET, typed, example=True).advice.remedies if "implement_mass" in r.set
    )
    assert finding("tines", **{**typed, **remedy.set}) != model.OVER


def test_trap_thatch_not_grass_height_sets_the_passes() -> None:
    assert outputs(thatch="0.4 in")["passes"] == 1.0
    assert any(
        "needs no raking" in model.words(note, "us")
        for note in answer(SHEET, {"thatch": "0.4 in"}, example=True).advice.notes
    )
    assert outputs(thatch="1 in")["passes"] == 2.0


def test_aerator_passes_reach_the_holes() -> None:
    found = outputs(**FIRM_CORE, holes_wanted="14")
    assert found["passes"] == 3.0
    assert found["holes"] == pytest.approx(18.0)


def test_trap_slope_limit_is_for_ride_on_mowers_alone_and_in_degrees() -> None:
    assert all(
        v.check.name != "slope" for v in answer(SHEET, {"slope": "25 %"}, example=True).verdicts
    )
    assert finding("slope", machine="ride-on", slope="9 deg") != model.OVER
    typed = {"machine": "ride-on", "slope": "15 deg"}
    assert finding("slope", **typed) == model.OVER
    remedy = next(r for r in answer(SHEET, typed, example=True).advice.remedies if "slope" in r.set)
    assert finding("slope", **{**typed, **remedy.set}) != model.OVER
    said = " ".join(c.text for c in answer(SHEET, {}, example=True).advice.cautions)
    assert "No slope is called safe" in said


def test_ranges_and_blank_form() -> None:
    assert finding("front_ground", front_inflation="10 to 20 psi") == model.UNKNOWN
    blank = {item.name: "" for item in SHEET.fields}
    found = answer(SHEET, blank, example=True)
    assert found.finding in (model.UNKNOWN, model.OVER)
    assert len(found.assumed) > 15


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("front_inflation", "0 psi", "more than zero"),
        ("rear_inflation", "300 psi", "must lie between"),
        ("tool_depth", "-1 in", "must lie between"),
        ("head_depth", "5 psi", "length"),
        ("soil_state", "muddy-ish", "not one of the options"),
        ("front_tire", "banana", "banana"),
        ("tine_coil", "7 lb", "length"),
        ("lawn_area", "-2 acre", "more than zero"),
    ],
)
def test_bad_input_gets_its_own_sentence(field: str, typed: str, said: str) -> None:
    with pytest.raises(BadInputs) as caught:
        answer(SHEET, {field: typed}, example=True)
    assert list(caught.value.errors) == [field]
    assert said in caught.value.errors[field]


def test_trap_changing_the_tool_changes_the_depth_it_is_taken_to_work_at() -> None:
    assert finding("heads", tool="spring-tine") != model.OVER
    assert finding("heads", tool="core") == model.OVER
    with pytest.raises(BadInputs) as caught:
        answer(SHEET, {"tool": "core", "tool_depth": "0 in"}, example=True)
    assert "works in the soil" in caught.value.errors["tool_depth"]


def test_coil_narrower_than_its_wire_is_refused() -> None:
    with pytest.raises(BadInputs) as caught:
        answer(SHEET, {"tine_wire": "8 mm", "tine_coil": "12 mm"}, example=True)
    assert "twice as wide" in caught.value.errors["tine_coil"]


@settings(max_examples=60, deadline=None)
@given(
    front=st.floats(3.0, 60.0),
    rear=st.floats(3.0, 60.0),
    head=st.floats(-2.5, 3.5),
    depth=st.floats(0.01, 6.0),
    tool=st.sampled_from(["spring-tine", "rigid-blade", "core", "landscape-rake", "roller"]),
    soil=st.sampled_from(["dry", "moist", "wet"]),
)
def test_whatever_is_typed_draws_and_answers(
    front: float, rear: float, head: float, depth: float, tool: str, soil: str
) -> None:
    typed = {
        "front_inflation": f"{front:.2f} psi",
        "rear_inflation": f"{rear:.2f} psi",
        "head_depth": f"{head:.2f} in",
        "tool_depth": f"{depth:.2f} in",
        "tool": tool,
        "soil_state": soil,
    }
    found = answer(SHEET, typed, example=True)
    assert "<svg" in answer_html(found)
    assert all(math.isfinite(output.value) for output in found.outputs)
    for remedy in found.advice.remedies:
        if remedy.set and "soil_state" not in remedy.set:
            answer(SHEET, {**typed, **remedy.set}, example=True)
    assert reply(found)


@settings(max_examples=40, deadline=None)
@given(a=st.floats(3.0, 60.0), b=st.floats(3.0, 60.0))
def test_more_air_never_presses_less(a: float, b: float) -> None:
    low, high = sorted((a, b))
    for rule in ("tenth", "carcass", "equal"):
        soft = outputs(front_inflation=f"{low:.3f} psi", pressure_rule=rule)["front_pressure"]
        hard = outputs(front_inflation=f"{high:.3f} psi", pressure_rule=rule)["front_pressure"]
        assert soft <= hard * (1.0 + 1e-9)
