"""What is asked."""

from __future__ import annotations

from collections.abc import Callable

from calc import model
from calc.machines import vocabulary
from calc.mechanics import front_drive
from calc.subjects import tires as common

MEASURED, COUNTED = "Measured", "Counted turns, if you want the lead itself"
SIZES = "Sizes, to compare"


def _windows() -> tuple[model.Option, ...]:
    return tuple(model.Option(w.key, w.label, w.source) for w in front_drive.windows())


def _from_size(axle: str) -> Callable[[model.KnownSoFar], model.Typical | None]:
    """Ten turns by the table while nobody rolled the tire; nothing while its size isn't known."""

    def find(known: model.KnownSoFar) -> model.Typical | None:
        tire = common.dimensions(known.get(f"{axle}_tire"))
        return None if tire is None else common.around(tire, tire.circumference_error)

    return find


def _counted(name: str) -> model.Field:
    return model.Field(name, "count", "3", "200", optional=True, group=COUNTED)


FIELDS: tuple[model.AnyField, ...] = (
    vocabulary.field(
        "old_front_ten_turns",
        example="76 ft 5 in",
        typical=_from_size("front"),
        essential=True,
        group=MEASURED,
    ),
    vocabulary.field(
        "old_rear_ten_turns",
        example="108 ft 3 in",
        typical=_from_size("rear"),
        essential=True,
        group=MEASURED,
    ),
    vocabulary.field("front_turns", example="14.6", essential=True, group=MEASURED),
    model.Choice(
        "lead_window", _windows(), example=front_drive.DEFAULT_WINDOW, group=MEASURED, usual="guide"
    ),
    vocabulary.field("front_tire", example="7-16 R-1", group=SIZES),
    vocabulary.field("rear_tire", example="11.2-24 R-1", group=SIZES),
    _counted("front_turns_free"),
    _counted("front_turns_engaged"),
    model.Choice(
        "course",
        (model.Option("hard", "Hard and dry"), model.Option("loose", "Gravel, soil or grass")),
        example="hard",
        usual="hard",
        group=COUNTED,
    ),
    _counted("rear_turns_free"),
    _counted("rear_turns_engaged"),
)

OUTPUTS = (
    model.Shown("front_rolling", "length"),
    model.Shown("rear_rolling", "length"),
    model.Shown("gear_ratio", "count"),
    model.Shown("lead", "fraction"),
    model.Shown("lead_counted", "fraction"),
)


def _differ(free: float, engaged: float) -> bool:
    return not 0.7 <= engaged / free <= 1.4


def review(known: model.KnownSoFar) -> dict[str, str]:
    """Return a sentence for each field that can't stand beside the others."""
    found = {**common.review_turns(known), **common.review_pair(known)}
    for axle in ("front", "rear"):
        free, engaged = known.get(f"{axle}_turns_free"), known.get(f"{axle}_turns_engaged")
        if (free is None) != (engaged is None):
            missing = f"{axle}_turns_free" if free is None else f"{axle}_turns_engaged"
            found[missing] = "The lead needs both counts, with the front drive off and on."
        elif free is not None and engaged is not None and _differ(free.middle, engaged.middle):
            found[f"{axle}_turns_engaged"] = (
                "The two counts differ by more than two fifths: they must be over the same course."
            )
    if known.get("rear_turns_free") is not None and known.get("front_turns_free") is None:
        found.setdefault("front_turns_free", "Count the front tire too, over the same course.")
    return found
