"""Numbers for prose. Each module here holds `FACTS`: a function for each number's name."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from importlib import import_module
from pathlib import Path

from calc.errors import UnknownName


@cache
def _makers() -> dict[str, Callable[[], str]]:
    found: dict[str, Callable[[], str]] = {}
    for path in sorted(Path(__file__).parent.glob("*.py*")):
        if path.stem[0] != "_":
            found.update(import_module(f"calc.render.facts.{path.stem}").FACTS)
    return found


def fact(name: str) -> str:
    """Return the number called `name` as text.

    Raises
    ------
    UnknownName
        When there is none.
    """
    try:
        return _makers()[name]()
    except KeyError:
        raise UnknownName(f"There is no value called {name!r}.") from None
