"""What is asked."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from calc import model, si, tables
from calc.machines import implement_fields, reviews, usual
from calc.machines.vocabulary import field
from calc.mechanics import implement_power, pto_power, typical
from calc.model import KnownSoFar, Typical
from calc.subjects import standing
from calc.subjects.shaft_power import MID_SHAFT, SHAFTS, UNSEEN

SHAFTS_OR_UNSEEN = (*SHAFTS, MID_SHAFT, UNSEEN)
TRAILED = {
    "small_square_baler": (1100.0, 1600.0),
    "round_baler": (650.0, 2700.0),
    "round_baler_fixed": (650.0, 2700.0),
    "manure_spreader": (1500.0, 6000.0),
    "disk_conditioner": (1300.0, 2200.0),
    "feed_mixer": (1500.0, 6000.0),
}
"""Masses of machines on their own wheels, spreaders and mixers loaded [kg]."""
HAY_ON_HITCH = ("disk_mower", "cutterbar_mower", "tedder", "rotary_rake")
THROUGHPUTS = {"manure_spreader": (20 / 3.6, 60 / 3.6), "feed_mixer": (5 / 3.6, 20 / 3.6)}
"""What passes through [kg/s]: a spreader unloads at tens of tonnes an hour."""
NAMED_NONE = "other"
ON_SOD = (
    "disk_mower",
    "cutterbar_mower",
    "disk_conditioner",
    "tedder",
    "rotary_rake",
    "small_square_baler",
    "round_baler",
    "round_baler_fixed",
)
"""What makes hay, and so rolls on sod while it works; common practice, no source."""


LEAST_HYDROSTATIC, LEAST_UTILITY, UTILITY = 0.75, usual.OF_ENGINE[0], 50 * si.HP
"""The least share of an engine's rating that makers' brochures give at the PTO: of compacts with a
hydrostatic drive, and of utility tractors from this power on (hitch/B1) [-, W]."""


# --- what stands in for what isn't known -------------------------------------------------------


def _pto_typical(known: KnownSoFar) -> Any:
    """The usual PTO power of the class, unless an engine power is there to work it out from."""
    if known.get("engine_power") is not None:
        return None
    found = field("pto_power")
    assert isinstance(found, model.Field)
    return found.typical_for(known)


def _ratio_typical(known: KnownSoFar) -> Any:
    """The share of the engine rating that reaches the shaft, when the PTO power isn't known."""
    if known.get("pto_power") is not None or known.get("engine_power") is None:
        return None
    row = tables.by_key("power/engine_to_pto", "key")[known.get("engine_rating") or "unstated"]
    low, _, high = pto_power.pto_ratio(row["key"])
    source = row["source"]
    engine = known["engine_power"].high
    drive = known.get("transmission") or "hydrostatic"
    if row["key"] == pto_power.DEFAULT_RATIO and (drive != "gear" or engine >= UTILITY):
        low, source = min(low, _least_ratio(engine, drive)), f"{source}; hitch/B1"
    return Typical(low, high, source, row["label"][0].lower() + row["label"][1:])


def _least_ratio(engine: float, drive: str) -> float:
    """The least share of engine power [W] in makers' own pairs, before the pump's drag. [-]"""
    least = LEAST_UTILITY if engine >= UTILITY else LEAST_HYDROSTATIC
    return least + pto_power.pump_drag(drive)[1] / engine


def _drag_typical(known: KnownSoFar) -> Any:
    """What a hydrostatic pump takes at rest; a figure rated at the PTO has it in already."""
    if known.get("pto_power") is not None or known.get("engine_power") is None:
        return None
    drive = known.get("transmission")
    if drive == "gear":
        return None
    row = tables.by_key("power/pto_drag", "key")["hydrostatic"]
    least, most = pto_power.pump_drag("hydrostatic")
    least = least if drive else 0.0  # a gear drive has no such pump
    return Typical(least, most, row["source"], "the pump of a compact at neutral")


def _under_hay(given: Mapping[str, Any]) -> str:
    """The ground that hay is made on: sod, where nobody said another."""
    return "turf" if given.get("implement_kind") in ON_SOD else ""


def _speed_typical(known: KnownSoFar) -> Any:
    """What is lost when the engine turns the PTO at its speed below its own rated speed."""
    rated, working = known.get("rated_rpm"), known.get("pto_engine_rpm")
    if rated is None or working is None:
        return None
    least = pto_power.speed_loss(working.high / rated.low)
    most = pto_power.speed_loss(working.low / rated.high)
    if not most[1]:
        return None
    of = "the shape of a diesel's torque curve"
    return Typical(least[0], most[1], "power/TORQUE-memory; power/S26", of)


def _width_typical(known: KnownSoFar) -> Any:
    """The usual width, or opening of a chipper, where the power goes with it."""
    row = implement_power.kind_row(known.get("implement_kind") or "")
    if row is None or row["size"] not in ("width", "opening"):
        return None
    found = field("working_width")
    assert isinstance(found, model.Field)
    return found.typical_for(known)


def _size_typical(size: str, low: float, high: float, of: str) -> Any:
    def find(known: KnownSoFar) -> Any:
        kind = known.get("implement_kind") or ""
        row = implement_power.kind_row(kind)
        if row is None or row["size"] != size:
            return None
        ends = THROUGHPUTS.get(kind, (low, high))
        return Typical(*ends, "power/PRACTICE", of)

    return find


def _mass_typical(known: KnownSoFar) -> Any:
    """The usual mass of the kind, where the tables of implements have it."""
    kind = known.get("implement_kind") or NAMED_NONE
    if kind in TRAILED:
        return Typical(*TRAILED[kind], "power/CLASS-memory", "machines on their own wheels")
    if kind in HAY_ON_HITCH:
        return Typical(150.0, 800.0, "power/PRACTICE", "hay tools that a hitch carries")
    if kind not in dict(typical.implement_kinds()):
        return Typical(200.0, 1500.0, "power/PRACTICE", "generators and the like")
    found = field("implement_mass")
    assert isinstance(found, model.Field)
    return found.typical_for(known)


def _implement_kind() -> model.Choice:
    """The vocabulary's kinds, and those that only matter for their power."""
    base = implement_fields.implement_kind()
    have = {option.value for option in base.options}
    more = [
        model.Option(row["kind"], row["label"])
        for row in tables.rows("power/pto_kinds")
        if row["kind"] not in have
    ]
    told_by = (("generator_rating", "generator"), ("auger_diameter", "post_hole_digger"))
    found = field(
        "implement_kind", options=(*base.options, *more), usual=NAMED_NONE, told_by=told_by
    )
    assert isinstance(found, model.Choice)
    return found


def _rows_as_options(table: str) -> tuple[model.Option, ...]:
    return tuple(model.Option(row["key"], row["label"]) for row in tables.rows(table))


FIELDS = (
    field("tractor_kind", example="compact_light"),
    field("pto_power", example="", typical=_pto_typical),
    field("engine_power", example="25 hp", essential=True),
    _implement_kind(),
    field("working_width", example="60 in", typical=_width_typical),
    field("auger_diameter"),
    field("material", example="light"),
    model.Choice(
        "engine_rating",
        _rows_as_options("power/engine_to_pto"),
        example="unstated",
        group="Tractor",
        usual="unstated",
    ),
    model.Field("pto_share", "fraction", "50 %", "100 %", typical=_ratio_typical, group="Tractor"),
    field("transmission"),
    model.Field("pump_drag", "power", "0 hp", "10 hp", typical=_drag_typical, group="Tractor"),
    model.Field("rated_rpm", "rotation", "1000 rpm", "4500 rpm", optional=True, group="Tractor"),
    model.Field(
        "pto_engine_rpm", "rotation", "800 rpm", "4500 rpm", optional=True, group="Tractor"
    ),
    model.Field("speed_loss", "fraction", "0 %", "40 %", typical=_speed_typical, group="Tractor"),
    field("tractor_mass", essential=False, example="1,650 lb"),
    *(field(name, essential=False) for name in standing.MASS_FIELDS if name != "rear_tire"),
    field("rear_tire"),
    model.Choice(
        "tractor_shaft", SHAFTS_OR_UNSEEN, example="1-540", usual="unseen", group="Tractor"
    ),
    field("mid_pto"),
    field("breathing"),
    field("implement_mass", essential=False, typical=_mass_typical, example="500 lb"),
    field("load_carried"),
    model.Field(
        "throughput",
        "throughput",
        "0.2 t/h",
        "200 t/h",
        example="6 t/h",
        typical=_size_typical("throughput", 3 / 3.6, 8 / 3.6, "small hay tools"),
        group="Implement",
        unit_us="ton/h",
    ),
    model.Field(
        "generator_rating",
        "power",
        "1 kW",
        "150 kW",
        example="10 kW",
        typical=_size_typical("rating", 5e3, 15e3, "generators for compacts"),
        group="Implement",
        unit_us="kW",
        unit_metric="kW",
    ),
    model.Choice(
        "figures",
        (
            model.Option("practice", "Trade custom: tractor power for each foot"),
            model.Option("d497", "ASAE D497: power at the shaft"),
        ),
        example="practice",
        group="Implement",
        usual="practice",
    ),
    model.Field(
        "reserve",
        "fraction",
        "0 %",
        "100 %",
        example="20 %",
        typical=Typical(
            pto_power.RESERVE_LOW, pto_power.RESERVE_HIGH, "power/PRACTICE", "the trade"
        ),
        group="Implement",
    ),
    field("power_needed"),
    field("power_limit"),
    model.Field("gearbox_ratio", "count", "0.1", "6", optional=True, group="Implement"),
    model.Field("blade_circle", "length", "6 in", "120 in", optional=True, group="Implement"),
    model.Choice(
        "implement_shaft", SHAFTS_OR_UNSEEN, example="1-540", usual="unseen", group="Implement"
    ),
    field("slope", typical=None, optional=True),
    field("ground_speed"),
    model.Choice(
        "surface",
        tuple(
            model.Option(row["surface"], row["name"])
            for row in tables.rows("power/rolling_resistance")
        ),
        example="turf",
        told=_under_hay,
        group="Job",
    ),
    field("altitude"),
    model.Choice(
        "altitude_rule",
        _rows_as_options("power/altitude_rules"),
        example="na_500",
        group="Job",
        usual="na_500",
    ),
    model.Field(
        "air_temperature",
        "temperature",
        "-40 F",
        "130 F",
        example="75 F",
        optional=True,
        group="Job",
    ),
    model.Choice(
        "heat_rule",
        _rows_as_options("power/temperature_rules"),
        example="diesel",
        group="Job",
        usual="diesel",
    ),
)


OUTPUTS = (
    model.Shown("rated", "power"),
    model.Shown("left", "power"),
    model.Shown("walking", "power", hidden=True),
    model.Shown("standing", "mass", hidden=True),
    model.Shown("need_low", "power"),
    model.Shown("need", "power"),
    model.Shown("through", "power", hidden=True),
    model.Shown("start", "power"),
    model.Shown("torque", "torque"),
    model.Shown("rotor", "rotation"),
    model.Shown("tips", "speed"),
    model.Shown("widest", "length"),
    model.Shown("widest_most", "length"),
    model.Shown("sold", "length"),
    model.Shown("sold_most", "length"),
    model.Shown("narrowest", "length", hidden=True),
    model.Shown("look_low", "power", hidden=True),
    model.Shown("look", "power", hidden=True),
    model.Shown("lost", "fraction", hidden=True),
    model.Shown("here", "power", hidden=True),
    model.Shown("full", "power", hidden=True),
    model.Shown("travel", "power", hidden=True),
    model.Shown("height_share", "fraction", hidden=True),
    model.Shown("heat_share", "fraction", hidden=True),
    model.Shown("baler_mass", "mass", hidden=True),
    model.Shown("generator_most", "power", "kW", "kW", hidden=True),
)


def review(known: Mapping[str, Any]) -> dict[str, str]:
    """Refuse figures of a tractor that contradict, a chipper without its opening, and the like."""
    errors = reviews.review(known)
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
