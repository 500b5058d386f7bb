"""Amounts by the words that stand beside them or among them: each rule, and just outside of it."""

import pytest

from calc import reading
from tests.reading.questions import asks, given

GIVEN = [
    # A cue that needs other words among which to count.
    ("pin is 7/8 on the lowers, 3/4 top, which category", {"upper_pin": "3/4 in"}),
    ("lower pins 28 mm, top 25 mm, what category", {"upper_pin": "25 mm"}),
    ("mower deck 40 in top, will the box blade clear it", {"upper_pin": None}),
    (
        "Do I need to shorten my pto shaft? lowest 30 in, level 27.5 in, top 31",
        {"lowered_distance": "30 in", "working_distance": "27.5 in", "raised_distance": "31 in"},
    ),
    ("how low is too low, lowest 30 in, will the cutter lift", {"lowered_distance": None}),
    ("alternator 55 amp, ac 25, is that enough", {"cooling_current": "25 A"}),
    ("can i climb a 15 deg hill with 800 lb, hydrostat", {"load_mass": "800 lb"}),
    ("tractor with 800 lb, what can it do", {"tractor_mass": None}),
    # Axles, arms, chains, pumps and weights.
    (
        "is 12 psi enough in 27x8.5-15 fronts, axle 2100 lb",
        {"tire_mass": None, "pressure": "12 psi"},
    ),
    (
        "duals: rear axle 5800 lb limit, load on rear axle 3900 lb, ok?",
        {"rear_axle_limit": "5800 lb", "rear_axle_load": "3900 lb"},
    ),
    (
        "arms spread 26 to 33 in, pins 1-1/8, will it fit",
        {"links_narrowest": "26 in", "links_widest": "33 in"},
    ),
    ("pins 26 to 33 in apart, will it fit cat 1", {"links_narrowest": None}),
    (
        "is a 10,000 lb safety chain enough for a 7 ton wagon",
        {"chain_rating": "10,000 lb", "towed_mass": "7 ton"},
    ),
    ("log trailer 6000 lb, which safety chain", {"chain_rating": None, "towed_mass": "6000 lb"}),
    ("pump 8.2 gpm, log splitter needs 11 gpm", {"implement_flow": "8.2 gpm"}),
    ("front end light, added 4 suitcase 55 lb each", {"front_ballast": "220 lb"}),
    (
        "how much front weight for a 900 lb seed spreader",
        {"front_ballast": None, "implement_mass": "900 lb"},
    ),
    ("wheel weights 2 x 70 lb enough to steady it on a slope?", {"wheel_weights": "140 lb"}),
    # The hitch's and the loader's.
    (
        "lift cap 1980 lb at 24 in behind, chipper cg 30 in back, will it lift?",
        {"lift_rated_at": "610", "cg_distance": "30 in"},
    ),
    (
        "3100 lb tractor, lift 1700 lb at ball ends, lift a rear blade?",
        {"lift_capacity": "1700 lb", "lift_rated_at": "0"},
    ),
    ("can my lift take 900 lb? rated 1250 at ball ends", {"lift_capacity": None}),
    ("duals on 16.9-30, width limit 120 in, how wide", {"width_limit": "120 in"}),
    ("loader on, 740 lb bale behind. front light?", {"loader_payload": None}),
    ("740 lb bale on the loader, front light?", {"loader_payload": "740 lb"}),
    ("do i need counterweight for pallet forks on front", {"loader_tool": "forks"}),
    ("do i need pallet forks for 1500 lb", {"implement_kind": None, "loader_tool": None}),
    # Speeds: no tractor goes as fast as cars, and no car is called "my".
    ("turn left onto the highway, 70 mph, view 1000 ft", {"car_speed": "70 mph"}),
    ("turn left onto the road, 20 mph, view 1000 ft", {"car_speed": None}),
    ("crossing the tracks, train 70 mph, 40 ft rig on the road", {"train_speed": "70 mph"}),
    ("pulling out on a 55 road, can see 600 ft. at 20?", {"road_speed": "20 mph"}),
    ("pulling out on a 55 road, can see 600 ft. at 20 past noon?", {"road_speed": None}),
    # What money is of.
    (
        "cost to replace the clutch 1900, worth 6800 fixed 8800. do it or sell?",
        {"parts": "$1900", "as_is_price": "$6800", "uplift_likely": "$2000"},
    ),
    (
        "is hydro worth 2100 more at 150 hours a year",
        {"price_difference": "$2100", "as_is_price": None},
    ),
    ("sell in spring if it brings 6% more, cost of waiting a month?", {"yearly_rate": None}),
    (
        "1400 hrs 2016 tractor, what are payments at 8% over 60 months",
        {"new_price": None, "loan_months": "60 months"},
    ),
    # Numbers in words, and points that are commas.
    ("one and a quarter acres, how long to aerate", {"lawn_area": "1.25 acre"}),
    ("it is a three quarter inch pin, whats the category", {"lower_pin": "0.75 in"}),
    ("seven eighths inch pin, whats the category", {"lower_pin": "0.875 in"}),
    ("half inch shear bolt grade five on the digger", {"bolt_grade": "grade_5"}),
    ("how much load, 280/85R24 at 1,2 bar", {"pressure": "1.2 bar"}),
    ("tractors, 1,2 lb, 280/85R24 load", {"pressure": None}),
    (
        "pto shaft 760 mm closed, 860 lowered and 940 raised, ok?",
        {"lowered_distance": "860 mm", "raised_distance": "940 mm"},
    ),
    ("pto shaft 30 in closed, 40 raised, ok?", {"raised_distance": "40 in"}),
    # Choices.
    ("no cutter just loader, 1000 lb, how much behind", {"implement_kind": None}),
    ("power rake or tines for my lawn?", {"tool": None}),
    ("turn signals flash too fast since leds went in", {"flash_lamp": "led-turn"}),
    ("work lights are dim since leds went in", {"flash_lamp": None}),
    ("can i drive home at dusk in VT without lights", {"hours": "dark"}),
    ("is 12 psi enough for a 1000 rpm, 21 spline baler", {"tractor_shaft": None}),
    (
        "a 1000 rpm 21 spline baler, tractor has 540 only. adapter ok?",
        {"implement_shaft": "2-1000", "tractor_shaft": "1-540"},
    ),
    # Tires: what "change" speaks of, and the second of two at one end.
    (
        "tyres 320/70R24 rear, 240/70R16 front, change rears to 360/70R24?",
        {"rear_tire": "320/70R24", "front_tire": "240/70R16", "new_rear_tire": "360/70R24"},
    ),
    (
        "tractor does 15 mph on 12.4-24s, how fast on 14.9-24s",
        {"rear_tire": "12.4-24", "new_rear_tire": "14.9-24"},
    ),
    (
        "is lead of 1 to 5% right for 9.5-16 front / 14.9-24 back",
        {"front_tire": "9.5-16", "new_front_tire": None},
    ),
    ("load rating of 11L-15 8 ply at 20 mph", {"tire": "11L-15 8 ply"}),
    # Several lamps by their watts are one kind, and all of them together none.
    ("what gauge for 100 w of lights 30 ft", {"work_lamp": None, "run": "30 ft"}),
    ("what gauge for 100 w halogen lights 30 ft", {"work_lamp": "halogen-100"}),
    ("alternator 35 amp, 2 tails 4 flashers, ok?", {"flash_count": "4", "tail_count": "2"}),
    ("rake tines 1.5 in deep, will it hit heads", {"tool_depth": "1.5 in", "head_depth": None}),
    ("trade-in 7,500, a buyer 9,200, which", {"trade_offer": "$7,500", "as_is_price": "$9,200"}),
    # Altitude, addresses, abbreviations and the hook of a name.
    ("do i lose hp at 7,200 ft, 35 hp tractor turbo", {"altitude": "7,200 ft"}),
    ("do i lose hp at 72 in, 35 hp tractor turbo", {"altitude": None}),
    (
        "quick hitch adds 5 in. pto shaft was 28 closed, working distance 32, ok?",
        {"setback": "5 in", "closed_length": "28 in", "working_distance": "32 in"},
    ),
    ("can hitch up cat 2 pallet forks on a cat 1", {"implement_category": "2"}),
    ("shear bolt for digger with 1-3/8 shaft", {"bolt_size": None}),
]


@pytest.mark.parametrize(("text", "wanted"), GIVEN, ids=[text for text, _ in GIVEN])
def test_an_amount_goes_where_its_words_say(text, wanted):
    taken = given(text)
    assert {name: taken.get(name) for name in wanted} == wanted


ASKS = [
    # What is given turns one question into another.
    ("16,000 btu ac kit on a bolted cab, enough for 100F?", "cab/can"),
    ("does ac leave enough power for an 18 hp cutter", "cab/left"),
    ("5 acre field w/ 6 ft cutter at 4.5 mph how many hours", "lawn/time"),
    ("how many acres an hour with a 6 ft cutter at 4.5 mph", "lawn/rate"),
    ("what does 3 months on the lot cost me at 9%, a 22,000 tractor", "resale/month"),
    ("what would 22,000 cost me a month at 9%", "resale/payments"),
    # Words of the patterns are mended too.
    ("whats heavest trailer i can tow, 3600 lb tractor", "road-towing/heaviest"),
    ("what hp for a 5 foot flail in tall weeds", "pto/takes"),
    ("what hp for a 5 foot flail, mine has 30 hp", "pairing/run"),
    ("is a 33 hp tractor enough for 8 ft disc mower", "pto/enough"),
    ("what size tractor for a 10 ft disc mower", "pto/takes"),
    ("mow across 22% slope with a flail, 60 in track", "pairing/across"),
    ("does a cat 1 pin fit a 1-1/8 hole", "hitch/fits"),
    ("does hst burn more diesel", "drive/fuel"),
    ("is 11.2-28 taller than 12.4-24", "tires/height"),
    ("yokes out of phase after reassembly, vibrates", "driveline/shakes"),
]


@pytest.mark.parametrize(("text", "wanted"), ASKS, ids=[text for text, _ in ASKS])
def test_what_is_asked(text, wanted):
    assert asks(text) == [wanted]


@pytest.mark.parametrize(
    "text",
    [
        "can i get a quote on a 5 ft box blade and delivery to 45 Mill rd",
        "do you guys rent aerators",
        "any tips on storing it for winter",
        "thanks for the help saturday, the tractor runs great",
    ],
)
def test_nothing_is_asked(text):
    assert not reading.read(text).questions
