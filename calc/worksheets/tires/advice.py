"""Tire swap: remedies, sizes that suit, the comparison, notes and cautions."""

from __future__ import annotations

from calc import model, sources, tables
from calc.mechanics import duals, front_drive, tires, travel
from calc.search import Solver
from calc.subjects import tires as common
from calc.subjects.tires import TURNS


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Return remedies, lists of sizes, the comparison, notes and cautions."""
    pair = common.Pair(v)
    found: list[model.Table] = []
    remedies: list[model.Remedy] = []
    notes: list[model.Words] = []
    if v.front_drive == "yes" and pair.front_new is not None and pair.rear_new is not None:
        _lead_advice(v, pair, outcome, remedies, found, notes)
    remedies += _gap_remedies(v, pair, outcome)
    remedies += _load_remedies(v, outcome)
    comparison = [_comparison(pair)] if pair.rear is not None or pair.front is not None else []
    speeds = [_speed_table(v, pair)] if v.gear_speeds and pair.rear is not None else []
    notes += _rim_notes(pair) + _gap_notes(v, pair) + _basis_notes(pair)
    tables_shown = [*comparison, *speeds, *found]
    return model.Advice(remedies, _cautions(v), tables_shown, notes, _first_ask(pair))


def _first_ask(pair: common.Pair) -> model.Words:
    if pair.front is not None and pair.rear is not None:
        return ""
    return (
        "Read the sizes off the sidewalls first: of the tires it has now, front and rear, and of "
        "the ones you want. Nothing can be said without them."
    )


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
    """Circumference of the tires it has now: measured where it was, else the table's [m]."""
    found = [
        common.assumed_or(rolled, tire, [tire.circumference_error] if tire else [])
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
    outcome: model.Outcome,
    remedies: list[model.Remedy],
    found: list[model.Table],
    notes: list[model.Words],
) -> None:
    window = front_drive.window(v.lead_window)
    if pair.front is None or pair.rear is None:
        return
    assert pair.front_new is not None and pair.rear_new is not None
    constant, front, rear = _lead_finder(v, pair)
    fronts = common.matches(
        lambda rc: constant * rc / rear - 1,
        pair.front_new,
        window.middle,
        lambda tire: tire.rolling_circumference < rear,
    )
    rears = common.matches(
        lambda rc: constant * front / rc - 1,
        pair.rear_new,
        window.middle,
        lambda tire: tire.rolling_circumference > front,
    )
    check = outcome.check("lead")
    if check is not None and check.margin < 0:
        remedies += _lead_remedies(v, pair, window, constant, rear, fronts, rears)
    note = model.phrase(
        "Worked with the middle of the table's values; the window is {w}. Check rims, load and "
        "gaps before you order, and roll the tires out.",
        w=window.label,
    )
    rear_size = pair.rear_new.designation.size
    front_size = pair.front_new.designation.size
    found.append(
        common.match_table(f"Front sizes that suit {rear_size} at the rear", fronts, window, note)
    )
    found.append(
        common.match_table(f"Rear sizes that suit {front_size} at the front", rears, window, note)
    )
    if v.front_turns is not None or v.lead_now is not None:
        now = common.leads(v, pair)[0]
        if not window.low <= now <= window.high:
            notes.append(
                f"With the tires it has now the lead works out at {common.signed(now)} %, outside "
                "the window already: check the count, or whether these tires are of a size the "
                "tractor was made for."
            )
    found.append(_window_table(constant * front / rear - 1))
    notes += _error_notes(v, pair, window)


def _lead_remedies(
    v: model.Inputs,
    pair: common.Pair,
    window: front_drive.Window,
    constant: float,
    rear: float,
    fronts: list[common.Match],
    rears: list[common.Match],
) -> list[model.Remedy]:
    remedies = []
    for axle, found in (("front", fronts), ("rear", rears)):
        best = found[0] if found else None
        if best is None or not window.low <= best.lead <= window.high:
            continue
        size = best.tire.designation.size
        current = pair.front_new if axle == "front" else pair.rear_new
        kept = pair.front if axle == "front" else pair.rear
        if size in [tire.designation.size for tire in (current, kept) if tire is not None]:
            continue
        remedies.append(
            model.Remedy(
                model.phrase(
                    f"{size} on the {axle} brings the middle of the lead to {{lead}} %.",
                    lead=common.signed(best.lead),
                ),
                set={f"new_{axle}_tire": size, f"new_{axle}_ten_turns": ""},
                source="tires/derived",
            )
        )
    remedies.append(_distances(v, pair, (1 + window.middle) * rear / constant, rear))
    if not (pair.rear_stays and pair.front_stays):
        remedies.append(
            model.Remedy(
                "Keep the tires it has now, on both axles: the lead stays as it was laid out.",
                set={
                    "new_front_tire": "",
                    "new_rear_tire": "",
                    "new_front_ten_turns": "",
                    "new_rear_ten_turns": "",
                },
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


def _gap_remedies(v: model.Inputs, pair: common.Pair, outcome: model.Outcome) -> list[model.Remedy]:
    remedies = []
    for name, old in (("fender", pair.rear), ("deck", pair.rear), ("front_lock", pair.front)):
        check = outcome.check(f"{name}_gap")
        gap = {"fender": v.fender_gap, "deck": v.deck_gap, "front_lock": v.front_gap}[name]
        if check is None or check.margin >= 0 or old is None or gap is None:
            continue
        largest = old.overall_diameter + 2 * (gap - duals.FENDER_GAP)
        axle = "front" if name == "front_lock" else "rear"
        remedies.append(
            model.Remedy(
                model.phrase(
                    f"{check.title}: the largest {axle} tire that keeps {{gap}} is {{d}} across.",
                    gap=(duals.FENDER_GAP, "length"),
                    d=(largest, "length"),
                ),
                source="tires/OM-16",
            )
        )
    side = outcome.check("side_gap")
    if side is not None and side.margin < 0 and v.side_gap is not None:
        spread = 2 * (duals.FENDER_GAP - side.value)
        remedies.append(
            model.Remedy(
                model.phrase(
                    "Widen the rear track by {more} (to {track}) to keep {gap} beside the tire.",
                    more=(spread, "length"),
                    track=(v.track_width + spread, "length"),
                    gap=(duals.FENDER_GAP, "length"),
                ),
                set={
                    "side_gap": f"{v.side_gap + spread / 2 + 1e-4:.4f} m",
                    "track_width": f"{v.track_width + spread:.4f} m",
                },
                source="tires/OM-16",
            )
        )
    width = outcome.check("width")
    if width is not None and width.margin < 0 and pair.rear_new is not None:
        track = v.width_limit - pair.rear_new.section_width
        if track >= 0.77:
            remedies.append(
                model.Remedy(
                    model.phrase(
                        "Narrow the rear track to {t} to pass {w}.",
                        t=(track, "length"),
                        w=(v.width_limit, "length"),
                    ),
                    set={"track_width": f"{track - 1e-4:.4f} m"},
                )
            )
    return remedies


def _load_remedies(v: model.Inputs, outcome: model.Outcome) -> list[model.Remedy]:
    remedies = []
    for axle in ("rear", "front"):
        check = outcome.check(f"{axle}_load")
        if check is not None and check.margin < 0:
            over = check.value - check.limit
            load = getattr(v, f"{axle}_axle_load") - over
            remedies.append(
                model.Remedy(
                    model.phrase(
                        f"Take {{m}} off the {axle} axle, or fit tires rated {{t}} each.",
                        m=(over, "mass"),
                        t=(check.value / 2, "mass"),
                    ),
                    set={f"{axle}_axle_load": f"{load - 0.01:.2f} kg"} if load > 100 else {},
                )
            )
    freezing = outcome.check("freezing")
    if freezing is not None and freezing.margin < 0:
        for row in tables.rows("tires/ballast_liquids"):
            freezes = row["slush_c"] or row["solid_c"]
            if freezes and 273.15 + float(freezes) <= v.coldest:
                remedies.append(
                    model.Remedy(
                        model.phrase(
                            f"{_upper(row['label'])} stays liquid down to {{t}}.",
                            t=(273.15 + float(freezes), "temperature"),
                        ),
                        set={"liquid": row["key"]},
                        source=row["freeze_source"],
                    )
                )
                break
    return remedies


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]


def _comparison(pair: common.Pair) -> model.Table:
    rows: list[tuple[model.Cell, ...]] = []
    for axle, old, new in (
        ("Front", pair.front, pair.front_new),
        ("Rear", pair.rear, pair.rear_new),
    ):
        if old is None or new is None:
            continue
        if old is new:
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
    rims = tables.by_key("tires/tire_rims", "size")
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
        key = now.width_text if now.aspect is None else f"{now.width_text}/{now.aspect:g}"
        listed = now.form in ("decimal", "metric") and key in rims
        allowed = f" The standard allows for {key}: {rims[key]['rims']}." if listed else ""
        notes.append(
            f"The {axle} keeps its rim code, {now.rim:g}; whether the rim is wide enough stands on "
            f"the rim and in the tire maker's data book.{allowed}"
        )
    return notes


def _gap_notes(v: model.Inputs, pair: common.Pair) -> list[model.Words]:
    """Say which numbers were given and couldn't be used."""
    notes: list[model.Words] = []
    for axle, tire in (("front", pair.front_new), ("rear", pair.rear_new)):
        given = getattr(v, f"{axle}_axle_load") is not None
        typed = getattr(v, f"{axle}_tire_load") is not None
        if given and not typed and tire is not None and common.rating(tire) is None:
            notes.append(
                f"What a {tire.designation.size} may carry isn't known from its size: type the "
                f"load from its sidewall for the {axle} axle to be checked against it."
            )
    if v.liquid != "none" and v.coldest is not None:
        row = tables.by_key("tires/ballast_liquids", "key")[v.liquid]
        if not (row["slush_c"] or row["solid_c"]):
            notes.append(f"Freezing of {row['label']} isn't known here: {row['note']}.")
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


def _cautions(v: model.Inputs) -> list[model.Caution]:
    cautions = [
        model.Caution(
            "Fit only sizes and rims that the operator's manual allows; tire, rim and axle each "
            "have their own limit and the least counts.",
            "tires/OM-10",
        ),
        model.Caution(
            "Taller tires raise the center of gravity: the tractor tips earlier. Drive it as a "
            "different machine, and work out its balance again on the lift and ballast page."
        ),
        model.Caution(
            "Mounting a tractor tire can kill. Never seat a bead above 35 psi (240 kPa); leave it "
            "to a tire shop with a cage.",
            "tires/OM-15",
        ),
        model.Caution(
            "More speed means longer stopping: 5 % faster is about 10 % more braking distance. "
            "Check the speed limits of the tires, of towed machines and of the law."
        ),
    ]
    if v.front_drive == "yes":
        cautions.append(
            model.Caution(
                "Don't drive with the front drive engaged on hard, dry ground, whatever the lead.",
                "tires/TG-3",
            )
        )
    if v.liquid != "none":
        row = tables.by_key("tires/ballast_liquids", "key")[v.liquid]
        if row["note"]:
            cautions.append(model.Caution(f"{_upper(row['label'])}: {row['note']}."))
        cautions.append(
            model.Caution(
                "Never fill a tire full, and put no liquid in front tires unless the manual "
                "allows it.",
                "tires/OM-8",
            )
        )
    return cautions
