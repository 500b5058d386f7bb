"""What tractors and implements of a kind usually measure, for inputs that aren't known.

Every range comes from a table whose rows carry their source; most are common
practice or memory, and an answer that uses one has to say so.
"""

from functools import cache, lru_cache

from calc import arith, si, tables

Span = tuple[float, float]


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
    return dict(_implement(kind, width))


@lru_cache(maxsize=256)
def _implement(kind: str, width: float | None) -> dict[str, Span]:
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
    columns = zip(*(values for _, values in known), strict=True)
    widths = [each for each, _ in known]
    return [arith.along(width, widths, column) for column in columns]


@cache
def implement_source(kind: str) -> str:
    """Return the citation of the ranges of one kind of implement."""
    return next(
        row["source"] for row in tables.rows("machines/typical_implements") if row["kind"] == kind
    )


@cache
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


@cache
def tractor_kinds() -> tuple[tuple[str, str], ...]:
    """Return (key, label) of every class of tractor in the table, in its order."""
    return tuple((row["key"], row["label"]) for row in tables.rows("machines/typical_tractors"))


MASS_NEAR, POWER_NEAR = 0.25, 0.20  # how far a published tractor may lie from yours, as a share
SPREAD = 0.15  # left around the masses and powers of the published ones
BASE_SPREAD = 0.02  # left around their wheelbases
KEEP = 0.5  # of a class's range that is left for a length once the wheelbase is known


def _close(span: Span | None, value: float, near: float) -> bool:
    return span is None or span[0] / (1 + near) <= value <= span[1] * (1 + near)


def published(
    kind: str = "", mass: Span | None = None, pto_power: Span | None = None, cab: bool = False
) -> list[dict[str, float]]:
    """Return the published tractors that are like one: its kind, bare mass and PTO power.

    Parameters
    ----------
    kind : str
        A `key` of the table typical_tractors; empty for any.
    mass : (float, float), optional
        Bare mass, as a range. [kg]
    pto_power : (float, float), optional
        PTO power, as a range. [W]
    cab : bool
        Whether tractors with a cab count as well as those without.

    Returns
    -------
    list of dict
        "mass" [kg], "pto_power" [W] and "wheelbase" [m] of each.

    Examples
    --------
    >>> len(published("compact_light", (740.0, 740.0)))
    3
    """
    found = []
    for row in tables.rows("machines/published_tractors"):
        weighs, gives = float(row["mass_lb"]) * si.POUND, float(row["pto_hp"]) * si.HP
        if (
            (not kind or row["kind"] == kind)
            and (cab or row["station"] == "open" or row["kind"] == "utility")
            and _close(mass, weighs, MASS_NEAR)
            and _close(pto_power, gives, POWER_NEAR)
        ):
            base = float(row["wheelbase_in"]) * si.INCH
            found.append({"mass": weighs, "pto_power": gives, "wheelbase": base})
    return found


def narrowed(
    kind: str,
    mass: Span | None = None,
    pto_power: Span | None = None,
    wheelbase: Span | None = None,
    cab: bool = False,
) -> dict[str, Span]:
    """Return what a tractor usually measures, narrowed by what is known of it.

    Mass, PTO power and wheelbase come from the published tractors that are like it, where there
    are any; the lengths that grow with a tractor keep the part of its class's range that goes
    with its wheelbase.

    Parameters
    ----------
    kind : str
        A `key` of the table typical_tractors; empty for any.
    mass, pto_power, wheelbase : (float, float), optional
        What is known, as ranges. [kg, W, m]
    cab : bool
        Whether it has a cab.

    Returns
    -------
    dict
        As `tractor`, and "loader_mass" [kg], "loader_reach" [m], "full_height" [m],
        "liquid" [kg].

    Examples
    --------
    >>> low, high = narrowed("compact_light", (748.0, 748.0))["wheelbase"]
    >>> round(low / 0.0254, 1), round(high / 0.0254, 1)
    (60.2, 66.9)
    """
    return dict(_narrowed(kind, mass, pto_power, wheelbase, cab))


@lru_cache(maxsize=64)  # a few for each tractor that is looked at
def _narrowed(
    kind: str, mass: Span | None, pto_power: Span | None, wheelbase: Span | None, cab: bool
) -> dict[str, Span]:
    kinds = [kind] if kind else _like(mass, pto_power)
    found = _merged([tractor(key) | tractor_parts(key) for key in kinds])
    if cab:
        more = [by_kind(key, "cab", "kg") for key in kinds]
        low, high = found["mass"]
        found["mass"] = (low + min(m[0] for m in more), high + max(m[1] for m in more))
    alike = published(kind, mass, pto_power, cab)
    if alike and (mass or pto_power):
        for name, given in (("mass", mass), ("pto_power", pto_power), ("wheelbase", wheelbase)):
            values = [item[name] for item in alike]
            share = SPREAD if name != "wheelbase" else BASE_SPREAD
            if given is None:
                found[name] = (min(values) * (1 - share), max(values) * (1 + share))
    return found | _lengths(found, _merged([tractor(key) for key in kinds]), wheelbase)


def _like(mass: Span | None, pto_power: Span | None) -> list[str]:
    """Return the classes that a tractor of unknown kind may be of."""
    every = [key for key, _ in tractor_kinds()]

    def fits(key: str) -> bool:
        usual = tractor(key)
        return all(
            given is None
            or (given[0] <= usual[name][1] * 1.15 and given[1] >= usual[name][0] / 1.15)
            for name, given in (("mass", mass), ("pto_power", pto_power))
        )

    return [key for key in every if fits(key)] or every


def _merged(ranges: list[dict[str, Span]]) -> dict[str, Span]:
    return {
        name: (min(r[name][0] for r in ranges), max(r[name][1] for r in ranges))
        for name in ranges[0]
    }


def _lengths(
    found: dict[str, Span], usual: dict[str, Span], wheelbase: Span | None
) -> dict[str, Span]:
    """Return the part of each range that goes with the wheelbase, given or narrowed."""
    low, high = usual["wheelbase"]
    base = wheelbase or found["wheelbase"]
    if high <= low:
        return {}
    start = min(max((base[0] - low) / (high - low) - KEEP / 2, 0.0), 1.0 - KEEP)
    end = max(min((base[1] - low) / (high - low) + KEEP / 2, 1.0), KEEP)
    return {
        name: (
            found[name][0] + start * (found[name][1] - found[name][0]),
            found[name][0] + end * (found[name][1] - found[name][0]),
        )
        for name in ("hitch_distance", "link_length", "track", "cg_height", "loader_mass", "liquid")
    }


def by_kind(kind: str, stem: str, unit: str) -> Span:
    """Return a range of the table tractor_parts for a class of tractor.

    Raises
    ------
    LookupError
        When the class isn't in the table.
    """
    row = tables.by_key("machines/tractor_parts", "kind").get(kind)
    if row is None:
        raise LookupError(f"No class of tractor is called {kind!r}.")
    return float(row[f"{stem}_low_{unit}"]), float(row[f"{stem}_high_{unit}"])


def tractor_parts(kind: str) -> dict[str, Span]:
    """Return what the parts of a tractor of a class usually weigh and reach.

    "loader_mass" [kg] with its bucket, "loader_reach" (front axle to the load, arms level) [m],
    "full_height" (pins, loader raised) [m], "liquid" (both rear tires three quarters full) [kg].
    """
    return {
        "loader_mass": by_kind(kind, "loader", "kg"),
        "loader_reach": by_kind(kind, "reach", "m"),
        "full_height": by_kind(kind, "full_height", "m"),
        "liquid": by_kind(kind, "liquid", "kg"),
    }


@cache
def lift_ratio() -> Span:
    """Return how much of its lift at the ball ends a hitch has 24 in behind them: published pairs.

    Examples
    --------
    >>> [round(end, 3) for end in lift_ratio()]
    [0.722, 0.808]
    """
    rows = tables.rows("machines/lift_pairs")
    shares = [float(row["at_24_in_lb"]) / float(row["ball_ends_lb"]) for row in rows]
    return min(shares), max(shares)


def mount(kind: str) -> str:
    """Return how it is carried: "hitch", "front", "mid", "towed", "subframe" or "none"."""
    row = tables.by_key("machines/mounts", "kind").get(kind)
    return row["mount"] if row else "hitch"


def carrier(kind: str) -> dict[str, str] | None:
    """Return the row of an implement that carries a load, None for one that carries none.

    Examples
    --------
    >>> carrier("bale_spear")["own_high_kg"], carrier("box_blade")
    ('90', None)
    """
    return tables.by_key("machines/carriers", "kind").get(kind)


def tongue_share(kind: str) -> Span:
    """Return the share of a towed machine's mass that usually rests on the drawbar."""
    row = tables.by_key("machines/mounts", "kind")[kind]
    return float(row["tongue_low"]), float(row["tongue_high"])


def stock(what: str) -> tuple[float, ...]:
    """Return the sizes that can be bought, in base units: a `what` of the table stock_sizes."""
    row = tables.by_key("machines/stock_sizes", "what")[what]
    unit = {"lb": si.POUND, "in": si.INCH}[row["unit"]]
    return tuple(float(size) * unit for size in row["sizes"].split(";"))


BESIDE = 6 * si.INCH  # beyond the widths of a table some are still sold, common practice


def stock_widths(kind: str) -> tuple[float, ...]:
    """Return the widths in which a kind of implement is sold; none far beyond those known. [m]

    Examples
    --------
    >>> [round(width / 0.0254) for width in stock_widths("rotary_cutter")][:3]
    [42, 48, 54]
    >>> [round(width / 0.3048, 1) for width in stock_widths("disk_mower")]
    [5.5, 6.7, 8.0, 9.0]
    """
    usual = [
        row["width_m"] for row in tables.rows("machines/typical_implements") if row["kind"] == kind
    ]
    known = [float(width) for width in usual if width]
    unit = {"ft": 12 * si.INCH, "in": si.INCH}
    classed = [
        float(row["size"]) * unit[row["unit"]]
        for row in tables.rows("power/class_power")
        if row["kind"] == kind and row["by"] == "width"
    ]
    if not known and classed:
        return tuple(sorted(classed))  # hay machines are sold in sizes of their own
    known += classed
    if not known:
        return stock("widths")
    least, most = min(known) - BESIDE, max(known) + BESIDE
    return tuple(width for width in stock("widths") if least <= width <= most)


@arith.rising
def next_width(width: float, kind: str) -> float:
    """Return the widest that is sold up to a width; below the narrowest, that width. [m]

    Examples
    --------
    >>> [round(next_width(width, "rotary_cutter") / si.INCH, 1) for width in (1.55, 0.5)]
    [60.0, 19.7]
    """
    sold = [stock for stock in stock_widths(kind) if stock <= width * (1.0 + 1e-9)]
    return max(sold, default=width)


def grows(kind: str) -> bool:
    """Return whether the table has an implement of a kind in several widths."""
    rows = [row for row in tables.rows("machines/typical_implements") if row["kind"] == kind]
    return len({row["width_m"] for row in rows}) > 1
