"""Numbers of a message, however they are said."""

import pytest

from calc import reading


@pytest.mark.parametrize(
    ("said", "offer"),
    [
        ("14 thousand", 14_000),
        ("$14 thousand", 14_000),
        ("14 grand", 14_000),
        ("14.5 thousand", 14_500),
        ("14k", 14_000),
        ("140 hundred", 14_000),
        ("14000", 14_000),
    ],
)
def test_a_word_behind_a_number_multiplies_it(said, offer):
    found = reading.read(f"Should I trade it in? They offer {said} on trade.").questions[0]
    assert found.worksheet == "resale"
    assert found.inputs["trade_offer"] == f"${offer}"
