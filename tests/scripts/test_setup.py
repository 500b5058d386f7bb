"""The environment: what is pinned, and what is said when something is missing."""

from __future__ import annotations

import hashlib
import json
import re
import shutil
import zipfile
from pathlib import Path

import pytest

from scripts import _browsers, _environment, _node, _setup, pin

ENTRY = re.compile(
    r"[a-z0-9-]+==[\w.]+(?: ; [^\n]+)?(?: \\\n    --hash=sha256:[0-9a-f]{64})+", re.ASCII
)


@pytest.mark.parametrize("path", _environment.REQUIREMENTS.values(), ids=lambda path: path.stem)
def test_every_requirement_has_its_version_and_hashes_and_names_no_index(path: Path) -> None:
    heading, _, entries = path.read_text().partition("\n")
    assert heading.startswith("# ")
    found = re.split(r"\n(?=\S)", entries.strip())
    assert found == [each for each in found if ENTRY.fullmatch(each)] != []


def test_a_package_with_another_content_than_pinned_is_refused(tmp_path: Path) -> None:
    """A wheel of the right name and version, made here, against the list's own hashes."""
    wheel = tmp_path / "mergedeep-1.3.4-py3-none-any.whl"
    with zipfile.ZipFile(wheel, "w") as archive:
        inside = "mergedeep-1.3.4.dist-info"
        archive.writestr(
            f"{inside}/METADATA", "Metadata-Version: 2.1\nName: mergedeep\nVersion: 1.3.4\n"
        )
        archive.writestr(
            f"{inside}/WHEEL", "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n"
        )
        archive.writestr(f"{inside}/RECORD", "")
    entry = pin.pins(_environment.REQUIREMENTS["build"].read_text())["mergedeep"]
    wanted = tmp_path / "wanted.txt"
    wanted.write_text(entry + "\n")
    command = [
        *(
            _environment.venv_python(),
            "-m",
            "pip",
            "install",
            "--no-index",
            "--find-links",
            tmp_path,
        ),
        *("--require-hashes", "--target", tmp_path / "into", "--requirement", wanted),
    ]
    with pytest.raises(_setup.SetupError, match="DO NOT MATCH THE HASHES"):
        _setup.fetch("It", command)
    digest = hashlib.sha256(wheel.read_bytes()).hexdigest()
    wanted.write_text(f"mergedeep==1.3.4 --hash=sha256:{digest}\n")
    _setup.fetch("It", command)


def test_the_npm_lock_names_no_registry() -> None:
    lock = json.loads((_node.CLIENT / "package-lock.json").read_text())
    assert not [name for name, each in lock["packages"].items() if "resolved" in each]
    package = json.loads((_node.CLIENT / "package.json").read_text())
    wanted = {**package["dependencies"], **package["devDependencies"]}
    assert all(re.fullmatch(r"[\d.]+", version) for version in wanted.values())
    for name, version in wanted.items():
        assert lock["packages"][f"node_modules/{name}"]["version"] == version


def test_a_missing_browser_is_an_error_and_no_skip(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(command: list[str], **_: object) -> None:
        raise _setup.SetupError("no network")

    monkeypatch.setattr(_browsers, "find_browser", lambda: None)
    monkeypatch.setattr(_setup, "run", refuse)
    with pytest.raises(_setup.SetupError, match="There is no browser, and none could be installed"):
        _browsers.ensure_browser()


def test_without_the_windowless_browser_the_whole_one_is_used(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(_browsers, "find_browser", lambda: "whole")
    monkeypatch.setenv("PATH", str(tmp_path))
    assert _browsers.find_shell() == "whole"
    shell = tmp_path / _browsers.SHELL
    shell.write_text("#!/bin/sh\n")
    shell.chmod(0o755)
    assert _browsers.find_shell() == str(shell)


def test_a_failing_command_is_told_in_its_own_words() -> None:
    with pytest.raises(_setup.SetupError, match="out of luck"):
        _setup.run([_environment.venv_python(), "-c", "import sys; sys.exit('out of luck')"])


def test_without_node_the_one_from_pypi_is_used(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    asked: list[str] = []
    monkeypatch.setattr(_environment, "install", asked.append)
    own = _environment.venv_python().parent
    has_node = _node._node_major(str(own / "node")) >= _node.OLDEST_NODE
    assert _node.node_folder() == own
    assert asked == ([] if has_node else ["node"])


def test_an_old_node_is_passed_over(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    if shutil.which("sh") is None:
        pytest.fail("This test needs a shell.")
    for name in ("node", "npm"):
        script = tmp_path / name
        script.write_text("#!/bin/sh\necho v18.20.1\n")
        script.chmod(0o755)
    assert _node._node_major(str(tmp_path / "node")) == 18
    monkeypatch.setenv("PATH", f"{tmp_path}:/bin:/usr/bin")
    assert _node.node_folder() != tmp_path
