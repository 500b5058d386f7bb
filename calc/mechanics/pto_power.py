"""Power at the power take-off: what the tractor has left, what an implement takes.

Power runs from the engine to the shaft; altitude and heat take from the engine, and
driving uphill takes from the same engine as the shaft. What an implement takes is
given by ASAE D497 for some kinds and by trade custom for the others.

References
----------
.. [1] power/S8 and power/S10: engine to PTO.
.. [2] power/S27 to power/S31: altitude and heat.
.. [3] power/D497-memory and power/S15: rotary power P = a + b w + c F.
.. [4] power/S16 to power/S23: power for each width, diameter or kilowatt.
.. [5] power/MOWER-memory: mower power from idle loss and cutting energy.
"""

from functools import cache

from calc import arith, tables

G = 9.80665
HP = 745.6998715822702
FOOT = 0.3048
INCH = 0.0254
LOADS = ("light", "typical", "heavy")
DEFAULT_RATIO = "unstated"
DEFAULT_ALTITUDE_RULE = "na_500"
# Averages hide peaks: one cutter peaked at 1.9 times its mean (power/S18), and the
# trade keeps 15 to 25 % in hand (power/PRACTICE).
RESERVE_LOW, RESERVE, RESERVE_HIGH = 0.15, 0.20, 0.25


def _find(table: str, key: str) -> dict[str, str]:
    try:
        return tables.by_key(table, "key")[key]
    except KeyError:
        raise LookupError(f"The table {table} has no row called {key!r}.") from None


def _positive(**values: float) -> None:
    for name, value in values.items():
        if not (value >= 0.0 and arith.isfinite(value)):
            raise ValueError(f"The {name.replace('_', ' ')} is 0 or more.")


def pto_ratio(key: str = DEFAULT_RATIO) -> tuple[float, float, float]:
    """Return the share of an engine rating that reaches the PTO, (low, usual, high).

    Parameters
    ----------
    key : str
        A row of the table engine_to_pto; "unstated" is the 86 % rule with the figures
        for gross and net power as its band.

    Examples
    --------
    >>> pto_ratio(), pto_ratio("net")
    ((0.83, 0.86, 0.9), (0.9, 0.9, 0.9))
    """
    row = _find("power/engine_to_pto", key)
    return float(row["low"]), float(row["ratio"]), float(row["high"])


def engine_to_pto(engine_power: float, ratio: float) -> float:
    """Return the power at the PTO of an engine rating. [W]

    Parameters
    ----------
    engine_power : float
        Engine power as rated, 0 or more. [W]
    ratio : float
        Share that reaches the shaft, 0 to 1. [-]

    Raises
    ------
    ValueError
        When the power is below 0 or the ratio outside 0 to 1.

    Examples
    --------
    >>> engine_to_pto(125.0, 0.86)
    107.5
    """
    _positive(engine_power=engine_power)
    if not 0.0 <= ratio <= 1.0:
        raise ValueError("The share of engine power that reaches the shaft is 0 to 1.")
    return engine_power * ratio


def altitude_factor(altitude: float, rule: str = DEFAULT_ALTITUDE_RULE) -> float:
    """Return the share of an engine's power that is left at an altitude.

    .. math:: f = \\max(0, 1 - r (h - h_0))

    Parameters
    ----------
    altitude : float
        Height above the sea, -500 to 6000. [m]
    rule : str
        A row of the table altitude_rules.

    Returns
    -------
    float
        0 to 1. [-]

    Examples
    --------
    >>> round(225 * altitude_factor(4500 * 0.3048), 1)
    198.0
    >>> round(225 * altitude_factor(4500 * 0.3048, "na_2500"), 1)
    211.5
    """
    row = _find("power/altitude_rules", rule)
    above = arith.max(0.0, altitude / FOOT - float(row["from_ft"])) / 1000.0
    return arith.max(0.0, 1.0 - float(row["percent_per_1000_ft"]) / 100.0 * above)


def temperature_factor(temperature: float, rule: str = "diesel") -> float:
    """Return the share of an engine's power that is left in hot air.

    Parameters
    ----------
    temperature : float
        Air temperature. [K]
    rule : str
        A row of the table temperature_rules.

    Returns
    -------
    float
        0 to 1; cold air gains nothing here. [-]

    Examples
    --------
    >>> round(temperature_factor(308.15, "diesel"), 2)
    0.98
    """
    row = _find("power/temperature_rules", rule)
    fahrenheit = (temperature - 273.15) * 1.8 + 32.0
    above = arith.max(0.0, fahrenheit - float(row["from_f"])) / float(row["step_f"])
    return arith.max(0.0, 1.0 - float(row["percent_per_step"]) / 100.0 * above)


def grade_power(mass: float, grade: float, speed: float) -> float:
    """Return the power at the wheels that it takes to climb.

    .. math:: P = m g \\sin(\\arctan i) v

    Parameters
    ----------
    mass : float
        Tractor, implement and driver. [kg]
    grade : float
        Rise over run, 0.15 for 15 %; below 0 downhill. [-]
    speed : float
        Ground speed. [m/s]

    Returns
    -------
    float
        Power; below 0 downhill. [W]

    Examples
    --------
    >>> round(grade_power(2000, 0.15, 6 / 3.6) / 1000, 2)
    4.85
    """
    _positive(mass=mass, speed=speed)
    return mass * G * arith.sin(arith.atan(grade)) * speed


def rolling_power(mass: float, coefficient: float, speed: float) -> float:
    """Return the power at the wheels that rolling takes on the level. [W]

    .. math:: P = f m g v

    Parameters
    ----------
    mass : float
        Mass on the wheels. [kg]
    coefficient : float
        Rolling resistance as a share of weight, 0 to 1. [-]
    speed : float
        Ground speed. [m/s]

    Examples
    --------
    >>> round(rolling_power(2000, 0.08, 6 / 3.6) / 1000, 2)
    2.62
    """
    _positive(mass=mass, coefficient=coefficient, speed=speed)
    return coefficient * mass * G * speed


def rolling_coefficient(surface: str) -> tuple[float, float, float]:
    """Return rolling resistance as a share of weight, (low, usual, high), for a surface.

    Examples
    --------
    >>> rolling_coefficient("turf")
    (0.05, 0.065, 0.08)
    """
    for row in tables.rows("power/rolling_resistance"):
        if row["surface"] == surface:
            return float(row["low"]), float(row["value"]), float(row["high"])
    raise LookupError(f"No surface is called {surface!r}.")


def axle_efficiency(drive: str) -> tuple[float, float, float]:
    """Return the share of power that a drive brings to the axle, (low, usual, high).

    Parameters
    ----------
    drive : str
        "gear" or "hydrostatic", from test sheets.

    Examples
    --------
    >>> axle_efficiency("hydrostatic")[1]
    0.82
    """
    for row in tables.rows("power/drive_efficiency"):
        if row["basis"] == "drawbar tests" and row["drive"] == drive:
            return float(row["low"]), float(row["efficiency"]), float(row["high"])
    raise LookupError(f"No drive is called {drive!r}.")


def pump_drag(drive: str) -> tuple[float, float]:
    """Return what a drive takes from the engine when standing still, (low, high). [W]

    Examples
    --------
    >>> pump_drag("gear")
    (0.0, 0.0)
    """
    row = _find("power/pto_drag", drive)
    return float(row["low_hp"]) * HP, float(row["high_hp"]) * HP


def at_pto(engine_power: float, drag: float) -> tuple[float, float]:
    """Return the least and the most power at the PTO of an engine of which little is known. [W]

    Parameters
    ----------
    engine_power : float
        Engine power as rated, 0 or more. [W]
    drag : float
        What the drive takes at rest, at the most, 0 or more. [W]

    Examples
    --------
    >>> low, high = at_pto(35 * HP, 2 * HP)
    >>> round(low / HP, 1), round(high / HP, 1)
    (27.1, 31.5)
    """
    low, _, high = pto_ratio()
    least = engine_to_pto(engine_power, low) - drag
    return arith.max(0.0, least), engine_to_pto(engine_power, high)


def travel_power(
    mass: float, grade: float, speed: float, coefficient: float, efficiency: float
) -> float:
    """Return what driving takes from the engine beside the shaft.

    .. math:: P = \\max(0, P_{grade} + P_{rolling}) / \\eta

    Parameters
    ----------
    mass : float
        Tractor, implement and driver. [kg]
    grade : float
        Rise over run. [-]
    speed : float
        Ground speed. [m/s]
    coefficient : float
        Rolling resistance as a share of weight. [-]
    efficiency : float
        Engine to axle, above 0 to 1. [-]

    Returns
    -------
    float
        Power at the engine; downhill it is 0, never a gain. [W]

    Raises
    ------
    ValueError
        When the efficiency isn't above 0 and at most 1.

    Examples
    --------
    >>> round(travel_power(2000, 0.15, 6 / 3.6, 0.08, 0.80) / 1000, 1)
    9.3
    """
    if not 0.0 < efficiency <= 1.0:
        raise ValueError("The efficiency is above 0 and at most 1.")
    wheels = grade_power(mass, grade, speed) + rolling_power(mass, coefficient, speed)
    return arith.max(0.0, wheels) / efficiency


def power_left(
    pto_power: float, altitude_share: float = 1.0, heat_share: float = 1.0, travel: float = 0.0
) -> float:
    """Return the power that is left for the shaft at the job. [W]

    .. math:: P = \\max(0, P_{pto} f_h f_t - P_{travel})

    Altitude and heat cut the engine's power and so the shaft's in the same share;
    driving takes from the same engine.

    Parameters
    ----------
    pto_power : float
        Power at the PTO as rated. [W]
    altitude_share, heat_share : float
        Shares left at altitude and in heat, 0 to 1. [-]
    travel : float
        What driving takes. [W]

    Examples
    --------
    >>> power_left(20e3, 0.88, 1.0, 5e3)
    12600.0
    """
    _positive(pto_power=pto_power, travel=travel)
    return arith.max(0.0, pto_power * altitude_share * heat_share - travel)


def rotary_power(key: str, width: float = 0.0, throughput: float = 0.0) -> float:
    """Return the shaft power that ASAE D497 gives for an implement.

    .. math:: P = a + b w + c F

    Parameters
    ----------
    key : str
        A row of the table rotary_power.
    width : float
        Working width, overlap taken off. [m]
    throughput : float
        Crop passing through. [kg/s]

    Returns
    -------
    float
        Power at the shaft, driving and grade not included. [W]

    Examples
    --------
    >>> round(rotary_power("mower_flail", 1.5))
    15000
    >>> round(rotary_power("baler_small_square", throughput=8 / 3.6))
    10000
    """
    _positive(width=width, throughput=throughput)
    row = _find("power/rotary_power", key)
    a, b, c = (float(row[name]) for name in ("a_kw", "b_kw_per_m", "c_kwh_per_t"))
    return (a + b * width + c * throughput * 3.6) * 1000.0


def rotary_spread(key: str) -> float | None:
    """Return the share by which machines of a D497 row lie above or below it, or None.

    Examples
    --------
    >>> rotary_spread("mower_flail")
    0.4
    """
    text = _find("power/rotary_power", key)["plus_minus_percent"]
    return arith.number(text) / 100.0 if text else None


_PER = {"ft": FOOT, "in": INCH, "m": 1.0, "total": 1.0, "kW": 1000.0}


def density(key: str, load: str = "typical") -> float:
    """Return a figure of the table power_density in SI units.

    Parameters
    ----------
    key : str
        A row of the table.
    load : str
        "light", "typical" or "heavy".

    Returns
    -------
    float
        W/m for rows per ft, m or inch; W for rows of total power; W/W for the row
        of generators.

    Raises
    ------
    LookupError
        When the row or that figure of it isn't there.

    Examples
    --------
    >>> round(density("rotary_cutter") / 1000, 2)
    12.23
    """
    if load not in LOADS:
        raise LookupError(f"A load is one of {', '.join(LOADS)}; {load!r} isn't.")
    row = _find("power/power_density", key)
    if not row[load]:
        raise LookupError(f"The row {key!r} has no figure for {load} work.")
    unit = HP if row["unit"] == "hp" else 1000.0
    return float(row[load]) * unit / _PER[row["per"]]


def is_total(key: str) -> bool:
    """Return whether a row gives the whole power, whatever the width."""
    return _find("power/power_density", key)["per"] == "total"


def demand(key: str, width: float, load: str = "typical") -> float:
    """Return the shaft power that trade custom or a measurement gives for an implement.

    Parameters
    ----------
    key : str
        A row of the table power_density.
    width : float
        Working width; for a chipper the log or opening, for a generator its rating
        in watts, for rows of total power not used. [m]
    load : str
        "light", "typical" or "heavy".

    Returns
    -------
    float
        Power at the shaft. [W]

    Examples
    --------
    >>> round(demand("rotary_cutter", 5 * 0.3048) / 745.7, 1)
    25.0
    """
    _positive(width=width)
    return density(key, load) if is_total(key) else density(key, load) * width


def kind_row(kind: str) -> dict[str, str] | None:
    """Return the row of pto_kinds for a kind of implement, or None when none drives it.

    Examples
    --------
    >>> kind_row("flail_mower")["rotary_key"], kind_row("box_blade")
    ('mower_flail', None)
    """
    return tables.by_key("power/pto_kinds", "kind").get(kind)


def needed(
    kind: str,
    size: float,
    load: str = "typical",
    basis: str = "practice",
    reserve: float = RESERVE,
) -> float:
    """Return the power that a kind of implement asks a tractor for at the PTO.

    Trade custom names the tractor that suits, so its figures already hold a reserve and
    what driving on the level takes. ASAE D497 gives what the shaft carries, and the reserve
    is added; heavy work moves it up by the spread of its row. That spread is between machines,
    so light work is never below the mean: a machine that takes less is not chosen by mowing
    less. A generator asks for its rated load; what starting motors asks of the tractor is
    generator_engine_power.

    Parameters
    ----------
    kind : str
        A `kind` of the table pto_kinds.
    size : float
        Width or opening [m], throughput [kg/s] or rating [W], as the row's `size`
        says; not used where it says total.
    load : str
        "light", "typical" or "heavy".
    basis : str
        "practice" or "d497"; the other is used where a kind has one of them alone.
    reserve : float
        Share kept in hand with D497. [-]

    Returns
    -------
    float
        Power at the shaft. [W]

    Raises
    ------
    LookupError
        When no implement of that kind is driven from the PTO.

    Examples
    --------
    >>> round(needed("flail_mower", 1.5, basis="d497", reserve=0.2))
    18000
    >>> round(needed("flail_mower", 1.5) / 745.7, 1)
    24.6
    """
    row = kind_row(kind)
    if row is None:
        raise LookupError(f"Nothing on {kind!r} is driven from the power take-off.")
    if row["size"] == "rating":
        return generator_shaft_power(size)
    if figures(kind, basis) == "practice":
        return demand(row["power_key"], size, load)
    key = row["rotary_key"]
    through = row["size"] == "throughput"
    shaft = rotary_power(key, 0.0 if through else size, size if through else 0.0)
    spread = (rotary_spread(key) or 0.0) if load == "heavy" else 0.0
    return shaft * (1.0 + spread) * (1.0 + reserve)


def speed_loss(speed_share: float) -> tuple[float, float]:
    """Return the share of the rated power lost at a lower engine speed, (low, high).

    A diesel's torque rises as it slows, so just below its rated speed hardly any power is lost;
    far below, speed counts for more than torque. Between the rows of torque_curve a straight
    line is drawn.

    Parameters
    ----------
    speed_share : float
        Engine speed as a share of its rated speed, above 0; at 1 and more nothing is lost. [-]

    Examples
    --------
    >>> [round(loss, 2) for loss in speed_loss(0.65)], speed_loss(1.02)
    ([0.25, 0.3], (0.0, 0.0))
    """
    rows = tables.rows("power/torque_curve")
    speeds = [float(row["speed_share"]) for row in rows]
    low = [float(row["loss_low"]) for row in rows]
    high = [float(row["loss_high"]) for row in rows]
    return _between(speed_share, speeds, low), _between(speed_share, speeds, high)


def _between(x: float, xs: list[float], ys: list[float]) -> float:
    """Read a table along straight lines; outside its ends the end holds."""
    if x <= xs[0]:
        return ys[0]
    for i in range(1, len(xs)):
        if x <= xs[i]:
            share = (x - xs[i - 1]) / (xs[i] - xs[i - 1])
            return ys[i - 1] + share * (ys[i] - ys[i - 1])
    return ys[-1]


_CLASS_UNITS = {"ft": FOOT, "in": INCH, "kg": 1.0}


@cache
def _class_rows(kind: str) -> tuple[dict[str, str], ...]:
    return tuple(row for row in tables.rows("power/class_power") if row["kind"] == kind)


def class_by(kind: str) -> str:
    """Return what the class of a kind goes by: "width", "mass", "total"; "" where none is known.

    Examples
    --------
    >>> class_by("round_baler"), class_by("chipper"), class_by("generator")
    ('mass', 'width', '')
    """
    rows = _class_rows(kind)
    return rows[0]["by"] if rows else ""


def class_source(kind: str) -> str:
    """Return the citation of a kind's class figures."""
    cited = "; ".join(row["source"] for row in _class_rows(kind)).split("; ")
    return "; ".join(dict.fromkeys(cited))


def class_power(kind: str, size: float) -> tuple[float, float, float | None]:
    """Return the PTO power that a class of implement is made for. [W]

    Makers' least figures differ for one size: below the lowest of them nobody sells it to a
    tractor, from the highest on all do. The most is what its gearbox or frame bears. Between
    sizes of the table a straight line is drawn; beyond its ends power goes with size.

    Parameters
    ----------
    kind : str
        A kind of the table class_power.
    size : float
        Working width or opening [m], or mass of the implement [kg], as `class_by` says.

    Returns
    -------
    tuple
        Lowest and highest of the least figures, and the most or None where it isn't known.

    Raises
    ------
    LookupError
        When the table has no such kind.

    Examples
    --------
    >>> [round(power / HP) for power in class_power("rotary_cutter_light", 5 * FOOT)]
    [20, 20, 40]
    >>> round(class_power("round_baler", 1600.0)[0] / HP)
    45
    """
    rows = _class_rows(kind)
    if not rows:
        raise LookupError(f"No class of {kind!r} is in the table class_power.")
    sizes = [float(row["size"]) * _CLASS_UNITS[row["unit"]] for row in rows]
    beyond = 1.0
    if sizes[-1] > 0.0:
        beyond = arith.max(1.0, size / sizes[-1]) * arith.min(1.0, size / sizes[0])
    read = [
        HP * beyond * _between(size, sizes, [float(row[column] or 0.0) for row in rows])
        for column in ("least_low_hp", "least_high_hp", "most_hp")
    ]
    return read[0], read[1], read[2] if rows[0]["most_hp"] else None


def figures(kind: str, basis: str) -> str:
    """Return whose figures are used for a kind: `basis` where it has them, else the other.

    Examples
    --------
    >>> figures("rotary_cutter", "d497"), figures("tedder", "practice")
    ('practice', 'd497')
    """
    row = kind_row(kind) or {"power_key": "", "rotary_key": ""}
    if basis == "d497":
        return "d497" if row["rotary_key"] else "practice"
    return "practice" if row["power_key"] else "d497"


def widest(
    available: float, power_per_width: float, fixed: float = 0.0, reserve: float = 0.0
) -> float:
    """Return the width whose demand, with a reserve, is just what is available.

    .. math:: w = \\left(\\frac{P}{1 + r} - a\\right) / b

    Parameters
    ----------
    available : float
        Power for the shaft. [W]
    power_per_width : float
        Demand for each meter of width, above 0. [W/m]
    fixed : float
        Demand that doesn't depend on the width. [W]
    reserve : float
        Share of the demand to keep in hand, 0 or more. [-]

    Returns
    -------
    float
        Width, 0 when even the fixed part can't be met. [m]

    Examples
    --------
    >>> round(widest(20 * 745.7, density("rotary_cutter")) / 0.3048, 2)
    4.0
    """
    _positive(available=available, fixed=fixed, reserve=reserve)
    if not power_per_width > 0.0:
        raise ValueError("The power for each width is above 0.")
    return arith.max(0.0, (available / (1.0 + reserve) - fixed) / power_per_width)


def mower_power(width: float, speed: float, idle_loss: float, cutting_energy: float) -> float:
    """Return a mower's shaft power from its idle loss and cutting energy. [W]

    .. math:: P = (P_{Ls} + E_{sc} v) w

    Only the second part falls when the ground speed does.

    Parameters
    ----------
    width : float
        Working width. [m]
    speed : float
        Ground speed. [m/s]
    idle_loss : float
        Power to turn the mower in the air, 1500 to 4000 for disk mowers. [W/m]
    cutting_energy : float
        1500 with sharp blades to 2100 with worn ones. [J/m2]

    Examples
    --------
    >>> round(mower_power(1.0, 8 / 3.6, 1500, 1500) / 1000, 2)
    4.83
    """
    _positive(width=width, speed=speed, idle_loss=idle_loss, cutting_energy=cutting_energy)
    return (idle_loss + cutting_energy * speed) * width


def saving_at_half_speed(speed: float) -> tuple[float, float]:
    """Return the share of a mower's power that half the ground speed saves, (low, high).

    .. math:: \\frac{E_{sc} v / 2}{P_{Ls} + E_{sc} v}

    Parameters
    ----------
    speed : float
        Ground speed before it is halved. [m/s]

    Returns
    -------
    tuple of float
        The smaller and the larger of the rows of mower_form. [-]

    Examples
    --------
    >>> [round(share, 2) for share in saving_at_half_speed(8 / 3.6)]
    [0.27, 0.34]
    """
    shares = []
    for row in tables.rows("power/mower_form"):
        idle, cutting = float(row["idle_w_per_m"]), float(row["cutting_j_per_m2"])
        full = mower_power(1.0, speed, idle, cutting)
        shares.append(1.0 - mower_power(1.0, speed / 2.0, idle, cutting) / full)
    return arith.min(shares), arith.max(shares)


def generator_engine_power(rating: float) -> float:
    """Return the power that a PTO generator asks of a tractor, by the published rule.

    Two horsepower for each kilowatt rated: 1.58 carry the load through an
    alternator of 85 %, the rest starts motors.

    Parameters
    ----------
    rating : float
        Rated output of the generator. [W]

    Returns
    -------
    float
        Power. [W]

    Examples
    --------
    >>> round(generator_engine_power(10e3) / 745.7)
    20
    """
    return demand("generator", rating)


def generator_shaft_power(load: float, efficiency: float = 0.85) -> float:
    """Return the shaft power that an electrical load takes, without starting reserve. [W]

    Parameters
    ----------
    load : float
        Electrical load. [W]
    efficiency : float
        Of the alternator, above 0 to 1. [-]

    Examples
    --------
    >>> round(generator_shaft_power(1000.0) / 745.7, 2)
    1.58
    """
    _positive(load=load)
    if not 0.0 < efficiency <= 1.0:
        raise ValueError("The efficiency is above 0 and at most 1.")
    return load / efficiency
