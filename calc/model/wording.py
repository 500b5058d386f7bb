"""The words of a worksheet, from the `words.toml` beside its sums.

Where a build has compiled them they come from the module `compiled_words` instead, so that a
browser neither reads nor parses the file.
"""

import pkgutil
from functools import cache
from importlib import import_module
from typing import Any

FILE = "words.toml"
COMPILED = "compiled_words"


@cache
def read_words(package: str) -> dict[str, Any]:
    """Return the words that stand in a package's folder."""
    try:
        compiled: dict[str, Any] = import_module(f"{package}.{COMPILED}").WORDS
        return compiled
    except ModuleNotFoundError:
        pass
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
