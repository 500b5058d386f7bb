"""What is asked."""

from __future__ import annotations

from calc import model

FIELDS = (
    model.Field(
        "combination_length",
        "Length of the whole combination",
        "length",
        "6 ft",
        "120 ft",
        "From the front of the tractor to the rear of the last thing behind it.",
        default="40 ft",
        essential=True,
        group="You",
        unit_us="ft",
        typical=model.Typical(4.0, 12.0, "road/SIZE-practice", "a tractor and what it tows"),
    ),
    model.Field(
        "crossing_speed",
        "Speed while crossing",
        "speed",
        "0.5 mph",
        "25 mph",
        "In the gear that you start in. Never shift on the tracks.",
        default="5 mph",
        essential=True,
        group="You",
        typical=model.Typical(
            1.3, 4.5, "road/SIZE-practice", "a loaded tractor in a starting gear"
        ),
    ),
    model.Field(
        "start_acceleration",
        "Acceleration from rest",
        "acceleration",
        "0.2 ft/s2",
        "6 ft/s2",
        "Time it: twice the distance divided by the time squared. 20 ft in 5 s is 1.6 ft/s2.",
        default="1 ft/s2",
        group="You",
        typical=model.Typical(0.3, 0.5, "road/START-practice", "a loaded tractor"),
    ),
    model.Field(
        "tracks",
        "Tracks to cross",
        "count",
        "1",
        "6",
        "Count them all.",
        default="1",
        group="The crossing",
        typical=model.Typical(1.0, 2.0, "road/SIZE-practice", "country crossings"),
    ),
    model.Field(
        "train_speed",
        "Speed of trains here",
        "speed",
        "5 mph",
        "125 mph",
        "The railroad tells; its emergency number is on the sign at the crossing.",
        default="45 mph",
        essential=True,
        group="The crossing",
        typical=model.Typical(11.0, 27.0, "road/SIZE-practice", "country lines"),
    ),
    model.Field(
        "track_sight",
        "How far you see along the track",
        "distance",
        "30 ft",
        "6,000 ft",
        "From the seat at the stop line, the worse side. Corn counts.",
        default="900 ft",
        essential=True,
        group="The crossing",
        typical=model.Typical(90.0, 600.0, "road/SIZE-practice", "country crossings"),
    ),
    model.Choice(
        "signals",
        "Signals at the crossing",
        (
            model.Option("none", "Only signs"),
            model.Option("flashing", "Flashing signals, with or without gates"),
        ),
        "Signals start only some seconds before the train.",
        default="none",
        essential=True,
        group="The crossing",
    ),
)
