"""The runtime's WebAssembly made smaller: what it relies on, and what happens where it can't."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from scripts import _node, _setup, runtime, smaller, vectors

NO_LIBRARY: dict[str, bytes] = {}
# The smallest module that is loaded anywhere: data and a table at places that it is told, and an
# address in its data that it works out.
SMALL = """
import { IMPORTED, OP, read, write } from "PLACE/module.mjs";
import { prelinked } from "PLACE/prelink.mjs";
import { split } from "PLACE/split.mjs";

const type = (parameters, results) => {
  const bytes = Uint8Array.of(0x60, parameters.length, ...parameters, results.length, ...results);
  return { parameters, results, bytes };
};
const told = (name) => ({ module: "env", name, kind: 3, description: [0x7f, 0] });
const limits = { memory: [0, 1], __indirect_function_table: [0x70, 0, 4] };
const lies = (name, kind) => ({ module: "env", name, kind, description: limits[name] });
const functions = [
  [0, 0x0b],                                                        // the start
  [0, 0x23, 0, 0x23, 0, 0x41, 3, 0x6a, 0x36, 2, 4, 0x0b],           // data[4] = base + 3
  [0, 0x23, 0, 0x41, 3, 0x6a, 0x2d, 0, 0, 0x0b],                    // the byte at base + 3
  [0, 0x41, 9, 0x0b],                                               // of the table
  [0, 0x41, 8, 0x0b],                                               // that nothing reaches
];
const types = [0, 0, 1, 1, 1];
const whole = write({
  custom: [], memories: [], tables: [], tags: [], globals: [],
  types: [type([], []), type([], [0x7f])],
  imports: [
    lies("memory", 2), lies("__indirect_function_table", 1),
    told("__memory_base"), told("__table_base"),
  ],
  functions: functions.map((body, n) => ({ type: types[n], body: Uint8Array.from(body) })),
  exports: ["__wasm_apply_data_relocs", "seven", "unused"].map((name, n) => (
    { name, kind: 0, index: [1, 2, 2][n] }
  )),
  start: 0,
  elements: [{ table: 0, offset: { op: OP.getGlobal, value: 1 }, functions: [3] }],
  data: [{ offset: { op: OP.getGlobal, value: 0 }, bytes: Uint8Array.of(0, 0, 0, 7, 0, 0, 0, 0) }],
});
const run = (bytes, base) => {
  const memory = new WebAssembly.Memory({ initial: 1 });
  const table = new WebAssembly.Table({ initial: 4, element: "anyfunc" });
  const env = {
    memory, __indirect_function_table: table,
    __memory_base: new WebAssembly.Global({ value: "i32" }, base),
    __table_base: new WebAssembly.Global({ value: "i32" }, 1),
  };
  const { exports } = new WebAssembly.Instance(new WebAssembly.Module(bytes), { env });
  exports.__wasm_apply_data_relocs();
  const seven = exports.seven();
  return { table, seven, memory: new Uint8Array(memory.buffer).slice(1024) };
};
const { memory } = run(whole, 1024);
const globals = { "env.__memory_base": 1024, "env.__table_base": 1 };
const words = new Set(["__wasm_apply_data_relocs", "seven"]);
const done = (known) => prelinked(whole, { globals: { ...globals, ...known }, memory }, words);
"""


def small(script: str) -> Any:
    """Return what a script of the smallest module prints."""
    text = (SMALL + script).replace("PLACE", smaller.PARTS.as_uri())
    return json.loads(_node.node("--input-type=module", "--eval", text))


def test_what_is_known_beforehand_is_worked_out_and_the_rest_left_out() -> None:
    found = small(
        """
const before = run(whole, 1024), module = done({}), after = run(write(module), 1024);
console.log(JSON.stringify({
  addresses: [before, after].map(({ memory }) => [...memory.slice(4, 8)]),
  answers: [before, after].map(({ seven }) => seven),
  table: after.table.get(1)(),
  functions: module.functions.length,
  exports: module.exports.map(({ name }) => name),
  imports: module.imports.map(({ name }) => name),
}));
"""
    )
    address = list((1024 + 3).to_bytes(4, "little"))
    assert found["addresses"] == [address, address]
    assert found["answers"] == [7, 7]
    assert found["table"] == 9
    assert found["functions"] == 3
    assert found["exports"] == ["__wasm_apply_data_relocs", "seven"]
    assert found["imports"] == ["memory", "__indirect_function_table"]


@pytest.mark.parametrize(
    "known", [{"env.__memory_base": 2048}, {"env.__table_base": 2}, {"env.__memory_base": None}]
)
def test_another_place_is_refused(known: Mapping[str, int | None]) -> None:
    with pytest.raises(_setup.SetupError, match="where its data and table begin"):
        small(f"done({json.dumps(known)})")


@pytest.mark.parametrize("hot", [[], [0], [1], [0, 1], [2]])
def test_what_is_split_off_is_loaded_once_and_called_alike(hot: list[int]) -> None:
    """An exported function and one of the table, each in either file."""
    found = small(
        f"const stays = {hot};"
        """
const module = done({});
const { first, second } = split(module, ({ index }) => stays.includes(index - 1));
let loads = 0;
const memory2 = new WebAssembly.Memory({ initial: 1 });
const table = new WebAssembly.Table({ initial: 4, element: "anyfunc" });
const env = { memory: memory2, __indirect_function_table: table };
const load = () => {
  loads += 1;
  const rest = new WebAssembly.Module(write(second));
  new WebAssembly.Instance(rest, { env, first: instance.exports });
};
const started = new WebAssembly.Module(write(first));
const instance = new WebAssembly.Instance(started, { env, cold: { load } });
const before = loads;
const answers = [instance.exports.seven(), instance.exports.seven(), table.get(1)()];
console.log(JSON.stringify({
  before, loads, answers, second: second.functions.length, all: module.functions.length,
}));
"""
    )
    assert found["answers"] == [7, 7, 9]
    assert found["before"] == 0
    # The functions with the indices 1 to 3 are left: the relocations, `seven`, and the table's.
    assert found["second"] == found["all"] - len([n for n in hot if n < 3])
    called = {1, 2} - set(hot)
    assert found["loads"] == (1 if called else 0)


def test_an_unknown_instruction_is_refused() -> None:
    code = "const module = read(whole); module.functions[4].body = Uint8Array.of(0, 0xfd, 0x0b);"
    known = "prelinked(write(module), { globals, memory }, words);"
    with pytest.raises(_setup.SetupError, match="instruction 253 is not known"):
        small(code + known)


def test_requests_are_drawn_by_their_seed_alone() -> None:
    assert vectors.fresh(5) == vectors.fresh(5) != vectors.fresh(6)
    assert len(set(vectors.fresh(5))) > 20


@pytest.mark.parametrize("told", ["probe", "drawn", None])
def test_a_runtime_that_answers_otherwise_is_not_used(
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    told: str | None,
) -> None:
    """Whichever of the answers differs; the runtime as it comes is used then, and that is said."""
    shipped: list[bytes] = []

    def written(_npm: Path, _library: object, _script: Path, wasm: Any, probes: Any) -> Any:
        shipped.append(wasm[smaller.WASM])
        return runtime.Runtime(tmp_path, {}), ["otherwise" if told == "probe" else "a"] * len(
            probes
        )

    monkeypatch.setattr(runtime, "FOLDER", tmp_path)
    monkeypatch.setattr(runtime, "_script", lambda source: b"")
    monkeypatch.setattr(runtime, "_write", written)
    monkeypatch.setattr(smaller, "made_smaller", lambda script: {smaller.WASM: b"smaller"})
    monkeypatch.setattr(smaller, "whole", lambda: {smaller.WASM: b"whole"})
    later = ["otherwise" if told == "drawn" else "b"]
    monkeypatch.setattr(runtime, "answer_all", lambda *_, **__: later)
    questions = runtime.Questions(("one",), 5, ("a", "b"))
    runtime._smaller_if_alike(tmp_path, NO_LIBRARY, questions)
    assert shipped == ([b"smaller", b"whole"] if told else [b"smaller"])
    assert ("as it comes" in capsys.readouterr().out) == bool(told)


def test_a_runtime_that_is_not_known_is_used_as_it_comes(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    script = tmp_path / "script.js"
    script.write_text("throw new Error('another runtime')")
    assert smaller.made_smaller(script) is None
    assert "another runtime" in capsys.readouterr().out
