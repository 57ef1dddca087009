"""Along what curve, and how far, does a ball roll on a green that slopes?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

# A Stimpmeter lets a ball go at 6.00 ft/s (USGA Stimpmeter booklet). [m/s]
STIMP_RELEASE_MPS = 6.00 * 0.3048
# Share of the pull along the slope that speeds up a rolling solid sphere, 1/(1 + 2/5); the
# same 5/7 is what is left of the speed of a ball that starts without spin once it rolls.
ROLLING_SHARE = 5.0 / 7.0
GRAVITY_MPS2 = 9.80665
# Steepest a stretch may be, as pull over drag, if a ball has to come to rest on it.
HOLDS_BELOW = 0.97
_NEWTON_STEPS = 7
_LARGEST_TAN = 1e12
_LAST_PROGRESS = 1.0 - 1e-12


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of green on which the slope does not change.

    Attributes
    ----------
    until_m : float
        Where it ends along the line from ball to hole; infinite for the last. [m]
    slow_mps2 : float
        Deceleration by rolling. [m s-2]
    pull_x_mps2, pull_y_mps2 : float
        Acceleration by the slope (and wind), along the line and to the right. [m s-2]
    """

    until_m: float
    slow_mps2: float
    pull_x_mps2: float
    pull_y_mps2: float

    @property
    def steepness(self) -> float:
        """Pull over drag: at 1 and above a ball never comes to rest. [-]"""
        return math.hypot(self.pull_x_mps2, self.pull_y_mps2) / self.slow_mps2


class Crossing(NamedTuple):
    """State of balls as they cross a line; where `there` is false, at their nearest.

    Attributes
    ----------
    there : ndarray of bool (n,)
        Whether the ball gets across.
    x_m, y_m : ndarray (n,)
        Position. [m]
    speed_mps : ndarray (n,)
        Speed. [m/s]
    heading_rad : ndarray (n,)
        Direction of travel, right positive. [rad]
    """

    there: NDArray[np.bool_]
    x_m: Array
    y_m: Array
    speed_mps: Array
    heading_rad: Array


def green_deceleration_mps2(*, stimp_m: float) -> float:
    """Deceleration of a ball rolling on a level green of this reading.

    Parameters
    ----------
    stimp_m : float
        Stimpmeter reading, the length of roll on level ground. [m]

    Returns
    -------
    float
        Deceleration, release speed squared over twice the reading. [m s-2]
    """
    return STIMP_RELEASE_MPS**2 / (2.0 * stimp_m)


def level_stimp_m(*, up_m: float, down_m: float) -> float:
    """Level reading of a green measured up and down the same slope.

    Parameters
    ----------
    up_m, down_m : float
        Stimpmeter readings uphill and downhill. [m]

    Returns
    -------
    float
        2 up down / (up + down). [m]

    References
    ----------
    .. [1] A. D. Brede, "Correction for slope in green speed measurement of golf course
       putting greens", USGA Green Section Record 28(6) (1990) 10-12.
    """
    return 2.0 * up_m * down_m / (up_m + down_m)


def rolling_speed_mps(*, speed_mps: float, spin_radps: float, radius_m: float) -> float:
    """Speed at which a sliding ball on level ground starts to roll.

    Parameters
    ----------
    speed_mps : float
        Speed at the start of the slide. [m/s]
    spin_radps : float
        Top spin at the start, back spin negative. [rad/s]
    radius_m : float
        Radius of the ball. [m]

    Returns
    -------
    float
        (5 v + 2 r w)/7, from the angular momentum about the point of contact. [m/s]
    """
    return (5.0 * speed_mps + 2.0 * radius_m * spin_radps) / 7.0


def stretch(
    *,
    stimp_m: float,
    up: float,
    right: float,
    until_m: float = math.inf,
    push_x_mps2: float = 0.0,
    push_y_mps2: float = 0.0,
) -> Stretch:
    """Describe a stretch of green by its speed and slope.

    Parameters
    ----------
    stimp_m : float
        Level Stimpmeter reading. [m]
    up, right : float
        Rise over run along the line to the hole and to the right. [-]
    until_m : float
        Where the stretch ends along the line. [m]
    push_x_mps2, push_y_mps2 : float
        Further steady push, such as a wind's. [m s-2]

    Returns
    -------
    Stretch
        With a pull of (5/7) g sin along the fall line and drag scaled by the cosine.
    """
    cosine = 1.0 / math.sqrt(1.0 + up * up + right * right)
    pull = -ROLLING_SHARE * GRAVITY_MPS2 * cosine
    return Stretch(
        until_m=until_m,
        slow_mps2=green_deceleration_mps2(stimp_m=stimp_m) * cosine,
        pull_x_mps2=pull * up + push_x_mps2,
        pull_y_mps2=pull * right + push_y_mps2,
    )


class _Plane:
    """Closed-form motion on one stretch for balls given by position, speed and heading.

    With psi the angle between velocity and fall line, t = tan(psi/2), a the drag and b the
    pull, d(ln t)/dtime = -b/v and v = K t^(a/b) / sin(psi). Progress w runs from 0 at the
    start to 1 at rest: t = t0 (1-w)^(b/2a), v^2 = v0^2 (1-w)^(1-b/a) ((1+t^2)/(1+t0^2))^2.
    A ball in any state comes to rest v^2 R(psi) further on, so a position on the way is the
    resting place less what is still to come.
    """

    def __init__(self, on: Stretch, x_m: Array, y_m: Array, speed_mps: Array, heading: Array):
        self._slow = on.slow_mps2
        pull = math.hypot(on.pull_x_mps2, on.pull_y_mps2)
        # The closed form has removable poles where pull is once or twice the drag.
        for pole in (self._slow, 2.0 * self._slow):
            if abs(pull - pole) < 1e-6 * self._slow:
                pull = pole * (1.0 - 1e-6)
        self._pull = pull
        self._ratio = self._pull / self._slow
        self._fall = math.atan2(on.pull_y_mps2, on.pull_x_mps2) if pull > 0.0 else 0.0
        turn = np.remainder(heading - self._fall + math.pi, 2.0 * math.pi) - math.pi
        self._side = np.where(turn < 0.0, -1.0, 1.0)
        self._t0 = np.minimum(np.tan(0.5 * np.abs(turn)), _LARGEST_TAN)
        self._energy = speed_mps * speed_mps
        self._x, self._y = x_m, y_m
        self._along0, self._across0 = self._to_come(self._t0)

    def _to_come(self, t: Array) -> tuple[Array, Array]:
        """R(psi): way to rest along and across the fall line for unit speed squared."""
        a, b = self._slow, self._pull
        c = 1.0 / (1.0 + t * t)
        s = 1.0 - c
        sine = 2.0 * t * c
        along = c * c / (2.0 * (a - b)) - s * s / (2.0 * (a + b))
        return along, sine * (c / (2.0 * a - b) + s / (2.0 * a + b))

    def at(self, w: Array) -> tuple[Array, Array, Array, Array]:
        """Position, speed squared and heading at progress `w`."""
        left = 1.0 - w
        t = self._t0 * left ** (0.5 * self._ratio)
        grow = (1.0 + t * t) / (1.0 + self._t0 * self._t0)
        share = np.maximum(left, 1e-300) ** (1.0 - self._ratio) * grow * grow
        along, across = self._to_come(t)
        u = self._energy * (self._along0 - share * along)
        v = self._energy * self._side * (self._across0 - share * across)
        cosine, sine = math.cos(self._fall), math.sin(self._fall)
        heading = self._fall + self._side * 2.0 * np.arctan(t)
        return (
            self._x + u * cosine - v * sine,
            self._y + u * sine + v * cosine,
            self._energy * share,
            heading,
        )

    def turned_back(self, facing: Array) -> Array:
        """Progress at which the ball stops gaining along `facing`, 1 if it never turns back."""
        if self._ratio < 1e-9:
            return np.ones_like(self._t0)
        fall = np.remainder(self._fall - facing + math.pi, 2.0 * math.pi) - math.pi
        # The ball turns the short way to the fall line, so the side it comes from decides
        # which of the two headings square to `facing` it goes through.
        far = np.maximum(np.abs(fall), 0.5 * math.pi)
        angle = np.where(self._side * fall > 0.0, 1.5 * math.pi - far, far - 0.5 * math.pi)
        share = np.tan(0.5 * np.maximum(angle, 0.0)) / np.maximum(self._t0, 1e-12)
        gained = 1.0 - np.clip(share, 0.0, 1.0) ** (2.0 / self._ratio)
        return np.where(np.abs(fall) <= 0.5 * math.pi, 1.0, gained)

    def cross(self, x_m: Array, y_m: Array, facing: Array) -> Crossing:
        """State where the ball crosses the line through a point square to `facing`."""
        cosine, sine = np.cos(facing), np.sin(facing)

        def beyond(x: Array, y: Array) -> Array:
            return (x - x_m) * cosine + (y - y_m) * sine

        low = np.zeros_like(self._t0)
        high = np.minimum(self.turned_back(facing), _LAST_PROGRESS)
        gained = beyond(*self.at(high)[:2])
        there = gained >= 0.0
        first = beyond(self._x, self._y)
        w = high * np.clip(first / np.minimum(first - gained, -1e-12), 0.0, 1.0)
        for _ in range(_NEWTON_STEPS):
            x, y, energy, heading = self.at(w)
            miss = beyond(x, y)
            low, high = np.where(miss < 0.0, w, low), np.where(miss < 0.0, high, w)
            rate = energy * np.cos(heading - facing) / (2.0 * self._slow * (1.0 - w))
            step = w - miss / np.maximum(rate, 1e-12)
            w = np.where((step >= low) & (step <= high), step, 0.5 * (low + high))
        x, y, energy, heading = self.at(w)
        return Crossing(there, x, y, np.sqrt(energy), heading)


def cross_line(
    *,
    green: tuple[Stretch, ...],
    speed_mps: Array,
    heading_rad: Array,
    x_m: Array,
    y_m: Array,
    facing_rad: Array,
) -> Crossing:
    """State of balls where they first cross a line on the last stretch of green.

    Parameters
    ----------
    green : tuple of Stretch
        The ground from the ball on, in order; balls start at the origin.
    speed_mps, heading_rad : ndarray (n,)
        Rolling speed and direction at the start. [m/s, rad]
    x_m, y_m : ndarray (n,) or (1,)
        A point of each ball's line. [m]
    facing_rad : ndarray (n,) or (1,)
        Direction square to the line. [rad]

    Returns
    -------
    Crossing
        Where a ball does not get across, its state where it turns back or stops.

    Notes
    -----
    Exact on each stretch but for the search of the crossing, which ends below a micrometre.
    A ball that rolls back over the end of an earlier stretch keeps the slope it was on.
    """
    way = _to_last_stretch(green, speed_mps, heading_rad)
    crossing = way.plane.cross(x_m, y_m, facing_rad)
    return crossing._replace(there=crossing.there & way.over)


def resting_place_m(
    *, green: tuple[Stretch, ...], speed_mps: Array, heading_rad: Array
) -> tuple[Array, Array]:
    """Where balls come to rest if no hole is in the way.

    Parameters
    ----------
    green : tuple of Stretch
        The ground from the ball on, in order; balls start at the origin.
    speed_mps, heading_rad : ndarray (n,)
        Rolling speed and direction at the start. [m/s, rad]

    Returns
    -------
    tuple of ndarray (n,)
        Position along the line and to the right. [m]

    Notes
    -----
    A ball that fails to climb a stretch too steep to hold it is left at its foot.
    """
    way = _to_last_stretch(green, speed_mps, heading_rad)
    x, y, _, _ = way.plane.at(np.ones_like(speed_mps))
    return np.where(way.over, x, way.short_x_m), np.where(way.over, y, way.short_y_m)


class _Way(NamedTuple):
    """Balls on the last stretch, and where those that never got there lie."""

    plane: _Plane
    over: NDArray[np.bool_]
    short_x_m: Array
    short_y_m: Array


def _to_last_stretch(green: tuple[Stretch, ...], speed_mps: Array, heading_rad: Array) -> _Way:
    x = np.zeros_like(speed_mps)
    y, short_x, short_y = np.zeros_like(x), np.zeros_like(x), np.zeros_like(x)
    over = np.ones(x.shape, dtype=np.bool_)
    speed, heading = speed_mps, heading_rad
    for on in green[:-1]:
        plane = _Plane(on, x, y, speed, heading)
        crossing = plane.cross(np.full(1, on.until_m), np.zeros(1), np.zeros(1))
        stuck = over & ~crossing.there
        if stuck.any():
            holds = on.steepness < HOLDS_BELOW
            rest_x, rest_y = plane.at(np.ones_like(x))[:2] if holds else (x, y)
            short_x, short_y = np.where(stuck, rest_x, short_x), np.where(stuck, rest_y, short_y)
            over = over & crossing.there
        x, y, speed, heading = crossing.x_m, crossing.y_m, crossing.speed_mps, crossing.heading_rad
    return _Way(_Plane(green[-1], x, y, speed, heading), over, short_x, short_y)
