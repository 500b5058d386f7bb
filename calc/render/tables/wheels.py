"""Tables about front-drive lead, liquid in tires, wheel bolts and the ground under them."""

from collections.abc import Callable

from calc import quantities, si, tables
from calc.mechanics import bolts
from calc.render.tables import TableView, cite


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


def fill() -> TableView:
    """Return the liquid that tires hold."""
    gallon = si.GALLON
    rows = []
    for row in tables.rows("tires/tire_liquid_fill"):
        second = "–"
        if row["full_litres"]:
            second = quantities.show_both(float(row["full_litres"]) * 0.75 / 1000, "volume")
        rows.append(
            (
                row["size"],
                quantities.show_both(float(row["fill_75_us_gal"]) * gallon, "volume"),
                second,
            )
        )
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
        density = quantities.show_both(float(row["density_kg_l"]) * 1000, "density")
        slush = (
            quantities.show_both(273.15 + float(row["slush_c"]), "temperature")
            if row["slush_c"]
            else "–"
        )
        solid = (
            quantities.show_both(273.15 + float(row["solid_c"]), "temperature")
            if row["solid_c"]
            else "–"
        )
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
                    quantities.show_both(clamp, "force"),
                    quantities.show_both(dry, "torque"),
                    quantities.show_both(oiled, "torque"),
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


def ground_rules() -> TableView:
    """Return what is known of ground pressure under tires."""
    rows = [
        (row["topic"], row["rule"], cite(row["source"]))
        for row in tables.rows("lawn/ground_pressure_rules")
    ]
    return TableView("Pressure on the ground", ("About", "Rule", "Source"), tuple(rows))


TABLES: dict[str, Callable[[], TableView]] = {
    "lead-windows": windows,
    "tire-liquid-fill": fill,
    "ballast-liquids": liquids,
    "liquid-fill-rules": fill_rules,
    "bolt-torque": bolt_torque,
    "retorque-steps": retorque,
    "ground-pressure-rules": ground_rules,
}
