"""What stands in for a module of the standard library does what that module does.

Of what all answers rest on, such as typing or enum, the answers are the test: they are compared
byte for byte with those of Python as it comes (`test_runtime.py`).
"""

from __future__ import annotations

import collections
import contextlib
import csv
import dataclasses
import functools
import importlib.util
import io
import pkgutil
import shutil
import sys
import zipfile
from pathlib import Path
from types import ModuleType
from typing import Any
from urllib import parse

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from scripts import runtime


def instead(name: str) -> ModuleType:
    """Load what stands in for a module, beside that module."""
    place = runtime.INSTEAD / f"{name.replace('.', '/')}.py"
    spec = importlib.util.spec_from_file_location(f"instead_{name.replace('.', '_')}", place)
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


LINKS, TABLES, AROUND, TYPES = map(instead, ("urllib.parse", "csv", "contextlib", "typing"))
KEEPING, DATA, PACKED = map(instead, ("functools", "dataclasses", "pkgutil"))
# It says which module the abstract classes are, which this Python knows already.
ROWS = instead("collections.__init__")


@given(st.text(), st.sampled_from(["", "*", "/?"]))
def test_text_is_quoted_alike(text: str, safe: str) -> None:
    assert LINKS.quote_plus(text, safe=safe) == parse.quote_plus(text, safe=safe)


@given(st.text("ab=&+%2C3e9E2fäß ;#", max_size=40))
@example("a=%E2%82%ACb&c=%C3&d=%zz&&e&=f&g=1=2&h=%e4%BD%A0+%2B")
def test_queries_are_read_alike(query: str) -> None:
    wanted = parse.parse_qsl(query, keep_blank_values=True)
    assert LINKS.parse_qsl(query, keep_blank_values=True) == wanted


@pytest.mark.parametrize("is_packed", [True, False])
def test_a_folders_modules_are_found_alike(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, is_packed: bool
) -> None:
    archive = tmp_path / "packed.zip"
    files = ("__init__.py", "b.pyc", "b.py", "a.py", "words.csv", "in/__init__.pyc", "in/c.py")
    with zipfile.ZipFile(archive, "w") as made:
        for each in (*files, "no/d.py"):
            made.writestr(f"packed_folder/{each}", f"content = {each!r}\n")
    if not is_packed:
        shutil.unpack_archive(archive, tmp_path / "open")
        archive = tmp_path / "open"
    folder = [f"{archive}/packed_folder"]
    wanted = [(each.name, each.ispkg) for each in pkgutil.iter_modules(folder, "packed_folder.")]
    assert [name for name, _ in wanted] == [f"packed_folder.{each}" for each in ("a", "b", "in")]
    found = PACKED.iter_modules(folder, "packed_folder.")
    assert [(each.name, each.ispkg) for each in found] == wanted
    monkeypatch.syspath_prepend(archive)
    monkeypatch.delitem(sys.modules, "packed_folder", raising=False)
    for module in (PACKED, pkgutil):
        assert module.get_data("packed_folder", "words.csv") == b"content = 'words.csv'\n"
        with pytest.raises(OSError):
            module.get_data("packed_folder", "none.csv")


@pytest.mark.parametrize("text", ["a,b\n1,2\n", 'a,b\r\n"1,\n""2""",\r\n\r\n3,4\r\n', "a\n"])
def test_tables_are_read_alike(text: str) -> None:
    both = [list(each.DictReader(io.StringIO(text, newline=""))) for each in (TABLES, csv)]
    assert both[0] == both[1]


@pytest.mark.parametrize("module", [AROUND, contextlib])
def test_what_stands_around_a_block_sees_how_it_ends(module: Any) -> None:
    seen: list[object] = []

    def around(swallow: bool = False) -> Any:
        """Around."""
        try:
            yield "inside"
        except KeyError as error:
            seen.append(error)
            if not swallow:
                raise
        finally:
            seen.append("after")

    managed = module.contextmanager(around)
    assert managed.__doc__ == "Around."
    with managed() as inside:
        seen.append(inside)
    with managed(swallow=True):
        raise KeyError(1)
    with pytest.raises(KeyError, match="2"), managed():
        raise KeyError(2)
    with pytest.raises(ValueError, match="3"), managed(swallow=True):
        raise ValueError(3)
    kinds = [each if isinstance(each, str) else "error" for each in seen]
    assert kinds == ["inside", "after", "error", "after", "error", "after", "after"]


@pytest.mark.parametrize("module", [AROUND, contextlib])
def test_what_stands_around_a_block_yields_once(module: Any) -> None:
    def twice() -> Any:
        yield 1
        yield 2

    with pytest.raises(RuntimeError), module.contextmanager(twice)():
        pass


@pytest.mark.parametrize("module", [ROWS, collections])
def test_rows_have_names(module: Any) -> None:
    made = module.namedtuple("Row", "a b c", defaults=["x"], module="here")
    row = made(1, b=2)
    assert row == (1, 2, "x") and (row.a, row.c) == (1, "x")
    assert repr(row._replace(b=3)) == "Row(a=1, b=3, c='x')"
    assert (made.__module__, made._fields) == ("here", ("a", "b", "c"))
    match row:
        case made(_, 2):
            pass
        case _:
            pytest.fail("A place is not matched.")
    for wrong in ((1,), (1, 2, 3, 4)):
        with pytest.raises(TypeError):
            made(*wrong)
    assert module.namedtuple("Pair", ["a", "b"])(1, 2)._fields == ("a", "b")


@pytest.mark.parametrize("module", [KEEPING, functools])
def test_values_are_kept(module: Any) -> None:
    asked: list[int] = []

    def twice(number: int) -> int:
        """Twice."""
        asked.append(number)
        return 2 * number

    kept = module.cache(twice)
    assert [kept(1), kept(1), kept(2)] == [2, 2, 4] and asked == [1, 2]
    kept.cache_clear()
    last = module.lru_cache(maxsize=1)(twice)
    assert [kept(1), last(3), last(4), last(3)] == [2, 6, 8, 6] and asked == [1, 2, 1, 3, 4, 3]
    assert (kept.__name__, kept.__doc__, kept.__wrapped__) == ("twice", "Twice.", twice)
    assert module.wraps(twice)(lambda: 0).__qualname__ == twice.__qualname__
    assert module.reduce(lambda a, b: a * b, module.partial(range, 1)(5)) == 24


@pytest.mark.parametrize("module", [KEEPING, functools])
def test_attributes_are_worked_out_once_and_functions_chosen_by_class(module: Any) -> None:
    class Counted:
        times = 0

        def more(self) -> int:
            self.times += 1
            return self.times

        once = module.cached_property(more)
        once.__set_name__(None, "once")

    counted = Counted()
    assert (counted.once, counted.once, counted.times) == (1, 1, 1)
    named = module.singledispatch(lambda _, end="": f"any{end}")
    named.register(int, lambda _, end="": f"whole{end}")
    assert [named("a"), named(True), named(1.0, "!")] == ["any", "whole", "any!"]


def test_a_named_tuple_has_its_places_defaults_and_methods() -> None:
    space = {
        "__annotations__": {"a": "int", "b": "str"},
        "__module__": __name__,
        "__qualname__": "Row",
        "__doc__": "A row.",
        "b": "x",
        "both": lambda self: f"{self.a}{self.b}",
    }
    made = type(TYPES.NamedTuple)("Row", (TYPES.NamedTuple,), space)
    row = made(1)
    assert row == (1, "x") and row._replace(b="y").both() == "1y"
    assert repr(row) == "Row(a=1, b='x')" and made.__doc__ == "A row."
    with pytest.raises(TypeError):
        made()


def test_a_protocol_is_met_by_its_methods() -> None:
    base: Any = TYPES.Protocol

    class Shown(base):  # type: ignore[misc]
        def show(self) -> str:
            return ""

    class Own:
        def show(self) -> str:
            return "own"

    assert not isinstance(Own(), Shown)
    TYPES.runtime_checkable(Shown)
    assert isinstance(Own(), Shown) and isinstance(Own(), str | Shown)
    assert not isinstance("text", Shown)


def test_any_name_of_typing_can_be_written() -> None:
    assert TYPES.Literal["a"] | None is not None
    assert TYPES.overload(len) is len
    with pytest.raises(AttributeError):
        _ = TYPES.__path__


def _kinds(module: Any) -> dict[str, Any]:
    """Return classes of data, made with one module or the other."""

    @module.dataclass(frozen=True, slots=True)
    class Point:
        x: float
        y: float = 2.0
        names: list[str] = module.field(default_factory=list, compare=False, repr=False)

        def moved(self, by: float) -> Any:
            return module.replace(self, x=self.x + by)

    @module.dataclass(frozen=True, slots=True)
    class Named(Point):
        name: str = ""

        def __repr__(self) -> str:
            return f"<{self.name}>"

    @module.dataclass
    class Kept:
        given: dict[str, int]
        runs: int = module.field(default=0, init=False)
        _: dataclasses.KW_ONLY
        most: int = 3

        def __post_init__(self) -> None:
            self.runs += len(self.given)

    @module.dataclass(frozen=True)
    class Odd:
        a: int

        def __eq__(self, other: object) -> bool:
            return isinstance(other, Odd)

    return {each.__name__: each for each in (Point, Named, Kept, Odd)}


@pytest.mark.parametrize("module", [DATA, dataclasses])
def test_classes_hold_data_alike(module: Any) -> None:
    kinds = _kinds(module)
    Point, Named, Kept, Odd = kinds.values()
    one, same = Point(1.0), Point(1.0, names=["a"])
    assert (one.x, one.y, one.names) == (1.0, 2.0, []) and one.names is not Point(1.0).names
    assert one == same and hash(one) == hash(same) and one != Point(1.0, 3.0) and one != 1.0
    assert repr(one).endswith("Point(x=1.0, y=2.0)")
    assert one.moved(2.0) == Point(3.0) and one.moved(2.0).names is one.names
    assert len({one, same, Point(2.0)}) == 2
    assert Named(1.0, name="n") != one and repr(Named(1.0, name="n")) == "<n>"
    assert Named.__match_args__ == ("x", "y", "names", "name")
    assert Named.__slots__ == ("name",) and Point.__slots__ == ("x", "y", "names")
    assert [each.name for each in module.fields(Named)] == ["x", "y", "names", "name"]
    for wrong in ((), (1, 2, 3, 4)):
        with pytest.raises(TypeError):
            Point(*wrong)
    for change in (lambda: setattr(one, "x", 2.0), lambda: delattr(one, "x")):
        with pytest.raises(AttributeError, match="x"):
            change()
    with pytest.raises((AttributeError, TypeError)):
        one.z = 1
    kept = Kept({"a": 1})
    assert (kept.runs, kept.most, Kept({}, most=4).most) == (1, 3, 4)
    with pytest.raises(TypeError):
        Kept({}, 5)
    with pytest.raises(TypeError):
        hash(kept)
    kept.most = 9
    assert kept != Kept({"a": 1}) and kept == Kept({"a": 1}, most=9)
    assert Odd(1) == Odd(2) and hash(Odd(1)) == hash(Odd(1)) and Odd(1).a == 1
