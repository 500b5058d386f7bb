"""The pages on drives, cab cooling and lawn implements: every number they ask for is there."""

import re
from pathlib import Path

import pytest

from calc.render import facts, tables
from calc.render.facts import cab as cab_facts
from calc.render.facts import drive as drive_facts
from calc.render.facts import lawn as lawn_facts
from calc.render.tables import cab as cab_tables
from calc.render.tables import drive as drive_tables
from calc.render.tables import lawn as lawn_tables

DOCS = Path(__file__).parents[2] / "docs"
PAGES = {
    "drive": ("buy/hydrostatic-or-gear.md", drive_facts.FACTS, drive_tables.TABLES),
    "cab": ("fit/cab-cooling.md", cab_facts.FACTS, cab_tables.TABLES),
    "lawn": ("lawn/lawn-implements.md", lawn_facts.FACTS, lawn_tables.TABLES),
}


@pytest.fixture(params=PAGES)
def page(request: pytest.FixtureRequest) -> tuple[str, str]:
    return request.param, (DOCS / PAGES[request.param][0]).read_text(encoding="utf-8")


def test_every_number_asked_for_is_there(page: tuple[str, str]) -> None:
    asked = re.findall(r"\{\{ value (\S+) \}\}", page[1])
    assert len(asked) > 10
    for name in asked:
        assert re.search(r"\d", facts.fact(name)), name


def test_every_fact_is_used(page: tuple[str, str]) -> None:
    asked = set(re.findall(r"\{\{ value (\S+) \}\}", page[1]))
    assert set(PAGES[page[0]][1]) <= asked


def test_every_table_is_filled(page: tuple[str, str]) -> None:
    for name in PAGES[page[0]][2]:
        view = tables.table(name)
        assert view.rows and view.caption
        assert all(len(row) == len(view.columns) for row in view.rows), name


def test_page_is_built_as_pages_are(page: tuple[str, str]) -> None:
    name, text = page
    assert text.startswith("# ") and text.splitlines()[0].endswith("?")
    assert f"::: worksheet {name}" in text
    heads = re.findall(r"^## (.+)$", text, re.M)
    for wanted in (
        "What governs",
        "How to measure it on your machine",
        "A worked example",
        "The usual mistakes",
        "Cautions",
        "Sources",
    ):
        assert wanted in heads, wanted
