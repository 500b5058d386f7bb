"""A tire's size as it is typed into a field."""

from __future__ import annotations

from typing import Any

from calc.errors import InputError


def read_size(text: str) -> Any:
    """Return a tire size as a `tire_size.Designation`, for a field.

    Raises
    ------
    InputError
        When a part of it can't be read.
    """
    # Imported here: most worksheets have no tire in them, and the first answer shouldn't wait.
    from calc.mechanics import tire_size

    try:
        return tire_size.decode(text)
    except tire_size.SizeError as error:
        raise InputError(str(error)) from None
