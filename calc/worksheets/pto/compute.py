"""The sums."""

from __future__ import annotations

from calc import arith, model, quantities, tables
from calc.mechanics import pto, pto_power
from calc.worksheets.pto.fields import SHAFTS

SIZE_FIELDS = {
    "width": "working_width",
    "opening": "working_width",
    "throughput": "throughput",
    "rating": "generator_rating",
}
SIZE_KINDS = {"width": "length", "opening": "length", "throughput": "throughput", "rating": "power"}


# --- the tractor -------------------------------------------------------------------------------


def rated_power(v: model.Inputs) -> float:
    """Return the power at the PTO before altitude, heat and driving. [W]"""
    if v.pto_power is not None:
        at_rated = arith.number(v.pto_power)
    else:
        at_engine = pto_power.engine_to_pto(v.engine_power, v.pto_share)
        at_rated = arith.max(0.0, at_engine - (v.pump_drag or 0.0))
    return at_rated * (1.0 - (v.speed_loss or 0.0))


def _uses_shaft_figures(v: model.Inputs) -> bool:
    """Whether the demand is power at the shaft, so that driving and a reserve come on top."""
    return v.power_needed is None and pto_power.figures(v.implement_kind, v.figures) == "d497"


def _moves(v: model.Inputs) -> bool:
    row = _row(v)
    return row is None or row["works"] == "moving"


def _travel(v: model.Inputs) -> float:
    """What driving takes from the engine: the climb, and rolling where it isn't in the figures."""
    if not _moves(v):
        return 0.0
    rolling = pto_power.rolling_coefficient(v.surface)[1] if _uses_shaft_figures(v) else 0.0
    efficiency = pto_power.axle_efficiency(v.transmission)[1]
    mass = v.tractor_mass + v.implement_mass
    return pto_power.travel_power(mass, v.slope, v.ground_speed, rolling, efficiency)


def _left(v: model.Inputs, rule: str) -> float:
    """What is left for the shaft by one altitude rule."""
    return pto_power.power_left(
        rated_power(v),
        pto_power.altitude_factor(v.altitude, rule),
        pto_power.temperature_factor(v.air_temperature, v.heat_rule),
        _travel(v),
    )


# --- the implement -----------------------------------------------------------------------------


def _row(v: model.Inputs) -> dict[str, str] | None:
    return pto_power.kind_row(v.implement_kind)


def _size(v: model.Inputs) -> float:
    row = _row(v)
    name = SIZE_FIELDS.get(row["size"], "") if row else ""
    return arith.number(getattr(v, name)) if name else 0.0


def _need(v: model.Inputs, load: str, size: float | None = None) -> float:
    """What the implement asks for, at a size and in a material. [W]"""
    size = _size(v) if size is None else size
    return pto_power.needed(v.implement_kind, size, load, v.figures, v.reserve)


def compute(v: model.Inputs, work: model.Work) -> model.Outcome:
    """Return power left against power asked for, and whether the shafts go together."""
    row, rated = _row(v), rated_power(v)
    left = _left(v, v.altitude_rule)
    outputs = [
        model.Output("rated", "PTO power as rated", rated, "power"),
        model.Output("left", "Power left for the shaft at the job", left, "power"),
    ]
    if work.on:
        _tractor_steps(v, work, rated, left)
    if row is None:
        return model.Outcome([], outputs)
    need = v.power_needed if v.power_needed is not None else _need(v, v.material)
    if work.on:
        _implement_steps(v, work, row, need)
    rpm = float(v.tractor_shaft.split("-")[1])
    outputs += [
        model.Output("need", "Power it asks for", need, "power"),
        model.Output(
            "torque",
            f"Torque in the shaft at {rpm:.0f} rpm, at that power",
            pto.torque(need, rpm),
            "torque",
        ),
    ]
    outputs += _rotor_outputs(v, rpm)
    widest = _widest(v, row, left)
    if widest is not None:
        outputs.append(model.Output("widest", "Widest for this material", widest, "length"))
    return model.Outcome(_checks(v, row, rated, left, need), outputs)


def _rotor_outputs(v: model.Inputs, rpm: float) -> list[model.Output]:
    """How fast the rotor turns and its tips run, when the gearbox is known."""
    if v.gearbox_ratio is None:
        return []
    rotor = rpm * v.gearbox_ratio
    found = [
        model.Output("rotor", f"Rotor speed with the shaft at {rpm:.0f} rpm", rotor, "rotation")
    ]
    if v.blade_circle is not None:
        tips = pto.tip_speed(v.blade_circle, rotor)
        found.append(model.Output("tips", "Speed of the blade tips", tips, "speed"))
    return found


def _widest(v: model.Inputs, row: dict[str, str], left: float) -> float | None:
    """The width whose demand is just what is left, the mass of the implement unchanged."""
    if row["size"] != "width" or v.power_needed is not None:
        return None
    return pto_power.widest(left, _need(v, v.material, 1.0))


def _checks(
    v: model.Inputs, row: dict[str, str], rated: float, left: float, need: float
) -> list[model.Check]:
    checks = [
        model.at_least(
            "power",
            "PTO power for the implement",
            left,
            need,
            "power",
            _demand_source(v, row),
            why="Short of power the shaft slows, the work turns ragged, and the engine lugs and "
            "runs hot.",
            close_band=pto_power.RESERVE,
        )
    ]
    if row["size"] == "rating":
        # No engine is weaker than the shaft that it drives.
        engine = arith.max(v.engine_power or 0.0, rated / pto_power.pto_ratio("net")[1])
        checks.append(
            model.at_least(
                "starting",
                "Engine power to start motors on the generator",
                engine,
                pto_power.generator_engine_power(v.generator_rating),
                "power",
                "power/S23",
                why="Without it, voltage and frequency sag when a motor starts.",
                close_band=0.0,
            )
        )
    if v.power_limit is not None:
        checks.append(_limit_check(rated, v.power_limit))
    checks.append(_shaft_check(v))
    kind, rpm = v.tractor_shaft.split("-")
    guide = pto.power_guide(kind, arith.number(rpm))
    if need > 0.5 * guide:
        checks.append(
            model.at_most(
                "guide",
                "Power through this size of shaft",
                need,
                guide,
                "power",
                "hitch/ISO500-memory",
                why="Larger power goes with a larger or a faster shaft.",
                close_band=0.0,
            )
        )
    return checks


def _limit_check(rated: float, limit: float) -> model.Check:
    """A tractor above the driveline's rating is a warning, not an error."""
    above = rated > limit
    said = (
        "The tractor's {p} at the PTO is more than the driveline's {limit}: the slip clutch or "
        "shear bolt is all that protects it, so keep it set right."
        if above
        else "The tractor's {p} at the PTO is within the driveline's {limit}."
    )
    sentence = model.phrase(said, p=(rated, "power"), limit=(limit, "power"))
    return model.fits(
        "driveline",
        "Tractor against the driveline's rating",
        0.0 if above else 1.0,
        sentence,
        "power/S25",
    )


def _shaft_check(v: model.Inputs) -> model.Check:
    rpm, wanted = (shaft.split("-")[1] for shaft in (v.tractor_shaft, v.implement_shaft))
    words = {option.value: option.label for option in SHAFTS}
    if v.tractor_shaft == v.implement_shaft:
        margin, said = 1.0, f"Both are {words[v.tractor_shaft]}."
    elif rpm != wanted:
        times = quantities.number((arith.number(rpm) / arith.number(wanted)) ** 2, 3)
        margin = -1.0
        said = (
            f"The tractor turns {rpm} rpm and the implement is built for {wanted}. An adapter "
            f"changes the splines, not the speed: pull on the blades goes with its square, {times} "
            "times here."
        )
    else:
        margin = 0.0
        said = (
            "The speed agrees and the splines don't: the drive shaft needs the other yoke. Ask the "
            "implement's maker before using an adapter; it lengthens the shaft."
        )
    return model.fits(
        "shaft",
        "Shaft and speed",
        margin,
        said,
        "hitch/S5; hitch/S4; hitch/W3",
        why="The wrong speed breaks blades and drivelines and throws what breaks."
        if margin < 0
        else "",
    )


def _demand_source(v: model.Inputs, row: dict[str, str]) -> str:
    if v.power_needed is not None:
        return "power/PRACTICE"
    if row["size"] == "rating":
        return "power/S23; power/DERIVED"
    if _uses_shaft_figures(v):
        return tables.by_key("power/rotary_power", "key")[row["rotary_key"]]["source"]
    return tables.by_key("power/power_density", "key")[row["power_key"]][
        {"light": "light_source", "typical": "source", "heavy": "heavy_source"}[v.material]
    ]


# --- the working -------------------------------------------------------------------------------


def _tractor_steps(v: model.Inputs, work: model.Work, rated: float, left: float) -> None:
    if v.pto_power is None:
        drag, lost = v.pump_drag or 0.0, v.speed_loss or 0.0
        row = tables.by_key("power/engine_to_pto", "key")[v.engine_rating]
        work.step(
            "Power at the PTO",
            "P",
            "(r P_engine − P_pump) (1 − l)",
            (
                ("r", v.pto_share, "fraction"),
                ("P_engine", v.engine_power, "power"),
                ("P_pump", drag, "power"),
                ("l", lost, "fraction"),
            ),
            rated,
            "power",
            row["source"],
        )
    rule = tables.by_key("power/altitude_rules", "key")[v.altitude_rule]
    height = pto_power.altitude_factor(v.altitude, v.altitude_rule)
    work.step(
        "Share left at this altitude",
        "f_h",
        rule["label"],
        (("h", v.altitude, "distance"),),
        height,
        "fraction",
        rule["source"],
    )
    heat = pto_power.temperature_factor(v.air_temperature, v.heat_rule)
    rule = tables.by_key("power/temperature_rules", "key")[v.heat_rule]
    work.step(
        "Share left in this heat",
        "f_t",
        rule["label"],
        (("t", v.air_temperature, "temperature"),),
        heat,
        "fraction",
        rule["source"],
    )
    travel = _travel(v)
    if not _moves(v):
        work.step(
            "Power left for the shaft, standing",
            "P_left",
            "P f_h f_t",
            (("P", rated, "power"), ("f_h", height, "fraction"), ("f_t", heat, "fraction")),
            left,
            "power",
            "power/DERIVED",
        )
        return
    rolling = pto_power.rolling_coefficient(v.surface)[1] if _uses_shaft_figures(v) else 0.0
    efficiency = pto_power.axle_efficiency(v.transmission)[1]
    work.step(
        "What driving takes from the engine",
        "P_d",
        "m g (sin(atan s) + f) v / η",
        (
            ("m", v.tractor_mass + v.implement_mass, "mass"),
            ("s", v.slope, "slope"),
            ("f", rolling, "fraction"),
            ("v", v.ground_speed, "speed"),
            ("η", efficiency, "fraction"),
        ),
        travel,
        "power",
        "power/S29; power/S33; power/GENERAL-memory",
    )
    work.step(
        "Power left for the shaft",
        "P_left",
        "P f_h f_t − P_d",
        (
            ("P", rated, "power"),
            ("f_h", height, "fraction"),
            ("f_t", heat, "fraction"),
            ("P_d", travel, "power"),
        ),
        left,
        "power",
        "power/DERIVED",
    )


def _implement_steps(v: model.Inputs, work: model.Work, row: dict[str, str], need: float) -> None:
    size = (_size(v), SIZE_KINDS.get(row["size"], "count"))
    source = _demand_source(v, row)
    if v.power_needed is not None:
        work.step("Power it asks for", "P_i", "as its maker says", (), need, "power", source)
    elif row["size"] == "rating":
        work.step(
            "Power it asks for",
            "P_i",
            "P_load / η, with η = 85 %",
            (("P_load", *size),),
            need,
            "power",
            source,
        )
    elif _uses_shaft_figures(v):
        found = tables.by_key("power/rotary_power", "key")[row["rotary_key"]]
        work.step(
            "Power it asks for",
            "P_i",
            "(a + b w + c F) (1 ± spread) (1 + reserve)",
            (
                ("a", float(found["a_kw"]) * 1000, "power"),
                ("b", float(found["b_kw_per_m"]) * 1000, "power_per_width"),
                ("F" if row["size"] == "throughput" else "w", *size),
                ("spread", pto_power.rotary_spread(row["rotary_key"]) or 0.0, "fraction"),
                ("reserve", v.reserve, "fraction"),
            ),
            need,
            "power",
            source,
        )
    elif row["size"] == "width":
        work.step(
            "Power it asks for",
            "P_i",
            "p w",
            (
                ("p", pto_power.density(row["power_key"], v.material), "power_per_width"),
                ("w", *size),
            ),
            need,
            "power",
            source,
        )
    else:
        numbers = () if row["size"] == "total" else (("size", *size),)
        work.step("Power it asks for", "P_i", "from the table", numbers, need, "power", source)
