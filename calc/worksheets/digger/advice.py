"""What to do about it."""

from __future__ import annotations

from calc import model, tables
from calc.mechanics import digger, driveline, pto
from calc.search import Solver
from calc.subjects.shear_bolt import INCH, inches
from calc.worksheets.digger.compute import (
    BOLT_PLANES,
    RATED_SPEED,
    TRANSPORT_CLEARANCE,
    _maker_bolt,
    _soil_row,
)


def _reach_remedies(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> list[model.Remedy]:
    remedies = []
    if outcome.margin(("clearance",)) < 0 and outcome.check("clearance"):
        longest = solve.largest("auger_length", 0.46, v.auger_length, ("clearance",))
        if longest is not None:
            depth = solve.run(auger_length=longest).output("depth")
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "{length} from gearbox center to point is the longest auger that clears "
                        "the ground; it digs {depth}.",
                        length=(longest, "length"),
                        depth=(depth, "length"),
                    ),
                    {"auger_length": inches(longest, 10)},
                )
            )
        # The raised gearbox stands at z_A + L (z_l + y - z_A) / a: solved for a.
        wanted_rise = v.auger_length + TRANSPORT_CLEARANCE - v.bracket_height
        lift = v.link_high + v.yoke_rise - v.bracket_height
        nearer = v.boom_length * lift / wanted_rise if wanted_rise > 0.0 else 0.0
        if (
            0.26 < nearer < v.yoke_distance
            and solve.run(yoke_distance=0.999 * nearer).margin(("clearance", "lift")) >= 0
        ):
            remedies.append(
                model.Remedy(
                    model.phrase(
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
                model.Remedy(
                    model.phrase(
                        "An auger {length} from gearbox center to point reaches the depth and "
                        "still clears the ground.",
                        length=(least, "length"),
                    ),
                    {"auger_length": inches(least, 10, up=True)},
                )
            )
        remedies.append(
            model.Remedy(
                model.phrase(
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
                model.Remedy(
                    model.phrase(
                        "With an auger of {length} the gearbox starts low enough for a standard "
                        "joint.",
                        length=(shorter, "length"),
                    ),
                    {"auger_length": inches(shorter, 10)},
                )
            )
    return remedies


def _power_remedies(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> list[model.Remedy]:
    remedies = []
    if outcome.margin(("power",)) < 0:
        widest = solve.largest("auger_diameter", 0.10, v.auger_diameter, ("power",))
        if widest is not None:
            remedies.append(
                model.Remedy(
                    model.phrase(
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
                model.Remedy(
                    model.phrase(
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
        remedies.append(
            model.Remedy("Run the shaft at 540 rpm or slower.", {"pto_speed": "540 rpm"})
        )
    return remedies


CAUTIONS = (
    model.Caution(
        "Everybody else stays 25 ft (7.6 m) away, and nobody ever pushes on the boom or "
        "rides it to make it dig.",
        "value/P6c",
    ),
    model.Caution(
        "A turning auger winds up sleeves, cords and gloves. Keep the shields on; PTO off, "
        "engine off and key out before you step near.",
        "value/P6d",
    ),
    model.Caution(
        "Call before you dig: gas, power, water and phone lines are yours to have marked. "
        "In the United States dial 811.",
        "value/PRACTICE",
    ),
    model.Caution(
        "Stuck auger: PTO off, engine off, key out, then turn it back with a wrench. Never "
        "hoist hard with it jammed; the front of the tractor comes up.",
        "value/DERIVED",
    ),
    model.Caution(
        "Never enlarge a smaller hole: without a center the auger runs off and the boom swings.",
        "value/P7",
    ),
    model.Caution(
        "Check by hand, engine off, that the boom clears the bracket, the seat and the "
        "roll-over frame in every position, and that the driveline neither bottoms nor "
        "parts. The digger's own manual comes before this page.",
        "value/P6a",
    ),
)


def _setup_table(v: model.Inputs) -> model.Table:
    rows: list[tuple[model.Cell, ...]] = [
        ("Take the top link off; pin the boom to the top-link bracket",),
        ("Swing the drawbar aside or take it off",),
        ("Sway chains or blocks tight",),
    ]
    rules = tables.by_key("digger/digger_rules", "key")
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
            model.phrase(
                "Set the point about {start} behind the gearbox center, then start slowly",
                start=(float(rules["start"]["value"]) * INCH, "length"),
            ),
        ),
        ("Shear bolt of the grade and size in the manual, and spares in the toolbox",),
    ]
    return model.Table("Before the first hole", ("Step",), tuple(rows), "value/P6a", checklist=True)


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Give remedies, cautions and the steps before the first hole."""
    remedies = []
    if v.quick_coupler == "u_frame":
        remedies.append(
            model.Remedy(
                "Take the coupler off and use the plain lower links.", {"quick_coupler": "none"}
            )
        )
    remedies += _reach_remedies(v, outcome, solve) + _power_remedies(v, outcome, solve)
    row = _soil_row(v)
    if row["diggable"] == "no":
        remedies.append(
            model.Remedy(
                "Wet the spot for a day, and try again once it cuts as clay.", {"soil": "clay"}
            )
        )
    notes: list[model.Words] = [f"{row['name']}: {row['note']}"]
    if v.pto_speed < RATED_SPEED:
        notes.append(
            model.phrase(
                "At {speed} the tractor gives about {left}, not its rated {full}: the hole takes "
                "longer, the torque is about the same.",
                speed=(v.pto_speed, "rotation"),
                left=(outcome.output("power_left"), "power"),
                full=(v.pto_power, "power"),
            )
        )
    powers = tables.by_key("digger/digger_power", "key")
    notes.append(
        model.phrase(
            "One maker of light diggers asks for tractors of {low} to {high} and an engine speed "
            "of {speed} at most: slower is gentler on everything.",
            low=(float(powers["tractor_low"]["hp"]) * digger.HP, "power"),
            high=(float(powers["tractor_high"]["hp"]) * digger.HP, "power"),
            speed=(
                float(tables.by_key("digger/digger_rules", "key")["engine_speed"]["value"]),
                "rotation",
            ),
        )
    )
    return model.Advice(remedies, CAUTIONS, [_setup_table(v)], notes)
