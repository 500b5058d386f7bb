"""Stands in for collections: named tuples, and the abstract classes under their usual name."""

import _collections_abc as abc
import sys
from _collections import _tuplegetter

sys.modules["collections.abc"] = abc


def namedtuple(name, fields, *, defaults=(), module=None):
    """Return a class of tuples whose places have names."""
    fields = tuple(fields.split() if isinstance(fields, str) else fields)
    given = ", ".join(fields)
    # Written out, so that places can be given by name and Python itself says which are missing.
    new = eval(f"lambda kind, {given}: made(kind, ({given},))", {"made": tuple.__new__})
    new.__defaults__ = tuple(defaults) or None
    space = {
        "__slots__": (),
        "__match_args__": fields,
        "__module__": module,
        "__new__": new,
        "__repr__": _shown,
        "_fields": fields,
        "_replace": _replaced,
    }
    places = {field: _tuplegetter(place, "") for place, field in enumerate(fields)}
    return type(name, (tuple,), space | places)


def _shown(row):
    told = ", ".join(f"{field}={value!r}" for field, value in zip(row._fields, row, strict=True))
    return f"{type(row).__name__}({told})"


def _replaced(row, **others):
    return type(row)(**dict(zip(row._fields, row, strict=True)) | others)
