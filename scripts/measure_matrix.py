"""Time the pairings of two lists of machines, for each cell, and print the figures."""

import sys
from pathlib import Path

sys.path[0] = str(Path(__file__).resolve().parent.parent)

from scripts import _python

_python.require()

import json
import os
import time
from concurrent.futures import Executor, ProcessPoolExecutor
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from scripts import _environment, _setup

if TYPE_CHECKING:
    from calc.machines import Machine


def measure() -> dict[str, Any]:
    """Return the time per cell of a matrix of the demo machines, repeated to the size.

    Besides, of lists that give every second column only; and with a process for each core.
    """
    from calc import machines, matrix

    tractors, implements = machines.demo("tractor"), machines.demo("implement")

    def per_cell(size: int, every: int = 1, executor: Executor | None = None) -> float:
        rows, columns = (
            [_giving(some[n % len(some)], every) for n in range(size)]
            for some in (tractors, implements)
        )
        start = time.perf_counter()
        for _ in matrix.stream(rows, columns, executor=executor):
            pass
        return (time.perf_counter() - start) / size**2 * 1000

    small, large = per_cell(20), per_cell(60)
    with ProcessPoolExecutor(os.cpu_count()) as executor:
        per_cell(8, executor=executor)  # they have started
        shared = per_cell(40, executor=executor)
    return {
        "20 x 20, ms a cell": small,
        "60 x 60, ms a cell": large,
        "growth": large / small,
        "giving little, ms a cell": per_cell(20, every=2),
        "all cores, ms a cell": shared,
        "cores": os.cpu_count(),
    }


def _giving(machine: "Machine", every: int) -> "Machine":
    """Return a machine of which only every so manieth column is known."""
    return replace(machine, inputs=dict(list(machine.inputs.items())[::every]))


def main() -> int:
    """Measure and print."""
    _environment.ensure_environment("test")
    print(json.dumps(measure(), indent=1))
    return 0


if __name__ == "__main__":
    _setup.command(main)
