"""Tools that are pulled through or over the ground: the engine that a width of them wants."""

from functools import cache

from calc import arith, si, tables
from calc.mechanics import ballast, draft, traction
from calc.mechanics.pto_power import RESERVE_HIGH

PTO_SHARE = 0.83
"""PTO to engine power of small tractors, power/DERIVED from hitch/B1 [-]."""

PLOW = "plow"
PLOW_DEPTH = 7 * si.INCH
"""As deep as half the width of a 14 in bottom, common practice, no source. [m]"""
PLOW_WORK = (("medium", 3.0), ("fine", 4.0))
"""Soil and speed in mph of a plow that is pulled at all and of one pulled with ease: loam at a
crawl, and clay at the pace at which it turns over; common practice, no source."""

DISK = "disk_harrow"
DISK_WORK = (("disk_tandem_secondary", 3 * si.INCH), ("disk_tandem_primary", 4 * si.INCH))
"""Row of D497 and depth of a harrow that is pulled at all, over ground worked before, and of one
pulled with ease, in stubble; soils and speeds as a plow's. Common practice, no source. [m]"""

BORNE, BORNE_HEAVY = 1.75, 2.5
"""The largest engine that a tool is made for, to the one that pulls its width with ease; the latter
where its kind is also sold in a heavy duty. Common practice, no source [-]."""
BORNE_FROM = 1.8  # narrower ones are made as stout as those of this width, the usual widest [m]


@cache
def _listed(kind: str, duty: str) -> tuple[tuple[float, float], ...]:
    """Widths [m] and engine powers [W] of a kind in a duty, narrowest first."""
    return tuple(
        sorted(
            (float(row["width_in"]) * si.INCH, float(row["engine_hp"]) * si.HP)
            for row in tables.rows("machines/ground_power")
            if row["kind"] == kind and row["duty"] == duty
        )
    )


def _rows(kind: str, duty: str) -> tuple[tuple[float, float], ...]:
    """The same; of the duty that is listed where this one isn't."""
    return next((found for one in (duty, "typical", "light") if (found := _listed(kind, one))), ())


def pulled(kind: str) -> bool:
    """Return whether the table knows what engine a kind wants.

    Examples
    --------
    >>> pulled("box_blade"), pulled("plow"), pulled("rotary_cutter")
    (True, True, False)
    """
    return kind == PLOW or bool(_rows(kind, "typical"))


def pull_source(kind: str) -> str:
    """Return the citation of what pulls a kind."""
    found = "power/S38; power/GENERAL-memory" if kind == PLOW else "hitch/T19"
    return f"{found}; hitch/PRACTICE; hitch/B1"


def works_soil(kind: str) -> bool:
    """Return whether a kind works or clears the ground, so that it has to cover the wheels.

    A plow hasn't: a wheel runs in its last furrow.

    Examples
    --------
    >>> works_soil("box_blade"), works_soil("rotary_tiller"), works_soil("rotary_cutter")
    (True, True, False)
    """
    return bool(_rows(kind, "typical")) or kind == "rotary_tiller"


def engine_wanted(kind: str, width: float) -> tuple[float, float]:
    """Return the engine power that pulls a width of a tool at all, and that pulls it with ease.

    The least is the trade's figure for a light tool in light work; where only one figure is
    listed for usual work, that without its reserve of a quarter. Beyond the widths listed the
    power goes with the width. A plow isn't listed: its draft is that of ASAE D497, in loam and in
    clay, `PLOW_DEPTH` deep. [W]

    Parameters
    ----------
    kind : str
        A kind of the table ground_power, or a plow.
    width : float
        Working width; of a plow all its bottoms together. [m]

    Raises
    ------
    LookupError
        When the table has no such kind.

    Examples
    --------
    >>> [round(power / 745.7) for power in engine_wanted("box_blade", 60 * 0.0254)]
    [20, 25]
    >>> [round(power / 745.7) for power in engine_wanted("plow", 28 * 0.0254)]
    [27, 57]
    """
    if kind == PLOW:
        least, ease = (_plow_engine(width, *work) for work in PLOW_WORK)
        return least, ease
    if not pulled(kind):
        raise LookupError(f"No engine for {kind!r} is in the table ground_power.")
    ease = _at(_rows(kind, "typical"), width)
    if _listed(kind, "light"):
        return _at(_listed(kind, "light"), width), ease
    return ease / (1.0 + RESERVE_HIGH), ease


def engine_borne(kind: str, width: float) -> float:
    """Return the largest engine that the stoutest of a kind and width is made for. [W]

    Examples
    --------
    >>> round(engine_borne("box_blade", 84 * si.INCH) / si.HP)
    100
    """
    share = BORNE_HEAVY if _listed(kind, "heavy") else BORNE
    return share * engine_wanted(kind, arith.max(width, BORNE_FROM))[1]


def drafted(kind: str) -> bool:
    """Return whether ASAE D497 has a draft for a kind.

    A blade has none: it bites as much as the wheels pull.

    Examples
    --------
    >>> drafted("plow"), drafted("disk_harrow"), drafted("box_blade")
    (True, True, False)
    """
    return kind in (PLOW, DISK)


def pull_wanted(kind: str, width: float) -> tuple[float, float]:
    """Return the draft of a tool in easy work and in hard work. [N]

    Parameters
    ----------
    kind : str
        A kind that is `drafted`.
    width : float
        Working width; of a plow all its bottoms together. [m]

    Raises
    ------
    LookupError
        When D497 has no row for the kind.

    Examples
    --------
    >>> [round(pull) for pull in pull_wanted("plow", 28 * 0.0254)]
    [6824, 10917]
    """
    if kind == PLOW:
        works = [("moldboard_plow", PLOW_DEPTH)] * 2
    elif kind == DISK:
        works = list(DISK_WORK)
    else:
        raise LookupError(f"ASAE D497 has no draft for {kind!r}.")
    least, ease = (
        draft.draft(row, width, mph * si.MPH, depth, soil)
        for (row, depth), (soil, mph) in zip(works, PLOW_WORK, strict=True)
    )
    return least, ease


def share_held(soil: str, driven: str = "four") -> float:
    """Return the pull that a tractor's wheels put down at the most slip that suits, by its weight.

    With all of them driving all of it counts. Of a tractor with two driven wheels a carried tool's
    own pull brings weight onto those, but the front ones have to keep what steers, and roll. [-]

    Parameters
    ----------
    soil : str
        A row of the table soil_mobility: "firm" stubble, or "tilled".
    driven : str
        "four" wheels or "two".

    Examples
    --------
    >>> round(share_held("firm"), 3), round(share_held("tilled"), 3)
    (0.564, 0.491)
    >>> round(share_held("firm", "two"), 3)
    0.439
    """
    mobility = traction.soil_mobility_number(soil)
    held = traction.net_traction_ratio(mobility, traction.USUAL_SLIP_MOST)
    if driven == "four":
        return held
    rolls = ballast.FRONT_SHARE * traction.motion_resistance_ratio(mobility, 0.0)
    return (1.0 - ballast.FRONT_SHARE) * held - rolls


def _plow_engine(width: float, soil: str, mph: float) -> float:
    """Return the engine power that a plow takes by its draft, a wheel in the loose furrow. [W]"""
    speed = mph * si.MPH
    pull = draft.draft("moldboard_plow", width, speed, PLOW_DEPTH, soil)
    drawbar = draft.drawbar_power(pull, speed)
    return draft.pto_power_for(drawbar, draft.soil_factor("tilled")) / PTO_SHARE


def _at(rows: tuple[tuple[float, float], ...], width: float) -> float:
    widths, powers = [list(column) for column in zip(*rows, strict=True)]
    beyond = arith.max(1.0, width / widths[-1]) * arith.min(1.0, width / widths[0])
    found: float = beyond * arith.along(width, widths, powers)
    return found


def ground_width(kind: str, engine_power: float, duty: str = "typical") -> float | None:
    """Return the widest tool of a kind that an engine pulls, by the trade's table; None untold.

    Parameters
    ----------
    kind : str
        A kind of tool that works the ground, such as "box_blade".
    engine_power : float
        Gross power of the engine. [W]
    duty : str
        "light", "typical" or "heavy": how stout the tool and how hard the work.

    Returns
    -------
    float or None
        The width; below the narrowest listed in proportion to the power. [m]

    Examples
    --------
    >>> round(ground_width("box_blade", 26 * 745.7) / 0.0254)
    60
    >>> round(ground_width("rear_blade", 35 * 745.7, "heavy") / 0.0254)
    63
    """
    listed = _rows(kind, duty)
    if not listed:
        return None
    narrowest, least = listed[0]
    if engine_power * 1.001 < least:
        return narrowest * engine_power / least
    return max(width for width, power in listed if power <= engine_power * 1.001)
