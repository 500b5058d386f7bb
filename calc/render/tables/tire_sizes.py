"""Tables about tire sizes: how they are written, what they measure, what fits them."""

import math
from collections.abc import Callable

from calc import quantities, tables
from calc.mechanics import front_drive, tire_rolling, tires
from calc.mechanics.tire_size import decode
from calc.render.tables import TableView, cite


def forms() -> TableView:
    """Return the ways a tire size is written."""
    rows = [
        (
            row["example"],
            row["form"],
            row["meaning"],
            row["diameter_from_size"],
            cite(row["source"]),
        )
        for row in tables.rows("tires/tire_designations")
    ]
    return TableView(
        "How tire sizes are written",
        ("Looks like", "Name", "What it says", "Diameter from the size alone?", "Source"),
        tuple(rows),
        "Spaces, capitals, “x” or a dash, and a decimal comma make no difference here. 7-16, "
        "7.00-16 and 7.50-16 are three different tires, and so are 8-16, 8.00-16 and 8.3-16.",
    )


def sizes() -> TableView:
    """Return every size of the table with its dimensions, basis and error."""
    rows = []
    for row in tables.rows("tires/tire_dimensions"):
        ply = f" {row['ply_rating']}PR" if row["ply_rating"] else ""
        tire = tires.dimensions(decode(row["size"] + ply))
        rows.append(
            (
                row["size"] + ply,
                row["tread"],
                quantities.show_both(tire.overall_diameter, "length", 4),
                quantities.show_both(tire.section_width, "length"),
                quantities.show_both(tire.static_loaded_radius, "length"),
                quantities.show_both(tire.rolling_circumference, "length", 4),
                f"± {100 * tire.circumference_error:.1f} %",
                cite(tire.source),
            )
        )
    return TableView(
        "Sizes and dimensions",
        (
            "Size",
            "Tread",
            "Diameter",
            "Width",
            "Loaded radius",
            "One turn",
            "Error of one turn",
            "Source of the diameter",
        ),
        tuple(rows),
        "New tires, inflated, at rated load. A tire of another maker may differ by up to 3 % in "
        "diameter and width. Width of a metric size is the number in its name.",
    )


def pairs() -> TableView:
    """Return sizes that charts call equal, and how much they differ."""
    rows = []
    for row in tables.rows("tires/inch_metric_pairs"):
        inch, metric = (tires.dimensions(decode(row[name])) for name in ("inch", "metric"))
        change = 100 * (metric.overall_diameter / inch.overall_diameter - 1)
        rows.append(
            (
                row["inch"],
                row["metric"],
                quantities.show_both(inch.overall_diameter, "length", 4),
                quantities.show_both(metric.overall_diameter, "length", 4),
                f"{change:+.1f} %".replace("-", "\u2212"),
                cite(row["source"]),
            )
        )
    return TableView(
        "Inch and metric sizes that charts call equal",
        ("Inch", "Metric", "Diameter, inch", "Diameter, metric", "Change", "Source of the pair"),
        tuple(rows),
    )


def treads() -> TableView:
    """Return tread codes."""
    rows = [
        (row["code"], row["use"], row["note"] or "–", cite(row["source"]))
        for row in tables.rows("tires/tread_codes")
    ]
    return TableView("Tread codes", ("Code", "For", "Note", "Source"), tuple(rows))


def tread_depths() -> TableView:
    """Return how the tread changes a tire of one size."""
    rows = [
        (
            row["tread"],
            f"{float(row['diameter_change_pct']):g} % ± {float(row['band_pct']):g} %",
            f"{float(row['lug_depth_factor']):g}",
            cite(row["source"]),
        )
        for row in tables.rows("tires/treads")
    ]
    return TableView(
        "The same size with another tread",
        ("Tread", "Diameter against R-1", "Lug depth against R-1", "Source"),
        tuple(rows),
    )


def rims() -> TableView:
    """Return permitted rims."""
    rows = [
        (row["size"], row["rims"], cite(row["source"])) for row in tables.rows("tires/tire_rims")
    ]
    return TableView(
        "Rims that the standard allows",
        ("Width code", "Rims", "Source"),
        tuple(rows),
        "Read from a correction sheet whose inch rows were flattened: check the first and last "
        "entry in the tire maker's book.",
    )


def approved_pairs() -> TableView:
    """Return pairs of front and rear tires that makers sell."""
    rows = [
        (row["front"], row["rear"], row["tread"], row["tractor"], cite(row["source"]))
        for row in tables.rows("tires/approved_pairs")
    ]
    return TableView(
        "Pairs that makers sell",
        ("Front", "Rear", "Tread", "On tractors of", "Source"),
        tuple(rows),
        "The gear ratio of the front axle may differ with the tires: a pair that suits one "
        "tractor suits another only with the same ratio.",
    )


def spacing() -> TableView:
    """Return the published least spacing of duals."""
    rows = [
        (
            row["size"],
            quantities.show_both(float(row["section_width_mm"]) / 1000, "length"),
            quantities.show_both(float(row["spacing_mm"]) / 1000, "length"),
            cite(row["source"]),
        )
        for row in tables.rows("tires/dual_spacing")
    ]
    return TableView(
        "Least spacing of dual tires, middle to middle",
        ("Width code", "Section width", "Spacing", "Source"),
        tuple(rows),
        "For other widths: 1.095 × section width + 68 mm, worked out here; it meets these rows "
        "within 3 mm, except that the manual gives the 420 the figure of the 16.9.",
    )


def rolling_index() -> TableView:
    """Return the groups of the rolling circumference index."""
    rows = []
    for group in range(36, 51):
        length = front_drive.index_circumference(group)
        diameter = length / (tire_rolling.rolling_factor("R-1")[0] * math.pi)
        rows.append(
            (
                str(group),
                quantities.show_both(length, "length", 4),
                quantities.show_both(diameter, "length"),
            )
        )
    return TableView(
        "Rolling circumference index",
        ("Group", "One turn", "Diameter, about"),
        tuple(rows),
        f"Each group rolls {100 * (front_drive.INDEX_STEP - 1):.1f} % farther than the one before. "
        "Front drives are laid out for a fixed number of groups between rear and front: four, "
        f"five or six.{cite('tires/S4; tires/WEB-5; tires/OM-4')}",
    )


TABLES: dict[str, Callable[[], TableView]] = {
    "tire-forms": forms,
    "tire-sizes": sizes,
    "tread-codes": treads,
    "inch-metric-pairs": pairs,
    "dual-spacing": spacing,
    "tire-rims": rims,
    "tread-depths": tread_depths,
    "tire-pairs": approved_pairs,
    "rolling-index": rolling_index,
}
