"""Tire swap: what mends the front drive's lead, and which tires go together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from calc import arith, model, quantities
from calc.mechanics import front_drive, tire_doubts, tires
from calc.mechanics.tire_size import Designation
from calc.subjects import tire_partners
from calc.subjects import tires as common
from calc.subjects.tires import TURNS


def _lead_finder(
    v: model.Inputs, pair: common.Pair, found: model.Found
) -> tuple[float, float, float]:
    """Return (c, front, rear) so that the lead is c × front / rear − 1, for lists of sizes.

    Where nobody gave the lead that makers lay out, its middle is used.
    """
    assert pair.front is not None and pair.rear is not None
    assert pair.front_new is not None and pair.rear_new is not None
    front_new = new_middle(v, pair, found, "front")
    rear_new = new_middle(v, pair, found, "rear")
    if common.direct(v.lead_now, v.front_turns):
        return v.front_turns / TURNS, front_new, rear_new
    now = v.lead_now
    if now is None:
        usual = common.factory_lead()
        unsaid = "factory_lead" in found.assumed
        now = (usual.low + usual.high) / 2 if unsaid else v.factory_lead
    if common.listed(v, pair):  # what the drive was laid out with holds for the new pair
        return (1 + now) * rear_new / front_new, front_new, rear_new
    front = front_new if pair.front_stays else old_middle(v, pair, found, "front")
    rear = rear_new if pair.rear_stays else old_middle(v, pair, found, "rear")
    return (1 + now) * rear / front, front_new, rear_new


def new_middle(v: model.Inputs, pair: common.Pair, found: model.Found, axle: str) -> float:
    """Circumference of the tires that an axle gets, or keeps: measured where it was, else the
    table's [m].

    A finding is worked at the end of a range that is worst; a list of sizes is not.
    """
    name = f"new_{axle}_ten_turns"
    if getattr(pair, f"{axle}_stays") and (name in found.assumed or getattr(v, name) is None):
        return old_middle(v, pair, found, axle)
    tire = getattr(pair, f"{axle}_new")
    if tire is None or name not in found.assumed:
        return arith.number(getattr(v, name) / TURNS)
    return arith.number(tire.rolling_circumference)


def old_middle(v: model.Inputs, pair: common.Pair, found: model.Found, axle: str) -> float:
    """Circumference of the tires an axle has now: measured where it was, else the table's less
    its wear [m]; 0 where neither gives it."""
    name = f"old_{axle}_ten_turns"
    rolled, tire = getattr(v, name), getattr(pair, axle)
    if tire is None or (rolled is not None and name not in found.assumed):
        return arith.number(arith.or_zero(rolled) / TURNS)
    lost = common.turn_lost(tire, getattr(pair, f"{axle}_lost"))
    return arith.number(tire.rolling_circumference - lost)


def lead_advice(
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
    constant, front, rear = _lead_finder(v, pair, found)
    fronts = tire_partners.matches(
        lambda rc: constant * rc / rear - 1,
        pair.front_new,
        window.middle,
        tire_partners.suits(pair.front, pair.rear_new, v.front_gap),
    )
    rears = tire_partners.matches(
        lambda rc: constant * front / rc - 1,
        pair.rear_new,
        window.middle,
        tire_partners.suits(pair.rear, pair.front_new, v.fender_gap),
    )
    new = {"front": pair.front_new.designation, "rear": pair.rear_new.designation}
    best = {
        "front": _best(
            fronts, pair, window, lambda size: tire_partners.approved(_bare(size), new["rear"])
        ),
        "rear": _best(
            rears, pair, window, lambda size: tire_partners.approved(new["front"], _bare(size))
        ),
    }
    if tire_partners.approved(new["front"], new["rear"]):
        best = {"front": None, "rear": None}  # makers sell this very pair
    if "lead" in found.broken:
        # Nobody buys another size for a lead that is likely right: then it is rolled out first.
        likely = window.low <= constant * front / rear - 1 <= window.high
        offered = best if "lead" in found.over or not likely else {}
        remedies += _lead_remedies(v, pair, found, offered, constant)
    note = found.note("lists", window=window.label)
    shown += _sold_together(new["front"], new["rear"])
    for axle, other, sizes in (("front", "rear", fronts), ("rear", "front", rears)):
        if sizes:
            title = f"{axle.capitalize()} sizes that suit {new[other].size} at the {other}"
            shown.append(tire_partners.match_table(title, sizes, window, note))
    if v.front_turns is not None or v.lead_now is not None:
        now = found.lead_now
        if not window.low <= now <= window.high:
            notes.append(found.note("outside", lead=common.signed(now)))
    shown.append(common.window_table(constant * front / rear - 1))
    notes += _error_notes(v, pair, window)
    if not pair.changed and v.front_turns is None and v.lead_now is None:
        kept = pair.front.designation, pair.rear.designation
        if not tire_partners.approved(*kept):  # nothing says what this axle is geared for
            return found.note("unsold", front=kept[0].size, rear=kept[1].size)
    return _partner(found, pair, best, window, constant * front / rear - 1)


def _best(
    found: list[tire_partners.Match],
    pair: common.Pair,
    window: front_drive.Window,
    approved: Callable[[Designation], bool],
) -> tire_partners.Match | None:
    """The size to offer: one of a pair that makers sell first, then one on a rim that is there,
    then the best lead. A pair that is sold may miss the window by what the table may be off."""
    listed = [pair.front, pair.front_new, pair.rear, pair.rear_new]
    there = [tire.designation for tire in listed if tire is not None]
    rims = {size.rim for size in there}

    def inside(match: tire_partners.Match) -> bool:
        room = match.tire.circumference_error if approved(match.tire.designation) else 0.0
        return window.low - room <= match.lead <= window.high + room

    def rank(match: tire_partners.Match) -> tuple[bool, bool]:
        size = match.tire.designation
        return not approved(size), size.rim not in rims

    def other(size: Designation) -> bool:
        return not any(tire_doubts.one_tire(size, it) or it.size == size.size for it in there)

    fit = [match for match in found if inside(match) and other(match.tire.designation)]
    return min(fit, key=rank, default=None)


def _partner(
    found: model.Found,
    pair: common.Pair,
    best: dict[str, tire_partners.Match | None],
    window: front_drive.Window,
    lead: float,
) -> model.Words:
    """Say which pair to buy: sizes, rim, and where the pressure stands."""
    assert pair.front_new is not None and pair.rear_new is not None
    front, rear = pair.front_new, pair.rear_new
    sold = tire_partners.approved(front.designation, rear.designation)
    # A radial at one end of a driven pair and a bias tire at the other is no pair to buy.
    mixed = front.designation.radial != rear.designation.radial
    if not sold and (mixed or not window.low <= lead <= window.high):
        chosen = pair.rear_stays and not pair.front_stays  # a front is picked: what goes behind it?
        axle, picked = ("rear", front) if chosen else ("front", rear)
        sizes = tire_partners.sold_with(picked.designation, axle)
        if chosen and best["rear"] is not None:
            rear, lead = best["rear"].tire, best["rear"].lead
        elif best["front"] is not None and not (chosen and sizes):
            front, lead = best["front"].tire, best["front"].lead
        elif pair.changed and sizes:
            listed = quantities.joined(sizes, "or")
            size = picked.designation.size
            return found.note("sold_with", size=size, sizes=listed, axle=axle)
        elif best["rear"] is not None and best["rear"].tire.designation.rim == _now(pair).rim:
            rear, lead = best["rear"].tire, best["rear"].lead
        else:
            return found.note("no_partner", rear=rear.designation.size)
    own = front is pair.front_new, rear is pair.rear_new  # else the best of a list
    ends = (front.designation, rear.designation)
    sold = tire_partners.approved(
        *(e if mine else _bare(e) for e, mine in zip(ends, own, strict=True))
    )
    named = all(own)
    off = max(front.circumference_error, rear.circumference_error)
    far = "lead" in found.over or not window.low - off <= lead <= window.high + off
    if sold and named and pair.changed and far:
        return found.note(
            "sold_geared",
            front=front.designation.size,
            rear=rear.designation.size,
            lead=common.signed(lead),
        )
    return found.note(
        "sold" if sold else "partner",
        front=front.designation.size,
        rear=rear.designation.size,
        front_rim=_rim(front, pair.front),
        rear_rim=_rim(rear, pair.rear),
        lead=common.signed(lead),
    )


def _bare(size: Designation) -> Designation:
    """A size of the table without its row's tread, which nobody said."""
    return replace(size, tread="")


def _now(pair: common.Pair) -> Designation:
    """The rear tire that it has: no other rim is bought for one that nobody asked for."""
    assert pair.rear is not None
    return pair.rear.designation


def _rim(tire: tires.Dimensions, now: tires.Dimensions | None) -> str:
    """The rim code of a tire, and that of the one that it replaces where it changes."""
    code = f"{tire.designation.rim:g}"
    if now is None or now.designation.rim == tire.designation.rim:
        return code
    return f"{code}, now {now.designation.rim:g}"


def _sold_together(front: Designation, rear: Designation) -> list[model.Table]:
    """The pairs that makers sell with either size."""
    keys = tires.lookup_key(front), tires.lookup_key(rear)
    rows = tuple(
        (row["front"], row["rear"], row["tread"], row["tractor"])
        for one, other, row in tire_partners.approved_pairs()
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
    found: model.Found,
    best: dict[str, tire_partners.Match | None],
    constant: float,
) -> list[model.Remedy]:
    """`constant` is the c of the lead c × front / rear − 1."""
    remedies = _worn_too(pair)
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
    remedies.append(_distances(v, pair, found, constant))
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


def _worn_too(pair: common.Pair) -> list[model.Remedy]:
    """New tires of the size it has at the end that stays, where that one's lugs are worn."""
    ends = (
        ("front", pair.front, pair.front_stays, pair.front_lost),
        ("rear", pair.rear, pair.rear_stays, pair.rear_lost),
    )
    as_well = " as well" if pair.changed else ""
    return [
        model.Remedy(
            f"New {tire.designation.size} on the {axle}{as_well}: lugs worn at one end only are "
            "what moves the lead.",
            set={f"new_{axle}_tire": tire.designation.text, f"new_{axle}_ten_turns": ""},
            source="tires/derived",
            mends=("lead",),
        )
        for axle, tire, stays, lost in ends
        if stays and lost > 0.0 and tire is not None
    ]


def _distances(
    v: model.Inputs, pair: common.Pair, found: model.Found, constant: float
) -> model.Remedy:
    """Return what to look for on the ground, whatever the tires are called."""
    rear = new_middle(v, pair, found, "rear")
    wanted = (1 + front_drive.window(v.lead_window).middle) * rear / constant
    new_front, new_rear = TURNS * wanted, TURNS * rear
    tried = {
        "new_front_ten_turns": f"{new_front:.3f} m",
        "new_rear_ten_turns": f"{new_rear:.3f} m",
        **_marked_new(v, pair, constant / rear),
    }
    if common.direct(v.lead_now, v.front_turns):
        text = model.phrase(
            "Whatever the size: with rear tires that roll {rear} in ten turns, front tires must "
            "roll {front}. Measure both before you pay.",
            rear=(new_rear, "length", "ft"),
            front=(new_front, "length", "ft"),
        )
        return model.Remedy(text, tried, "tires/derived")
    front_now, rear_now = (old_middle(v, pair, found, axle) for axle in ("front", "rear"))
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


def _marked_new(v: model.Inputs, pair: common.Pair, each: float) -> dict[str, str]:
    """A distance for an axle that stays would be taken for the tires it has now.

    So the axle gets the nearest other size of the table as its new one; `each` is the lead and
    one over the length that a front tire rolls [1/m].
    """
    if not pair.front_stays:
        return {}
    window = front_drive.window(v.lead_window)
    assert pair.front is not None
    for match in tire_partners.matches(
        lambda rc: each * rc - 1, pair.front, window.middle, lambda _: True
    ):
        if match.tire.designation.size != pair.front.designation.size:
            return {"new_front_tire": match.tire.designation.size}
    return {}


def _error_notes(
    v: model.Inputs, pair: common.Pair, window: front_drive.Window
) -> list[model.Words]:
    direct = common.direct(v.lead_now, v.front_turns)
    axles = (
        (pair.front, pair.front_new, pair.front_stays),
        (pair.rear, pair.rear_new, pair.rear_stays),
    )
    used = [
        new.circumference_error if direct else tires.change_error(old, new)
        for old, new, stays in axles
        if old is not None and new is not None and (direct or not stays)
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
