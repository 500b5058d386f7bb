"""What is asked."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from calc import model, tables
from calc.machines import vocabulary
from calc.machines.vocabulary import field
from calc.mechanics import pto_power, typical
from calc.model import KnownSoFar, Typical

NOT_TURBO = "An engine without a turbocharger loses power with height; the rules disagree on "
SHAFTS = (
    model.Option("1-540", "6 splines, 1-3/8 in, 540 rpm"),
    model.Option("1-1000", "6 splines, 1-3/8 in, 1000 rpm"),
    model.Option("2-1000", "21 splines, 1-3/8 in, 1000 rpm"),
    model.Option("3-1000", "20 splines, 1-3/4 in, 1000 rpm"),
    model.Option("4-1300", "22 splines, 2-1/4 in, 1300 rpm"),
)


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
    return Typical(low, high, row["source"], row["label"][0].lower() + row["label"][1:])


def _drag_typical(known: KnownSoFar) -> Any:
    """What a hydrostatic pump takes at rest; a figure rated at the PTO has it in already."""
    if known.get("pto_power") is not None or known.get("engine_power") is None:
        return None
    drive = known.get("transmission") or "hydrostatic"
    if drive == "gear":
        return None
    row = tables.by_key("power/pto_drag", "key")[drive]
    return Typical(*pto_power.pump_drag(drive), row["source"], "the pump of a compact at neutral")


def _speed_typical(known: KnownSoFar) -> Any:
    """What is lost when the engine turns the PTO at its speed below its own rated speed."""
    rated, working = known.get("rated_rpm"), known.get("pto_engine_rpm")
    if rated is None or working is None or working.middle >= 0.97 * rated.middle:
        return None
    row = tables.by_key("power/pto_speed_loss", "key")["below_rated"]
    return Typical(*pto_power.speed_loss(), row["source"], row["label"].lower())


def _width_typical(known: KnownSoFar) -> Any:
    """The usual width, or opening of a chipper, where the power goes with it."""
    row = pto_power.kind_row(known.get("implement_kind") or "")
    if row is None or row["size"] not in ("width", "opening"):
        return None
    found = field("working_width")
    assert isinstance(found, model.Field)
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
    assert isinstance(found, model.Field)
    return found.typical_for(known)


def _implement_kind() -> model.Choice:
    """The vocabulary's kinds, and those that only matter for their power."""
    base = vocabulary.implement_kind()
    have = {option.value for option in base.options}
    more = [
        model.Option(row["kind"], row["label"])
        for row in tables.rows("power/pto_kinds")
        if row["kind"] not in have
    ]
    found = field("implement_kind", options=(*base.options, *more))
    assert isinstance(found, model.Choice)
    return found


def _rows_as_options(table: str) -> tuple[model.Option, ...]:
    return tuple(model.Option(row["key"], row["label"]) for row in tables.rows(table))


FIELDS = (
    field("tractor_kind", default="compact_light"),
    field(
        "pto_power",
        default="",
        typical=_pto_typical,
        help="In the specification as “PTO power”. Left blank, it is worked out from the engine "
        "power.",
    ),
    field("engine_power", default="25 hp", essential=True),
    _implement_kind(),
    field("working_width", default="60 in", typical=_width_typical),
    field("material", default="light"),
    model.Choice(
        "engine_rating",
        "The engine power is",
        _rows_as_options("power/engine_to_pto"),
        "Brochures print gross or net flywheel power and seldom say which. Only used when the PTO "
        "power is blank.",
        default="unstated",
        group="Tractor",
    ),
    model.Field(
        "pto_share",
        "Share of the engine power at the PTO",
        "fraction",
        "50 %",
        "100 %",
        "Better still, find the PTO power itself in the specification or on a test sheet and type "
        "it above.",
        typical=_ratio_typical,
        group="Tractor",
    ),
    field("transmission"),
    model.Field(
        "pump_drag",
        "What the hydrostatic pump takes at rest",
        "power",
        "0 hp",
        "10 hp",
        "Seldom printed; leave it blank.",
        typical=_drag_typical,
        group="Tractor",
    ),
    model.Field(
        "rated_rpm",
        "Rated engine speed",
        "rotation",
        "1000 rpm",
        "4500 rpm",
        "The speed at which the power is rated, beside it in the specification.",
        optional=True,
        group="Tractor",
    ),
    model.Field(
        "pto_engine_rpm",
        "Engine speed at the PTO's speed",
        "rotation",
        "800 rpm",
        "4500 rpm",
        "The mark on the tachometer for 540 or 1000.",
        optional=True,
        group="Tractor",
    ),
    model.Field(
        "speed_loss",
        "Share lost by running at that engine speed",
        "fraction",
        "0 %",
        "40 %",
        "Only if a test sheet gives power at both speeds; leave it blank.",
        typical=_speed_typical,
        group="Tractor",
    ),
    field("tractor_mass", essential=False, default="1,650 lb"),
    model.Choice(
        "tractor_shaft",
        "PTO shaft of the tractor",
        SHAFTS,
        "Count the splines on the end of the shaft; the speed is on the PTO lever or the decal.",
        default="1-540",
        group="Tractor",
    ),
    field("implement_mass", essential=False, typical=_mass_typical, default="500 lb"),
    model.Field(
        "throughput",
        "Crop passing through",
        "throughput",
        "0.2 t/h",
        "200 t/h",
        "Bales an hour times their weight, or loads an hour.",
        default="6 t/h",
        typical=_size_typical("throughput", 3 / 3.6, 8 / 3.6, "small hay tools"),
        group="Implement",
        unit_us="ton/h",
    ),
    model.Field(
        "generator_rating",
        "Rated output of the generator",
        "power",
        "1 kW",
        "150 kW",
        "On its plate, as running or continuous output, not the surge figure.",
        default="10 kW",
        typical=_size_typical("rating", 5e3, 15e3, "generators for compacts"),
        group="Implement",
        unit_us="kW",
        unit_metric="kW",
    ),
    model.Choice(
        "figures",
        "Figures for its demand",
        (
            model.Option("practice", "Trade custom: tractor power for each foot"),
            model.Option("d497", "ASAE D497: power at the shaft"),
        ),
        "Where a kind of implement has one of them alone, that one is used.",
        default="practice",
        group="Implement",
    ),
    model.Field(
        "reserve",
        "Reserve on top of power at the shaft",
        "fraction",
        "0 %",
        "100 %",
        "With ASAE D497 or the maker's figure for the shaft. Trade custom has it in already.",
        default="20 %",
        typical=Typical(
            pto_power.RESERVE_LOW, pto_power.RESERVE_HIGH, "power/PRACTICE", "the trade"
        ),
        group="Implement",
    ),
    field("power_needed"),
    field("power_limit"),
    model.Field(
        "gearbox_ratio",
        "Rotor turns for one turn of the shaft",
        "count",
        "0.1",
        "6",
        "On the gearbox plate, or turn the shaft once by hand, engine off, and count the rotor.",
        optional=True,
        group="Implement",
    ),
    model.Field(
        "blade_circle",
        "Circle that the blade tips draw",
        "length",
        "6 in",
        "120 in",
        "From one tip across to the other, blades out.",
        optional=True,
        group="Implement",
    ),
    model.Choice(
        "implement_shaft",
        "Input shaft of the implement",
        SHAFTS,
        "Count the grooves in the yoke; the speed is on the gearbox or the decal.",
        default="1-540",
        group="Implement",
    ),
    field("slope"),
    field("ground_speed"),
    model.Choice(
        "surface",
        "Ground",
        tuple(
            model.Option(row["surface"], row["name"])
            for row in tables.rows("power/rolling_resistance")
        ),
        "Rolling takes power as well. Trade custom has rolling on the level in it already.",
        default="turf",
        group="Job",
    ),
    field("altitude"),
    model.Choice(
        "altitude_rule",
        "Loss with altitude",
        _rows_as_options("power/altitude_rules"),
        NOT_TURBO + "where the loss begins.",
        default="na_500",
        group="Job",
    ),
    model.Field(
        "air_temperature",
        "Air temperature",
        "temperature",
        "-40 F",
        "130 F",
        "In the shade, at the hottest hour that you work in.",
        default="75 F",
        typical=Typical(283.15, 308.15, "power/PRACTICE", "the mowing season"),
        group="Job",
    ),
    model.Choice(
        "heat_rule",
        "Loss with heat",
        _rows_as_options("power/temperature_rules"),
        "Hot air is thin air.",
        default="diesel",
        group="Job",
    ),
)


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
