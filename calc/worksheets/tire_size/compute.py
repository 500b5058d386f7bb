"""The sums."""

from __future__ import annotations

from calc import arith, model
from calc.mechanics import ground, liquid_ballast, tire_load, tires
from calc.subjects import tires as common


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Return the checks and outputs at one set of values."""
    checks: list[model.Check] = []
    outputs: list[model.Output] = []
    tire = common.dimensions(v.tire)
    if tire is None:
        return model.Outcome(checks, outputs)
    _lengths(tire, outputs, work)
    rated = common.rating(tire)
    if v.rated_load is not None:
        rated = tire_load.Rating(
            v.rated_load, rated.speed if rated is not None else None, "tires/derived"
        )
    if rated is not None:
        _load(v, tire, rated, checks, outputs, work)
    if v.pressure is not None and v.tire_mass is not None:
        _ground(v, outputs, work)
    volume = liquid_ballast.fill_volume(tire)
    outputs.append(
        model.Output(
            "liquid",
            "Liquid at 75 % fill",
            volume.value,
            "volume",
            low=volume.low,
            high=volume.high,
        )
    )
    return model.Outcome(checks, outputs)


def _lengths(tire: tires.Dimensions, outputs: list[model.Output], work: model.Work) -> None:
    for name, label, value, error in (
        ("overall_diameter", "Overall diameter", tire.overall_diameter, tire.diameter_error),
        ("section_width", "Section width", tire.section_width, tires.MAKER_SPREAD),
        ("loaded_radius", "Loaded radius", tire.static_loaded_radius, tire.loaded_radius_error),
        ("rolling", "One turn rolls", tire.rolling_circumference, tire.circumference_error),
    ):
        outputs.append(
            model.Output(
                name, label, value, "length", low=value * (1 - error), high=value * (1 + error)
            )
        )
    if not work.on:
        return
    h, rim = tire.section_height, tire.rim_diameter
    work.step(
        "Overall diameter",
        "OD",
        "rim + 2 h",
        (("rim", rim, "length"), ("h", h, "length")),
        tire.overall_diameter,
        "length",
        tire.source,
    )
    work.step(
        "Loaded radius",
        "SLR",
        "OD / 2 − 0.18 h",
        (("OD", tire.overall_diameter, "length"), ("h", h, "length")),
        tire.static_loaded_radius,
        "length",
        "tires/WEB-6",
    )
    factor = tire.rolling_circumference / (3.141592653589793 * tire.overall_diameter)
    work.step(
        "One turn rolls",
        "RC",
        "k π OD",
        (("k", factor, "count"), ("OD", tire.overall_diameter, "length")),
        tire.rolling_circumference,
        "length",
        tire.circumference_source,
    )


def _load(
    v: model.Inputs,
    tire: tires.Dimensions,
    rated: tire_load.Rating,
    checks: list[model.Check],
    outputs: list[model.Output],
    work: model.Work,
) -> None:
    carries = rated.load
    outputs.append(model.Output("rated", "Load of its rating", rated.load, "mass"))
    if rated.speed is not None:
        outputs.append(model.Output("rated_speed", "Speed of its rating", rated.speed, "speed"))
    if v.pressure is not None and v.rated_pressure is not None:
        pressure = arith.min(v.pressure, v.rated_pressure)
        carries = tire_load.load_at_pressure(carries, pressure, v.rated_pressure)
        outputs.append(model.Output("at_pressure", "Load at that pressure", carries, "mass"))
        work.step(
            "Load at that pressure",
            "L",
            "L rated × (p / p rated)^0.585",
            (
                ("L rated", rated.load, "mass"),
                ("p", v.pressure, "pressure"),
                ("p rated", v.rated_pressure, "pressure"),
            ),
            carries,
            "mass",
            "tires/pressure-memory",
        )
    if v.tire_mass is not None:
        checks.append(
            model.at_most(
                "load",
                "Load on this tire",
                v.tire_mass,
                carries,
                "mass",
                rated.source,
                why="An overloaded tire runs hot and fails.",
            )
        )
        if v.rated_pressure is not None and v.tire_mass <= rated.load:
            _pressure_needed(v, rated, outputs, work)
    if v.road_speed is not None and rated.speed is not None:
        checks.append(
            model.at_most(
                "speed",
                "Speed against its symbol",
                v.road_speed,
                rated.speed,
                "speed",
                "tires/ISO4251-memory",
                why="Above its symbol a tire carries less, or nothing.",
            )
        )


def _pressure_needed(
    v: model.Inputs, rated: tire_load.Rating, outputs: list[model.Output], work: model.Work
) -> None:
    least = tire_load.pressure_for_load(v.tire_mass, rated.load, v.rated_pressure)
    added = () if v.work == "plain" else (v.work,)
    setting = tire_load.pressure_with_additions(least, added, v.rated_pressure)
    outputs.append(
        model.Output(
            "pressure_needed",
            "Pressure that load and work need",
            setting,
            "pressure",
            "never less than the manual's least, never above the sidewall's maximum",
        )
    )
    work.step(
        "Pressure that the load needs",
        "p",
        "p rated × (L / L rated)^(1 / 0.585)",
        (
            ("p rated", v.rated_pressure, "pressure"),
            ("L", v.tire_mass, "mass"),
            ("L rated", rated.load, "mass"),
        ),
        least,
        "pressure",
        "tires/pressure-memory",
    )


def _ground(v: model.Inputs, outputs: list[model.Output], work: model.Work) -> None:
    low, high = ground.contact_pressure_band(v.pressure)
    area = ground.contact_area(v.tire_mass, low)
    outputs.append(
        model.Output(
            "contact_area",
            "Contact area on soft ground",
            area,
            "area_small",
            low=ground.contact_area(v.tire_mass, high),
            high=area,
        )
    )
    outputs.append(
        model.Output(
            "ground_stress", "Largest stress 10 cm down", ground.peak_stress(v.pressure), "pressure"
        )
    )
    work.step(
        "Contact area",
        "A",
        "m g / p",
        (("m", v.tire_mass, "mass"), ("p", v.pressure, "pressure")),
        area,
        "area_small",
        "tires/S9",
    )
