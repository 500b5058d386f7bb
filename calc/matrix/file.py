"""A matrix in a file, line by line; a run that was stopped goes on where it was.

While it is worked out, the lines stand in `FILE.part`. `FILE.part.json` says of which lists, job
and program they are, and how many lines are certain; whatever a kill left behind them is cut off.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Callable, Mapping, Sequence
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING

import calc
from calc import matrix
from calc.machines import Machine

if TYPE_CHECKING:
    from concurrent.futures import Executor

# What an answer comes of.
SUFFIXES = (".py", ".csv", ".toml")


def write(
    path: Path,
    tractors: Sequence[Machine],
    implements: Sequence[Machine],
    system: str = "us",
    job: Mapping[str, str] | None = None,
    executor: Executor | None = None,
    say: Callable[[int], None] = lambda done: None,
) -> None:
    """Write every pairing of two lists to a file, which appears when it is whole.

    A run of the same lists, job and program that was stopped is gone on with; the bytes are those
    of a run that wasn't. `say` hears how many pairings are done before the first new one.
    `executor` is as for `matrix.stream`.

    Raises
    ------
    OSError
        When the file or the two beside it can't be written.
    """
    part, note = (path.with_name(path.name + ending) for ending in (".part", ".part.json"))
    of = fingerprint(tractors, implements, system, job or {})
    done, size = _certain(part, note, of)
    say(done)
    pairings = matrix.stream(tractors, implements, system, job, executor, done)
    lines = matrix.csv_lines(pairings)
    with part.open("r+b" if size else "wb") as out:
        out.truncate(size)
        out.seek(size)
        if not size:
            out.write(matrix.HEADING.encode())
        while some := list(islice(lines, matrix.BLOCK)):
            out.write("".join(some).encode())
            out.flush()
            os.fsync(out.fileno())
            done += len(some)
            _note(note, {"of": of, "done": done, "size": out.tell()})
    os.replace(part, path)
    note.unlink(missing_ok=True)


def fingerprint(
    tractors: Sequence[Machine],
    implements: Sequence[Machine],
    system: str,
    job: Mapping[str, str],
) -> str:
    """Return what tells one matrix from another: its lists, its job, and the program."""
    asked = [[(each.name, each.inputs) for each in some] for some in (tractors, implements)]
    found = hashlib.sha256(json.dumps([asked, system, dict(job)], sort_keys=True).encode())
    here = Path(calc.__file__).parent
    for file in sorted(each for each in here.rglob("*") if each.suffix in SUFFIXES):
        found.update(file.relative_to(here).as_posix().encode())
        found.update(file.read_bytes())
    return found.hexdigest()


def _certain(part: Path, note: Path, of: str) -> tuple[int, int]:
    """Return how many pairings of this matrix are certain, and the bytes they take."""
    try:
        kept = json.loads(note.read_text(encoding="utf-8"))
        if kept["of"] == of and part.stat().st_size >= int(kept["size"]):
            return int(kept["done"]), int(kept["size"])
    except (OSError, ValueError, KeyError, TypeError):
        pass  # none, or not ours: begin at the beginning
    return 0, 0


def _note(note: Path, kept: Mapping[str, object]) -> None:
    """Replace the note in one step: a kill leaves the old one or the new one."""
    fresh = note.with_name(note.name + ".new")
    fresh.write_text(json.dumps(kept), encoding="utf-8")
    os.replace(fresh, note)
