"""Hitch categories, sleeves and couplers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import sources, tables
from calc.mechanics import hitch, hitch_fit, identify_hitch, quick_coupler

categories = st.sampled_from(hitch.CATEGORIES)


def test_every_citation_of_the_hitch_tables_is_on_a_shelf() -> None:
    for name in (
        "hitch/hitch_sizes",
        "hitch/hitch_power",
        "hitch/coupler_sizes",
        "hitch/coupler_sleeves",
        "hitch/coupler_conflicts",
        "hitch/coupler_effects",
        "power/pto_types",
    ):
        for row in tables.rows(name):
            for column, value in row.items():
                if column.endswith("source") and value:
                    sources.find(value)


def test_every_category_has_pins_and_a_span() -> None:
    for category in hitch.CATEGORIES:
        assert hitch.size("lower_pin", category) > 0.01
        assert hitch.size("shoulder_span", category) > 0.3


@pytest.mark.parametrize("item", ["lower_pin", "upper_pin", "shoulder_span", "lower_bore"])
def test_sizes_rise_with_the_number(item: str) -> None:
    sizes = [hitch.size(item, number) for number in "01234"]
    assert sizes == sorted(sizes)
    assert len(set(sizes)) == 5


def test_upper_pin_is_never_larger_than_lower() -> None:
    for number in "01234":
        assert hitch.size("upper_pin", number) <= hitch.size("lower_pin", number)


@given(categories)
def test_an_n_category_has_its_own_pins_and_the_next_lower_span(category: str) -> None:
    if category.endswith("N") and category != "1N":
        assert hitch.size("lower_pin", category) == hitch.size("lower_pin", category[0])
        lower = hitch.span_number(category)
        assert hitch.size("shoulder_span", category) == hitch.size("shoulder_span", lower)


@given(categories)
def test_a_category_identifies_itself(category: str) -> None:
    upper = hitch.size("upper_pin", category) if hitch.has_size("upper_pin", category) else None
    found = identify_hitch.identify(
        hitch.size("lower_pin", category), upper, hitch.size("shoulder_span", category)
    )
    assert found[0].name == category
    assert found[0].misfit == 0.0


@given(categories, st.floats(-1e-3, 1e-3), st.floats(-0.015, 0.015))
def test_a_worn_category_is_still_identified(category: str, pin: float, span: float) -> None:
    found = identify_hitch.identify(
        hitch.size("lower_pin", category) + pin,
        None,
        hitch.size("shoulder_span", category) + span,
    )
    assert category in [item.name for item in found]
    assert all(item.misfit <= 1.0 for item in found)


def test_without_a_span_a_pin_leaves_the_n_open() -> None:
    assert {c.name for c in identify_hitch.identify(lower_pin=0.028)} == {"2", "2N"}


def test_nothing_measured_is_refused() -> None:
    with pytest.raises(ValueError, match="measured"):
        identify_hitch.identify()


@given(categories, categories)
def test_pins_by_category_agree_with_pins_by_size(tractor: str, implement: str) -> None:
    bore = hitch.size("lower_bore", hitch.pin_number(tractor))
    pin = hitch.size("lower_pin", hitch.pin_number(implement))
    assert hitch_fit.pin_fit(pin, bore) == hitch_fit.pins_fit(tractor, implement)


@given(categories, categories)
def test_span_difference_is_antisymmetric(one: str, other: str) -> None:
    assert hitch_fit.span_difference(one, other) == pytest.approx(
        -hitch_fit.span_difference(other, one)
    )
    assert hitch_fit.spans_fit(one, other) == hitch_fit.spans_fit(other, one)


@given(st.floats(0.2, 1.5), st.floats(0.0, 0.5), st.floats(0.2, 2.0))
def test_reach_gap_is_zero_inside_only(low: float, width: float, span: float) -> None:
    gap = hitch_fit.reach_gap(low, low + width, span)
    assert (gap == 0.0) == (low <= span <= low + width)


def test_reach_upside_down_is_refused() -> None:
    with pytest.raises(ValueError, match="narrowest"):
        hitch_fit.reach_gap(0.8, 0.7, 0.75)


@pytest.mark.parametrize(("pin", "bore"), [(0.0, 0.02), (-0.01, 0.02), (0.02, 0.0)])
def test_a_pin_and_a_bore_are_larger_than_nothing(pin: float, bore: float) -> None:
    with pytest.raises(ValueError, match="larger than nothing"):
        hitch_fit.pin_slack(pin, bore)


@pytest.mark.parametrize("category", ["", "5", "II", "1M", "N"])
def test_an_unknown_category_is_refused(category: str) -> None:
    with pytest.raises(LookupError):
        hitch.pin_number(category)


def test_every_sleeve_takes_its_pin_and_fills_its_opening() -> None:
    for row in tables.rows("hitch/coupler_sleeves"):
        inside, outside = hitch_fit.inches(row["inside_in"]), hitch_fit.inches(row["outside_in"])
        pin = hitch.size(f"{row['place']}_pin", row["pin_number"])
        assert abs(inside - pin) < 1e-3
        assert outside > inside


@pytest.mark.parametrize("coupler", ["1", "2", "3N", "3"])
def test_a_coupler_s_own_category_goes_on_with_sleeves_or_bare(coupler: str) -> None:
    number = hitch.pin_number(coupler)
    expected = "fits" if number == "3" else "sleeve"
    assert quick_coupler.coupler_pins_fit(coupler, coupler) == expected
    assert quick_coupler.coupler_span_difference(coupler, coupler) == 0.0


def test_category_4_pins_do_not_go_into_a_coupler() -> None:
    with pytest.raises(ValueError, match="larger than the coupler's slot"):
        quick_coupler.coupler_sleeves("3", "4")


def test_the_coupler_s_effects() -> None:
    assert quick_coupler.coupler_setback() == pytest.approx(0.100)
    assert quick_coupler.coupler_mass() == (30.0, 50.0)


@given(st.sampled_from(["iso_1994", "older_drawbar"]), st.floats(1e3, 350e3))
def test_categories_for_a_power_are_neighbors(basis: str, power: float) -> None:
    found = [int(c) for c in hitch.categories_for_power(power, basis)]
    assert found == list(range(found[0], found[0] + len(found))) if found else True


# --- traps ---------------------------------------------------------------------------------


def test_trap_3n_looks_like_2() -> None:
    """The same 825 mm span, but the pins are 36.6 mm: they don't go into Category 2 balls."""
    assert hitch_fit.spans_fit("2", "3N") == "same"
    assert hitch_fit.pins_fit("2", "3N") == "too big"


def test_trap_old_mast_on_a_new_hitch() -> None:
    """A Category 2 implement with the older mast: pins and span fit, the top link doesn't."""
    gap = hitch_fit.mast_gap(hitch.size("mast_height", "2"), hitch.size("mast_height_old", "2"))
    assert abs(gap) > identify_hitch.MAST_TOLERANCE
    same = hitch_fit.mast_gap(hitch.size("mast_height", "1"), hitch.size("mast_height_old", "1"))
    assert abs(same) < identify_hitch.MAST_TOLERANCE


@pytest.mark.parametrize(
    ("chart", "number"),
    [(26, "1"), (28, "1"), (32, "2"), (34, "2"), (38, "3"), (40, "3"), (46, "4"), (48, "4")],
)
def test_trap_two_kinds_of_chart(chart: float, number: str) -> None:
    """Charts print spans between shoulders or between ball centers; both name one category."""
    assert hitch_fit.span_category(chart * 0.0254).number == number


def test_trap_ball_centers_taken_for_shoulders() -> None:
    """870 mm between ball centers is an 825 mm span, not a wide Category 2."""
    assert hitch_fit.shoulder_span(0.870, "ball centers", "2") == pytest.approx(0.825)
    assert identify_hitch.identify(0.028, None, 0.870) == ()
    assert [c.name for c in identify_hitch.identify(0.028, None, 0.825)] == ["2"]


def test_trap_holes_taken_for_pins() -> None:
    """22.4, 28.7, 37.4 and 51 mm are holes: a pin of that size wouldn't enter its own ball."""
    for number in "1234":
        bore, pin = hitch.size("lower_bore", number), hitch.size("lower_pin", number)
        assert hitch.bore_category(bore) == number
        assert hitch_fit.pin_fit(pin, bore) == "fits"
        assert hitch_fit.pin_fit(bore + 1e-6, bore) == "too big"


def test_trap_ball_sleeve_taken_for_a_coupler_sleeve() -> None:
    """A Category 1 pin needs a 1-7/16 in sleeve in a coupler, a 1-1/8 in one in a ball."""
    coupler = hitch_fit.sleeve("coupler", "lower", "1")
    ball = hitch_fit.sleeve("ball", "lower", "1")
    assert coupler is not None and ball is not None
    slot, bore = quick_coupler.coupler_slot("1", "lower"), hitch.size("lower_bore", "2")
    assert hitch_fit.pin_fit(hitch_fit.inches(coupler["outside_in"]), slot) == "fits"
    assert hitch_fit.pin_fit(hitch_fit.inches(ball["outside_in"]), slot) == "sleeve"
    assert hitch_fit.pin_fit(hitch_fit.inches(coupler["outside_in"]), bore) == "too big"


def test_trap_category_1_pin_bare_in_a_category_2_ball() -> None:
    """6.7 mm of play looks as if it fits; it needs a bushing, always."""
    pin, bore = hitch.size("lower_pin", "1"), hitch.size("lower_bore", "2")
    assert hitch_fit.pin_slack(pin, bore) == pytest.approx(6.7e-3)
    assert hitch_fit.pin_fit(pin, bore) == "sleeve"
    assert len(hitch_fit.ball_sleeves("2", "1")) == 2


def test_trap_digger_on_a_coupler() -> None:
    """Its boom stands in for the top link: no sleeve helps."""
    row = quick_coupler.coupler_conflict("post_hole_digger")
    assert row is not None and row["verdict"] == "no"


def test_trap_us_chart_power_taken_for_engine_power() -> None:
    """The chart's 20-45 hp are drawbar power: 47 PTO hp of the ISO row is still Category 1."""
    power = 47 * 745.7
    assert hitch.categories_for_power(power, "iso_1994") == ("1", "2")
    assert "1" not in hitch.categories_for_power(power, "older_drawbar")


def test_trap_limited_category_1_has_the_pins_but_not_the_lift() -> None:
    """A garden tractor's hitch takes Category 1 pins and lifts 330 mm, not 610 mm."""
    assert hitch.size("lower_pin", hitch.LIMITED) == hitch.size("lower_pin", "1")
    assert hitch.size("lift_range_min", "1L") < 0.6 * hitch.size("lift_range_min", "1")
    assert hitch.pin_number("1L") == "1"


def test_trap_two_category_4_masts() -> None:
    """Category 4 has two sizes; the table must not settle on one."""
    low, high = hitch.size_range("mast_height", "4")
    assert low < high
