"""The calculators, a folder each, found by the folder's name and loaded when asked for.

A folder holds `fields.py` (FIELDS, and `review` where fields can contradict each other),
`compute.py`, `advice.py` (`advise`), `picture.py` and `words.toml`.
"""

import pkgutil
from functools import cache
from importlib import import_module

from calc.errors import UnknownName
from calc.model import Worksheet
from calc.model.wording import read_words


@cache
def names() -> tuple[str, ...]:
    """Return the name of every worksheet, sorted."""
    folders = {module.name for module in pkgutil.iter_modules(__path__) if module.ispkg}
    return tuple(sorted(name.replace("_", "-") for name in folders))


@cache
def load(name: str) -> Worksheet:
    """Return the worksheet called `name`.

    Raises
    ------
    UnknownName
        When there is none.
    """
    if name not in names():
        raise UnknownName(f"There is no worksheet called {name!r}.")
    package = f"{__name__}.{name.replace('-', '_')}"
    fields, compute, advice, picture = (
        import_module(f"{package}.{part}") for part in ("fields", "compute", "advice", "picture")
    )
    said = read_words(package)
    return Worksheet(
        name=name,
        title=said["title"],
        question=said["question"],
        fields=fields.FIELDS,
        compute=compute.compute,
        advise=advice.advise,
        picture=picture.picture,
        page=said["page"],
        example=said["example"],
        **({"review": fields.review} if hasattr(fields, "review") else {}),
    )
