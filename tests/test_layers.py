"""One direction only: a room imports what stands above it in the contributors' guide."""

import ast
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
ROOMS = {  # what each room may import from calc
    "errors": set(),
    "tables": set(),
    "sources": {"tables"},
    "quantities": {"tables", "errors"},
    "mechanics": {"tables", "mechanics"},
    "worksheet": {"quantities", "errors", "explore", "picture"},  # the last two for types alone
    "picture": {"worksheet"},
    "explore": {"worksheet", "quantities", "errors"},
    "vocabulary": {"worksheet", "quantities", "mechanics", "tables", "errors"},
    "pairing": {"worksheet", "worksheets", "mechanics", "tables"},
    "worksheets": {
        "worksheet", "worksheets", "explore", "picture", "vocabulary", "quantities", "mechanics",
        "tables", "errors", "pairing", "sources",
    },
    "machines": {"worksheet", "vocabulary", "tables", "errors"},
    "matrix": {
        "worksheet", "worksheets", "explore", "quantities", "errors", "render", "machines",
    },
    "render": {
        "worksheet", "worksheets", "explore", "picture", "vocabulary", "quantities", "mechanics",
        "tables", "errors", "pairing", "sources", "render", "matrix", "machines",
    },
}  # fmt: skip
OUTSIDE = {"render": {"htpy", "markupsafe"}}

FILES = sorted((ROOT / "calc").rglob("*.py"))


def imported(path):
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            module = node.module or ""
            if module == "calc":
                yield from (f"calc.{alias.name}" for alias in node.names)
            else:
                yield module


@pytest.mark.parametrize("path", FILES, ids=lambda p: str(p.relative_to(ROOT)))
def test_imports_point_one_way(path):
    parts = path.relative_to(ROOT / "calc").with_suffix("").parts
    room = parts[0]
    if room in ("__init__", "__main__"):
        return
    for name in imported(path):
        if name.split(".")[0] == "calc":
            target = name.split(".")[1] if "." in name else ""
            assert target in ROOMS[room] or target == "", f"{path.name} imports {name}"
        else:
            top = name.split(".")[0]
            allowed = top in sys.stdlib_module_names or top in OUTSIDE.get(room, set())
            assert allowed, f"{path.name} imports {name}"


def test_every_room_is_known():
    rooms = {p.relative_to(ROOT / "calc").with_suffix("").parts[0] for p in FILES}
    assert rooms - {"__init__", "__main__"} <= set(ROOMS)
