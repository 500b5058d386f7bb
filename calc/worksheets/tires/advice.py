"""Tire swap: remedies, sizes that suit, the comparison, notes and cautions."""

from __future__ import annotations

from collections.abc import Callable

from calc import model, sources, tables
from calc.mechanics import duals, front_drive, tires, travel
from calc.mechanics.tire_size import Designation
from calc.search import Remedies
from calc.subjects import tires as common
from calc.subjects.tires import TURNS

LIQUIDS_OFFERED = 2


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Return remedies, lists of sizes, the comparison, notes and cautions."""
    pair = common.Pair(v)
    shown: list[model.Table] = []
    tried: list[model.Remedy] = []
    notes: list[model.Words] = []
    headline: model.Words = ""
    if v.front_drive == "yes" and None not in pair.circumferences(v) and pair.front is not None:
        headline = _lead_advice(v, pair, found, tried, shown, notes)
    _gap_remedies(v, pair, found, remedies)
    _load_remedies(v, found, remedies)
    shown = [_comparison(pair), *([_speed_table(v, pair)] if v.gear_speeds else []), *shown]
    notes += _rim_notes(pair) + _given_notes(v, found) + _basis_notes(pair)
    return model.Advice(tried, _cautions(v, found), shown, notes, headline)


def _lead_finder(v: model.Inputs, pair: common.Pair) -> tuple[float, float, float]:
    """Return (c, front, rear) so that the lead is c × front / rear − 1, for lists of sizes.

    Where the lead now isn't known the middle of what makers lay out is used.
    """
    errors = _errors(v, pair)
    assert pair.front is not None and pair.rear is not None
    assert pair.front_new is not None and pair.rear_new is not None
    front_new = common.assumed_or(v.new_front_ten_turns, pair.front_new, errors["front"])
    rear_new = common.assumed_or(v.new_rear_ten_turns, pair.rear_new, errors["rear"])
    if common.direct(v.lead_now, v.front_turns):
        return v.front_turns / TURNS, front_new, rear_new
    now = v.lead_now
    if now is None:
        usual = common.factory_lead()
        at_end = min(abs(v.factory_lead - usual.low), abs(v.factory_lead - usual.high)) < 1e-9
        now = (usual.low + usual.high) / 2 if at_end else v.factory_lead
    front, rear = _old_middles(v, pair)
    front = front_new if pair.front_stays else front
    rear = rear_new if pair.rear_stays else rear
    return (1 + now) * rear / front, front_new, rear_new


def _old_middles(v: model.Inputs, pair: common.Pair) -> tuple[float, float]:
    """Circumference of the tires it has now: measured where it was, else the table's [m]; 0
    where neither gives it."""
    found = [
        common.assumed_or(rolled, tire, [tire.circumference_error] if tire else [])
        if rolled is not None
        else 0.0
        for rolled, tire in ((v.old_front_ten_turns, pair.front), (v.old_rear_ten_turns, pair.rear))
    ]
    return found[0], found[1]


def _errors(v: model.Inputs, pair: common.Pair) -> dict[str, list[float]]:
    found: dict[str, list[float]] = {"front": [], "rear": []}
    for axle, old, new in (
        ("front", pair.front, pair.front_new),
        ("rear", pair.rear, pair.rear_new),
    ):
        if old is not None and new is not None:
            found[axle] = [new.circumference_error, tires.change_error(old, new)]
    return found


def _lead_advice(
    v: model.Inputs,
    pair: common.Pair,
    found: model.Found,
    remedies: list[model.Remedy],
    shown: list[model.Table],
    notes: list[model.Words],
) -> model.Words:
    """Add what helps the lead, and return the sentence that names the best partner."""
    window = front_drive.window(v.lead_window)
    assert pair.front is not None and pair.rear is not None
    assert pair.front_new is not None and pair.rear_new is not None
    constant, front, rear = _lead_finder(v, pair)
    fronts = common.matches(
        lambda rc: constant * rc / rear - 1,
        pair.front_new,
        window.middle,
        common.suits(pair.front, pair.rear_new, v.front_gap),
    )
    rears = common.matches(
        lambda rc: constant * front / rc - 1,
        pair.rear_new,
        window.middle,
        common.suits(pair.rear, pair.front_new, v.fender_gap),
    )
    new = {"front": pair.front_new.designation, "rear": pair.rear_new.designation}
    best = {
        "front": _best(fronts, pair, window, lambda size: common.approved(size, new["rear"])),
        "rear": _best(rears, pair, window, lambda size: common.approved(new["front"], size)),
    }
    if "lead" in found.broken:
        remedies += _lead_remedies(v, pair, best, (1 + window.middle) * rear / constant, rear)
    note = found.note("lists", window=window.label)
    shown += _sold_together(new["front"], new["rear"])
    for axle, other, sizes in (("front", "rear", fronts), ("rear", "front", rears)):
        if sizes:
            title = f"{axle.capitalize()} sizes that suit {new[other].size} at the {other}"
            shown.append(common.match_table(title, sizes, window, note))
    if v.front_turns is not None or v.lead_now is not None:
        now = found.lead_now
        if not window.low <= now <= window.high:
            notes.append(found.note("outside", lead=common.signed(now)))
    shown.append(_window_table(constant * front / rear - 1))
    notes += _error_notes(v, pair, window)
    return _partner(found, pair, best, window, constant * front / rear - 1)


def _best(
    found: list[common.Match],
    pair: common.Pair,
    window: front_drive.Window,
    approved: Callable[[Designation], bool],
) -> common.Match | None:
    """The size to offer: one of a pair that makers sell first, then one on a rim that is there,
    then the best lead. A pair that is sold may miss the window by what the table may be off."""
    listed = [pair.front, pair.front_new, pair.rear, pair.rear_new]
    there = {tires.lookup_key(tire.designation) for tire in listed if tire is not None}
    rims = {tire.designation.rim for tire in listed if tire is not None}

    def inside(match: common.Match) -> bool:
        room = match.tire.circumference_error if approved(match.tire.designation) else 0.0
        return window.low - room <= match.lead <= window.high + room

    def rank(match: common.Match) -> tuple[bool, bool]:
        size = match.tire.designation
        return not approved(size), size.rim not in rims

    fit = [m for m in found if inside(m) and tires.lookup_key(m.tire.designation) not in there]
    return min(fit, key=rank, default=None)


def _partner(
    found: model.Found,
    pair: common.Pair,
    best: dict[str, common.Match | None],
    window: front_drive.Window,
    lead: float,
) -> model.Words:
    """Say which pair to buy: sizes, rim, and where the pressure stands."""
    assert pair.front_new is not None and pair.rear_new is not None
    front, rear = pair.front_new, pair.rear_new
    if not window.low <= lead <= window.high:
        if best["front"] is not None:
            front, lead = best["front"].tire, best["front"].lead
        elif best["rear"] is not None:
            rear, lead = best["rear"].tire, best["rear"].lead
        else:
            return found.note("no_partner", rear=rear.designation.size)
    sold = common.approved(front.designation, rear.designation)
    return found.note(
        "sold" if sold else "partner",
        front=front.designation.size,
        rear=rear.designation.size,
        front_rim=f"{front.designation.rim:g}",
        rear_rim=f"{rear.designation.rim:g}",
        lead=common.signed(lead),
    )


def _sold_together(front: Designation, rear: Designation) -> list[model.Table]:
    """The pairs that makers sell with either size."""
    keys = tires.lookup_key(front), tires.lookup_key(rear)
    rows = tuple(
        (row["front"], row["rear"], row["tread"], row["tractor"])
        for one, other, row in common.approved_pairs()
        if one == keys[0] or other == keys[1]
    )
    if not rows:
        return []
    return [
        model.Table(
            "Pairs that makers sell with these sizes",
            ("Front", "Rear", "Tread", "On tractors of"),
            rows,
            "tires/PR-1",
            "Makers change the gear ratio of the front axle with the tires: a pair sold on one "
            "tractor suits another only with the same ratio.",
        )
    ]


def _lead_remedies(
    v: model.Inputs,
    pair: common.Pair,
    best: dict[str, common.Match | None],
    wanted: float,
    rear: float,
) -> list[model.Remedy]:
    remedies = []
    for axle, match in best.items():
        now = pair.front if axle == "front" else pair.rear
        if match is None or now is None:
            continue
        size = match.tire.designation
        rim = (
            f"the rim code stays {size.rim:g}"
            if size.rim == now.designation.rim
            else f"it needs rims of code {size.rim:g} instead of {now.designation.rim:g}"
        )
        rims = common.rims_of(size)
        listed = f" (listed: {rims})" if rims else ""
        said = (
            f"{size.size} on the {axle} brings the middle of the lead to {{lead}} %; {rim}"
            f"{listed}; the pressure stands in its maker's load table."
        )
        remedies.append(
            model.Remedy(
                model.phrase(said, lead=common.signed(match.lead)),
                set={f"new_{axle}_tire": size.text, f"new_{axle}_ten_turns": ""},
                source="tires/derived",
                mends=("lead",),
            )
        )
    remedies.append(_distances(v, pair, wanted, rear))
    if pair.changed:
        remedies.append(
            model.Remedy(
                "Keep the tires it has now, on both axles: the lead stays as it was laid out.",
                set={
                    "new_front_tire": "",
                    "new_rear_tire": "",
                    "new_front_ten_turns": "",
                    "new_rear_ten_turns": "",
                },
                mends=("lead",),
            )
        )
    return remedies


def _distances(v: model.Inputs, pair: common.Pair, wanted: float, rear: float) -> model.Remedy:
    """Return what to look for on the ground, whatever the tires are called."""
    new_front, new_rear = TURNS * wanted, TURNS * rear
    tried = {
        "new_front_ten_turns": f"{new_front:.3f} m",
        "new_rear_ten_turns": f"{new_rear:.3f} m",
        **_marked_new(v, pair),
    }
    if common.direct(v.lead_now, v.front_turns):
        text = model.phrase(
            "Whatever the size: with rear tires that roll {rear} in ten turns, front tires must "
            "roll {front}. Measure both before you pay.",
            rear=(new_rear, "length", "ft"),
            front=(new_front, "length", "ft"),
        )
        return model.Remedy(text, tried, "tires/derived")
    front_now, rear_now = _old_middles(v, pair)
    tried["old_front_ten_turns"] = f"{TURNS * front_now:.3f} m"
    if not pair.rear_stays:
        tried["old_rear_ten_turns"] = f"{TURNS * rear_now:.3f} m"
    text = model.phrase(
        "Whatever the size: roll out the tires it has now and the new ones. If now the front "
        "makes {front_now} and the rear {rear_now} in ten turns, new rears that make {rear} need "
        "fronts that make {front}.",
        front_now=(TURNS * front_now, "length", "ft"),
        rear_now=(TURNS * (rear if pair.rear_stays else rear_now), "length", "ft"),
        rear=(new_rear, "length", "ft"),
        front=(new_front, "length", "ft"),
    )
    return model.Remedy(text, tried, "tires/derived")


def _marked_new(v: model.Inputs, pair: common.Pair) -> dict[str, str]:
    """A distance for an axle that stays would be taken for the tires it has now.

    So the axle gets the nearest other size of the table as its new one.
    """
    if not pair.front_stays:
        return {}
    constant, _, rear = _lead_finder(v, pair)
    window = front_drive.window(v.lead_window)
    assert pair.front is not None
    for match in common.matches(
        lambda rc: constant * rc / rear - 1, pair.front, window.middle, lambda _: True
    ):
        if match.tire.designation.size != pair.front.designation.size:
            return {"new_front_tire": match.tire.designation.size}
    return {}


def _error_notes(
    v: model.Inputs, pair: common.Pair, window: front_drive.Window
) -> list[model.Words]:
    errors = _errors(v, pair)
    direct = common.direct(v.lead_now, v.front_turns)
    used = [
        errors[axle][0 if direct else 1]
        for axle, stays in (("front", pair.front_stays), ("rear", pair.rear_stays))
        if errors[axle] and (direct or not stays)
    ]
    if not used:
        return []
    half = (window.high - window.low) / 2
    total = sum(used)
    said = (
        "The circumferences may be off by {off} points of lead together, and the window reaches "
        "only {half} points to either side of its middle. "
    )
    said += (
        "So unless the lead comes out far from the limits, sizes alone can't settle it: roll the "
        "tires out, or get the rolling circumferences from their makers' data sheets."
        if total > half / 2
        else "Roll the tires out before you rely on it."
    )
    return [model.phrase(said, off=f"{100 * total:.1f}", half=f"{100 * half:.1f}")]


def _window_table(lead: float) -> model.Table:
    rows = tuple(
        (
            w.label,
            "inside" if w.low <= lead <= w.high else "outside",
            sources.find(w.source)[0].title,
        )
        for w in front_drive.windows()
    )
    return model.Table(
        "What other windows say",
        ("Window", f"Lead of {common.signed(lead)} %", "Source"),
        rows,
        note="Manuals and guides disagree; the tractor's own manual comes first.",
    )


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
    if v.side_gap is not None:
        gap, track = v.side_gap, v.track_width
        moved = {"side_gap": lambda wider: gap + (wider - track) / 2}
        remedies.more(
            "track_width", mends=("side_gap",), also=moved, key="widen", source="tires/OM-16"
        )
    remedies.less("track_width", mends=("width",), key="narrow")


def _load_remedies(v: model.Inputs, found: model.Found, remedies: Remedies) -> None:
    for axle in ("rear", "front"):
        check = found.outcome.check(f"{axle}_load")
        names = (f"{axle}_load", f"{axle}_axle")
        remedies.less(f"{axle}_axle_load", mends=names)
        if check is not None:
            each = (check.value / 2, "mass")
            remedies.do("rated", (f"{axle}_load",), axle=axle, each=each)
    if "top_speed" in found:
        remedies.do("slower", ("rear_speed", "front_speed", "liquid_speed"))
    if "freezing" in found.broken:
        _other_liquid(remedies)


def _other_liquid(remedies: Remedies) -> None:
    """The first liquids of the table that stay liquid."""
    offered = 0
    for row in tables.rows("tires/ballast_liquids"):
        starts = row["slush_c"] or row["solid_c"]
        if not starts or offered == LIQUIDS_OFFERED:
            continue
        freezes = (273.15 + float(starts), "temperature")
        name, source = _upper(row["label"]), row["freeze_source"]
        found = remedies.choose(
            "liquid", row["key"], mends=("freezing",), source=source, called=name, at=freezes
        )
        offered += found is not None


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def _comparison(pair: common.Pair) -> model.Table:
    rows: list[tuple[model.Cell, ...]] = []
    for axle, old, new, stays in (
        ("Front", pair.front, pair.front_new, pair.front_stays),
        ("Rear", pair.rear, pair.rear_new, pair.rear_stays),
    ):
        if old is None or new is None:
            continue
        if stays:
            rows.append(
                (
                    f"{axle}: {old.designation.size}",
                    "stays",
                    (old.overall_diameter, "length"),
                    (new.overall_diameter, "length"),
                    "none",
                )
            )
            continue
        title = f"{axle}: {old.designation.size} to {new.designation.size}"
        for label, name in (
            ("overall diameter", "overall_diameter"),
            ("section width", "section_width"),
            ("loaded radius", "static_loaded_radius"),
            ("one turn rolls", "rolling_circumference"),
        ):
            before, after = getattr(old, name), getattr(new, name)
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
        "New tires at rated load and pressure. Values of the table, not measured ones.",
    )


def _speed_table(v: model.Inputs, pair: common.Pair) -> model.Table:
    """Speeds with the table's own circumferences; the top speed above has the range."""
    errors = _errors(v, pair)["rear"]
    rear_new = common.assumed_or(v.new_rear_ten_turns, pair.rear_new, errors)
    rear = rear_new if pair.rear_stays else _old_middles(v, pair)[1]
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
    if v.front_worn is None and v.rear_worn is None:
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
        if row["note"]:
            cautions.append(model.Caution(f"{_upper(row['label'])}: {row['note']}."))
        cautions += found.cautions("fill")
    return cautions
