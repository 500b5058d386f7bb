"""Heat that enters or leaves a cab: sun, glass, people, air; and how its people feel."""

from calc import arith
from calc.mechanics.psychrometrics import (
    STANDARD_PRESSURE,
    enthalpy,
    humidity_ratio,
    specific_volume,
)

AIR_DENSITY = 1.2
ORIFICE_COEFFICIENT = 0.61
MET = 58.15
BODY_AREA = 1.8


def projected_glass_area(roof_glass: float, widest_side: float, altitude: float) -> float:
    """Return the glass that the sun sees in a box-shaped cab.

    A roof pane counts with the sine of the sun's height, upright panes with the cosine, and
    only the side that faces the sun counts: never the sum of all the panes.

    Parameters
    ----------
    roof_glass : float
        Glass in the roof. [m2]
    widest_side : float
        Upright glass seen square on from the sunny side. [m2]
    altitude : float
        Sun's height, 0 to pi/2. [rad]

    Returns
    -------
    float
        Projected area. [m2]

    References
    ----------
    .. [1] value/DERIVED.
    """
    if not 0.0 <= altitude <= arith.pi / 2.0:
        raise ValueError("The sun's height must be from 0 to 90 degrees.")
    return roof_glass * arith.sin(altitude) + widest_side * arith.cos(altitude)


def sun_through_glass(heat_gain_coefficient: float, radiation: float, area: float) -> float:
    """Return the sun's heat through glass: SHGC I A.

    Parameters
    ----------
    heat_gain_coefficient : float
        Solar heat gain coefficient, 0 to 1: 0.87 is clear 3 mm glass. [-]
    radiation : float
        Sun on the area. [W/m2]
    area : float
        Area that the radiation is for: projected area for a beam. [m2]

    Returns
    -------
    float
        Heat. [W]

    Examples
    --------
    >>> round(sun_through_glass(0.75, 950.0, 1.5))
    1069
    """
    if not 0.0 <= heat_gain_coefficient <= 1.0:
        raise ValueError("A solar heat gain coefficient must be from 0 to 1.")
    return heat_gain_coefficient * radiation * area


def sol_air_temperature(
    outside: float, absorptance: float, radiation: float, surface_coefficient: float = 20.0
) -> float:
    """Return the outside temperature that would heat a shaded roof as much as sun and air do.

    T_sa = T_o + alpha I / h_o

    Parameters
    ----------
    outside : float
        Air temperature. [deg C]
    absorptance : float
        Share of the sun that the paint takes in, 0 to 1. [-]
    radiation : float
        Sun on the surface. [W/m2]
    surface_coefficient : float
        Heat transfer from surface to air, 17 to 23. [W/(m2 K)]

    Returns
    -------
    float
        Temperature. [deg C]

    Examples
    --------
    >>> sol_air_temperature(38.0, 0.7, 950.0)
    71.25

    References
    ----------
    .. [1] value/CAB-memory.
    """
    return outside + absorptance * radiation / surface_coefficient


def conduction(transmittance: float, area: float, warm: float, cool: float) -> float:
    """Return the heat through a wall: U A (T_warm - T_cool), negative when it flows out.

    Parameters
    ----------
    transmittance : float
        U, 0 or more. [W/(m2 K)]
    area : float
        Area. [m2]
    warm, cool : float
        Temperatures outside and inside. [deg C]

    Returns
    -------
    float
        Heat into the cab. [W]
    """
    return transmittance * area * (warm - cool)


def person_heat(activity: float, persons: float = 1.0) -> float:
    """Return the heat that people give off: met x 58.15 W/m2 x 1.8 m2.

    Parameters
    ----------
    activity : float
        Metabolic rate; driving 1.2 to 2. [met]
    persons : float
        Number of people. [-]

    Returns
    -------
    float
        Heat. [W]

    References
    ----------
    .. [1] value/C12: body area.
    .. [2] value/CAB-memory: rates.
    """
    return activity * MET * BODY_AREA * persons


def fresh_air_load(
    air_flow: float,
    outside: float,
    outside_humidity: float,
    inside: float,
    inside_humidity: float,
    pressure: float = STANDARD_PRESSURE,
) -> tuple[float, float]:
    """Return the load of fresh air, moisture included, and its sensible part.

    Q = m (h_o - h_i), m the dry air in the flow at outside conditions.

    Parameters
    ----------
    air_flow : float
        Fresh air, leaks included. [m3/s]
    outside, inside : float
        Air temperatures. [deg C]
    outside_humidity, inside_humidity : float
        Relative humidities, 0 to 1. [-]
    pressure : float
        Air pressure. [Pa]

    Returns
    -------
    tuple of float
        Whole load and sensible load; negative when outside is the cooler. [W]

    Examples
    --------
    >>> whole, sensible = fresh_air_load(43 / 3600, 38.0, 0.40, 27.0, 0.50)
    >>> round(whole), round(sensible)
    (338, 151)

    References
    ----------
    .. [1] value/ASHRAE-memory.
    """
    wet_outside = humidity_ratio(outside, outside_humidity, pressure)
    wet_inside = humidity_ratio(inside, inside_humidity, pressure)
    dry_air = air_flow / specific_volume(outside, wet_outside, pressure)
    whole = dry_air * (enthalpy(outside, wet_outside) - enthalpy(inside, wet_inside))
    specific_heat = 1006.0 + 1860.0 * wet_outside
    return whole, dry_air * specific_heat * (outside - inside)


def leak_area(air_flow: float, pressure_difference: float) -> float:
    """Return the gaps through which a flow escapes at a pressure: V / (0.61 sqrt(2 dp / rho)).

    Parameters
    ----------
    air_flow : float
        Flow. [m3/s]
    pressure_difference : float
        Inside over outside, above 0. [Pa]

    Returns
    -------
    float
        Area of sharp-edged gaps. [m2]

    Examples
    --------
    >>> round(leak_area(43 / 3600, 50.0) * 1e4, 1)  # cm2
    21.4

    References
    ----------
    .. [1] value/DERIVED: orifice equation.
    """
    if pressure_difference <= 0.0:
        raise ValueError("The pressure difference must be above 0.")
    return air_flow / (ORIFICE_COEFFICIENT * arith.sqrt(2.0 * pressure_difference / AIR_DENSITY))


def leak_flow(area: float, pressure_difference: float) -> float:
    """Return the flow through gaps, the inverse of `leak_area`.

    Parameters
    ----------
    area : float
        Area of the gaps. [m2]
    pressure_difference : float
        0 or more. [Pa]

    Returns
    -------
    float
        Flow. [m3/s]
    """
    return area * ORIFICE_COEFFICIENT * arith.sqrt(2.0 * pressure_difference / AIR_DENSITY)


def wind_pressure(speed: float) -> float:
    """Return the pressure of wind brought to rest: rho v^2 / 2.

    Parameters
    ----------
    speed : float
        Wind or travel speed. [m/s]

    Returns
    -------
    float
        Pressure. [Pa]

    Examples
    --------
    >>> round(wind_pressure(20 * 0.44704))
    48
    """
    return AIR_DENSITY * speed * speed / 2.0


def heating_load(
    envelope: float,
    air_flow: float,
    outside: float,
    inside: float,
    pressure: float = STANDARD_PRESSURE,
) -> float:
    """Return the heat that keeps a cab warm: (sum U A + m c_p)(T_i - T_o).

    Parameters
    ----------
    envelope : float
        Sum of U A over glass, roof, walls and floor. [W/K]
    air_flow : float
        Fresh air at outside conditions. [m3/s]
    outside, inside : float
        Air temperatures. [deg C]
    pressure : float
        Air pressure. [Pa]

    Returns
    -------
    float
        Heat. [W]
    """
    dry_air = air_flow / specific_volume(outside, 0.0, pressure)
    return (envelope + dry_air * 1006.0) * (inside - outside)


def predicted_dissatisfied(vote: float) -> float:
    """Return the share of people who would be dissatisfied at a predicted mean vote.

    PPD = 100 - 95 exp(-0.03353 PMV^4 - 0.2179 PMV^2), in percent; here as a fraction.

    Parameters
    ----------
    vote : float
        Predicted mean vote, -3 to 3. [-]

    Returns
    -------
    float
        Share, never below 0.05. [-]

    Examples
    --------
    >>> round(predicted_dissatisfied(0.0), 4)
    0.05

    References
    ----------
    .. [1] value/C11: ISO 7730:2005, equation 5.
    """
    return 1.0 - 0.95 * arith.exp(-0.03353 * vote**4 - 0.2179 * vote**2)


def recirculation_range(intake: float) -> tuple[float, float]:
    """Return the recirculated air that suits an intake: three to four times as much.

    Parameters
    ----------
    intake : float
        Fresh air. [m3/s]

    Returns
    -------
    tuple of float
        Low and high. [m3/s]

    References
    ----------
    .. [1] value/C5.
    """
    return 3.0 * intake, 4.0 * intake
