"""Tables about cabs, glass and cooling."""

from collections.abc import Callable

from calc import quantities, tables
from calc.mechanics import air_conditioner, cab
from calc.render.tables import TableView, cite, percent, source_rows


def cab_kinds() -> TableView:
    """Return which cabs can take cooling, and why."""
    return TableView(
        "Which cabs can take cooling",
        ("Cab", "Cooling", "Why", "Source"),
        tuple(
            (row["name"], row["verdict"].capitalize(), f"{row['why']}.", cite(row["source"]))
            for row in tables.rows("cab/cab_kinds")
        ),
    )


def glass_kinds() -> TableView:
    """Return how much of the sun each glass lets in."""
    return TableView(
        "How much of the sun's heat glass lets in",
        ("Glass", "Used", "Range", "Source"),
        tuple(
            (
                row["name"],
                percent(row["heat_gain"], row["heat_gain"]),
                percent(row["low"], row["high"]),
                cite(row["source"]),
            )
            for row in tables.rows("cab/glass_kinds")
        ),
        "The solar heat gain coefficient. A shading coefficient, where one is printed, is that "
        "over 0.87.",
    )


def roof_colors() -> TableView:
    """Return how much of the sun each paint takes in, and how hot a roof feels."""
    lines = []
    for row in tables.rows("cab/roof_colors"):
        absorbed = float(row["absorptance"])
        hot = cab.sol_air_temperature(35.0, absorbed, 950.0) + 273.15
        lines.append(
            (
                row["name"],
                percent(row["absorptance"], row["absorptance"]),
                f"{quantities.show(hot, 'temperature', 'us')} "
                f"({quantities.show(hot, 'temperature', 'metric')})",
                cite(row["source"]),
            )
        )
    return TableView(
        "A roof in full sun",
        ("Paint", "Sun it takes in", "Works like a shaded roof in air of", "Source"),
        tuple(lines),
        "At 95 F (35 °C) in the shade and 950 W/m2 of sun.",
    )


def fresh_air_rules() -> TableView:
    """Return what sources ask for as fresh air."""
    lines = []
    for row in tables.rows("cab/fresh_air_rules"):
        low, high = (float(row[end]) / 3600.0 for end in ("low_m3_h", "high_m3_h"))
        lines.append(
            (
                row["name"],
                quantities.show_range(low, high, "air_flow", "us"),
                quantities.show_range(low, high, "air_flow", "metric"),
                cite(row["source"]),
            )
        )
    return TableView("Fresh air", ("Rule", "US", "Metric", "Source"), tuple(lines))


def leak_areas() -> TableView:
    """Return the gaps that still let a fan hold the pressure that keeps dust out."""
    lines = []
    for cubic_meters in (43.0, 68.0, 140.0, 238.0):
        flow = cubic_meters / 3600.0
        area = cab.leak_area(flow, 50.0)
        lines.append(
            (
                f"{quantities.show(flow, 'air_flow', 'us')} "
                f"({quantities.show(flow, 'air_flow', 'metric')})",
                f"{quantities.show(area, 'area_small', 'us')} "
                f"({quantities.show(area, 'area_small', 'metric', unit='cm2')})",
            )
        )
    return TableView(
        "All the gaps together that a fan can hold 50 Pa against",
        ("Fresh air", "Gaps, at most"),
        tuple(lines),
        "Derived from the flow through a sharp-edged opening. A gap of 1/8 in (3 mm) round a door "
        "edge of 13 ft (4 m) is already 19 in2 (120 cm2).",
    )


def cooling_performance() -> TableView:
    """Return the engine power behind a cooling power."""
    lines = []
    for row in tables.rows("cab/cooling_performance"):
        performance = float(row["performance"])
        lines.append(
            (
                row["name"],
                row["performance"],
                quantities.show(
                    air_conditioner.compressor_power(3000.0, performance), "power", "us"
                ),
                cite(row["source"]),
            )
        )
    return TableView(
        "Engine power for 3 kW (10,200 Btu/h) of cooling",
        ("Work", "Cooling over shaft power", "Engine power", "Source"),
        tuple(lines),
        "A belt loss of a twentieth is counted in.",
    )


def cab_currents() -> TableView:
    """Return the current of the parts of a cooling unit."""
    return TableView(
        "Current at 12 V",
        ("Part", "Current", "Source"),
        tuple(
            (row["part"], f"{row['low_a']} to {row['high_a']} A", cite(row["source"]))
            for row in tables.rows("cab/cab_currents")
        ),
    )


def cab_units() -> TableView:
    """Return the sizes that cooling units are sold in."""
    lines = []
    for row, watts in zip(tables.rows("cab/cab_units"), air_conditioner.unit_sizes(), strict=True):
        both = [quantities.show(watts, "power", unit=unit) for unit in ("Btu/h", "kW")]
        lines.append((row["name"], f"{both[0]} ({both[1]})", cite(row["source"])))
    return TableView("Units that are sold", ("Unit", "Cooling power", "Source"), tuple(lines))


SHELVED = ("C", "TP-", "TI-", "EM-", "AL-", "ISO14269", "ASHRAE", "SPENCER", "INEICHEN", "IAM")


def cab_sources() -> TableView:
    """Return the sources on cabs."""
    return source_rows("value", SHELVED, ("power/S10",))


TABLES: dict[str, Callable[[], TableView]] = {
    "cab-kinds": cab_kinds,
    "glass-kinds": glass_kinds,
    "roof-colors": roof_colors,
    "fresh-air-rules": fresh_air_rules,
    "cab-leak-areas": leak_areas,
    "cooling-performance": cooling_performance,
    "cab-currents": cab_currents,
    "cab-units": cab_units,
    "cab-sources": cab_sources,
}
