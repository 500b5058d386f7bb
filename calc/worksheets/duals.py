"""Duals: spacing, width, what they do to the axle and its bearings, bolts, and side stability."""

from __future__ import annotations

import math

from calc import tables, vocabulary
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import bolts, duals, stability, tire_load, tires, typical
from calc.picture import Bar, Bars, Dimension, Item, Label, Line, Picture, Scene, Shape
from calc.worksheets import _tires as common

WHEELS, AXLE, BOLTS = "Wheels", "Axle", "Bolts"
SAME_SIZE = 0.01
"""Largest difference in diameter for tires run as a pair [-], tires/practice."""
GRAVITY = 9.80665


def _rear_load(known: ws.KnownSoFar) -> ws.Typical:
    key = known.get("tractor_kind") or vocabulary.ANY
    labels = dict(typical.tractor_kinds())
    kinds = [key] if key in labels else list(labels)
    ranges = [typical.tractor(name) for name in kinds]
    low = min(r["mass"][0] * (1 - r["front_share"][1]) for r in ranges)
    high = max(r["mass"][1] * (1 - r["front_share"][0]) for r in ranges)
    of = f"“{labels[key].lower()}” tractors" if key in labels else "tractors of any size"
    return ws.Typical(low, 1.4 * high, "hitch/PRACTICE", f"{of}, with and without an implement")


def _options(name: str, column: str = "key") -> tuple[ws.Option, ...]:
    return tuple(ws.Option(row[column], row["label"]) for row in tables.rows(name))


def _grades() -> tuple[ws.Option, ...]:
    rows = tables.rows("bolt_grades")
    return tuple(ws.Option(r["key"], r["label"]) for r in rows if not r["key"].endswith("large"))


FIELDS: tuple[ws.AnyField, ...] = (
    ws.Choice(
        "manual_allows", "Does the operator's manual allow duals?",
        (ws.Option("yes", "Yes"), ws.Option("no", "No, or it says not approved")),
        "Look under wheels and tires. Several manuals of compacts and utilities say no; where it "
        "is silent, ask the dealer for the maker's word.",
        unsure=("no", "yes"), essential=True, group=WHEELS,
    ),
    vocabulary.tractor_kind("utility"),
    vocabulary.field("rear_tire", label="Rear tires (the inner ones)", default="14.9-28 R-1",
                     essential=True, group=WHEELS),
    ws.Entry(
        "outer_tire", "Outer tires", "Leave blank when they are the same size as the inner ones.",
        vocabulary.read_tire_size, group=WHEELS, example="blank: the same size",
    ),
    vocabulary.field("track_width", label="Rear track width, inner tires", default="60 in",
                     essential=True, group=WHEELS),
    ws.Choice(
        "outer_wheel", "Outer wheels",
        (ws.Option("reversed", "Same wheel as the inner, turned round"),
         ws.Option("same", "Same wheel as the inner, same way round"),
         ws.Option("dual", "Wheel made for duals, with its own offset")),
        "Turned round, the outer wheel's disc faces the other way.", default="reversed",
        essential=True, group=WHEELS,
    ),
    ws.Field(
        "adapter_length", "Length of the adapter", "length", "0 in", "40 in",
        "From one wheel's disc to the other's; nothing when the two discs bolt together.",
        default="16 in", typical=ws.Typical(0.2, 0.45, "tires/practice", "bolt-through adapters"),
        essential=True, group=WHEELS,
    ),
    ws.Field(
        "inner_offset", "Inner wheel: disc outboard of the tire's middle", "length", "-12 in",
        "12 in", "Lay a straightedge across the tire's outer side; half the width less the depth "
        "to the disc. Below zero when the disc sits inboard of the middle.",
        default="1.5 in", typical=ws.Typical(-0.08, 0.12, "tires/practice", "rear wheels"),
        group=WHEELS,
    ),
    ws.Field(
        "outer_offset", "Wheel made for duals: disc outboard of the tire's middle", "length",
        "-30 in", "12 in", "Below zero when the disc sits inboard, as it does on such wheels. Left "
        "blank, the offset that the least spacing needs is worked out.",
        optional=True, group=WHEELS,
    ),
    ws.Field(
        "axle_overhang", "Outer axle bearing to the inner tire's middle", "length", "1 in",
        "30 in", "From the end of the axle housing, where the outer bearing sits, to the middle "
        "of the tread.",
        default="7 in", typical=ws.Typical(0.10, 0.25, "tires/practice", "rear axles"),
        essential=True, group=AXLE,
    ),
    ws.Field(
        "bearing_spread", "Outer to inner axle bearing", "length", "3 in", "40 in",
        "From a parts drawing.",
        typical=ws.Typical(0.20, 0.45, "tires/practice", "rear axles"), group=AXLE,
    ),
    ws.Field(
        "rear_axle_load", "Largest load on the rear axle", "mass", "200 lb", "20,000 lb",
        "Rear wheels on the scale with the heaviest implement raised.", default="4,400 lb",
        typical=_rear_load, essential=True, group=AXLE,
    ),
    vocabulary.field("rear_axle_limit", default="6,600 lb", group=AXLE),
    vocabulary.field("rear_tire_load", group=AXLE),
    ws.Field(
        "width_limit", "Widest you may be", "length", "40 in", "250 in",
        "The narrowest of gate, barn door, trailer, and what your road law allows without a "
        "permit.", default="102 in", optional=True, group=WHEELS,
    ),
    vocabulary.field("wheelbase", default="84 in", group="Balance"),
    vocabulary.field("front_share", default="40 %", group="Balance"),
    vocabulary.field("cg_height", default="33 in", group="Balance"),
    vocabulary.field("axle_pin_height", default="18 in", group="Balance"),
    ws.Choice(
        "thread", "Bolts of the adapter", _options("bolt_threads"),
        "Read the size off the head or measure the shank.", default="5/8-11", group=BOLTS,
    ),
    ws.Choice(
        "grade", "Grade of those bolts", _grades(),
        "Three lines on the head: grade 5. Six lines: grade 8. A number such as 8.8: the class. "
        "Carriage bolts without a mark are usually grade 2.",
        default="8", group=BOLTS,
    ),
    ws.Choice(
        "threads_are", "Threads are",
        (ws.Option("dry", "Dry and clean"), ws.Option("lubricated", "Oiled or plated")),
        "Don't oil wheel hardware unless the manual says so.", default="dry", group=BOLTS,
    ),
)  # fmt: skip


def review(known: ws.KnownSoFar) -> dict[str, str]:
    """Return a sentence for each field that can't stand beside the others."""
    found: dict[str, str] = {}
    if known.get("outer_tire") is not None and known.get("rear_tire") is None:
        found["rear_tire"] = "Give the size of the inner tires too: the two are compared."
    try:
        diameter, _ = bolts.thread(known.get("thread") or "5/8-11")
        bolts.proof_stress(known.get("grade") or "8", diameter)
    except ValueError as error:
        found["grade"] = str(error)
    metric_bolt = (known.get("thread") or "").startswith("M")
    metric_grade = "." in (known.get("grade") or "8")
    if metric_bolt != metric_grade and "grade" not in found:
        found["grade"] = (
            "Inch bolts have SAE grades (2, 5, 8) and metric bolts have classes (8.8, 10.9)."
        )
    return found


# --- arithmetic ------------------------------------------------------------------------------


def _sizes(v: ws.Inputs) -> tuple[tires.Dimensions | None, tires.Dimensions | None]:
    inner = common.dimensions(v.rear_tire)
    outer = inner if v.outer_tire is None else common.dimensions(v.outer_tire)
    return inner, outer


def least_spacing(v: ws.Inputs) -> tuple[float, str]:
    """Return the least spacing of the two tires [m] and its source."""
    inner, outer = _sizes(v)
    if inner is None or outer is None:
        return duals.least_spacing(0.378), "tires/OM-16"
    wider = max((inner, outer), key=lambda tire: tire.section_width)
    published = duals.published_spacing(wider.designation.width_text)
    if published is not None and wider.designation.form in ("decimal", "metric"):
        return published, "tires/OM-16"
    return duals.least_spacing(wider.section_width), "tires/derived"


def spacing(v: ws.Inputs) -> float:
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


def side_angles(v: ws.Inputs, apart: float) -> tuple[float, float]:
    """Return the static side angle with singles and with duals, in degrees."""
    ahead = v.front_share * v.wheelbase
    found = [
        math.degrees(
            stability.side_tip_angle_pivoting(
                track, v.cg_height, v.wheelbase, ahead, v.axle_pin_height
            )
        )
        for track in (v.track_width, v.track_width + 2 * max(apart, 0.0))
    ]
    return found[0], found[1]


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return the checks and outputs at one set of values."""
    checks: list[ws.Check] = []
    outputs: list[ws.Output] = []
    apart = spacing(v)
    allowed = v.manual_allows == "yes"
    checks.append(
        ws.fits(
            "manual", "What the manual says", 1.0 if allowed else -1.0,
            "The manual allows duals." if allowed else
            "The manual doesn't allow duals: its maker hasn't proved the axle for them.",
            "tires/OM-11",
            why="" if allowed else "The axle, its bearings and its housing may break.",
        )
    )  # fmt: skip
    _tire_checks(v, apart, checks, outputs, work)
    _axle(v, apart, checks, outputs, work)
    single, dual = side_angles(v, apart)
    said = "limit at rest on smooth, hard ground; never a slope to work on"
    outputs.append(ws.Output("side_single", "Static side angle, singles", single, "angle", said))
    outputs.append(ws.Output("side_dual", "Static side angle, duals", dual, "angle", said))
    outputs.append(ws.Output("side_gain", "Static side angle gained", dual - single, "angle"))
    _bolts(v, outputs, work)
    return ws.Outcome(checks, outputs)


def _tire_checks(
    v: ws.Inputs, apart: float, checks: list[ws.Check], outputs: list[ws.Output], work: ws.Work
) -> None:
    inner, outer = _sizes(v)
    outputs.append(ws.Output("spacing", "Middle to middle, inner and outer tire", apart, "length"))
    work.step(
        "Spacing", "S", "adapter + inner offset − outer offset",
        (("adapter", v.adapter_length, "length"), ("inner offset", v.inner_offset, "length"),
         ("outer offset", v.adapter_length + v.inner_offset - apart, "length")),
        apart, "length", "tires/derived",
    )  # fmt: skip
    if inner is None or outer is None:
        return
    least, source = least_spacing(v)
    checks.append(
        ws.at_least(
            "spacing", "Spacing of the two tires", apart, least, "length", source,
            why="Closer, the loaded sidewalls rub and mud packs between them.",
        )
    )  # fmt: skip
    gap = duals.sidewall_gap(apart, inner.section_width, outer.section_width)
    loaded = duals.loaded_gap(apart, inner.section_width, outer.section_width)
    outputs.append(ws.Output("gap", "Gap between the sidewalls, no load", gap, "length"))
    outputs.append(ws.Output("gap_loaded", "Gap left when both bulge under load", loaded, "length"))
    width = duals.overall_width(v.track_width, apart, outer.section_width)
    single = duals.overall_width(v.track_width, 0.0, inner.section_width)
    outputs.append(ws.Output("width", "Overall width with duals", width, "length"))
    outputs.append(ws.Output("width_single", "Overall width, outer wheels off", single, "length"))
    work.step(
        "Overall width", "B", "track + 2 S + section width",
        (("track", v.track_width, "length"), ("S", apart, "length"),
         ("section width", outer.section_width, "length")),
        width, "length", "tires/derived",
    )  # fmt: skip
    if v.width_limit is not None:
        checks.append(
            ws.at_most(
                "width", "Overall width with duals", width, v.width_limit, "length",
                "tires/derived", why="It won't pass, or needs a permit on the road.",
            )
        )  # fmt: skip
    differs = abs(outer.overall_diameter / inner.overall_diameter - 1)
    alike = differs <= SAME_SIZE and outer.tread_class == inner.tread_class
    if v.outer_tire is not None:
        checks.append(
            ws.fits(
                "pair", "The two tires as a pair", 1.0 if alike else -1.0,
                "Both tires are of one diameter and kind of tread." if alike else
                "The tires differ in diameter or kind of tread: the taller one takes the load.",
                "tires/practice",
            )
        )  # fmt: skip
    rated = common.rating(inner)
    each = v.rear_tire_load if v.rear_tire_load is not None else rated.load if rated else None
    if each is not None:
        four = 4 * each * tire_load.dual_factor(2)
        outputs.append(ws.Output("four_tires", "Four tires as duals may carry", four, "mass"))
        checks.append(
            ws.at_most(
                "tires", "Load on the four rear tires", v.rear_axle_load, four, "mass",
                "tires/dual-memory", why="Overloaded tires run hot and fail.",
            )
        )  # fmt: skip
        work.step(
            "What four tires may carry", "L", "4 × single × 0.88",
            (("single", each, "mass"),), four, "mass", "tires/dual-memory",
        )  # fmt: skip


def _axle(
    v: ws.Inputs, apart: float, checks: list[ws.Check], outputs: list[ws.Output], work: ws.Work
) -> None:
    overhang, reach = float(v.axle_overhang), max(apart, 0.0)
    shared = duals.moment_ratio_shared(overhang, reach)
    outer = duals.moment_ratio_outer(overhang, reach)
    one_side = v.rear_axle_load * GRAVITY / 2
    outputs += [
        ws.Output("bending_shared", "Axle bending against singles, load shared", shared, "count"),
        ws.Output("bending_outer", "Axle bending, outer tire carrying all", outer, "count"),
    ]
    work.step(
        "Bending at the outer bearing, singles", "M", "W e",
        (("W", one_side, "force"), ("e", overhang, "length")),
        duals.axle_moment(one_side, overhang), "torque", "tires/derived",
    )  # fmt: skip
    work.step(
        "Times as much with the load shared", "k", "1 + S / (2 e)",
        (("S", reach, "length"), ("e", overhang, "length")), shared, "count", "tires/derived",
    )  # fmt: skip
    work.step(
        "Times as much with the outer tire alone", "k", "1 + S / e",
        (("S", reach, "length"), ("e", overhang, "length")), outer, "count", "tires/derived",
    )  # fmt: skip
    bearing = duals.bearing_load_ratio(overhang, overhang + reach / 2, v.bearing_spread)
    outputs.append(
        ws.Output("bearing_load", "Outer bearing's load against singles, shared", bearing, "count")
    )
    outputs.append(
        ws.Output(
            "bearing_life", "Outer bearing's life against singles",
            duals.bearing_life_ratio(bearing), "fraction",
            "at the same load, roller bearing",
        )
    )  # fmt: skip
    if v.rear_axle_limit is None:
        return
    checks.append(
        ws.at_most(
            "axle", "Load on the rear axle", v.rear_axle_load, v.rear_axle_limit, "mass",
            "tires/OM-10", why="Duals carry more; the axle doesn't.",
        )
    )  # fmt: skip
    may = duals.load_for_equal_bending(v.rear_axle_limit, overhang, reach)
    outputs.append(
        ws.Output("equal_bending", "Axle load that bends it no more than its limit", may, "mass")
    )
    checks.append(
        ws.at_most(
            "bending", "Axle bending when the outer tire carries all", v.rear_axle_load, may,
            "mass", "tires/derived",
            why="On a crown, a curb or a furrow's edge the outer tire carries that side alone, and "
            "the axle bends more than its limit on singles ever does.",
        )
    )  # fmt: skip


def _bolts(v: ws.Inputs, outputs: list[ws.Output], work: ws.Work) -> None:
    diameter, area = bolts.thread(v.thread)
    proof = bolts.proof_stress(v.grade, diameter)
    clamp = bolts.clamp_load(proof, area)
    factor = bolts.NUT_FACTOR[v.threads_are]
    torque = bolts.tightening_torque(clamp, diameter, factor)
    outputs.append(ws.Output("clamp", "Clamp load of one bolt", clamp, "force"))
    outputs.append(
        ws.Output(
            "torque", "Torque, if the manual gives none", torque, "torque",
            "the tractor or adapter maker's figure comes first",
        )
    )  # fmt: skip
    work.step(
        "Clamp load", "F", "0.75 × proof stress × stress area",
        (("proof stress", proof, "pressure"), ("stress area", area, "area_small")),
        clamp, "force", "tires/FS-1",
    )  # fmt: skip
    work.step(
        "Torque", "T", "K D F",
        (("K", factor, "count"), ("D", diameter, "length"), ("F", clamp, "force")),
        torque, "torque", "tires/FS-1",
    )  # fmt: skip


# --- advice ----------------------------------------------------------------------------------


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Return remedies, the ways to reach the spacing, the tightening list, and cautions."""
    remedies = _remedies(v, outcome, solve)
    shown = [_ways(v), _retorque()]
    notes: list[ws.Words] = [_rims_note(v, outcome)]
    return ws.Advice(remedies, _cautions(), shown, [note for note in notes if note])


def _remedies(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> list[ws.Remedy]:
    remedies: list[ws.Remedy] = []
    manual, close = outcome.check("manual"), outcome.check("spacing")
    if manual is not None and manual.margin < 0:
        remedies.append(
            ws.Remedy(
                "Ask first: get the manual's page, or its maker's word in writing, that this axle "
                "may carry duals. Without it use one wider tire, or a wider track on singles.",
                source="tires/OM-9",
            )
        )  # fmt: skip
    if close is not None and close.margin < 0:
        length = solve.smallest("adapter_length", 0.0, 1.0, ["spacing"])
        if length is not None and v.outer_wheel != "dual":
            remedies.append(
                ws.Remedy(
                    ws.phrase("With these wheels the adapter must be {l} long.",
                              l=(length, "length")),
                    set={"adapter_length": f"{length + 1e-4:.4f} m"}, source="tires/OM-16",
                )
            )  # fmt: skip
        offset = duals.outer_offset_for(close.limit, v.adapter_length, v.inner_offset)
        remedies.append(
            ws.Remedy(
                ws.phrase(
                    "Or wheels made for duals, disc {d} inboard of the tire's middle, on this "
                    "adapter.", d=(-offset, "length"),
                ) if offset < 0 else "Or wheels made for duals on this adapter.",
                set={"outer_wheel": "dual", "outer_offset": f"{offset - 1e-4:.4f} m"},
                source="tires/derived",
            )
        )  # fmt: skip
    bending = outcome.check("bending")
    if bending is not None and bending.margin < 0:
        load = solve.largest("rear_axle_load", 91, 9000, ["bending", "axle"])
        if load is not None:
            remedies.append(
                ws.Remedy(
                    ws.phrase("Keep the rear axle to {m} with the duals on.", m=(load, "mass")),
                    set={"rear_axle_load": f"{load - 0.5:.1f} kg"}, source="tires/derived",
                )
            )  # fmt: skip
    wide = outcome.check("width")
    if wide is not None and wide.margin < 0:
        single = outcome.output("width_single")
        remedies.append(
            ws.Remedy(
                ws.phrase("Take the outer wheels off to travel: {w} wide without them.",
                          w=(single, "length")),
            )
        )  # fmt: skip
        track = solve.largest("track_width", 0.77, 2.5, ["width"])
        if track is not None:
            remedies.append(
                ws.Remedy(
                    ws.phrase("Or set the inner track to {t}, if the wheels and fenders allow it.",
                              t=(track, "length")),
                    set={"track_width": f"{track - 1e-4:.4f} m"},
                )
            )  # fmt: skip
    loaded = outcome.check("tires")
    if loaded is not None and loaded.margin < 0:
        each = v.rear_axle_load / (4 * tire_load.dual_factor(2))
        remedies.append(
            ws.Remedy(
                ws.phrase("Fit tires that may carry {m} each as singles.", m=(each, "mass")),
                set={"rear_tire_load": f"{each + 0.5:.1f} kg"}, source="tires/dual-memory",
            )
        )  # fmt: skip
    return remedies


def _ways(v: ws.Inputs) -> ws.Table:
    least, source = least_spacing(v)
    inner: float = v.inner_offset
    straight = duals.outer_offset_for(least, 0.0, inner)
    rows: tuple[tuple[ws.Cell, ...], ...] = (
        ("Same wheel turned round", (max(least - 2 * inner, 0.0), "length"),
         ws.phrase("{o} inboard", o=(inner, "length"))),
        ("Same wheel, same way round", (least, "length"),
         ws.phrase("{o} outboard", o=(inner, "length"))),
        ("Wheel made for duals, on your adapter", (v.adapter_length, "length"),
         ws.phrase("{o} inboard",
                   o=(-duals.outer_offset_for(least, v.adapter_length, inner), "length"))),
        ("Wheel made for duals, disc on disc", "none",
         ws.phrase("{o} inboard", o=(-straight, "length"))),
    )  # fmt: skip
    return ws.Table(
        "Wheels and adapters that just reach the least spacing",
        ("Outer wheel", "Adapter", "Disc, from the outer tire's middle"), rows, source,
        "A figure below zero means the other side of the middle. Bolt circle, center bore and "
        "stud length must match as well.",
    )  # fmt: skip


def _rims_note(v: ws.Inputs, outcome: ws.Outcome) -> ws.Words:
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


def _retorque() -> ws.Table:
    rows = tuple((row["machine"], row["step"]) for row in tables.rows("retorque_steps"))
    return ws.Table(
        "Tighten again", ("Machine", "When"), rows, "tires/OM-17",
        "Star pattern, clean faces, in stages. Use the manual's list where it has one.",
        checklist=True,
    )  # fmt: skip


def _cautions() -> list[ws.Caution]:
    return [
        ws.Caution(
            "Several manuals of compact and utility tractors say that duals are not approved. "
            "Then the answer is no, whatever the numbers here say.", "tires/OM-11",
        ),
        ws.Caution(
            "A wheel that comes loose kills. Tighten again by the list, and look for shiny rings "
            "around the nuts every day.", "tires/OM-17",
        ),
        ws.Caution(
            "The static side angle is where a machine at rest tips over; bumps, turns and a "
            "loader bring that far lower. It is never a safe slope, and the roll-over structure "
            "and belt stay in use.", "tires/S12",
        ),
        ws.Caution(
            "Run all four rear tires at the same pressure and wear; hands stay out from between "
            "the wheels."
        ),
    ]  # fmt: skip


# --- pictures --------------------------------------------------------------------------------


def picture(v: ws.Inputs, outcome: ws.Outcome) -> list[Picture]:
    """Return the rear view to scale, and the bending against singles."""
    drawn: list[Picture] = []
    if v.rear_tire is not None:
        drawn.append(_rear_view(v, outcome))
    shared, outer = outcome.output("bending_shared"), outcome.output("bending_outer")
    drawn.append(
        Bars(
            "Axle bending against single wheels",
            ws.phrase("Singles count as 1: {a} with the load shared, {b} when the outer tire "
                      "carries all", a=f"{shared:.2g}", b=f"{outer:.2g}"),
            "count",
            [Bar("singles", 1.0, style="soft"), Bar("duals, load shared", shared),
             Bar("duals, outer tire alone", outer, style="accent")],
        )
    )  # fmt: skip
    return drawn


def _tread(x: float, tire: tires.Dimensions, style: str) -> list[Item]:
    half, top = tire.section_width / 2, tire.overall_diameter
    round_ = min(half * 0.5, 0.1)
    outline = [
        (x - half, round_), (x - half + round_, 0.0), (x + half - round_, 0.0), (x + half, round_),
        (x + half, top - round_), (x + half - round_, top), (x - half + round_, top),
        (x - half, top - round_),
    ]  # fmt: skip
    return [Shape(outline, style), Line([*outline, outline[0]], "ink")]


def _rear_view(v: ws.Inputs, outcome: ws.Outcome) -> Scene:
    inner, outer = _sizes(v)
    assert inner is not None and outer is not None
    apart, half = outcome.output("spacing"), v.track_width / 2
    edge = half + apart + outer.section_width / 2
    hub = inner.static_loaded_radius
    top = max(inner.overall_diameter, outer.overall_diameter)
    bearing = max(half - v.axle_overhang, 0.0)
    items: list[Item] = [
        Line([(-edge - 0.1, 0), (edge + 0.1, 0)], "ground"),
        Line([(-half - apart, hub), (half + apart, hub)], "ink thick"),
        Shape([(-bearing, hub - 0.09), (bearing, hub - 0.09), (bearing, hub + 0.09),
               (-bearing, hub + 0.09)], "soft"),
    ]  # fmt: skip
    for side in (-1, 1):
        items += _tread(side * half, inner, "fill")
        items += _tread(side * (half + apart), outer, "accent band")
    items += [
        Label((0, hub), "axle housing", dy=-1.2, style="soft"),
        Dimension((half, top + 0.07), (half + apart, top + 0.07),
                  ws.phrase("{s}", s=(apart, "length"))),
        Dimension((-half, top + 0.07), (half, top + 0.07),
                  ws.phrase("track {t}", t=(v.track_width, "length"))),
        Dimension((-edge, top + 0.3), (edge, top + 0.3),
                  ws.phrase("{w} overall", w=(outcome.output("width"), "length"))),
        Dimension((-half, -0.22), (-bearing, -0.22),
                  ws.phrase("{e}", e=(v.axle_overhang, "length"))),
        Label((-(half + bearing) / 2, -0.22), "to the bearing", dy=0.9, style="soft"),
    ]  # fmt: skip
    return Scene(
        "Rear view, to scale",
        ws.phrase(
            "{inner} inside and {outer} outside, middles {s} apart, {gap} between the sidewalls",
            inner=inner.designation.size, outer=outer.designation.size, s=(apart, "length"),
            gap=(outcome.output("gap"), "length"),
        ),
        items,
    )  # fmt: skip


WORKSHEET = ws.Worksheet(
    name="duals",
    title="Duals",
    question="Can I put dual wheels on it?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    review=review,
    page="tires/duals",
    example="a utility tractor on 14.9-28 tires, the same wheels turned round on a 16 in adapter.",
)
