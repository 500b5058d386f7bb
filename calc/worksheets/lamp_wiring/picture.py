"""What is drawn."""

from __future__ import annotations

from calc import model, tables
from calc.mechanics import wiring
from calc.model.pictures import Bar, Bars, Chart, Mark, Picture, Series
from calc.worksheets.lamp_wiring.compute import _NAMES, ORDER, _average, _lit, _loop


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture]:
    """Draw the load by parts against what is charged, and the loss against the run."""
    bars = [
        Bar(
            f"{_NAMES[kind]}{' (off on the road)' if kind == 'work' else ''}",
            _average(v, kind),
            style="soft" if kind == "work" else "fill",
        )
        for kind in ORDER
        if _average(v, kind) > 0
    ]
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


def _run_chart(v: model.Inputs, current: float, outcome: model.Outcome) -> Chart:
    gauges = [int(row["gauge"]) for row in tables.rows("road/wire_sizes")]
    at = gauges.index(int(v.gauge))
    shown = gauges[max(at - 1, 0) : at + 3]
    runs = [0.0, v.run * 1.6]
    back = _loop(v) / v.run
    styles = ["soft", "ink", "accent", "soft dashed"]
    series = [
        Series(
            f"{gauge} gauge",
            runs,
            [
                wiring.voltage_drop(
                    current, wiring.wire_resistance(gauge, run * back, v.wire_standard)
                )
                for run in runs
            ],
            style,
        )
        for gauge, style in zip(shown, styles, strict=False)
    ]
    allowed = v.drop_allowed * wiring.RATED_VOLTAGE
    series.append(Series("may be lost", runs, [allowed, allowed], "good dashed"))
    return Chart(
        "Voltage lost against length of the run",
        model.phrase("{current} in the circuit.", current=(current, "current")),
        "One way",
        "length",
        "Lost",
        "voltage",
        series,
        [Mark("this wire", v.run, outcome.output("drop"))],
        x_unit_us="ft",
        x_unit_metric="m",
    )
