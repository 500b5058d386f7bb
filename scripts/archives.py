"""Zips that depend on what is in them alone."""

from __future__ import annotations

import gzip
import io
import zipfile
from collections.abc import Callable, Mapping
from pathlib import Path, PurePosixPath

FIXED_DATE = (2020, 1, 1, 0, 0, 0)
# Rooms whose folders hold files of the same names and much the same content.
ALIKE = {"calc/worksheets"}

Members = dict[str, bytes]


def write_zip(
    members: Mapping[str, bytes],
    *,
    stored: bool = False,
    order: Callable[[str], tuple[str, ...]] | None = None,
) -> bytes:
    """Return a zip of `members` that depends on their content alone.

    They stand in the order of their names, or of what `order` makes of these.
    """
    out = io.BytesIO()
    method = zipfile.ZIP_STORED if stored else zipfile.ZIP_DEFLATED
    with zipfile.ZipFile(out, "w", method, compresslevel=9) as archive:
        for name in sorted(members, key=order):
            info = zipfile.ZipInfo(name, FIXED_DATE)
            info.compress_type = method
            archive.writestr(info, members[name])
    return out.getvalue()


def read_zip(data: bytes | Path) -> Members:
    """Return the files in a zip."""
    with zipfile.ZipFile(io.BytesIO(data) if isinstance(data, bytes) else data) as archive:
        return {n: archive.read(n) for n in archive.namelist() if not n.endswith("/")}


def packed(data: bytes) -> bytes:
    """Return `data` gzipped, the same whenever it is done."""
    return gzip.compress(data, compresslevel=9, mtime=0)


def _like_beside_like(name: str) -> tuple[str, ...]:
    """Return the place of a file among those of its kind, with its namesakes next door beside it.

    gzip finds what was said before only in the last 32 kB, and every worksheet has the same few
    files.
    """
    folder, _, file = name.rpartition("/")
    kind = PurePosixPath(file).suffix
    room = folder.rpartition("/")[0]
    return (kind, room, file, name) if room in ALIKE else (kind, name)


def pack(members: Mapping[str, bytes]) -> bytes:
    """Return `members` as the worker takes them: a stored zip, gzipped."""
    return packed(write_zip(members, stored=True, order=_like_beside_like))


def unpack(data: bytes) -> Members:
    """Return the files in what `pack` gives."""
    return read_zip(gzip.decompress(data))
