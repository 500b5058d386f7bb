"""A slice of `scripts/soundness.py`: random boxes that random points don't contradict.

Each contradiction that the script ever found stays here.
"""

import random

import pytest

from calc import search, worksheets
from scripts import soundness

BOXES, POINTS = 5, 60
# Where so many rules depend on unknowns that some findings rest on points, which may miss one.
SEARCHED = {"road"}


@pytest.mark.parametrize("name", worksheets.names())
def test_no_point_contradicts_what_is_found(name):
    sheet, rng = worksheets.load(name), random.Random(f"slice {name}")
    tally = soundness.Tally()
    for inputs in soundness.boxes(sheet, rng, BOXES):
        soundness.attack(sheet, inputs, POINTS, rng, tally)
    assert tally.boxes == BOXES
    assert tally.wrong == []
    if name not in SEARCHED:
        assert tally.missed == []


def test_a_wrong_finding_is_contradicted():
    """The attack bites: of an answer that says too much, it finds that."""
    sheet = worksheets.load("closing")
    inputs = {"sight_distance": "50 to 3000 ft"}
    box = search.read_box(sheet, inputs, example=True)
    quick = search.answer(sheet, inputs, full=False, example=True)  # the middle alone
    assert quick.verdicts
    verdicts = {verdict.check.name: verdict for verdict in quick.verdicts}
    rng = random.Random(3)
    said = [
        text
        for _ in range(40)
        for text in soundness.contradictions(
            verdicts,
            {},
            sheet.compute(box.point(soundness.random_point(box, rng)), soundness.SILENT),
        )
    ]
    assert said


FOUND = [
    # Where about a twentieth of the box is met, it was called over, by another check at each end.
    (
        "rollout",
        {"old_front_ten_turns": "", "old_rear_ten_turns": "", "front_turns": "17.5"},
    ),
    # A number that no run of points moved from its middle was shown as exact.
    ("cab", {"cooling_capacity": "", "latitude": "", "glass_front": "", "roof_area": ""}),
    # Lamps wider apart than what is behind aren't hidden by it: no check, where all were over.
    (
        "pairing",
        {
            "loader": "on",
            "auger_diameter": "0.267279 to 0.28297 m",
            "transmission": "hydrostatic",
            "place": "AZ",
            "implement_top": "1.52636 m",
        },
    ),
    # A flasher below the top of what is behind, in a corner that no slope points to.
    (
        "road",
        {
            "place": "ID",
            "hours": "day",
            "implement_top": "0.924485 to 1.02134 m",
            "implement_marking": "emblem",
        },
    ),
]


@pytest.mark.parametrize(("name", "inputs"), FOUND)
def test_contradictions_once_found_stay_mended(name, inputs):
    sheet, rng, tally = worksheets.load(name), random.Random(1), soundness.Tally()
    soundness.attack(sheet, inputs, 1500, rng, tally)
    assert tally.wrong == tally.missed == []
