"""Stands in for urllib.parse: what links are written and read with."""

import re

_KEPT = frozenset(b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_.-~")
_BYTES = re.compile("(?:%[0-9A-Fa-f]{2})+")


def quote_plus(text: str, safe: str = "") -> str:
    """Return text as it stands in a query."""
    kept = _KEPT | frozenset(safe.encode())
    return "".join(
        "+" if byte == 32 else chr(byte) if byte in kept else f"%{byte:02X}"
        for byte in text.encode()
    )


def _unquoted(text: str) -> str:
    def decoded(found: re.Match[str]) -> str:
        return bytes.fromhex(found[0].replace("%", "")).decode("utf-8", "replace")

    return _BYTES.sub(decoded, text.replace("+", " "))


def parse_qsl(query: str, *, keep_blank_values: bool) -> list[tuple[str, str]]:
    """Return the names and values of a query, those without a value too."""
    assert keep_blank_values
    parts = (part.partition("=") for part in query.split("&") if part)
    return [(_unquoted(name), _unquoted(value)) for name, _, value in parts]
