"""The published checks' rows, the page that shows them, and what they concern."""

import re
from html import unescape

import pytest

from calc import sources, tables
from calc.mechanics import lift
from calc.render import facts
from scripts import checks, embeds, markdown_ext, reach
from tests.published import rows


@pytest.fixture
def noted(monkeypatch: pytest.MonkeyPatch) -> list[rows.Row]:
    found: list[rows.Row] = []
    monkeypatch.setattr(rows, "ROWS", found)
    return found


def compare(printed: float | str, ours: float | str, tolerance: float) -> None:
    why = "printed to a tenth"
    rows.published(lift.capacity_at, "10 lb", printed, ours, tolerance, why, "hitch/H13")


def test_a_number_within_its_tolerance_is_noted(noted: list[rows.Row]) -> None:
    compare(17.5, 17.54, 0.05)
    assert [(row.of, row.published, row.ours) for row in noted] == [
        ("mechanics.lift.capacity_at", "17.5", "17.54")
    ]


@pytest.mark.parametrize(
    ("printed", "ours", "tolerance"),
    [(17.5, 17.551, 0.05), (17.5, 17.449, 0.05), ("red", "amber", 0)],
)
def test_a_number_too_far_off_is_refused(
    noted: list[rows.Row], printed: float | str, ours: float | str, tolerance: float
) -> None:
    with pytest.raises(AssertionError, match="printed to a tenth"):
        compare(printed, ours, tolerance)
    assert not noted


def test_a_source_that_there_is_not_is_refused(noted: list[rows.Row]) -> None:
    with pytest.raises(LookupError):
        rows.published(lift.capacity_at, "x", 1, 1, 0, "exact", "hitch/NOT")


def test_the_file_holds_what_a_run_notes() -> None:
    one = "tests/published/test_lift.py"
    passed, found = checks.run([one])
    assert passed
    assert found == [row for row in checks.kept() if row["test"].startswith(one)]


def test_each_row_names_a_test_that_there_is() -> None:
    for row in checks.kept():
        file, _, name = row["test"].partition("::")
        assert f"def {name}(" in (checks._setup.ROOT / file).read_text(encoding="utf-8"), row


def test_the_page_shows_each_row_of_the_file() -> None:
    page = checks.table_html(lambda name: f"../{name}/")
    shown = re.findall(r'<tr data-page="([^"]*)" data-source="([^"]*)">(.*?)</tr>', page)
    kept = checks.kept()
    assert len(shown) == len(kept) > 0
    for (pages, source, cells), row in zip(shown, kept, strict=True):
        assert unescape(source) == row["source"]
        assert tuple(pages.split()) == reach.calculators(row["of"])
        told = [unescape(cell) for cell in re.findall(r"<td>(.*?)</td>", cells)]
        assert told[1:5] == [row[name] for name in ("inputs", "published", "ours", "difference")]
        assert told[6].startswith(sources.find(row["source"])[0].title)


def test_the_page_names_a_source_and_never_its_code() -> None:
    page = checks.table_html(lambda name: f"../{name}/")
    shown = unescape(re.sub(r"<[^>]*>", "\n", page))
    codes = {row["source"] for row in checks.kept()}
    assert not [code for code in codes if re.search(rf"(?<!\w){re.escape(code)}(?!\w)", shown)]
    assert "\ntires: dimensions\n" in shown and "mechanics." not in shown


def test_a_row_concerns_the_calculators_that_reach_its_function() -> None:
    assert {"ballast", "pairing"} <= set(reach.calculators("mechanics.lift.capacity_at"))
    assert not {"tires", "resale", "hitch"} & set(reach.calculators("mechanics.lift.capacity_at"))
    assert reach.calculators("road/wire_sizes") == ("lamp-wiring",)
    assert reach.calculators("mechanics.finance.payment") == ("resale",)


def test_the_count_of_a_calculator_is_that_of_its_rows() -> None:
    counted = {row["worksheet"]: row["rows"] for row in tables.rows("words/published_checks")}
    for name in reach.names():
        rows_of = [row for row in checks.kept() if name in reach.calculators(row["of"])]
        assert counted[name] == facts.fact(f"checks.{name}") == str(len(rows_of))


def test_a_calculator_page_links_to_its_rows_and_a_framed_one_does_not() -> None:
    source = markdown_ext.Source()
    source.name = "sell/repair-before-selling.md"
    count = facts.fact("checks.resale")
    link = f'<a href="../../about/checks/#page=resale">Checked against {count} published values</a>'
    assert link in source.draw("worksheet", "resale", "::: worksheet resale")
    source.name = f"{embeds.FOLDER}/resale.md"
    assert "Checked against" not in source.draw("worksheet", "resale", "::: worksheet resale")
