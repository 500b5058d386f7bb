"""Tables about what tires carry: load index, ply rating, pressure and speed."""

from collections.abc import Callable

from calc import quantities, si, tables
from calc.mechanics import tire_load
from calc.render.tables import TableView, cite


def load_index() -> TableView:
    """Return load indexes in blocks of ten."""
    rows = []
    by_index = tables.by_key("tires/load_index", "index")
    for start in range(60, 176, 10):
        cells = []
        for index in range(start, start + 10):
            row = by_index.get(str(index))
            if row is None:
                cells.append("")
                continue
            mark = "†" if row["source"].endswith("memory") else ""
            load = tire_load.load_of_index(index)
            cells.append(f"{row['load_kg']} kg ({round(load / si.POUND):,} lb){mark}")
        rows.append((str(start), *cells))
    return TableView(
        "Load index: load on one tire at the speed of its symbol",
        ("From", *[f"+{i}" for i in range(10)]),
        tuple(rows),
        "From a tire shop's list (71 to 95) and the Agribook of South Africa (96 up). † From "
        "memory, text not seen.",
    )


def speed_symbols() -> TableView:
    """Return speed symbols."""
    rows = [
        (
            row["symbol"],
            quantities.show_both(float(row["speed_km_h"]) / 3.6, "speed"),
            cite(row["source"]),
        )
        for row in tables.rows("tires/speed_symbols")
    ]
    return TableView("Speed symbols", ("Symbol", "Speed", "Source"), tuple(rows))


def speed_factors() -> TableView:
    """Return load against speed for three kinds of rating."""
    kinds = {
        "A3": "Loader tire, symbol A3",
        "A8": "Radial, symbol A8",
        "D": "Radial, symbol D",
    }
    found: dict[float, dict[str, str]] = {}
    cited: dict[str, None] = {}
    for row in tables.rows("tires/tire_speed_factors"):
        shown = f"{float(row['change_pct']):+g} %".replace("-", "\u2212").replace("+0 %", "0 %")
        found.setdefault(float(row["speed_km_h"]) / 3.6, {})[row["kind"]] = shown
        cited[row["source"]] = None
    rows = [
        (quantities.show_both(speed, "speed"), *[cells.get(kind, "–") for kind in kinds])
        for speed, cells in sorted(found.items())
    ]
    return TableView(
        "How load changes with speed",
        ("Speed", *kinds.values()),
        tuple(rows),
        f"The three can't be mixed, and no answer here counts on more load at low "
        f"speed.{cite('; '.join(cited))}",
    )


def load_sheets() -> TableView:
    """Return the data sheets of load at pressure and speed."""
    rows = []
    for row in tables.rows("tires/tire_load_at_pressure"):
        speed = (
            quantities.show_both(float(row["speed_km_h"]) / 3.6, "speed")
            if row["speed_km_h"]
            else "–"
        )
        rows.append(
            (
                f"{row['size']} {row['ply_rating']}PR",
                speed,
                quantities.show_both(float(row["pressure_psi"]) * si.PSI, "pressure"),
                quantities.show_both(float(row["load_lb"]) * si.POUND, "mass", 4),
                cite(row["source"]),
            )
        )
    return TableView(
        "Load at pressure: two makers' data sheets",
        ("Tire", "Speed", "Pressure", "Load on one tire", "Source"),
        tuple(rows),
        "Both follow load ∝ pressure to the power 0.58.",
    )


def load_rows() -> TableView:
    """Return the rows of load by ply rating, each at its own pressure."""
    rows = [
        (
            f"{row['size']} {row['ply_rating']}PR",
            row["tread"],
            quantities.show_both(float(row["pressure_kpa"]) * 1000, "pressure"),
            quantities.show_both(float(row["load_kg"]), "mass"),
            cite(row["source"]),
        )
        for row in tables.rows("tires/tire_loads")
        if row["ply_rating"]
    ]
    return TableView(
        "Load by ply rating, at the pressure of the row",
        ("Tire", "Tread", "Pressure", "Load on one tire", "Source"),
        tuple(rows),
        "One maker's tires; its file names no speed. Loads of R-4 tires are for loaders at low "
        "speed and don't compare with those of R-1.",
    )


def additions() -> TableView:
    """Return what the work adds to a chart's pressure."""
    rows = [
        (
            row["label"],
            quantities.show_both(float(row["add_kpa"]) * 1000, "pressure"),
            cite(row["source"]),
        )
        for row in tables.rows("tires/pressure_additions")
    ]
    return TableView(
        "Pressure to add to the load chart's",
        ("For", "Add", "Source"),
        tuple(rows),
        "Never above the maximum on the sidewall.",
    )


def pressures() -> TableView:
    """Return pressures that manuals print."""
    rows = []
    for row in tables.rows("tires/tire_recommended_pressures"):
        low, high = float(row["low_kpa"]) * 1000, float(row["high_kpa"]) * 1000
        shown = " ".join(
            quantities.show_range(low, high, "pressure", system)
            if system == "us"
            else f"({quantities.show_range(low, high, 'pressure', system)})"
            for system in ("us", "metric")
        )
        ply = f" {row['ply_rating']}PR" if row["ply_rating"] else ""
        rows.append(
            (f"{row['size']}{ply}", row["tread"] or "–", shown, row["machine"], cite(row["source"]))
        )
    return TableView(
        "Pressures that manuals print",
        ("Size", "Tread", "Pressure", "Machine", "Source"),
        tuple(rows),
        "Of one machine each: a sense of the usual, not a rule for yours.",
    )


def road_limits() -> TableView:
    """Return what a compact's manual allows on the road."""
    rows = [
        (row["size"], quantities.show_both(float(row["load_kg"]), "mass"), cite(row["source"]))
        for row in tables.rows("tires/tire_road_limits")
    ]
    return TableView(
        "What one compact's manual allows on one tire", ("Size", "Load", "Source"), tuple(rows)
    )


TABLES: dict[str, Callable[[], TableView]] = {
    "load-index": load_index,
    "speed-symbols": speed_symbols,
    "pressure-additions": additions,
    "tire-speed-factors": speed_factors,
    "tire-road-limits": road_limits,
    "tire-pressures": pressures,
    "tire-load-sheets": load_sheets,
    "tire-load-rows": load_rows,
}
