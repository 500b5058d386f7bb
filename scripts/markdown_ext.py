"""What our pages may say beyond plain Markdown, each drawn from `calc.render.page`.

On a line of its own::

    ::: worksheet pairing
    ::: table hitch_sizes
    ::: sources hitch
    ::: question-index
    ::: finding
    ::: subjects
    ::: messages
    ::: round-up
    ::: offline-copy
    ::: keep
    ::: embeds
    ::: embed-snippet pairing
    ::: headers
    ::: software
    ::: machines
    ::: matrix
    ::: checks
    ::: capability

and within a sentence: ``{{ value twenty_percent }}``.
"""

from __future__ import annotations

import os
import re
import xml.etree.ElementTree as etree
from collections.abc import Callable
from pathlib import Path

from markdown import Markdown
from markdown.extensions import Extension
from markdown.inlinepatterns import InlineProcessor
from markdown.preprocessors import Preprocessor

BLOCK = re.compile(r"^::: *([a-z-]+)(?: +(\S+))? *$")
VALUE = r"\{\{ *value +(\S+?) *\}\}"
# After fenced code is set aside (25), before raw HTML is (20).
BLOCK_PRIORITY = 22
# After inline code is set aside (190), before links are read (160).
VALUE_PRIORITY = 175


class PageError(Exception):
    """A page asks for something that there is not; the text names the page and the line."""


class Source:
    """The page being read, so that an error can say where it is."""

    name: str = "(no page)"
    path: Path | None = None

    def line_of(self, text: str) -> int:
        """Return the number of the first line that contains `text`."""
        if self.path is None:
            return 0
        for number, line in enumerate(self.path.read_text(encoding="utf-8").splitlines(), 1):
            if text in line:
                return number
        return 0

    def draw(self, kind: str, name: str, written: str) -> str:
        """Return the HTML of what `written` asks for."""
        from calc.errors import UnknownName
        from calc.render import index, page, round_up, yard
        from scripts import checks, drawn, embeds, headers, shop

        makers: dict[str, Callable[[], str]] = {
            "worksheet": lambda: "".join(
                (
                    drawn.kept("form", (name,), lambda: page.worksheet_block(name, shop.units())),
                    self.checked(name),
                )
            ),
            "checks": lambda: checks.table_html(self.href),
            "table": lambda: page.table_block(name),
            "sources": lambda: page.sources_block(name),
            "question-index": lambda: index.index_block(self.href),
            "finding": lambda: index.finding_block(self.href, shop.round_up()),
            "round-up": lambda: round_up.block(shop.round_up(), self.href, shop.units()),
            "subjects": lambda: index.subjects_block(self.href),
            "messages": index.messages_block,
            "offline-copy": lambda: self.offline_copy(),
            "keep": lambda: self.keep(),
            "embeds": lambda: embeds.list_html(None if self.is_offline else self.up),
            "embed-snippet": lambda: embeds.snippet_html(name),
            "software": lambda: self.software(),
            "headers": lambda: self.headers(headers.PLACE),
            "machines": lambda: yard.machines_block(self.href("pairing")),
            "matrix": lambda: shop.matrix_html(self.href("pairing")),
            "capability": lambda: shop.capability_html(self.href("capability")),
            "value": lambda: page.value_inline(name),
        }
        where = f"{self.name}, line {self.line_of(written)}"
        if kind not in makers:
            raise PageError(f"{where}: {written!r} asks for a kind of block that there is not.")
        try:
            ways = (self.root, self.href("")) if kind in drawn.LINKED else ()
            return drawn.kept(kind, (name, *ways), lambda: str(makers[kind]()))
        except (UnknownName, LookupError) as problem:
            raise PageError(f"{where}: nothing is called {name!r} ({kind}). {problem}") from problem

    def href(self, page: str) -> str:
        """Return the address of another page ("lift/lift-and-ballast") from this one."""
        return f"{self.root}{page}{'/' if self.in_folders else '.html'}"

    @property
    def in_folders(self) -> bool:
        """True when every page stands in a folder of its own."""
        return os.environ.get("YARDSTICK_DIRECTORY_URLS", "true") == "true"

    @property
    def root(self) -> str:
        """The way from this page to the site's first folder."""
        return self.up if self.in_folders else "../" * self.name.count("/")

    @property
    def up(self) -> str:
        """The way from this page to the site's first page, where pages stand in folders."""
        return "../" * (self.name.count("/") + (not self.name.endswith("index.md")))

    @property
    def is_offline(self) -> bool:
        """True while the pages of the offline copy are being written."""
        return os.environ.get("YARDSTICK_OFFLINE") == "true"

    def checked(self, name: str) -> str:
        """Return the way from a calculator to its published checks; a framed one has no room."""
        from scripts import checks, drawn, embeds

        framed = self.name.startswith(f"{embeds.FOLDER}/")
        if framed:
            return ""
        ways = (self.root, self.href(""))
        return drawn.kept("checked", (name, *ways), lambda: checks.link_html(name, self.href))

    def software(self) -> str:
        """Return the list of other people's software, and the way to its licenses."""
        from scripts import contents

        listed = contents.table_html(contents.components(offline=self.is_offline))
        return f'{listed}<p><a href="{self.root}{contents.FILE}">Every license in full</a></p>'

    def headers(self, place: str) -> str:
        """Return the place where the finished site's headers will stand."""
        return "<p>They stand here on the site itself.</p>" if self.is_offline else place

    def keep(self) -> str:
        """Return the place where the client says what this device keeps of the site."""
        if self.is_offline:
            return ""
        return (
            '<div id="ys-keep"><p>The state of this device is shown here by a script, which did '
            "not run.</p></div>"
        )

    def offline_copy(self) -> str:
        """Return the link to the offline copy with its size, if this site brings one."""
        from scripts import offline

        if self.is_offline:
            return "<p>This is the offline copy: everything in it works without a network.</p>"
        if os.environ.get("YARDSTICK_COPY") != "true":
            return "<p>This site was built without its offline copy.</p>"
        link = f'<a href="{self.up}{offline.ZIP}" download>Download the offline copy</a>'
        return (
            f"<p>{link} (a zip of {offline.SIZE} MB). Unpack it, then open <code>index.html</code> "
            "in the unpacked folder by double-clicking it.</p>"
        )


class Blocks(Preprocessor):
    """Replaces each block line by its HTML."""

    def __init__(self, md: Markdown, source: Source) -> None:
        super().__init__(md)
        self.source = source

    def run(self, lines: list[str]) -> list[str]:
        """Return the page's lines with every block drawn."""
        done: list[str] = []
        for line in lines:
            match = BLOCK.match(line)
            if match:
                html = self.source.draw(match[1], match[2] or "", line.strip())
                done += ["", self.md.htmlStash.store(html), ""]
            else:
                done.append(line)
        return done


class Values(InlineProcessor):
    """Replaces each value within a sentence by its HTML."""

    def __init__(self, md: Markdown, source: Source) -> None:
        super().__init__(VALUE, md)
        self.source = source

    def handleMatch(self, m: re.Match[str], data: str) -> tuple[etree.Element | str, int, int]:
        """Return the drawn value and the span that it replaces."""
        html = self.source.draw("value", m[1], m[0])
        return self.md.htmlStash.store(html), m.start(0), m.end(0)


class YardstickExtension(Extension):
    """The extension; `source` is kept up to date by the site's hooks."""

    def __init__(self, source: Source) -> None:
        super().__init__()
        self.source = source

    def extendMarkdown(self, md: Markdown) -> None:
        """Register both readers."""
        md.preprocessors.register(Blocks(md, self.source), "yardstick-blocks", BLOCK_PRIORITY)
        md.inlinePatterns.register(Values(md, self.source), "yardstick-values", VALUE_PRIORITY)
