"""Which calculators reach a function or a table, by the names in the code.

Each function, class or constant at the top of a module of `calc` is a place; from it one reaches
the names that its text uses, and the tables whose names stand in it. A calculator starts from all
of its own folder.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
WORKSHEETS = "worksheets"
# What every calculator stands on says nothing about which one a row concerns.
COMMON = ("model", "search", "render", "quantities", "sources", "arith", "errors", "links")


@cache
def _modules() -> dict[str, ast.Module]:
    """The modules of `calc` that compute, by name ("mechanics.lift")."""
    found = {}
    for path in sorted((ROOT / "calc").rglob("*.py")):
        parts = path.relative_to(ROOT / "calc").with_suffix("").parts
        name = ".".join(part for part in parts if part != "__init__")
        if name and parts[0] not in COMMON:
            found[name] = ast.parse(path.read_text(encoding="utf-8"))
    return found


@cache
def _tables() -> frozenset[str]:
    root = ROOT / "calc" / "tables"
    return frozenset(
        path.relative_to(root).with_suffix("").as_posix() for path in root.rglob("*.csv")
    )


@cache
def _imported(name: str) -> dict[str, str]:
    """Return each name that a module imports, with the full name of what it is."""
    found = {}
    for node in ast.walk(_modules()[name]):
        if isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "calc":
            source = (node.module or "")[len("calc") :].lstrip(".")
            for alias in node.names:
                found[alias.asname or alias.name] = f"{source}.{alias.name}".lstrip(".")
    return found


@cache
def _places(name: str) -> dict[str, frozenset[str]]:
    """For each top-level name of a module, the full names that its text uses."""
    module = _modules()[name]
    names = _imported(name)
    own: dict[str, list[ast.stmt]] = {}
    for node in module.body:
        for bound in _bound(node):
            own.setdefault(bound, []).append(node)
    return {
        bound: frozenset(use for node in nodes for use in _uses(node, name, names, own))
        for bound, nodes in own.items()
    }


def _bound(node: ast.stmt) -> list[str]:
    if isinstance(node, ast.FunctionDef | ast.ClassDef):
        return [node.name]
    targets = getattr(node, "targets", None) or [getattr(node, "target", None)]
    found = [target.id for target in targets if isinstance(target, ast.Name)]
    return found or ([] if isinstance(node, ast.Import | ast.ImportFrom) else ["(module)"])


def _uses(
    tree: ast.stmt, here: str, names: dict[str, str], own: dict[str, list[ast.stmt]]
) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            if node.value.id in names:
                yield f"{names[node.value.id]}.{node.attr}"
        elif isinstance(node, ast.Name):
            if node.id in own:
                yield f"{here}.{node.id}"
            elif node.id in names:
                yield names[node.id]
        elif isinstance(node, ast.Constant) and node.value in _tables():
            yield str(node.value)


def _step(place: str) -> frozenset[str]:
    module, _, name = place.rpartition(".")
    if module not in _modules():
        return frozenset()
    found = _places(module)
    # A name that a package hands on is where the package got it.
    handed = _imported(module).get(name)
    return found.get(name, frozenset({handed} if handed else ()))


@cache
def reached(worksheet: str) -> frozenset[str]:
    """Return every place that a calculator's code reaches."""
    folder = f"{WORKSHEETS}.{worksheet.replace('-', '_')}"
    left = [
        f"{module}.{name}"
        for module in _modules()
        if module == folder or module.startswith(f"{folder}.")
        for name in _places(module)
    ]
    seen: set[str] = set()
    while left:
        place = left.pop()
        if place not in seen:
            seen.add(place)
            left += _step(place)
    return frozenset(seen)


@cache
def names() -> tuple[str, ...]:
    """Return the calculators that have a page."""
    from calc import worksheets

    return tuple(name for name in worksheets.names() if worksheets.load(name).page)


@cache
def calculators(of: str) -> tuple[str, ...]:
    """Return the calculators that a row of this function, table or calculator concerns."""
    return tuple(name for name in names() if of == name or of in reached(name))
