"""The environment: what is pinned, and what is said when something is missing."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest

from scripts import _setup


def test_every_requirement_is_pinned_and_names_no_index() -> None:
    for path in _setup.REQUIREMENTS.values():
        for line in path.read_text().splitlines():
            assert line.startswith("#") or re.fullmatch(r"[a-z0-9-]+==[\w.]+", line), line


def test_the_npm_lock_names_no_registry() -> None:
    lock = json.loads((_setup.CLIENT / "package-lock.json").read_text())
    assert not [name for name, each in lock["packages"].items() if "resolved" in each]
    package = json.loads((_setup.CLIENT / "package.json").read_text())
    wanted = {**package["dependencies"], **package["devDependencies"]}
    assert all(re.fullmatch(r"[\d.]+", version) for version in wanted.values())
    for name, version in wanted.items():
        assert lock["packages"][f"node_modules/{name}"]["version"] == version


def test_an_old_python_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(_setup.sys, "version_info", (3, 11, 4))
    with pytest.raises(_setup.SetupError, match=r"Python 3\.12 or newer is needed; this is 3\.11"):
        _setup.ensure_environment()


def test_a_missing_browser_is_an_error_and_no_skip(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(command: list[str], **_: object) -> None:
        raise _setup.SetupError("no network")

    monkeypatch.setattr(_setup, "find_browser", lambda: None)
    monkeypatch.setattr(_setup, "run", refuse)
    with pytest.raises(_setup.SetupError, match="There is no browser, and none could be installed"):
        _setup.ensure_browser()


def test_a_failing_command_is_told_in_its_own_words() -> None:
    with pytest.raises(_setup.SetupError, match="out of luck"):
        _setup.run([_setup.venv_python(), "-c", "import sys; sys.exit('out of luck')"])


def test_without_node_the_one_from_pypi_is_used(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    asked: list[str] = []
    monkeypatch.setattr(_setup, "_install", asked.append)
    own = _setup.venv_python().parent
    has_node = _setup._node_major(str(own / "node")) >= _setup.OLDEST_NODE
    assert _setup.node_folder() == own
    assert asked == ([] if has_node else ["node"])


def test_an_old_node_is_passed_over(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    if shutil.which("sh") is None:
        pytest.fail("This test needs a shell.")
    for name in ("node", "npm"):
        script = tmp_path / name
        script.write_text("#!/bin/sh\necho v18.20.1\n")
        script.chmod(0o755)
    assert _setup._node_major(str(tmp_path / "node")) == 18
    monkeypatch.setenv("PATH", f"{tmp_path}:/bin:/usr/bin")
    assert _setup.node_folder() != tmp_path
