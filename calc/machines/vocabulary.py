"""The fields that describe a tractor, an implement and a job, each under one name everywhere.

A worksheet takes its machine fields from here (`field("tractor_mass", example="1,550 lb")`),
so that a machine kept on a device, a row of a dealer's list and a link fill every worksheet.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

from calc.machines import implement_fields, job_fields, tractor_fields
from calc.model import AnyField, worded
from calc.model.wording import read_words


@cache
def _described() -> dict[str, dict[str, AnyField]]:
    """Return what describes a tractor, an implement and a job."""
    said = read_words("calc.machines")["fields"]
    modules = {"tractor": tractor_fields, "implement": implement_fields, "job": job_fields}
    return {
        role: {item.name: item for item in worded(module.fields(), said)}
        for role, module in modules.items()
    }


@cache
def _fields() -> dict[str, AnyField]:
    return {name: item for found in _described().values() for name, item in found.items()}


def field(name: str, **changes: Any) -> AnyField:
    """Return a field of the vocabulary, with some of its properties replaced.

    Raises
    ------
    LookupError
        When the vocabulary has no such field.
    """
    try:
        found = _fields()[name]
    except KeyError:
        raise LookupError(f"The vocabulary has no field {name!r}.") from None
    return replace(found, **changes) if changes else found


def names() -> tuple[str, ...]:
    """Return the name of every field of the vocabulary."""
    return tuple(_fields())


def role(name: str) -> str:
    """Return "tractor", "implement" or "job" for a field of the vocabulary, else ""."""
    return next((role for role, found in _described().items() if name in found), "")
