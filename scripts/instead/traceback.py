"""Stands in for traceback: what went wrong, and where it was, without the lines of the sources."""

import sys
from collections.abc import Iterator
from types import TracebackType


def _lines(error: BaseException, place: TracebackType | None) -> Iterator[str]:
    while place is not None:
        code = place.tb_frame.f_code
        yield f'  File "{code.co_filename}", line {place.tb_lineno}, in {code.co_name}\n'
        place = place.tb_next
    yield f"{type(error).__name__}: {error}\n"


def format_exception(
    _: object, error: BaseException, place: TracebackType | None = None, **__: object
) -> list[str]:
    """Return an exception as lines of text."""
    return list(_lines(error, place))


def print_exception(
    _: object, error: BaseException, place: TracebackType | None = None, **__: object
) -> None:
    """Print an exception."""
    sys.stderr.writelines(_lines(error, place))
