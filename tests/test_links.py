"""Links are written and read alike by Python and by the page's script."""

import json
import subprocess
from pathlib import Path

import pytest

from calc import links, worksheets
from scripts import _node

ROOT = Path(__file__).parents[1]
VECTORS = json.loads((ROOT / "tests" / "data" / "links.json").read_text(encoding="utf-8"))
WRITTEN = [vector for vector in VECTORS if vector["link"] is not None]
# Run by node: the page's own module, with the vectors put in.
SCRIPT = """
import {{ build }} from {esbuild};
const made = await build({{ entryPoints: [{entry}], bundle: true, write: false, format: "esm" }});
const text = "data:text/javascript;base64," + Buffer.from(made.outputFiles[0].contents)
  .toString("base64");
const {{ NO_LINK, readLink, writeLink }} = await import(text);
const found = {vectors}.map(({{ fragment, link }}) => ({{
  read: readLink("#" + fragment),
  written: link && writeLink({{ ...NO_LINK, ...link }}),
}}));
console.log(JSON.stringify(found));
"""


@pytest.fixture(scope="module")
def client():
    """What the page's script makes of each vector."""
    npm = _node.ensure_npm_packages()
    script = SCRIPT.format(
        esbuild=json.dumps(str(npm / "esbuild" / "lib" / "main.js")),
        entry=json.dumps(str(ROOT / "docs" / "assets" / "src" / "link.ts")),
        vectors=json.dumps([*VECTORS, {"fragment": OLDER, "link": None}]),
    )
    node = Path(_node.node_folder()) / "node"
    command = [str(node), "--input-type=module", "-e", script]
    said = subprocess.run(command, capture_output=True, text=True, check=True, cwd=npm.parent)
    return json.loads(said.stdout)


@pytest.mark.parametrize("vector", WRITTEN, ids=lambda vector: vector["fragment"])
def test_python_writes_and_reads(vector):
    link = vector["link"]
    known = {name: value for name, value in link.items() if name != "inputs"}
    assert links.write(link["inputs"], **known) == vector["fragment"]
    read = links.read(vector["fragment"])
    assert dict(read.inputs) == link["inputs"]
    assert (read.ask, read.sheet) == (link.get("ask", ""), link.get("sheet", ""))
    assert read.example == link.get("example", False)
    assert list(read.examples) == link.get("examples", [])
    assert list(read.wanted) == link.get("wanted", [])
    assert read.version == links.VERSION


def test_the_page_writes_and_reads_the_same(client):
    for vector, found in zip(VECTORS, client[:-1], strict=True):
        if vector["link"] is None:
            assert found["read"] is None
            continue
        assert found["written"] == vector["fragment"]
        link = {"units": "", "ask": "", "sheet": "", "example": False, "examples": [], "wanted": []}
        assert found["read"] == {**link, "version": links.VERSION, **vector["link"]}


def test_a_link_without_a_version_holds_what_it_says():
    link = links.read("#tractor_mass=1%2C650+lb&working_width=")
    assert link.version == "" and link.inputs == {
        "tractor_mass": "1,650 lb",
        "working_width": "",
    }


def test_blank_inputs_are_not_written():
    assert links.write({"grade": " ", "towed_mass": "1 t"}) == "v=2&towed_mass=1+t"


# Links of the time before the fields had their names and options of today.
OLDER = "v=2&joint=advised&chipper_opening=4+in&yokes=in_line"
NOW = {"joint": "standard", "working_width": "4 in", "yokes": "in_line"}


def test_an_older_link_opens_what_it_asked() -> None:
    assert dict(links.read(OLDER).inputs) == NOW
    known = {item.name for name in worksheets.names() for item in worksheets.load(name).fields}
    assert not set(links.ALIASES) & known and set(links.ALIASES.values()) <= known
    for (field, option), now in links.OPTION_ALIASES.items():
        for choice in (f for n in worksheets.names() for f in worksheets.load(n).fields):
            if choice.name == field:
                offered = {each.value for each in choice.options}
                assert now in offered and option not in offered


def test_the_page_reads_an_older_link_alike(client) -> None:
    assert client[-1]["read"]["inputs"] == NOW
