"""Change the code in small ways, one at a time, and see whether the tests notice.

    python3 scripts/mutants.py SEED COUNT [--only MODULE ...] [--tests FOLDER ...] [--write]

Needs cosmic-ray beside the test packages (DEVELOPERS.md, "How to try whether tests bite"). Of each
module COUNT places are drawn, and one change at each. Every test runs once, to see which lines it
reaches; then each change is tried on the tests that reach it, the quickest first, in a process of
its own in which the changed function or constant stands in place of the true one. No file is
changed. Survivors are printed; with --write the figures go onto the page about measurements.
"""

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

import argparse
import functools
import json
import os
import random
import resource
import tempfile
import time
from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from types import CodeType
from typing import Any

import pytest

from scripts import _changes, sections
from scripts._changes import Mutant, mutants
from scripts._setup import ROOT

ROOMS = {
    "calc/mechanics": ("calc/mechanics/*.py",),
    "calc/subjects": ("calc/subjects/*.py",),
    "calc/worksheets, compute": ("calc/worksheets/*/compute.py",),
}
TESTS = (
    "calc/mechanics",
    "tests/mechanics",
    "tests/published",
    "tests/second_ways",
    "tests/search",
    "tests/worksheets",
    "tests/test_checks.py",
    "tests/test_steps.py",
    "tests/test_worksheets.py",
)
AT_ONCE = 2
ENOUGH = 8.0  # seconds of tests, as they took unchanged, that one change is tried on
PROCESSOR = 90  # seconds of processor time after which a change counts as caught: it doesn't end


@dataclass
class Tally:
    """What became of the changes of some modules."""

    caught: int = 0
    left: list[Mutant] = field(default_factory=list)

    def cells(self, name: str) -> str:
        """The tally as a row of a table."""
        tried = self.caught + len(self.left)
        return f"| {name} | {tried} | {self.caught} | {self.caught / max(tried, 1):.1%} |"


# --- running tests ----------------------------------------------------------------------------

Reached = dict[str, dict[int, list[int]]]  # by file and line, the tests


class Runner:
    """A pytest plugin that runs the tests once for each change."""

    def __init__(self, drawn: Sequence[Mutant]) -> None:
        self.drawn = drawn
        self.items: list[pytest.Item] = []
        self.took: dict[int, float] = {}
        self.reached: Reached = defaultdict(lambda: defaultdict(list))

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Take the place of pytest's own loop."""
        from hypothesis import Phase, settings

        settings.register_profile(
            "changed",
            deadline=None,
            derandomize=True,
            database=None,
            phases=(Phase.explicit, Phase.generate),
        )
        settings.load_profile("changed")
        self.items = list(session.items)
        self.functions, self.kept = _changes.functions(), _changes.kept()
        self._reach()
        self._try()
        return True

    def _passes(self, item: pytest.Item, following: pytest.Item | None) -> bool:
        from _pytest.runner import runtestprotocol

        return not any(
            report.failed for report in runtestprotocol(item, log=False, nextitem=following)
        )

    def _fork(self, work: Callable[[], int]) -> int:
        """Run something in a copy of this process; return the copy's number."""
        sys.stdout.flush()
        number = os.fork()
        if number:
            return number
        status = 3
        try:
            silent = os.open(os.devnull, os.O_WRONLY)
            os.dup2(silent, 1)
            os.dup2(silent, 2)
            status = work()
        finally:
            os._exit(status)

    def _reach(self) -> None:
        """Run every test as things are, and note which lines each reaches and how long it takes."""
        with tempfile.TemporaryDirectory() as folder:
            parts = [Path(folder, str(part)) for part in range(AT_ONCE)]
            running = [
                self._fork(functools.partial(self._watch, part, file))
                for part, file in enumerate(parts)
            ]
            for number in running:
                _, status = os.waitpid(number, 0)
                if status:
                    raise SystemExit("The tests could not be run as things are.")
            for file in parts:
                found = json.loads(file.read_text(encoding="utf-8"))
                self.took.update({int(place): took for place, took in found["took"].items()})
                for name, line, place in found["reached"]:
                    self.reached[name][line].append(place)
                for place in found["failed"]:
                    print("failed as things are, left out:", self.items[place].nodeid)
        print(f"{len(self.took)} tests, {sum(self.took.values()):.0f} s", flush=True)

    def _watch(self, part: int, file: Path) -> int:
        wanted = {str(ROOT / mutant.path) for mutant in self.drawn}
        hit: set[tuple[str, int]] = set()

        def line(code: CodeType, number: int) -> Any:
            hit.add((code.co_filename, number))
            return sys.monitoring.DISABLE

        events = sys.monitoring
        events.use_tool_id(events.PROFILER_ID, "reach")
        events.register_callback(events.PROFILER_ID, events.events.LINE, line)
        for name in wanted:
            for function in self.functions.get(name, ()):
                for code in _changes.codes(function.__code__):
                    events.set_local_events(events.PROFILER_ID, code, events.events.LINE)
        kept = [
            thing
            for thing in self.kept
            if getattr(getattr(thing, "__wrapped__", None), "__code__", None) is not None
            and thing.__wrapped__.__code__.co_filename in wanted
        ]
        files = {name: place for place, name in enumerate(dict.fromkeys(map(_file, self.items)))}
        chosen = [
            (place, item)
            for place, item in enumerate(self.items)
            if files[_file(item)] % AT_ONCE == part
        ]
        took: dict[int, float] = {}
        reached: list[tuple[str, int, int]] = []
        failed: list[int] = []
        after = [*(item for _, item in chosen[1:]), None]
        for (place, item), following in zip(chosen, after, strict=False):
            hit.clear()
            for thing in kept:
                thing.cache_clear()
            events.restart_events()
            start = time.process_time()
            if self._passes(item, following):
                took[place] = time.process_time() - start
                reached += [(name, number, place) for name, number in hit]
            else:
                failed.append(place)
        file.write_text(json.dumps({"took": took, "reached": reached, "failed": failed}))
        return 0

    def tests_of(self, mutant: Mutant) -> list[int]:
        """Return the tests that reach a change, the quickest first, as many as are enough."""
        lines = self.reached[str(ROOT / mutant.path)]
        span: Iterable[int] = range(mutant.line, mutant.last + 1) if mutant.inside else lines
        found = sorted({place for line in span for place in lines.get(line, ())}, key=self._time)
        spent, enough = 0.0, []
        for place in found:
            spent += self._time(place)
            if spent > ENOUGH:
                break
            enough.append(place)
        return enough

    def _time(self, place: int) -> float:
        return self.took.get(place, 0.0)

    def _try(self) -> None:
        """Try every change, some at once."""
        running: dict[int, Mutant] = {}
        waiting = list(self.drawn)
        while waiting or running:
            while waiting and len(running) < AT_ONCE:
                mutant = waiting.pop(0)
                tests = self.tests_of(mutant)
                if not tests:
                    mutant.seen = "not reached"
                    print(mutant.seen, mutant, flush=True)
                    continue
                number = self._fork(functools.partial(self._changed, mutant, tests))
                running[number] = mutant
            time.sleep(0.005)
            for number in list(running):
                ended, status = os.waitpid(number, os.WNOHANG)
                if ended:
                    mutant = running.pop(number)
                    mutant.seen = "caught" if status else "survived"
                    if not status:
                        print(mutant.seen, mutant, flush=True)

    def _changed(self, mutant: Mutant, tests: Sequence[int]) -> int:
        resource.setrlimit(resource.RLIMIT_CPU, (PROCESSOR, PROCESSOR))
        _changes.put(mutant, self.functions[str(ROOT / mutant.path)], self.kept)
        items = [self.items[place] for place in tests]
        for item, following in zip(items, [*items[1:], None], strict=True):
            if not self._passes(item, following):
                return 1
        return 0


def _file(item: pytest.Item) -> str:
    return item.nodeid.partition("::")[0]


# --- what came of it --------------------------------------------------------------------------

REPORT = ROOT / "docs" / "about" / "measured.md"
HEADING = "## Whether the tests notice"


def report(tallies: dict[str, Tally], modules: dict[str, Tally], given: argparse.Namespace) -> str:
    """The section of the page about measurements."""
    only = f" --only {' '.join(given.only)}" if given.only else ""
    rooms = "\n".join(tally.cells(name) for name, tally in tallies.items())
    weak = sorted(
        (name for name, tally in modules.items() if tally.left),
        key=lambda name: modules[name].caught / (modules[name].caught + len(modules[name].left)),
    )
    rows = "\n".join(modules[name].cells(f"`{name}`") for name in weak)
    return f"""{HEADING}

Written by `python3 scripts/mutants.py {given.seed} {given.count}{only} --write`.
The code is changed in small ways, one at a time: a number one more or one less, a plus for a minus,
“at most” for “less than”, a condition turned over. {given.count} places of each module are drawn
(all, where it has fewer), with one change at each; then the tests that reach the place are run.
*Caught*: a test failed. What no test notices is looked at by hand.

| Where | Changes | Caught | Share |
| --- | --- | --- | --- |
{rooms}

Modules in which changes went unnoticed; all others caught every one:

| Module | Changes | Caught | Share |
| --- | --- | --- | --- |
{rows}
"""


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("seed", type=int)
    parser.add_argument("count", type=int)
    parser.add_argument("--only", nargs="*", default=[], help="modules, or how their paths begin")
    parser.add_argument("--tests", nargs="*", default=TESTS, help="what has to notice")
    parser.add_argument("--write", action="store_true", help="write the figures onto their page")
    return parser.parse_args()


def main() -> int:
    """Draw the changes, try them and say what came of it."""
    given = _arguments()
    rooms = {
        room: [
            str(path.relative_to(ROOT))
            for pattern in patterns
            for path in sorted(ROOT.glob(pattern))
            if path.name != "__init__.py"
        ]
        for room, patterns in ROOMS.items()
    }
    drawn = {
        path: mutants(path, random.Random(f"{given.seed} {path}"), given.count)
        for paths in rooms.values()
        for path in paths
        if not given.only or path.startswith(tuple(given.only))
    }
    runner = Runner([mutant for some in drawn.values() for mutant in some])
    os.chdir(ROOT)
    pytest.main(["-q", "--no-header", "--capture=no", "-n0", *given.tests], plugins=[runner])
    tallies: dict[str, Tally] = defaultdict(Tally)
    modules: dict[str, Tally] = defaultdict(Tally)
    for room, paths in rooms.items():
        for mutant in (mutant for path in paths for mutant in drawn.get(path, ())):
            for tally in (tallies[room], modules[mutant.path]):
                if mutant.seen == "caught":
                    tally.caught += 1
                else:
                    tally.left.append(mutant)
    for name, tally in [*modules.items(), *tallies.items()]:
        print(tally.cells(name))
    if given.write:
        sections.put(REPORT, HEADING, report(tallies, modules, given))
    return 0


if __name__ == "__main__":
    sys.exit(main())
