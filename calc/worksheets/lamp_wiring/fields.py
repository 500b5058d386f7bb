"""What is asked."""

from __future__ import annotations

from calc import model, tables

LAMPS = tables.by_key("road/lamp_loads", "lamp")
CHARGING = tables.by_key("road/charging_outputs", "kind")
FUSES = tuple(float(row["amps"]) for row in tables.rows("road/fuse_sizes"))
GAUGES = tuple(row["gauge"] for row in tables.rows("road/wire_sizes"))
OUTPUTS_SOLD = (20.0, 35.0, 40.0, 50.0, 60.0, 75.0, 95.0, 120.0)  # A
USUAL, OF = "road/SIZE-practice", "compact tractors"

_LED = ("led-10", "led-18", "led-work", "led-36", "led-48", "led-72", "led-120")
_HALOGEN = ("halogen-55", "halogen-35", "halogen-45", "halogen-60", "halogen-65", "halogen-100")


def _lamp(name: str, lamps: tuple[str, ...], unsure: tuple[str, ...]) -> model.Choice:
    options = tuple(model.Option(key, LAMPS[key]["name"]) for key in lamps)
    return model.Choice(name, options, example=lamps[0], unsure=unsure, group="Lamps")


def _count(
    name: str,
    example: str,
    usual: tuple[float, float],
    *,
    essential: bool = False,
    high: str = "12",
) -> model.Field:
    typical = model.Typical(*usual, USUAL, OF)
    return model.Field(
        name,
        "count",
        "0",
        high,
        example=example,
        essential=essential,
        group="Lamps",
        typical=typical,
    )


def _usual_output(known: model.KnownSoFar) -> model.Typical:
    kind = known.get("charging")
    rows = [CHARGING[kind]] if kind else list(CHARGING.values())
    low = min(float(row["low_amps"]) for row in rows)
    high = max(float(row["high_amps"]) for row in rows)
    of = rows[0]["name"].lower() if kind else "dynamos and alternators"
    return model.Typical(low, high, rows[0]["source"], of)


CIRCUITS = {
    "work": "Work lamps",
    "head": "Head lamps",
    "tail": "Tail lamps",
    "flash": "Flashing lamps",
}


def _lamps_told(given: model.KnownSoFar) -> str:
    """The circuit of the only lamps that somebody speaks of, if the kind or count is of one."""
    named = [
        key
        for key in CIRCUITS
        if any(given.get(f"{key}_{what}") is not None for what in ("count", "lamp"))
    ]
    return named[0] if len(named) == 1 else ""


def _usual_drop(known: model.KnownSoFar) -> model.Typical:
    """Lamps that keep people safe may lose less than work lamps."""
    circuit = known.get("circuit") or _lamps_told(known) or "work"
    share = 0.10 if circuit == "work" else 0.03
    return model.Typical(share, share, "road/DROP-practice", "this circuit")


FIELDS = (
    model.Choice(
        "charging",
        tuple(model.Option(key, row["name"]) for key, row in CHARGING.items()),
        example="dynamo",
        essential=True,
        group="Charging",
    ),
    model.Field(
        "output",
        "current",
        "5 A",
        "250 A",
        example="20 A",
        essential=True,
        group="Charging",
        typical=_usual_output,
    ),
    _count("head_count", "2", (2.0, 2.0), essential=True),
    _lamp("head_lamp", (*_HALOGEN, *_LED), ("halogen-55", "halogen-35", "led-work")),
    _count("tail_count", "2", (2.0, 2.0)),
    _lamp("tail_lamp", ("tail-8", "tail-5", "tail-10", "led-tail"), ("tail-8", "led-tail")),
    _count("flash_count", "4", (2.0, 4.0), essential=True),
    _lamp(
        "flash_lamp", ("signal-21", "signal-27", "led-turn"), ("signal-21", "signal-27", "led-turn")
    ),
    _count("beacon_count", "0", (0.0, 1.0), high="4"),
    _count("work_count", "2", (0.0, 4.0), essential=True),
    _lamp("work_lamp", (*_HALOGEN, *_LED), ("halogen-55", "halogen-35", "led-work")),
    model.Choice(
        "flasher",
        (
            model.Option("filament", "Thermal or lamp-out: made for filament lamps"),
            model.Option("electronic", "Electronic, works without load"),
        ),
        example="filament",
        group="Lamps",
    ),
    model.Field(
        "other_current",
        "current",
        "0 A",
        "100 A",
        example="3 A",
        group="Charging",
        typical=model.Typical(2.0, 8.0, "road/WORK-practice", "diesel tractors"),
    ),
    model.Choice(
        "circuit",
        tuple(model.Option(key, label) for key, label in CIRCUITS.items()),
        example="head",
        essential=True,
        group="Wire",
        usual="work",
        told=_lamps_told,
    ),
    model.Field(
        "run",
        "length",
        "1 ft",
        "80 ft",
        example="15 ft",
        essential=True,
        group="Wire",
        unit_us="ft",
        unit_metric="m",
        typical=model.Typical(2.0, 6.0, USUAL, OF),
    ),
    model.Choice(
        "gauge",
        tuple(model.Option(gauge, f"{gauge} gauge") for gauge in GAUGES),
        example="16",
        unsure=GAUGES,
        essential=True,
        group="Wire",
    ),
    model.Field("fuse", "current", "1 A", "60 A", optional=True, essential=True, group="Wire"),
    model.Choice(
        "wire_standard",
        (
            model.Option("SAE", "Automotive (SAE)"),
            model.Option("AWG", "Building, marine or trailer wire (AWG)"),
        ),
        example="SAE",
        group="Wire",
        usual="SAE",
    ),
    model.Choice(
        "bundle",
        (
            model.Option("harness", "In a harness with other loaded wires"),
            model.Option("alone", "No more than three loaded wires together"),
        ),
        example="harness",
        group="Wire",
        usual="harness",
    ),
    model.Choice(
        "way_back",
        (
            model.Option("wire", "A ground wire of the same size"),
            model.Option("frame", "Through the frame"),
        ),
        example="wire",
        group="Wire",
        usual="wire",
    ),
    model.Field(
        "drop_allowed",
        "fraction",
        "0.5 %",
        "15 %",
        example="3 %",
        group="Wire",
        typical=_usual_drop,
    ),
    model.Field("wire_temperature", "temperature", "-40 F", "220 F", optional=True, group="Wire"),
    model.Field(
        "battery",
        "count",
        "10",
        "400",
        example="60",
        group="Charging",
        typical=model.Typical(40.0, 90.0, USUAL, OF),
    ),
)

OUTPUTS = (
    model.Shown("need_gauge", "count"),
    model.Shown("need_fuse", "current"),
    model.Shown("largest", "current"),
    model.Shown("fuse_gauge", "count", hidden=True),
    model.Shown("circuit_current", "current"),
    model.Shown("road_load", "current"),
    model.Shown("field_load", "current"),
    model.Shown("spare", "current"),
    model.Shown("at_idle", "current"),
    model.Shown("drop", "voltage"),
    model.Shown("longest", "length", "ft", "m"),
    model.Shown("light", "fraction"),
    model.Shown("hours", "duration"),
    model.Shown("loop", "length", "ft", "m", hidden=True),
    model.Shown("allowed", "voltage", hidden=True),
    model.Shown("carried", "current", hidden=True),
    model.Shown("biggest", "current", hidden=True),
    *(model.Shown(f"{kind}_average", "current", hidden=True) for kind in ("head", "tail")),
    *(model.Shown(f"{kind}_average", "current", hidden=True) for kind in ("flash", "beacon")),
)
