"""Messages of tires, towing, lamps, cabs, lawns and money: each rule, just inside and outside."""

import pytest

from tests.reading.questions import asks, given, only


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        # A price in thousands stands beside another one; alone 13 may be anything.
        ("trade offer 11k, or 13 selling it myself?", "trade_offer", "$11000"),
        ("dealer 11 grand on trade, I think 13 selling myself", "as_is_price", "$13000"),
        ("trade offer 11000, 13 selling myself?", "as_is_price", None),
        # Cash, and what a neighbor offers, is no trade.
        ("guy offered 12k cash, dealer 10.5 on trade", "as_is_price", "$12000"),
        ("guy offered 12k cash, dealer 10.5 on trade", "trade_offer", "$10500"),
        ("dealer offered 12k on trade, is that fair?", "as_is_price", None),
        # What is pulled down a hill is no down payment.
        ("15 mph pulling 6000 down a 6% grade, too fast?", "towed_mass", "6000 lb"),
        ("payments on 34000 with 6000 down at 5% for 60 months", "towed_mass", None),
        # Hours of a repair, and not those of a meter.
        ("1800 in parts and 14 hrs, sells for 9k as is, fix it?", "hours", "14 h"),
        ("1800 in parts and 140 hrs, sells for 9k as is, fix it?", "hours", None),
        ("1100 parts 9 hr at 95, fix it? 5500 as is", "shop_rate", "95 $/h"),
        # An inch is no "in" before a year.
        ("bought it new for 26,500 in 2016, 900 hr, what can i list it for", "hour_meter", "900 h"),
        (
            "bought it new for 26,500 in 2016, 900 hr, what can i list it for",
            "like_new_price",
            "$26,500",
        ),
    ],
)
def test_money(text, name, value):
    assert given(text).get(name) == value


@pytest.mark.parametrize(
    ("text", "fields"),
    [
        # The one that is there now stands behind "now with", "mine", "on mine".
        (
            "will 18.4-30s clear my fender, now with 16.9-30",
            {"new_rear_tire": "18.4-30", "rear_tire": "16.9-30"},
        ),
        (
            "found used 13.6-24s, mine say 12.4-24, same height?",
            {"new_rear_tire": "13.6-24", "rear_tire": "12.4-24"},
        ),
        (
            "14.9-28s and 9.5-20s, will they go on mine with 13.6-28 and 8.3-20",
            {
                "new_rear_tire": "14.9-28",
                "new_front_tire": "9.5-20",
                "rear_tire": "13.6-28",
                "front_tire": "8.3-20",
            },
        ),
        (
            "how does 16.9-28 compare to 14.9-28 for speed",
            {"new_rear_tire": "16.9-28", "rear_tire": "14.9-28"},
        ),
        # Of two sizes of duals neither is the inner one until it is said.
        (
            "can i put 12.4-38 outers with 15.5-38 inners",
            {"outer_tire": "12.4-38", "rear_tire": "15.5-38"},
        ),
        ("can 12.4-38 and 15.5-38 be duals together", {}),
        # A lead in percent, measured or built in.
        ("my lead is 4.5% with 9.5-20 fronts and 13.6-28 rears, ok?", {"lead_now": "4.5 %"}),
        (
            "book says 4% lead with 9.5-20 fronts, going to 14.9-28 on 4wd",
            {"factory_lead": "4 %", "lead_now": None},
        ),
        (
            "the fronts on my 4wd are 25x8.50-14 and rears 13.6-16, bind?",
            {"front_tire": "25x8.50-14", "rear_tire": "13.6-16"},
        ),
        ("can duals carry it, 14.9-38 inside 13.6-38 outside", {"outer_tire": "13.6-38"}),
        ("keep tire water from freezing, 16.9-24, gets to -10", {"coldest": "-10 F"}),
        # What turns are counted by is no pressure.
        ("front turns 15.4 for 10 rear, bad?", {"front_turns": "15.4", "rear_pressure": None}),
        # Degrees below zero in words.
        ("methanol in 13.6-24s at minus 25 F, pounds each", {"coldest": "-25 F"}),
        ("methanol in 13.6-24s at 25 F, pounds each", {"coldest": "25 F"}),
        # Of two liquids that are compared neither is in it.
        ("fill 16.9-38s with calcium or beet juice, which weighs more", {"liquid": None}),
        ("16.9-38s with beet juice, how heavy", {"liquid": "beet"}),
        ("16.9-28 load limit at 16 lbs of air", {"pressure": "16 psi"}),
    ],
)
def test_tires(text, fields):
    found = given(text)
    assert {name: found.get(name) for name in fields} == fields
    assert fields or not {"rear_tire", "outer_tire"} & found.keys()


@pytest.mark.parametrize(
    ("text", "fields"),
    [
        ("2 hay wagons hooked together, 4000 lb each, tractor 5200 lb, stop?", "8000 lb"),
        ("need a safety chain for 2 grain carts 7000 each?", "14000 lb"),
        ("2 ramps, hay wagon, 400 each, tractor 5200 lb, stop?", None),
        # Empty, with something in it: what is towed is neither.
        ("sprayer cart 900 lb empty plus 200 gal, tractor weighs 2200 lb, stop?", None),
        ("tongue load 15 percent of 6000 lb, drawbar says 1200, ok?", "6000 lb"),
        ("sprayer cart 900 lb, tractor weighs 2200 lb, stop?", "900 lb"),
        ("dump trailer 4800 loaded, 3300 lb tractor, stop?", "4800 lb"),
    ],
)
def test_what_is_towed(text, fields):
    assert given(text).get("towed_mass") == fields


@pytest.mark.parametrize(
    ("text", "fields"),
    [
        ("going 18 in a 65, semi behind, how long til he is on me", ("18 mph", "65 mph")),
        ("how far away can a driver see my triangle at 55", (None, "55 mph")),
        ("how far away can a driver see my triangle at 25", (None, None)),
    ],
)
def test_speeds_without_a_unit(text, fields):
    found = given(text)
    assert (found.get("road_speed"), found.get("car_speed")) == fields


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("mower is 8 ft 4 wide, OK in Virginia?", "VA"),
        ("mower is 8 ft 4 wide, Tulsa, OK. legal on the road?", "OK"),
        ("hazard flashers instead of an amber beacon in BC?", "CANADA-BC"),
        ("are lights required? turn them ON in the rain", None),
    ],
)
def test_places(text, place):
    assert given(text).get("place") == place


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("how many btus to cool a bolt on cab, 100 out", "outside_temperature", "100 F"),
        ("how many btus to cool a bolt on cab, 70 out", "outside_temperature", None),
        ("duals on 14.9-28, gate is 9 feet wide, will they clear?", "width_limit", "9 ft"),
        ("14.9-28 duals, adapters 14 in long, overall width?", "adapter_length", "14 in"),
        ("legal in PA? mower hangs out 18 inches each side", "transport_width", None),
        ("legal in PA? mower is 98 inches wide", "transport_width", "98 in"),
        ("lights dim at idle, 4 worklights 55 watt, 35 amp alt", "work_lamp", "halogen-55"),
        ("22 amp generator on a 6 volt tractor, can it run lights", "charging", "dynamo"),
        ("no flashers, hauling at night in Missouri. legal?", "amber_flashers", "0"),
        ("ruts in my lawn? 3,400 lb tractor on wet ground", "lawn_area", None),
        ("how long to dethatch? lawn: 3 acres", "lawn_area", "3 acre"),
        ("cross 2 rails, train 1/4 mile off at 50", "train_speed", "50 mph"),
        ("cross 2 rails, train 1/4 mile off at 50", "track_sight", "1/4 mi"),
        ("crossing double tracks, train does 55, 70 ft long", "tracks", "2"),
    ],
)
def test_what_stands_beside_tells(text, name, value):
    assert given(text).get(name) == value


@pytest.mark.parametrize(
    ("text", "ask"),
    [
        ("duals dish in or out", "duals/rims"),
        ("reversed or same side? 13.6-28 duals outer wheel", "duals/rims"),
        ("bearing spread 26, duals on 18.4-34, overload?", "duals/load"),
        ("how much wider with duals", "duals/width"),
        ("18.4-30 vs 16.9-30", "tires/same"),
        ("faster with 18.4-30 than 16.9-30?", "tires/speed"),
        ("do taller tires raise the tractor", "tires/height"),
        ("tires and loader weight", "tires/load"),
        ("calcium rusting rims", "tires/liquid"),
        ("20 psi 3000 lb 14.9-28", "tire-size/pressure"),
        ("can a 14.9-28 take 3000 lb each at 20 psi", "tire-size/load"),
        ("tire diameter chart 14.9-28", "tire-size/height"),
        ("metric size to match 13.6-28", "tires/same"),
        ("tires scrub on pavement", "rollout/wear"),
        ("hitch weight of trailer", "road-towing/tongue"),
        ("safe towing speed", "road-towing/fastest"),
        ("is that too much to tow, 5000 lb", "road-towing/heaviest"),
        ("how much room to stop a 3 ton trailer", "road-towing/stops"),
        ("6 volt lights", "lamp-wiring/carry"),
        ("generator enough for lights", "lamp-wiring/carry"),
        ("pto generator enough for a 22 kw load", "pto/generator"),
        ("voltage drop in wire", "lamp-wiring/far"),
        ("voltage drop on 14 gauge", "lamp-wiring/thick"),
        ("how long a run can i go on 16 gauge", "lamp-wiring/far"),
        ("what fuse size, 12 gauge, 4 lights 35w", "lamp-wiring/fuse"),
        ("lights dimmer at the end, 40 ft of 18 gauge", "lamp-wiring/thick"),
        ("does ac rob horsepower", "cab/left"),
        ("cab ac not cold enough", "cab/can"),
        ("can cars stop in time coming over the hill", "closing/caught"),
        ("fronts pulling ahead of rears", "rollout/lead"),
        ("what can i haul behind a 2600 lb tractor", "road-towing/heaviest"),
        ("12 hp sign says 20 mph, tractor does 23", "road/symbol"),
        ("overall height 12 ft 9 with the cab", "road/lights"),
        ("cross the highway with a wagon", "closing/pull"),
        ("getting rear ended by a car", "closing/caught"),
        ("sight distance at the drive", "closing/view"),
        ("tractor spins on a hill with the trailer", "drive/climbs"),
        ("does trading save sales tax", "resale/tax"),
        ("what does a 45 hp with 2200 hours go for", "resale/worth"),
    ],
)
def test_a_half_sentence_lands_on_its_question(text, ask):
    assert asks(text)[0] == ask


def test_cars_that_a_driver_may_stop_for_are_not_towed():
    assert asks("i pull out left onto a 55 road. tractor and wagon 48 ft long, safe?") == [
        "closing/pull"
    ]
    assert only("is a wagon of 6000 lb safe behind it down a hill").worksheet == "road-towing"
