"""Quantities: what people type, what is refused, and what is shown."""

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import quantities as q
from calc import search, worksheets
from calc.errors import InputError, UnknownName

READ = [
    ("5 ft 2 in", "length", 62 * 0.0254),
    ("5'2\"", "length", 62 * 0.0254),
    ("5\u20322\u2033", "length", 62 * 0.0254),
    ("62in", "length", 62 * 0.0254),
    ("1-7/16 in", "length", 1.4375 * 0.0254),
    ("1\u00bd in", "length", 1.5 * 0.0254),
    ("7/8 in", "length", 0.875 * 0.0254),
    ("1.5 m", "length", 1.5),
    ("1,5 m", "length", 1.5),
    ("62''", "length", 62 * 0.0254),
    ("5\u2019 2\u2019\u2019", "length", 62 * 0.0254),
    ("5 ft. 2 in.", "length", 62 * 0.0254),
    ("72-inch", "length", 72 * 0.0254),
    ("1,250 lb", "mass", 1250 * 0.45359237),
    ("1540#", "mass", 1540 * 0.45359237),
    ("1,540 #", "mass", 1540 * 0.45359237),
    ("300#", "force", 300 * 4.4482216152605),
    ("60 ft-lbs", "torque", 60 * 0.3048 * 4.4482216152605),
    ("15 miles an hour", "speed", 15 * 0.44704),
    ("0.5 t", "mass", 500.0),
    ("1 ton", "mass", 2000 * 0.45359237),
    ("25 hp", "power", 25 * 550 * 0.3048 * 4.4482216152605),
    ("18.6 kW", "power", 18600.0),
    ("30 psi", "pressure", 206842.718795),
    ("95 F", "temperature", 308.15),
    ("15 %", "slope", 0.15),
    ("45 deg", "slope", 1.0),
    ("1:5", "slope", 0.2),
    ("1 in 5", "slope", 0.2),
    ("1-in-5", "slope", 0.2),
    ("1/5", "slope", 0.2),
    ("-1/5", "slope", -0.2),
    ("1/2 %", "slope", 0.005),
    ("10-1/2 %", "slope", 0.105),
    ("2/3", "fraction", 2 / 3),
    ("1 h 30 min", "duration", 5400.0),
    ("$1,200", "money", 1200.0),
    ("1200", "money", 1200.0),
    ("4", "count", 4.0),
    ("20 lbf/in", "spring_rate", 20 * 175.126835246),
]


@pytest.mark.parametrize(("text", "kind", "value"), READ)
def test_exact(text, kind, value):
    reading = q.parse(text, kind)
    assert reading is not None and reading.exact
    assert reading.low == pytest.approx(value, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "kind", "bare", "value"),
    [
        ("1540", "mass", "lb", 1540 * 0.45359237),
        ("1/5", "slope", "%", 0.2),  # and not a fifth of one percent
        ("10-1/2", "slope", "%", 0.105),
        ("1/3", "load_share", "%", 1 / 3),
        ("7/8", "length", "in", 0.875 * 0.0254),
        ("-20\u00b0", "temperature", "F", 244.261111),
        ("-20\u00b0", "temperature", "C", 253.15),
        ("-20 \u00b0C", "temperature", "F", 253.15),
    ],
)
def test_a_bare_number_is_in_the_unit_that_is_shown(text, kind, bare, value):
    reading = q.parse(text, kind, bare)
    assert reading is not None and reading.exact
    assert reading.low == pytest.approx(value, rel=1e-8)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("12 to 14 in", 12, 14),
        ("12-14 in", 12, 14),
        ("12\u201314 in", 12, 14),
        ("12 in to 14 in", 12, 14),
        ("between 12 and 14 in", 12, 14),
        ("13 \u00b1 1 in", 12, 14),
        ("13 in +/- 1 in", 12, 14),
        ("about 600 in", 550, 650),
        ("about 620 in", 615, 625),
        ("~13 in", 12.5, 13.5),
        ("about 13.0 in", 12.95, 13.05),
        ("5 ft to 5 ft 2 in", 60, 62),
    ],
)
def test_ranges(text, low, high):
    reading = q.parse(text, "length")
    assert reading is not None
    assert reading.low == pytest.approx(low * 0.0254)
    assert reading.high == pytest.approx(high * 0.0254)


@pytest.mark.parametrize("text", ["", "  ", "?", "unknown", "Not sure"])
def test_unknown(text):
    assert q.parse(text, "mass") is None


@pytest.mark.parametrize(
    ("text", "kind", "part"),
    [
        ("62", "length", "Add a unit to \u201c62\u201d: in, ft, yd, mm, cm or m."),
        ("62 lb", "length", "is a mass, and a length is needed here"),
        ("4 in", "count", "is a length, and a number is needed here"),
        ("14 to 12 in", "length", "runs downward"),
        ("abc", "mass", "is not a mass"),
        ("nan lb", "mass", "is not a mass"),
        ("1e400 lb", "mass", "too large"),
        ("9" * 60 + " lb", "mass", "too large"),
        ("<script>alert(1)</script>", "mass", "is not a mass"),
        ("60 in wide", "length", "\u201cwide\u201d"),
        ("5 6 in", "length", "can't be read"),
        ("5 in 2 ft", "length", "holds two numbers"),
        ("1.2.3 in", "length", "can't be read"),
        ("x" * 300, "length", "300 characters long"),
        ("lb", "mass", "is not a mass"),
    ],
)
def test_refused_with_a_sentence(text, kind, part):
    with pytest.raises(InputError) as caught:
        q.parse(text, kind)
    assert part in str(caught.value)
    assert str(caught.value).endswith(".")


def test_unknown_kind_and_unit():
    with pytest.raises(UnknownName):
        q.kind("warmth")
    with pytest.raises(UnknownName):
        q.kind("mass").unit("stone")


@pytest.mark.parametrize(
    ("value", "kind", "system", "shown"),
    [
        (1743.2 * 0.45359237, "mass", "us", "1,740 lb"),
        (1.524, "length", "us", "60 in"),
        (1.524, "length", "metric", "1,524 mm"),
        (0.2, "fraction", "us", "20 %"),
        (300.0, "temperature", "us", "80 \u00b0F"),
        (255.35, "temperature", "us", "0 \u00b0F"),
        (math.inf, "temperature", "us", "no limit"),
        (-0.03, "clearance", "us", "nothing"),
        (0.03, "clearance", "metric", "30 mm"),
        (-1200.0, "money", "us", "-$1,200"),
        (0.0, "mass", "us", "0 lb"),
        (math.inf, "mass", "us", "no limit"),
    ],
)
def test_shown(value, kind, system, shown):
    assert q.show(value, kind, system) == shown


# --- against pint, a general library of units -------------------------------------------------

PINT = {
    "in": "inch",
    "ft": "foot",
    "yd": "yard",
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "mi": "mile",
    "km": "kilometer",
    "ft2": "foot**2",
    "in2": "inch**2",
    "m2": "meter**2",
    "mm2": "millimeter**2",
    "cm2": "centimeter**2",
    "acre": "43560*foot**2",
    "ha": "hectare",
    "gal": "gallon",
    "qt": "quart",
    "L": "liter",
    "m3": "meter**3",
    "lb": "pound",
    "kg": "kilogram",
    "t": "metric_ton",
    "ton": "short_ton",
    "oz": "ounce",
    "lbf": "pound_force",
    "N": "newton",
    "kN": "kilonewton",
    "kgf": "kilogram_force",
    "hp": "horsepower",
    "kW": "kilowatt",
    "W": "watt",
    "PS": "metric_horsepower",
    "Btu/h": "Btu_it/hour",
    "lb-ft": "pound_force*foot",
    "N m": "newton*meter",
    "psi": "psi",
    "bar": "bar",
    "kPa": "kilopascal",
    "MPa": "megapascal",
    "Pa": "pascal",
    "mph": "mile/hour",
    "km/h": "kilometer/hour",
    "m/s": "meter/second",
    "ft/min": "foot/minute",
    "gpm": "gallon/minute",
    "L/min": "liter/minute",
    "m3/s": "meter**3/second",
    "cfm": "foot**3/minute",
    "m3/h": "meter**3/hour",
    "L/s": "liter/second",
    "gal/h": "gallon/hour",
    "L/h": "liter/hour",
    "h": "hour",
    "min": "minute",
    "s": "second",
    "days": "day",
    "weeks": "week",
    "A": "ampere",
    "mA": "milliampere",
    "V": "volt",
    "mohm/ft": "milliohm/foot",
    "mohm/m": "milliohm/meter",
    "ohm/m": "ohm/meter",
    "lb/gal": "pound/gallon",
    "kg/L": "kilogram/liter",
    "kg/m3": "kilogram/meter**3",
    "lbf/in": "pound_force/inch",
    "N/mm": "newton/millimeter",
    "N/m": "newton/meter",
    "t/h": "metric_ton/hour",
    "ton/h": "short_ton/hour",
    "kg/h": "kilogram/hour",
    "kg/s": "kilogram/second",
    "acre/h": "43560*foot**2/hour",
    "ha/h": "hectare/hour",
    "m2/s": "meter**2/second",
    "hp/ft": "horsepower/foot",
    "kW/m": "kilowatt/meter",
    "W/m": "watt/meter",
    "W/m2": "watt/meter**2",
    "W/(m2 K)": "watt/meter**2/kelvin",
    "Btu/(h ft2)": "Btu_it/hour/foot**2",
    "Btu/(h ft2 F)": "Btu_it/hour/foot**2/delta_degF",
    "kWh": "kilowatt_hour",
    "MJ": "megajoule",
    "kJ": "kilojoule",
    "J": "joule",
    "Btu": "Btu_it",
    "ft/s2": "foot/second**2",
    "m/s2": "meter/second**2",
    "g": "standard_gravity",
}
NOT_IN_PINT = {
    "",
    "%",
    "deg",
    "rad",
    "in 10",
    "rpm",
    "$",
    "k$",
    "$/h",
    "$/gal",
    "$/L",
    "$/m3",
    "F",
    "C",
    "K",
    "months",
    "years",
}


@pytest.fixture(scope="module")
def registry():
    return pint.UnitRegistry()


@pytest.mark.parametrize(
    ("kind", "symbol"),
    [
        (k.name, u.symbol)
        for k in q.kinds().values()
        for u in k.units
        if u.symbol not in NOT_IN_PINT
    ],
)
def test_factor_agrees_with_pint(registry, kind, symbol):
    ours = q.kind(kind).unit(symbol).to_base(1.0)
    theirs = (1 * registry(PINT[symbol])).to_base_units().magnitude
    assert ours == pytest.approx(theirs, rel=1e-9)


@pytest.mark.parametrize(("symbol", "theirs"), [("F", "degF"), ("C", "degC")])
def test_temperature_agrees_with_pint(registry, symbol, theirs):
    for number in (-40.0, 0.0, 68.0, 104.0):
        ours = q.kind("temperature").unit(symbol).to_base(number)
        assert ours == pytest.approx(registry.Quantity(number, theirs).to("kelvin").magnitude)


# --- properties -------------------------------------------------------------------------------

EVERY_UNIT = [(k.name, u.symbol) for k in q.kinds().values() for u in k.units if u.symbol]


@given(
    st.sampled_from(EVERY_UNIT),
    st.decimals(min_value="0.001", max_value="99999", places=3, allow_nan=False),
)
def test_what_is_written_is_read(unit, written):
    kind, symbol = unit
    if symbol == "deg" and kind == "slope" and written >= 90:
        return
    reading = q.parse(f"{written} {symbol}", kind)
    assert reading is not None
    assert reading.low == pytest.approx(q.kind(kind).unit(symbol).to_base(float(written)))


@given(st.text(max_size=150), st.sampled_from(sorted(q.kinds())))
def test_any_text_is_read_or_refused(text, kind):
    try:
        reading = q.parse(text, kind)
    except InputError as error:
        assert str(error).endswith(".")
    else:
        assert reading is None or reading.low <= reading.high


@given(st.floats(min_value=1e-6, max_value=1e9), st.sampled_from(["us", "metric"]))
def test_what_is_shown_is_near(value, system):
    shown = q.show(value, "mass", system)
    reading = q.parse(shown, "mass")
    assert reading is not None
    assert reading.low == pytest.approx(value, rel=0.0051)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("six feet", "length", 72 * 0.0254),
        ("Twenty-five hp", "power", 25 * 745.6998715822702),
        ("seven hundred lb", "mass", 700 * 0.45359237),
        ("five ft two in", "length", 62 * 0.0254),
        ("thirty five", "count", 35.0),
    ],
)
def test_numbers_in_words(text, kind, value):
    reading = q.parse(text, kind)
    assert reading is not None and reading.exact and reading.low == pytest.approx(value)


def test_a_range_in_words_and_what_is_no_number():
    reading = q.parse("two to three ft", "length")
    assert (reading.low, reading.high) == pytest.approx((24 * 0.0254, 36 * 0.0254))
    for text in ("someone ft", "a few feet", "six"):
        with pytest.raises(InputError):
            q.parse(text, "length")


@pytest.mark.parametrize(
    ("text", "unit"),
    [("12 deg", "deg"), ("12 to 14 deg", "deg"), ("12", ""), ("5 ft 2 in", ""), ("1:5", "%")],
)
def test_the_unit_that_is_written(text, unit):
    kind = "length" if "ft" in text else "slope"
    assert q.parse(text, kind, "" if unit or "ft" in text else "%").unit == unit


@pytest.mark.parametrize("text", ["$120", "$120/h", "$120 an hour", "120", "120 $/h"])
def test_what_is_paid_by_the_hour_takes_a_dollar_sign(text):
    assert q.parse(text, "money_per_hour", "$/h").middle == 120.0


def test_a_dollar_sign_makes_no_cost_of_a_power():
    with pytest.raises(InputError):
        q.parse("$120 hp", "money_per_hour", "$/h")


@pytest.mark.parametrize(
    ("low", "high", "shown"),
    [
        (0.0211, 60.2, "0.02 to 60.2 V"),
        (0.0999, 1.0, "0.1 to 1 V"),
        (0.101, 1.0, "0.101 to 1 V"),
        (0.0579, 0.99, "0.0579 to 0.99 V"),
        (3.83, 305.0, "4 to 305 V"),
        (9.94, 100.0, "10 to 100 V"),
        (3.83, 99.9, "3.83 to 99.9 V"),
        (10.1, 305.0, "10.1 to 305 V"),
        (-3.83, 305.0, "-4 to 305 V"),
    ],
)
def test_an_end_far_below_the_other_is_told_no_finer(low, high, shown):
    assert q.show_range(low, high, "voltage") == shown


def test_pounds_beside_hundreds_are_whole():
    pounds = [0.45359237 * low for low in (44.6, 99.4, 100.4)]
    shown = [q.show_range(low, 0.45359237 * 374, "load") for low in pounds]
    assert shown == ["45 to 374 lb", "99 to 374 lb", "100 to 374 lb"]
    assert q.show_range(pounds[0], 0.45359237 * 99.9, "load") == "44.6 to 99.9 lb"


def test_a_time_from_less_than_an_hour_on_is_said_in_minutes_first():
    hour = 3600.0
    assert q.show_range(0.62 * hour, 5 * hour, "duration") == "37.2 min to 5 h"
    assert q.show_range(1.0 * hour, 5 * hour, "duration") == "1 to 5 h"
    assert q.show_range(0.5 * hour, 1.2 * hour, "duration") == "30 to 72 min"


@pytest.mark.parametrize(("text", "said"), [("28.5k", "$28,500"), ("28 grand", "$28,000")])
def test_thousands_are_typed_and_not_said(text, said):
    price = q.parse(text, "money")
    assert q.show_range(price.low, price.high, "money", unit=price.unit, figures=6) == said
    assert q.show(price.middle, "money", unit=price.unit, figures=6) == said


@pytest.mark.parametrize(
    ("text", "value"), [("5e-324 m", 0.0), ("-9.9e-16 m", 0.0), ("1.1e-15 m", 1.1e-15)]
)
def test_what_is_next_to_nothing_is_nothing(text, value):
    assert q.parse(text, "length").low == value


def test_next_to_no_lamps_are_none():
    """A count of lamps so small that a division by its current would fail."""
    sheet = worksheets.load("lamp-wiring")
    assert search.answer(sheet, {"tail_count": "5e-324"}, ask="flasher").ask.key == "flasher"
