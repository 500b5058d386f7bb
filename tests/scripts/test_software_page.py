"""The page that names other people's software, against what is installed and locked."""

from __future__ import annotations

import json
import re
from importlib.metadata import metadata

import pytest

from scripts import _setup, runtime

PAGE = _setup.ROOT / "docs" / "about" / "software.md"
LISTED = dict(re.findall(r"^\| `(\S+)` \|.*\| (\S+) \|$", PAGE.read_text("utf-8"), re.MULTILINE))
LOCK = json.loads((_setup.CLIENT / "package-lock.json").read_text("utf-8"))["packages"]
# What the runtime and the theme bring along, by their own statements.
WITHIN_OTHERS = {"cpython": "PSF-2.0", "@mdi/svg": "Apache-2.0"}


def test_everything_that_reaches_a_browser_is_named() -> None:
    bundled = set(LOCK[""]["dependencies"]) | set(runtime.LIBRARIES) | set(WITHIN_OTHERS)
    assert bundled | {"mkdocs-material", "workbox-build"} == set(LISTED)


@pytest.mark.parametrize("name", sorted(LISTED))
def test_licences_are_those_of_the_packages(name: str) -> None:
    if name in WITHIN_OTHERS:
        stated = WITHIN_OTHERS[name]
    elif f"node_modules/{name}" in LOCK:
        stated = LOCK[f"node_modules/{name}"]["license"]
    else:
        found = metadata(name)
        stated = found.get("License-Expression") or found.get("License")
    assert LISTED[name] == stated
