"""Run the published checks, and write their rows for the page about them.

    python3 scripts/checks.py            # runs tests/published, writes what it noted
    python3 scripts/checks.py --compare  # runs them, and says whether the files are the run's

The rows go to tests/published/checks.csv, from which the build draws the page; how many concern
each calculator goes to calc/tables/words/published_checks.csv. Which they are follows from the
code: a row concerns every calculator whose formulae reach its function or its table.
"""

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

import argparse
import csv
import html
import io
import json
import os
import re
import subprocess
import tempfile
from collections.abc import Callable, Iterable, Sequence
from functools import cache

from scripts import _setup, reach

FILE = _setup.ROOT / "tests" / "published" / "checks.csv"
COUNTS = _setup.ROOT / "calc" / "tables" / "words" / "published_checks.csv"
ASKED = "YARDSTICK_ROWS"
WHAT = ("of", "inputs", "published", "ours", "difference")
COLUMNS = (*WHAT, "tolerance", "why", "source", "place", "test")  # of a row
Rows = list[dict[str, str]]


def gathered(folder: Path) -> Rows:
    """Return the rows that every process of a run left in a folder, sorted, each once."""
    found = {
        tuple(row[name] for name in COLUMNS)
        for file in folder.glob("*.json")
        for row in json.loads(file.read_text(encoding="utf-8"))
    }
    return [dict(zip(COLUMNS, row, strict=True)) for row in sorted(found)]


def run(words: Sequence[str] = ("tests/published",)) -> tuple[bool, Rows]:
    """Run the published checks; whether all passed, and their rows."""
    with tempfile.TemporaryDirectory() as folder:
        command = [sys.executable, "-m", "pytest", "-q", "-n0", *words]
        done = subprocess.run(command, cwd=_setup.ROOT, env={**os.environ, ASKED: folder})
        return done.returncode == 0, gathered(Path(folder))


def as_csv(columns: Sequence[str], rows: Iterable[dict[str, str]]) -> str:
    """Return rows as the text of a file."""
    out = io.StringIO()
    writer = csv.DictWriter(out, columns, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()


def counts(rows: Rows) -> Rows:
    """Return how many rows concern each calculator."""
    concerned = [reach.calculators(row["of"]) for row in rows]
    return [
        {"worksheet": name, "rows": str(sum(name in each for each in concerned))}
        for name in reach.names()
    ]


def files(rows: Rows) -> dict[Path, str]:
    """Return the files that hold a run's rows, with their text."""
    return {
        FILE: as_csv(COLUMNS, rows),
        COUNTS: as_csv(("worksheet", "rows"), counts(rows)),
    }


def keep(rows: Rows, *, write: bool = True) -> bool:
    """Write a run's rows; whether the files held them already."""
    current = True
    for path, text in files(rows).items():
        if not path.is_file() or path.read_text(encoding="utf-8") != text:
            current = False
            if write:
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_text(text, encoding="utf-8")
    return current


@cache
def kept() -> Rows:
    """Return the rows of the last run."""
    with FILE.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


# The page.

HEADS = ("What is compared", "From", "Published", "Ours", "Off", "Allowed", "Source")


def table_html(href: Callable[[str], str]) -> str:
    """Return the rows of the last run as a table, with the two lists that filter it.

    `href` gives the address of another page of the site. Without a script every row shows.
    """
    from calc import sources, worksheets

    rows = kept()
    titles = {name: worksheets.load(name).title for name in reach.names()}
    cited = {row["source"]: sources.find(row["source"])[0].title for row in rows}
    by_title = dict(sorted(cited.items(), key=lambda each: each[1].lower()))
    heads = "".join(f"<th>{head}</th>" for head in HEADS)
    body = "\n".join(_row_html(row, cited[row["source"]]) for row in rows)
    return (
        f'<div class="ys-published" data-rows="{len(rows)}">'
        f"<p>{len(rows)} comparisons with {len(cited)} sources.</p>"
        f"{_list_html('page', 'Calculator', titles)}"
        f"{_list_html('source', 'Source', by_title)}"
        f'<p class="ys-published-shown" role="status" aria-live="polite"></p>'
        f"<table><thead><tr>{heads}</tr></thead><tbody>\n{body}\n</tbody></table>"
        f'<p><a href="{html.escape(href("about/sources"))}">What the sources are</a></p></div>'
    )


def _list_html(name: str, label: str, options: dict[str, str]) -> str:
    listed = "".join(
        f'<option value="{html.escape(value)}">{html.escape(text)}</option>'
        for value, text in options.items()
    )
    return (
        f'<p class="ys-published-by" hidden><label>{label} <select name="{name}">'
        f'<option value="">all</option>{listed}</select></label></p>'
    )


def _row_html(row: dict[str, str], title: str) -> str:
    source = ", ".join(filter(None, (title, row["place"])))
    cells = (
        _in_words(row["of"]),
        row["inputs"],
        row["published"],
        row["ours"],
        row["difference"],
        f"{row['tolerance']}: {row['why']}",
        source,
    )
    concerned = " ".join(reach.calculators(row["of"]))
    filled = "".join(f"<td>{html.escape(cell)}</td>" for cell in cells)
    return (
        f'<tr data-page="{html.escape(concerned)}" data-source="{html.escape(row["source"])}">'
        f"{filled}</tr>"
    )


def _in_words(of: str) -> str:
    """Return what is compared as it is read: "mechanics.pto.type_row" is "pto: type row"."""
    return re.sub("[./]", ": ", of.removeprefix("mechanics.")).replace("_", " ")


def link_html(name: str, href: Callable[[str], str]) -> str:
    """Return the way from a calculator to the rows that concern it; nothing when there are none."""
    count = sum(name in reach.calculators(row["of"]) for row in kept())
    if not count:
        return ""
    values = "published value" if count == 1 else "published values"
    return (
        f'<p class="ys-checked"><a href="{html.escape(href("about/checks"))}#page={name}">'
        f"Checked against {count} {values}</a></p>"
    )


def main() -> int:
    """Run, then write or compare."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--compare", action="store_true", help="write nothing")
    given = parser.parse_args()
    passed, rows = run()
    if not passed:
        _setup.say("The published checks didn't pass; nothing is written.")
        return 1
    current = keep(rows, write=not given.compare)
    _setup.say(f"{len(rows)} rows{'' if current else ', not those of the last run'}")
    return 1 if given.compare and not current else 0


if __name__ == "__main__":
    _setup.command(main)
