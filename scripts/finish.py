"""What only the finished site can tell: its version, its service worker, and its headers.

The version is a digest of every file. Each page carries it, so that the service worker never
answers a page of one version with the files of another.
"""

from __future__ import annotations

import base64
import hashlib
import html
import json
import re
from collections.abc import Iterable
from pathlib import Path

from scripts import _setup, client, client_sources

LISTER = _setup.ROOT / "scripts" / "finish_node.mjs"
WORKER = "service-worker.js"
HEADERS = "headers.txt"
PLACE_OF_HEADERS = "<!-- the headers stand here -->"
INLINE_SCRIPT = re.compile(r"<script>(.*?)</script>", re.DOTALL)
MARK = re.compile(r'<html (?:data-version="[^"]*" )?')
A_YEAR = 365 * 24 * 3600
# Folders whose files are named after their content, by the theme or by our build.
NAMED_AFTER_CONTENT = ("assets/runtime/*", "assets/javascripts/*", "assets/stylesheets/*")

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

Rule = tuple[str, dict[str, str]]


def finish(site: Path, *, kept: bool = True) -> None:
    """Complete a built site; with `kept` false it does not stay on the readers' devices."""
    pages = sorted(site.rglob("*.html"))
    rules = header_rules(page.read_text(encoding="utf-8") for page in pages)
    text = written(rules)
    for page in pages:
        content = page.read_text(encoding="utf-8")
        if PLACE_OF_HEADERS in content:
            page.write_text(content.replace(PLACE_OF_HEADERS, shown(text)), encoding="utf-8")
    (site / HEADERS).write_text(text, encoding="utf-8")
    (site / WORKER).unlink(missing_ok=True)
    if not kept:
        (site / WORKER).write_text(RETIRED, encoding="utf-8")
        return
    version = version_of(site)
    for page in pages:
        content = page.read_text(encoding="utf-8")
        marked = MARK.sub(f'<html data-version="{version}" ', content, count=1)
        page.write_text(marked, encoding="utf-8")
    script = client.BUNDLES / WORKER
    definitions = json.dumps({"VERSION": json.dumps(version)})
    _setup.node(client.BUNDLER, _setup.CLIENT / "keeper.ts", script, definitions)
    _setup.node(LISTER, site, script, site / WORKER)


def version_of(site: Path) -> str:
    """Return a digest of every file's name and content."""
    total = hashlib.sha256(client_sources.digest_of("keeper.ts"))
    for path in sorted(path for path in site.rglob("*") if path.is_file()):
        # The packed map of the site carries the moment at which it was packed.
        if path.name == "sitemap.xml.gz":
            continue
        total.update(path.relative_to(site).as_posix().encode())
        total.update(hashlib.sha256(path.read_bytes()).digest())
    return total.hexdigest()[:12]


def header_rules(pages: Iterable[str]) -> list[Rule]:
    """Return which headers are worth setting for which addresses, from the site's first page.

    A later rule adds to an earlier one, and takes the place of a header of the same name.
    """
    inline = {script for page in pages for script in INLINE_SCRIPT.findall(page)}
    digests = (base64.b64encode(hashlib.sha256(each.encode()).digest()) for each in inline)
    hashes = " ".join(sorted(f"'sha256-{each.decode()}'" for each in digests))
    policy = "; ".join(
        (
            "default-src 'self'",
            f"script-src 'self' 'wasm-unsafe-eval' {hashes}".strip(),
            "img-src 'self' data:",
            "object-src 'none'",
            "base-uri 'self'",
            "form-action 'self'",
        )
    )
    everywhere = {
        "Content-Security-Policy": f"{policy}; frame-ancestors 'self'",
        "Cache-Control": "no-cache",
        "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=()",
        "Referrer-Policy": "no-referrer",
        "X-Content-Type-Options": "nosniff",
    }
    forever = {"Cache-Control": f"public, max-age={A_YEAR}, immutable"}
    return [
        ("/*", everywhere),
        *((f"/{folder}", forever) for folder in NAMED_AFTER_CONTENT),
        ("/embed/*", {"Content-Security-Policy": f"{policy}; frame-ancestors *"}),
    ]


def written(rules: Iterable[Rule]) -> str:
    """Return the rules as text: an address, and its headers indented below it."""
    lines: list[str] = []
    for address, headers in rules:
        lines.append(address)
        lines += [f"  {name}: {value}" for name, value in headers.items()]
    return "\n".join([*lines, ""])


def read_rules(text: str) -> list[Rule]:
    """Return the rules in what `written` gives."""
    rules: list[Rule] = []
    for line in text.splitlines():
        if line.startswith("/"):
            rules.append((line, {}))
        elif line.strip():
            name, _, value = line.strip().partition(": ")
            rules[-1][1][name] = value
    return rules


def headers_for(address: str, rules: Iterable[Rule]) -> dict[str, str]:
    """Return the headers of one address ("/pairing/")."""
    found: dict[str, str] = {}
    for pattern, headers in rules:
        if address.startswith(pattern.removesuffix("*")):
            found |= headers
    return found


def shown(text: str) -> str:
    """Return the rules for the page that explains them."""
    return f"<pre><code>{html.escape(text)}</code></pre>"
