"""What an implement takes from the PTO: by width, diameter or mass, by standard or by custom.

What it takes is given by ASAE D497 for some kinds and by trade custom for the others.

References
----------
.. [1] power/D497-memory and power/S15: rotary power P = a + b w + c F.
.. [2] power/S16 to power/S23: power for each width, diameter or kilowatt.
.. [3] power/MOWER-memory: mower power from idle loss and cutting energy.
"""

from calc import arith, si, tables
from calc.mechanics import bounds, pto_power

LOADS = ("light", "typical", "heavy")


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
    bounds.check_amount(width=width, throughput=throughput)
    row = pto_power.find_row("power/rotary_power", key)
    a, b, c = (float(row[name]) for name in ("a_kw", "b_kw_per_m", "c_kwh_per_t"))
    return (a + b * width + c * throughput * 3.6) * 1000.0


def rotary_spread(key: str) -> float | None:
    """Return the share by which machines of a D497 row lie above or below it, or None.

    Examples
    --------
    >>> rotary_spread("mower_flail")
    0.4
    """
    text = pto_power.find_row("power/rotary_power", key)["plus_minus_percent"]
    return arith.number(text) / 100.0 if text else None


_PER = {"ft": si.FOOT, "in": si.INCH, "m": 1.0, "total": 1.0, "kW": 1000.0}


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
    row = pto_power.find_row("power/power_density", key)
    if not row[load]:
        raise LookupError(f"The row {key!r} has no figure for {load} work.")
    unit = si.HP if row["unit"] == "hp" else 1000.0
    return float(row[load]) * unit / _PER[row["per"]]


def is_total(key: str) -> bool:
    """Return whether a row gives the whole power, whatever the width."""
    return pto_power.find_row("power/power_density", key)["per"] == "total"


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
    bounds.check_amount(width=width)
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
    reserve: float = pto_power.RESERVE,
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
    bounds.check_amount(available=available, fixed=fixed, reserve=reserve)
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
    bounds.check_amount(
        width=width, speed=speed, idle_loss=idle_loss, cutting_energy=cutting_energy
    )
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
    bounds.check_amount(load=load)
    if not 0.0 < efficiency <= 1.0:
        raise ValueError("The efficiency is above 0 and at most 1.")
    return load / efficiency
