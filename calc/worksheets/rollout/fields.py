"""What is asked."""

from __future__ import annotations

from calc import model
from calc.machines import vocabulary
from calc.mechanics import front_drive
from calc.subjects import tires as common
from calc.subjects.tires import TURNS

MEASURED, COUNTED = "Measured", "Counted turns, if you want the lead itself"


def _windows() -> tuple[model.Option, ...]:
    return tuple(model.Option(w.key, w.label, w.source) for w in front_drive.windows())


def _span(low: float, high: float) -> model.Typical:
    return model.Typical(
        TURNS * low, TURNS * high, "tires/practice", "tires of compact and utility tractors"
    )


FIELDS: tuple[model.AnyField, ...] = (
    vocabulary.field(
        "old_front_ten_turns",
        example="76 ft 5 in",
        typical=_span(*common.FRONT_SPAN),
        essential=True,
        group=MEASURED,
    ),
    vocabulary.field(
        "old_rear_ten_turns",
        example="108 ft 3 in",
        typical=_span(*common.REAR_SPAN),
        essential=True,
        group=MEASURED,
    ),
    vocabulary.field(
        "front_turns",
        example="14.6",
        typical=model.Typical(12.0, 16.0, "tires/WEB-7", "front drives"),
        essential=True,
        group=MEASURED,
    ),
    model.Choice(
        "lead_window", _windows(), example=front_drive.DEFAULT_WINDOW, group=MEASURED, usual="guide"
    ),
    vocabulary.field("front_tire", example="7-16 R-1", group="Sizes, to compare"),
    vocabulary.field("rear_tire", example="11.2-24 R-1", group="Sizes, to compare"),
    model.Field("front_turns_free", "count", "3", "200", optional=True, group=COUNTED),
    model.Field("front_turns_engaged", "count", "3", "200", optional=True, group=COUNTED),
)


def review(known: model.KnownSoFar) -> dict[str, str]:
    """Return a sentence for each field that can't stand beside the others."""
    free, engaged = known.get("front_turns_free"), known.get("front_turns_engaged")
    if (free is None) != (engaged is None):
        missing = "front_turns_free" if free is None else "front_turns_engaged"
        return {missing: "The lead needs both counts, with the front drive off and on."}
    if free is not None and engaged is not None:
        ratio = engaged.middle / free.middle
        if not 0.7 <= ratio <= 1.4:
            return {
                "front_turns_engaged": "The two counts differ by more than two fifths: they must "
                "be over the same course."
            }
    return {}
