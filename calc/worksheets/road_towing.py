"""Can my tractor stop what it tows on the road?"""

from __future__ import annotations

from calc import tables
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import braking, sight
from calc.picture import Bar, Bars, Chart, Mark, Picture, Series
from calc.vocabulary import field
from calc.worksheets._solved import solved

MPH, FOOT, KMH = sight.MPH, sight.FOOT, braking.KMH

_RULES = tables.by_key("towed_mass_rules", "rule")
RULES = tuple(ws.Option(key, row["text"]) for key, row in _RULES.items())

FIELDS = (
    field("tractor_kind", default="compact_heavy"),
    field("tractor_mass", default="2,800 lb"),
    ws.Field(
        "towed_mass", "Loaded mass of what you tow", "mass", "50 lb", "60,000 lb",
        "Machine and load together. The plate gives the gross weight; a scale is best.",
        default="4,000 lb", essential=True, group="Behind the tractor",
        typical=ws.Typical(450.0, 2700.0, "road/SIZE-practice", "trailers behind compact tractors"),
    ),
    ws.Choice(
        "trailer_brakes", "Brakes on what you tow",
        (
            ws.Option("none", "None"),
            ws.Option("own", "Its own, working from the tractor"),
        ),
        "A parking brake doesn't count.",
        default="none", essential=True, group="Behind the tractor",
    ),
    ws.Field(
        "road_speed", "Your speed on the road", "speed", "1 mph", "45 mph",
        "With this load.",
        default="15 mph", essential=True, group="On the road",
        typical=ws.Typical(4.5, 11.2, "road/SIZE-practice", "tractors on the road"),
    ),
    ws.Field(
        "grade", "Steepest slope of the trip", "slope", "-25 %", "0 %",
        "Downhill is negative.",
        default="-5 %", essential=True, group="On the road",
        typical=ws.Typical(-0.08, 0.0, "road/SIZE-practice", "country roads"),
    ),
    ws.Field(
        "room", "Room in which you want to stop", "distance", "10 ft", "1,500 ft",
        "What you can see ahead on the worst bend or crest, or the gap you keep.",
        default="150 ft", essential=True, group="On the road",
        typical=ws.Typical(30.0, 90.0, "road/SIZE-practice", "lanes and country roads"),
    ),
    ws.Choice(
        "ratio_rule", "Rule for an unbraked load",
        tuple(option for option in RULES if option.value.startswith("unbraked")),
        "Printed rules differ. For a compact tractor the default takes the load no heavier than "
        "the tractor; the answer lists what the others give.",
        default="unbraked-small", group="Rules",
    ),
    ws.Field(
        "manual_limit", "Towing limit in the manual or on a decal", "mass", "50 lb", "60,000 lb",
        "The tractor's manual, the drawbar decal or the implement's decal: the lowest of them.",
        optional=True, group="Rules",
    ),
    ws.Field(
        "chain_rating", "Rating of the safety chain", "mass", "50 lb", "100,000 lb",
        "On the tag or the hooks. Ask whether it is the working load or the breaking load: the "
        "working load counts.",
        optional=True, group="Behind the tractor",
    ),
    ws.Field(
        "top_speed", "Top speed of the tractor", "speed", "5 mph", "45 mph",
        "In its highest gear; it picks the class of brakes.",
        default="17 mph", group="Brakes",
        typical=ws.Typical(5.4, 11.2, "road/SIZE-practice", "compact and utility tractors"),
    ),
    ws.Field(
        "own_deceleration", "Braking of the tractor alone", "acceleration", "1 ft/s2", "30 ft/s2",
        "From a brake test: speed squared divided by twice the stopping distance. Blank takes "
        "the least that type approval asks of a tractor of this speed.",
        optional=True, group="Brakes",
    ),
    ws.Field(
        "reaction_time", "Time until you brake", "seconds", "0.3 s", "6 s",
        "Highway design uses 2.5 s. The type-approval formula has no driver in it.",
        default="1.5 s", group="Brakes",
        typical=ws.Typical(1.0, 2.5, "road/DOT-1", "drivers, surprised or not"),
    ),
)  # fmt: skip


def _own(v: ws.Inputs) -> float:
    """The tractor's own braking: as tested, else the minimum of its class."""
    if v.own_deceleration is not None:
        return float(v.own_deceleration)
    return float(braking.approval_class(v.top_speed)["deceleration"])


def _combined(v: ws.Inputs) -> float:
    """Braking of the combination on the slope. A load with its own brakes brakes itself."""
    unbraked = v.towed_mass if v.trailer_brakes == "none" else 0.0
    return braking.towing_deceleration(_own(v), v.tractor_mass, unbraked, v.grade)


def _ratio_rule(v: ws.Inputs) -> str:
    if v.trailer_brakes == "none":
        return str(v.ratio_rule)
    return "braked-40" if braking.rule_covers("braked-40", v.road_speed) else "braked-50"


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return the checks of mass, speed, stopping and chain."""
    rule = _ratio_rule(v)
    limit = braking.mass_limit(rule, v.tractor_mass)
    source = _RULES[rule]["source"]
    left = _combined(v)
    delay = v.reaction_time
    stop = braking.stopping_distance(v.road_speed, left, delay)
    alone_left = braking.towing_deceleration(_own(v), v.tractor_mass, 0.0, v.grade)
    alone = braking.stopping_distance(v.road_speed, alone_left, delay)
    checks = [
        ws.at_most(
            "ratio", "Towed mass against the tractor", v.towed_mass, limit, "mass", source,
            why="The load pushes the tractor instead of stopping with it.",
        ),
        ws.fits(
            "holds", "Braking left on the downgrade", 1.0 if left > 0 else -1.0,
            "The brakes overcome the slope" if left > 0 else
            "On this slope the load pushes harder than the brakes can hold: it does not stop",
            "road/EU2-memory; road/CALC-1",
            why="It would run away.",
        ),
    ]  # fmt: skip
    top = _RULES[rule]["speed_to_kmh"]
    if top:
        checks.append(
            ws.at_most(
                "rule_speed", "Speed that the mass rule is for", v.road_speed,
                float(top) * KMH + 0.25 * KMH, "speed", source,
                why="The rule says nothing for a faster trip.",
            )
        )  # fmt: skip
    if left > 0:
        checks.append(
            ws.at_most(
                "room", "Stopping within the room you have", stop, v.room, "distance",
                "road/EU-2; road/EU2-memory",
                why="You can't stop for what stands beyond the bend.",
            )
        )  # fmt: skip
    if v.manual_limit is not None:
        checks.append(
            ws.at_most(
                "manual", "Limit in the manual or on the decal", v.towed_mass, v.manual_limit,
                "mass", "road/MAN-2", why="The maker's limit comes before any rule of thumb.",
            )
        )  # fmt: skip
    if v.chain_rating is not None:
        checks.append(
            ws.at_least(
                "chain", "Safety chain", v.chain_rating, v.towed_mass, "mass",
                "road/MAN-2; road/STD-4", close_band=0.0,
                why="It breaks when the drawbar pin does.",
            )
        )  # fmt: skip
    outputs = [
        ws.Output("ratio_now", "Towed mass to tractor", v.towed_mass / v.tractor_mass, "count"),
        ws.Output("limit", "Most you may tow by this rule", limit, "mass"),
        ws.Output("alone", "Stop of the tractor alone", alone, "distance", "driver included"),
    ]
    if left > 0:
        outputs += [
            ws.Output("stop", "Stop with this load", stop, "distance", "driver included"),
            ws.Output("longer", "Longer than alone", stop - alone, "distance"),
        ]
    outputs.append(
        ws.Output("left", "Braking left with the load on the slope", left, "acceleration")
    )
    if work.on:
        _steps(v, work, left, stop, limit, source)
    return ws.Outcome(checks, outputs)


def _steps(
    v: ws.Inputs, work: ws.Work, left: float, stop: float, limit: float, source: str
) -> None:
    work.step("Most you may tow", "m", "ratio × tractor", (("tractor", v.tractor_mass, "mass"),),
              limit, "mass", source)  # fmt: skip
    unbraked = v.towed_mass if v.trailer_brakes == "none" else 0.0
    work.step("Braking of the combination", "d", "d₀ m_t / (m_t + m_u) + g sin(slope)",
              (("d₀", _own(v), "acceleration"), ("m_t", v.tractor_mass, "mass"),
               ("m_u", unbraked, "mass"), ("slope", v.grade, "slope")),
              left, "acceleration", "road/EU2-memory; road/CALC-1")  # fmt: skip
    if left > 0:
        work.step("Stop", "s", "v (tᵣ + 0.54 s) + v² / (2 d)",
                  (("v", v.road_speed, "speed"), ("tᵣ", v.reaction_time, "seconds"),
                   ("d", left, "acceleration")), stop, "distance",
                  "road/EU-2; road/CALC-1")  # fmt: skip


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Solve for the load, the speed and the tractor that would do."""
    broken = tuple(check.name for check in outcome.checks if check.margin < 0)
    remedies = []
    if broken:
        mass = solve.largest("towed_mass", 10.0, v.towed_mass)
        if mass is not None and mass < v.towed_mass:
            remedies.append(
                ws.Remedy(
                    ws.phrase("{mass} behind you stays within every check.", mass=(mass, "mass")),
                    solved(solve, "towed_mass", mass, up=False), "road/CALC-1",
                )
            )  # fmt: skip
        if set(broken) & {"room", "rule_speed"}:
            remedies += _slower(v, solve)
        remedies += _heavier(v, broken, solve)
        if v.trailer_brakes == "none" and solve.run(trailer_brakes="own").margin() >= 0:
            remedies.append(
                ws.Remedy(
                    "With brakes of its own that work from the tractor this load stays within "
                    "every check.", {"trailer_brakes": "own"}, "road/MAN-2",
                )
            )  # fmt: skip
        if "chain" in broken:
            remedies.append(
                ws.Remedy(
                    ws.phrase("Fit a chain rated {mass} or more.", mass=(v.towed_mass, "mass")),
                    solved(solve, "chain_rating", v.towed_mass, ("chain",), up=True), "road/MAN-2",
                )
            )  # fmt: skip
    return ws.Advice(remedies, _cautions(), [_rule_table(v)], [_approval_note(v)])


def _slower(v: ws.Inputs, solve: Solver) -> list[ws.Remedy]:
    speed = solve.largest("road_speed", 0.5, v.road_speed, ("room", "rule_speed"))
    if speed is None:
        return []
    return [
        ws.Remedy(
            ws.phrase("At {speed} it stops within the room you have.", speed=(speed, "speed")),
            solved(solve, "road_speed", speed, ("room", "rule_speed"), up=False), "road/CALC-1",
        )
    ]  # fmt: skip


def _heavier(v: ws.Inputs, broken: tuple[str, ...], solve: Solver) -> list[ws.Remedy]:
    names = tuple(name for name in broken if name in ("ratio", "holds", "room"))
    if not names:
        return []
    needed = solve.smallest("tractor_mass", v.tractor_mass, v.tractor_mass * 6, names)
    if needed is None:
        return []
    return [
        ws.Remedy(
            ws.phrase(
                "A tractor of {mass}, ballast and operator included, may pull this load.",
                mass=(needed, "mass"),
            ),
            solved(solve, "tractor_mass", needed, names, up=True), "road/CALC-1",
        )
    ]  # fmt: skip


def _allows(row: tables.Row, mass: float, limit: float) -> bool:
    """Some rules say "below", others "no more than"."""
    return mass < limit if row["ratio_reached_is_over"] == "yes" else mass <= limit


def _rule_table(v: ws.Inputs) -> ws.Table:
    rows = []
    for key, row in _RULES.items():
        if (row["brakes"] == "none") != (v.trailer_brakes == "none"):
            continue
        limit = braking.mass_limit(key, v.tractor_mass)
        rows.append(
            (
                row["text"], (limit, "mass"),
                "yes" if braking.rule_covers(key, v.road_speed) else "no, you go faster",
                "yes" if _allows(row, v.towed_mass, limit) else "no",
            )
        )  # fmt: skip
    return ws.Table(
        "What the printed rules allow",
        ("Rule", "Most for this tractor", "Meant for your speed", "This load"),
        tuple(rows),
        "; ".join(dict.fromkeys(row["source"] for row in _RULES.values())),
        "The lowest of the implement's decal, the tractor's manual, this table and the law counts.",
    )


def _approval_note(v: ws.Inputs) -> ws.Words:
    return ws.phrase(
        "At {speed} type approval accepts a stop in {bare} with no driver reaction in it. Don't "
        "set that beside road-design distances, which count 2.5 s of reaction.",
        speed=(v.road_speed, "speed"),
        bare=(braking.approval_stopping_distance(v.road_speed, v.top_speed), "distance"),
    )


def _cautions() -> list[ws.Caution]:
    return [
        ws.Caution(
            "Lock the brake pedals together on the road. Go down hills in the gear you would climb "
            "them in; never coast.", "road/ROAD-practice",
        ),
        ws.Caution(
            "A load pulled from above the drawbar can tip the tractor over backward. Tow from the "
            "drawbar only.", "road/ROAD-practice",
        ),
        ws.Caution(
            "These distances take dry, level pavement side to side, even brakes and tires that "
            "grip. On gravel or in the wet they are much longer. The manuals of both machines and "
            "local rules come first.", "road/ROAD-practice",
        ),
    ]  # fmt: skip


def picture(v: ws.Inputs, outcome: ws.Outcome) -> list[Picture]:
    """Draw the stopping distances as bars and against speed."""
    own, delay = _own(v), v.reaction_time
    left = _combined(v)
    bars = [
        Bar("Reaction and brake delay alone",
            v.road_speed * (delay + braking.DELAY_PER_SPEED), style="soft"),
        Bar("Tractor alone, level", braking.stopping_distance(v.road_speed, own, delay)),
        Bar("Tractor alone, on this slope", outcome.output("alone")),
    ]  # fmt: skip
    if left > 0:
        bars.append(
            Bar("With this load, on this slope", outcome.output("stop"),
                style="bad" if outcome.output("stop") > v.room else "accent")
        )  # fmt: skip
    bars.append(Bar("Room that you have", v.room, style="good"))
    said = "" if left > 0 else " With this load it does not stop on this slope."
    views: list[Picture] = [
        Bars(
            "Stopping distance",
            ws.phrase("From {speed}." + said, speed=(v.road_speed, "speed")),
            "distance",
            bars,
        )
    ]
    speeds = [v.road_speed * 1.5 * i / 20 for i in range(21)]
    series = [
        Series("tractor alone, on this slope",
               speeds, [braking.stopping_distance(
                   s, braking.towing_deceleration(own, v.tractor_mass, 0.0, v.grade), delay)
                   for s in speeds], "soft")
    ] if braking.towing_deceleration(own, v.tractor_mass, 0.0, v.grade) > 0 else []  # fmt: skip
    if left > 0:
        series.append(
            Series("with this load", speeds,
                   [braking.stopping_distance(s, left, delay) for s in speeds], "ink")
        )  # fmt: skip
        series.append(Series("room", [0.0, speeds[-1]], [v.room, v.room], "good dashed"))
        views.append(
            Chart(
                "Stopping distance against speed",
                "Braking distance grows with the square of speed.",
                "Speed", "speed", "Distance", "distance", series,
                [Mark("you", v.road_speed, outcome.output("stop"))],
            )
        )  # fmt: skip
    return views


WORKSHEET = ws.Worksheet(
    name="road-towing",
    title="Stopping with a load",
    question="Can my tractor stop what it tows on the road?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    page="road/towing",
    example="a heavier-frame compact of 2,800 lb with an unbraked trailer of 4,000 lb, at 15 mph.",
)
