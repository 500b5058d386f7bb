"""What MkDocs adds for use without signal and in other sites: the manifest, and the embeds."""

from __future__ import annotations

import json
import os
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
