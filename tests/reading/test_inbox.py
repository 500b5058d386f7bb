"""Short messages in an inbox's spelling: rules that say whose an amount is, and what is asked."""

import pytest

from calc import reading
from tests.reading.questions import first

GIVEN = [
    ("what fuse for 55w lights x2", {"work_count": "2", "work_lamp": "halogen-55"}),
    ("55w light with 12 ft of wire, what fuse", {"work_count": None}),
    (
        "can i pull out, me 11 mph, car 45, sight 380 ft",
        {"road_speed": "11 mph", "car_speed": "45 mph"},
    ),
    ("pull out left, road 65, me 14", {"road_speed": "14 mph", "car_speed": "65 mph"}),
    ("will a cat 1 box blade 60 in wide fit me 12", {"road_speed": None}),
    (
        "dealer offers 9100, could get 10900 private",
        {"trade_offer": "$9100", "as_is_price": "$10900"},
    ),
    (
        "12.5/80-18 fronts, 16.9-24 rears, 4wd ok?",
        {"front_tire": "12.5/80-18", "front_pressure": None},
    ),
    (
        "rear tires 11.2-24 changed to 320/70R24, change front 7-16 too?",
        {"rear_tire": "11.2-24", "new_rear_tire": "320/70R24", "new_front_tire": None},
    ),
    (
        "how heavy is beet juice, filling 13.6-28 rears",
        {"rear_tire": "13.6-28", "new_rear_tire": None},
    ),
    ("ac for a cab with 5 kw heat?", {"cooling_capacity": None}),
    ("is 5 kw of a/c enough for my cab", {"cooling_capacity": "5 kW"}),
    ("bale sticks out 4 ft behind the spear, will it lift 800 lb", {"working_width": None}),
    (
        'how fast does a post hole auger 9" turn in clay',
        {"auger_diameter": "9 in", "depth_wanted": None},
    ),
    ("60 in mower deck pto shaft 50 collapsed 44 raised long enough?", {"closed_length": "50 in"}),
    (
        "want to lift up to 1400 lb bale on loader, what ballast",
        {"loader_payload": "1400 lb", "lift_capacity": None},
    ),
    ("hitch rated to lift 1400 lb, lift a 600 lb tiller?", {"lift_capacity": "1400 lb"}),
    ("4100 lb wagon, tractor 2700, no brakes, stop ok?", {"tractor_mass": "2700 lb"}),
    ("4100 lb wagon, tractor 2015, no brakes, stop ok?", {"tractor_mass": None}),
    ("will a 3 bottom plow 14s pull with 45 hp", {"working_width": "42 in"}),
    ("need escort for a 13 ft load in tx?", {"place": "TX"}),
    ("how wide may it be in or out of the lane?", {"place": None}),
    (
        "mower 12 ft wide, 8 ft folded, too wide for the road?",
        {"transport_width": "8 ft", "tractor_width": None},
    ),
    ("cutter is 84 in wide tractor 66, lane 10 ft, ok on the road?", {"tractor_width": None}),
    ("digger bolt grade 5 or 2 to shear", {"bolt_grade": None}),
    ("digger bolt grade 5 to shear", {"bolt_grade": "grade_5"}),
    ("loader lifts 1500 at pins, bale 900 lb, ballast?", {"loader_rating": "1500 lb"}),
    ("will a 25 hp tractor run a grapple, have 6 gpm", {"implement_kind": "none"}),
    ("tiller behind and a grapple, have 6 gpm for it?", {"implement_kind": "rotary_tiller"}),
    ("grapple on a 1200 lb loader, what counterweight", {"implement_kind": None}),
    ("front axle rated 2900 lb, 1150 in bucket, what ballast", {"loader_payload": "1150 lb"}),
    ("do the tubes overlap enough, overlap 8 in, 50 in closed", {"tube_length": None}),
    ("trade 11800 or sell, new one 26500, tax 6.5", {"sales_tax": "6.5 %"}),
    ("turn right onto a 55 mph hwy, see 700 ft", {"car_speed": "55 mph"}),
    ("repair quote 2100, sells for 9000, fix it?", {"parts": "$2100", "as_is_price": "$9000"}),
    ("is 1 in 5 too steep for mowing", {"slope": "1:5", "head_depth": None}),
    ("down a 1-in-8 hill, trailer 4000 lb, no brakes", {"grade": "-1:8"}),
    ("is a 1:4 bank too steep to mow", {"slope": "1:4"}),
    ("mow a bank with sprinkler heads 1 in down", {"slope": None, "head_depth": "1 in"}),
    (
        'box blade 72" behind a 30 hp tractor',
        {"working_width": "72 in", "cg_distance": None},
    ),
    ("500 lb tiller 20 in behind the balls, front light?", {"cg_distance": "20 in"}),
    ("tractor worth new 31,000 after 6 years 900 hours", {"age": "6 years"}),
    ("my 25 hp tractor, 19 hp at the pto, 5 ft finish mower ok?", {"pto_power": "19 hp"}),
    ("my 25 hp tractor, 5 ft finish mower ok?", {"pto_power": "18.8 to 22.5 hp"}),
    ("stop a 9,000 lb baler, tractor 3500 lb, at 15 mph?", {"towed_mass": "9,000 lb"}),
    ("core aerator, tines 3 in, heads 2 in deep", {"tool_depth": "3 in", "head_depth": "2 in"}),
    ("how many acres per hour with 48 in sweeper at 3 mph", {"working_width": "48 in"}),
    (
        "pull out onto a 55 mph road with 300 ft of view, tractor 15 mph",
        {"entrance_sight": "300 ft", "road_speed": "15 mph", "car_speed": "55 mph"},
    ),
    ("pull out onto a 55 mph road with 60 ft", {"entrance_sight": None}),
]


@pytest.mark.parametrize(("text", "wanted"), GIVEN)
def test_whose_an_amount_is(text, wanted):
    given = first(text).inputs
    assert {name: given.get(name) for name in wanted} == wanted


ASKED = [
    ("what counterweight for a grapple on a loader rated 1600", "ballast", "behind"),
    ("bale 900 lb on the front loader spear. need ballast?", "ballast", "behind"),
    ("tiller 600 lb behind. need weight on the front?", "ballast", "front_weight"),
    ("bucket full, 700 lb, down a steep hill, safe?", "ballast", "behind"),
    ("do i need the smv in indiana pulling a hay wagon", "road", "emblem"),
    ("selling it, whats a 9 year old tractor worth", "resale", "worth"),
    ("sell or fix it, worth it?", "resale", "repair"),
    ("if i wait 6 months what do i lose", "resale", "month"),
    ("45 pto, 7 ft something ok?", "pairing", "run"),
    ("what hp to run a 72 in snowblower", "pto", "takes"),
    ("13.6-28 at 16 psi hold how much each", "tire-size", "load"),
    ("grass too soft for a 1.5 ton tractor?", "lawn", "ruts"),
    ("which flasher relay for led blinkers", "lamp-wiring", "flasher"),
    ("cat 2 tractor, implement has 7/8 pins, which sleeves", "hitch", "sleeves"),
    ("widest bush cutter for 30 pto hp in light grass", "pto", "widest"),
    ("what pressure in my 14.9-28 to carry 2400 lb each", "tire-size", "pressure"),
    ("2 halogen 55w headlights, 10 ft of wire, what size wire", "lamp-wiring", "wire"),
    ("what wire and fuse for two 55 watt headlights 12 feet away", "lamp-wiring", "wire"),
    ("top link too short on an old box scraper", "hitch", "mast"),
]


@pytest.mark.parametrize(("text", "worksheet", "ask"), ASKED)
def test_what_is_asked(text, worksheet, ask):
    assert [(q.worksheet, q.ask) for q in reading.read(text).questions] == [(worksheet, ask)]
