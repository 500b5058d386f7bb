"""Power at the shaft: what is left of a tractor's, what an implement asks for, what bears it.

The one home of the demand of an implement, of what makers ask for by class, of the rule for a
driveline's rating, of altitude with and without a turbocharger, and of shafts and speeds.
A worksheet names its own numbers and calls these with their names.
"""

from __future__ import annotations

from typing import NamedTuple

from calc import arith, model, quantities, si, tables
from calc.mechanics import implement_class, implement_power, pto, pto_power
from calc.subjects import digging, hung

OVERLOAD = 1.2
"""A driveline with a clutch that works bears about a fifth more than its rating: owners run a
45 hp gearbox behind 52 PTO hp in grass (power/GEAR-F11), and the trade warns beyond [-]."""
SEVERAL_DUTIES = {"rotary_cutter": 1.6, "snow_blower": 1.6}
"""Kinds made in several duties: the heavy ones of a width bear 1.6 to 1.7 times what the usual do
(power/CLASS-memory: 100 to 60 hp at 5 ft; blowers of 80 in to 50 or 80 hp, power/BLOW-M) [-]."""
TOWED_MOST, TOWED_COMPACT = 1.5, 1.0
"""Towed mass to the tractor's: below 1.5 a row-crop manual (power/TOW-M10) lets a machine without
brakes be towed; compacts' parts are sold for no more than the tractor's own (power/TOW-T26)."""
BLOWERS = ("snow_blower", "front_blower")
EASIER = {"typical": "light", "heavy": "typical"}
"""A blower throws what it is fed, so at a slower pace the next lighter snow's power does, and none
asks for more than its makers' least; its figures are of low confidence besides. Common practice,
no source."""
SLOWER = ("finish_mower",)
"""Where the usual work is done with what light work takes with ease, slower: the least that makers
of finish mowers ask for is 3 PTO hp a foot (power/CUT-F10), whatever grows."""
WALK = 0.9
"""A climb is taken at a walk where the shaft needs the power, common practice, no source [m/s]."""
BALER_MASS = 3000 * si.POUND  # a small square baler wants this much tractor; power/BALE-T13

SHAFTS = (
    model.Option("1-540", "6 splines, 1-3/8 in, 540 rpm"),
    model.Option("1-1000", "6 splines, 1-3/8 in, 1000 rpm"),
    model.Option("2-1000", "21 splines, 1-3/8 in, 1000 rpm"),
    model.Option("3-1000", "20 splines, 1-3/4 in, 1000 rpm"),
    model.Option("4-1300", "22 splines, 2-1/4 in, 1300 rpm"),
)
UNSEEN = model.Option("unseen", "Not looked yet")
MID = "mid-2000"
MID_SHAFT = model.Option(MID, "Mid PTO, about 2,000 rpm")
SHAFT_OF = {
    "540-6": "1-540",
    "1000-21": "2-1000",
    "1000-20": "3-1000",
    "mid": MID,
    "unsure": UNSEEN.value,
}
"""The shaft "type-speed" of each option of the vocabulary, which kept machines hold."""
USUAL_SPEED = 540.0


# --- what is left -------------------------------------------------------------------------------


def altitude_rule(rule: str, breathing: str) -> str:
    """Return the rule that counts: a turbocharged engine has one of its own, if any is counted."""
    return "turbo" if breathing == "turbo" and rule != "none" else rule


def altitude_share(
    altitude: float | None, breathing: str, rule: str = pto_power.DEFAULT_ALTITUDE_RULE
) -> float:
    """Return the share of the power left at an altitude [m]; all of it where none is given. [-]

    Examples
    --------
    >>> round(altitude_share(2133.6, "natural"), 3), round(altitude_share(2133.6, "turbo"), 3)
    (0.805, 0.887)
    """
    if altitude is None:
        return 1.0
    return pto_power.altitude_factor(altitude, altitude_rule(rule, breathing))


def altitude_share_of(v: model.Inputs, rule: str = pto_power.DEFAULT_ALTITUDE_RULE) -> float:
    """Return the share of the power left at `v.altitude`, by `v.breathing`. [-]"""
    if v.altitude is None:
        return 1.0
    share: float = v.each("breathing", lambda way: altitude_share(v.altitude, way, rule))
    return share


def shaft_rpm(shaft: str) -> float:
    """Return the speed of a shaft "type-speed"; 540 where nobody looked. [rev/min]"""
    return USUAL_SPEED if shaft == UNSEEN.value else float(shaft.split("-")[1])


# --- what it asks for ---------------------------------------------------------------------------


class Band(NamedTuple):
    """What an implement asks of the shaft [W]: at least `low`, and from `high` on with ease.

    `width` is from the one to the other, for each material on its own.
    """

    low: float
    high: float
    source: str
    width: float


def _band(low: float, high: float, source: str) -> Band:
    return Band(low, high, source, high - low)


def demand(
    kind: str,
    size: float,
    load: str = "typical",
    basis: str = "practice",
    reserve: float = pto_power.RESERVE,
    *,
    by_class: bool = True,
) -> Band | None:
    """Return the band of an implement's demand, or None where no shaft drives it.

    The trade's figures name a tractor with a reserve in hand, a quarter at the most: without it
    the work is still done, at a slower pace, as makers' least figures for cutters say (4 of the
    usual 5 PTO hp for each foot, power/CUT-F10). With ASAE D497 the low end is what the shaft
    carries, never below the mean of a row, and the high end has the reserve.

    Parameters
    ----------
    kind
        A kind of implement.
    size
        As `calc.mechanics.implement_power.needed` takes it; of a post hole digger its auger. [m]
    load, basis, reserve
        The same.
    by_class
        False leaves out makers' least for the size: the band then goes with the size alone.

    Examples
    --------
    >>> band = demand("rotary_cutter", 1.8288)
    >>> round(band.low / 745.7), round(band.high / 745.7)
    (24, 30)
    """
    row = implement_power.kind_row(kind)
    if row is None:
        return None
    if row["size"] == "auger":
        return _band(*digging.power_range(size, digging.SOIL_OF[load]), digging.SOURCE)
    if row["size"] == "rating":
        shaft = implement_power.generator_shaft_power(size)
        return _band(shaft, shaft, "power/S23; power/DERIVED")
    high = implement_power.needed(kind, size, load, basis, reserve)
    if implement_power.figures(kind, basis) == "d497":
        source = tables.by_key("power/rotary_power", "key")[row["rotary_key"]]["source"]
        return _band(high / (1.0 + reserve), high, source)
    column = {"light": "light_source", "typical": "source", "heavy": "heavy_source"}[load]
    source = tables.by_key("power/power_density", "key")[row["power_key"]][column]
    low = high / (1.0 + pto_power.RESERVE_HIGH)
    if kind in BLOWERS:
        if load in EASIER:
            easier = implement_power.needed(kind, size, EASIER[load], basis, reserve)
            low = easier / (1.0 + pto_power.RESERVE_HIGH)
        if by_class:
            low = arith.min(low, implement_class.class_power(kind, size)[0])
        source = f"{source}; {implement_class.class_source(kind)}"
    elif row["power_key"] in SLOWER and load == "typical":
        low = arith.min(low, implement_power.needed(kind, size, "light", basis, reserve))
    if row["size"] == "opening":  # measured on logs as thick as the opening, which few are
        low = arith.min(low, implement_power.demand("chipper", size, load))
        if by_class:
            low = arith.min(low, implement_class.class_power(kind, size)[0])
        source = f"power/S22; {implement_class.class_source(kind)}; {source}"
    return _band(low, high, source)


def as_made(power: float) -> Band:
    """Return the band of a machine whose maker names the least tractor: with a reserve it is easy.

    Examples
    --------
    >>> [round(end, 2) for end in as_made(20.0)[:2]]
    [20.0, 24.0]
    """
    reserve = power * pto_power.RESERVE
    return Band(power, power * (1.0 + pto_power.RESERVE), "power/DERIVED", reserve)


def moves(kind: str) -> bool:
    """Return whether the tractor drives while the shaft turns: not while it digs or chips."""
    row = implement_power.kind_row(kind)
    return row is None or row["works"] == "moving"


def climb_power(v: model.Inputs, standing: float, slope: float, rolling: float = 0.0) -> float:
    """Return what driving up a slope takes from the engine: the whole as it stands. [W]

    `standing` is the tractor as it stands, driver, loader and weights included [kg].
    """
    mass = standing + hung.hung_mass(v)
    efficiency = v.each("transmission", lambda drive: pto_power.axle_efficiency(drive)[1])
    return pto_power.travel_power(mass, slope, v.ground_speed, rolling, efficiency)


def at_a_walk(v: model.Inputs) -> model.Inputs:
    """Return the same with its climb taken no faster than at a walk."""
    return v.but(ground_speed=arith.min(v.ground_speed, WALK))


def check_power(
    at: model.At, band: Band, *, left: str, walking: str, least: str, need: str
) -> None:
    """Check what is left of the power against the band that the implement asks for.

    It is met where `left`, at the speed of the work, is all of the `need`; broken where `walking`,
    on the climb at a walk, is short of the `least`. The latter two name the ends of the band.
    """
    slower = at.number(walking) - at.number(left)
    strict = at.number(need) + slower
    tight = (
        lambda: band.width + arith.max(slower, 0.0),
        lambda: at.number(left) - at.number(need),
    )
    at.at_least("power", walking, least, band.source, strict=strict, kind="power", tight=tight)


def class_size(kind: str, width: float | None, mass: float | None) -> float | None:
    """Return what the class of a kind goes by, width or opening [m] or mass [kg].

    None where that isn't known; 0 where the class has one figure.
    """
    by = implement_class.class_by(kind)
    return {"width": width, "mass": mass, "total": 0.0}.get(by)


# --- checks -------------------------------------------------------------------------------------


def check_class(
    at: model.At,
    kind: str,
    size: float | None,
    power: str = "here",
    *,
    full: str = "rated",
    plate: bool = False,
) -> None:
    """Check the tractor's PTO power against what makers of this class ask for and what it bears.

    `power` names the tractor's PTO power at the place where it works, `full` its rated one: a
    gearbox has to bear that on the day that the tractor works lower down. With `plate` the
    gearbox's own rating is known and counts, not that of its class. [W]
    """
    if size is None or not implement_class.class_by(kind):
        return
    low, high, most = implement_class.class_power(kind, size)
    source = implement_class.class_source(kind)
    tight = (lambda: implement_class.class_spread(kind, size), lambda: at.number(power) - high)
    at.at_least("class", power, low, source, strict=high, kind="power", tight=tight)
    if most is not None and not plate:
        lenient = SEVERAL_DUTIES.get(kind, OVERLOAD) * most
        at.at_most("duty", full, lenient, source, strict=most, kind="power")


def check_driveline(
    at: model.At,
    power: str = "rated",
    limit: str = "power_limit",
    *,
    kind: str = "",
    name: str = "driveline",
    source: str = "",
) -> None:
    """Check the tractor's PTO power against the rating of a gearbox or a drive shaft.

    Up to `OVERLOAD` times the rating it is close, and the clutch must work; beyond, over. A
    post hole digger has no clutch, and its maker's figure is the most tractor that he allows.
    """
    if kind == digging.KIND:
        at.at_most(name, power, limit, "value/P6c", close_band=0.0)
        return
    most = OVERLOAD * at.number(limit)
    rule = "power/S25; power/GEAR-F11"
    at.at_most(name, power, most, f"{source}; {rule}" if source else rule, strict=limit)


def check_towed(at: model.At, tractor: float, towed: float, kind: str) -> None:
    """Check the mass of what rides on its own wheels, its load counted, against the tractor's. [kg]

    A compact's manual lets it tow no more than itself; one of a larger or unknown kind may, slowly.
    """
    small = kind not in ("utility", "any")
    even = TOWED_COMPACT * tractor
    most = even if small else TOWED_MOST * tractor
    source = "hitch/T26" if small else "hitch/T26; hitch/M10"
    band = {} if small else {"strict": even}
    whole = arith.number(towed)
    at.at_most("towed", whole, most, source, kind="mass", grade=model.DANGER, **band)


def check_shafts(at: model.At, tractor: str, implement: str, ours: str = "tractor_shaft") -> None:
    """Check that the speeds and the splines of two shafts "type-speed" go together.

    `ours` is the field of the tractor's. A mid shaft also turns the other way than a rear one.
    Who named the implement's has to look at the tractor's: the wrong speed is a danger.
    """
    if UNSEEN.value in (tractor, implement):
        field = ours if tractor == UNSEEN.value else "implement_shaft"
        at.not_checked("shaft", field, governs=implement != UNSEEN.value)
        return
    source = "hitch/S5; hitch/S4; hitch/W3"
    label = {option.value: option.label for option in (*SHAFTS, MID_SHAFT)}
    here, wanted = shaft_rpm(tractor), shaft_rpm(implement)
    if tractor == implement:
        at.fits("shaft", 1.0, source, "same", shaft=label.get(tractor, tractor))
    elif MID in (tractor, implement):
        at.fits("shaft", -1.0, source, "mid", grade=model.DANGER)
    elif here != wanted:
        fast = here > wanted
        # Blades pull with the square of the speed; the same work at less of it takes more torque.
        times = quantities.number((here / wanted) ** 2 if fast else wanted / here, 3)
        numbers = {"here": f"{here:.0f}", "wanted": f"{wanted:.0f}", "times": times}
        says = "speed" if fast else "slow"
        at.fits("shaft", -1.0, source, says, grade=model.DANGER, **numbers)
    else:
        at.fits("shaft", 0.0, source, "splines")


def mid_driven(kind: str) -> bool:
    """Return whether a kind is driven from the mid PTO: a deck between the axles, a front blower.

    Examples
    --------
    >>> mid_driven("mid_mower"), mid_driven("finish_mower")
    (True, False)
    """
    row = implement_power.kind_row(kind)
    return row is not None and row["hangs"] in ("mid", "front")


def check_mid(at: model.At, mid_pto: str, shaft: str, ours: str = "mid_pto") -> None:
    """Check that a tractor has the mid PTO that an implement is driven from.

    A rear shaft turns at another speed and the other way. While nobody looked it stays open.
    """
    if mid_pto == "yes" or shaft == MID:
        at.fits("shaft", 1.0, "hitch/PRACTICE", "mid_same")
    elif mid_pto == "none":
        at.fits("shaft", -1.0, "hitch/PRACTICE", "no_mid")
    else:
        at.not_checked("shaft", ours)


def check_guide(at: model.At, shaft: str, need: str) -> None:
    """Check what goes through a shaft against what a shaft of this size is meant for."""
    if shaft == MID:
        return  # the guide is for rear shafts
    kind = "1" if shaft == UNSEEN.value else shaft.split("-")[0]
    guide = pto.power_guide(kind, shaft_rpm(shaft))
    if at.number(need) > 0.5 * guide:
        at.at_most("guide", need, guide, "hitch/ISO500-memory", close_band=0.0)


def generator_start(rating: float) -> float:
    """Return the PTO power that carries a generator and starts motors on it. [W]

    Two horsepower at the shaft for each kilowatt of its rating [W].

    Examples
    --------
    >>> round(generator_start(10e3) / 745.7)
    20
    """
    return arith.number(implement_power.generator_engine_power(rating))
