"""Errors that say what to do. All share one base class."""


class YardstickError(Exception):
    """Base class of every error that is meant for a reader."""


class InputError(YardstickError):
    """Something typed can't be used; the message is a sentence for the person who typed it."""


class UnknownName(YardstickError):
    """A worksheet, field, choice, table or source by that name doesn't exist."""
