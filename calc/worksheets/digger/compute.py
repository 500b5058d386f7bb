"""The sums."""

from __future__ import annotations

from calc import arith, model, si, tables
from calc.mechanics import auger, digger, pto
from calc.subjects import digging, shaft_power
from calc.subjects import driveline as shared
from calc.subjects.shear_bolt import bolt_torque, check_as_manual

RATED_SPEED = 540.0
TRANSPORT_CLEARANCE = 0.10  # between holes, on even ground
LEAST_LIFT = 0.01  # the links rise by more than this
BOLT_PLANES = 2  # the bolt goes through the shaft


def boom(v: model.Inputs, height: float) -> digger.BoomPoint | None:
    """Return the boom with the links at a height; None where it can't follow."""
    try:
        return digger.boom_at(height, v.bracket_height, v.boom_length, v.yoke_distance, v.yoke_rise)
    except ValueError:
        return None


def _distance_behind(v: model.Inputs, gearbox_height: float) -> float:
    """How far behind the boom pin the gearbox is at a height. [m]"""
    sine = (gearbox_height - v.bracket_height) / v.boom_length
    return arith.number(v.boom_length * arith.sqrt(arith.max(0.0, 1.0 - sine * sine)))


def _shaft(v: model.Inputs, gearbox_height: float) -> tuple[float, float]:
    """Length of the driveline [m] and its angle [deg] with the gearbox at a height."""
    run = arith.max(0.01, _distance_behind(v, gearbox_height) - v.gearbox_input - v.stub_behind)
    rise = gearbox_height - v.stub_height
    return arith.hypot(run, rise), arith.degrees(arith.atan2(rise, run))


def _anchor() -> dict[str, tuple[float, str]]:
    """The one power figure of the trade that the others are scaled from, for the working."""
    row = tables.by_key("digger/digger_power", "key")["anchor"]
    return {
        "P₁₂": (float(row["hp"]) * si.HP, "power"),
        "f₁₂": (auger.soil_factor(row["soil"]), "count"),
        "D₁₂": (float(row["diameter_in"]) * si.INCH, "length"),
    }


def soil_row(v: model.Inputs) -> tables.Row:
    """Return the soil's row."""
    return tables.by_key("digger/digger_soils", "key")[v.soil]


def _power(v: model.Inputs, at: model.At) -> None:
    factor = auger.soil_factor(v.soil)
    share = float(tables.by_key("digger/digger_feeds", "key")["gentle"]["share_low"])
    at.widest_full = auger.widest_auger(v.pto_power, factor)
    at.widest = auger.widest_auger(v.pto_power / share, factor)
    if model.wants():
        most = 1e9 if v.auger_limit is None else v.auger_limit
        for name, widest in (("sold_full", at.widest_full), ("sold", at.widest)):
            found = auger.next_auger(arith.min(widest, most))
            if found > 0.0:
                setattr(at, name, found)
    if v.auger_diameter is None:
        at.not_checked("power_known", "auger_diameter")
    else:
        least = v.power_least if _named(v) else None
        digging.check_power(at, "pto_power", v.auger_diameter, v.soil, v.feed, least)
        at.step(
            "power_full",
            "P = s P₁₂ f / f₁₂ × (D / D₁₂)²",
            "value/P7; power/PRACTICE; value/AUGER-memory",
            **_anchor(),
            D="auger_diameter",
            f=(factor, "count"),
            s=(
                float(tables.by_key("digger/digger_feeds", "key")[v.feed]["share_high"]),
                "fraction",
            ),
        )
    at.torque = pto.torque(v.pto_power, RATED_SPEED)
    at.step("torque", "T = P / ω", "power/S5", P="pto_power", n=(RATED_SPEED, "rotation"))
    at.auger_torque = auger.auger_torque(at.torque, v.gear_ratio)
    at.step(
        "auger_torque",
        "Tₐ = T i η",
        "value/DERIVED",
        T="torque",
        i="gear_ratio",
        η=(0.95, "fraction"),
    )
    at.auger_speed = v.pto_speed / v.gear_ratio
    at.power_left = v.pto_power * arith.min(1.0, v.pto_speed / RATED_SPEED)


def _named(v: model.Inputs) -> bool:
    """Whether this auger is one that the digger's maker names for this tractor."""
    if v.power_least is None or v.auger_limit is None:
        return False
    return bool(v.auger_diameter <= v.auger_limit and v.pto_power >= v.power_least)


def _makers(v: model.Inputs, at: model.At) -> None:
    """Hold auger and tractor against what the digger's maker allows, both ways."""
    if v.auger_limit is None or v.auger_diameter is None:
        missing = "auger_limit" if v.auger_limit is None else "auger_diameter"
        at.not_checked("auger_known", missing)
    else:
        at.at_most("auger", "auger_diameter", "auger_limit", "value/P6c", close_band=0.0)
    if v.power_least is None:
        at.not_checked("maker_least", "power_least", governs=False)
    else:
        at.at_least("maker_least", "pto_power", "power_least", "value/P6c", close_band=0.0)
    if v.power_limit is None:
        at.not_checked("maker_known", "power_limit")
    else:
        shaft_power.check_driveline(at, "pto_power", kind=digging.KIND, name="maker_most")


def _setup(v: model.Inputs, at: model.At) -> None:
    plain = v.quick_coupler != "u_frame"
    at.fits("coupler", 1.0 if plain else -1.0, "hitch/H19", "plain" if plain else "u_frame")
    slow = v.pto_speed <= RATED_SPEED
    at.fits("speed", 1.0 if slow else -1.0, "value/P6c", "slow" if slow else "fast")
    check_as_manual(at, v)
    bolt = bolt_torque(v, BOLT_PLANES, v.shaft_diameter)
    if bolt is not None:
        at.bolt_torque = bolt
    if soil_row(v)["diggable"] == "no":
        at.fits("soil", -1.0, "value/AUGER-memory", "hard")


def _swing(v: model.Inputs, links: float) -> float:
    """How far the boom swings from level with the links at a height, 1 being upright."""
    return arith.number((links + v.yoke_rise - v.bracket_height) / v.yoke_distance)


def _reach(v: model.Inputs, at: model.At) -> None:
    raised = arith.max(v.link_high, v.link_low + LEAST_LIFT)
    at.swing = arith.max(-_swing(v, v.link_low), _swing(v, raised))
    at.at_most("lift", "swing", 1.0, "value/DERIVED", close_band=0.0)
    low, high = boom(v, v.link_low), boom(v, raised)
    if low is None or high is None:
        return
    found = digger.reach(
        low, high, v.bracket_height, v.boom_length, v.auger_length, v.housing_clearance
    )
    at.depth, at.tip_clearance = found.depth, found.tip_clearance
    at.clearance_needed = TRANSPORT_CLEARANCE
    at.gearbox_low, at.gearbox_high = low.gearbox_height, high.gearbox_height
    at.at_least("clearance", "tip_clearance", "clearance_needed", "value/PRACTICE")
    if v.depth_wanted is None:
        at.not_checked("depth", "depth_wanted", governs=False)
    else:
        at.at_least("depth", "depth", "depth_wanted", "value/DERIVED", close_band=0.0)
    _driveline(v, at, low, high)
    at.travel_ratio = v.boom_length / v.yoke_distance
    at.drift, at.lean = found.drift, arith.degrees(found.lean)
    if v.auger_diameter is not None:
        dug = at.depth if v.depth_wanted is None else arith.min(at.depth, v.depth_wanted)
        at.spoil = auger.hole_volume(v.auger_diameter, arith.max(0.0, dug))
    _show_reach(v, at)


def _driveline(
    v: model.Inputs, at: model.At, low: digger.BoomPoint, high: digger.BoomPoint
) -> None:
    start = arith.min(v.auger_length, high.gearbox_height)
    deep = arith.min(start, arith.max(low.gearbox_height, v.housing_clearance))
    at.digging_angle = arith.max(abs(_shaft(v, start)[1]), abs(_shaft(v, deep)[1]))
    shared.check_angle(at, "angle", "digging_angle", raised=True)
    at.raised_angle = abs(_shaft(v, high.gearbox_height)[1])
    if not model.wants():
        return
    lift = high.gearbox_height - low.gearbox_height
    lengths = [_shaft(v, low.gearbox_height + lift * k / 8.0)[0] for k in range(9)]
    at.shaft_shortest, at.shaft_longest = arith.min(lengths), arith.max(lengths)


def _show_reach(v: model.Inputs, at: model.At) -> None:
    for name, links in (("gearbox_low", "link_low"), ("gearbox_high", "link_high")):
        at.step(
            name,
            "z = z_A + L (z_l + y − z_A) / a",
            "value/DERIVED",
            z_A="bracket_height",
            L="boom_length",
            z_l=links,
            y="yoke_rise",
            a="yoke_distance",
        )
    at.step(
        "depth",
        "h = min(z_high, L_a) − max(z_low, c)",
        "value/DERIVED",
        z_high="gearbox_high",
        L_a="auger_length",
        z_low="gearbox_low",
        c="housing_clearance",
    )


def compute(v: model.Inputs, at: model.At) -> None:
    """Name the numbers and check them."""
    _setup(v, at)
    _power(v, at)
    _makers(v, at)
    if model.wants("lift", "clearance", "depth", "angle"):
        _reach(v, at)
