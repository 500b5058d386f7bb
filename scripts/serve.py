"""Build the site and show it on this machine alone."""

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

import argparse
import errno
import functools
import http.server
import os
import threading
import time
import webbrowser
from collections.abc import Iterable
from http import HTTPStatus
from urllib.parse import urlsplit

from scripts import _environment, _setup, build, headers

WATCHED = ("calc", "docs", "scripts", "mkdocs.yml")
LOOK_EVERY = 1.0
LAST_PORT = 65535
PORTS_TRIED = 100


class Handler(http.server.SimpleHTTPRequestHandler):
    """Serves a built folder as the page about hosting asks of a host, headers included."""

    extensions_map = {  # noqa: RUF012
        **http.server.SimpleHTTPRequestHandler.extensions_map,
        ".js": "text/javascript",
        ".wasm": "application/wasm",
        ".webmanifest": "application/manifest+json",
    }
    protocol_version = "HTTP/1.1"

    def address(self) -> str:
        """Return the address that is asked for, as seen from the site's first page."""
        return urlsplit(self.path).path

    def end_headers(self) -> None:
        """Send what the build names for this address; what it doesn't name isn't kept either."""
        wanted = headers.sent(Path(self.directory), self.address())
        for name, value in (wanted or {"Cache-Control": "no-cache"}).items():
            self.send_header(name, value)
        super().end_headers()

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        """Send the site's own page where nothing is found, as a host does."""
        page = Path(self.directory) / "404.html"
        if code != HTTPStatus.NOT_FOUND or not page.is_file():
            super().send_error(code, message, explain)
            return
        body = page.read_bytes()
        self.send_response(code, message)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(body)

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing for each request."""


class Server(http.server.ThreadingHTTPServer):
    """A server to which a browser that hangs up is no news."""

    # Elsewhere this only spares the wait after an earlier server; there it takes a port away.
    allow_reuse_address = os.name != "nt"

    def handle_error(self, request: object, client_address: object) -> None:
        """Report every error but a closed connection."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


def server(folder: Path, port: int = 0) -> Server:
    """Return a server of `folder` on the loopback address; port 0 takes any free one."""
    return Server(("127.0.0.1", port), functools.partial(Handler, directory=str(folder)))


def port_number(text: str) -> int:
    """Return a port from a command line.

    Raises
    ------
    argparse.ArgumentTypeError
        When it is no whole number from 0 to 65535.
    """
    if not (text.isascii() and text.isdigit() and len(text) <= 5 and int(text) <= LAST_PORT):
        raise argparse.ArgumentTypeError(f"{text!r} is no port: a number from 0 to {LAST_PORT}")
    return int(text)


def take_port(port: int) -> Server:
    """Return a server at `port`, or at the next port that is free."""
    for number in range(port, min(port + PORTS_TRIED, LAST_PORT + 1)):
        try:
            # Which folder it shows is settled by the port that it gets.
            return server(_setup.WORK, number)
        except PermissionError:
            raise _setup.SetupError(
                f"Port {number} is for those who run this machine. Try --port 8000."
            ) from None
        except OSError as problem:
            if problem.errno != errno.EADDRINUSE:
                raise _setup.SetupError(f"Port {number} can't be used: {problem}.") from None
            _setup.note(f"Port {number} is taken.")
    raise _setup.SetupError(f"No port from {port} on is free. Name another one with --port.")


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
        try:
            build.build(out, kept=False, settings=build.shop_settings(lists))
        except _setup.SetupError as problem:
            _setup.note(str(problem))
            continue
        _setup.say("Rebuilt.")


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="scripts/serve.py", description=__doc__)
    parser.add_argument("--port", type=port_number, default=8000, help="0 takes any free one")
    parser.add_argument("--no-open", action="store_true", help="leave the browser alone")
    parser.add_argument("--shop", type=Path, metavar="FOLDER", help="a dealer's own lists")
    parser.add_argument("--watch", action="store_true", help="rebuild whenever a file changes")
    return parser.parse_args()


def main() -> int:
    """Build, serve, and open the browser."""
    options = _arguments()
    _environment.ensure_environment()
    settings = build.shop_settings(options.shop)
    # The port first: it is nobody else's from here on, and so is the folder that is named after it.
    with take_port(options.port) as serving:
        out = _setup.WORK / f"served-{serving.server_address[1]}"
        # A page that the browser keeps would hide the next change.
        build.build(out, kept=not options.watch, settings=settings)
        try:
            _show(serving, out, options)
        finally:
            _setup.clear(out)
    return 0


def _show(serving: Server, out: Path, options: argparse.Namespace) -> None:
    """Serve the folder until Ctrl+C."""
    serving.RequestHandlerClass = functools.partial(Handler, directory=str(out))
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


if __name__ == "__main__":
    _setup.command(main)
