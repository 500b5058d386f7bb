"""A slice of `scripts/soundness.py`: random boxes that random points don't contradict.

Each contradiction that the script ever found stays here.
"""

import random

import pytest

from calc import model, search, worksheets
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


# Nobody rolled the tires: their tables give the distances, 4 % and 5.6 % wide.
ROLLED_BY_SIZE = {
    "old_front_ten_turns": "",
    "old_rear_ten_turns": "",
    "front_tire": "7-16 R-1",
    "rear_tire": "11.2-24 R-1",
}

FOUND = [
    # Where about a twentieth of the box is met, it was called over, by another check at each end.
    ("rollout", {**ROLLED_BY_SIZE, "front_turns": "15.36"}),
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
    # Below the narrowest that is sold no width is named, and the others' ends were called exact.
    (
        "pto",
        {
            "tractor_kind": "subcompact",
            "pto_power": "",
            "implement_kind": "rotary_tiller",
            "working_width": "1.49 to 1.59 m",
            "transmission": "hydrostatic",
            "loader": "on",
            "tractor_shaft": "1-540",
            "surface": "tilled",
            "altitude": "",
            "altitude_rule": "turbo",
            "air_temperature": "327.594 K",
        },
    ),
]


@pytest.mark.parametrize(("name", "inputs"), FOUND)
def test_contradictions_once_found_stay_mended(name, inputs):
    sheet, rng, tally = worksheets.load(name), random.Random(1), soundness.Tally()
    soundness.attack(sheet, inputs, 1500, rng, tally)
    assert tally.wrong == tally.missed == []


@pytest.mark.parametrize(
    ("turns", "fine", "finding"),
    [
        ("15.36", (0.02, 0.10), model.UNKNOWN),  # leads of 3.4 % and more: 5 % is the top
        ("15.5", (0.0005, 0.01), model.UNKNOWN),  # of 4.4 % and more
        ("15.62", (0.0, 0.0), model.OVER),  # of 5.2 % and more
    ],
)
def test_a_corner_that_is_fine_is_never_called_over(turns, fine, finding):
    """The lead's window ends at 5 % (tires/TG-3); how much of the box is inside is counted."""
    sheet, rng = worksheets.load("rollout"), random.Random(2)
    given = {**ROLLED_BY_SIZE, "front_turns": turns}
    box = search.read_box(sheet, given)
    assert {dim.name for dim in box.dimensions} == {"old_front_ten_turns", "old_rear_ten_turns"}
    leads = []
    for _ in range(4000):
        values = {dim.name: rng.uniform(dim.low, dim.high) for dim in box.dimensions}
        outcome = sheet.compute(box.point(values), soundness.SILENT)
        leads.append(next(check.value for check in outcome.checks if check.name == "lead"))
    share = sum(0.01 <= lead <= 0.05 for lead in leads) / len(leads)
    assert fine[0] <= share <= fine[1]
    answer = search.answer(sheet, given)
    assert answer.finding == finding
    assert answer.standing == (model.PROVED if finding == model.OVER else model.SHOWN)
