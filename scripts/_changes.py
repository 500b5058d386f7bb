"""Small changes of the code: drawn with cosmic-ray's operators, and put in place while it runs."""

from __future__ import annotations

import ast
import gc
import inspect
import random
import sys
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from types import CodeType, FunctionType, ModuleType
from typing import Any

from scripts._setup import ROOT

# On the numbers of this package these can't be computed at all, so that any run notices.
IDLE = ("BitOr", "BitAnd", "BitXor", "LShift", "RShift", "VariableReplacer", "VariableInserter")
DECORATORS = "RemoveDecorator"  # most keep results, or say what only a proof needs

Position = tuple[int, int]


@dataclass
class Mutant:
    """One change of one module."""

    path: str  # below the project's folder
    line: int
    last: int
    before: str
    after: str
    source: str
    inside: bool  # a function
    seen: str = ""  # "caught", "survived" or "not reached"

    def __str__(self) -> str:
        return f"{self.path}:{self.line}  {self.before}  →  {self.after}"


def _inside(tree: ast.AST) -> Iterator[tuple[Position, Position]]:
    """Give from where to where the bodies of functions run."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            end = node.body[-1]
            yield (
                (node.body[0].lineno, node.body[0].col_offset),
                (end.end_lineno or 0, end.end_col_offset or 0),
            )


def _said_only(tree: ast.AST) -> Iterator[tuple[Position, Position]]:
    """Give where annotations stand, of which nothing is computed."""
    for node in ast.walk(tree):
        for name in ("annotation", "returns"):
            said = getattr(node, name, None)
            if said is not None:
                yield (said.lineno, said.col_offset), (said.end_lineno, said.end_col_offset)


def _statements(tree: ast.AST) -> dict[int, tuple[int, int]]:
    """Give the lines of the smallest statement around each line."""
    around: dict[int, tuple[int, int]] = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.stmt):
            first, last = node.lineno, node.end_lineno or node.lineno
            for block in ("body", "orelse"):
                inner = getattr(node, block, None)
                if inner and not isinstance(inner, ast.expr):
                    last = min(last, max(first, inner[0].lineno - 1))
            for handler in getattr(node, "handlers", ()):
                around[handler.lineno] = handler.body[0].lineno, handler.body[0].lineno
            for line in range(first, last + 1):
                known = around.get(line)
                if known is None or last - first <= known[1] - known[0]:
                    around[line] = first, last
    return around


def _within(place: Position, spans: Iterable[tuple[Position, Position]]) -> bool:
    return any(first <= place < last for first, last in spans)


def mutants(path: str, rng: random.Random, count: int) -> list[Mutant]:
    """Draw places of a module, and one change at each; what changes nothing is drawn anew."""
    from cosmic_ray import plugins
    from cosmic_ray.ast import ast_nodes, get_ast
    from cosmic_ray.mutating import mutate_code

    source = (ROOT / path).read_text(encoding="utf-8")
    tree = ast.parse(source)
    inside, said = list(_inside(tree)), list(_said_only(tree))
    statements = _statements(tree)
    nodes = list(ast_nodes(get_ast(source)))
    places: dict[Position, list[tuple[str, int]]] = defaultdict(list)
    for name in sorted(plugins.operator_names()):
        if any(word in name for word in (*IDLE, DECORATORS)):
            continue
        operator = plugins.get_operator(name)()
        found = (place for node in nodes for place in operator.mutation_positions(node))
        for occurrence, (start, _) in enumerate(found):
            if not _within(start, said):
                places[start].append((name, occurrence))
    drawn = list(places)
    rng.shuffle(drawn)
    made: list[Mutant] = []
    for place in drawn:
        if len(made) == count:
            break
        name, occurrence = rng.choice(places[place])
        changed = mutate_code(source, plugins.get_operator(name)(), occurrence)
        try:
            if changed is None or ast.dump(ast.parse(changed)) == ast.dump(tree):
                continue
        except SyntaxError:
            continue
        first, last = statements.get(place[0], (place[0], place[0]))
        before, after = _lines(source, changed)
        made.append(
            Mutant(
                path,
                first,
                last,
                before,
                after,
                changed,
                _within(place, inside),
            )
        )
    return made


def _lines(source: str, changed: str) -> tuple[str, str]:
    """Return the lines that differ, before and after."""
    pairs = zip(source.splitlines(), changed.splitlines(), strict=False)
    for before, after in pairs:
        if before != after:
            return before.strip(), after.strip()
    return "", ""


# --- putting a change in place ------------------------------------------------------------------


def codes(code: CodeType) -> Iterator[CodeType]:
    yield code
    for inner in code.co_consts:
        if isinstance(inner, CodeType):
            yield from codes(inner)


def functions() -> dict[str, list[FunctionType]]:
    """Return every function that lives in the package, by its file."""
    found: dict[str, list[FunctionType]] = defaultdict(list)
    for thing in gc.get_objects():
        if isinstance(thing, FunctionType) and thing.__code__.co_filename.startswith(str(ROOT)):
            found[thing.__code__.co_filename].append(thing)
    return found


def kept() -> list[Any]:
    """Return everything that keeps results of the package's functions."""
    return [
        thing
        for thing in gc.get_objects()
        if hasattr(type(thing), "cache_clear")
        and getattr(thing, "__module__", "").startswith("calc")
    ]


def put(mutant: Mutant, functions: Iterable[FunctionType], kept: Iterable[Any]) -> None:
    """Let a module do what its changed source says, and forget what was worked out before.

    Its functions take the changed code and the changed defaults; a changed constant is also put
    wherever it was imported by its name.
    """
    name = mutant.path.removesuffix(".py").replace("/", ".")
    true, changed = sys.modules[name], ModuleType(name)
    changed.__file__ = true.__file__
    code = compile(mutant.source, str(ROOT / mutant.path), "exec")
    by_name = {(one.co_qualname, one.co_firstlineno): one for one in codes(code)}
    if not mutant.inside:
        exec(code, changed.__dict__)
        for named, value in vars(changed).items():
            _replace(true, named, value)
    for function in functions:
        one = by_name.get((function.__code__.co_qualname, function.__code__.co_firstlineno))
        if one is not None and one.co_freevars == function.__code__.co_freevars:
            function.__code__ = one
    for thing in kept:
        thing.cache_clear()


def _replace(module: ModuleType, name: str, value: Any) -> None:
    """Put what a changed module has under a name in place of what the true one has."""
    old = getattr(module, name, None)
    if name.startswith("__") or getattr(value, "__module__", module.__name__) != module.__name__:
        return
    if isinstance(value, type) and isinstance(old, type):
        for inner, function in vars(value).items():
            if isinstance(function, FunctionType) and isinstance(vars(old)[inner], FunctionType):
                _take_defaults(vars(old)[inner], function)
    elif callable(value):
        old, value = inspect.unwrap(old or value), inspect.unwrap(value)
        if isinstance(old, FunctionType) and isinstance(value, FunctionType):
            _take_defaults(old, value)
    elif isinstance(value, ModuleType) or repr(value) == repr(old):
        return
    else:
        for other in list(sys.modules.values()):
            if getattr(other, "__dict__", {}).get(name) is old:
                setattr(other, name, value)


def _take_defaults(old: FunctionType, new: FunctionType) -> None:
    old.__defaults__, old.__kwdefaults__ = new.__defaults__, new.__kwdefaults__
