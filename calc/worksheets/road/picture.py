"""What is drawn."""

from __future__ import annotations

from calc import model
from calc.model.pictures import Picture
from calc.subjects import road_list as rl
from calc.worksheets.road import view


def picture(v: model.Inputs, outcome: model.Outcome) -> list[Picture]:
    """Draw the rear view and the side view with every item in its place."""
    found = rl.situation(v)
    return [view.rear(v, found), view.side(v, found)]
