"""What is asked."""

from __future__ import annotations

from calc import model, si

FIELDS = (
    model.Field(
        "combination_length",
        "length",
        "6 ft",
        "120 ft",
        example="40 ft",
        essential=True,
        group="You",
        unit_us="ft",
        unit_metric="m",
        typical=model.Typical(4.0, 12.0, "road/SIZE-practice", "a tractor and what it tows"),
    ),
    model.Field(
        "crossing_speed",
        "speed",
        "0.5 mph",
        "25 mph",
        example="5 mph",
        essential=True,
        group="You",
        typical=model.Typical(
            3 * si.MPH, 10 * si.MPH, "road/SIZE-practice", "a loaded tractor in a starting gear"
        ),
    ),
    model.Field(
        "start_acceleration",
        "acceleration",
        "0.2 ft/s2",
        "6 ft/s2",
        example="1 ft/s2",
        group="You",
        typical=model.Typical(0.3, 0.5, "road/START-practice", "a loaded tractor"),
    ),
    model.Field(
        "tracks",
        "count",
        "1",
        "6",
        example="1",
        group="The crossing",
        typical=model.Typical(1.0, 2.0, "road/SIZE-practice", "country crossings"),
    ),
    model.Field(
        "train_speed",
        "speed",
        "5 mph",
        "125 mph",
        example="45 mph",
        essential=True,
        group="The crossing",
        typical=model.Typical(25 * si.MPH, 60 * si.MPH, "road/SIZE-practice", "country lines"),
    ),
    model.Field(
        "track_sight",
        "distance",
        "30 ft",
        "6,000 ft",
        example="900 ft",
        essential=True,
        group="The crossing",
        optional=True,
    ),
    model.Choice(
        "signals",
        (
            model.Option("none", "Only signs"),
            model.Option("flashing", "Flashing signals, with or without gates"),
        ),
        example="none",
        essential=True,
        group="The crossing",
    ),
)

OUTPUTS = (
    model.Shown("time", "seconds"),
    model.Shown("needed", "distance"),
    model.Shown("train", "seconds"),
    model.Shown("warning", "seconds", hidden=True),
)
