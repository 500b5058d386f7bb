"""What something is named after that is made again only once its sources changed."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from pathlib import Path


def digest(parts: Iterable[bytes]) -> bytes:
    """Return a digest of parts in their order, in which none runs into the next."""
    total = hashlib.sha256()
    for part in parts:
        total.update(hashlib.sha256(part).digest())
    return total.digest()


def named(paths: Iterable[Path], folder: Path) -> Iterator[bytes]:
    """Return the name of each file below a folder, and its content."""
    for path in paths:
        yield path.relative_to(folder).as_posix().encode()
        yield path.read_bytes()
