"""How many putts does this player need from a distance, on a level green?"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from engine.core.capture import HOLE_RADIUS_M, capture_half_width_m
from engine.core.golfer import ShortGame
from engine.core.normal import normal_cdf
from engine.core.roll import green_deceleration_mps2
from engine.errors import OutOfRange

Array = NDArray[np.float64]

LONGEST_M = 75.0
SLOWEST_M, FASTEST_M = 1.2, 5.5  # about 4 to 18 ft of Stimpmeter reading
# Distances of the table; a ball inside the first is a tap-in that never misses.
_LENGTH_M = np.concatenate([[0.0, 0.1], np.geomspace(0.2, LONGEST_M, 46)])
# Paces tried: how far past the hole a ball would run on the flat. [m]
_PAST_M = np.array([0.02, 0.1, 0.2, 0.3, 0.42, 0.55, 0.75])
_PACE_Z = np.linspace(-4.0, 4.0, 49)
_PACE_W = np.exp(-0.5 * _PACE_Z**2) / np.exp(-0.5 * _PACE_Z**2).sum()
_LINE_Z = np.linspace(0.0, 4.2, 13)
_SWEEPS = 12


@dataclass(frozen=True, slots=True)
class PuttTable:
    """What a player's putts come to on a level green, by distance.

    Attributes
    ----------
    length_m : ndarray (n,)
        Distance to the hole, rising from 0. [m]
    expected : ndarray (n,)
        Mean number of putts to hole out. [-]
    one, two : ndarray (n,)
        Chance to need exactly one, exactly two putts; the rest is three or more. [-]
    past_m : ndarray (n,)
        Pace that gives the fewest putts, as roll past the hole on the flat. [m]
    """

    length_m: Array
    expected: Array
    one: Array
    two: Array
    past_m: Array


@lru_cache(maxsize=64)
def putt_table(*, line_rad: float, pace: float, stimp_m: float) -> PuttTable:
    """Work out a player's putts at all distances on a level green.

    Parameters
    ----------
    line_rad : float
        Standard deviation of the start line. [rad]
    pace : float
        Standard deviation of the roll over the roll meant. [-]
    stimp_m : float
        Stimpmeter reading of the green. [m]

    Returns
    -------
    PuttTable
        Expected putts, chances and best pace by distance.

    Raises
    ------
    OutOfRange
        A reading outside 1.2 to 5.5 m.

    Notes
    -----
    Each putt starts on a normal line and with a normal pace; the ball runs straight and
    slows evenly; the hole takes it as `capture_half_width_m` says; a miss stops where its
    pace takes it and is putted from there with the pace that is best from there. Expected
    putts solve that loop by successive sweeps, choosing the pace at every distance.
    """
    if not SLOWEST_M <= stimp_m <= FASTEST_M:
        raise OutOfRange("stimp_m", stimp_m, SLOWEST_M, FASTEST_M, "m")
    length = _LENGTH_M[2:, None, None]
    meant = length + _PAST_M[:, None]
    roll = np.maximum(meant * (1.0 + pace * _PACE_Z), 0.0)
    slow = green_deceleration_mps2(stimp_m=stimp_m)
    speed = np.sqrt(np.maximum(2.0 * slow * (roll - length), 0.0))
    half = np.where(roll < length - HOLE_RADIUS_M, 0.0, capture_half_width_m(speed_mps=speed))
    window = np.arcsin(np.minimum(half / length, 1.0))[..., None]
    # Cells of start line, both sides folded together; the part inside the window is holed.
    low, high = _LINE_Z[:-1] * line_rad, _LINE_Z[1:] * line_rad
    missed_low = np.maximum(low, window)
    missed_high = np.maximum(high, missed_low)
    mass = 2.0 * (normal_cdf(missed_high / line_rad) - normal_cdf(missed_low / line_rad))
    mass = mass * _PACE_W[:, None]
    line = 0.5 * (missed_low + missed_high)
    leave = np.hypot(
        roll[..., None] * np.cos(line) - length[..., None], roll[..., None] * np.sin(line)
    )
    leave = np.minimum(leave, LONGEST_M)
    one = 1.0 - mass.sum(axis=(-1, -2))
    expected = np.concatenate([[1.0, 1.0], np.linspace(1.0, 2.5, len(_LENGTH_M) - 2)])
    rows = np.arange(len(_LENGTH_M) - 2)
    best = np.zeros_like(rows)
    for _ in range(_SWEEPS):
        total = 1.0 + (mass * np.interp(leave, _LENGTH_M, expected)).sum(axis=(-1, -2))
        best = total.argmin(axis=1)
        change = np.abs(total[rows, best] - expected[2:]).max()
        expected[2:] = total[rows, best]
        if change < 1e-4:
            break
    one = np.concatenate([[1.0, 1.0], one[rows, best]])
    two = (mass[rows, best] * np.interp(leave[rows, best], _LENGTH_M, one)).sum(axis=(-1, -2))
    return PuttTable(
        length_m=_LENGTH_M,
        expected=expected,
        one=one,
        two=np.concatenate([[0.0, 0.0], two]),
        past_m=np.concatenate([_PAST_M[:1], _PAST_M[:1], _PAST_M[best]]),
    )


def expected_putts(*, length_m: Array, short: ShortGame, stimp_m: float) -> Array:
    """Mean number of putts this player needs from each distance on a level green.

    Parameters
    ----------
    length_m : ndarray
        Distance to the hole, 0 to 75 m. [m]
    short : ShortGame
        The player's start-line and pace spread.
    stimp_m : float
        Stimpmeter reading of the green. [m]

    Returns
    -------
    ndarray
        Expected putts, of the shape of `length_m`. [-]

    Raises
    ------
    OutOfRange
        A distance or a reading outside the range of the model.

    Notes
    -----
    The table behind it costs some 20 ms once for a player and a green speed, then an
    interpolation.
    """
    length = _checked(length_m)
    table = _table_of(short, stimp_m)
    return np.asarray(np.interp(length, table.length_m, table.expected))


def putt_chances(
    *, length_m: Array, short: ShortGame, stimp_m: float
) -> tuple[Array, Array, Array]:
    """Chances of one, of two and of three or more putts on a level green.

    Parameters
    ----------
    length_m, short, stimp_m
        As for `expected_putts`.

    Returns
    -------
    tuple of ndarray
        Three chances that add up to 1, each of the shape of `length_m`. [-]

    Raises
    ------
    OutOfRange
        A distance or a reading outside the range of the model.
    """
    length = _checked(length_m)
    table = _table_of(short, stimp_m)
    one = np.asarray(np.interp(length, table.length_m, table.one))
    two = np.asarray(np.interp(length, table.length_m, table.two))
    return one, two, 1.0 - one - two


def _table_of(short: ShortGame, stimp_m: float) -> PuttTable:
    return putt_table(line_rad=short.putt_line_rad, pace=short.putt_pace, stimp_m=stimp_m)


def _checked(length_m: Array) -> Array:
    length = np.asarray(length_m, dtype=np.float64)
    for bad in length[~((length >= 0.0) & (length <= LONGEST_M))].flat:
        raise OutOfRange("length_m", float(bad), 0.0, LONGEST_M, "m")
    return length
