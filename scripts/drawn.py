"""What was drawn for a page before, from the same sources: a build draws only what is new.

What is kept lies in a folder named after everything that it could be made from, so nothing that
was drawn from other sources is ever taken. A shop's site is drawn anew each time.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import sys
from collections.abc import Callable
from functools import cache
from pathlib import Path

from scripts import _setup, digests, shop

FOLDER = _setup.WORK / "drawn"
# What a block may be made from; its way to other pages is part of what it is asked by.
SOURCES = ("calc/**/*.py", "calc/**/*.csv", "calc/**/*.toml", "scripts/**/*.py")
FILES = ("scripts/requirements.txt", "tests/published/checks.csv", "mkdocs.yml")
# The blocks that depend on nothing else, and those that lead to other pages besides.
PLAIN = frozenset({"form", "table", "sources", "value"})
LINKED = frozenset(
    {"question-index", "finding", "subjects", "checks", "checked", "matrix", "capability"}
)


@cache
def folder() -> Path:
    """Return the folder for what is drawn from the sources as they are."""
    paths = [path for pattern in SOURCES for path in sorted(_setup.ROOT.glob(pattern))]
    paths += [_setup.ROOT / name for name in FILES]
    version = repr(sys.version_info[:3]).encode()
    return FOLDER / digests.digest([version, *digests.named(paths, _setup.ROOT)]).hex()[:16]


def forget_others() -> None:
    """Delete what was drawn from other sources than those of now."""
    for each in FOLDER.glob("*"):
        if each != folder():
            shutil.rmtree(each, ignore_errors=True)


def kept(kind: str, asked: tuple[str, ...], draw: Callable[[], str]) -> str:
    """Return a block as it was drawn before, or draw it and keep it.

    `asked` is all that it is drawn by: its name, and the ways to other pages where it has some.
    """
    if kind not in PLAIN | LINKED or os.environ.get(shop.FOLDER_VARIABLE):
        return draw()
    name = hashlib.sha256("\0".join((kind, *asked)).encode()).hexdigest()[:32]
    place = folder() / name
    try:
        return place.read_text(encoding="utf-8")
    except FileNotFoundError:
        text = draw()
    place.parent.mkdir(parents=True, exist_ok=True)
    # Two processes may draw the same at once.
    beside = place.with_name(f"{name}.{os.getpid()}")
    beside.write_text(text, encoding="utf-8")
    os.replace(beside, place)
    return text
