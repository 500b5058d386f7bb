"""Will the charging system, the wires and the fuse carry these lamps?"""

from __future__ import annotations

from calc import tables
from calc import worksheet as ws
from calc.explore import Solver
from calc.mechanics import wiring
from calc.picture import Bar, Bars, Chart, Mark, Picture, Series
from calc.worksheets._solved import solved

FOOT = wiring.FOOT
_LAMPS = tables.by_key("lamp_loads", "lamp")
_OUTPUTS = tables.by_key("charging_outputs", "kind")


def _lamp(name: str, label: str, lamps: tuple[str, ...], group: str = "Lamps") -> ws.Choice:
    return ws.Choice(
        name, label, tuple(ws.Option(key, _LAMPS[key]["name"]) for key in lamps),
        "The bulb's base or the lamp's plate says its watts.",
        default=lamps[0], unsure=lamps, group=group,
    )  # fmt: skip


def _count(
    name: str, label: str, default: str, help: str, *, high: str = "12", essential: bool = False
) -> ws.Field:
    return ws.Field(
        name, label, "count", "0", high, help, default=default, essential=essential,
        group="Lamps", typical=ws.Typical(0.0, 4.0, "road/SIZE-practice", "compact tractors"),
    )  # fmt: skip


def _usual_output(known: ws.KnownSoFar) -> ws.Typical:
    row = _OUTPUTS.get(known.get("charging") or "dynamo", _OUTPUTS["dynamo"])
    return ws.Typical(
        float(row["low_amps"]), float(row["high_amps"]), row["source"], row["name"].lower()
    )


FIELDS = (
    ws.Choice(
        "charging", "What charges the battery",
        tuple(ws.Option(key, row["name"]) for key, row in _OUTPUTS.items()),
        "A dynamo with permanent magnets is small and has two wires to a separate regulator; an "
        "alternator has a thick wire to the battery.",
        default="dynamo", essential=True, group="Charging",
    ),
    ws.Field(
        "output", "Its output at working speed", "current", "5 A", "250 A",
        "On its plate or in the manual. At idle it may give half.",
        default="20 A", essential=True, group="Charging", typical=_usual_output,
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
        "work_count", "Work lamps", "2", "For the field. They must be off on the road.",
        essential=True,
    ),
    _lamp("work_lamp", "Kind of work lamp", ("halogen-55", "halogen-60", "led-work")),
    ws.Field(
        "other_current", "Everything else that draws current", "current", "0 A", "100 A",
        "Ignition, engine controller, gauges; add a fan, a seat compressor or a radio.",
        default="3 A", group="Charging",
        typical=ws.Typical(2.0, 8.0, "road/WORK-practice", "diesel tractors"),
    ),
    ws.Choice(
        "circuit", "Circuit to size",
        (
            ws.Option("work", "Work lamps"),
            ws.Option("head", "Head lamps"),
            ws.Option("tail", "Tail lamps"),
            ws.Option("flash", "Flashing lamps"),
        ),
        "All lamps of that kind on one wire and one fuse.",
        default="head", essential=True, group="Wire",
    ),
    ws.Field(
        "run", "Length of the wire, one way", "length", "1 ft", "80 ft",
        "Along its path from the fuse to the lamps, one way. It is doubled here for the way back.",
        default="15 ft", essential=True, group="Wire", unit_us="ft", unit_metric="m",
        typical=ws.Typical(2.0, 6.0, "road/SIZE-practice", "compact tractors"),
    ),
    ws.Choice(
        "gauge", "Wire fitted or planned",
        tuple(
            ws.Option(row["gauge"], f"{row['gauge']} gauge") for row in tables.rows("wire_sizes")
        ),
        "Printed on the insulation. A higher number is a thinner wire.",
        default="16", unsure=("18", "16", "14"), essential=True, group="Wire",
    ),
    ws.Choice(
        "wire_standard", "Kind of wire",
        (
            ws.Option("SAE", "Automotive (SAE)"),
            ws.Option("AWG", "Building, marine or trailer wire (AWG)"),
        ),
        "Automotive wire has about a tenth less copper than AWG of the same number.",
        default="SAE", group="Wire",
    ),
    ws.Choice(
        "way_back", "The way back",
        (
            ws.Option("wire", "A ground wire of the same size"),
            ws.Option("frame", "Through the frame"),
        ),
        "Paint and rust make the frame a poor conductor; a wire back is safer.",
        default="wire", group="Wire",
    ),
    ws.Field(
        "drop_allowed", "Voltage that may be lost", "fraction", "0.5 %", "15 %",
        "3 % for lamps that keep you safe, up to 10 % for others.",
        default="3 %", group="Wire",
        typical=ws.Typical(0.03, 0.10, "road/DROP-practice", "12 V circuits"),
    ),
    ws.Field(
        "fuse", "Fuse fitted", "current", "1 A", "60 A",
        "The number on the blade.",
        optional=True, group="Wire",
    ),
    ws.Field(
        "battery", "Battery capacity, in ampere-hours", "count", "10", "400",
        "On its label. Used when the load is more than is charged.",
        default="60", group="Charging",
        typical=ws.Typical(40.0, 90.0, "road/SIZE-practice", "compact tractors"),
    ),
)  # fmt: skip

ORDER = ("head", "tail", "flash", "beacon", "work")
_NAMES = {
    "head": "Head lamps", "tail": "Tail lamps", "flash": "Flashing lamps", "beacon": "Beacons",
    "work": "Work lamps",
}  # fmt: skip


def _one(lamp: str) -> float:
    """The current of one lamp: as its data sheet says, else from its watts."""
    row = _LAMPS[lamp]
    if row["amps"]:
        return float(row["amps"])
    return wiring.lamp_current(float(row["watts"]), row["behavior"], float(row["volts"]))


_CURRENT = {key: _one(key) for key in _LAMPS}


def _lit(v: ws.Inputs, kind: str) -> float:
    """The current of all lamps of one kind while they are lit."""
    if kind == "beacon":
        return float(v.beacon_count * _CURRENT["led-beacon"])
    return float(getattr(v, f"{kind}_count") * _CURRENT[getattr(v, f"{kind}_lamp")])


def _average(v: ws.Inputs, kind: str) -> float:
    return _lit(v, kind) * (wiring.FLASHER_DUTY if kind == "flash" else 1.0)


def _road(v: ws.Inputs) -> float:
    """On the road the work lamps are off."""
    return sum(_average(v, kind) for kind in ORDER if kind != "work") + float(v.other_current)


def _field(v: ws.Inputs) -> float:
    """In the field the flashing lamps are off and the work lamps on."""
    return sum(_average(v, kind) for kind in ("head", "tail", "beacon", "work")) + float(
        v.other_current
    )


def _loop(v: ws.Inputs) -> float:
    return wiring.loop_length(v.run, v.way_back == "wire", 0.5 * v.run)


def compute(v: ws.Inputs, work: ws.Work) -> ws.Outcome:
    """Return the checks of charging, wire and fuse."""
    road, field_load = _road(v), _field(v)
    current = _lit(v, v.circuit)
    loop = _loop(v)
    allowed = v.drop_allowed * wiring.RATED_VOLTAGE
    drop = wiring.voltage_drop(current, wiring.wire_resistance(int(v.gauge), loop, v.wire_standard))
    fuse = wiring.fuse_size(current)
    checks = [
        ws.at_most("road", "Load on the road", road, v.output, "current",
                   f"{_cited(v, ORDER[:4])}; road/ALT-memory",
                   why="The battery runs down and the lamps go dim."),
        ws.at_most("field", "Load in the field", field_load, v.output, "current",
                   f"{_cited(v, ('head', 'tail', 'work'))}; road/ALT-memory",
                   why="The battery runs down."),
    ]  # fmt: skip
    if current > 0:
        checks.append(
            ws.at_most("drop", "Voltage lost in the wire", drop, allowed, "voltage",
                       "road/WEB-12; road/WEB-14; road/DROP-practice",
                       why="Lamps lose light much faster than voltage.")
        )  # fmt: skip
    if v.fuse is not None and current > 0:
        checks.append(
            ws.at_least("fuse", "Fuse fitted", v.fuse, wiring.FUSE_MARGIN * current, "current",
                        "road/FUSE-practice", close_band=0.0,
                        why="It blows on a warm night although nothing is wrong.")
        )  # fmt: skip
    outputs = [
        ws.Output("road_load", "Average current on the road", road, "current"),
        ws.Output("field_load", "Average current in the field", field_load, "current"),
        ws.Output("spare", "Left for the battery on the road", v.output - road, "current"),
        ws.Output("circuit_current", "Current of the circuit while lit", current, "current"),
    ]
    if current > 0:
        outputs += [
            ws.Output("drop", "Voltage lost in the wire", drop, "voltage"),
            ws.Output("light", "Light left in a filament lamp at that loss",
                      wiring.light_left(min(drop / wiring.RATED_VOLTAGE, 1.0)), "fraction"),
        ]  # fmt: skip
        if fuse is not None:
            outputs.append(ws.Output("fuse", "Fuse for it", fuse, "current"))
    short = max(road, field_load) - v.output
    if short > 0:
        hours = wiring.battery_hours(v.battery, short)
        outputs.append(
            ws.Output("hours", "Until half the battery is gone", hours * 3600, "duration",
                      "at the larger of the two loads")
        )  # fmt: skip
    if work.on:
        _steps(v, work, road, current, loop, drop)
    return ws.Outcome(checks, outputs)


def _cited(v: ws.Inputs, kinds: tuple[str, ...]) -> str:
    keys = ["led-beacon" if k == "beacon" else getattr(v, f"{k}_lamp") for k in kinds]
    used = [_LAMPS[key]["source"] for key, kind in zip(keys, kinds, strict=True)
            if getattr(v, f"{kind}_count") > 0]  # fmt: skip
    return "; ".join(dict.fromkeys([*used, "road/WORK-practice"]))


def _steps(
    v: ws.Inputs, work: ws.Work, road: float, current: float, loop: float, drop: float
) -> None:
    for kind in ORDER:
        if kind != "work" and getattr(v, f"{kind}_count"):
            lamp = "led-beacon" if kind == "beacon" else getattr(v, f"{kind}_lamp")
            duty = wiring.FLASHER_DUTY if kind == "flash" else 1.0
            work.step(_NAMES[kind], "I", "n I₁ × share of time lit",
                      (("n", float(getattr(v, f"{kind}_count")), "count"),
                       ("I₁", _CURRENT[lamp], "current"), ("share", duty, "fraction")),
                      _average(v, kind), "current", _LAMPS[lamp]["source"])  # fmt: skip
    work.step("Load on the road", "I", "sum + everything else",
              (("else", v.other_current, "current"),), road, "current", "road/CALC-1")  # fmt: skip
    if current > 0:
        work.step("Length of copper", "L",
                  "2 × one way" if v.way_back == "wire" else "one way × 1.5 for the frame",
                  (("one way", v.run, "length"),), loop, "length", "road/CALC-1",
                  unit_us="ft", unit_metric="m")  # fmt: skip
        work.step("Voltage lost", "V", "I R L",
                  (("I", current, "current"),
                   ("R", wiring.wire_resistance(int(v.gauge), 1.0, v.wire_standard),
                    "resistance_per_length")),
                  drop, "voltage", "road/WEB-14; road/SAE-memory; road/PHY-1")  # fmt: skip


def advise(v: ws.Inputs, outcome: ws.Outcome, solve: Solver) -> ws.Advice:
    """Solve for wire, run, lamps and output."""
    broken = {check.name for check in outcome.checks if check.margin < 0}
    remedies: list[ws.Remedy] = []
    if broken & {"road", "field"}:
        remedies += _charging_remedies(v, broken, solve)
    if "drop" in broken:
        remedies += _wire_remedies(v, solve)
    current = _lit(v, v.circuit)
    fuse = wiring.fuse_size(current)
    if "fuse" in broken and fuse is not None:
        remedies.append(
            ws.Remedy(
                ws.phrase("A {fuse} fuse carries this circuit.", fuse=(fuse, "current")),
                {"fuse": f"{fuse:g} A"}, "road/FUSE-practice",
            )
        )  # fmt: skip
    notes: list[ws.Words] = []
    if fuse is None:
        notes.append(
            "No blade fuse is large enough for this circuit: split it in two, each with its own "
            "fuse and relay."
        )
    notes.append(
        ws.phrase(
            "At idle the output may fall to about {idle}; two filament head lamps alone draw "
            "{head}.",
            idle=(v.output * float(_OUTPUTS[v.charging]["idle_share"]), "current"),
            head=(2 * _CURRENT["halogen-55"], "current"),
        )
    )  # fmt: skip
    if current > 0:
        area = wiring.area_needed(current, _loop(v), v.drop_allowed * wiring.RATED_VOLTAGE)
        gauge = wiring.smallest_gauge(area, v.wire_standard)
        if gauge is not None:
            notes.append(
                f"The sizing formula of marine practice, which leaves a little for warmth, asks "
                f"for {gauge} gauge."
            )
    cautions = [
        ws.Caution(
            "Disconnect the battery's ground cable before working on the wiring. Put the fuse at "
            "the battery end, and never a larger fuse than the wire can carry.",
            "road/FUSE-practice",
        ),
        ws.Caution(
            "Work lamps that shine to the rear stay off on the road: a driver behind takes white "
            "light for an oncoming vehicle.", "road/EXT-1",
        ),
        ws.Caution(
            "Pins 4 and 7 of a tractor's seven-terminal socket are live. A truck trailer has its "
            "stop lamps on pin 4. Test every pin with a lamp first.", "road/MAN-1",
        ),
    ]  # fmt: skip
    return ws.Advice(remedies, cautions, [_gauge_table(v)], notes)


def _charging_remedies(v: ws.Inputs, broken: set[str], solve: Solver) -> list[ws.Remedy]:
    names = tuple(broken & {"road", "field"})
    remedies = []
    if "field" in broken:
        fewer = solve.largest("work_count", 0, v.work_count, ("field",))
        if fewer is not None and int(fewer) < v.work_count:
            remedies.append(
                ws.Remedy(
                    f"Have no more than {int(fewer)} of these work lamps on at a time.",
                    {"work_count": str(int(fewer))}, "road/CALC-1",
                )
            )  # fmt: skip
    leds = {"head_lamp": "led-work", "tail_lamp": "led-tail", "flash_lamp": "led-turn",
            "work_lamp": "led-work"}  # fmt: skip
    for fields in (("work_lamp",), ("flash_lamp", "tail_lamp"), tuple(leds)):
        change = {name: leds[name] for name in fields}
        if solve.run(**change).margin(names) >= 0:
            kinds = [name.partition("_")[0] for name in fields]
            said = " and ".join(kinds) if len(kinds) < 3 else "all"
            remedies.append(
                ws.Remedy(
                    f"LED {said} lamps stay within what is charged. Ask for lamps that carry the "
                    "mark road law asks for.", change, "road/LED-practice",
                )
            )  # fmt: skip
            break
    needed = solve.smallest("output", v.output, 250.0, names)
    if needed is not None:
        remedies.append(
            ws.Remedy(
                ws.phrase("Charging of {amps} or more carries it.", amps=(needed, "current")),
                solved(solve, "output", needed, names, up=True), "road/CALC-1",
            )
        )  # fmt: skip
    return remedies


def _wire_remedies(v: ws.Inputs, solve: Solver) -> list[ws.Remedy]:
    remedies = []
    for row in tables.rows("wire_sizes"):
        if solve.run(gauge=row["gauge"]).margin(("drop",)) >= 0:
            remedies.append(
                ws.Remedy(
                    f"{row['gauge']} gauge is the thinnest that keeps within the loss allowed.",
                    {"gauge": row["gauge"]}, "road/WEB-12",
                )
            )  # fmt: skip
            break
    run = solve.largest("run", 0.3, v.run, ("drop",))
    if run is not None:
        remedies.append(
            ws.Remedy(
                ws.phrase(
                    "This wire serves a run of {run}: put the fuse and a relay nearer to the "
                    "lamps.", run=(run, "length", "ft"),
                ),
                solved(solve, "run", run, ("drop",), up=False), "road/CALC-1",
            )
        )  # fmt: skip
    return remedies


def _gauge_table(v: ws.Inputs) -> ws.Table:
    current = _lit(v, v.circuit)
    loop = _loop(v)
    rows = []
    for row in tables.rows("wire_sizes"):
        gauge = int(row["gauge"])
        drop = wiring.voltage_drop(current, wiring.wire_resistance(gauge, loop, v.wire_standard))
        share = drop / wiring.RATED_VOLTAGE
        if share > 0.5:
            continue
        rows.append(
            (
                f"{gauge}", (drop, "voltage"), (share, "fraction"),
                (wiring.light_left(share), "fraction"),
                "yes" if share <= v.drop_allowed else "no",
            )
        )  # fmt: skip
    return ws.Table(
        f"{_NAMES[v.circuit]}: wire by wire",
        ("Gauge", "Lost", "Of 12 V", "Light left", "Within"),
        tuple(rows),
        "road/WEB-12; road/WEB-14; road/VOLT-memory",
        ws.phrase(
            "{current} over {loop} of copper, out and back.",
            current=(current, "current"), loop=(loop, "length", "ft"),
        ),
    )  # fmt: skip


def picture(v: ws.Inputs, outcome: ws.Outcome) -> list[Picture]:
    """Draw the load by parts against what is charged, and the loss against the run."""
    bars = [Bar(f"{_NAMES[kind]}{' (off on the road)' if kind == 'work' else ''}",
                _average(v, kind), style="soft" if kind == "work" else "fill")
            for kind in ORDER if _average(v, kind) > 0]  # fmt: skip
    bars.append(Bar("Everything else", v.other_current))
    for label, name in (("On the road, all told", "road"), ("In the field, all told", "field")):
        load = outcome.output(f"{name}_load")
        bars.append(Bar(label, load, style="bad" if load > v.output else "accent"))
    bars.append(Bar("Charged at working speed", v.output, style="good"))
    views: list[Picture] = [
        Bars("Current by lamp", "Averages; lamps that flash count half.", "current", bars)
    ]
    current = _lit(v, v.circuit)
    if current > 0:
        views.append(_run_chart(v, current, outcome))
    return views


def _run_chart(v: ws.Inputs, current: float, outcome: ws.Outcome) -> Chart:
    gauges = [int(row["gauge"]) for row in tables.rows("wire_sizes")]
    at = gauges.index(int(v.gauge))
    shown = gauges[max(at - 1, 0) : at + 3]
    runs = [0.0, v.run * 1.6]
    back = _loop(v) / v.run
    styles = ["soft", "ink", "accent", "soft dashed"]
    series = [
        Series(
            f"{gauge} gauge", runs,
            [wiring.voltage_drop(
                current, wiring.wire_resistance(gauge, run * back, v.wire_standard))
             for run in runs],
            style,
        )
        for gauge, style in zip(shown, styles, strict=False)
    ]  # fmt: skip
    allowed = v.drop_allowed * wiring.RATED_VOLTAGE
    series.append(Series("may be lost", runs, [allowed, allowed], "good dashed"))
    return Chart(
        "Voltage lost against length of the run",
        ws.phrase("{current} in the circuit.", current=(current, "current")),
        "One way", "length", "Lost", "voltage", series,
        [Mark("this wire", v.run, outcome.output("drop"))],
        x_unit_us="ft", x_unit_metric="m",
    )  # fmt: skip


WORKSHEET = ws.Worksheet(
    name="lamp-wiring",
    title="Lamps, charging and wires",
    question="Will my charging system and wires carry more lamps?",
    fields=FIELDS,
    compute=compute,
    advise=advise,
    picture=picture,
    page="road/lamp-wiring",
    example="a small diesel with a 20 A dynamo, two head lamps, flashers and two work lamps; "
    "15 ft of 16 gauge wire to the head lamps.",
)
