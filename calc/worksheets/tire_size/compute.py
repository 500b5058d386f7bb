"""The sums."""

from __future__ import annotations

from calc import arith, model
from calc.mechanics import ground, liquid_ballast, tire_load, tires
from calc.subjects import carrying
from calc.subjects import tires as common


def compute(v: model.Inputs, at: model.At) -> None:
    """Name the lengths of a tire, what it carries and at what pressure; check load and speed."""
    tire = tires.dimensions(v.tire)
    _lengths(tire, at)
    _load(v, at)
    _speed(v, at)
    if v.pressure is not None and v.tire_mass is not None:
        _ground(v, at)
    volume = liquid_ballast.fill_volume(tire)
    at.liquid = volume.value
    at.band("liquid", volume.low, volume.high)


def _lengths(tire: tires.Dimensions, at: model.At) -> None:
    at.overall_diameter = tire.overall_diameter
    at.section_width = tire.section_width
    at.loaded_radius = tire.static_loaded_radius
    at.rolling = tire.rolling_circumference
    for name, error in (
        ("overall_diameter", tire.diameter_error),
        ("section_width", tires.MAKER_SPREAD),
        ("loaded_radius", tire.loaded_radius_error),
        ("rolling", tire.circumference_error),
    ):
        at.band(name, at.number(name) * (1 - error), at.number(name) * (1 + error))
    if not at.showing:
        return
    height = (tire.section_height, "length")
    rim = (tire.rim_diameter, "length")
    at.step("overall_diameter", "OD = rim + 2 h", tire.source, rim=rim, h=height)
    share = (tire.overall_diameter / 2 - tire.static_loaded_radius) / tire.section_height
    at.step(
        "loaded_radius",
        "SLR = OD / 2 − s h",
        "tires/TY-C" if tire.designation.radial else "tires/WEB-6",
        OD="overall_diameter",
        s=(share, "count"),
        h=height,
    )
    factor = tire.rolling_circumference / (arith.pi * tire.overall_diameter)
    at.step(
        "rolling",
        "RC = k π OD",
        tire.circumference_source,
        k=(factor, "count"),
        OD="overall_diameter",
    )


def _load(v: model.Inputs, at: model.At) -> None:
    """What it carries at the pressure in it, and the pressure that a load needs."""
    found = carrying.carried(v.tire, v.rated_load, v.pressure, v.rated_pressure, v.road_speed)
    if v.tire_mass is not None:
        found = found.against(v.tire_mass)
    if found.rating is not None and found.missing != "load":
        at.rated = found.rating.load
        if found.rating.speed is not None:
            at.rated_speed = found.rating.speed
        if found.rating.pressure is not None:
            at.row_pressure = found.rating.pressure
    if found.load is None:
        # A size alone is read, not checked: its load matters once somebody asks for it.
        name = "rating" if v.tire_mass is None else "load"
        at.not_checked(name, "rated_load" if found.missing == "load" else "rated_pressure")
    else:
        at.carries = arith.number(found.most() or 0.0)
        if found.at_pressure:
            reference = v.rated_pressure if v.rated_pressure is not None else at.row_pressure
            at.step(
                "carries",
                "L = L rated × (p / p rated)^0.585, or between the pressures of its row",
                "tires/pressure-memory" if v.rated_pressure is not None else found.source,
                **{"L rated": "rated", "p": "pressure", "p rated": (reference, "pressure")},
            )
        if v.tire_mass is not None and found.too_fast and v.tire_mass <= at.carries:
            at.not_checked("load", "road_speed" if v.road_speed is None else "rated_load")
        elif v.tire_mass is not None:
            held = carrying.as_printed(v.tire_mass, at.carries, at.carries)
            at.at_most("load", held, "carries", found.source)
        found.check_pressure(at, "inflation", "pressure", v.rated_pressure)
    _pressure_needed(v, at, found)


def _pressure_needed(v: model.Inputs, at: model.At, found: carrying.Carried) -> None:
    rated = found.rating
    reference = v.rated_pressure
    if reference is None and rated is not None and v.rated_load is None:
        reference = rated.pressure
    if v.tire_mass is None:
        at.not_checked("pressure", "tire_mass")
    elif rated is None or found.missing == "load":
        at.not_checked("pressure", "rated_load")
    elif reference is None:
        at.not_checked("pressure", "rated_pressure")
    elif v.tire_mass <= rated.load:
        least = tire_load.pressure_for_load(v.tire_mass, rated.load, reference)
        added = () if v.work == "plain" else (v.work,)
        at.pressure_needed = tire_load.pressure_with_additions(least, added, reference)
        at.step(
            "pressure_needed",
            "p = p rated × (L / L rated)^(1 / 0.585) + what the work adds",
            "tires/pressure-memory",
            **{"p rated": (reference, "pressure"), "L": "tire_mass", "L rated": "rated"},
        )


def _speed(v: model.Inputs, at: model.At) -> None:
    """Two service descriptions are two speeds: the fastest is its limit."""
    top = common.fastest(v.tire)
    if v.road_speed is not None and top is not None:
        held = carrying.speed_as_printed(v.road_speed, top)
        at.at_most("speed", held, top, "tires/WEB-11", kind="speed")


def _ground(v: model.Inputs, at: model.At) -> None:
    low, high = ground.contact_pressure_band(v.pressure)
    at.contact_area = ground.contact_area(v.tire_mass, low)
    at.band("contact_area", ground.contact_area(v.tire_mass, high), at.contact_area)
    at.ground_stress = ground.peak_stress(v.pressure)
    at.step("contact_area", "A = m g / p", "tires/S9", m="tire_mass", p="pressure")
