"""Where does a ball launched like this come down in this air and wind?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from engine.core.aero import Array, Ball, Pull
from engine.core.air import Air
from engine.core.checks import within
from engine.core.march import Path, Rate, between, crossing, inside, march, step_from
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

    def row(self, condition: int) -> Landing:
        """Return the landings in one condition, (n,)."""
        return Landing(*(getattr(self, name)[condition] for name in Landing.__slots__))


@dataclass(frozen=True, slots=True)
class Batch:
    """Balls to fly.

    Attributes
    ----------
    launch : Launch
        Fields (n,) or (c, n).
    air : Air or sequence of c Air
        One for all, or one a condition.
    wind : Wind or sequence of c Wind
        One for all, or one a condition.
    lowest_m : float
        Follow every ball at least down to here. [m]
    """

    launch: Launch
    air: Air | Sequence[Air]
    wind: Wind | Sequence[Wind]
    lowest_m: float = 0.0


def trace(*, batches: Sequence[Batch], ball: Ball) -> list[Path]:
    """Fly batches of balls in one march and keep the whole paths.

    Parameters
    ----------
    batches : sequence of Batch
        What to fly; together they take hardly longer than one.
    ball : Ball
        Drag and lift law.

    Returns
    -------
    list of Path
        One a batch, of shape (n,), or (c, n) where any of its fields is a sequence.

    Raises
    ------
    OutOfRange
        Ball speed outside 2 to 100 m/s, launch outside 0 to 1.2 rad, spin outside 0 to
        1600 rad/s, air outside 0.6 to 1.6 kg m-3, wind outside its range.
    """
    tables, shapes = zip(*(_table(batch) for batch in batches), strict=True)
    columns = tables[0] if len(tables) == 1 else np.concatenate(tables, axis=1)
    speed, up, azimuth, spin, tilt, density, mu, wind_x, wind_y, rough, floor = columns
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
    if wind_x.any() or wind_y.any():
        blowing = (np.array([wind_x, wind_y]), rough)
    rate = _rate_in_air(ball=ball, axis=axis, density=density, mu=mu, blowing=blowing)
    times, states = march(state=start, rate=rate, lowest_m=floor)
    paths, first = [], 0
    for table, shape in zip(tables, shapes, strict=True):
        last = first + table.shape[1]
        paths.append(Path(time_s=times, state=states[:, :, first:last], shape=shape))
        first = last
    return paths


def _table(batch: Batch) -> tuple[Array, tuple[int, ...]]:
    """Return launch, air, wind and floor, a column a flight, and the shape of the flights."""
    launch, air, wind = batch.launch, batch.air, batch.wind
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
    columns = (
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
        min(batch.lowest_m, 0.0),
    )
    balls = launch.speed_mps.shape
    conditions = max(len(airs), len(winds), *balls[:-1])
    table = np.empty((len(columns), conditions, balls[-1]))
    for row, column in zip(table, columns, strict=True):
        row[:] = column
    alone = isinstance(air, Air) and isinstance(wind, Wind) and len(balls) == 1
    return table.reshape(len(columns), -1), balls if alone else table.shape[1:]


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
    rise, fall = vz[before, every], vz[top, every]
    lost = rise - fall
    share = np.where(lost > 0.0, rise / np.where(lost > 0.0, lost, 1.0), 0.0)
    long_s = times[top] - times[before]
    apex = inside(
        start_m=z[before, every], end_m=z[top, every], first_m=long_s * rise,
        last_m=long_s * fall, share=share,
    )  # fmt: skip
    reached = apex >= height_m
    knots = np.arange(z.shape[0])[:, None]
    below = (z < height_m) & (knots >= top)
    knot = np.where(reached, np.argmax(below, axis=0) - 1, before)
    step = step_from(path=path, knot=knot)
    share = np.where(reached, crossing(step=step, height_m=height_m), share)
    # Inside the apex's own step a ball can pass the height on its way up: keep the later part.
    end = between(step=step, share=share)
    level = np.hypot(end[3], end[4])
    shape = path.shape
    return Landing(
        carry_m=end[0].reshape(shape),
        side_m=end[1].reshape(shape),
        apex_m=apex.reshape(shape),
        time_s=(times[knot] + share * step.step_s).reshape(shape),
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
    batch = Batch(launch, air, wind, min(height_m, 0.0))
    return landing(path=trace(batches=[batch], ball=ball)[0], height_m=height_m)


def _rate_in_air(
    *,
    ball: Ball,
    axis: Array,
    density: Array,
    mu: Array,
    blowing: tuple[Array, Array] | None,
) -> Rate:
    """Derivative of (x, y, z, vx, vy, vz, spin) under gravity, drag and lift.

    It is asked dozens of times a march with few balls, so what costs is the number of array
    operations: all room is made and cut into views once, and constants are arrays, which numpy
    takes up quicker than numbers.
    """
    add, subtract, multiply = np.add, np.subtract, np.multiply  # found once; results go last
    pull = Pull(ball=ball, density=density, viscosity=mu)
    decay = np.full_like(density, -ball.decay / ball.radius_m)
    floor, gravity = np.full_like(density, FLOOR_M), np.full_like(density, GRAVITY_MPS2)
    next_axis, last_axis = axis[[1, 2, 0]], axis[[2, 0, 1]]
    # Velocity through the air as (u, v, w, u, v): a cross product is then slices.
    flow = np.empty((5, density.size))
    through, around, after, before = flow[0:3], flow[3:5], flow[2:5], flow[1:4]
    level = flow[0:2]
    room, across, gust = np.empty_like(through), np.empty_like(through), np.zeros_like(through)
    room_x, room_y, room_z = room
    gust_x, gust_y, _ = gust
    speed, grown = np.empty((2, density.size))
    if blowing is not None:
        (wind_x, wind_y), log_rough = blowing[0], np.log(blowing[1])

    def rate(state: Array, out: Array) -> None:
        velocity, spin = state[3:6], state[6]
        out[0:3] = velocity
        if blowing is None:
            through[:] = velocity
        else:
            np.maximum(state[2], floor, out=grown)
            np.log(grown, grown)
            subtract(grown, log_rough, grown)
            multiply(wind_x, grown, gust_x)
            multiply(wind_y, grown, gust_y)
            subtract(velocity, gust, through)
        around[:] = level
        multiply(through, through, room)
        add(room_x, room_y, speed)
        add(speed, room_z, speed)
        np.sqrt(speed, speed)
        drag, lift = pull(speed=speed, spin=spin)
        # Lift acts along (axis of spin) x (velocity through the air).
        multiply(next_axis, after, across)
        multiply(last_axis, before, room)
        subtract(across, room, across)
        multiply(across, lift, across)
        multiply(through, drag, room)
        subtract(across, room, out[3:6])
        fall = out[5]
        subtract(fall, gravity, fall)
        multiply(speed, spin, speed)
        multiply(speed, decay, out[6])

    return rate


def _column(values: Sequence[float]) -> Array:
    return np.array(values, dtype=np.float64)[:, None]
