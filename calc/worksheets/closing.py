"""How far off must a driver see me?"""

from __future__ import annotations

from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import sight
from calc.picture import Chart, Label, Line, Mark, Picture, Scene, Series, Shape
from calc.worksheets._solved import solved

MPH, FOOT = sight.MPH, sight.FOOT
CAR_LENGTH = 19 * FOOT  # road/DOT-3

FIELDS = (
    ws.Field(
        "road_speed", "Your speed on the road", "speed", "1 mph", "45 mph",
        "What you really drive with this load, not the top gear on the decal.",
        default="18 mph", essential=True, group="You",
        typical=ws.Typical(4.5, 11.2, "road/SIZE-practice", "tractors on the road"),
    ),
    ws.Field(
        "car_speed", "Speed of the traffic", "speed", "10 mph", "90 mph",
        "The posted limit, or what people really drive there.",
        default="55 mph", essential=True, group="The road",
        typical=ws.Typical(20.0, 29.1, "road/SIZE-practice", "country roads"),
    ),
    ws.Field(
        "sight_distance", "How far off a driver behind can see you", "distance",
        "20 ft", "5,000 ft",
        "From the crest or bend behind you to the place where you are: pace it, or measure it on "
        "a map. In the open take how far your lamps and emblem show.",
        default="600 ft", essential=True, group="The road",
        typical=ws.Typical(91.0, 305.0, "road/LAW-IL564", "an emblem on a country road"),
    ),
    ws.Choice(
        "maneuver", "What you mean to do",
        (
            ws.Option("along", "Only drive along"),
            ws.Option("right", "Pull out to the right"),
            ws.Option("left", "Pull out to the left"),
            ws.Option("cross", "Go straight across"),
        ),
        "Pulling out is checked from a standing start.",
        default="cross", essential=True, group="You",
    ),
    ws.Field(
        "entrance_sight", "How far you see along the main road", "distance", "20 ft", "5,000 ft",
        "From the seat, at the place where you stop, to where traffic comes into view. Take the "
        "shorter side.",
        default="700 ft", essential=True, group="The road",
        typical=ws.Typical(91.0, 305.0, "road/SIZE-practice", "field entrances"),
    ),
    ws.Field(
        "combination_length", "Length of the whole combination", "length", "6 ft", "120 ft",
        "From the front of the tractor to the rear of the last thing behind it.",
        default="24 ft", essential=True, group="You",
        typical=ws.Typical(4.0, 12.0, "road/SIZE-practice", "a tractor and what it tows"),
        unit_us="ft",
    ),
    ws.Field(
        "crossing_speed", "Speed while crossing", "speed", "0.5 mph", "25 mph",
        "In the gear that you start in; don't shift while crossing.",
        default="8 mph", group="Pulling out",
        typical=ws.Typical(1.8, 5.4, "road/SIZE-practice", "a loaded tractor in a starting gear"),
    ),
    ws.Field(
        "start_acceleration", "Acceleration from rest", "acceleration", "0.2 ft/s2", "6 ft/s2",
        "Time it: twice the distance divided by the time squared. 20 ft in 5 s is 1.6 ft/s2.",
        default="1.5 ft/s2", group="Pulling out",
        typical=ws.Typical(0.3, 0.6, "road/START-practice", "a loaded tractor"),
    ),
    ws.Field(
        "set_back", "Front of the tractor to the edge of the road", "length", "0 ft", "60 ft",
        "Where you stop and look.",
        default="10 ft", group="Pulling out",
        typical=ws.Typical(1.5, 4.5, "road/SIZE-practice", "field entrances"), unit_us="ft",
    ),
    ws.Field(
        "lane_width", "Width of one lane", "length", "7 ft", "15 ft",
        "Country roads have 9 to 12 ft.",
        default="12 ft", group="Pulling out",
        typical=ws.Typical(2.7, 3.7, "road/SIZE-practice", "country roads"), unit_us="ft",
    ),
    ws.Field(
        "lanes", "Lanes of the main road", "count", "1", "6",
        "All lanes that you would have to cross.",
        default="2", group="Pulling out",
        typical=ws.Typical(2.0, 2.0, "road/SIZE-practice", "country roads"),
    ),
    ws.Field(
        "grade", "Slope of the main road where traffic comes from", "slope", "-15 %", "15 %",
        "Downhill toward you is negative: brakes take longer there.",
        default="0 %", group="Traffic",
        typical=ws.Typical(-0.06, 0.06, "road/SIZE-practice", "country roads"),
    ),
    ws.Field(
        "spare_gap", "Room that you want left behind you", "distance", "0 ft", "500 ft",
        "The computed gap ends bumper to bumper; this is added to it.",
        default="50 ft", group="Traffic",
        typical=ws.Typical(8.0, 30.0, "road/GAP-practice", "a driver's following distance"),
    ),
    ws.Field(
        "reaction_time", "Time until a driver brakes", "seconds", "0.5 s", "6 s",
        "Highway design uses 2.5 s.",
        default="2.5 s", group="Traffic",
        typical=ws.Typical(1.5, 2.5, "road/DOT-1", "drivers, surprised or not"),
    ),
    ws.Field(
        "deceleration", "How hard drivers brake", "acceleration", "2 ft/s2", "30 ft/s2",
        "Highway design uses 11.2 ft/s2; about nine in ten brake harder than that.",
        default="11.2 ft/s2", group="Traffic",
        typical=ws.Typical(2.4, 4.5, "road/DOT-1", "wet to dry roads"),
    ),
    ws.Field(
        "oncoming_speed", "Speed of oncoming traffic", "speed", "10 mph", "90 mph",
        "For a driver who passes you.",
        default="55 mph", group="Traffic",
        typical=ws.Typical(20.0, 29.1, "road/SIZE-practice", "country roads"),
    ),
)  # fmt: skip


def _braking(v: ws.Inputs) -> float:
    """The deceleration on the slope, never quite zero so that a steep one reads as very long."""
    return float(max(v.deceleration + sight.GRAVITY * v.grade, 0.05))


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return the checks of being seen in time and of pulling out."""
    braking = _braking(v)
    closing = sight.closing_speed(v.car_speed, v.road_speed)
    gap = sight.slow_down_gap(v.car_speed, v.road_speed, v.reaction_time, braking) + v.spare_gap
    stop = sight.stopping_sight_distance(v.car_speed, 0.0, v.reaction_time, braking)
    checks = [
        ws.at_least(
            "slow", "Traffic sees you in time to slow behind you", v.sight_distance, gap,
            "distance", "road/DOT-1; road/CALC-1",
            why="A driver who sees you later can't slow to your speed before reaching you.",
        ),
        ws.at_least(
            "stop", "Traffic sees you in time to stop", v.sight_distance, stop, "distance",
            "road/DOT-1; road/WEB-5",
            why="If you have to stop, or slow for a turn, a driver behind can't stop in time.",
        ),
    ]  # fmt: skip
    outputs = [
        ws.Output("closing_speed", "Speed at which traffic closes", closing, "speed"),
    ]
    if closing > 0:
        outputs.append(
            ws.Output(
                "closing_time", "Time until it reaches you", v.sight_distance / closing, "seconds",
                "if the driver does nothing",
            )
        )  # fmt: skip
    outputs += [
        ws.Output("gap", "Distance to slow behind you", gap, "distance"),
        ws.Output("stopping", "Distance to stop", stop, "distance"),
    ]
    if work.on:
        _steps(v, work, braking, gap, stop)
    pulled, numbers = _pulling_out(v, braking, work)
    passed = _passing(v) if closing > 0.2 else []
    return ws.Outcome([*checks, *pulled], [*outputs, *numbers, *passed])


def _steps(v: ws.Inputs, work: ws.Work, braking: float, gap: float, stop: float) -> None:
    closing = sight.closing_speed(v.car_speed, v.road_speed)
    if closing > 0:
        work.step("Time until contact", "t", "d / (V − v)",
                  (("d", v.sight_distance, "distance"), ("V", v.car_speed, "speed"),
                   ("v", v.road_speed, "speed")),
                  v.sight_distance / closing, "seconds", "road/CALC-1")  # fmt: skip
    work.step("Braking on this slope", "a", "a₀ + g G",
              (("a₀", v.deceleration, "acceleration"), ("G", v.grade, "slope")),
              braking, "acceleration", "road/DOT-1; road/WEB-5")  # fmt: skip
    work.step("Distance to slow behind you", "G", "Δv tᵣ + Δv² / (2 a) + spare",
              (("Δv", closing, "speed"), ("tᵣ", v.reaction_time, "seconds"),
               ("a", braking, "acceleration"), ("spare", v.spare_gap, "distance")),
              gap, "distance", "road/DOT-1; road/CALC-1")  # fmt: skip
    work.step("Distance to stop (exact units; guides print 1.47 and 1.075)", "s",
              "V tᵣ + V² / (2 a)",
              (("V", v.car_speed, "speed"), ("tᵣ", v.reaction_time, "seconds"),
               ("a", braking, "acceleration")), stop, "distance", "road/DOT-1")  # fmt: skip


def _clear_distance(v: ws.Inputs) -> float:
    """How far the machine moves until its rear leaves the lanes that it crosses."""
    lanes = v.lanes if v.maneuver == "cross" else v.lanes / 2
    return float(v.set_back + lanes * v.lane_width + v.combination_length)


def _pulling_out(
    v: ws.Inputs, braking: float, work: ws.Work
) -> tuple[list[ws.Check], list[ws.Output]]:
    checks: list[ws.Check] = []
    outputs: list[ws.Output] = []
    if v.maneuver in ("cross", "left"):
        distance = _clear_distance(v)
        time = sight.time_to_clear(distance, v.crossing_speed, v.start_acceleration)
        needed = sight.intersection_sight_distance(v.car_speed, time)
        words = "the road" if v.maneuver == "cross" else "the near lanes"
        checks.append(
            ws.at_least(
                "clear", f"You are clear of {words} before traffic arrives", v.entrance_sight,
                needed, "distance", "road/RAIL-memory; road/CALC-1",
                why="Somebody who comes into view as you start has to brake for you.",
            )
        )  # fmt: skip
        outputs += [
            ws.Output("clear_time", f"Time to clear {words}", time, "seconds",
                      "two seconds to look included"),
            ws.Output("clear_sight", "View along the road needed for that", needed, "distance"),
        ]  # fmt: skip
        work.step("Time to clear", "T", "J + v/a + (S − v²/(2a)) / v, or J + √(2S/a)",
                  (("J", sight.START_DELAY, "seconds"), ("v", v.crossing_speed, "speed"),
                   ("a", v.start_acceleration, "acceleration"), ("S", distance, "distance")),
                  time, "seconds", "road/RAIL-memory; road/CALC-1")  # fmt: skip
        work.step("View needed", "D", "V T", (("V", v.car_speed, "speed"), ("T", time, "seconds")),
                  needed, "distance", "road/DOT-2")  # fmt: skip
    if v.maneuver in ("right", "left"):
        gap = v.spare_gap + sight.joining_gap(
            v.car_speed, v.road_speed, v.start_acceleration, v.reaction_time, braking
        )
        checks.append(
            ws.at_least(
                "join", "Traffic can slow behind you as you pull in", v.entrance_sight, gap,
                "distance", "road/DOT-1; road/CALC-1",
                why="A driver who comes into view as you pull out runs into you before both go "
                "equally fast.",
            )
        )  # fmt: skip
        outputs.append(
            ws.Output("join_gap", "View needed to pull in ahead of traffic", gap, "distance")
        )
        work.step("View needed to pull in", "D", "car's way − your way until both go equally fast",
                  (("V", v.car_speed, "speed"), ("v", v.road_speed, "speed"),
                   ("a", v.start_acceleration, "acceleration")), gap, "distance",
                  "road/CALC-1")  # fmt: skip
    return checks, outputs


def _passing(v: ws.Inputs) -> list[ws.Output]:
    each = 80 * FOOT
    time, _, clear = sight.passing(
        v.car_speed, v.road_speed, v.combination_length, CAR_LENGTH, each, each, v.oncoming_speed
    )
    return [
        ws.Output("passing_time", "Time in the other lane to pass you", time, "seconds",
                  "at steady speed, the best case"),
        ws.Output("passing_sight", "Clear road that a passing driver needs", clear, "distance",
                  "with oncoming traffic"),
    ]  # fmt: skip


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Solve for the speed, road, view and length that would do."""
    broken = {check.name for check in outcome.checks if check.margin < 0}
    remedies = _seen_remedies(v, outcome, broken, solve) + _pull_remedies(v, outcome, broken, solve)
    cautions = [
        ws.Caution(
            "These distances take a driver who is looking, dry level road and good brakes. Many "
            "aren't. Turn the flashers on, keep the emblem clean, and let traffic by where there "
            "is room.", "road/ROAD-practice",
        ),
        ws.Caution(
            "Before a left turn look behind as well as ahead: being passed while turning left is "
            "one of the two commonest crashes.", "road/NC-1",
        ),
        ws.Caution(
            "Rules of the road and the operator's manual come first. Nobody rides along without a "
            "seat and belt.", "road/US-ALL-caution",
        ),
    ]  # fmt: skip
    notes: list[ws.Words] = []
    if v.maneuver != "along":
        notes.append(
            ws.phrase(
                "Highway design lets a car turn left into a gap of {car} and a large truck of "
                "{truck}. Those gaps are for vehicles that speed up to the traffic; a tractor "
                "doesn't, so they aren't used here.",
                car=(sight.gap_time("car", "left"), "seconds"),
                truck=(sight.gap_time("combination truck", "left"), "seconds"),
            )
        )
    return ws.Advice(remedies, cautions, [_difference_table(v)], notes)


def _seen_remedies(
    v: ws.Inputs, outcome: ws.Outcome, broken: set[str], solve: Solver
) -> list[ws.Remedy]:
    remedies = []
    names = tuple(broken & {"slow", "stop"})
    if not names:
        return []
    needed = solve.smallest("sight_distance", v.sight_distance, 2500.0, names)
    if needed is not None:
        remedies.append(
            ws.Remedy(
                ws.phrase(
                    "Be seen from {needed}: clear the verge, stop short of the crest, or post "
                    "somebody with a flag there.", needed=(needed, "distance"),
                ),
                solved(solve, "sight_distance", needed, names, up=True), "road/CALC-1",
            )
        )  # fmt: skip
    traffic = solve.largest("car_speed", 4.5, v.car_speed, names)
    if traffic is not None:
        remedies.append(
            ws.Remedy(
                ws.phrase(
                    "Take a road, or an hour, where traffic goes {speed} or less.",
                    speed=(traffic, "speed"),
                ),
                solved(solve, "car_speed", traffic, names, up=False), "road/CALC-1",
            )
        )  # fmt: skip
    if "slow" in names:
        own = solve.smallest("road_speed", v.road_speed, 25 * MPH, ("slow",))
        if own is not None:
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        "At {speed} traffic closes slowly enough, if your machine may go that "
                        "fast with this load.", speed=(own, "speed"),
                    ),
                    solved(solve, "road_speed", own, ("slow",), up=True), "road/CALC-1",
                )
            )  # fmt: skip
    return remedies


def _pull_remedies(
    v: ws.Inputs, outcome: ws.Outcome, broken: set[str], solve: Solver
) -> list[ws.Remedy]:
    names = tuple(broken & {"clear", "join"})
    if not names:
        return []
    remedies = []
    needed = solve.smallest("entrance_sight", v.entrance_sight, 2500.0, names)
    if needed is not None:
        remedies.append(
            ws.Remedy(
                ws.phrase(
                    "Pull out where you see {needed} each way, or have somebody watch from where "
                    "that much can be seen.", needed=(needed, "distance"),
                ),
                solved(solve, "entrance_sight", needed, names, up=True), "road/CALC-1",
            )
        )  # fmt: skip
    if "clear" in names:
        length = solve.largest("combination_length", 2.0, v.combination_length, ("clear",))
        if length is not None:
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        "A combination of {length} or less is across in time.",
                        length=(length, "length", "ft"),
                    ),
                    solved(solve, "combination_length", length, ("clear",), up=False),
                    "road/CALC-1",
                )
            )  # fmt: skip
        quicker = solve.smallest("crossing_speed", v.crossing_speed, 6.7, ("clear",))
        if quicker is not None:
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        "Crossing at {speed} is quick enough, if it pulls away like that in one "
                        "gear.", speed=(quicker, "speed"),
                    ),
                    solved(solve, "crossing_speed", quicker, ("clear",), up=True),
                    "road/CALC-1",
                )
            )  # fmt: skip
    return remedies


def _difference_table(v: ws.Inputs) -> ws.Table:
    """What more speed difference costs, at the sight distance given."""
    rows = []
    braking = _braking(v)
    for own in sorted({10 * MPH, 15 * MPH, 20 * MPH, 25 * MPH, v.road_speed}):
        closing = v.car_speed - own
        if closing <= 0.2:
            continue
        gap = sight.slow_down_gap(v.car_speed, own, v.reaction_time, braking) + v.spare_gap
        rows.append(
            (
                (own, "speed"), (closing, "speed"), (v.sight_distance / closing, "seconds"),
                (gap, "distance"), "yes" if gap <= v.sight_distance else "no",
            )
        )  # fmt: skip
    return ws.Table(
        "What more speed difference costs",
        ("Your speed", "Traffic closes at", "Time to contact", "Distance to slow", "Seen in time"),
        tuple(rows),
        "road/CALC-1",
        ws.phrase(
            "Traffic at {car}, seen from {sight}.",
            car=(v.car_speed, "speed"), sight=(v.sight_distance, "distance"),
        ),
    )  # fmt: skip


def picture(v: ws.Inputs, outcome: ws.Outcome) -> list[Picture]:
    """Draw the car closing, moment by moment, and the distance to slow against difference."""
    views: list[Picture] = []
    if v.car_speed > v.road_speed + 0.3:
        views.append(_timeline(v))
    views.append(_gap_chart(v))
    return views


def _timeline(v: ws.Inputs) -> Scene:
    """Rows of the same road, each a moment later; lengths along the road are to scale."""
    braking = _braking(v)
    closing = v.car_speed - v.road_speed
    slowed = v.reaction_time + closing / braking
    contact = v.sight_distance / closing
    gap = sight.slow_down_gap(v.car_speed, v.road_speed, v.reaction_time, braking)
    met = gap > v.sight_distance
    moments: list[tuple[float, ws.Words, bool]] = [
        (0.0, "comes into view", True),
        (v.reaction_time, "brakes go on", True),
    ]
    if met:
        # The gap closes while braking: closing t - a (t - tr)²/2 = d.
        root = closing**2 + 2 * braking * (closing * v.reaction_time - v.sight_distance)
        hit = v.reaction_time + (closing - max(root, 0.0) ** 0.5) / braking
        if v.sight_distance <= closing * v.reaction_time:
            hit = contact
            moments = moments[:1]
        moments.append((hit, "contact, braking or not" if hit == contact else "contact", True))
    else:
        moments.append((slowed, "as slow as you", True))
        moments.append((contact, "contact without braking", False))
    span = max(time for time, _, _ in moments)
    items: list[Line | Shape | Label] = []
    end = v.sight_distance + v.road_speed * span + v.combination_length
    for row, (time, said, brakes) in enumerate(moments):
        y = -float(row) * 1.6
        rear = v.sight_distance + v.road_speed * time
        braked = max(time - v.reaction_time, 0.0) if brakes else 0.0
        car = v.car_speed * time - braking * braked**2 / 2
        items += [
            Line([(-CAR_LENGTH, y), (end, y)], "ground"),
            Shape(_box(car - CAR_LENGTH, car, y, 0.30), "accent"),
            Shape(_box(rear, rear + v.combination_length, y, 0.42),
                  "bad" if rear - car < 0.5 else "fill"),
            Label((-CAR_LENGTH, y), ws.phrase("{t}: " + str(said), t=(time, "seconds")), "start",
                  dy=-2.1),
            Label((end, y),
                  ws.phrase("gap {gap}", gap=(max(rear - car, 0.0), "distance")), "end",
                  "soft", dy=-2.1),
        ]  # fmt: skip
    items.append(Line([(0.0, 1.2), (0.0, 1.2)], "soft"))
    return Scene(
        "A car closing on you",
        ws.phrase(
            "Each row is a later moment. The car comes from the left at {car}, you drive at "
            "{own}; lengths along the road are to scale.",
            car=(v.car_speed, "speed"), own=(v.road_speed, "speed"),
        ),
        items,
        to_scale=False,
    )  # fmt: skip


def _box(left: float, right: float, y: float, height: float) -> list[tuple[float, float]]:
    return [(left, y), (right, y), (right, y + height), (left, y + height)]


def _gap_chart(v: ws.Inputs) -> Chart:
    braking = _braking(v)
    most = max(v.car_speed - v.road_speed, 20 * MPH) * 1.25
    steps = [most * i / 20 for i in range(21)]
    gaps = [sight.slow_down_gap(dv, 0.0, v.reaction_time, braking) + v.spare_gap for dv in steps]
    here = max(v.car_speed - v.road_speed, 0.0)
    return Chart(
        "Distance to slow against speed difference",
        ws.phrase(
            "The distance grows faster than the difference. You are seen from {sight}.",
            sight=(v.sight_distance, "distance"),
        ),
        "Traffic faster than you by", "speed", "Distance", "distance",
        [
            Series("distance to slow behind you", steps, gaps, "ink"),
            Series("seen from", [0.0, most], [v.sight_distance] * 2, "good dashed"),
        ],
        [Mark("you", here, sight.slow_down_gap(here, 0.0, v.reaction_time, braking) + v.spare_gap)],
    )  # fmt: skip


WORKSHEET = ws.Worksheet(
    name="closing",
    title="Closing time and sight distance",
    question="How far off must a driver see me, and have I time to pull out?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    page="road/closing",
    example="a tractor with an implement, 24 ft long, at 18 mph on a road posted 55 mph, about "
    "to cross it.",
)
