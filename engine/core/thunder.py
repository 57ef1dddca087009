"""How far off is a flash whose thunder came so much later?"""

from math import sqrt

from engine.errors import OutOfRange

# Speed of sound in dry air at 273.15 K: O. Cramer, J. Acoust. Soc. Am. 93 (1993) 2510-2516.
_SOUND_MPS, _AT_K = 331.3, 273.15


def strike_distance_m(*, seconds: float, air_k: float = 288.15) -> float:
    """Distance of a flash from the seconds between flash and thunder.

    Parameters
    ----------
    seconds : float
        Time from flash to thunder, 0 to 120. [s]
    air_k : float
        Air temperature. [K]

    Returns
    -------
    float
        Distance. [m]

    Raises
    ------
    OutOfRange
        A time outside 0 to 120 s: thunder is not heard from farther.

    Notes
    -----
    Speed of sound times time; it grows with the root of the temperature.
    """
    if not 0 <= seconds <= 120:
        raise OutOfRange("seconds", seconds, 0, 120, "s")
    return _SOUND_MPS * sqrt(air_k / _AT_K) * seconds
