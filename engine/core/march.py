"""How do moving balls get from one instant to the next, and where are they in between?"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from engine.core.aero import Array
from engine.errors import NoSolution

Rate = Callable[[Array, Array], None]
Knots = NDArray[np.int_]

# Time mesh: the ball leaves the profile's steep foot in short steps, then even ones.
_FIRST_S, _GROWTH, _LONGEST_S = 0.08, 1.4, 0.18
_STARTS, _MOST_STEPS = 5, 113
# Adams' rules on even steps, oldest first: the predictor's last three rates and the corrector's
# last four, the new one among them (any text on numerical methods).
_PREDICTOR = np.array([5.0, -16.0, 23.0]) / 12.0
_CORRECTOR = np.array([1.0, -5.0, 19.0, 9.0]) / 24.0


@dataclass(frozen=True, slots=True)
class Path:
    """Whole flights on the time mesh.

    Attributes
    ----------
    time_s : ndarray (k,)
        [s]
    state : ndarray (k, 7, m)
        x, y, z [m], their rates [m s-1] and spin [rad s-1] of m flights.
    shape : tuple of int
        Shape m came from: (n,) or (c, n).
    """

    time_s: Array
    state: Array
    shape: tuple[int, ...]


def march(*, state: Array, rate: Rate, lowest_m: Array) -> tuple[Array, Array]:
    """Step flights until all are down: a fourth-order rule that asks for one rate a step.

    Parameters
    ----------
    state : ndarray (7, m)
        Start: x, y, z, vx, vy, vz, spin. SI.
    rate : callable
        Writes the time derivative of a state into an array of its shape. SI.
    lowest_m : ndarray (m,)
        A flight is down once it falls below this height. [m]

    Returns
    -------
    tuple of ndarray
        Times (k,) [s] and states (k, 7, m).

    Raises
    ------
    NoSolution
        A flight is still up at the end of the mesh, after about 20 s.

    Notes
    -----
    What costs is the number of rates asked for. The first second, in which the ball leaves the
    foot of the wind's profile, is stepped by the classical Runge-Kutta rule; then Adams' rules
    predict from the rates that are known, ask once, and correct with the answer.
    """
    times = [0.0]
    states, rates = np.empty((2, _MOST_STEPS + 1, *state.shape))
    states[0] = state
    rate(state, rates[0])
    step_s = _FIRST_S
    predictor, corrector = _LONGEST_S * _PREDICTOR, _LONGEST_S * _CORRECTOR
    for i in range(_MOST_STEPS):
        now, then, found = states[i], states[i + 1], rates[i + 1]
        if i < _STARTS:
            half = 0.5 * step_s
            k1, k2, k3, k4 = rates[i], *np.empty((3, *state.shape))
            rate(now + half * k1, k2)
            rate(now + half * k2, k3)
            rate(now + step_s * k3, k4)
            k2 += k3
            k2 *= 2.0
            k2 += k1
            k2 += k4
            k2 *= step_s / 6.0
            np.add(now, k2, then)
            rate(then, found)
        else:
            np.einsum("k,kij->ij", predictor, rates[i - 2 : i + 1], out=then)
            then += now
            rate(then, found)
            np.einsum("k,kij->ij", corrector, rates[i - 2 : i + 2], out=then)
            then += now
        times.append(times[-1] + step_s)
        if not (then[2] >= lowest_m).any() and bool((then[5] < 0.0).all()):
            return np.array(times), states[: i + 2]
        step_s = min(step_s * _GROWTH, _LONGEST_S)
    raise NoSolution("flight", "a ball is still in the air after 20 s")


@dataclass(frozen=True, slots=True)
class Step:
    """One step of each flight.

    Attributes
    ----------
    start, end : ndarray (7, m)
        State at either end, as on `Path`.
    step_s : ndarray (m,)
        How long it takes. [s]
    """

    start: Array
    end: Array
    step_s: Array


def step_from(*, path: Path, knot: Knots) -> Step:
    """Return the step of each flight from a knot (m,) to the next."""
    every = np.arange(knot.size)
    return Step(
        start=path.state[knot, :, every].T,
        end=path.state[knot + 1, :, every].T,
        step_s=path.time_s[knot + 1] - path.time_s[knot],
    )


def crossing(*, step: Step, height_m: float) -> Array:
    """Find where flights fall to a height inside a step, on the cubic through z and vz.

    Parameters
    ----------
    step : Step
        Where it happens.
    height_m : float
        Height to fall to. [m]

    Returns
    -------
    ndarray (m,)
        Share of the step, 0 to 1; the later one where a ball passes the height twice. [-]
    """
    z0, z1 = step.start[2] - height_m, step.end[2] - height_m
    d0, d1 = step.step_s * step.start[5], step.step_s * step.end[5]
    c2, c3 = _cubic(z0, z1, d0, d1)
    twice, thrice = 2.0 * c2, 3.0 * c3
    share: Array = np.ones_like(z0)  # from the far end: the later root where there are two
    for _ in range(6):
        slope = np.minimum(d0 + share * (twice + thrice * share), -1e-9)
        share = share - (z0 + share * (d0 + share * (c2 + c3 * share))) / slope
        share = np.minimum(np.maximum(share, 0.0), 1.0)
    return share


def between(*, step: Step, share: Array) -> Array:
    """State of flights inside a step: cubic positions, their slopes, linear spin.

    Parameters
    ----------
    step : Step
        The step.
    share : ndarray (m,)
        Share of it that has passed. [-]

    Returns
    -------
    ndarray (7, m)
        As on `Path`.
    """
    start, end, h = step.start, step.end, step.step_s
    d0, d1 = h * start[3:6], h * end[3:6]
    c2, c3 = _cubic(start[0:3], end[0:3], d0, d1)
    out = np.empty_like(start)
    out[0:3] = start[0:3] + share * (d0 + share * (c2 + share * c3))
    out[3:6] = (d0 + share * (2.0 * c2 + share * 3.0 * c3)) / h
    out[6] = start[6] + share * (end[6] - start[6])
    return out


def inside(
    *, start_m: Array, end_m: Array, first_m: Array, last_m: Array, share: Array
) -> Array:  # fmt: skip
    """Height at a share of a step, from heights and slopes a step at its ends. [m]"""
    c2, c3 = _cubic(start_m, end_m, first_m, last_m)
    return start_m + share * (first_m + share * (c2 + share * c3))


def _cubic(p0: Array, p1: Array, d0: Array, d1: Array) -> tuple[Array, Array]:
    """Second and third coefficient of Hermite's cubic through values and slopes at 0 and 1."""
    return 3.0 * (p1 - p0) - 2.0 * d0 - d1, 2.0 * (p0 - p1) + d0 + d1
