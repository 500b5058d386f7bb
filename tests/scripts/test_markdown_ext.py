"""Our blocks in Markdown, and what a page is told when it asks in vain."""

from __future__ import annotations

from pathlib import Path

import markdown
import pytest

from scripts.markdown_ext import PageError, Source, YardstickExtension


def render(text: str, path: Path | None = None) -> str:
    source = Source()
    source.name = "somewhere/page.md"
    source.path = path
    reader = markdown.Markdown(extensions=["fenced_code", YardstickExtension(source)])
    return reader.convert(text)


def test_a_worksheet_block_becomes_its_form_and_answer() -> None:
    html = render("Before.\n\n::: worksheet pairing\n\nAfter.")
    assert '<section class="ys"' in html and 'data-worksheet="pairing"' in html
    assert html.startswith("<p>Before.</p>") and html.endswith("<p>After.</p>")
    assert "<p><section" not in html


def test_code_is_left_alone() -> None:
    html = render("```\n::: worksheet pairing\n```\n\nWrite `{{ value x }}` for a value.")
    assert "<section" not in html
    assert "{{ value x }}" in html


@pytest.mark.parametrize(
    "written",
    [
        "::: worksheet no-such",
        "::: table no_such",
        "::: sources no-such",
        "{{ value no_such }}",
        "::: nonsense pairing",
    ],
)
def test_an_unknown_name_names_page_and_line(tmp_path: Path, written: str) -> None:
    text = f"# Title\n\nText.\n\n{written}\n"
    path = tmp_path / "page.md"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(PageError, match=r"somewhere/page\.md, line 5: "):
        render(text, path)


def test_the_offline_copy_says_when_there_is_none(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("YARDSTICK_ASSETS", "/nonexistent")
    monkeypatch.delenv("YARDSTICK_OFFLINE", raising=False)
    assert "without its offline copy" in render("::: offline-copy")
