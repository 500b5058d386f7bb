"""The sums."""

from __future__ import annotations

from calc import arith, model
from calc.mechanics import bolts, duals, stability, tire_load, tires
from calc.subjects import tires as common

SAME_SIZE = 0.01
"""Largest difference in diameter for tires run as a pair [-], tires/practice."""
GRAVITY = 9.80665


# --- arithmetic ------------------------------------------------------------------------------


def _sizes(v: model.Inputs) -> tuple[tires.Dimensions | None, tires.Dimensions | None]:
    inner = common.dimensions(v.rear_tire)
    outer = inner if v.outer_tire is None else common.dimensions(v.outer_tire)
    return inner, outer


def least_spacing(v: model.Inputs) -> tuple[float, str]:
    """Return the least spacing of the two tires [m] and its source."""
    inner, outer = _sizes(v)
    if inner is None or outer is None:
        return duals.least_spacing(0.378), "tires/OM-16"
    wider = max((inner, outer), key=lambda tire: tire.section_width)
    published = duals.published_spacing(wider.designation.width_text)
    if published is not None and wider.designation.form in ("decimal", "metric"):
        return published, "tires/OM-16"
    return duals.least_spacing(wider.section_width), "tires/derived"


def spacing(v: model.Inputs) -> float:
    """Return the distance between the middles of the inner and the outer tire [m]."""
    inner: float = v.inner_offset
    if v.outer_wheel == "reversed":
        outer = -inner
    elif v.outer_wheel == "same":
        outer = inner
    elif v.outer_offset is not None:
        outer = v.outer_offset
    else:
        outer = duals.outer_offset_for(least_spacing(v)[0], v.adapter_length, inner)
    return duals.spacing_with_adapter(v.adapter_length, inner, outer)


def side_angles(v: model.Inputs, apart: float) -> tuple[float, float]:
    """Return the static side angle with singles and with duals, in degrees."""
    ahead = v.front_share * v.wheelbase
    found = [
        arith.degrees(
            stability.side_tip_angle_pivoting(
                track, v.cg_height, v.wheelbase, ahead, v.axle_pin_height
            )
        )
        for track in (v.track_width, v.track_width + 2 * arith.max(apart, 0.0))
    ]
    return found[0], found[1]


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Return the checks and outputs at one set of values."""
    checks: list[model.Check] = []
    outputs: list[model.Output] = []
    apart = spacing(v)
    allowed = v.manual_allows == "yes"
    checks.append(
        model.fits(
            "manual",
            "What the manual says",
            1.0 if allowed else -1.0,
            "The manual allows duals."
            if allowed
            else "The manual doesn't allow duals: its maker hasn't proved the axle for them.",
            "tires/OM-11",
            why="" if allowed else "The axle, its bearings and its housing may break.",
        )
    )
    _tire_checks(v, apart, checks, outputs, work)
    _axle(v, apart, checks, outputs, work)
    single, dual = side_angles(v, apart)
    said = "limit at rest on smooth, hard ground; never a slope to work on"
    outputs.append(model.Output("side_single", "Static side angle, singles", single, "angle", said))
    outputs.append(model.Output("side_dual", "Static side angle, duals", dual, "angle", said))
    outputs.append(model.Output("side_gain", "Static side angle gained", dual - single, "angle"))
    _bolts(v, outputs, work)
    return model.Outcome(checks, outputs)


def _tire_checks(
    v: model.Inputs,
    apart: float,
    checks: list[model.Check],
    outputs: list[model.Output],
    work: model.Work,
) -> None:
    inner, outer = _sizes(v)
    outputs.append(
        model.Output("spacing", "Middle to middle, inner and outer tire", apart, "length")
    )
    work.step(
        "Spacing",
        "S",
        "adapter + inner offset − outer offset",
        (
            ("adapter", v.adapter_length, "length"),
            ("inner offset", v.inner_offset, "length"),
            ("outer offset", v.adapter_length + v.inner_offset - apart, "length"),
        ),
        apart,
        "length",
        "tires/derived",
    )
    if inner is None or outer is None:
        return
    least, source = least_spacing(v)
    checks.append(
        model.at_least(
            "spacing",
            "Spacing of the two tires",
            apart,
            least,
            "length",
            source,
            why="Closer, the loaded sidewalls rub and mud packs between them.",
        )
    )
    gap = duals.sidewall_gap(apart, inner.section_width, outer.section_width)
    loaded = duals.loaded_gap(apart, inner.section_width, outer.section_width)
    outputs.append(model.Output("gap", "Gap between the sidewalls, no load", gap, "length"))
    outputs.append(
        model.Output("gap_loaded", "Gap left when both bulge under load", loaded, "length")
    )
    width = duals.overall_width(v.track_width, apart, outer.section_width)
    single = duals.overall_width(v.track_width, 0.0, inner.section_width)
    outputs.append(model.Output("width", "Overall width with duals", width, "length"))
    outputs.append(
        model.Output("width_single", "Overall width, outer wheels off", single, "length")
    )
    work.step(
        "Overall width",
        "B",
        "track + 2 S + section width",
        (
            ("track", v.track_width, "length"),
            ("S", apart, "length"),
            ("section width", outer.section_width, "length"),
        ),
        width,
        "length",
        "tires/derived",
    )
    if v.width_limit is not None:
        checks.append(
            model.at_most(
                "width",
                "Overall width with duals",
                width,
                v.width_limit,
                "length",
                "tires/derived",
                why="It won't pass, or needs a permit on the road.",
            )
        )
    differs = abs(outer.overall_diameter / inner.overall_diameter - 1)
    alike = differs <= SAME_SIZE and outer.tread_class == inner.tread_class
    if v.outer_tire is not None:
        checks.append(
            model.fits(
                "pair",
                "The two tires as a pair",
                1.0 if alike else -1.0,
                "Both tires are of one diameter and kind of tread."
                if alike
                else "The tires differ in diameter or kind of tread: the taller one takes "
                "the load.",
                "tires/practice",
            )
        )
    rated = common.rating(inner)
    each = v.rear_tire_load if v.rear_tire_load is not None else rated.load if rated else None
    if each is not None:
        four = 4 * each * tire_load.dual_factor(2)
        outputs.append(model.Output("four_tires", "Four tires as duals may carry", four, "mass"))
        checks.append(
            model.at_most(
                "tires",
                "Load on the four rear tires",
                v.rear_axle_load,
                four,
                "mass",
                "tires/dual-memory",
                why="Overloaded tires run hot and fail.",
            )
        )
        work.step(
            "What four tires may carry",
            "L",
            "4 × single × 0.88",
            (("single", each, "mass"),),
            four,
            "mass",
            "tires/dual-memory",
        )


def _axle(
    v: model.Inputs,
    apart: float,
    checks: list[model.Check],
    outputs: list[model.Output],
    work: model.Work,
) -> None:
    overhang, reach = arith.number(v.axle_overhang), arith.max(apart, 0.0)
    shared = duals.moment_ratio_shared(overhang, reach)
    outer = duals.moment_ratio_outer(overhang, reach)
    one_side = v.rear_axle_load * GRAVITY / 2
    outputs += [
        model.Output(
            "bending_shared", "Axle bending against singles, load shared", shared, "count"
        ),
        model.Output("bending_outer", "Axle bending, outer tire carrying all", outer, "count"),
    ]
    work.step(
        "Bending at the outer bearing, singles",
        "M",
        "W e",
        (("W", one_side, "force"), ("e", overhang, "length")),
        duals.axle_moment(one_side, overhang),
        "torque",
        "tires/derived",
    )
    work.step(
        "Times as much with the load shared",
        "k",
        "1 + S / (2 e)",
        (("S", reach, "length"), ("e", overhang, "length")),
        shared,
        "count",
        "tires/derived",
    )
    work.step(
        "Times as much with the outer tire alone",
        "k",
        "1 + S / e",
        (("S", reach, "length"), ("e", overhang, "length")),
        outer,
        "count",
        "tires/derived",
    )
    bearing = duals.bearing_load_ratio(overhang, overhang + reach / 2, v.bearing_spread)
    outputs.append(
        model.Output(
            "bearing_load", "Outer bearing's load against singles, shared", bearing, "count"
        )
    )
    outputs.append(
        model.Output(
            "bearing_life",
            "Outer bearing's life against singles",
            duals.bearing_life_ratio(bearing),
            "fraction",
            "at the same load, roller bearing",
        )
    )
    if v.rear_axle_limit is None:
        return
    checks.append(
        model.at_most(
            "axle",
            "Load on the rear axle",
            v.rear_axle_load,
            v.rear_axle_limit,
            "mass",
            "tires/OM-10",
            why="Duals carry more; the axle doesn't.",
        )
    )
    may = duals.load_for_equal_bending(v.rear_axle_limit, overhang, reach)
    outputs.append(
        model.Output("equal_bending", "Axle load that bends it no more than its limit", may, "mass")
    )
    checks.append(
        model.at_most(
            "bending",
            "Axle bending when the outer tire carries all",
            v.rear_axle_load,
            may,
            "mass",
            "tires/derived",
            why="On a crown, a curb or a furrow's edge the outer tire carries that side alone, and "
            "the axle bends more than its limit on singles ever does.",
        )
    )


def _bolts(v: model.Inputs, outputs: list[model.Output], work: model.Work) -> None:
    diameter, area = bolts.thread(v.thread)
    proof = bolts.proof_stress(v.grade, diameter)
    clamp = bolts.clamp_load(proof, area)
    factor = bolts.NUT_FACTOR[v.threads_are]
    torque = bolts.tightening_torque(clamp, diameter, factor)
    outputs.append(model.Output("clamp", "Clamp load of one bolt", clamp, "force"))
    outputs.append(
        model.Output(
            "torque",
            "Torque, if the manual gives none",
            torque,
            "torque",
            "the tractor or adapter maker's figure comes first",
        )
    )
    work.step(
        "Clamp load",
        "F",
        "0.75 × proof stress × stress area",
        (("proof stress", proof, "pressure"), ("stress area", area, "area_small")),
        clamp,
        "force",
        "tires/FS-1",
    )
    work.step(
        "Torque",
        "T",
        "K D F",
        (("K", factor, "count"), ("D", diameter, "length"), ("F", clamp, "force")),
        torque,
        "torque",
        "tires/FS-1",
    )
