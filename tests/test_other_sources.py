"""Where sources disagree, every page says so, and what the others would have said."""

import pytest

from calc import model, search, sources, tables, worksheets
from calc.subjects import other_sources

# What a page shows by itself, worked out for the machine at hand: the title of a table, or the
# beginning of a note.
OWN = {
    "ballast": "What the different rules say of this machine",
    "cab": "With the test climate's sun",
    "drive": "What the other figures for the losses give",
    "driveline": "What each maker's rule says of this driveline",
    "lawn": "Taken as “inflation alone”",
    "pairing": "Other rules for the front axle",
    "pto": "What the altitude rules leave here",
    "resale": "Sources disagree",
    "road-towing": "What the printed rules allow",
    "rollout": "What other windows say",
    "tires": "What other windows say",
}
ROWS = tables.rows("words/other_sources")


# Where the example leaves out what the sources disagree about.
ASKED = {"resale": {"age": "10 yr", "hour_meter": "3000 h", "like_new_price": "$30,000"}}


def cited(keys):
    return [sources.find(key.strip()) for key in keys.split(";")]


def shown(name):
    advice = search.answer(worksheets.load(name), ASKED.get(name, {}), example=True).advice
    notes = [note if isinstance(note, str) else note.text() for note in advice.notes]
    return [table.title for table in advice.tables], notes


@pytest.mark.parametrize("name", worksheets.names())
def test_every_page_shows_what_other_sources_say(name):
    titles, notes = shown(name)
    if name in OWN:
        said = [text for text in (*titles, *notes) if text.startswith(OWN[name])]
        assert said and other_sources.TITLE not in titles
    else:
        assert titles.count(other_sources.TITLE) == 1


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["about"])
def test_a_difference_names_both_sides(row):
    assert row["worksheet"] in worksheets.names()
    assert cited(row["used_source"])
    assert row["why"] and row["used"]
    assert bool(row["others"]) == bool(row["others_source"])
    if row["others"]:
        assert cited(row["others_source"])


def test_quantities_stand_in_the_readers_units():
    table = other_sources.differences("road")
    used = table.rows[0][1]
    assert used.text("us").startswith("Lower edge 2 ft to 10 ft")
    assert " m " in used.text("metric")


def test_what_no_other_source_says_is_said():
    assert [row[3].text() for row in other_sources.differences("duals").rows] == [
        other_sources.NONE_READ
    ]
    assert isinstance(other_sources.differences("duals"), model.Table)
