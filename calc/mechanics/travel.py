"""What a change of tires does to speed, pull, clearance and braking.

References
----------
.. [1] tires/derived: statics and kinematics of a rolling wheel.
"""

from calc import arith


def speed_after(speed: float, circumference: float, new_circumference: float) -> float:
    """Return the speed in the same gear at the same engine speed with other driven tires.

    Parameters
    ----------
    speed
        Speed with the tires fitted now [m/s].
    circumference, new_circumference
        Rolling circumference of the driven tires, now and new, above 0 [m].

    Returns
    -------
    float
        v2 = v1 RC2 / RC1 [m/s].
    """
    return speed * new_circumference / circumference


def pull_ratio(loaded_radius: float, new_loaded_radius: float) -> float:
    """Return the pull at the ground for equal axle torque, new over old.

    Parameters
    ----------
    loaded_radius, new_loaded_radius
        Static loaded radius now and new, above 0 [m].

    Returns
    -------
    float
        F2 / F1 = r1 / r2 [-].
    """
    return loaded_radius / new_loaded_radius


def clearance_change(
    front_radius_change: float, rear_radius_change: float, ahead_of_rear: float, wheelbase: float
) -> float:
    """Return how far a point of the tractor rises.

    Parameters
    ----------
    front_radius_change, rear_radius_change
        Change of static loaded radius at each axle [m].
    ahead_of_rear
        Distance of the point ahead of the rear axle, negative behind it [m].
    wheelbase
        Distance between the axles, above 0 [m].

    Returns
    -------
    float
        Rise of the point [m]: at an axle, the change of loaded radius there.

    Examples
    --------
    >>> round(clearance_change(0.0, 0.05, 0.85, 1.7), 3)
    0.025
    """
    tilt = (front_radius_change - rear_radius_change) / wheelbase
    return rear_radius_change + tilt * ahead_of_rear


def pitch_change(front_radius_change: float, rear_radius_change: float, wheelbase: float) -> float:
    """Return how far the nose tilts up.

    Parameters
    ----------
    front_radius_change, rear_radius_change
        Change of static loaded radius at each axle [m].
    wheelbase
        Distance between the axles, above 0 [m].

    Returns
    -------
    float
        Angle, positive nose up [rad].
    """
    return arith.atan((front_radius_change - rear_radius_change) / wheelbase)


def braking_ratio(speed_ratio: float, loaded_radius: float, new_loaded_radius: float) -> float:
    """Return the braking distance from top speed, new over old, brakes at their limit.

    Parameters
    ----------
    speed_ratio
        New over old speed, above 0 [-].
    loaded_radius, new_loaded_radius
        Static loaded radius of the braked wheels, now and new, above 0 [m].

    Returns
    -------
    float
        (v2 / v1)^2 r2 / r1 [-]: the same torque at the hub brakes less through a longer lever.

    Examples
    --------
    >>> round(braking_ratio(1.05, 0.5, 0.5), 4)
    1.1025
    """
    return speed_ratio * speed_ratio * new_loaded_radius / loaded_radius


def overall_width(track: float, section_width: float) -> float:
    """Return the width over the tires of an axle.

    Parameters
    ----------
    track
        Distance between the wheel centers [m].
    section_width
        Section width of one tire [m].

    Returns
    -------
    float
        Track plus one section width [m].
    """
    return track + section_width
