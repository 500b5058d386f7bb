"""On a phone a calculator is short, and its verdict stays in sight while a field is edited."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

from calc import worksheets
from scripts.lengths import ANSWER_AFTER, FIRST_FIELD, WHOLE, length


@pytest.mark.parametrize("name", worksheets.names())
def test_short_and_in_sight(browser: Browser, address: str, name: str) -> None:
    found = length(browser, address, name, worksheets.load(name).page)
    assert found.first_field <= FIRST_FIELD
    assert found.answer_after <= ANSWER_AFTER
    assert found.whole <= WHOLE
    assert found.blind == ()
