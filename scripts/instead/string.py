"""Stands in for string, of which a class is taken as a base and never used."""


class Formatter:
    """Formats nothing."""
