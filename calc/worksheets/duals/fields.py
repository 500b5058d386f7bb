"""What is asked."""

from __future__ import annotations

from calc import model, tables
from calc.machines import vocabulary
from calc.mechanics import bolts, typical

WHEELS, AXLE, BOLTS = "Wheels", "Axle", "Bolts"


def _rear_load(known: model.KnownSoFar) -> model.Typical:
    key = known.get("tractor_kind") or vocabulary.ANY
    labels = dict(typical.tractor_kinds())
    kinds = [key] if key in labels else list(labels)
    ranges = [typical.tractor(name) for name in kinds]
    low = min(r["mass"][0] * (1 - r["front_share"][1]) for r in ranges)
    high = max(r["mass"][1] * (1 - r["front_share"][0]) for r in ranges)
    of = f"“{labels[key].lower()}” tractors" if key in labels else "tractors of any size"
    return model.Typical(low, 1.4 * high, "hitch/PRACTICE", f"{of}, with and without an implement")


def _options(name: str, column: str = "key") -> tuple[model.Option, ...]:
    return tuple(model.Option(row[column], row["label"]) for row in tables.rows(name))


def _grades() -> tuple[model.Option, ...]:
    rows = tables.rows("tires/bolt_grades")
    return tuple(model.Option(r["key"], r["label"]) for r in rows if not r["key"].endswith("large"))


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
    model.Entry(
        "outer_tire", vocabulary.read_tire_size, group=WHEELS, such_as="blank: the same size"
    ),
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
        typical=_rear_load,
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
        "thread", _options("tires/bolt_threads"), example="5/8-11", usual="5/8-11", group=BOLTS
    ),
    model.Choice("grade", _grades(), example="8", usual="8", group=BOLTS),
    model.Choice(
        "threads_are",
        (model.Option("dry", "Dry and clean"), model.Option("lubricated", "Oiled or plated")),
        example="dry",
        group=BOLTS,
        usual="dry",
    ),
)


def review(known: model.KnownSoFar) -> dict[str, str]:
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
