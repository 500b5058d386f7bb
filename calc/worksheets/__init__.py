"""The calculators, one module each, found by file name and loaded when asked for."""

import pkgutil
from functools import cache
from importlib import import_module

from calc.errors import UnknownName
from calc.worksheet import Worksheet


@cache
def names() -> tuple[str, ...]:
    """Return the name of every worksheet, sorted."""
    modules = {module.name for module in pkgutil.iter_modules(__path__)}
    return tuple(sorted(name.replace("_", "-") for name in modules if name[0] != "_"))


@cache
def load(name: str) -> Worksheet:
    """Return the worksheet called `name`.

    Raises
    ------
    UnknownName
        When there is none.
    """
    if name not in names():
        raise UnknownName(f"There is no worksheet called {name!r}.")
    module = import_module(f"calc.worksheets.{name.replace('-', '_')}")
    sheet = module.WORKSHEET
    assert isinstance(sheet, Worksheet) and sheet.name == name
    return sheet
