"""Messages read in a second round: each rule on what it is for, and just outside of that."""

import pytest

from tests.reading.test_voices import asks, given


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        # What a gearbox is rated for, and what only stands in a sentence with one.
        (
            "gearbox on the cutter is rated 40, my tractor is 55 pto hp. ok?",
            {"power_limit": "40 hp", "pto_power": "55 hp"},
        ),
        ("gearbox is new, tractor is 55 pto hp, 5 ft cutter ok?", {"power_limit": None}),
        # "My $9,000 tractor" is what it brings; that of somebody else says nothing of it.
        (
            "should I fix my $9,000 tractor, parts are $900 and 6 hours labor?",
            {"as_is_price": "$9,000", "parts": "$900", "hours": "6 h"},
        ),
        (
            "trade my $11,000 tractor or sell it myself? they offered $9,800",
            {"as_is_price": "$11,000", "trade_offer": "$9,800"},
        ),
        ("payment on a $24,500 tractor", {"new_price": "$24,500", "as_is_price": None}),
        ("what does a month of waiting cost on a $15,000 tractor?", {"as_is_price": "$15,000"}),
        (
            "dealer gave me 8500 for my old tractor, worth 10500 privately, which is better?",
            {"trade_offer": "$8500", "as_is_price": "$10500"},
        ),
        # A state that has a rule of its own for a trade-in is that rule's, and still a place.
        (
            "what tax does my $14,000 trade save on a $32,000 tractor in Ohio at 7 %?",
            {"tax_rule": "ohio", "new_price": "$32,000", "sales_tax": "7 %"},
        ),
        ("do I need the triangle in Ohio on an 18 mph tractor", {"place": "OH", "tax_rule": None}),
        ("can it pull a 2 ton trailer down 5 percent, no brakes?", {"grade": "-5 %"}),
        # What it must stop on, where something is towed.
        (
            "towing 2500 lb behind a 2800 lb tractor on wet grass, will it stop?",
            {"surface": "wet_grass", "towed_mass": "2500 lb"},
        ),
        # A set of outlets is one outlet, and no pressure in the rear.
        (
            "grapple needs one set of remotes, tractor has 2 rear remotes, ok?",
            {"remotes_needed": "1", "remotes": "2", "rear_inflation": None},
        ),
        (
            "need 2 rear remotes for a grapple, i have 1 remote. ok?",
            {"remotes_needed": "2", "remotes": "1"},
        ),
        ("is 8 gpm enough for a grapple", {"implement_flow": "8 gpm", "flow_needed": None}),
        ("grapple needs 8 gpm, ok?", {"flow_needed": "8 gpm", "implement_flow": None}),
        # Splines beside a speed say which shaft of that speed it is; of another they say nothing.
        (
            "my new tractor has 1000 rpm 21 spline, will my 540 cutter work",
            {"tractor_shaft": "2-1000", "implement_shaft": "1-540", "rated_rpm": None},
        ),
        (
            "tractor has 540 rpm pto, cutter is 21 spline, ok?",
            {"tractor_shaft": "1-540", "implement_shaft": "2-1000"},
        ),
        # A state behind the name of a town, and capitals that are words.
        ("do I need an SMV triangle in Millbrook VT", {"place": "VT"}),
        ("do I need a triangle, Just OK", {"place": None}),
        # The light one is named by words on both sides of a width.
        ("light duty 5' cutter on a 24 hp, ok?", {"implement_kind": "rotary_cutter_light"}),
        ("light 5' cutter on a 24 hp, ok?", {"implement_kind": "rotary_cutter"}),
        # What lifts is told of the amount behind it.
        (
            "box blade 380 lbs. tractor is 1700 lbs hitch lifts 800 lb at 24 in. ok?",
            {"lift_capacity": "800 lb", "tractor_mass": "1700 lb", "lift_rated_at": "610"},
        ),
        (
            "subcompact with loader, want to lift pallets 900 lb. does the rear come up?",
            {"lift_capacity": None, "loader_payload": "900 lb"},
        ),
        (
            "my loader lifts 1200 lbs do i need weight on back?",
            {"loader_rating": "1200 lb", "loader_payload": None},
        ),
        (
            "can my loader lift 1200 lbs with nothing on the back?",
            {"loader_rating": None, "loader_payload": "1200 lb"},
        ),
        (
            'tiller 650 lbs, my tractor lifts 1500 lb 24" back. front ok?',
            {"lift_rated_at": "610"},
        ),
        # A power at the PTO that is told is not reckoned from the engine's.
        ("22hp tractor w/ 18 at the pto 4 ft tiller too much?", {"pto_power": "18 hp"}),
        ("22hp tractor, 4 ft tiller too much?", {"pto_power": "16.3 to 19.8 hp"}),
        ("tractor hp 28 pto hp 22. 5 ft rotary cutter too big?", {"pto_power": "22 hp"}),
        ("28 pto hp 1500 lb tractor. 5 ft rotary cutter too big?", {"pto_power": "28 hp"}),
        # Pieces with a unit, and two widths of which neither is told.
        (
            "4 x 42 lb suitcase weights on, tiller 600 lb on 2300 lb tractor. front light?",
            {"front_ballast": "168 lb"},
        ),
        ("6 ft finish mower vs 5 ft on 24 pto hp, which runs?", {"working_width": None}),
        ("grade 2 or grade 5 shear bolt 3/8 for driveline?", {"bolt_grade": None}),
        ("grade 5 shear bolt 3/8 for driveline?", {"bolt_grade": "grade_5"}),
        # Beside a rear tire the one with the small rim is in front; alone it may be either.
        (
            "stock tires 7-16 and 12.4-24, want 14.9-24 in back, what fronts",
            {"front_tire": "7-16", "rear_tire": "12.4-24", "new_rear_tire": "14.9-24"},
        ),
        ("tires 7-16, what load at 30 psi", {"front_tire": None}),
        # What alternators have left is not what they give.
        (
            "22 amps left on my alternator can i add an ac unit 15 amps",
            {"alternator_current": None, "cooling_current": "15 A"},
        ),
        ("22 amp alternator can i add an ac unit 15 amps", {"alternator_current": "22 A"}),
        ("can i run 14 ga wire 25 ft to two 55w work lamps", {"run": "25 ft", "gauge": "14"}),
        ("when to aerate bermuda", {"grass": "warm"}),
        ("dethatch fescue when?", {"grass": "cool"}),
        ("24 pto hp, 540, is a series 2 shaft big enough", {"series": "na2"}),
        ("is 400 lbs on the drawbar ok for 5000 lb wagon", {"tongue_weight": "400 lb"}),
        ("loan of 24,000 at 5.9% for 60 mos, payments?", {"loan_months": "60 months"}),
    ],
)
def test_where_a_number_goes(text, wanted):
    found = given(text)
    assert {name: found.get(name) for name in wanted} == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("gearbox on the cutter is rated 40, tractor is 55 pto hp. ok?", ["pairing/duty"]),
        ("will a 35 amp alternator run 55w lights x2", ["lamp-wiring/carry"]),
        ("is 60 psi too much on turf tires? lawn is wet clay", ["lawn/pressure"]),
        ("how many hp do I need for 25kw generator", ["pto/generator_tractor"]),
        ("35 pto hp, how many kw generator", ["pto/generator"]),
        ("my 3pt mower wont lift high enough to clear, 14 in", ["pairing/clear"]),
        ("how far can i run 12 gauge for two 55w work lights", ["lamp-wiring/far"]),
        ("can i run 12 gauge for two 55w work lights", ["lamp-wiring/thick"]),
        ("should i shut pto off before i lift the cutter", ["driveline/raised"]),
        ("front tires wear fast in 4wd when I turn", ["rollout/wear"]),
        ("whats 6.9% over 72 months on 31500", ["resale/payments"]),
        ("sell in spring or now?", ["resale/month"]),
        ("how steep is too steep on lawn", ["lawn/slope"]),
        ("can it climb a 20% hill w/ 2000 lb trailer", ["drive/climbs"]),
    ],
)
def test_what_is_asked(text, wanted):
    assert asks(text) == wanted
