"""Parts that a dealer attaches to remedies: number, price, and whether it is in stock.

A build or a request says which parts there are (`stock`); whatever shows a remedy asks for its
line (`said`). A part names the remedies that it is for by their keys, "pairing.suitcase_weights",
or by the last word alone, which is then meant wherever a worksheet has it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from calc import worksheets
from calc.model import Remedy

TEXTS = ("number", "name", "price", "stock")
LONGEST_TEXT = 80
MOST = 500


@dataclass(frozen=True, slots=True)
class Part:
    """One part: which remedies it is for, and what is said of it."""

    remedies: tuple[str, ...]
    number: str = ""
    name: str = ""
    price: str = ""
    stock: str = ""

    def sentence(self) -> str:
        """What a dealer says of it: "Part W-42, 42 lb suitcase weight: $95, in stock."."""
        what = ", ".join(filter(None, [f"part {self.number}" if self.number else "", self.name]))
        terms = ", ".join(filter(None, [self.price, self.stock]))
        said = ": ".join(filter(None, [what, terms]))
        return f"{said[:1].upper()}{said[1:].rstrip('.')}." if said else ""


_shelf: tuple[Part, ...] = ()


def stock(given: object) -> None:
    """Set the parts that are shown from now on; whatever isn't a part is left out.

    Parameters
    ----------
    given
        A list of mappings, as `as_data` gives them; anything else clears the shelf.
    """
    global _shelf
    items = given if isinstance(given, (list, tuple)) else ()
    _shelf = tuple(part for item in items[:MOST] if (part := read(item)) is not None)


def read(item: object) -> Part | None:
    """Return one part from its data; None when it is none."""
    if isinstance(item, Part):
        return item
    if not isinstance(item, Mapping):
        return None
    wanted = item.get("for", ())
    keys = (wanted,) if isinstance(wanted, str) else wanted
    if not isinstance(keys, (list, tuple)) or not all(isinstance(key, str) for key in keys):
        return None
    texts = {name: " ".join(_told(name, item.get(name)).split())[:LONGEST_TEXT] for name in TEXTS}
    return Part(tuple(keys), **texts) if keys else None


def _told(name: str, value: object) -> str:
    """Return what a value says: a bare price is dollars, a bare stock is how many there are."""
    if name == "stock" and isinstance(value, bool):
        return "in stock" if value else "not in stock"
    if isinstance(value, bool) or value is None or value == "":
        return ""
    if isinstance(value, (int, float)) and name == "price":
        return f"${value:,.2f}".removesuffix(".00")
    if isinstance(value, int) and name == "stock":
        return f"{value:,} in stock" if value > 0 else "not in stock"
    return str(value)


def as_data(part: Part) -> dict[str, Any]:
    """Return a part as the data that a page sends back with a question."""
    return {"for": list(part.remedies), **{name: getattr(part, name) for name in TEXTS}}


def of(remedy: Remedy) -> tuple[Part, ...]:
    """Return the parts for a remedy, in the dealer's order."""
    if not remedy.key:
        return ()
    names = {remedy.key, remedy.key.partition(".")[2]}
    return tuple(part for part in _shelf if names & set(part.remedies))


def said(remedy: Remedy) -> str:
    """Return what the dealer says of the parts for a remedy; "" for none."""
    return " ".join(filter(None, (part.sentence() for part in of(remedy))))


@cache
def keys() -> dict[str, str]:
    """Return the key of every remedy that a part can be attached to, with its words."""
    found: dict[str, str] = {}
    for name in worksheets.names():
        for key, text in worksheets.load(name).words.get("remedies", {}).items():
            found[f"{name}.{key}"] = text if isinstance(text, str) else str(text["label"])
    return found


def unknown(wanted: Iterable[str]) -> list[str]:
    """Return those of some keys that no worksheet has a remedy for."""
    known = {*keys(), *(key.partition(".")[2] for key in keys())}
    return [key for key in wanted if key not in known]
