"""A Python that is too old: one sentence from every command, and the same number everywhere."""

from __future__ import annotations

import ast
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from scripts import _python, _setup

COMMANDS = sorted(
    path
    for path in (_setup.ROOT / "scripts").glob("*.py")
    if "if __name__ ==" in path.read_text(encoding="utf-8")
)
FOR_EVERYBODY = {"build", "calc", "serve", "test"}
SENTENCE = re.compile(r"Python 3\.12 or newer is needed; this is 3\.\d+\.( This machine has .*)?\n")
# Runs a command as that Python would, as far as imports go: nothing newer than it may be imported.
PRETEND = """
import runpy, sys
sys.version_info = (3, 7, 16, "final", 0)
for name in ("tomllib", "graphlib", "zoneinfo", "htpy", "mkdocs", "calc"):
    sys.modules[name] = None
sys.argv = [sys.argv[1]]
runpy.run_path(sys.argv[0], run_name="__main__")
"""


def old_pythons() -> list[str]:
    """Return every Python from 3.6 to 3.11 that this machine has."""
    names = [f"3.{minor}" for minor in range(6, 12)]
    found = [shutil.which(f"python{name}", path="/usr/local/bin:/usr/bin:/bin") for name in names]
    versions = Path(os.environ.get("PYENV_ROOT") or Path.home() / ".pyenv") / "versions"
    apart = [versions.glob(f"{name}.*/bin/python3") for name in names]
    return [each for each in found if each] + [str(path) for each in apart for path in each]


def test_every_command_is_looked_at() -> None:
    names = {path.stem for path in COMMANDS}
    assert {"build", "calc", "measure", "pin", "serve", "test"} <= names


@pytest.mark.parametrize("path", COMMANDS, ids=lambda path: path.stem)
def test_an_old_python_can_read_a_command_and_is_told_what_is_needed(path: Path) -> None:
    for each in (path, _setup.ROOT / "scripts" / "_python.py"):
        ast.parse(each.read_text(encoding="utf-8"), feature_version=(3, 7))
    said = subprocess.run(
        [sys.executable, "-c", PRETEND, str(path)], capture_output=True, text=True, timeout=60
    )
    assert said.returncode == 1 and SENTENCE.fullmatch(said.stderr), said.stderr
    for python in old_pythons():
        done = subprocess.run([python, str(path)], capture_output=True, text=True, timeout=60)
        # What is for developers alone may be beyond a Python before 3.7.
        if path.stem in FOR_EVERYBODY or "3.6" not in python:
            assert done.returncode == 1 and SENTENCE.fullmatch(done.stderr), (python, done.stderr)


def test_the_oldest_python_is_the_same_everywhere() -> None:
    oldest = "3.12"
    assert _python.OLDEST == (3, 12)
    versions = (_setup.ROOT / ".python-version").read_text().split()
    assert oldest in versions
    assert all(tuple(map(int, each.split("."))) >= (3, 12) for each in versions)
    for name in ("README.md", "DEVELOPERS.md"):
        assert f"Python {oldest} or newer" in (_setup.ROOT / name).read_text(encoding="utf-8")
    assert f'requires-python = ">={oldest}"' in (_setup.ROOT / "pyproject.toml").read_text()
