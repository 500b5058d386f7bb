"""Quick couplers of a three-point hitch: hooks and slots, bushings, what they add.

References
----------
.. [1] hitch/S3: ISO 11001-1, scope of the U-frame coupler.
"""

from calc import tables
from calc.mechanics import hitch, hitch_fit


def coupler_row(coupler: str) -> dict[str, str]:
    """Return the row of a U-frame coupler: "1", "2", "3N" or "3".

    Raises
    ------
    LookupError
        When the table has no such coupler.
    """
    try:
        return tables.by_key("hitch/coupler_sizes", "coupler")[coupler]
    except KeyError:
        raise LookupError(f"No U-frame coupler of category {coupler!r} is in the table.") from None


def coupler_hook_span(coupler: str) -> float:
    """Return the distance between a coupler's lower hooks, the category's span. [m]"""
    return hitch.size("shoulder_span", coupler_row(coupler)["span_category"])


def coupler_hook_height(coupler: str) -> float:
    """Return how far a coupler's upper hook stands above its lower hooks. [m]"""
    return float(coupler_row(coupler)["upper_hook_above_mm"]) / 1000.0


def coupler_slot(coupler: str, place: str) -> float:
    """Return the pin that a coupler's "lower" or "upper" slot is cut for. [m]"""
    return float(coupler_row(coupler)[f"{place}_slot_mm"]) / 1000.0


def coupler_sleeves(coupler: str, implement: str) -> tuple[dict[str, str], ...]:
    """Return the sleeves that bring an implement's pins up to a coupler's slots.

    Returns
    -------
    tuple of dict
        Rows of coupler_sleeves; empty when the pins are as large as the slots.

    Raises
    ------
    ValueError
        When a pin is larger than its slot.

    Examples
    --------
    >>> [row["outside_in"] for row in coupler_sleeves("1", "1")]
    ['1-7/16', '1-1/4']
    >>> coupler_sleeves("3", "3")
    ()
    """
    number = hitch.pin_number(implement)
    found = []
    for place in ("lower", "upper"):
        if hitch.size(f"{place}_pin", number) > coupler_slot(coupler, place) + hitch_fit.LOOSE:
            raise ValueError(f"A category {number} {place} pin is larger than the coupler's slot.")
        row = hitch_fit.sleeve("coupler", place, number)
        if row:
            found.append(row)
    return tuple(found)


def coupler_pins_fit(coupler: str, implement: str) -> str:
    """Return "fits", "sleeve", "no stock sleeve" or "too big" for pins in a coupler.

    Examples
    --------
    >>> coupler_pins_fit("1", "1"), coupler_pins_fit("3", "3"), coupler_pins_fit("3", "4N")
    ('sleeve', 'fits', 'too big')
    >>> coupler_pins_fit("1", "0")
    'no stock sleeve'
    """
    try:
        found = coupler_sleeves(coupler, implement)
    except ValueError:
        return "too big"
    if found:
        return "sleeve"
    return "fits" if hitch.pin_number(implement) == "3" else "no stock sleeve"


def coupler_span_difference(coupler: str, implement: str) -> float:
    """Return the implement's shoulder span less the coupler's hook span. [m]

    A coupler's hooks can't be moved, so more than a few millimeters is a "no".
    """
    return hitch.size("shoulder_span", implement) - coupler_hook_span(coupler)


def coupler_setback() -> float:
    """Return how far a U-frame coupler moves an implement back. [m]"""
    return float(tables.by_key("hitch/coupler_effects", "key")["setback"]["mm"]) / 1000.0


def coupler_mass() -> tuple[float, float]:
    """Return the usual mass of a category 1 U-frame coupler, (low, high). [kg]"""
    row = tables.by_key("hitch/coupler_effects", "key")["mass"]
    return float(row["low_kg"]), float(row["high_kg"])


def coupler_conflict(key: str) -> dict[str, str] | None:
    """Return the row that says why a kind of implement and a U-frame coupler disagree.

    The row's `verdict` is "no", "adapter", "measure" or "check". None: no conflict known.

    Examples
    --------
    >>> coupler_conflict("post_hole_digger")["verdict"], coupler_conflict("box_blade")
    ('no', None)
    """
    return tables.by_key("hitch/coupler_conflicts", "key").get(key)
