"""How many more putts from where a ball came to rest on a slope?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from engine.core.aim import aim_to_arrive, holed_window
from engine.core.normal import normal_cdf
from engine.core.putts import LONGEST_M, PuttTable, putt_table
from engine.core.roll import Stretch, green_deceleration_mps2, resting_place_m

Array = NDArray[np.float64]

_LENGTH_M = np.array([0.4, 0.8, 1.4, 2.2, 3.6, 6.0])
_TURN_RAD = np.linspace(0.0, math.pi, 7)
_PACE_Z = np.linspace(-3.0, 3.0, 9)
_PACE_W = np.exp(-0.5 * _PACE_Z**2) / np.exp(-0.5 * _PACE_Z**2).sum()


# Share of a player's variance in line and pace on the level that is misjudged slope rather
# than stroke. Judgement: no measurement found.
_READING_SHARE = 0.4


def widening(*, length_m: Array, roll_m: Array) -> Array:
    """How much wider line and pace spread than on the level, because slope is misjudged.

    Parameters
    ----------
    length_m : ndarray
        Length of the putt. [m]
    roll_m : ndarray
        Roll on the level that only just reaches over this ground. [m]

    Returns
    -------
    ndarray
        Factor on both standard deviations: above 1 downhill, below 1 uphill. [-]

    Notes
    -----
    The same misjudged grade moves the end of a putt, and its break, in proportion to how
    much further the ball runs than on the level.
    """
    further = np.clip(length_m / np.maximum(roll_m, 0.05 * length_m), 0.3, 6.0)
    return np.asarray(np.sqrt(1.0 - _READING_SHARE + _READING_SHARE * further**2))


@dataclass(frozen=True, slots=True)
class LeaveValues:
    """Putts still to come from places round a hole on an even slope.

    Attributes
    ----------
    level : PuttTable
        The same player on the level.
    fall_rad : float
        Direction of the fall line. [rad]
    more, fewer_holed : ndarray (6, 7)
        Expected putts more than on the level, and chance to hole lost, by distance and by
        the angle between the way to the hole and the fall line (0 = putting downhill).
    """

    level: PuttTable
    fall_rad: float
    more: Array
    fewer_holed: Array

    def at(self, dx_m: Array, dy_m: Array) -> tuple[Array, Array]:
        """Expected putts, and chance that one is not enough, from places round the hole.

        Parameters
        ----------
        dx_m, dy_m : ndarray
            Place of the ball less place of the hole. [m]

        Returns
        -------
        tuple of ndarray
            Expected putts, and chance to need more than one. [-]
        """
        length = np.minimum(np.hypot(dx_m, dy_m), LONGEST_M)
        expected = np.interp(length, self.level.length_m, self.level.expected)
        one = np.interp(length, self.level.length_m, self.level.one)
        turn = np.abs(
            np.remainder(np.arctan2(-dy_m, -dx_m) - self.fall_rad + math.pi, 2 * math.pi) - math.pi
        )
        row = np.interp(length, _LENGTH_M, np.arange(len(_LENGTH_M)))
        column = turn / _TURN_RAD[1]
        i = np.minimum(row.astype(np.intp), len(_LENGTH_M) - 2)
        j = np.minimum(column.astype(np.intp), len(_TURN_RAD) - 2)
        u, v = row - i, column - j
        near = np.minimum(length / _LENGTH_M[0], 1.0)

        def blend(grid: Array) -> Array:
            low = grid[i, j] * (1 - v) + grid[i, j + 1] * v
            high = grid[i + 1, j] * (1 - v) + grid[i + 1, j + 1] * v
            return np.asarray(near * (low * (1 - u) + high * u))

        more = np.maximum(expected + blend(self.more), 1.0)
        return more, np.clip(1.0 - one + blend(self.fewer_holed), 0.0, 1.0)


@lru_cache(maxsize=128)
def leave_values(*, on: Stretch, line_rad: float, pace: float, stimp_m: float) -> LeaveValues:
    """Work out a player's next putts all round a hole on an even slope.

    Parameters
    ----------
    on : Stretch
        The ground round the hole.
    line_rad, pace : float
        Spread of start line and pace. [rad, -]
    stimp_m : float
        Level Stimpmeter reading. [m]

    Returns
    -------
    LeaveValues
        What the slope adds to the level table.

    Notes
    -----
    Each next putt is played over the middle of the hole with the pace that is best on the
    level, and its own miss is counted on the level: slope is followed for two putts, not for
    a third.
    """
    level = putt_table(line_rad=line_rad, pace=pace, stimp_m=stimp_m)
    fall = math.atan2(on.pull_y_mps2, on.pull_x_mps2)
    slow = green_deceleration_mps2(stimp_m=stimp_m)
    # Turn the ground so that it falls along x, and putt towards it from all round.
    pull = math.hypot(on.pull_x_mps2, on.pull_y_mps2)
    green = (Stretch(math.inf, on.slow_mps2, pull, 0.0),)
    length = np.repeat(_LENGTH_M, len(_TURN_RAD))
    turn = np.tile(_TURN_RAD, len(_LENGTH_M))
    hole_x, hole_y = length * np.cos(turn), length * np.sin(turn)
    past = np.interp(length, level.length_m, level.past_m)
    aim = aim_to_arrive(
        green=green,
        level_mps2=slow,
        hole_x_m=hole_x,
        hole_y_m=hole_y,
        arrival_mps=np.sqrt(2.0 * slow * past),
    )
    wider = widening(length_m=length, roll_m=aim.roll_m - past)
    rolls = np.maximum(aim.roll_m[:, None] * (1.0 + pace * wider[:, None] * _PACE_Z), 0.01)
    line = np.repeat(line_rad * wider, len(_PACE_Z))

    def spread(values: Array) -> Array:
        return np.repeat(values, len(_PACE_Z))

    window = holed_window(
        green=green,
        level_mps2=slow,
        hole_x_m=spread(hole_x),
        hole_y_m=spread(hole_y),
        facing_rad=spread(aim.facing_rad),
        roll_m=rolls.ravel(),
        heading_rad=spread(aim.heading_rad),
        rounds=1,
    )
    meant = spread(aim.heading_rad)
    holed = normal_cdf((window.high_rad - meant) / line) - normal_cdf(
        (window.low_rad - meant) / line
    )
    rest_x, rest_y = resting_place_m(
        green=green, speed_mps=np.sqrt(2.0 * slow * rolls.ravel()), heading_rad=meant
    )
    wide = spread(length) * line
    left = np.sqrt((rest_x - spread(hole_x)) ** 2 + (rest_y - spread(hole_y)) ** 2 + wide**2)
    after = np.interp(np.minimum(left, LONGEST_M), level.length_m, level.expected)
    shape = (len(_LENGTH_M), len(_TURN_RAD), len(_PACE_Z))
    one = (holed.reshape(shape) * _PACE_W).sum(-1)
    expected = 1.0 + (((1.0 - holed) * after).reshape(shape) * _PACE_W).sum(-1)
    level_one = np.interp(_LENGTH_M, level.length_m, level.one)[:, None]
    level_expected = np.interp(_LENGTH_M, level.length_m, level.expected)[:, None]
    return LeaveValues(level, fall, expected - level_expected, level_one - one)
