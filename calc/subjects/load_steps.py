"""The working of the loads on both axles, with the formulae as their sources write them."""

from __future__ import annotations

from calc import model
from calc.subjects import hung
from calc.subjects.plates import SEEN_LOADS
from calc.subjects.standing import Stand


def write(v: model.Inputs, at: model.At, found: Stand, rule: dict[str, str]) -> None:
    """Write down how each load on the axles, and each angle, is worked out."""
    if hung.hangs(v) == "hitch":
        rated = (hung.rated_at_of(v), "length")
        if at.pivot < hung.PARALLEL:
            at.step("pivot", "r = s / (C₀ / C₁ − 1)", hung.SEEN_LIFT, s=(0.61, "length"))
        at.step(
            "capacity",
            "C = C_r (r + d_r) / (r + d), at most C_r",
            hung.SEEN_LIFT,
            C_r="lift_capacity",
            d_r=rated,
            r="pivot",
            d=(hung.hung_at(v), "length"),
        )
    at.step(
        "own_front",
        "T_F = front of the tractor + Σ m x / b",
        "hitch/DERIVED",
        T="tractor_mass",
        b="wheelbase",
        **{f"m{i}": (part.mass, "mass") for i, part in enumerate(found.parts, 1)},
        **{f"x{i}": (part.ahead, "length") for i, part in enumerate(found.parts, 1)},
    )
    at.step(
        "front",
        "F = [T_F b + I_F (a + b) − I_R (c + d)] / b",
        "hitch/H4; hitch/H5; hitch/H6",
        T_F="own_front",
        b="wheelbase",
        I_F="weights",
        a="front_ballast_distance",
        I_R="rear_mass",
        **{"c + d": "overhang"},
    )
    at.step(
        "rear",
        "R = T + I_F + I_R − F",
        SEEN_LOADS,
        T="own",
        I_F="weights",
        I_R="rear_mass",
        F="front",
    )
    at.step("wanted", f"F_min = {rule['label']}", rule["source"], T="own", T_F="own_front")
    if found.payload is not None:
        at.step(
            "loader_rear",
            "R_N = R − N B / b",
            "hitch/H7; hitch/DERIVED",
            R="rear",
            N=(found.payload, "mass"),
            B="loader_reach",
            b="wheelbase",
        )
    if "counterweight" in at:
        at.step(
            "counterweight",
            "M = [5 N B + b (P + N − 5 G)] / [5 (c + b) − b], at least 0.89 N",
            "hitch/H7; hitch/M4L",
            N=(found.payload, "mass"),
            B="loader_reach",
            b="wheelbase",
            P="standing",
            G="down_rear",
            c="hitch_distance",
        )
    at.step(
        "side",
        "θ = atan[(t/2)(b − x) / (b h − x p)]",
        "hitch/DERIVED; hitch/X15",
        t="track_width",
        b="wheelbase",
        x=(found.base * found.own_front / found.own, "length"),
        h="cg_height",
        p="axle_pin_height",
    )
    at.step(
        "back",
        "φ = atan(x / h)",
        "hitch/X5",
        x=(found.base * found.own_front / found.own, "length"),
        h="cg_height",
    )
