"""Which of the client's modules an entry is made of: what names it, names what it stands on."""

from __future__ import annotations

import re
from pathlib import Path

from scripts import _node, digests

IMPORT = re.compile(r'from "\./(\w+)"')


def sources_of(entry: str) -> list[Path]:
    """Return the files of `entry` ("worker.ts") and of all that it imports from the client."""
    found: dict[str, Path] = {}
    waiting = [entry]
    while waiting:
        name = waiting.pop()
        if name in found:
            continue
        found[name] = _node.CLIENT / name
        text = found[name].read_text(encoding="utf-8")
        waiting += [f"{module}.ts" for module in IMPORT.findall(text)]
    return [found[name] for name in sorted(found)]


def digest_of(entry: str) -> bytes:
    """Return a digest of the content of everything that `entry` is made of."""
    return digests.digest(path.read_bytes() for path in sources_of(entry))
