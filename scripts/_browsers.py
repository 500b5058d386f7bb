"""The browsers that the tests open, found or installed."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

from scripts import _environment, _setup


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


# Chromium without a window of its own, from the same source as Debian's Chromium.
SHELL = "chromium-headless-shell"


def find_shell() -> str | None:
    """Return the path of what most tests look at pages with, or None.

    A window takes a third of a browser's work and no test looks at it: where it can be had it is
    a Chromium without one. The flows that are tried in three browsers have the whole Chromium.
    """
    return shutil.which(SHELL) or find_browser()


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
    _setup.run(["apt-get", "update", "-q"], env=environment)
    _setup.run(
        ["apt-get", "install", "-q", "-y", "--no-install-recommends", *packages],
        env=environment,
    )


def _install_shell() -> None:
    """Install the Chromium without a window, where the distribution has it."""
    if shutil.which(SHELL) or not may_install():
        return
    known = subprocess.run(["apt-cache", "show", SHELL], capture_output=True)
    if known.returncode == 0:
        try:
            _setup.run(["apt-get", "install", "-q", "-y", "--no-install-recommends", SHELL])
        except (_setup.SetupError, OSError) as problem:
            _setup.note(f"{SHELL} can't be had, so the tests take longer: {problem}")


def ensure_browser() -> str:
    """Return the path of a Chromium, installing what the tests need and this machine lacks.

    As root on Debian the distribution's own three are used; elsewhere Chromium is the one that
    Playwright offers, and `not_tried` names what is left out.
    """
    found = find_browser()
    wanted = [*([] if found else ["Chromium"]), *missing_browsers()]
    if found and not (wanted and may_install()):
        _install_shell()
        return found
    _setup.note(f"Installing {', '.join(wanted)} for the tests (once) ...")
    try:
        if may_install():
            _install_packages(wanted)
        else:
            _setup.run([_environment.venv_python(), "-m", "playwright", "install", "chromium"])
    except (_setup.SetupError, OSError) as problem:
        if found:  # the tests go on with it, and end by saying what was not tried
            return found
        raise _setup.SetupError(f"{NO_BROWSER}: {problem}") from None
    found = find_browser()
    if not found:
        raise _setup.SetupError(f"{NO_BROWSER}.")
    _install_shell()
    return found
