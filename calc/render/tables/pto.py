"""Tables about the power take-off and about what implements take."""

from collections.abc import Callable

from calc import quantities, si, tables
from calc.mechanics import implement_power, pto_power
from calc.render.tables import TableView, cite


def pto_types() -> TableView:
    """Return the shaft types."""
    lines = []
    for row in tables.rows("power/pto_types"):
        low, high = row["power_low_speed_kw"], float(row["power_kw"]) * 1000
        guide = f"{quantities.show(high, 'power')} ({quantities.show(high, 'power', 'metric')})"
        if low:
            slow = float(low) * 1000
            guide = (
                f"{quantities.show(slow, 'power')} at 540, {quantities.show(high, 'power')} at 1000"
            )
        drawbar = row["drawbar_mm"]
        back = float(drawbar) / 1000 if drawbar else 0.0
        speeds = f"{row['rpm']}, also {row['other_rpm']}" if row["other_rpm"] else row["rpm"]
        found = [row["source"], row["power_source"], row["drawbar_source"]]
        lines.append(
            (
                row["type"],
                f"{row['diameter_in']} in ({row['diameter_mm']} mm)",
                f"{row['splines']} {row['spline_form']}",
                f"{speeds} rpm",
                guide,
                f"{quantities.show(back, 'length')} ({quantities.show(back, 'length', 'metric')})"
                if drawbar
                else "–",
                cite("; ".join(dict.fromkeys(item for item in found if item))),
            )
        )
    return TableView(
        "PTO shafts",
        (
            "Type",
            "Diameter",
            "Splines",
            "Speed",
            "Meant for up to",
            "Drawbar hole behind its end",
            "Source",
        ),
        tuple(lines),
        "The shaft turns clockwise seen from behind. The power figures are from memory.",
    )


def engine_to_pto() -> TableView:
    """Return the shares of an engine rating that reach the shaft."""
    lines = []
    for row in tables.rows("power/engine_to_pto"):
        low, usual, high = pto_power.pto_ratio(row["key"])
        share = quantities.number(usual * 100, 3)
        band = "" if low == high else f", {low * 100:.0f} to {high * 100:.0f}"
        mark = " (used unless you choose)" if row["key"] == pto_power.DEFAULT_RATIO else ""
        lines.append(
            (row["label"] + mark, f"{share}{band} %", row["note"] or "–", cite(row["source"]))
        )
    return TableView(
        "Share of the engine power that reaches the PTO",
        ("Starting from", "Share", "Note", "Source"),
        tuple(lines),
        "Net and gross power are two ratings of one engine; most of the disagreement is that.",
    )


def altitude_rules() -> TableView:
    """Return the altitude rules, with what each leaves at two heights."""
    lines = []
    for row in tables.rows("power/altitude_rules"):
        if row["key"] == "none":
            continue
        left = [
            f"{pto_power.altitude_factor(feet * si.FOOT, row['key']) * 100:.1f} %"
            for feet in (1500, 5000, 8000)
        ]
        mark = " (used unless you choose)" if row["key"] == pto_power.DEFAULT_ALTITUDE_RULE else ""
        lines.append((row["label"] + mark, *left, row["note"] or "–", cite(row["source"])))
    return TableView(
        "What is left at altitude",
        ("Rule", "At 1,500 ft", "At 5,000 ft", "At 8,000 ft", "Note", "Source"),
        tuple(lines),
    )


def temperature_rules() -> TableView:
    """Return the heat rules."""
    return TableView(
        "What heat takes",
        ("Rule", "Note", "Source"),
        tuple(
            (row["label"], row["note"] or "–", cite(row["source"]))
            for row in tables.rows("power/temperature_rules")
            if row["key"] != "none"
        ),
    )


def rotary_power() -> TableView:
    """Return the ASAE D497 rows."""
    lines = []
    for row in tables.rows("power/rotary_power"):
        per_foot = float(row["b_kw_per_m"]) * 1000 * si.FOOT / si.HP
        spread = row["plus_minus_percent"]
        lines.append(
            (
                row["label"],
                f"{float(row['a_kw']):g}",
                f"{float(row['b_kw_per_m']):g}",
                f"{float(row['c_kwh_per_t']):g}",
                f"{per_foot:.2f}" if per_foot else "–",
                f"± {spread} %" if spread else "–",
                cite("; ".join(item for item in (row["source"], row["also"]) if item)),
                row["note"] or "–",
            )
        )
    return TableView(
        "Power at the shaft, ASAE D497: P = a + b w + c F",
        ("Implement", "a, kW", "b, kW/m", "c, kWh/t", "b, hp/ft", "Spread", "Source", "Note"),
        tuple(lines),
        "w is the width that works, in meters; F is the crop passing through, in t/h. Driving and "
        "the climb come on top.",
    )


def power_density() -> TableView:
    """Return what the trade and measurements give outside ASAE D497."""
    units = {
        "ft": "hp/ft",
        "m": "kW/m",
        "in": "hp/in",
        "total": "hp in all",
        "kW": "engine hp/kW",
    }
    lines = []
    for row in tables.rows("power/power_density"):
        unit = "hp/m" if row["per"] == "m" and row["unit"] == "hp" else units[row["per"]]
        cells = [
            quantities.number(float(row[load]), 3) if row[load] else "–"
            for load in implement_power.LOADS
        ]
        found = [row["light_source"], row["source"], row["heavy_source"]]
        lines.append(
            (
                row["label"],
                *cells,
                unit,
                row["basis"],
                cite("; ".join(dict.fromkeys(item for item in found if item))),
                row["note"] or "–",
            )
        )
    return TableView(
        "Power outside ASAE D497",
        ("Implement", "Light", "Typical", "Heavy", "Unit", "Basis", "Source", "Note"),
        tuple(lines),
        "Practice means the tractor's PTO power that the trade thinks right; measured means power "
        "at the shaft.",
    )


def draft() -> TableView:
    """Return the draft rows of ASAE D497."""
    return TableView(
        "Draft, ASAE D497: D = F (A + B S + C S²) W T",
        ("Implement", "W in", "A", "B", "C", "F fine", "F medium", "F coarse", "Spread", "Source"),
        tuple(
            (
                row["label"],
                row["width_unit"],
                row["a"],
                row["b"],
                row["c"],
                row["f_fine"],
                row["f_medium"],
                row["f_coarse"],
                f"± {row['plus_minus_percent']} %",
                cite(row["source"]),
            )
            for row in tables.rows("power/draft")
        ),
        "D in newtons, S in km/h, T in cm; T is left out for harrows, planters and drills.",
    )


TABLES: dict[str, Callable[[], TableView]] = {
    "pto-types": pto_types,
    "engine-to-pto": engine_to_pto,
    "altitude-rules": altitude_rules,
    "temperature-rules": temperature_rules,
    "rotary-power": rotary_power,
    "power-density": power_density,
    "draft": draft,
}
