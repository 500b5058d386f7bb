"""Tires for the tests: the sizes of the table, and the dimensions of a size as it is written."""

from calc import tables
from calc.mechanics import tires
from calc.mechanics.tire_size import decode

TABLE_SIZES = [row["size"] for row in tables.rows("tires/tire_dimensions")]


def size(text: str) -> tires.Dimensions:
    """Return the dimensions of a size such as "18.4-38"."""
    return tires.dimensions(decode(text))
