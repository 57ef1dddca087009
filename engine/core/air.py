"""How heavy and how sticky is the air the ball flies through?"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp

from engine.core.checks import within

# ISO 2533:1975, table of constants.
STANDARD_K = 288.15  # sea-level temperature [K]
STANDARD_PA = 101325.0  # sea-level pressure [Pa]
_LAPSE_KPM = 0.0065  # [K/m]
_EXPONENT = 5.25588  # g / (R * lapse) [-]
_ICE_K = 273.15

LOWEST_M, HIGHEST_M = -500.0, 4500.0
COLDEST_K, HOTTEST_K = 253.15, 323.15
THINNEST_PA, THICKEST_PA = 55000.0, 110000.0


@dataclass(frozen=True, slots=True)
class Air:
    """Air as the ball feels it.

    Attributes
    ----------
    density_kgpm3 : float
        [kg m-3]
    viscosity_pas : float
        Dynamic viscosity. [Pa s]
    """

    density_kgpm3: float
    viscosity_pas: float


def moist_density(*, air_k: float, pressure_pa: float, humidity: float) -> float:
    """Density of moist air, CIPM-2007.

    Parameters
    ----------
    air_k : float
        Air temperature in the shade. [K]
    pressure_pa : float
        Station pressure, not reduced to sea level. [Pa]
    humidity : float
        Relative humidity, 0 to 1. [-]

    Returns
    -------
    float
        Density. [kg m-3]

    Raises
    ------
    OutOfRange
        Outside -20 to 50 C, 550 to 1100 hPa or 0 to 1.

    Notes
    -----
    The formula is stated for 15 to 27 C and 600 to 1100 hPa; outside it stays within
    0.1 %, which moves a carry by less than a quarter of a yard. CO2 at 400 ppm.

    References
    ----------
    .. [1] A. Picard, R. S. Davis, M. Glaeser, K. Fujii, "Revised formula for the density of
       moist air (CIPM-2007)", Metrologia 45 (2008) 149-155, eq. 1 and appendix A1.
    """
    within("air temperature", air_k, COLDEST_K, HOTTEST_K, "K")
    within("station pressure", pressure_pa, THINNEST_PA, THICKEST_PA, "Pa")
    within("humidity", humidity, 0.0, 1.0, "1")
    # Symbols of [1]: T, t, p, h, psv, f, xv, Z.
    T, t, p, h = air_k, air_k - _ICE_K, pressure_pa, humidity
    psv = exp(1.2378847e-5 * T * T - 1.9121316e-2 * T + 33.93711047 - 6.3431645e3 / T)
    f = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t
    xv = h * f * psv / p
    Z = (
        1.0
        - p
        / T
        * (
            1.58123e-6
            - 2.9331e-8 * t
            + 1.1043e-10 * t * t
            + (5.707e-6 - 2.051e-8 * t) * xv
            + (1.9898e-4 - 2.376e-6 * t) * xv * xv
        )
        + (p / T) ** 2 * (1.83e-11 - 0.765e-8 * xv * xv)
    )
    return 3.483740e-3 * p / (Z * T) * (1.0 - 0.3780 * xv)


def viscosity(*, air_k: float) -> float:
    """Dynamic viscosity of air by Sutherland's law. [Pa s].

    Parameters
    ----------
    air_k : float
        Air temperature. [K]

    Returns
    -------
    float
        [Pa s]

    References
    ----------
    .. [1] ISO 2533:1975, Standard Atmosphere, viscosity formula: 1.458e-6 and 110.4 K.
    """
    return float(1.458e-6 * air_k**1.5 / (air_k + 110.4))


def standard_temperature(*, height_m: float) -> float:
    """Temperature of the standard atmosphere, ISO 2533, at a height above the sea. [K].

    Parameters
    ----------
    height_m : float
        Geopotential height. [m]

    Returns
    -------
    float
        [K]

    Raises
    ------
    OutOfRange
        Outside -500 to 4500 m.
    """
    within("height above the sea", height_m, LOWEST_M, HIGHEST_M, "m")
    return STANDARD_K - _LAPSE_KPM * height_m


def standard_pressure(*, height_m: float, sea_level_pa: float = STANDARD_PA) -> float:
    """Station pressure at a height above the sea, from a pressure reduced to sea level.

    Parameters
    ----------
    height_m : float
        Geopotential height of the course. [m]
    sea_level_pa : float
        Pressure reduced to sea level, as forecasts give it; standard where not said. [Pa]

    Returns
    -------
    float
        Station pressure. [Pa]

    Raises
    ------
    OutOfRange
        Outside -500 to 4500 m, or a sea-level pressure outside 900 to 1100 hPa.

    Notes
    -----
    The reduction runs through the standard temperature, never today's: with the day's own
    temperature in the density formula the cold of altitude is then counted once.

    References
    ----------
    .. [1] ISO 2533:1975, barometric formula of the troposphere.
    """
    within("sea-level pressure", sea_level_pa, 90000.0, 110000.0, "Pa")
    ratio = standard_temperature(height_m=height_m) / STANDARD_K
    return float(sea_level_pa * ratio**_EXPONENT)


def air_of(*, air_k: float, pressure_pa: float, humidity: float) -> Air:
    """Density and viscosity of moist air.

    Parameters
    ----------
    air_k : float
        Air temperature in the shade. [K]
    pressure_pa : float
        Station pressure. [Pa]
    humidity : float
        Relative humidity, 0 to 1. [-]

    Returns
    -------
    Air

    Raises
    ------
    OutOfRange
        See `moist_density`.
    """
    density = moist_density(air_k=air_k, pressure_pa=pressure_pa, humidity=humidity)
    return Air(density_kgpm3=density, viscosity_pas=viscosity(air_k=air_k))


# The day a stated carry belongs to where the player says nothing else:
# 20 C (68 F), 1013.25 hPa, 50 % humidity. A convention of ours.
USUAL_K, USUAL_HUMIDITY = 293.15, 0.5
REFERENCE = air_of(air_k=USUAL_K, pressure_pa=STANDARD_PA, humidity=USUAL_HUMIDITY)
