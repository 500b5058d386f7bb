"""What an auger asks for: power by hole and soil, the torque of it, and an oil motor's."""

from calc import arith, si, tables


def power_scaled(power: float, diameter: float, wanted_diameter: float) -> float:
    r"""Auger power at another diameter, same soil and depth.

    .. math:: P_2 = P_1 (D_2 / D_1)^2

    Parameters
    ----------
    power : float
        Power at the first diameter, 0 or more. [W]
    diameter, wanted_diameter : float
        Auger diameters, above 0; meant for 0.15 to 0.46. [m]

    Returns
    -------
    float
        Power at the wanted diameter. [W]

    Raises
    ------
    ValueError
        If a diameter is not above zero.

    References
    ----------
    [1] value/P7.

    Examples
    --------
    >>> power_scaled(1000.0, 6 * si.INCH, 12 * si.INCH)
    4000.0
    """
    if diameter <= 0.0 or wanted_diameter <= 0.0:
        raise ValueError("An auger's diameter must be above zero.")
    return power * (wanted_diameter / diameter) ** 2


def soil_factor(soil: str, column: str = "factor") -> float:
    """Soil resistance against sand, from the table `digger_soils`.

    Parameters
    ----------
    soil : str
        Key of the table.
    column : str
        "factor_low", "factor" or "factor_high".

    Returns
    -------
    float
        Resistance, sand being 1. [-]

    References
    ----------
    [1] value/AUGER-memory.

    Examples
    --------
    >>> soil_factor("loam")
    1.3
    """
    return float(tables.by_key("digger/digger_soils", "key")[soil][column])


def auger_power(diameter: float, factor: float) -> float:
    r"""Power that an auger asks of the shaft at 540 rpm.

    .. math:: P = P_a \frac{f}{f_a} \left(\frac{D}{D_a}\right)^2

    The anchor (a) is trade custom for a 12 in auger in clay, from the table `digger_power`;
    the square of the diameter is [1]_.

    Parameters
    ----------
    diameter : float
        Auger diameter, above 0; meant for 0.15 to 0.46. [m]
    factor : float
        Soil factor, 1 in sand to about 2 in clay. [-]

    Returns
    -------
    float
        Power at the shaft. [W]

    References
    ----------
    [1] value/P7. [2] power/PRACTICE. [3] value/AUGER-memory.

    Examples
    --------
    >>> round(auger_power(12 * si.INCH, soil_factor("clay")) / si.HP, 1)
    35.0
    >>> round(auger_power(9 * si.INCH, soil_factor("loam")) / si.HP, 1)
    13.8
    """
    anchor = tables.by_key("digger/digger_power", "key")["anchor"]
    per_factor = float(anchor["hp"]) * si.HP / soil_factor(anchor["soil"])
    return power_scaled(per_factor * factor, float(anchor["diameter_in"]) * si.INCH, diameter)


@arith.rising
def class_least(diameter: float) -> float:
    """Least PTO power of the digger class that turns an auger: what makers name.

    Parameters
    ----------
    diameter : float
        Auger diameter, above 0; the next size of the table `digger_augers` counts. [m]

    Returns
    -------
    float
        Power at the tractor's PTO; beyond the last size as the square of the diameter. [W]

    References
    ----------
    [1] value/DIGGERCLASS-memory.

    Examples
    --------
    >>> [round(class_least(size * si.INCH) / si.HP) for size in (9, 12, 18, 24)]
    [14, 14, 20, 30]
    """
    return _of_class(diameter, "least_hp")


@arith.rising
def class_bears(diameter: float) -> float:
    """Most power that a gearbox of the digger class bears that turns an auger.

    Parameters
    ----------
    diameter : float
        Auger diameter, above 0; the next size of the table `digger_augers` counts. [m]

    Returns
    -------
    float
        Power at the tractor's PTO; beyond the last size as the square of the diameter. [W]

    References
    ----------
    [1] value/DIGGERCLASS-memory.

    Examples
    --------
    >>> [round(class_bears(size * si.INCH) / si.HP) for size in (9, 12, 18, 24)]
    [40, 40, 65, 100]
    """
    return _of_class(diameter, "gearbox_high_hp")


def _of_class(diameter: float, column: str) -> float:
    """Return a power of the class that an auger is of, from the table `digger_augers`. [W]

    `diameter` [m] counts as the next size there is; `column` holds the class's power [hp].
    """
    rows = tables.rows("digger/digger_augers")
    for row in rows:
        if diameter <= float(row["diameter_in"]) * si.INCH * (1.0 + 1e-9):
            return float(row[column]) * si.HP
    last = rows[-1]
    return power_scaled(float(last[column]) * si.HP, float(last["diameter_in"]) * si.INCH, diameter)


def auger_power_range(diameter: float, soil: str, feed: str = "any") -> tuple[float, float]:
    r"""Power that an auger takes, from a slow feed to full flights.

    .. math:: P = s P_a \frac{f}{f_a} \left(\frac{D}{D_a}\right)^2

    with the shares s of the table `digger_feeds`: trade custom gives 15 hp for light work, 20 to
    25 for usual work and 35 for an auger that is kept full in clay. Fed slowly it takes no more
    than the least tractor of its class has, and full of dirt no more than the gearbox of its class
    bears: the square of the diameter was found up to 18 in.

    Parameters
    ----------
    diameter : float
        Auger diameter, above 0; meant for 0.15 to 0.61. [m]
    soil, feed : str
        Rows of the tables `digger_soils` and `digger_feeds`.

    Returns
    -------
    tuple of float
        Least power and power at full flights. [W]

    References
    ----------
    [1] value/P7. [2] power/PRACTICE. [3] value/DIGGERCLASS-memory.

    Examples
    --------
    >>> [round(power / si.HP, 1) for power in auger_power_range(12 * si.INCH, "clay")]
    [14.0, 35.0]
    >>> [round(power / si.HP, 1) for power in auger_power_range(18 * si.INCH, "clay")]
    [20.0, 65.0]
    """
    row = tables.by_key("digger/digger_feeds", "key")[feed]
    full = arith.min(auger_power(diameter, soil_factor(soil)), class_bears(diameter))
    low = float(row["share_low"]) * full
    if feed != "steady":
        low = arith.min(low, class_least(diameter))
    return low, float(row["share_high"]) * full


def widest_auger(power: float, factor: float) -> float:
    """Diameter at which `auger_power` equals a power.

    Parameters
    ----------
    power : float
        Power at the shaft, 0 or more. [W]
    factor : float
        Soil factor, above 0. [-]

    Returns
    -------
    float
        Auger diameter. [m]

    References
    ----------
    [1] value/P7.

    Examples
    --------
    >>> round(widest_auger(35 * si.HP, soil_factor("clay")) / si.INCH, 6)
    12.0
    """
    return arith.sqrt(power / auger_power(1.0, factor))


def sold_augers() -> tuple[float, ...]:
    """Return the diameters that augers are sold in, the smallest first. [m]

    References
    ----------
    [1] value/P6c; value/DIGGERCLASS-memory.
    """
    return tuple(float(row["diameter_in"]) * si.INCH for row in tables.rows("digger/digger_augers"))


@arith.rising
def next_auger(diameter: float) -> float:
    """Return the widest auger that is sold up to a diameter; below the smallest, zero. [m]

    Examples
    --------
    >>> round(next_auger(12.3 * si.INCH) / si.INCH), round(next_auger(5.0 * si.INCH) / si.INCH)
    (12, 0)
    """
    fitting = [size for size in sold_augers() if size <= diameter * (1.0 + 1e-6)]
    return fitting[-1] if fitting else 0.0


def auger_torque(shaft_torque: float, ratio: float, efficiency: float = 0.95) -> float:
    r"""Torque at the auger behind a reduction gearbox.

    .. math:: T_a = T i \eta

    Parameters
    ----------
    shaft_torque : float
        Torque at the gearbox input. [N m]
    ratio : float
        Input speed over auger speed, above 0; near 3. [-]
    efficiency : float
        Share that passes the gears, above 0 up to 1. [-]

    Returns
    -------
    float
        Torque at the auger. [N m]

    Raises
    ------
    ValueError
        If the ratio or the efficiency is out of range.

    References
    ----------
    [1] value/DERIVED. [2] value/AUGER-memory for the ratio near 3.

    Examples
    --------
    >>> round(auger_torque(243.0, 3.0))
    693
    """
    if ratio <= 0.0 or not 0.0 < efficiency <= 1.0:
        raise ValueError("The gear ratio must be above zero and the efficiency above 0 up to 1.")
    return shaft_torque * ratio * efficiency


def power_at_speed(power: float, speed: float, rated_speed: float) -> float:
    """Power left below rated speed if the torque stays the same.

    Parameters
    ----------
    power : float
        Power at the rated speed. [W]
    speed : float
        Speed in use, 0 to the rated speed; faster gives no more. [any]
    rated_speed : float
        Rated speed, above 0, same unit. [any]

    Returns
    -------
    float
        Power at that speed. [W]

    References
    ----------
    [1] value/DERIVED.

    Examples
    --------
    >>> round(power_at_speed(25.0, 1200.0, 2550.0), 2)
    11.76
    """
    if rated_speed <= 0.0 or speed < 0.0:
        raise ValueError("Speeds can't be below zero and the rated speed must be above it.")
    return power * arith.min(1.0, speed / rated_speed)


def hydraulic_motor(
    flow: float,
    pressure: float,
    displacement: float,
    volumetric_efficiency: float = 1.0,
    mechanical_efficiency: float = 1.0,
) -> tuple[float, float]:
    r"""Speed and torque of a hydraulic auger motor.

    .. math:: n = Q \eta_v / V, \quad T = \Delta p V \eta_m / 2\pi

    Parameters
    ----------
    flow : float
        Oil flow. [m3/s]
    pressure : float
        Pressure drop across the motor. [Pa]
    displacement : float
        Volume a turn, above 0. [m3]
    volumetric_efficiency, mechanical_efficiency : float
        Above 0 up to 1. [-]

    Returns
    -------
    tuple of float
        Speed [1/s] and torque [N m].

    Raises
    ------
    ValueError
        If the displacement is not above zero.

    Notes
    -----
    Trade pages print torque and speed that don't follow from their own pressure, flow and
    displacement: compute them.

    References
    ----------
    [1] value/P12.

    Examples
    --------
    >>> speed, torque = hydraulic_motor(6e-4, 150e5, 3e-4)
    >>> round(speed * 60), round(torque)
    (120, 716)
    """
    if displacement <= 0.0:
        raise ValueError("The motor's displacement must be above zero.")
    return (
        flow * volumetric_efficiency / displacement,
        pressure * displacement * mechanical_efficiency / (2.0 * arith.pi),
    )


def hole_volume(diameter: float, depth: float) -> float:
    r"""Volume of a round hole.

    .. math:: V = \pi D^2 h / 4

    Parameters
    ----------
    diameter, depth : float
        Size of the hole, 0 or more. [m]

    Returns
    -------
    float
        Volume of undisturbed soil. [m3]

    References
    ----------
    [1] value/P13.

    Examples
    --------
    >>> round(hole_volume(0.3, 1.0), 4)
    0.0707
    """
    if diameter < 0.0 or depth < 0.0:
        raise ValueError("A hole's size can't be below zero.")
    return arith.pi / 4.0 * diameter * diameter * depth
