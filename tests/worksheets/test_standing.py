"""The tractor as its parts, and the limits that govern."""

import pytest

from calc import model, search
from calc.mechanics import typical
from calc.model import check_text, figures, leading
from tests.worksheets.asking import findings, margins, output
from tests.worksheets.compact import COMPACT, CUTTER, LB, PAIRING, ask


def test_trap_filled_tires_put_nothing_on_the_front_wheels():
    dry = ask(**COMPACT, **CUTTER)
    filled = ask(**COMPACT, **CUTTER, tire_liquid="calcium-3.5", liquid_mass="400 lb")
    assert output(filled, "front") == pytest.approx(output(dry, "front"))
    assert output(filled, "rear") == pytest.approx(output(dry, "rear") + 400 * LB)
    assert margins(filled)["steering"] < margins(dry)["steering"]


def test_a_scale_ticket_has_the_driver_in_it():
    bare, scale = (ask(**COMPACT, **CUTTER, mass_as=given) for given in ("bare", "scale"))
    assert output(bare, "standing") - output(scale, "standing") == pytest.approx(75)


def test_loader_on_loads_the_front_axle_and_off_does_not():
    given = {**COMPACT, **CUTTER, "loader_mass": "700 lb", "loader_ahead": "6 in"}
    on, off = (ask(**{**given, "loader": state}) for state in ("on", "off"))
    # The moment balance by hand: 700 lb, 62 + 6 in ahead of the rear axle, over 62 in.
    assert output(on, "front") - output(off, "front") == pytest.approx(700 * LB * 68 / 62)
    assert any(r.set.get("loader") == "on" for r in off.advice.remedies)


def test_all_four_states_are_drawn_to_one_scale():
    found = ask(**{**COMPACT, "loader": "on"}, **CUTTER, loader_payload="200 lb")
    titles = [picture.title for picture in found.pictures]
    assert titles[:4] == [
        "Carried",
        "Implement down",
        "Carried, loader full",
        "Loader full, nothing behind",
    ]
    assert all(picture.to_scale for picture in found.pictures[:4])


def test_trap_a_rear_axle_with_nothing_left_on_it_is_not_passed():
    found = search.answer(
        PAIRING,
        {
            "front_ballast": "1,200 lb",
            "front_ballast_distance": "60 in",
            "tractor_mass": "2,150 lb",
            "implement_kind": "box_blade",
            "loader": "none",
        },
    )
    assert found.finding == model.OVER and findings(found)["rear_alone"] == model.OVER


@pytest.mark.parametrize("implement", ["none", "ballast_box", "rotary_cutter"])
def test_a_heavy_bucket_on_a_subcompact_is_never_within(implement):
    found = ask(
        tractor_kind="subcompact",
        tractor_mass="2,150 lb",
        loader_payload="1,100 lb",
        implement_kind=implement,
    )
    assert found.finding != model.WITHIN


def test_blank_ratings_keep_a_loaded_loader_at_cannot_tell():
    given = {
        **COMPACT,
        "loader": "on",
        "mass_as": "scale",
        "loader_payload": "60 lb",
        "loader_height": "40 in",
        "implement_kind": "ballast_box",
        "implement_mass": "500 lb",
        "cg_distance": "15 in",
        "track_width": "48 in",
        "cg_height": "20 in",
        "axle_pin_height": "14 in",
    }
    open_ = ask(**given)
    assert open_.finding == model.UNKNOWN
    assert {u.field for u in open_.unchecked if u.governs} == {
        "loader_rating",
        "front_axle_limit",
        "front_tire_load",
    }
    known = ask(
        **given,
        loader_rating="800 lb",
        front_axle_limit="2,000 lb",
        front_tire_load="1,100 lb",
    )
    assert known.finding in (model.WITHIN, model.CLOSE)


def test_a_load_in_a_loader_that_is_off_is_refused():
    with pytest.raises(search.BadInputs) as caught:
        ask(**{**COMPACT, "loader": "off"}, **CUTTER, loader_payload="300 lb")
    assert "say that it is on" in caught.value.errors["loader_payload"]


def test_forks_lift_less_than_a_bucket_and_are_taken_off():
    lifts = [
        output(
            ask(
                **{**COMPACT, "loader": "on"},
                **CUTTER,
                loader_payload="300 lb",
                loader_rating="1,000 lb",
                loader_rating_at="pins",
                loader_tool=tool,
            ),
            "loader_lifts",
        )
        for tool in ("bucket", "forks")
    ]
    assert lifts[0] == pytest.approx(720 * LB)
    assert lifts[1] == pytest.approx(600 * LB - 110)


def test_the_manuals_counterweight_comes_first():
    given = {**COMPACT, "loader": "on", "loader_payload": "200 lb", "implement_kind": "ballast_box"}
    for mass, finding in (("599 lb", model.OVER), ("601 lb", model.WITHIN)):
        found = ask(**given, implement_mass=mass, counterweight_asked="600 lb")
        assert findings(found)["asked"] == finding


def test_no_remedy_of_a_pound():
    found = ask(**COMPACT, **CUTTER)
    for remedy in found.advice.remedies:
        if "front_ballast" in remedy.set:
            pounds = float(remedy.set["front_ballast"].split()[0])
            assert pounds % 50 == pytest.approx(0) and pounds >= 50


def test_a_backhoe_is_refused_with_the_reason():
    found = search.answer(PAIRING, {"implement_kind": "backhoe"}, ask="hitching")
    assert found.finding == model.OVER
    assert "subframe" in leading.lead(found, "us")


def test_a_round_baler_behind_a_subcompact_is_over_and_its_caution_speaks_of_towing():
    found = search.answer(
        PAIRING,
        {
            "implement_kind": "round_baler",
            "tractor_kind": "subcompact",
            "pto_power": "17 hp",
            "tractor_mass": "1,650 lb",
            "implement_mass": "3,800 lb",
        },
    )
    assert found.finding == model.OVER and found.deciding.check.name == "towed"
    assert any("drawbar" in caution.text for caution in found.advice.cautions)
    assert "lift" not in findings(found)


def test_power_that_just_suffices_is_close_and_its_own_power_no_remedy():
    given = {
        "tractor_kind": "compact_large",
        "pto_power": "42 hp",
        "tractor_mass": "5,400 lb",
        "implement_kind": "rotary_cutter",
        "working_width": "72 in",
        "material": "heavy",
        "slope": "0 %",
        "altitude": "2,900 ft",  # leaves 39 hp of 42, and the cutter asks for 39
        "breathing": "natural",
        "loader": "on",
        "lift_capacity": "2,700 lb",
        "lift_rated_at": "610",
    }
    found = search.answer(PAIRING, given)
    assert found.finding == model.CLOSE and findings(found)["power"] == model.CLOSE
    assert not any(r.set.get("pto_power", "").startswith("42 ") for r in found.advice.remedies)


def test_six_given_values_give_a_narrow_box():
    given = {
        "tractor_kind": "compact_light",
        "tractor_mass": "1,650 lb",
        "pto_power": "20 hp",
        "loader": "off",
        "implement_kind": "rotary_cutter_light",
        "working_width": "60 in",
    }
    found = search.answer(PAIRING, {**given, "implement_mass": "480 lb"}, ask="front")
    front = next(o for o in found.outputs if o.name == "front")
    assert (front.high - front.low) / LB < 300


def test_usual_ranges_narrow_with_mass_and_power():
    alone = typical.narrowed("compact_heavy")
    known = typical.narrowed("compact_heavy", (2200 * LB, 2200 * LB))
    for name in ("wheelbase", "hitch_distance", "track", "cg_height", "loader_mass"):
        width = [span[1] - span[0] for span in (alone[name], known[name])]
        assert width[1] < width[0], name
        assert alone[name][0] <= known[name][0] + 1e-9 or name == "wheelbase"


def test_an_unsaid_category_is_open_and_governs_only_when_the_other_is_said():
    plain = search.answer(PAIRING, {"implement_kind": "box_blade"})
    said = search.answer(PAIRING, {"implement_kind": "box_blade", "implement_category": "2"})
    assert [u.governs for u in plain.unchecked if u.name == "pins"] == [False]
    assert [u.governs for u in said.unchecked if u.name == "pins"] == [True]


def test_a_driveline_a_fifth_over_is_close_and_beyond_is_over():
    for power, finding in (("24 hp", "within"), ("29 hp", "close"), ("31 hp", "over")):
        found = search.answer(
            PAIRING,
            {"implement_kind": "rotary_cutter", "pto_power": power, "power_limit": "25 hp"},
        )
        assert findings(found)["driveline"] == finding


@pytest.mark.parametrize(
    ("ours", "theirs", "finding"),
    [
        ("540-6", "540-6", model.WITHIN),
        ("1000-21", "540-6", model.OVER),
        ("1000-21", "1000-20", model.CLOSE),
        ("mid", "540-6", model.OVER),
    ],
)
def test_shaft_and_speed(ours, theirs, finding):
    given = {"implement_kind": "rotary_cutter", "shaft": ours, "implement_shaft": theirs}
    assert findings(search.answer(PAIRING, given))["shaft"] == finding


def test_an_implement_shaft_without_the_tractors_stays_open():
    given = {"implement_kind": "rotary_cutter", "implement_shaft": "540-6"}
    assert "shaft" in {u.name for u in search.answer(PAIRING, given).unchecked if u.governs}


# --- a load is never less than nothing ------------------------------------------------------


def test_wheels_carry_nothing_where_the_sums_go_below_zero():
    found = search.answer(
        PAIRING, {"tractor_kind": "compact_light", "implement_kind": "rotary_cutter"}
    )
    front = next(v for v in found.verdicts if v.check.name == "steering")
    assert front.value_low < 0 < front.value_high  # the sums keep their sign
    said = leading.lead(found, "us")
    assert "carry nothing to " in said and "-" not in said
    for verdict in found.verdicts:
        assert "-" not in check_text.value_text(verdict, "us"), verdict.check.name
    for one in found.outputs:
        if one.kind in ("load", "load_share", "mass"):
            assert "-" not in figures.output_text(one, "us"), one.name


def test_all_that_is_lifted_off_is_said_as_nothing():
    given = {**COMPACT, "implement_kind": "rotary_cutter", "implement_mass": "1,500 lb"}
    found = ask(**given, cg_distance="60 in")
    assert output(found, "front") < 0
    assert "your front wheels carry nothing, where" in leading.lead(found, "us")
    climbs = search.answer(PAIRING, {**given, "cg_distance": "60 in", "slope": "10 %"}, ask="front")
    climb = next(v for v in climbs.verdicts if v.check.name == "climb")
    assert check_text.check_sentence(climb, "us").endswith(
        ": nothing, and more than nothing is needed."
    )
    worked = next(step for step in climbs.working if step.symbol == "F")
    assert figures.step_value(worked, "us").startswith("-")  # what was reckoned stands there


@pytest.mark.parametrize("check", ["steering", "climb", "slope", "lift", "driveline", "covers"])
def test_whether_there_is_a_turbocharger_is_asked_for_power_alone(check):
    """What isn't known is tried both ways: a proof of the loads need not try that."""

    class Blind(model.Inputs):
        def __getattribute__(self, name):
            assert name != "breathing", "asked for before this check was made"
            return super().__getattribute__(name)

    typed = {"implement_kind": "rotary_cutter", "power_limit": "40 hp", "tractor_width": "50 in"}
    typed |= {"slope": "5 %"}
    box = search.read_box(PAIRING, typed)
    middle = {dim.name: dim.middle for dim in box.dimensions}
    point = Blind(box.point(middle).values())
    made = model.run_for(check, lambda: PAIRING.compute(point, model.Work(on=False)))
    assert made is not None and made.name == check


# --- oil flow, and clear of the ground ------------------------------------------------------


def test_flow_is_held_against_what_it_asks_for():
    def flow(there):
        typed = {"implement_kind": "other", "implement_flow": there, "flow_needed": "8 gpm"}
        return search.answer(PAIRING, typed, ask="hydraulics")

    # Of no use under 14 of the 18 gpm that it asks for, says a dealer of mulchers: 6.22 of 8.
    assert flow("6.2 gpm").finding == model.OVER
    assert findings(flow("6.3 gpm"))["flow"] == model.CLOSE
    assert findings(flow("7.9 gpm"))["flow"] == model.CLOSE
    assert findings(flow("8.1 gpm"))["flow"] == model.WITHIN
    assert leading.lead(flow("6 gpm"), "us").startswith("No: it asks for 8 gpm, and 6 gpm")
    asked = {"implement_kind": "other", "flow_needed": "8 gpm"}
    blank = search.answer(PAIRING, asked, ask="hydraulics")
    assert blank.finding == model.UNKNOWN  # the flow governs, and nobody read it


@pytest.mark.parametrize(
    "balls, finding",
    [("23.5 in", "over"), ("24.5 in", "close"), ("29.5 in", "close"), ("30.5 in", "within")],
)
def test_the_hitch_has_to_lift_it_clear(balls, finding):
    """6 in clear at the least, right from 12 in: common practice, no source."""
    typed = {"implement_kind": "disk_harrow", "pins_on_ground": "18 in", "balls_highest": balls}
    found = search.answer(PAIRING, typed, ask="clear")
    assert findings(found)["clearance"] == finding
    assert "clear of the ground" in leading.lead(found, "us")


def test_the_usual_travel_of_a_hitch_stands_in():
    """Category 1 lifts its balls to 820 mm at the least (hitch/ISO730-memory)."""
    typed = {"implement_kind": "disk_harrow", "pins_on_ground": "20 in", "hitch_category": "1"}
    found = search.answer(PAIRING, {**typed, "tractor_kind": "compact_large"}, ask="clear")
    clear = next(v for v in found.verdicts if v.check.name == "clearance")
    assert clear.value_low == pytest.approx(0.820 - 20 * 0.0254)
