"""Whether the number named first settles an answer more often than another: a small run."""

import random

from calc import search, worksheets
from scripts import settling


def test_the_number_named_first_settles_more_often_than_others_do():
    """Where one check decides, it has to beat the best of the others even in hindsight."""
    tally = settling.measure(worksheets.load("rail-crossing"), random.Random(11), 4, 3)
    assert tally.boxes == 4
    assert tally.truths == 12
    assert tally.first > tally.others
    assert tally.first >= tally.best
    assert tally.either >= tally.first


def test_a_true_value_leaves_the_answer_settled_or_open():
    """What is told of one number agrees with the answer for the inputs with it."""
    sheet = worksheets.load("rail-crossing")
    inputs = {
        "signals": "none",
        "combination_length": "30 to 60 ft",
        "track_sight": "700 to 900 ft",
    }
    inputs |= {"train_speed": "40 mph", "crossing_speed": "5 mph"}
    box = search.read_box(sheet, inputs)
    truth = {dim.name: dim.options[0] if dim.options else dim.high for dim in box.dimensions}
    settled = settling._settled(sheet, inputs, box, truth)
    assert set(settled) == {dim.name for dim in box.dimensions}
    for dim in box.dimensions:
        kind = getattr(sheet.field(dim.name), "kind", "")
        given = {**inputs, dim.name: settling._text(dim, truth[dim.name], kind)}
        assert settled[dim.name] == (search.answer(sheet, given).finding != "unknown")
