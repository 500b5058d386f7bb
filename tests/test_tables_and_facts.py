"""What pages draw from the package: tables and numbers for prose."""

import pytest

from calc.render import facts, tables
from calc.render.facts import _makers as fact_makers
from calc.render.tables import _makers as table_makers


@pytest.mark.parametrize("name", sorted(table_makers()))
def test_table_is_whole(name: str) -> None:
    view = tables.table(name)
    assert view.caption and view.rows
    assert all(len(row) == len(view.columns) for row in view.rows)
    assert all(isinstance(cell, str) for row in view.rows for cell in row)
    assert "<table" in str(tables.html(view))


@pytest.mark.parametrize("name", sorted(fact_makers()))
def test_fact_is_a_short_text(name: str) -> None:
    said = facts.fact(name)
    assert said.strip() and len(said) < 80
