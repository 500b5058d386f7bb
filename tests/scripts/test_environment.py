"""Making .venv: what is half made is noticed and mended, and what isn't ours is left alone.

Everything happens in folders of the test's own. Packages are not fetched: the lists are empty but
for the tests about fetching.
"""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from scripts import _environment, _setup
from tests.scripts.conftest import bare_environment

# Stands for any command of scripts/: it sets up and says on what it runs.
COMMAND = """
import sys
from pathlib import Path
sys.path[0] = str(Path(__file__).resolve().parent.parent)
from scripts import _environment, _setup
def main():
    _environment.ensure_environment()
    print(sys.prefix)
    return 0
_setup.command(main)
"""


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """A project of nothing but its setting up."""
    root = tmp_path / "a project"
    (root / "scripts").mkdir(parents=True)
    for name in ("_setup.py", "_environment.py", "_python.py"):
        shutil.copyfile(_setup.ROOT / "scripts" / name, root / "scripts" / name)
    (root / "scripts" / "requirements.txt").write_text("# Nothing.\n")
    (root / "scripts" / "go.py").write_text(COMMAND)
    return root


def start(project: Path, python: str = "python3", **more: str) -> subprocess.Popen[str]:
    """Start the command on a fresh machine."""
    return subprocess.Popen(
        [python, "scripts/go.py"],
        cwd=project,
        env={**bare_environment(project.parent / "home"), **more},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )


def go(project: Path, python: str = "python3", **more: str) -> tuple[int, str, str]:
    """Run the command; return its exit code and what it printed."""
    with start(project, python, **more) as running:
        out, err = running.communicate(timeout=120)
    return running.returncode, out, err


def works(project: Path) -> bool:
    """Say whether the command sets up and runs inside its own environment."""
    code, out, _ = go(project)
    return code == 0 and out == f"{project / '.venv'}\n"


def fake(folder: Path, body: str) -> str:
    """Write a Python that does something else when it is asked for an environment."""
    folder.mkdir()
    path = folder / "python3.13"
    real = Path(sys.base_prefix) / "bin" / "python3"
    path.write_text(f'#!/bin/sh\n{body}\nexec "{real}" "$@"\n')
    path.chmod(0o755)
    return str(path)


def test_an_environment_is_made_once_and_its_scripts_name_their_place(project: Path) -> None:
    assert works(project)
    pip = project / ".venv" / "bin" / "pip"
    assert "-new" not in pip.read_text() + (project / ".venv" / "pyvenv.cfg").read_text()
    assert subprocess.run([pip, "--version"], capture_output=True).returncode == 0
    _, _, err = go(project)
    assert err == ""
    assert {path.name for path in project.iterdir()} == {"scripts", ".venv", ".build"}


def test_half_made_ones_are_mended(project: Path) -> None:
    """As an earlier setting up left them: by Ctrl+C, or for want of ensurepip."""
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", project / ".venv"], check=True)
    assert works(project)
    (project / ".venv" / _environment.STATE).unlink()
    assert works(project)
    # A link to a Python that has been taken off the machine.
    for python in (project / ".venv" / "bin").glob("python*"):
        python.unlink()
        python.symlink_to("/nowhere/python3")
    assert works(project)
    shutil.rmtree(project / ".venv")
    (project / ".venv" / "bin").mkdir(parents=True)
    assert works(project)


def test_a_copied_project_makes_its_own(project: Path) -> None:
    assert works(project)
    copy = project.with_name("copied")
    shutil.copytree(project, copy, symlinks=True)
    assert works(copy) and works(project)


def test_without_ensurepip_nothing_is_left_behind(project: Path) -> None:
    hidden = project.parent / "hidden"
    hidden.mkdir()
    (hidden / "ensurepip.py").write_text("raise ImportError('split off')\n")
    code, _, err = go(project, PYTHONPATH=str(hidden))
    assert code == 1 and "python3-venv" in err and "Traceback" not in err
    assert not (project / ".venv").exists()
    assert works(project)


def test_when_making_it_fails_nothing_is_left_behind(project: Path) -> None:
    """ensurepip is there and breaks off."""
    hidden = project.parent / "hidden"
    (hidden / "ensurepip").mkdir(parents=True)
    (hidden / "ensurepip" / "__init__.py").write_text("")
    (hidden / "ensurepip" / "__main__.py").write_text("raise SystemExit('out of room')\n")
    (hidden / "sitecustomize.py").write_text(
        "import venv\nvenv.EnvBuilder._setup_pip = lambda self, c: 1 / 0\n"
    )
    code, _, err = go(project, PYTHONPATH=str(hidden))
    assert code == 1 and "This command failed" in err
    assert {path.name for path in project.iterdir()} == {"scripts", ".build"}
    assert works(project)


def test_ctrl_c_in_the_middle(project: Path) -> None:
    slow = project.parent / "slow"
    slow.mkdir()
    (slow / "sitecustomize.py").write_text(
        "import time, venv\nvenv.EnvBuilder._setup_pip = lambda self, c: time.sleep(60)\n"
    )
    with start(project, PYTHONPATH=str(slow)) as running:
        until(lambda: (project / ".venv-new" / "pyvenv.cfg").exists())
        os.killpg(running.pid, signal.SIGINT)
        _, err = running.communicate(timeout=30)
    assert running.returncode == 130
    assert err.endswith("\nStopped.\n") and "Traceback" not in err
    assert works(project)


def test_ctrl_c_while_packages_are_installed(project: Path) -> None:
    assert works(project)
    asked = project.parent / "asked"
    # pip says when it is at work, and then takes its time.
    site = next((project / ".venv" / "lib").glob("*/site-packages"))
    (site / "sitecustomize.py").write_text(
        "import pathlib, sys, time\n"
        "if 'install' in sys.argv:\n"
        f"    pathlib.Path({str(asked)!r}).touch()\n"
        "    time.sleep(60)\n"
    )
    (project / "scripts" / "requirements.txt").write_text("# Another list.\n")
    with start(project) as running:
        until(asked.exists)
        os.killpg(running.pid, signal.SIGINT)
        _, err = running.communicate(timeout=30)
    assert running.returncode == 130 and "Traceback" not in err
    code, out, err = go(project)
    assert code == 0 and "not whole" in err and out == f"{project / '.venv'}\n"


def test_without_network_the_first_setting_up_says_what_is_missing(project: Path) -> None:
    digest = "0" * 64
    (project / "scripts" / "requirements.txt").write_text(
        f"# One.\nmergedeep==1.3.4 --hash=sha256:{digest}\n"
    )
    nobody = {
        "PIP_INDEX_URL": "http://127.0.0.1:9/simple",
        **{"PIP_RETRIES": "0", "PIP_CONFIG_FILE": os.devnull, "PIP_FIND_LINKS": ""},
    }
    code, _, err = go(project, **nobody)
    assert code == 1
    last = err.splitlines()[-1]
    assert last.startswith("What scripts/requirements.txt names can't be fetched: the network")
    assert "Traceback" not in err and "mergedeep" not in err
    # The next try, with what is needed, mends it.
    (project / "scripts" / "requirements.txt").write_text("# Nothing.\n")
    assert works(project)


def test_a_list_that_cant_be_fetched_leaves_a_whole_environment_whole(project: Path) -> None:
    assert works(project)
    before = json.loads((project / ".venv" / _environment.STATE).read_text())
    (project / "scripts" / "requirements.txt").write_text(f"no-such==1 --hash=sha256:{'0' * 64}\n")
    code, _, _ = go(project, PIP_INDEX_URL="http://127.0.0.1:9/simple", PIP_RETRIES="0")
    assert code == 1
    assert json.loads((project / ".venv" / _environment.STATE).read_text()) == before


def test_a_folder_that_is_no_environment_is_left_alone(project: Path) -> None:
    (project / ".venv").mkdir()
    (project / ".venv" / "diary.txt").write_text("mine")
    code, _, err = go(project)
    assert code == 1 and "is no Python environment" in err and "Traceback" not in err
    assert (project / ".venv" / "diary.txt").read_text() == "mine"


def test_what_a_link_leads_to_is_left_alone(project: Path) -> None:
    elsewhere = project.parent / "shared"
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", elsewhere], check=True)
    (project / ".venv").symlink_to(elsewhere)
    code, _, err = go(project)
    assert code == 1 and "Take the link away" in err
    assert (elsewhere / "pyvenv.cfg").exists()


def until(holds: Callable[[], bool]) -> None:
    """Wait until something holds, and fail when it doesn't come to that."""
    end = time.monotonic() + 60
    while not holds():
        assert time.monotonic() < end
        time.sleep(0.02)
