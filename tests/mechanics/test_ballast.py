"""Axle loads and ballast: the worked set, properties, and the traps."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import tables
from calc.mechanics import axle_loads, ballast, carried_mass, loader_counterweight

# T_E 1500 (600 in front), b 1.75, a 0.75, c 0.80, d 0.70: the worked set of the subject.
TE, TF, B, A, C, D = 1500.0, 600.0, 1.75, 0.75, 0.80, 0.70
FRONT_RULES = ["tractor", "combined", "tractor_total", "tractor_raised", "front_half"]

tractors = st.tuples(st.floats(400, 4000), st.floats(0.30, 0.55), st.floats(1.2, 3.0))
places = st.tuples(st.floats(0.3, 2.5), st.floats(0.6, 1.4), st.floats(0.1, 2.0))
loads = st.floats(0.0, 2000.0)


def test_worked_set():
    assert axle_loads.front_axle_load(TF, B, C, D, 450.0) == pytest.approx(214.3, abs=0.05)
    assert axle_loads.rear_axle_load(TE, TF, B, C, D, 450.0) == pytest.approx(1735.7, abs=0.05)
    assert ballast.front_ballast_needed(TE, TF, B, C, D, 450.0, A) == pytest.approx(60.0)
    assert axle_loads.front_axle_load(TF, B, C, D, 450.0, 60.0, A) == pytest.approx(300.0)
    assert carried_mass.greatest_rear_mass(TE, TF, B, C, D) == pytest.approx(350.0)
    assert carried_mass.greatest_rear_mass(TE, TF, B, C, D, 80.0, A) == pytest.approx(
        483.3, abs=0.05
    )
    assert ballast.front_ballast_needed(TE, TF, B, C, D, 600.0, A) == pytest.approx(150.0)
    assert axle_loads.front_axle_load(TF, B, C, D, 700.0) == pytest.approx(0.0, abs=1e-9)


def test_worked_front_implement():
    rear = axle_loads.rear_axle_load(TE, TF, B, C, D, 0.0, 600.0, 1.10)
    assert rear == pytest.approx(522.9, abs=0.05)
    assert rear < 675.0
    needed = ballast.rear_ballast_needed(TE, TF, B, C, D, 600.0, 1.10)
    assert needed == pytest.approx(81.9, abs=0.05)
    assert axle_loads.rear_axle_load(TE, TF, B, C, D, needed, 600.0, 1.10) == pytest.approx(675.0)


def test_worked_combined_form():
    assert ballast.front_ballast_needed(TE, TF, B, C, D, 600.0, A, "combined") == pytest.approx(
        272, abs=0.5
    )


def test_worked_loader():
    mass = loader_counterweight.loader_counterweight(850, 850, 1.7, 0.8, 500, 1.45)
    assert mass == pytest.approx(13.0, abs=0.05)
    _, rear = axle_loads.axle_loads(850, 850, 1.7, [(500, 1.7 + 1.45), (mass, -0.8)])
    assert rear == pytest.approx(442.6, abs=0.05)
    assert loader_counterweight.loader_counterweight(
        850, 850, 1.7, 0.8, 900, 1.45
    ) == pytest.approx(344, abs=0.5)


@given(tractors, places, loads, st.sampled_from(FRONT_RULES))
def test_front_ballast_meets_its_rule_exactly(tractor, place, load, rule):
    mass, share, wheelbase = tractor
    ahead, c, d = place
    front_axle = share * mass
    needed = ballast.front_ballast_needed(mass, front_axle, wheelbase, c, d, load, ahead, rule)
    left = axle_loads.front_axle_load(front_axle, wheelbase, c, d, load, needed, ahead)
    wanted = ballast.front_load_required(mass, front_axle, load + needed, rule)
    if needed > 0:
        assert left == pytest.approx(wanted, rel=1e-9, abs=1e-6)
    else:
        assert left >= wanted - 1e-6


@given(tractors, places, st.floats(0, 300), st.sampled_from(FRONT_RULES))
def test_greatest_rear_mass_meets_its_rule_exactly(tractor, place, front_mass, rule):
    mass, share, wheelbase = tractor
    ahead, c, d = place
    front_axle = share * mass
    greatest = carried_mass.greatest_rear_mass(
        mass, front_axle, wheelbase, c, d, front_mass, ahead, rule
    )
    left = axle_loads.front_axle_load(front_axle, wheelbase, c, d, greatest, front_mass, ahead)
    wanted = ballast.front_load_required(mass, front_axle, greatest + front_mass, rule)
    assert greatest > 0
    assert left == pytest.approx(wanted, rel=1e-9, abs=1e-6)


@given(tractors, places, st.floats(50, 2000), st.sampled_from(FRONT_RULES))
def test_greatest_distance_and_least_tractor_meet_the_rule(tractor, place, load, rule):
    mass, share, wheelbase = tractor
    _, c, d = place
    front_axle = share * mass
    reach = carried_mass.greatest_cg_distance(mass, front_axle, wheelbase, c, load, rule=rule)
    if reach > 0:
        left = axle_loads.front_axle_load(front_axle, wheelbase, c, reach, load)
        wanted = ballast.front_load_required(mass, front_axle, load, rule)
        assert left == pytest.approx(wanted, rel=1e-9, abs=1e-6)
    least = carried_mass.tractor_mass_needed(share, wheelbase, c, d, load, rule=rule)
    left = axle_loads.front_axle_load(share * least, wheelbase, c, d, load)
    wanted = ballast.front_load_required(least, share * least, load, rule)
    assert left == pytest.approx(wanted, rel=1e-9, abs=1e-6)


@given(tractors, places, loads, loads)
def test_loads_add_up(tractor, place, rear_mass, front_mass):
    mass, share, wheelbase = tractor
    ahead, c, d = place
    front_axle = share * mass
    front = axle_loads.front_axle_load(front_axle, wheelbase, c, d, rear_mass, front_mass, ahead)
    rear = axle_loads.rear_axle_load(
        mass, front_axle, wheelbase, c, d, rear_mass, front_mass, ahead
    )
    assert front + rear == pytest.approx(mass + rear_mass + front_mass, rel=1e-9)
    general = axle_loads.axle_loads(
        front_axle,
        mass - front_axle,
        wheelbase,
        [(rear_mass, -(c + d)), (front_mass, wheelbase + ahead)],
    )
    assert general == pytest.approx((front, rear), rel=1e-9, abs=1e-6)


@given(tractors, places, loads)
def test_more_front_ballast_never_lowers_the_front_axle(tractor, place, load):
    mass, share, wheelbase = tractor
    ahead, c, d = place
    args = (share * mass, wheelbase, c, d, load)
    fronts = [axle_loads.front_axle_load(*args, extra, ahead) for extra in (0.0, 50.0, 200.0)]
    assert fronts == sorted(fronts)


@given(tractors, st.floats(0, 1000), st.floats(0.8, 2.0), st.floats(0.6, 1.6))
def test_counterweight_leaves_a_fifth_behind(tractor, payload, ahead, behind):
    mass, share, wheelbase = tractor
    front, rear = share * mass, (1 - share) * mass
    counter = loader_counterweight.loader_counterweight(
        front, rear, wheelbase, behind, payload, ahead
    )
    _, left = axle_loads.axle_loads(
        front, rear, wheelbase, [(payload, wheelbase + ahead), (counter, -behind)]
    )
    wanted = 0.2 * (mass + payload + counter)
    assert left == pytest.approx(wanted, rel=1e-9, abs=1e-6) if counter else left >= wanted - 1e-6
    most = loader_counterweight.greatest_payload(front, rear, wheelbase, ahead)
    _, left = axle_loads.axle_loads(front, rear, wheelbase, [(most, wheelbase + ahead)])
    assert left == pytest.approx(0.2 * (mass + most), rel=1e-9)


def test_moving_a_weight():
    front, rear = axle_loads.axle_loads(0, 0, B, [(45.0, B + A)])
    assert (front, rear) == pytest.approx((64.3, -19.3), abs=0.05)
    moved = axle_loads.axle_loads(600, 900, B, [(45.0, B + A), (-45.0, -C)])
    assert sum(moved) == pytest.approx(1500)


def test_tongue_load_enters_with_no_distance():
    # A trailed machine: the tongue load sits at the coupling point, d = 0.
    front = axle_loads.front_axle_load(TF, B, 0.5, 0.0, 300.0)
    assert front == pytest.approx(600 - 300 * 0.5 / 1.75)


def test_tractor_mass_cannot_help_when_its_front_is_too_light():
    assert carried_mass.tractor_mass_needed(0.18, B, C, D, 300.0) == float("inf")
    assert carried_mass.tractor_mass_needed(0.40, B, C, D, 0.0) == 0.0


# --- traps ---------------------------------------------------------------------------------


def test_trap_misprinted_minus_before_the_tractors_own_term():
    misprint = (0.0 - TF * B - 450.0 * (C + D)) / B
    assert misprint < 0
    assert axle_loads.front_axle_load(TF, B, C, D, 450.0) > 0


def test_trap_second_term_signs():
    wrong = (450.0 * (C + D) - (TF * B + 0.2 * TE * B)) / (A + B)
    right = ballast.front_ballast_needed(TE, TF, B, C, D, 450.0, A)
    assert wrong < 0 < right


def test_trap_a_runs_to_the_weights_own_center():
    # Measuring only to the front hitch (0.40 m of the 0.75) asks for more ballast than needed.
    to_hitch = ballast.front_ballast_needed(TE, TF, B, C, D, 450.0, 0.40)
    to_center = ballast.front_ballast_needed(TE, TF, B, C, D, 450.0, A)
    assert to_hitch > 1.1 * to_center
    # One maker splits a in two: the sum is what counts.
    assert axle_loads.front_axle_load(TF, B, C, D, 450.0, 60.0, 0.40 + 0.35) == pytest.approx(300.0)


def test_trap_d_runs_to_the_center_of_gravity_not_the_end():
    to_rear_end = axle_loads.front_axle_load(TF, B, C, 2 * D, 450.0)
    assert to_rear_end < axle_loads.front_axle_load(TF, B, C, D, 450.0) - 150


def test_trap_front_axle_is_weighed_as_the_tractor_stands():
    # A 75 kg driver, two fifths of it on the front axle, is not nothing.
    bare = carried_mass.greatest_rear_mass(TE - 75, TF - 30, B, C, D)
    assert carried_mass.greatest_rear_mass(TE, TF, B, C, D) - bare == pytest.approx(17.5)


def test_trap_rear_share_left_to_a_table():
    # Some manuals print x for the 45 %: it's a parameter.
    usual = ballast.rear_ballast_needed(TE, TF, B, C, D, 600.0, 1.10)
    assert ballast.rear_ballast_needed(TE, TF, B, C, D, 600.0, 1.10, rear_share=0.50) > usual
    assert ballast.rear_ballast_needed(TE, TF, B, C, D, 600.0, 1.10, rear_share=0.20) == 0.0


def test_trap_20_percent_has_several_bases():
    needed = {
        rule: ballast.front_ballast_needed(TE, TF, B, C, D, 600.0, A, rule) for rule in FRONT_RULES
    }
    assert needed["tractor"] == pytest.approx(150.0)
    assert needed["combined"] == pytest.approx(272, abs=0.5)
    assert needed["front_half"] == pytest.approx(150.0)  # half of 600 is a fifth of 1,500
    assert ballast.default_rule() == "tractor"
    assert sum(1 for row in tables.rows("hitch/twenty_percent_rules") if row["default"]) == 1


def test_trap_rules_for_other_axles_are_not_front_rules():
    for rule in ("loader", "drive_axles", "lift_arm", "no_such_rule"):
        with pytest.raises(ValueError, match="not a rule"):
            ballast.front_load_required(TE, TF, 100.0, rule)


def test_trap_short_form_forgets_the_front_axle():
    ours = [ballast.front_ballast_needed(TE, s * TE, B, C, D, 600.0, A) for s in (0.30, 0.35, 0.45)]
    assert ours == pytest.approx([255.0, 202.5, 97.5])
    short = (600.0 * (C + D) - 0.2 * TE * B) / (A + B)
    assert short == pytest.approx(150.0)


def test_trap_a_raised_implement_adds_more_than_its_mass_to_the_rear_axle():
    assert axle_loads.rear_axle_rise(B, C, D, 450.0) > 1.8 * 450.0


def test_trap_rear_wheel_weights_do_not_relieve_the_front():
    front, rear = axle_loads.axle_loads(900.0, 500.0, 1.7, [(100.0, 0.0)])
    assert front == 900.0
    assert rear == 600.0
    hung, _ = axle_loads.axle_loads(900.0, 500.0, 1.7, [(100.0, -1.0)])
    assert hung < 900.0


def test_trap_implement_codes_are_moments():
    # The same moment from half the mass at twice the reach leaves the same front load, but not
    # the same rear load: a code can't be read as a mass.
    near = axle_loads.axle_loads(600, 900, B, [(400.0, -1.0)])
    far = axle_loads.axle_loads(600, 900, B, [(200.0, -2.0)])
    assert near[0] == pytest.approx(far[0])
    assert near[1] != pytest.approx(far[1])


def test_trap_a_loader_left_on_is_front_ballast():
    loader = 200.0
    with_loader = carried_mass.greatest_rear_mass(TE, TF, B, C, D, loader, 0.5)
    assert with_loader > carried_mass.greatest_rear_mass(TE, TF, B, C, D)


def test_trap_steering_limits_before_the_pump():
    # However strong the hitch, 350 kg is what leaves a fifth in front.
    assert carried_mass.greatest_rear_mass(TE, TF, B, C, D) == pytest.approx(350.0)


def test_trap_slip_is_divided_by_the_loaded_turns():
    assert ballast.wheel_slip(8.5, 10.0) == pytest.approx(0.15)
    assert ballast.wheel_slip(8.5, 10.0) < (10 - 8.5) / 8.5 - 0.02  # which some pages print
    assert ballast.wheel_slip(1.0, 1.2) == pytest.approx(0.167, abs=0.0005)  # printed as 20 %
    with pytest.raises(ValueError, match="at least as many"):
        ballast.wheel_slip(10.0, 8.5)


@pytest.mark.parametrize(
    "call",
    [
        lambda: axle_loads.front_axle_load(600, 0.0, 0.8, 0.7, 450),
        lambda: axle_loads.front_axle_load(600, 1.75, 0.8, -0.7, 450),
        lambda: axle_loads.axle_loads(600, 900, 0.0, []),
        lambda: carried_mass.greatest_rear_mass(1500, 600, 1.75, 0.0, 0.0),
        lambda: carried_mass.greatest_cg_distance(1500, 600, 1.75, 0.8, 0.0),
        lambda: ballast.rear_ballast_needed(1500, 1600, 1.75, 0.8, 0.7, 600, 1.1),
        lambda: loader_counterweight.loader_counterweight(850, 850, 1.7, 0.8, -500, 1.45),
        lambda: ballast.target_mass(0, 130),
        lambda: axle_loads.pull_transfer(-1, 0.4, 1.8),
    ],
)
def test_nonsense_is_refused(call):
    with pytest.raises(ValueError, match=r"\w"):
        call()
