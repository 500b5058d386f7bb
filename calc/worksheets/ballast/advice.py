"""What to do about it."""

from __future__ import annotations

import math

from calc import model, tables
from calc.mechanics import ballast, lift
from calc.search import Remedies
from calc.sources import unique
from calc.subjects import hung, hung_remedies, loader
from calc.subjects.standing import stand

EVEN = 1e-9


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Offer what mends it; say what each rule would ask."""
    hung_remedies.offer(v, remedies)
    cautions = ["tip", "belt", "level", "road", "under"]
    if v.loader_payload is not None:
        cautions.append("loader")
    if hung.hangs(v) == "towed":
        cautions.append("towing")
    shown = [] if hung.hangs(v) in ("front", "mid") else [_rules_table(v)]
    says = _without_rating(v, found, remedies)
    if v.loader_payload is None or loader.nothing(v.loader_payload):
        says = _without_load(v, found)
    if hung.hangs(v) != "hitch":
        says["lift"] = found.note("not_hung")
    notes = _notes(v, found)
    return model.Advice(cautions=found.cautions(*cautions), tables=shown, notes=notes, says=says)


def _without_rating(
    v: model.Inputs, found: model.Found, remedies: Remedies
) -> dict[str, model.Words]:
    """What is said of a load whose loader has no rating yet: what hangs behind may settle it."""
    if v.loader_rating is not None or "counterweight" not in found:
        return {}
    told = "too_light" if {"loader_rear", "asked"} & set(remedies.over) else "unrated"
    masses = {"n": (v.loader_payload, "mass"), "w": (found.counterweight, "mass")}
    return {"loader": found.note(told, **masses)}


def _without_load(v: model.Inputs, found: model.Found) -> dict[str, model.Words]:
    """What is said of the loader while nobody said what it lifts."""
    if v.loader == "none":
        return dict.fromkeys(("behind", "loader"), found.note("no_loader"))
    told = "no_rating" if v.loader_rating is None else "lifts"
    if told == "lifts" and "loader_lifts" not in found:
        told = "no_payload"  # of a loader that isn't there
    return {"behind": found.note("no_payload"), "loader": found.note(told)}


def _rules_table(v: model.Inputs) -> model.Table:
    """Return what each rule would say of the same machine."""
    stands = stand(v)
    rear_mass, reach = hung.behind_axle(v)
    front = stands.with_(rear_mass, -reach)[0]
    gross = stands.mass + rear_mass
    lines: list[tuple[model.Cell, ...]] = []
    needed: model.Cell
    rows = [row for row in tables.rows("hitch/twenty_percent_rules") if row["key"] != "loader"]
    for row in rows:
        if row["base"] == "implement":
            most, here = float(row["front_share"]) * stands.own, rear_mass
            ask: model.Words = model.phrase("at most {m} on the lift arms", m=(most, "mass"))
            met, needed = here <= most + EVEN, "\u2014"
        elif row["base"] == "combined_drive":
            least, here = float(row["rear_share"]) * gross, gross - front
            ask = model.phrase("at least {m} on the rear axle", m=(least, "mass"))
            met, needed = here >= least - EVEN, "\u2014"
        else:
            least = ballast.front_load_required(
                stands.own, stands.own_front, rear_mass + stands.weights, row["key"]
            )
            here = front
            ask = model.phrase("at least {m} on the front axle", m=(least, "mass"))
            met = here >= least - 1e-6
            total = _ballast_by(v, row["key"], rear_mass, reach)
            needed = model.phrase("{m}", m=(total, "mass")) if total > EVEN else "none"
        lines.append((row["label"], ask, (here, "load"), "yes" if met else "no", needed))
    return model.Table(
        "What the different rules say of this machine",
        ("Rule", "It asks for", "Here", "Met", "Front ballast in all"),
        tuple(lines),
        unique("; ".join(row["source"] for row in rows)),
        "The ballast stands where you said, ahead of the front axle.",
    )


def _ballast_by(v: model.Inputs, rule: str, rear_mass: float, reach: float) -> float:
    stands = stand(v)
    return ballast.front_ballast_needed(
        stands.own,
        stands.own_front,
        stands.base,
        reach,
        0.0,
        rear_mass,
        v.front_ballast_distance,
        rule,
    )


def _notes(v: model.Inputs, found: model.Found) -> list[model.Words]:
    notes: list[model.Words] = []
    if hung.hangs(v) == "hitch":
        pivot, credit = hung.pivot_of(v)
        if credit and math.isinf(pivot):
            notes.append(found.note("parallel"))
        elif not credit:
            notes.append(found.note("pairs"))
        if hung.hung_at(v) > lift.GREATEST_DISTANCE:
            notes.append(found.note("too_far", d=(lift.GREATEST_DISTANCE, "length")))
    if found.back_up < found.back and found.side_up > found.side:
        notes.append(found.note("angles"))
    if found.front < 0:
        notes.append(found.note("off_the_ground"))
    if v.tire_liquid != "none":
        notes.append(found.note("liquid"))
    return notes
