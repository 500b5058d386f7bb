"""Moist air, the sun, comfort and fresh air against published numbers and reference libraries."""

import math

import pandas as pd
import psychrolib
import pvlib
import pytest

from calc import quantities
from calc.mechanics import cab, psychrometrics, sun
from tests.published.rows import published

CFM = 0.3048**3 / 60.0
HOUR = 3600.0
# The broadband clear sky of Ineichen (2008) in the reference library.
BROADBAND_SKY = next(
    model for name, model in vars(pvlib.clearsky).items() if name.startswith("simplified_")
)


@pytest.mark.parametrize(("temperature", "pascal"), [(5.0, 872.6), (25.0, 3169.7)])
def test_saturation_pressure(temperature: float, pascal: float) -> None:
    # value/C10, table 3 of the chapter; 0.03 % is the agreement its quoting test asks for.
    of, ours = psychrometrics.saturation_pressure, psychrometrics.saturation_pressure(temperature)
    given, why = f"{temperature:g} °C", "0.03 %, the agreement that the test quoting it asks for"
    published(of, given, pascal, ours, 0.0003 * pascal, why, "value/C10", "table 3", unit="Pa")


def test_saturated_humidity_ratio() -> None:
    # value/C10, table 2: 0.020173 at 25 deg C, a real-gas value; the ideal gas is 0.5 % below.
    of, given = psychrometrics.humidity_ratio, "25 °C, saturated"
    why = "a real-gas value; the ideal gas lies 0.5 % below"
    published(
        of, given, 20.173, 1000 * of(25.0, 1.0), 0.1009, why, "value/C10", "table 2", unit="g/kg"
    )


def test_enthalpy() -> None:
    # value/C10: 81.316 kJ/kg at 30 deg C and 0.02.
    of, given = psychrometrics.enthalpy, "30 °C, 0.02 kg/kg"
    ours, why = of(30.0, 0.02) / 1000.0, "0.03 %, the agreement that the test quoting it asks for"
    published(of, given, 81.316, ours, 0.0003 * 81.316, why, "value/C10", unit="kJ/kg")


def test_specific_volume() -> None:
    # value/C10: 0.94086 m3/kg at 30 deg C, 0.02 and 95 461 Pa.
    of, given = psychrometrics.specific_volume, "30 °C, 0.02 kg/kg, 95,461 Pa"
    ours, why = of(30.0, 0.02, 95461.0), "0.03 %, the agreement that the test quoting it asks for"
    published(of, given, 0.94086, ours, 0.0003 * 0.94086, why, "value/C10", unit="m³/kg")


@pytest.mark.parametrize(("altitude", "pascal"), [(0.0, 101325.0), (500.0, 95461.0)])
def test_pressure_by_altitude(altitude: float, pascal: float) -> None:
    # value/C10, table 1.
    of, ours = psychrometrics.pressure_at_altitude, psychrometrics.pressure_at_altitude(altitude)
    given, why = f"{altitude:g} m", "printed to a pascal"
    published(of, given, pascal, ours, 1.0, why, "value/C10", "table 1", unit="Pa")


@pytest.mark.parametrize("temperature", [-20.0, -5.0, 0.0, 10.0, 27.0, 38.0, 49.0])
@pytest.mark.parametrize("humidity", [0.1, 0.4, 0.8, 1.0])
def test_moist_air_against_a_reference_library(temperature: float, humidity: float) -> None:
    # psychrolib, a general reference library; it holds the same equations but its own rounding
    # of the triple point and of absolute zero.
    psychrolib.SetUnitSystem(psychrolib.SI)
    pressure = 95461.0
    ratio = psychrometrics.humidity_ratio(temperature, humidity, pressure)
    expected = psychrolib.GetHumRatioFromRelHum(temperature, humidity, pressure)
    assert ratio == pytest.approx(expected, rel=5e-4)
    assert psychrometrics.enthalpy(temperature, ratio) == pytest.approx(
        psychrolib.GetMoistAirEnthalpy(temperature, ratio), rel=1e-4, abs=5.0
    )
    assert psychrometrics.specific_volume(temperature, ratio, pressure) == pytest.approx(
        psychrolib.GetMoistAirVolume(temperature, ratio, pressure), rel=1e-4
    )


@pytest.mark.parametrize(("dry", "wet"), [(38.0, 26.0), (27.0, 19.0), (10.0, 5.0), (-2.0, -4.0)])
def test_wet_bulb_against_a_reference_library(dry: float, wet: float) -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)
    expected = psychrolib.GetHumRatioFromTWetBulb(dry, wet, 101325.0)
    found = psychrometrics.humidity_ratio_from_wet_bulb(dry, wet)
    assert found == pytest.approx(expected, rel=2e-3)


@pytest.mark.parametrize(
    ("vote", "percent"),
    [(-0.75, 17.0), (0.77, 17.0), (-0.01, 5.0)],  # value/C11, table D.1, rows 1, 2 and 4
)
def test_predicted_dissatisfied(vote: float, percent: float) -> None:
    of, given = cab.predicted_dissatisfied, f"a mean vote of {vote:g}"
    ours, why = of(vote) * 100.0, "printed to a whole percent, from a vote rounded to 0.01"
    published(of, given, percent, ours, 0.6, why, "value/C11", "table D.1", unit="%")


def test_least_fresh_air() -> None:
    # value/C5: 25 cfm for each person is 42.5 m3/h.
    read = quantities.base("25 cfm", "air_flow") * HOUR
    given, why = "25 cfm for each person", "printed to a tenth"
    published("cab/fresh_air_rules", given, 42.5, read, 0.05, why, "value/C5", unit="m³/h")


def test_recirculated_air() -> None:
    # value/C5: three to four times the intake; 60 cfm gives 180 to 240.
    low, high = cab.recirculation_range(60.0 * CFM)
    of, why = cab.recirculation_range, "whole multiples: three to four times"
    for printed, ours in ((180.0, low / CFM), (240.0, high / CFM)):
        published(of, "60 cfm of fresh air", printed, ours, 0.5, why, "value/C5", unit="cfm")


def test_glass_shading_coefficient() -> None:
    # value/C9: the shading coefficient is the solar heat gain coefficient over 0.87.
    clear = cab.sun_through_glass(0.87, 1000.0, 1.0)
    assert cab.sun_through_glass(0.435, 1000.0, 1.0) / clear == pytest.approx(0.5)


def test_single_glass_in_both_units() -> None:
    # value/C9: 1.11 Btu/(h ft2 F) is 6.30 W/(m2 K).
    per_hour = cab.conduction(1.11 * 5.678263341113488, 1.0, 1.0, 0.0)
    of, given = cab.conduction, "1.11 Btu/(h ft² °F)"
    published(of, given, 6.30, per_hour, 0.005, "printed to 0.01", "value/C9", unit="W/(m² K)")


@pytest.mark.parametrize("latitude", [-35.0, 0.0, 30.0, 40.0, 55.0])
@pytest.mark.parametrize("day", sun.DAY_OF_21ST)
def test_sun_position_against_a_reference_library(latitude: float, day: int) -> None:
    # pvlib: Spencer's declination and the analytical zenith and azimuth.
    declination = pvlib.solarposition.declination_spencer71(day)
    assert sun.declination(day) == pytest.approx(float(declination), abs=1e-12)
    for hour in (7.5, 10.0, 12.5, 15.0, 17.0):
        angle = sun.hour_angle(hour)
        zenith = pvlib.solarposition.solar_zenith_analytical(
            math.radians(latitude), angle, declination
        )
        azimuth = pvlib.solarposition.solar_azimuth_analytical(
            math.radians(latitude), angle, declination, zenith
        )
        found = sun.altitude_and_azimuth(math.radians(latitude), day, hour)
        assert found[0] == pytest.approx(math.pi / 2 - float(zenith), abs=1e-9)
        assert math.cos(found[1] - float(azimuth)) == pytest.approx(1.0, abs=1e-9)


@pytest.mark.parametrize(
    ("latitude", "when", "day"),
    [(40.0, "2024-07-21", 203), (33.0, "2024-05-21", 142), (47.0, "2024-09-21", 265)],
)
def test_noon_height_against_an_almanac_method(latitude: float, when: str, day: int) -> None:
    # pvlib's NREL algorithm, good to 0.0003 deg: its highest sun of the day. Spencer's series
    # strays by up to about half a degree from any one year.
    times = pd.date_range(f"{when} 11:00", f"{when} 13:00", freq="1min", tz="UTC")
    truth = pvlib.solarposition.get_solarposition(times, latitude, 0.0)["elevation"].max()
    altitude, _ = sun.altitude_and_azimuth(math.radians(latitude), day, 12.0)
    assert math.degrees(altitude) == pytest.approx(float(truth), abs=0.5)


@pytest.mark.parametrize("elevation", [5.0, 20.0, 45.0, 70.0, 88.0])
@pytest.mark.parametrize("water", [0.1, 1.0, 3.5])
@pytest.mark.parametrize("depth", [0.03, 0.1, 0.3])
def test_clear_sky_against_a_reference_library(
    elevation: float, water: float, depth: float
) -> None:
    # pvlib holds the same model with the same extraterrestrial radiation.
    expected = BROADBAND_SKY(
        elevation, aod700=depth, precipitable_water=water, pressure=90e3, dni_extra=1361.0
    )
    beam, whole, scattered = sun.clear_sky(math.radians(elevation), water, depth, 90e3)
    assert beam == pytest.approx(float(expected["dni"]), rel=1e-9)
    assert whole == pytest.approx(float(expected["ghi"]), rel=1e-9)
    assert scattered == pytest.approx(float(expected["dhi"]), rel=1e-9)


@pytest.mark.parametrize("elevation", [20.0, 40.0, 60.0, 80.0])
def test_clear_sky_against_an_independent_model(elevation: float) -> None:
    # pvlib's Haurwitz model (1945), a fit of its own: clear-sky models differ by about a tenth.
    zenith = pd.Series([90.0 - elevation])
    expected = float(pvlib.clearsky.haurwitz(zenith)["ghi"].iloc[0])
    assert sun.clear_sky(math.radians(elevation))[1] == pytest.approx(expected, rel=0.10)


@pytest.mark.parametrize("angle", [0.0, 30.0, 60.0, 75.0, 86.0, 90.0, 120.0])
def test_angle_modifier_against_a_reference_library(angle: float) -> None:
    found = sun.angle_modifier(math.cos(math.radians(angle)))
    assert found == pytest.approx(float(pvlib.iam.ashrae(angle, b=0.05)), abs=1e-6)


@pytest.mark.parametrize("tilt", [0.0, 20.0, 90.0])
@pytest.mark.parametrize("facing", [0.0, 135.0, 250.0])
def test_incidence_against_a_reference_library(tilt: float, facing: float) -> None:
    expected = pvlib.irradiance.aoi_projection(tilt, facing, 90.0 - 52.0, 215.0)
    found = sun.incidence_cosine(
        math.radians(52.0), math.radians(215.0), math.radians(tilt), math.radians(facing)
    )
    assert found == pytest.approx(float(expected), abs=1e-9)
