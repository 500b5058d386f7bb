"""Classes of implement, limits that govern and sizes that are sold, against printed figures."""

import pytest

from calc import search, worksheets
from calc.machines import vocabulary
from calc.mechanics import (
    implement_class,
    loader_counterweight,
    typical,
)
from calc.subjects import ground_tools, loader, shaft_power, slopes
from tests.published.rows import published

HP, LB, FOOT, INCH = 745.6998715822702, 0.45359237, 0.3048, 0.0254
WHOLE = "whole horsepower"
LEAST, EASE, MOST = 0, 1, 2  # of what a class is made for


@pytest.mark.parametrize(
    ("kind", "size", "unit", "end", "printed", "source"),
    [
        # An owners' thread: cutters 4 to 5 PTO hp for each foot, finish mowers 3 to 5.
        ("rotary_cutter", 4, FOOT, LEAST, 4 * 4, "power/CUT-F10"),
        ("rotary_cutter", 4, FOOT, EASE, 4 * 5, "power/CUT-F10"),
        ("rotary_cutter", 5, FOOT, LEAST, 5 * 4, "power/CUT-F10"),
        ("rotary_cutter", 5, FOOT, EASE, 5 * 5, "power/CUT-F10"),
        ("rotary_cutter", 6, FOOT, LEAST, 6 * 4, "power/CUT-F10"),
        ("rotary_cutter", 6, FOOT, EASE, 6 * 5, "power/CUT-F10"),
        ("finish_mower", 4, FOOT, LEAST, 4 * 3, "power/CUT-F10"),
        ("finish_mower", 4, FOOT, EASE, 4 * 5, "power/CUT-F10"),
        ("finish_mower", 5, FOOT, LEAST, 5 * 3, "power/CUT-F10"),
        ("finish_mower", 5, FOOT, EASE, 5 * 5, "power/CUT-F10"),
        ("finish_mower", 6, FOOT, LEAST, 6 * 3, "power/CUT-F10"),
        ("finish_mower", 6, FOOT, EASE, 6 * 5, "power/CUT-F10"),
        ("finish_mower", 7, FOOT, LEAST, 7 * 3, "power/CUT-F10"),
        ("finish_mower", 7, FOOT, EASE, 7 * 5, "power/CUT-F10"),
        # The same: one maker asks at least 20 PTO hp for 60 in.
        ("rotary_cutter_light", 60, INCH, LEAST, 20, "power/CUT-F10"),
        # A farm magazine: to 7 ft in heavy grass 35 at least, 40 to 50 better.
        ("rotary_cutter", 7, FOOT, LEAST, 35, "power/CUT-T9"),
        ("rotary_cutter", 7, FOOT, EASE, 50, "power/CUT-T9"),
        # A vendor: 20 to 30 up to 48 in, 30 to 45 up to 60, 45 to 60 up to 72.
        ("flail_mower", 48, INCH, EASE, 20, "power/FLAIL-T10"),
        ("flail_mower", 60, INCH, EASE, 30, "power/FLAIL-T10"),
        ("flail_mower", 72, INCH, EASE, 45, "power/FLAIL-T10"),
        # A maker: a tiller of 41 in wants 15 to 18 hp.
        ("rotary_tiller", 41, INCH, LEAST, 15, "power/TILL-W"),
        ("rotary_tiller", 41, INCH, EASE, 18, "power/TILL-W"),
        # A vendor: 15 to 25 hp for branches of 3 in; an article: at least 40 for 6 in logs.
        ("chipper", 3, INCH, LEAST, 15, "power/CHIP-T11"),
        ("chipper", 3, INCH, MOST, 25, "power/CHIP-T11"),
        ("chipper", 6, INCH, EASE, 40, "power/CHIP-T12"),
        # A dealer: disk mowers of 6.7 and 8 ft on 40 and 50 PTO hp.
        ("disk_mower", 6.7, FOOT, EASE, 40, "power/MOW-T14"),
        ("disk_mower", 8, FOOT, EASE, 50, "power/MOW-T14"),
        # A manual: rear snow blowers of 74 and 80 in for tractors of 30 to 80 hp.
        ("snow_blower", 80, INCH, LEAST, 30, "power/BLOW-M"),
        # A maker: a tiller of 49 in wants 18 to 20 hp.
        ("rotary_tiller", 49, INCH, LEAST, 18, "power/TILL-W"),
        ("rotary_tiller", 49, INCH, EASE, 20, "power/TILL-W"),
        # An article: a rotary rake wants a tractor of at least 20 hp.
        ("rotary_rake", 11, FOOT, EASE, 20, "power/RAKE-T15"),
    ],
)
def test_what_a_class_is_made_for(
    kind: str, size: float, unit: float, end: int, printed: float, source: str
) -> None:
    found = implement_class.class_power(kind, size * unit)[end]
    assert found is not None
    name = {LEAST: "at least", EASE: "better", MOST: "at most"}[end]
    given = f"{kind.replace('_', ' ')}, {size:g} {'ft' if unit == FOOT else 'in'}, {name}"
    of = implement_class.class_power
    published(of, given, float(printed), found / HP, 0.5, WHOLE, source, unit="hp")


@pytest.mark.parametrize(
    ("kind", "inches", "printed", "source"),
    [
        # Web pages: box blades of 5, 6 and 7 ft for 20, 25 and 35 hp.
        ("box_blade", 60, 20, "hitch/T19"),
        ("box_blade", 72, 25, "hitch/T19"),
        ("box_blade", 84, 35, "hitch/T19"),
        # A maker's two series of landscape rakes begin at 15 hp, and at 20 hp for 60 in.
        ("landscape_rake", 48, 15, "hitch/RAKE-M5"),
        ("landscape_rake", 60, 20, "hitch/RAKE-M15"),
    ],
)
def test_what_engine_pulls_a_tool(kind: str, inches: int, printed: float, source: str) -> None:
    of, ours = ground_tools.engine_wanted, ground_tools.engine_wanted(kind, inches * INCH)[0]
    given = f"{kind.replace('_', ' ')}, {inches} in"
    published(of, given, float(printed), ours / HP, 0.5, WHOLE, source, unit="hp")


def _limit(name: str, check: str, **typed: str) -> float:
    """The number that an answer holds against a limit, at which that limit stands."""
    found = search.answer(worksheets.load(name), typed)
    return next(v.check.limit for v in found.verdicts if v.check.name == check)


def test_slopes_of_two_manuals() -> None:
    """hitch/M14: 15 degrees straight up and down; one more: 10 with something behind."""
    import math

    typed = {"implement_kind": "box_blade", "slope": "5 %"}
    for given, printed, ours in (
        ("straight up and down", 15.0, _limit("pairing", "slope", **typed)),
        ("with something behind", 10.0, slopes.BEHIND),
    ):
        degrees, why = math.degrees(math.atan(ours)), "whole degrees"
        published("pairing", given, printed, degrees, 0.5, why, "hitch/M14", unit="deg")


def test_shares_on_the_rear_axle_with_a_loader() -> None:
    """hitch/EP562 and a loader manual: 25 % of everything; manuals after EN 12525: 20 %."""
    of, why = "ballast", "whole percent"
    published(of, "of all", 0.25, loader.STANDARD_SHARE, 0.005, why, "hitch/EP562")
    published(of, "of the total", 0.25, loader.STANDARD_SHARE, 0.005, why, "hitch/M3L")
    ours = loader_counterweight.LOADER_REAR_SHARE
    published(of, "of the laden tractor", 0.20, ours, 0.005, why, "hitch/H7")


def test_static_side_slope_of_the_standard() -> None:
    """hitch/EP562: the least tread keeps static stability on a side slope of 15 degrees."""
    typed = {"loader": "on", "loader_payload": "500 lb", "implement_kind": "none"}
    ours = _limit("ballast", "side_raised", **typed)
    published("ballast", "least tread", 15.0, ours, 0.5, "whole degrees", "hitch/EP562", unit="deg")


def test_counterweight_that_a_manual_asks_for() -> None:
    """hitch/M4L: a rated load of 190 kg needs 170 kg behind."""
    ours, why = loader.MANUAL_RATIO * 190.0, "whole kilograms"
    published(loader.counterweight, "190 kg", 170.0, ours, 0.5, why, "hitch/M4L", unit="kg")


@pytest.mark.parametrize(
    ("kind", "share", "source"),
    [("compact_heavy", 1.0, "hitch/T26"), ("utility", 1.5, "hitch/M10")],
)
def test_towed_mass_as_a_share_of_the_tractor(kind: str, share: float, source: str) -> None:
    typed = {"tractor_kind": kind, "mass_as": "scale", "tractor_mass": "4,000 lb"}
    typed |= {"implement_kind": "trailer", "implement_mass": "2,000 lb", "loader": "none"}
    ours = _limit("pairing", "towed", **typed) / (4000 * LB)
    of, why = shaft_power.check_towed, "printed to a tenth or as the mass itself"
    published(of, "without brakes", share, ours, 0.05, why, source)


def test_weight_in_front_as_it_is_sold() -> None:
    """hitch/X2L: suitcase weights of about 50 lb, six to eight on most tractors."""
    sold = [size / LB for size in typical.stock("front_weights")]
    of, why = "machines/stock_sizes", "printed as about 50 lb"
    published(of, "one suitcase weight", 50.0, sold[0], 0.5, why, "hitch/X2L", unit="lb")
    ours, why = sold[-1] / sold[0], "whole weights"
    published(of, "the most on a tractor", 8.0, ours, 0.0, why, "hitch/X2L")


def test_driver_of_an_operating_mass() -> None:
    """hitch/ISO7131: 75 kg."""
    item = vocabulary.field("driver_mass")
    usual = item.typical_for({"mass_as": "bare"})
    assert usual is not None and usual.low == usual.high
    given, why = "operating mass", "whole kilograms"
    published("ballast", given, 75.0, usual.low, 0.5, why, "hitch/ISO7131", unit="kg")


def test_a_baler_wants_a_tractor_of_its_mass() -> None:
    """power/BALE-T13: a small square baler on a tractor of 3,000 lb."""
    of, ours, why = shaft_power.check_towed, shaft_power.BALER_MASS / LB, "printed to 500 lb"
    published(of, "small square baler", 3000.0, ours, 250.0, why, "power/BALE-T13", unit="lb")


@pytest.mark.parametrize("feet", [4, 5, 6, 7])
def test_the_usual_work_of_a_finish_mower_asks_for_no_more_than_its_makers(feet: int) -> None:
    # An owners' thread: finish mowers take 3 to 5 PTO hp for each foot.
    of, given = shaft_power.demand, f"finish mower of {feet} ft, usual growth, at the least"
    band = of("finish_mower", feet * FOOT)
    assert band is not None
    published(of, given, 3 * feet, band.low / HP, 0.5, WHOLE, "power/CUT-F10", unit="hp")


def test_less_oil_is_slower_and_far_less_is_no_use() -> None:
    # A dealer: a mulcher asks for 18 gpm and more, and is of no use under 14.
    typed = {"implement_kind": "other", "flow_needed": "18 gpm", "implement_flow": "18 gpm"}
    found = search.answer(worksheets.load("pairing"), typed, ask="hydraulics")
    least = next(item.check.limit for item in found.verdicts if item.check.name == "flow")
    assert isinstance(least, float)
    gallons = least / 3.785411784e-3 * 60.0
    of, given = "pairing", "a mulcher that asks for 18 gpm"
    published(of, given, 14, gallons, 0.5, "whole gallons", "hitch/FLOW-T5", unit="gpm")
