"""Tire sizes as people write them: read, printed, refused, asked about."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import tables
from calc.mechanics import (
    tire_load,
    tire_size,
    tires,
)
from calc.mechanics.tire_size import SizeError, decode
from tests.tire_rows import TABLE_SIZES, size

# --- decoding -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("26X12.00-12 NHS", "26x12.00-12 NHS"),
        ("320/85 R 24 122A8", "320/85R24 122A8"),
        ("12.4 x 24", "12.4-24"),
        ("23 x 8.5 - 12", "23x8.50-12"),
        ("18x8.50x8", "18x8.50-8"),
        ("12,4–24", "12.4-24"),
        ("26×12,00-12nhs", "26x12.00-12 NHS"),
        ("IF 380/85R34", "IF380/85R34"),
        ("VF380/85R34 153D", "VF380/85R34 153D"),
        ("12.4/11-28", "12.4/11-28"),
        ("7.5-16", "7.50-16"),
        ("750-16", "7.50-16"),
        ("9.5-24", "9.5-24"),
        ("9.5L-15SL 8 ply", "9.5L-15 8PR SL"),
        ("12-16.5 12PR 144A3", "12-16.5 144A3 12PR"),
        ("11.2-24 6PR r1", "11.2-24 6PR R-1"),
        ("22.5LL-16.1", "22.5LL-16.1"),
        ("27x12LL-15", "27x12LL-15"),
        ("28LR26", "28LR26"),
        ("320/85R24 122A8/119B TL", "320/85R24 122A8/119B TL"),
        ("480/80R42 156/153A8 R-1W", "480/80R42 156/153A8 R-1W"),
        ("33x12.50R16.5", "33x12.50R16.5"),
        ("212/80D15", "212/80D15"),
        ("14.9R-28 **", "14.9R28"),
    ],
)
def test_sizes_as_people_type_them(typed: str, printed: str) -> None:
    assert decode(typed).text == printed


def test_service_description() -> None:
    service = decode("320/85R24 122A8/119B").services
    assert [(s.load_index, s.speed_symbol) for s in service] == [(122, "A8"), (119, "B")]
    assert tire_load.load_of_index(service[0].load_index) == 1500


@pytest.mark.parametrize(
    ("typed", "part"),
    [
        ("16x4", "16x4"),
        ("27/12LLx15", "LLX"),
        ("12.4", "12.4"),
        ("foo", "foo"),
        ("", ""),
        ("12.4Q24", "Q"),
        ("12.4-240", "240"),
        ("320/25R24", "25"),
        ("320/85/24", "/"),
        ("320/85R24 122Q", "Q"),
        ("320/85R24 300A8", "300"),
        ("12.4-24 BANANA", "BANANA"),
        ("XX12.4-24", "XX"),
        ("12x6.00-12", "12"),
        ("9999/85R24", "9999"),
        ("9" * 200, "9" * 20 + "..."),
    ],
)
def test_a_size_that_cant_be_read_names_the_part(typed: str, part: str) -> None:
    with pytest.raises(SizeError) as caught:
        decode(typed)
    assert caught.value.part == part
    assert part in str(caught.value)
    assert "12.4-24" in str(caught.value), "the accepted forms are shown"


@pytest.mark.parametrize("text", TABLE_SIZES)
def test_every_size_of_the_table_reads_and_prints_as_itself(text: str) -> None:
    assert decode(text).size == text
    assert tires.table_row(decode(text)) is not None


def test_every_example_form_reads() -> None:
    for row in tables.rows("tires/tire_designations"):
        assert decode(row["example"]).size == row["example"]


@given(
    st.sampled_from(TABLE_SIZES),
    st.sampled_from(["", " 6PR", " 122A8", " 122A8/119B", " 112/110A8", " NHS", " TL", " 8 ply"]),
    st.sampled_from(["", " R-1", " R4", " F-2"]),
    st.sampled_from(["", " ", "  "]),
)
def test_decoding_then_printing_is_stable(base: str, marks: str, tread: str, gap: str) -> None:
    found = decode(gap + base.replace("-", gap + "-" + gap) + marks + tread)
    assert decode(found.text) == found
    assert decode(found.text).text == found.text


@given(st.text(max_size=90))
def test_any_text_either_reads_or_is_refused_with_a_sentence(text: str) -> None:
    try:
        found = decode(text)
    except SizeError as error:
        assert "Sizes look like" in str(error)
    else:
        assert decode(found.text) == found
        assert tires.dimensions(found).rolling_circumference > 0


# --- traps ----------------------------------------------------------------------------------------


def test_trap_flotation_diameter_is_a_name() -> None:
    found = size("20x8.00-8")
    assert found.overall_diameter * 1000 == pytest.approx(480)
    estimated, error = tires.estimated_diameter(decode("22x11.00-10"))
    assert estimated < 22 * 0.0254
    assert estimated * (1 - error) / (22 * 0.0254) == pytest.approx(0.94, abs=0.001)


def test_size_error_is_a_value_error_with_a_part() -> None:
    assert issubclass(tire_size.SizeError, ValueError)
    assert not math.isnan(size("7-16").rolling_circumference)


# --- sizes as people write them -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("15x19.5 R4", "15-19.5 R-4"),
        ("15x19.5R4", "15-19.5 R-4"),
        ("12.4/24", "12.4-24"),
        ("11.2 24 bar", "11.2-24 R-1"),
        ("10.0-16.5", "10-16.5"),
        ("7.0-14", "7-14"),
        ("R1 12.4-24", "12.4-24 R-1"),
        ("turf 26x12-12", "26x12.00-12 R-3"),
        ("LR-C 23x10.50-12 TL", "23x10.50-12 6PR TL"),
        ("320/85 R24 R1W 122A8/119B", "320/85R24 122A8/119B R-1W"),
        ('12.4"-24"', "12.4-24"),
        ("13.6 - 28 (tube type)", "13.6-28 TT"),
        ("16.9 x 24 R4 12 ply TL IND NRO", "16.9-24 12PR R-4 TL IND NRO"),
        ("9.5L15 SL", "9.5L-15 SL"),
        ("12.5/80x18", "12.5/80-18"),
        ("23-8.50-12", "23x8.50-12"),
        ("9.50-24", "9.5-24"),
        ("7.50-16", "7.50-16"),
        ("6.00-16 3 rib T/T", "6.00-16 F-2 TT"),
        ("12.4-24.", "12.4-24"),
        ("147A8 (147B) 400/70R18", "400/70R18 147A8/147B"),
    ],
)
def test_sizes_with_what_stands_on_the_sidewall(typed: str, printed: str) -> None:
    assert decode(typed).text == printed


@pytest.mark.parametrize(
    ("typed", "asked"),
    [
        ("17.5-24", "17.5L-24"),
        ("12x26-12", "larger than the width"),
        ("15x19.5-12", "larger than the width"),
        ("12.4-24 radial", "R is a radial"),
        ("9.5-16 banana", "BANANA"),
        ("23x10.50-12 LR Q", "load range Q"),
    ],
)
def test_what_could_be_another_tire_is_asked_about(typed: str, asked: str) -> None:
    with pytest.raises(SizeError, match=asked):
        decode(typed)


@pytest.mark.parametrize(
    ("typed", "size"),
    [
        ("26 12.00 12", "26x12.00-12"),
        ("26x12 12", "26x12.00-12"),
        ("23/8.50-12", "23x8.50-12"),
        ("24 8.50 12 turf", "24x8.50-12"),
        ("11 L 15", "11L-15"),
        ("420 85 R28", "420/85R28"),
        # Where the first isn't the largest of three, the third is no rim.
        ("12 16.5 10 ply", "12-16.5"),
        ("13.6 28 8PR", "13.6-28"),
        ("12.5/80-18", "12.5/80-18"),
        ("12.4/11-28", "12.4/11-28"),
        ("15x19.5 R4", "15-19.5"),
    ],
)
def test_spaces_and_slashes_stand_for_the_signs_between_the_parts(typed: str, size: str) -> None:
    assert decode(typed).size == size


def test_a_rib_and_a_light_truck_marking_are_read() -> None:
    assert decode("6.00-16 F2 triple rib").text == "6.00-16 F-2"
    assert decode("7.50x16 LT").text == "7.50-16 LT"


@pytest.mark.parametrize(
    ("typed", "text"),
    [
        ("P235/75R15", "235/75R15 P"),
        ("LT235/75R15", "235/75R15 LT"),
        ("ST 205/75 R15", "205/75R15 ST"),
        ("lt235/75-15 lre", "235/75-15 10PR LT"),
        ("12x16.5 10 ply skid steer", "12-16.5 10PR"),
        ("11L-15 implement", "11L-15 IMP"),
        ("backhoe 19.5L-24 R4", "19.5L-24 R-4"),
    ],
)
def test_marks_of_cars_trailers_and_loaders_stand_before_or_after_a_size(
    typed: str, text: str
) -> None:
    assert decode(typed).text == text


def test_a_rim_of_odd_inches_is_a_question() -> None:
    assert decode("8.5-24").rim == 24 and decode("14.00-25").rim == 25
    assert decode("4.00-19").rim == 19
    for typed in ("8.5-27", "27-8.5", "11.2-29", "11.2-23", "26x12.00-21"):
        with pytest.raises(SizeError):
            decode(typed)
