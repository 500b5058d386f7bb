"""What stands beside what: loads on a trailer, a loader that is only there, heights, a heater."""

import pytest

from tests.reading.questions import asks, given


@pytest.mark.parametrize(
    ("text", "towed"),
    [
        # What has to be stopped is the trailer with what lies on it: one of the two is not it.
        ("trailer weighs 1200 lb empty, hauling 3000 lb of hay, tractor 4200 lb, stop?", None),
        ("2 round bales 900 lbs each on a trailer that weighs 2200, 3100 lb tractor, stop?", None),
        ("can i tow a wagon with 4000 lbs of gravel, wagon itself 900 lb, 3000 lb tractor", None),
        # One mass alone, or one beside what is not on the trailer.
        ("3000 lb tractor, 5000 lb wagon, brakes on it, down 10%, will it stop", "5000 lb"),
        ("6000 lb trailer, 400 lb tongue weight, 2800 lb tractor", "6000 lb"),
    ],
)
def test_what_is_towed_is_left_open_where_its_load_is_given_too(text, towed):
    filled = given(text)
    assert asks(text)[0].startswith("road-towing/") and filled.get("towed_mass") == towed
    assert "tractor_mass" in filled


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("tractor 3500 lbs w/ loader, 1000 lb cutter behind, any ballast in front?", "3500 lb"),
        ("can my 3500 lb tractor lift 900 lb with the loader?", "3500 lb"),
    ],
)
def test_a_loader_that_is_only_there_makes_no_load(text, wanted):
    filled = given(text)
    assert filled["tractor_mass"] == wanted
    assert filled.get("loader_payload") == ("900 lb" if "lift" in text else None)


@pytest.mark.parametrize(
    ("text", "name", "wanted"),
    [
        ("how much can i put in the bucket with a 1,200 lb loader", "loader_rating", "1,200 lb"),
        ("is 1,540 lb at 24 inches lift enough for a 600 lb cutter", "lift_rated_at", "610"),
        ("is 24 inches at 1,540 lb lift enough for a 600 lb cutter", "lift_rated_at", "610"),
        ("will it lift 600 lb, rated 900 lb lift at the balls", "lift_rated_at", "0"),
        ("will my hitch lift 600 lb, it lifts 30 in at the balls", "lift_rated_at", None),
        ("cab has a heater no ac, 45 hp, can i get ac put in", "engine_power", "45 hp"),
        ("cab has a heater no ac, 45 hp, can i get ac put in", "cab_kind", "factory-heater"),
        ("my cab is a canvas one, can I bolt an AC on it?", "cab_kind", "soft"),
        ("how long should the pto shaft be, 34 in with it level, 31 lifted", None, None),
        ("pto shaft length? 34 inches between the shafts when level", "working_distance", "34 in"),
        ("auger won't clear, 36 in auger, balls go up to 32 inches", "link_high", "32 in"),
        ("pto to gearbox is 38 in lowered and 41 in up, shaft length?", "raised_distance", "41 in"),
        ("shaft is 38 in down and 41 in up, how long?", "lowered_distance", "38 in"),
        ("gate opens up to 41 in, go through with a 60 in mower?", "raised_distance", None),
        ("pto shaft length? 31 inches when lifted", "raised_distance", "31 in"),
        ("box blade with teeth 2 inches into the lawn, sprinklers?", "tool_depth", "2 in"),
        ("is 35 amps enough for 2 headlights and 2 work lights", "output", "35 A"),
        ("how many pounds of calcium in 11.2-24 tires at 75 percent", "fill", "75 %"),
        (
            "Would 3 gallons a minute run a log splitter that needs 11 gpm",
            "implement_flow",
            "3 gpm",
        ),
        ("my pump makes 6 gallons a minute, log splitter needs 11 gpm", "implement_flow", "6 gpm"),
        ("do 14.9-28 tires at 12 psi carry it? tractor is 2,000 lb", "tire_mass", None),
    ],
)
def test_where_an_amount_goes(text, name, wanted):
    filled = given(text)
    assert filled.get(name) == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("implement is cat 2 and tractor is cat 1, how do i hook it up", ["hitch/fits"]),
        ("my 3 pt is cat 1, disc is cat 2, can I hook it", ["hitch/fits"]),
        ("Do i have to flag the dog fence before i dethatch", ["lawn/flags"]),
        ("how far should I stop from the railroad, 45 ft at 4 mph", ["rail-crossing/clear"]),
        ("can i use a grade 5 bolt instead of grade 2 in my tiller shaft", ["driveline/bolt"]),
        ("can my 3500 lb tractor lift 900 lb with the loader?", ["ballast/loader"]),
        ("Need to haul a 3000 lb trailer on the road, will it stop", ["road-towing/stops"]),
        ("1000 lb cutter on a 3500 lb tractor, any weight in front?", ["ballast/front_weight"]),
    ],
)
def test_what_is_asked(text, wanted):
    assert asks(text) == wanted
