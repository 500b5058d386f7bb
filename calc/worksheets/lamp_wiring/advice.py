"""What to do about it."""

from __future__ import annotations

from calc import model, tables
from calc.mechanics import wiring
from calc.search import Solver
from calc.search.rounding import solved
from calc.worksheets.lamp_wiring.compute import _CURRENT, _NAMES, _lit, _loop
from calc.worksheets.lamp_wiring.fields import _OUTPUTS


def advise(v: model.Inputs, outcome: model.Outcome, solve: Solver) -> model.Advice:
    """Solve for wire, run, lamps and output."""
    broken = {check.name for check in outcome.checks if check.margin < 0}
    remedies: list[model.Remedy] = []
    if broken & {"road", "field"}:
        remedies += _charging_remedies(v, broken, solve)
    if "drop" in broken:
        remedies += _wire_remedies(v, solve)
    current = _lit(v, v.circuit)
    fuse = wiring.fuse_size(current)
    if "fuse" in broken and fuse is not None:
        remedies.append(
            model.Remedy(
                model.phrase("A {fuse} fuse carries this circuit.", fuse=(fuse, "current")),
                {"fuse": f"{fuse:g} A"},
                "road/FUSE-practice",
            )
        )
    notes: list[model.Words] = []
    if fuse is None:
        notes.append(
            "No blade fuse is large enough for this circuit: split it in two, each with its own "
            "fuse and relay."
        )
    notes.append(
        model.phrase(
            "At idle the output may fall to about {idle}; two filament head lamps alone draw "
            "{head}.",
            idle=(v.output * float(_OUTPUTS[v.charging]["idle_share"]), "current"),
            head=(2 * _CURRENT["halogen-55"], "current"),
        )
    )
    if current > 0:
        area = wiring.area_needed(current, _loop(v), v.drop_allowed * wiring.RATED_VOLTAGE)
        gauge = wiring.smallest_gauge(area, v.wire_standard)
        if gauge is not None:
            notes.append(
                f"The sizing formula of marine practice, which leaves a little for warmth, asks "
                f"for {gauge} gauge."
            )
    cautions = [
        model.Caution(
            "Disconnect the battery's ground cable before working on the wiring. Put the fuse at "
            "the battery end, and never a larger fuse than the wire can carry.",
            "road/FUSE-practice",
        ),
        model.Caution(
            "Work lamps that shine to the rear stay off on the road: a driver behind takes white "
            "light for an oncoming vehicle.",
            "road/EXT-1",
        ),
        model.Caution(
            "Pins 4 and 7 of a tractor's seven-terminal socket are live. A truck trailer has its "
            "stop lamps on pin 4. Test every pin with a lamp first.",
            "road/MAN-1",
        ),
    ]
    return model.Advice(remedies, cautions, [_gauge_table(v)], notes)


def _charging_remedies(v: model.Inputs, broken: set[str], solve: Solver) -> list[model.Remedy]:
    names = tuple(broken & {"road", "field"})
    remedies = []
    if "field" in broken:
        fewer = solve.largest("work_count", 0, v.work_count, ("field",))
        if fewer is not None and int(fewer) < v.work_count:
            remedies.append(
                model.Remedy(
                    f"Have no more than {int(fewer)} of these work lamps on at a time.",
                    {"work_count": str(int(fewer))},
                    "road/CALC-1",
                )
            )
    leds = {
        "head_lamp": "led-work",
        "tail_lamp": "led-tail",
        "flash_lamp": "led-turn",
        "work_lamp": "led-work",
    }
    for fields in (("work_lamp",), ("flash_lamp", "tail_lamp"), tuple(leds)):
        change = {name: leds[name] for name in fields}
        if solve.run(**change).margin(names) >= 0:
            kinds = [name.partition("_")[0] for name in fields]
            said = " and ".join(kinds) if len(kinds) < 3 else "all"
            remedies.append(
                model.Remedy(
                    f"LED {said} lamps stay within what is charged. Ask for lamps that carry the "
                    "mark road law asks for.",
                    change,
                    "road/LED-practice",
                )
            )
            break
    needed = solve.smallest("output", v.output, 250.0, names)
    if needed is not None:
        remedies.append(
            model.Remedy(
                model.phrase("Charging of {amps} or more carries it.", amps=(needed, "current")),
                solved(solve, "output", needed, names, up=True),
                "road/CALC-1",
            )
        )
    return remedies


def _wire_remedies(v: model.Inputs, solve: Solver) -> list[model.Remedy]:
    remedies = []
    for row in tables.rows("road/wire_sizes"):
        if solve.run(gauge=row["gauge"]).margin(("drop",)) >= 0:
            remedies.append(
                model.Remedy(
                    f"{row['gauge']} gauge is the thinnest that keeps within the loss allowed.",
                    {"gauge": row["gauge"]},
                    "road/WEB-12",
                )
            )
            break
    run = solve.largest("run", 0.3, v.run, ("drop",))
    if run is not None:
        remedies.append(
            model.Remedy(
                model.phrase(
                    "This wire serves a run of {run}: put the fuse and a relay nearer to the "
                    "lamps.",
                    run=(run, "length", "ft"),
                ),
                solved(solve, "run", run, ("drop",), up=False),
                "road/CALC-1",
            )
        )
    return remedies


def _gauge_table(v: model.Inputs) -> model.Table:
    current = _lit(v, v.circuit)
    loop = _loop(v)
    rows = []
    for row in tables.rows("road/wire_sizes"):
        gauge = int(row["gauge"])
        drop = wiring.voltage_drop(current, wiring.wire_resistance(gauge, loop, v.wire_standard))
        share = drop / wiring.RATED_VOLTAGE
        if share > 0.5:
            continue
        rows.append(
            (
                f"{gauge}",
                (drop, "voltage"),
                (share, "fraction"),
                (wiring.light_left(share), "fraction"),
                "yes" if share <= v.drop_allowed else "no",
            )
        )
    return model.Table(
        f"{_NAMES[v.circuit]}: wire by wire",
        ("Gauge", "Lost", "Of 12 V", "Light left", "Within"),
        tuple(rows),
        "road/WEB-12; road/WEB-14; road/VOLT-memory",
        model.phrase(
            "{current} over {loop} of copper, out and back.",
            current=(current, "current"),
            loop=(loop, "length", "ft"),
        ),
    )
