"""Stands in for inspect: what dataclasses, pkgutil and the runtime take of it, and no more.

A class without a docstring would be given its signature as one; nothing reads it, and working the
signatures out took a good part of every start.
"""

from typing import Any


def get_annotations(found: type) -> dict[str, Any]:
    """Return a class's own annotations."""
    return dict(vars(found).get("__annotations__", {}))


def signature(_: object) -> None:
    """Raise, as for what has no signature."""
    raise TypeError("no signatures")


def getmodulename(path: str) -> str | None:
    """Return the name of the module in a file, None where it is no module."""
    name, dot, ending = path.rpartition("/")[2].partition(".")
    return name if dot and ending in ("py", "pyc") else None


def getattr_static(found: object, name: str, default: object = None) -> object:
    """Return an attribute."""
    return getattr(found, name, default)


def iscoroutinefunction(_: object) -> bool:
    """Return False: there are none."""
    return False


isgeneratorfunction = isasyncgenfunction = iscoroutinefunction
