"""The sums."""

from __future__ import annotations

from calc import arith, model
from calc.mechanics import bolts, duals, stability, tire_load, tires
from calc.subjects import carrying
from calc.subjects import tires as common
from calc.worksheets.duals.fields import NOT_READ, unlike

SAME_SIZE = 0.01
"""Largest difference in diameter for tires run as a pair [-], tires/practice."""


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
    # Two discs that meet dish out before the tires stand in one place: none is below nothing.
    apart = duals.spacing_with_adapter(v.adapter_length, inner, outer)
    return arith.number(arith.max(apart, 0.0))


def side_angles(v: model.Inputs, apart: float) -> tuple[float, float]:
    """Return the static side angle with singles and with duals, in degrees."""
    ahead = v.front_share * v.wheelbase
    found = [
        arith.degrees(
            stability.side_tip_angle_pivoting(
                track, v.cg_height, v.wheelbase, ahead, v.axle_pin_height
            )
        )
        for track in (v.track_width, v.track_width + 2 * apart)
    ]
    return found[0], found[1]


def compute(v: model.Inputs, at: model.At) -> None:
    """Name spacing, width, loads and bending; check them against the manual, tires and axle."""
    apart = spacing(v)
    at.spacing = apart
    if v.outer_wheel != "dual":
        at.on_ordinary = apart
    allowed = v.manual_allows == "yes"
    at.fits("manual", 1.0 if allowed else -1.0, "tires/OM-11", "yes" if allowed else "no")
    at.step(
        "spacing",
        "S = adapter + inner offset − outer offset",
        "tires/derived",
        **{"adapter": "adapter_length", "inner offset": "inner_offset"},
        **{"outer offset": (v.adapter_length + v.inner_offset - apart, "length")},
    )
    inner, outer = _sizes(v)
    if inner is None or outer is None:
        at.not_checked("spacing", "rear_tire")
    else:
        _apart(v, at, inner, outer)
        _pair(v, at, inner, outer)
    _tires(v, at)
    _axle(v, at)
    at.side_single, at.side_dual = side_angles(v, apart)
    at.side_gain = at.side_dual - at.side_single
    _bolts(v, at)


def _apart(v: model.Inputs, at: model.At, inner: tires.Dimensions, outer: tires.Dimensions) -> None:
    """How far apart the tires stand, and how wide that makes the tractor."""
    at.least, source = least_spacing(v)
    at.at_least("spacing", "spacing", "least", source)
    at.gap = duals.sidewall_gap(at.spacing, inner.section_width, outer.section_width)
    at.gap_loaded = duals.loaded_gap(at.spacing, inner.section_width, outer.section_width)
    at.width = duals.overall_width(v.track_width, at.spacing, outer.section_width)
    at.width_single = duals.overall_width(v.track_width, 0.0, inner.section_width)
    at.step(
        "width",
        "B = track + 2 S + section width",
        "tires/derived",
        **{"track": "track_width", "S": "spacing"},
        **{"section width": (outer.section_width, "length")},
    )
    if v.width_limit is not None:
        at.at_most("width", "width", "width_limit", "tires/derived")


def _pair(v: model.Inputs, at: model.At, inner: tires.Dimensions, outer: tires.Dimensions) -> None:
    """Tires run as a pair are of one diameter, tread and construction."""
    if v.outer_tire is None:
        return
    differs = abs(outer.overall_diameter / inner.overall_diameter - 1)
    alike = differs <= SAME_SIZE and outer.tread_class == inner.tread_class
    mixed = outer.designation.radial != inner.designation.radial
    says = "mixed" if mixed else "alike" if alike else "differ"
    source = "tires/OM-16" if mixed else "tires/practice"
    at.fits("pair", 1.0 if alike and not mixed else -1.0, source, says)


def _tires(v: model.Inputs, at: model.At) -> None:
    each = carrying.carried(v.rear_tire, v.rear_tire_load)
    if each.load is not None:
        at.four_tires = 4 * each.load * tire_load.dual_factor(2)
        single = (each.load, "mass")
        at.step("four_tires", "L = 4 × single × 0.88", "tires/dual-memory", single=single)
    if v.rear_axle_load is None:
        return
    if each.load is None or (each.too_fast and v.rear_axle_load <= at.four_tires):
        at.not_checked("tires", "rear_tire_load")
    else:
        at.at_most("tires", "rear_axle_load", "four_tires", "tires/dual-memory")


def _axle(v: model.Inputs, at: model.At) -> None:
    """Bending against singles: where they stand now, and at the widest track approved."""
    overhang, reach = arith.number(v.axle_overhang), at.spacing
    at.bending_shared = duals.moment_ratio_shared(overhang, reach)
    at.bending_outer = duals.moment_ratio_outer(overhang, reach)
    e = "axle_overhang"
    at.step("bending_shared", "k = 1 + S / (2 e)", "tires/derived", S=(reach, "length"), e=e)
    at.step("bending_outer", "k = 1 + S / e", "tires/derived", S=(reach, "length"), e=e)
    ratio = duals.bearing_load_ratio(overhang, overhang + reach / 2, v.bearing_spread)
    at.bearing_load = ratio
    at.bearing_life = duals.bearing_life_ratio(ratio)
    if v.rear_axle_load is None:
        at.not_checked("axle", "rear_axle_load")
        return
    if v.rear_axle_limit is None:
        at.not_checked("axle", "rear_axle_limit")
        return
    at.at_most("axle", "rear_axle_load", "rear_axle_limit", "tires/OM-10")
    if v.widest_track is None:
        at.not_checked("bending", "widest_track", governs=False)
        return
    out = arith.max(v.widest_track - v.track_width, 0.0) / 2
    at.equal_bending = duals.load_at_widest_track(v.rear_axle_limit, overhang, out, reach)
    at.step(
        "equal_bending",
        "L = axle limit × (e + w) / (e + S), at most the axle limit",
        "tires/derived",
        **{"axle limit": "rear_axle_limit", "e": e, "w": (out, "length"), "S": (reach, "length")},
    )
    at.at_most("bending", "rear_axle_load", "equal_bending", "tires/derived", grade=model.ADVICE)


def _bolts(v: model.Inputs, at: model.At) -> None:
    # Where one of the two isn't said the other is held against each that there is.
    if NOT_READ.value in (v.thread, v.grade) or unlike(v.thread, v.grade):
        return
    diameter, area = bolts.thread(v.thread)
    proof = bolts.proof_stress(v.grade, diameter)
    at.clamp = bolts.clamp_load(proof, area)
    factor = bolts.NUT_FACTOR[v.threads_are]
    at.torque = bolts.tightening_torque(at.clamp, diameter, factor)
    stress, across = (proof, "pressure"), (area, "area_small")
    at.step(
        "clamp",
        "F = 0.75 × proof stress × stress area",
        "tires/FS-1",
        **{"proof stress": stress, "stress area": across},
    )
    at.step(
        "torque", "T = K D F", "tires/FS-1", K=(factor, "count"), D=(diameter, "length"), F="clamp"
    )
