"""What pages draw from the package: tables and numbers for prose."""

import re

import pytest

from calc import sources
from calc.render import facts, tables
from calc.render._found import offered
from calc.render.tables.memory import SHELVES


@pytest.mark.parametrize("name", sorted(offered(tables.__name__, "TABLES")))
def test_table_is_whole(name: str) -> None:
    view = tables.table(name)
    assert view.caption and view.rows
    assert all(len(row) == len(view.columns) for row in view.rows)
    assert all(isinstance(cell, str) for row in view.rows for cell in row)
    html = str(tables.html(view, name))
    assert "<table" in html
    marks = set(re.findall(rf'href="#(table-{name}-note-\d+)"', html))
    assert marks == set(re.findall(r'<li id="([^"]+)"', html))


KEYS = {source.key for shelf in SHELVES for source in sources.shelf(shelf).values()}
# What a source is called here is also what a tread, a thread, a rim or a kind of figure is called.
WORDS = set(
    ["R-1", "R-1W", "R-2", "R-3", "R-4", "F-1", "F-2", "F-3", "M8", "M10", "M14", "W9", "practice"]
)


@pytest.mark.parametrize("name", sorted(offered(tables.__name__, "TABLES")))
def test_table_names_its_sources_and_shows_no_key_of_them(name: str) -> None:
    html = str(tables.html(tables.table(name), name))
    cells = re.findall(r"<t[dh][^>]*>(.*?)</t[dh]>", html)
    shown = [re.sub(r"<sup.*?</sup>|<[^>]+>", "", cell) for cell in cells]
    parts = {part.strip() for cell in shown for part in re.split("[;,]", cell)}
    assert not (parts & KEYS) - WORDS


@pytest.mark.parametrize("name", sorted(offered(facts.__name__, "FACTS")))
def test_fact_is_a_short_text(name: str) -> None:
    said = facts.fact(name)
    assert said.strip() and len(said) < 80
