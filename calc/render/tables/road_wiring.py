"""Tables about lamps and their wiring."""

from collections.abc import Callable

from calc import tables
from calc.mechanics import electrical_load, wiring
from calc.render.tables import TableView, cite


def lamp_loads() -> TableView:
    """Return the current of lamps."""
    rows = []
    for row in tables.rows("road/lamp_loads"):
        amps = (
            float(row["amps"])
            if row["amps"]
            else electrical_load.lamp_current(
                float(row["watts"]), row["behavior"], float(row["volts"])
            )
        )
        rows.append(
            (
                row["name"],
                f"{row['watts']} W" if row["watts"] else "—",
                f"{amps:.2f} A",
                f"{row['volts']} V",
                row["behavior"],
                cite(row["source"]),
            )
        )
    return TableView(
        "Current of one lamp while lit",
        ("Lamp", "Power", "Current", "At", "Behaves as", "Source"),
        tuple(rows),
        "Filament lamps are rated at 12 V: their watts divided by the charging voltage would come "
        "out too low. Lamps that flash count half over time.",
    )


def wire_sizes() -> TableView:
    """Return wire sizes with area and resistance."""
    rows = [
        (
            row["gauge"],
            f"{int(row['awg_circular_mils']):,}",
            f"{int(row['sae_circular_mils']):,}",
            row["ohm_per_1000ft_20c"],
            row["ohm_per_1000ft_75c_stranded"] or "—",
            cite("; ".join(filter(None, (row["source"], row["source_sae"], row["source_75c"])))),
        )
        for row in tables.rows("road/wire_sizes")
    ]
    return TableView(
        "Wire: area and resistance",
        (
            "Gauge",
            "AWG, circular mils",
            "Automotive (SAE), circular mils",
            "Ohms for 1,000 ft, 20 °C",
            "Ohms for 1,000 ft, stranded, 75 °C",
            "Sources",
        ),
        tuple(rows),
        "Automotive wire of a number has less copper than AWG of that number.",
    )


def wire_fuses() -> TableView:
    """Return the largest fuse for each gauge of wire."""
    rows = []
    for row in tables.rows("road/wire_fuses"):
        gauge = int(row["gauge"])
        figures = (wiring.largest_fuse(gauge), wiring.largest_fuse(gauge, alone=True))
        carried = [row[f"amps_{degrees}c"] or "—" for degrees in (60, 80, 105)]
        rows.append((row["gauge"], *(f"{f:g} A" for f in figures), *carried, cite(row["source"])))
    return TableView(
        "Wire: the largest fuse",
        (
            "Gauge",
            "In a harness",
            "Three wires at most, AWG",
            "Carries at 60 °C, A",
            "At 80 °C, A",
            "At 105 °C, A",
            "Sources",
        ),
        tuple(rows),
        "What a wire carries is for one wire in free air at 30 °C, by what its insulation stands. "
        "In a bundle it is half of that. For 4 gauge no figure was read: the one of 6 gauge.",
    )


def connector_pins() -> TableView:
    """Return the two patterns of the seven-pin socket."""
    rows = [
        (row["pin"], row["north_america"], row["color"], row["iso_1724"], cite(row["source"]))
        for row in tables.rows("road/connector_pins")
    ]
    return TableView(
        "Pins of the seven-terminal socket",
        ("Pin", "North American tractor", "Color", "ISO 1724", "Source"),
        tuple(rows),
        "A truck's socket has the same shell with stop lamps on pin 4 (from memory, text not "
        "seen). Test every pin before you plug in.",
    )


TABLES: dict[str, Callable[[], TableView]] = {
    "lamp-loads": lamp_loads,
    "wire-sizes": wire_sizes,
    "wire-fuses": wire_fuses,
    "connector-pins": connector_pins,
}
