"""The tractor, its loader and its hitch against figures printed by makers, manuals and tests."""

import math

import pytest

from calc import search, worksheets
from calc.mechanics import (
    liquid_ballast,
    tires,
    typical,
)
from calc.mechanics.tire_size import decode
from calc.subjects import ground_tools, tipping
from tests.published.rows import published

LB, HP = 0.45359237, 745.6998715822702
BALLAST, PAIRING = worksheets.load("ballast"), worksheets.load("pairing")


def output(answer, name):
    found = next(o for o in answer.outputs if o.name == name)
    return (found.value, found.value) if found.low is None else (found.low, found.high)


def check(answer, name):
    return next(v for v in answer.verdicts if v.check.name == name)


@pytest.mark.parametrize(
    ("ball_ends", "at_24"),
    [(1808, 1411), (2139, 1676), (1918, 1389), (1985, 1433), (2535, 1962), (2870, 2320)],
)
def test_lift_24_in_behind_from_the_figure_at_the_ball_ends(ball_ends, at_24):
    """hitch/B1, hitch/B2: the lift of six compact hitches printed at both places, in lb."""
    typed = {"lift_capacity": f"{ball_ends} lb", "lift_rated_at": "0", "cg_distance": "24 in"}
    low, high = output(search.answer(BALLAST, typed, example=True), "capacity")
    assert low / LB - 1.0 <= at_24 <= high / LB + 1.0
    assert high / low < 1.15


@pytest.mark.parametrize(
    ("kind", "added_kg"),
    [
        ("compact_light", 215),
        ("compact_heavy", 196),
        ("compact_heavy", 212),
        ("compact_heavy", 181),
    ],
)
def test_cab_against_roll_bar(kind, added_kg):
    """hitch/B1: the same tractor printed with a cab and with a roll bar, four pairs, in kg."""
    low, high = typical.by_kind(kind, "cab", "kg")
    assert low <= added_kg <= high


@pytest.mark.parametrize(
    ("kind", "pto_hp", "mass_lb"),
    [
        ("compact_heavy", 28.5, 2734),
        ("compact_heavy", 28.5, 2778),
        ("compact_large", 40.0, 4027),
        ("compact_large", 40.0, 3734),
    ],
)
def test_bare_masses_that_are_not_in_the_table(kind, pto_hp, mass_lb):
    """A dealer's comparison of two makers at about 35 and about 50 engine hp, in lb."""
    low, high = typical.narrowed(kind, None, (pto_hp * HP, pto_hp * HP))["mass"]
    assert low <= mass_lb * LB <= high


def test_an_owners_tractor_bare_and_ready_to_work():
    """An owner's 37 hp compact: bare 3,700 lb, ready to work with loader and liquid 5,400 lb."""
    typed = {
        "tractor_kind": "compact_heavy",
        "tractor_mass": "3,700 lb",
        "loader": "on",
        "tire_liquid": "calcium-2",
        "implement_kind": "none",
    }
    low, high = output(search.answer(BALLAST, typed), "standing")
    assert low / LB <= 5400 <= high / LB
    assert high / low < 1.2


def test_an_owners_loader_lies_in_the_usual_range():
    """An owner's loader of a 35 hp compact, complete: 920 to 929 lb."""
    low, high = typical.tractor_parts("compact_heavy")["loader_mass"]
    assert low / LB <= 920 and high / LB >= 929


@pytest.mark.parametrize(("liquid", "kg"), [(1.0, 85), (1.13, 94)])
def test_liquid_in_a_rear_tire(liquid, kg):
    """hitch/M5L: a 12.4-16 tire three quarters full takes 85 kg of the weakest brine, 94 of the
    strongest; the volume is an estimate from the size, so a tenth is allowed."""
    volume = liquid_ballast.fill_volume(tires.dimensions(decode("12.4-16"))).value
    ours, given = volume * liquid * 1000.0, f"12.4-16, three quarters full, {liquid} kg/l"
    of, why = liquid_ballast.fill_volume, "the volume is an estimate from the size"
    published(of, given, float(kg), ours, 0.10 * kg, why, "hitch/M5L", unit="kg")


def test_loader_half_a_meter_ahead_of_its_pins():
    """hitch/T6L: a 47 hp compact's loader lifts 2,330 lb at the pins, 1,705 half a meter ahead."""
    typed = {"loader_rating": "2,330 lb", "loader_rating_at": "pins", "loader_payload": "800 lb"}
    typed |= {"loader": "on"}
    low, high = output(search.answer(BALLAST, typed, example=True), "loader_lifts")
    assert low == high
    of, given, why = "ballast", "2,330 lb at the pins", "taken low, by less than two hundredths"
    published(of, given, 1705.0, low / LB, 0.02 * 1705, why, "hitch/T6L", unit="lb")
    assert low / LB <= 1705


def test_loader_is_never_told_more_than_an_illustration_gives():
    """A hobby-farm magazine's illustration: 1,250 lb at the pins, 1,000 lb 500 mm ahead."""
    typed = {"loader_rating": "1,250 lb", "loader_rating_at": "pins", "loader_payload": "800 lb"}
    typed |= {"loader": "on"}
    assert output(search.answer(BALLAST, typed, example=True), "loader_lifts")[1] / LB <= 1000


@pytest.mark.parametrize(("gross", "pto"), [(23.3, 19.2), (34.9, 28.7), (48.4, 40.5), (72.1, 60.0)])
def test_pto_power_of_the_engine(gross, pto):
    """hitch/B1: gross engine and PTO hp of four tractors; the sheet takes one ratio."""
    given, why = f"{pto} PTO hp of {gross} hp at the engine", "one ratio for four tractors"
    ours, source = ground_tools.PTO_SHARE, "hitch/B1"
    published("capability", given, pto / gross, ours, 0.01, why, source)


def test_a_light_cutter_sold_for_a_compact():
    """hitch/B2: a light 5 ft cutter of 557 lb with a 40 hp gearbox, sold with 25 to 33 hp."""
    low, high = typical.implement("rotary_cutter_light", 60 * 0.0254)["mass"]
    assert low / LB <= 557 <= high / LB
    for power, finding in (("33 hp", "within"), ("39 hp", "within"), ("41 hp", "close")):
        typed = {"implement_kind": "rotary_cutter_light", "pto_power": power}
        typed["working_width"] = "5 ft"
        assert check(search.answer(PAIRING, typed), "duty").finding == finding


@pytest.mark.parametrize("pounds", [824.5, 850])
def test_backhoe_mass(pounds):
    """hitch/B1: a compact's backhoe without bucket and subframe 824.5 lb; an owner counts 850."""
    low, high = typical.implement("backhoe")["mass"]
    assert low / LB <= pounds <= high / LB


@pytest.mark.parametrize(
    ("degrees", "finding"), [(9.9, "within"), (10.1, "close"), (14.9, "close"), (15.1, "over")]
)
def test_slopes_that_manuals_print(degrees, finding):
    """hitch/M14: 15 degrees straight up and down, 10 with something behind."""
    percent = 100 * math.tan(math.radians(degrees))
    typed = {"slope": f"{percent:.3f} %", "implement_kind": "box_blade"}
    assert check(search.answer(PAIRING, typed), "slope").finding == finding


@pytest.mark.parametrize(("share", "finding"), [(0.199, "over"), (0.21, "close"), (0.26, "within")])
def test_rear_axle_with_the_loader_on(share, finding):
    """hitch/H7 (EN 12525) keeps 20 % of everything behind, hitch/EP562 25 %."""
    typed = {
        "loader": "on",
        "mass_as": "scale",
        "tractor_mass": "1000 kg",
        "front_axle_mass": f"{1000 * (1 - share):.1f} kg",
        "implement_kind": "none",
    }
    assert check(search.answer(BALLAST, typed), "rear_loader").finding == finding


@pytest.mark.parametrize(
    ("kind", "towed", "finding"),
    [
        ("compact_light", 740, "close"),
        ("compact_light", 830, "over"),
        ("utility", 3500, "close"),
        ("utility", 4900, "over"),
    ],
)
def test_towed_mass(kind, towed, finding):
    """hitch/T26: small tractors tow no more than tractor and driver; hitch/M10: below 1.5 times."""
    mass = {"compact_light": 700, "utility": 3000}[kind]
    typed = {
        "tractor_kind": kind,
        "loader": "none",
        "tractor_mass": f"{mass} kg",
        "implement_kind": "trailer",
        "implement_mass": f"{towed} kg",
    }
    assert check(search.answer(PAIRING, typed), "towed").finding == finding


def test_counterweight_of_a_small_loader():
    """hitch/M4L: 190 kg in a 24 hp subcompact's bucket asks for 170 kg behind, in any case."""
    typed = {"loader": "on", "loader_payload": "190 kg", "implement_kind": "none"}
    typed |= {"tractor_kind": "subcompact", "tractor_mass": "700 kg"}
    low, _ = output(search.answer(BALLAST, typed), "counterweight")
    assert low >= 169.5


def test_static_angle_that_loaders_are_ballasted_for():
    """hitch/EP562: static stability on a side slope of 15 degrees."""
    assert tipping.SIDE_LEAST == 15.0
