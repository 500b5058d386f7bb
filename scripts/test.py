"""Check everything: style, types, the build, and every test, browsers included."""

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

import os
import re
import subprocess
import tempfile
import time
from collections import defaultdict
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from scripts import _browsers, _environment, _node, _setup
from scripts import checks as published

# "1.23s call     tests/test_one.py::test_it"
DURATION = re.compile(r"(\d+\.\d+)s (?:call|setup|teardown) +([^:]+)::")
# One more than a small machine has processors: tests in browsers wait a good part of their time.
# File by file in their order, so that those in browsers, which take longest, don't come last.
WHOLE = ("-n", "3", "--dist", "loadfile", "--no-loadscope-reorder", "-q")
AT_ONCE = 2
SHOWN = 10  # the files that took longest


def _step(name: str, command: Sequence[str | Path]) -> bool:
    """Run one check; its output is shown only when it fails."""
    started = time.monotonic()
    done = subprocess.run(
        [str(part) for part in command], cwd=_setup.ROOT, capture_output=True, text=True
    )
    passed = done.returncode == 0
    _setup.say(f"{'ok    ' if passed else 'FAILED'} {name} ({time.monotonic() - started:.0f} s)")
    if not passed:
        _setup.say(f"{done.stdout}{done.stderr}".rstrip())
    return passed


def _pytest(words: Sequence[str], noted: str) -> tuple[bool, str]:
    """Run pytest, passing its output on; return whether it passed and its closing line.

    `noted` is the folder where the rows of the published checks are left.
    """
    command = [sys.executable, "-m", "pytest", "--durations=0", "--durations-min=0.05", *words]
    environment = {
        **os.environ,
        "YARDSTICK_TEST_SITE": str(_setup.TESTED),
        published.ASKED: noted,
    }
    closing = ""
    spent: dict[str, float] = defaultdict(float)
    with subprocess.Popen(
        command, cwd=_setup.ROOT, env=environment, stdout=subprocess.PIPE, text=True
    ) as running:
        assert running.stdout is not None
        for line in running.stdout:
            took = DURATION.match(line)
            if took:
                spent[took[2]] += float(took[1])
                continue
            print(line, end="", flush=True)
            closing = line.strip() or closing
    for name, seconds in sorted(spent.items(), key=lambda each: -each[1])[:SHOWN]:
        _setup.say(f"{seconds:7.1f} s  {name}")
    return running.returncode == 0, closing


def _checks() -> list[tuple[str, list[str | Path]]]:
    python = sys.executable
    npm = _node.ensure_npm_packages()
    node = Path(_node.node_folder()) / "node"
    # First what takes longest: they run beside one another.
    return [
        ("build", [python, "scripts/build.py", "--offline", "--out", _setup.TESTED]),
        ("mypy", [python, "-m", "mypy"]),
        ("ruff check", [python, "-m", "ruff", "check", "."]),
        ("ruff format", [python, "-m", "ruff", "format", "--check", "."]),
        ("tsc", [node, npm / "typescript" / "bin" / "tsc", "-p", _node.CLIENT]),
    ]


def main() -> int:
    """Set up, run every check, and end with pytest's closing line."""
    _environment.ensure_environment("test")
    _setup.note(f"Browser: {_browsers.ensure_browser()}")
    checks = _checks()
    with ThreadPoolExecutor(AT_ONCE) as pool:
        passed = list(pool.map(lambda each: _step(*each), checks))
    with tempfile.TemporaryDirectory() as noted:
        tested, closing = _pytest(sys.argv[1:] or WHOLE, noted)
        rows = published.gathered(Path(noted))
    if tested and not sys.argv[1:] and not published.keep(rows):
        _setup.say("The page of published checks was of an older run; it is written: build again.")
        tested = False
    failed = [name for (name, _), good in zip(checks, passed, strict=True) if not good]
    if failed:
        _setup.say(f"Failed besides the tests: {', '.join(failed)}")
    _setup.say(f"{closing} {_browsers.not_tried()}".rstrip())
    return 0 if tested and not failed else 1


if __name__ == "__main__":
    _setup.command(main)
