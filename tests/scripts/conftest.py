"""A copy of the project that a test may break."""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path

import pytest

from scripts import _node, _setup

NOT_COPIED = (".git", ".venv*", ".build", "site", "site-offline*", "__pycache__", ".hypothesis")


def bare_environment(home: Path) -> dict[str, str]:
    """Return the environment of a fresh user: an own home, and no Python but `python3`."""
    programs = home / "bin"
    programs.mkdir(parents=True, exist_ok=True)
    python = programs / "python3"
    if not python.exists():
        python.symlink_to(Path(sys.base_prefix) / "bin" / "python3")
    kept = {name: os.environ[name] for name in os.environ if name.startswith(("PIP_", "SSL_"))}
    return {**kept, "HOME": str(home), "PATH": f"{programs}:/usr/bin:/bin", "LANG": "C.UTF-8"}


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """A copy of the project, with a repository's folder, and what is installed linked into it."""
    copy = tmp_path / "a checkout"
    shutil.copytree(_setup.ROOT, copy, ignore=shutil.ignore_patterns(*NOT_COPIED))
    (copy / ".git").mkdir()
    (copy / ".git" / "HEAD").write_text("ref: refs/heads/main\n")
    (copy / ".venv").symlink_to(_setup.VENV.resolve())
    (copy / ".build").mkdir()
    (copy / ".build" / "npm").symlink_to(_node.NPM.resolve())
    for name in ("runtime", "drawn"):
        if (_setup.WORK / name).is_dir():
            shutil.copytree(_setup.WORK / name, copy / ".build" / name)
    return copy


def everything(folder: Path) -> dict[str, bytes]:
    """Return every file below `folder` but what the scripts keep in their own work folder."""
    found = {}
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder)
        if (
            path.is_file()
            and name.parts[0] not in (".venv", ".build")
            and "__pycache__" not in name.parts
        ):
            found[name.as_posix()] = path.read_bytes()
    return found
