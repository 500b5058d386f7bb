"""Numbers for prose. Each module here holds `FACTS`: a function for each number's name."""

from __future__ import annotations

from calc.render._found import make


def fact(name: str) -> str:
    """Return the number called `name` as text.

    Raises
    ------
    UnknownName
        When there is none.
    """
    found: str = make(__name__, "FACTS", "value", name)
    return found
