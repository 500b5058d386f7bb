"""What a dealer would sign of the road, towing and their replies."""

from calc import model, search, worksheets
from calc.model import leading
from calc.render.reply import reply
from tests.worksheets.asking import finding, given


def said(name: str, ask: str = "", **typed: str) -> str:
    return leading.lead(given(name, ask, **typed), "us")


def lines(name: str, ask: str = "", **typed: str) -> list[str]:
    return reply(search.answer(worksheets.load(name), typed, ask=ask)).splitlines()


EQUIPPED = {
    "emblem": "yes",
    "emblem_height": "50 in",
    "head_lamps": "2",
    "tail_lamps": "2",
    "tail_height": "70 in",
    "amber_flashers": "2",
    "flasher_height": "80 in",
    "turn_signals": "2",
    "rear_reflectors": "2",
    "top_speed": "18 mph",
    "road_speed": "15 mph",
    "tractor_made": "2005",
    "implement_marking": "full",
}
WIDE = {**EQUIPPED, "place": "ID", "behind_kind": "mounted", "hours": "dark"}


def test_who_is_too_wide_for_the_dark_folds_it_or_goes_by_day() -> None:
    """Idaho: over 8.5 ft by daylight (Idaho Code 49-1010 as the table reads it)."""
    told = lines("road", "width", **WIDE, transport_width="103 in")
    title = told.index("What to do, any one of these:")
    assert sorted(told[title + 1 : title + 3]) == [
        "- Fold, turn or split it to 102 in or less.",
        "- Travel by daylight, in clear weather.",
    ]
    assert finding(given("road", "width", **WIDE, transport_width="101 in"), "daylight") == ""


def test_the_daylight_rule_is_told_in_its_own_words() -> None:
    wide = {**WIDE, "place": "PA", "behind_kind": "trailed", "transport_width": "15 ft"}
    assert any("by daylight only, insured, off freeways" in line for line in lines("road", **wide))


def test_a_rule_for_some_machines_is_offered_and_breaks_nothing() -> None:
    """New Jersey bars machines with a farm-use plate from sunset to sunrise (39:3-24)."""
    found = given("road", **EQUIPPED, place="NJ", hours="dark")
    assert finding(found, "daylight") == model.CLOSE
    texts = [model.words(remedy.text, "us") for remedy in found.advice.remedies]
    assert any("farm-use plate" in text for text in texts)
    by_day = given("road", **EQUIPPED, place="NJ", hours="day")
    assert not any("farm-use" in model.words(r.text, "us") for r in by_day.advice.remedies)


def test_a_chain_that_holds_is_told_so_while_the_brakes_are_open() -> None:
    rated = said("road-towing", "chain", towed_mass="7,500 lb", chain_rating="7,600 lb")
    assert rated.startswith("Can't tell yet") and "yes: it is rated 7,600 lb" in rated
    weak = said("road-towing", "chain", towed_mass="7,500 lb", chain_rating="7,400 lb")
    assert weak.startswith("No: a chain rated 7,400 lb")
    none = said("road-towing", "chain", towed_mass="7,500 lb")
    assert none.startswith("The chain must be rated 7,500 lb or more")


def test_no_load_is_named_for_a_tractor_that_nobody_weighed() -> None:
    assert "What do the tractor and its load weigh" in said("road-towing")
    assert "4,000 lb is the most" in said("road-towing", tractor_mass="4,000 lb")


def test_what_broke_is_told_once_where_the_question_has_words_for_it() -> None:
    typed = {"gauge": "16", "work_count": "4", "work_lamp": "led-36", "run": "12 ft"}
    told = lines("lamp-wiring", "thick", **typed)
    assert told[0].startswith("No: the lamps want 14 gauge wire")
    assert not any("too thin for these lamps" in line for line in told)


LAMPS = {
    "charging": "alternator",
    "output": "40 A",
    "head_lamp": "led-work",
    "tail_lamp": "led-tail",
    "flash_lamp": "signal-21",
}


def test_no_fuse_is_named_for_a_wire_that_nobody_looked_at() -> None:
    def fuses(**typed: str) -> list[str]:
        found = given("lamp-wiring", "fuse", **LAMPS, fuse="15 A", **typed)
        return [r.set["fuse"] for r in found.advice.remedies if list(r.set) == ["fuse"]]

    assert fuses() == []
    assert fuses(gauge="16", work_count="1", work_lamp="led-18") == ["10 A"]


def test_an_emblem_that_no_law_asks_for_is_worth_fitting_by_the_standard() -> None:
    typed = {**EQUIPPED, "place": "OTHER", "hours": "day", "behind_kind": "none"}
    del typed["emblem"]
    told = lines("road", **typed, emblem="no")
    assert told[0].startswith("Elsewhere, by day: an emblem")
    assert any(line.startswith("- Fit a new emblem") for line in told)
    assert not any("Fit a new emblem" in line for line in lines("road", **typed, emblem="yes"))
    # North Dakota lets a flashing amber light stand in for it: 39-21-50.
    instead = given("road", "emblem", **{**typed, "place": "ND", "emblem": "no"})
    assert not any("emblem" in r.set for r in instead.advice.remedies)


def test_who_trades_in_is_asked_for_what_the_machine_brings_not_for_parts() -> None:
    typed = {"trade_offer": "$11,900", "as_is_price": "$14,000", "selling_costs": "$900"}
    found = given("resale", "trade", **typed, new_price="$32,000", sales_tax="6 %")
    assert found.finding == model.UNKNOWN
    asked = {settle.field.name for settle in found.settles}
    assert asked and asked <= set(found.ask.fields)
    repair = given("resale", "repair", **typed)
    assert {settle.field.name for settle in repair.settles} <= set(repair.ask.fields)


def test_what_is_compared_is_told_in_figures_that_tell_it_apart() -> None:
    """A right turn at 65 mph wants the truck's gap of 10.5 s: 1,001 ft (GEO-2)."""
    right = {"maneuver": "right", "car_speed": "65 mph"}
    assert said("closing", "pull", **right, entrance_sight="1,000 ft").startswith(
        "No: you see 1,000 ft, and you need 1,001 ft"
    )
    assert "you need 1,000 ft" in said("closing", "pull", **right, entrance_sight="950 ft")
    heavy = {"tractor_mass": "3,400 lb", "trailer_brakes": "none", "road_speed": "12 mph"}
    told = said("road-towing", grade="0 %", **heavy, towed_mass="3,402 lb")
    assert "3,402 lb is too heavy; by the rule this tractor tows at most 3,400 lb" in told


def test_what_was_given_is_said_as_it_was_typed() -> None:
    told = lines("road-towing", tractor_mass="3,412 lb", towed_mass="1,551 kg", grade="-3 %")
    given_line = next(line for line in told if line.startswith("You gave"))
    assert "3,412 lb" in given_line and "1,551 kg (3,420 lb)" in given_line


def test_what_is_close_is_told_by_the_limit_that_is_close() -> None:
    level = {"tractor_mass": "5,500 lb", "grade": "0 %", "road_speed": "15 mph"}
    level["trailer_brakes"] = "none"
    even = said("road-towing", **level, towed_mass="5,500 lb")
    assert even.startswith("Only just: 5,500 lb behind, and by the rule this tractor tows at most")
    limit = said("road-towing", **level, towed_mass="4,000 lb", manual_limit="4,000 lb")
    assert limit.startswith("Only just: 4,000 lb behind, and the manual or decal allows 4,000 lb")


TOWED = {"towed_mass": "3,000 lb", "tractor_mass": "3,500 lb", "grade": "-2 %"}


def test_a_tenth_of_the_load_on_the_drawbar_is_enough_and_less_is_told_once() -> None:
    towed = {**TOWED, "trailer_brakes": "none"}
    assert said("road-towing", "tongue", **towed, tongue_weight="300 lb").startswith("Yes: 300 lb")
    told = lines("road-towing", "tongue", **towed, tongue_weight="299 lb")
    assert told[0].startswith("Little: 299 lb rests on the drawbar")
    assert not any("Little weight" in line for line in told)
    blank = given("road-towing", "tongue", tongue_weight="300 lb")
    assert blank.finding == model.UNKNOWN  # a tenth of what?


def test_a_load_too_heavy_for_every_tractor_names_one_that_tows_it() -> None:
    told = lines("road-towing", "chain", towed_mass="12,000 lb", chain_rating="5,000 lb")
    assert any("A tractor of 12,000 lb, ballast" in line for line in told)
    assert not any("Nothing here mends" in line for line in told)
    # Whoever said which tractor it is isn't sold one of four times the weight.
    own = lines("road-towing", towed_mass="12,000 lb", tractor_mass="3,000 lb")
    assert not any("A tractor of" in line for line in own)


def test_where_nothing_may_be_towed_no_weight_is_named() -> None:
    steep = {"tractor_mass": "2,500 lb", "trailer_brakes": "none", "road_speed": "10 mph"}
    assert said("road-towing", "heaviest", **steep, grade="-25 %").startswith("Nothing behind")
    assert " lb at most to be sure" in said("road-towing", "heaviest", **steep, grade="-15 %")


def test_the_fuse_is_judged_against_its_wire_until_lamps_are_named() -> None:
    """10 A is the most for 16 gauge in a harness (road/FAA-1)."""
    alone = given("lamp-wiring", "fuse", gauge="16", fuse="10 A")
    assert alone.finding == model.WITHIN
    assert given("lamp-wiring", "fuse", gauge="16", fuse="10.1 A").finding == model.OVER
    lit = given("lamp-wiring", "fuse", gauge="16", fuse="10 A", work_count="4")
    assert lit.finding == model.UNKNOWN


def test_lamps_of_one_kind_tell_the_circuit() -> None:
    told = said("lamp-wiring", "wire", head_count="2", head_lamp="halogen-55", run="10 ft")
    same = said(
        "lamp-wiring", "wire", circuit="head", head_count="2", head_lamp="halogen-55", run="10 ft"
    )
    assert told == same and "for 9.17 A over 10 ft" in told
    both = given("lamp-wiring", "thick", head_count="2", work_count="2", gauge="14")
    assert "work" in {item.options[0] for item in both.assumed if item.field.name == "circuit"}


def test_where_nothing_is_taxed_no_tax_is_in_the_payment() -> None:
    loan = {"new_price": "$28,000", "loan_rate": "7 %", "loan_months": "60 months"}
    assert "sales tax" not in said("resale", "payments", **loan, tax_rule="exempt")
    # 28,000 at 7 % over 60 months, and 8 % of tax on it at the most.
    assert "About $554 to $599 a month" in said("resale", "payments", **loan)


def test_tines_that_nobody_looked_at_decide_nothing() -> None:
    lawn = {"tool": "spring-tine", "sprinklers": "no", "soil_state": "moist", "slope": "0 %"}
    soft = {**lawn, "front_inflation": "8 psi", "rear_inflation": "8 psi", "loader": "off"}
    assert given("lawn", "tool", **soft).finding == model.WITHIN
    assert given("lawn", "tool", **soft, tine_count="40").finding == model.CLOSE


HUNG = {
    "place": "OH",
    "behind_kind": "mounted",
    "emblem": "yes",
    "implement_bottom": "14 in",
    "transport_width": "66 in",
}


def test_an_emblem_counts_when_all_of_it_is_seen() -> None:
    """Entirely visible from the rear, day and night (Miss. Code 63-7-75 and its like)."""
    top = {**HUNG, "implement_top": "44 in", "implement_marking": "none"}
    hidden = given("road", "emblem", **top, emblem_height="30 in")
    assert hidden.finding == model.OVER and hidden.deciding is not None
    assert hidden.deciding.check.name == "emblem_seen"
    corner = given("road", "emblem", **top, emblem_height="43 in")
    assert corner.finding == model.OVER  # its lower edge is covered
    assert given("road", "emblem", **top, emblem_height="48 in").finding == model.WITHIN
    own = {**top, "implement_marking": "emblem"}
    assert given("road", "emblem", **own, emblem_height="30 in").finding == model.WITHIN
    assert finding(given("road", **top, emblem_height="30 in"), "behind") == model.OVER
    open_ = said("road", "emblem", **HUNG, emblem_height="30 in")
    assert open_.startswith("Yes, and all of it must be seen")


def test_a_way_that_pays_better_is_no_fault_that_nothing_mends() -> None:
    typed = {"as_is_price": "$9,500", "trade_offer": "$9,800", "new_price": "$26,000"}
    typed |= {"parts": "$350", "hours": "4 h", "sales_tax": "6 %", "tax_rule": "difference"}
    told = lines("resale", "repair", **typed, uplift_likely="$1,500", uplift_high="$2,500")
    assert told[0].startswith("Trade it in")
    assert not any("Nothing here mends" in line for line in told)


def test_a_place_that_frees_what_runs_on_its_own_wheels_says_so() -> None:
    """Ohio frees it (road/OH-size); of Georgia no width was read."""
    typed = {"behind_kind": "trailed", "transport_width": "9 ft"}
    ohio = said("road", "width", place="OH", **typed)
    assert ohio.startswith("Not by the law read here, at 9 ft: free when driven or towed")
    assert said("road", "width", place="GA", **typed).startswith("No limit on its own wheels was")


def test_a_bucket_that_hides_the_head_lamps_is_told_where_hidden_lamps_are_asked_of() -> None:
    typed = {"place": "OH", "behind_kind": "none", "bucket": "front"}
    dark = given("road", "hidden", hours="dark", **typed)
    assert dark.finding == model.OVER
    assert leading.lead(dark, "us").startswith("Yes, in front: the bucket")
    assert given("road", "hidden", hours="day", **typed).finding != model.OVER


def test_a_bucket_in_front_is_no_matter_of_what_is_behind() -> None:
    open_ = said("road", "hidden", place="OH", bucket="front", behind_kind="none")
    assert open_.startswith("In front, once it is dark")
    # Nobody said that nothing is behind, and that is what was asked about.
    assert "“Behind the tractor”" in said("road", "hidden", place="OH")
    assert said("road", "hidden", place="OH", implement_top="20 in").startswith("No")


def test_a_drawbar_at_its_limit_does_not_carry_little() -> None:
    """A tenth of the load or more, and no more than the drawbar may carry (road/MAN-8, MAN-9)."""
    load = {"towed_mass": "3,000 lb"}
    at_limit = said("road-towing", "tongue", **load, tongue_weight="500 lb", drawbar_limit="500 lb")
    assert at_limit.startswith("Only just: the drawbar carries 500 lb")
    assert said("road-towing", "tongue", **load, tongue_weight="299 lb").startswith("Little: 299")
    assert said("road-towing", "tongue", **load, tongue_weight="300 lb").startswith(
        "Can't tell yet"
    )


def test_little_on_the_drawbar_is_mended_by_moving_the_load() -> None:
    typed = {"towed_mass": "3,040 lb", "tractor_mass": "4,000 lb", "grade": "0 %"}
    typed |= {"road_speed": "15 mph", "tongue_weight": "50 lb"}
    forward = "Move the load forward until 310 lb rests on the drawbar."
    assert any(forward in line for line in lines("road-towing", "tongue", **typed))
    mended = given("road-towing", "tongue", **{**typed, "tongue_weight": "310 lb"})
    assert finding(mended, "tongue_least") == model.WITHIN
    # Not where the drawbar may not carry that.
    limited = lines("road-towing", "tongue", **typed, drawbar_limit="300 lb")
    assert not any("Move the load forward" in line for line in limited)


def test_who_measured_a_head_has_sprinklers() -> None:
    flags = lines("lawn", "flags", tool="core", head_depth="-0.5 in")
    assert flags[0].startswith("Yes, flag every head and box")
    proud = lines("lawn", "flags", tool="spring-tine", head_depth="-0.5 in")
    assert "0.5 in proud" in proud[0]
    assert not any("-0.5 in, at least" in line for line in proud)


def test_only_what_is_missing_of_a_price_or_a_loan_is_asked_for() -> None:
    worth = {"like_new_price": "$28,000", "age": "8 years"}
    assert said("resale", "worth", **worth) == "Say its hours: the price follows."
    loan = said("resale", "payments", new_price="$25,000", loan_rate="6 %")
    assert loan == "Say the loan's months: the payment follows."
    assert "new today, its age and its hours" in said("resale", "worth")


ALONE = {"tractor_mass": "2,800 lb", "trailer_brakes": "none", "road_speed": "15 mph"}
ALONE |= {"grade": "0 %", "own_deceleration": "3.55 m/s2", "reaction_time": "1.5 s"}


def test_a_tractor_that_does_not_stop_alone_tows_nothing() -> None:
    """v (t + 0.54 s) + v²/2a is 65.7 ft from 15 mph (road/EU-2): no load shortens that."""
    alone = given("road-towing", "heaviest", **ALONE, room="65 ft")
    assert finding(alone, "room") == alone.finding == model.OVER
    assert leading.lead(alone, "us").startswith("Nothing behind this tractor")
    assert finding(given("road-towing", "heaviest", **ALONE, room="67 ft"), "room") != model.OVER


def test_how_fast_is_walking_pace_on_wet_grass_and_ends_with_the_rule() -> None:
    load = {**ALONE, "towed_mass": "2,000 lb"}
    assert said("road-towing", "fastest", **load).startswith("20 mph at most")
    assert said("road-towing", "fastest", **load, surface="wet_grass").startswith("5 mph at most")
    fast = {**load, "road_speed": "21 mph"}
    assert given("road-towing", "fastest", **fast).finding == model.OVER
    assert "you go 21 mph" in said("road-towing", "fastest", **fast)
    at_end = given("road-towing", "fastest", **{**load, "road_speed": "20 mph"})
    assert at_end.finding != model.OVER


def test_there_is_a_speed_for_a_short_room() -> None:
    load = {**ALONE, "towed_mass": "2,000 lb", "room": "20 ft"}
    found = given("road-towing", "stops", **load)
    (slower,) = [r.set["road_speed"] for r in found.advice.remedies if "road_speed" in r.set]
    mph = float(slower.removesuffix(" mph"))
    assert mph < 15 / 2.5  # however much slower that is
    for speed, finds in ((mph, False), (mph + 0.5, True)):
        then = given("road-towing", "stops", **{**load, "road_speed": f"{speed} mph"})
        assert (finding(then, "room") == model.OVER) is finds


def test_a_tractor_of_a_metric_country_is_no_hair_faster_than_its_rule() -> None:
    """Ontario: the emblem up to 40 km/h; what is 25 mph in one country is 40 km/h there."""
    missing = given("road", "emblem", place="CANADA-ON", emblem="no")
    assert missing.finding == model.OVER
    faster = given("road", "emblem", place="CANADA-ON", emblem="no", top_speed="41 km/h")
    assert finding(faster, "emblem") == ""


def test_nobody_is_asked_for_the_sign_that_he_said_is_missing() -> None:
    typed = {"place": "CA", "top_speed": "32 mph", "road_speed": "20 mph", "speed_symbol": "no"}
    assert said("road", "symbol", **typed).endswith("the emblem goes with a speed sign.")
