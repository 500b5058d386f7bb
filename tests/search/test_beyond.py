"""What a proof asks in place of a margin has its sign, whatever the check."""

import pytest

from calc import model, search, worksheets
from calc.search.looking import evenly
from calc.search.standing import beyond_of

ROOM = 1e-9  # of the limit: what is lost in a division


def boxes(sheet):
    """Everything unknown but what is needed, and the example as it stands."""
    needed = {i.name: i.example for i in sheet.fields if i.needed}
    for typed, example in ((needed, False), ({}, True)):
        try:
            box = search.read_box(sheet, typed, example=example)
        except search.BadInputs:
            continue
        if not box.missing:
            yield box


def checks_of(sheet):
    for box in boxes(sheet):
        for place, shares in enumerate(evenly(len(box.dimensions), 60)):
            ends = [float(share >= 0.5) if place % 2 else share for share in shares]
            at = {d.name: d.at(s) for d, s in zip(box.dimensions, ends, strict=True)}
            yield from sheet.compute(box.point(at), model.Work(on=False)).checks


@pytest.mark.parametrize("name", worksheets.names())
def test_what_is_beyond_a_limit_says_what_the_margin_says(name):
    for check in checks_of(worksheets.load(name)):
        beyond = beyond_of(check)
        if beyond is None:
            close = check.band and check.close_band != model.INSIDE_BAND
            assert close or check.sense in ("between", "fits") or check.limit <= 0.0, check.name
            continue
        room = ROOM * max(abs(check.limit), abs(check.upper))
        for ahead, least in zip(beyond, (0.0, check.close_band), strict=True):
            if ahead >= 0.0:
                assert check.margin >= least - ROOM, check
            if ahead < -room:
                assert check.margin < least, check


def test_a_limit_of_nothing_and_a_fit_have_no_such_number():
    none = model.at_least("a", "A", 1.0, 0.0, "mass", "hitch/PRACTICE")
    fits = model.fits("b", "B", 1.0, "", "hitch/PRACTICE")
    between = model.between("c", "C", 1.0, 0.5, 2.0, "mass", "hitch/PRACTICE")
    assert [beyond_of(check) for check in (none, fits, between)] == [None, None, None]
    most = model.at_most("d", "D", 70.0, 100.0, "mass", "hitch/PRACTICE", close_band=0.25)
    assert beyond_of(most) == (30.0, 5.0)
    assert beyond_of(model.within_band("e", "E", 7.0, 4.0, 9.0, "mass", "hitch/PRACTICE")) == (
        2.0,
        -3.0,
    )
