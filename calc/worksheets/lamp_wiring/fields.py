"""What is asked."""

from __future__ import annotations

from calc import model, tables

_LAMPS = tables.by_key("road/lamp_loads", "lamp")
_OUTPUTS = tables.by_key("road/charging_outputs", "kind")


def _lamp(name: str, label: str, lamps: tuple[str, ...], group: str = "Lamps") -> model.Choice:
    return model.Choice(
        name,
        label,
        tuple(model.Option(key, _LAMPS[key]["name"]) for key in lamps),
        "The bulb's base or the lamp's plate says its watts.",
        default=lamps[0],
        unsure=lamps,
        group=group,
    )


def _count(
    name: str, label: str, default: str, help: str, *, high: str = "12", essential: bool = False
) -> model.Field:
    return model.Field(
        name,
        label,
        "count",
        "0",
        high,
        help,
        default=default,
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
        "What charges the battery",
        tuple(model.Option(key, row["name"]) for key, row in _OUTPUTS.items()),
        "A dynamo with permanent magnets is small and has two wires to a separate regulator; an "
        "alternator has a thick wire to the battery.",
        default="dynamo",
        essential=True,
        group="Charging",
    ),
    model.Field(
        "output",
        "Its output at working speed",
        "current",
        "5 A",
        "250 A",
        "On its plate or in the manual. At idle it may give half.",
        default="20 A",
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
        "Everything else that draws current",
        "current",
        "0 A",
        "100 A",
        "Ignition, engine controller, gauges; add a fan, a seat compressor or a radio.",
        default="3 A",
        group="Charging",
        typical=model.Typical(2.0, 8.0, "road/WORK-practice", "diesel tractors"),
    ),
    model.Choice(
        "circuit",
        "Circuit to size",
        (
            model.Option("work", "Work lamps"),
            model.Option("head", "Head lamps"),
            model.Option("tail", "Tail lamps"),
            model.Option("flash", "Flashing lamps"),
        ),
        "All lamps of that kind on one wire and one fuse.",
        default="head",
        essential=True,
        group="Wire",
    ),
    model.Field(
        "run",
        "Length of the wire, one way",
        "length",
        "1 ft",
        "80 ft",
        "Along its path from the fuse to the lamps, one way. It is doubled here for the way back.",
        default="15 ft",
        essential=True,
        group="Wire",
        unit_us="ft",
        unit_metric="m",
        typical=model.Typical(2.0, 6.0, "road/SIZE-practice", "compact tractors"),
    ),
    model.Choice(
        "gauge",
        "Wire fitted or planned",
        tuple(
            model.Option(row["gauge"], f"{row['gauge']} gauge")
            for row in tables.rows("road/wire_sizes")
        ),
        "Printed on the insulation. A higher number is a thinner wire.",
        default="16",
        unsure=("18", "16", "14"),
        essential=True,
        group="Wire",
    ),
    model.Choice(
        "wire_standard",
        "Kind of wire",
        (
            model.Option("SAE", "Automotive (SAE)"),
            model.Option("AWG", "Building, marine or trailer wire (AWG)"),
        ),
        "Automotive wire has about a tenth less copper than AWG of the same number.",
        default="SAE",
        group="Wire",
    ),
    model.Choice(
        "way_back",
        "The way back",
        (
            model.Option("wire", "A ground wire of the same size"),
            model.Option("frame", "Through the frame"),
        ),
        "Paint and rust make the frame a poor conductor; a wire back is safer.",
        default="wire",
        group="Wire",
    ),
    model.Field(
        "drop_allowed",
        "Voltage that may be lost",
        "fraction",
        "0.5 %",
        "15 %",
        "3 % for lamps that keep you safe, up to 10 % for others.",
        default="3 %",
        group="Wire",
        typical=model.Typical(0.03, 0.10, "road/DROP-practice", "12 V circuits"),
    ),
    model.Field(
        "fuse",
        "Fuse fitted",
        "current",
        "1 A",
        "60 A",
        "The number on the blade.",
        optional=True,
        group="Wire",
    ),
    model.Field(
        "battery",
        "Battery capacity, in ampere-hours",
        "count",
        "10",
        "400",
        "On its label. Used when the load is more than is charged.",
        default="60",
        group="Charging",
        typical=model.Typical(40.0, 90.0, "road/SIZE-practice", "compact tractors"),
    ),
)
