"""Links, lists of machines, round-ups and settings of shops: broken, made whole, and tried."""

import json
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

from calc import links, machines, worksheets
from calc.render import live, round_up
from scripts import shop
from scripts.faults import SENTENCE, Tally, faults_of_errors, kind_of
from scripts.hostile import hostile_texts

_names = [name for sheet in map(worksheets.load, worksheets.names()) for name in sheet.kinds]
link_texts = st.one_of(hostile_texts, st.text(max_size=200))
link_inputs = st.dictionaries(
    st.one_of(st.sampled_from(_names), link_texts), link_texts, max_size=8
)
fragments = st.one_of(
    st.text(max_size=300),
    st.lists(
        st.sampled_from(("&", "=", "%", "%ZZ", "%00", "%FF", "#", "+", "v=2", "ask=", ";", "on"))
    ).map("".join),
)


def try_link(case: tuple[dict[str, str], str, str], tally: Tally) -> None:
    """Write and read a link, read a hostile one, and let a page open both."""
    inputs, fragment, name = case
    told = {key: text for key, text in inputs.items() if key not in links.WORDS}
    try:
        written = links.write(told)
        kept = {key: text.strip() for key, text in told.items() if text.strip()}
        if dict(links.read(f"#{written}").inputs) != kept:
            tally.note("a link doesn't come back as it was written", told)
    except UnicodeEncodeError:  # half a character: no browser has one in a form
        if not any(
            "\ud800" <= letter <= "\udfff" for pair in told.items() for letter in "".join(pair)
        ):
            raise
    for given in (links.read(fragment).inputs, told):
        asked = {"worksheet": name, "inputs": dict(given), "stage": "exact"}
        said = json.loads(live.respond(json.dumps(asked)), parse_constant=_refuse)
        tally.taken += said["ok"]
        if "fault" in said:
            tally.note(f"a link breaks the page: {said['fault']}", asked)
        for fault in faults_of_errors(said["errors"]):
            tally.note(kind_of(fault), asked)


def _refuse(constant: str) -> None:
    raise ValueError(f"{constant} is no JSON.")


_columns = sorted({*machines.fields("tractor"), *machines.fields("implement")})
cells = st.one_of(
    hostile_texts, st.sampled_from(("24 in", "1,500 lb", "=HYPERLINK(1)", "a" * 140_000))
)
headings = st.one_of(st.sampled_from(["name", "price", "mass_lb", "Weight (kg)", *_columns]), cells)


def _quoted(text: str) -> str:
    return '"' + text.replace('"', '""') + '"'


@st.composite
def lists(draw: st.DrawFn) -> str:
    """A list as a shop may write it, whole or broken."""
    if draw(st.integers(0, 5)) == 0:
        return draw(st.text(max_size=400))
    columns = draw(st.lists(headings, min_size=1, max_size=6))
    size = len(columns) + draw(st.sampled_from((0, 0, 0, 1)))
    some = st.lists(cells, min_size=size, max_size=size)
    rows = draw(st.lists(some, max_size=4))
    mark, ends = (
        draw(st.sampled_from((",", ";", "\t"))),
        draw(st.sampled_from(("\n", "\r\n", "\r"))),
    )
    quoted = draw(st.booleans())
    write: Callable[[str], str] = _quoted if quoted else str
    lines = [mark.join(map(write, row)) for row in (["name", *columns], *(["A", *r] for r in rows))]
    return draw(st.sampled_from(("", "\ufeff"))) + ends.join(lines)


def _sentences(problems: tuple[str, ...], what: str, case: Any, tally: Tally) -> None:
    for problem in problems:
        if not SENTENCE.search(problem) or "Traceback" in problem or "\n" in problem:
            tally.note(kind_of(f"{what}: no sentence: {problem}"), case)


def try_list(case: tuple[str, str], tally: Tally) -> None:
    """Read a list, and a round-up of the same text."""
    text, role = case
    found, problems = machines.read_machines(text, role)
    tally.taken += bool(found)
    _sentences(problems, "a list", case, tally)
    _, problems = round_up.read(text.replace("name", "question,worksheet", 1), "round_up.csv")
    _sentences(problems, "a round-up", case, tally)
    for machine in found:
        for name, typed in machine.inputs.items():
            machines.fields(role)[name].read(typed)


toml_values = st.one_of(
    st.sampled_from(
        ('"A"', '"A"', '["A"]', "nan", "[1, 2]", "{a = 1}", "1" * 5000, "[" * 1000, "{a=" * 1000)
    ),
    st.text(max_size=30).map(json.dumps),
    st.text(max_size=30),
)
settings_texts = st.lists(
    st.tuples(
        st.sampled_from((*shop.TEXTS, "notes", "page_notes", "parts", "[[parts]]\nfor", "colour")),
        toml_values,
    ),
    max_size=5,
).map(lambda pairs: "\n".join(f"{key} = {value}" for key, value in pairs))
contents = st.one_of(
    settings_texts.map(lambda text: text.encode("utf-8", "replace")),
    st.text(max_size=200).map(lambda text: text.encode("utf-16", "replace")),
    st.binary(max_size=200),
)


def try_shop(case: tuple[bytes, bytes, bytes], tally: Tally) -> None:
    """Read the folder of a shop."""
    with tempfile.TemporaryDirectory() as folder:
        names = ("shop.toml", "tractors.csv", "round_up.csv")
        for name, content in zip(names, case, strict=True):
            (Path(folder) / name).write_bytes(content)
        found = shop.read(Path(folder))
        tally.taken += bool(found.name)
        _sentences(found.problems, "a shop", case, tally)
        if not any("implements.csv" in problem for problem in found.problems):
            tally.note("a missing list isn't named", case)


OTHERS: Mapping[str, tuple[st.SearchStrategy[Any], Callable[[Any, Tally], None]]] = {
    "links": (
        st.tuples(link_inputs, fragments, st.sampled_from(worksheets.names())),
        try_link,
    ),
    "lists": (st.tuples(lists(), st.sampled_from(machines.ROLES)), try_list),
    "shops": (st.tuples(contents, contents, contents), try_shop),
}
