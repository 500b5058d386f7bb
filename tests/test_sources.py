"""Every source once; every citation in a table leads to one."""

from pathlib import Path

import pytest

from calc import sources, tables

FOLDER = Path(tables.__file__).parent
SHELVES = sorted(p.stem for p in (FOLDER / "sources").glob("*.csv"))
TABLES = sorted(
    f"{p.parent.name}/{p.stem}" for p in FOLDER.glob("*/*.csv") if p.parent.name != "sources"
)
# Tables whose source column holds words of its own kind, explained beside it.
# Joins rows of other tables and holds no value of its own; or counts rows that name theirs.
LINKS_ONLY = {"power/pto_kinds", "words/published_checks"}
OWN_WORDS = {
    "words/units",
    "words/kinds",
    "words/questions",
    "words/lexicon",
    "words/small_words",
    "words/cues",
    "words/asked",
    "words/instead",
    "words/beside",
    "words/common_words",
    "words/spoken_units",
    "machines/demo_tractors",
    "machines/demo_implements",
    "tires/tire_dimensions",
}


@pytest.mark.parametrize("name", SHELVES)
def test_shelf_is_whole(name):
    shelf = sources.shelf(name)
    assert shelf
    for source in shelf.values():
        assert source.title and source.status in sources.STATUS_WORDS
    keys = [row["key"] for row in tables.rows(f"sources/{name}")]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize("name", TABLES)
def test_table_names_its_sources(name):
    rows = tables.rows(name)
    assert rows
    if name in LINKS_ONLY:
        return
    columns = [c for c in rows[0] if c and (c == "source" or c.endswith("_source"))]
    assert columns or name == "road/state_road_rules", f"{name} has no source column"
    for number, row in enumerate(rows, 2):
        assert None not in row, f"{name}, line {number}: more cells than columns"
        if name in OWN_WORDS:
            continue
        for column in columns:
            for citation in (row[column] or "").split(";"):
                if citation.strip():
                    sources.find(citation)


@pytest.mark.parametrize("bad", ["hitch/NO", "nowhere/H1", "", "H1"])
def test_unknown_citation(bad):
    with pytest.raises(LookupError):
        sources.find(bad)


def test_place_is_split_off():
    source, place = sources.find("hitch/S5, clause 6.3")
    assert source.key == "S5" and place == "clause 6.3"


MOST_FROM_MEMORY = {"hitch": 72, "power": 74, "tires": 120, "road": 23, "value": 20}


def test_the_count_of_what_is_from_memory_goes_down_only():
    """A value that is read in a source leaves the count; none may join it unseen."""
    from calc.render.tables import memory

    counts = {shelf: found["memory"] for shelf, found in memory.statuses().items()}
    for shelf, most in MOST_FROM_MEMORY.items():
        assert counts[shelf] <= most
    shown = memory.counted().rows
    assert [int(row[-1].replace(",", "")) for row in shown] == list(counts.values())
