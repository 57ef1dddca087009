"""Which line and pace bring a ball to the hole, and how much room is there either side?"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from engine.core.capture import HOLE_RADIUS_M, capture_half_width_m
from engine.core.roll import Stretch, cross_line

Array = NDArray[np.float64]

_ROUNDS = 12
_NUDGE = 1e-5
_CLOSE_M = 5e-5
_LARGEST_TURN_RAD = 0.25


class Aim(NamedTuple):
    """Start lines and paces that reach the middle of the hole.

    Attributes
    ----------
    heading_rad : ndarray (n,)
        Direction of the start, right positive. [rad]
    roll_m : ndarray (n,)
        Pace, as the length a ball would roll on the same green made level. [m]
    facing_rad : ndarray (n,)
        Direction of travel at the hole. [rad]
    found : ndarray of bool (n,)
        Whether the search closed.
    """

    heading_rad: Array
    roll_m: Array
    facing_rad: Array
    found: NDArray[np.bool_]


class Window(NamedTuple):
    """Start lines that are holed, for each pace.

    Attributes
    ----------
    low_rad, high_rad : ndarray (n,)
        Ends of the holed start lines; equal where none is. [rad]
    centre_rad : ndarray (n,)
        Start line over the middle of the hole, or nearest to it. [rad]
    """

    low_rad: Array
    high_rad: Array
    centre_rad: Array


def aim_to_arrive(
    *,
    green: tuple[Stretch, ...],
    level_mps2: float,
    hole_x_m: Array,
    hole_y_m: Array,
    arrival_mps: Array,
) -> Aim:
    """Find start line and pace that pass over the hole's middle at a given speed.

    Parameters
    ----------
    green : tuple of Stretch
        The ground from the ball on; the ball is at the origin.
    level_mps2 : float
        Deceleration of the same green when level. [m s-2]
    hole_x_m, hole_y_m : ndarray (n,)
        Middle of the hole. [m]
    arrival_mps : ndarray (n,)
        Speed wanted there. [m/s]

    Returns
    -------
    Aim
        One line and pace for each hole and speed.

    Notes
    -----
    Newton's method on line and pace together, from the line of a ball that is pulled aside
    evenly and the pace that energy asks for.
    """
    straight = np.arctan2(hole_y_m, hole_x_m)
    wanted = arrival_mps * arrival_mps
    heading, roll = _first_guess(green, level_mps2, hole_x_m, hole_y_m, arrival_mps)
    facing = 2.0 * straight - heading
    found = np.zeros(straight.shape, dtype=np.bool_)
    for turn in range(_ROUNDS):
        tries = np.concatenate([heading, heading + _NUDGE, heading])
        paces = np.concatenate([roll, roll, roll * (1.0 + _NUDGE)])
        at = cross_line(
            green=green,
            speed_mps=np.sqrt(2.0 * level_mps2 * paces),
            heading_rad=tries,
            x_m=np.tile(hole_x_m, 3),
            y_m=np.tile(hole_y_m, 3),
            facing_rad=np.tile(facing, 3),
        )
        dx, dy = at.x_m - np.tile(hole_x_m, 3), at.y_m - np.tile(hole_y_m, 3)
        cosine, sine = np.tile(np.cos(facing), 3), np.tile(np.sin(facing), 3)
        off = np.split(dy * cosine - dx * sine, 3)
        energy = np.where(at.there, at.speed_mps**2, 2.0 * level_mps2 * (dx * cosine + dy * sine))
        fast = np.split(energy, 3)
        there = at.there[: len(roll)]
        found = there & (np.abs(off[0]) < _CLOSE_M) & (np.abs(fast[0] - wanted) < 1e-3)
        if found.all():
            break
        aa, ab = (off[1] - off[0]) / _NUDGE, (off[2] - off[0]) / _NUDGE
        ba, bb = (fast[1] - fast[0]) / _NUDGE, (fast[2] - fast[0]) / _NUDGE
        whole = aa * bb - ab * ba
        whole = np.where(np.abs(whole) > 1e-9, whole, 1e-9)
        lacking = wanted - fast[0]
        heading = heading + np.clip((-off[0] * bb - lacking * ab) / whole, -0.25, 0.25)
        roll = roll * (1.0 + np.clip((lacking * aa + off[0] * ba) / whole, -0.25, 0.25))
        if turn < _ROUNDS // 2:
            turning = np.clip(at.heading_rad[: len(roll)] - facing, -0.4, 0.4)
            facing = np.where(there, facing + turning, facing)
    return Aim(heading, roll, facing, found)


def _first_guess(
    green: tuple[Stretch, ...], level_mps2: float, hole_x_m: Array, hole_y_m: Array, arrival: Array
) -> tuple[Array, Array]:
    length = np.hypot(hole_x_m, hole_y_m)
    straight = np.arctan2(hole_y_m, hole_x_m)
    begins, gained, sideways = 0.0, np.zeros_like(length), np.zeros_like(length)
    for on in green:
        share = np.clip((on.until_m - begins) / length, 0.0, 1.0 - begins / length)
        begins = min(on.until_m, float(length.max()))
        gained += share * (on.pull_x_mps2 * np.cos(straight) + on.pull_y_mps2 * np.sin(straight))
        sideways += share * (on.pull_y_mps2 * np.cos(straight) - on.pull_x_mps2 * np.sin(straight))
    start = np.maximum(arrival**2 + 2.0 * length * (green[-1].slow_mps2 - gained), 0.1 * length)
    lasts_s = 2.0 * length / (np.sqrt(start) + arrival)
    bend = np.clip(0.5 * sideways * lasts_s**2 / length, -1.2, 1.2)
    return straight - np.arctan(bend), start / (2.0 * level_mps2)


def holed_window(
    *,
    green: tuple[Stretch, ...],
    level_mps2: float,
    hole_x_m: Array,
    hole_y_m: Array,
    facing_rad: Array,
    roll_m: Array,
    heading_rad: Array,
    rounds: int = 3,
) -> Window:
    """Find the start lines that are holed at each pace.

    Parameters
    ----------
    green, level_mps2, hole_x_m, hole_y_m
        As for `aim_to_arrive`; arrays of shape (n,) or (1,).
    facing_rad : ndarray (n,) or (1,)
        Direction of travel at the hole, roughly. [rad]
    roll_m : ndarray (n,)
        Paces. [m]
    heading_rad : ndarray (n,)
        A start line near the middle for each. [rad]
    rounds : int
        Corrections of the middle line.

    Returns
    -------
    Window
        Ends and middle of the holed start lines.

    Notes
    -----
    The hole is taken as the chord square to the way the ball comes in. A ball that dies
    within a hole's radius short of the middle has reached the rim and is in.
    """
    speed = np.sqrt(2.0 * level_mps2 * roll_m)
    centre = heading_rad
    step = 0.01

    def miss(heading: Array) -> tuple[Array, Array, NDArray[np.bool_], Array]:
        at = cross_line(
            green=green,
            speed_mps=speed,
            heading_rad=heading,
            x_m=hole_x_m,
            y_m=hole_y_m,
            facing_rad=facing_rad,
        )
        dx, dy = at.x_m - hole_x_m, at.y_m - hole_y_m
        off = dy * np.cos(facing_rad) - dx * np.sin(facing_rad)
        short = -(dx * np.cos(facing_rad) + dy * np.sin(facing_rad))
        # Square to the ball's own way rather than to the line crossed.
        off = off * np.where(at.there, np.cos(at.heading_rad - facing_rad), 1.0)
        return off, at.speed_mps, at.there, short

    off, arrival, there, short = miss(centre)
    other, _, _, _ = miss(centre + step)
    slope = np.maximum((other - off) / step, 1e-3)
    for _ in range(rounds):
        turn = np.clip(-off / slope, -_LARGEST_TURN_RAD, _LARGEST_TURN_RAD)
        centre = centre + turn
        last = off
        off, arrival, there, short = miss(centre)
        usable = np.abs(turn) > 1e-6
        secant = (off - last) / np.where(usable, turn, 1.0)
        slope = np.where(usable & (secant > 0.1 * slope), secant, slope)
    centre = centre - np.clip(off / slope, -_LARGEST_TURN_RAD, _LARGEST_TURN_RAD)
    rim = np.sqrt(np.maximum(HOLE_RADIUS_M**2 - np.maximum(short, 0.0) ** 2, 0.0))
    half = np.where(there, capture_half_width_m(speed_mps=arrival), rim) / slope
    return Window(centre - half, centre + half, centre)
