"""Where a number goes that several fields would take: loader or hitch, shaft, hill, price."""

import pytest

from calc import reading
from calc.reading.amounts import amounts_of
from calc.reading.words import tokens_of
from tests.reading.questions import only


def options(text):
    """What the one question of a message asks back, as pairs of a field and a text."""
    return {option for each in only(text).unclear for option in each.options}


@pytest.mark.parametrize(
    ("text", "worksheet", "wanted"),
    [
        # What hangs on the loader is no implement behind.
        (
            "600 lb bale spear on the front loader, what do i need on the back",
            "ballast/behind",
            {"loader_tool": "spear", "loader_payload": "600 lb", "implement_kind": None},
        ),
        (
            "front forks with 900 lb pallet, how much counterweight",
            "ballast/behind",
            {"loader_tool": "forks", "loader_payload": "900 lb", "implement_kind": None},
        ),
        (
            "will my hitch lift a 1100 lb bale on a bale spear",
            "ballast/lift",
            {"implement_kind": "bale_spear", "implement_mass": "1100 lb", "loader_tool": None},
        ),
        (
            "loader lifts 1900 at the pins, 1500 lb of gravel. fluid in the tires. need a ballast "
            "box?",
            "ballast/behind",
            {"loader_rating": "1900 lb", "loader_rating_at": "pins", "loader_payload": "1500 lb"},
        ),
        # A shaft's speed is that of the machine it is said of.
        (
            "can i run a 540 shaft on a 1000 rpm tractor",
            "pto/shafts",
            {"tractor_shaft": "1-1000", "implement_shaft": "1-540"},
        ),
        (
            "is it ok to put a 1000 rpm mower on a 540 tractor",
            "pto/shafts",
            {"tractor_shaft": "1-540", "implement_shaft": "1-1000"},
        ),
        (
            "tractor has 2100 rpm for 540, I run at 1600, how much do i lose with 30 pto hp",
            "pto/speed",
            {"pto_engine_rpm": "2100 rpm", "pto_power": "30 hp", "rated_rpm": None},
        ),
        ("42 pto, what size brush flail", "pto/widest", {"pto_power": "42 hp", "material": None}),
        # Oil and outlets: what it takes, and what is there.
        (
            "grapple needs 9 gpm, my tractor has 7.5 gpm, will it work",
            "pairing/hydraulics",
            {"flow_needed": "9 gpm", "implement_flow": "7.5 gpm"},
        ),
        (
            "hydraulic top link takes 2 remotes, enough oil?",
            "pairing/hydraulics",
            {"remotes_needed": "2", "remotes": None},
        ),
        # Downhill is a downgrade, uphill is not.
        (
            "how heavy a trailer w/o brakes can my 3500 lb tractor pull, hills are about 8%",
            "road-towing/heaviest",
            {"grade": "about -8 %", "trailer_brakes": "none"},
        ),
        (
            "tractor pulls a 5000 lb trailer, hills 6 to 9 %, can it stop",
            "road-towing/stops",
            {"grade": "-9 to -6 %"},
        ),
        (
            "4000 lb tractor pulling a 5000 lb trailer up 15 % hill, will it stop",
            "road-towing/stops",
            {"grade": None, "towed_mass": "5000 lb"},
        ),
        # Prices.
        (
            "worth 9000 as is, 12000 fixed, repair 1400, fix it or sell?",
            "resale/repair",
            {"as_is_price": "$9000", "uplift_likely": "$3000", "parts": "$1400"},
        ),
        (
            "what are payments on 27,500 with 5000 down 60 months at 6.9 %",
            "resale/payments",
            {"new_price": "$27,500", "trade_offer": None, "as_is_price": None},
        ),
        (
            "storage costs 75 a month, what does a month of waiting cost me",
            "resale/month",
            {"storage": "$2.46"},
        ),
        (
            "trade in 11500 on my tractor or sell myself for 14000",
            "resale/trade",
            {"trade_offer": "$11500", "as_is_price": "$14000"},
        ),
        # Lengths.
        (
            "width 9 ft 6 with the disk folded, permit needed in Iowa?",
            "road/width",
            {"transport_width": "9 ft 6 in"},
        ),
        (
            'can it handle a 72" brush flail thats 780 lb, tractor 3400 lb',
            "pairing/run",
            {"working_width": "72 in", "implement_mass": "780 lb", "tractor_width": None},
        ),
        (
            "driveline is 41 in shut, shaft to shaft is 44 at level and 40 when raised, cut it?",
            "driveline/length",
            {"closed_length": "41 in", "working_distance": "44 in", "raised_distance": "40 in"},
        ),
        ("can i dig 42 in deep with a 36 in auger", "digger/depth", {"auger_length": "36 in"}),
        # Speeds.
        (
            "three tracks to cross, 40 ft rig at 6 mph trains 50 mph",
            "rail-crossing/clear",
            {"crossing_speed": "6 mph", "train_speed": "50 mph"},
        ),
        (
            "how far do they have to see me, i drive 16 mph on a 45 road",
            "closing/seen",
            {"road_speed": "16 mph", "car_speed": "45 mph"},
        ),
        (
            "tractor does 27 mph on the road do i need the speed sign",
            "road/symbol",
            {"top_speed": "27 mph"},
        ),
        (
            "soft wet yard 2200 lb machine front psi 12 rear psi 10 will it rut",
            "lawn/ruts",
            {"front_inflation": "12 psi", "rear_inflation": "10 psi"},
        ),
        (
            "tractor 6200 lb, 18 mph, 6% down, 7000 lb trailer, surge brakes, will it stop",
            "road-towing/stops",
            {"road_speed": "18 mph", "grade": "-6 %"},
        ),
        (
            "new rears are 16.9-30 from 14.9-28 front 9.5-16 ok in 4wd",
            "tires/swap",
            {"new_rear_tire": "16.9-30", "rear_tire": "14.9-28", "front_tire": "9.5-16"},
        ),
        (
            "pto shaft too long hits gearbox, 46 collapsed 43 raised 40 lowered",
            "driveline/length",
            {"closed_length": "46 in", "raised_distance": "43 in", "lowered_distance": "40 in"},
        ),
        (
            "pto shaft too long hits gearbox, closed 46 raised 43 lowered 40",
            "driveline/length",
            {"closed_length": "46 in", "raised_distance": "43 in", "lowered_distance": "40 in"},
        ),
        ("cat 1 pins on cat 2 arms", "hitch/fits", {"implement_category": "1"}),
        ("28 hp at 6500 ft run a 5 ft tiller?", "pairing/run", {"altitude": "6500 ft"}),
        (
            "mower deck 60 in wide on a trailer 8 ft 4 wide in Vermont after sunset, ok?",
            "road/lights",
            {"transport_width": "8 ft 4 in"},
        ),
        # Lamps.
        (
            "two 55 w halogen head lights and 4 x 27 w work lamps, 14 amp dynamo ok?",
            "lamp-wiring/carry",
            {"head_count": "2", "work_count": "4"},
        ),
        (
            "4 led work lights 18 watt, 20 ft of wire, what gauge",
            "lamp-wiring/wire",
            {"run": "20 ft", "work_count": "4"},
        ),
    ],
)
def test_a_number_goes_to_what_it_is_said_of(text, worksheet, wanted):
    found = only(text)
    assert f"{found.worksheet}/{found.ask}" == worksheet
    assert {name: found.inputs.get(name) for name in wanted} == wanted


def test_whether_a_hill_is_come_down_again_is_asked():
    assert options("4000 lb tractor pulls a 5000 lb trailer up 15 % hill, will it stop") == {
        ("grade", "-15 %")
    }


@pytest.mark.parametrize(
    ("text", "kind", "number"),
    [
        ("5 ft2", "area", "5"),
        ("5 ft 2 in", "length", "5 ft 2"),
        ("9 ft 6, legal", "length", "9 ft 6"),
    ],
)
def test_feet_and_inches_are_no_area(text, kind, number):
    (amount,) = amounts_of(tokens_of(text), set())
    assert kind in amount.kinds and amount.number == number


def test_feet_before_what_is_counted_stay_feet():
    found = amounts_of(tokens_of("12 ft 4 work lights"), set())
    assert [amount.number for amount in found] == ["12", "4"]


def test_what_is_told_is_not_asked():
    found = reading.read("Fluid in the tires. Is my 40 hp tractor enough for a 6 ft tiller?")
    assert [q.worksheet for q in found.questions] == ["pairing"]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("10 degree slope with lawn sweeper safe?", "lawn/slope"),
        ("dethatch bermuda in april ok?", "lawn/season"),
        ("blinkers dont flash after led swap", "lamp-wiring/flasher"),
        ("2400 lb tractor, 650 lb box blade, front comes up", "ballast/carry"),
        ("box blade wont lift high enough off the ground", "pairing/clear"),
        ("do i need stabilizer chains for a 5 ft tiller", "hitch/sway"),
        ("how much tongue weight should a 5000 lb trailer have", "road-towing/tongue"),
        ("tractor goes 18 mph, do I need the triangle in Ohio after dark", "road/emblem"),
        ("what psi to not rut the yard", "lawn/pressure"),
        ("cat 2 implement on cat 1 tractor, what bushings", "hitch/sleeves"),
    ],
)
def test_each_question_has_its_page(text, wanted):
    found = only(text)
    assert f"{found.worksheet}/{found.ask}" == wanted


def test_too_much_for_whom():
    small = only("23 hp subcompact and a 60 in tiller, is that too much")
    large = only("is 60 hp too much for a light duty 5 ft cutter")
    assert (small.ask, large.ask) == ("run", "duty")
