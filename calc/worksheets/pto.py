"""Is there enough power at the PTO for this implement, and how wide may it be?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from calc import quantities, tables, vocabulary
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import pto, pto_power, typical
from calc.picture import Bar, Bars, Chart, Mark, Picture, Series
from calc.vocabulary import field
from calc.worksheet import KnownSoFar, Typical

NOT_TURBO = "An engine without a turbocharger loses power with height; the rules disagree on "
SHAFTS = (
    ws.Option("1-540", "6 splines, 1-3/8 in, 540 rpm"),
    ws.Option("1-1000", "6 splines, 1-3/8 in, 1000 rpm"),
    ws.Option("2-1000", "21 splines, 1-3/8 in, 1000 rpm"),
    ws.Option("3-1000", "20 splines, 1-3/4 in, 1000 rpm"),
    ws.Option("4-1300", "22 splines, 2-1/4 in, 1300 rpm"),
)
SIZE_FIELDS = {
    "width": "working_width",
    "opening": "working_width",
    "throughput": "throughput",
    "rating": "generator_rating",
}
SIZE_KINDS = {"width": "length", "opening": "length", "throughput": "throughput", "rating": "power"}
SIZE_UNITS = {"rating": "kW"}


# --- what stands in for what isn't known -------------------------------------------------------


def _pto_typical(known: KnownSoFar) -> Any:
    """The usual PTO power of the class, unless an engine power is there to work it out from."""
    if known.get("engine_power") is not None:
        return None
    found = field("pto_power")
    assert isinstance(found, ws.Field)
    return found.typical_for(known)


def _ratio_typical(known: KnownSoFar) -> Any:
    """The share of the engine rating that reaches the shaft, when the PTO power isn't known."""
    if known.get("pto_power") is not None or known.get("engine_power") is None:
        return None
    row = tables.by_key("engine_to_pto", "key")[known.get("engine_rating") or "unstated"]
    low, _, high = pto_power.pto_ratio(row["key"])
    return Typical(low, high, row["source"], row["label"][0].lower() + row["label"][1:])


def _drag_typical(known: KnownSoFar) -> Any:
    """What a hydrostatic pump takes at rest; a figure rated at the PTO has it in already."""
    if known.get("pto_power") is not None or known.get("engine_power") is None:
        return None
    drive = known.get("transmission") or "hydrostatic"
    if drive == "gear":
        return None
    row = tables.by_key("pto_drag", "key")[drive]
    return Typical(*pto_power.pump_drag(drive), row["source"], "the pump of a compact at neutral")


def _speed_typical(known: KnownSoFar) -> Any:
    """What is lost when the engine turns the PTO at its speed below its own rated speed."""
    rated, working = known.get("rated_rpm"), known.get("pto_engine_rpm")
    if rated is None or working is None or working.middle >= 0.97 * rated.middle:
        return None
    row = tables.by_key("pto_speed_loss", "key")["below_rated"]
    return Typical(*pto_power.speed_loss(), row["source"], row["label"].lower())


def _width_typical(known: KnownSoFar) -> Any:
    """The usual width, or opening of a chipper, where the power goes with it."""
    row = pto_power.kind_row(known.get("implement_kind") or "")
    if row is None or row["size"] not in ("width", "opening"):
        return None
    found = field("working_width")
    assert isinstance(found, ws.Field)
    return found.typical_for(known)


def _size_typical(size: str, low: float, high: float, of: str) -> Any:
    def find(known: KnownSoFar) -> Any:
        row = pto_power.kind_row(known.get("implement_kind") or "")
        if row is None or row["size"] != size:
            return None
        return Typical(low, high, "power/PRACTICE", of)

    return find


def _mass_typical(known: KnownSoFar) -> Any:
    """The usual mass of the kind, where the tables of implements have it."""
    kind = known.get("implement_kind") or "other"
    if kind not in dict(typical.implement_kinds()):
        return Typical(200.0, 1500.0, "power/PRACTICE", "hay tools, spreaders and generators")
    found = field("implement_mass")
    assert isinstance(found, ws.Field)
    return found.typical_for(known)


def _implement_kind() -> ws.Choice:
    """The vocabulary's kinds, and those that only matter for their power."""
    base = vocabulary.implement_kind()
    have = {option.value for option in base.options}
    more = [
        ws.Option(row["kind"], row["label"])
        for row in tables.rows("pto_kinds")
        if row["kind"] not in have
    ]
    found = field("implement_kind", options=(*base.options, *more))
    assert isinstance(found, ws.Choice)
    return found


def _rows_as_options(table: str) -> tuple[ws.Option, ...]:
    return tuple(ws.Option(row["key"], row["label"]) for row in tables.rows(table))


FIELDS = (
    field("tractor_kind", default="compact_light"),
    field("pto_power", default="", typical=_pto_typical,
          help="In the specification as “PTO power”. Left blank, it is worked out from the engine "
          "power."),
    field("engine_power", default="25 hp", essential=True),
    _implement_kind(),
    field("working_width", default="60 in", typical=_width_typical),
    field("material", default="light"),
    ws.Choice(
        "engine_rating", "The engine power is", _rows_as_options("engine_to_pto"),
        "Brochures print gross or net flywheel power and seldom say which. Only used when the PTO "
        "power is blank.",
        default="unstated", group="Tractor",
    ),
    ws.Field(
        "pto_share", "Share of the engine power at the PTO", "fraction", "50 %", "100 %",
        "Better still, find the PTO power itself in the specification or on a test sheet and type "
        "it above.",
        typical=_ratio_typical, group="Tractor",
    ),
    field("transmission"),
    ws.Field(
        "pump_drag", "What the hydrostatic pump takes at rest", "power", "0 hp", "10 hp",
        "Seldom printed; leave it blank.",
        typical=_drag_typical, group="Tractor",
    ),
    ws.Field(
        "rated_rpm", "Rated engine speed", "rotation", "1000 rpm", "4500 rpm",
        "The speed at which the power is rated, beside it in the specification.",
        optional=True, group="Tractor",
    ),
    ws.Field(
        "pto_engine_rpm", "Engine speed at the PTO's speed", "rotation", "800 rpm", "4500 rpm",
        "The mark on the tachometer for 540 or 1000.",
        optional=True, group="Tractor",
    ),
    ws.Field(
        "speed_loss", "Share lost by running at that engine speed", "fraction", "0 %", "40 %",
        "Only if a test sheet gives power at both speeds; leave it blank.",
        typical=_speed_typical, group="Tractor",
    ),
    field("tractor_mass", essential=False, default="1,650 lb"),
    ws.Choice(
        "tractor_shaft", "PTO shaft of the tractor", SHAFTS,
        "Count the splines on the end of the shaft; the speed is on the PTO lever or the decal.",
        default="1-540", group="Tractor",
    ),
    field("implement_mass", essential=False, typical=_mass_typical, default="500 lb"),
    ws.Field(
        "throughput", "Crop passing through", "throughput", "0.2 t/h", "200 t/h",
        "Bales an hour times their weight, or loads an hour.",
        default="6 t/h", typical=_size_typical("throughput", 3 / 3.6, 8 / 3.6, "small hay tools"),
        group="Implement", unit_us="ton/h",
    ),
    ws.Field(
        "generator_rating", "Rated output of the generator", "power", "1 kW", "150 kW",
        "On its plate, as running or continuous output, not the surge figure.",
        default="10 kW", typical=_size_typical("rating", 5e3, 15e3, "generators for compacts"),
        group="Implement", unit_us="kW", unit_metric="kW",
    ),
    ws.Choice(
        "figures", "Figures for its demand",
        (
            ws.Option("practice", "Trade custom: tractor power for each foot"),
            ws.Option("d497", "ASAE D497: power at the shaft"),
        ),
        "Where a kind of implement has one of them alone, that one is used.",
        default="practice", group="Implement",
    ),
    ws.Field(
        "reserve", "Reserve on top of power at the shaft", "fraction", "0 %", "100 %",
        "With ASAE D497 or the maker's figure for the shaft. Trade custom has it in already.",
        default="20 %", typical=Typical(pto_power.RESERVE_LOW, pto_power.RESERVE_HIGH,
                                        "power/PRACTICE", "the trade"), group="Implement",
    ),
    field("power_needed"),
    field("power_limit"),
    ws.Field(
        "gearbox_ratio", "Rotor turns for one turn of the shaft", "count", "0.1", "6",
        "On the gearbox plate, or turn the shaft once by hand, engine off, and count the rotor.",
        optional=True, group="Implement",
    ),
    ws.Field(
        "blade_circle", "Circle that the blade tips draw", "length", "6 in", "120 in",
        "From one tip across to the other, blades out.",
        optional=True, group="Implement",
    ),
    ws.Choice(
        "implement_shaft", "Input shaft of the implement", SHAFTS,
        "Count the grooves in the yoke; the speed is on the gearbox or the decal.",
        default="1-540", group="Implement",
    ),
    field("slope"),
    field("ground_speed"),
    ws.Choice(
        "surface", "Ground",
        tuple(ws.Option(row["surface"], row["name"]) for row in tables.rows("rolling_resistance")),
        "Rolling takes power as well. Trade custom has rolling on the level in it already.",
        default="turf", group="Job",
    ),
    field("altitude"),
    ws.Choice(
        "altitude_rule", "Loss with altitude", _rows_as_options("altitude_rules"),
        NOT_TURBO + "where the loss begins.", default="na_500", group="Job",
    ),
    ws.Field(
        "air_temperature", "Air temperature", "temperature", "-40 F", "130 F",
        "In the shade, at the hottest hour that you work in.",
        default="75 F", typical=Typical(283.15, 308.15, "power/PRACTICE", "the mowing season"),
        group="Job",
    ),
    ws.Choice(
        "heat_rule", "Loss with heat", _rows_as_options("temperature_rules"),
        "Hot air is thin air.", default="diesel", group="Job",
    ),
)  # fmt: skip


# --- the tractor -------------------------------------------------------------------------------


def rated_power(v: ws.Inputs) -> float:
    """Return the power at the PTO before altitude, heat and driving. [W]"""
    if v.pto_power is not None:
        at_rated = float(v.pto_power)
    else:
        at_engine = pto_power.engine_to_pto(v.engine_power, v.pto_share)
        at_rated = max(0.0, at_engine - (v.pump_drag or 0.0))
    return at_rated * (1.0 - (v.speed_loss or 0.0))


def _uses_shaft_figures(v: ws.Inputs) -> bool:
    """Whether the demand is power at the shaft, so that driving and a reserve come on top."""
    return v.power_needed is None and pto_power.figures(v.implement_kind, v.figures) == "d497"


def _moves(v: ws.Inputs) -> bool:
    row = _row(v)
    return row is None or row["works"] == "moving"


def _travel(v: ws.Inputs) -> float:
    """What driving takes from the engine: the climb, and rolling where it isn't in the figures."""
    if not _moves(v):
        return 0.0
    rolling = pto_power.rolling_coefficient(v.surface)[1] if _uses_shaft_figures(v) else 0.0
    efficiency = pto_power.axle_efficiency(v.transmission)[1]
    mass = v.tractor_mass + v.implement_mass
    return pto_power.travel_power(mass, v.slope, v.ground_speed, rolling, efficiency)


def _left(v: ws.Inputs, rule: str) -> float:
    """What is left for the shaft by one altitude rule."""
    return pto_power.power_left(
        rated_power(v),
        pto_power.altitude_factor(v.altitude, rule),
        pto_power.temperature_factor(v.air_temperature, v.heat_rule),
        _travel(v),
    )


# --- the implement -----------------------------------------------------------------------------


def _row(v: ws.Inputs) -> dict[str, str] | None:
    return pto_power.kind_row(v.implement_kind)


def _size(v: ws.Inputs) -> float:
    row = _row(v)
    name = SIZE_FIELDS.get(row["size"], "") if row else ""
    return float(getattr(v, name)) if name else 0.0


def _need(v: ws.Inputs, load: str, size: float | None = None) -> float:
    """What the implement asks for, at a size and in a material. [W]"""
    size = _size(v) if size is None else size
    return pto_power.needed(v.implement_kind, size, load, v.figures, v.reserve)


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return power left against power asked for, and whether the shafts go together."""
    row, rated = _row(v), rated_power(v)
    left = _left(v, v.altitude_rule)
    outputs = [
        ws.Output("rated", "PTO power as rated", rated, "power"),
        ws.Output("left", "Power left for the shaft at the job", left, "power"),
    ]
    if work.on:
        _tractor_steps(v, work, rated, left)
    if row is None:
        return ws.Outcome([], outputs)
    need = v.power_needed if v.power_needed is not None else _need(v, v.material)
    if work.on:
        _implement_steps(v, work, row, need)
    rpm = float(v.tractor_shaft.split("-")[1])
    outputs += [
        ws.Output("need", "Power it asks for", need, "power"),
        ws.Output("torque", f"Torque in the shaft at {rpm:.0f} rpm, at that power",
                  pto.torque(need, rpm), "torque"),
    ]  # fmt: skip
    outputs += _rotor_outputs(v, rpm)
    widest = _widest(v, row, left)
    if widest is not None:
        outputs.append(ws.Output("widest", "Widest for this material", widest, "length"))
    return ws.Outcome(_checks(v, row, rated, left, need), outputs)


def _rotor_outputs(v: ws.Inputs, rpm: float) -> list[ws.Output]:
    """How fast the rotor turns and its tips run, when the gearbox is known."""
    if v.gearbox_ratio is None:
        return []
    rotor = rpm * v.gearbox_ratio
    found = [ws.Output("rotor", f"Rotor speed with the shaft at {rpm:.0f} rpm", rotor, "rotation")]
    if v.blade_circle is not None:
        tips = pto.tip_speed(v.blade_circle, rotor)
        found.append(ws.Output("tips", "Speed of the blade tips", tips, "speed"))
    return found


def _widest(v: ws.Inputs, row: dict[str, str], left: float) -> float | None:
    """The width whose demand is just what is left, the mass of the implement unchanged."""
    if row["size"] != "width" or v.power_needed is not None:
        return None
    return pto_power.widest(left, _need(v, v.material, 1.0))


def _checks(
    v: ws.Inputs, row: dict[str, str], rated: float, left: float, need: float
) -> list[ws.Check]:
    checks = [
        ws.at_least(
            "power", "PTO power for the implement", left, need, "power", _demand_source(v, row),
            why="Short of power the shaft slows, the work turns ragged, and the engine lugs and "
            "runs hot.",
            close_band=pto_power.RESERVE,
        )
    ]  # fmt: skip
    if row["size"] == "rating":
        # No engine is weaker than the shaft that it drives.
        engine = max(v.engine_power or 0.0, rated / pto_power.pto_ratio("net")[1])
        checks.append(
            ws.at_least(
                "starting", "Engine power to start motors on the generator", engine,
                pto_power.generator_engine_power(v.generator_rating), "power", "power/S23",
                why="Without it, voltage and frequency sag when a motor starts.", close_band=0.0,
            )
        )  # fmt: skip
    if v.power_limit is not None:
        checks.append(_limit_check(rated, v.power_limit))
    checks.append(_shaft_check(v))
    kind, rpm = v.tractor_shaft.split("-")
    guide = pto.power_guide(kind, float(rpm))
    if need > 0.5 * guide:
        checks.append(
            ws.at_most(
                "guide", "Power through this size of shaft", need, guide, "power",
                "hitch/ISO500-memory", why="Larger power goes with a larger or a faster shaft.",
                close_band=0.0,
            )
        )  # fmt: skip
    return checks


def _limit_check(rated: float, limit: float) -> ws.Check:
    """A tractor above the driveline's rating is a warning, not an error."""
    above = rated > limit
    said = (
        "The tractor's {p} at the PTO is more than the driveline's {limit}: the slip clutch or "
        "shear bolt is all that protects it, so keep it set right."
        if above
        else "The tractor's {p} at the PTO is within the driveline's {limit}."
    )
    sentence = ws.phrase(said, p=(rated, "power"), limit=(limit, "power"))
    return ws.fits(
        "driveline", "Tractor against the driveline's rating", 0.0 if above else 1.0, sentence,
        "power/S25",
    )  # fmt: skip


def _shaft_check(v: ws.Inputs) -> ws.Check:
    rpm, wanted = (shaft.split("-")[1] for shaft in (v.tractor_shaft, v.implement_shaft))
    words = {option.value: option.label for option in SHAFTS}
    if v.tractor_shaft == v.implement_shaft:
        margin, said = 1.0, f"Both are {words[v.tractor_shaft]}."
    elif rpm != wanted:
        times = quantities.number((float(rpm) / float(wanted)) ** 2, 3)
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
    return ws.fits(
        "shaft",
        "Shaft and speed",
        margin,
        said,
        "hitch/S5; hitch/S4; hitch/W3",
        why="The wrong speed breaks blades and drivelines and throws what breaks."
        if margin < 0
        else "",
    )


def _demand_source(v: ws.Inputs, row: dict[str, str]) -> str:
    if v.power_needed is not None:
        return "power/PRACTICE"
    if row["size"] == "rating":
        return "power/S23; power/DERIVED"
    if _uses_shaft_figures(v):
        return tables.by_key("rotary_power", "key")[row["rotary_key"]]["source"]
    return tables.by_key("power_density", "key")[row["power_key"]][
        {"light": "light_source", "typical": "source", "heavy": "heavy_source"}[v.material]
    ]


# --- the working -------------------------------------------------------------------------------


def _tractor_steps(v: ws.Inputs, work: ws.Work, rated: float, left: float) -> None:
    if v.pto_power is None:
        drag, lost = v.pump_drag or 0.0, v.speed_loss or 0.0
        row = tables.by_key("engine_to_pto", "key")[v.engine_rating]
        work.step("Power at the PTO", "P", "(r P_engine − P_pump) (1 − l)",
                  (("r", v.pto_share, "fraction"), ("P_engine", v.engine_power, "power"),
                   ("P_pump", drag, "power"), ("l", lost, "fraction")), rated, "power",
                  row["source"])  # fmt: skip
    rule = tables.by_key("altitude_rules", "key")[v.altitude_rule]
    height = pto_power.altitude_factor(v.altitude, v.altitude_rule)
    work.step("Share left at this altitude", "f_h", rule["label"],
              (("h", v.altitude, "distance"),), height, "fraction", rule["source"])  # fmt: skip
    heat = pto_power.temperature_factor(v.air_temperature, v.heat_rule)
    rule = tables.by_key("temperature_rules", "key")[v.heat_rule]
    work.step("Share left in this heat", "f_t", rule["label"],
              (("t", v.air_temperature, "temperature"),), heat, "fraction",
              rule["source"])  # fmt: skip
    travel = _travel(v)
    if not _moves(v):
        work.step("Power left for the shaft, standing", "P_left", "P f_h f_t",
                  (("P", rated, "power"), ("f_h", height, "fraction"), ("f_t", heat, "fraction")),
                  left, "power", "power/DERIVED")  # fmt: skip
        return
    rolling = pto_power.rolling_coefficient(v.surface)[1] if _uses_shaft_figures(v) else 0.0
    efficiency = pto_power.axle_efficiency(v.transmission)[1]
    work.step("What driving takes from the engine", "P_d", "m g (sin(atan s) + f) v / η",
              (("m", v.tractor_mass + v.implement_mass, "mass"), ("s", v.slope, "slope"),
               ("f", rolling, "fraction"), ("v", v.ground_speed, "speed"),
               ("η", efficiency, "fraction")), travel, "power",
              "power/S29; power/S33; power/GENERAL-memory")  # fmt: skip
    work.step("Power left for the shaft", "P_left", "P f_h f_t − P_d",
              (("P", rated, "power"), ("f_h", height, "fraction"), ("f_t", heat, "fraction"),
               ("P_d", travel, "power")), left, "power", "power/DERIVED")  # fmt: skip


def _implement_steps(v: ws.Inputs, work: ws.Work, row: dict[str, str], need: float) -> None:
    size = (_size(v), SIZE_KINDS.get(row["size"], "count"))
    source = _demand_source(v, row)
    if v.power_needed is not None:
        work.step("Power it asks for", "P_i", "as its maker says", (), need, "power", source)
    elif row["size"] == "rating":
        work.step("Power it asks for", "P_i", "P_load / η, with η = 85 %",
                  (("P_load", *size),), need, "power", source)  # fmt: skip
    elif _uses_shaft_figures(v):
        found = tables.by_key("rotary_power", "key")[row["rotary_key"]]
        work.step("Power it asks for", "P_i", "(a + b w + c F) (1 ± spread) (1 + reserve)",
                  (("a", float(found["a_kw"]) * 1000, "power"),
                   ("b", float(found["b_kw_per_m"]) * 1000, "power_per_width"),
                   ("F" if row["size"] == "throughput" else "w", *size),
                   ("spread", pto_power.rotary_spread(row["rotary_key"]) or 0.0, "fraction"),
                   ("reserve", v.reserve, "fraction")), need, "power", source)  # fmt: skip
    elif row["size"] == "width":
        work.step("Power it asks for", "P_i", "p w",
                  (("p", pto_power.density(row["power_key"], v.material), "power_per_width"),
                   ("w", *size)), need, "power", source)  # fmt: skip
    else:
        numbers = () if row["size"] == "total" else (("size", *size),)
        work.step("Power it asks for", "P_i", "from the table", numbers, need, "power", source)


# --- advice ------------------------------------------------------------------------------------


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Solve for the widest implement and the tractor that would do; show what other rules give."""
    row = _row(v)
    if row is None:
        label = dict(typical.implement_kinds()).get(v.implement_kind, "It")
        return ws.Advice(
            headline=f"{label}: nothing on it is driven from the PTO, so weight and grip decide.",
            cautions=_cautions(v, None),
            tables=[_altitude_table(v)],
        )
    remedies: list[ws.Remedy] = []
    if outcome.margin(("power",)) < 0.0:
        remedies += _size_remedies(v, row, solve)
        remedies += _job_remedies(v, solve)
        remedies += _tractor_remedies(v, solve)
    if row["size"] == "rating" and outcome.margin(("starting", "power")) < 0.0:
        remedies += _generator_remedies(v, solve)
    if outcome.margin(("shaft",)) < 0.0:
        label = {option.value: option.label for option in SHAFTS}[v.tractor_shaft]
        remedies.append(
            ws.Remedy(
                f"Ask for the implement with a gearbox for {label}; never run it off its speed.",
                {"implement_shaft": v.tractor_shaft}, "hitch/S4",
            )
        )  # fmt: skip
    headline: ws.Words = ""
    if outcome.margin() >= 1.0:
        # Every check has room to spare: say the power, not that the splines agree.
        headline = ws.phrase(
            "{left} is left at the shaft, and it asks for {need}.",
            left=(outcome.output("left"), "power"), need=(outcome.output("need"), "power"),
        )  # fmt: skip
    tables_shown = [_demand_table(v, row), _altitude_table(v)]
    return ws.Advice(remedies, _cautions(v, row), tables_shown, _notes(v, row), headline)


def _size_remedies(v: ws.Inputs, row: dict[str, str], solve: Solver) -> list[ws.Remedy]:
    """The largest implement that what is left can run, lighter as it gets narrower."""
    if row["size"] not in ("width", "opening", "throughput") or v.power_needed is not None:
        return []
    name, now = SIZE_FIELDS[row["size"]], _size(v)
    found = solve.largest(name, 0.2 * now, now, ("power",))
    if found is None:
        return []
    kind = SIZE_KINDS[row["size"]]
    if row["size"] == "width":
        inches = int(found / pto_power.INCH + 1e-6)
        text = "{size} is the widest that this power runs in this material."
        return [
            ws.Remedy(ws.phrase(text, size=(found, kind)), {name: f"{inches} in"}, "power/DERIVED")
        ]
    texts = {
        "opening": "{size} is the largest opening that this power runs.",
        "throughput": "{size} is the most that this power puts through.",
    }
    unit = {"opening": "in", "throughput": "t/h"}[row["size"]]
    shown = quantities.kind(kind).unit(unit).from_base(found) * 0.999
    return [
        ws.Remedy(
            ws.phrase(texts[row["size"]], size=(found, kind)), {name: f"{shown:.4g} {unit}"},
            "power/DERIVED",
        )
    ]  # fmt: skip


def _job_remedies(v: ws.Inputs, solve: Solver) -> list[ws.Remedy]:
    """Lighter material, a gentler climb or a slower pace, where one of them is enough."""
    remedies = []
    if v.power_needed is None:
        for load in ("typical", "light"):
            lighter = pto_power.LOADS.index(load) < pto_power.LOADS.index(v.material)
            if lighter and solve.run(material=load).margin(("power",)) >= 0.0:
                remedies.append(
                    ws.Remedy(f"In {load} material this size stays within the power.",
                              {"material": load}, "power/DERIVED")
                )  # fmt: skip
                break
    gentle = solve.largest("slope", 0.0, v.slope, ("power",))
    if gentle is not None and gentle < v.slope:
        down = int(gentle * 1000) / 10
        remedies.append(
            ws.Remedy(ws.phrase("On climbs up to {s} it stays within the power.",
                                s=(gentle, "slope")), {"slope": f"{down} %"}, "power/DERIVED")
        )  # fmt: skip
    slow = solve.largest("ground_speed", 0.25, v.ground_speed, ("power",))
    if slow is not None and slow < v.ground_speed and slow > 0.3:
        remedies.append(
            ws.Remedy(
                ws.phrase("At {v} or slower the climb takes little enough.", v=(slow, "speed")),
                {"ground_speed": f"{slow * 0.999:.3f} m/s"}, "power/DERIVED",
            )
        )  # fmt: skip
    return remedies


def _tractor_remedies(v: ws.Inputs, solve: Solver) -> list[ws.Remedy]:
    """The PTO power that would be needed."""
    now = rated_power(v)
    wanted = solve.smallest("pto_power", now, 12 * now + 1e3, ("power",))
    if wanted is None:
        return []
    return [
        ws.Remedy(
            ws.phrase("A tractor with {p} at the PTO runs it here.", p=(wanted, "power")),
            {"pto_power": f"{wanted * 1.001 / 1000:.4g} kW"}, "power/DERIVED",
        )
    ]  # fmt: skip


def _generator_remedies(v: ws.Inputs, solve: Solver) -> list[ws.Remedy]:
    found = solve.largest("generator_rating", 500.0, v.generator_rating, ("starting", "power"))
    if found is None:
        return []
    return [
        ws.Remedy(
            ws.phrase("{p} is the largest generator that it carries and can start motors on.",
                      p=(found, "power", "kW")),
            {"generator_rating": f"{found * 0.999 / 1000:.4g} kW"}, "power/S23",
        )
    ]  # fmt: skip


def _cautions(v: ws.Inputs, row: dict[str, str] | None) -> list[ws.Caution]:
    cautions = [
        ws.Caution(
            "The operator's manuals of tractor and implement come first. Enough power says nothing "
            "about weight: check lift and front axle too.", "power/PRACTICE",
        )
    ]  # fmt: skip
    if row is None:
        return cautions
    cautions.append(
        ws.Caution(
            "Keep the master shield and every shaft guard on. Stop the engine and wait until the "
            "shaft stands still before going near it; a turning shaft winds in clothing faster "
            "than anyone can pull away.", "hitch/S5, clause 7.7.1",
        )
    )  # fmt: skip
    if row["size"] == "rating":
        cautions.append(
            ws.Caution(
                "A generator that feeds a building needs a transfer switch put in by a licensed "
                "electrician: without it, current runs back into the line and can kill a lineman.",
                "power/PRACTICE",
            )
        )  # fmt: skip
    if v.slope >= 0.10:
        cautions.append(
            ws.Caution(
                "Power is not what makes a slope safe. Follow the manual's limit, go up and down "
                "rather than across, and keep the belt on and the roll-over bar up.", "hitch/S7",
            )
        )  # fmt: skip
    return cautions


def _demand_table(v: ws.Inputs, row: dict[str, str]) -> ws.Table:
    """What every source in the tables gives for this implement at this size."""
    size = _size(v)
    rows: list[tuple[ws.Cell, ...]] = []
    cited: list[str] = []
    kind = tables.by_key("power_density", "key").get(row["power_key"], {}).get("kind", "")
    for entry in tables.rows("power_density"):
        # A chipper's log and its rated opening are different sizes.
        if entry["kind"] != kind or (kind == "chipper" and entry["key"] != row["power_key"]):
            continue
        cited += [entry["light_source"], entry["source"], entry["heavy_source"]]
        cells: list[ws.Cell] = [f"{entry['label']} ({entry['basis']})"]
        for load in pto_power.LOADS:
            cells.append(
                (pto_power.demand(entry["key"], size, load), "power") if entry[load] else "–"
            )
        rows.append(tuple(cells))
    if row["size"] == "rating":
        shaft = (pto_power.generator_shaft_power(size), "power")
        rows.append(("Rated load through an alternator of 85 %, at the shaft", shaft, shaft, shaft))
    if row["rotary_key"]:
        through = row["size"] == "throughput"
        usual = pto_power.rotary_power(
            row["rotary_key"], 0.0 if through else size, size if through else 0.0
        )
        spread = pto_power.rotary_spread(row["rotary_key"]) or 0.0
        found = tables.by_key("rotary_power", "key")[row["rotary_key"]]
        cited += [found["source"], found["also"]]
        label = found["label"]
        rows.append(
            (f"ASAE D497: {label.lower()}, shaft power without reserve",
             (usual * (1 - spread), "power"), (usual, "power"), (usual * (1 + spread), "power"))
        )  # fmt: skip
    note = row["note"] or "The figures differ because they count different things; see the page."
    return ws.Table(
        "What each source gives for this implement", ("Figures", "Light", "Typical", "Heavy"),
        tuple(rows), "; ".join(dict.fromkeys(item for item in cited if item)), note,
    )  # fmt: skip


def _altitude_table(v: ws.Inputs) -> ws.Table:
    rows: list[tuple[ws.Cell, ...]] = []
    for rule in tables.rows("altitude_rules"):
        if rule["key"] != "none":
            mark = " (used here)" if rule["key"] == v.altitude_rule else ""
            share = pto_power.altitude_factor(v.altitude, rule["key"])
            left = _left(v, rule["key"])
            rows.append((rule["label"] + mark, (share, "fraction"), (left, "power")))
    return ws.Table(
        "What the altitude rules leave here", ("Rule", "Share of the power", "Left for the shaft"),
        tuple(rows), "power/S27; power/S28; power/S29; power/S30",
    )  # fmt: skip


def _notes(v: ws.Inputs, row: dict[str, str]) -> list[ws.Words]:
    notes: list[ws.Words] = []
    if v.pto_engine_rpm is not None and v.rated_rpm is not None:
        speed = float(v.tractor_shaft.split("-")[1])
        turns = quantities.number(pto.engine_speed_ratio(v.pto_engine_rpm, speed), 3)
        at_rated = quantities.number(v.rated_rpm / (v.pto_engine_rpm / speed), 3)
        notes.append(
            f"The engine turns {turns} times for each turn of the shaft; at its rated speed the "
            f"shaft would turn {at_rated} rpm. A PTO power measured there isn't what you have at "
            f"{speed:.0f} rpm."
        )
    if v.pto_power is None:
        shown = []
        for key in ("gross", "unstated", "net"):
            entry = tables.by_key("engine_to_pto", "key")[key]
            ratio = pto_power.pto_ratio(key)[1]
            shown.append((entry["label"].split(":")[0].lower(), v.engine_power * ratio))
        said = "; ".join(f"{label} gives {{n{i}}}" for i, (label, _) in enumerate(shown))
        notes.append(
            ws.Phrase(
                f"From the engine power, before the pump: {said}.",
                {f"n{i}": (value, "power") for i, (_, value) in enumerate(shown)},
            )
        )
    if v.power_needed is None and not _uses_shaft_figures(v) and row["size"] == "width":
        measured = pto_power.density("rotary_cutter_measured", "heavy") / pto_power.density(
            "rotary_cutter_measured"
        )
        notes.append(
            "These are figures for choosing a tractor: they hold a reserve and the driving on the "
            "level already, so only the climb is taken off. Thick patches still ask for more: one "
            f"measured cutter peaked at {quantities.number(measured, 2)} times its mean."
        )
    if "mower" in v.implement_kind or "cutter" in v.implement_kind:
        low, high = pto_power.saving_at_half_speed(v.ground_speed)
        saved = quantities.show_range(low, high, "fraction", figures=2)
        notes.append(
            f"Half the ground speed saves about {saved} of a mower's power, not half: the blades "
            "turn either way. That is a textbook form for disk mowers (from memory, text not seen)."
        )
    if row["size"] == "rating":
        shaft = pto_power.generator_shaft_power(v.generator_rating)
        notes.append(
            ws.phrase("Carrying the rated load alone takes {p} at the shaft, with an alternator of "
                      "85 %; the rest of the rule starts motors.", p=(shaft, "power"))
        )  # fmt: skip
    return notes


# --- picture -----------------------------------------------------------------------------------


def picture(v: ws.Inputs, outcome: ws.Outcome) -> Sequence[Picture]:
    """Draw demand against size with the power that is left, or bars where size doesn't matter."""
    row = _row(v)
    if row is None:
        return []
    if v.power_needed is not None or row["size"] == "total":
        return [_bars(v, row, outcome)]
    return [_chart(v, row, outcome)]


def _ends(outcome: ws.Outcome, name: str) -> tuple[float, float]:
    """The range of an output, equal where it is exact."""
    found = next(item for item in outcome.outputs if item.name == name)
    low = found.value if found.low is None else found.low
    high = found.value if found.high is None else found.high
    return low, high


def _chart(v: ws.Inputs, row: dict[str, str], outcome: ws.Outcome) -> Chart:
    size = _size(v)
    steps = [size * (0.5 + 0.1 * i) for i in range(11)]
    low, high = _ends(outcome, "left")
    ends = [steps[0], steps[-1]]
    series: list[Series] = []
    if row["size"] == "rating":
        rule = [pto_power.generator_engine_power(w) for w in steps]
        series = [
            Series("rated load at the shaft", steps, [_need(v, v.material, w) for w in steps]),
            Series("engine power that starts motors", steps, rule, "soft dashed"),
        ]
    else:
        series = _load_series(v, steps)
    if row["rotary_key"] and not _uses_shaft_figures(v):
        d497 = [pto_power.needed(v.implement_kind, w, v.material, "d497", v.reserve) for w in steps]
        series.append(Series("ASAE D497 with the reserve", steps, d497, "soft dashed"))
    if high > low:
        series.append(Series("power left, its range", ends, [low, low], "warn", [high, high]))
    series.append(
        Series("power left at the shaft", ends, [outcome.output("left")] * 2, "bad dashed")
    )
    unit = SIZE_UNITS.get(row["size"], "")
    labels = {
        "width": "Working width", "opening": "Rated opening", "throughput": "Throughput",
        "rating": "Rated output",
    }  # fmt: skip
    kind = SIZE_KINDS[row["size"]]
    shown: Any = (size, kind, unit) if unit else (size, kind)
    return Chart(
        "Power asked for against size",
        ws.phrase(
            "At {size} it asks for {need}; {left} is left at the shaft.",
            size=shown, need=(outcome.output("need"), "power"),
            left=(outcome.output("left"), "power"),
        ),
        labels[row["size"]], kind, "Power", "power", series,
        [Mark("this implement", size, outcome.output("need"))], x_unit_us=unit, x_unit_metric=unit,
    )  # fmt: skip


def _load_series(v: ws.Inputs, steps: list[float]) -> list[Series]:
    return [
        Series("light to heavy work", steps, [_need(v, "light", w) for w in steps], "accent",
               [_need(v, "heavy", w) for w in steps]),
        Series("this material", steps, [_need(v, v.material, w) for w in steps], "ink"),
    ]  # fmt: skip


def _bars(v: ws.Inputs, row: dict[str, str], outcome: ws.Outcome) -> Bars:
    need_low, need_high = _ends(outcome, "need")
    left_low, left_high = _ends(outcome, "left")
    bars = []
    if v.power_needed is None:
        bars += [
            Bar(f"asked for in {load} work", _need(v, load), style="accent" if load == v.material
                else "fill")
            for load in pto_power.LOADS
        ]  # fmt: skip
    else:
        shown = quantities.show_range(need_low, need_high, "power")
        bars.append(Bar("asked for by its maker", need_high, style="accent", text=shown))
    bars.append(Bar("left at the shaft", left_high, style="good"))
    if left_low < left_high:
        bars.append(Bar("left at the shaft, at the least", left_low, style="warn"))
    return Bars(
        "Power asked for and power left",
        ws.phrase("It asks for {need}; {left} is left at the shaft.",
                  need=(outcome.output("need"), "power"), left=(outcome.output("left"), "power")),
        "power", bars,
    )  # fmt: skip


def review(known: Mapping[str, Any]) -> dict[str, str]:
    """Refuse a chipper without its opening, and engine speeds the wrong way round."""
    errors = {}
    width = known.get("working_width")
    if known.get("implement_kind") == "chipper" and width is not None and width.high > 0.3:
        errors["working_width"] = (
            "For a chipper, type the opening that a log goes into, such as 4 in."
        )
    rated, working = known.get("rated_rpm"), known.get("pto_engine_rpm")
    if rated is not None and working is not None and working.low > 1.1 * rated.high:
        errors["pto_engine_rpm"] = (
            "The engine can't turn the PTO at more than its rated speed: look at the two again."
        )
    return errors


WORKSHEET = ws.Worksheet(
    name="pto",
    title="PTO power",
    question="Does this tractor have the power for this implement?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    review=review,
    page="buy/pto-power",
    example="a light compact sold as 25 hp and a 60 in rotary cutter in light growth.",
)
