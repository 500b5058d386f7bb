"""Stands in for importlib.abc: the two bases that the runtime's own finder has."""

from importlib._abc import Loader as Loader


class MetaPathFinder:
    """A finder of modules."""
