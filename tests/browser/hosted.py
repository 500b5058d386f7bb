"""A host as the page about hosting describes it: in a folder, with the headers of the build."""

from __future__ import annotations

import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, ClassVar

from scripts import finish, serve

FOLDER = "/somewhere"


class Handler(serve.Handler):
    """Serves one folder of the host under /somewhere/, or nothing while the network is down."""

    folder: ClassVar[Path]
    asked: ClassVar[list[str]] = []
    down: ClassVar[bool] = False

    def do_GET(self) -> None:
        """Note what is asked for, and answer unless the network is down."""
        if self.down:
            self.close_connection = True
            self.connection.close()
            return
        # A connection stays open while the host exchanges the folder.
        self.directory = str(self.folder)
        self.asked.append(self.address())
        super().do_GET()

    def translate_path(self, path: str) -> str:
        """Return the file; what lies outside of the folder is not there."""
        inside = path.removeprefix(FOLDER) if path.startswith(f"{FOLDER}/") else "/no/such/file"
        return super().translate_path(inside)

    def address(self) -> str:
        """Return the address as seen from the site's first page."""
        return super().address().removeprefix(FOLDER)


class Substituting(Handler):
    """Sends `body` in the place of one file, so often, for the browser to keep for a year."""

    address_end: ClassVar[str]
    body: ClassVar[bytes]
    times: ClassVar[int]
    encoding: ClassVar[str] = ""
    sent: ClassVar[int] = 0

    def do_GET(self) -> None:
        """Send what stands in, or leave it to the usual host."""
        kind = type(self)
        if not self.address().endswith(kind.address_end):
            super().do_GET()
            return
        kind.sent += 1
        if kind.sent > kind.times:
            super().do_GET()
            return
        self.send_response(200)
        name = kind.address_end if "." in kind.address_end else "index.html"
        self.send_header("Content-Type", self.guess_type(name))
        self.send_header("Content-Length", str(len(kind.body)))
        if kind.encoding:
            self.send_header("Content-Encoding", kind.encoding)
        self.send_header("Cache-Control", "max-age=31536000")
        # Without the host's own headers.
        super(serve.Handler, self).end_headers()
        self.wfile.write(kind.body)


class Stalling(Handler):
    """Holds back one file while `Host.stalled` says so, as a link that has gone silent."""

    held: ClassVar[str] = ""
    asked_for: ClassVar[threading.Event]
    let_go: ClassVar[threading.Event]

    def do_GET(self) -> None:
        """Send what is asked for, once it isn't held back."""
        if self.held and self.address().endswith(self.held):
            self.asked_for.set()
            self.let_go.wait()
        super().do_GET()


def substituting(
    address_end: str, body: bytes, times: int = 1, encoding: str = ""
) -> type[Substituting]:
    """Return a handler that sends `body` the first `times` that an address of that end is asked.

    `encoding` says how it is packed for the way.
    """
    fault = {"address_end": address_end, "body": body, "times": times, "encoding": encoding}
    return type("Substitutes", (Substituting,), fault)


class Host:
    """The site of `folder` at `address`, with what was asked of it."""

    def __init__(self, folder: Path, handler: type[Handler] = Handler) -> None:
        fresh: dict[str, Any] = {"asked": [], "down": False, "folder": folder}
        self.handler = type("HostHandler", (handler,), fresh)
        self.server = serve.Server(("127.0.0.1", 0), self.handler)
        self.address = f"http://127.0.0.1:{self.server.server_address[1]}{FOLDER}/"

    def exchange(self, folder: Path) -> None:
        """Show what is in another folder from now on."""
        self.handler.folder = folder

    @property
    def asked(self) -> list[str]:
        """Every address that was asked for, in order."""
        found: list[str] = self.handler.asked
        return found

    @contextmanager
    def unplugged(self) -> Iterator[None]:
        """Take the network away."""
        self.handler.down = True
        try:
            yield
        finally:
            self.handler.down = False

    @contextmanager
    def stalled(self, address_end: str) -> Iterator[threading.Event]:
        """Hold back a file of a `Stalling` host; gives what is set when it is asked for."""
        stalling: Any = self.handler
        stalling.asked_for, stalling.let_go = threading.Event(), threading.Event()
        stalling.held = address_end
        try:
            yield stalling.asked_for
        finally:
            stalling.held = ""
            stalling.let_go.set()


@contextmanager
def hosted(folder: Path, handler: type[Handler] = Handler) -> Iterator[Host]:
    """Serve `folder` as a host would, or as `handler` does."""
    host = Host(folder, handler)
    threading.Thread(target=host.server.serve_forever, daemon=True).start()
    try:
        yield host
    finally:
        host.server.shutdown()
        host.server.server_close()


def next_version(site: Path, target: Path, heading: str) -> Path:
    """Write a later version of `site`: another heading on the pairing page, and another style."""
    shutil.copytree(site, target)
    page = target / "pairing" / "index.html"
    text = page.read_text(encoding="utf-8")
    start, middle, rest = text.partition("<h1")
    page.write_text(f"{start}<p>{heading}</p>{middle}{rest}", encoding="utf-8")
    style = target / "assets" / "site.css"
    style.write_text(f"{style.read_text()}body {{ --later: 1; }}\n", encoding="utf-8")
    finish.finish(target)
    return target
