"""What a fresh machine needs before anything can be built: one home for each piece.

Only the standard library is used here, because this runs before the environment exists.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
WORK = ROOT / ".build"
CLIENT = ROOT / "docs" / "assets" / "src"
NPM = WORK / "npm"
OLDEST_PYTHON = (3, 12)
OLDEST_NODE = 20

REQUIREMENTS = {
    "build": ROOT / "scripts" / "requirements.txt",
    "test": ROOT / "scripts" / "requirements-test.txt",
    "node": ROOT / "scripts" / "requirements-node.txt",
}


class SetupError(Exception):
    """Something on this machine is missing; the text says what to do about it."""


def say(text: str) -> None:
    """Print one line of progress at once."""
    print(text, flush=True)


def run(command: Sequence[str | Path], **options: object) -> None:
    """Run `command` and raise SetupError with its own words when it fails."""
    done = subprocess.run(  # type: ignore[call-overload]
        [str(part) for part in command],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        **options,
    )
    if done.returncode != 0:
        name = " ".join(str(part) for part in command[:4])
        raise SetupError(f"This command failed: {name}\n{done.stdout.strip()[-4000:]}")


@contextmanager
def one_at_a_time() -> Iterator[None]:
    """Hold the work folder: two builds at once would take each other's parts."""
    WORK.mkdir(exist_ok=True)
    with (WORK / "lock").open("w") as handle:
        if os.name != "nt":
            import fcntl

            fcntl.flock(handle, fcntl.LOCK_EX)
        yield


def venv_python() -> Path:
    """Return the path of the environment's Python, whether or not it exists yet."""
    windows = VENV / "Scripts" / "python.exe"
    return windows if os.name == "nt" else VENV / "bin" / "python"


def _best_python() -> str:
    """Return a Python to make the environment with: 3.13 if there is one, else this one."""
    if sys.version_info[:2] == (3, 13):
        return sys.executable
    found = shutil.which("python3.13")
    if found:
        probe = subprocess.run([found, "-c", "import venv, ensurepip"], capture_output=True)
        if probe.returncode == 0:
            return found
    return sys.executable


def _stamp(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()


def _install(group: str) -> None:
    """Install one pinned list into the environment, unless that list is in already."""
    wanted = REQUIREMENTS[group]
    mark = VENV / f"yardstick-{group}.installed"
    if mark.is_file() and mark.read_text() == _stamp(wanted):
        return
    say(f"Installing what the {wanted.stem} list names (once) ...")
    run(
        [
            *(venv_python(), "-m", "pip", "install", "--quiet", "--disable-pip-version-check"),
            *("--requirement", wanted),
        ]
    )
    mark.write_text(_stamp(wanted))


def ensure_environment(*groups: str) -> None:
    """Make .venv with the groups' pinned packages, and carry on inside it.

    When this process is not running on the environment's Python, it starts the same command
    there and ends with that command's exit code.
    """
    if sys.version_info < OLDEST_PYTHON:
        raise SetupError(
            f"Python {OLDEST_PYTHON[0]}.{OLDEST_PYTHON[1]} or newer is needed; "
            f"this is {sys.version_info[0]}.{sys.version_info[1]}."
        )
    if not venv_python().exists():
        say("Making the environment .venv (once) ...")
        run([_best_python(), "-m", "venv", VENV])
    for group in ("build", *groups):
        _install(group)
    if Path(sys.prefix).resolve() != VENV.resolve():
        command = [str(venv_python()), *sys.argv]
        raise SystemExit(subprocess.run(command).returncode)


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
    own = venv_python().parent
    if _node_major(str(own / "node")) < OLDEST_NODE:
        _install("node")
    return own


def node_environment() -> dict[str, str]:
    """Return the environment in which `node` and `npm` are the ones to use."""
    return {**os.environ, "PATH": f"{node_folder()}{os.pathsep}{os.environ.get('PATH', '')}"}


def node(*arguments: str | Path, cwd: Path = ROOT) -> str:
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
        raise SetupError(f"node {arguments[0]} failed:\n{done.stderr.strip()[-4000:]}")
    return done.stdout


def ensure_npm_packages() -> Path:
    """Install the locked npm packages outside docs/ and return their node_modules folder."""
    lock = CLIENT / "package-lock.json"
    mark = NPM / "installed"
    if not (mark.is_file() and mark.read_text() == _stamp(lock)):
        say("Installing the locked npm packages (once) ...")
        NPM.mkdir(parents=True, exist_ok=True)
        for name in ("package.json", "package-lock.json", ".npmrc"):
            shutil.copyfile(CLIENT / name, NPM / name)
        environment = node_environment()
        npm = shutil.which("npm", path=environment["PATH"])
        assert npm is not None
        run([npm, "ci", "--no-audit", "--no-fund", "--loglevel=error"], cwd=NPM, env=environment)
        mark.write_text(_stamp(lock))
    return NPM / "node_modules"


def _playwright_chromium() -> str | None:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        path = driver.chromium.executable_path
    return path if Path(path).exists() else None


def find_browser() -> str | None:
    """Return the path of a Chromium to test with, or None."""
    for name in ("chromium", "chromium-browser"):
        found = shutil.which(name)
        if found:
            return found
    return _playwright_chromium()


def ensure_browser() -> str:
    """Return the path of a Chromium, installing one when there is none.

    As root on Debian the distribution's own is used, elsewhere the one that Playwright offers.
    """
    found = find_browser()
    if found:
        return found
    say("Installing a browser for the tests (once) ...")
    try:
        if shutil.which("apt-get") and hasattr(os, "geteuid") and os.geteuid() == 0:
            environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
            run(["apt-get", "update", "-q"], env=environment)
            run(
                [
                    *("apt-get", "install", "-q", "-y", "--no-install-recommends"),
                    *("chromium", "fonts-dejavu-core"),
                ],
                env=environment,
            )
        else:
            run([venv_python(), "-m", "playwright", "install", "chromium"])
    except (SetupError, OSError) as problem:
        raise SetupError(f"There is no browser, and none could be installed: {problem}") from None
    found = find_browser()
    if not found:
        raise SetupError("There is no browser, and none could be installed.")
    return found
