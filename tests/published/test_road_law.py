"""State road rules against the texts that they were read from, each just inside and outside."""

import pytest

from calc import model, search, tables, worksheets
from calc.mechanics import road_rules, smv_emblem
from tests.published.rows import published
from tests.worksheets.asking import findings

SHEET = worksheets.load("road")
FT, IN, MPH = 0.3048, 0.0254, 0.44704
TRACTOR = {
    "tractor_width": 5 * FT,
    "width": 5 * FT,
    "speed": 18 * MPH,
    "made": 1960.0,
    "tail_lamps": 2.0,
}


S276_HIGHEST = 10  # ft


def ends(place):
    """The window of the emblem's lower edge. [ft]"""
    return [end / FT for end in smv_emblem.emblem_window(place)]


def needed(place, item, unit="tractor", **facts):
    """What binds there, as the largest count; 0 when nothing does."""
    found = road_rules.needs(place, {**TRACTOR, **facts})
    rules = [r for n in found if (n.unit, n.item) == (unit, item) for r in n.rules]
    return max((r.count or 1 for r in rules if r.basis in ("law", "memory")), default=0)


def asked(**typed):
    return search.answer(SHEET, {"behind_kind": "none", **typed}, example=True)


@pytest.mark.parametrize(
    ("place", "low", "high"),
    [
        ("AL", 3, 5),  # Ala. Code 32-5-247 (2006): lowest part 3 to 5 ft
        ("MT", 3, 5),  # MCA 61-9-415: 3 to 5 ft above the road
        ("NM", 2, 5),  # NMSA 66-3-887: 2 to 5 ft above ground
        ("MS", 2, 6),  # Miss. Code 63-7-91 (2021): about 2 to 6 ft
        ("KY", 3, 10),  # KRS 189.820(3) (2022): at least 3 ft; no upper limit, so S276's 10 ft
    ],
)
def test_height_of_the_emblem(place, low, high):
    rule = smv_emblem.emblem_rule(place)
    assert rule is not None
    for end, feet, ours in zip(("lowest", "highest"), (low, high), ends(place), strict=True):
        cited = rule.source if feet != S276_HIGHEST else "road/EXT-2"
        given = f"{place}: {end} lower edge of the emblem"
        published(smv_emblem.emblem_window, given, feet, ours, 1e-6, "whole feet", cited, unit="ft")
    for feet, right in ((low, True), (low - 0.02, False), (high, True), (high + 0.02, False)):
        found = findings(asked(place=place, emblem_height=f"{feet} ft"))
        assert (found["emblem_height"] != model.OVER) is right, (place, feet)


@pytest.mark.parametrize(
    ("place", "year", "item"),
    [
        ("WY", 1974, "head_lamps"),  # W.S. 31-5-921(b) (2022): made after 1974-01-01, always
        ("ND", 1980, "head_lamps"),  # N.D.C.C. 39-21-15 (2022): made after 1980-01-01, always
        ("NV", 1970, "head_lamps"),  # NRS 484D.170(2): made after 1970-01-01, always
        ("NV", 1970, "amber_flashers"),  # NRS 484D.170(1): hazard lamps whenever on a highway
        ("TX", 1972, "amber_flashers"),  # Tex. Transp. Code 547.371, from memory
        ("WA", 1970, "amber_flashers"),  # RCW 46.37.160, from memory
        ("FL", 1972, "amber_flashers"),  # Fla. Stat. 316.2295, by two secondary pages
    ],
)
def test_lamps_by_day_from_a_year_on(place, year, item):
    def by_day(made):
        found = road_rules.needs(place, {**TRACTOR, "made": float(made)}, by_day=True)
        return any(
            need.item == item and any(r.basis in ("law", "memory") for r in need.rules)
            for need in found
        )

    assert by_day(year)
    assert not by_day(year - 1)


def test_ohio_holds_machines_from_2002_to_the_standard():
    # ORC 4513.111 (HB 484) as explained by OSU, 2001: model year 2002 and later.
    typed = {"place": "OH", "turn_signals": "0"}
    assert findings(asked(**typed, tractor_made="2002"))["turn_signals"] == model.OVER
    assert "turn_signals" not in findings(asked(**typed, tractor_made="2001"))


def test_ohio_asks_an_older_tractor_for_one_head_lamp():
    # ORC 4513.11 as explained in 2001: one white head lamp seen 1000 ft.
    assert needed("OH", "head_lamps") == 1
    one = asked(place="OH", head_lamps="1", tractor_made="1995")
    assert findings(one)["head_lamps"] != model.OVER
    none = asked(place="OH", head_lamps="0", tractor_made="1995")
    assert findings(none)["head_lamps"] == model.OVER


def test_ohio_dual_wheels():
    # ORC 4513.111 as explained by OSU 2001: within 16 in, 3.3 to 12 ft above ground, any age.
    found = road_rules.needs("OH", {**TRACTOR, "duals": 1.0})
    rules = [r for n in found if n.item == "amber_flashers" for r in n.rules if r.basis == "law"]
    assert [r.edge for r in rules] == [pytest.approx(16 * IN)]
    assert rules[0].height_low == pytest.approx(3.3 * FT)
    assert rules[0].height_high == pytest.approx(12 * FT)
    assert not needed("OH", "amber_flashers")


@pytest.mark.parametrize(
    ("place", "item", "inches"),
    [
        ("FL", "special_order", 130),  # Fla. Stat. 316.515(5) (2008): up to 130 in wide
        ("MS", "special_order", 120),  # Miss. Code (2021): 10 ft, attachments included
        ("AK", "pilot", 144),  # AS 19.10.065 (2022): over 12 ft a pilot car in front
        ("WY", "pilot", 192),  # W.S. 31-18-802 (2022): up to 16 ft wide no escort
        ("WY", "daylight", 102),  # the same: 102 in in general, wider by day
        ("ID", "daylight", 102),  # Idaho Code 49-1010(1) (2022): over 8.5 ft in daylight
        ("ID", "flags", 102),  # the same: a flag at the outermost left
        ("AR", "daylight", 102),  # press on Arkansas law (2008): wider than 102 in in daylight
        ("SD", "daylight", 102),  # SDCL 32-22-2: wider not in the dark on the trunk system
    ],
)
def test_what_a_width_brings_with_it(place, item, inches):
    assert not needed(place, item, width=inches * IN)
    assert needed(place, item, width=(inches + 1) * IN)


@pytest.mark.parametrize(
    ("place", "inches", "check", "field"),
    [("AK", 145, "escort", "escort"), ("MS", 121, "permit", "permit")],
)
def test_an_escort_and_a_permit_are_checks_with_a_remedy(place, inches, check, field):
    typed = {"place": place, "tractor_width": f"{inches} in", "hours": "day"}
    found = asked(**typed)
    assert findings(found)[check] == model.OVER
    assert any(check in remedy.mends for remedy in found.advice.remedies)
    assert findings(asked(**typed, **{field: "yes"}))[check] != model.OVER
    assert check not in findings(asked(**{**typed, "tractor_width": f"{inches - 2} in"}))


@pytest.mark.parametrize(
    ("place", "unit", "item", "facts"),
    [
        # W.S. 31-5-921(c) (2022): more than 4 ft behind the tractor, a red lamp of its own
        ("WY", "towed", "tail_lamps", {"behind": 4.01 * FT}),
        # NRS 484D.170(3): two red reflectors at its rear
        ("NV", "towed", "rear_reflectors", {"behind": 4.01 * FT}),
        # W.S. 31-5-921(c), NRS 484D.170(3): more than 4 ft left, amber to the front
        ("WY", "towed", "left_marker", {"behind": 3 * FT, "left": 4.01 * FT}),
        ("NV", "towed", "left_marker", {"behind": 3 * FT, "left": 4.01 * FT}),
    ],
)
def test_four_feet_behind_or_to_the_left(place, unit, item, facts):
    assert needed(place, item, unit, **facts)
    inside = {name: min(value, 4 * FT) for name, value in facts.items()}
    assert not needed(place, item, unit, **inside)


def test_south_dakota_wants_a_flashing_lamp_in_the_dark():
    # SDCL 32-17-46 (2019): a flashing or rotating white or amber light at night.
    assert needed("SD", "amber_flashers") == 1
    by_day = road_rules.needs("SD", TRACTOR, by_day=True)
    assert not any(r.basis == "law" for n in by_day if n.item == "amber_flashers" for r in n.rules)


def test_delaware_one_red_lamp_needs_two_reflectors():
    # 21 Del. C. 4345: two red lamps, or one and two red reflectors.
    assert needed("DE", "rear_reflectors", tail_lamps=1.0) == 2
    assert not needed("DE", "rear_reflectors", tail_lamps=2.0)


@pytest.mark.parametrize("row", tables.rows("road/road_places"), ids=lambda row: row["place"])
def test_every_state_has_a_rule_that_was_read(row):
    if row["country"] == "US":
        assert road_rules.has_own_rules(row["place"])


@pytest.mark.parametrize(
    ("place", "built", "driven", "duty"),
    [
        ("AL", 25, 20, True),  # Ala. Code 32-5-246: can do no more than 25 mph, and every tractor
        ("WY", 25, 20, True),  # W.S. 31-5-921(d): designed for 25 mph or less
        ("RI", 25, 20, True),  # R.I.G.L. 31-23-47: designed for 25 mph or less
        ("RI", 26, 20, False),
        ("WV", 26, 20, False),  # W. Va. C.S.R. 91-11-4: designed for 25 mph or less
        ("ND", 26, 20, False),  # N.D.C.C. 39-21-50: designed for 25 mph or less
        ("TX", 26, 20, False),  # Tex. Transp. Code 547.001(7): designed for 25 mph or less
        ("KY", 26, 20, False),  # KRS 189.810: able to do no more than 25 mph
        ("MT", 25, 25, False),  # MCA 61-9-415: normally used below 25 mph
        ("MT", 25, 24, True),
        ("MT", 30, 24, True),
        ("NM", 25, 25, False),  # NMSA 66-3-887: ordinarily moved below 25 mph
        ("NM", 30, 24, True),
        ("OR", 25, 25, False),  # ORS 815.110: customary use below 25 mph
        ("OR", 30, 24, True),
        ("WI", 25, 25, False),  # Wis. Stat. 347.245: usually travels below 25 mph
        ("WI", 30, 24, True),
        ("MN", 30, 30, True),  # Minn. Stat. 169.522: designed for 30 mph or less
        ("MN", 31, 30, False),
        ("IL", 30, 30, True),  # 625 ILCS 5/12-709: every farm tractor on a highway
        ("NY", 30, 30, True),  # with the speed symbol above 25 and below 40 mph
        ("NY", 40, 30, False),
    ],
)
def test_whose_law_wants_an_emblem_at_which_speed(place, built, driven, duty):
    of, source = smv_emblem.emblem_by_law, smv_emblem.emblem_rule(place).source
    ours = "yes" if of(place, built * MPH, driven * MPH) else "no"
    given = f"an emblem in {place}, built for {built} mph, driven at {driven} mph"
    published(of, given, "yes" if duty else "no", ours, 0, "yes or no", source)
    speeds = {"top_speed": f"{built} mph", "road_speed": f"{driven} mph"}
    found = asked(place=place, emblem="no", amber_flashers="0", **speeds)
    assert (findings(found).get("emblem") == model.OVER) is duty


@pytest.mark.parametrize(
    ("place", "instead"),
    # N.D.C.C. 39-21-50, NMSA 66-3-887, O.C.G.A. 40-8-4: an amber light or strobe may stand in;
    # Ala. Code 32-5-246 and W.S. 31-5-921 know no such thing
    [("ND", True), ("NM", True), ("GA", True), ("AL", False), ("WY", False)],
)
def test_an_amber_light_instead_of_the_emblem(place, instead):
    lit = asked(place=place, emblem="no", amber_flashers="2")
    assert (findings(lit)["emblem"] != model.OVER) is instead
    assert findings(asked(place=place, emblem="no", amber_flashers="0"))["emblem"] == model.OVER
