"""The headers that a host does well to send with the finished site.

Every address has one rule, and that rule is whole: hosts differ in what they make of two rules for
one address. Some join both, and of two security policies the stricter then counts.
"""

from __future__ import annotations

import base64
import hashlib
import html
import re
from collections.abc import Iterable
from functools import lru_cache
from pathlib import Path

FILE = "headers.txt"
SERVICE_WORKER = "service-worker.js"
PLACE = "<!-- the headers stand here -->"
INLINE_SCRIPT = re.compile(r"<script>(.*?)</script>", re.DOTALL)
A_YEAR = 365 * 24 * 3600
# Folders whose files are named after their content, by the theme or by our build.
NAMED_AFTER_CONTENT = ("assets/runtime", "assets/javascripts", "assets/stylesheets")
# Some of what is in it is named after its content, so its entries have a rule each.
DIVIDED = "assets"
FRAMED = "embed"

Rule = tuple[str, dict[str, str]]


def rules_for(site: Path) -> list[Rule]:
    """Return the headers worth setting for each address, as seen from the site's first page."""
    pages = (path.read_text(encoding="utf-8") for path in sorted(site.rglob("*.html")))
    policy = _policy(pages)
    return [(address, _headers(address, policy)) for address in _addresses(site)]


def _addresses(site: Path) -> list[str]:
    """Return addresses that together cover every file of the site, each file once."""
    found = ["/"]
    for top in [site, site / DIVIDED]:
        for path in sorted(top.iterdir()) if top.is_dir() else []:
            name = path.relative_to(site).as_posix()
            if path.is_file() and not path.name.startswith("."):
                found.append(f"/{name}")
            elif path.is_dir() and name != DIVIDED:
                found.append(f"/{name}/*")
    # Both are written after the rules.
    return sorted({*found, f"/{FILE}", f"/{SERVICE_WORKER}"})


def _policy(pages: Iterable[str]) -> str:
    inline = {script for page in pages for script in INLINE_SCRIPT.findall(page)}
    digests = (base64.b64encode(hashlib.sha256(each.encode()).digest()) for each in inline)
    hashes = " ".join(sorted(f"'sha256-{each.decode()}'" for each in digests))
    return "; ".join(
        (
            "default-src 'self'",
            f"script-src 'self' 'wasm-unsafe-eval' {hashes}".strip(),
            "img-src 'self' data:",
            "object-src 'none'",
            "base-uri 'self'",
            "form-action 'self'",
        )
    )


def _headers(address: str, policy: str) -> dict[str, str]:
    framed = address == f"/{FRAMED}/*"
    lasting = address.removeprefix("/").removesuffix("/*") in NAMED_AFTER_CONTENT
    return {
        "Content-Security-Policy": f"{policy}; frame-ancestors {'*' if framed else "'self'"}",
        "Cache-Control": f"public, max-age={A_YEAR}, immutable" if lasting else "no-cache",
        "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=()",
        "Referrer-Policy": "no-referrer",
        "X-Content-Type-Options": "nosniff",
    }


def written(rules: Iterable[Rule]) -> str:
    """Return the rules as text: an address, and its headers indented below it."""
    lines: list[str] = []
    for address, headers in rules:
        lines.append(address)
        lines += [f"  {name}: {value}" for name, value in headers.items()]
    return "\n".join([*lines, ""])


def read(text: str) -> list[Rule]:
    """Return the rules in what `written` gives."""
    rules: list[Rule] = []
    for line in text.splitlines():
        if line.startswith("/"):
            rules.append((line, {}))
        elif line.strip():
            name, _, value = line.strip().partition(": ")
            rules[-1][1][name] = value
    return rules


def matching(address: str, rules: Iterable[Rule]) -> list[Rule]:
    """Return every rule for one address ("/pairing/"), as a host would find them."""
    return [
        (pattern, headers)
        for pattern, headers in rules
        if (address.startswith(pattern[:-1]) if pattern.endswith("*") else address == pattern)
    ]


def sent(folder: Path, address: str) -> dict[str, str]:
    """Return the headers that the site in `folder` asks for at one address; often none."""
    try:
        changed = (folder / FILE).stat().st_mtime_ns
    except OSError:
        return {}
    return {
        name: value
        for _, headers in matching(address, _read_file(folder / FILE, changed))
        for name, value in headers.items()
    }


@lru_cache(maxsize=8)
def _read_file(path: Path, changed: int) -> list[Rule]:
    """Return the rules of a file as it was when it was `changed`."""
    return read(path.read_text(encoding="utf-8"))


def shown(text: str) -> str:
    """Return the rules for the page that explains them."""
    return f"<pre><code>{html.escape(text)}</code></pre>"
