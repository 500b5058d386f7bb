"""Tables about road rules: what the law and the standard ask for, place by place."""

from collections.abc import Callable

from calc import quantities, tables
from calc.mechanics import road_rules
from calc.render.tables import TableView, cite
from calc.subjects.road_tables import dated

CHECK = (
    "Summaries for planning, not legal advice. Rules differ by state, county and road and change "
    "every year: check the current text before you travel."
)


def both(text: str, kind: str = "length") -> str:
    """A published value as printed, with the other system behind it."""
    if not text:
        return "—"
    value = road_rules.measure(text)
    assert value is not None
    unit = text.partition(" ")[2]
    system = "us" if unit in ("m", "mm", "km/h") else "metric"
    return f"{text} ({quantities.show(value, kind, system)})"


def _place(code: str) -> str:
    names = {
        "US-ALL": "Everywhere",
        "US-FED": "United States, federal",
        "US-STD": "Standard S276, as it stands",
        "US-STD-old": "Standard S276, older editions",
        "US-UVC": "Many other states",
    }
    return names.get(code) or road_rules.place_row(code)["name"]


def _by_place(name: str) -> list[tables.Row]:
    """Rows in the order in which one looks a place up: standards, states by name, the rest."""
    order = {row["place"]: row["country"] for row in tables.rows("road/road_places")}

    def key(row: tables.Row) -> tuple[int, str]:
        country = order.get(row["place"], "")
        if not country:
            return 0, ""
        return (1, _place(row["place"])) if country == "US" else (2, "")

    return sorted(tables.rows(name), key=key)


def state_rules() -> TableView:
    """Return every rule that was read, with citation, year and confidence."""
    rows = [
        (
            _place(row["place"]),
            f"{row['about']}: {row['rule']}",
            f"{row['citation']}, {dated(row['year'])}, confidence {row['confidence']}; read in: "
            f"{row['read_in']}",
        )
        for row in _by_place("road/state_road_rules")
    ]
    return TableView(
        "Rules that were read, place by place",
        ("Place", "In our words", "Citation"),
        tuple(rows),
        CHECK + " A place that is missing was not read.",
    )


def emblem_rules() -> TableView:
    """Return the emblem rules: height, speed, who carries it."""
    rows = []
    for row in _by_place("road/emblem_rules"):
        low, high = row["height_low"], row["height_high"]
        height = f"{low} to {high}" if low and high else (f"at least {low}" if low else "—")
        above = {
            "with symbol": "; above that it stays, with a speed symbol",
            "covered": "; above that it comes off or is covered",
            "not shown": "; above that it is not shown",
            "": "",
        }[row["above"]]
        speed = f"Up to {both(row['speed_to'], 'speed')}{above}."
        rows.append((_place(row["place"]), height, f"{speed} {row['text']}.", cite(row["source"])))
    return TableView(
        "The slow-moving-vehicle emblem, place by place",
        ("Place", "Lower edge", "In our words", "Source"),
        tuple(rows),
        CHECK,
    )


def emblem_sizes() -> TableView:
    """Return the emblem's own dimensions."""
    return TableView(
        "The emblem itself",
        ("What", "Source"),
        tuple((row["text"], cite(row["source"])) for row in tables.rows("road/emblem_sizes")),
    )


def standard_items() -> TableView:
    """Return what the standard asks for."""
    items = tables.by_key("road/road_items", "item")
    rows = []
    for row in tables.rows("road/road_requirements"):
        if row["place"] != "US-STD":
            continue
        height = " to ".join(filter(None, (row["height_low"], row["height_high"]))) or "—"
        rows.append(
            (
                "tractor" if row["unit"] == "tractor" else "what is behind",
                items[row["item"]]["name"],
                row["text"],
                height,
                row["edge"] or "—",
                cite(row["source"]),
            )
        )
    return TableView(
        "What the standard for farm machines (S279) asks for",
        ("On", "Item", "When and how", "Height", "From the edge, at most", "Source"),
        tuple(rows),
        "Read from texts about the standard, which follow different editions; the standard itself "
        "is sold.",
    )


def lamp_hours() -> TableView:
    """Return when lamps are required."""
    return TableView(
        "When lamps are required",
        ("Place", "When", "Source"),
        tuple(
            (_place(row["place"]), row["text"], cite(row["source"]))
            for row in tables.rows("road/lamp_hours")
        ),
        CHECK,
    )


def widths() -> TableView:
    """Return width rules of machines on their own wheels."""
    rows = [
        (
            _place(row["place"]),
            both(row["free_night"] or row["free_day"]),
            both(row["maximum"]),
            f"{row['note']}.",
            cite(row["source"]),
        )
        for row in _by_place("road/road_widths")
    ]
    return TableView(
        "How wide, on its own wheels",
        ("Place", "Free up to", "At most", "In our words", "Source"),
        tuple(rows),
        CHECK + " A dash means that no limit was read.",
    )


TABLES: dict[str, Callable[[], TableView]] = {
    "state-road-rules": state_rules,
    "emblem-rules": emblem_rules,
    "emblem-sizes": emblem_sizes,
    "road-standard": standard_items,
    "lamp-hours": lamp_hours,
    "road-widths": widths,
}
