"""Two pairs of front and rear tires in one message."""

import pytest

from calc import reading

OLD = {"front_tire": "9.5-16", "rear_tire": "13.6-24"}
NEW = {"new_front_tire": "12-16.5", "new_rear_tire": "17.5L-24"}


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("swap his 9.5-16 / 13.6-24 ag tires for R4s, 12-16.5 and 17.5L-24?", {**OLD, **NEW}),
        (
            "can I put 12-16.5 front and 17.5L-24 rear on instead of my 9.5-16 front 13.6-24 rear",
            {**OLD, **NEW},
        ),
        # 9.5-16 and 10-16.5 are no front and rear: tires/PR-1 has none nearer than 1.29
        (
            "Change fronts from 9.5-16 to 10-16.5 and rears from 13.6-24 to 14.9-24?",
            {**OLD, "new_front_tire": "10-16.5", "new_rear_tire": "14.9-24"},
        ),
    ],
)
def test_two_pairs_are_told_apart(text: str, wanted: dict[str, str]) -> None:
    (question,) = reading.read(text).questions
    found = {each.name: each.text for each in question.filled}
    assert {name: found.get(name) for name in wanted} == wanted
