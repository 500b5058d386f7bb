"""Tables about drives, fuel, traction and work rate."""

from collections.abc import Callable

from calc import quantities, si, tables
from calc.mechanics import fuel, ownership, traction, transmission
from calc.render.tables import TableView, cite, percent, source_rows


def drive_efficiency() -> TableView:
    """Return what reaches the axle by either drive, by both sets of figures."""
    rows = tuple(
        (
            row["drive"].capitalize(),
            percent(row["efficiency"], row["efficiency"]),
            row["how"],
            cite(row["source"]) + (" and derived" if row["basis"] == "drawbar tests" else ""),
        )
        for row in tables.rows("power/drive_efficiency")
    )
    return TableView(
        "From the shaft's power to the axle, at full load",
        ("Drive", "Reaches the axle", "How it was found", "Source"),
        rows,
        "The worksheet uses the drawbar tests unless you choose the other figures.",
    )


def part_load() -> TableView:
    """Return what reaches the axle at part load, for a compact of 20 kW at the shaft."""
    full, drag = 20e3, 1.1e3
    lines = []
    slopes = {}
    for kind in ("gear", "hydrostatic"):
        efficiency = transmission.full_load_efficiency(kind, "drawbar tests")
        loss = 0.61 * (1.0 - efficiency) * full if kind == "gear" else drag
        slopes[kind] = (transmission.drive_line(efficiency, loss, full), loss)
    for share in (1.0, 0.75, 0.5, 0.3, 0.2):
        cells = [
            transmission.axle_power(share * full, *slopes[kind]) / (share * full)
            for kind in ("gear", "hydrostatic")
        ]
        lines.append((f"{100 * share:.0f} %", *(f"{100 * cell:.0f} %" for cell in cells)))
    return TableView(
        "What reaches the axle when the engine works less",
        ("Power into the drive", "Gear", "Hydrostatic"),
        tuple(lines),
        "Worked out here for 27 hp (20 kW) at the shaft: a share of the loss grows with the power "
        "and a drag is always there. Sources: S33, S14; pump drag from memory.",
    )


def reversal_times() -> TableView:
    """Return how long drives take to change direction."""
    return TableView(
        "Changing direction",
        ("Drive", "Quick", "Usual", "Slow", "Source"),
        tuple(
            (
                row["name"],
                f"{row['low_s']} s",
                f"{row['typical_s']} s",
                f"{row['high_s']} s",
                cite(row["source"]),
            )
            for row in tables.rows("power/reversal_times")
        ),
        "From wheels stopping to wheels turning. Time your own.",
    )


def drawbar_ratios() -> TableView:
    """Return the published drawbar over PTO power."""
    return TableView(
        "Drawbar power over PTO power, properly ballasted, near full load",
        ("Tractor", "Concrete", "Firm soil", "Tilled soil", "Soft soil", "Source"),
        tuple(
            (
                row["tractor"],
                *(percent(row[s], row[s]) for s in ("concrete", "firm", "tilled", "soft")),
                cite(row["source"]),
            )
            for row in tables.rows("power/drawbar_ratios")
        ),
        "At part load far less arrives.",
    )


def soil_traction() -> TableView:
    """Return slip, efficiency and pull by soil."""
    lines = []
    for row in tables.rows("power/soil_mobility"):
        mobility = float(row["mobility_number"])
        slip = traction.best_slip(mobility)
        lines.append(
            (
                row["name"],
                row["mobility_number"],
                f"{100 * slip:.0f} %",
                percent(row["best_slip_low"], row["best_slip_high"]),
                f"{100 * traction.tractive_efficiency(mobility, slip):.0f} %",
                f"{100 * traction.net_traction_ratio(mobility, 0.15):.0f} %",
                cite(f"{row['source']}; {row['slip_source']}"),
            )
        )
    return TableView(
        "Where the tires stop",
        (
            "Ground",
            "Mobility number",
            "Best slip, worked out",
            "Best slip, published",
            "Axle power that pulls",
            "Pull at 15 % slip, share of load",
            "Source",
        ),
        tuple(lines),
    )


def fuel_by_load() -> TableView:
    """Return fuel by load from both equations for 25 hp at the shaft."""
    power = 25.0 * si.HP
    lines = []
    for load in (0.25, 0.50, 0.75, 1.00):
        later, older = fuel.diesel_rate(power, load), fuel.older_diesel_rate(power, load)
        lines.append(
            (
                f"{100 * load:.0f} %",
                quantities.show(later, "fuel_rate", "us"),
                quantities.show(later, "fuel_rate", "metric"),
                quantities.show(older, "fuel_rate", "us"),
                quantities.show(older, "fuel_rate", "metric"),
            )
        )
    return TableView(
        "Diesel in an hour, 25 hp (18.6 kW) at the shaft, full throttle",
        (
            "Engine load",
            "D497.7, US",
            "D497.7, metric",
            "D497.4 and earlier, US",
            "D497.4 and earlier, metric",
        ),
        tuple(lines),
        "Source: S9. The later equation counts full throttle even when the engine works little, "
        "so idling burns less than it says.",
    )


def field_efficiency() -> TableView:
    """Return field efficiency and speed by implement."""
    lines = []
    for row in tables.rows("power/field_efficiency"):
        low, high = (float(row[f"speed_{end}_km_h"]) / 3.6 for end in ("low", "high"))
        speeds = quantities.show_range(low, high, "speed", "us", figures=2)
        lines.append(
            (
                row["name"],
                percent(row["low"], row["high"]),
                percent(row["typical"], row["typical"]),
                speeds,
                cite(row["source"]),
            )
        )
    return TableView(
        "Field efficiency and speed",
        ("Implement", "Efficiency", "Typical", "Speed", "Source"),
        tuple(lines),
        "The share of the time that works new ground; turns, overlap and stops take the rest. "
        "Another reader of the standard gives rotary mowers 4.3 to 8.7 mph (S44). Work that has to "
        "be tended, with filling and unloading, runs at about 60 % (S46).",
    )


def repair_costs() -> TableView:
    """Return accumulated repair cost of a tractor as a share of its list price."""
    hours = (500, 1000, 2000, 4000, 6000)
    return TableView(
        "Repairs of a tractor from new, as a share of the list price of a new one",
        ("Hours", "Repairs"),
        tuple((f"{h:,}", f"{ownership.repair_cost('tractor', 100.0, h):.1f} %") for h in hours),
        "Source: S53. A low-hour compact costs more than this in servicing by the "
        "calendar. No published figures tell the two drives apart.",
    )


CITED = (
    "S6",
    "S8",
    "S9",
    "S10",
    "S14",
    "S33",
    "S34",
    "S35",
    "S36",
    "S37",
    "S41",
    "S42",
    "S43",
    "S45",
    "S47",
    "S48",
    "S49",
    "S52",
    "S53",
    "D497-memory",
    "GENERAL-memory",
)


def drive_sources() -> TableView:
    """Return the sources on drives and fuel."""
    return source_rows("power", ("(none)",), tuple(f"power/{key}" for key in CITED))


TABLES: dict[str, Callable[[], TableView]] = {
    "drive-efficiency": drive_efficiency,
    "drive-part-load": part_load,
    "reversal-times": reversal_times,
    "drawbar-ratios": drawbar_ratios,
    "soil-traction": soil_traction,
    "fuel-by-load": fuel_by_load,
    "field-efficiency": field_efficiency,
    "repair-costs": repair_costs,
    "drive-sources": drive_sources,
}
