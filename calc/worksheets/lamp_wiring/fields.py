"""What is asked."""

from __future__ import annotations

from calc import model, tables

_LAMPS = tables.by_key("road/lamp_loads", "lamp")
_OUTPUTS = tables.by_key("road/charging_outputs", "kind")


def _lamp(name: str, label: str, lamps: tuple[str, ...], group: str = "Lamps") -> model.Choice:
    return model.Choice(
        name,
        tuple(model.Option(key, _LAMPS[key]["name"]) for key in lamps),
        label=label,
        help="The bulb's base or the lamp's plate says its watts.",
        example=lamps[0],
        unsure=lamps,
        group=group,
    )


def _count(
    name: str, label: str, default: str, help: str, *, high: str = "12", essential: bool = False
) -> model.Field:
    return model.Field(
        name,
        "count",
        "0",
        high,
        label=label,
        help=help,
        example=default,
        essential=essential,
        group="Lamps",
        typical=model.Typical(0.0, 4.0, "road/SIZE-practice", "compact tractors"),
    )


def _usual_output(known: model.KnownSoFar) -> model.Typical:
    row = _OUTPUTS.get(known.get("charging") or "dynamo", _OUTPUTS["dynamo"])
    return model.Typical(
        float(row["low_amps"]), float(row["high_amps"]), row["source"], row["name"].lower()
    )


FIELDS = (
    model.Choice(
        "charging",
        tuple(model.Option(key, row["name"]) for key, row in _OUTPUTS.items()),
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
    _count("head_count", "Head lamps", "2", "Lit on the road.", essential=True),
    _lamp("head_lamp", "Kind of head lamp", ("halogen-55", "halogen-60", "led-work")),
    _count("tail_count", "Tail lamps", "2", "Lit on the road in the dark."),
    _lamp("tail_lamp", "Kind of tail lamp", ("tail-8", "tail-5", "led-tail")),
    _count(
        "flash_count", "Flashing lamps", "4", "Amber lamps that flash together.", essential=True
    ),
    _lamp("flash_lamp", "Kind of flashing lamp", ("signal-21", "signal-27", "led-turn")),
    _count("beacon_count", "Beacons", "0", "LED beacons.", high="4"),
    _count(
        "work_count",
        "Work lamps",
        "2",
        "For the field. They must be off on the road.",
        essential=True,
    ),
    _lamp("work_lamp", "Kind of work lamp", ("halogen-55", "halogen-60", "led-work")),
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
        (
            model.Option("work", "Work lamps"),
            model.Option("head", "Head lamps"),
            model.Option("tail", "Tail lamps"),
            model.Option("flash", "Flashing lamps"),
        ),
        example="head",
        essential=True,
        group="Wire",
        usual="head",
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
        typical=model.Typical(2.0, 6.0, "road/SIZE-practice", "compact tractors"),
    ),
    model.Choice(
        "gauge",
        tuple(
            model.Option(row["gauge"], f"{row['gauge']} gauge")
            for row in tables.rows("road/wire_sizes")
        ),
        example="16",
        unsure=("18", "16", "14"),
        essential=True,
        group="Wire",
    ),
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
        typical=model.Typical(0.03, 0.10, "road/DROP-practice", "12 V circuits"),
    ),
    model.Field("fuse", "current", "1 A", "60 A", optional=True, group="Wire"),
    model.Field(
        "battery",
        "count",
        "10",
        "400",
        example="60",
        group="Charging",
        typical=model.Typical(40.0, 90.0, "road/SIZE-practice", "compact tractors"),
    ),
)
