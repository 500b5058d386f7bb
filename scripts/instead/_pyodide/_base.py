"""Stands in for the runtime's ways to run text: it runs four lines of its own, the worker none."""

from importlib import import_module
from types import ModuleType
from typing import Any


def eval_code(text: str, space: dict[str, Any] | None = None, *_: object, **__: object) -> Any:
    """Run statements with semicolons between them; return what the last one gives."""
    before, _semicolon, last = text.rpartition(";")
    names = {} if space is None else space
    exec(before, names)
    return eval(last.strip(), names)


def pyimport_impl(path: str) -> ModuleType:
    """Import a module."""
    return import_module(path)


def should_quiet(_: str) -> bool:
    """Whether the text ends in a semicolon, for who prints what it gives: nobody."""
    return True
