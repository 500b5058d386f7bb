"""One direction only: a room imports what stands above it in the contributors' guide."""

import ast
import re
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
GUIDE = ROOT / "DEVELOPERS.md"
OUTSIDE = {"render": {"htpy", "markupsafe"}}
FILES = sorted((ROOT / "calc").rglob("*.py"))


def rooms_in_order():
    """The rooms as the first column of the guide's table names them, from the ground up."""
    table = GUIDE.read_text(encoding="utf-8").partition("## The rooms")[2].partition("\n\n#")[0]
    rows = [line.split("|")[1] for line in table.splitlines() if line.startswith("| `calc/")]
    return [re.findall(r"`calc/(\w+)", cell) for cell in rows]


ORDER = {room: place for place, rooms in enumerate(rooms_in_order()) for room in rooms}


def room_of(path):
    return path.relative_to(ROOT / "calc").with_suffix("").parts[0]


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


def test_guide_names_every_room():
    assert {room_of(path) for path in FILES} - {"__init__"} == set(ORDER)


@pytest.mark.parametrize("path", FILES, ids=lambda p: str(p.relative_to(ROOT)))
def test_imports_point_one_way(path):
    room = room_of(path)
    if room == "__init__":
        return
    for name in imported(path):
        top, _, rest = name.partition(".")
        if top == "calc":
            target = rest.partition(".")[0]
            same = target == room
            assert not target or same or ORDER[target] < ORDER[room], f"{path.name} imports {name}"
        else:
            allowed = top in sys.stdlib_module_names or top in OUTSIDE.get(room, set())
            assert allowed, f"{path.name} imports {name}"


def test_no_circle():
    """Within a room too, no module needs itself by way of others."""
    edges = {}
    for path in FILES:
        name = ".".join(("calc", *path.relative_to(ROOT / "calc").with_suffix("").parts))
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for node in tree.body:
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("calc"):
                names = [f"{node.module}.{alias.name}" for alias in node.names]
                edges.setdefault(name, set()).update([node.module, *names])
    modules = set(edges)
    seen = set()

    def visit(name, trail):
        assert name not in trail, " -> ".join([*trail, name])
        if name in seen:
            return
        seen.add(name)
        for target in sorted(edges.get(name, set()) & modules):
            visit(target, [*trail, name])

    for name in sorted(modules):
        visit(name, [])
