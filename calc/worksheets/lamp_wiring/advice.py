"""What to do about it."""

from __future__ import annotations

from calc import model, tables
from calc.mechanics import electrical_load, wiring
from calc.search import Remedies
from calc.worksheets.lamp_wiring.compute import CURRENT, alone, lit, loop, lost, temperature
from calc.worksheets.lamp_wiring.fields import FUSES, GAUGES, OUTPUTS_SOLD

LEDS = {
    "head_lamp": "led-work",
    "tail_lamp": "led-tail",
    "flash_lamp": "led-turn",
    "work_lamp": "led-work",
}
WIRE = ("wire_fuse", "wire_carries", "fuse_holds")


def advise(v: model.Inputs, found: model.Found, remedies: Remedies) -> model.Advice:
    """Solve for wire, fuse, lamps and output. No remedy is a fuse too large for its wire."""
    broken = set(remedies.broken)
    if broken & set(WIRE):
        _wire_remedies(v, broken, remedies)
    if "one_fuse" in broken:
        remedies.do("split", ("one_fuse", "wire_carries"), source="road/FUSE-practice")
        remedies.less(f"{v.circuit}_count", mends=("one_fuse",), step=1.0, most=20.0, key="fewer")
    if broken & {"road", "field"}:
        _charging_remedies(v, broken & {"road", "field"}, remedies)
    if "flasher" in broken:
        remedies.choose("flasher", "electronic", source="road/LED-flash")
    return model.Advice(
        cautions=found.cautions("battery", "work_lamps", "pins"),
        tables=[_gauge_table(v)],
        notes=_notes(v, found),
        says={"fuse": _of_fuse(v, found)},
    )


def _of_fuse(v: model.Inputs, found: model.Found) -> model.Words:
    """Which fuse, as far as the wire and the lamps are told: no range over wires nobody named."""
    lamps = v.circuit != "work" or not {"work_count", "work_lamp"} <= found.assumed
    if "gauge" not in found.assumed:
        held = "of_both" if "wire_carries" in found.broken else "of_fuse"
        return found.note(held if lamps else "of_gauge")
    if lamps and "need_fuse" in found:
        return found.note("by_lamps")
    most = {gauge: wiring.largest_fuse(int(gauge), alone=alone(v)) for gauge in GAUGES}
    return found.note(
        "by_gauge", **{f"g{gauge}": (amps, "current") for gauge, amps in most.items()}
    )


def _wire_remedies(v: model.Inputs, broken: set[str], remedies: Remedies) -> None:
    """A smaller fuse where it carries the lamps, else thicker wire, with the fuse for it."""
    fuse = wiring.fuse_size(lit(v, v.circuit))
    told = {f"{v.circuit}_count", f"{v.circuit}_lamp"}
    unnamed = ("fuse_holds",) if told <= remedies.assumed else ()
    # Of a wire that nobody looked at, no fuse can be said: the gauge comes first.
    if "wire_fuse" in broken and ("wire_fuse" in remedies.over or "gauge" not in remedies.assumed):
        largest = wiring.largest_fuse(int(v.gauge), alone=alone(v))
        for amps in (each for each in reversed(FUSES) if each <= largest):
            if remedies.change_leaving("fuse", {"fuse": amps}, ("wire_fuse",), unnamed):
                break
    if fuse is None or unnamed:
        return  # a wire is named for lamps that somebody spoke of
    if broken & set(WIRE) == {"fuse_holds"}:
        remedies.change("fuse", {"fuse": fuse}, mends=("fuse_holds",))
    area = wiring.area_needed(
        lit(v, v.circuit),
        loop(v),
        v.drop_allowed * electrical_load.RATED_VOLTAGE,
        temperature(v),
    )
    # Where the wire carries the lamps, a smaller fuse does what thicker wire with one would.
    sizes = (fuse, v.fuse or fuse) if broken & {"wire_carries", "fuse_holds"} else (v.fuse,)
    for amps in dict.fromkeys(sizes):
        for needed in (area, 0.0):
            gauge = wiring.gauge_for(amps, needed, v.wire_standard, alone=alone(v))
            if gauge is None or gauge >= int(v.gauge):
                continue
            changes = {"gauge": str(gauge)}
            if v.fuse is None or v.fuse == amps:
                remedies.change("gauge", changes)
            else:
                remedies.change("wire_and_fuse", {**changes, "fuse": amps})
            break


def _charging_remedies(v: model.Inputs, broken: set[str], remedies: Remedies) -> None:
    if "field" in broken:
        remedies.less("work_count", mends=("field",), step=1.0, end=1.0)
    for key, names in (
        ("led_work", ("work_lamp",)),
        ("led_small", ("flash_lamp", "tail_lamp")),
        ("led_all", tuple(LEDS)),
    ):
        changes = {name: LEDS[name] for name in names}
        if "flash_lamp" in names:
            changes["flasher"] = "electronic"
        if remedies.change(key, changes, mends=broken, source="road/LED-practice"):
            break
    # Of what nobody named, no output that is sold is out of proportion.
    end = OUTPUTS_SOLD[-1] if "output" in remedies.assumed else None
    remedies.more(
        "output", mends=broken, stock=OUTPUTS_SOLD, most=4.0, end=end, source="road/CALC-1"
    )


def _notes(v: model.Inputs, found: model.Found) -> list[model.Words]:
    head = (2 * CURRENT["halogen-55"], "current")
    notes: list[model.Words] = [found.note("protects"), found.note("idle", head=head)]
    if "drop" in found and found.finding("drop") in (model.OVER, model.UNKNOWN):
        notes.append(found.note("thicker"))
    if wiring.fuse_size(lit(v, v.circuit)) is None:
        notes.append(found.note("split"))
    if v.flash_lamp == "led-turn":
        notes.append(found.note("resistor"))
    return notes


def _gauge_table(v: model.Inputs) -> model.Table:
    current = lit(v, v.circuit)
    fuse = wiring.fuse_size(current)
    rows: list[tuple[model.Cell, ...]] = []
    for row in tables.rows("road/wire_sizes"):
        gauge = int(row["gauge"])
        drop = lost(v, current, gauge)
        share = drop / electrical_load.RATED_VOLTAGE
        most = wiring.largest_fuse(gauge, alone=alone(v))
        if share > 0.5:
            continue
        enough = fuse is not None and most >= fuse
        rows.append(
            (
                f"{gauge}",
                (most, "current"),
                "yes" if enough else "no",
                (drop, "voltage"),
                (share, "fraction"),
                (electrical_load.light_left(share), "fraction"),
                "yes" if share <= v.drop_allowed else "no",
            )
        )
    note = "{current} over {loop} of copper, out and back."
    return model.Table(
        "Wire by wire",
        ("Gauge", "Largest fuse", "Fuse enough", "Lost", "Of 12 V", "Light left", "Loss allowed"),
        tuple(rows),
        "road/FAA-43; road/CFR-425; road/WEB-12; road/WEB-14; road/VOLT-memory",
        model.phrase(note, current=(current, "current"), loop=(loop(v), "length", "ft")),
    )
