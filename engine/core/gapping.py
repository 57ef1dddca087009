"""How far each club of a bag carries, once the driver's carry is known."""

from __future__ import annotations

import math
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from engine.core.golfer import Family

Floats = NDArray[np.float64]

# Tour averages, men, measured by radar about 2010-2015 and widely reprinted by teachers (from
# memory): loft [deg] (usual lofts of those sets) against carry [yd].
_LOFT_DEG: Final = np.array([10.5, 15.0, 18.5, 21.0, 24.0, 27.0, 30.5, 34.0, 38.0, 42.0, 46.0])
_CARRY_YD: Final = np.array([275, 243, 230, 212, 203, 194, 183, 172, 160, 148, 136], dtype=float)
_DRIVER_YD: Final = 275.0
_GAP_POWER: Final = 0.26  # the same averages for women: 218 yd driver, 141 yd 7-iron (from memory)

_WOODS: Final = {"D": 10.5, "2w": 13, "3w": 15, "4w": 17, "5w": 18.5, "7w": 21.5, "9w": 24.5,
                 "11w": 27.5}  # fmt: skip
_HYBRIDS: Final = {"1h": 15, "2h": 17.5, "3h": 19.5, "4h": 22, "5h": 25, "6h": 28, "7h": 31.5,
                   "8h": 35.5}  # fmt: skip
_IRONS: Final = {"1i": 16, "2i": 18, "3i": 21, "4i": 24, "5i": 27, "6i": 30.5, "7i": 34, "8i": 38,
                 "9i": 42}  # fmt: skip
_WEDGES: Final[dict[str, float]] = {"PW": 46, "GW": 51, "SW": 56, "LW": 60}
_FAMILIES: Final[tuple[tuple[Family, dict[str, float]], ...]] = (
    ("wood", _WOODS), ("hybrid", _HYBRIDS), ("iron", _IRONS), ("wedge", _WEDGES),
)  # fmt: skip


def club_type(name: str) -> tuple[Family, float] | None:
    """Family and usual loft of a club by its short name.

    Parameters
    ----------
    name : str
        ``D``, ``3w``, ``4h``, ``7i``, ``PW``, or a wedge's loft in degrees such as ``56``.

    Returns
    -------
    (Family, float) or None
        Family and loft [rad]; None for a name that is no club.

    Notes
    -----
    Lofts are common practice, no source; sets differ by 3 to 4 degrees.
    """
    if name == "D":
        return "driver", math.radians(_WOODS["D"])
    for family, lofts in _FAMILIES:
        if name in lofts:
            return family, math.radians(lofts[name])
    if name.isdecimal() and 44 <= int(name) <= 66:
        return "wedge", math.radians(int(name))
    return None


def carry_curve(*, driver_m: ArrayLike, loft_rad: ArrayLike) -> Floats:
    """Carries of clean shots with clubs of these lofts by a player of this driver carry.

    Parameters
    ----------
    driver_m : array_like (m,)
        Carry of the driver. [m]
    loft_rad : array_like (n,)
        Lofts. [rad]

    Returns
    -------
    ndarray (m, n)
        Carries. [m]

    Notes
    -----
    A first form: the tour's ratios, gaps shrinking with the driver's carry.
    """
    driver = np.atleast_1d(np.asarray(driver_m, dtype=float))[:, None]
    loft = np.degrees(np.atleast_1d(np.asarray(loft_rad, dtype=float)))
    ratio = np.interp(loft, _LOFT_DEG, _CARRY_YD / _DRIVER_YD)
    steep = (_CARRY_YD[-1] - _CARRY_YD[-2]) / (_LOFT_DEG[-1] - _LOFT_DEG[-2]) / _DRIVER_YD
    ratio = ratio + np.maximum(loft - _LOFT_DEG[-1], 0.0) * steep
    shrink = (driver / (_DRIVER_YD * 0.9144)) ** _GAP_POWER
    out: Floats = driver * (1.0 - (1.0 - ratio) * shrink)
    return out


def driver_carry_of_speed(head_mps: float) -> float:
    """Carry [m] of the driver for a head speed [m/s].

    Notes
    -----
    Through the tour averages of men (113 mph, 275 yd) and women (94 mph, 218 yd), from memory.
    """
    return float(275.0 * 0.9144 * (head_mps / (113.0 * 0.44704)) ** 1.26)
