"""The list of other people's software, against what is installed, bundled and compiled."""

from __future__ import annotations

import json
import re
from importlib.metadata import metadata
from pathlib import Path

import pytest

from scripts import _node, _setup, client, contents, runtime

LOCK = json.loads((_node.CLIENT / "package-lock.json").read_text("utf-8"))["packages"]
ROWS = contents.part_rows()


@pytest.fixture(scope="module")
def found() -> dict[str, contents.Component]:
    """Everything in the offline copy, by name; bundled afresh."""
    with _setup.one_at_a_time():
        client.write_assets(runtime.build())
    return {each.name: each for each in contents.components(offline=True)}


def test_everything_that_reaches_a_browser_is_listed(found: dict[str, contents.Component]) -> None:
    assert set(LOCK[""]["dependencies"]) | set(runtime.LIBRARIES) <= set(found)
    assert {row["name"] for row in ROWS} <= set(found)
    assert all(each.license and each.notice.strip() and each.does for each in found.values())


def test_the_theme_is_made_of_the_packages_that_are_listed() -> None:
    assert contents.theme_packages() == {r["mark"] for r in ROWS if r["within"] == "theme"}


def test_licenses_and_versions_are_those_of_the_packages(
    found: dict[str, contents.Component],
) -> None:
    for name, each in found.items():
        if each.registry == "npm":
            locked = LOCK[f"node_modules/{name}"]
            assert (each.version, each.license) == (locked["version"], locked["license"])
        if each.registry == "pypi":
            stated = metadata(name)
            assert each.version == stated["Version"]
            assert each.license == (stated.get("License-Expression") or stated.get("License"))


def test_every_license_has_its_text(found: dict[str, contents.Component]) -> None:
    told = contents.licenses(found.values())
    for each in found.values():
        for name in contents.texts_of(each.license):
            whole = (contents.LICENSES / f"{name}.txt").is_file()
            assert whole or len(each.notice) > 500, (each.name, name)
    assert told.count("Permission is hereby granted, free of charge") >= 1
    used = {text for each in found.values() for text in contents.texts_of(each.license)}
    assert {path.stem for path in contents.LICENSES.glob("*.txt")} <= used


def test_a_part_that_has_gone_stops_the_build(monkeypatch: pytest.MonkeyPatch) -> None:
    for within, mark in (("theme", "no-such"), ("runtime", "no such text"), ("pages", "no such")):
        row = {**ROWS[0], "name": "gone", "within": within, "mark": mark}
        monkeypatch.setattr(contents, "part_rows", lambda row=row: [row])
        with pytest.raises(_setup.SetupError, match="gone doesn't show"):
            contents.components()


def test_the_bill_names_each_with_its_license(
    found: dict[str, contents.Component], tmp_path: Path
) -> None:
    text = contents.bill(found.values(), "abc")
    told = json.loads(text)
    assert (told["bomFormat"], told["specVersion"]) == ("CycloneDX", "1.6")
    names = {"/".join(filter(None, (c.get("group"), c["name"]))) for c in told["components"]}
    assert names == set(found)
    assert all(each["licenses"] and each["purl"] for each in told["components"])
    assert re.fullmatch(r"urn:uuid:[0-9a-f-]{36}", told["serialNumber"])
    ours, other = tmp_path / "site.cdx.json", tmp_path / "other.cdx.json"
    ours.write_text(text)
    other.write_text('{"metadata": {"component": {"name": "something"}}}')
    assert contents.is_our_bill(ours) and not contents.is_our_bill(other)
    assert not contents.is_our_bill(tmp_path / "none")
