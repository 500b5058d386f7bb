"""What formulas refuse."""

import math

import pytest

from calc.mechanics import bounds


@pytest.mark.parametrize(
    ("check", "taken", "refused"),
    [
        (bounds.check_above_zero, [1e-12, 3.0], [0.0, -1e-12, math.nan]),
        (bounds.check_not_negative, [0.0, 3.0, math.inf], [-1e-12, math.nan]),
        (bounds.check_amount, [0.0, 3.0], [-1e-12, math.nan, math.inf]),
    ],
)
def test_a_value_that_cannot_be_is_refused_by_its_name(check, taken, refused):
    for value in taken:
        check(top_speed=value, gap=1.0)
    for value in refused:
        with pytest.raises(ValueError, match="The top speed must be"):
            check(gap=1.0, top_speed=value)


def test_a_wheelbase_and_what_stands_on_it():
    bounds.check_geometry(1.5, 0.0, 2.0)
    with pytest.raises(ValueError, match="wheelbase"):
        bounds.check_geometry(0.0, 1.0)
    with pytest.raises(ValueError, match="Masses and distances"):
        bounds.check_geometry(1.5, 1.0, -1e-12)
