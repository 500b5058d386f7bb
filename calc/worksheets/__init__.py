"""The calculators, a folder each, found by the folder's name and loaded when asked for.

A folder holds `fields.py` (FIELDS, OUTPUTS, and `review` where fields can contradict each
other), `compute.py`, `advice.py` (`advise`), `picture.py` and `words.toml`.
"""

import pkgutil
from dataclasses import replace
from functools import cache
from importlib import import_module
from types import ModuleType

from calc.errors import UnknownName
from calc.model import (
    Advice,
    At,
    Found,
    Inputs,
    Outcome,
    Work,
    Worksheet,
    asks_of,
    kinds_of,
    worded,
)
from calc.model.wording import merged, read_words
from calc.search import Remedies, Solver
from calc.subjects import other_sources

SHARED = ("calc.machines", "calc.subjects")  # rooms whose words every worksheet may use


@cache
def names() -> tuple[str, ...]:
    """Return the name of every worksheet, sorted."""
    folders = {module.name for module in pkgutil.iter_modules(__path__) if module.ispkg}
    return tuple(sorted(name.replace("_", "-") for name in folders))


@cache
def on_page(page: str) -> tuple[str, ...]:
    """Return the names of the worksheets that stand on a page ("road/closing"), sorted."""
    return tuple(
        name
        for name in names()
        if read_words(f"{__name__}.{name.replace('-', '_')}")["page"] == page
    )


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
    return assemble(name, f"{__name__}.{name.replace('-', '_')}")


def assemble(name: str, package: str) -> Worksheet:
    """Return the worksheet that stands in a package."""
    fields, compute, advice, picture = (
        import_module(f"{package}.{part}") for part in ("fields", "compute", "advice", "picture")
    )
    own = read_words(package)
    words = merged(*(read_words(room) for room in SHARED), own)
    worded_fields = worded(
        fields.FIELDS, {**read_words("calc.subjects")["fields"], **own.get("fields", {})}
    )
    outputs = getattr(fields, "OUTPUTS", ())
    sheet = Worksheet(
        name=name,
        title=own["title"],
        question=own["question"],
        fields=worded_fields,
        compute=compute.compute,
        advise=advice.advise,
        picture=picture.picture,
        outputs=outputs,
        asks=asks_of(own),
        words=words,
        page=own["page"],
        example=own["example"],
        kinds=kinds_of(worded_fields, outputs),
        **({"review": fields.review} if hasattr(fields, "review") else {}),
    )
    return _named(sheet, compute, advice) if outputs else sheet


def _named(sheet: Worksheet, compute: ModuleType, advice: ModuleType) -> Worksheet:
    """Return a worksheet whose functions speak by name: they get `At`, `Found`, `Remedies`."""

    def run(v: Inputs, work: Work) -> Outcome:
        at = At(sheet, v, work)
        compute.compute(v, at)
        return at.outcome()

    def advise(v: Inputs, outcome: Outcome, solve: Solver) -> Advice:
        remedies = Remedies(solve)
        found = Found(sheet, v, outcome, solve.verdicts, solve.assumed)
        said: Advice = advice.advise(v, found, remedies)
        differ = other_sources.differences(sheet.name)
        shown = said.tables if differ is None else [*said.tables, differ]
        return replace(said, remedies=[*remedies.found(), *said.remedies], tables=shown)

    return replace(sheet, compute=run, advise=advise)
