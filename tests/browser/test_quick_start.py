"""Python started from the memory that the build made, and from its library where that won't do."""

from __future__ import annotations

import base64
import gzip
import json
import re
import time
from pathlib import Path
from typing import IO, Any, ClassVar

import pytest
from playwright.sync_api import Page, Route

from tests.browser import talk
from tests.browser.conftest import LIVE
from tests.browser.hosted import Handler, hosted, substituting

LIBRARY = "library-pairing.gz"  # what of it the page of one calculator takes
KEEP = """
async ([url, packed]) => {
  const bytes = Uint8Array.from(atob(packed), (letter) => letter.charCodeAt(0));
  const stream = new Response(bytes).body.pipeThrough(new DecompressionStream("gzip"));
  const cache = await caches.open("a test's own");
  await cache.put(url, new Response(await new Response(stream).arrayBuffer()));
}
"""


@pytest.fixture
def memory(site: Path) -> Path:
    """The memory that the build made."""
    [found] = site.glob("assets/runtime/*/memory.gz")
    return found


def keep(page: Page, address: str, site: Path, memory: Path, content: bytes) -> list[str]:
    """Keep `content` as the memory on the device; returns the list of what is fetched from then."""

    page.goto(f"{address}about/")
    url = address + memory.relative_to(site).as_posix()
    page.evaluate(KEEP, [url, base64.b64encode(content).decode()])
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.rsplit("/", 1)[-1]))
    return asked


def is_answered_as_natively(page: Page, address: str) -> None:
    """The page's answer to a link is the one that native Python gives."""
    page.goto(talk.link(address, working_width="48 in"))
    page.wait_for_selector(f"{talk.ANSWERED}:not([data-stale])")
    wanted = json.loads(talk.native(talk.inputs(page)))
    talk.until(
        page,
        f"document.querySelector('.ys-answer').textContent.includes({json.dumps(wanted['lead'])})",
    )


def test_a_kept_memory_answers_without_the_library(
    page: Page, address: str, site: Path, memory: Path
) -> None:
    asked = keep(page, address, site, memory, memory.read_bytes())
    is_answered_as_natively(page, address)
    assert "pyodide.asm.wasm" in asked
    assert not {LIBRARY, "memory.gz"} & set(asked)


def test_a_memory_that_answers_otherwise_is_not_used(
    page: Page, address: str, site: Path, memory: Path
) -> None:
    asked = keep(page, address, site, memory, memory.read_bytes())

    def other(route: Route) -> None:
        response = route.fetch()
        script, count = re.subn(r"(?<=answer:)\d+", "1", response.text())
        assert count == 1
        route.fulfill(response=response, body=script)

    page.route("**/worker.js", other)
    is_answered_as_natively(page, address)
    assert LIBRARY in asked


def test_a_kept_memory_that_is_damaged_is_not_used(
    page: Page, address: str, site: Path, memory: Path
) -> None:
    content = bytearray(gzip.decompress(memory.read_bytes()))
    content[len(content) // 2] ^= 1
    asked = keep(page, address, site, memory, gzip.compress(bytes(content), compresslevel=1))
    is_answered_as_natively(page, address)
    assert LIBRARY in asked


def test_without_a_memory_the_library_is_enough(page: Page, address: str) -> None:
    talk.without_memory(page)
    is_answered_as_natively(page, address)


class Slow(Handler):
    """Sends files of one kind no faster than a link over the air.

    So slowly that a browser which was kept waiting does not find a quick link's bytes at once.
    """

    kind: ClassVar[str] = ".wasm"
    pause: ClassVar[float] = 0.4
    through: ClassVar[set[str]] = set()  # what was sent whole

    def copyfile(self, source: IO[bytes], outputfile: IO[bytes]) -> None:  # type: ignore[override]
        """Send a large file in pieces, each when the one before has been on its way a while."""
        if not self.address().endswith(self.kind):
            super().copyfile(source, outputfile)
            return
        while piece := source.read(200_000):
            outputfile.write(piece)
            time.sleep(self.pause)
        self.through.add(self.address())


class Compressing(Slow):
    """Such a link from a host that compresses the runtime on the way."""

    def send_head(self) -> Any:
        """Send the file beside it that is gzipped already, and say so."""
        if self.address().endswith(self.kind):
            self.path += ".gz"
        return super().send_head()

    def copyfile(self, source: IO[bytes], outputfile: IO[bytes]) -> None:  # type: ignore[override]
        """The address is that of the gzipped file by now. Slow while the link is being judged."""
        for _ in range(5):
            outputfile.write(source.read(70_000))
            time.sleep(self.pause)
        super().copyfile(source, outputfile)

    def end_headers(self) -> None:
        """Name what was done to the runtime."""
        if self.address().endswith(f"{self.kind}.gz"):
            self.send_header("Content-Encoding", "gzip")
        super().end_headers()


class SlowMemory(Slow):
    """What a browser keeps of a runtime comes quickly, whatever the link."""

    kind = "memory.gz"
    pause = 0.5


def names_asked(page: Page, site: Path, kind: type[Handler]) -> set[str]:
    """Return the names of the runtime's files that were asked for until the page was live."""
    with hosted(site, kind) as host:
        page.goto(f"{host.address}pairing/")
        page.wait_for_selector(LIVE, state="attached")
        return {each.rsplit("/", 1)[-1] for each in host.asked if "/runtime/" in each}


def test_on_a_slow_link_the_smaller_way_is_taken(page: Page, site: Path) -> None:
    asked = names_asked(page, site, Slow)
    assert {LIBRARY, "pyodide.asm.wasm.gz"} <= asked
    assert "memory.gz" not in asked


def test_what_a_host_compresses_is_not_left_for_a_packed_file(page: Page, site: Path) -> None:
    asked = names_asked(page, site, Compressing)
    assert {LIBRARY, "pyodide.asm.wasm"} <= asked
    assert not {"memory.gz", "pyodide.asm.wasm.gz"} & asked


def test_a_memory_that_is_long_in_coming_is_not_waited_for(page: Page, site: Path) -> None:
    asked = names_asked(page, site, SlowMemory)
    assert LIBRARY in asked
    assert not any(each.endswith("memory.gz") for each in SlowMemory.through)


def test_a_damaged_memory_is_nothing_to_speak_of(page: Page, site: Path, memory: Path) -> None:
    """Whether or not the link is found to be quick."""
    with hosted(site, substituting("/memory.gz", memory.read_bytes()[:1000], 9)) as host:
        is_answered_as_natively(page, host.address)
        assert page.locator(".ys-failed").count() == 0
