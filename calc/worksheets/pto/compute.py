"""The sums."""

from __future__ import annotations

import math

from calc import arith, model, tables
from calc.mechanics import implement_class, implement_power, pto, pto_power, typical
from calc.subjects import hung, shaft_power, slopes
from calc.subjects.standing import mass_of

ENOUGH = 1.0 + 1e-9  # a power that is just asked for is enough
SIZE_FIELDS = {
    "width": "working_width",
    "opening": "working_width",
    "auger": "auger_diameter",
    "throughput": "throughput",
    "rating": "generator_rating",
}
MID_OR_UNSEEN = (shaft_power.MID, shaft_power.UNSEEN.value)
SIZE_KINDS = {
    "width": "length",
    "opening": "length",
    "auger": "length",
    "throughput": "throughput",
    "rating": "power",
}


# --- the tractor -------------------------------------------------------------------------------


def rated_power(v: model.Inputs) -> float:
    """Return the power at the PTO before altitude, heat and driving. [W]"""
    if v.pto_power is not None:
        at_rated = arith.number(v.pto_power)
    else:
        at_engine = pto_power.engine_to_pto(v.engine_power, v.pto_share)
        at_rated = arith.max(0.0, at_engine - arith.or_zero(v.pump_drag))
    return at_rated * (1.0 - arith.or_zero(v.speed_loss))


def uses_shaft_figures(v: model.Inputs) -> bool:
    """Return whether the demand is power at the shaft: driving and a reserve come on top."""
    if v.power_needed is not None or row_of(v) is None:
        return False
    return implement_power.figures(v.implement_kind, v.figures) == "d497"


def moves(v: model.Inputs) -> bool:
    """Return whether the tractor drives while the shaft turns."""
    return shaft_power.moves(v.implement_kind)


def travel_power(v: model.Inputs) -> float:
    """Return what driving takes from the engine: the climb, and rolling where it isn't in
    the figures. [W]"""
    if not moves(v):
        return 0.0
    rolling = pto_power.rolling_coefficient(v.surface)[1] if uses_shaft_figures(v) else 0.0
    if v.slope is None and not rolling:
        return 0.0
    return shaft_power.climb_power(v, mass_of(v), arith.or_zero(v.slope), rolling)


def heat_share(v: model.Inputs) -> float:
    """Return the share of the power that is left in the heat. [-]"""
    if v.air_temperature is None:
        return 1.0
    return pto_power.temperature_factor(v.air_temperature, v.heat_rule)


def left_by(v: model.Inputs, rule: str) -> float:
    """Return what is left for the shaft by one altitude rule. [W]"""
    share = 1.0 if v.altitude is None else pto_power.altitude_factor(v.altitude, rule)
    return pto_power.power_left(rated_power(v), share, heat_share(v), travel_power(v))


# --- the implement -----------------------------------------------------------------------------


def row_of(v: model.Inputs) -> dict[str, str] | None:
    """Return what is known of the kind's demand, None where no shaft drives it."""
    return implement_power.kind_row(v.implement_kind)


def size_of(v: model.Inputs) -> float:
    """Return the size that the demand goes with, in base units."""
    row = row_of(v)
    name = SIZE_FIELDS.get(row["size"], "") if row else ""
    return arith.number(getattr(v, name)) if name else 0.0


def need_at(v: model.Inputs, load: str, size: float | None = None) -> float:
    """Return what the implement asks for with ease, at a size and in a material. [W]"""
    size = size_of(v) if size is None else size
    band = shaft_power.demand(v.implement_kind, size, load, v.figures, v.reserve)
    if band is None:
        raise LookupError(f"Nothing on {v.implement_kind!r} is driven from the power take-off.")
    return band.high


def compute(v: model.Inputs, at: model.At) -> None:
    """Compare the power left with the power asked for, and see whether the shafts agree."""
    _tractor(v, at)
    row = row_of(v)
    if row is None and v.power_needed is None:
        if v.implement_kind == "other":
            at.not_checked("power", "implement_kind")
            _shafts(v, at)
        return
    mid = shaft_power.mid_driven(v.implement_kind) and v.implement_shaft in MID_OR_UNSEEN
    shaft = shaft_power.MID if mid else v.tractor_shaft
    rpm = shaft_power.shaft_rpm(shaft)
    _demand(v, at, row)
    at.torque = pto.torque(at.need, rpm)
    if v.gearbox_ratio is not None:
        at.rotor = rpm * v.gearbox_ratio
        if v.blade_circle is not None:
            at.tips = pto.tip_speed(v.blade_circle, at.rotor)
    _class(v, at, row)
    if v.power_limit is not None:
        shaft_power.check_driveline(at, kind=v.implement_kind)
    _shafts(v, at, mid=mid)
    at.through = arith.min(at.need, at.rated)  # no more goes through it than the tractor gives
    shaft_power.check_guide(at, shaft, "through")
    if not moves(v):
        return
    if v.slope is None:
        at.not_checked("climbs", "slope", governs=False)
    else:
        slopes.check(at)
    if v.altitude is None:
        at.not_checked("altitude", "altitude", governs=False)


def _shafts(v: model.Inputs, at: model.At, *, mid: bool = False) -> None:
    """Check the shafts; what is made for a mid one is told by whether the tractor has it."""
    unseen = v.tractor_shaft == shaft_power.UNSEEN.value
    if mid or (unseen and v.implement_shaft == shaft_power.MID):
        shaft_power.check_mid(at, v.mid_pto, v.tractor_shaft)
    else:
        shaft_power.check_shafts(at, v.tractor_shaft, v.implement_shaft)


def _tractor(v: model.Inputs, at: model.At) -> None:
    """Name the power at the PTO, and what altitude, heat and driving leave of it."""
    at.standing = mass_of(v)
    at.rated = rated_power(v)
    at.lost = arith.or_zero(v.speed_loss)
    at.full = rated_power(v.but(speed_loss=0.0))
    at.height_share = shaft_power.altitude_share_of(v, v.altitude_rule)
    at.heat_share = heat_share(v)
    at.here = at.rated * at.height_share * at.heat_share
    at.travel = travel_power(v)
    at.left = pto_power.power_left(at.rated, at.height_share, at.heat_share, at.travel)
    slow = travel_power(shaft_power.at_a_walk(v)) if v.slope else at.travel
    at.walking = pto_power.power_left(at.rated, at.height_share, at.heat_share, slow)
    at.generator_most = at.here / shaft_power.generator_start(1.0)
    if not at.showing:
        return
    if v.pto_power is None:
        row = tables.by_key("power/engine_to_pto", "key")[v.engine_rating]
        drag, lost = (v.pump_drag or 0.0, "power"), (v.speed_loss or 0.0, "fraction")
        at.step(
            "rated",
            "P = (r P_engine − P_pump) (1 − l)",
            row["source"],
            r="pto_share",
            P_engine="engine_power",
            P_pump=drag,
            l=lost,
        )
    if v.altitude is not None:
        rule = shaft_power.altitude_rule(v.altitude_rule, v.breathing)
        found = tables.by_key("power/altitude_rules", "key")[rule]
        at.step("height_share", f"f_h = {found['label']}", found["source"], h="altitude")
    if v.air_temperature is not None:
        found = tables.by_key("power/temperature_rules", "key")[v.heat_rule]
        at.step("heat_share", f"f_t = {found['label']}", found["source"], t="air_temperature")
    if moves(v):
        _travel_step(v, at)
    at.step(
        "left",
        "P_left = P f_h f_t − P_d",
        "power/DERIVED",
        P="rated",
        f_h="height_share",
        f_t="heat_share",
        P_d="travel",
    )


def _travel_step(v: model.Inputs, at: model.At) -> None:
    rolling = pto_power.rolling_coefficient(v.surface)[1] if uses_shaft_figures(v) else 0.0
    at.step(
        "travel",
        "P_d = m g (sin(atan s) + f) v / η",
        "power/S29; power/S33; power/GENERAL-memory",
        m=(at.standing + v.implement_mass, "mass"),
        s=(arith.or_zero(v.slope), "slope"),
        f=(rolling, "fraction"),
        v="ground_speed",
        η=(pto_power.axle_efficiency(v.transmission)[1], "fraction"),
    )


def _band(v: model.Inputs, size: float, *, by_class: bool = True) -> shaft_power.Band:
    """Return what it asks for in the material at hand, where a shaft drives it."""
    kind, figures, reserve = v.implement_kind, v.figures, v.reserve
    found: shaft_power.Band = v.each(
        "material",
        lambda work: shaft_power.demand(kind, size, work, figures, reserve, by_class=by_class),
    )
    return found


def _demand(v: model.Inputs, at: model.At, row: dict[str, str] | None) -> None:
    """Name what it asks for, and check what is left against it."""
    if v.power_needed is not None or row is None:
        made = shaft_power.as_made(v.power_needed)
        at.need_low, at.need = made.low, made.high
        shaft_power.check_power(
            at, made, left="left", walking="walking", least="need_low", need="need"
        )
        at.step("need", "P_i = as its maker says, with the usual reserve", "power/PRACTICE")
        return
    kind = v.implement_kind
    band = _band(v, size_of(v))
    at.need_low, at.need = band.low, band.high
    _asked_by_makers(v, at)
    if row["size"] == "rating":
        # With ease it runs once motors start on it, not while it carries what already turns.
        at.start = at.need = at.look = shaft_power.generator_start(v.generator_rating)
        at.at_least("starting", "left", "start", "power/S23; power/GEN-T16", close_band=0.0)
        at.at_least("power", "left", "need_low", band.source)
    else:
        shaft_power.check_power(
            at, band, left="left", walking="walking", least="need_low", need="need"
        )
    if row["size"] == "width":
        each = _band(v, 1.0, by_class=False)
        at.widest = implement_power.widest(at.left, each.high)
        at.widest_most = implement_power.widest(at.left, each.low)
        if model.wants():
            sold = typical.stock_widths(kind)
            most = arith.min(at.widest_most, _by_class(at, kind, sold, 0))
            if sold and most < sold[0]:
                at.narrowest = sold[0]  # "11 in" is no answer where the narrowest is 42
            else:
                surely = arith.min(at.widest, _by_class(at, kind, sold, 1))
                at.sold = typical.next_width(surely, kind)
                at.sold_most = typical.next_width(most, kind)
    elif row["size"] == "opening" and model.wants():
        sold = typical.stock("chipper_openings")
        at.widest = at.sold = _opening(v, at, sold, 1)
        at.widest_most = at.sold_most = _opening(v, at, sold, 0)
    if at.showing:
        _demand_step(v, at, row, band.source)


def _by_class(at: model.At, kind: str, sold: tuple[float, ...], end: int) -> float:
    """Return the widest of the sizes sold that makers sell to this tractor. [m]

    `end` is 0 for the lowest of their least figures, 1 for the highest. Below the narrowest size
    the width goes with the power; where no class goes by width there is no such limit.
    """
    if not sold or implement_class.class_by(kind) != "width":
        return math.inf
    least = implement_class.class_power(kind, sold[0])[:2][end]
    best: float = sold[0] * arith.min(1.0, at.here / least)
    for size in sold:
        asked = implement_class.class_power(kind, size)[:2][end]
        best = arith.where(arith.below(asked, at.here * ENOUGH), size, best)
    return best


def _opening(v: model.Inputs, at: model.At, sold: tuple[float, ...], end: int) -> float:
    """Return the largest opening sold that this power runs, slowly (0) or with ease (1). [m]"""
    best = 0.0
    for size in sold:
        wanted = _band(v, size)[end]
        asked = implement_class.class_power(v.implement_kind, size)[:2][end]
        runs = arith.min(at.left / wanted, at.here / asked)
        best = arith.where(arith.below(1.0, runs * ENOUGH), size, best)
    return best


def _asked_by_makers(v: model.Inputs, at: model.At) -> None:
    """Name what to look for in a tractor: what it takes, and no less than its makers ask for.

    A baler's plunger and pickup want a tractor of the class even while little crop goes through.
    """
    at.look_low, at.look = at.need_low, at.need
    size = shaft_power.class_size(v.implement_kind, v.working_width, v.implement_mass)
    if size is not None and implement_class.class_by(v.implement_kind):
        low, high, _ = implement_class.class_power(v.implement_kind, size)
        at.look_low, at.look = arith.max(at.need_low, low), arith.max(at.need, high)


def _demand_step(v: model.Inputs, at: model.At, row: dict[str, str], source: str) -> None:
    size = (size_of(v), SIZE_KINDS.get(row["size"], "count"))
    if row["size"] == "rating":
        at.step("need_low", "P_i = P_load / η, with η = 85 %", source, P_load=size)
    elif uses_shaft_figures(v):
        found = tables.by_key("power/rotary_power", "key")[row["rotary_key"]]
        spread = (
            (implement_power.rotary_spread(row["rotary_key"]) or 0.0)
            if v.material == "heavy"
            else 0
        )
        numbers = {
            "a": (float(found["a_kw"]) * 1000, "power"),
            "b": (float(found["b_kw_per_m"]) * 1000, "power_per_width"),
            "F" if row["size"] == "throughput" else "w": size,
            "spread": (float(spread), "fraction"),
            "reserve": (v.reserve, "fraction"),
        }
        at.step("need", "P_i = (a + b w + c F) (1 + spread) (1 + reserve)", source, **numbers)
    elif row["size"] == "width":
        density = (implement_power.density(row["power_key"], v.material), "power_per_width")
        at.step("need", "P_i = p w", source, p=density, w=size)
    else:
        numbers = {} if row["size"] == "total" else {"size": size}
        at.step("need", "P_i = from the table", source, **numbers)


def _class(v: model.Inputs, at: model.At, row: dict[str, str] | None) -> None:
    """Check what makers ask for by class, and the mass of what is towed."""
    if row is None:
        return
    kind = v.implement_kind
    size = shaft_power.class_size(kind, v.working_width, v.implement_mass)
    if size is not None and v.power_needed is None:
        shaft_power.check_class(at, kind, size, plate=v.power_limit is not None)
    if row["hangs"] == "towed":
        shaft_power.check_towed(at, at.standing, hung.hung_mass(v), v.tractor_kind)
    if kind == "small_square_baler":
        at.baler_mass = shaft_power.BALER_MASS
        at.at_least("plunger", "standing", "baler_mass", "power/BALE-T13", grade=model.ADVICE)
