"""Notes what a program imports, opens and compiles. Runs in the browser's Python, under node."""

import dataclasses
import json
import sys
from typing import Any

ZIP = "/lib/python313.zip/"

_opened: set[str] = set()
_written: set[str] = set()


def _note(event: str, given: tuple[Any, ...]) -> None:
    if event == "open" and isinstance(given[0], str):
        _opened.add(given[0])


def _execute(text: str, module: dict[str, Any], names: dict[str, Any]) -> None:
    _written.add(text)
    exec(text, module, names)


def found(place: str) -> str:
    """Return, as JSON, the files used of the standard library and below `place`.

    With them the sources of the methods that dataclasses wrote.
    """
    packages = {path.removeprefix(f"{place}/") for path in _opened if path.startswith(f"{place}/")}
    library: set[str] = set()
    for module in list(sys.modules.values()):
        file = getattr(module, "__file__", None) or ""
        if file.startswith(ZIP):
            library.add(file.removeprefix(ZIP))
    parts = {"library": library, "packages": packages, "written": _written}
    return json.dumps({name: sorted(files) for name, files in parts.items()})


sys.dont_write_bytecode = True
sys.addaudithook(_note)
vars(dataclasses)["exec"] = _execute
