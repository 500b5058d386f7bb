"""Tables about post hole diggers, drivelines, and repairing before a sale."""

import math
from collections.abc import Callable

from calc import quantities, si, tables
from calc.mechanics import auger, joint_ratings, overload, universal_joint
from calc.render.tables import TableView, cite

STUB = 1.375 * si.INCH  # hitch/S5: the shaft of Types 1 and 2
DIAMETERS = (6, 9, 12, 18)
ANGLES = (5, 10, 15, 20, 25, 30, 35)
PTO_SPEED = 540.0


def _span(low: float, high: float) -> str:
    return quantities.show_range(low, high, "count")


def digger_soils() -> TableView:
    """Return soils with their resistance."""
    return TableView(
        "Soil and its resistance",
        ("Soil", "Against sand", "What to know", "Source"),
        tuple(
            (
                row["name"],
                _span(float(row["factor_low"]), float(row["factor_high"])),
                row["note"][0].upper() + row["note"][1:],
                cite(row["source"]),
            )
            for row in tables.rows("digger/digger_soils")
        ),
    )


def auger_power() -> TableView:
    """Return the power that augers take, by diameter and soil."""
    soils = [row for row in tables.rows("digger/digger_soils") if row["diggable"] == "yes"]
    lines = []
    for inches in DIAMETERS:
        cells = [quantities.show_both(inches * si.INCH, "length")]
        for soil in soils:
            low, full = auger.auger_power_range(inches * si.INCH, soil["key"])
            cells.append(quantities.show_range(low, full, "power", "us"))
        lines.append(tuple(cells))
    return TableView(
        "PTO power that an auger takes at 540 rpm, fed slowly to full flights",
        ("Auger", *(soil["name"] for soil in soils)),
        tuple(lines),
        f"From the trade's figures for a 12 in auger in clay{cite('power/PRACTICE')}, the soils "
        f"above, and the square of the diameter{cite('value/P7')}; fed slowly no more than the "
        f"least tractor of the digger's class{cite('value/DIGGERCLASS-memory')}. Rough: stones, "
        "roots and dull teeth change it more than a size.",
    )


def digger_rules() -> TableView:
    """Return what digger manuals ask for."""
    lines = []
    for row in tables.rows("digger/digger_rules"):
        value = ""
        if row["unit"] == "in":
            millimeters = 1000 * quantities.base(f"{row['value']} in", "length")
            value = f"{row['value']} in ({millimeters:.0f} mm)"
        elif row["unit"] == "ft":
            value = quantities.show_both(
                quantities.base(f"{row['value']} ft", "distance"), "distance"
            )
        elif row["unit"]:
            value = quantities.show(float(row["value"]), "rotation")
        lines.append((row["rule"], value, cite(row["source"])))
    return TableView("What digger manuals ask for", ("Rule", "Number", "Source"), tuple(lines))


def driveline_overlap_rules() -> TableView:
    """Return every rule for the overlap of the tubes."""
    return TableView(
        "Rules for the overlap of the tubes",
        ("Rule", "Where it applies", "Source"),
        tuple(
            (
                row["name"] + (" (used unless you choose)" if row["default"] else ""),
                row["applies"],
                cite(row["source"]),
            )
            for row in tables.rows("driveline/driveline_overlap_rules")
        ),
        "Makers differ. Where the implement's manual has a rule, that one counts.",
    )


def driveline_closing_rules() -> TableView:
    """Return every rule for the gap when shortest."""
    return TableView(
        "Rules for the gap left when the driveline is shortest",
        ("Rule", "Source"),
        tuple(
            (
                row["name"] + (" (used unless you choose)" if row["default"] else ""),
                cite(row["source"]),
            )
            for row in tables.rows("driveline/driveline_closing_rules")
        ),
    )


def driveline_joint_limits() -> TableView:
    """Return the angles that joints may work at."""
    return TableView(
        "Angles that joints may run at",
        ("Rule", "Joint", "Running", "Standing", "Source"),
        tuple(
            (
                row["name"],
                {"standard": "standard", "wide": "wide-angle"}[row["joint"]],
                f"{row['running_deg']}°",
                f"{row['standing_deg']}°",
                cite(row["source"]),
            )
            for row in tables.rows("driveline/driveline_joint_limits")
        ),
    )


def driveline_series() -> TableView:
    """Return what power each series of driveline carries."""
    lines = []
    for row in tables.rows("driveline/driveline_series"):
        fast = row["power_1000_hp"]
        torque = joint_ratings.series_torque(row["key"])
        lines.append(
            (
                row["name"],
                f"{row['power_540_hp']} hp",
                f"{fast} hp" if fast else "not printed",
                quantities.show_both(torque, "torque"),
                cite(row["source"]),
            )
        )
    return TableView(
        "What a driveline carries",
        ("Series", "At 540 rpm", "At 1,000 rpm", "Torque at 540", "Source"),
        tuple(lines),
        "Rated power at the PTO. Without a tag, measure the cross of the joint: its scale and "
        "number follow from cap diameter and length.",
    )


def joint_ripple() -> TableView:
    """Return how unevenly one joint turns, by angle."""
    lines = []
    for degrees in ANGLES:
        angle = math.radians(degrees)
        low, high = universal_joint.ratio_extremes(angle)
        lines.append(
            (
                f"{degrees}°",
                f"{low:.4f}",
                f"{high:.4f}",
                f"{100 * universal_joint.fluctuation(angle):.1f} %",
                f"{PTO_SPEED * low:.0f} to {PTO_SPEED * high:.0f} rpm",
            )
        )
    return TableView(
        "Speed behind one joint, twice a turn",
        ("Joint angle", "Slowest", "Fastest", "Swing", "At 540 rpm"),
        tuple(lines),
        f"From the joint's geometry{cite('value/P0')}. A second joint takes it out again only "
        "if its angle is the same and the inner yokes are in line.",
    )


def shear_bolts() -> TableView:
    """Return the torque at which bolts through a PTO shaft shear."""
    sizes = tables.rows("driveline/shear_bolt_sizes")
    lines = []
    for grade in tables.rows("driveline/shear_bolt_grades"):
        for thread, plane in ((False, "shank"), (True, "thread")):
            cells = [f"{grade['name']}, {plane}"]
            for size in sizes:
                bolt = overload.shear_bolt(size["key"], grade["key"], thread, 2, 0.5 * STUB)
                cells.append(quantities.show(bolt.torque, "torque", "us"))
            lines.append(tuple(cells))
    return TableView(
        "Torque at which a bolt through a 1-3/8 in shaft shears",
        ("Bolt, and what lies in the shear plane", *(size["name"] for size in sizes)),
        tuple(lines),
        f"Two shear planes. Strengths{cite('value/P5; value/DERIVED')} and "
        f"areas{cite('value/P10')} as published. New and static: real bolts scatter by about a "
        "fifth, and use tires them.",
    )


def trade_tax_rules() -> TableView:
    """Return how states tax a tractor bought with a trade-in."""
    lines = []
    for row in tables.rows("money/trade_tax_rules"):
        if not (row["from"] or row["place"] in ("Washington", "Ohio")):
            continue
        since = f"from {row['from']}" if row["from"] else "no date on the page"
        lines.append(
            (
                row["place"],
                since + (f" to {row['to']}" if row["to"] else ""),
                f"{float(row['rate_percent']):g} %" if row["rate_percent"] else "the local rate",
                row["rule"],
                cite(row["source"]),
            )
        )
    return TableView(
        "How a trade-in is taxed on a tractor",
        ("State", "When", "Rate", "Rule", "Source"),
        tuple(lines),
        "Only these could be read. Check yours: lists made for cars don't carry over to tractors.",
    )


def resale_evidence() -> TableView:
    """Return what was found in print about selling used machines."""
    units = {"$": "money", "%": "fraction", "$/h": "money_per_hour"}
    lines = []
    for row in tables.rows("money/resale_evidence"):
        low, high, kind = (
            float(row["low"]),
            float(row["high"] or row["low"]),
            units.get(row["unit"]),
        )
        if kind:
            factor = 0.01 if kind == "fraction" else 1.0
            shown = quantities.show_range(factor * low, factor * high, kind)
        else:
            shown = f"{_span(low, high)} {row['unit'].replace('%', ' %').strip()}"
        lines.append((row["fact"], shown, cite(row["source"])))
    return TableView("What is in print", ("Fact", "Number", "Source"), tuple(lines))


TABLES: dict[str, Callable[[], TableView]] = {
    "digger-soils": digger_soils,
    "auger-power": auger_power,
    "digger-rules": digger_rules,
    "driveline-overlap-rules": driveline_overlap_rules,
    "driveline-closing-rules": driveline_closing_rules,
    "driveline-joint-limits": driveline_joint_limits,
    "driveline-series": driveline_series,
    "joint-ripple": joint_ripple,
    "shear-bolts": shear_bolts,
    "trade-tax-rules": trade_tax_rules,
    "resale-evidence": resale_evidence,
}
