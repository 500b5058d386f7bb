"""Messages as they are texted: each rule on what it is for, and just outside of that."""

import pytest

from tests.reading.test_voices import asks, given


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        # A question whose own sentence names nothing is about what was told before it.
        (
            "PTO shaft closed is 31 in, raised 35 in with the mower on. Do I have to cut it?",
            ["driveline/cut"],
        ),
        (
            "I mow 8 acres with a 6 ft mower. How long at 4 mph? Is 24 pto hp enough for it?",
            ["lawn/time", "pairing/run"],
        ),
        # What tells, and stands before a verb that may ask, asks nothing; behind "if" it does.
        ("We must go along the county road after sunset. What lights do I need?", ["road/lights"]),
        ("If we must go on the road in Ohio at night, what lights?", ["road/lights"]),
        # The plainer ask of two of one page.
        (
            "I want to put 14.9-24 in place of my 13.6-24. Will the four wheel drive bind?",
            ["tires/lead"],
        ),
        (
            "they offered $9,500 trade. or sell it myself for 11,000?",
            ["resale/trade"],
        ),
        ("repair 900. or sell it for 11,000 as is?", ["resale/repair"]),
        # Trains where no car is named, and both where one is.
        (
            "I cross the railroad tracks at 4 mph. How far do I need to see?",
            ["rail-crossing/clear"],
        ),
        ("light duty 5' cutter and a 40 hp tractor, too much tractor?", ["pairing/duty"]),
        ("mow a slope with a flail behind. rollover?", ["pairing/across"]),
        ("do i lose power using 540E w/ a finish mower?", ["pto/speed"]),
        ("can i mount a snowblower up front", ["pairing/in_front"]),
        ("max i can tow w a 3000 lb compact no trailer brakes?", ["road-towing/heaviest"]),
        # Oil and power are asked of a splitter's tractor, not of its shaft.
        ("PTO generator 15kw, what hp do i need", ["pto/generator_tractor"]),
        ("PTO generator 15kw on 30 pto hp ok?", ["pto/generator"]),
        ("hook up a cat 2 disk on my cat 1, need bushings?", ["hitch/sleeves"]),
    ],
)
def test_what_is_asked(text, wanted):
    assert asks(text) == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        # Short words for long ones; behind a number "w" stays watts.
        ("wat size wire for 4 led work lites 20 ft from battery", {"work_count": "4"}),
        ("two 55 w headlights, dynamo 20 amps enough?", {"head_lamp": "halogen-55"}),
        ("no breaks on the 6000 lb trailer, 3200 lb tractor, ok?", {"trailer_brakes": "none"}),
        # Whose an amount is stands between it and its cue.
        (
            "tongue weight on my trailer is 700 lbs, drawbar rated 1500. is that ok?",
            {"tongue_weight": "700 lb", "towed_mass": None, "drawbar_limit": "1500 lb"},
        ),
        # Each of two amounts says what it is, or neither does.
        (
            "dealer gives 8000 for trade or 9500 private, sell or trade?",
            {"trade_offer": "$8000", "as_is_price": "$9500"},
        ),
        ("what hp for a 5 ft cutter or 6 ft", {"working_width": None}),
        # A cue between two like amounts is of the one behind it, unless that has its own.
        (
            "is the hitch ok? 60 hp 6000 lb lift 3200 lb, 900 lb plow",
            {"tractor_mass": "6000 lb", "lift_capacity": "3200 lb"},
        ),
        ("2200 lb lift 950 lb cutter, ok?", {"lift_capacity": "2200 lb"}),
        # Right behind a power a mass is the tractor's, and right behind a tool's "at" the tool's.
        (
            "will a rear blade and a spreader do, 35 hp 3200 lb?",
            {"tractor_mass": "3200 lb", "implement_mass": None},
        ),
        (
            "does a box blade at 310 lb need front weights on a 1,480 lb subcompact?",
            {"implement_mass": "310 lb", "front_ballast": None},
        ),
        ("how many suitcase weights, 42 lb each, for a 700 lb blade?", {"front_ballast": None}),
        (
            "front weights 6 of 42 lb, how many more for a 700 lb blade?",
            {"front_ballast": "252 lb"},
        ),
        (
            "whats the heaviest cart my 2600 lb 24 hp can tow w/out brakes",
            {"tractor_mass": "2600 lb", "towed_mass": None},
        ),
        # Loads are so heavy each.
        ("pull 2 wagons of 3 tons each, no brakes, 5,500 lb tractor?", {"towed_mass": "6 ton"}),
        ("pull a wagon of 3 tons, no brakes, 5,500 lb tractor?", {"towed_mass": "3 ton"}),
        # What hangs in front, and what stands beside the front axle.
        (
            "is a snow blower on the front ok for my 1,700 lb subcompact?",
            {"implement_kind": "front_blower"},
        ),
        (
            "is a snow blower with front weights ok for my 1,700 lb subcompact?",
            {"implement_kind": "snow_blower"},
        ),
        (
            "is a 500 lb snow blower off the back ok for a 2,900 lb tractor?",
            {"implement_kind": "snow_blower"},
        ),
        ("snow blower off, is the 2,900 lb tractor ok on the hill?", {"implement_kind": None}),
        # Holes as wide as an auger, and such as are as deep.
        ("digger for 9 inch holes in clay?", {"auger_diameter": "9 in"}),
        ("digger for a 30 inch hole in clay?", {"auger_diameter": None}),
        # A mark apart from the only size, and two marks, of which nobody knows whose they are.
        ("does a 121A8 tire carry 3000 lb? its a 320/85R24", {"tire": "320/85R24 121A8"}),
        ("is a 115A8 like a 121A8 on 320/85R24?", {"tire": "320/85R24"}),
        ("what does 12-16.5 mean", {"tire": "12-16.5"}),
        # A lift figure's distance on a metric tape; another length is none.
        ("hitch lifts 750 kg at 610 mm, 400 kg blade, ok?", {"lift_rated_at": "610"}),
        ("hitch lifts 750 kg at 900 mm, 400 kg blade, ok?", {"lift_rated_at": None}),
        # Lamps by what they are called, or by their watts.
        (
            "dynamo 35 amp, 2 headlights 55w 2 tail lights and 4 leds, ok?",
            {"head_lamp": "halogen-55", "work_lamp": "led-work", "tail_count": "2"},
        ),
        # Prices by the hour, the gallon and the month.
        ("6 hrs labor @ $110 plus $450 parts, fix it to sell?", {"shop_rate": "110 $/h"}),
        ("wait til spring to sell? asking 15,500, 45/mo to store", {"storage": "$1.48"}),
        # A gearbox's power is not the tractor's.
        ("shear bolt for a 40 hp gearbox?", {"power_limit": "40 hp", "pto_power": None}),
        ("what size cutter on a 40 hp tractor?", {"power_limit": None}),
        # So many pounds are no shaft's speed.
        (
            "my box blade is 540 lbs, 22 hp at the pto. will i be light up front?",
            {"implement_mass": "540 lb", "implement_shaft": None},
        ),
        ("will my 540 rpm mower run on a 1000 rpm tractor?", {"implement_shaft": "1-540"}),
        # A tractor's kilowatts are no generator's.
        ("Can a 30 kw tractor run a generator?", {"generator_rating": None}),
        ("Can a 40 hp tractor run a 20 kw generator?", {"generator_rating": "20 kW"}),
        # What is put down is no price.
        ("payment on 26,400, 3,000 to put down, 60 months?", {"new_price": "$26,400"}),
        # What is asked about is the tool's, and what is told of the tractor stays its own.
        (
            'box blade for my 1600 lb 18 pto hp scut, is 54" ok',
            {"working_width": "54 in", "tractor_width": None},
        ),
        # What is no width of the tool.
        ("can 30 hp run a 5 ft mower over 10 inch curbs?", {"working_width": "5 ft"}),
        # The land that is mowed.
        ("I have 20 acres, mow 8 acres at 4 mph, how many hours?", {"lawn_area": "8 acre"}),
        ("how steep may I mow, the bank is 25 degrees?", {"slope": "25 deg"}),
        # A hundred feet of rig fill what a crossing asks; a train's speed is not the rig's.
        ("cross the tracks with a 60 ft header trailer, time?", {"combination_length": "60 ft"}),
    ],
)
def test_where_a_number_goes(text, wanted):
    found = given(text)
    assert {name: found.get(name) for name in wanted} == wanted
