"""Stands in for weakref: the names that are taken of it here, and no dictionaries."""

from _weakref import ref as ref
from _weakrefset import WeakSet as WeakSet

# What keeps which function a class gets: classes stay.
WeakKeyDictionary = dict
