"""Lines of sight past an implement: what a following driver sees of the tractor's lamps, and
what a mirror shows of the road.

Axes: x backward from the lamp or mirror, y to the left of the tractor's center line, z up.

References
----------
.. [1] road/DOT-1, driver's eye 3.5 ft above the road.
.. [2] road/MIRROR-memory, 200 ft of road behind.
.. [3] road/CALC-1, straight lines.
"""

from calc import arith, si

EYE_HEIGHT = 3.5 * si.FOOT  # m [1]
MIRROR_VIEW = 200 * si.FOOT  # m [2]
# Straight behind and close enough to matter, out to where the emblem must be seen.
LOOK_DISTANCES = (100 * si.FOOT, 200 * si.FOOT, 500 * si.FOOT, 1000 * si.FOOT)


def sight_line_crossing(
    target_height: float,
    target_offset: float,
    screen_distance: float,
    look_distance: float,
    eye_height: float = EYE_HEIGHT,
    eye_offset: float = 0.0,
) -> tuple[float, float]:
    """Return where the line from a driver's eye to a lamp passes the implement.

    Parameters
    ----------
    target_height, target_offset : float
        Lamp above the road, and left of the center line (right is negative). [m]
    screen_distance : float
        How far behind the lamp the implement stands, 0 to `look_distance`. [m]
    look_distance : float
        How far behind the lamp the driver is. [m]
    eye_height, eye_offset : float
        The driver's eye. [m]

    Returns
    -------
    height, offset : float
        The crossing point. [m]

    Raises
    ------
    ValueError
        When the driver is not behind the implement.

    References
    ----------
    [1]_, [3]_
    """
    if not 0 <= screen_distance < look_distance:
        raise ValueError("The driver must be behind the implement.")
    share = screen_distance / look_distance
    return (
        target_height + (eye_height - target_height) * share,
        target_offset + (eye_offset - target_offset) * share,
    )


def hidden(
    target_height: float,
    target_offset: float,
    screen_distance: float,
    screen_bottom: float,
    screen_top: float,
    screen_left: float,
    screen_right: float,
) -> float:
    """Return 1 where an implement hides a lamp from a driver straight behind, else 0.

    The implement counts as a solid rectangle. The lamp is hidden when its center is covered at
    any of the distances 100, 200, 500 and 1000 ft.

    Parameters
    ----------
    target_height, target_offset : float
        Lamp above the road and left of the center line. [m]
    screen_distance : float
        Implement behind the lamp. [m]
    screen_bottom, screen_top : float
        Implement above the road. [m]
    screen_left, screen_right : float
        How far it reaches left and right of the center line. [m]

    Returns
    -------
    float
        1 or 0. [-]

    References
    ----------
    [1]_, [3]_

    Examples
    --------
    A lamp 1 m up behind a 1.2 m high box:

    >>> hidden(1.0, 0.5, 1.5, 0.3, 1.2, 0.9, 0.9)
    1.0
    """
    found = 0.0
    if screen_top <= screen_bottom:
        return found
    for look in LOOK_DISTANCES:
        height, offset = sight_line_crossing(
            target_height, target_offset, arith.min(screen_distance, look / 2), look
        )
        inside = arith.min(
            arith.below(screen_bottom, height),
            arith.below(height, screen_top),
            arith.below(-screen_right, offset),
            arith.below(offset, screen_left),
        )
        found = arith.max(found, inside)
    return found


def lowest_clear_height(
    target_offset: float,
    screen_distance: float,
    screen_top: float,
    screen_left: float,
    screen_right: float,
) -> float:
    """Return the lowest height at which a lamp shows over the implement, 0 when it clears aside.

    Parameters
    ----------
    target_offset, screen_distance, screen_top, screen_left, screen_right : float
        As for `hidden`. [m]

    Returns
    -------
    float
        Height of the lamp's center. [m]

    References
    ----------
    [3]_
    """
    needed = 0.0
    for look in LOOK_DISTANCES:
        screen = arith.min(screen_distance, look / 2)
        share = screen / look
        _, offset = sight_line_crossing(0.0, target_offset, screen, look)
        inside = arith.min(arith.below(-screen_right, offset), arith.below(offset, screen_left))
        over = (screen_top - EYE_HEIGHT * share) / (1 - share)
        needed = arith.max(needed, arith.where(inside, over, 0.0))
    return needed


def mirror_offset_needed(
    edge_offset: float,
    edge_distance: float,
    view_distance: float = MIRROR_VIEW,
    wanted_offset: float = 0.9,
) -> float:
    """Return how far out a mirror must stand to show a car behind past the implement's edge.

    The straight line from the mirror past the edge must come back to `wanted_offset` (the near
    side of a car that follows in the middle) at `view_distance`:
    ``y_m = (y_e - y_w x_e / D) / (1 - x_e / D)``.

    Parameters
    ----------
    edge_offset : float
        Implement's edge from the center line on that side. [m]
    edge_distance : float
        Edge behind the mirror, 0 to `view_distance`. [m]
    view_distance : float
        Where the car must be seen. [m]
    wanted_offset : float
        The car's near side from the center line. [m]

    Returns
    -------
    float
        Mirror's outer edge from the center line, 0 or more. [m]

    Raises
    ------
    ValueError
        When the edge is not between mirror and car.

    References
    ----------
    [2]_, [3]_
    """
    if not 0 <= edge_distance < view_distance:
        raise ValueError("The implement must be between the mirror and the road to be seen.")
    share = edge_distance / view_distance
    return arith.max((edge_offset - wanted_offset * share) / (1 - share), 0.0)


def hidden_road_behind(
    mirror_offset: float,
    edge_offset: float,
    edge_distance: float,
    wanted_offset: float = 0.9,
) -> float:
    """Return how far back the first visible car is when a mirror looks past an implement's edge.

    Parameters
    ----------
    mirror_offset : float
        Mirror's outer edge from the center line. [m]
    edge_offset, edge_distance, wanted_offset : float
        As for `mirror_offset_needed`. [m]

    Returns
    -------
    float
        Distance from the mirror at which a car in the middle of the lane comes into view; infinite
        when the line never comes in. [m]

    References
    ----------
    [3]_
    """
    if edge_offset <= wanted_offset:
        return edge_distance
    inward = mirror_offset - edge_offset
    if inward <= 0:
        return float("inf")
    return edge_distance * (mirror_offset - wanted_offset) / inward


def flat_mirror_field(mirror_width: float, eye_distance: float, view_distance: float) -> float:
    """Return the width of road that a flat mirror shows to one eye.

    ``w (d + D) / d``: the mirror is a window seen from the eye's image.

    Parameters
    ----------
    mirror_width : float
        Width of the glass square to the line of sight. [m]
    eye_distance : float
        Eye to mirror, more than 0. [m]
    view_distance : float
        Mirror to the road looked at. [m]

    Returns
    -------
    float
        Width. [m]

    References
    ----------
    [3]_

    Examples
    --------
    >>> round(flat_mirror_field(0.15, 1.0, 60.96), 2)
    9.29
    """
    if not eye_distance > 0:
        raise ValueError("The eye must be some way off the mirror.")
    return mirror_width * (eye_distance + view_distance) / eye_distance
