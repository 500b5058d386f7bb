"""The heat that enters a cab, part by part, at the hour when it is most."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from calc import arith, model
from calc.mechanics import cab, psychrometrics, sun
from calc.worksheets.cab.fields import row

TEST_RADIATION = 950.0  # value/ISO14269-memory
SURFACE_COEFFICIENT = 20.0


@dataclass(frozen=True, slots=True)
class Load:
    """The heat that enters, part by part. [W]"""

    glass_sun: float
    roof: float
    panes: float
    floor: float
    people: float
    fan: float
    air: float
    best_turned: float  # sun through the glass with the cab turned the best way
    outside_air: float  # m3/s
    altitude: float  # of the sun, rad
    level_sun: float  # on a level surface, W/m2
    hour: float  # by the sun

    @property
    def total(self) -> float:
        """All of it. [W]"""
        return (
            self.glass_sun + self.roof + self.panes + self.floor + self.people + self.fan + self.air
        )

    @property
    def sun_share(self) -> float:
        """The sun's share of the parts that bring heat in. [-]"""
        parts = (self.glass_sun, self.roof, self.panes, self.floor, self.people, self.fan, self.air)
        entering = sum(arith.max(0.0, part) for part in parts)
        return (self.glass_sun + arith.max(0.0, self.roof)) / entering if entering > 0.0 else 0.0


@dataclass(frozen=True, slots=True)
class Sky:
    """The sun at one hour, and what panes that face it or turn from it get."""

    altitude: float  # rad
    azimuth: float  # rad
    level: float  # W/m2, on level ground
    roof: float  # W/m2, on a level pane
    beam: float  # W/m2, on a plane facing the sun
    around: float  # W/m2, on an upright pane from sky and ground
    shares: tuple[float, ...]  # of the beam, for upright panes at TURNS bearings from the sun round

    def upright(self, step: int) -> float:
        """What an upright pane gets at a bearing from the sun. [W/m2]"""
        return self.beam * self.shares[step % TURNS] + self.around


TURNS = 16
HALF = TURNS // 2 + 1
BEARINGS = tuple(2.0 * arith.pi * step / TURNS for step in range(HALF))
# The sun of the afternoon mirrors that of the morning, and so does the cab.
HOURS_SEARCHED = (12.0, 13.0, 14.0, 15.0, 16.0, 17.0, 18.0)


@arith.cache
def sky_at(latitude: float, month: str, hour: float, pressure: float) -> Sky:
    """Where the sun stands and what a clear sky brings."""
    day = sun.DAY_OF_21ST[int(month) - 1]
    altitude, azimuth = sun.altitude_and_azimuth(arith.radians(latitude), day, hour)
    sky = sun.clear_sky(altitude, pressure=pressure)
    return Sky(
        altitude,
        azimuth,
        sky[1],
        sun.pane_radiation(sky, altitude, 0.0, 0.0, 0.0),
        sky[0],
        sun.upright_diffuse(sky),
        tuple(_mirrored(sun.upright_shares(altitude, BEARINGS))),
    )


def _mirrored(half: Sequence[float]) -> list[float]:
    """What each of the turns from the sun gives: turned left it is as turned right."""
    return [*half, *half[-2:0:-1]]


def _areas_in_beam(v: model.Inputs, sky: Sky) -> list[float]:
    """Glass that the beam goes through at each turn of the nose from the sun. [m2]"""
    shares, quarter = sky.shares, TURNS // 4
    sides = [shares[(step + quarter) % TURNS] + shares[step - quarter] for step in range(HALF)]
    return [
        v.glass_front * shares[step]
        + v.glass_side * sides[step]
        + v.glass_rear * shares[TURNS // 2 - step]
        for step in range(HALF)
    ]


def turned_sun(v: model.Inputs, sky: Sky) -> list[float]:
    """Sun on all the upright glass times its area, by the bearing of the nose from the sun. [W]"""
    around = sky.around * (v.glass_front + v.glass_rear + 2.0 * v.glass_side)
    return _mirrored([sky.beam * area + around for area in _areas_in_beam(v, sky)])


def _skies(v: model.Inputs, hour: float | None, pressure: float) -> list[tuple[float, Sky]]:
    """The hours at which the sun may heat this cab most, with their skies."""
    if v.sun_rule == "test":
        hour = 12.0  # the test climate knows no hour: the sun stands as at noon
    hours = HOURS_SEARCHED if hour is None else (hour,)
    return [(one, sky_at(v.latitude, v.month, one, pressure)) for one in hours]


def _sun(v: model.Inputs, sky: Sky) -> tuple[float, float, float]:
    """Sun through the glass with the cab turned the worst and the best way [W before the glass's
    own gain], and on level ground [W/m2]."""
    if v.sun_rule == "test":
        height = arith.max(0.0, sky.altitude)
        widest = arith.max(v.glass_front, v.glass_rear, v.glass_side)
        seen = cab.projected_glass_area(v.glass_roof, widest, height)
        best = TEST_RADIATION * v.glass_roof * arith.sin(height)
        return TEST_RADIATION * seen, best, TEST_RADIATION
    areas = _areas_in_beam(v, sky)
    upright = v.glass_front + v.glass_rear + 2.0 * v.glass_side
    always = sky.around * upright + v.glass_roof * sky.roof
    worst, best = (sky.beam * pick(areas) + always for pick in (arith.max, arith.min))
    return worst, best, sky.level


def _looked_up(table: str, key: str, column: str) -> Callable[[str], float]:
    """What a number of a table is, by its key."""
    return lambda value: float(row(table, key, value)[column])


def heat_loads(v: model.Inputs, hour: float | None = None) -> list[Load]:
    """Return the heat load at the hour given, or at each that may be the worst."""
    pressure = psychrometrics.pressure_at_altitude(v.altitude)
    outside, inside = v.outside_temperature - 273.15, v.inside_temperature - 273.15
    gain = v.each("glass_kind", _looked_up("cab/glass_kinds", "kind", "heat_gain"))
    absorbs = v.each("roof_color", _looked_up("cab/roof_colors", "color", "absorptance"))
    glass_u = v.each("cab_kind", _looked_up("cab/cab_kinds", "kind", "glass_u"))
    wind_leak = cab.leak_flow(v.leak_area, cab.wind_pressure(v.wind))
    outside_air = arith.max(v.fresh_air, wind_leak)
    whole, _ = cab.fresh_air_load(
        outside_air, outside, v.outside_humidity, inside, v.inside_humidity, pressure
    )
    all_glass = v.glass_front + v.glass_rear + 2.0 * v.glass_side + v.glass_roof
    panes = cab.conduction(glass_u, all_glass, outside, inside)
    floor = cab.conduction(3.0, v.floor_area, v.floor_temperature - 273.15, inside)
    people = cab.person_heat(v.activity, v.persons)
    loads = []
    for taken_hour, sky in _skies(v, v.solar_hour if hour is None else hour, pressure):
        worst, best, level = _sun(v, sky)
        roof_at = cab.sol_air_temperature(outside, absorbs, level, SURFACE_COEFFICIENT)
        load = Load(
            cab.sun_through_glass(gain, worst, 1.0),
            cab.conduction(v.roof_transmittance, v.roof_area, roof_at, inside),
            panes,
            floor,
            people,
            v.fan_power,
            whole,
            cab.sun_through_glass(gain, best, 1.0),
            outside_air,
            sky.altitude,
            level,
            taken_hour,
        )
        loads.append(load)
    return loads


def heat_load(v: model.Inputs, hour: float | None = None) -> Load:
    """Return the heat load, at the hour given or at the worst."""
    return max(heat_loads(v, hour), key=lambda load: load.total)
