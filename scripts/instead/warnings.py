"""Stands in for warnings: nobody who reads a page would see one."""


def warn(*_: object, **__: object) -> None:
    """Do nothing."""


_deprecated = filterwarnings = simplefilter = warn
_DEPRECATED_MSG = ""


def deprecated(*_: object, **__: object) -> "Deprecated":
    """Return what marks a class or a function, and leaves it as it is."""
    return Deprecated()


class Deprecated:
    """Called with a class or a function, it gives that."""

    def __call__[T](self, marked: T) -> T:
        """Return it."""
        return marked
