"""Where sources disagree: what is used here and why, and what the others would have said."""

from __future__ import annotations

from functools import cache

from calc import model, quantities, tables
from calc.sources import unique

TITLE = "Where sources disagree"
NONE_READ = "No other source was read."


@cache
def differences(worksheet: str) -> model.Table | None:
    """Return the table of a worksheet, None where it shows the others by itself.

    Examples
    --------
    >>> differences("closing").rows[0][0], differences("rollout")
    ('Braking that a stop is reckoned with', None)
    """
    rows = [row for row in tables.rows("words/other_sources") if row["worksheet"] == worksheet]
    if not rows:
        return None
    return model.Table(
        TITLE,
        ("What", "Used here", "Why", "What others say"),
        tuple(
            (
                row["about"],
                model.Phrase(row["used"] + ".", _numbers(row["numbers"])),
                row["why"][:1].upper() + row["why"][1:] + ".",
                model.Phrase(
                    f"{row['others']}." if row["others"] else NONE_READ, _numbers(row["numbers"])
                ),
            )
            for row in rows
        ),
        unique(";".join(f"{row['used_source']};{row['others_source']}" for row in rows)),
    )


def _numbers(text: str) -> dict[str, model.Number]:
    """Read "name=11.2 ft/s2=kind|...", each in the reader's units later."""
    found: dict[str, model.Number] = {}
    for part in filter(None, text.split("|")):
        name, value, kind = part.split("=")
        found[name] = (quantities.base(value, kind), kind)
    return found
