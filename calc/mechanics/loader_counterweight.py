"""Weight behind for work with a loader: what it takes, and what may be lifted with it.

The letters are those of `axle_loads`.
"""

from calc import arith
from calc.mechanics import bounds

LOADER_REAR_SHARE = 0.20
"""Least rear axle load in loader work, as a share of everything (hitch/H7)."""


def loader_counterweight(
    front_axle: float,
    rear_axle: float,
    wheelbase: float,
    hitch_distance: float,
    payload: float,
    payload_ahead: float,
    share: float = LOADER_REAR_SHARE,
) -> float:
    r"""Return the counterweight on the hitch that a loader's payload asks for.

    .. math:: M = \frac{5 N B + I_2 (P + N - 5 G)}{5 (I_1 + I_2) - I_2}

    which leaves a fifth of everything on the rear axle. Weights in or on the rear
    wheels load the rear axle too, but only a weight behind it relieves the front.

    Parameters
    ----------
    front_axle : float
        Front axle load with loader and empty tool, no counterweight. [kg]
    rear_axle : float
        Rear axle load in the same state; G in the formula. [kg]
    wheelbase : float
        Wheelbase, more than 0; I2 in the formula. [m]
    hitch_distance : float
        Rear axle to the counterweight's center of gravity, 0 or more; the formula
        takes the linkage pins, I1, which is the safe side. [m]
    payload : float
        Load in the tool, pivots level; N. [kg]
    payload_ahead : float
        Front axle to the tool's center of gravity, arms level; B. [m]
    share : float
        Least share of everything on the rear axle. [fraction]

    Returns
    -------
    float
        Counterweight, 0 when none is needed. [kg]

    Raises
    ------
    ValueError
        When an input is out of its range.

    References
    ----------
    .. [1] hitch/H7, after EN 12525:2000+A2:2010.

    Examples
    --------
    >>> round(loader_counterweight(850.0, 850.0, 1.7, 0.8, 500.0, 1.45), 1)
    13.0
    """
    bounds.check_geometry(wheelbase, hitch_distance, payload, payload_ahead)
    everything = front_axle + rear_axle + payload
    short = payload * payload_ahead + wheelbase * (share * everything - rear_axle)
    return arith.max(short / (hitch_distance + wheelbase * (1.0 - share)), 0.0)


def greatest_payload(
    front_axle: float,
    rear_axle: float,
    wheelbase: float,
    payload_ahead: float,
    share: float = LOADER_REAR_SHARE,
) -> float:
    """Return the largest payload in a loader that leaves enough load on the rear axle.

    Parameters
    ----------
    front_axle, rear_axle : float
        Axle loads with loader, empty tool and whatever hangs on the hitch. [kg]
    wheelbase, payload_ahead : float
        As for `loader_counterweight`. [m]
    share : float
        Least share of everything on the rear axle. [fraction]

    Returns
    -------
    float
        Payload, 0 at least. [kg]

    Raises
    ------
    ValueError
        When an input is out of its range.

    References
    ----------
    .. [1] hitch/DERIVED, the formula of hitch/H7 solved for the payload.

    Examples
    --------
    >>> round(greatest_payload(850.0, 850.0, 1.7, 1.45))
    484
    """
    bounds.check_geometry(wheelbase, payload_ahead)
    spare = wheelbase * (rear_axle - share * (front_axle + rear_axle))
    return arith.max(spare / (payload_ahead + share * wheelbase), 0.0)
