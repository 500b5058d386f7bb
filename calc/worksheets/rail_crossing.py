"""Am I across the tracks before a train comes?"""

from __future__ import annotations

from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import sight
from calc.picture import Chart, Mark, Picture, Series
from calc.worksheets._solved import solved

MPH, FOOT = sight.MPH, sight.FOOT
SIGNAL_WARNING = 20.0  # s, the least that flashing signals give: road/WEB-8
STOP_LINE, TRACK = 15 * FOOT, 5 * FOOT  # road/RAIL-memory, road/WEB-7

FIELDS = (
    ws.Field(
        "combination_length", "Length of the whole combination", "length", "6 ft", "120 ft",
        "From the front of the tractor to the rear of the last thing behind it.",
        default="40 ft", essential=True, group="You", unit_us="ft",
        typical=ws.Typical(4.0, 12.0, "road/SIZE-practice", "a tractor and what it tows"),
    ),
    ws.Field(
        "crossing_speed", "Speed while crossing", "speed", "0.5 mph", "25 mph",
        "In the gear that you start in. Never shift on the tracks.",
        default="5 mph", essential=True, group="You",
        typical=ws.Typical(1.3, 4.5, "road/SIZE-practice", "a loaded tractor in a starting gear"),
    ),
    ws.Field(
        "start_acceleration", "Acceleration from rest", "acceleration", "0.2 ft/s2", "6 ft/s2",
        "Time it: twice the distance divided by the time squared. 20 ft in 5 s is 1.6 ft/s2.",
        default="1 ft/s2", group="You",
        typical=ws.Typical(0.3, 0.5, "road/START-practice", "a loaded tractor"),
    ),
    ws.Field(
        "tracks", "Tracks to cross", "count", "1", "6", "Count them all.",
        default="1", group="The crossing",
        typical=ws.Typical(1.0, 2.0, "road/SIZE-practice", "country crossings"),
    ),
    ws.Field(
        "train_speed", "Speed of trains here", "speed", "5 mph", "125 mph",
        "The railroad tells; its emergency number is on the sign at the crossing.",
        default="45 mph", essential=True, group="The crossing",
        typical=ws.Typical(11.0, 27.0, "road/SIZE-practice", "country lines"),
    ),
    ws.Field(
        "track_sight", "How far you see along the track", "distance", "30 ft", "6,000 ft",
        "From the seat at the stop line, the worse side. Corn counts.",
        default="900 ft", essential=True, group="The crossing",
        typical=ws.Typical(90.0, 600.0, "road/SIZE-practice", "country crossings"),
    ),
    ws.Choice(
        "signals", "Signals at the crossing",
        (
            ws.Option("none", "Only signs"),
            ws.Option("flashing", "Flashing signals, with or without gates"),
        ),
        "Signals start only some seconds before the train.",
        default="none", essential=True, group="The crossing",
    ),
)  # fmt: skip

TRACK_SPACING = 15 * FOOT  # between the middles of neighboring tracks, road/RAIL-memory


def _time(v: ws.Inputs) -> float:
    width = TRACK + (v.tracks - 1) * TRACK_SPACING
    return sight.rail_crossing_time(
        v.combination_length, v.crossing_speed, v.start_acceleration, STOP_LINE, width
    )


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return the checks of the view along the track and of the warning time."""
    time = _time(v)
    needed = v.train_speed * time
    checks = [
        ws.at_least(
            "view", "View along the track", v.track_sight, needed, "distance",
            "road/RAIL-memory; road/CALC-1",
            why="A train that comes into view as you start reaches you on the track.",
        )
    ]  # fmt: skip
    if v.signals == "flashing":
        checks.append(
            ws.at_most(
                "signals", "Clear within the shortest warning", time, SIGNAL_WARNING, "seconds",
                "road/WEB-8",
                why="If the signals start as you move off, the train is there first.",
            )
        )  # fmt: skip
    work.step("Time to clear", "T", "J + V/a + (L + 2D + W − V²/(2a)) / V",
              (("J", sight.START_DELAY, "seconds"), ("V", v.crossing_speed, "speed"),
               ("a", v.start_acceleration, "acceleration"),
               ("L", v.combination_length, "length"), ("D", STOP_LINE, "length"),
               ("W", TRACK + (v.tracks - 1) * TRACK_SPACING, "length")),
              time, "seconds", "road/RAIL-memory")  # fmt: skip
    work.step("View needed", "d", "train speed × T",
              (("train", v.train_speed, "speed"), ("T", time, "seconds")), needed, "distance",
              "road/CALC-1")  # fmt: skip
    return ws.Outcome(
        checks,
        [
            ws.Output("time", "Time from deciding to clear", time, "seconds"),
            ws.Output("view", "View along the track needed", needed, "distance"),
            ws.Output("train", "A train covers what you see in",
                      v.track_sight / v.train_speed, "seconds"),
        ],
    )  # fmt: skip


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Solve for length, gear and view."""
    remedies = []
    if outcome.margin() < 0:
        length = solve.largest("combination_length", 2.0, v.combination_length)
        if length is not None:
            remedies.append(
                ws.Remedy(
                    ws.phrase("Up to {length} long it is across in time: take one load less.",
                              length=(length, "length", "ft")),
                    solved(solve, "combination_length", length, up=False),
                    "road/CALC-1",
                )
            )  # fmt: skip
        speed = solve.smallest("crossing_speed", v.crossing_speed, 6.7)
        if speed is not None:
            remedies.append(
                ws.Remedy(
                    ws.phrase("In a gear that reaches {speed} it is across in time.",
                              speed=(speed, "speed")),
                    solved(solve, "crossing_speed", speed, up=True), "road/CALC-1",
                )
            )  # fmt: skip
        view = solve.smallest("track_sight", v.track_sight, 1800.0, ("view",))
        if view is not None:
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        "Cross where you see {view} along the track, or have somebody watch from "
                        "where that much can be seen.", view=(view, "distance"),
                    ),
                    solved(solve, "track_sight", view, ("view",), up=True), "road/CALC-1",
                )
            )  # fmt: skip
    cautions = [
        ws.Caution(
            "Stop, open the cab door, look both ways and listen. Two trains may follow one "
            "another. If you stall on the track, get off, run toward the train and away from the "
            "track, and call the number on the sign.", "road/RAIL-practice",
        ),
        ws.Caution(
            "Low trailers and long drawbars hang up on humped crossings. If you can't clear the "
            "far side at once, don't start.", "road/RAIL-practice",
        ),
    ]  # fmt: skip
    return ws.Advice(remedies, cautions)


def picture(v: ws.Inputs, outcome: ws.Outcome) -> list[Picture]:
    """Draw the view needed against the length of the combination."""
    longest = v.combination_length * 1.6
    lengths = [longest * i / 12 for i in range(13)]
    needed = [v.train_speed * _time(v.but(combination_length=length)) for length in lengths]
    return [
        Chart(
            "View along the track against length",
            ws.phrase(
                "Trains at {train}, crossing at {own}. Where the line is above what you see, you "
                "aren't across in time.",
                train=(v.train_speed, "speed"), own=(v.crossing_speed, "speed"),
            ),
            "Length of the combination", "length", "View needed", "distance",
            [
                Series("view needed", lengths, needed, "ink"),
                Series("what you see", [0.0, longest], [v.track_sight] * 2, "good dashed"),
            ],
            [Mark("you", v.combination_length, outcome.output("view"))],
            x_unit_us="ft", x_unit_metric="m",
        )
    ]  # fmt: skip


WORKSHEET = ws.Worksheet(
    name="rail-crossing",
    title="Crossing a railroad",
    question="Am I across the tracks before a train comes?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    page="road/closing",
    example="a tractor and wagon 40 ft long that creep over one track at 5 mph.",
)
