"""What is drawn."""

from __future__ import annotations

from calc import model
from calc.model.pictures import Bar, Bars, Chart, Mark, Picture, Series
from calc.worksheets.lamp_wiring.compute import ORDER, average, lit, lost
from calc.worksheets.lamp_wiring.fields import GAUGES

NAMES = {
    "head": "Head lamps",
    "tail": "Tail lamps",
    "flash": "Flashing lamps",
    "beacon": "Beacons",
    "work": "Work lamps (off on the road)",
}
STYLES = ("soft", "ink", "accent", "soft dashed")


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture]:
    """Draw the load by parts against what is charged, and the loss against the run."""
    bars = [
        Bar(NAMES[kind], average(v, kind), style="soft" if kind == "work" else "fill")
        for kind in ORDER
        if average(v, kind) > 0
    ]
    bars.append(Bar("Everything else", v.other_current))
    for label, name in (("On the road, all told", "road"), ("In the field, all told", "field")):
        load = outcome.output(f"{name}_load")
        bars.append(Bar(label, load, style="bad" if load > v.output else "accent"))
    bars.append(Bar("Charged at working speed", v.output, style="good"))
    said = "Averages; lamps that flash count half."
    views: list[Picture] = [Bars("Current by lamp", said, "current", bars)]
    if lit(v, v.circuit) > 0:
        views.append(_run_chart(v, outcome))
    return views


def _run_chart(v: model.Inputs, outcome: model.Outcome) -> Chart:
    current = lit(v, v.circuit)
    here = GAUGES.index(v.gauge)
    runs = [0.0, v.run * 1.6]
    series = [
        Series(
            f"{gauge} gauge",
            runs,
            [lost(v.but(run=run), current, int(gauge)) for run in runs],
            style,
        )
        for gauge, style in zip(GAUGES[max(here - 1, 0) : here + 3], STYLES, strict=False)
    ]
    allowed = outcome.output("allowed")
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
