"""Build the site, the browser's Python with it, and with --offline the offline copy."""

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

import argparse
import os
import subprocess
import time
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING

from scripts import _environment, _setup, place, shop

if TYPE_CHECKING:
    from scripts.runtime import Runtime


def _arguments(words: list[str] | None = None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="scripts/build.py", description=__doc__)
    parser.add_argument("--out", type=Path, default=_setup.ROOT / "site", metavar="DIR")
    parser.add_argument(
        "--offline",
        action="store_true",
        help="also make the folder DIR-offline and its zip, for use without a server",
    )
    parser.add_argument("--shop", type=Path, metavar="FOLDER", help="a dealer's own lists")
    parser.add_argument("--strict", action="store_true", help="stop at a bad row of the shop's")
    parser.add_argument(
        "--not-kept",
        action="store_true",
        help="the readers' devices don't keep the site, and give up what they kept of it",
    )
    parser.add_argument("--site-url", metavar="URL", help="where the site will stand, if known")
    return parser.parse_args(words)


def shop_settings(folder: Path | None, *, strict: bool = False) -> dict[str, str]:
    """Name what is wrong in a shop's lists, and return what building with them takes.

    With `strict` one problem is enough to stop; without a folder there is nothing to set.
    """
    if folder is None:
        return {}
    if not os.path.isdir(folder):
        raise _setup.SetupError(f"There is no folder {folder}.")
    if not os.access(folder, os.R_OK | os.X_OK):
        raise _setup.SetupError(f"The folder {folder} may not be opened: its rights forbid it.")
    problems = shop.read(folder).problems
    for problem in problems:
        print(problem, file=sys.stderr)
    if problems and strict:
        raise _setup.SetupError(f"Nothing was built: --strict, and {len(problems)} to put right.")
    return {shop.FOLDER_VARIABLE: str(folder.resolve())}


def _render_pages(out: Path, settings: dict[str, str]) -> None:
    """Let MkDocs write the pages into `out`."""
    environment = {
        **os.environ,
        **settings,
        "YARDSTICK_SITE_DIR": str(out),
        "PYTHONDONTWRITEBYTECODE": "1",
        "NO_MKDOCS_2_WARNING": "1",
    }
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--strict"]
    done = subprocess.run(command, cwd=_setup.ROOT, env=environment, text=True, capture_output=True)
    if done.returncode != 0:
        raise _setup.SetupError(f"The site could not be built.\n{done.stderr.strip()[-6000:]}")


def build(
    out: Path,
    *,
    offline: bool = False,
    kept: bool = True,
    settings: dict[str, str] | None = None,
) -> None:
    """Build the site into `out` (an absolute path), and the offline copy beside it.

    The site offers the zip of the offline copy when both are built together. With `kept` false
    the readers' devices don't keep the site for use without signal.
    """
    from scripts import finish, runtime
    from scripts.offline import NAME

    settings = settings or {}
    place.check(out)
    copy = out.with_name(f"{out.name}-offline")
    packed = copy.with_name(f"{copy.name}.zip")
    if offline:
        place.check(copy)
        place.check_file(packed, ours=place.is_our_zip(packed, NAME))
    with _setup.one_at_a_time(), place.beside(out) as work:
        made = runtime.build()
        fresh = {name: work / name for name in ("site", "offline")}
        archive = _write(fresh["site"], fresh["offline"] if offline else None, settings, made)
        finish.finish(fresh["site"], kept=kept)
        place.mark(fresh["site"])
        if archive:
            place.put(fresh["offline"], copy)
            os.replace(archive, packed)
        place.put(fresh["site"], out)


def _write(out: Path, copy: Path | None, settings: dict[str, str], made: "Runtime") -> Path | None:
    """Write the pages of the site, and of the offline copy with its zip, which is returned."""
    from scripts import client, drawn, offline

    drawn.forget_others()
    assets = client.write_assets(made)
    renderings = {out: {"YARDSTICK_ASSETS": str(assets)}}
    if copy:
        renderings[out]["YARDSTICK_COPY"] = "true"
        renderings[copy] = {
            "YARDSTICK_ASSETS": str(offline.write_assets(made)),
            "YARDSTICK_OFFLINE": "true",
            "YARDSTICK_DIRECTORY_URLS": "false",
        }
    # Both are written at once: each is a process that takes one processor.
    with ThreadPoolExecutor() as pool:
        written = [
            pool.submit(_render_pages, folder, {**settings, **apart})
            for folder, apart in renderings.items()
        ]
    for each in written:
        each.result()
    if not copy:
        return None
    place.mark(copy)
    archive = offline.zip_folder(copy)
    offline.offer(archive, out)
    return archive


def _place_of_list(out: Path) -> Path:
    """Return where the list of what the site contains belongs; refuse to write over another."""
    from scripts import contents

    place.check(out)
    listed = out.with_name(f"{out.name}.cdx.json")
    place.check_file(listed, ours=contents.is_our_bill(listed))
    return listed


def _list_contents(out: Path, listed: Path, offline: bool) -> None:
    """Write beside the site which software of others is in it."""
    from scripts import contents, finish

    found = contents.components(offline=offline)
    listed.write_text(contents.bill(found, finish.version_of(out)), encoding="utf-8")


def main(words: list[str] | None = None) -> int:
    """Build, and say where the result is."""
    options = _arguments(words)
    started = time.monotonic()
    _environment.ensure_environment()
    settings = shop_settings(options.shop, strict=options.strict)
    if options.site_url:
        settings["YARDSTICK_SITE_URL"] = options.site_url
    out = place.absolute(options.out)
    listed = _place_of_list(out)
    build(out, offline=options.offline, kept=not options.not_kept, settings=settings)
    _list_contents(out, listed, options.offline)
    _setup.say(f"Built {out} in {time.monotonic() - started:.0f} s.")
    return 0


if __name__ == "__main__":
    _setup.command(main)
