"""Road rules by place: properties, own examples, and one test for each known trap."""

import inspect

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import sources, tables
from calc.mechanics import (
    road_limits,
    road_rules,
    smv_emblem,
)

FOOT, INCH, MPH = 0.3048, 0.0254, 0.44704


PLAIN = {
    "tractor_width": 1.5,
    "implement_width": 1.6,
    "width": 1.6,
    "left": 0.8,
    "right": 0.8,
    "reach": 0.8,
    "behind": 1.0,
    "length": 5.0,
    "speed": 8.0,
    "made": 2015.0,
}


def wanted(place, **changes):
    return {(need.unit, need.item): need for need in road_rules.needs(place, {**PLAIN, **changes})}


# --- the rules ------------------------------------------------------------------------------------


def test_every_row_of_the_rule_tables_can_be_read_and_cites_a_source():
    items = {row["item"] for row in tables.rows("road/road_items")}
    facts = set(inspect.getdoc(road_rules).replace(",", " ").split())
    for row in tables.rows("road/road_requirements"):
        assert row["item"] in items
        sources.find(row["source"])
        for fact, _, _ in road_rules._clauses(row["when"]):
            assert fact in facts or fact.startswith("hides_"), row
    known = {row["place"] for row in tables.rows("road/road_places")}
    known |= {"US-STD", "US-FED", "US-UVC"}
    assert {row["place"] for row in tables.rows("road/road_requirements")} <= known
    for name in (
        "road/emblem_rules",
        "road/road_widths",
        "road/road_speed_limits",
        "road/lamp_hours",
    ):
        for row in tables.rows(name):
            sources.find(row["source"])


def test_every_state_rule_keeps_year_citation_and_confidence():
    for row in tables.rows("road/state_road_rules"):
        assert row["citation"]
        assert row["year"]
        assert row["confidence"] in ("high", "medium", "low")
        sources.find(row["source"])


@pytest.mark.parametrize("row", tables.rows("road/road_places"), ids=lambda row: row["place"])
def test_every_place_has_an_answer(row):
    assert road_rules.needs(row["place"], PLAIN)
    use, _ = smv_emblem.emblem_use(row["place"], 8.0)
    assert use in ("show", "none")


@given(
    st.sampled_from([row["place"] for row in tables.rows("road/road_places")]),
    st.floats(1, 5),
    st.floats(1, 5),
    st.floats(0.1, 2),
)
def test_a_wider_machine_never_needs_less(place, narrow, behind, more):
    def items(width):
        found = wanted(
            place,
            tractor_width=width,
            implement_width=width,
            width=width,
            left=width / 2,
            right=width / 2,
            reach=width / 2,
            behind=behind,
        )
        return {key: need.count for key, need in found.items()}

    before, after = items(narrow), items(narrow + more)
    assert all(after.get(key, 0) >= count for key, count in before.items())


def test_nothing_behind_asks_for_nothing_behind():
    assert not [unit for unit, _ in wanted("KS", behind=0.0) if unit == "towed"]


def test_rotary_cutter_example():
    feet = {"implement_width": 7 * FOOT, "left": 3.5 * FOOT, "right": 3.5 * FOOT}
    found = wanted("TX", **feet, reach=3.5 * FOOT, behind=6 * FOOT)
    assert ("towed", "rear_reflectors") in found
    assert ("towed", "left_front_strip") not in found
    assert ("towed", "amber_flashers") not in found
    found = wanted("TX", left=4.5 * FOOT, right=2.5 * FOOT, reach=4.5 * FOOT, behind=6 * FOOT)
    assert ("towed", "left_front_strip") in found


def test_repeating_what_is_hidden():
    found = wanted("TX", hides_tail=1.0, hides_amber=1.0, hides_turn=1.0)
    for item in ("tail_lamps", "amber_flashers", "turn_signals"):
        assert ("towed", item) in found
    assert smv_emblem.emblem_on_towed("IL", True, 1.0, 2000) is not None
    assert smv_emblem.emblem_on_towed("IL", False, 1.0, 2000) is None
    assert smv_emblem.emblem_on_towed("NY", False, 1.0, 2000) is not None
    assert smv_emblem.emblem_on_towed("UK", True, 1.0, 2022) is None


def test_a_base_at_4_to_5_ft_satisfies_every_rule():
    low, high = smv_emblem.emblem_height_for_all()
    assert (low, high) == pytest.approx((4 * FOOT, 5 * FOOT))
    assert smv_emblem.emblem_fails(low) == smv_emblem.emblem_fails(high) == []


def test_center_line():
    assert road_limits.over_center_line(10 * FOOT, 10 * FOOT) == 0
    assert road_limits.over_center_line(12 * FOOT, 10 * FOOT, 1 * FOOT) == pytest.approx(1 * FOOT)


def test_an_unknown_place_is_refused():
    with pytest.raises(LookupError):
        road_rules.needs("ATLANTIS", PLAIN)
    with pytest.raises(LookupError):
        smv_emblem.emblem_window("UK")


# --- traps ----------------------------------------------------------------------------------------


def test_trap_federal_rule_binds_makers_of_new_machines_only():
    assert not road_rules.standard_binds("TX", 2010, True)
    assert not road_rules.standard_binds("TX", 2017.3, True)
    assert road_rules.standard_binds("TX", 2017.5, True)
    assert not road_rules.standard_binds("TX", 2020, False)
    # An old tractor still owes the lamps that its state asks for.
    old = wanted("KS", made=1980.0)
    assert old["tractor", "amber_flashers"].basis == "law"


def test_trap_night_is_not_one_thing():
    texts = {row["text"] for row in tables.rows("road/lamp_hours")}
    assert len(texts) >= 4
    assert wanted("KS")["tractor", "amber_flashers"].hours == "any"
    # Ontario starts half an hour before sunset, New York half an hour after.
    rows = tables.by_key("road/lamp_hours", "place")
    assert "before sunset" in rows["CANADA-ON"]["text"]
    assert "after sunset" in rows["NY"]["text"]


def test_trap_old_emblem_height_is_still_law():
    height = 7 * FOOT
    assert "US-STD" not in smv_emblem.emblem_fails(height)
    assert {"NE", "WA", "CO", "NY"} <= set(smv_emblem.emblem_fails(height))


def test_trap_the_same_machine_carried_on_a_trailer():
    assert road_limits.width_rule("OH").maximum is None
    assert road_limits.carried_width("OH")[0] == pytest.approx(8.5 * FOOT)
    assert ("towed", "daylight") in wanted("IA", carried=1.0)
    assert ("towed", "daylight") not in wanted("IA", on_wheels=1.0)


def test_trap_editions():
    assert road_limits.width_rule("PA").maximum == pytest.approx(18 * FOOT)
    assert "16 ft in an older text" in road_limits.width_rule("PA").note
    assert smv_emblem.emblem_use("IA", 33 * MPH)[0] == "show"
    assert smv_emblem.emblem_on_towed("TX", False, 1.0, 2018) is None
    assert smv_emblem.emblem_on_towed("TX", False, 1.0, 2020) is not None


def test_trap_uk_12_mph_starts_at_three_and_a_half_meters_exactly():
    assert road_limits.road_speed_limit("UK", 3.5)[0] == pytest.approx(12 * MPH)
    assert road_limits.road_speed_limit("UK", 3.4999)[0] == pytest.approx(20 * MPH)
    assert road_limits.road_speed_limit("UK", 2.55)[0] == pytest.approx(25 * MPH)


def test_trap_exactly_12_ft_wide_carries_the_lamps():
    assert wanted("TX", tractor_width=12 * FOOT)["tractor", "amber_flashers"].edge is not None
    assert wanted("TX", implement_width=144 * INCH)["towed", "amber_flashers"].count == 2
