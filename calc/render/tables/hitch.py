"""Tables about hitch categories, sleeves and quick couplers."""

from collections.abc import Callable

from calc import quantities, sources, tables
from calc.mechanics import hitch, hitch_fit, quick_coupler
from calc.render.tables import TableView, cite

MARKS = {"memory": "†", "derived": "‡", "practice": "§", "read": ""}
MARK_NOTE = (
    "† from memory, text not seen. ‡ worked out here from the sources named. "
    "§ common practice, no source."
)

ROWS = (
    ("lower_pin", "Lower pin, diameter", "pin"),
    ("upper_pin", "Top pin, diameter", "pin"),
    ("lower_bore", "Hole of the lower ball", "mm"),
    ("ball_width", "Width of the lower ball", "mm"),
    ("shoulder_span", "Span between shoulders", "span"),
    ("ball_spacing", "Span between ball centers", "span"),
    ("mast_height", "Mast height, ISO 730", "span"),
    ("mast_height_old", "Mast height, older US standard", "span"),
)
MORE_ROWS = (
    ("mast_inside_min", "Mast plates, inside, at least", "mm"),
    ("mast_outside_max", "Mast plates, outside, at most", "mm"),
    ("linchpin_distance_min", "Shoulder to linch pin hole, at least", "mm"),
    ("linchpin_hole_min", "Linch pin hole, at least", "mm"),
    ("lowest_point_max", "Lower pins at their lowest, at most above ground", "span"),
    ("lift_range_min", "Travel, at least", "span"),
    ("transport_height_min", "Lower pins at their highest, at least above ground", "span"),
    ("leveling_min", "Leveling of one link, at least", "mm"),
    ("shaft_to_hitch_points", "PTO shaft end to lower pins, links level", "span"),
    ("convergence_distance", "Where the links would meet, seen from above", "span"),
)


def status_mark(citation: str) -> str:
    """Return the mark of a source that wasn't read."""
    return MARKS[sources.find(citation)[0].status]


def _size(item: str, category: str, form: str) -> str:
    if not hitch.has_size(item, category):
        return "–"
    low, high = hitch.size_range(item, category)
    mark = status_mark(hitch.size_source(item, category))
    metric = quantities.show_range(low, high, "length", "metric", figures=4)
    if form == "pin":
        shown = f"{hitch_fit.sixteenths(low)} in ({metric})"
    else:
        shown = f"{quantities.show_range(low, high, 'length', 'us')} ({metric})"
    return shown + mark


def _cited(item: str, categories: tuple[str, ...]) -> str:
    found = [hitch.size_source(item, key) for key in categories if hitch.has_size(item, key)]
    return cite("; ".join(dict.fromkeys(found)))


def _sizes(caption: str, rows: tuple[tuple[str, str, str], ...], note: str) -> TableView:
    numbers = ("0", "1", "2", "3", "4")
    lines = tuple(
        (label, *[_size(item, key, form) for key in numbers], _cited(item, numbers))
        for item, label, form in rows
    )
    columns = ("Size", *[f"Category {key}" for key in numbers], "Source")
    return TableView(caption, columns, lines, f"{note} {MARK_NOTE}".strip())


def hitch_categories() -> TableView:
    """Return pins, holes, spans and masts of each category."""
    return _sizes(
        "Sizes of the categories",
        ROWS,
        "Spans of the implement hold to 1.5 mm. Category 4 has two sizes of mast.",
    )


def hitch_more_sizes() -> TableView:
    """Return the sizes that matter less often."""
    return _sizes("Other sizes of the categories", MORE_ROWS, "")


def hitch_n_categories() -> TableView:
    """Return the narrow categories."""
    lines = []
    for key in ("1N", "2N", "3N", "4N"):
        items = (
            ("lower_pin", "pin"),
            ("upper_pin", "pin"),
            ("shoulder_span", "span"),
            ("mast_height", "span"),
        )
        cells = [_size(item, key, form) for item, form in items]
        found = [hitch.size_source(item, key) for item, _ in items if hitch.has_size(item, key)]
        lines.append((f"Category {key}", *cells, cite("; ".join(dict.fromkeys(found)))))
    return TableView(
        "Narrow categories: their own pins, the span of the next lower number",
        ("Category", "Lower pin", "Top pin", "Span between shoulders", "Mast height", "Source"),
        tuple(lines),
        f"The figures of Category 1N are of low confidence. {MARK_NOTE}",
    )


EDITIONS = ("iso_1994", "iso_2009", "older_drawbar")


def _power_cell(row: dict[str, str]) -> str:
    low, high = float(row["low_kw"]) * 1000, float(row["high_kw"]) * 1000
    us, metric = (
        quantities.show_range(low, high, "power", system)
        if low
        else f"up to {quantities.show(high, 'power', system)}"
        for system in ("us", "metric")
    )
    note = f"; {row['note']}" if row["note"] else ""
    return f"{us} ({metric}){status_mark(row['source'])}{note}"


def hitch_power() -> TableView:
    """Return the power range of each category, by each edition."""
    rows = tables.rows("hitch/hitch_power")
    lines = []
    for category in ("0", "1N", "1", "2", "3", "4"):
        found = {row["basis"]: row for row in rows if row["category"] == category}
        cells = [_power_cell(found[key]) if key in found else "–" for key in EDITIONS]
        cited = "; ".join(dict.fromkeys(row["source"] for row in found.values()))
        lines.append((f"Category {category}", *cells, cite(cited)))
    return TableView(
        "Power that each category is meant for",
        (
            "Category",
            "ISO 730-1:1994, at the PTO",
            "ISO 730:2009, at the PTO",
            "Older table, largest at the drawbar",
            "Source",
        ),
        tuple(lines),
        "The ranges overlap on purpose. Charts that print 20-45, 40-100, 80-225 and 180-400 hp "
        f"repeat the older drawbar column; they aren't engine power. {MARK_NOTE}",
    )


def coupler_sizes() -> TableView:
    """Return hook spacing and height of each U-frame coupler."""
    lines = []
    for row in tables.rows("hitch/coupler_sizes"):
        key = row["coupler"]
        span, height = quick_coupler.coupler_hook_span(key), quick_coupler.coupler_hook_height(key)
        lines.append(
            (
                f"Category {key}",
                quantities.show_both(span, "length"),
                quantities.show_both(height, "length"),
                f"{hitch_fit.sixteenths(quick_coupler.coupler_slot(key, 'lower'))} in",
                f"{hitch_fit.sixteenths(quick_coupler.coupler_slot(key, 'upper'))} in",
                cite(
                    "; ".join(
                        dict.fromkeys([row["span_source"], row["hook_source"], row["slot_source"]])
                    )
                ),
            )
        )
    return TableView(
        "U-frame couplers",
        (
            "Coupler",
            "Between lower hooks",
            "Top hook above them",
            "Lower slot takes",
            "Top slot takes",
            "Source",
        ),
        tuple(lines),
        "Some Category 1 couplers have slots of their own size and want no sleeves.",
    )


def coupler_sleeves() -> TableView:
    """Return the stock sleeves."""
    places = {"lower": "lower pin", "upper": "top pin"}
    lines = tuple(
        (
            f"Category {row['pin_number']} {places[row['place']]}",
            row["opening"],
            f"{row['inside_in']} in",
            f"{row['outside_in']} in",
            cite(row["source"]),
        )
        for row in tables.rows("hitch/coupler_sleeves")
    )
    return TableView(
        "Sleeves",
        ("Pin", "Goes into", "Inside", "Outside", "Source"),
        lines,
        "Sleeves for a coupler's slots and sleeves for a ball or top link are different parts.",
    )


def coupler_conflicts() -> TableView:
    """Return what doesn't go with a U-frame coupler."""
    verdicts = {
        "no": "doesn't go",
        "adapter": "only with the maker's adapter",
        "measure": "measure first",
        "check": "check the drive shaft",
    }
    return TableView(
        "What quarrels with a U-frame coupler",
        ("Implement", "Finding", "Why", "Source"),
        tuple(
            (row["label"], verdicts[row["verdict"]], row["why"], cite(row["source"]))
            for row in tables.rows("hitch/coupler_conflicts")
        ),
    )


TABLES: dict[str, Callable[[], TableView]] = {
    "hitch-categories": hitch_categories,
    "hitch-more-sizes": hitch_more_sizes,
    "hitch-n-categories": hitch_n_categories,
    "hitch-power": hitch_power,
    "coupler-sizes": coupler_sizes,
    "coupler-sleeves": coupler_sleeves,
    "coupler-conflicts": coupler_conflicts,
}
