"""The words of a room or a worksheet, from the `words.toml` beside its sums.

Where a build has compiled them they come from the module `compiled_words` instead, so that a
browser neither reads nor parses the file.
"""

import pkgutil
from collections.abc import Mapping
from functools import cache
from importlib import import_module
from typing import Any

FILE = "words.toml"
COMPILED = "compiled_words"


@cache
def read_words(package: str) -> dict[str, Any]:
    """Return the words that stand in a package's folder."""
    try:
        found: dict[str, Any] = import_module(f"{package}.{COMPILED}").WORDS
        return found
    except ModuleNotFoundError:
        return parse_words(package)


def parse_words(package: str) -> dict[str, Any]:
    """Return the words of a package, read from its file.

    Raises
    ------
    LookupError
        When the folder has no such file.
    """
    import tomllib

    data = pkgutil.get_data(package, FILE)
    if data is None:
        raise LookupError(f"{package} has no {FILE}.")
    return tomllib.loads(data.decode("utf-8"))


def compiled(text: str) -> str:
    """Return the source of the module that stands for a file of words in the browser."""
    import tomllib

    return f"WORDS = {tomllib.loads(text)!r}\n"


def merged(*words: Mapping[str, Any]) -> dict[str, Any]:
    """Return several files of words as one; what stands later stands before the same of others."""
    found: dict[str, Any] = {}
    for each in words:
        for section, said in each.items():
            if isinstance(said, Mapping):
                found[section] = {**found.get(section, {}), **said}
            else:
                found[section] = said
    return found
