"""What lamps draw and shine at a voltage, and what the alternator and battery bear.

References
----------
.. [1] road/WEB-10 and road/BULB-1, road/BULB-2 and road/BULB-memory, lamp currents.
.. [2] road/VOLT-memory, filament current rises with about the 0.55 power of voltage.
.. [3] road/CALC-1, Ohm's law.
"""

from collections.abc import Iterable

from calc import arith

RATED_VOLTAGE = 12.0
CHARGING_VOLTAGE = 13.8
FILAMENT_CURRENT_EXPONENT = 0.55
FILAMENT_LIGHT_EXPONENT = 3.4
FLASHER_DUTY = 0.5


def lamp_current(watts: float, behavior: str = "filament", voltage: float = RATED_VOLTAGE) -> float:
    """Return the current of a lamp from its power.

    A filament lamp's power is stated at 12 V: ``I = W / 12``, then with voltage to the power
    0.55. Dividing a filament's watts by the charging voltage would understate its current. An
    LED driver takes constant power: ``I = W / V``.

    Parameters
    ----------
    watts : float
        Rated power, 0 or more. [W]
    behavior : str
        "filament" or "constant power".
    voltage : float
        At the lamp, more than 0. [V]

    Returns
    -------
    float
        Current. [A]

    References
    ----------
    [1]_, [2]_

    Examples
    --------
    >>> round(lamp_current(55), 2)
    4.58
    """
    if watts < 0:
        raise ValueError("Power can't be negative.")
    if not voltage > 0:
        raise ValueError("Voltage must be more than zero.")
    if behavior == "filament":
        rated = watts / RATED_VOLTAGE
        return arith.number(rated * (voltage / RATED_VOLTAGE) ** FILAMENT_CURRENT_EXPONENT)
    if behavior == "constant power":
        return watts / voltage
    raise ValueError(f"There is no lamp behavior {behavior!r}.")


def light_left(drop_share: float) -> float:
    """Return the share of light that a filament lamp keeps at a lower voltage.

    ``(1 - drop)^3.4``

    Parameters
    ----------
    drop_share : float
        Voltage lost, 0 to 1. [-]

    References
    ----------
    [2]_

    Examples
    --------
    >>> round(light_left(0.10), 2)
    0.7
    """
    if not 0 <= drop_share <= 1:
        raise ValueError("A voltage drop is a share from 0 to 1.")
    return arith.number((1 - drop_share) ** FILAMENT_LIGHT_EXPONENT)


def load_current(lamps: Iterable[tuple[float, float, float]]) -> float:
    """Return the average current of a set of lamps: ``sum(n I duty)``.

    Parameters
    ----------
    lamps : iterable of (count, current, duty)
        Count [-], current of one [A], share of time lit [-].

    Returns
    -------
    float
        Current. [A]

    References
    ----------
    [3]_
    """
    return sum(count * current * duty for count, current, duty in lamps)


def charging_margin(output: float, load: float) -> float:
    """Return the current left for the battery: ``I_alt - I_load``.

    Parameters
    ----------
    output : float
        Of the alternator or dynamo at the engine speed in question. [A]
    load : float
        Average. [A]

    Returns
    -------
    float
        Below zero the battery runs down. [A]
    """
    return output - load


def battery_hours(capacity: float, shortfall: float, usable_share: float = 0.5) -> float:
    """Return how long a battery covers a shortfall: ``C s / I``.

    Parameters
    ----------
    capacity : float
        Rated capacity. [A h]
    shortfall : float
        Load beyond what is charged; 0 or less gives infinity. [A]
    usable_share : float
        Share that still leaves enough to start, 0 to 1. [-]

    Returns
    -------
    float
        [h]
    """
    if shortfall <= 0:
        return arith.number("inf")
    return capacity * usable_share / shortfall
