"""The browser side, bundled: the page's script, and the worker's beside the runtime."""

from __future__ import annotations

import hashlib
import json
import shutil
from pathlib import Path

from scripts import _node, _setup, client_sources
from scripts.runtime import SCRIPT, WORKER, Runtime

ASSETS = _setup.WORK / "assets"
BUNDLES = _setup.WORK / "bundle"
BUNDLER = _setup.ROOT / "scripts" / "bundle_node.mjs"
BUILD = BUNDLES / "build.txt"
SHIM_FIRST = "window.yardstickWorker = window.Worker;\n"


def build_name(runtime: Runtime) -> str:
    """Return a name for all that the pages, the client and the browser's Python share."""
    parts = str(runtime.manifest["folder"]).encode() + client_sources.digest_of("main.ts")
    return hashlib.sha256(parts).hexdigest()[:16]


def bundle(entry: str, runtime: Runtime, *, offline: bool = False, carried: str = "") -> str:
    """Return one of the client's entry files, bundled to one classic script.

    `carried` names the script that carries Python in the offline copy.
    """
    _node.ensure_npm_packages()
    target = BUNDLES / entry.replace(".ts", ".js")
    # Pages only need to know where the worker is.
    wanted = runtime.manifest if entry == WORKER else {"folder", "worker"}
    definitions = {
        "RUNTIME": json.dumps({name: runtime.manifest[name] for name in wanted}, sort_keys=True),
        "OFFLINE": json.dumps(offline),
        "CARRIED": json.dumps(carried),
        "BUILD": json.dumps(build_name(runtime)),
    }
    _node.node(BUNDLER, _node.CLIENT / entry, target, json.dumps(definitions))
    return target.read_text(encoding="utf-8")


def worker(runtime: Runtime, *, offline: bool = False) -> str:
    """Return the worker's script, with the runtime's own behind it."""
    script = (runtime.folder / SCRIPT).read_text(encoding="utf-8")
    return f"{bundle(WORKER, runtime, offline=offline)}\n{script}"


def first_script() -> str:
    """Return what stands in the head of every page, as it was last bundled."""
    return (BUNDLES / "first.js").read_text(encoding="utf-8").strip()


def built() -> str:
    """Return the name of the build that `write_assets` wrote last, for every page to carry."""
    return BUILD.read_text(encoding="utf-8")


def search_stand_in() -> str:
    """Return the script with which search works on pages opened from a file."""
    shim = _node.ensure_npm_packages() / "iframe-worker" / "shim" / "index.js"
    return SHIM_FIRST + shim.read_text(encoding="utf-8")


def write_assets(runtime: Runtime) -> Path:
    """Write what the pages load besides what docs/assets holds, and return the folder."""
    shutil.rmtree(ASSETS, ignore_errors=True)
    place = ASSETS / str(runtime.manifest["folder"])
    shutil.copytree(runtime.folder, place, ignore=shutil.ignore_patterns(SCRIPT))
    (place / "worker.js").write_text(worker(runtime), encoding="utf-8")
    (ASSETS / "yardstick.js").write_text(bundle("main.ts", runtime), encoding="utf-8")
    bundle("first.ts", runtime)
    BUILD.write_text(build_name(runtime), encoding="utf-8")
    return ASSETS
