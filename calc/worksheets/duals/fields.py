"""What is asked."""

from __future__ import annotations

from calc import model, tables
from calc.machines import tire_entry, vocabulary
from calc.mechanics import bolts

WHEELS, AXLE, BOLTS = "Wheels", "Axle", "Bolts"
NOT_READ = model.Option("unread", "Not read yet")


def _options(name: str, column: str = "key") -> tuple[model.Option, ...]:
    rows = tables.rows(name)
    return (NOT_READ, *(model.Option(row[column], row["label"]) for row in rows))


def _grades() -> tuple[model.Option, ...]:
    rows = tables.rows("tires/bolt_grades")
    known = [row for row in rows if not row["key"].endswith("large")]
    return (NOT_READ, *(model.Option(row["key"], row["label"]) for row in known))


FIELDS: tuple[model.AnyField, ...] = (
    model.Choice(
        "manual_allows",
        (model.Option("yes", "Yes"), model.Option("no", "No, or it says not approved")),
        unsure=("no", "yes"),
        essential=True,
        group=WHEELS,
    ),
    vocabulary.field("tractor_kind", example="utility"),
    vocabulary.field("rear_tire", example="14.9-28 R-1", essential=True, group=WHEELS),
    model.Entry("outer_tire", tire_entry.read_size, group=WHEELS, blank="the same size"),
    vocabulary.field("track_width", example="60 in", essential=True, group=WHEELS),
    model.Choice(
        "outer_wheel",
        (
            model.Option("reversed", "Same wheel as the inner, turned round"),
            model.Option("same", "Same wheel as the inner, same way round"),
            model.Option("dual", "Wheel made for duals, with its own offset"),
        ),
        example="reversed",
        essential=True,
        group=WHEELS,
        usual="reversed",
    ),
    model.Field(
        "adapter_length",
        "length",
        "0 in",
        "40 in",
        example="16 in",
        typical=model.Typical(0.2, 0.45, "tires/practice", "bolt-through adapters"),
        essential=True,
        group=WHEELS,
    ),
    model.Field(
        "inner_offset",
        "length",
        "-12 in",
        "12 in",
        example="1.5 in",
        typical=model.Typical(-0.08, 0.12, "tires/practice", "rear wheels"),
        group=WHEELS,
    ),
    model.Field("outer_offset", "length", "-30 in", "12 in", optional=True, group=WHEELS),
    model.Field(
        "axle_overhang",
        "length",
        "1 in",
        "30 in",
        example="7 in",
        typical=model.Typical(0.10, 0.25, "tires/practice", "rear axles"),
        essential=True,
        group=AXLE,
    ),
    model.Field(
        "widest_track", "length", "30 in", "130 in", example="76 in", optional=True, group=AXLE
    ),
    model.Field(
        "bearing_spread",
        "length",
        "3 in",
        "40 in",
        typical=model.Typical(0.20, 0.45, "tires/practice", "rear axles"),
        group=AXLE,
    ),
    model.Field(
        "rear_axle_load",
        "mass",
        "200 lb",
        "20,000 lb",
        example="4,400 lb",
        optional=True,
        essential=True,
        group=AXLE,
    ),
    vocabulary.field("rear_axle_limit", example="6,600 lb", group=AXLE),
    vocabulary.field("rear_tire_load", group=AXLE),
    model.Field(
        "width_limit", "length", "40 in", "250 in", example="102 in", optional=True, group=WHEELS
    ),
    vocabulary.field("wheelbase", example="84 in", group="Balance"),
    vocabulary.field("front_share", example="40 %", group="Balance"),
    vocabulary.field("cg_height", example="33 in", group="Balance"),
    vocabulary.field("axle_pin_height", example="18 in", group="Balance"),
    model.Choice(
        "thread", _options("tires/bolt_threads"), example="5/8-11", usual="unread", group=BOLTS
    ),
    model.Choice("grade", _grades(), example="8", usual="unread", group=BOLTS),
    model.Choice(
        "threads_are",
        (model.Option("dry", "Dry and clean"), model.Option("lubricated", "Oiled or plated")),
        example="dry",
        group=BOLTS,
        usual="dry",
    ),
)


OUTPUTS = (
    model.Shown("least", "length"),
    model.Shown("spacing", "length"),
    model.Shown("on_ordinary", "length", hidden=True),
    model.Shown("gap", "length"),
    model.Shown("gap_loaded", "length"),
    model.Shown("width", "length"),
    model.Shown("width_single", "length"),
    model.Shown("four_tires", "mass"),
    model.Shown("bending_shared", "count"),
    model.Shown("bending_outer", "count"),
    model.Shown("equal_bending", "mass"),
    model.Shown("bearing_load", "count"),
    model.Shown("bearing_life", "fraction"),
    model.Shown("side_single", "angle"),
    model.Shown("side_dual", "angle"),
    model.Shown("side_gain", "angle"),
    model.Shown("clamp", "force"),
    model.Shown("torque", "torque"),
)


def review(known: model.KnownSoFar) -> dict[str, str]:
    """Return a sentence for each field that can't stand beside the others."""
    found: dict[str, str] = {}
    if known.get("outer_tire") is not None and known.get("rear_tire") is None:
        found["rear_tire"] = "Give the size of the inner tires too: the two are compared."
    widest, track = known.get("widest_track"), known.get("track_width")
    if widest is not None and track is not None and widest.high < track.low:
        found["widest_track"] = "The widest approved track is at least the one that it has now."
    thread, grade = known.get("thread"), known.get("grade")
    wrong = unlike(thread, grade) if thread is not None and grade is not None else ""
    if wrong:
        found["grade"] = wrong
    return found


def unlike(thread: str, grade: str) -> str:
    """Return why no bolt of such a thread has such a grade; "" where there is one, or may be."""
    if NOT_READ.value in (thread, grade):
        return ""
    if thread.startswith("M") != ("." in grade):
        return "Inch bolts have SAE grades (2, 5, 8) and metric bolts have classes (8.8, 10.9)."
    try:
        bolts.proof_stress(grade, bolts.thread(thread)[0])
    except ValueError as error:
        return str(error)
    return ""
