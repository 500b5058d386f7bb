"""Stands in for typing: named tuples and protocols work, all else is a name that means nothing.

Nothing reads types where answers are worked out.
"""

from _typing import ParamSpec as ParamSpec
from _typing import TypeVar as TypeVar
from collections import namedtuple

TYPE_CHECKING = False


class _Name:
    """A name of typing: it can be subscripted, joined to others, and put above a function."""

    def __getitem__(self, _):
        return self

    def __or__(self, _):
        return self

    __ror__ = __or__

    def __call__(self, found, *_):
        return found


def __getattr__(name):
    if name.startswith("__"):
        raise AttributeError(name)
    return _Name()


class Generic:
    """A class that may be subscripted, which changes nothing."""

    __slots__ = ()

    def __class_getitem__(cls, _):
        return cls


class _ByMethods(type):
    def __instancecheck__(cls, found):
        if super().__instancecheck__(found):
            return True
        return cls.__checked and all(hasattr(found, name) for name in cls.__methods)

    def __init__(cls, name, bases, space):
        super().__init__(name, bases, space)
        cls.__methods = [key for key, value in space.items() if callable(value)]
        cls.__checked = False

    def _check(cls):
        cls.__checked = True
        return cls


class Protocol(Generic, metaclass=_ByMethods):
    """What has the methods of a class; asked for at run time where that is allowed."""

    __slots__ = ()


def runtime_checkable(protocol):
    """Allow `isinstance` with a protocol."""
    return protocol._check()


class _OfFields(type):
    def __new__(cls, name, bases, space):
        if not bases:
            return super().__new__(cls, name, bases, space)
        fields = space["__annotations__"]
        defaults = [space[field] for field in fields if field in space]
        made = namedtuple(name, fields, defaults=defaults, module=space["__module__"])
        for key, value in space.items():
            if key not in fields and key not in ("__module__", "__qualname__"):
                setattr(made, key, value)
        return made


class NamedTuple(metaclass=_OfFields):
    """A tuple whose places have names."""


# What dataclasses compare an annotation with, and what C asks of typing for `class A[T]`.
ClassVar = _Name()


class _GenericAlias:
    """The base that C puts under `class A[T]`."""

    def __init__(self, origin, _):
        self.__origin__ = origin

    def __mro_entries__(self, _):
        return (self.__origin__,)


def _generic_class_getitem(cls, _):
    return cls


def _generic_init_subclass(cls, **_):
    pass


def _type_check(found, _):
    return found
