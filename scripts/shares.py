"""What of the library one calculator can reach: all that a first visit to its page has to fetch.

A module reaches those that it imports anywhere in its text, and the tables whose names stand in it.
So a share holds more than any one answer takes, and none of what belongs to other calculators or
to reading messages. Should something be missing after all, the page takes the whole library.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Collection, Iterable, Mapping

from scripts.archives import Members

START = "calc.render.live"
WORKSHEETS = "calc.worksheets"
# Imported by the start only for what no calculator's page asks: what a message says.
OTHER_JOBS = ("calc.reading",)
# Read by names that are put together.
ALWAYS = ("calc/tables/sources/",)
TABLE = re.compile(r"calc/tables/(.+)[.]csv")


def name_of(worksheet: str) -> str:
    """Return the name of the file that holds a calculator's share."""
    return f"library-{worksheet}.gz"


def _module(path: str) -> str:
    """Return the module in a file ("calc.tables" for "calc/tables/__init__.py"), or ""."""
    name, _, kind = path.rpartition(".")
    return name.removesuffix("/__init__").replace("/", ".") if kind in ("py", "pyc") else ""


class Shares:
    """The shares of a library that was made of these sources."""

    def __init__(self, sources: Mapping[str, bytes]) -> None:
        self._modules = {_module(path): data for path, data in sources.items() if _module(path)}
        self._tables = {found[1] for found in map(TABLE.fullmatch, sources) if found}
        self._reached: dict[str, tuple[set[str], set[str]]] = {}

    def of(self, worksheet: str, library: Members) -> Members:
        """Return what the questions of a calculator can reach of the library."""
        modules, tables = self._closure(worksheet)

        def is_reached(path: str) -> bool:
            table = TABLE.fullmatch(path)
            if not path.startswith("calc/") or path.startswith(ALWAYS):
                return True
            if table:
                return table[1] in tables
            # Which calculators there are is read from their folders.
            folder, _, file = path.rpartition("/")
            is_folder = folder.rpartition("/")[0] == WORKSHEETS.replace(".", "/")
            return _module(path) in modules or (is_folder and file.startswith("__init__."))

        return {path: data for path, data in library.items() if is_reached(path)}

    def _closure(self, worksheet: str) -> tuple[Collection[str], Collection[str]]:
        modules: set[str] = set()
        tables: set[str] = set()
        waiting = [START, *self._folder(f"{WORKSHEETS}.{worksheet.replace('-', '_')}")]
        while waiting:
            module = waiting.pop()
            if module in modules or module.startswith(OTHER_JOBS):
                continue
            modules.add(module)
            found, named = self._of_module(module)
            waiting += found
            tables |= named
        return modules, tables

    def _folder(self, package: str) -> list[str]:
        return [module for module in self._modules if f"{module}.".startswith(f"{package}.")]

    def _of_module(self, module: str) -> tuple[set[str], set[str]]:
        """Return the modules that one imports, what these stand in, and the tables named."""
        if module not in self._reached:
            nodes = list(ast.walk(ast.parse(self._modules[module])))
            named = {module, *_imported(nodes)}
            named |= {name.rpartition(".")[0] for name in named}
            # The words of a folder are looked for under this name.
            named |= {f"{name}.compiled_words" for name in named}
            named |= {each for name in _loaded(nodes) for each in self._folder(name)}
            texts = {
                node.value
                for node in nodes
                if isinstance(node, ast.Constant) and isinstance(node.value, str)
            }
            ours = {name for name in named if name.startswith("calc") and name in self._modules}
            self._reached[module] = ours, texts & self._tables
        return self._reached[module]


def _imported(nodes: Iterable[ast.AST]) -> set[str]:
    """Return the full names that these import, be they modules or what is in them."""
    found: set[str] = set()
    for node in nodes:
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            found |= {f"{node.module}.{alias.name}" for alias in node.names}
    return found


def _loaded(nodes: Iterable[ast.AST]) -> set[str]:
    """Return the packages of the worksheets that these load by name."""
    return {
        f"{WORKSHEETS}.{node.args[0].value.replace('-', '_')}"
        for node in nodes
        if isinstance(node, ast.Call)
        and ast.unparse(node.func).endswith("worksheets.load")
        and isinstance(node.args[0], ast.Constant)
        and isinstance(node.args[0].value, str)
    }
