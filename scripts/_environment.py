"""The Python environment that everything else runs in: made once, whole, with what is pinned.

Only the standard library is used here, because this runs before the environment exists.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NoReturn

from scripts import _python, _setup

# Stands in the environment while everything in it is whole.
STATE = "yardstick.json"
REQUIREMENTS = {
    "build": _setup.ROOT / "scripts" / "requirements.txt",
    "test": _setup.ROOT / "scripts" / "requirements-test.txt",
    "node": _setup.ROOT / "scripts" / "requirements-node.txt",
    "pin": _setup.ROOT / "scripts" / "requirements-pin.txt",
}


def venv_python() -> Path:
    """Return the path of the environment's Python, whether or not it exists yet."""
    windows = _setup.VENV / "Scripts" / "python.exe"
    return windows if os.name == "nt" else _setup.VENV / "bin" / "python"


def _can_make_environments(python: str) -> bool:
    probe = subprocess.run([python, "-c", "import venv, ensurepip"], capture_output=True)
    return probe.returncode == 0


def _best_python() -> str:
    """Return a Python to make the environment with: 3.13 if there is one, else this one."""
    own = getattr(sys, "_base_executable", None) or sys.executable
    other = shutil.which("python3.13")
    likely = [own] if sys.version_info[:2] == (3, 13) or not other else [other, own]
    for python in likely:
        if _can_make_environments(python):
            return python
    raise _setup.SetupError(
        f"{own} can't make an environment: its parts venv and ensurepip are missing. On Debian and "
        "Ubuntu, “apt-get install python3-venv” as root brings them; then give the same command "
        "again."
    )


def stamp(path: Path) -> str:
    """Return what a file holds, as a short mark."""
    return hashlib.sha256(path.read_bytes()).hexdigest()


def _installed() -> dict[str, str] | None:
    """Return the stamp of each list that is in the environment; None when it isn't whole.

    It isn't when its making or a later change was cut short, or when it was made elsewhere.
    """
    try:
        state = json.loads((_setup.VENV / STATE).read_text(encoding="utf-8"))
        whole = state["place"] == str(_setup.VENV.resolve()) and venv_python().exists()
        found: dict[str, str] = state["installed"]
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return found if whole else None


def _record(installed: dict[str, str]) -> None:
    fresh = _setup.VENV / f"{STATE}.new"
    state = {"place": str(_setup.VENV.resolve()), "installed": installed}
    fresh.write_text(json.dumps(state, indent=1), encoding="utf-8")
    os.replace(fresh, _setup.VENV / STATE)


def _check_replaceable(folder: Path) -> None:
    """Refuse to replace what is no environment of a Python."""
    if folder.is_symlink() and folder.exists():
        raise _setup.SetupError(
            f"{folder} leads to {folder.resolve()}, which isn't a whole environment of these "
            "scripts. Take the link away, and a new environment is made."
        )
    empty = not folder.is_dir() or not any(path.is_file() for path in folder.rglob("*"))
    if not empty and not (folder / "pyvenv.cfg").is_file():
        raise _setup.SetupError(
            f"{folder} is no Python environment, so it isn't replaced. Move it away; the scripts "
            "keep their environment there."
        )


def _make_environment() -> None:
    """Make a bare environment beside and move it in, in place of one that isn't whole."""
    _check_replaceable(_setup.VENV)
    python = _best_python()
    there = _setup.VENV.exists()
    fresh, old = (_setup.VENV.with_name(f"{_setup.VENV.name}-{name}") for name in ("new", "old"))
    how = "Making the environment .venv (once)"
    _setup.note(f"{'The environment .venv is not whole: making it anew' if there else how} ...")
    for left in (fresh, old):
        _check_replaceable(left)
        _setup.clear(left)
    try:
        _setup.run([python, "-m", "venv", fresh])
        _name_final_place(fresh, _setup.VENV)
        if there or _setup.VENV.is_symlink():
            os.rename(_setup.VENV, old)
        os.rename(fresh, _setup.VENV)
    finally:
        _setup.clear(fresh)
    if old.is_symlink():
        old.unlink()
    _setup.clear(old)


def _name_final_place(made: Path, final: Path) -> None:
    """Let the environment's own short scripts name the place that it is moved to."""
    programs = made / venv_python().parent.name
    for path in [made / "pyvenv.cfg", *programs.iterdir()]:
        if path.is_file() and not path.is_symlink() and path.suffix != ".exe":
            content = path.read_bytes()
            path.write_bytes(content.replace(os.fsencode(made), os.fsencode(final)))


def install(group: str) -> None:
    """Install one pinned list into the environment, unless that list is in already.

    While pip is at work the environment doesn't count as whole: after a Ctrl+C it is made anew.
    """
    installed = _installed() or {}
    wanted = REQUIREMENTS[group]
    if installed.get(group) == stamp(wanted):
        return
    _setup.note(f"Installing what scripts/{wanted.name} names (once) ...")
    (_setup.VENV / STATE).unlink(missing_ok=True)
    # Hashes are asked of every package, so the lists that this one rests on come along.
    lists = [REQUIREMENTS["build"], wanted] if group == "test" else [wanted]
    command = [str(venv_python()), "-m", "pip", "install", "--quiet"]
    options = [f"--requirement={path}" for path in lists]
    try:
        _setup.fetch(f"What scripts/{wanted.name} names", [*command, "--require-hashes", *options])
    except _setup.SetupError:
        # pip changes nothing before it has everything.
        if installed:
            _record(installed)
        raise
    _record({**installed, group: stamp(wanted)})


@contextmanager
def held() -> Iterator[None]:
    """Hold the environment, which several checkouts may share."""
    with _setup.hold(_setup.VENV.resolve().parent / _setup.WORK.name / "environment.lock"):
        yield


def ensure_environment(*groups: str) -> None:
    """Make .venv with the groups' pinned packages, and carry on inside it.

    When this process is not running on the environment's Python, the same command goes on there
    and this call doesn't return.
    """
    _python.require()
    with held():
        inside = Path(sys.prefix).resolve() == _setup.VENV.resolve()
        if _installed() is None:
            _make_environment()
            inside = False
        for group in ("build", *groups):
            install(group)
    if not inside:
        _go_on_with([str(venv_python()), *sys.argv])


def _go_on_with(command: list[str]) -> NoReturn:
    """Let another Python take the place of this one, as far as the system allows it."""
    sys.stdout.flush()
    sys.stderr.flush()
    if os.name != "nt":
        os.execv(command[0], command)
    import signal

    # Ctrl+C reaches both; the other one answers it.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    raise SystemExit(subprocess.run(command).returncode)
