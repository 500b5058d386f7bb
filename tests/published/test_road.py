"""Road travel against published numbers. The source stands beside each check.

Sources are named as in calc/tables/sources/road.csv. A source marked memory there was not read
again; the check then says that we agree with the value as it is widely known.
"""

import pytest

from calc import tables
from calc.mechanics import (
    braking,
    electrical_load,
    road_limits,
    road_rules,
    smv_emblem,
    wiring,
)
from tests.published.rows import published

FOOT, INCH = 0.3048, 0.0254
MPH = 0.44704
KMH = 1 / 3.6


# --- electrical -----------------------------------------------------------------------------------


@pytest.mark.parametrize(("watts", "amps"), [(55, 4.58), (60, 5.0)])
def test_lamp_current(watts, amps):
    of, ours = electrical_load.lamp_current, electrical_load.lamp_current(watts)
    why = "printed to 0.01 A"
    published(of, f"{watts} W at 12 V", amps, ours, 0.005, why, "road/WEB-10", unit="A")


@pytest.mark.parametrize(
    ("loop_ft", "amps", "gauge"),
    [
        (10, 5, 18),
        (10, 10, 14),
        (10, 15, 12),
        (10, 25, 10),
        (20, 5, 14),
        (20, 10, 10),
        (20, 15, 10),
        (20, 20, 8),
    ],
)
def test_wire_size_for_three_percent_of_12_volts(loop_ft, amps, gauge):
    # road/WEB-12 table A. Its cell for 20 A and 10 ft prints 12 although 10 A and 20 ft, the
    # same area, prints 10: see test_trap_wire_table_contradicts_itself.
    area = wiring.area_needed(amps, loop_ft * FOOT, 0.36)
    of, given = wiring.smallest_gauge, f"{amps} A over {loop_ft} ft there and back, 3 % of 12 V"
    ours = wiring.smallest_gauge(area)
    assert ours is not None
    published(of, given, gauge, ours, 0, "a whole gauge", "road/WEB-12", "table A", unit="AWG")


def test_stranded_wire_at_75_degrees():
    ours = wiring.wire_resistance(12, 1000 * FOOT, "AWG stranded 75 C")
    of, given = wiring.wire_resistance, "1000 ft of 12 AWG, stranded, 75 °C"
    why = "kept as read, printed to 0.01 ohm"
    published(of, given, 1.98, ours, 0.005, why, "road/WEB-13", unit="ohm")


@pytest.mark.parametrize(
    ("gauge", "ohms"),
    [(18, 6.385), (16, 4.016), (14, 2.525), (12, 1.588), (10, 0.9989), (8, 0.6282)],
)
def test_resistance_at_20_degrees_from_area_and_the_constant_of_copper(gauge, ohms):
    area = float(tables.by_key("road/wire_sizes", "gauge")[str(gauge)]["awg_circular_mils"])
    given, source = f"1000 ft of {gauge} AWG at 20 °C", "road/PHY-1"
    ours = wiring.OHM_CIRCULAR_MIL_PER_FOOT_20C / area * 1000
    of, why = "mechanics.wiring.OHM_CIRCULAR_MIL_PER_FOOT_20C", "four figures of the constant"
    published(of, f"{given}, by area", ohms, ours, 1e-3 * ohms, why, source, unit="ohm")
    of, ours = wiring.wire_resistance, wiring.wire_resistance(gauge, 1000 * FOOT, "AWG")
    why = "kept as read, to four figures"
    published(of, given, ohms, ours, 1e-4 * ohms, why, source, unit="ohm")


# --- braking --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kmh", "top_kmh", "meters"), [(30, 30, 14.28), (40, 40, 18.31), (25, 30, 10.54)]
)
def test_type_approval_stop(kmh, top_kmh, meters):
    # The distances are worked out here by the formula that road/EU-2 prints for each class.
    found = braking.approval_stopping_distance(kmh * KMH, top_kmh * KMH)
    assert found == pytest.approx(meters, abs=0.005)


def test_type_approval_deceleration_belongs_to_the_formula():
    # It prints both v²/92 and 3.55 m/s²; they are one and the same.
    row = braking.approval_class(30 * KMH)
    ours = 12.96 * 2 * float(row["deceleration"])
    of, given = braking.approval_class, "divisor of v², km/h, to 30 km/h"
    why = "printed as a whole number"
    published(of, given, 92, ours, 0.5, why, "road/EU-2, annex II")


@pytest.mark.parametrize(
    ("rule", "said", "tractor", "towed", "source"),
    [
        ("unbraked-32", "no brakes, to 32 km/h", 1000, 1500, "road/MAN-2"),
        ("unbraked-25", "no brakes, to 25 km/h", 1000, 1000, "road/MAN-4"),
        ("unbraked-3000", "no brakes, at most 3000 kg", 5000, 3000, "road/MAN-5"),
        ("braked-40", "brakes, to 40 km/h", 1000, 4500, "road/MAN-2"),
        ("braked-50", "brakes, to 50 km/h", 1000, 3000, "road/MAN-2"),
    ],
)
def test_towed_mass_ratios(rule, said, tractor, towed, source):
    ours = braking.mass_limit(rule, tractor)
    of, given = braking.mass_limit, f"{said}, tractor of {tractor} kg"
    why = "exact; below a ratio is short of it by a millionth"
    published(of, given, towed, ours, 2e-6 * towed, why, source, unit="kg")


# --- emblem ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("place", "low", "high", "source"),
    [
        ("US-STD", 2, 10, "road/EXT-2"),
        ("US-STD-old", 2, 6, "road/EXT-3"),
        ("NE", 2, 6, "road/NE-smv-emblem"),
        ("WA", 2, 6, "road/WA-smv-emblem"),
        ("CO", 2, 6, "road/CO-smv-emblem"),
        ("NY", 2, 6, "road/NY-smv-emblem"),
        ("CA", 3, 5, "road/CA-smv-emblem"),
        ("GA", 3, 5, "road/GA-smv-emblem"),
        ("MD", 3, 5, "road/MD-smv-emblem"),
    ],
)
def test_emblem_heights(place, low, high, source):
    emblem_edge(place, "lowest", low, source)
    emblem_edge(place, "highest", high, source)


def emblem_edge(place, edge, printed, source, unit=FOOT):
    """Hold one end of where the emblem may sit against a text."""
    ours = smv_emblem.emblem_window(place)[edge == "highest"] / unit
    of, given, why = smv_emblem.emblem_window, f"{edge} in {place}", "kept as read, exact"
    name = "ft" if unit == FOOT else "m"
    published(of, given, printed, ours, 1e-9, why, source, unit=name)


def test_emblem_heights_in_ontario_are_metric():
    emblem_edge("CANADA-ON", "lowest", 0.6, "road/CA-1", 1.0)
    emblem_edge("CANADA-ON", "highest", 2.0, "road/CA-1", 1.0)


def test_emblem_height_in_missouri_has_a_lower_end_only():
    emblem_edge("MO", "lowest", 4, "road/MO-smv-emblem")


def test_emblem_at_30_in():
    # road/LAW-NE, WA, CO, NY and the standard accept it; CA, GA, MD and MO don't.
    failing = smv_emblem.emblem_fails(30 * INCH)
    assert {"CA", "GA", "MD", "MO"} <= set(failing)
    assert not {"NE", "WA", "CO", "NY", "US-STD", "US-STD-old"} & set(failing)


@pytest.mark.parametrize(
    ("place", "mph", "use"),
    [
        ("OH", 25, "show"),  # ORC 4513.112
        ("OH", 32, "with symbol"),  # ORC 4513.113
        ("NY", 32, "with symbol"),  # 15 NYCRR, Governor's Traffic Safety Committee
        ("NY", 40, "not shown"),  # "above 25 but below 40 mph"
        ("PA", 26, "not shown"),  # 75 Pa.C.S. 4529
        ("CO", 30, "covered"),  # 1 CCR 204-10 rule 50
        ("MN", 30, "show"),  # Minn. Stat. 169.522
    ],
)
def test_emblem_by_speed(place, mph, use):
    assert smv_emblem.emblem_use(place, mph * MPH)[0] == use


def test_emblem_size():
    sizes = tables.by_key("road/emblem_sizes", "part")
    for part, printed, source in (
        ("height", 14, "road/LAW-NE"),
        ("border", 1.75, "road/LAW-NE"),
        ("seen from", 600 * 12, "road/LAW-IL564, 600 to 1000 ft"),
    ):
        of, ours = "road/emblem_sizes", road_rules.measure(sizes[part]["value"]) / INCH
        published(of, part, printed, ours, 1e-9, "kept as read, exact", source, unit="in")


PLAIN = {
    "tractor_width": 1.5,
    "implement_width": 1.6,
    "width": 1.6,
    "left": 0.8,
    "right": 0.8,
    "reach": 0.8,
    "behind": 1.0,
    "length": 5.0,
    "speed": 8.0,
    "made": 2015.0,
}


def wanted(place, **changes):
    found = road_rules.needs(place, {**PLAIN, **changes})
    return {(need.unit, need.item): need for need in found}


def required(place, what, printed, ours, source, unit):
    """Hold a measure that a place asks for against the text."""
    why = "kept as read, exact"
    published(road_rules.needs, f"{what}, {place}", printed, ours, 1e-9, why, source, unit=unit)


# --- lamps and markings ---------------------------------------------------------------------------


def test_warning_lamps_mark_the_width_from_12_ft():
    # road/WEB-1: machines at least 3.7 m (12 ft) wide; road/LAW-WI: within 16 in of the edge.
    need = wanted("TX", tractor_width=12 * FOOT)["tractor", "amber_flashers"]
    assert need.count == 2
    required("TX", "edge of an amber lamp, 12 ft wide", 16, need.edge / INCH, "road/LAW-WI", "in")
    assert wanted("TX", tractor_width=11.9 * FOOT)["tractor", "amber_flashers"].edge is None


def test_lamp_heights_of_the_standard():
    # road/EXT-1: 3 ft to 10 ft above the ground.
    need = wanted("TX")["tractor", "tail_lamps"]
    required("TX", "tail lamp, lowest", 3, need.height_low / FOOT, "road/EXT-1", "ft")
    required("TX", "tail lamp, highest", 10, need.height_high / FOOT, "road/EXT-1", "ft")


def test_reflectors_more_than_4_ft_behind_the_hitch():
    # road/LAW-WI2.
    assert ("towed", "rear_reflectors") not in wanted("TX", behind=4 * FOOT)
    assert ("towed", "rear_reflectors") in wanted("TX", behind=4.1 * FOOT)


def test_yellow_strip_more_than_4_ft_left():
    # road/LAW-WI2.
    assert ("towed", "left_front_strip") not in wanted("TX", left=4 * FOOT, reach=4 * FOOT)
    assert ("towed", "left_front_strip") in wanted("TX", left=4.5 * FOOT, reach=4.5 * FOOT)


def test_extremity_strips_more_than_6_ft_to_a_side():
    # road/LAW-WI2.
    found = wanted("TX", right=6.1 * FOOT, reach=6.1 * FOOT)
    assert ("towed", "rear_strips") in found
    assert ("towed", "amber_flashers") in found
    assert ("towed", "rear_strips") not in wanted("TX", right=6 * FOOT, reach=6 * FOOT)


def test_lamps_on_the_last_unit_beyond_16_4_ft():
    # road/LAW-WI2 and road/ASABE-1: 5 m.
    assert ("towed", "tail_lamps") in wanted("TX", behind=17 * FOOT)
    assert smv_emblem.emblem_on_towed("TX", False, 17 * FOOT, 2010) is not None
    assert smv_emblem.emblem_on_towed("TX", False, 16 * FOOT, 2010) is None


def test_wisconsin_wide_implement():
    # Wis. Stat. 347.24(3): red strips within 25 in of each edge, yellow within 16 in.
    found = wanted("WI", implement_width=15.5 * FOOT)
    rear, front = found["towed", "rear_strips"], found["towed", "front_strips"]
    source = "road/WI-wide-lighting"
    required("WI", "edge of a red strip, 15.5 ft wide", 25, rear.edge / INCH, source, "in")
    required("WI", "edge of a yellow strip, 15.5 ft wide", 16, front.edge / INCH, source, "in")


def test_kansas_hazard_lamps_by_day():
    # K.S.A. 8-1717: made after 1975, whenever on a highway, seen 1000 ft.
    need = wanted("KS")["tractor", "amber_flashers"]
    assert need.hours == "any"
    assert need.basis == "law"
    source = "road/KS-hazard-lights"
    required("KS", "hazard lamps seen from", 1000, need.seen / FOOT, source, "ft")


def test_new_york_warning_lamps_at_least_42_in_high():
    # Traffic-safety summary of 15 NYCRR 43.9.
    low = wanted("NY")["tractor", "amber_flashers"].height_low
    required("NY", "warning lamp, lowest", 42, low / INCH, "road/NY-lights-hours", "in")


def test_virginia_light_over_108_in():
    # Va. Code 46.2-1102.
    need = wanted("VA", tractor_width=109 * INCH)["tractor", "amber_flashers"]
    assert need.basis == "law"
    assert wanted("VA", tractor_width=108 * INCH)["tractor", "amber_flashers"].basis != "law"


def test_ontario_widths_and_lengths():
    # road/CA-1: two red lamps over 2.6 m wide; side markers over 6.1 m long.
    assert wanted("CANADA-ON", width=2.7)["tractor", "tail_lamps"].seen == pytest.approx(150)
    law = [r for r in wanted("CANADA-ON", width=2.7)["tractor", "tail_lamps"].rules]
    assert any(r.basis == "law" and r.count == 2 for r in law)
    law = [r for r in wanted("CANADA-ON", width=2.6)["tractor", "tail_lamps"].rules]
    assert not any(r.basis == "law" and r.count == 2 for r in law)
    assert ("towed", "side_markers") in wanted("CANADA-ON", length=6.2)
    assert ("towed", "side_markers") not in wanted("CANADA-ON", length=6.1)


def test_alberta_steps():
    # road/CA-2: pilot advised over 3.85 m; call the utility over 5.3 m high.
    found = wanted("CANADA-AB", width=3.9, height=5.4)
    assert ("tractor", "pilot") in found
    assert ("tractor", "utility_call") in found
    assert ("tractor", "pilot") not in wanted("CANADA-AB", width=3.85)


def test_uk_lamp_positions():
    # road/UK-6: dipped beam 500 to 1200 mm, rear lamps 350 to 1500 mm, both within 400 mm.
    found = wanted("UK")
    head, tail = found["tractor", "head_lamps"], found["tractor", "tail_lamps"]
    for name, lamp, low, high in (("dipped", head, 500, 1200), ("rear", tail, 350, 1500)):
        for what, printed, ours in (
            ("lowest", low, lamp.height_low),
            ("highest", high, lamp.height_high),
            ("edge", 400, lamp.edge),
        ):
            required("UK", f"{name} lamp, {what}", printed, ours * 1000, "road/UK-6", "mm")


@pytest.mark.parametrize(
    ("width", "mph", "source"),
    [
        (2.5, 25, "road/UK-2"),
        (2.55, 25, "road/UK-2"),
        (2.56, 20, "road/UK-1"),
        (2.9, 20, "road/UK-1"),
        (3.49, 20, "road/UK-1"),
        (3.5, 12, "road/UK-1"),
        (4.3, 12, "road/UK-1"),
    ],
)
def test_uk_speed_by_width(width, mph, source):
    ours = road_limits.road_speed_limit("UK", width)[0] / MPH
    of, given, why = road_limits.road_speed_limit, f"{width} m wide, UK", "kept as read, exact"
    place = "article 21" if source == "road/UK-1" else ""
    published(of, given, mph, ours, 1e-9, why, source, place, unit="mph")


@pytest.mark.parametrize(
    ("width", "items"),
    [
        (2.9, set()),
        (3.1, {"notice"}),
        (3.6, {"notice", "attendant"}),
        (4.4, {"notice", "attendant", "special_order"}),
    ],
)
def test_uk_notice_and_attendant(width, items):
    # road/UK-3.
    found = {item for _, item in wanted("UK", width=width)}
    assert found & {"notice", "attendant", "special_order"} == items


def widest(place, what, printed, ours, source, unit="ft"):
    """Hold a width of a place's rule against the text."""
    of, given, why = road_limits.width_rule, f"{what}, {place}", "kept as read, exact"
    published(of, given, printed, ours, 1e-9, why, source, unit=unit)


def test_pennsylvania_width_steps():
    # 75 Pa.C.S. 4921(b): 12 ft, 14 ft 6 in, 18 ft.
    assert ("tractor", "beacon") not in wanted("PA", width=12 * FOOT)
    assert ("tractor", "beacon") in wanted("PA", width=12.5 * FOOT)
    assert ("tractor", "pilot") not in wanted("PA", width=14.5 * FOOT)
    assert ("tractor", "pilot") in wanted("PA", width=14.6 * FOOT)
    widest("PA", "at most", 18, road_limits.width_rule("PA").maximum / FOOT, "road/PA-width-escort")


def test_other_widths():
    # Summaries of NY (12 and 17 ft), NC (25 ft), CA (120 in load), UK (2.55 and 4.3 m).
    york, carolina, uk = (road_limits.width_rule(place) for place in ("NY", "NC", "UK"))
    widest("NY", "without conditions", 12, york.free_night / FOOT, "road/NY-width")
    widest("NY", "at most", 17, york.maximum / FOOT, "road/NY-width")
    widest("NC", "at most", 25, carolina.maximum / FOOT, "road/NC-width-escort")
    assert ("towed", "amber_flashers") in wanted("CA", load_width=121 * INCH)
    assert ("towed", "amber_flashers") not in wanted("CA", load_width=120 * INCH)
    widest("UK", "without conditions", 2.55, uk.free_day, "road/UK-speed-by-width", "m")
    widest("UK", "at most", 4.3, uk.maximum, "road/UK-speed-by-width", "m")
