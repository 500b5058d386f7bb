"""The sums."""

from __future__ import annotations

from calc import arith, model, tables
from calc.mechanics import duals, liquid_ballast, stability, tire_load, tire_rating, tires, travel
from calc.mechanics.front_drive import window as window_of
from calc.subjects import carrying
from calc.subjects import tires as common
from calc.subjects.tires import TURNS

LIQUID_SPEED = 32 / 3.6
"""Fastest with liquid in the tires [m/s], tires/OM-1."""

FROST_ROOM = 20.0
"""Colder by this than it gets a liquid is far from freezing; within a tenth of it is close, as
two prints of one liquid differ by that much, tires/WEB-9 [K]."""


def compute(v: model.Inputs, at: model.At) -> None:
    """Name what a change of tires does, and check the front drive, gaps, speeds and loads."""
    pair = common.Pair(v)
    if v.front_drive == "yes":
        _front_drive(v, pair, at)
    _speed(v, pair, at)
    _heights(v, pair, at)
    _balance(v, pair, at)
    _widths(v, pair, at)
    _liquid(v, pair, at)
    _loads(v, pair, at)
    _alike(v, pair, at)


def _alike(v: model.Inputs, pair: common.Pair, at: model.At) -> None:
    """Whether two tires are one is open while one of them, or marks of it, are unsaid."""
    axle = "front" if v.new_front_tire is not None or v.rear_tire is None else "rear"
    if not pair.named or pair.unsaid:
        field = f"{axle}_tire" if pair.named else f"new_{axle}_tire"
        at.not_checked("alike", field, if_asked=True)


# --- the front drive ----------------------------------------------------------------------------


def _front_drive(v: model.Inputs, pair: common.Pair, at: model.At) -> None:
    window = window_of(v.lead_window)
    found = common.leads(v, pair)
    _mixed(pair, at)
    tire = pair.front_new
    if tire is not None and not pair.front_stays and tire.tread_class == "steer":
        at.fits("ribs", -1.0, "tires/AT-1", "ribs")
    if found is None:
        at.not_checked("lead", "front_tire" if pair.front is None else "rear_tire")
        return
    at.lead_now, at.lead_new = found
    inside = window.low <= at.lead_new <= window.high
    as_fitted = not pair.changed and not pair.worn
    if as_fitted and v.lead_now is None and not inside:
        # Its maker fitted these tires: what the table or a count says against them is to be
        # measured, not held against the tractor.
        at.not_checked("lead", "lead_now")
    else:
        at.between("lead", "lead_new", window.low, window.high, window.source)
        if as_fitted and v.lead_now is None and v.front_turns is None and not pair.named:
            # What makers lay a front drive out for says of the tires it has only itself.
            at.not_checked("lead_count", "lead_now", if_asked=True)
    front, rear, front_new, rear_new = pair.circumferences(v)
    # A lead needs all four.
    assert front is not None and rear is not None
    assert front_new is not None and rear_new is not None
    at.front_ratio, at.rear_ratio = front_new / front, rear_new / rear
    if not at.showing:
        return
    if common.listed(v, pair):
        return  # the drive's own lead, which no circumference of the table moves
    if common.direct(v.lead_now, v.front_turns):
        ratio = (v.front_turns / TURNS, "count")
        turns = {"RCf": (front_new, "length"), "i": ratio, "RCr": (rear_new, "length")}
        at.step("lead_new", "lead = RCf × i / RCr − 1", "tires/TG-3", **turns)
        return
    for axle, now, new in (("front", front, front_new), ("rear", rear, rear_new)):
        lengths = {"RC new": (new, "length"), "RC now": (now, "length")}
        formula = f"k{axle[0]} = RC new / RC now"
        at.step(f"{axle}_ratio", formula, "tires/derived", **lengths)
    at.step(
        "lead_new",
        "lead = (1 + lead now) × kf / kr − 1",
        "tires/derived",
        **{"lead now": "lead_now", "kf": "front_ratio", "kr": "rear_ratio"},
    )


def _mixed(pair: common.Pair, at: model.At) -> None:
    """A radial at one end and a bias tire at the other, where the change brings that about."""
    front, rear = pair.front_new, pair.rear_new
    if front is None or rear is None or not pair.changed:
        return
    mixed = front.designation.radial != rear.designation.radial
    says = "mixed" if mixed else "alike"
    margin = -1.0 if mixed else 1.0
    at.fits("mix", margin, "tires/TS-2", says, grade=model.ADVICE)


def _speed(v: model.Inputs, pair: common.Pair, at: model.At) -> None:
    front, rear, front_new, rear_new = pair.circumferences(v)
    told = not pair.unsaid  # else nobody knows yet whether it is another tire
    fronts = told and pair.rear_stays and not pair.front_stays
    change = None
    if fronts and front is not None and front_new is not None:
        change = front_new / front - 1
    both = None if rear is None or rear_new is None else (rear, rear_new)
    if both is not None:
        at.speed_change = both[1] / both[0] - 1
        if pair.changed:  # without new tires there is nothing to tell of them
            at.new_speed = at.speed_change
        if told and not pair.rear_stays:
            change = at.speed_change
    if change is not None:  # new lugs in place of worn ones are the same tire by its marks
        setattr(at, "lugs_change" if pair.renewed else "other_change", change)
    if not v.gear_speeds:
        at.not_checked("top", "gear_speeds")
        return
    at.top_speed = v.gear_speeds[-1]  # of a question about the fronts alone: the rears stay
    if both is not None:
        at.top_speed = travel.speed_after(v.gear_speeds[-1], *both)
        at.step(
            "top_speed",
            "v₂ = v₁ × RC new / RC now",
            "tires/derived",
            **{"v₁": (v.gear_speeds[-1], "speed")},
            **{"RC new": (both[1], "length"), "RC now": (both[0], "length")},
        )
    for axle, tire in (("front", pair.front_new), ("rear", pair.rear_new)):
        fastest = common.fastest(tire.designation) if tire is not None else None
        if fastest is not None:
            held = carrying.speed_as_printed(at.top_speed, fastest)
            at.at_most(f"{axle}_speed", held, fastest, "tires/WEB-11", kind="speed")
    if v.liquid != "none":
        held = carrying.speed_as_printed(at.top_speed, LIQUID_SPEED)
        at.at_most("liquid_speed", held, LIQUID_SPEED, "tires/OM-1", kind="speed")


# --- heights, gaps, widths ----------------------------------------------------------------------


def _radius_changes(v: model.Inputs, pair: common.Pair) -> tuple[float, float]:
    """Return the change of loaded radius at the front and the rear, worn lugs counted [m]."""
    front, rear = _rolled_taller(v, pair)
    changes = []
    for old, new, lost, stays, rolled in (
        (pair.front, pair.front_new, pair.front_lost, pair.front_stays, front),
        (pair.rear, pair.rear_new, pair.rear_lost, pair.rear_stays, rear),
    ):
        if rolled is not None or old is None or new is None or stays:
            changes.append(0.0 if rolled is None else rolled / 2)
        else:
            changes.append(new.static_loaded_radius - old.static_loaded_radius + lost)
    return changes[0], changes[1]


def _rolled_taller(v: model.Inputs, pair: common.Pair) -> tuple[float | None, float | None]:
    """How much taller tires are that were only rolled out and not named, by that [m]."""
    front, rear, front_new, rear_new = pair.circumferences(v)
    rolls = ((pair.front_rolled, front, front_new), (pair.rear_rolled, rear, rear_new))
    found = [
        None if not rolled or old is None or new is None else (new - old) / arith.pi
        for rolled, old, new in rolls
    ]
    return found[0], found[1]


def _radius_error(old: tires.Dimensions | None, new: tires.Dimensions | None, stays: bool) -> float:
    """Return how far the change of loaded radius may be off [m]."""
    if stays or old is None or new is None:
        return 0.0
    return arith.hypot(
        old.loaded_radius_error * old.static_loaded_radius,
        new.loaded_radius_error * new.static_loaded_radius,
    )


def _heights(v: model.Inputs, pair: common.Pair, at: model.At) -> None:
    front_rise, rear_rise = _radius_changes(v, pair)
    at.rear_rise, at.front_rise = rear_rise, front_rise
    at.hitch_rise = travel.clearance_change(front_rise, rear_rise, -v.hitch_distance, v.wheelbase)
    rear_off = _radius_error(pair.rear, pair.rear_new, pair.rear_stays or pair.rear_rolled)
    front_off = _radius_error(pair.front, pair.front_new, pair.front_stays or pair.front_rolled)
    for name, off in (("rear_rise", rear_off), ("hitch_rise", rear_off), ("front_rise", front_off)):
        if off:
            at.band(name, at.number(name) - off, at.number(name) + off)
    if v.deck_ahead is not None:
        at.deck_rise = travel.clearance_change(front_rise, rear_rise, v.deck_ahead, v.wheelbase)
    at.pitch = arith.degrees(travel.pitch_change(front_rise, rear_rise, v.wheelbase))
    if pair.rear is not None and pair.rear_new is not None:
        now = (pair.rear.static_loaded_radius, "length")
        new = (pair.rear_new.static_loaded_radius, "length")
        radii = {"r new": new, "r now": now}
        at.step("rear_rise", "ΔC = loaded radius new − now", "tires/derived", **radii)
        at.pull_ratio = travel.pull_ratio(now[0], new[0])
        at.step("pull_ratio", "F₂ / F₁ = r now / r new", "tires/derived", **radii)
    _gaps(v, pair, at)


def _gaps(v: model.Inputs, pair: common.Pair, at: model.At) -> None:
    """What is left of the gaps that were measured, where that axle's tires change."""
    taller = _rolled_taller(v, pair)
    front = _growth(pair.front, pair.front_new) if taller[0] is None else taller[0]
    rear = _growth(pair.rear, pair.rear_new) if taller[1] is None else taller[1]
    if not pair.rear_stays:
        _gap("fender_gap", v.fender_gap, rear / 2, at)
        _gap("deck_gap", v.deck_gap, rear / 2, at)
        if pair.rear is not None and pair.rear_new is not None:
            wider = pair.rear_new.section_width - pair.rear.section_width
            _gap("side_gap", v.side_gap, wider / 2, at)
    if not pair.front_stays:
        _gap("front_lock_gap", v.front_gap, front / 2, at)


def _growth(old: tires.Dimensions | None, new: tires.Dimensions | None) -> float:
    if old is None or new is None:
        return 0.0
    return new.overall_diameter - old.overall_diameter


def _gap(name: str, gap: float | None, growth: float, at: model.At) -> None:
    if gap is not None:
        at.at_least(name, gap - growth, duals.FENDER_GAP, "tires/OM-16", kind="clearance")


def _balance(v: model.Inputs, pair: common.Pair, at: model.At) -> None:
    """The static side angle before and after: taller tires lift the center of gravity."""
    front_rise, rear_rise = _radius_changes(v, pair)
    ahead = v.front_share * v.wheelbase
    rise = travel.clearance_change(front_rise, rear_rise, ahead, v.wheelbase)
    at.cg_rise = rise
    at.side_now, at.side_new = (
        arith.degrees(
            stability.side_tip_angle_pivoting(
                v.track_width,
                arith.max(v.cg_height + up, 0.1),
                v.wheelbase,
                ahead,
                arith.max(v.axle_pin_height + pin, 0.0),
            )
        )
        for up, pin in ((0.0, 0.0), (rise, front_rise))
    )
    at.step(
        "side_new",
        "θ = atan(t/2 × (b − x) / (b h − x p))",
        "tires/derived",
        t="track_width",
        b="wheelbase",
        x=(ahead, "length"),
        h=(v.cg_height + rise, "length"),
        p=(v.axle_pin_height + front_rise, "length"),
    )


def _widths(v: model.Inputs, pair: common.Pair, at: model.At) -> None:
    if pair.rear is None or pair.rear_new is None:
        return
    at.width = travel.overall_width(v.track_width, pair.rear_new.section_width)
    at.width_now = travel.overall_width(v.track_width, pair.rear.section_width)
    if v.width_limit is not None:
        at.at_most("width", "width", "width_limit", "tires/derived")
    radii = pair.rear.static_loaded_radius, pair.rear_new.static_loaded_radius
    at.pull_change = travel.pull_ratio(*radii) - 1
    _, rear, _, rear_new = pair.circumferences(v)
    if rear is None or rear_new is None:
        return
    at.braking_change = travel.braking_ratio(rear_new / rear, *radii) - 1


# --- liquid and loads ---------------------------------------------------------------------------


def _liquid(v: model.Inputs, pair: common.Pair, at: model.At) -> None:
    """What the liquid weighs and when it freezes; nothing is taken for a freezing point."""
    if v.liquid == "none" or pair.rear_new is None:
        at.not_checked("frost", "rear_tire" if pair.rear_new is None else "liquid")
        return
    row = tables.by_key("tires/ballast_liquids", "key")[v.liquid]
    density = float(row["density_kg_l"]) * 1000
    volume = liquid_ballast.fill_volume(pair.rear_new, v.fill)
    mass = liquid_ballast.liquid_mass(volume.value, density)
    at.liquid_volume = volume.value
    at.band("liquid_volume", volume.low, volume.high)
    at.liquid_mass = 2 * mass
    if pair.rear is not None and not pair.rear_stays:
        before = liquid_ballast.fill_volume(pair.rear, v.fill).value * density
        at.liquid_gained = 2 * (mass - before)
    at.step(
        "liquid_mass",
        "m = 2 V × density",
        row["source"],
        V="liquid_volume",
        density=(density, "density"),
    )
    _freezing(v, row, at)


def _freezing(v: model.Inputs, row: tables.Row, at: model.At) -> None:
    starts = row["slush_c"] or row["solid_c"]
    if not starts:
        at.not_checked("frost" if v.coldest is None else "freezing", "liquid")
        return
    at.freezes = 273.15 + arith.number(starts)
    if v.coldest is None:
        at.not_checked("freezing", "coldest", governs=False)
        return
    says = "stays" if v.coldest >= at.freezes else "freezes"
    margin = arith.max(-1.0, arith.min(1.0, (v.coldest - at.freezes) / FROST_ROOM))
    freezes = (at.freezes, "temperature")
    at.fits("freezing", margin, row["freeze_source"], says, starts=freezes)


def _loads(v: model.Inputs, pair: common.Pair, at: model.At) -> None:
    top = at.top_speed if "top_speed" in at else None
    liquid = at.liquid_mass if "liquid_mass" in at else 0.0
    for axle, tire, stays, added in (
        ("rear", pair.rear_new, pair.rear_stays, liquid),
        ("front", pair.front_new, pair.front_stays, 0.0),
    ):
        load, limit = getattr(v, f"{axle}_axle_load"), getattr(v, f"{axle}_axle_limit")
        found = _carried(v, axle, tire, stays, top)
        if load is not None:
            found = found.against(load + added, 2)
        if found.load is not None:
            setattr(at, f"{axle}_carries", found.load)
            rated = getattr(v, f"{axle}_rated_pressure")
            found.check_pressure(at, f"{axle}_inflation", f"{axle}_pressure", rated)
        if load is None:
            if axle == "front" or v.front_axle_load is None:  # who weighed one axle asks about it
                at.not_checked(f"{axle}_scale", f"{axle}_axle_load")
            continue
        if found.load is None:
            missing = "tire_load" if found.missing == "load" else "rated_pressure"
            at.not_checked(f"{axle}_load", f"{axle}_{missing}")
            if limit is None:
                continue
        most = found.most(2)
        allowed = tire_load.axle_capacity(
            2, arith.inf if most is None else most / 2, arith.inf if limit is None else limit
        )
        setattr(at, f"{axle}_allowed", allowed)
        setattr(at, f"{axle}_on_axle", load + added)
        name = f"{axle}_load" if found.load is not None else f"{axle}_axle"
        if found.too_fast and load + added <= allowed:
            missing = "gear_speeds" if top is None else f"{axle}_tire_load"
            at.not_checked(f"{axle}_load", missing)
            continue
        held = carrying.as_printed(load + added, allowed, allowed)
        at.at_most(name, held, f"{axle}_allowed", found.source)
        at.step(
            f"{axle}_allowed",
            "L = the least of two tires and the axle's limit",
            "tires/OM-10",
            tire=(found.load or 0.0, "mass"),
        )


def _carried(
    v: model.Inputs, axle: str, tire: tires.Dimensions | None, stays: bool, top: float | None
) -> carrying.Carried:
    """What one tire of an axle carries. A load that was read off the old tire's sidewall gives
    way to the marking of a new one."""
    designation = None if tire is None else tire.designation
    typed = getattr(v, f"{axle}_tire_load")
    named = not stays and getattr(v, f"new_{axle}_tire") is not None
    if named and designation is not None and tire_rating.rating(designation) is not None:
        typed = None
    pressure, rated = getattr(v, f"{axle}_pressure"), getattr(v, f"{axle}_rated_pressure")
    return carrying.carried(designation, typed, pressure, rated, top)
