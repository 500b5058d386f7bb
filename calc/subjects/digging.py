"""The power of an auger, as every worksheet with a post hole digger checks it."""

from typing import Any

from calc.mechanics import auger

KIND = "post_hole_digger"
SOURCE = "value/P7; power/PRACTICE"
SOIL_OF = {"light": "sand", "typical": "loam", "heavy": "clay"}
"""The soil that stands for a job's material, where a page asks for that alone."""


def power_range(diameter: float, soil: str, feed: str = "any") -> tuple[float, float]:
    """Return the power that an auger [m] takes, fed slowly and with its flights full. [W]"""
    return auger.auger_power_range(diameter, soil, feed)


def check_power(
    at: Any,
    power: str,
    diameter: float,
    soil: str,
    feed: str = "any",
    makers_least: float | None = None,
) -> None:
    """Check the tractor's power against what an auger takes, a range by soil and feed.

    Below the range the engine stalls; inside it the hole is dug slowly, which is close; above it
    the flights may be kept full. Names `power_low` and `power_full`. [W]

    Parameters
    ----------
    at : At
        The computing.
    power : str
        The name of the PTO power at 540 rpm.
    diameter : float
        Auger diameter. [m]
    soil : str
        A row of the table `digger_soils`.
    feed : str
        A row of the table `digger_feeds`.
    makers_least : float
        The least power that the digger's maker asks for with this auger, if known: what a maker
        names is not refused. [W]
    """
    low, full = power_range(diameter, soil, feed)
    at.power_low = low if makers_least is None else min(low, makers_least)
    at.power_full = full
    at.at_least("power", power, "power_low", SOURCE, strict="power_full")
