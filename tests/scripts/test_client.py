"""What the client is told of the files that it loads, and which of its modules go into what."""

from __future__ import annotations

import gzip
import re

from scripts import _node, client_sources, runtime

# The check value of CRC-32, as its catalogues print it: the CRC of the nine digits.
DIGITS, CHECK = b"123456789", 0xCBF43926
# SHA-256 of "abc" (FIPS 180-4, example B.1), in base64.
ABC = "ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0="


def test_the_marks_of_a_file_are_of_its_content() -> None:
    plain = runtime.part("digits.bin", DIGITS)
    assert (plain["size"], plain["length"], plain["crc"]) == (9, 9, CHECK)
    assert runtime.part("abc.bin", b"abc")["digest"] == ABC[:22]
    packed = gzip.compress(DIGITS, mtime=0)
    unpacked = runtime.part("digits.gz", packed)
    assert unpacked == {**plain, "name": "digits.gz", "size": len(packed)}


def test_a_module_that_the_worker_stands_on_has_a_say_in_its_folder() -> None:
    """Every relative import, however it is written, names a file that is followed."""
    for entry in ("worker.ts", "main.ts", "first.ts", "keeper.ts"):
        found = client_sources.sources_of(entry)
        named = {path.name for path in found}
        for path in found:
            text = path.read_text(encoding="utf-8")
            for module in re.findall(r"""['"]\./([\w/]+)['"]""", text):
                assert f"{module}.ts" in named, (path.name, module)
    names = {path.name for path in client_sources.sources_of("worker.ts")}
    assert {"worker.ts", "downloads.ts", "digest.ts", "protocol.ts"} <= names
    assert "sheet.ts" not in names
    everything = {path.name for path in _node.CLIENT.glob("*.ts")}
    entries = ("worker.ts", "main.ts", "first.ts", "keeper.ts")
    reached = {p.name for entry in entries for p in client_sources.sources_of(entry)}
    assert everything == reached
