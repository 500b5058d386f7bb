"""Stands in for functools: what keeps a function's values, wraps it, or chooses it by a class."""

from _functools import _lru_cache_wrapper
from _functools import partial as partial
from _functools import reduce as reduce

_NAMES = ("__module__", "__name__", "__qualname__", "__doc__")


def update_wrapper(wrapper, wrapped):
    """Name a function as the one that it wraps."""
    for name in _NAMES:
        if hasattr(wrapped, name):
            setattr(wrapper, name, getattr(wrapped, name))
    vars(wrapper).update(getattr(wrapped, "__dict__", {}))
    wrapper.__wrapped__ = wrapped
    return wrapper


def wraps(wrapped):
    """Name the function below as the one that it wraps."""
    return partial(update_wrapper, wrapped=wrapped)


def _counted(*counts):
    return counts


def lru_cache(maxsize=128, typed=False):
    """Keep a function's last values."""

    def keeping(function):
        return update_wrapper(_lru_cache_wrapper(function, maxsize, typed, _counted), function)

    return keeping


def cache(function):
    """Keep all of a function's values."""
    return lru_cache(None)(function)


class cached_property:
    """An attribute that is worked out once."""

    def __init__(self, function):
        self.function = function

    def __set_name__(self, _, name):
        self.name = name

    def __get__(self, found, _=None):
        if found is None:
            return self
        value = found.__dict__[self.name] = self.function(found)
        return value


def singledispatch(function):
    """Choose what is called by the class of what is given first."""
    known = {object: function}

    def chosen(first, *others):
        found = next(known[kind] for kind in type(first).__mro__ if kind in known)
        return found(first, *others)

    chosen.register = known.__setitem__
    return chosen
