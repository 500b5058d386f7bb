"""Stands in for weakref: the names that are taken of it here, and nothing that forgets."""

from _weakref import ref as ref

# What keeps which function a class gets: classes stay.
WeakKeyDictionary = dict


class WeakSet:
    """Holds nothing: htpy keeps in it what it warns of, should it be written a second time."""

    def add(self, _: object) -> None:
        """Forget it at once."""

    def __contains__(self, _: object) -> bool:
        """Return False."""
        return False
