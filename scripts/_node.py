"""Node and the npm packages, from the machine or from what is pinned."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

from scripts import _environment, _setup

CLIENT = _setup.ROOT / "docs" / "assets" / "src"
NPM = _setup.WORK / "npm"
OLDEST_NODE = 20


def _node_major(node: str) -> int:
    try:
        text = subprocess.run([node, "--version"], capture_output=True, text=True).stdout
        return int(text.strip().lstrip("v").split(".")[0])
    except (OSError, ValueError):
        return 0


def node_folder() -> Path:
    """Return the folder that holds node and npm, from the machine or from the PyPI package."""
    for folder in filter(None, os.environ.get("PATH", "").split(os.pathsep)):
        node, npm = (shutil.which(name, path=folder) for name in ("node", "npm"))
        if node and npm and _node_major(node) >= OLDEST_NODE:
            return Path(folder)
    own = _environment.venv_python().parent
    if _node_major(str(own / "node")) < OLDEST_NODE:
        with _environment.held():
            _environment.install("node")
    return own


def node_environment() -> dict[str, str]:
    """Return the environment in which `node` and `npm` are the ones to use."""
    return {**os.environ, "PATH": f"{node_folder()}{os.pathsep}{os.environ.get('PATH', '')}"}


def node(*arguments: str | Path, cwd: Path = _setup.ROOT) -> str:
    """Run node and return what it prints; its errors are passed on."""
    environment = node_environment()
    program = shutil.which("node", path=environment["PATH"])
    assert program is not None
    done = subprocess.run(
        [program, *(str(part) for part in arguments)],
        cwd=cwd,
        env=environment,
        capture_output=True,
        text=True,
    )
    if done.returncode != 0:
        raise _setup.SetupError(f"node {arguments[0]} failed:\n{done.stderr.strip()[-4000:]}")
    return done.stdout


def ensure_npm_packages() -> Path:
    """Install the locked npm packages outside docs/ and return their node_modules folder."""
    lock = CLIENT / "package-lock.json"
    mark = NPM / "installed"
    if not (mark.is_file() and mark.read_text() == _environment.stamp(lock)):
        _setup.note("Installing the locked npm packages (once) ...")
        mark.unlink(missing_ok=True)
        NPM.mkdir(parents=True, exist_ok=True)
        for name in ("package.json", "package-lock.json", ".npmrc"):
            shutil.copyfile(CLIENT / name, NPM / name)
        environment = node_environment()
        npm = shutil.which("npm", path=environment["PATH"])
        assert npm is not None
        command = [npm, "ci", "--no-audit", "--no-fund", "--loglevel=error"]
        _setup.fetch("What package-lock.json names", command, cwd=NPM, env=environment)
        mark.write_text(_environment.stamp(lock))
    return NPM / "node_modules"
