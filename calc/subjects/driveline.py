"""What every worksheet with a PTO driveline checks: joint angles, and what lets go first."""

from functools import cache
from typing import Any

from calc import si, tables


@cache
def joint_limit(key: str) -> tuple[float, str]:
    """Return a limit of the table of joint limits and its first source. [deg]"""
    row = tables.by_key("driveline/driveline_joint_limits", "key")[key]
    return float(row["running_deg"]), row["source"].split("; ")[0]


def _ends(*, wide: bool, raised: bool) -> tuple[str, str]:
    """Return the rules that make the strict and the lenient end for a joint that turns.

    Steady work is advised to stay under one angle and limited by another; raised and in turns a
    joint runs shortly and may bend further, a wide-angle joint much further.
    """
    if raised:
        return ("wide", "wide_turns") if wide else ("raised_tiller", "raised_tiller")
    return ("wide_steady", "wide_steady") if wide else ("advised", "steady")


def check_angle(
    at: Any, name: str, angle: str, *, wide: bool = False, raised: bool = False
) -> None:
    """Check the angle of a joint that turns, and name its limit `<name>_most`. [deg]

    Parameters
    ----------
    at : At
        The computing; `angle` is the name of a number in it.
    name : str
        The check.
    angle : str
        The name of the joint's angle.
    wide : bool
        Whether it is a wide-angle joint.
    raised : bool
        Whether it turns raised or in a curve, shortly, and not in steady work.
    """
    (strict, _), (lenient, source) = map(joint_limit, _ends(wide=wide, raised=raised))
    setattr(at, f"{name}_most", lenient)
    band = {} if strict == lenient else {"strict": strict}
    at.at_most(name, angle, lenient, source, **band)


@cache
def most_times() -> float:
    """Return how many times a rated torque a clutch or bolt may hold."""
    row = tables.by_key("driveline/overload_settings", "key")["clutch_tiller"]
    return float(row["times_torque"])


@cache
def bolt_power() -> float:
    """Return the power at 540 rpm above which a manual asks for a slip clutch. [W]"""
    row = tables.by_key("driveline/overload_settings", "key")["clutch_from"]
    return float(row["power_hp"]) * si.HP
