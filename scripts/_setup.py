"""What every command stands on: the places of the project, what is said, and commands run.

Only the standard library is used here, because this runs before the environment exists.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import NoReturn

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
WORK = ROOT / ".build"

# The site, with its offline copy beside it, that the tests open.
TESTED = WORK / "tested"
STOPPED = 130  # what a shell reports for Ctrl+C

# How pip and npm say that they reach nobody.
UNREACHED = (
    "NewConnectionError",
    "ConnectionError",
    "ConnectTimeout",
    "ProxyError",
    "name resolution",
    "ENOTFOUND",
    "EAI_AGAIN",
    "ECONNREFUSED",
    "ENETUNREACH",
    "ETIMEDOUT",
    "from versions: none",
)


class SetupError(Exception):
    """Something on this machine is missing; the text says what to do about it."""


def say(text: str) -> None:
    """Print one line of a command's result at once."""
    print(text, flush=True)


def note(text: str) -> None:
    """Print one line of progress, apart from the results."""
    print(text, file=sys.stderr, flush=True)


def command(main: Callable[[], int]) -> NoReturn:
    """End with what `main` returns; something missing, or Ctrl+C, is one line and no traceback."""
    try:
        code = main()
    except SetupError as problem:
        note(str(problem))
        code = 1
    except KeyboardInterrupt:
        note("\nStopped.")
        code = STOPPED
    raise SystemExit(code)


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


def fetch(what: str, command: Sequence[str | Path], **options: object) -> None:
    """Run a command that fetches `what`, and say in a sentence when there is no network."""
    try:
        run(command, **options)
    except SetupError as problem:
        if not any(sign in str(problem) for sign in UNREACHED):
            raise SetupError(f"{what} can't be installed.\n{problem}") from None
        raise SetupError(
            f"{what} can't be fetched: the network, or the package registry, can't be reached. "
            "Connect this machine once and give the same command again; what is installed then "
            "stays, and needs no network."
        ) from None


@contextmanager
def hold(lock: Path) -> Iterator[None]:
    """Hold a lock file; whoever else wants it waits."""
    lock.parent.mkdir(parents=True, exist_ok=True)
    with lock.open("w") as handle:
        if os.name != "nt":
            import fcntl

            fcntl.flock(handle, fcntl.LOCK_EX)
        yield


@contextmanager
def one_at_a_time() -> Iterator[None]:
    """Hold the work folder: two builds at once would take each other's parts."""
    with hold(WORK / "lock"):
        yield


def clear(folder: Path) -> None:
    """Delete a folder that the scripts made for themselves, if it is there."""
    if folder.is_symlink() or folder.is_file():
        raise SetupError(f"{folder} is in the way: a folder of the build belongs there.")
    if folder.exists():
        shutil.rmtree(folder)
