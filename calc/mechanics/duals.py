"""Dual wheels: spacing, width, bending of the axle, and bearings.

References
----------
.. [1] tires/OM-16: least spacing of dual tires; manual of a large tractor.
.. [2] tires/bulge-memory: bulge of a loaded sidewall.
.. [3] tires/ISO281-memory: bearing life against load.
.. [4] tires/derived: statics of a wheel on an overhung axle.
"""

from calc import arith, tables

FENDER_GAP = 0.025
"""Least gap between tire and fender [m], tires/OM-16."""
BULGE = 0.05
"""Sidewall bulge of one loaded tire as a share of its section width [-], tires/bulge-memory."""
SPACING_RULE_ERROR = 0.003
"""Largest miss of the fitted spacing rule against its own rows, without the 420 row [m]."""


def least_spacing(section_width: float) -> float:
    """Return the least distance between the centers of dual tires, by the rule.

    Parameters
    ----------
    section_width
        Section width of the wider tire, 0.15 to 0.75 [m].

    Returns
    -------
    float
        1.095 SW + 0.068 [m], within 3 mm of the published rows.

    Examples
    --------
    >>> round(least_spacing(0.378), 3)
    0.482
    """
    return 1.095 * section_width + 0.068


def published_spacing(width_text: str) -> float | None:
    """Return the published least spacing for a width as it stands in the size.

    Parameters
    ----------
    width_text
        "14.9", "16.9", "18.4", "320" or "420" [-].

    Returns
    -------
    float or None
        Spacing [m].
    """
    row = tables.by_key("tires/dual_spacing", "size").get(width_text)
    return float(row["spacing_mm"]) / 1000.0 if row else None


def sidewall_gap(spacing: float, section_width: float, outer_section_width: float) -> float:
    """Return the gap between the facing sidewalls, new and without load.

    Parameters
    ----------
    spacing
        Distance between the centers of the two tires [m].
    section_width, outer_section_width
        Section widths of the inner and the outer tire [m].

    Returns
    -------
    float
        S - (SW1 + SW2) / 2 [m]; negative when they touch.
    """
    return spacing - (section_width + outer_section_width) / 2.0


def loaded_gap(spacing: float, section_width: float, outer_section_width: float) -> float:
    """Return the gap left once both facing sidewalls bulge under load.

    Parameters
    ----------
    spacing
        Distance between the centers of the two tires [m].
    section_width, outer_section_width
        Section widths of the inner and the outer tire [m].

    Returns
    -------
    float
        Gap less 5 % of each section width [m].
    """
    bulge = BULGE * (section_width + outer_section_width)
    return sidewall_gap(spacing, section_width, outer_section_width) - bulge


def overall_width(track: float, spacing: float, outer_section_width: float) -> float:
    """Return the width over dual tires.

    Parameters
    ----------
    track
        Distance between the centers of the inner tires [m].
    spacing
        Distance between inner and outer centers, 0 for singles [m].
    outer_section_width
        Section width of the outer tire [m].

    Returns
    -------
    float
        T + 2 S + SW [m].
    """
    return track + 2.0 * spacing + outer_section_width


def spacing_with_adapter(
    adapter_length: float, inner_disc_offset: float, outer_disc_offset: float
) -> float:
    """Return the spacing that an adapter gives with two wheels.

    Parameters
    ----------
    adapter_length
        Distance that the adapter puts between the two wheel discs [m].
    inner_disc_offset, outer_disc_offset
        How far outboard of its own tire's center plane each disc sits, negative inboard [m].

    Returns
    -------
    float
        S = L + inner offset - outer offset [m].

    Examples
    --------
    >>> round(spacing_with_adapter(0.30, 0.06, -0.06), 2)
    0.42
    """
    return adapter_length + inner_disc_offset - outer_disc_offset


def outer_offset_for(spacing: float, adapter_length: float, inner_disc_offset: float) -> float:
    """Return the disc offset the outer wheel needs for a spacing.

    Parameters
    ----------
    spacing
        Spacing wanted [m].
    adapter_length
        Distance between the two wheel discs, 0 when they bolt together [m].
    inner_disc_offset
        Offset of the inner wheel's disc, outboard positive [m].

    Returns
    -------
    float
        Offset, negative when the disc sits inboard of the outer tire's center [m].
    """
    return adapter_length + inner_disc_offset - spacing


def axle_moment(load: float, overhang: float) -> float:
    """Return the bending moment at the outer bearing.

    Parameters
    ----------
    load
        Force of the ground on one side of the axle [N].
    overhang
        Distance from the line of that force to the outer bearing [m].

    Returns
    -------
    float
        W e [N m].
    """
    return load * overhang


def moment_ratio_shared(overhang: float, spacing: float) -> float:
    """Return axle bending with the load shared by both tires, over single.

    Parameters
    ----------
    overhang
        Distance from the inner tire's center to the outer bearing, above 0 [m].
    spacing
        Distance between the tires' centers [m].

    Returns
    -------
    float
        1 + S / (2 e) [-].

    Examples
    --------
    >>> round(moment_ratio_shared(0.15, 0.42), 1), round(moment_ratio_outer(0.15, 0.42), 1)
    (2.4, 3.8)
    """
    return 1.0 + spacing / (2.0 * overhang)


def moment_ratio_outer(overhang: float, spacing: float) -> float:
    """Return axle bending with the outer tire carrying everything, over single.

    Parameters
    ----------
    overhang
        Distance from the inner tire's center to the outer bearing, above 0 [m].
    spacing
        Distance between the tires' centers [m].

    Returns
    -------
    float
        1 + S / e [-]: on a crown, a curb or a furrow edge.
    """
    return 1.0 + spacing / overhang


def bearing_reactions(load: float, overhang: float, bearing_spread: float) -> tuple[float, float]:
    """Return the forces on the outer and the inner bearing of an overhung axle.

    Parameters
    ----------
    load
        Force of the ground on one side of the axle [N].
    overhang
        Distance from the line of that force to the outer bearing [m].
    bearing_spread
        Distance between the two bearings, above 0 [m].

    Returns
    -------
    tuple of float
        W (1 + e / b) and -W e / b [N]; their sum is W.
    """
    share = overhang / bearing_spread
    return load * (1.0 + share), -load * share


def bearing_load_ratio(overhang: float, new_overhang: float, bearing_spread: float) -> float:
    """Return the outer bearing's load after a change of overhang, over before.

    Parameters
    ----------
    overhang, new_overhang
        Distance from the load to the outer bearing, before and after [m].
    bearing_spread
        Distance between the two bearings, above 0 [m].

    Returns
    -------
    float
        (b + e2) / (b + e1) [-].
    """
    return (bearing_spread + new_overhang) / (bearing_spread + overhang)


def bearing_life_ratio(load_ratio: float, roller: bool = True) -> float:
    """Return bearing life after a change of load, over before.

    Parameters
    ----------
    load_ratio
        New load over old, above 0 [-].
    roller
        Roller bearing; ball bearing otherwise [-].

    Returns
    -------
    float
        (1 / P)^(10/3) for rollers, (1 / P)^3 for balls [-].

    Examples
    --------
    >>> round(bearing_life_ratio(1.67), 2)
    0.18
    """
    return arith.number(load_ratio ** (-10.0 / 3.0 if roller else -3.0))


def load_for_equal_bending(axle_rating: float, overhang: float, spacing: float) -> float:
    """Return the axle load on duals that bends the axle no more than its rating on singles.

    Parameters
    ----------
    axle_rating
        Load allowed on the axle with single wheels [kg].
    overhang
        Distance from the inner tire's center to the outer bearing, above 0 [m].
    spacing
        Distance between the tires' centers [m].

    Returns
    -------
    float
        Rating over (1 + S / e) [kg]: the outer tire carrying everything.
    """
    return axle_rating / moment_ratio_outer(overhang, spacing)


def load_at_widest_track(
    axle_rating: float, overhang: float, outward: float, spacing: float
) -> float:
    """Return the axle load on duals, the outer tire alone, that bends the axle no more than its
    rating does on singles at the widest track that its maker approves.

    Parameters
    ----------
    axle_rating
        Load allowed on the axle with single wheels [kg].
    overhang
        Distance from the inner tire's center to the outer bearing, above 0 [m].
    outward
        How much farther out a single wheel stands at the widest approved track [m].
    spacing
        Distance between the tires' centers [m].

    Returns
    -------
    float
        The rating times (e + w) / (e + S), and never more than the rating [kg].

    Examples
    --------
    >>> round(load_at_widest_track(3000, 0.18, 0.20, 0.48))
    1727
    """
    return axle_rating * arith.min(1.0, (overhang + outward) / (overhang + spacing))
