"""The worksheet on lift and ballast."""

import pytest

from calc import model, search, tables, worksheets
from calc.mechanics import axle_loads, ballast, lift
from calc.model.pictures import Label, Scene

SHEET = worksheets.load("ballast")
LB = 0.45359237

PAIRS = 0.765  # lift at 24 in as a share of that at the ball ends, mean of six published pairs
HEAVY = {"implement_mass": "900 lb", "cg_distance": "50 in"}
LOADER = {"loader_payload": "900 lb", "loader_reach": "60 in", "implement_mass": "60 lb"}


def exact(typed):
    """What a test gives, with the loader on where there is a load in it."""
    loaded = {"loader": "on"} if "loader_payload" in typed else {}
    return {**loaded, "lift_ratio": f"{100 * PAIRS} %", **typed}


def answer(**typed):
    return search.answer(SHEET, exact(typed), example=True)


def tried(found, remedy, **typed):
    return search.answer(SHEET, exact({**typed, **remedy.set}), example=True)


def check(found, name):
    return next(v for v in found.verdicts if v.check.name == name)


def output(found, name):
    return next(o for o in found.outputs if o.name == name).value


def with_set(found, field):
    return [remedy for remedy in found.advice.remedies if field in remedy.set]


def test_default_example_is_over_in_front_and_within_on_lift():
    found = answer()
    assert found.finding == model.OVER
    assert found.deciding.check.name == "steering"
    assert check(found, "lift").finding == model.WITHIN


def test_numbers_are_those_of_the_mechanics():
    found = answer()
    mass, front, b, c, d, ir = 1650 * LB, 0.45 * 1650 * LB, 1.5748, 0.7112, 0.8636, 480 * LB
    assert output(found, "front") == pytest.approx(
        axle_loads.front_axle_load(front, b, c, d, ir), rel=1e-9
    )
    assert output(found, "rear") == pytest.approx(
        axle_loads.rear_axle_load(mass, front, b, c, d, ir), rel=1e-9
    )
    assert output(found, "capacity") == pytest.approx(
        lift.capacity_at(900 * LB, 0.610, d, 0.610 / (1 / PAIRS - 1)), rel=1e-9
    )
    assert output(found, "ballast") == pytest.approx(
        ballast.front_ballast_needed(mass, front, b, c, d, ir, 26 * 0.0254), rel=1e-9
    )


def test_weighed_front_axle_replaces_the_share():
    found = answer(front_axle_mass="600 lb")
    share = answer(front_share=f"{600 / 1650 * 100:.9f} %")
    assert output(found, "front") == pytest.approx(output(share, "front"))


@pytest.mark.parametrize("rule", ["tractor", "combined", "front_half"])
def test_front_ballast_remedy_meets_the_rule(rule):
    found = answer(front_rule=rule)
    remedy = with_set(found, "front_ballast")[0]
    after = tried(found, remedy, front_rule=rule)
    assert check(after, "steering").margin_low >= 0
    # Whole weights of 50 lb, and one less would not do.
    pounds = float(remedy.set["front_ballast"].split()[0]) - 50
    assert (pounds + 50) % 50 == pytest.approx(0)
    less = answer(front_rule=rule, front_ballast=f"{pounds} lb")
    assert check(less, "steering").margin_low < 0


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ({}, "steering"),
        (HEAVY, "lift"),
        ({**LOADER, "front_share": "52 %", "loader_payload": "500 lb"}, "loader_rear"),
    ],
)
def test_every_remedy_that_can_be_tried_meets_its_check(typed, name):
    found = answer(**typed)
    assert check(found, name).margin_low < 0
    meets = 0
    for remedy in found.advice.remedies:
        if remedy.set:
            after = tried(found, remedy, **typed)
            before = {v.check.name for v in found.verdicts if v.margin_low < 0}
            left = {v.check.name for v in after.verdicts if v.margin_low < 0}
            assert len(left) < len(before), remedy
            meets += name not in left
    assert meets


def test_heaviest_implement_remedy_meets_every_check():
    heavy = {**HEAVY, "implement_kind": "other"}
    found = answer(**heavy)
    alone = [r for r in found.advice.remedies if set(r.set) == {"implement_mass"}]
    remedy = next(r for r in alone if r.whole)
    after = tried(found, remedy, **heavy)
    assert after.finding in (model.WITHIN, model.CLOSE)
    heavier = float(remedy.set["implement_mass"].split()[0]) + 20
    more = answer(**{**heavy, "implement_mass": f"{heavier} lb"})
    assert more.finding == model.OVER


def test_no_implement_lighter_than_any_of_its_kind_is_offered():
    """A 60 in light-duty cutter starts at 200 kg (typical_implements): 270 lb is none."""
    found = answer(**HEAVY)
    assert not with_set(found, "implement_mass") or all(
        "working_width" in r.set or float(r.set["implement_mass"].split()[0]) >= 440
        for r in with_set(found, "implement_mass")
    )
    assert any(
        r.set.get("implement_mass")
        for r in answer(**{**HEAVY, "implement_kind": "other"}).advice.remedies
    )


def test_narrower_remedy_meets_every_check():
    found = answer()
    remedy = with_set(found, "working_width")[0]
    assert set(remedy.set) == {"working_width", "implement_mass", "cg_distance"}
    assert remedy.set["working_width"] in ("36 in", "42 in", "48 in", "54 in")
    after = tried(found, remedy)
    assert after.finding in (model.WITHIN, model.CLOSE)


def test_front_ballast_out_of_proportion_is_not_offered():
    found = answer(implement_mass="900 lb", cg_distance="45 in")
    assert not with_set(found, "front_ballast")


def test_too_much_front_ballast_is_caught_with_the_implement_off():
    found = answer(front_ballast="700 lb")
    assert found.deciding.check.name == "rear_alone"
    remedy = with_set(found, "front_ballast")[0]
    after = tried(found, remedy)
    assert check(after, "rear_alone").margin_low >= 0


def test_plate_limits_are_checked_only_when_known():
    names = {v.check.name for v in answer().verdicts}
    assert names == {"lift", "steering", "rear_alone"}
    found = answer(
        rear_axle_limit="1,800 lb",
        total_limit="2,200 lb",
        rear_tire_load="950 lb",
        front_axle_limit="800 lb",
    )
    assert {v.check.name for v in found.verdicts} == {
        "lift",
        "steering",
        "rear_axle",
        "rear_tires",
        "total",
        "front_axle",
        "rear_alone",
    }
    assert check(found, "rear_axle").finding == model.OVER
    assert check(found, "rear_tires").margin_low > 0


def test_trap_the_least_of_axle_and_tires_counts():
    load = output(answer(front_ballast="60 lb"), "rear") / LB

    def over(axle, tire):
        limits = {"rear_axle_limit": f"{axle} lb", "rear_tire_load": f"{tire} lb"}
        found = answer(front_ballast="60 lb", **limits)
        return [v.check.name for v in found.verdicts if v.finding == model.OVER]

    assert over(1.5 * load, 0.75 * load) == []
    assert over(0.7 * load, 0.75 * load) == ["rear_axle"]
    assert over(1.5 * load, 0.35 * load) == ["rear_tires"]


def test_trap_axle_limits_pass_and_the_total_does_not():
    found = answer(
        front_ballast="60 lb",
        rear_axle_limit="1,900 lb",
        front_axle_limit="900 lb",
        total_limit="2,150 lb",
    )
    assert check(found, "rear_axle").margin_low > 0
    assert check(found, "front_axle").margin_low > 0
    assert check(found, "total").margin_low < 0


def test_quick_coupler_takes_lift_and_front_load():
    bare, coupled = answer(), answer(quick_coupler="u_frame")
    assert output(coupled, "capacity") < output(bare, "capacity")
    assert output(coupled, "front") < output(bare, "front")


def test_second_rating_replaces_the_estimate():
    steep = answer(lift_at_ball_ends="1,400 lb", cg_distance="40 in")
    flat = answer(lift_at_ball_ends="950 lb", cg_distance="40 in")
    guess = answer(cg_distance="40 in")
    assert output(flat, "capacity") > output(guess, "capacity") > 0
    assert output(steep, "capacity") < output(guess, "capacity")
    same = answer(lift_at_ball_ends="900 lb", cg_distance="40 in")
    assert output(same, "capacity") == pytest.approx(900 * LB)
    assert any("parallel" in model.words(note, "us") for note in same.advice.notes)


def test_trap_the_same_figure_at_another_distance_is_another_capacity():
    found = [output(answer(lift_rated_at=at), "capacity") for at in ("610", "305", "0")]
    assert found[0] > found[1] > found[2]


@pytest.mark.parametrize(
    ("typed", "field", "said"),
    [
        ({"lift_rated_at": "unstated"}, "lift_rated_at", "without its distance"),
        ({"lift_at_ball_ends": "800 lb"}, "lift_at_ball_ends", "swapped"),
        (
            {"lift_rated_at": "0", "lift_at_ball_ends": "1,200 lb"},
            "lift_at_ball_ends",
            "Both lift figures",
        ),
        ({"front_axle_mass": "1,700 lb"}, "front_axle_mass", "can't carry the whole tractor"),
        ({"implement_mass": "0 lb"}, "implement_mass", "more than zero"),
        ({"implement_mass": "-5 lb"}, "implement_mass", "more than zero"),
        ({"wheelbase": "62 lb"}, "wheelbase", "a mass"),
        ({"cg_distance": "40 to 30 in"}, "cg_distance", "runs downward"),
        ({"loader_payload": "<script>"}, "loader_payload", "is not a mass"),
    ],
)
def test_bad_input_gets_its_own_sentence(typed, field, said):
    with pytest.raises(search.BadInputs) as caught:
        answer(**typed)
    assert said in caught.value.errors[field]


def test_lift_without_figure_nor_distance_uses_the_usual_one():
    found = answer(lift_capacity="", lift_rated_at="unstated")
    assert any(item.field.name == "lift_capacity" for item in found.assumed)
    assert output(found, "capacity") > 0


def test_loader_reports_what_the_bucket_does():
    found = answer(loader_payload="400 lb")
    assert output(found, "loader_front") + output(found, "loader_rear") == pytest.approx(
        output(found, "gross") + 400 * LB
    )
    assert output(found, "loader_rear") < output(found, "rear")
    assert any(
        "low" in caution.text and "bucket" in caution.text.lower()
        for caution in found.advice.cautions
    )
    # The counterweight leaves a fifth behind, implement off.
    counter = output(found, "counterweight")
    mass, front = 1650 * LB, 0.45 * 1650 * LB
    _, rear = axle_loads.axle_loads(
        front,
        mass - front,
        1.5748,
        [(400 * LB, 1.5748 + 56 * 0.0254), (counter, -0.7112)],
    )
    least = 0.2 * (mass + 400 * LB + counter)
    assert rear >= least - 1e-6


def test_trap_a_raised_bucket_load_lowers_the_tip_angle_sideways():
    low = answer(loader_payload="400 lb", loader_height="16 in")
    high = answer(loader_payload="400 lb", loader_height="80 in")
    assert output(high, "side_raised") < output(low, "side_raised") - 5


def test_rear_ballast_for_a_heavy_front_implement():
    typed = {"front_ballast": "900 lb", "front_ballast_distance": "40 in"}
    found = answer(**typed)
    assert check(found, "rear_alone").margin_low < 0
    remedy = with_set(found, "front_ballast")[0]
    assert float(remedy.set["front_ballast"].split()[0]) < 900
    assert check(tried(found, remedy, **typed), "rear_alone").margin_low >= 0


def test_ranges_hold_over_the_whole_box():
    found = answer(implement_mass="200 to 600 lb")
    assert found.finding == model.UNKNOWN
    assert found.settle.field.name == "implement_mass"
    assert found.settle.high is not None
    settled = answer(implement_mass=f"{found.settle.high:.3f} kg")
    assert settled.margin == pytest.approx(0.0, abs=1e-3)
    assert answer(implement_mass="200 to 300 lb").finding == model.WITHIN
    assert answer(implement_mass="600 to 700 lb").finding == model.OVER


def test_blank_form_cannot_tell_and_says_what_to_read_first():
    found = search.answer(SHEET, {item.name: "" for item in SHEET.fields})
    assert found.finding == model.UNKNOWN
    assert [item.name for item in found.missing] == ["implement_kind"]
    found = search.answer(SHEET, {"implement_kind": "rotary_cutter"})
    assert found.finding == model.UNKNOWN
    assert found.settle is not None
    assert found.assumed


def test_light_cutter_suits_the_light_tractor_where_a_heavy_one_does_not():
    light = answer(working_width="48 in", implement_mass="380 lb", cg_distance="29 in")
    heavy = answer(implement_kind="rotary_cutter", implement_mass="640 lb", cg_distance="37 in")
    assert light.finding in (model.WITHIN, model.CLOSE)
    assert heavy.finding == model.OVER


def test_heavier_tractor_carries_the_60_inch_cutter():
    found = answer(tractor_mass="2,300 lb", wheelbase="66 in", lift_capacity="1,400 lb")
    assert found.finding in (model.WITHIN, model.CLOSE)


def test_rules_table_lists_every_rule_but_the_loaders():
    table = answer().advice.tables[0]
    labels = {
        row["label"] for row in tables.rows("hitch/twenty_percent_rules") if row["key"] != "loader"
    }
    assert {row[0] for row in table.rows} == labels


@pytest.mark.parametrize("rule", ["tractor", "combined", "front_half"])
def test_rules_table_agrees_with_the_check(rule):
    found = answer(front_rule=rule)
    label = tables.by_key("hitch/twenty_percent_rules", "key")[rule]["label"]
    row = next(row for row in found.advice.tables[0].rows if row[0] == label)
    assert row[1].numbers["m"][0] == pytest.approx(found.deciding.check.limit)
    assert row[3] == "no"
    assert row[4].numbers["m"][0] == pytest.approx(output(found, "ballast"))


def test_trap_a_tip_angle_is_never_called_safe():
    found = answer(loader_payload="400 lb")
    for name in ("side", "side_up", "back", "back_up"):
        shown = next(o for o in found.outputs if o.name == name)
        assert "never a slope to work on" in shown.note
    assert any("never a slope to work on" in c.text for c in found.advice.cautions)


def test_raised_implement_lowers_the_rearward_angle():
    found = answer()
    assert output(found, "back_up") < output(found, "back")
    off_the_ground = answer(implement_mass="1,100 lb", cg_distance="50 in")
    assert output(off_the_ground, "front") < 0
    assert output(off_the_ground, "back_up") == 0.0


def test_picture_shows_the_loads_and_stays_a_scene():
    scene = answer(front_ballast="40 lb").pictures[0]
    assert isinstance(scene, Scene) and scene.to_scale
    texts = [
        item.text if isinstance(item.text, str) else item.text.text("us")
        for item in scene.items
        if isinstance(item, Label)
    ]
    assert "implement 480 lb" in texts and "tractor 1,650 lb" in texts
    assert "40 lb" in texts and "out of limits" in texts
    lifted = answer(implement_mass="1,100 lb", cg_distance="50 in").pictures[0]
    assert "off the ground" in [i.text for i in lifted.items if isinstance(i, Label)]


def test_a_full_bucket_gets_its_own_picture():
    found = answer(loader_payload="400 lb")
    empty, down, full, alone, chart = found.pictures
    assert "nothing behind" in alone.description.text("us")
    assert "on the ground" in down.description.text("us")
    assert "400 lb" not in empty.description.text("us")
    assert "400 lb in the bucket" in full.description.text("us")
    shown = [
        i.text.text("us")
        for i in full.items
        if isinstance(i, Label) and not isinstance(i.text, str)
    ]
    assert "400 lb" in shown
    assert chart.marks


def test_chart_puts_the_implement_where_it_is():
    chart = answer().pictures[-1]
    mark = chart.marks[0]
    assert (mark.x, mark.y) == pytest.approx((34 * 0.0254, 480 * LB))
    lifts, allowed = chart.series
    assert list(lifts.y) == sorted(lifts.y, reverse=True)
    assert list(allowed.y) == sorted(allowed.y, reverse=True)


def test_what_was_weighed_and_measured_needs_no_kind():
    """A mass or a place is of an implement; who tells what is on the loader may have none."""

    def taken(**typed: str) -> tuple[str, ...]:
        found = search.answer(SHEET, typed)
        assert not found.missing
        [kind] = [item for item in found.assumed if item.field.name == "implement_kind"]
        return kind.options

    assert taken(implement_mass="412 lb", cg_distance="34.3 in") == ("other",)
    assert taken(cg_distance="34.3 in", lift_capacity="1,500 lb") == ("other",)
    assert taken(loader_payload="500 lb", loader="on") == ("none",)
    unsaid = search.answer(SHEET, {"lift_capacity": "1,500 lb"})
    assert [item.name for item in unsaid.missing] == ["implement_kind"]
