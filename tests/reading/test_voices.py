"""Messages as many people type them: each rule on what it is for, and just outside of that."""

import pytest

from calc import reading
from tests.reading.questions import asks, given


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        # A comma between two amounts of one thing, and one between two things.
        (
            "Will a 5 ft cutter be ok on my 1650 lb, 20 pto hp tractor?",
            {"tractor_mass": "1650 lb", "implement_mass": None, "working_width": "5 ft"},
        ),
        (
            'my 28 hp compact, can it handle a 66", 720 lb tiller',
            {"working_width": "66 in", "tractor_width": None, "implement_mass": "720 lb"},
        ),
        (
            "cutter is 5 ft, 1650 lb tractor, will it run",
            {"working_width": "5 ft", "tractor_mass": "1650 lb", "tractor_width": None},
        ),
        # What weighs so much is not the machine that is named behind a comma.
        (
            "mine weighs 2200 lb, box blade 500 lb, will the front come up",
            {"implement_mass": "500 lb"},
        ),
        # The power of a tractor with a cab; the cooling unit's is told in Btu.
        ("40 hp cab, will ac leave enough", {"engine_power": "40 hp"}),
        (
            "cab too hot, 100 outside, 14000 btu, 1 person",
            {"cooling_capacity": "14000 Btu/h", "engine_power": None, "persons": "1"},
        ),
        # Tires: which is measured by which, of which end, and of which wheel of a dual.
        (
            "are 9.5-24 the same height as 8.3-24?",
            {"rear_tire": "8.3-24", "new_rear_tire": "9.5-24"},
        ),
        (
            "want duals, inner 13.6-28 and outer tires 14.9-28, ok?",
            {"rear_tire": "13.6-28", "outer_tire": "14.9-28"},
        ),
        (
            "14.9-24 on the back 9.5-16 front, putting 16.9-24 on back. what happens to the 4wd",
            {"rear_tire": "14.9-24", "front_tire": "9.5-16", "new_rear_tire": "16.9-24"},
        ),
        (
            "tires are 8.3-24 rear 5-12 front, if I go up to 9.5-24 will 4wd bind",
            {"rear_tire": "8.3-24", "front_tire": "5-12", "new_rear_tire": "9.5-24"},
        ),
        # Pieces.
        ("suitcase 4x70 on the front, enough?", {"front_ballast": "280 lb"}),
        ("4x70 planks on the trailer, brakes needed?", {"front_ballast": None}),
        (
            "I pull a 2 bottom 14 plow w/ 30 hp gear tractor 3,400 lb. ok?",
            {"working_width": "28 in", "tractor_mass": "3,400 lb", "implement_mass": None},
        ),
        (
            "dynamo handle two 55w headlights + 2 tail lights + 2 work lights 35 w halogen?",
            {"head_lamp": "halogen-55", "work_lamp": "halogen-35", "tail_count": "2"},
        ),
        # Numbers that measure nothing.
        (
            "35 horse tractor, six foot bush cutter, ok? Call 555-867-5309 after 6 pm, 3/12/26",
            {"pto_power": "27.1 to 31.5 hp", "working_width": "6 ft", "implement_mass": None},
        ),
        ("ballast box 600 lb on a 2400 lb tractor, ok?", {"implement_mass": "600 lb"}),
        # Hot air, and a hill.
        ("cab a/c, 30 hp tractor, 95 degrees. enough?", {"outside_temperature": "95 F"}),
        (
            "will it tip on a 15 degree side slope, cutter on back",
            {"cross_slope": "15 deg", "slope": None},
        ),
        # Whose speed, sight, mass.
        ("i tops out at 22 mph, need a triangle?", {"top_speed": "22 mph", "road_speed": None}),
        (
            "cars do 60, i do 14, can see 400 ft back. safe?",
            {"sight_distance": "400 ft", "entrance_sight": None, "car_speed": "60 mph"},
        ),
        (
            "33 hp 4wd around 3100 lbs with loader on, 7 ft blade, any trouble?",
            {"loader": "on", "loader_payload": None},
        ),
        ("lift 900 lb w/ a loader with a 500# ballast box?", {"loader_payload": "900 lb"}),
        (
            "can my compact carry a 1,000 lb round bale up front without tipping",
            {"loader_payload": "1,000 lb", "loader_tool": None},
        ),
        # The second category is the other machine's, but not the second of a choice.
        (
            "will a cat 2 implement fit cat 1",
            {"implement_category": "2", "hitch_category": "1"},
        ),
        ("is my implement cat 1 or cat 2?", {"implement_category": None, "hitch_category": None}),
        # So many splines has a shaft of 1000 rpm; six are those of 540 too.
        (
            "my pto is 1 3/8 6 spline, new cutter is 1 3/8 21 spline",
            {"implement_shaft": "2-1000", "tractor_shaft": None},
        ),
        ("how do I tell if it is cat 0 or 1, pin is 5/8", {"hitch_category": None}),
        (
            "tractor cat1, implement cat2, will it fit",
            {"hitch_category": "1", "implement_category": "2"},
        ),
        # Two sizes of a bale are no mass, and so many lamps are a count.
        ("lift a 1,600 lb round bale 4x5 on a rear spear?", {"implement_mass": "1,600 lb"}),
        ("alternator enough for 4x55 W work lights?", {"work_count": "4"}),
        # One speed of a train, and not that of the crossing.
        (
            "railroad crossing, train 79 mph max, crossing in low at 3 mph, how far to see",
            {"train_speed": "79 mph"},
        ),
        ("spreader holds 700 lbs, empty 180, front light?", {"load_carried": "700 lb"}),
        (
            "a 3 bottom 12 plow, 38 horse 4 wheel drive 4100 lbs, ok?",
            {"tractor_mass": "4100 lb", "implement_mass": None},
        ),
        (
            "can I put a 3 pt blade on a Cat 0 16 hp",
            {"hitch_category": "0", "implement_category": None},
        ),
        (
            "sprinkler heads 1/2 inch below grade, tine rake set 1 inch deep, safe?",
            {"head_depth": "1/2 in", "tool_depth": "1 in"},
        ),
        (
            "pulling out across 2 lanes, cars at 60, rig 42 ft, view 700 ft, ok?",
            {"combination_length": "42 ft", "entrance_sight": "700 ft"},
        ),
        ("is 16 gauge ok 12 ft off for two 55w lights", {"run": "12 ft", "gauge": "16"}),
        ("cutter 5 in off the ground, lights wire ok?", {"run": None}),
        ("cutter takes 30-40 hp, 35 pto hp, fine?", {"power_needed": "30 to 40 hp"}),
        # What an ask is about takes its loose number.
        ("whats the fuel diffrence between gear and hst over 250 hrs", {"hours_per_year": "250 h"}),
        ("mowing 6 acres at 3.5 mph how long to aerate", {"ground_speed": "3.5 mph"}),
        # A lift figure is known by where it is measured.
        (
            'whats the lift on a 3pt if its 1900 at 24" and i hang something 40" back',
            {"lift_capacity": "1900 lb", "lift_rated_at": "610"},
        ),
    ],
)
def test_where_a_number_goes(text, wanted):
    found = given(text)
    assert {name: found.get(name) for name in wanted} == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        # Numbers of a list end sentences; a decimal doesn't.
        (
            "1) do i need weights 2) how wide a cutter for 30 pto hp",
            ["ballast/front_weight", "pto/widest"],
        ),
        ("a 1.5 m flail mower on 25 kw pto, will it run", ["pairing/run"]),
        # What is only told is not asked.
        ("Balls are 28 in center to center. What category?", ["hitch/category"]),
        ("tractor worth 7k running, 4k as is. fix or sell", ["resale/repair"]),
        ("What is my tractor worth?", ["resale/worth"]),
        # "It" is the implement of the sentence before.
        ("Do yall have a 6' finish mower in stock? will it go on my 33hp", ["pairing/run"]),
        # Who says how far one sees asks whether it is enough.
        ("pull out onto a 55. can see 500 ft. enuf?", ["closing/pull"]),
        ("how far must i see to pull out onto a 55", ["closing/view"]),
        # A load on the loader and nothing behind makes the rear light.
        ("1400 lb loader, 1000 lb bale up front, will it tip", ["ballast/behind"]),
        ("pto shaft 2 inches too long", ["driveline/cut"]),
        ("is my pto shaft too long", ["driveline/length"]),
        ("how steep a hill is safe with a 600 lb bale spear", ["pairing/across"]),
        ("6 ply vs 8 ply on 14.9-28, which holds more", ["tire-size/load"]),
        ("wat size wire 4 two 18 watt leds", ["lamp-wiring/wire"]),
        ("should I aerate in may? lawn is half acre", ["lawn/season"]),
        ("what size tractor for 6 ft bush cutter", ["pto/takes"]),
        ("safe speed with a heavy trailer", ["road-towing/fastest"]),
        ("does ac rob power", ["cab/left"]),
        ("best month to sell", ["resale/month"]),
        ("best time to dethatch fescue", ["lawn/season"]),
        ("power loss at elevation", ["pto/left"]),
        ("how many psi in rear tires", ["tire-size/pressure"]),
        ("will the mower clear the curb when lifted", ["pairing/clear"]),
        ("do i need rear ballast? loader stays on", ["ballast/behind"]),
        ("40 hp gear drive, 6,500 lb wagon, pull it up a 9 % grade?", ["drive/climbs"]),
        ("40 hp, 6,500 lb wagon, pull it up a 9 % grade, will it stop", ["road-towing/stops"]),
        ("put 40 gallons each in 14.9-24s, weigh?", ["tires/liquid"]),
        ("mid mount deck + rear bagger, subcompact 1,600 lb", ["pairing/run"]),
        ("repaint fenders 350 bucks before i list it at 7900?", ["resale/repair"]),
        ("tractor bucks in 4wd", ["rollout/lead"]),
        ("4 ft core aerator 520 lb, soil moist. ruts?", ["lawn/ruts"]),
        ("how steep a hill can a 2,800 lb tractor take with a bale spear", ["pairing/across"]),
        ("tyres 320/85R24 at 1.2 bar how many kg", ["tire-size/load"]),
        ("front ballast for post hole digger", ["ballast/front_weight"]),
    ],
)
def test_what_is_asked(text, wanted):
    assert asks(text) == wanted


def test_a_telephone_number_is_offered_for_no_field():
    (question,) = reading.read(
        "text me 417 555 0134: 42 hp, 1,150 hrs, asking 17,900, fair?"
    ).questions
    assert question.unclear == ()
    assert question.inputs == {"hour_meter": "1,150 h", "as_is_price": "$17,900"}
