"""Axle loads, ballast and tip angles against numbers and formulas printed elsewhere."""

import math

import pytest

from calc import quantities, search, worksheets
from calc.mechanics import axle_loads, ballast, loader_counterweight, stability
from tests.published.rows import published

LB = 0.45359237
IN = 0.0254
FT = 0.3048
WHOLE = "printed as a whole number"

# A spread of tractors: T_E, T_F, b, c, d, I_R, a.
SETS = [
    (1500.0, 600.0, 1.75, 0.80, 0.70, 450.0, 0.75),
    (700.0, 300.0, 1.55, 0.72, 0.95, 280.0, 0.60),
    (3000.0, 1200.0, 2.20, 1.00, 1.20, 900.0, 1.10),
]


@pytest.mark.parametrize("values", SETS)
def test_front_ballast_is_the_printed_formula(values):
    # hitch/H4, hitch/H6 (EN ISO 4254-10 Annex B): [I_R (c+d) - T_F b + 0.2 T_E b] / (a + b)
    te, tf, b, c, d, ir, a = values
    printed = (ir * (c + d) - tf * b + 0.2 * te * b) / (a + b)
    ours = ballast.front_ballast_needed(te, tf, b, c, d, ir, a)
    assert ours == pytest.approx(max(printed, 0.0), abs=1e-9)


@pytest.mark.parametrize("values", SETS)
def test_that_ballast_leaves_exactly_a_fifth_in_front(values):
    # hitch/H4: the formula is derived from a front load of 0.2 T_E, so F3 must give it back.
    te, tf, b, c, d, ir, a = values
    front = ballast.front_ballast_needed(te, tf, b, c, d, ir, a)
    assert front > 0
    load = axle_loads.front_axle_load(tf, b, c, d, ir, front, a)
    assert load == pytest.approx(0.2 * te, rel=1e-12)


@pytest.mark.parametrize("values", SETS)
def test_rear_ballast_leaves_exactly_45_percent_behind(values):
    # hitch/H4: 0.45 of the unladen mass on the rear axle with a front implement.
    te, tf, b, c, d, _, a = values
    front = 0.9 * te
    rear = ballast.rear_ballast_needed(te, tf, b, c, d, front, a)
    assert rear > 0
    load = axle_loads.rear_axle_load(te, tf, b, c, d, rear, front, a)
    assert load == pytest.approx(0.45 * te, rel=1e-12)


@pytest.mark.parametrize("values", SETS)
def test_rear_axle_rise_is_the_printed_one(values):
    # hitch/H5 prints the rise as I_R + [I_R (c+d) - I_F a] / b; hitch/H6 the load as G - T_F.
    te, tf, b, c, d, ir, a = values
    rise = axle_loads.rear_axle_rise(b, c, d, ir, 80.0, a)
    load = axle_loads.rear_axle_load(te, tf, b, c, d, ir, 80.0, a)
    assert rise == pytest.approx(ir + (ir * (c + d) - 80.0 * a) / b)
    assert load - (te - tf) == pytest.approx(rise, rel=1e-12)


@pytest.mark.parametrize("values", SETS)
def test_axle_loads_add_up_to_the_gross_mass(values):
    # hitch/H6: T_F,act + T_R,act = G_act.
    te, tf, b, c, d, ir, a = values
    front = axle_loads.front_axle_load(tf, b, c, d, ir, 60.0, a)
    rear = axle_loads.rear_axle_load(te, tf, b, c, d, ir, 60.0, a)
    assert front + rear == pytest.approx(axle_loads.gross_mass(te, ir, 60.0))


def test_short_italian_form_agrees_where_two_fifths_stand_in_front():
    # hitch/H15: Z > (M s - 0.2 T i) / (d + i), s = c + d of ours, i the wheelbase, d our a.
    te, b, c, d, ir, a = 1500.0, 1.75, 0.80, 0.70, 600.0, 0.75
    short = (ir * (c + d) - 0.2 * te * b) / (a + b)
    ours = ballast.front_ballast_needed(te, 0.4 * te, b, c, d, ir, a)
    assert ours == pytest.approx(short)


@pytest.mark.parametrize(
    ("g", "g1", "payload", "b", "i1", "i2"),
    [
        (850, 850, 500, 1450, 800, 1700),
        (850, 850, 900, 1450, 800, 1700),
        (600, 500, 600, 1300, 750, 1600),
    ],
)
def test_loader_counterweight_is_the_printed_formula(g, g1, payload, b, i1, i2):
    # hitch/H7 (EN 12525:2000+A2:2010): M > [5 N B + I2 (P + N - 5 G)] / [5 (I1 + I2) - I2], mm.
    p = g + g1
    printed = (5 * payload * b + i2 * (p + payload - 5 * g)) / (5 * (i1 + i2) - i2)
    ours = loader_counterweight.loader_counterweight(g1, g, i2 / 1000, i1 / 1000, payload, b / 1000)
    assert ours == pytest.approx(printed)
    # The same source: at least 20 % of everything on the rear axle.
    _, rear = axle_loads.axle_loads(
        g1, g, i2 / 1000, [(payload, (i2 + b) / 1000), (ours, -i1 / 1000)]
    )
    assert rear == pytest.approx(0.2 * (p + payload + ours))


def test_tractor_that_lifts_gravel():
    # hitch/X9: 2,100 lb tractor, 20 in ahead of the rear axle, 900 lb of gravel 50 in ahead of
    # the front axle, wheelbase 60 in: printed 325 lb on each rear wheel, 1,175 lb on each front.
    b = 60 * IN
    x = 20 * IN
    front, rear = axle_loads.axle_loads(0.0, 0.0, b, [(2100.0, x), (900.0, b + 50 * IN)])
    of, given, why = axle_loads.axle_loads, "2,100 lb and 900 lb of gravel, wheelbase 60 in", WHOLE
    published(of, given, 325, rear / 2, 0.5, why, "hitch/X9", "each rear wheel", unit="lb")
    published(of, given, 1175, front / 2, 0.5, why, "hitch/X9", "each front wheel", unit="lb")


def test_truck_axle_loads_from_its_center_of_gravity():
    # hitch/X12: 7,460 kg, 0.63 m ahead of the rear axle and 2.30 m behind the front:
    # printed 1.57e4 N in front and 5.74e4 N behind.
    front, rear = axle_loads.axle_loads(0.0, 0.0, 2.93, [(7460.0, 0.63)])
    of, given, why = (
        axle_loads.axle_loads,
        "7,460 kg, 0.63 m ahead of the rear axle",
        "three figures",
    )
    published(of, given, 15700, front * 9.8, 50, why, "hitch/X12", "front", unit="N")
    published(of, given, 57400, rear * 9.8, 50, why, "hitch/X12", "rear", unit="N")
    assert stability.cg_ahead_of_rear_axle(front, 7460.0, 2.93) == pytest.approx(0.63)


def test_car_wheel_loads():
    # hitch/X13: 1,800 kg, wheelbase 1.8 m, center of gravity 1.05 m behind the front axle:
    # printed 3,675 N on each front wheel and 5,145 N on each rear wheel (g = 9.8).
    front, rear = axle_loads.axle_loads(0.0, 0.0, 1.8, [(1800.0, 0.75)])
    of, given = axle_loads.axle_loads, "1,800 kg, wheelbase 1.8 m, 1.05 m behind the front axle"
    published(of, given, 3675, front * 9.8 / 2, 0.5, WHOLE, "hitch/X13", "front wheel", unit="N")
    published(of, given, 5145, rear * 9.8 / 2, 0.5, WHOLE, "hitch/X13", "rear wheel", unit="N")


def test_penn_state_tractor_at_rest():
    # hitch/X5: 30 % on the front axle at rest with the center of gravity 2 ft ahead of the rear
    # axle; the wheelbase that goes with both is 2 / 0.3 = 6.67 ft.
    assert stability.cg_ahead_of_rear_axle(30.0, 100.0, 2 * FT / 0.3) == pytest.approx(2 * FT)


def test_level_pull_moves_load_to_the_rear():
    # hitch/X4: 18 kN tractor, wheelbase 1.8 m, pull 6 kN at 390 mm: printed 1.30 kN.
    of, given = axle_loads.pull_transfer, "a pull of 6 kN at 390 mm, wheelbase 1.8 m"
    ours = of(6000.0, 0.390, 1.8) / 1000.0
    published(of, given, 1.30, ours, 0.005, "printed to 0.01", "hitch/X4", unit="kN")


def test_target_mass():
    # hitch/W8: 180 PTO hp with front-wheel assist at 130 lb/hp: printed 23,400 lb.
    of, given = ballast.target_mass, "180 PTO hp with front-wheel assist at 130 lb/hp"
    published(of, given, 23400, of(180, 130), 0, "exact", "hitch/W8", unit="lb")


@pytest.mark.parametrize(("turns_free", "percent"), [(8.5, 15.0), (9.0, 10.0)])
def test_wheel_slip(turns_free, percent):
    # hitch/H12: 10 turns loaded against 8.5 free is 15 %; the same definition gives 10 % for 9.
    of, given = ballast.wheel_slip, f"10 turns loaded, {turns_free:g} free"
    ours = 100 * of(turns_free, 10.0)
    published(of, given, percent, ours, 0.05, "exact by its definition", "hitch/H12", unit="%")


@pytest.mark.parametrize(
    ("axle", "least", "limit"), [(1040, "rear_axle", 1040.0), (1300, "rear_tires", 1190.0)]
)
def test_axle_limit_is_the_least(axle, least, limit):
    # A compact tractor manual: axle 1,040 kg although two tires carry 595 kg each.
    typed = {"rear_axle_limit": f"{axle} kg", "rear_tire_load": "595 kg"}
    verdicts = search.answer(worksheets.load("ballast"), typed, example=True).verdicts
    rear = [v for v in verdicts if v.check.name in ("rear_axle", "rear_tires")]
    assert len(rear) == 2
    decides = min(rear, key=lambda v: v.margin_low)
    assert decides.check.name == least
    assert decides.check.limit == pytest.approx(limit)


@pytest.mark.parametrize(("kg", "lb"), [(650, 1433), (840, 1852), (1200, 2646)])
def test_permitted_masses_of_a_subcompact(kg, lb):
    # hitch/H8 prints the three limits in both units.
    given, why = f"{lb:,} lb", "printed to a whole pound beside whole kilograms"
    ours = quantities.base(f"{lb} lb", "mass")
    published(quantities.base, given, kg, ours, 0.5 * LB, why, "hitch/H8", unit="kg")


def test_truck_parked_across_a_grade():
    # hitch/X10: half track 1.5 m, center of gravity 3.5 m up: printed 23.2 degrees.
    angle = math.degrees(stability.side_tip_angle(3.0, 3.5))
    of, given = stability.side_tip_angle, "half track 1.5 m, center of gravity 3.5 m up"
    published(of, given, 23.2, angle, 0.05, "printed to a tenth", "hitch/X10", unit="°")


def test_overturning_speed_in_a_turn():
    # hitch/X11: radius 5 m, track 1.5 m, height 1.2 m: printed 5.54 m/s with g = 9.81.
    angle = stability.side_tip_angle(1.5, 1.2)
    of, given = stability.tip_speed_in_turn, "radius 5 m, track 1.5 m, height 1.2 m"
    ours = of(angle, 5.0)
    published(of, given, 5.54, ours, 0.005, "printed to 0.01", "hitch/X11", unit="m/s")


@pytest.mark.parametrize(
    ("degrees", "percent"),
    [(5, 8.75), (10, 17.63), (15, 26.79), (20, 36.40), (25, 46.63), (30, 57.74), (45, 100.0)],
)
def test_slope_table(degrees, percent):
    # hitch/X14, two decimals.
    of, ours = stability.slope_percent, stability.slope_percent(math.radians(degrees))
    published(of, f"{degrees}°", percent, ours, 0.005, "two decimals", "hitch/X14", unit="%")
    assert math.degrees(stability.slope_angle(percent)) == pytest.approx(degrees, abs=0.005)


def test_fifteen_degrees_as_a_rise():
    # Garden tractor manuals: 15 degrees is about 2.5 ft in 10 (one significant step of 0.5 ft).
    assert stability.slope_percent(math.radians(15.0)) / 10 == pytest.approx(2.5, abs=0.25)
