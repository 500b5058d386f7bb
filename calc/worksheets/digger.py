"""Post hole digger: does it reach, does it clear, is there power, and what breaks first."""

import math

from calc import tables, vocabulary
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import digger, driveline, pto
from calc.picture import Dimension, Disc, Label, Line, Scene, Shape
from calc.worksheets._shear_bolt import INCH, STUB, fields, inches

RATED_SPEED = 540.0
TRANSPORT_CLEARANCE = 0.10  # between holes, on even ground
BOLT_PLANES = 2  # the bolt goes through the shaft
USUAL = "value/DIGGER-memory"
TRACTOR, DIGGER, BOLT, JOB = "Tractor", "Digger", "Shear bolt", "Job"


def _soils() -> tuple[ws.Option, ...]:
    return tuple(ws.Option(r["key"], r["name"], r["note"]) for r in tables.rows("digger_soils"))


def _compact(low: float, high: float) -> ws.Typical:
    return ws.Typical(low, high, USUAL, "compact tractors and their diggers")


FIELDS: tuple[ws.AnyField, ...] = (
    vocabulary.field("tractor_kind"),
    vocabulary.field("pto_power", default="19 hp"),
    ws.Field(
        "pto_speed", "PTO speed while digging", "rotation", "100 rpm", "1,100 rpm",
        "From the tachometer's PTO mark: 540 rpm at the mark, less below it.",
        default="540 rpm", typical=ws.Typical(250.0, 540.0, "value/P6d", "digging"),
        group=TRACTOR,
    ),
    ws.Field(
        "bracket_height", "Height of the boom pin", "length", "12 in", "60 in",
        "From the ground to the hole of the top-link bracket that the boom pins to.",
        default="30 in", typical=_compact(0.60, 0.90), essential=True, group=TRACTOR,
    ),
    ws.Field(
        "link_low", "Lower link balls, lowest", "length", "2 in", "40 in",
        "Lever fully down: from the ground to the middle of a ball.",
        default="9 in", typical=_compact(0.18, 0.30), essential=True, group=TRACTOR,
    ),
    ws.Field(
        "link_high", "Lower link balls, highest", "length", "12 in", "70 in",
        "Lever fully up: from the ground to the middle of a ball.",
        default="33 in", typical=_compact(0.70, 0.90), essential=True, group=TRACTOR,
    ),
    ws.Field(
        "link_spread", "Lower link balls, apart", "length", "14 in", "44 in",
        "Middle of one ball to the middle of the other. Only for the note on the yoke.",
        default="28 in", optional=True, group=TRACTOR,
    ),
    vocabulary.field("quick_coupler"),
    ws.Field(
        "stub_height", "Height of the PTO stub", "length", "8 in", "40 in",
        "From the ground to the middle of the splined shaft.",
        default="21 in", typical=_compact(0.45, 0.65), group=TRACTOR,
    ),
    ws.Field(
        "stub_behind", "PTO stub end behind the boom pin", "length", "-20 in", "20 in",
        "Hang a string from the boom pin: how far behind it the stub ends. Minus when the stub "
        "ends ahead of it.",
        default="0 in", typical=_compact(-0.10, 0.10), group=TRACTOR,
    ),
    ws.Field(
        "boom_length", "Boom, pin to gearbox center", "length", "24 in", "120 in",
        "Along the boom, from the pin at the tractor to above the auger's shaft.",
        default="62 in", typical=_compact(1.40, 1.75), essential=True, group=DIGGER,
    ),
    ws.Field(
        "yoke_distance", "Boom, pin to yoke", "length", "10 in", "100 in",
        "Along the boom, from the pin at the tractor to the pin of the yoke. Many booms have "
        "several holes.",
        default="30 in", typical=_compact(0.65, 0.90), essential=True, group=DIGGER,
    ),
    ws.Field(
        "yoke_rise", "Yoke, link balls to boom", "length", "0 in", "40 in",
        "Upright distance from the link balls to the yoke's pin on the boom.",
        default="8 in", typical=_compact(0.10, 0.25), group=DIGGER,
    ),
    ws.Field(
        "auger_diameter", "Auger diameter", "length", "4 in", "30 in",
        "Across the cutting edge.",
        default="9 in", typical=_compact(0.15, 0.31), essential=True, group=DIGGER,
    ),
    ws.Field(
        "auger_length", "Gearbox center to auger point", "length", "18 in", "90 in",
        "From the middle of the gearbox's input shaft down to the tip of the point.",
        default="48 in", typical=_compact(1.05, 1.35), essential=True, group=DIGGER,
    ),
    ws.Field(
        "housing_clearance", "Gearbox center above ground at full depth", "length",
        "0 in", "30 in",
        "Half the gearbox, its guard and the heap of soil: it must not plow.",
        default="8 in", typical=_compact(0.15, 0.25), group=DIGGER,
    ),
    ws.Field(
        "gearbox_input", "Gearbox input ahead of the auger", "length", "0 in", "24 in",
        "From the auger's center forward to the groove of the gearbox's input shaft.",
        default="6 in", typical=_compact(0.10, 0.20), group=DIGGER,
    ),
    ws.Field(
        "gear_ratio", "Gear ratio", "count", "1", "8",
        "Turns of the input for one turn of the auger; about 3 on most.",
        default="3", typical=ws.Typical(2.8, 3.2, "value/AUGER-memory", "PTO diggers"),
        group=DIGGER,
    ),
    *fields(BOLT, "3/8"),
    ws.Field(
        "shaft_diameter", "Shaft that the bolt goes through", "length", "0.5 in", "4 in",
        "The implement's shaft, usually the size of the PTO stub.",
        default="1-3/8 in",
        typical=ws.Typical(STUB, STUB, "hitch/S5", "the size of the PTO stub"),
        group=BOLT,
    ),
    ws.Choice(
        "soil", "Soil", _soils(),
        "Squeeze a damp handful: sand falls apart, loam crumbles, clay stays a smooth lump.",
        default="loam", unsure=("sand", "loam", "clay"), essential=True, group=JOB,
    ),
    ws.Field(
        "depth_wanted", "Depth of hole wanted", "length", "6 in", "84 in",
        "From the surface down.",
        default="36 in", typical=ws.Typical(0.61, 0.91, "value/PRACTICE", "fence and gate posts"),
        essential=True, group=JOB,
    ),
)  # fmt: skip


def _boom(v: ws.Inputs, height: float) -> digger.BoomPoint | None:
    try:
        return digger.boom_at(height, v.bracket_height, v.boom_length, v.yoke_distance, v.yoke_rise)
    except ValueError:
        return None


def _distance_behind(v: ws.Inputs, gearbox_height: float) -> float:
    """How far behind the boom pin the gearbox is at a height. [m]"""
    sine = (gearbox_height - v.bracket_height) / v.boom_length
    return float(v.boom_length * math.sqrt(max(0.0, 1.0 - sine * sine)))


def _shaft(v: ws.Inputs, gearbox_height: float) -> tuple[float, float]:
    """Length of the driveline [m] and its angle [deg] with the gearbox at a height."""
    run = max(0.01, _distance_behind(v, gearbox_height) - v.gearbox_input - v.stub_behind)
    rise = gearbox_height - v.stub_height
    return math.hypot(run, rise), math.degrees(math.atan2(rise, run))


def _shaft_ends(v: ws.Inputs, low: float, high: float) -> tuple[float, float]:
    """Shortest and longest driveline over the lift [m]."""
    lengths = [_shaft(v, low + (high - low) * k / 8.0)[0] for k in range(9)]
    return min(lengths), max(lengths)


def _bolt(v: ws.Inputs) -> float:
    return driveline.shear_bolt(
        v.bolt_size, v.bolt_grade, v.bolt_plane == "thread", BOLT_PLANES, 0.5 * v.shaft_diameter
    ).torque


def _maker_bolt(v: ws.Inputs) -> float:
    """Torque of the bolt that the manual names, at its strongest: shank in the plane."""
    return driveline.shear_bolt("3/8", "grade_2", False, BOLT_PLANES, 0.5 * v.shaft_diameter).torque


def _coupler_check(v: ws.Inputs) -> ws.Check:
    plain = v.quick_coupler != "u_frame"
    return ws.fits(
        "coupler",
        "Top link replaced by the boom",
        1.0 if plain else -1.0,
        "The boom pins to the top-link bracket and the yoke to the lower links."
        if plain
        else "A U-frame coupler has no place for the boom, which pins to the tractor's own "
        "top-link bracket.",
        "hitch/H19",
        why="The digger hangs on the bracket and the lower links alone.",
    )


def _anchor() -> tuple[tuple[str, float, str], ...]:
    """The one power figure of the trade that the others are scaled from, for the working."""
    row = tables.by_key("digger_power", "key")["anchor"]
    return (
        ("P₁₂", float(row["hp"]) * digger.HP, "power"),
        ("f₁₂", digger.soil_factor(row["soil"]), "count"),
        ("D₁₂", float(row["diameter_in"]) * INCH, "length"),
    )


def _speed_check(v: ws.Inputs) -> ws.Check:
    slow = v.pto_speed <= RATED_SPEED
    return ws.fits(
        "speed",
        "Shaft speed",
        1.0 if slow else -1.0,
        ws.phrase(
            "{speed} is within the 540 rpm that the digger is made for."
            if slow
            else "{speed} is more than the 540 rpm that the digger is made for.",
            speed=(v.pto_speed, "rotation"),
        ),
        "value/P6c",
        why="" if slow else "The auger whips and throws, and the driveline can fail.",
    )


def _bolt_check(bolt: float, maker: float) -> ws.Check:
    soft = bolt <= maker * (1.0 + 1e-9)
    return ws.fits(
        "bolt",
        "Shear bolt no stronger than the manual's",
        1.0 if soft else -1.0,
        ws.phrase(
            "It lets go at {bolt}; the manual's 3/8 in grade 2, at its strongest, at {maker}.",
            bolt=(bolt, "torque"),
            maker=(maker, "torque"),
        ),
        "value/P6b",
        why="" if soft else "Something dearer than the bolt breaks first.",
    )


def _power_checks(v: ws.Inputs, work: ws.Work) -> tuple[list[ws.Check], list[ws.Output]]:
    factor = digger.soil_factor(v.soil)
    needed = digger.auger_power(v.auger_diameter, factor)
    needed_torque = pto.torque(needed, RATED_SPEED)
    torque = pto.torque(v.pto_power, RATED_SPEED)
    share = min(1.0, v.pto_speed / RATED_SPEED)
    auger_torque = digger.auger_torque(torque, v.gear_ratio)
    bolt, maker = _bolt(v), _maker_bolt(v)
    if work.on:
        work.step(
            "Power the auger asks for at 540 rpm",
            "P",
            "P₁₂ f / f₁₂ × (D / D₁₂)²",
            (*_anchor(), ("D", v.auger_diameter, "length"), ("f", factor, "count")),
            needed,
            "power",
            "value/P7; power/PRACTICE; value/AUGER-memory",
        )
        work.step(
            "Torque of the tractor at the shaft",
            "T",
            "P / ω",
            (("P", v.pto_power, "power"), ("n", RATED_SPEED, "rotation")),
            torque,
            "torque",
            "power/S5",
        )
        work.step(
            "Torque at the auger",
            "Tₐ",
            "T i η",
            (("T", torque, "torque"), ("i", v.gear_ratio, "count"), ("η", 0.95, "fraction")),
            auger_torque,
            "torque",
            "value/DERIVED",
        )
        work.step(
            "Torque at which the bolt shears", "T_b", "2 τ A d/2",
            (("τ A", bolt / v.shaft_diameter, "force"), ("d", v.shaft_diameter, "length")),
            bolt, "torque", "value/P5; value/P10",
        )  # fmt: skip
    checks = [
        ws.at_most(
            "power", "Power for the auger at 540 rpm", needed, v.pto_power, "power",
            "value/P7; power/PRACTICE",
            why="The engine stalls or the bolt shears in every hole.",
        ),
        _speed_check(v),
        _bolt_check(bolt, maker),
        ws.at_least(
            "bolt_work", "Shear bolt strong enough for the job", bolt, needed_torque, "torque",
            "value/DERIVED", why="It would shear in ordinary digging.",
        ),
    ]  # fmt: skip
    outputs = [
        ws.Output("power_needed", "Power the auger asks for", needed, "power",
                  "at 540 rpm, from trade custom and the square of the diameter"),
        ws.Output("power_left", "PTO power at the speed you dig at", v.pto_power * share, "power",
                  "if the torque stays the same below 540 rpm"),
        ws.Output("torque", "PTO torque at the shaft", torque, "torque"),
        ws.Output("auger_torque", "Torque at the auger", auger_torque, "torque",
                  "what turns the boom, the yoke or a person if the auger stops"),
        ws.Output("auger_speed", "Auger speed", v.pto_speed / v.gear_ratio, "rotation"),
        ws.Output("bolt_torque", "Shear bolt lets go at", bolt, "torque",
                  "new and static; real bolts scatter by about a fifth"),
        ws.Output("bolt_times", "Bolt torque over the tractor's", bolt / torque, "count"),
    ]  # fmt: skip
    if _soil_row(v)["diggable"] == "no":
        checks.append(
            ws.fits(
                "soil", "Soil that an auger can cut", -1.0,
                "An auger polishes dry, hard clay and shale and kicks the tractor about.",
                "value/AUGER-memory",
            )
        )  # fmt: skip
    return checks, outputs


def _soil_row(v: ws.Inputs) -> tables.Row:
    return tables.by_key("digger_soils", "key")[v.soil]


def _lift_check(follows: bool) -> ws.Check:
    return ws.fits(
        "lift",
        "Lift that the boom can follow",
        1.0 if follows else -1.0,
        "The yoke reaches the boom over the whole lift."
        if follows
        else "With these sizes the boom would have to pass the upright, or the links are no "
        "higher raised than lowered: measure the heights and the boom again.",
        "value/DERIVED",
    )


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Give the checks and numbers at one set of values."""
    checks, outputs = _power_checks(v, work)
    checks.insert(0, _coupler_check(v))
    low = _boom(v, v.link_low)
    high = _boom(v, v.link_high) if v.link_high > v.link_low else None
    checks.append(_lift_check(low is not None and high is not None))
    if low is None or high is None:
        return ws.Outcome(checks, outputs)
    found = digger.reach(
        low, high, v.bracket_height, v.boom_length, v.auger_length, v.housing_clearance
    )
    start = min(v.auger_length, high.gearbox_height)
    deep = min(start, max(low.gearbox_height, v.housing_clearance))
    digging_angle = max(abs(_shaft(v, start)[1]), abs(_shaft(v, deep)[1]))
    raised_angle = abs(_shaft(v, high.gearbox_height)[1])
    shortest, longest = _shaft_ends(v, low.gearbox_height, high.gearbox_height)
    if work.on:
        _show_reach(v, work, low, high, found)
    checks += [
        ws.at_least(
            "clearance", "Point above ground when raised", found.tip_clearance,
            TRANSPORT_CLEARANCE, "length", "value/PRACTICE",
            why="The auger drags between holes, and can't be set on the mark.",
        ),
        ws.at_least(
            "depth", "Depth of hole", found.depth, v.depth_wanted, "length", "value/DERIVED",
            why="The boom or the housing is down before the hole is deep enough.", close_band=0.0,
        ),
        ws.at_most(
            "angle", "Joint angle while digging", digging_angle, 35.0, "angle", "hitch/H18b",
            why="A standard joint knocks, wears and can come apart.",
        ),
    ]  # fmt: skip
    outputs += [
        ws.Output("depth", "Depth it can dig", found.depth, "length"),
        ws.Output("tip_clearance", "Point above ground when raised", found.tip_clearance,
                  "length"),
        ws.Output("gearbox_low", "Gearbox height, lowered", low.gearbox_height, "length",
                  "below zero means that the ground stops it first"),
        ws.Output("gearbox_high", "Gearbox height, raised", high.gearbox_height, "length"),
        ws.Output("travel_ratio", "Gearbox travel for each inch of lift",
                  v.boom_length / v.yoke_distance, "count"),
        ws.Output("drift", "Walk of the gearbox while it digs", found.drift, "length",
                  "how far to creep the tractor so that the hole stays plumb"),
        ws.Output("lean", "Lean of the auger if the tractor stands still",
                  math.degrees(found.lean), "angle"),
        ws.Output("digging_angle", "Largest joint angle while digging", digging_angle, "angle"),
        ws.Output("raised_angle", "Joint angle fully raised", raised_angle, "angle",
                  "stop the PTO before you raise it this far" if raised_angle > 35.0 else ""),
        ws.Output("shaft_shortest", "Driveline, shortest", shortest, "length",
                  "groove to groove, for the driveline worksheet"),
        ws.Output("shaft_longest", "Driveline, longest", longest, "length"),
        ws.Output("spoil", "Soil out of the hole",
                  digger.hole_volume(v.auger_diameter, min(found.depth, v.depth_wanted)),
                  "volume", "undisturbed; it heaps up to more"),
    ]  # fmt: skip
    return ws.Outcome(checks, outputs)


def _show_reach(
    v: ws.Inputs,
    work: ws.Work,
    low: digger.BoomPoint,
    high: digger.BoomPoint,
    found: digger.Reach,
) -> None:
    for name, point in (("lowered", low), ("raised", high)):
        work.step(
            f"Gearbox height, {name}", "z", "z_A + L (z_l + y − z_A) / a",
            (("z_A", v.bracket_height, "length"), ("L", v.boom_length, "length"),
             ("z_l", point.link_height, "length"), ("y", v.yoke_rise, "length"),
             ("a", v.yoke_distance, "length")),
            point.gearbox_height, "length", "value/DERIVED",
        )  # fmt: skip
    work.step(
        "Depth of hole", "h", "min(z_high, L_a) − max(z_low, c)",
        (("z_high", high.gearbox_height, "length"), ("L_a", v.auger_length, "length"),
         ("z_low", low.gearbox_height, "length"), ("c", v.housing_clearance, "length")),
        found.depth, "length", "value/DERIVED",
    )  # fmt: skip
    low_end = max(low.gearbox_height, v.housing_clearance)
    high_end = min(v.auger_length, high.gearbox_height)
    start, deep = (_distance_behind(v, height) for height in (high_end, min(low_end, high_end)))
    work.step(
        "Walk of the gearbox", "D", "|x_start − x_deep|",
        (("x_start", start, "length"), ("x_deep", deep, "length")), found.drift, "length",
        "value/DERIVED",
    )  # fmt: skip


def _reach_remedies(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> list[ws.Remedy]:
    remedies = []
    if outcome.margin(("clearance",)) < 0 and outcome.check("clearance"):
        longest = solve.largest("auger_length", 0.46, v.auger_length, ("clearance",))
        if longest is not None:
            depth = solve.run(auger_length=longest).output("depth")
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        "{length} from gearbox center to point is the longest auger that clears "
                        "the ground; it digs {depth}.",
                        length=(longest, "length"), depth=(depth, "length"),
                    ),
                    {"auger_length": inches(longest, 10)},
                )
            )  # fmt: skip
        # The raised gearbox stands at z_A + L (z_l + y - z_A) / a: solved for a.
        wanted_rise = v.auger_length + TRANSPORT_CLEARANCE - v.bracket_height
        lift = v.link_high + v.yoke_rise - v.bracket_height
        nearer = v.boom_length * lift / wanted_rise if wanted_rise > 0.0 else 0.0
        if (
            0.26 < nearer < v.yoke_distance
            and solve.run(yoke_distance=0.999 * nearer).margin(("clearance", "lift")) >= 0
        ):
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        "A boom hole {distance} or less from the boom pin lifts the point clear: "
                        "the boom then travels farther for the same lift.",
                        distance=(nearer, "length"),
                    ),
                    {"yoke_distance": inches(nearer, 10)},
                )
            )
    if outcome.margin(("depth",)) < 0 and outcome.check("depth"):
        least = solve.smallest("auger_length", v.auger_length, 2.28, ("depth",))
        if least is not None and solve.run(auger_length=least).margin(("clearance",)) >= 0:
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        "An auger {length} from gearbox center to point reaches the depth and "
                        "still clears the ground.",
                        length=(least, "length"),
                    ),
                    {"auger_length": inches(least, 10, up=True)},
                )
            )
        remedies.append(
            ws.Remedy(
                ws.phrase(
                    "As it stands, {depth} is the deepest hole.",
                    depth=(outcome.output("depth"), "length"),
                ),
                {"depth_wanted": inches(outcome.output("depth"), 10)},
            )
        )
    if outcome.margin(("angle",)) < 0 and outcome.check("angle"):
        shorter = solve.largest("auger_length", 0.46, v.auger_length, ("angle",))
        if shorter is not None:
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        "With an auger of {length} the gearbox starts low enough for a standard "
                        "joint.",
                        length=(shorter, "length"),
                    ),
                    {"auger_length": inches(shorter, 10)},
                )
            )
    return remedies


def _power_remedies(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> list[ws.Remedy]:
    remedies = []
    if outcome.margin(("power",)) < 0:
        widest = solve.largest("auger_diameter", 0.10, v.auger_diameter, ("power",))
        if widest is not None:
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        "{width} is the widest auger that this power turns in this soil.",
                        width=(widest, "length"),
                    ),
                    {"auger_diameter": inches(widest, 10)},
                )
            )
    if outcome.margin(("bolt", "bolt_work")) < 0:
        radius = 0.5 * v.shaft_diameter
        needed = pto.torque(outcome.output("power_needed"), RATED_SPEED)
        for bolt in reversed(driveline.bolts_between(needed, _maker_bolt(v), BOLT_PLANES, radius)):
            plane = "threads" if bolt.threads_in_plane else "smooth shank"
            remedies.append(
                ws.Remedy(
                    ws.phrase(
                        f"A {bolt.size} in grade 2 bolt with its {plane} in the shear plane lets "
                        "go at {torque}.",
                        torque=(bolt.torque, "torque"),
                    ),
                    {
                        "bolt_size": bolt.size,
                        "bolt_grade": bolt.grade,
                        "bolt_plane": "thread" if bolt.threads_in_plane else "shank",
                    },
                    "value/P6b",
                )
            )
            break
    if outcome.margin(("speed",)) < 0:
        remedies.append(ws.Remedy("Run the shaft at 540 rpm or slower.", {"pto_speed": "540 rpm"}))
    return remedies


CAUTIONS = (
    ws.Caution("Everybody else stays 25 ft (7.6 m) away, and nobody ever pushes on the boom or "
               "rides it to make it dig.", "value/P6c"),
    ws.Caution("A turning auger winds up sleeves, cords and gloves. Keep the shields on; PTO off, "
               "engine off and key out before you step near.", "value/P6d"),
    ws.Caution("Call before you dig: gas, power, water and phone lines are yours to have marked. "
               "In the United States dial 811.", "value/PRACTICE"),
    ws.Caution("Stuck auger: PTO off, engine off, key out, then turn it back with a wrench. Never "
               "hoist hard with it jammed; the front of the tractor comes up.", "value/DERIVED"),
    ws.Caution("Never enlarge a smaller hole: without a center the auger runs off and the boom "
               "swings.", "value/P7"),
    ws.Caution("Check by hand, engine off, that the boom clears the bracket, the seat and the "
               "roll-over frame in every position, and that the driveline neither bottoms nor "
               "parts. The digger's own manual comes before this page.", "value/P6a"),
)  # fmt: skip


def _setup_table(v: ws.Inputs) -> ws.Table:
    rows: list[tuple[ws.Cell, ...]] = [
        ("Take the top link off; pin the boom to the top-link bracket",),
        ("Swing the drawbar aside or take it off",),
        ("Sway chains or blocks tight",),
    ]
    rules = tables.by_key("digger_rules", "key")
    if v.link_spread is not None:
        outside = float(rules["pins_outside"]["value"]) * INCH
        inside = float(rules["pins_inside"]["value"]) * INCH
        if v.link_spread >= outside:
            rows.append(("Links as wide as yours: lower pins on the outside of the yoke legs",))
        elif v.link_spread <= inside:
            rows.append(("Links as narrow as yours: lower pins on the inside of the yoke legs",))
        else:
            rows.append(("Your links are between the manual's two cases: try the yoke both ways",))
    rows += [
        ("Bushings on Category 1 pins in Category 2 balls",),
        (
            ws.phrase(
                "Set the point about {start} behind the gearbox center, then start slowly",
                start=(float(rules["start"]["value"]) * INCH, "length"),
            ),
        ),
        ("Shear bolt of the grade and size in the manual, and spares in the toolbox",),
    ]
    return ws.Table("Before the first hole", ("Step",), tuple(rows), "value/P6a", checklist=True)


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Give remedies, cautions and the steps before the first hole."""
    remedies = []
    if v.quick_coupler == "u_frame":
        remedies.append(
            ws.Remedy("Take the coupler off and use the plain lower links.",
                      {"quick_coupler": "none"})
        )  # fmt: skip
    remedies += _reach_remedies(v, outcome, solve) + _power_remedies(v, outcome, solve)
    row = _soil_row(v)
    if row["diggable"] == "no":
        remedies.append(ws.Remedy("Wet the spot for a day, and try again once it cuts as clay.",
                                  {"soil": "clay"}))  # fmt: skip
    notes: list[ws.Words] = [f"{row['name']}: {row['note']}"]
    if v.pto_speed < RATED_SPEED:
        notes.append(
            ws.phrase(
                "At {speed} the tractor gives about {left}, not its rated {full}: the hole takes "
                "longer, the torque is about the same.",
                speed=(v.pto_speed, "rotation"),
                left=(outcome.output("power_left"), "power"),
                full=(v.pto_power, "power"),
            )
        )
    powers = tables.by_key("digger_power", "key")
    notes.append(
        ws.phrase(
            "One maker of light diggers asks for tractors of {low} to {high} and an engine speed "
            "of {speed} at most: slower is gentler on everything.",
            low=(float(powers["tractor_low"]["hp"]) * digger.HP, "power"),
            high=(float(powers["tractor_high"]["hp"]) * digger.HP, "power"),
            speed=(
                float(tables.by_key("digger_rules", "key")["engine_speed"]["value"]),
                "rotation",
            ),
        )
    )
    return ws.Advice(remedies, CAUTIONS, [_setup_table(v)], notes)


def _auger(x: float, top: float, v: ws.Inputs, style: str) -> list[Line | Shape]:
    """Auger hanging below the gearbox, with a few flights."""
    half, tip = 0.5 * v.auger_diameter, top - v.auger_length
    flights = min(0.75 * v.auger_length, v.auger_length - 0.12)
    base = tip + 0.06
    points = []
    for k in range(9):
        side = half if k % 2 else -half
        points.append((x + side, base + flights * k / 8.0))
    return [
        Line([(x, top), (x, tip)], f"{style} thick"),
        Line(points, style),
        Line([(x - half, base), (x, tip), (x + half, base)], style),
    ]


def picture(v: ws.Inputs, outcome: ws.Outcome) -> Scene | None:
    """Side view, to scale: boom lowered and raised, auger, hole, driveline."""
    low, high = _boom(v, v.link_low), _boom(v, v.link_high)
    if low is None or high is None or v.link_high <= v.link_low:
        return None
    depth, clearance = outcome.output("depth"), outcome.output("tip_clearance")
    deep_height = min(max(low.gearbox_height, v.housing_clearance), high.gearbox_height)
    link = digger.link_height_for(
        deep_height, v.bracket_height, v.boom_length, v.yoke_distance, v.yoke_rise
    )
    deep = _boom(v, link) or low
    pin = (0.0, v.bracket_height)
    wheel = 0.62 * v.bracket_height
    back, half = v.boom_length + 0.9, 0.5 * v.auger_diameter
    left = -1.5 * wheel - 0.2
    items: list[Line | Shape | Disc | Label | Dimension] = [
        Shape(
            [(deep.gearbox_distance - half, 0), (deep.gearbox_distance - half, -depth),
             (deep.gearbox_distance + half, -depth), (deep.gearbox_distance + half, 0)],
            "soft",
        ),
        Line([(left, 0), (back, 0)], "ground"),
        Disc((left + wheel + 0.1, wheel), wheel, "soft", hole=True),
        Disc((left + wheel + 0.1, wheel), 0.05, "soft"),
        Line([(left + wheel + 0.1, wheel), (0, v.bracket_height - 0.25), pin], "soft thick"),
    ]  # fmt: skip
    for point, style in ((deep, "soft"), (high, "ink")):
        share = v.yoke_distance / v.boom_length
        yoke = (
            point.gearbox_distance * share,
            v.bracket_height + (point.gearbox_height - v.bracket_height) * share,
        )
        gearbox = (point.gearbox_distance, point.gearbox_height)
        items += [
            Line([pin, gearbox], f"{style} thick"),
            Line([yoke, (yoke[0], point.link_height)], style),
            Line([(-0.1, 0.6 * v.bracket_height), (yoke[0], point.link_height)], style),
            Line(
                [(v.stub_behind, v.stub_height), (gearbox[0] - v.gearbox_input, gearbox[1])],
                "accent dashed",
            ),
            *_auger(gearbox[0], gearbox[1], v, style),
            Disc(gearbox, 0.08, style),
        ]
    items += [
        Disc(pin, 0.04, "accent"),
        Label(pin, "boom pin", dy=-1.2),
        Label((high.gearbox_distance, high.gearbox_height), "raised", dy=-1.2),
        Dimension(
            (deep.gearbox_distance + half, 0), (deep.gearbox_distance + half, -depth),
            ws.phrase("{d} deep", d=(depth, "length")), 0.15,
        ),
    ]  # fmt: skip
    if clearance > 0.02:
        side = max(deep.gearbox_distance, high.gearbox_distance) + half
        items.append(
            Dimension(
                (side, clearance), (side, 0), ws.phrase("{c} clear", c=(clearance, "length")), 0.15
            )
        )
    return Scene(
        "Digger through its lift",
        ws.phrase(
            "Side view to scale: the gearbox travels from {low} to {high} above the ground, the "
            "hole is {depth} deep, and the raised point stands {clear} above the ground. The "
            "dashed line is the driveline; the wheel is not from your numbers.",
            low=(deep.gearbox_height, "length"), high=(high.gearbox_height, "length"),
            depth=(depth, "length"), clear=(clearance, "length"),
        ),
        items,
    )  # fmt: skip


WORKSHEET = ws.Worksheet(
    name="digger",
    title="Post hole digger",
    question="Will this post hole digger work on my tractor?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    page="fit/post-hole-digger",
    example="A 9 in auger in loam behind a light compact tractor with 19 hp at the PTO.",
)
