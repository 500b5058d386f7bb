"""The methods that dataclasses write as text, compiled when the site is built."""

from __future__ import annotations

import zlib
from collections.abc import Iterable

# The methods see the names of the module that their class stands in, as usual.
TAKE_WRITTEN = """
import dataclasses
from types import FunctionType
from zlib import crc32

def execute(text, module, names):
    known = WRITTEN.get((len(text), crc32(text.encode())))
    if known:
        names["__create_fn__"] = FunctionType(known.__code__, module)
    else:
        exec(text, module, names)

dataclasses.exec = execute
"""


def dataclass_methods(written: Iterable[str]) -> str:
    """Return a module that spares dataclasses compiling these sources at every start.

    Whatever it doesn't hold is compiled as usual. A source is known by its length and CRC-32: the
    text itself would make the module three times as long.
    """
    marked = {(len(text), zlib.crc32(text.encode())): text for text in written}
    functions = (f"{text}\nWRITTEN[{mark}] = __create_fn__\n" for mark, text in marked.items())
    return f"WRITTEN = {{}}\n{''.join(functions)}{TAKE_WRITTEN}"
