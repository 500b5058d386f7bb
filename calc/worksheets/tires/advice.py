"""Tire swap: remedies, sizes that suit, the comparison, notes and cautions."""

from __future__ import annotations

import re
from dataclasses import replace

from calc import model, quantities, tables
from calc.mechanics import duals, travel
from calc.search import Remedies
from calc.subjects import tire_partners
from calc.subjects import tires as common
from calc.worksheets.tires import partners

LIQUIDS_OFFERED = 3


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Return remedies, lists of sizes, the comparison, notes and cautions."""
    pair = common.Pair(v)
    shown: list[model.Table] = []
    tried: list[model.Remedy] = []
    notes: list[model.Words] = []
    headline: model.Words = ""
    sized = pair.front is not None and pair.rear is not None
    if v.front_drive == "yes" and sized and None not in pair.circumferences(v):
        headline = partners.lead_advice(v, pair, found, tried, shown, notes)
    else:
        headline = found.note("two_wheel") if v.front_drive == "no" else _one_end(pair, found)
    _gap_remedies(v, pair, found, remedies)
    _load_remedies(v, found, remedies)
    shown = [
        _comparison(pair),
        *([_speed_table(v, pair, found)] if v.gear_speeds and pair.rear else []),
        *shown,
    ]
    notes += _rim_notes(pair) + _given_notes(v, found) + _basis_notes(pair)
    return model.Advice(tried, _cautions(v, found), shown, notes, headline, _told(v, found))


def _one_end(pair: common.Pair, found: model.Found) -> model.Words:
    """What goes with the tires of one axle, where those of the other aren't known."""
    front, rear = pair.front_new, pair.rear_new
    known, other = (front, "rear") if rear is None else (rear, "front")
    sizes = [] if known is None else tire_partners.sold_with(known.designation, other)
    if known is None or not sizes:
        return found.note("other_first", axle=other)
    listed = quantities.joined(sizes, "or")
    return found.note("sold_end", size=known.designation.size, sizes=listed, axle=other)


def _told(v: model.Inputs, found: model.Found) -> dict[str, model.Words]:
    """What is said of load, liquid and sameness where no sentence of the ask fits."""
    pair = common.Pair(v)
    same = "tell_unsaid" if pair.unsaid else "tell_same"
    if "lugs_change" in found:
        same = "tell_renewed"
    lead = "tell_fitted" if "lead_new" in found else "tell_no_lead"
    by_table = any(f"new_{axle}_ten_turns" in found.assumed for axle in ("front", "rear"))
    if lead == "tell_fitted" and v.lead_now is None and (v.front_turns is None or by_table):
        lead = "tell_uncounted"
    return {
        "load": _told_load(v, found),
        "liquid": found.note("tell_liquid"),
        "same": found.note(same if pair.named else "tell_compare"),
        **dict.fromkeys(("swap", "speed"), found.note("tell_compare")),
        "lead": found.note(lead),
    }


def _told_load(v: model.Inputs, found: model.Found) -> model.Words:
    """Which axle is open, or nearer to its limit."""
    loads = {"rear": v.rear_axle_load, "front": v.front_axle_load}
    given = [axle for axle, load in loads.items() if load is not None]
    unread = [axle for axle in given if f"{axle}_carries" not in found]
    if not given:
        return found.note("tell_scale")
    if unread:
        return found.note("tell_load", load=(loads[unread[0]], "mass"), axle=unread[0])
    ratios = {a: getattr(found, f"{a}_on_axle") / getattr(found, f"{a}_allowed") for a in given}
    slow = [axle for axle in given if f"{axle}_load" in found.unchecked]
    near = max(slow or given, key=lambda axle: ratios[axle])
    on_axle, allowed = (getattr(found, f"{near}_{what}") for what in ("on_axle", "allowed"))
    kept = _rounded(allowed, up=False)
    limit = (kept if on_axle <= kept else allowed, "mass")
    key = "tell_speed" if slow else "tell_just"
    return found.note(key, load=(on_axle, "mass"), limit=limit, axle=near)


def _rounded(mass: float, *, up: bool) -> float:
    """A mass as it is said, rounded to the side that keeps it a limit [kg]."""
    return quantities.kept_to(mass, "mass", "us", unit="", figures=quantities.FIGURES, up=up)


def _gap_remedies(
    v: model.Inputs, pair: common.Pair, found: model.Found, remedies: Remedies
) -> None:
    for name, old, gap in (
        ("fender_gap", pair.rear, v.fender_gap),
        ("deck_gap", pair.rear, v.deck_gap),
        ("front_lock_gap", pair.front, v.front_gap),
    ):
        if old is not None and gap is not None:
            largest = old.overall_diameter + 2 * (gap - duals.FENDER_GAP)
            d, kept = (largest, "length"), (duals.FENDER_GAP, "length")
            remedies.do(name, (name,), source="tires/OM-16", d=d, kept=kept)
    if v.side_gap is not None and "track_width" not in remedies.assumed:
        gap, track = v.side_gap, v.track_width
        moved = {"side_gap": lambda wider: gap + (wider - track) / 2}
        remedies.more(
            "track_width", mends=("side_gap",), also=moved, key="widen", source="tires/OM-16"
        )
    remedies.less("track_width", mends=("width",), key="narrow")


def _load_remedies(v: model.Inputs, found: model.Found, remedies: Remedies) -> None:
    for axle in ("rear", "front"):
        load = max(
            (x.value_high for x in found.verdicts if x.check.name == f"{axle}_load"), default=0
        )
        names = (f"{axle}_load", f"{axle}_axle")
        remedies.less(f"{axle}_axle_load", mends=names)
        limit = getattr(v, f"{axle}_axle_limit")
        if load and (limit is None or load <= limit):  # else no tire helps
            each = (_rounded(load / 2, up=True), "mass")
            remedies.do("rated", (f"{axle}_load",), axle=axle, each=each)
    if "top_speed" in found:
        remedies.do("slower", ("rear_speed", "front_speed", "liquid_speed"))
    if "freezing" in found.broken:
        _other_liquid(remedies)


def _other_liquid(remedies: Remedies) -> None:
    """Liquids that stay liquid, one of a family: those that neither rust nor poison first."""
    offered: set[str] = set()
    harm = re.compile("rusts|poison|never")
    for row in sorted(
        tables.rows("tires/ballast_liquids"), key=lambda r: bool(harm.search(r["note"]))
    ):
        starts, family = row["slush_c"] or row["solid_c"], row["key"].split("-")[0]
        if not starts or family in offered or len(offered) == LIQUIDS_OFFERED:
            continue
        freezes = (273.15 + float(starts), "temperature")
        name, source = _upper(row["label"]), row["freeze_source"]
        found = remedies.choose(
            "liquid", row["key"], mends=("freezing",), source=source, called=name, at=freezes
        )
        if found is not None:
            offered.add(family)


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def _comparison(pair: common.Pair) -> model.Table:
    rows: list[tuple[model.Cell, ...]] = []
    for axle, old, new, lost, stays in (
        ("Front", pair.front, pair.front_new, pair.front_lost, pair.front_stays),
        ("Rear", pair.rear, pair.rear_new, pair.rear_lost, pair.rear_stays),
    ):
        if old is None or new is None:
            continue
        if stays:
            across = (old.overall_diameter - 2 * lost, "length")
            rows.append((f"{axle}: {old.designation.size}", "stays", across, across, "none"))
            continue
        worn = {
            "overall_diameter": 2 * lost,
            "static_loaded_radius": lost,
            "rolling_circumference": common.turn_lost(old, lost),
        }
        title = f"{axle}: {old.designation.size} to {new.designation.size}"
        for label, name in (
            ("overall diameter", "overall_diameter"),
            ("section width", "section_width"),
            ("loaded radius", "static_loaded_radius"),
            ("one turn rolls", "rolling_circumference"),
        ):
            before, after = getattr(old, name) - worn.get(name, 0.0), getattr(new, name)
            rows.append(
                (
                    title,
                    label,
                    (before, "length"),
                    (after, "length"),
                    f"{common.signed(after / before - 1)} %",
                )
            )
            title = ""
    return model.Table(
        "Old against new",
        ("Axle", "What", "Now", "New", "Change"),
        tuple(rows),
        "tires/derived",
        "At rated load and pressure; values of the table, less the lugs that are said to be gone.",
    )


def _speed_table(v: model.Inputs, pair: common.Pair, found: model.Found) -> model.Table:
    """Speeds with the table's own circumferences; the top speed above has the range."""
    rear_new = partners.new_middle(v, pair, found, "rear")
    rear = rear_new if pair.rear_stays else partners.old_middle(v, pair, found, "rear")
    rows = tuple(
        ((now, "speed"), (travel.speed_after(now, rear, rear_new), "speed"))
        for now in v.gear_speeds
    )
    return model.Table(
        "Speed in each gear, same engine speed",
        ("Now", "New"),
        rows,
        "tires/derived",
        "With the middle of the range of the new tire's circumference.",
    )


def _rim_notes(pair: common.Pair) -> list[model.Words]:
    """Say whether the rims it has can stay, as far as the sizes tell."""
    notes: list[model.Words] = []
    for axle, old, new, stays in (
        ("front", pair.front, pair.front_new, pair.front_stays),
        ("rear", pair.rear, pair.rear_new, pair.rear_stays),
    ):
        if stays or old is None or new is None:
            continue
        was, now = old.designation, new.designation
        if was.rim != now.rim:
            notes.append(
                f"The {axle} needs new rims: code {now.rim:g} instead of {was.rim:g}. Codes never "
                "mix, however near."
            )
            continue
        rims = common.rims_of(now)
        allowed = f" Listed for {now.size}: {rims}." if rims else ""
        notes.append(
            f"The {axle} keeps its rim code, {now.rim:g}; whether the rim is wide enough stands on "
            f"the rim and in the tire maker's data book.{allowed}"
        )
    return notes


def _given_notes(v: model.Inputs, found: model.Found) -> list[model.Words]:
    """Say which numbers were given and couldn't be used."""
    notes: list[model.Words] = []
    for axle in ("front", "rear"):
        if f"{axle}_load" in found.unchecked:
            notes.append(found.note("sidewall", axle=axle))
    if "freezing" in found.unchecked:
        row = tables.by_key("tires/ballast_liquids", "key")[v.liquid]
        notes.append(found.note("freezing", liquid=row["label"], why=row["note"]))
    if not common.Pair(v).worn:
        notes.append(found.note("wear"))
    return notes


def _basis_notes(pair: common.Pair) -> list[model.Words]:
    seen = dict.fromkeys(
        common.describe(tire)
        for tire in (pair.front, pair.front_new, pair.rear, pair.rear_new)
        if tire is not None
    )
    if not seen:
        return []
    swapped = not (pair.front_stays and pair.rear_stays)
    return [
        *(
            [
                "Bigger tires and rims weigh more themselves. No table of that was found: ask for "
                "shipping weights, and count them."
            ]
            if swapped
            else []
        ),
        "Where the sizes come from: " + "; ".join(seen) + ". Another maker's tire of the same size "
        "may differ by up to 3 % in diameter and in width.",
    ]


def _cautions(v: model.Inputs, found: model.Found) -> list[model.Caution]:
    cautions = found.cautions("manual", "balance", "mounting", "stopping", "shipped")
    if v.front_drive == "yes":
        cautions += found.cautions("hard_ground")
    if v.liquid != "none":
        row = tables.by_key("tires/ballast_liquids", "key")[v.liquid]
        (fill,) = found.cautions("fill")
        # One caution, so that a short message about filling says what the liquid does too.
        own = f"{_upper(row['label'])}: {row['note']}. " if row["note"] else ""
        cautions.append(replace(fill, text=own + fill.text))
    return cautions
