"""Build the site and show it on this machine alone."""

from __future__ import annotations

import argparse
import functools
import http.server
import os
import shutil
import sys
import threading
import time
import webbrowser
from collections.abc import Iterable
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _setup, build

WATCHED = ("calc", "docs", "scripts", "mkdocs.yml")
LOOK_EVERY = 1.0


class Handler(http.server.SimpleHTTPRequestHandler):
    """Serves the built folder; a page is never kept, so that a rebuild shows at once."""

    extensions_map = {  # noqa: RUF012
        **http.server.SimpleHTTPRequestHandler.extensions_map,
        ".js": "text/javascript",
        ".wasm": "application/wasm",
        ".webmanifest": "application/manifest+json",
    }
    protocol_version = "HTTP/1.1"

    def end_headers(self) -> None:
        """Add the one header that a site under work needs."""
        self.send_header("Cache-Control", "no-cache")
        super().end_headers()

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing for each request."""


class Server(http.server.ThreadingHTTPServer):
    """A server to which a browser that hangs up is no news."""

    def handle_error(self, request: object, client_address: object) -> None:
        """Report every error but a closed connection."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


def server(folder: Path, port: int = 0) -> Server:
    """Return a server of `folder` on the loopback address; port 0 takes any free one."""
    return Server(("127.0.0.1", port), functools.partial(Handler, directory=str(folder)))


def _newest(places: Iterable[Path]) -> float:
    """Return the time of the newest change in files and folders."""
    newest = 0.0
    for top in places:
        for path in top.rglob("*") if top.is_dir() else [top]:
            if "__pycache__" not in path.parts and path.is_file():
                newest = max(newest, path.stat().st_mtime)
    return newest


def _rebuild_on_change(out: Path, lists: Path | None) -> None:
    places = [*(_setup.ROOT / name for name in WATCHED), *([lists] if lists else [])]
    seen = _newest(places)
    while True:
        time.sleep(LOOK_EVERY)
        now = _newest(places)
        if now == seen:
            continue
        seen = now
        fresh = out.with_name(f"{out.name}-next")
        try:
            build.build(fresh, kept=False, settings=build.shop_settings(lists))
        except _setup.SetupError as problem:
            print(problem, file=sys.stderr)
            continue
        shutil.rmtree(out, ignore_errors=True)
        os.replace(fresh, out)
        _setup.say("Rebuilt.")


def main() -> int:
    """Build, serve, and open the browser."""
    parser = argparse.ArgumentParser(prog="scripts/serve.py", description=__doc__)
    parser.add_argument("--port", type=int, default=8000)
    parser.add_argument("--no-open", action="store_true", help="leave the browser alone")
    parser.add_argument("--shop", type=Path, metavar="FOLDER", help="a dealer's own lists")
    parser.add_argument("--watch", action="store_true", help="rebuild whenever a file changes")
    options = parser.parse_args()
    # Two of them at work, on two ports, don't build over each other.
    out = _setup.WORK / f"serve-{options.port}"
    try:
        _setup.ensure_environment()
        shutil.rmtree(out, ignore_errors=True)
        # A page that the browser keeps would hide the next change.
        settings = build.shop_settings(options.shop)
        build.build(out, kept=not options.watch, settings=settings)
    except _setup.SetupError as problem:
        print(problem, file=sys.stderr)
        return 1
    try:
        serving = server(out, options.port)
    except OSError as problem:
        print(f"Port {options.port} can't be used: {problem}. Try --port 8001.", file=sys.stderr)
        return 1
    address = f"http://127.0.0.1:{serving.server_address[1]}/"
    if options.watch:
        threading.Thread(target=_rebuild_on_change, args=(out, options.shop), daemon=True).start()
    _setup.say(f"Yardstick is at {address}  (Ctrl+C ends it)")
    if not options.no_open:
        webbrowser.open(address)
    try:
        serving.serve_forever()
    except KeyboardInterrupt:
        print()
    finally:
        serving.server_close()
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
