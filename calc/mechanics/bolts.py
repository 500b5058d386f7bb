"""Clamp load and tightening torque of a bolt.

References
----------
.. [1] tires/FS-1, tires/FS-4: clamp load at 75 % of proof, torque by T = K D F.
.. [2] tires/FS-3, tires/FS-5, tires/BOLT-3: proof stress.
.. [3] tires/BOLT-1, tires/BOLT-2: stress areas.
"""

from calc import si, tables

PROOF_SHARE = 0.75
"""Clamp load as a share of the proof load [-], tires/FS-1."""
NUT_FACTOR = {"dry": 0.20, "lubricated": 0.15}
"""Torque over clamp load times diameter [-], tires/FS-1; finish makes it 0.12 to 0.30."""
NUT_FACTOR_SPREAD = (0.12, 0.30)


def proof_stress(grade: str, diameter: float) -> float:
    """Return the proof stress of a bolt grade at a diameter.

    Parameters
    ----------
    grade
        "2", "5", "8", "8.8" or "10.9" [-].
    diameter
        Nominal diameter [m].

    Returns
    -------
    float
        Proof stress [Pa].

    Raises
    ------
    ValueError
        When the grade isn't in the table, or isn't made at that diameter.
    """
    rows = tables.by_key("tires/bolt_grades", "key")
    if grade == "5" and diameter > 1.0 * si.INCH + 1e-6:
        grade = "5-large"
    if grade == "8.8" and diameter > 0.016 + 1e-6:
        grade = "8.8-large"
    if grade == "2" and diameter > 0.75 * si.INCH + 1e-6:
        raise ValueError("Grade 2 at this proof stress ends at 3/4 in.")
    if grade not in rows:
        raise ValueError(f"There is no bolt grade {grade!r} in the table.")
    return float(rows[grade]["proof_pa"])


def clamp_load(proof: float, stress_area: float) -> float:
    """Return the clamp load of a bolt tightened to 75 % of its proof load.

    Parameters
    ----------
    proof
        Proof stress [Pa].
    stress_area
        Tensile stress area [m2].

    Returns
    -------
    float
        0.75 Sp At [N].
    """
    return PROOF_SHARE * proof * stress_area


def tightening_torque(clamp: float, diameter: float, nut_factor: float) -> float:
    """Return the torque that gives a clamp load.

    Parameters
    ----------
    clamp
        Clamp load [N].
    diameter
        Nominal diameter [m].
    nut_factor
        0.20 dry, 0.15 lubricated, 0.12 to 0.30 with other finishes [-].

    Returns
    -------
    float
        K D F [N m].
    """
    return nut_factor * diameter * clamp


def thread(key: str) -> tuple[float, float]:
    """Return the diameter and stress area of a thread.

    Parameters
    ----------
    key
        Thread such as "1/2-13" or "M12" [-].

    Returns
    -------
    tuple of float
        Diameter [m] and tensile stress area [m2].

    Raises
    ------
    ValueError
        When the thread isn't in the table.

    Examples
    --------
    >>> diameter, area = thread("1/2-13")
    >>> clamp = clamp_load(proof_stress("2", diameter), area)
    >>> round(clamp / 4.4482216)
    5853
    """
    row = tables.by_key("tires/bolt_threads", "key").get(key)
    if row is None:
        raise ValueError(f"There is no thread {key!r} in the table.")
    return float(row["diameter_mm"]) / 1000.0, float(row["stress_area_mm2"]) / 1e6
