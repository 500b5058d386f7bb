"""How an answer is drawn and worded, whatever its subject."""

import itertools
import re

import pytest

from calc import model, search, worksheets
from calc.model import sentences
from calc.model.pictures import Bar, Bars
from calc.render import answer as rendered
from calc.render import svg

TEXT_AT = re.compile(r'<text x="([-.0-9]+)" y="([-.0-9]+)" text-anchor="middle"[^>]*>([^<]*)<')
NARROW = 6.0  # drawing's units for a letter: less than any that is drawn


def axis(html):
    """The labels in the lowest line of a picture, each with the place of its middle."""
    found = [(float(x), float(y), text) for x, y, text in TEXT_AT.findall(html)]
    foot = max(y for _, y, _ in found)
    return sorted((x, text) for x, y, text in found if y == foot)


@pytest.mark.parametrize(
    ("kind", "unit", "high"),
    [
        ("power", "Btu/h", 1421.0),
        ("power", "Btu/h", 1758.0),
        ("current", "A", 29.5),
        ("money", "$", 80_000.0),
        ("distance", "ft", 43.0),
        ("fraction", "%", 0.055),
    ],
)
def test_numbers_under_bars_stand_apart(kind, unit, high):
    drawn = str(svg.draw(Bars("Heat", "Of it", kind, [Bar("All", high)], unit_us=unit), "us"))
    labels = axis(drawn)
    assert len(labels) >= 2
    for (left, first), (right, second) in itertools.pairwise(labels):
        assert right - left > NARROW * (len(first) + len(second)) / 2 + NARROW


def test_a_caption_is_a_sentence():
    bars = [Bar("All", 1.0)]
    for said in ("Of it", "Of it."):
        drawn = str(svg.draw(Bars("Heat", said, "mass", bars), "us"))
        assert ">Heat. Of it.</figcaption>" in drawn


def found(name, ask, **typed):
    return search.answer(worksheets.load(name), typed, ask=ask)


def why(answer):
    part = re.search(r'<p class="ys-why">(.*?)</p>', rendered.answer_html(answer))
    return part[1].strip() if part else ""


def test_what_a_limit_prevents_is_told_as_what_is_at_stake_until_it_is_broken():
    near = found("driveline", "joints", series="na2", pto_speed="540 rpm", pto_power="25 hp")
    assert near.finding in (model.CLOSE, model.UNKNOWN)
    assert why(near).startswith(rendered.STAKES)
    over = found("driveline", "joints", series="na2", pto_speed="540 rpm", pto_power="90 hp")
    assert over.finding == model.OVER
    assert why(over)
    assert not why(over).startswith(rendered.STAKES)


def test_a_reason_that_the_lead_has_told_is_not_told_again():
    soft = found("cab", "can", cab_kind="soft")
    assert soft.finding == model.OVER
    assert soft.deciding.check.why
    assert why(soft) == ""


def test_what_was_not_checked_names_the_field_that_it_needs():
    answer = found("lamp-wiring", "wire", circuit="work", work_count="2", run="15 ft")
    html = rendered.answer_html(answer)
    for item in answer.unchecked:
        if item.governs:
            label = answer.worksheet.field(item.field).label
            assert f"It needs “{label}”. " in html.replace("&#39;", "'")


def test_an_empty_field_shows_what_a_blank_means_and_asks_for_what_can_be_typed():
    sheet = worksheets.load("tires")
    field = sheet.field("new_front_tire")
    assert sentences.hint(field, {}, "us") == "blank: the fronts stay"
    assert field.read(field.such_as) is not None


def test_every_way_to_write_a_field_is_one_that_it_takes():
    shown = 0
    for sheet in map(worksheets.load, worksheets.names()):
        for item in sheet.fields:
            if isinstance(item, model.Entry) and item.such_as:
                assert item.read(item.such_as) is not None, item.name
                shown += 1
    assert shown >= 5


@pytest.mark.parametrize(
    ("depth", "said"),
    [("-0.5 in", "0.5 in proud"), ("0 in", "flush"), ("0.5 in", "0.5 in below the soil")],
)
def test_a_head_stands_proud_flush_or_below(depth, said):
    answer = found("lawn", "flags", tool="spring-tine", sprinklers="yes", head_depth=depth)
    assert said in rendered.answer_html(answer)


def test_a_point_in_the_ground_is_clear_by_nothing():
    sizes = {"link_high": "33 in", "link_low": "9 in", "bracket_height": "30 in"}
    boom = {"boom_length": "62 in", "yoke_distance": "30 in", "yoke_rise": "8 in"}
    answer = found("digger", "clears", **sizes, **boom, auger_length="54 in")
    assert answer.output("tip_clearance").value < 0
    lead = rendered.leading.lead(answer, "us")
    assert "nothing is left under the point" in lead
    assert "-" not in lead
