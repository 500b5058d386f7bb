"""Tables about lift, ballast and stability."""

from collections.abc import Callable

from calc import quantities, si, tables
from calc.mechanics import lift
from calc.render.tables import TableView, cite, percent


def twenty_percent_rules() -> TableView:
    """Return every rule for the load on an axle that we found."""
    bases = {
        "tractor": "the tractor alone",
        "combined": "tractor and equipment",
        "combined_drive": "tractor and equipment",
        "front_axle": "that axle, implement lowered",
        "implement": "the tractor alone",
    }
    lines = []
    for row in tables.rows("hitch/twenty_percent_rules"):
        asks = []
        if row["base"] == "implement":
            asks.append(f"lift arms at most {percent(row['front_share'], row['front_share'])}")
        elif row["front_share"]:
            asks.append(f"front at least {percent(row['front_share'], row['front_share'])}")
        if row["rear_share"]:
            asks.append(f"rear at least {percent(row['rear_share'], row['rear_share'])}")
        lines.append(
            (
                row["label"] + (" (used unless you choose)" if row["default"] else ""),
                ", ".join(asks),
                bases[row["base"]],
                row["note"],
                cite(row["source"]),
            )
        )
    return TableView(
        "Rules for the load left on an axle",
        ("Rule", "Asks for", "Counted from", "Note", "Source"),
        tuple(lines),
        "Wording differs from maker to maker. Where your tractor's manual has a rule, that one "
        "counts.",
    )


def lift_rating_distances() -> TableView:
    """Return the places where a lift figure may have been taken."""
    return TableView(
        "Where a lift figure may have been taken",
        ("The figure is", "Behind the balls", "Note", "Source"),
        tuple(
            (
                row["label"],
                quantities.show(float(row["distance_m"]), "length", "us")
                + f" ({quantities.show(float(row['distance_m']), 'length', 'metric')})",
                row["note"],
                cite(row["source"]),
            )
            for row in tables.rows("hitch/lift_rating_distances")
        ),
    )


DISTANCES = tuple(inches * si.INCH for inches in (12, 24, 32, 40, 48, 60))
PIVOTS = tuple(inches * si.INCH for inches in (28, 32, 37, 60, 80))


def lift_by_distance() -> TableView:
    """Return what is left of a 610 mm rating at other distances."""
    lines = []
    for pivot in PIVOTS:
        cells = [quantities.show(pivot, "length", "us")]
        for distance in DISTANCES:
            share = lift.capacity_at(1.0, lift.RATING_DISTANCE, distance, pivot)
            cells.append(f"{100 * share:.0f} %")
        lines.append(tuple(cells))
    heads = [quantities.show(distance, "length", "us") for distance in DISTANCES]
    return TableView(
        "Share of the 24 in rating that is left at other distances",
        ("Pivot ahead of the balls", *(f"at {head}" for head in heads)),
        tuple(lines),
        "Worked out from the effective-pivot form. The first rows are lengths of lower links on "
        "small tractors, the safe side; 37 in is the published form for large row-crop "
        f"tractors.{cite('hitch/H13')} Nearer than the rating point no more than the rating is "
        "counted.",
    )


def weight_targets() -> TableView:
    """Return how heavy a tractor should be for draft work."""
    lines = []
    for row in tables.rows("hitch/weight_targets"):
        low, usual, high = (row[f"{name}_lb_per_hp"] for name in ("low", "typical", "high"))
        target = usual if low == high else f"{usual} ({low} to {high})"
        lines.append(
            (
                row["label"],
                f"{target} lb for each {row['power']} hp",
                percent(row["front_share_low"], row["front_share_high"]),
                cite(row["source"]),
            )
        )
    return TableView(
        "Weight targets for pulling",
        ("Tractor or soil", "Total mass", "On the front axle", "Source"),
        tuple(lines),
        "Meant for pulling with row-crop tractors. A compact that mows needs to stay on its "
        "wheels, not this much iron.",
    )


TABLES: dict[str, Callable[[], TableView]] = {
    "twenty-percent-rules": twenty_percent_rules,
    "lift-rating-distances": lift_rating_distances,
    "lift-by-distance": lift_by_distance,
    "weight-targets": weight_targets,
}
