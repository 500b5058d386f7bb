"""Tables about tire sizes, loads, front-drive lead, liquid ballast and duals."""

import math
from collections.abc import Callable

from calc import quantities, tables
from calc.mechanics import bolts, front_drive, tire_load, tire_rolling, tires
from calc.mechanics.tire_size import decode
from calc.render.tables import TableView, cite


def both(value: float, kind: str, figures: int = 3) -> str:
    """Return a value in US units with the metric one behind it."""
    us, metric = (quantities.show(value, kind, s, figures=figures) for s in ("us", "metric"))
    return f"{us} ({metric})"


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
                both(tire.overall_diameter, "length", 4),
                both(tire.section_width, "length"),
                both(tire.static_loaded_radius, "length"),
                both(tire.rolling_circumference, "length", 4),
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
            cells.append(f"{row['load_kg']} kg ({round(load / tire_load.POUND):,} lb){mark}")
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
        (row["symbol"], both(float(row["speed_km_h"]) / 3.6, "speed"), cite(row["source"]))
        for row in tables.rows("tires/speed_symbols")
    ]
    return TableView("Speed symbols", ("Symbol", "Speed", "Source"), tuple(rows))


def treads() -> TableView:
    """Return tread codes."""
    rows = [
        (row["code"], row["use"], row["note"] or "–", cite(row["source"]))
        for row in tables.rows("tires/tread_codes")
    ]
    return TableView("Tread codes", ("Code", "For", "Note", "Source"), tuple(rows))


def windows() -> TableView:
    """Return every window of front-drive lead."""
    rows = [
        (
            row["label"],
            f"{row['low_pct']} to {row['high_pct']} %",
            f"{row['target_low_pct']} to {row['target_high_pct']} %"
            if row["target_low_pct"]
            else "–",
            cite(row["source"]),
        )
        for row in tables.rows("tires/lead_windows")
    ]
    return TableView(
        "Windows of front-drive lead",
        ("Window", "Limits", "Aimed at", "Source"),
        tuple(rows),
        "The first is used unless you choose another. Your tractor's manual comes before all.",
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
                both(inch.overall_diameter, "length", 4),
                both(metric.overall_diameter, "length", 4),
                f"{change:+.1f} %".replace("-", "\u2212"),
                cite(row["source"]),
            )
        )
    return TableView(
        "Inch and metric sizes that charts call equal",
        ("Inch", "Metric", "Diameter, inch", "Diameter, metric", "Change", "Source of the pair"),
        tuple(rows),
    )


def fill() -> TableView:
    """Return the liquid that tires hold."""
    gallon = 0.003785411784
    rows = []
    for row in tables.rows("tires/tire_liquid_fill"):
        second = "–"
        if row["full_litres"]:
            second = both(float(row["full_litres"]) * 0.75 / 1000, "volume")
        rows.append((row["size"], both(float(row["fill_75_us_gal"]) * gallon, "volume"), second))
    return TableView(
        "Liquid in one tire, filled to the valve at the top (75 %)",
        ("Size", "Dealer's chart", "A service manual"),
        tuple(rows),
        "The chart doesn't state its fill level; it is read as 75 %. Where the two differ, the "
        "answer's range takes in both.",
    )


def liquids() -> TableView:
    """Return ballast liquids with density and freezing point."""
    rows = []
    for row in tables.rows("tires/ballast_liquids"):
        density = both(float(row["density_kg_l"]) * 1000, "density")
        slush = both(273.15 + float(row["slush_c"]), "temperature") if row["slush_c"] else "–"
        solid = both(273.15 + float(row["solid_c"]), "temperature") if row["solid_c"] else "–"
        label = row["label"][:1].upper() + row["label"][1:]
        cited = cite("; ".join(dict.fromkeys((row["source"], row["freeze_source"]))))
        rows.append((label, density, slush, solid, row["note"] or "–", cited))
    return TableView(
        "Liquids for ballast",
        ("Liquid", "Density", "Slush from", "Solid from", "Note", "Source"),
        tuple(rows),
        "Some press charts print calcium chloride at 11.3 lb/gal and −58 °F: both can't hold with "
        "the 5 lb recipe. Past about 30 % by mass a stronger brine freezes warmer.",
    )


def fill_rules() -> TableView:
    """Return the manuals' rules for liquid."""
    rows = [
        (row["rule"], row["limit"], cite(row["source"]))
        for row in tables.rows("tires/liquid_fill_rules")
    ]
    return TableView("Rules for liquid in tires", ("Rule", "Limit", "Source"), tuple(rows))


def additions() -> TableView:
    """Return what the work adds to a chart's pressure."""
    rows = [
        (row["label"], both(float(row["add_kpa"]) * 1000, "pressure"), cite(row["source"]))
        for row in tables.rows("tires/pressure_additions")
    ]
    return TableView(
        "Pressure to add to the load chart's",
        ("For", "Add", "Source"),
        tuple(rows),
        "Never above the maximum on the sidewall.",
    )


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
        (both(speed, "speed"), *[cells.get(kind, "–") for kind in kinds])
        for speed, cells in sorted(found.items())
    ]
    return TableView(
        "How load changes with speed",
        ("Speed", *kinds.values()),
        tuple(rows),
        f"The three can't be mixed, and no answer here counts on more load at low "
        f"speed.{cite('; '.join(cited))}",
    )


def spacing() -> TableView:
    """Return the published least spacing of duals."""
    rows = [
        (
            row["size"],
            both(float(row["section_width_mm"]) / 1000, "length"),
            both(float(row["spacing_mm"]) / 1000, "length"),
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


def bolt_torque() -> TableView:
    """Return clamp load and torque by thread and grade."""
    rows = []
    for row in tables.rows("tires/bolt_threads"):
        diameter, area = bolts.thread(row["key"])
        for grade in ("2", "5", "8") if row["series"] == "inch" else ("8.8", "10.9"):
            clamp = bolts.clamp_load(bolts.proof_stress(grade, diameter), area)
            dry, oiled = (
                bolts.tightening_torque(clamp, diameter, bolts.NUT_FACTOR[state])
                for state in ("dry", "lubricated")
            )
            rows.append(
                (
                    row["label"],
                    grade,
                    both(clamp, "force"),
                    both(dry, "torque"),
                    both(oiled, "torque"),
                )
            )
    return TableView(
        "Clamp load and torque at 75 % of proof load",
        ("Thread", "Grade or class", "Clamp load", "Torque, dry", "Torque, lubricated"),
        tuple(rows),
        f"T = K D F with K = 0.20 dry and 0.15 lubricated; finishes run from 0.12 to "
        f"0.30.{cite('tires/FS-1; tires/FS-4; tires/BOLT-1; tires/BOLT-2; tires/BOLT-3')}",
    )


def retorque() -> TableView:
    """Return when to tighten again."""
    rows = [
        (row["machine"], row["step"], cite(row["source"]))
        for row in tables.rows("tires/retorque_steps")
    ]
    return TableView("When to tighten again", ("Machine", "When", "Source"), tuple(rows))


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


def road_limits() -> TableView:
    """Return what a compact's manual allows on the road."""
    rows = [
        (row["size"], both(float(row["load_kg"]), "mass"), cite(row["source"]))
        for row in tables.rows("tires/tire_road_limits")
    ]
    return TableView(
        "What one compact's manual allows on one tire", ("Size", "Load", "Source"), tuple(rows)
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


def load_sheets() -> TableView:
    """Return the data sheets of load at pressure and speed."""
    rows = []
    for row in tables.rows("tires/tire_load_at_pressure"):
        speed = both(float(row["speed_km_h"]) / 3.6, "speed") if row["speed_km_h"] else "–"
        rows.append(
            (
                f"{row['size']} {row['ply_rating']}PR",
                speed,
                both(float(row["pressure_psi"]) * tire_load.PSI, "pressure"),
                both(float(row["load_lb"]) * tire_load.POUND, "mass", 4),
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
            both(float(row["pressure_kpa"]) * 1000, "pressure"),
            both(float(row["load_kg"]), "mass"),
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


def ground_rules() -> TableView:
    """Return what is known of ground pressure under tires."""
    rows = [
        (row["topic"], row["rule"], cite(row["source"]))
        for row in tables.rows("lawn/ground_pressure_rules")
    ]
    return TableView("Pressure on the ground", ("About", "Rule", "Source"), tuple(rows))


def rolling_index() -> TableView:
    """Return the groups of the rolling circumference index."""
    rows = []
    for group in range(36, 51):
        length = front_drive.index_circumference(group)
        diameter = length / (tire_rolling.rolling_factor("R-1")[0] * math.pi)
        rows.append((str(group), both(length, "length", 4), both(diameter, "length")))
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
    "load-index": load_index,
    "speed-symbols": speed_symbols,
    "tread-codes": treads,
    "lead-windows": windows,
    "inch-metric-pairs": pairs,
    "tire-liquid-fill": fill,
    "ballast-liquids": liquids,
    "liquid-fill-rules": fill_rules,
    "pressure-additions": additions,
    "tire-speed-factors": speed_factors,
    "dual-spacing": spacing,
    "bolt-torque": bolt_torque,
    "retorque-steps": retorque,
    "tire-rims": rims,
    "tire-road-limits": road_limits,
    "tire-pressures": pressures,
    "tire-load-sheets": load_sheets,
    "tire-load-rows": load_rows,
    "tread-depths": tread_depths,
    "tire-pairs": approved_pairs,
    "ground-pressure-rules": ground_rules,
    "rolling-index": rolling_index,
}
