"""Tables about road travel: rules, emblem, sight distances, wiring and towing."""

from collections.abc import Callable

from calc import quantities, tables
from calc.mechanics import braking, electrical_load, road_rules, sight, wiring
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


def closing_times() -> TableView:
    """Return closing times for common pairs of speeds."""
    rows = []
    for car, own in (
        (45, 10),
        (45, 15),
        (45, 25),
        (55, 10),
        (55, 15),
        (55, 20),
        (55, 25),
        (65, 15),
        (65, 25),
    ):
        speeds = car * sight.MPH, own * sight.MPH
        times = [
            f"{sight.closing_time(feet * sight.FOOT, *speeds):.1f} s"
            for feet in (300, 500, 600, 1000, 1320)
        ]
        gap = sight.slow_down_gap(*speeds) / sight.FOOT
        rows.append((f"{car} mph", f"{own} mph", *times, f"{gap:.0f} ft"))
    return TableView(
        "Seconds until a car reaches you, by how far off it sees you",
        (
            "Car",
            "You",
            "300 ft",
            "500 ft",
            "600 ft",
            "1,000 ft",
            "a quarter mile",
            "Needed to slow",
        ),
        tuple(rows),
        "Worked out here. The last column takes 2.5 s of reaction and braking of 11.2 ft/s², and "
        "leaves no room between the bumpers.",
    )


def stopping_sight() -> TableView:
    """Return stopping sight distances as published, with the formula's own value."""
    rows = []
    for row in tables.rows("road/road_stopping_sight"):
        speed = float(row["speed"])
        us = row["system"] == "US"
        found = (
            sight.printed_stopping_us_ft(speed) if us else sight.printed_stopping_metric_m(speed)
        )
        rows.append(
            (
                f"{row['speed']} {row['unit']}",
                f"{found:.1f} {row['design_unit']}",
                f"{row['design']} {row['design_unit']}",
                cite(row["source"]),
            )
        )
    return TableView(
        "Stopping sight distance on the level",
        ("Speed", "Formula", "Design value", "Source of the design value"),
        tuple(rows),
        "The design value is rounded up to five. Constants as printed: 1.47 and 1.075, or 0.278 "
        "and 0.039.",
    )


def passing_sight() -> TableView:
    """Return passing sight distances, newer and older."""
    rows = [
        (
            f"{row['speed_mph']} mph",
            f"{int(row['since_2011_ft']):,} ft",
            f"{int(row['to_2004_ft']):,} ft" if row["to_2004_ft"] else "—",
            cite(row["source"]),
        )
        for row in tables.rows("road/road_passing_sight")
    ]
    return TableView(
        "Passing sight distance on a two-lane road",
        ("Speed", "Books since 2011", "Books to 2004", "Source"),
        tuple(rows),
        "Older tables are about double and still go round. Neither is about passing a tractor.",
    )


def gap_times() -> TableView:
    """Return the gaps that design guides use."""
    rows = [
        (
            row["vehicle"],
            f"{row['left']} s",
            f"{row['right_or_cross']} s",
            f"{row['extra_lane']} s",
            cite(row["source"]),
        )
        for row in tables.rows("road/road_gap_times")
    ]
    return TableView(
        "Gaps for vehicles that speed up to the traffic",
        ("Vehicle", "Left from a stop", "Right, or across", "Each lane more", "Source"),
        tuple(rows),
        "Not for tractors: they don't reach the speed of the traffic.",
    )


def crash_facts() -> TableView:
    """Return what studies of crashes found."""
    return TableView(
        "What studies found",
        ("Finding", "Where and when", "Source"),
        tuple(
            (r["fact"], r["where"], cite(r["source"])) for r in tables.rows("road/road_crash_facts")
        ),
        "Shares depend on the place and on how crashes are coded.",
    )


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


def towed_mass() -> TableView:
    """Return the printed rules for towed mass."""
    rows = [
        (
            row["text"],
            f"{row['mass_kg']} kg" if row["mass_kg"] else f"{row['ratio']} × the tractor",
            cite(row["source"]),
        )
        for row in tables.rows("road/towed_mass_rules")
    ]
    return TableView("What may be towed", ("Rule", "Limit", "Source"), tuple(rows))


def brake_minimums() -> TableView:
    """Return the least braking of a tractor at type approval."""
    rows = []
    for row in tables.rows("road/brake_minimums"):
        top = float(row["top_speed_to_kmh"] or 40)
        stop = braking.approval_stopping_distance(top / 3.6, top / 3.6)
        rows.append(
            (
                row["class"],
                f"0.15 v + v²/{row['divisor_kmh2_per_m']}",
                f"{row['deceleration']} m/s²",
                f"{stop:.1f} m from {top:.0f} km/h",
                cite(row["source"]),
            )
        )
    return TableView(
        "Least braking of a tractor at European type approval",
        ("Top speed", "Stop in meters, v in km/h", "Average deceleration", "Example", "Source"),
        tuple(rows),
        "The 0.15 v is delay of the brakes; the driver's reaction comes on top.",
    )


TABLES: dict[str, Callable[[], TableView]] = {
    "state-road-rules": state_rules,
    "emblem-rules": emblem_rules,
    "emblem-sizes": emblem_sizes,
    "road-standard": standard_items,
    "lamp-hours": lamp_hours,
    "road-widths": widths,
    "closing-times": closing_times,
    "stopping-sight": stopping_sight,
    "passing-sight": passing_sight,
    "gap-times": gap_times,
    "road-crash-facts": crash_facts,
    "lamp-loads": lamp_loads,
    "wire-sizes": wire_sizes,
    "wire-fuses": wire_fuses,
    "connector-pins": connector_pins,
    "towed-mass-rules": towed_mass,
    "brake-minimums": brake_minimums,
}
