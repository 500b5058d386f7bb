"""Numbers of a message, however they are said."""

import pytest

from calc import reading
from tests.reading.questions import first


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
    found = first(f"Should I trade it in? They offer {said} on trade.")
    assert found.worksheet == "resale"
    assert found.inputs["trade_offer"] == f"${offer}"


@pytest.mark.parametrize("said", ["$120 an hour", "$120 per hour", "$120/hr"])
def test_a_dollar_sign_stands_before_what_is_paid_by_the_hour(said):
    found = first(f"The shop charges {said}. Fix it before I sell it?")
    assert found.inputs["shop_rate"] == "120 $/h"
    priced = reading.read("Diesel is $4.20 a gallon, should I get the hydro or the gear?").questions
    assert priced[0].inputs["fuel_price"] == "4.20 $/gal"
