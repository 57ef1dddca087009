"""Where does the wind come from, and how strong is it at the height of the ball?"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, log, pi

from engine.core.checks import within

STATED_M = 10.0  # height of a reported wind, WMO-No. 8 (from memory)
FLOOR_M = 1.0  # below this the profile is held: turf, legs and bags, not a clean boundary layer
FLAG_M = 2.13  # a flagstick of 7 ft, the height the Equipment Rules recommend (from memory)
OPEN_M = 0.03  # roughness of open land, R. Stull, Meteorology for Scientists and Engineers
STRONGEST_MPS = 22.5  # 50 mph
_KARMAN, _SIGMA_OVER_FRICTION, _GUST_PEAK = 0.4, 2.4, 2.75  # sources in `speed_doubt`
_ALOFT_M = 20.0  # where a shot spends its time
_TOLD, _GUESS, _MOST_DOUBT = 0.14, 0.25, 0.6  # judgement


@dataclass(frozen=True, slots=True)
class Wind:
    """A steady wind over ground of one roughness.

    Attributes
    ----------
    speed_mps : float
        Speed at 10 m above the ground. [m s-1]
    from_rad : float
        Where it comes from, clockwise from the target line: 0 in the face, pi/2 from the
        right, pi helping. [rad]
    roughness_m : float
        Roughness length z0 of the logarithmic profile. [m]
    doubt : float
        Standard deviation, over the speed, of what blows on one shot: it widens a pattern and
        never moves its centre. See `speed_doubt`. [-]
    """

    speed_mps: float
    from_rad: float
    roughness_m: float = OPEN_M
    doubt: float = 0.2


CALM = Wind(speed_mps=0.0, from_rad=0.0)


def check_wind(wind: Wind) -> None:
    """Refuse a wind the model is not meant for.

    Raises
    ------
    OutOfRange
        Speed outside 0 to 22.5 m/s, roughness outside 0.0002 to 0.5 m, or doubt outside
        0 to 1.
    """
    within("wind speed", wind.speed_mps, 0.0, STRONGEST_MPS, "m/s")
    within("roughness length", wind.roughness_m, 2e-4, 0.5, "m")
    within("doubt of the wind", wind.doubt, 0.0, 1.0, "1")


def profile(*, height_m: float, roughness_m: float = OPEN_M) -> float:
    """Wind at a height over the wind at 10 m: the neutral logarithmic law.

    Parameters
    ----------
    height_m : float
        Above the ground. Held at its 1 m value below 1 m. [m]
    roughness_m : float
        z0. [m]

    Returns
    -------
    float
        u(z) / u(10 m). [-]

    References
    ----------
    .. [1] R. Stull, Meteorology for Scientists and Engineers: log wind profile and the
       Davenport-Wieringa roughness classes.
    """
    return log(max(height_m, FLOOR_M) / roughness_m) / log(STATED_M / roughness_m)


def speed_doubt(
    *,
    speed_mps: float,
    gust_mps: float | None = None,
    guessed: bool = False,
    roughness_m: float = OPEN_M,
) -> float:
    """How far the wind of one shot strays from the told one, as a share of it.

    Parameters
    ----------
    speed_mps : float
        Told mean speed. [m s-1]
    gust_mps : float or None
        Told gusts, peaks of about three seconds. [m s-1]
    guessed : bool
        The speed is a guess or a word, not a reading or a forecast.
    roughness_m : float
        z0. [m]

    Returns
    -------
    float
        Standard deviation over the mean, at most 0.6. [-]

    Notes
    -----
    Two independent parts. Turbulence: ``sigma_u = 2.4 u*`` over the logarithmic profile at 20 m
    [1]_, 15 % in the open, or what the gusts say where they are stronger, a gust being 2.75
    standard deviations above the mean [2]_. And the error of the told mean: 14 % for a number,
    25 % for a guess; both are judgement.

    References
    ----------
    .. [1] H. A. Panofsky, J. A. Dutton, Atmospheric Turbulence, 1984 (from memory).
    .. [2] J. Wieringa, "Gust factors over open water and built-up country", Boundary-Layer
       Meteorology 3 (1973) 424-441 (from memory).
    """
    turbulence = _SIGMA_OVER_FRICTION * _KARMAN / log(_ALOFT_M / roughness_m)
    if gust_mps is not None and speed_mps > 0.0:
        turbulence = max(turbulence, (gust_mps / speed_mps - 1.0) / _GUST_PEAK)
    return min(hypot(turbulence, _GUESS if guessed else _TOLD), _MOST_DOUBT)


def felt_at_flag(*, speed_mps: float, roughness_m: float = OPEN_M) -> float:
    """10 m speed of a wind felt at the height of the flag. [m s-1].

    Parameters
    ----------
    speed_mps : float
        Speed felt at 2.13 m. [m s-1]
    roughness_m : float
        z0. [m]

    Returns
    -------
    float
        Speed at 10 m, always more than felt. [m s-1]
    """
    return speed_mps / profile(height_m=FLAG_M, roughness_m=roughness_m)


def from_compass(*, wind_bearing_rad: float, hole_bearing_rad: float) -> float:
    """Direction relative to the hole of a wind named by the compass. [rad].

    Parameters
    ----------
    wind_bearing_rad : float
        Where the wind comes from, clockwise from north. [rad]
    hole_bearing_rad : float
        Where the shot is going, clockwise from north. [rad]

    Returns
    -------
    float
        ``from_rad``, 0 to 2 pi. [rad]
    """
    return (wind_bearing_rad - hole_bearing_rad) % (2.0 * pi)
