"""What a fresh machine needs before anything can be built: one home for each piece.

Only the standard library is used here, because this runs before the environment exists.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import NoReturn

from scripts import _python

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
WORK = ROOT / ".build"
CLIENT = ROOT / "docs" / "assets" / "src"
NPM = WORK / "npm"
# The site, with its offline copy beside it, that the tests open.
TESTED = WORK / "tested"
OLDEST_NODE = 20
# Stands in the environment while everything in it is whole.
STATE = "yardstick.json"
STOPPED = 130  # what a shell reports for Ctrl+C

REQUIREMENTS = {
    "build": ROOT / "scripts" / "requirements.txt",
    "test": ROOT / "scripts" / "requirements-test.txt",
    "node": ROOT / "scripts" / "requirements-node.txt",
    "pin": ROOT / "scripts" / "requirements-pin.txt",
}
# How pip and npm say that they reach nobody.
UNREACHED = (
    "NewConnectionError",
    "ConnectionError",
    "ConnectTimeout",
    "ProxyError",
    "name resolution",
    "ENOTFOUND",
    "EAI_AGAIN",
    "ECONNREFUSED",
    "ENETUNREACH",
    "ETIMEDOUT",
    "from versions: none",
)


class SetupError(Exception):
    """Something on this machine is missing; the text says what to do about it."""


def say(text: str) -> None:
    """Print one line of a command's result at once."""
    print(text, flush=True)


def note(text: str) -> None:
    """Print one line of progress, apart from the results."""
    print(text, file=sys.stderr, flush=True)


def command(main: Callable[[], int]) -> NoReturn:
    """End with what `main` returns; something missing, or Ctrl+C, is one line and no traceback."""
    try:
        code = main()
    except SetupError as problem:
        note(str(problem))
        code = 1
    except KeyboardInterrupt:
        note("\nStopped.")
        code = STOPPED
    raise SystemExit(code)


def run(command: Sequence[str | Path], **options: object) -> None:
    """Run `command` and raise SetupError with its own words when it fails."""
    done = subprocess.run(  # type: ignore[call-overload]
        [str(part) for part in command],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        **options,
    )
    if done.returncode != 0:
        name = " ".join(str(part) for part in command[:4])
        raise SetupError(f"This command failed: {name}\n{done.stdout.strip()[-4000:]}")


def fetch(what: str, command: Sequence[str | Path], **options: object) -> None:
    """Run a command that fetches `what`, and say in a sentence when there is no network."""
    try:
        run(command, **options)
    except SetupError as problem:
        if not any(sign in str(problem) for sign in UNREACHED):
            raise SetupError(f"{what} can't be installed.\n{problem}") from None
        raise SetupError(
            f"{what} can't be fetched: the network, or the package registry, can't be reached. "
            "Connect this machine once and give the same command again; what is installed then "
            "stays, and needs no network."
        ) from None


@contextmanager
def _held(lock: Path) -> Iterator[None]:
    """Hold a lock file; whoever else wants it waits."""
    lock.parent.mkdir(parents=True, exist_ok=True)
    with lock.open("w") as handle:
        if os.name != "nt":
            import fcntl

            fcntl.flock(handle, fcntl.LOCK_EX)
        yield


@contextmanager
def one_at_a_time() -> Iterator[None]:
    """Hold the work folder: two builds at once would take each other's parts."""
    with _held(WORK / "lock"):
        yield


def clear(folder: Path) -> None:
    """Delete a folder that the scripts made for themselves, if it is there."""
    if folder.is_symlink() or folder.is_file():
        raise SetupError(f"{folder} is in the way: a folder of the build belongs there.")
    if folder.exists():
        shutil.rmtree(folder)


def venv_python() -> Path:
    """Return the path of the environment's Python, whether or not it exists yet."""
    windows = VENV / "Scripts" / "python.exe"
    return windows if os.name == "nt" else VENV / "bin" / "python"


def _can_make_environments(python: str) -> bool:
    probe = subprocess.run([python, "-c", "import venv, ensurepip"], capture_output=True)
    return probe.returncode == 0


def _best_python() -> str:
    """Return a Python to make the environment with: 3.13 if there is one, else this one."""
    own = getattr(sys, "_base_executable", None) or sys.executable
    other = shutil.which("python3.13")
    likely = [own] if sys.version_info[:2] == (3, 13) or not other else [other, own]
    for python in likely:
        if _can_make_environments(python):
            return python
    raise SetupError(
        f"{own} can't make an environment: its parts venv and ensurepip are missing. On Debian and "
        "Ubuntu, “apt-get install python3-venv” as root brings them; then give the same command "
        "again."
    )


def _stamp(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()


def _installed() -> dict[str, str] | None:
    """Return the stamp of each list that is in the environment; None when it isn't whole.

    It isn't when its making or a later change was cut short, or when it was made elsewhere.
    """
    try:
        state = json.loads((VENV / STATE).read_text(encoding="utf-8"))
        whole = state["place"] == str(VENV.resolve()) and venv_python().exists()
        found: dict[str, str] = state["installed"]
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return found if whole else None


def _record(installed: dict[str, str]) -> None:
    fresh = VENV / f"{STATE}.new"
    state = {"place": str(VENV.resolve()), "installed": installed}
    fresh.write_text(json.dumps(state, indent=1), encoding="utf-8")
    os.replace(fresh, VENV / STATE)


def _check_replaceable(folder: Path) -> None:
    """Refuse to replace what is no environment of a Python."""
    if folder.is_symlink() and folder.exists():
        raise SetupError(
            f"{folder} leads to {folder.resolve()}, which isn't a whole environment of these "
            "scripts. Take the link away, and a new environment is made."
        )
    empty = not folder.is_dir() or not any(path.is_file() for path in folder.rglob("*"))
    if not empty and not (folder / "pyvenv.cfg").is_file():
        raise SetupError(
            f"{folder} is no Python environment, so it isn't replaced. Move it away; the scripts "
            "keep their environment there."
        )


def _make_environment() -> None:
    """Make a bare environment beside and move it in, in place of one that isn't whole."""
    _check_replaceable(VENV)
    python = _best_python()
    there = VENV.exists()
    fresh, old = (VENV.with_name(f"{VENV.name}-{name}") for name in ("new", "old"))
    how = "Making the environment .venv (once)"
    note(f"{'The environment .venv is not whole: making it anew' if there else how} ...")
    for left in (fresh, old):
        _check_replaceable(left)
        clear(left)
    try:
        run([python, "-m", "venv", fresh])
        _name_final_place(fresh, VENV)
        if there or VENV.is_symlink():
            os.rename(VENV, old)
        os.rename(fresh, VENV)
    finally:
        clear(fresh)
    if old.is_symlink():
        old.unlink()
    clear(old)


def _name_final_place(made: Path, final: Path) -> None:
    """Let the environment's own short scripts name the place that it is moved to."""
    programs = made / venv_python().parent.name
    for path in [made / "pyvenv.cfg", *programs.iterdir()]:
        if path.is_file() and not path.is_symlink() and path.suffix != ".exe":
            content = path.read_bytes()
            path.write_bytes(content.replace(os.fsencode(made), os.fsencode(final)))


def _install(group: str) -> None:
    """Install one pinned list into the environment, unless that list is in already.

    While pip is at work the environment doesn't count as whole: after a Ctrl+C it is made anew.
    """
    installed = _installed() or {}
    wanted = REQUIREMENTS[group]
    if installed.get(group) == _stamp(wanted):
        return
    note(f"Installing what scripts/{wanted.name} names (once) ...")
    (VENV / STATE).unlink(missing_ok=True)
    # Hashes are asked of every package, so the lists that this one rests on come along.
    lists = [REQUIREMENTS["build"], wanted] if group == "test" else [wanted]
    command = [str(venv_python()), "-m", "pip", "install", "--quiet"]
    options = [f"--requirement={path}" for path in lists]
    try:
        fetch(f"What scripts/{wanted.name} names", [*command, "--require-hashes", *options])
    except SetupError:
        # pip changes nothing before it has everything.
        if installed:
            _record(installed)
        raise
    _record({**installed, group: _stamp(wanted)})


@contextmanager
def _environment_held() -> Iterator[None]:
    """Hold the environment, which several checkouts may share."""
    with _held(VENV.resolve().parent / WORK.name / "environment.lock"):
        yield


def ensure_environment(*groups: str) -> None:
    """Make .venv with the groups' pinned packages, and carry on inside it.

    When this process is not running on the environment's Python, the same command goes on there
    and this call doesn't return.
    """
    _python.require()
    with _environment_held():
        inside = Path(sys.prefix).resolve() == VENV.resolve()
        if _installed() is None:
            _make_environment()
            inside = False
        for group in ("build", *groups):
            _install(group)
    if not inside:
        _go_on_with([str(venv_python()), *sys.argv])


def _go_on_with(command: list[str]) -> NoReturn:
    """Let another Python take the place of this one, as far as the system allows it."""
    sys.stdout.flush()
    sys.stderr.flush()
    if os.name != "nt":
        os.execv(command[0], command)
    import signal

    # Ctrl+C reaches both; the other one answers it.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    raise SystemExit(subprocess.run(command).returncode)


def _node_major(node: str) -> int:
    try:
        text = subprocess.run([node, "--version"], capture_output=True, text=True).stdout
        return int(text.strip().lstrip("v").split(".")[0])
    except (OSError, ValueError):
        return 0


def node_folder() -> Path:
    """Return the folder that holds node and npm, from the machine or from the PyPI package."""
    for folder in filter(None, os.environ.get("PATH", "").split(os.pathsep)):
        node, npm = (shutil.which(name, path=folder) for name in ("node", "npm"))
        if node and npm and _node_major(node) >= OLDEST_NODE:
            return Path(folder)
    own = venv_python().parent
    if _node_major(str(own / "node")) < OLDEST_NODE:
        with _environment_held():
            _install("node")
    return own


def node_environment() -> dict[str, str]:
    """Return the environment in which `node` and `npm` are the ones to use."""
    return {**os.environ, "PATH": f"{node_folder()}{os.pathsep}{os.environ.get('PATH', '')}"}


def node(*arguments: str | Path, cwd: Path = ROOT) -> str:
    """Run node and return what it prints; its errors are passed on."""
    environment = node_environment()
    program = shutil.which("node", path=environment["PATH"])
    assert program is not None
    done = subprocess.run(
        [program, *(str(part) for part in arguments)],
        cwd=cwd,
        env=environment,
        capture_output=True,
        text=True,
    )
    if done.returncode != 0:
        raise SetupError(f"node {arguments[0]} failed:\n{done.stderr.strip()[-4000:]}")
    return done.stdout


def ensure_npm_packages() -> Path:
    """Install the locked npm packages outside docs/ and return their node_modules folder."""
    lock = CLIENT / "package-lock.json"
    mark = NPM / "installed"
    if not (mark.is_file() and mark.read_text() == _stamp(lock)):
        note("Installing the locked npm packages (once) ...")
        mark.unlink(missing_ok=True)
        NPM.mkdir(parents=True, exist_ok=True)
        for name in ("package.json", "package-lock.json", ".npmrc"):
            shutil.copyfile(CLIENT / name, NPM / name)
        environment = node_environment()
        npm = shutil.which("npm", path=environment["PATH"])
        assert npm is not None
        command = [npm, "ci", "--no-audit", "--no-fund", "--loglevel=error"]
        fetch("What package-lock.json names", command, cwd=NPM, env=environment)
        mark.write_text(_stamp(lock))
    return NPM / "node_modules"


def _playwright_chromium() -> str | None:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        path = driver.chromium.executable_path
    return path if Path(path).exists() else None


def find_browser() -> str | None:
    """Return the path of a Chromium to test with, or None."""
    for name in ("chromium", "chromium-browser"):
        found = shutil.which(name)
        if found:
            return found
    return _playwright_chromium()


# Debian's packages for the tests: three browsers, a screen for the one that needs one, and what
# runs the checker of HTML.
PACKAGES = {
    "Chromium": ("chromium", "fonts-dejavu-core"),
    "Firefox": ("firefox-esr",),
    "WebKitGTK": ("webkit2gtk-driver", "xvfb"),
    "the HTML checker": ("default-jre-headless",),
}
NO_BROWSER = "There is no browser, and none could be installed"
# The programs without which each can't be tried; one of a group is enough.
PROGRAMS = {
    "Firefox": (("firefox-esr", "firefox"),),
    "WebKitGTK": (("WebKitWebDriver",), ("Xvfb",)),
    "the HTML checker": (("java",),),
}


def may_install() -> bool:
    """Whether the distribution's packages may be installed here: as root on Debian."""
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    return root and shutil.which("apt-get") is not None


def missing_browsers() -> dict[str, str]:
    """Return what can't be tried on this machine besides Chromium, and the programs it lacks."""
    lacking = {
        name: [group[0] for group in groups if not any(shutil.which(each) for each in group)]
        for name, groups in PROGRAMS.items()
    }
    return {
        name: f"there is no {' and no '.join(which)}" for name, which in lacking.items() if which
    }


def not_tried() -> str:
    """Return a sentence about what the tests leave out on this machine; "" when they try all."""
    missing = missing_browsers()
    if not missing:
        return ""
    packages = [each for name in missing for each in PACKAGES[name]]
    return (
        f"Not tried here: {', '.join(missing)}. On Debian, root gets them with “apt-get install "
        f"{' '.join(packages)}”."
    )


def _install_packages(names: Sequence[str]) -> None:
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    packages = [each for name in names for each in PACKAGES[name]]
    run(["apt-get", "update", "-q"], env=environment)
    run(
        ["apt-get", "install", "-q", "-y", "--no-install-recommends", *packages],
        env=environment,
    )


def ensure_browser() -> str:
    """Return the path of a Chromium, installing what the tests need and this machine lacks.

    As root on Debian the distribution's own three are used; elsewhere Chromium is the one that
    Playwright offers, and `not_tried` names what is left out.
    """
    found = find_browser()
    wanted = [*([] if found else ["Chromium"]), *missing_browsers()]
    if found and not (wanted and may_install()):
        return found
    note(f"Installing {', '.join(wanted)} for the tests (once) ...")
    try:
        if may_install():
            _install_packages(wanted)
        else:
            run([venv_python(), "-m", "playwright", "install", "chromium"])
    except (SetupError, OSError) as problem:
        if found:  # the tests go on with it, and end by saying what was not tried
            return found
        raise SetupError(f"{NO_BROWSER}: {problem}") from None
    found = find_browser()
    if not found:
        raise SetupError(f"{NO_BROWSER}.")
    return found
