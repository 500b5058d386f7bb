"""What is asked."""

from __future__ import annotations

from calc import model, tables
from calc.machines import vocabulary


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def _additions() -> list[model.Option]:
    rows = tables.rows("tires/pressure_additions")
    return [model.Option(row["key"], _upper(row["label"])) for row in rows]


FIELDS: tuple[model.AnyField, ...] = (
    model.Entry(
        "tire",
        "Tire size",
        "Everything on the sidewall, as it stands there.",
        vocabulary.read_tire_size,
        default="320/85 R 24 122A8 R-1W",
        essential=True,
        group="Tire",
        example="26x12.00-12 NHS",
    ),
    model.Field(
        "tire_mass",
        "Load on this tire",
        "mass",
        "20 lb",
        "15,000 lb",
        "Half of what the axle weighs on a scale.",
        default="2,200 lb",
        optional=True,
        essential=True,
        group="Tire",
    ),
    model.Field(
        "road_speed",
        "Fastest speed with that load",
        "speed",
        "0.5 mph",
        "45 mph",
        "What the tractor really does on the road.",
        default="16 mph",
        optional=True,
        essential=True,
        group="Tire",
    ),
    model.Field(
        "pressure",
        "Pressure in it",
        "pressure",
        "5 psi",
        "110 psi",
        "Cold, from a gauge made for low pressure.",
        optional=True,
        group="Pressure",
    ),
    model.Field(
        "rated_pressure",
        "Pressure at which its rating holds",
        "pressure",
        "5 psi",
        "110 psi",
        "On the sidewall beside the largest load, or in its load table.",
        optional=True,
        group="Pressure",
    ),
    model.Field(
        "rated_load",
        "Largest load on the sidewall",
        "mass",
        "50 lb",
        "15,000 lb",
        "Where it is printed. It replaces the load of the load index.",
        optional=True,
        group="Pressure",
    ),
    model.Choice(
        "work",
        "Work it does",
        (model.Option("plain", "Plain: nothing to add"), *_additions()),
        "What the load chart's pressure must be raised for.",
        default="plain",
        group="Pressure",
    ),
)


def review(known: model.KnownSoFar) -> dict[str, str]:
    """Return a sentence for each field that can't stand beside the others."""
    used, rated = known.get("pressure"), known.get("rated_pressure")
    if used is not None and rated is not None and used.high > rated.low:
        return {
            "pressure": "The pressure is above the one at which the rating holds; never pass "
            "the sidewall's maximum."
        }
    return {}
