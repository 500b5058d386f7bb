"""What is drawn."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from calc import model, quantities
from calc.mechanics import implement_power
from calc.model.pictures import Bar, Bars, Chart, Mark, Picture, Series
from calc.worksheets.pto.compute import SIZE_KINDS, need_at, row_of, size_of, uses_shaft_figures

SIZE_UNITS = {"rating": "kW"}


# --- picture -----------------------------------------------------------------------------------


def picture(v: model.Inputs, outcome: model.Outcome) -> Sequence[Picture]:
    """Draw demand against size with the power that is left, or bars where size doesn't matter."""
    row = row_of(v)
    if row is None:
        return []
    if v.power_needed is not None or row["size"] == "total":
        return [_bars(v, row, outcome)]
    return [_chart(v, row, outcome)]


def _ends(outcome: model.Outcome, name: str) -> tuple[float, float]:
    """The range of an output, equal where it is exact."""
    found = next(item for item in outcome.outputs if item.name == name)
    low = found.value if found.low is None else found.low
    high = found.value if found.high is None else found.high
    return low, high


def _chart(v: model.Inputs, row: dict[str, str], outcome: model.Outcome) -> Chart:
    size = size_of(v)
    steps = [size * (0.5 + 0.1 * i) for i in range(11)]
    low, high = _ends(outcome, "left")
    ends = [steps[0], steps[-1]]
    series: list[Series] = []
    if row["size"] == "rating":
        rule = [implement_power.generator_engine_power(w) for w in steps]
        series = [
            Series("rated load at the shaft", steps, [need_at(v, v.material, w) for w in steps]),
            Series("PTO power that starts motors", steps, rule, "soft dashed"),
        ]
    else:
        series = _load_series(v, steps)
    if row["rotary_key"] and not uses_shaft_figures(v):
        d497 = [
            implement_power.needed(v.implement_kind, w, v.material, "d497", v.reserve)
            for w in steps
        ]
        series.append(Series("ASAE D497 with the reserve", steps, d497, "soft dashed"))
    if high > low:
        series.append(Series("power left, its range", ends, [low, low], "warn", [high, high]))
    series.append(
        Series("power left at the shaft", ends, [outcome.output("left")] * 2, "bad dashed")
    )
    unit = SIZE_UNITS.get(row["size"], "")
    labels = {
        "width": "Working width",
        "opening": "Rated opening",
        "auger": "Auger diameter",
        "throughput": "Throughput",
        "rating": "Rated output",
    }
    kind = SIZE_KINDS[row["size"]]
    shown: Any = (size, kind, unit) if unit else (size, kind)
    return Chart(
        "Power asked for against size",
        model.phrase(
            "At {size} it asks for {need}; {left} is left at the shaft.",
            size=shown,
            need=(outcome.output("need"), "power"),
            left=(outcome.output("left"), "power"),
        ),
        labels[row["size"]],
        kind,
        "Power",
        "power",
        series,
        [Mark("this implement", size, outcome.output("need"))],
        x_unit_us=unit,
        x_unit_metric=unit,
    )


def _load_series(v: model.Inputs, steps: list[float]) -> list[Series]:
    return [
        Series(
            "light to heavy work",
            steps,
            [need_at(v, "light", w) for w in steps],
            "accent",
            [need_at(v, "heavy", w) for w in steps],
        ),
        Series("this material", steps, [need_at(v, v.material, w) for w in steps], "ink"),
    ]


def _bars(v: model.Inputs, row: dict[str, str], outcome: model.Outcome) -> Bars:
    need_low, need_high = _ends(outcome, "need")
    left_low, left_high = _ends(outcome, "left")
    bars = []
    if v.power_needed is None:
        bars += [
            Bar(
                f"asked for in {load} work",
                need_at(v, load),
                style="accent" if load == v.material else "fill",
            )
            for load in implement_power.LOADS
        ]
    else:
        shown = quantities.show_range(need_low, need_high, "power")
        bars.append(Bar("asked for by its maker", need_high, style="accent", text=shown))
    bars.append(Bar("left at the shaft", left_high, style="good"))
    if left_low < left_high:
        bars.append(Bar("left at the shaft, at the least", left_low, style="warn"))
    return Bars(
        "Power asked for and power left",
        model.phrase(
            "It asks for {need}; {left} is left at the shaft.",
            need=(outcome.output("need"), "power"),
            left=(outcome.output("left"), "power"),
        ),
        "power",
        bars,
    )
