"""Which line and pace give this putt the fewest strokes?"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from engine.core.aim import Aim, aim_to_arrive, holed_window
from engine.core.golfer import ShortGame
from engine.core.leave import LeaveValues, leave_values, widening
from engine.core.normal import normal_cdf
from engine.core.roll import HOLDS_BELOW, Stretch, green_deceleration_mps2, resting_place_m
from engine.errors import NoSolution, OutOfRange

Array = NDArray[np.float64]

SHORTEST_M, LONGEST_M = 0.15, 61.0
# Arrivals tried, as roll past the hole on the level. [m]
_PAST_M = np.array([0.03, 0.1, 0.2, 0.3, 0.42, 0.6, 0.85])
# Start lines tried either side of the middle, in standard deviations of the line.
_BESIDE = np.linspace(-0.6, 0.6, 13)
_PACES = 48
_REACH = 3.6


@dataclass(frozen=True, slots=True)
class Putt:
    """The best way to putt, and what comes of it.

    Attributes
    ----------
    aim_m : float
        Where the start line passes the hole, right positive. [m]
    heading_rad : float
        Start line, right of the hole positive. [rad]
    roll_m : float
        Pace, as the length such a ball would roll on the level of this green. [m]
    one, three : float
        Chance to hole it, and to need three or more. [-]
    expected : float
        Mean number of putts to hole out. [-]
    meant_x_m, meant_y_m : float
        Where the putt as meant would stop were there no hole, from the hole, beyond and to
        the right of it. [m]
    firm_m : float
        How far from the hole one struck a standard deviation too hard stops. [m]
    fall_rad : float
        Direction of travel at the hole. [rad]
    """

    aim_m: float
    heading_rad: float
    roll_m: float
    one: float
    three: float
    expected: float
    meant_x_m: float
    meant_y_m: float
    firm_m: float
    fall_rad: float


def best_putt(
    *, green: tuple[Stretch, ...], length_m: float, short: ShortGame, stimp_m: float
) -> Putt:
    """Choose the start line and pace that need the fewest putts.

    Parameters
    ----------
    green : tuple of Stretch
        The ground from the ball to the hole and beyond, in order.
    length_m : float
        Distance to the hole. [m]
    short : ShortGame
        The player's spread of start line and pace.
    stimp_m : float
        Level Stimpmeter reading. [m]

    Returns
    -------
    Putt
        Line, pace and chances.

    Raises
    ------
    OutOfRange
        Length outside 0.15 to 61 m, or ground at the hole too steep to hold a ball.
    NoSolution
        No line and pace bring a ball to the hole.

    Notes
    -----
    Line and pace are normal about what is meant. For every pace the holed start lines are
    found on the exact rolling curve; a miss rests where that curve ends and costs what
    `LeaveValues` says. Expected putts are then a sum over lines and paces for every line and
    pace meant, the least of which is refined by a parabola through its neighbours. A green
    and its mirror image give mirrored answers exactly: both are worked out on one of them.
    """
    _check(green, length_m)
    if _leans_left(green, length_m):
        mirrored = tuple(replace(on, pull_y_mps2=-on.pull_y_mps2) for on in green)
        found = best_putt(green=mirrored, length_m=length_m, short=short, stimp_m=stimp_m)
        return replace(
            found,
            aim_m=-found.aim_m,
            heading_rad=-found.heading_rad,
            meant_y_m=-found.meant_y_m,
            fall_rad=-found.fall_rad,
        )
    return _Search(green, length_m, short, stimp_m).best()


def misread_cost(
    *, green: tuple[Stretch, ...], length_m: float, short: ShortGame, stimp_m: float, taken: Putt
) -> float:
    """Strokes lost by playing a putt as `taken`, found for another slope, on this green.

    Parameters
    ----------
    green, length_m, short, stimp_m
        As for `best_putt`.
    taken : Putt
        Line and pace played.

    Returns
    -------
    float
        Expected putts more than with the best line and pace, never negative. [-]

    Raises
    ------
    OutOfRange, NoSolution
        As for `best_putt`.
    """
    _check(green, length_m)
    search = _Search(green, length_m, short, stimp_m, taken.heading_rad)
    played = search.expected(taken.heading_rad, taken.roll_m)
    return max(played - search.best().expected, 0.0)


def _check(green: tuple[Stretch, ...], length_m: float) -> None:
    if not SHORTEST_M <= length_m <= LONGEST_M:
        raise OutOfRange("length_m", length_m, SHORTEST_M, LONGEST_M, "m")
    steepness = green[-1].steepness
    if steepness >= HOLDS_BELOW:
        raise OutOfRange("steepness", steepness, 0.0, HOLDS_BELOW, "1")


def _leans_left(green: tuple[Stretch, ...], length_m: float) -> bool:
    begins, total = 0.0, 0.0
    for on in green:
        ends = min(on.until_m, length_m)
        total += (ends - begins) * on.pull_y_mps2
        begins = ends
    return (total, green[0].pull_y_mps2) < (0.0, 0.0)


class _Search:
    """One putt's surfaces over start line and pace."""

    def __init__(
        self,
        green: tuple[Stretch, ...],
        length_m: float,
        short: ShortGame,
        stimp_m: float,
        also_rad: float | None = None,
    ) -> None:
        self._green, self._length, self._short = green, length_m, short
        self._slow = green_deceleration_mps2(stimp_m=stimp_m)
        self._after: LeaveValues = leave_values(
            on=replace(green[-1], until_m=math.inf),
            line_rad=short.putt_line_rad,
            pace=short.putt_pace,
            stimp_m=stimp_m,
        )
        meant = self._aims()
        middle = len(meant.roll_m) // 2
        self._facing = meant.facing_rad[middle : middle + 1]
        self._wider = widening(
            length_m=np.full(1, length_m),
            roll_m=meant.roll_m[:1] - self._past[:1],
        )[0]
        self._line = short.putt_line_rad * float(self._wider)
        self._pace = short.putt_pace * float(self._wider)
        self._meant = meant
        low = max(meant.roll_m[0] * (1.0 - _REACH * self._pace), 0.02)
        high = meant.roll_m[-1] * (1.0 + _REACH * self._pace)
        self._rolls = np.linspace(low, high, _PACES)
        self._window = holed_window(
            green=green,
            level_mps2=self._slow,
            hole_x_m=np.full(1, length_m),
            hole_y_m=np.zeros(1),
            facing_rad=self._facing,
            roll_m=self._rolls,
            heading_rad=np.interp(self._rolls, meant.roll_m, meant.heading_rad),
        )
        self._lines = self._line_nodes(also_rad)
        grid_roll, grid_line = (
            values.ravel() for values in np.meshgrid(self._rolls, self._lines, indexing="ij")
        )
        cost, again = self._cost(grid_roll, grid_line)
        shape = (_PACES, len(self._lines))
        self._cost_grid, self._again_grid = cost.reshape(shape), again.reshape(shape)
        self._cost_centre, self._again_centre = self._cost(self._rolls, self._window.centre_rad)

    def _aims(self) -> Aim:
        n = len(_PAST_M)
        aim = aim_to_arrive(
            green=self._green,
            level_mps2=self._slow,
            hole_x_m=np.full(n, self._length),
            hole_y_m=np.zeros(n),
            arrival_mps=np.sqrt(2.0 * self._slow * _PAST_M),
        )
        good = aim.found & (np.abs(aim.heading_rad) < 1.4)
        if not good.any():
            raise NoSolution("putt", "no line and pace bring a ball to the hole")
        order = np.argsort(aim.roll_m[good])
        self._past = _PAST_M[good][order]
        keep = np.flatnonzero(good)[order]
        return Aim(aim.heading_rad[keep], aim.roll_m[keep], aim.facing_rad[keep], aim.found[keep])

    def _line_nodes(self, also_rad: float | None) -> Array:
        meant = self._meant.heading_rad
        if also_rad is not None:
            meant = np.append(meant, also_rad)
        low, high = meant.min() - 4.2 * self._line, meant.max() + 4.2 * self._line
        return np.linspace(low, high, int(min(2 + math.ceil((high - low) / self._line / 0.6), 60)))

    def _cost(self, roll: Array, heading: Array) -> tuple[Array, Array]:
        x, y = resting_place_m(
            green=self._green,
            speed_mps=np.sqrt(2.0 * self._slow * roll),
            heading_rad=heading,
        )
        return self._after.at(x - self._length, y)

    def _play(self, heading: Array, roll: float) -> tuple[Array, Array, Array]:
        """Expected putts, chance of one, of three or more for lines meant at one pace."""
        z = (self._rolls / roll - 1.0) / self._pace
        paces = np.exp(-0.5 * z * z)
        paces /= paces.sum()
        z = (self._lines - heading[:, None]) / self._line
        lines = np.exp(-0.5 * z * z)
        lines /= lines.sum(axis=1, keepdims=True)
        meant = heading[:, None]
        holed = normal_cdf((self._window.high_rad - meant) / self._line) - normal_cdf(
            (self._window.low_rad - meant) / self._line
        )
        expected = 1.0 + lines @ (paces @ self._cost_grid) - holed @ (paces * self._cost_centre)
        again = lines @ (paces @ self._again_grid) - holed @ (paces * self._again_centre)
        return expected, holed @ paces, np.maximum(again, 0.0)

    def expected(self, heading: float, roll: float) -> float:
        """Expected putts for one line and pace."""
        return float(self._play(np.full(1, heading), roll)[0][0])

    def best(self) -> Putt:
        """Return the putt with the fewest expected strokes."""
        surface = np.empty((len(self._meant.roll_m), len(_BESIDE)))
        for i, (heading, roll) in enumerate(
            zip(self._meant.heading_rad, self._meant.roll_m, strict=True)
        ):
            surface[i] = self._play(heading + _BESIDE * self._line, float(roll))[0]
        least, best = divmod(int(surface.argmin()), len(_BESIDE))
        u = _vertex(surface[:, best], least)
        side = best + _vertex(surface[least], best)
        beside = np.interp(side, np.arange(len(_BESIDE)), _BESIDE)
        steps = np.arange(len(self._meant.roll_m))
        roll = float(np.interp(least + u, steps, self._meant.roll_m))
        heading = float(np.interp(least + u, steps, self._meant.heading_rad) + beside * self._line)
        expected, one, three = (float(v[0]) for v in self._play(np.full(1, heading), roll))
        rolls = np.array([roll, roll * (1.0 + self._pace)])
        x, y = resting_place_m(
            green=self._green,
            speed_mps=np.sqrt(2.0 * self._slow * rolls),
            heading_rad=np.full(2, heading),
        )
        return Putt(
            aim_m=self._length * math.tan(heading),
            heading_rad=heading,
            roll_m=roll,
            one=one,
            three=three,
            expected=expected,
            meant_x_m=float(x[0]) - self._length,
            meant_y_m=float(y[0]),
            firm_m=math.hypot(float(x[1]) - self._length, float(y[1])),
            fall_rad=float(self._facing[0]),
        )


def _vertex(values: Array, least: int) -> float:
    """Offset of the lowest point of a parabola through the least value's neighbours."""
    if not 0 < least < len(values) - 1:
        return 0.0
    before, at, after = values[least - 1 : least + 2]
    bend = before - 2.0 * at + after
    return float(np.clip(0.5 * (before - after) / bend, -0.5, 0.5)) if bend > 1e-12 else 0.0
