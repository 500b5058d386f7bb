"""What pages draw from the package: tables and numbers for prose."""

import pytest

from calc.render import facts, tables
from calc.render._found import offered


@pytest.mark.parametrize("name", sorted(offered(tables.__name__, "TABLES")))
def test_table_is_whole(name: str) -> None:
    view = tables.table(name)
    assert view.caption and view.rows
    assert all(len(row) == len(view.columns) for row in view.rows)
    assert all(isinstance(cell, str) for row in view.rows for cell in row)
    assert "<table" in str(tables.html(view))


@pytest.mark.parametrize("name", sorted(offered(facts.__name__, "FACTS")))
def test_fact_is_a_short_text(name: str) -> None:
    said = facts.fact(name)
    assert said.strip() and len(said) < 80
