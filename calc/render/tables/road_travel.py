"""Tables about travel on the road: sight distances, gaps, crashes, towing and braking."""

from collections.abc import Callable

from calc import si, tables
from calc.mechanics import braking, sight
from calc.render.tables import TableView, cite


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
        speeds = car * si.MPH, own * si.MPH
        times = [
            f"{sight.closing_time(feet * si.FOOT, *speeds):.1f} s"
            for feet in (300, 500, 600, 1000, 1320)
        ]
        gap = sight.slow_down_gap(*speeds) / si.FOOT
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
    "closing-times": closing_times,
    "stopping-sight": stopping_sight,
    "passing-sight": passing_sight,
    "gap-times": gap_times,
    "road-crash-facts": crash_facts,
    "towed-mass-rules": towed_mass,
    "brake-minimums": brake_minimums,
}
