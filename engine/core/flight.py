"""Where does a ball launched like this come down in this air and wind?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from engine.core.aero import Array, Ball, coefficients
from engine.core.air import Air
from engine.core.checks import within
from engine.core.march import Path, Rate, between, crossing, march
from engine.core.wind import FLOOR_M, STATED_M, Wind, check_wind

GRAVITY_MPS2 = 9.80665  # standard acceleration, exact by definition
LOWEST_M, HIGHEST_M = -60.0, 60.0  # target below and above the ball
MOST_SPIN_RADPS = 1600.0  # 15300 rpm


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
    apex = between(path=path, knot=before, share=share)
    reached = apex[2] >= height_m
    knots = np.arange(z.shape[0])[:, None]
    below = (z < height_m) & (knots >= top)
    knot = np.where(reached, np.argmax(below, axis=0) - 1, before)
    share = np.where(reached, crossing(path=path, knot=knot, height_m=height_m), share)
    # Inside the apex's own step a ball can pass the height on its way up: keep the later part.
    end = between(path=path, knot=knot, share=share)
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


def _column(values: Sequence[float]) -> Array:
    return np.array(values, dtype=np.float64)[:, None]
