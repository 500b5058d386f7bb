"""What only the finished site can tell: its version, its service worker, and its headers.

The version is a digest of every file. Each page carries it, so that the service worker never
answers a page of one version with the files of another.
"""

from __future__ import annotations

import json
import re
from pathlib import Path

from scripts import _node, _setup, client, client_sources, digests, headers

LISTER = _setup.ROOT / "scripts" / "finish_node.mjs"
MARK = re.compile(r'<html (?:data-version="[^"]*" )?')

PACKED_MAP = "sitemap.xml.gz"  # carries the moment at which it was packed
# Takes the place of an earlier service worker, and leaves nothing behind.
RETIRED = """\
addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil((async () => {
  const ours = `yardstick ${new URL(registration.scope).pathname} `;
  for (const name of await caches.keys()) if (name.startsWith(ours)) await caches.delete(name);
  await registration.unregister();
  for (const each of await clients.matchAll({ type: "window" })) each.navigate(each.url);
})()));
"""


def finish(site: Path, *, kept: bool = True) -> None:
    """Complete a built site; with `kept` false it does not stay on the readers' devices."""
    pages = sorted(site.rglob("*.html"))
    text = headers.written(headers.rules_for(site))
    for page in pages:
        content = page.read_text(encoding="utf-8")
        if headers.PLACE in content:
            page.write_text(content.replace(headers.PLACE, headers.shown(text)), encoding="utf-8")
    (site / headers.FILE).write_text(text, encoding="utf-8")
    (site / headers.SERVICE_WORKER).unlink(missing_ok=True)
    if not kept:
        (site / headers.SERVICE_WORKER).write_text(RETIRED, encoding="utf-8")
        return
    version = version_of(site)
    for page in pages:
        content = page.read_text(encoding="utf-8")
        marked = MARK.sub(f'<html data-version="{version}" ', content, count=1)
        page.write_text(marked, encoding="utf-8")
    script = client.BUNDLES / headers.SERVICE_WORKER
    definitions = json.dumps({"VERSION": json.dumps(version)})
    _node.node(client.BUNDLER, _node.CLIENT / "keeper.ts", script, definitions)
    _node.node(LISTER, site, script, site / headers.SERVICE_WORKER)


def version_of(site: Path) -> str:
    """Return a digest of every file's name and content."""
    paths = (each for each in site.rglob("*") if each.is_file() and each.name != PACKED_MAP)
    own = client_sources.digest_of("keeper.ts")
    return digests.digest([own, *digests.named(sorted(paths), site)]).hex()[:12]
