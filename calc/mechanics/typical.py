"""What tractors and implements of a kind usually measure, for inputs that aren't known.

Every range comes from a table whose rows carry their source; most are common
practice or memory, and an answer that uses one has to say so.
"""

from itertools import pairwise

from calc import arith, tables


def implement(kind: str, width: float | None = None) -> dict[str, tuple[float, float]]:
    """Return the usual mass and center-of-gravity distance of an implement.

    Between two widths of the table the ranges are interpolated; beyond them the
    mass is scaled in proportion to the width, the distance is that of the end.

    Parameters
    ----------
    kind : str
        A `kind` of the table typical_implements, such as "rotary_cutter".
    width : float, optional
        Working width; without it the ranges cover every width of the table. [m]

    Returns
    -------
    dict
        "mass" [kg] and "cg_distance" [m], each as (low, high).

    Raises
    ------
    LookupError
        When the kind isn't in the table.

    Examples
    --------
    >>> implement("rotary_cutter", 1.5)
    {'mass': (230.0, 330.0), 'cg_distance': (0.85, 1.05)}
    """
    found = [row for row in tables.rows("machines/typical_implements") if row["kind"] == kind]
    if not found:
        raise LookupError(f"No kind of implement is called {kind!r}.")
    columns = ("mass_low_kg", "mass_high_kg", "cg_low_m", "cg_high_m")
    known = [(float(row["width_m"] or 0.0), [float(row[c]) for c in columns]) for row in found]
    if width is None or not known[0][0]:
        low_mass = arith.min(values[0] for _, values in known)
        high_mass = arith.max(values[1] for _, values in known)
        low_cg = arith.min(values[2] for _, values in known)
        high_cg = arith.max(values[3] for _, values in known)
        return {"mass": (low_mass, high_mass), "cg_distance": (low_cg, high_cg)}
    m_low, m_high, c_low, c_high = _between(known, width)
    return {"mass": (m_low, m_high), "cg_distance": (c_low, c_high)}


def _between(known: list[tuple[float, list[float]]], width: float) -> list[float]:
    first, last = known[0], known[-1]
    if width <= first[0] or width >= last[0]:
        edge, values = first if width <= first[0] else last
        scale = width / edge
        return [values[0] * scale, values[1] * scale, values[2], values[3]]
    for (w0, low), (w1, high) in pairwise(known):
        if w0 <= width <= w1:
            part = (width - w0) / (w1 - w0)
            return [a + part * (b - a) for a, b in zip(low, high, strict=True)]
    raise LookupError(f"No width near {width} m in the table.")


def implement_source(kind: str) -> str:
    """Return the citation of the ranges of one kind of implement."""
    return next(
        row["source"] for row in tables.rows("machines/typical_implements") if row["kind"] == kind
    )


def implement_kinds() -> tuple[tuple[str, str], ...]:
    """Return (key, label) of every kind of implement in the table, in its order."""
    return tuple(
        dict.fromkeys((r["kind"], r["label"]) for r in tables.rows("machines/typical_implements"))
    )


_TRACTOR_RANGES = {
    "pto_power": ("pto", "kw", 1000.0),
    "mass": ("mass", "kg", 1.0),
    "wheelbase": ("wheelbase", "m", 1.0),
    "hitch_distance": ("hitch", "m", 1.0),
    "link_length": ("link", "m", 1.0),
    "lift_610": ("lift_610", "kg", 1.0),
    "track": ("track", "m", 1.0),
    "cg_height": ("cg_height", "m", 1.0),
}


def tractor(kind: str) -> dict[str, tuple[float, float]]:
    """Return what a tractor of a class usually measures.

    Parameters
    ----------
    kind : str
        A `key` of the table typical_tractors, such as "compact_light".

    Returns
    -------
    dict
        Each as (low, high): "pto_power" [W], "mass" [kg], "front_share" [fraction],
        "wheelbase" [m], "hitch_distance" (rear axle to lower hitch points) [m],
        "link_length" [m], "lift_610" [kg], "track" [m], "cg_height" [m].

    Raises
    ------
    LookupError
        When the class isn't in the table.

    Examples
    --------
    >>> tractor("compact_light")["mass"]
    (640.0, 850.0)
    """
    for row in tables.rows("machines/typical_tractors"):
        if row["key"] == kind:
            found = {
                name: (
                    float(row[f"{stem}_low_{unit}"]) * factor,
                    float(row[f"{stem}_high_{unit}"]) * factor,
                )
                for name, (stem, unit, factor) in _TRACTOR_RANGES.items()
            }
            share = (float(row["front_share_low"]), float(row["front_share_high"]))
            return found | {"front_share": share}
    raise LookupError(f"No class of tractor is called {kind!r}.")


def tractor_kinds() -> tuple[tuple[str, str], ...]:
    """Return (key, label) of every class of tractor in the table, in its order."""
    return tuple((row["key"], row["label"]) for row in tables.rows("machines/typical_tractors"))
