"""What a build replaces: an earlier build of our own, and nothing else whatever."""

from __future__ import annotations

import os
import subprocess
import zipfile
from pathlib import Path

import pytest

from scripts import _setup, build, offline, place
from tests.scripts.conftest import bare_environment, everything


def refused(checkout: Path, out: str, *more: str) -> str:
    """Build into `out`, and return the sentence with which that was refused."""
    done = subprocess.run(
        [str(checkout / ".venv/bin/python"), "scripts/build.py", "--out", out, *more],
        cwd=checkout,
        env=bare_environment(checkout.parent / "home"),
        capture_output=True,
        text=True,
        timeout=60,
    )
    assert done.returncode == 1, done.stdout
    assert "is left as it is" in done.stderr and "Traceback" not in done.stderr
    assert done.stderr.count("\n") == 1
    return done.stderr


def test_the_project_and_what_is_above_or_in_it_is_never_replaced(checkout: Path) -> None:
    (checkout / "link").symlink_to(checkout)
    bare_environment(checkout.parent / "home")
    before = everything(checkout.parent)
    for out in (
        ".",
        "..",
        "../..",
        str(checkout),
        "/",
        "docs/..",
        "docs",
        "calc/new",
        ".git",
        "link",
    ):
        refused(checkout, out)
    assert everything(checkout.parent) == before
    assert (checkout / ".venv").is_symlink()


def test_folders_that_are_not_empty_are_refused(checkout: Path, tmp_path: Path) -> None:
    own = tmp_path / "letters"
    own.mkdir()
    (own / "to the bank.txt").write_text("Dear Sirs")
    assert f"it has no {place.MARK}" in refused(checkout, str(own))
    assert "file" in refused(checkout, str(own / "to the bank.txt"))
    # The copy beside it: the site's own place is free.
    (tmp_path / "new-offline").mkdir()
    (tmp_path / "new-offline" / "index.html").write_text("mine")
    refused(checkout, str(tmp_path / "new"), "--offline")
    (tmp_path / "other-offline.zip").write_bytes(b"mine")
    refused(checkout, str(tmp_path / "other"), "--offline")
    assert (own / "to the bank.txt").read_text() == "Dear Sirs"
    assert (tmp_path / "new-offline" / "index.html").read_text() == "mine"
    assert (tmp_path / "other-offline.zip").read_bytes() == b"mine"
    assert not (tmp_path / "new").exists()


def finished(folder: Path, text: str = "one") -> Path:
    """Write a small finished build."""
    (folder / "about").mkdir(parents=True)
    (folder / "index.html").write_text(text)
    (folder / "about" / "index.html").write_text(text)
    place.mark(folder)
    return folder


def test_an_earlier_build_is_replaced_whole(tmp_path: Path) -> None:
    out = finished(tmp_path / "site")
    (out / "about" / "old.html").write_text("from the build")
    place.mark(out)
    (out / ".DS_Store").write_bytes(b"")
    place.check(out)
    with place.beside(out) as work:
        place.put(finished(work / "site", "two"), out)
    assert (out / "index.html").read_text() == "two"
    assert not (out / "about" / "old.html").exists()
    assert [path.name for path in tmp_path.iterdir()] == ["site"]
    assert out.stat().st_mode & 0o777 == 0o755


@pytest.mark.parametrize("strange", [".git/HEAD", "notes.txt", "about/mine.html"])
def test_an_earlier_build_with_anything_else_in_it_is_refused(tmp_path: Path, strange: str) -> None:
    out = finished(tmp_path / "site")
    (out / strange).parent.mkdir(exist_ok=True)
    (out / strange).write_text("mine")
    with pytest.raises(_setup.SetupError, match=f"besides an earlier build it holds {strange}"):
        place.check(out)
    with place.beside(out) as work, pytest.raises(_setup.SetupError):
        place.put(finished(work / "site", "two"), out)
    assert (out / strange).read_text() == "mine" and (out / "index.html").read_text() == "one"


def test_a_link_in_an_earlier_build_is_not_followed(tmp_path: Path) -> None:
    out, elsewhere = finished(tmp_path / "site"), tmp_path / "photos"
    elsewhere.mkdir()
    (out / "photos").symlink_to(elsewhere)
    with pytest.raises(_setup.SetupError, match="it holds photos"):
        place.check(out)


def test_an_empty_and_a_new_folder_are_taken(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    place.check(tmp_path / "empty")
    place.check(tmp_path / "new")
    place.check(_setup.ROOT / "site-that-is-not-there")


def test_a_folder_marked_by_somebody_else_is_no_build(tmp_path: Path) -> None:
    (tmp_path / place.MARK).write_text("index.html\n")
    (tmp_path / "index.html").write_text("mine")
    with pytest.raises(_setup.SetupError, match="no earlier build"):
        place.check(tmp_path)


def test_a_zip_is_ours_only_with_a_marked_build_in_it(tmp_path: Path) -> None:
    copy = finished(tmp_path / "copy")
    ours = offline.zip_folder(copy)
    assert place.is_our_zip(ours, offline.NAME)
    with zipfile.ZipFile(tmp_path / "other.zip", "w") as archive:
        archive.writestr("index.html", "mine")
    assert not place.is_our_zip(tmp_path / "other.zip", offline.NAME)
    assert not place.is_our_zip(tmp_path / "none.zip", offline.NAME)


def test_a_build_that_fails_leaves_the_earlier_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = finished(tmp_path / "site")

    def fail(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(build, "_write", fail)
    monkeypatch.setattr("scripts.runtime.build", lambda: None)
    with pytest.raises(KeyboardInterrupt):
        build.build(out)
    assert (out / "index.html").read_text() == "one"
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_a_folder_that_may_not_be_written_is_one_sentence(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    out = tmp_path / "file" / "site"
    with pytest.raises(_setup.SetupError, match="Nothing can be written beside"), place.beside(out):
        pass


def test_everything_that_scripts_delete_lies_in_a_folder_of_their_own() -> None:
    """Each call that deletes was read once; a new one has to be read, and listed, too."""
    read = {
        "_setup.py": 1,  # clear: what the callers name, no link, no file
        "place.py": 2,  # the folder made for one build; a checked earlier build
        "client.py": 1,  # .build/assets
        "drawn.py": 1,  # .build/drawn
        "offline.py": 1,  # .build/assets-offline
        "runs.py": 1,  # .build/runs
        "runtime.py": 4,  # .build/wheel, .build/runtime
        "measure.py": 2,  # .build/measure-*
        "mkdocs_hooks.py": 1,  # in a site that MkDocs has just written
    }
    found = {
        path.name: path.read_text(encoding="utf-8").count("rmtree(")
        for path in sorted((_setup.ROOT / "scripts").glob("*.py"))
    }
    assert {name: count for name, count in found.items() if count} == read


def test_the_root_of_the_disk_is_refused_by_whoever_asks() -> None:
    for path in (_setup.ROOT, *_setup.ROOT.parents):
        with pytest.raises(_setup.SetupError, match="the project itself"):
            place.check(path)
    assert os.path.isdir(_setup.ROOT)
