"""Messages about tires, lamps, the road, towing, cabs, lawns and money: whose a number is."""

import pytest

from tests.reading.questions import asks, given

GIVEN = [
    # Watts that stand bare are those of a lamp of the table, beside what it is made of.
    ("16 gauge feeding 2 halogen 55s, 15 amp fuse safe?", {"work_lamp": "halogen-55"}),
    ("16 gauge feeding 2 halogen 55s, 15 amp fuse safe?", {"work_count": "2"}),
    ("16 gauge feeding 2 halogen 50s, 15 amp fuse safe?", {"work_lamp": None}),
    ("will my alternator run 4 led work lights 18w each", {"work_lamp": "led-18"}),
    ("will my alternator run 2 led 10 watt work lights", {"work_lamp": "led-10"}),
    ("what wire for a 120 watt light bar", {"work_lamp": "led-120"}),
    ("what wire for a 120 watt lamp", {"work_lamp": None}),
    # One pressure is that of all tires where no end is named.
    ("12 psi all around, will i rut my yard", {"front_inflation": "12 psi"}),
    ("14 psi turf tires, will i rut my yard", {"rear_inflation": "14 psi"}),
    ("rear tires 14 psi, will i rut my yard", {"front_inflation": None}),
    ("14 psi, will i rut my yard", {"front_inflation": None}),
    ("chain 3/8 grade 70 rated 6600 for a 10,000# wagon?", {"chain_rating": "6600 lb"}),
    ("60 months at 4.9 on 32,000, what payment", {"loan_rate": "4.9 %"}),
    ("tires at 4.9 months", {"loan_rate": None}),
    ("tongue weighs 420 lb on a 4600lb trailer, ok", {"tongue_weight": "420 lb"}),
    ("tongue weighs 420 lb on a 4600lb trailer, ok", {"towed_mass": "4600 lb"}),
    # How full, and how strong a mix.
    ("3/4 full of water in 14.9-28, weight?", {"fill": "75 %"}),
    ("1/2 in gap, tires full of water in 14.9-28, weight?", {"fill": None}),
    ("calcium chloride 3.5 lb mix in 18.4-38, weight?", {"liquid": "calcium-3.5"}),
    ("calcium chloride 4 lb mix in 18.4-38, weight?", {"liquid": None}),
    ("rears 14.9-26, lead ok if it has 16.9-24 rear tires", {"new_rear_tire": "16.9-24"}),
    ("rears r 14.9-26 fronts 9.5-16, lead ok?", {"front_tire": "9.5-16"}),
    ("semi doing 55, can i cross in time", {"car_speed": "55 mph"}),
    ("semi behind, im doing 25, how soon is it on me", {"car_speed": None}),
    ("worth $8,200, spend 900 on it, 9,500 painted, do it?", {"uplift_likely": "$1300"}),
    ("is my lead ok, fronts went around 14 1/4 times per ten rear", {"front_turns": "14-1/4"}),
    ("they have 420/70R24, my rear is 14.9-24, same?", {"rear_tire": "14.9-24"}),
    ("is washer fluid ok at -10 F in 17.5L-24 tires", {"coldest": "-10 F"}),
    ("what do i need at night in Nebraska", {"hours": "dark"}),
    ("fender gap is an inch and a half, can i go to 13.6-28", {"fender_gap": "1.5 in"}),
    ("how wet is too wet for a 2900 lb tractor on grass", {"soil_state": None}),
    ("lawn is wet, how bad will a 2900 lb tractor rut it", {"soil_state": "wet"}),
    ("27w leds beside 55w halogen floods on 40 amp alternator ok?", {"work_lamp": None}),
    ("my 2012 w 900 hrs, whats it worth", {"tractor_made": None, "hour_meter": "900 h"}),
    ("fronts 280/70R18 and rears 420/70R28, lead ok?", {"front_tire": "280/70R18"}),
    ("my front tires are 280/70R18, rears 420/70R28, lead ok?", {"front_tire": "280/70R18"}),
    ("old 9.5-16 now 10.5/80-18, rears 14.9-24, lead ok?", {"new_front_tire": "10.5/80-18"}),
    ("old 9.5-16 now 10.5/80-18, rears 14.9-24, lead ok?", {"rear_tire": "14.9-24"}),
    ("0% for 84 months on 38,900, payment?", {"loan_rate": "0 %", "new_price": "$38,900"}),
    ("0% for 84 months on 900, payment?", {"new_price": None}),
    ("84 months on 38,900, tax 6%, payment?", {"loan_rate": None}),
    ("five 35w halogens on 16 ga, what fuse", {"work_count": "5", "work_lamp": "halogen-35"}),
    ("rake or aerate the lawn?", {"tool": None}),
    ("only 1 headlight and no taillights at dusk in Illinois, legal?", {"tail_lamps": "0"}),
    ("only 1 headlight and no taillights at dusk in Illinois, legal?", {"head_lamps": "1"}),
    ("do i need 2 headlights on the road in Illinois", {"head_lamps": None}),
    ("are 2 amber flashers 5 ft apart legal in Ohio", {"lamp_spread": "5 ft"}),
    ("are 2 amber flashers 5 ft apart legal in Ohio", {"amber_flashers": "2"}),
    ("fluid for 18.4-26, it gets to 10 degrees here", {"coldest": "10 F"}),
    ("my smv is faded, 38 in off the ground", {"emblem": "no", "emblem_height": "38 in"}),
    ("what changes, have 11.2-24 rears and want bigger rears, 12.4-24", {"rear_tire": "11.2-24"}),
    ("duals (18.4-34 inner, 16.9-34 outer) ok?", {"outer_tire": "16.9-34"}),
    ("dynamo, add 2 35w work lamps to 2 45w headlamps ok?", {"head_lamp": "halogen-45"}),
    ("alternator, 4 work lights LED 48W, 2 headlights 60W halogen ok?", {"work_lamp": "led-48"}),
    ("alternator, 4 work lights LED 48W, 2 headlights 60W halogen ok?", {"head_count": "2"}),
    ("18ga wire to 2 led tail lights, what fuse", {"tail_count": "2", "tail_lamp": "led-tail"}),
    ("three quarters of water in 9.5-24, how heavy", {"fill": "75 %"}),
    ("20k chain for a wagon enough?", {"chain_rating": "20000 lb"}),
    ("how fast down with 1.5 tons behind a 1.2 ton tractor", {"towed_mass": "1.5 ton"}),
    ("cross a 2 lane highway at 6 mph, traffic 60, time?", {"crossing_speed": "6 mph"}),
    ("are lights enough on a 2007 tractor in daytime NC", {"place": "NC"}),
    ("are 12 GA lights wires ok", {"place": None}),
    ("counted 13 and 3/4 front turns, lead ok?", {"front_turns": "13-3/4"}),
    ("worth fixing? 5 hrs at $98, brings 6,500", {"hours": "5 h", "shop_rate": "98 $/h"}),
    ("max load of 31x13.50-15 at 22 psi", {"pressure": "22 psi", "rated_pressure": None}),
    ("sidewall says max load 1500 at 22 psi, 31x13.50-15", {"rated_pressure": "22 psi"}),
    ("sprinkler heads stand 1/2 in above, dethatch?", {"head_depth": None}),
    ("alternator 35 A, tails 2, flashers 2, ok?", {"tail_count": "2", "flash_count": "2"}),
    ("alternator 35 A, tails 2 of them, ok?", {"tail_count": None}),
    ("16.9-30 inner and outer, duals ok?", {"outer_tire": None}),
    ("can traffic at 55 stop in 300 ft, i do 8", {"sight_distance": "300 ft"}),
    ("2 wagons of 4,000 lb each, tractor 5,000, stop?", {"towed_mass": "8000 lb"}),
    ("can I drive 11 ft wide on TX county roads", {"place": "TX"}),
    ("can I drive 11 ft wide on OK county roads", {"transport_width": "11 ft"}),
    ("cab in july, 95 F, will a 16,000 btu unit do", {"month": "7"}),
]


@pytest.mark.parametrize(("text", "wanted"), GIVEN)
def test_an_amount_goes_where_its_words_say(text, wanted):
    taken = given(text)
    assert {name: taken.get(name) for name in wanted} == wanted


ASKED = [
    ("how far can I go with 18 gauge to one 27 watt led", "lamp-wiring/far"),
    ("14 ga wire 25 ft run 10 amps is that thick enough", "lamp-wiring/thick"),
    ("how far do i need to see to turn left with 45 foot of rig", "closing/view"),
    ("semi coming over the hill at 55 mph, can i cross", "closing/pull"),
    ("semi coming over the hill at 55 mph, i do 15, soon on me?", "closing/caught"),
    ("bolted on cab, 33 C: what cooling do i need in kW", "cab/size"),
    ("how big of chain for towin a 3 ton wagon", "road-towing/chain"),
    ("16.9r30 at 14 psi, what load", "tire-size/load"),
    ("what air for 2800 lb on each 14.9-28", "tire-size/pressure"),
    ("how many btus for 90 degrees in a cab", "cab/size"),
    ("0% for 84 months on 38,900, trade worth 9k", "resale/payments"),
    ("outer 18.4-38, inner 18.4-38, how much load", "duals/load"),
    ("is it legal to drive a lawn tractor on the street in florida", "road/lights"),
    ("getting on the highway, cars 65 mph. how big a gap", "closing/pull"),
    ("what psi so my 3,100 lb tractor leaves no marks in the yard", "lawn/pressure"),
    ("how fast down a hill with 1.5 tons behind a 1.2 ton tractor", "road-towing/fastest"),
    ("need an escort for my 14 ft sprayer, can I run after sunset?", "road/width"),
    ("how far should cars see my flashers if i do 12", "closing/seen"),
    ("truck 600 ft behind at 70. seconds to impact?", "closing/caught"),
    ("hold a 2 ton spreader on a 12% downgrade, it has no brakes?", "road-towing/stops"),
    ("duals and a 100 inch lane limit, 16.9-30", "duals/width"),
    ("will 14.9-24 bar tires hurt my grass", "lawn/ruts"),
    ("340/85r28 vs 13.6r28, taller?", "tires/height"),
    ("axle sticks out 4 inches past the hub, can i clamp on duals", "duals/may"),
    ("wet grass, 1800 lb cart behind my 1400 lb tractor downhill, ok?", "road-towing/stops"),
]


@pytest.mark.parametrize(("text", "ask"), ASKED)
def test_a_message_asks(text, ask):
    assert asks(text)[0] == ask
