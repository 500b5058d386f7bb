"""What to do about it."""

from __future__ import annotations

from calc import model, tables
from calc.mechanics import braking
from calc.search import Remedies
from calc.worksheets.road_towing.compute import rule_of
from calc.worksheets.road_towing.fields import RULES, TESTED


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Solve for the load, the brakes, the speed and the tractor that would do."""
    broken = set(remedies.broken)
    remedies.less("towed_mass", most=6.0, source="road/CALC-1")
    braked = {"trailer_brakes": "own", "trailer_braking": TESTED}
    if v.trailer_brakes == "none":
        remedies.change("trailer_brakes", braked, source="road/HSE-697; road/MAN-2")
    elif v.trailer_braking is not None and v.trailer_braking < TESTED:
        remedies.change("tested", {"trailer_braking": TESTED}, source="road/HSE-697")
    if v.surface != "dry_pavement":
        remedies.choose("braked_wheels", "all", source="road/GRIP-1")
    if broken & {"room", "rule_speed"}:
        remedies.less("road_speed", mends=broken & {"room", "rule_speed"}, source="road/CALC-1")
    if broken & {"holds", "ratio", "room"}:
        heavier = broken & {"holds", "ratio", "room"}
        remedies.more("tractor_mass", mends=heavier, source="road/CALC-1")
    if "chain" in broken:
        remedies.more("chain_rating", mends=("chain",), end=v.towed_mass * 2, source="road/MAN-2")
    if "drawbar" in broken and v.tongue_weight is not None:
        remedies.less("tongue_weight", mends=("drawbar",), source="road/MAN-9")
    keys = ["hills", "drawbar", "jackknife", "dry"]
    if v.trailer_brakes == "own":
        keys.insert(1, "trailer_brakes")
    return model.Advice(
        cautions=found.cautions(*keys), tables=[_rule_table(v)], notes=_notes(v, found)
    )


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
