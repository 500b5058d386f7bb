"""What the finished folders carry of the licenses of everything inside."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from scripts import _setup, contents


@pytest.fixture(params=["site", "site-offline"])
def folder(request: pytest.FixtureRequest, site: Path, offline: Path) -> Path:
    """The site, and then its offline copy."""
    return site if request.param == "site" else offline


def test_both_folders_carry_the_projects_license_and_every_other(
    folder: Path, offline: Path
) -> None:
    told = (folder / contents.FILE).read_text(encoding="utf-8")
    assert (_setup.ROOT / "LICENSE").read_text(encoding="utf-8").strip() in told
    names = {"pyodide", "cpython", "htpy", "markupsafe", "mkdocs-material", "lunr", "rxjs"}
    names |= {"idb-keyval", "uqr", "zlib", "musl"} | (
        {"iframe-worker"} if folder == offline else set()
    )
    for name in names:
        assert re.search(rf"^{name}[ (]", told, re.MULTILINE), name
    for words in ("Mozilla Public License Version 2.0", "PYTHON SOFTWARE FOUNDATION LICENSE"):
        assert words in told
    page = next(folder.glob("about/software*")) if folder == offline else folder / "about/software"
    page = page / "index.html" if page.is_dir() else page
    shown = page.read_text(encoding="utf-8")
    link = re.search(r'href="([^"]*licenses\.txt)"', shown)
    assert link and (page.parent / link[1]).resolve() == (folder / contents.FILE).resolve()
    for each in contents.components(offline=folder == offline):
        assert f"<code>{each.name}</code>" in shown


def test_bundles_keep_their_notices(site: Path) -> None:
    scripts = site / "assets"
    assert "idb-keyval" in (scripts / "yardstick.js").read_text(encoding="utf-8")[:300]
    theme = next((scripts / "javascripts").glob("bundle.*.js")).read_text(encoding="utf-8")
    assert "rxjs (Apache-2.0)" in theme[:400] and "Licensed MIT © Zeno Rocha" in theme
    search = next((scripts / "javascripts" / "workers").glob("*.js")).read_text(encoding="utf-8")
    assert "lunr (MIT)" in search[:400] and "Oliver Nightingale" in search
    worker = next((scripts / "runtime").glob("*/worker.js")).read_text(encoding="utf-8")
    assert re.search(r"/\* pyodide [\d.]+, MPL-2\.0", worker)
