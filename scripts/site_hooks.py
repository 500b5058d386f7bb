"""What MkDocs adds for use without signal and in other sites: the manifest, and the embeds."""

from __future__ import annotations

import json
import os
import re
import sys
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
# Before the folder of the hooks, where a command has the name of the package.
sys.path.insert(0, str(ROOT))

from mkdocs.structure.files import File, Files

from scripts import embeds

ICONS = {"assets/icon-192.png": 192, "assets/icon-512.png": 512}
PAPER = "#fbf9f4"
OFFLINE = os.environ.get("YARDSTICK_OFFLINE") == "true"
CALCULATOR = '<section class="ys"'
# A link inside of what opens is one too many for a finger, and for who only hears the page.
HEADLINK = re.compile(r'<a class="headerlink".*?</a>', re.S)
SECTION = re.compile(r"(<h2 id=.*?</h2>)", re.S)


def manifest(name: str, description: str) -> str:
    """Return what a device needs to show the site among its programs."""
    icons = [
        {"src": path, "sizes": f"{size}x{size}", "type": "image/png", "purpose": "any maskable"}
        for path, size in ICONS.items()
    ]
    content = {
        "name": name,
        "short_name": name,
        "description": description,
        "id": "./",
        "start_url": "./",
        "scope": "./",
        "display": "standalone",
        "background_color": PAPER,
        "theme_color": PAPER,
        "icons": icons,
        # Posted, so that the service worker takes it and no text is ever in an address that a
        # server sees; shared.ts says what happens where there is no worker.
        "share_target": {
            "action": "./messages/",
            "method": "POST",
            "enctype": "multipart/form-data",
            "params": {"title": "title", "text": "text"},
        },
    }
    return json.dumps(content, indent=1)


def on_files(files: Files, config: Any) -> Files:
    """Add the manifest and the embeds; the offline copy has no use for either."""
    if OFFLINE:
        return files
    text = manifest(config.site_name, config.site_description)
    files.append(File.generated(config, "manifest.webmanifest", content=text))
    for name, page in embeds.pages().items():
        files.append(File.generated(config, f"{embeds.FOLDER}/{name}.md", content=page))
    return files


def folded(html: str) -> str:
    """Return a page with a calculator in the order of its use.

    Above the calculator stands the first paragraph alone; what else stood there comes after it,
    and each section below is folded under its heading. Without a script it all opens as well.
    """
    start, end = html.find(CALCULATOR), html.rfind("</section>") + len("</section>")
    if start < 0 or end < start:
        return html
    # The first paragraph of the page's own: the lines of a shop may stand before it.
    own = max(html.rfind(end_of, 0, start) for end_of in ("</aside>", "</h1>"))
    told = html.find("</p>", max(own, 0), start)
    cut = told + len("</p>") if told >= 0 else start
    lead, rest = html[:cut], html[cut:start]
    sections = SECTION.split(rest + html[end:])
    below = sections[0] + "".join(
        f'<details class="ys-fold"><summary>{HEADLINK.sub("", heading)}</summary>{text}</details>'
        for heading, text in zip(sections[1::2], sections[2::2], strict=True)
    )
    return lead + html[start:end] + below


def on_page_content(html: str, **_: Any) -> str:
    """Fold what stands below a calculator."""
    return folded(html)


def on_post_page(output: str, page: Any, **_: Any) -> str:
    """Name the manifest and the icon in the head of every page."""
    if OFFLINE:
        return output
    up = "../" * page.url.count("/")
    links = (
        f'<link rel="manifest" href="{up}manifest.webmanifest">'
        f'<link rel="apple-touch-icon" href="{up}assets/icon-192.png">'
    )
    return output.replace("</head>", f"{links}</head>", 1)
