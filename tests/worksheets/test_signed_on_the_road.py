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
