"""Messages about what hangs on a tractor: each rule on what it is for, and just outside of it."""

from __future__ import annotations

import pytest

from tests.reading.questions import asks, given

GIVEN = [
    # What somebody asks to lift is a load; what a hitch can lift is its capacity.
    ("can it lift 900 lb", {"implement_mass": "900 lb", "lift_capacity": None}),
    (
        "tractor lifts 1500, will my 25 hp lift 1100 lb?",
        {"implement_mass": "1100 lb", "lift_capacity": "1500 lb"},
    ),
    ("can a 2600 lb tractor lift 1100", {"implement_mass": "1100 lb", "lift_capacity": None}),
    ("my tractor can lift 900 lb, is it ok for a tiller", {"lift_capacity": "900 lb"}),
    ("will it be ok, my tractor can lift 900 lb", {"lift_capacity": "900 lb"}),
    # The width of what hangs in front is none of what hangs behind.
    ("front snow blower 62 in and a 6 ft rear blade, 33 hp, ok?", {"working_width": "6 ft"}),
    ("front blower 62 in and a rear blade, 33 hp, ok?", {"working_width": None}),
    # "At 24" behind a lift figure says where, and other numbers don't.
    ("tractor lift 3100 at 24. lift a 900 lb tiller?", {"lift_rated_at": "610"}),
    ("tractor lift 3100 at 25. lift a 900 lb tiller?", {"lift_rated_at": None}),
    ('2200 lb lift cap 24" back, lift a 900 lb tiller?', {"lift_rated_at": "610"}),
    ('2200 lb lift, a tiller 24" back, ok?', {"lift_rated_at": None}),
    # Bare "spear" and "forks" hang where the words behind them say.
    ("spear on the 3pt, lift a bale?", {"implement_kind": "bale_spear"}),
    ("spear on the loader, lift a bale?", {"implement_kind": None, "loader_tool": "spear"}),
    ("spear for sale, will 30 hp run a tiller", {"implement_kind": "rotary_tiller"}),
    # "Light duty" behind a cutter in brackets, and none that is said of another thing.
    ("can 36 hp run a 6 ft rotary cutter (light duty)", {"implement_kind": "rotary_cutter_light"}),
    ("can 36 hp run a 6 ft rotary cutter", {"implement_kind": "rotary_cutter"}),
    # Roman numbers of categories; each machine has the one that is named beside it.
    (
        "the category II blade, my tractor cat 1, fit?",
        {"implement_category": "2", "hitch_category": "1"},
    ),
    ("box blade wants cat 1 mine cat 2, bushings?", {"hitch_category": "2"}),
    ("what is the N in category 1N? the blade is 1N", {"hitch_category": None}),
    # A shaft by the splines at the implement's input, and a speed on its gearbox.
    ("a 21-spline input on a baler, ok?", {"implement_shaft": "2-1000"}),
    ("a 6-spline input on a baler, ok?", {"implement_shaft": None}),
    (
        "run the mower off the 1000 pto, it says 540 on the gearbox",
        {"tractor_shaft": "1-1000", "implement_shaft": "1-540"},
    ),
    # A tractor's mass stands right behind it, whatever a loader does.
    (
        "sub compact 1700 lb w/ loader, weight in back to move mulch?",
        {"tractor_mass": "1700 lb", "loader_payload": None},
    ),
    ("Weighs 1,850 lbs, 24 horse. What can it run", {"tractor_mass": "1,850 lb"}),
    # Bare masses beside their nouns where any mass or weight is told of.
    (
        "my tractor is 1,950 and the flail 610; what do the front wheels do",
        {"tractor_mass": "1,950 lb", "implement_mass": "610 lb"},
    ),
    ("my tractor is 1,950 and the flail 610; ok?", {"tractor_mass": None, "implement_mass": None}),
    # A bale's mass before "on back" hangs on the hitch, and not before "on the loader".
    ("how many weights for my front, bale 1400 lb on back", {"implement_mass": "1400 lb"}),
    ("bale 1400 lb on the loader, weight in back?", {"implement_mass": None}),
    # What the arms stand apart just now is no span of the pins.
    ("arms are 27 in apart, pins are 33 in apart, cat 1", {"implement_span": "33 in"}),
    ("arms are 27 in apart, cat 1", {"implement_span": None}),
    # A width beside a power alone is not the tractor's.
    ("is 30 hp the max for a light duty 5 ft?", {"tractor_width": None}),
    ("my tractor is 66 in wide, cover the tracks with a tiller?", {"tractor_width": "66 in"}),
    ("33 HP / 27 PTO HP tractor ok for a tiller", {"engine_power": None, "pto_power": "27 hp"}),
    # Sizes of bolts of drivelines, and of a dual's none.
    ("are 3/8 grade 8 bolts ok in a shaft of a 60 hp cutter", {"bolt_size": "3/8"}),
    ("are 3/8 grade 8 bolts ok for my duals", {"bolt_size": None}),
    # The mast behind whose it is and how new, and what lies above the lower pins.
    ("mast on my new rake is 15 in, cat 1. fit?", {"mast_height": "15 in"}),
    (
        "cat 1 quick hitch, my top pin is 19 inches above the lower ones, fit?",
        {"mast_height": "19 in"},
    ),
    # A hole's width and depth side by side, and a hitch's height that is no width.
    ("dig holes 9 in x 36 in, 28 pto hp", {"auger_diameter": "9 in", "depth_wanted": "36 in"}),
    ("dig holes 6 inch 3 feet deep", {"auger_diameter": "6 in", "depth_wanted": "3 ft"}),
    ("will a tiller 60 in x 30 in run on 25 hp", {"auger_diameter": None, "depth_wanted": None}),
    ("my box blade won't lift over the curb, arms hit 28 in", {"working_width": None}),
    ("scraper blade 96in 610lb behind 42hp ok", {"working_width": "96 in", "cg_distance": None}),
    # A pallet on the hitch's forks is no load of the loader.
    ("does a pallet 1,800 lb go on 3pt forks? 55hp", {"loader_payload": None}),
    ("front ok for a 1200 lb chipper behind 3,800 lb, 39 hp?", {"tractor_mass": "3,800 lb"}),
    ("front ok for a 400 lb chipper behind 900 lb, 39 hp?", {"tractor_mass": None}),
    ("a 250 lb driver on a 2050 lb tractor, front stays down?", {"driver_mass": "250 lb"}),
    ("My front weights = 4@45. Rear blade 900 lb, front light?", {"front_ballast": "180 lb"}),
    ("can't 50 pto hp run my old 30 hp rated gearbox cutter", {"power_limit": "30 hp"}),
    ("can't 50 pto hp run my old 30 hp rated cutter", {"power_limit": None}),
    # Whoever needs to know needs no power.
    ("need to know if 42 hp will run a tiller", {"power_needed": None}),
    ("tiller needs 42 hp, I have 30 pto hp", {"power_needed": "42 hp"}),
]

ASKS = [
    ("hydrostatic or shuttle for moving dirt", ["drive/loader"]),
    ("hydrostatic or shuttle", ["drive/worth"]),
    ("2wd tractor up a hill", ["drive/climbs"]),
    ("which puts more power to the ground hydro or gear", ["drive/ground"]),
    ("horsepower requirement 5 ft tiller", ["pto/takes"]),
    ("rear wheels lift when i use pallet forks", ["ballast/behind"]),
    ("front wheels lift with pallet forks on the back", ["ballast/carry"]),
    ("wont raise a round bale", ["ballast/lift"]),
    ("loader wont lift bale", ["ballast/loader"]),
    ("toplink too short", ["hitch/mast"]),
    ("light duty cutter on 50 hp", ["pairing/duty"]),
    ("will a 5 ft cutter go on 50 hp", ["pairing/run"]),
    ("pto on while lifting mower", ["driveline/raised"]),
    ("which implements can it handle", ["capability/sheet"]),
    ("implements for 2500 lb tractor", ["capability/sheet"]),
    ("tiller for 2500 lb tractor", ["pairing/run"]),
    ("stabilizer bars or chains, my box blade hits the tire", ["hitch/sway"]),
    ("need to know if 42 hp will run a tiller", ["pairing/run"]),
    (
        "does a tractor of 1.3 t carry a 300 kg flail without the nose going light",
        ["ballast/carry"],
    ),
    ("chipper wants 35 hp min, tractor pto is 30.5", ["pairing/power"]),
    ("what min hp for a chipper", ["pto/takes"]),
    ("25 hp at the pto, can it lift a tiller on the hitch", ["ballast/lift"]),
    ("is this implement ok for 30 hp", ["pairing/run"]),
    ("auger out of the hole when raised?", ["digger/clears"]),
    ("auger stuck in the hole", ["digger/stuck"]),
    ("pin too wide for lift arms", ["hitch/fits"]),
]


@pytest.mark.parametrize(("text", "wanted"), GIVEN)
def test_where_a_number_goes(text: str, wanted: dict[str, str | None]) -> None:
    """What is given goes where its words say, and nowhere else."""
    found = given(text)
    assert {name: found.get(name) for name in wanted} == wanted


@pytest.mark.parametrize(("text", "wanted"), ASKS)
def test_what_is_asked(text: str, wanted: list[str]) -> None:
    """A question leads to its ask, and one beside it to its own."""
    assert asks(text) == wanted
