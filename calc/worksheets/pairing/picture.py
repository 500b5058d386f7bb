"""What is drawn."""

from __future__ import annotations

from calc import model
from calc.mechanics import implement_power
from calc.model.pictures import Chart, Mark, Picture, Series
from calc.subjects.loads_view import states
from calc.worksheets.pairing import checks as pairing


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture]:
    """Draw the side view with its loads, and demand against width."""
    chart = _demand_chart(v, outcome)
    views: list[Picture] = [*states(v, outcome)]
    return [*views, chart] if chart else views


def _demand_chart(v: model.Inputs, outcome: model.Outcome) -> Chart | None:
    row = implement_power.kind_row(v.implement_kind)
    if row is None or v.power_needed is not None or row["size"] not in ("width", "opening"):
        return None

    def asks(width: float, load: str = "") -> float:
        band = pairing.demand(v, load, width)
        assert band is not None
        return band.high

    widths = [v.working_width * (0.4 + 0.1 * i) for i in range(11)]
    left = outcome.output("power_left")
    return Chart(
        "Power wanted against working width",
        model.phrase(
            "The band runs from light to heavy work; the dashed line is the {left} that the "
            "tractor has left for the shaft.",
            left=(left, "power"),
        ),
        "Working width",
        "length",
        "Power",
        "power",
        [
            Series(
                "light to heavy material",
                widths,
                [asks(w, "light") for w in widths],
                "accent",
                [asks(w, "heavy") for w in widths],
            ),
            Series(
                "this material",
                widths,
                [asks(w) for w in widths],
                "ink",
            ),
            Series("power left at the shaft", [widths[0], widths[-1]], [left, left], "bad dashed"),
        ],
        [Mark("this implement", v.working_width, outcome.output("power_demand"))],
    )
