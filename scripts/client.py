"""The browser side, bundled: the page's script, and the worker's beside the runtime."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

from scripts import _setup
from scripts.runtime import SCRIPT, Runtime

ASSETS = _setup.WORK / "assets"
BUNDLES = _setup.WORK / "bundle"
BUNDLER = _setup.ROOT / "scripts" / "bundle_node.mjs"
SHIM_FIRST = "window.yardstickWorker = window.Worker;\n"


def bundle(entry: str, runtime: Runtime, *, offline: bool = False, carried: str = "") -> str:
    """Return one of the client's entry files, bundled to one classic script.

    `carried` names the script that carries Python in the offline copy.
    """
    _setup.ensure_npm_packages()
    target = BUNDLES / entry.replace(".ts", ".js")
    definitions = {
        "RUNTIME": json.dumps(runtime.manifest),
        "OFFLINE": json.dumps(offline),
        "CARRIED": json.dumps(carried),
    }
    _setup.node(BUNDLER, _setup.CLIENT / entry, target, json.dumps(definitions))
    return target.read_text(encoding="utf-8")


def worker(runtime: Runtime, *, offline: bool = False) -> str:
    """Return the worker's script, with the runtime's own behind it."""
    script = (runtime.folder / SCRIPT).read_text(encoding="utf-8")
    return f"{bundle('worker.ts', runtime, offline=offline)}\n{script}"


def first_script() -> str:
    """Return what stands in the head of every page, as it was last bundled."""
    return (BUNDLES / "first.js").read_text(encoding="utf-8").strip()


def search_stand_in() -> str:
    """Return the script with which search works on pages opened from a file."""
    shim = _setup.ensure_npm_packages() / "iframe-worker" / "shim" / "index.js"
    return SHIM_FIRST + shim.read_text(encoding="utf-8")


def write_assets(runtime: Runtime) -> Path:
    """Write what the pages load besides what docs/assets holds, and return the folder."""
    shutil.rmtree(ASSETS, ignore_errors=True)
    place = ASSETS / str(runtime.manifest["folder"])
    shutil.copytree(runtime.folder, place, ignore=shutil.ignore_patterns(SCRIPT))
    (place / "worker.js").write_text(worker(runtime), encoding="utf-8")
    (ASSETS / "yardstick.js").write_text(bundle("main.ts", runtime), encoding="utf-8")
    bundle("first.ts", runtime)
    return ASSETS
