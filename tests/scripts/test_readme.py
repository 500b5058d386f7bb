"""Every command of the README, as written there, given on a machine with nothing but Python.

Each runs in a copy of the project, with a home of its own and no environment on the path. What has
been fetched before is linked into the copy. The command that runs every test finds one there.
"""

from __future__ import annotations

import csv
import os
import re
import shutil
import signal
import subprocess
from pathlib import Path
from urllib.request import urlopen

import pytest

from scripts import _setup, checks
from tests.scripts.conftest import bare_environment

README = (_setup.ROOT / "README.md").read_text(encoding="utf-8")
COMMANDS = [
    line
    for block in re.findall(r"^```\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)
    for line in block.splitlines()
]
SERVING = [line for line in COMMANDS if "serve.py" in line]
TESTING = [line for line in COMMANDS if "test.py" in line]
OTHERS = [line for line in COMMANDS if line not in SERVING + TESTING]


def start(line: str, checkout: Path) -> subprocess.Popen[str]:
    """Give a line of the README to a shell, as it stands there."""
    return subprocess.Popen(
        ["/bin/sh", "-c", f"exec {line}"],
        cwd=checkout,
        env=bare_environment(checkout.parent / "home"),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )


def given(line: str, checkout: Path) -> tuple[int, str, str]:
    """Run a line of the README to its end."""
    with start(line, checkout) as running:
        out, err = running.communicate(timeout=500)
    assert "Traceback" not in err
    return running.returncode, out, err


def test_the_readme_has_commands_of_every_kind() -> None:
    assert len(SERVING) == 2 and len(TESTING) == 1 and len(OTHERS) == 10
    assert all(line.startswith("python3 scripts/") for line in COMMANDS)


def test_the_command_line(checkout: Path) -> None:
    lines = [line for line in OTHERS if "calc.py" in line]
    results = [given(line, checkout) for line in lines]
    assert [err for _, _, err in results] == [""] * 7
    listed, fields, reply, from_example, message, able, matrix = (out for _, out, _ in results)
    assert "pairing " in listed and "working_width: " in fields
    for each in (reply, from_example):
        first, *others = each.splitlines()
        assert "front" in first and first.endswith(".")
        assert any(line.startswith("Take care: ") for line in others)
    assert "implement_kind=rotary_cutter" in message and "working_width=60 in" in message
    assert "Widest stock size" in able
    assert len(list(csv.DictReader(matrix.splitlines()))) == 3 * 4
    # The replies' code is that of what is found, the others' 0.
    assert [code for code, _, _ in results[:2] + results[6:]] == [0, 0, 0]
    assert {code for code, _, _ in results[2:6]} <= {0, 1, 3}


@pytest.mark.parametrize("line", [line for line in OTHERS if "build.py" in line])
def test_building(line: str, checkout: Path) -> None:
    code, out, err = given(line, checkout)
    assert code == 0, err
    assert f"Built {checkout / 'site'}" in out
    assert (checkout / "site" / "index.html").is_file()
    assert (checkout / "site-offline.zip").is_file() == ("--offline" in line)
    page = (checkout / "site" / "pairing" / "index.html").read_text(encoding="utf-8")
    assert ("Example Yard" in page) == ("--shop" in line)


@pytest.mark.parametrize("line", SERVING)
def test_serving_until_ctrl_c(line: str, checkout: Path) -> None:
    with start(line, checkout) as running:
        assert running.stdout and running.stderr
        address = None
        for each in running.stdout:
            found = re.search(r"Yardstick is at (\S+)", each)
            if found:
                address = found[1]
                break
        assert address, running.stderr.read()
        with urlopen(f"{address}pairing/", timeout=30) as answer:
            assert ("Example Yard" in answer.read().decode()) == ("--shop" in line)
        os.killpg(running.pid, signal.SIGINT)
        _, err = running.communicate(timeout=30)
    assert running.returncode == 0 and "Traceback" not in err


def test_the_command_that_tests(checkout: Path) -> None:
    """One test passes and one fails; that the command ends well is seen whenever it does."""
    published = checkout / checks.FILE.relative_to(_setup.ROOT)
    rows = published.read_bytes()
    shutil.rmtree(checkout / "tests")
    published.parent.mkdir(parents=True)
    published.write_bytes(rows)  # of which a page of the site is made
    (checkout / "tests" / "test_one.py").write_text("def test_one() -> None:\n    assert True\n")
    # What the types of these files are has been worked out before.
    if (_setup.WORK / "mypy").is_dir():
        shutil.copytree(_setup.WORK / "mypy", checkout / ".build" / "mypy")
    shutil.rmtree(checkout / "calc" / "mechanics" / "__pycache__", ignore_errors=True)
    (checkout / "tests" / "test_two.py").write_text("def test_two() -> None:\n    assert 1 == 2\n")
    code, out, err = given(TESTING[0], checkout)
    assert code == 1 and re.match(r"1 failed, \d+ passed", out.splitlines()[-1]), out + err
    for check in ("ruff check", "ruff format", "mypy", "tsc", "build"):
        assert f"ok     {check} " in out
