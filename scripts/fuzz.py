"""Try everything that can be typed, linked or brought in a file, and look for what must never be.

    python3 scripts/fuzz.py SEED COUNT [--only NAME] [--write]

For every worksheet in turn random inputs: each field blank, a value near a limit or anywhere, a
range, an option or a hostile text; any of its asks, either system of units. Then links, lists of
machines, round-ups and settings of shops, both broken and made whole. What must hold:

- never an exception, and JSON without NaN;
- no page, picture or reply with "nan" or "inf" in it, or with what rounding left as a number;
- what is refused is refused in whole sentences;
- what a remedy puts in to be tried is taken by its field, and inside its limits.

What fails is cut down to the fewest inputs that still fail, and printed once for each kind of
fault; the same seed and count do the same again. NAME is a worksheet, "links", "lists" or "shops".
With --write the figures go onto the page about testing.
"""

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

import argparse
import html
import json
import math
import re
import tempfile
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

import hypothesis
from hypothesis import strategies as st

from calc import links, machines, model, quantities, search, worksheets
from calc.errors import YardstickError
from calc.render import data, live, reply, round_up
from calc.render.answer import answer_html
from scripts import sections, shop

NOT_A_NUMBER = re.compile(r"(?<![a-z])(?:nan|inf|infinity)(?![a-z])", re.I)
RESIDUE = re.compile(r"(?<![\d.])0\.0{7,}\d")
SENTENCE = re.compile(r"[.!?…][”’)]?$")

PROVED_ONE_IN = 8  # a proof over ranges takes as long as twenty single answers

HOSTILE = (
    *(
        "nan",
        "inf",
        "-inf ft",
        "1e308 in",
        "1e999 lb",
        "1e-320 in",
        "-1",
        "0",
        "-0",
        "0x10",
        "٣ ft",
    ),
    *("about 0 in", "about 0", "0 to 0", "5 to 3 ft", "1/0 in", "0/1", "1e400/1 in", "1 ± 1e300"),
    *("90 deg", "-90 deg", "1:0", "1 in 0", "100 %", "<b>1</b>", "=1+1", "constructor"),
    *(
        "__proto__",
        "\u0000",
        "\ud800",
        "9" * 130,
        "1" * 100 + " lb",
        "½",
        "5 ft 5 ft",
        "+",
        ".",
        ",",
    ),
    *("'\"><script>", "…", "don't know", "?", "1,00,0 lb", "12 lb/", "%", "5 m ft", "‮5 lb"),
)
SIZES = ("11.2-24", "6-12", "280/85R24", "26x12.00-12", "14.9-24")  # of tires
hostile_texts = st.one_of(st.sampled_from(HOSTILE), st.text(max_size=30))


@dataclass
class Tally:
    """What was tried of one subject, and the shortest case of each kind of fault."""

    count: int = 0
    taken: int = 0  # inputs that were answered; the others were refused in sentences
    faults: dict[str, Any] = field(default_factory=dict)

    def note(self, fault: str, case: Any) -> None:
        """Keep a case of a fault when it is the shortest."""
        known = self.faults.get(fault)
        if known is None or len(repr(case)) < len(repr(known)):
            self.faults[fault] = case


# --- what is typed -----------------------------------------------------------------------------


def _units(kind: str) -> list[quantities.Unit]:
    return [unit for unit in quantities.kind(kind).units if not unit.offset]


@st.composite
def quantity_texts(draw: st.DrawFn, item: model.Field) -> str:
    """A value or a range of a field, often at its limits, in any unit of its kind."""
    low, high = (quantities.base(end, item.kind) for end in (item.low, item.high))
    example = quantities.parse(item.example, item.kind) if item.example else None
    usual = None if callable(item.typical) else item.typical
    ends = [low, high] if low > 0.0 else [low, 0.0, high]
    anywhere = st.floats(low, high)
    if example:
        near = st.floats(0.5, 2.0).map(lambda times: min(max(low, example.middle * times), high))
        anywhere = st.one_of(near, near, anywhere)
    elif usual:
        anywhere = st.one_of(st.floats(usual.low, usual.high), anywhere)
    one = st.one_of(anywhere, anywhere, anywhere, st.sampled_from(ends))
    values = sorted(draw(st.lists(one, min_size=1, max_size=2)))
    unit = draw(st.sampled_from(_units(item.kind) or list(quantities.kind(item.kind).units)))
    texts = [f"{unit.from_base(value):.12g}" for value in values]
    return f"{' to '.join(texts)} {unit.symbol}".strip()


def texts_of(item: model.AnyField) -> st.SearchStrategy[str]:
    """What may be typed into a field that isn't left out."""
    if isinstance(item, model.Choice):
        return st.sampled_from([option.value for option in item.options])
    if isinstance(item, model.Field):
        return quantity_texts(item)
    return st.sampled_from([item.example, *SIZES] if item.example else SIZES)


@st.composite
def inputs_of(draw: st.DrawFn, sheet: model.Worksheet) -> dict[str, str]:
    """What somebody may give to a worksheet."""
    share = draw(st.sampled_from((0.1, 0.4, 0.7, 1.0)))
    evil = draw(st.sampled_from((0.0, 0.0, 0.0, 0.0, 0.1)))
    wild = draw(st.randoms(use_true_random=False))
    inputs: dict[str, str] = {}
    for item in sheet.fields:
        if wild.random() < evil:
            inputs[item.name] = draw(hostile_texts)
        elif wild.random() < share or (item.needed and wild.random() < 0.9):
            inputs[item.name] = draw(texts_of(item))
    if wild.random() < 0.7:  # somebody who reads what is refused, and takes it out
        for _ in range(3):
            for name in search.read(sheet, inputs).errors:
                inputs.pop(name, None)
    return inputs


# --- what must hold of an answer -----------------------------------------------------------------


def faults_of_text(what: str, text: str) -> Iterator[str]:
    """Say what in a text for readers is no number that anybody can use."""
    for pattern, name in ((NOT_A_NUMBER, "no number"), (RESIDUE, "what rounding left")):
        found = pattern.search(text)
        if found:
            yield f"{what} shows {name}, “{found[0]}”"


def faults_of_errors(errors: Mapping[str, str]) -> Iterator[str]:
    """Say which sentences about inputs aren't sentences."""
    for name, sentence in errors.items():
        if not SENTENCE.search(sentence):
            yield f"the error of {name or 'the form'} is no sentence: {sentence}"


def faults_of_remedies(answer: model.Answer) -> Iterator[str]:
    """Say which values that a remedy puts in its field refuses."""
    sheet = answer.worksheet
    for remedy in answer.advice.remedies:
        for name, text in remedy.set.items():
            try:
                for system in quantities.SYSTEMS:
                    sheet.field(name).read(text, system)
            except YardstickError as error:
                yield f"the remedy {remedy.key} sets {name} to what it refuses: {error}"
        if remedy.set:
            known = search.read(sheet, {**answer.given, **remedy.set})
            for name in known.errors.keys() - remedy.set.keys():
                yield f"the remedy {remedy.key} makes {name} refused: {known.errors[name]}"
            for name in known.errors.keys() & remedy.set.keys():
                yield f"the remedy {remedy.key} sets {name}, refused: {known.errors[name]}"


def faults_of_answer(answer: model.Answer, system: str) -> Iterator[str]:
    """Say what in an answer must never be."""
    for verdict in answer.verdicts:
        numbers = (verdict.value_low, verdict.value_high, verdict.limit_low, verdict.limit_high)
        if any(math.isnan(number) for number in numbers):
            yield f"the check {verdict.check.name} is NaN"
    for output in answer.outputs:
        if math.isnan(output.value):
            yield f"the output {output.name} is NaN"
    yield from faults_of_text("the page", html.unescape(answer_html(answer, system)))
    yield from faults_of_text("the reply", reply.reply(answer, system))
    json.dumps(data.data(answer, system), allow_nan=False)
    yield from faults_of_remedies(answer)


@dataclass(frozen=True)
class Asked:
    """How inputs are asked about."""

    ask: str
    system: str
    full: bool  # over all that the inputs may be, not for their middle alone


def try_inputs(
    sheet: model.Worksheet, inputs: Mapping[str, str], asked: Asked
) -> tuple[bool, list[str]]:
    """Answer inputs; return whether they were taken, and what was wrong."""
    try:
        answer = search.answer(sheet, inputs, asked.system, ask=asked.ask, full=asked.full)
    except search.BadInputs as bad:
        return False, list(faults_of_errors(bad.errors))
    except Exception as error:
        return False, [_thrown(error)]
    try:
        return True, list(faults_of_answer(answer, asked.system))
    except Exception as error:
        return True, [_thrown(error)]


def _thrown(error: Exception) -> str:
    """Name what was thrown, and where in our own code it came from."""
    place, trace = "", error.__traceback__
    while trace is not None:
        code = trace.tb_frame.f_code
        if "/calc/" in code.co_filename or "/scripts/" in code.co_filename:
            place = f"{Path(code.co_filename).stem}.{code.co_name}, line {trace.tb_lineno}"
        trace = trace.tb_next
    return f"{type(error).__name__} at {place}: {error}"


def _fewer(case: dict[str, str], fails: Callable[[dict[str, str]], bool]) -> dict[str, str]:
    """Return the inputs of a case that are needed for it to fail."""
    for name in tuple(case):
        less = {key: text for key, text in case.items() if key != name}
        if fails(less):
            case = less
    return case


def _kind_of(fault: str) -> str:
    """A fault without its numbers: what counts as the same fault."""
    return re.sub(r"[-+]?\d[\d.,]*(?:e[-+]?\d+)?", "#", fault)


def fuzz_worksheet(name: str) -> tuple[st.SearchStrategy[Any], Callable[[Any, Tally], None]]:
    """Return what to try with a worksheet, and how."""
    sheet = worksheets.load(name)
    asks = [ask.key for ask in sheet.asks] or [""]
    how = st.builds(
        Asked,
        st.sampled_from(asks),
        st.sampled_from(quantities.SYSTEMS),
        st.integers(1, PROVED_ONE_IN).map(lambda draw: draw == PROVED_ONE_IN),
    )

    def attempt(case: tuple[dict[str, str], Asked], tally: Tally) -> None:
        inputs, asked = case
        taken, faults = try_inputs(sheet, inputs, asked)
        tally.taken += taken
        for fault in faults:
            kind = _kind_of(fault)
            if kind in tally.faults:
                continue

            def fails(less: dict[str, str], kind: str = kind) -> bool:
                return any(_kind_of(f) == kind for f in try_inputs(sheet, less, asked)[1])

            shortest = _fewer(inputs, fails)
            said = next(f for f in try_inputs(sheet, shortest, asked)[1] if _kind_of(f) == kind)
            tally.note(kind, (said, shortest, asked))

    return st.tuples(inputs_of(sheet), how), attempt


# --- links ---------------------------------------------------------------------------------------

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
            tally.note(_kind_of(fault), asked)


def _refuse(constant: str) -> None:
    raise ValueError(f"{constant} is no JSON.")


# --- lists and shops -----------------------------------------------------------------------------

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
            tally.note(_kind_of(f"{what}: no sentence: {problem}"), case)


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
SUBJECTS = (*worksheets.names(), *OTHERS)


def fuzz(name: str, seed: int, count: int) -> Tally:
    """Try so many cases of one subject, and return what was wrong."""
    cases, attempt = OTHERS.get(name) or fuzz_worksheet(name)
    tally = Tally()

    @hypothesis.seed(f"{seed} {name}")
    @hypothesis.settings(
        max_examples=count,
        database=None,
        deadline=None,
        phases=[hypothesis.Phase.generate],
        suppress_health_check=list(hypothesis.HealthCheck),
    )
    @hypothesis.given(cases)
    def every(case: Any) -> None:
        tally.count += 1
        try:
            attempt(case, tally)
        except Exception as error:
            tally.note(_kind_of(_thrown(error)), case)

    every()
    return tally


def run(seed: int, count: int, only: str = "") -> dict[str, Tally]:
    """Try so many cases, spread over all subjects, and print what was wrong."""
    names = [only] if only else list(SUBJECTS)
    tallies = {}
    for place, name in enumerate(names):
        share = count // len(names) + (place < count % len(names))
        tallies[name] = tally = fuzz(name, seed, share) if share else Tally()
        print(f"{name:<14} {tally.count:>8,} tried {tally.taken:>8,} taken", flush=True)
        for fault, case in tally.faults.items():
            print(f"    {fault}\n        {str(case)[:600]}", flush=True)
    return tallies


PAGE = Path(__file__).resolve().parent.parent / "docs" / "about" / "testing.md"
HEADING = "## Random and hostile inputs"


def report(tallies: Mapping[str, Tally], asked: argparse.Namespace) -> str:
    """The section of the page about testing."""
    parts = {name: tallies[name].count for name in OTHERS if name in tallies}
    typed = sum(tally.count for name, tally in tallies.items() if name not in OTHERS)
    taken = sum(tally.taken for name, tally in tallies.items() if name not in OTHERS)
    faults = sum(len(tally.faults) for tally in tallies.values())
    brought = quantities.joined([f"{count:,} of {name}" for name, count in parts.items()])
    return f"""{HEADING}

Written by `python3 scripts/fuzz.py {asked.seed} {asked.count} --write`. Every calculator is given
what somebody might type and what nobody should: blanks, ranges, values at the limits and far past
them, every question, both systems of units, texts that aren't numbers. Links, lists of machines and
folders of shops are made up and broken in the same way. Nothing may break off; no page or reply may
show what is no number; what is refused is refused in sentences; what a remedy puts in is taken.

Tried: {typed:,} sets of inputs, of which {taken:,} were answered and the others refused, and
{brought}. Kinds of fault found: {faults}.
"""


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("seed", type=int)
    parser.add_argument("count", type=int)
    parser.add_argument("--only", default="", choices=("", *SUBJECTS))
    parser.add_argument("--write", action="store_true", help="write the figures onto their page")
    given = parser.parse_args()
    found = run(given.seed, given.count, given.only)
    wrong = sum(len(tally.faults) for tally in found.values())
    tried = sum(tally.count for tally in found.values())
    print(f"Seed {given.seed}: {tried:,} tried, {wrong} kinds of fault.")
    if given.write:
        sections.put(PAGE, HEADING, report(found, given))
    sys.exit(bool(wrong))
