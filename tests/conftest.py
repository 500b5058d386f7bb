"""What every test shares."""

import pytest
from hypothesis import settings

from scripts import _browsers

# A slow machine is no finding: how long an example takes is measured elsewhere.
settings.register_profile("yardstick", deadline=None)
settings.load_profile("yardstick")


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Name what this machine could not try."""
    left = _browsers.not_tried()
    if left:
        terminalreporter.write_line(left, yellow=True)
