"""The runtime's WebAssembly, made smaller by what is known of it here.

The npm package's can be loaded anywhere, with libraries of any kind beside it. Here it is always
loaded at the same place and alone, so `scripts/wasm` works out beforehand what it does at its start
and leaves out what nothing here can reach. Of the rest it splits off the functions that hardly ever
run, which are loaded when one of them is called. Whether Python still answers the same is tried at
each build: see `scripts/runtime.py`.
"""

from __future__ import annotations

from pathlib import Path

from scripts import _node, _setup, archives

WASM = "pyodide.asm.wasm"
# What of it is hardly ever called, and all of it as it comes for when that can't be had.
COLD = "cold.wasm"
WHOLE = "whole.wasm.gz"
TOOL = _setup.ROOT / "scripts" / "smaller_node.mjs"
PARTS = _setup.ROOT / "scripts" / "wasm"
# Which functions run, as `scripts/runs.py` found it.
RUNS = PARTS / "runs.json"


def sources() -> list[Path]:
    """Return the files that decide what comes out."""
    return [Path(__file__), TOOL, RUNS, *sorted(PARTS.glob("*.mjs"))]


def made_smaller(script: Path) -> dict[str, bytes] | None:
    """Return what to ship in the place of the runtime's WebAssembly, by name.

    `script` is the runtime's own script, as it will be used. None, with a line that says why, where
    the runtime isn't one that is known well enough.
    """
    target = script.with_name("smaller")
    target.with_suffix(".cold").unlink(missing_ok=True)
    try:
        _node.node(TOOL, script, target, RUNS)
    except _setup.SetupError as problem:
        _setup.say(f"The runtime is used as it comes: {problem}")
        return None
    cold = target.with_suffix(".cold")
    if not cold.is_file():
        _setup.say("The runtime stays in one file: scripts/wasm/runs.json is of another one.")
        return {WASM: target.read_bytes()}
    as_it_comes = archives.packed(whole()[WASM])
    return {WASM: target.read_bytes(), COLD: cold.read_bytes(), WHOLE: as_it_comes}


def instrumented(script: Path, target: Path) -> None:
    """Write a runtime that notes which of its functions run."""
    _node.node(TOOL, script, target, "instrument")


def whole() -> dict[str, bytes]:
    """Return the runtime's WebAssembly as the npm package has it."""
    return {WASM: (_node.ensure_npm_packages() / "pyodide" / WASM).read_bytes()}
