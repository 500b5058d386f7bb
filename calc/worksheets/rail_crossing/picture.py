"""What is drawn."""

from __future__ import annotations

from calc import model
from calc.model.pictures import Chart, Mark, Picture, Series
from calc.worksheets.rail_crossing.compute import crossing_time


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture]:
    """Draw the view needed against the length of the combination."""
    longest = v.combination_length * 1.6
    lengths = [longest * i / 12 for i in range(13)]
    needed = [v.train_speed * crossing_time(v.but(combination_length=n)) for n in lengths]
    series = [Series("view needed", lengths, needed, "ink")]
    if v.track_sight is not None:
        series.append(Series("what you see", [0.0, longest], [v.track_sight] * 2, "good dashed"))
    said = (
        "Trains at {train}, crossing at {own}. Where the line is above what you see, you aren't "
        "across in time."
    )
    speeds = {"train": (v.train_speed, "speed"), "own": (v.crossing_speed, "speed")}
    return [
        Chart(
            "View along the track against length",
            model.phrase(said, **speeds),
            "Length of the combination",
            "length",
            "View needed",
            "distance",
            series,
            [Mark("you", v.combination_length, outcome.output("needed"))],
            x_unit_us="ft",
            x_unit_metric="m",
        )
    ]
