"""What the digger and the driveline ask about a shear bolt, and lengths as field text."""

from calc import arith, model, tables

INCH = 0.0254
STUB = 1.375 * INCH  # hitch/S5: Types 1 and 2


def options(table: str) -> tuple[model.Option, ...]:
    """The rows of a table, by key and name, as options."""
    return tuple(model.Option(row["key"], row["name"]) for row in tables.rows(table))


def fields(group: str, size: str) -> tuple[model.Choice, ...]:
    """Size, grade, and what lies in the shear plane; `size` is the example's."""
    return (
        model.Choice("bolt_size", options("driveline/shear_bolt_sizes"), example=size, group=group),
        model.Choice(
            "bolt_grade", options("driveline/shear_bolt_grades"), example="grade_2", group=group
        ),
        model.Choice(
            "bolt_plane",
            (model.Option("shank", "Smooth shank"), model.Option("thread", "Threads")),
            example="shank",
            unsure=("shank", "thread"),
            group=group,
        ),
    )


def inches(value: float, parts: int, *, up: bool = False) -> str:
    """A length as field text, to so many parts of an inch, rounded to the safe side."""
    count = value / INCH * parts
    return f"{(arith.ceil(count + 1e-6) if up else arith.floor(count - 1e-6)) / parts:g} in"
