"""What is drawn."""

from __future__ import annotations

from calc import model
from calc.model.pictures import Bar, Bars, Chart, Mark, Picture, Series
from calc.worksheets.cab.compute import PULL_DOWN_MARGIN, unit_power
from calc.worksheets.cab.heat import heat_load

# --- pictures -------------------------------------------------------------------------------


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture]:
    """The heat load by parts, and through the day against the unit."""
    load = heat_load(v)
    parts = (
        ("Sun through the glass", load.glass_sun, "warn"),
        ("Roof in the sun", load.roof, "warn"),
        ("Glass, by warmth", load.panes, "fill"),
        ("Floor and firewall", load.floor, "fill"),
        ("People", load.people, "fill"),
        ("Fan", load.fan, "fill"),
        ("Outside air, moisture included", load.air, "accent"),
    )
    hours = [5.0 + 0.5 * step for step in range(29)]
    loads = [heat_load(v, hour).total for hour in hours]
    enough = unit_power(v, load.total) / PULL_DOWN_MARGIN
    return [
        Bars(
            "Heat that enters the cab",
            model.phrase(
                "{us} ({metric}) in all, of which the sun brings {share}",
                us=(load.total, "power", "Btu/h"),
                metric=(load.total, "power", "W"),
                share=(load.sun_share, "fraction"),
            ),
            "power",
            [Bar(label, max(0.0, watts), 0.0, style) for label, watts, style in parts],
            unit_us="Btu/h",
            unit_metric="W",
        ),
        Chart(
            "The load through the day",
            model.phrase(
                "Heat to be removed hour by hour at the outside temperature given, against the "
                "{us} ({metric}) that this unit holds with a third in reserve",
                us=(enough, "power", "Btu/h"),
                metric=(enough, "power", "W"),
            ),
            "Hour by the sun",
            "count",
            "Heat",
            "power",
            [
                Series("Heat to be removed, cab turned the worst way", hours, loads, "ink thick"),
                Series(
                    "What the unit holds, a third in reserve",
                    [5.0, 19.0],
                    [enough, enough],
                    "accent dashed",
                ),
            ],
            [Mark("The hour taken", load.hour, load.total)],
            y_unit_us="Btu/h",
            y_unit_metric="W",
        ),
    ]
