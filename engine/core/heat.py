"""How hot or cold the air feels: heat index and wind chill by the weather service's formulas."""

from math import sqrt

from engine.errors import OutOfRange

# Exact: 1 degF = 5/9 K, 0 degF = 255.372222 K; 1 mph = 0.44704 m/s.
_MPH = 0.44704
_LOW_K, _HIGH_K = 193.15, 333.15


def heat_index(*, air_k: float, humidity: float) -> float:
    """Apparent temperature of warm, moist air in the shade.

    Parameters
    ----------
    air_k : float
        Air temperature, shaded. [K]
    humidity : float
        Relative humidity, 0 to 1. [-]

    Returns
    -------
    float
        Heat index. In full sun up to 8 K more. [K]

    Raises
    ------
    OutOfRange
        Air outside -80 to 60 degC, or humidity outside 0 to 1.

    Notes
    -----
    The simple average below 80 degF, the regression with its two adjustments above; the
    regression's own error is about 1.3 degF [1]_. Table: fixtures/tables/heat_index.csv.

    References
    ----------
    .. [1] L. P. Rothfusz, "The heat index equation", US National Weather Service technical
       attachment SR 90-23 (1990), with the adjustments of the Weather Prediction Center's
       page "The Heat Index Equation".
    """
    t, rh = _fahrenheit(air_k), 100 * _fraction(humidity)
    simple = 0.5 * (t + 61 + (t - 68) * 1.2 + rh * 0.094)
    if (simple + t) / 2 < 80:
        return _kelvin((simple + t) / 2)
    felt = (
        -42.379 + 2.04901523 * t + 10.14333127 * rh - 0.22475541 * t * rh
        - 0.00683783 * t * t - 0.05481717 * rh * rh + 0.00122874 * t * t * rh
        + 0.00085282 * t * rh * rh - 0.00000199 * t * t * rh * rh
    )  # fmt: skip
    if rh < 13 and 80 <= t <= 112:
        felt -= (13 - rh) / 4 * sqrt((17 - abs(t - 95)) / 17)
    elif rh > 85 and 80 <= t <= 87:
        felt += (rh - 85) / 10 * (87 - t) / 5
    return _kelvin(felt)


def wind_chill(*, air_k: float, wind_mps: float) -> float:
    """Apparent temperature of cold air in wind, for exposed skin.

    Parameters
    ----------
    air_k : float
        Air temperature. [K]
    wind_mps : float
        Wind speed at 10 m, never negative. [m s-1]

    Returns
    -------
    float
        Wind chill; the air temperature itself above 50 degF or at 3 mph and less. [K]

    Raises
    ------
    OutOfRange
        Air outside -80 to 60 degC, or wind outside 0 to 60 m/s.

    References
    ----------
    .. [1] US National Weather Service, "Wind Chill Temperature Index" (2001).
    """
    t = _fahrenheit(air_k)
    if not 0 <= wind_mps <= 60:
        raise OutOfRange("wind_mps", wind_mps, 0, 60, "m/s")
    if t > 50 or wind_mps <= 3 * _MPH:
        return air_k
    power = (wind_mps / _MPH) ** 0.16
    return _kelvin(35.74 + 0.6215 * t - 35.75 * power + 0.4275 * t * power)


def heat_band(*, felt_k: float) -> int:
    """Band of a heat index: 0 none, 1 caution, 2 extreme caution, 3 danger, 4 extreme danger.

    Parameters
    ----------
    felt_k : float
        Heat index. [K]

    Returns
    -------
    int
        Band, 0 to 4. [-]

    Notes
    -----
    Limits 80, 90, 103 and 125 degF of the weather service's heat index chart, the last two
    from memory; the workplace agency's own limits (91, 103, 115) lie close by.
    """
    return _band(_fahrenheit(felt_k), (80, 90, 103, 125))


def cold_band(*, felt_k: float) -> int:
    """Band of a wind chill: 0 none, 1 cold, 2 very cold, 3 frostbite within half an hour.

    Parameters
    ----------
    felt_k : float
        Wind chill. [K]

    Returns
    -------
    int
        Band, 0 to 3. [-]

    Notes
    -----
    Limits 32 and 10 degF and below are common practice, no source; -19 degF is where the weather
    service's chart begins to warn of frostbite in 30 minutes (from memory).
    """
    return 3 - _band(_fahrenheit(felt_k), (-18, 11, 33))  # whole degrees above each limit


def _band(value: float, limits: tuple[float, ...]) -> int:
    # A felt temperature is given in whole degrees, so 102.6 is read as 103 on the chart.
    return sum(round(value) >= limit for limit in limits)


def _fahrenheit(k: float) -> float:
    if not _LOW_K <= k <= _HIGH_K:
        raise OutOfRange("temperature", k - 273.15, _LOW_K - 273.15, _HIGH_K - 273.15, "degC")
    return (k - 273.15) * 1.8 + 32


def _kelvin(f: float) -> float:
    return (f - 32) / 1.8 + 273.15


def _fraction(humidity: float) -> float:
    if not 0 <= humidity <= 1:
        raise OutOfRange("humidity", humidity, 0, 1, "1")
    return humidity
