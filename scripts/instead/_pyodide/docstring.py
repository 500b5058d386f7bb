"""Stands in for the runtime's docstrings: nobody reads them here."""

from typing import Any


def dedent_docstring(text: str) -> str:
    """Return a docstring as it is."""
    return text


def get_cmeth_docstring(function: Any) -> str:
    """Return the least that a compiled function may carry."""
    return f"{function.__name__}()\n--\n\n"
