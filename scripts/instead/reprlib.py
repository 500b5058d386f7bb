"""Stands in for reprlib: nothing that is shown here holds itself."""


def recursive_repr(*_):
    """Leave a function as it is."""
    return lambda function: function
