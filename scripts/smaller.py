"""The runtime's WebAssembly, made smaller by what is known of it here.

The npm package's can be loaded anywhere, with libraries of any kind beside it. Here it is always
loaded at the same place and alone, so `scripts/wasm` works out beforehand what it does at its start
and leaves out what nothing here can reach. Whether Python still answers the same is tried at each
build: see `scripts/runtime.py`.
"""

from __future__ import annotations

from pathlib import Path

from scripts import _node, _setup

WASM = "pyodide.asm.wasm"
TOOL = _setup.ROOT / "scripts" / "smaller_node.mjs"
PARTS = _setup.ROOT / "scripts" / "wasm"


def sources() -> list[Path]:
    """Return the files that decide what comes out."""
    return [Path(__file__), TOOL, *sorted(PARTS.glob("*.mjs"))]


def made_smaller(script: Path) -> dict[str, bytes] | None:
    """Return what to ship in the place of the runtime's WebAssembly, by name.

    `script` is the runtime's own script, as it will be used. None, with a line that says why, where
    the runtime isn't one that is known well enough.
    """
    target = script.with_name("smaller")
    try:
        _node.node(TOOL, script, target)
    except _setup.SetupError as problem:
        _setup.say(f"The runtime is used as it comes: {problem}")
        return None
    return {WASM: target.read_bytes()}


def whole() -> dict[str, bytes]:
    """Return the runtime's WebAssembly as the npm package has it."""
    return {WASM: (_node.ensure_npm_packages() / "pyodide" / WASM).read_bytes()}
