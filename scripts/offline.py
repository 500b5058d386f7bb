"""The offline copy: the same site, opened by double-clicking index.html, without a server.

A page opened from a file may not fetch anything, so one classic script carries the browser's
Python: the worker as text, its other parts gzipped and in base64.
"""

from __future__ import annotations

import base64
import json
import shutil
import zipfile
from pathlib import Path

from scripts import _setup, archives, client, smaller
from scripts.runtime import LIBRARY, PACKED_WASM, WASM, Runtime

NAME = "yardstick-offline"
ASSETS = _setup.WORK / "assets-offline"
CARRIED = "carried.js"
ZIP = f"assets/{NAME}.zip"
# The page that offers the zip is written while the copy is; its size is put in afterwards.
SIZE = "<!-- the size of the offline copy stands here -->"


def _carried(runtime: Runtime) -> str:
    """Return the script that carries everything a server would have given."""
    packed = {
        WASM: (runtime.folder / PACKED_WASM).read_bytes(),
        LIBRARY: (runtime.folder / LIBRARY).read_bytes(),
    }
    if runtime.manifest["cold"]:
        rest = (runtime.folder / smaller.COLD).read_bytes()
        packed[smaller.COLD] = archives.packed(rest)
    parts = {name: base64.b64encode(data).decode("ascii") for name, data in packed.items()}
    script = client.worker(runtime, offline=True)
    carried = json.dumps({"worker": script, "parts": parts}, ensure_ascii=False)
    return f"window.yardstickCarried = {carried};\n"


def write_assets(runtime: Runtime) -> Path:
    """Write what the offline pages load, and return the folder."""
    shutil.rmtree(ASSETS, ignore_errors=True)
    ASSETS.mkdir(parents=True)
    (ASSETS / CARRIED).write_text(_carried(runtime), encoding="utf-8")
    page_script = client.bundle("main.ts", runtime, carried=CARRIED)
    (ASSETS / "yardstick.js").write_text(page_script, encoding="utf-8")
    (ASSETS / "iframe-worker.js").write_text(client.search_stand_in(), encoding="utf-8")
    return ASSETS


def zip_folder(folder: Path) -> Path:
    """Return a zip beside `folder` that unpacks to a folder called yardstick-offline."""
    target = folder.with_name(f"{folder.name}.zip")
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for path in sorted(folder.rglob("*")):
            if path.is_file():
                archive.write(path, Path(NAME) / path.relative_to(folder))
    return target


def offer(archive: Path, site: Path) -> None:
    """Put the zip into a written site, and its size into the page that offers it."""
    shutil.copyfile(archive, site / ZIP)
    size = f"{archive.stat().st_size / 1e6:.1f}"
    for page in site.rglob("*.html"):
        content = page.read_text(encoding="utf-8")
        if SIZE in content:
            page.write_text(content.replace(SIZE, size), encoding="utf-8")
