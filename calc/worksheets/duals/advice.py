"""What to do about it."""

from __future__ import annotations

from calc import model, si, tables
from calc.mechanics import duals
from calc.search import Remedies
from calc.worksheets.duals.compute import least_spacing

# What wheels turned round and set otherwise usually take off a track; common practice, no source.
NARROWEST_TRACK = 0.8

# --- advice ----------------------------------------------------------------------------------


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Return remedies, the ways to reach the spacing, the tightening list, and cautions."""
    remedies.do("ask", ("manual",), source="tires/OM-9")
    if v.manual_allows != "no":  # else nothing is bought before the maker's word is there
        _farther(v, found, remedies)
        remedies.more("rear_tire_load", mends=("tires",), source="tires/dual-memory")
        remedies.choose("outer_tire", None, mends=("pair",), source="tires/practice")
    remedies.less("rear_axle_load", mends=("bending", "axle", "tires"), source="tires/derived")
    if "width_single" in found:
        remedies.do("outer_off", ("width",), width_single=(found.width_single, "length"))
    if v.track_width is not None:
        remedies.less("track_width", mends=("width",), end=NARROWEST_TRACK * v.track_width)
    said = found.cautions("approval", "wheel", "angle", "pressure", "stems")
    notes = _rims_note(v, found)
    told: dict[str, model.Words] = {"width": found.note("tell_width")}
    if v.outer_wheel == "dual":
        told["rims"] = _made(v, found)
    return model.Advice(cautions=said, tables=[_ways(v), _retorque()], notes=notes, says=told)


def _made(v: model.Inputs, found: model.Found) -> model.Words:
    """What wheels made for duals do, and what ordinary ones turned round would."""
    ordinary = duals.spacing_with_adapter(v.adapter_length, v.inner_offset, -v.inner_offset)
    return found.note(
        "tell_made",
        spacing=(found.spacing, "length"),
        ordinary=(ordinary, "length"),
        least=(least_spacing(v)[0], "length"),
    )


def _farther(v: model.Inputs, found: model.Found, remedies: Remedies) -> None:
    """A longer adapter, or wheels made for duals on this one."""
    if "spacing" not in found.over:
        return  # nothing is bought for a spacing that may do
    if v.outer_wheel != "dual":
        # Adapters come in whole inches; longer ones are made for large axles, not for these.
        stock = tuple(si.INCH * inches for inches in range(4, 25))
        remedies.more(
            "adapter_length", mends=("spacing",), stock=stock, end=stock[-1], source="tires/OM-16"
        )
    least = least_spacing(v)[0]
    offset = duals.outer_offset_for(least, v.adapter_length, v.inner_offset) - 0.001
    dual = {"outer_wheel": "dual", "outer_offset": offset}
    dish = (-offset, "length")
    remedies.change("dual_wheels", dual, mends=("spacing",), source="tires/derived", dish=dish)


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


def _rims_note(v: model.Inputs, found: model.Found) -> list[model.Words]:
    finding = found.finding("spacing")
    if v.outer_wheel == "dual":
        return [found.note("made")]
    if finding in (model.WITHIN, model.CLOSE):
        return [found.note("ordinary")]
    return [found.note("special")] if finding == model.OVER else []


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
