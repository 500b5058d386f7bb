"""Answer on the command line of a machine with nothing but Python on it."""

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

from scripts import _environment, _setup

# Apart from every code that an answer gives.
NOT_SET_UP = 4


def main() -> int:
    """Set up what is missing, and hand everything to the command line of `calc`."""
    try:
        _environment.ensure_environment()
    except _setup.SetupError as problem:
        _setup.note(str(problem))
        return NOT_SET_UP
    from calc import __main__ as command_line

    return command_line.run(sys.argv[1:])


if __name__ == "__main__":
    _setup.command(main)
