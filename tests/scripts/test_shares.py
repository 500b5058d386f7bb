"""What of the library a page with one calculator fetches is enough for all that it asks."""

from __future__ import annotations

import dataclasses
import json

import pytest

from calc import worksheets
from calc.render import live
from scripts import _setup, archives, runtime, shares, vectors

WHOLE = runtime.LIBRARY


@pytest.fixture(scope="module")
def built() -> runtime.Runtime:
    """The finished runtime."""
    with _setup.one_at_a_time():
        return runtime.build()


def with_share(built: runtime.Runtime, name: str) -> runtime.Runtime:
    """Return the runtime as a page with this calculator alone takes it."""
    part = built.manifest["shares"][name]  # type: ignore[index]
    return dataclasses.replace(built, manifest={**built.manifest, "library": part})


@pytest.mark.parametrize("name", worksheets.names())
def test_a_share_answers_like_native_python(built: runtime.Runtime, name: str) -> None:
    def is_its(request: str) -> bool:
        return f'"worksheet": "{name}"' in request

    asked = list(filter(is_its, vectors.requests()))
    assert len(asked) > 10
    # Each kind of answer, and some questions that nobody has looked at.
    asked = [*asked[-12:], *filter(is_its, vectors.fresh(7))]
    answers = runtime.answer_all(asked, with_share(built, name))
    for request, answer in zip(asked, answers, strict=True):
        assert answer == live.respond(request), request


def test_a_share_is_half_of_the_library_and_nothing_else(built: runtime.Runtime) -> None:
    whole = archives.unpack((built.folder / WHOLE).read_bytes())
    size = (built.folder / WHOLE).stat().st_size
    for name in worksheets.names():
        file = built.folder / shares.name_of(name)
        share = archives.unpack(file.read_bytes())
        assert share.items() < whole.items()
        assert file.stat().st_size < min(0.55 * size, 6e5), name


def test_what_a_share_lacks_shows_as_a_fault(built: runtime.Runtime) -> None:
    """So that the page can take the whole library for it."""
    asked = json.dumps({"worksheet": "tires", "inputs": {}, "example": True})
    reading = json.dumps({"kind": "read", "text": "what lights do I need?"})
    for answer in runtime.answer_all([asked, reading], with_share(built, "hitch")):
        assert '"fault": ' in answer


SOURCES = {
    "calc/__init__.py": b"",
    "calc/render/live.py": b"from calc import model\n\ndef read():\n    import calc.reading\n",
    "calc/render/__init__.py": b"",
    "calc/model.py": b"from calc.tables import rows\nUNITS = rows('words/units')\n",
    "calc/reading.py": b"import calc.messages\n",
    "calc/messages.py": b"",
    "calc/tables/__init__.py": b"",
    "calc/tables/words/units.csv": b"unit\n",
    "calc/tables/words/slang.csv": b"word\n",
    "calc/tables/sources/hitch.csv": b"key\n",
    "calc/worksheets/__init__.py": b"",
    "calc/worksheets/one_way/__init__.py": b"",
    "calc/worksheets/one_way/compute.py": b"from calc import worksheets\nworksheets.load('far')\n",
    "calc/worksheets/one_way/compiled_words.py": b"WORDS = {}\n",
    "calc/worksheets/far/__init__.py": b"",
    "calc/worksheets/far/compute.py": b"SLANG = 'words/slang'\n",
    "calc/worksheets/near/__init__.py": b"",
    "calc/worksheets/near/compute.py": b"import calc.messages as m\n",
    "json.py": b"",
}


@pytest.mark.parametrize(
    ("name", "left"),
    [
        ("one-way", ["calc/messages", "calc/reading", "calc/worksheets/near/compute"]),
        (
            "near",
            [
                "calc/reading",
                "calc/tables/words/slang",
                "calc/worksheets/far/compute",
                "calc/worksheets/one_way/compiled_words",
                "calc/worksheets/one_way/compute",
            ],
        ),
    ],
)
def test_a_share_follows_imports_tables_words_and_worksheets_by_name(
    name: str, left: list[str]
) -> None:
    library = {path.replace(".py", ".pyc"): data for path, data in SOURCES.items()}
    share = shares.Shares(SOURCES).of(name, library)
    assert sorted(path.rpartition(".")[0] for path in library.keys() - share.keys()) == left
