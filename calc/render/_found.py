"""What the modules of a folder offer under one name, such as every table or every number."""

from __future__ import annotations

import pkgutil
from functools import cache
from importlib import import_module
from typing import Any

from calc.errors import UnknownName


@cache
def offered(package: str, attribute: str) -> dict[str, Any]:
    """Return every maker that the modules of a folder offer, by name."""
    found: dict[str, Any] = {}
    for module in pkgutil.iter_modules(import_module(package).__path__, f"{package}."):
        if not module.name.startswith(f"{package}._"):
            found.update(getattr(import_module(module.name), attribute))
    return found


def make(package: str, attribute: str, what: str, name: str) -> Any:
    """Return what the maker called `name` makes.

    Parameters
    ----------
    package
        The folder's name, such as "calc.render.tables".
    attribute
        The mapping from names to makers that each of its modules holds.
    what
        What is made, for the sentence when there is none.

    Raises
    ------
    UnknownName
        When no module offers that name.
    """
    try:
        maker = offered(package, attribute)[name]
    except KeyError:
        raise UnknownName(f"There is no {what} called {name!r}.") from None
    return maker()
