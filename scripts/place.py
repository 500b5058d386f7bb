"""Where a build may stand: nothing but an earlier build of our own is ever replaced.

A finished build carries a file with the names of all its files. A folder that holds anything else
as well, such as a repository or somebody's notes, is refused and left as it is.
"""

from __future__ import annotations

import os
import shutil
import tempfile
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from scripts import _setup

MARK = ".yardstick-build"
HEADING = "What a build of Yardstick wrote here. A later build replaces these files and no others."
# What file managers leave in a folder that somebody has looked at.
DEBRIS = {".DS_Store", "Thumbs.db", "desktop.ini"}
MOST_NAMED = 3


def absolute(path: Path) -> Path:
    """Return `path` from the root on; its last part may be a link, which `check` refuses."""
    whole = Path(os.path.abspath(path))
    return whole.parent.resolve() / whole.name


def mark(folder: Path) -> None:
    """Write into a finished build which files are its own."""
    names = sorted(_files(folder) - {MARK})
    (folder / MARK).write_text("\n".join([HEADING, *names, ""]), encoding="utf-8")


def _files(folder: Path) -> set[str]:
    """Return every file and link below `folder`, without what only shows that it was looked at."""
    found = set()
    for top, folders, names in os.walk(folder):
        links = [name for name in folders if (Path(top) / name).is_symlink()]
        for name in [*names, *links]:
            if name not in DEBRIS:
                found.add((Path(top) / name).relative_to(folder).as_posix())
    return found


def check(out: Path) -> None:
    """Refuse a place where a build would destroy something.

    Raises
    ------
    SetupError
        When `out` is the project's folder, holds it, lies among its sources, or holds anything
        that no build of ours wrote.
    """
    above = (_setup.ROOT, *_setup.ROOT.parents)
    # Not every system tells capital letters from small ones.
    if out in above or (out.exists() and any(out.samefile(each) for each in above)):
        raise _refusal(out, "the project itself stands there")
    inside = out.relative_to(_setup.ROOT).parts if _setup.ROOT in out.parents else ("",)
    if inside[0] in ("calc", "docs", "scripts", "tests", ".git", ".venv"):
        raise _refusal(out, f"{inside[0]} is a part of the project")
    if out.is_symlink() or (out.exists() and not out.is_dir()):
        raise _refusal(out, "there is a file or a link of that name")
    try:
        strange = _strangers(out) if out.exists() else set()
    except OSError as error:
        raise _refusal(out, f"it can't be read ({error.strerror})") from None
    if strange is None:
        raise _refusal(out, f"it isn't empty, and no earlier build: it has no {MARK}")
    if strange:
        named = ", ".join(sorted(strange)[:MOST_NAMED])
        more = f" and {len(strange) - MOST_NAMED} more" if len(strange) > MOST_NAMED else ""
        raise _refusal(out, f"besides an earlier build it holds {named}{more}")


def _strangers(folder: Path) -> set[str] | None:
    """Return the files that no build wrote; None when a folder in use is no build at all."""
    there = _files(folder)
    try:
        lines = (folder / MARK).read_text(encoding="utf-8").splitlines()
    except (FileNotFoundError, UnicodeDecodeError):
        lines = []
    if lines[:1] != [HEADING]:
        return None if there else set()
    return there - {MARK, *lines[1:]}


def check_file(path: Path, *, ours: bool) -> None:
    """Refuse to write over a file that isn't `ours`."""
    if path.is_symlink() or (path.exists() and not ours):
        raise _refusal(path, "no earlier build wrote the file of that name")


def is_our_zip(path: Path, inside: str) -> bool:
    """Say whether `path` is the zip of an earlier build, which unpacks to the folder `inside`."""
    try:
        with zipfile.ZipFile(path) as archive:
            return f"{inside}/{MARK}" in archive.namelist()
    except (OSError, zipfile.BadZipFile):
        return False


def _refusal(place: Path, why: str) -> _setup.SetupError:
    return _setup.SetupError(
        f"{place} is left as it is: {why}. Name an empty or a new folder with --out, or move what "
        "is there away."
    )


@contextmanager
def beside(out: Path) -> Iterator[Path]:
    """Give a fresh folder next to `out` to build in; what is left in it at the end is deleted."""
    try:
        out.parent.mkdir(parents=True, exist_ok=True)
        work = Path(tempfile.mkdtemp(prefix=f".{out.name}-", dir=out.parent))
    except OSError as error:
        raise _setup.SetupError(f"Nothing can be written beside {out}: {error.strerror}.") from None
    try:
        yield work
    finally:
        shutil.rmtree(work, ignore_errors=True)


def put(made: Path, out: Path) -> None:
    """Move a finished build to its place; the earlier one goes only once the new one is there."""
    check(out)
    # Made for its owner alone, as every folder of a temporary name is.
    made.chmod(0o755)
    earlier = made.with_name(f"{made.name}-earlier")
    try:
        if out.exists():
            os.rename(out, earlier)
        os.rename(made, out)
    except OSError as error:
        if earlier.exists() and not out.exists():
            os.rename(earlier, out)
        raise _setup.SetupError(f"{out} can't be replaced: {error.strerror}.") from None
    shutil.rmtree(earlier, ignore_errors=True)
