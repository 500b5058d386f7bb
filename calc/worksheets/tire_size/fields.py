"""What is asked."""

from __future__ import annotations

from calc import model, tables
from calc.machines import tire_entry


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def _additions() -> list[model.Option]:
    rows = tables.rows("tires/pressure_additions")
    return [model.Option(row["key"], _upper(row["label"])) for row in rows]


FIELDS: tuple[model.AnyField, ...] = (
    model.Entry(
        "tire",
        tire_entry.read_size,
        example="320/85 R 24 122A8 R-1W",
        needed=True,
        essential=True,
        group="Tire",
        such_as="26x12.00-12 NHS",
    ),
    model.Field(
        "tire_mass",
        "mass",
        "20 lb",
        "15,000 lb",
        example="2,200 lb",
        optional=True,
        essential=True,
        group="Tire",
    ),
    model.Field(
        "road_speed",
        "speed",
        "0.5 mph",
        "45 mph",
        example="16 mph",
        optional=True,
        essential=True,
        group="Tire",
    ),
    model.Field("pressure", "pressure", "5 psi", "110 psi", optional=True, group="Pressure"),
    model.Field("rated_pressure", "pressure", "5 psi", "110 psi", optional=True, group="Pressure"),
    model.Field("rated_load", "mass", "50 lb", "15,000 lb", optional=True, group="Pressure"),
    model.Choice(
        "work",
        (model.Option("plain", "Plain: nothing to add"), *_additions()),
        example="plain",
        group="Pressure",
        usual="plain",
    ),
)


OUTPUTS = (
    model.Shown("inflation_most", "pressure", hidden=True),
    model.Shown("overall_diameter", "length"),
    model.Shown("section_width", "length"),
    model.Shown("loaded_radius", "length"),
    model.Shown("rolling", "length"),
    model.Shown("rated", "mass"),
    model.Shown("rated_speed", "speed"),
    model.Shown("row_pressure", "pressure"),
    model.Shown("carries", "mass"),
    model.Shown("pressure_needed", "pressure"),
    model.Shown("contact_area", "area_small"),
    model.Shown("ground_stress", "pressure"),
    model.Shown("liquid", "volume"),
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
