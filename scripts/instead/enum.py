"""Stands in for enum, of which re takes two decorators: its flags are the numbers that they are."""

import sys

IntFlag = int
KEEP = None


def _simple_enum(*_, **__):
    return lambda flags: flags


def global_enum(flags):
    """Give each number of a class to the class's module, by its name."""
    numbers = {name: value for name, value in vars(flags).items() if isinstance(value, int)}
    vars(sys.modules[flags.__module__]).update(numbers)
    return flags
