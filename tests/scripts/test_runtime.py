"""The browser's Python, run by node: trimmed, compiled, and equal to native Python."""

from __future__ import annotations

import dataclasses
import gzip
import hashlib
import json
import marshal
import shutil
from pathlib import Path
from typing import Any

import pytest

from calc.render import live
from scripts import _node, _setup, archives, beforehand, runtime, smaller, vectors


@pytest.fixture(scope="module")
def built() -> runtime.Runtime:
    """The finished runtime."""
    with _setup.one_at_a_time():
        return runtime.build()


@pytest.mark.parametrize("from_memory", [True, False])
def test_the_trimmed_runtime_answers_every_worksheet_like_native_python(
    built: runtime.Runtime, from_memory: bool
) -> None:
    """All that may be asked from the memory, which has no library; some of all from the library.

    Byte for byte: the same HTML, the same numbers. A module that is missing shows as a fault.
    """
    requests = vectors.requests() if from_memory else vectors.probes()
    answers = runtime.answer_all(requests, built, from_memory=from_memory)
    assert len(answers) == len(requests) > 50
    for request, answer in zip(requests, answers, strict=True):
        assert answer == live.respond(request), request


def test_whatever_is_split_off_answers_alike(built: runtime.Runtime, tmp_path: Path) -> None:
    """With every function in the second file, each call goes through what stands in for it."""
    runs = tmp_path / "runs.json"
    known = json.loads(smaller.RUNS.read_text())
    runs.write_text(json.dumps({**known, "functions": "0"}))
    target = tmp_path / "smaller"
    _node.node(smaller.TOOL, built.folder / runtime.SCRIPT, target, runs)
    folder = tmp_path / "runtime"
    shutil.copytree(built.folder, folder)
    shutil.copyfile(target, folder / smaller.WASM)
    shutil.copyfile(target.with_suffix(".cold"), folder / smaller.COLD)
    assert (folder / smaller.COLD).stat().st_size > 3e6
    requests = vectors.probes()[:8]
    answers = runtime.answer_all(requests, runtime.Runtime(folder, built.manifest))
    assert answers == [live.respond(request) for request in requests]
    (folder / smaller.COLD).unlink()
    with pytest.raises(_setup.SetupError, match=r"cold[.]wasm"):
        runtime.answer_all(requests, runtime.Runtime(folder, built.manifest))


def test_the_functions_that_run_are_of_the_runtime_that_is_used(built: runtime.Runtime) -> None:
    as_it_comes = hashlib.sha256(smaller.whole()[smaller.WASM]).hexdigest()
    assert json.loads(smaller.RUNS.read_text())["sha256"] == as_it_comes
    assert built.manifest["cold"] is not None


def test_a_missing_module_shows(built: runtime.Runtime, tmp_path: Path) -> None:
    library = archives.unpack((built.folder / "library.gz").read_bytes())
    gone = {name: data for name, data in library.items() if not name.startswith("csv.")}
    assert len(gone) == len(library) - 1
    folder = tmp_path / "runtime"
    shutil.copytree(built.folder, folder)
    (folder / "library.gz").write_bytes(archives.pack(gone))
    with pytest.raises(_setup.SetupError, match="csv"):
        runtime.answer_all(vectors.requests()[:1], runtime.Runtime(folder, built.manifest))


def test_everything_is_compiled_and_small(built: runtime.Runtime) -> None:
    members = list(archives.unpack((built.folder / "library.gz").read_bytes()))
    assert [each for each in members if each.endswith((".py", ".so"))] == []
    library = (built.folder / "library.gz").stat().st_size
    packed_wasm = (built.folder / runtime.PACKED_WASM).stat().st_size
    script = len(gzip.compress((built.folder / runtime.SCRIPT).read_bytes()))
    # What a first visit fetches where the host sends text gzipped.
    assert library + packed_wasm + script < 3.0e6
    # Of which a page with one calculator fetches half (test_shares).
    assert library < 1.12e6
    assert (built.folder / "memory.gz").stat().st_size < 6e6
    # As it comes the runtime is twice as large.
    assert (built.folder / runtime.WASM).stat().st_size < 4.6e6
    assert packed_wasm < 1.9e6
    assert {
        "re/__init__.pyc",
        "dataclass_methods.pyc",
        "htpy/__init__.pyc",
        "calc/worksheets/pairing/compute.pyc",
    } <= set(members)
    assert not any(each.startswith("calc/render/facts/") for each in members)
    assert any(each.startswith("calc/tables/") and each.endswith(".csv") for each in members)
    assert not any("micropip" in each for each in members)
    # Frozen into the runtime, and what stands in for the largest of the others.
    assert not {"os.pyc", "asyncio/__init__.pyc", "tempfile.pyc", "ast.pyc"} & set(members)
    assert "asyncio.pyc" in members
    # Whole, the runtime's own script is three times as long.
    assert (built.folder / runtime.SCRIPT).stat().st_size < 4e5


def test_methods_compiled_beforehand_are_those_that_dataclasses_write(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    written: list[str] = []

    def note(text: str, module: dict[str, object], names: dict[str, object]) -> None:
        written.append(text)
        exec(text, module, names)

    def made() -> Any:
        fields = [("a", int), ("b", str, dataclasses.field(default="x"))]
        return dataclasses.make_dataclass("Pair", fields, frozen=True, slots=True)

    monkeypatch.setattr(dataclasses, "exec", note, raising=False)
    usual = made()
    exec(compile(beforehand.dataclass_methods(written), "beforehand", "exec"), {})
    ours = made()
    assert len(written) == 1
    assert ours.__init__.__code__.co_filename == "beforehand"
    assert ours.__init__.__globals__ is usual.__init__.__globals__
    assert repr(ours(1)) == repr(usual(1)) == "Pair(a=1, b='x')"
    assert ours(1) == ours(1, "x") != ours(2)
    with pytest.raises(dataclasses.FrozenInstanceError):
        ours(1).a = 2
    dataclasses.make_dataclass("Other", ["c"])  # which was not written beforehand


def test_both_compilers_give_modules_that_run_alike(tmp_path: Path) -> None:
    source = tmp_path / "source.zip"
    source.write_bytes(
        archives.write_zip({"one.py": b'"""Doc."""\nX = 3 * 7\n', "t.csv": b"a\n1\n"})
    )
    inside = archives.read_zip(runtime.byte_compile(source, inside_runtime=True))
    assert sorted(inside) == ["one.pyc", "t.csv"]
    assert inside["t.csv"] == b"a\n1\n"
    outside = archives.read_zip(runtime.byte_compile(source))
    assert sorted(outside) == ["one.pyc", "t.csv"]
    space: dict[str, object] = {}
    exec(marshal.loads(outside["one.pyc"][16:]), space)
    assert space["X"] == 21
    # The same magic number and flags, so either loads in the browser.
    assert inside["one.pyc"][:8] == outside["one.pyc"][:8]


def test_compiled_modules_know_their_lines_but_no_columns(tmp_path: Path) -> None:
    source = tmp_path / "source.zip"
    source.write_bytes(archives.write_zip({"one.py": b"def f(a, b):\n    return a / b\n"}))
    for inside in (True, False):
        compiled = archives.read_zip(runtime.byte_compile(source, inside_runtime=inside))
        space: dict[str, Any] = {}
        exec(marshal.loads(compiled["one.pyc"][16:]), space)
        lines = {(line, column) for line, _, column, _ in space["f"].__code__.co_positions()}
        assert lines == {(1, None), (2, None)}


def test_the_same_sources_give_the_same_folder(built: runtime.Runtime) -> None:
    with _setup.one_at_a_time():
        again = runtime.build()
    assert again.folder == built.folder
    assert json.dumps(again.manifest) == json.dumps(built.manifest)


def test_the_memory_is_the_same_at_any_time_and_on_any_machine(
    built: runtime.Runtime, tmp_path: Path
) -> None:
    questions = tmp_path / "requests.json"
    questions.write_text(json.dumps([vectors.known()]))
    manifest = tmp_path / "manifest.json"
    manifest.write_text(json.dumps(built.manifest))
    made = [tmp_path / "one", tmp_path / "two"]
    for target in made:
        script = built.folder / runtime.SCRIPT
        _node.node(runtime.PROBE, "snapshot", script, manifest, questions, target)
    one, two = (target.read_bytes() for target in made)
    assert one == two
    for text in (str(_setup.ROOT), str(tmp_path)):
        assert text.encode() not in one
