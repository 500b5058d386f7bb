"""The fields that describe a job: what is worked on, and where."""

from __future__ import annotations

from calc.machines import usual
from calc.model import AnyField, Choice, Field, Option, Typical

JOB = "Job"


def fields() -> list[AnyField]:
    """Return the fields of a job, without their words."""
    return [
        Choice(
            "material",
            (
                Option("light", "Light: short grass, dry leaves, loose ground"),
                Option("typical", "Typical: tall grass, a season's growth"),
                Option("heavy", "Heavy: brush, wet and dense growth, sod"),
            ),
            example="typical",
            unsure=("light", "typical", "heavy"),
            essential=True,
            group=JOB,
        ),
        Field(
            "slope",
            "slope",
            "0 %",
            "100 %",
            example="5 %",
            typical=Typical(0.0, usual.STEEPEST, "hitch/PRACTICE", "mowed land"),
            group=JOB,
        ),
        Field("cross_slope", "slope", "0 %", "100 %", optional=True, group=JOB),
        Field(
            "ground_speed",
            "speed",
            "0.5 mph",
            "15 mph",
            example="3 mph",
            typical=usual.ground_speed,
            group=JOB,
        ),
        Field(
            "altitude",
            "distance",
            "-500 ft",
            "14,000 ft",
            example="500 ft",
            optional=True,  # who names none isn't high up
            group=JOB,
        ),
    ]
