"""One calculator on another site's page: the page that is framed, and what the frame needs."""

from __future__ import annotations

import html
import os

from scripts import _setup

FOLDER = "embed"
EXAMPLE_ADDRESS = "https://www.example.com/yardstick/"
LISTENER = """\
<script>
addEventListener("message", (event) => {
  if (event.data?.yardstick !== "height") return;
  for (const frame of document.querySelectorAll("iframe[data-yardstick]"))
    if (frame.contentWindow === event.source) frame.style.height = `${event.data.height}px`;
});
</script>"""


def titles() -> dict[str, str]:
    """Return the title of every worksheet that has a page of its own, by name."""
    from calc import worksheets

    sheets = {name: worksheets.load(name) for name in worksheets.names()}
    return {name: sheet.title for name, sheet in sheets.items() if sheet.page}


def pages() -> dict[str, str]:
    """Return the Markdown of every page that can be framed, by worksheet."""
    from calc import worksheets

    found = {}
    for name, title in titles().items():
        page = worksheets.load(name).page
        found[name] = (
            f"---\ntemplate: embed.html\nfull: {page}/\nlinked: {_is_first(name, page)}\n"
            f"search:\n  exclude: true\n---\n\n# {title}\n\n::: worksheet {name}\n"
        )
    return found


def _is_first(name: str, page: str) -> str:
    """Say whether `name` is the worksheet that takes the inputs in the address of `page`."""
    text = (_setup.ROOT / "docs" / f"{page}.md").read_text(encoding="utf-8")
    return str(text.partition("::: worksheet ")[2].split()[0] == name).lower()


def snippet(name: str) -> str:
    """Return what another site puts into its page to show the worksheet `name`."""
    root = os.environ.get("YARDSTICK_SITE_URL") or EXAMPLE_ADDRESS
    title = html.escape(titles()[name], quote=True)
    return (
        f'<iframe data-yardstick src="{root.rstrip("/")}/{FOLDER}/{name}/" title="{title}"\n'
        '  style="width: 100%; height: 45rem; border: 0" loading="lazy" allow="clipboard-write">'
        f"</iframe>\n{LISTENER}"
    )


def snippet_html(name: str) -> str:
    """Return the snippet for a page that shows it."""
    return f'<pre class="ys-snippet"><code>{html.escape(snippet(name))}</code></pre>'


def list_html(up: str | None) -> str:
    """Return every calculator that can be framed.

    `up` leads to the site's first page; without it the addresses are no links, as in the offline
    copy, which has no embeds.
    """

    def shown(name: str) -> str:
        code = f"<code>{FOLDER}/{name}/</code>"
        return code if up is None else f'<a href="{up}{FOLDER}/{name}/">{code}</a>'

    rows = "".join(
        f"<tr><td>{html.escape(title)}</td><td>{shown(name)}</td></tr>"
        for name, title in sorted(titles().items(), key=lambda each: each[1])
    )
    head = "<tr><th>Calculator</th><th>Address</th></tr>"
    return f"<table><thead>{head}</thead><tbody>{rows}</tbody></table>"
