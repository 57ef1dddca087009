"""How far does a ball bounce and roll after it comes down, and how sure is that?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import radians
from typing import Literal, NamedTuple

import numpy as np

from engine.core.aero import Array, Ball
from engine.core.checks import within
from engine.core.flight import GRAVITY_MPS2, Landing
from engine.errors import BadTable

Surface = Literal["fairway", "green", "rough"]
Firmness = Literal["soft", "normal", "firm", "baked"]

# A. R. Penner, "The run of a golf ball", Can. J. Phys. 80 (2002) 931-940, from memory.
_RESTITUTION = (0.510, -0.0375, 0.000903)  # of the normal speed in m/s
_HARD_MPS, _HARD_RESTITUTION = 20.0, 0.120
_DENT_RAD, _DENT_MPS, _DENT_STEEP_RAD = radians(15.4), 18.6, radians(44.4)
_MOST_RESTITUTION = 0.7
_BOUNCES = 12
_ROLLS_MPS = 0.35  # a ball leaving the turf slower than this upward is rolling
_STEEPEST = 0.15  # slope of the landing ground, rise over run
# Doubt of the run. Measured bounces scatter about such models by tens of per cent: S. W. Biber,
# K. M. Jones, A. R. Champneys, R. Green, R. Szalai, Sports Engineering 26 (2023), abstract.
_DOUBT_SHARE, _DOUBT_M = 0.3, 1.0


@dataclass(frozen=True, slots=True)
class Ground:
    """Turf a ball comes down on; one row of the table.

    Attributes
    ----------
    surface : Surface
    firmness : Firmness
    bounce : float
        Factor on the coefficient of restitution. [-]
    dent : float
        Factor on the tilt of the turf under the ball. [-]
    friction : float
        Sliding friction between ball and turf. [-]
    roll : float
        Rolling resistance: deceleration on the level is 5/7 of it times gravity. [-]
    """

    surface: Surface
    firmness: Firmness
    bounce: float
    dent: float
    friction: float
    roll: float


@dataclass(frozen=True, slots=True)
class RunOut:
    """Bounce and roll; all fields ndarray of the landing's shape.

    Attributes
    ----------
    run_m : ndarray
        Expected distance from pitch mark to rest, along the ball's heading; negative
        where it spins back. [m]
    sd_m : ndarray
        Standard deviation of that expectation: what the model does not know. [m]
    """

    run_m: Array
    sd_m: Array


def ground_of(*, surface: Surface, firmness: Firmness, grounds: tuple[Ground, ...]) -> Ground:
    """Row of the ground table.

    Raises
    ------
    BadTable
        The table has no such row.
    """
    for ground in grounds:
        if (ground.surface, ground.firmness) == (surface, firmness):
            return ground
    name = "grounds"
    raise BadTable(name, f"no row {surface}, {firmness}")


def run_out(
    *, landing: Landing, ground: Ground | Sequence[Ground], ball: Ball, slope: float = 0.0
) -> RunOut:  # fmt: skip
    """Bounce and roll balls to rest.

    Parameters
    ----------
    landing : Landing
        Balls as they come down, any shape.
    ground : Ground or sequence of n Ground
        Turf they come down on, the same for all or one a ball.
    ball : Ball
        For its radius.
    slope : float
        Rise over run of that turf along the ball's heading, positive uphill. [-]

    Returns
    -------
    RunOut

    Raises
    ------
    OutOfRange
        A slope beyond 0.15 either way.

    Notes
    -----
    A rigid ball meets turf that gives: it rebounds as off a plane tilted back by an angle in
    proportion to impact speed and to the angle from the vertical, with restitution falling as
    it hits harder, and leaves sliding or gripped as friction allows [1]_. Bounces are flown
    without air. Then it rolls. Bounces off measured turf scatter about any such model, so the
    answer carries its doubt.

    References
    ----------
    .. [1] A. R. Penner, "The run of a golf ball", Can. J. Phys. 80 (2002) 931-940.
    """
    within("slope of the landing ground", slope, -_STEEPEST, _STEEPEST, "1")
    r, tilt = ball.radius_m, float(np.arctan(slope))
    # Work in the plane of the ball's heading, in axes along and normal to the ground.
    fall = landing.descent_rad + tilt
    along = landing.speed_mps * np.cos(fall)
    down = np.maximum(landing.speed_mps * np.sin(fall), 0.0)
    spin = landing.spin_radps.copy()
    turf = _turf(ground)
    run = np.zeros_like(along)
    pull, push = GRAVITY_MPS2 * np.cos(tilt), -GRAVITY_MPS2 * np.sin(tilt)
    for _ in range(_BOUNCES):
        flying = down > _ROLLS_MPS
        if not flying.any():
            break
        up, onward, spinning = _bounce(along=along, down=down, spin=spin, turf=turf, r=r)
        aloft = (2.0 / pull) * up
        run += flying * aloft * (onward + 0.5 * push * aloft)
        onward += push * aloft
        for state, after in ((along, onward), (spin, spinning), (down, up)):
            np.copyto(state, after, where=flying)
    rolling = (5.0 * along - 2.0 * r * spin) / 7.0  # slip ends, angular momentum kept
    resist = 5.0 / 7.0 * (turf.roll * pull - np.sign(rolling) * push)
    resist = np.maximum(resist, 0.1 * 5.0 / 7.0 * turf.roll * pull)  # it finds a flat in the end
    run = run + np.sign(rolling) * rolling**2 / (2.0 * resist)
    return RunOut(run_m=run, sd_m=_DOUBT_M + _DOUBT_SHARE * np.abs(run))


class _Turf(NamedTuple):
    """Constants of turf, of all balls or by ball."""

    bounce: float | Array
    dent: float | Array
    friction: float | Array
    roll: float | Array


def _turf(ground: Ground | Sequence[Ground]) -> _Turf:
    if isinstance(ground, Ground):
        return _Turf(ground.bounce, ground.dent, ground.friction, ground.roll)
    return _Turf(*np.array([(g.bounce, g.dent, g.friction, g.roll) for g in ground]).T)


def _bounce(
    *, along: Array, down: Array, spin: Array, turf: _Turf, r: float
) -> tuple[Array, Array, Array]:
    """One bounce: speed up, speed along and back spin as the ball leaves the turf."""
    speed = np.hypot(along, down)
    from_normal = np.arctan2(along, down)
    dent = turf.dent * (_DENT_RAD / (_DENT_MPS * _DENT_STEEP_RAD))
    back = from_normal * np.minimum(dent * speed, 0.9)
    lean_c, lean_s = np.cos(back), np.sin(back)
    into, slip = down * lean_c + along * lean_s, along * lean_c - down * lean_s
    c0, c1, c2 = _RESTITUTION
    e = np.where(into <= _HARD_MPS, c0 + into * (c1 + c2 * into), _HARD_RESTITUTION)
    e = np.minimum(e * turf.bounce, _MOST_RESTITUTION)
    # Symbols of the paper: friction takes what grips the ball, or what it can.
    grip = 2.0 / 7.0 * (slip + r * spin)
    most = turf.friction * (1.0 + e) * into
    lost = np.minimum(np.maximum(grip, -most), most)
    slip_out = slip - lost
    spin_out = spin - (2.5 / r) * lost
    out = e * into
    up = out * lean_c + slip_out * lean_s
    onward = slip_out * lean_c - out * lean_s
    return np.maximum(up, 0.0), onward, spin_out
