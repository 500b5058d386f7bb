"""How many published values each calculator was checked against."""

from __future__ import annotations

from calc import tables


def _count(name: str) -> str:
    return tables.by_key("words/published_checks", "worksheet")[name]["rows"]


FACTS = {
    f"checks.{row['worksheet']}": lambda name=row["worksheet"]: _count(name)
    for row in tables.rows("words/published_checks")
}
