"""What to do about it."""

from __future__ import annotations

from calc import model, tables
from calc.mechanics import duals, tire_load
from calc.search import Solver
from calc.worksheets.duals.compute import least_spacing

# --- advice ----------------------------------------------------------------------------------


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Return remedies, the ways to reach the spacing, the tightening list, and cautions."""
    remedies = _remedies(v, outcome, solve)
    shown = [_ways(v), _retorque()]
    notes: list[model.Words] = [_rims_note(v, outcome)]
    return model.Advice(remedies, _cautions(), shown, [note for note in notes if note])


def _remedies(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> list[model.Remedy]:
    remedies: list[model.Remedy] = []
    manual, close = outcome.check("manual"), outcome.check("spacing")
    if manual is not None and manual.margin < 0:
        remedies.append(
            model.Remedy(
                "Ask first: get the manual's page, or its maker's word in writing, that this axle "
                "may carry duals. Without it use one wider tire, or a wider track on singles.",
                source="tires/OM-9",
            )
        )
    if close is not None and close.margin < 0:
        length = solve.smallest("adapter_length", 0.0, 1.0, ["spacing"])
        if length is not None and v.outer_wheel != "dual":
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "With these wheels the adapter must be {l} long.", l=(length, "length")
                    ),
                    set={"adapter_length": f"{length + 1e-4:.4f} m"},
                    source="tires/OM-16",
                )
            )
        offset = duals.outer_offset_for(close.limit, v.adapter_length, v.inner_offset)
        remedies.append(
            model.Remedy(
                model.phrase(
                    "Or wheels made for duals, disc {d} inboard of the tire's middle, on this "
                    "adapter.",
                    d=(-offset, "length"),
                )
                if offset < 0
                else "Or wheels made for duals on this adapter.",
                set={"outer_wheel": "dual", "outer_offset": f"{offset - 1e-4:.4f} m"},
                source="tires/derived",
            )
        )
    bending = outcome.check("bending")
    if bending is not None and bending.margin < 0:
        load = solve.largest("rear_axle_load", 91, 9000, ["bending", "axle"])
        if load is not None:
            remedies.append(
                model.Remedy(
                    model.phrase("Keep the rear axle to {m} with the duals on.", m=(load, "mass")),
                    set={"rear_axle_load": f"{load - 0.5:.1f} kg"},
                    source="tires/derived",
                )
            )
    wide = outcome.check("width")
    if wide is not None and wide.margin < 0:
        single = outcome.output("width_single")
        remedies.append(
            model.Remedy(
                model.phrase(
                    "Take the outer wheels off to travel: {w} wide without them.",
                    w=(single, "length"),
                ),
            )
        )
        track = solve.largest("track_width", 0.77, 2.5, ["width"])
        if track is not None:
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "Or set the inner track to {t}, if the wheels and fenders allow it.",
                        t=(track, "length"),
                    ),
                    set={"track_width": f"{track - 1e-4:.4f} m"},
                )
            )
    loaded = outcome.check("tires")
    if loaded is not None and loaded.margin < 0:
        each = v.rear_axle_load / (4 * tire_load.dual_factor(2))
        remedies.append(
            model.Remedy(
                model.phrase("Fit tires that may carry {m} each as singles.", m=(each, "mass")),
                set={"rear_tire_load": f"{each + 0.5:.1f} kg"},
                source="tires/dual-memory",
            )
        )
    return remedies


def _ways(v: model.Inputs) -> model.Table:
    least, source = least_spacing(v)
    inner: float = v.inner_offset
    straight = duals.outer_offset_for(least, 0.0, inner)
    rows: tuple[tuple[model.Cell, ...], ...] = (
        (
            "Same wheel turned round",
            (max(least - 2 * inner, 0.0), "length"),
            model.phrase("{o} inboard", o=(inner, "length")),
        ),
        (
            "Same wheel, same way round",
            (least, "length"),
            model.phrase("{o} outboard", o=(inner, "length")),
        ),
        (
            "Wheel made for duals, on your adapter",
            (v.adapter_length, "length"),
            model.phrase(
                "{o} inboard", o=(-duals.outer_offset_for(least, v.adapter_length, inner), "length")
            ),
        ),
        (
            "Wheel made for duals, disc on disc",
            "none",
            model.phrase("{o} inboard", o=(-straight, "length")),
        ),
    )
    return model.Table(
        "Wheels and adapters that just reach the least spacing",
        ("Outer wheel", "Adapter", "Disc, from the outer tire's middle"),
        rows,
        source,
        "A figure below zero means the other side of the middle. Bolt circle, center bore and "
        "stud length must match as well.",
    )


def _rims_note(v: model.Inputs, outcome: model.Outcome) -> model.Words:
    check = outcome.check("spacing")
    if check is None:
        return ""
    if v.outer_wheel == "dual":
        return (
            "Wheels made for duals have a deep dish, so that a short adapter, or none, brings the "
            "tires far enough apart: the load stays nearer to the hub."
        )
    if check.margin >= 0:
        return "No special rims are needed for clearance: this adapter holds the tires apart."
    return (
        "With this adapter ordinary rims bring the tires too close: either a longer adapter, or "
        "rims made for duals, whose dish is deeper."
    )


def _retorque() -> model.Table:
    rows = tuple((row["machine"], row["step"]) for row in tables.rows("tires/retorque_steps"))
    return model.Table(
        "Tighten again",
        ("Machine", "When"),
        rows,
        "tires/OM-17",
        "Star pattern, clean faces, in stages. Use the manual's list where it has one.",
        checklist=True,
    )


def _cautions() -> list[model.Caution]:
    return [
        model.Caution(
            "Several manuals of compact and utility tractors say that duals are not approved. "
            "Then the answer is no, whatever the numbers here say.",
            "tires/OM-11",
        ),
        model.Caution(
            "A wheel that comes loose kills. Tighten again by the list, and look for shiny rings "
            "around the nuts every day.",
            "tires/OM-17",
        ),
        model.Caution(
            "The static side angle is where a machine at rest tips over; bumps, turns and a "
            "loader bring that far lower. It is never a safe slope, and the roll-over structure "
            "and belt stay in use.",
            "tires/S12",
        ),
        model.Caution(
            "Run all four rear tires at the same pressure and wear; hands stay out from between "
            "the wheels."
        ),
    ]
