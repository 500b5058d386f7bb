"""Tire sizes as yards, sidewalls and letters spell them: read, or asked about, never another."""

import pytest

from calc import tables
from calc.mechanics import tires
from calc.mechanics.tire_size import SizeError, decode


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("18x850-8", "18x8.50-8"),
        ("27-850-15", "27x8.50-15"),
        ("10-16.5 SKS 8PR", "10-16.5 8PR"),
        ("405/70 R 20 MPT", "405/70R20 MPT"),
        ("10.5/80-18 MPT 10PR", "10.5/80-18 10PR MPT"),
        ("13.00-25", "13.00-25"),
        ("6.5/80-15", "6.5/80-15"),
        ("26x1200-12", "26x12.00-12"),
        ("23/1050-12", "23x10.50-12"),
        ("26 by 12 by 12", "26x12.00-12"),
        ("17.5L by 24", "17.5L-24"),
        ("12.4-11-24", "12.4/11-24"),
        ("12.4/11x24", "12.4/11-24"),
        ("12.5-80-18", "12.5/80-18"),
        ("320-85R24", "320/85R24"),
        ("340/85-R24", "340/85R24"),
        ("4.80/4.00-8", "4.80/4.00-8"),
        ("6 ply 7-16", "7-16 6PR"),
        ("8 ply rated 11.2-24", "11.2-24 8PR"),
        ("7-16-6PR", "7-16 6PR"),
        ("11.2-24 -6PR", "11.2-24 6PR"),
        ("11.2-24 PR 6", "11.2-24 6PR"),
        ("11.2-24 ply rating 8", "11.2-24 8PR"),
        ("11.2-24 bias ply 6PR", "11.2-24 6PR"),
        ("11.2R24 radial", "11.2R24"),
        ("280/85R24 115A8/B TL", "280/85R24 115A8/115B TL"),
        ("380/85R28 (14.9R28) 133A8", "380/85R28 133A8"),
        ("11.2 R 24 / 280/85 R 24", "11.2R24"),
        ("320/85R28 (12.4R28)", "320/85R28"),
        ("6.00-16 tri-rib", "6.00-16 F-2"),
        ("6.00-16 tri-ribbed", "6.00-16 F-2"),
        ("7.50-16 four rib", "7.50-16 F-2M"),
        ("43x16-20 R4s", "43x16.00-20 R-4"),
        ("17.5L-24 industrials", "17.5L-24 R-4"),
        ("8.3-24 rice and cane", "8.3-24 R-2"),
        ("23x10.5-12 turf saver", "23x10.50-12 R-3"),
        ("26x12-12 ag", "26x12.00-12 R-1 AG"),
        ("12.00-16.5", "12-16.5"),
        ("700R16", "7.00R16"),
        ("400-19", "4.00-19"),
        ("18.4-16.1", "18.4-16.1"),
        ("12.4-24 R1 bar", "12.4-24 R-1"),
        ("12.4R24 R-1W lug", "12.4R24 R-1W"),
        ("26x12-12 turf R3", "26x12.00-12 R-3"),
        ("12.4-24 LRC 6 ply", "12.4-24 6PR"),
        ("11L-15 8PR F-I", "11L-15 8PR FI"),
        ("R1 6 ply 7-16", "7-16 6PR R-1"),
        ("R-1 7-16 6 P.R.", "7-16 6PR R-1"),
        ("11.2R24 114A8 & 111B", "11.2R24 114A8/111B"),
        ("10x16.50", "10-16.5"),
        ("12.5x80x18", "12.5/80-18"),
        ("rears: 16.9-30", "16.9-30"),
        ("33x12.5-15 HF", "33x12.50-15 HF"),
        ("520/85R38 (20.8R38)", "520/85R38"),
        ("280/70-16 bias R1", "280/70-16 R-1 BIAS"),
        ("250/80-18", "250/80-18"),
        ("13.6-24,8PR", "13.6-24 8PR"),
        ("320/85R24,122A8,R-1W", "320/85R24 122A8 R-1W"),
        ("12,4-24", "12.4-24"),
        ("420/70R24 130A8 (B) TL", "420/70R24 130A8/130B TL"),
        # no dash says bias beside the word
        ("18.4x30 radial", "18.4R30"),
        ("320/85-24 radial R1W", "320/85R24 R-1W"),
    ],
)
def test_spellings_are_read(typed: str, printed: str) -> None:
    assert decode(typed).text == printed


@pytest.mark.parametrize(
    ("typed", "asked"),
    [
        ("320 85 24", "R for radial"),
        ("14.9L-24", "14.9-24 is: is there really an L"),
        ("18.4L-30 R1", "18.4-30 is"),
        ("2.5/80-18", "12.5?"),
        ("11.2-25", "tractors don't have"),
        # a part left out, which makes another size of it
        ("12-16", "12-16.5 is"),
        ("12x16 R4", "12-16.5 is"),
        ("15-19", "15-19.5 is"),
        ("33x12.50-16", "33x12.50R16.5 is"),
        ("8.50-12", "23x8.50-12 is"),
        ("10.5x12", "23x10.50-12 is"),
        ("14-20", "41x14.00-20 is"),
        ("5-15", "5.00-15 is"),
        ("320R24", "320/85R24"),
        ("280R16", "280/85R16"),
        ("420-28", "millimeters"),
        ("34/85R24", "340"),
        ("24/70R16", "240"),
        # the two confused
        ("7.0-16", "7.00-16"),
        ("8.0-16", "8.00-16"),
        ("11.2-4", "swapped"),
        ("16.9-12", "swapped"),
        ("27x15-8.5", "8.5"),
        # two tires in one field
        ("7.50-16 (8-16)", "two sizes"),
        ("7-16/11.2-24", "11.2"),
        ("380/85R28 (13.6R28)", "two sizes"),
        ("11.2-24 bias ply radial", "R is a radial"),
        ("11.2-24 7 ply", "even"),
        ("11.2-24 0PR", "even"),
        ("11.2-24 40PR", "even"),
        ("280/85R24 115A8/Q", "speed symbol"),
        ("14.9/24-28", "two sizes"),
        # two of a kind that say otherwise
        ("12.4-24 R1 R4", "two treads, R-1 and R-4"),
        ("12.4-24 R-1/R-3", "two treads"),
        ("26x12.00-12 R-4 turf", "two treads"),
        ("turf 26x12.00-12 R-4", "two treads"),
        ("6.00-16 F-2 four rib", "two treads"),
        ("12.4-24 6PR 8PR", "two ply ratings, 6 and 8"),
        ("12.4-24 LRC 8 ply", "two ply ratings"),
        ("8.3-24 6 ply vs 8 ply", "two ply ratings, 6 and 8"),
        ("9.5-24 same height as 8.3-24", "two sizes, 9.5-24 and 8.3-24"),
        ("7-16 or 8-16", "two sizes"),
        # marks without their size
        ("121A8", "type the size"),
        ("8PR", "type the size"),
        ("R4 tires", "type the size"),
        # parts left out or turned round
        ("280/70-16", "280/70R16 is: is there an R"),
        ("65/600R28", "millimeters"),
        ("10-16", "10-16.5"),
        ("112-24", "is it 11.2-24"),
        ("95-24", "is it 9.5-24"),
        ("320/85x24", "320/85R24 is: is there an R"),
        ("18.4-30 radial", "R is a radial"),
        # a number behind the size
        ("13.6-28/8", "Then type 13.6-28 8PR"),
        ("9.5-24/8", "Then type 9.5-24 8PR"),
        ("13.6-28 (10)", "Then type 13.6-28 10PR"),
        ("13.6-28 7", 'part "7" after the size'),
        ("12.4-24 R5", 'part "R5" after the size'),
    ],
)
def test_what_would_read_as_another_tire_is_asked_about(typed: str, asked: str) -> None:
    with pytest.raises(SizeError, match=asked):
        decode(typed)


def test_look_alikes_are_two_tires() -> None:
    # tires/TY-A lists 6-12 (drive) and 6.00-12 apart; the trade does so with 7-16 and 8-16.
    for row in tables.rows("tires/look_alikes"):
        drive, steer = decode(row["drive"]), decode(row["steer"])
        assert drive.size != steer.size
        assert tires.lookup_key(drive) != tires.lookup_key(steer)


def test_two_descriptions_on_one_sidewall_are_two_speeds() -> None:
    assert [s.text for s in decode("280/85R24 115A8/B").services] == ["115A8", "115B"]


@pytest.mark.parametrize(("size", "real"), [("7.5L-15", 0.745), ("14.00-24", 1.37)])
def test_an_estimate_far_outside_its_rule_has_a_wide_band(size: str, real: float) -> None:
    # What the trade measures of either; common practice, no source.
    found = tires.dimensions(decode(size))
    assert abs(real / found.overall_diameter - 1) <= found.diameter_error
    inside = tires.dimensions(decode("13.6-26"))
    assert inside.diameter_error < tires.OUTSIDE_RULE
