"""Where does a ball launched like this come down in this air and wind?"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from engine.core.aero import Array, Ball, coefficients
from engine.core.air import Air
from engine.core.checks import within
from engine.core.wind import FLOOR_M, STATED_M, Wind, check_wind
from engine.errors import NoSolution

GRAVITY_MPS2 = 9.80665  # standard acceleration, exact by definition
LOWEST_M, HIGHEST_M = -60.0, 60.0  # target below and above the ball
MOST_SPIN_RADPS = 1600.0  # 15300 rpm

Rate = Callable[[Array], Array]

# Time mesh: the ball leaves the profile's steep foot in short steps, then long ones.
_FIRST_S, _GROWTH, _LONGEST_S, _MOST_STEPS = 0.05, 1.7, 0.3, 80


@dataclass(frozen=True, slots=True)
class Launch:
    """Balls just struck; all fields are ndarray (n,), or (c, n) to differ by condition.

    Attributes
    ----------
    speed_mps : ndarray (n,)
        Ball speed, 2 to 100. [m s-1]
    launch_rad : ndarray (n,)
        Above the horizontal. [rad]
    azimuth_rad : ndarray (n,)
        Right of the target line. [rad]
    spin_radps : ndarray (n,)
        Back spin about the tilted axis. [rad s-1]
    tilt_rad : ndarray (n,)
        Tilt of the spin axis, positive curves right. [rad]
    """

    speed_mps: Array
    launch_rad: Array
    azimuth_rad: Array
    spin_radps: Array
    tilt_rad: Array


def picked(launch: Launch, keep: NDArray[np.bool_] | NDArray[np.int_]) -> Launch:
    """Some of the balls, by mask or index over their last axis."""
    return Launch(
        speed_mps=launch.speed_mps[..., keep],
        launch_rad=launch.launch_rad[..., keep],
        azimuth_rad=launch.azimuth_rad[..., keep],
        spin_radps=launch.spin_radps[..., keep],
        tilt_rad=launch.tilt_rad[..., keep],
    )


@dataclass(frozen=True, slots=True)
class Landing:
    """Balls at the instant they reach the target's height coming down; ndarray (n,) or (c, n).

    Attributes
    ----------
    carry_m : ndarray
        Along the target line. [m]
    side_m : ndarray
        Off the line, right positive. [m]
    apex_m : ndarray
        Highest point above the ball. [m]
    time_s : ndarray
        [s]
    speed_mps : ndarray
        [m s-1]
    descent_rad : ndarray
        Below the horizontal. [rad]
    heading_rad : ndarray
        Direction over the ground, right of the target line. [rad]
    spin_radps : ndarray
        What is left of the spin. [rad s-1]
    reached : ndarray of bool
        False where the ball never gets as high as the target: it is then given at its apex.
    """

    carry_m: Array
    side_m: Array
    apex_m: Array
    time_s: Array
    speed_mps: Array
    descent_rad: Array
    heading_rad: Array
    spin_radps: Array
    reached: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]


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
    """Step flights by the classical fourth-order Runge-Kutta rule until all are down.

    Parameters
    ----------
    state : ndarray (7, m)
        Start: x, y, z, vx, vy, vz, spin. SI.
    rate : callable
        Time derivative of a state. SI.
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
    """
    times, states = [0.0], [state]
    step_s = _FIRST_S
    for _ in range(_MOST_STEPS):
        half = 0.5 * step_s
        k1 = rate(state)
        k2 = rate(state + half * k1)
        k3 = rate(state + half * k2)
        k4 = rate(state + step_s * k3)
        k2 += k3
        k2 *= 2.0
        k2 += k1
        k2 += k4
        k2 *= step_s / 6.0
        state = state + k2
        times.append(times[-1] + step_s)
        states.append(state)
        if bool(((state[2] < lowest_m) & (state[5] < 0.0)).all()):
            return np.array(times), np.array(states)
        step_s = min(step_s * _GROWTH, _LONGEST_S)
    raise NoSolution("flight", "a ball is still in the air after 20 s")


def trace(
    *,
    launch: Launch,
    air: Air | Sequence[Air],
    wind: Wind | Sequence[Wind],
    ball: Ball,
    lowest_m: float = 0.0,
) -> Path:
    """Fly balls and keep the whole paths.

    Parameters
    ----------
    launch : Launch
        Fields (n,) or (c, n).
    air : Air or sequence of c Air
        One for all, or one a condition.
    wind : Wind or sequence of c Wind
        One for all, or one a condition.
    ball : Ball
        Drag and lift law.
    lowest_m : float
        Follow every ball at least down to here. [m]

    Returns
    -------
    Path
        Of shape (n,), or (c, n) where any argument is a sequence.

    Raises
    ------
    OutOfRange
        Ball speed outside 2 to 100 m/s, launch outside 0 to 1.2 rad, spin outside 0 to
        1600 rad/s, air outside 0.6 to 1.6 kg m-3, wind outside its range.
    """
    airs = (air,) if isinstance(air, Air) else tuple(air)
    winds = (wind,) if isinstance(wind, Wind) else tuple(wind)
    for one in winds:
        check_wind(one)
    density = _column([a.density_kgpm3 for a in airs])
    within("air density", density, 0.6, 1.6, "kg/m3")
    within("ball speed", launch.speed_mps, 2.0, 100.0, "m/s")
    within("launch angle", launch.launch_rad, 0.0, 1.2, "rad")
    within("spin", launch.spin_radps, 0.0, MOST_SPIN_RADPS, "rad/s")
    friction = _column([w.speed_mps / np.log(STATED_M / w.roughness_m) for w in winds])
    toward = _column([w.from_rad for w in winds])
    table = np.broadcast_arrays(
        launch.speed_mps,
        launch.launch_rad,
        launch.azimuth_rad,
        launch.spin_radps,
        launch.tilt_rad,
        density,
        _column([a.viscosity_pas for a in airs]),
        -friction * np.cos(toward),
        -friction * np.sin(toward),
        _column([w.roughness_m for w in winds]),
    )
    shape = table[0].shape
    alone = isinstance(air, Air) and isinstance(wind, Wind)
    if alone and launch.speed_mps.ndim == 1:
        shape = (shape[-1],)
    speed, up, azimuth, spin, tilt, density, mu, wind_x, wind_y, rough = (
        np.ascontiguousarray(column).ravel() for column in table
    )
    start = np.zeros((7, speed.size))
    start[3] = speed * np.cos(up) * np.cos(azimuth)
    start[4] = speed * np.cos(up) * np.sin(azimuth)
    start[5] = speed * np.sin(up)
    start[6] = spin
    # Axis of back spin: level and left of the start line, then tilted so that lift leans right.
    axis = np.array(
        [
            np.sin(azimuth) * np.cos(tilt) - np.sin(up) * np.cos(azimuth) * np.sin(tilt),
            -np.cos(azimuth) * np.cos(tilt) - np.sin(up) * np.sin(azimuth) * np.sin(tilt),
            np.cos(up) * np.sin(tilt),
        ]
    )
    blowing = None
    if friction.any():
        blowing = (np.array([wind_x, wind_y, np.zeros_like(wind_x)]), rough)
    rate = _rate_in_air(ball=ball, axis=axis, density=density, mu=mu, blowing=blowing)
    floor = np.full(speed.size, min(lowest_m, 0.0))
    times, states = march(state=start, rate=rate, lowest_m=floor)
    return Path(time_s=times, state=states, shape=shape)


def landing(*, path: Path, height_m: float = 0.0) -> Landing:
    """Read off where traced balls come down to a height.

    Parameters
    ----------
    path : Path
        Traced at least as low as `height_m`.
    height_m : float
        Target above the ball, below it negative. [m]

    Returns
    -------
    Landing
        Of the shape of `path`.

    Raises
    ------
    OutOfRange
        A height outside -60 to 60 m.
    """
    within("height", height_m, LOWEST_M, HIGHEST_M, "m")
    times, states = path.time_s, path.state
    every = np.arange(states.shape[2])
    z, vz = states[:, 2], states[:, 5]
    top = np.argmax(vz <= 0.0, axis=0)  # first knot past the apex; vz starts positive or is 0
    before = np.maximum(top - 1, 0)
    lost = vz[before, every] - vz[top, every]
    share = np.where(lost > 0.0, vz[before, every] / np.where(lost > 0.0, lost, 1.0), 0.0)
    apex = _between(times, states, before, share)
    reached = apex[2] >= height_m
    knots = np.arange(z.shape[0])[:, None]
    below = (z < height_m) & (knots >= top)
    knot = np.where(reached, np.argmax(below, axis=0) - 1, before)
    share = np.where(reached, _crossing(times, states, knot, height_m), share)
    # Inside the apex's own step a ball can pass the height on its way up: keep the later part.
    end = _between(times, states, knot, share)
    level = np.hypot(end[3], end[4])
    shape = path.shape
    return Landing(
        carry_m=end[0].reshape(shape),
        side_m=end[1].reshape(shape),
        apex_m=apex[2].reshape(shape),
        time_s=(times[knot] + share * (times[knot + 1] - times[knot])).reshape(shape),
        speed_mps=np.hypot(level, end[5]).reshape(shape),
        descent_rad=np.arctan2(-end[5], level).reshape(shape),
        heading_rad=np.arctan2(end[4], end[3]).reshape(shape),
        spin_radps=end[6].reshape(shape),
        reached=reached.reshape(shape),
    )


def fly(
    *,
    launch: Launch,
    air: Air | Sequence[Air],
    wind: Wind | Sequence[Wind],
    ball: Ball,
    height_m: float = 0.0,
) -> Landing:
    """Fly balls to the height of the target: `trace`, then `landing`; see both.

    Parameters
    ----------
    launch : Launch
        Fields (n,) or (c, n).
    air : Air or sequence of c Air
        One for all, or one a condition.
    wind : Wind or sequence of c Wind
        One for all, or one a condition.
    ball : Ball
        Drag and lift law.
    height_m : float
        Target above the ball, below it negative. [m]

    Returns
    -------
    Landing
        Of shape (n,), or (c, n) where any argument is a sequence.

    Raises
    ------
    OutOfRange
        See `trace` and `landing`.
    """
    path = trace(launch=launch, air=air, wind=wind, ball=ball, lowest_m=min(height_m, 0.0))
    return landing(path=path, height_m=height_m)


def _rate_in_air(
    *,
    ball: Ball,
    axis: Array,
    density: Array,
    mu: Array,
    blowing: tuple[Array, Array] | None,
) -> Rate:
    """Derivative of (x, y, z, vx, vy, vz, spin) under gravity, drag and lift."""
    pull = -0.5 * density * ball.area_m2 / ball.mass_kg
    per_speed = 2.0 * ball.radius_m * density / mu
    r, decay = ball.radius_m, -ball.decay / ball.radius_m
    next_axis, last_axis = axis[[1, 2, 0]], axis[[2, 0, 1]]

    def rate(state: Array) -> Array:
        out = np.empty_like(state)
        out[0:3] = state[3:6]
        # Velocity through the air as (u, v, w, u, v): a cross product is then slices.
        flow = np.empty((5, state.shape[1]))
        if blowing is None:
            flow[0:3] = state[3:6]
        else:
            wind, rough = blowing
            np.subtract(
                state[3:6], wind * np.log(np.maximum(state[2], FLOOR_M) / rough), out=flow[0:3]
            )
        flow[3:5] = flow[0:2]
        speed = np.sqrt(np.einsum("im,im->m", flow[0:3], flow[0:3]))
        spin = state[6]
        drag, lift = coefficients(
            ball=ball, reynolds=per_speed * speed, spin_ratio=r * spin / speed
        )
        force = pull * speed
        drag *= force
        lift *= force
        # Lift acts along (axis of spin) x (velocity through the air).
        across = next_axis * flow[2:5]
        across -= last_axis * flow[1:4]
        across *= lift
        np.multiply(flow[0:3], drag, out=out[3:6])
        out[3:6] -= across
        out[5] -= GRAVITY_MPS2
        out[6] = decay * spin * speed
        return out

    return rate


def _crossing(times: Array, states: Array, knot: np.ndarray, height_m: float) -> Array:
    """Share of the step after `knot` at which the cubic through z and vz falls to a height."""
    every = np.arange(states.shape[2])
    h = times[knot + 1] - times[knot]
    z0, z1 = states[knot, 2, every] - height_m, states[knot + 1, 2, every] - height_m
    d0, d1 = h * states[knot, 5, every], h * states[knot + 1, 5, every]
    c2, c3 = 3.0 * (z1 - z0) - 2.0 * d0 - d1, 2.0 * (z0 - z1) + d0 + d1
    share: Array = np.ones_like(z0)  # from the far end: the later root where there are two
    for _ in range(6):
        slope = d0 + share * (2.0 * c2 + 3.0 * c3 * share)
        slope = np.where(np.abs(slope) > 1e-9, slope, -1e-9)
        share = np.clip(share - (z0 + share * (d0 + share * (c2 + c3 * share))) / slope, 0.0, 1.0)
    return share


def _between(times: Array, states: Array, knot: np.ndarray, share: Array) -> Array:
    """State (7, m) inside the step after `knot`: cubic positions, their slopes, linear spin."""
    every = np.arange(states.shape[2])
    h = times[knot + 1] - times[knot]
    p0, p1 = states[knot, 0:3, every].T, states[knot + 1, 0:3, every].T
    d0, d1 = h * states[knot, 3:6, every].T, h * states[knot + 1, 3:6, every].T
    c2, c3 = 3.0 * (p1 - p0) - 2.0 * d0 - d1, 2.0 * (p0 - p1) + d0 + d1
    out = np.empty((7, every.size))
    out[0:3] = p0 + share * (d0 + share * (c2 + share * c3))
    out[3:6] = (d0 + share * (2.0 * c2 + share * 3.0 * c3)) / h
    s0 = states[knot, 6, every]
    out[6] = s0 + share * (states[knot + 1, 6, every] - s0)
    return out


def _column(values: Sequence[float]) -> Array:
    return np.array(values, dtype=np.float64)[:, None]
