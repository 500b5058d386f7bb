"""Tables about turf, lawn tools and buried things."""

from collections.abc import Callable

from calc import quantities, si, tables
from calc.mechanics import turf
from calc.render.tables import TableView, cite, source_rows


def _length(low: float, high: float) -> str:
    return quantities.show_range(low / 1000.0, high / 1000.0, "length", "us", figures=2)


def turf_limits() -> TableView:
    """Return what turf stands by the state of the soil."""
    return TableView(
        "Pressure that turf stands",
        ("Soil", "Limit", "Meaning", "Source"),
        tuple(
            (
                row["name"],
                f"{row['limit_psi']} psi ({row['limit_kpa']} kPa)",
                row["meaning"],
                cite(row["source"]),
            )
            for row in tables.rows("lawn/turf_limits")
        ),
    )


def contact_pressure() -> TableView:
    """Return the ground pressure of common tire pressures by each rule."""
    rules = tables.rows("lawn/contact_pressure_rules")
    lines = []
    for psi in (6.0, 10.0, 12.0, 15.0, 20.0, 30.0):
        cells = [
            quantities.show(turf.mean_pressure(psi * si.PSI, rule["key"]), "pressure", "us")
            for rule in rules
        ]
        lines.append((f"{psi:.0f} psi", *cells))
    return TableView(
        "Pressure on the ground by tire pressure",
        ("Tire pressure", *(f"{rule['name']}{cite(rule['source'])}" for rule in rules)),
        tuple(lines),
        "The first rule is used unless you choose another.",
    )


def lawn_tools() -> TableView:
    """Return how deep tools work and what must be flagged."""
    return TableView(
        "What each tool reaches",
        ("Tool", "Works", "Bounce and settling allowed for", "Sprinklers and boxes", "Source"),
        tuple(
            (
                row["name"],
                _length(float(row["shallow_mm"]), float(row["deep_mm"])),
                quantities.show(float(row["allowance_mm"]) / 1000.0, "length", "us"),
                f"{row['boxes']}.",
                cite(row["source"]),
            )
            for row in tables.rows("lawn/lawn_tools")
        ),
        "The allowance is a rule of this site: half an inch for springs, an inch for weighted "
        "tools.",
    )


def head_heights() -> TableView:
    """Return what sources say of sprinkler heads."""
    lines = []
    for row in tables.rows("lawn/head_heights"):
        low, high = float(row["low_mm"]), float(row["high_mm"])
        lines.append((row["place"], _length(low, high), cite(row["source"])))
    return TableView(
        "Where sprinkler heads are said to stand",
        ("Source says", "Below the soil (minus: proud)", "Source"),
        tuple(lines),
        "Heads heave and sink with the years. Measure yours, or flag them all.",
    )


def aerator_holes() -> TableView:
    """Return holes of one pass and the passes for a thorough job by spacing."""
    inch, foot2 = si.INCH, 0.09290304
    lines = []
    for along, across in ((3, 4), (4, 4), (4, 6), (6, 6)):
        each = turf.holes_per_area(along * inch, across * inch)
        needed = turf.passes_for(12.0 / foot2, each)
        lines.append((f"{along} in × {across} in", f"{each * foot2:.0f}", str(needed)))
    return TableView(
        "Aerator holes",
        ("Spacing", "Holes in a square foot, one pass", "Passes for 12"),
        tuple(lines),
    )


SHELVED = ("L", "T", "SPRING", "LAWN")
ELSEWHERE = ("tires/S9", "tires/OM-12", "power/S6", "power/S9", "power/S45", "power/D497-memory")


def lawn_sources() -> TableView:
    """Return the sources on lawns."""
    return source_rows("value", SHELVED, ELSEWHERE)


TABLES: dict[str, Callable[[], TableView]] = {
    "turf-limits": turf_limits,
    "contact-pressure": contact_pressure,
    "lawn-tools": lawn_tools,
    "head-heights": head_heights,
    "aerator-holes": aerator_holes,
    "lawn-sources": lawn_sources,
}
