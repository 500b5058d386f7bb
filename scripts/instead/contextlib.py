"""Stands in for contextlib: what makes a function of one `yield` into what `with` takes."""

from functools import wraps


class _Manager:
    def __init__(self, made):
        self._made = made

    def __enter__(self):
        return next(self._made)

    def __exit__(self, _, error, __):
        if error is None:
            for _ in self._made:
                raise RuntimeError("it goes on")
            return False
        try:
            self._made.throw(error)
        except StopIteration:
            return True
        except BaseException as again:
            if again is error:
                return False
            raise
        raise RuntimeError("it goes on")


def contextmanager(function):
    """Return a function that makes what `with` takes."""

    @wraps(function)
    def make(*given, **named):
        return _Manager(function(*given, **named))

    return make
