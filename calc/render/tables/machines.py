"""What tractors and implements of a kind usually measure."""

from __future__ import annotations

from calc import quantities as q
from calc import tables
from calc.render.tables import TableView, cite


def _span(row: tables.Row, low: str, high: str, kind: str) -> str:
    return q.show_range(float(row[low]), float(row[high]), kind)


def typical_tractors() -> TableView:
    """Return the classes of tractor with the ranges that stand in for unknown numbers."""
    rows = tuple(
        (
            row["label"],
            q.show_range(
                1000 * float(row["pto_low_kw"]), 1000 * float(row["pto_high_kw"]), "power"
            ),
            _span(row, "mass_low_kg", "mass_high_kg", "mass"),
            _span(row, "front_share_low", "front_share_high", "fraction"),
            _span(row, "wheelbase_low_m", "wheelbase_high_m", "length"),
            _span(row, "lift_610_low_kg", "lift_610_high_kg", "mass"),
            f"Category {row['hitch_category']}",
            cite(row["source"]),
        )
        for row in tables.rows("machines/typical_tractors")
    )
    return TableView(
        "Tractors: the ranges used for a number that you leave blank",
        (
            "Kind",
            "PTO power",
            "Mass",
            "Front share",
            "Wheelbase",
            "Lift at 24 in",
            "Hitch",
            "Source",
        ),
        rows,
    )


def typical_implements() -> TableView:
    """Return the kinds of implement with the ranges that stand in for unknown numbers."""
    rows = tuple(
        (
            row["label"],
            q.show(float(row["width_m"]), "length") if row["width_m"] else "any",
            _span(row, "mass_low_kg", "mass_high_kg", "mass"),
            _span(row, "cg_low_m", "cg_high_m", "length"),
            cite(row["source"]),
        )
        for row in tables.rows("machines/typical_implements")
    )
    return TableView(
        "Implements: the ranges used for a number that you leave blank",
        ("Kind", "Width", "Mass", "Balls to center of gravity", "Source"),
        rows,
        "Between two widths the ranges are interpolated.",
    )


TABLES = {"typical-tractors": typical_tractors, "typical-implements": typical_implements}
