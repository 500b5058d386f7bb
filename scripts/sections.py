"""Pages whose figures scripts write: each has its sections, under headings of its own."""

from __future__ import annotations

from pathlib import Path


def put(page: Path, heading: str, text: str) -> None:
    """Put a section (its heading is the first line of `text`) in place of the one before.

    Every other section stays as it is; a section that is new comes last.
    """
    before, found, rest = page.read_text(encoding="utf-8").partition(f"{heading}\n")
    after = rest.partition("\n## ")
    others = f"\n## {after[2]}" if found and after[1] else ""
    page.write_text(f"{before.rstrip()}\n\n{text.rstrip()}\n{others}", encoding="utf-8")
