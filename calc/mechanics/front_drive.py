"""Front-drive lead: how much faster the front tires run than the rear with front drive engaged.

References
----------
.. [1] tires/TG-3 and tires/OM-2: definition of lead.
.. [2] tires/S7, GRDC (2025), and tires/TG-3: measuring it by counting turns.
.. [3] tires/WEB-7: counting the gear ratio.
.. [4] tires/S4 and tires/WEB-5: rolling circumference index, step 1.054.
"""

from dataclasses import dataclass

from calc import arith, tables

INDEX_STEP = 1.054
"""Ratio of rolling circumferences of neighboring index groups [-], tires/S4."""
_ANCHOR_GROUP = 47
_ANCHOR_CIRCUMFERENCE = 5.850
DEFAULT_WINDOW = "guide"


@dataclass(frozen=True, slots=True)
class Window:
    """An accepted window of lead [-], with the aimed-at part where the source gives one."""

    key: str
    label: str
    low: float
    high: float
    target_low: float
    target_high: float
    source: str

    @property
    def middle(self) -> float:
        """Middle of the part aimed at [-]."""
        return (self.target_low + self.target_high) / 2.0

    def margin(self, low: float, high: float) -> float:
        """Return how far a band of lead stays inside [-]; negative when any of it is outside."""
        return arith.min(low - self.low, self.high - high)


def windows() -> tuple[Window, ...]:
    """Return every published window, as its source prints it."""
    return tuple(
        Window(
            row["key"],
            row["label"],
            float(row["low_pct"]) / 100.0,
            float(row["high_pct"]) / 100.0,
            arith.number(row["target_low_pct"] or row["low_pct"]) / 100.0,
            arith.number(row["target_high_pct"] or row["high_pct"]) / 100.0,
            row["source"],
        )
        for row in tables.rows("tires/lead_windows")
    )


def window(key: str = DEFAULT_WINDOW) -> Window:
    """Return one window by its key.

    Raises
    ------
    LookupError
        When there is no such window.
    """
    for found in windows():
        if found.key == key:
            return found
    raise LookupError(f"No lead window is called {key!r}.")


def lead(front_circumference: float, rear_circumference: float, gear_ratio: float) -> float:
    """Return the lead of the front tires over the rear.

    Parameters
    ----------
    front_circumference, rear_circumference
        Rolling circumferences under normal load, above 0 [m].
    gear_ratio
        Front-wheel turns for each rear-wheel turn with front drive engaged, 0.8 to 2.5 [-].

    Returns
    -------
    float
        RCf i / RCr - 1 [-]; positive is lead, negative is lag.

    Raises
    ------
    ValueError
        When a circumference or the ratio isn't above zero.

    Examples
    --------
    >>> round(100 * lead(3.795, 5.203, 1.392), 1)
    1.5
    """
    if arith.min(front_circumference, rear_circumference, gear_ratio) <= 0.0:
        raise ValueError("Circumferences and the gear ratio are above zero.")
    return front_circumference * gear_ratio / rear_circumference - 1.0


def gear_ratio_from_tires(
    front_circumference: float, rear_circumference: float, factory_lead: float
) -> float:
    """Return the gear ratio that gives a lead with the tires the tractor was made for.

    Parameters
    ----------
    front_circumference, rear_circumference
        Rolling circumferences of the factory tires, above 0 [m].
    factory_lead
        Lead that the maker gave it [-].

    Returns
    -------
    float
        i = (1 + lead) RCr / RCf [-].
    """
    return (1.0 + factory_lead) * rear_circumference / front_circumference


def gear_ratio_from_turns(rear_turns: float, front_turns: float) -> float:
    """Return the gear ratio from turns counted with the wheels off the ground.

    Parameters
    ----------
    rear_turns, front_turns
        Turns counted with front drive and differential lock engaged, above 0 [-].

    Returns
    -------
    float
        Front turns over rear turns [-].

    Examples
    --------
    >>> gear_ratio_from_turns(10, 13.5)
    1.35
    """
    return front_turns / rear_turns


def lead_from_turns(front_turns_free: float, front_turns_engaged: float) -> float:
    """Return the lead from front-wheel turns counted over one distance.

    Parameters
    ----------
    front_turns_free
        Front turns with front drive disengaged, above 0 [-].
    front_turns_engaged
        Front turns over the same distance with front drive engaged [-].

    Returns
    -------
    float
        N1 / N0 - 1 [-].

    Examples
    --------
    >>> round(lead_from_turns(20, 20.5), 4)
    0.025
    """
    return front_turns_engaged / front_turns_free - 1.0


def lead_from_all_turns(
    front_free: float, front_engaged: float, rear_free: float, rear_engaged: float
) -> float:
    """Return the lead from turns of both axles, whatever they slip with the drive engaged.

    Parameters
    ----------
    front_free, rear_free
        Turns over one distance with the front drive disengaged, above 0 [-].
    front_engaged, rear_engaged
        Turns over a distance with it engaged, above 0 [-].

    Returns
    -------
    float
        (Nf1 / Nr1) (Nr0 / Nf0) - 1 [-]: the engaged counts give the gear ratio, the free ones
        the ratio of the circumferences, and slip stands in neither.

    Examples
    --------
    >>> round(lead_from_all_turns(20, 20.3, 14, 13.86), 4)
    0.0253
    """
    return front_engaged / rear_engaged * rear_free / front_free - 1.0


def lead_after_change(lead_now: float, front_factor: float, rear_factor: float) -> float:
    """Return the lead after a change of tires.

    Parameters
    ----------
    lead_now
        Lead with the tires fitted now [-].
    front_factor, rear_factor
        New over old rolling circumference at each axle, above 0 [-].

    Returns
    -------
    float
        (1 + lead) front factor / rear factor - 1 [-]: equal change on both axles keeps it.
    """
    return (1.0 + lead_now) * front_factor / rear_factor - 1.0


def with_error(value: float, *errors: float) -> tuple[float, float]:
    """Return the band of a lead whose factors are known within relative errors.

    Parameters
    ----------
    value
        Lead from the middle values [-].
    *errors
        Half-width of each factor as a share of it [-].

    Returns
    -------
    tuple of float
        Lowest and highest lead, errors joined as the root of the sum of squares [-].

    Examples
    --------
    >>> low, high = with_error(0.03, 0.012, 0.012)
    >>> round(100 * (high - low) / 2, 1)
    1.7
    """
    error = arith.hypot(*errors)
    return (1.0 + value) * (1.0 - error) - 1.0, (1.0 + value) * (1.0 + error) - 1.0


def front_circumference_for(
    rear_circumference: float, gear_ratio: float, wanted_lead: float
) -> float:
    """Return the front rolling circumference that gives a lead with a rear tire.

    Parameters
    ----------
    rear_circumference
        Rolling circumference of the rear tire [m].
    gear_ratio
        Front turns for each rear turn [-].
    wanted_lead
        Lead aimed at [-].

    Returns
    -------
    float
        RCf = (1 + lead) RCr / i [m].
    """
    return (1.0 + wanted_lead) * rear_circumference / gear_ratio


def rear_circumference_for(
    front_circumference: float, gear_ratio: float, wanted_lead: float
) -> float:
    """Return the rear rolling circumference that gives a lead with a front tire.

    Parameters
    ----------
    front_circumference
        Rolling circumference of the front tire [m].
    gear_ratio
        Front turns for each rear turn [-].
    wanted_lead
        Lead aimed at [-].

    Returns
    -------
    float
        RCr = RCf i / (1 + lead) [m].
    """
    return front_circumference * gear_ratio / (1.0 + wanted_lead)


def index_circumference(group: int) -> float:
    """Return the rolling circumference of an index group.

    Parameters
    ----------
    group
        Rolling circumference index, 36 to 50 [-].

    Returns
    -------
    float
        5.850 x 1.054^(n - 47) [m], within 0.3 % at group 42.

    Raises
    ------
    ValueError
        When the group is outside 36 to 50.

    Examples
    --------
    >>> round(index_circumference(42), 2)
    4.5
    """
    if not 36 <= group <= 50:
        raise ValueError("Rolling circumference groups run from 36 to 50.")
    return arith.number(_ANCHOR_CIRCUMFERENCE * INDEX_STEP ** (group - _ANCHOR_GROUP))


def index_group(circumference: float) -> int:
    """Return the index group nearest to a rolling circumference.

    Parameters
    ----------
    circumference
        Rolling circumference, 3.2 to 7.1 [m].

    Returns
    -------
    int
        Group number [-].
    """
    return _ANCHOR_GROUP + arith.round(
        arith.log(circumference / _ANCHOR_CIRCUMFERENCE) / arith.log(INDEX_STEP)
    )
