"""What was drawn before is taken again while its sources are the same, and only then."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from scripts import drawn, shop


@pytest.fixture
def sources(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A project with the least that blocks are made from."""
    for name in ("calc/one.py", *drawn.FILES):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("1")
    monkeypatch.setattr(drawn._setup, "ROOT", tmp_path)
    monkeypatch.setattr(drawn, "FOLDER", tmp_path / "drawn")
    monkeypatch.delenv(shop.FOLDER_VARIABLE, raising=False)
    drawn.folder.cache_clear()
    yield tmp_path
    drawn.folder.cache_clear()


def draws(texts: list[str], kind: str = "table", asked: tuple[str, ...] = ("sizes",)) -> str:
    """Draw a block; each drawing takes one of the texts."""
    return drawn.kept(kind, asked, lambda: texts.pop(0))


def test_the_same_is_drawn_once(sources: Path) -> None:
    texts = ["<p>as \u00bd in</p>", "<p>again</p>"]
    assert draws(texts) == draws(texts) == "<p>as \u00bd in</p>"
    assert texts == ["<p>again</p>"]


@pytest.mark.parametrize("other", [{"asked": ("pins",)}, {"asked": ("sizes", "../")}])
def test_what_is_asked_otherwise_is_drawn(sources: Path, other: dict[str, tuple[str]]) -> None:
    texts = ["one", "two"]
    assert (draws(texts), draws(texts, **other)) == ("one", "two")


@pytest.mark.parametrize("name", ["calc/one.py", "calc/tables/new.csv", *drawn.FILES])
def test_other_sources_are_drawn_anew(sources: Path, name: str) -> None:
    texts = ["before", "after"]
    assert draws(texts) == "before"
    (sources / name).parent.mkdir(parents=True, exist_ok=True)
    (sources / name).write_text("2")
    drawn.folder.cache_clear()
    assert draws(texts) == "after"
    drawn.forget_others()
    assert [each.name for each in drawn.FOLDER.iterdir()] == [drawn.folder().name]


def test_a_shop_and_what_depends_on_more_are_drawn_each_time(
    sources: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    texts = ["one", "two", "three", "four"]
    assert (draws(texts, kind="offline-copy"), draws(texts, kind="offline-copy")) == ("one", "two")
    monkeypatch.setenv(shop.FOLDER_VARIABLE, str(sources))
    assert (draws(texts), draws(texts)) == ("three", "four")


def test_what_fails_is_not_kept(sources: Path) -> None:
    with pytest.raises(LookupError):
        drawn.kept("table", ("sizes",), lambda: {}["nothing"])
    assert draws(["whole"]) == "whole"
