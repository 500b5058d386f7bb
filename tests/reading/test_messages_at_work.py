"""Messages of people at work: rules that say whose an amount is, from both sides of each."""

from __future__ import annotations

import pytest

from tests.reading.questions import asks, given

GIVEN = [
    # A bare number beside a noun is a mass where another mass is told, and no price is.
    ("tractor is 3,100 lb, the rough cut mower is 780, front up?", {"implement_mass": "780 lb"}),
    ("tractor is 1400 kg, the tiller is 420, front up?", {"implement_mass": "420 kg"}),
    ("tractor weighs 2450. Box blade 580. ok?", {"implement_mass": "580 lb"}),
    ("tractor is 3,100 lb, the cutter is 72, front up?", {"implement_mass": None}),
    ("tractor is 3,100 lb, tiller is 780, worth it?", {"implement_mass": None}),
    ("can a 30 hp tractor run a tiller, it says 780", {"implement_mass": None}),
    (
        "300 lb in front ok for a 1100 bale on the 3 point, tractor 4000 lb",
        {"implement_mass": "1100 lb"},
    ),
    (
        "loader rated 1,050 lb, bucket of wet dirt maybe 1200, can it?",
        {"loader_payload": "about 1200 lb"},
    ),
    # Of a tool in front and one behind each has its own mass.
    (
        "snow blower up front 350 lb and a 400 lb spreader on the back, 2700 lb compact, ok?",
        {
            "front_implement_mass": "350 lb",
            "implement_mass": "400 lb",
            "implement_kind": "spreader",
        },
    ),
    ("400 lb snow blower on the front, 2700 lb compact, ok?", {"implement_mass": "400 lb"}),
    # Two tools with a width each leave the width open, one with two words doesn't.
    ("an 8 ft back blade and a 60 inch box blade, which for 28 hp", {"working_width": None}),
    ("will 28 hp pull an 8 ft back blade", {"working_width": "8 ft"}),
    ("a ballast box, and will my 32 hp pull the rake", {"implement_kind": None}),
    ("sickle bar mower, will my 32 hp run the mower", {"implement_kind": "cutterbar_mower"}),
    # The grade that somebody wants to put in counts, of two that are there neither.
    ("shear bolt snaps, its a 1/2 grade 2, can i go grade 8", {"bolt_grade": "grade_8"}),
    ("digger has grade 5 bolts, ok to put a grade 8 in?", {"bolt_grade": "grade_8"}),
    ("shear bolt in the digger, it broke, its a 5/16 grade 5", {"bolt_grade": "grade_5"}),
    # Shafts.
    (
        "can i run my 540 rpm tiller at 1000",
        {"implement_shaft": "1-540", "tractor_shaft": "1-1000"},
    ),
    (
        "tractor pto is 540, mower says 1000 rpm on the tag. adapter?",
        {"tractor_shaft": "1-540", "implement_shaft": "1-1000"},
    ),
    ("run my 540 rpm tractor at 1000", {"implement_shaft": None}),
    ("pto shaft, 39 between the shafts up, 42 closed", {"raised_distance": "39 in"}),
    ("pto shaft, 39 between the shafts, 42 closed", {"working_distance": "39 in"}),
    ("overrunning clutch 4 in long, shaft bottoms, how much to trim", {"added_length": "4 in"}),
    ("pto joint angle 25 degrees raised, too much?", {"raised_tilt": "25 deg"}),
    ("lower links lift to 34 in, auger 42 in, clear?", {"auger_length": "42 in"}),
    # The lift, and what is lifted.
    ("1,800 lb at the ball ends, lift a 1,000 lb bale spear?", {"lift_capacity": "1,800 lb"}),
    ("hitch says 2,200 lbs 24 in back, lift it?", {"lift_rated_at": "610"}),
    ("hitch says 2,200 lbs, 2 in back, lift it?", {"lift_rated_at": None}),
    ("im lifting 750 lb of rock in my bucket, what on the back?", {"lift_capacity": None}),
    ("im lifting 750 lb of rock in my bucket, what on the back?", {"loader_payload": "750 lb"}),
    ("lifts 1250 kg at the balls, lift a 700 kg bale?", {"implement_mass": "700 kg"}),
    ("weights for 1,000 lb 3-pt sprayer, 3,800 lb tractor?", {"implement_mass": "1,000 lb"}),
    ("how many front weights for a 900 lb thing", {"front_ballast": None}),
    ("42% weight on the front axle, 2,900 lb total", {"front_ballast": None}),
    ("manual calls for 800 lb behind, ballast for the loader?", {"counterweight_asked": "800 lb"}),
    ("need 800 lb behind, ballast for the loader?", {"counterweight_asked": None}),
    # Powers: who has them.
    ("5 ft cutter on 26 eng hp tractor ok", {"pto_power": "19.6 to 23.4 hp"}),
    ("how many kw can a 42 hp (35 pto) tractor make with a genset", {"engine_power": "42 hp"}),
    ("how many kw can a 42 hp (35 pto) tractor make with a genset", {"pto_power": "35 hp"}),
    ("series 6 driveline on a 100 hp pto cutter, big enough?", {"pto_power": "100 hp"}),
    # The hitch.
    ("cat one tractor cat two blade, fit?", {"hitch_category": "1", "implement_category": "2"}),
    ("balls are cat 2 and the box blade is cat 1, sleeves?", {"hitch_category": "2"}),
    ("will 3pt raise the disc off the ground, pins sit 14 in up", {"pins_on_ground": "14 in"}),
    ("implement pins sit 26 in apart", {"pins_on_ground": None}),
    # Slopes, flows, outlets.
    ("pull 6 tons up a 1 in 10 with 50 horse", {"slope": "1:10"}),
    ("have 1 in 10 of these, pull it with 50 horse?", {"slope": None}),
    ("ok to cross a 12 degree side hill? Track 56 in, 3000 lb", {"tractor_mass": "3000 lb"}),
    ("needs 2 remotes, i only got one", {"remotes_needed": "2", "remotes": "1"}),
    ("can i run my 6 ft titan cutter on 21 pto hp", {"working_width": "6 ft"}),
    ("can i run it 6 ft from cutter on 21 pto hp", {"working_width": None}),
    ("run a cutter on the new 21 pto hp machine its 600 lb", {"tractor_mass": None}),
    ("run a cutter on the new 21 pto hp machine its 1600 lb", {"tractor_mass": "1600 lb"}),
    ("9 ft disc mower 1,150 lb behind 4,900 lb tractor, ok?", {"implement_mass": "1,150 lb"}),
    ("shear bolts keep going, gr 5 3/8", {"bolt_grade": "grade_5", "bolt_size": "3/8"}),
    ("baler weighs 1000 lb, shaft ok?", {"implement_shaft": None}),
    (
        "baler wants 1000, got 540 only, shaft ok?",
        {"implement_shaft": "1-1000", "tractor_shaft": "1-540"},
    ),
    ("30 hp at 2600 rpm, 540 economy, what do i lose", {"rated_rpm": "2600 rpm"}),
    ("540 at 2600 rpm, 30 hp, what do i lose", {"pto_engine_rpm": "2600 rpm"}),
    ("category 1 lift arms, the disk has category 2 pins, fit?", {"lower_pin": None}),
    ("category 1 lift arms, the disk has category 2 pins, fit?", {"hitch_category": "1"}),
    ("how high does the lift go, 28 at the balls, disk off ground?", {"lift_rated_at": None}),
    ("lift is 2800 at the balls, lift a 900 lb disk?", {"lift_rated_at": "0"}),
    ("lift arms 1,323 at 24, is a 900 lb tiller ok to lift", {"lift_rated_at": "610"}),
    ("grapple 480 lb plus log 900 lb, loader rated 1,600 lb, ok?", {"loader_payload": None}),
    ("mast on my mower is 16, quick hitch ok?", {"mast_height": "16 in"}),
    ("quick hitch puts it 4.5 in further away, shaft 30 shut, ok?", {"setback": "4.5 in"}),
    ("dig a 12 inch post hole in sand, how deep", {"auger_diameter": "12 in"}),
    ("dig a 30 inch post hole in sand, how deep", {"auger_diameter": None}),
    ("my pto is 32, chipper needs 35 hp, ok?", {"pto_power": "32 hp"}),
    ("shuttle or hydro for 70% loader 200 hrs", {"hours_per_year": "200 h"}),
    ("22 kW PTO tractor, 10 kW generator fine?", {"pto_power": "22 kW"}),
    ("22 kW tractor, 10 kW generator fine?", {"pto_power": None, "engine_power": "22 kW"}),
    ("can i run a 540 tiller on the 1000 setting", {"tractor_shaft": "1-1000"}),
    ("will 450 lb up front balance a 1,000 lb chipper", {"front_ballast": "450 lb"}),
    ("driveline length: 24 in level, 26 raised", {"working_distance": "24 in"}),
    ("9.5 gpm total flow, spreader motor ok?", {"implement_flow": "9.5 gpm"}),
]


@pytest.mark.parametrize(("text", "wanted"), GIVEN)
def test_what_a_message_gives(text: str, wanted: dict[str, str | None]) -> None:
    found = given(text)
    assert {name: found.get(name) for name in wanted} == wanted


ASKED = [
    ("how many hp does a 20 kw pto genset take", ["pto/generator_tractor"]),
    ("is 600 lb on the 3 point enough to balance 900 in the bucket", ["ballast/behind"]),
    ("pins on the rake are 7/8, which bushings do i need", ["hitch/sleeves"]),
    ("how far can the u joints bend when i lift the mower", ["driveline/angles"]),
    ("auger drags on the ground when i lift it", ["digger/clears"]),
    ("is there enough overlap, pto shaft closed length 900 mm", ["driveline/leave"]),
    ("can i leave the pto turning while the tiller is up", ["driveline/raised"]),
    ("tow the 5500 lb wagon up our 8% driveway, 3000 lb tractor", ["drive/climbs"]),
    ("will a 4 ton cart stop down 8%, 3000 lb tractor", ["road-towing/stops"]),
    ("i need to know what tractor a 7 foot snowblower wants", ["pto/takes"]),
    ("pto vibrates at an angle, yokes dont line up", ["driveline/shakes"]),
    ("fel rated 2100 at pins, pallet is 1,850 lb, can i lift it", ["ballast/loader"]),
    ("rear ballast box how heavy? 1,350 lb bale on loader spear", ["ballast/behind"]),
    ("3pt digger spins too fast", ["digger/speed"]),
    ("can I leave my front snow plow on with my rear blower on", ["pairing/both"]),
    ("mow along a 15 deg slope with a 2600 lb tractor", ["pairing/across"]),
    ("Tractor: 48 HP, 4,190 lb. Implement: 6 ft rotary cutter. OK?", ["pairing/run"]),
    ("9 ft wide, ok?", ["road/width"]),
    ("can cat 1 pins work in cat 2 balls if i buy bushings", ["hitch/sleeves"]),
    ("whats the smallest tractor that will run a round baler", ["pto/takes"]),
    ("whats 55 hp at the crank make at pto w/ hydro", ["pto/reaches"]),
    ("tow 3 ton uphill 10 percent with 35 hp", ["drive/climbs"]),
    ("clutch or bolt on a 40 pto chipper", ["driveline/bolt"]),
    ("bolts shearing on auger, 3/8 gr 2 in now", ["digger/bolt"]),
    ("largest tiller for 19.5 pto hp", ["pto/widest"]),
    ("yoke slipped off pto shaft when bale lifted, what length", ["driveline/length"]),
    ("she weighs about 3,300 with the loader and has 29 pto hp. tiller a match?", ["pairing/run"]),
]


@pytest.mark.parametrize(("text", "wanted"), ASKED)
def test_what_a_message_asks(text: str, wanted: list[str]) -> None:
    assert asks(text) == wanted


def test_a_dash_may_stand_between_a_label_and_its_value() -> None:
    text = "Can my loader lift this?\n- Tractor mass - 303 kg to 7,710 kg\n- PTO power \u2013 22 hp"
    assert given(text) == {"tractor_mass": "303 kg to 7,710 kg", "pto_power": "22 hp"}


def test_what_is_asked_for_is_not_there() -> None:
    assert "implement_kind" not in given("900 lb in the bucket, ballast box how heavy?")
    assert given("900 lb in the bucket, 500 lb ballast box ok?")["implement_kind"] == "ballast_box"
