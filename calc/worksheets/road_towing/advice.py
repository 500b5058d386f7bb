"""What to do about it."""

from __future__ import annotations

from calc import model, si, tables
from calc.mechanics import braking
from calc.search import Remedies
from calc.search.remedies import IN_PROPORTION
from calc.worksheets.road_towing.compute import WET_GRASS, rule_of, stops_with
from calc.worksheets.road_towing.fields import RULES, TESTED

LEAST_SHARE = 6.0  # less than a sixth of the load is no advice
GENTLER = (-0.15, -0.12, -0.10, -0.08, -0.06, -0.05, -0.04, -0.03, -0.02, -0.01)
SLOWER = (10 * si.MPH, 5 * si.MPH)  # m/s
TEN_POUNDS = 10.0


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Solve for the load, the brakes, the speed and the tractor that would do."""
    broken = set(remedies.broken)
    if "chain" in broken:
        remedies.more("chain_rating", mends=("chain",), end=v.towed_mass * 2, source="road/MAN-2")
    if v.towed_mass is not None:
        # While nobody named the tractor, the lightest there is doesn't say how little is right.
        most = IN_PROPORTION if "tractor_mass" in remedies.assumed else LEAST_SHARE
        remedies.less("towed_mass", most=most, step=TEN_POUNDS, source="road/CALC-1")
        if "holds" in broken and v.room is not None:
            _lighter_and_slower(v, remedies)
    if "holds" in broken:
        _gentler(v, remedies)
    braked = {"trailer_brakes": "own", "trailer_braking": TESTED}
    if v.towed_mass is None and not found.over:
        pass  # first the load has to be known
    elif v.trailer_brakes == "none":
        remedies.change("trailer_brakes", braked, source="road/HSE-697; road/MAN-2")
    elif v.trailer_braking is not None and v.trailer_braking < TESTED:
        remedies.change("tested", {"trailer_braking": TESTED}, source="road/HSE-697")
    if v.surface != "dry_pavement":
        remedies.choose("braked_wheels", "all", source="road/GRIP-1")
    if broken & {"room", "rule_speed"} and (v.towed_mass is not None or found.over):
        # Where the tractor alone stops is no speed for a load that nobody named.
        slow = broken & ({"rule_speed"} if v.towed_mass is None else {"room", "rule_speed"})
        # However slow that is, one can go so.
        remedies.less("road_speed", mends=slow, step=0.5, most=10.0, source="road/CALC-1")
    if broken & {"holds", "ratio", "room"}:
        heavier = broken & {"holds", "ratio", "room"}
        # Of a tractor that nobody described no weight is out of proportion.
        open_ = v.towed_mass is not None and "tractor_mass" in found.assumed
        end = v.towed_mass * 2 if open_ else None
        remedies.more("tractor_mass", mends=heavier, step=TEN_POUNDS, end=end, source="road/CALC-1")
    if "drawbar" in broken and v.tongue_weight is not None:
        remedies.less("tongue_weight", mends=("drawbar",), source="road/MAN-9")
    keys = ["hills", "drawbar", "jackknife", "dry"]
    if v.trailer_brakes == "own":
        keys.insert(1, "trailer_brakes")
    if v.surface == WET_GRASS:
        keys.insert(0, "grass")
    # Too much on the drawbar is too much whatever the load weighs.
    heavy = {"tongue": "tell_drawbar", "stops": "tell_drawbar"} if "drawbar" in found.over else {}
    blank = v.towed_mass is None
    told = {
        "stops": "tell_both" if "tractor_mass" in found.assumed else "tell_load",
        "chain": "tell_chain" if blank else "chain_for",
        "tongue": "tell_tongue" if blank else "tongue_for",
        **heavy,
    }
    return model.Advice(
        _heavier_tongue(v, found, remedies),
        found.cautions(*keys),
        tables=[_rule_table(v)],
        notes=_notes(v, found),
        says={
            "fastest": found.note("tell_fastest", top=(found.top, "speed")),
            **{ask: found.note(key) for ask, key in told.items()},
        },
    )


def _heavier_tongue(v: model.Inputs, found: model.Found, remedies: Remedies) -> list[model.Remedy]:
    """A tenth of the load on the drawbar, where it may carry that: mends what is only advice."""
    if "tongue_least" not in found.broken:
        return []
    least = remedies.whole("tongue_weight", found.least_tongue, step=TEN_POUNDS, up=True)
    if v.drawbar_limit is not None and least > v.drawbar_limit:
        return []
    text = found.note("forward", w=(least, "mass"))
    sets = {"tongue_weight": remedies.typed("tongue_weight", least)}
    return [model.Remedy(text, sets, "road/MAN-9", ("tongue_least",))]


def _gentler(v: model.Inputs, remedies: Remedies) -> None:
    """The steepest slope of another way on which it holds and still stops in the room."""
    speed = min(v.road_speed, remedies.whole("road_speed", SLOWER[0], step=1.0))
    for grade in (g for g in GENTLER if g > v.grade):
        changes = {"grade": grade, "road_speed": speed}
        steep = (-grade, "slope")
        if remedies.change("gentler", changes, mends=("holds",), source="road/CALC-1", steep=steep):
            return


def _lighter_and_slower(v: model.Inputs, remedies: Remedies) -> None:
    """What holds on the slope must stop in the room as well: with less behind, then slower too."""
    limit = braking.mass_limit(rule_of(v), v.tractor_mass)
    slower = [remedies.whole("road_speed", speed, step=1.0) for speed in SLOWER]
    for speed in (v.road_speed, *(s for s in slower if s < v.road_speed)):
        mass = min(limit, stops_with(v.but(road_speed=speed)), v.manual_limit or limit)
        mass = remedies.whole("towed_mass", mass, step=TEN_POUNDS)
        if mass * LEAST_SHARE < v.towed_mass:
            continue
        key = "towed_mass" if speed == v.road_speed else "lighter_and_slower"
        changes = {"towed_mass": mass, "road_speed": speed}
        if remedies.change(key, changes, mends=("holds",), source="road/CALC-1"):
            return


def _notes(v: model.Inputs, found: model.Found) -> list[model.Words]:
    notes: list[model.Words] = [found.note("rear_brakes"), found.note("lowest")]
    if v.tongue_weight is None and v.towed_mass is not None:
        notes.append(found.note("tongue"))
    return notes


def _allows(v: model.Inputs, row: tables.Row, limit: float) -> str:
    """Some rules say "below", others "no more than"; the limit holds that already."""
    if v.towed_mass is None:
        return "not said"
    return "yes" if v.towed_mass <= limit else "no"


def _rule_table(v: model.Inputs) -> model.Table:
    rows = []
    for key, row in RULES.items():
        if row["brakes"] != RULES[rule_of(v)]["brakes"]:
            continue
        limit = braking.mass_limit(key, v.tractor_mass)
        rows.append(
            (
                row["text"],
                (limit, "mass"),
                "yes" if braking.rule_covers(key, v.road_speed) else "no, you go faster",
                _allows(v, row, limit),
            )
        )
    sources = "; ".join(row["source"] for row in RULES.values()).split("; ")
    return model.Table(
        "What the printed rules allow",
        ("Rule", "Most for this tractor", "Meant for your speed", "This load"),
        tuple(rows),
        "; ".join(dict.fromkeys(sources)),
        "The lowest of the implement's decal, the tractor's manual, this table and the law counts.",
    )
