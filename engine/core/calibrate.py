"""How does this player launch each club, so that it carries what they say it carries?"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import log, radians

import numpy as np
from numpy.typing import NDArray

from engine.core.aero import Array
from engine.core.air import REFERENCE, Air
from engine.core.checks import within
from engine.core.flight import Launch, fly
from engine.core.golfer import Club, Family, Golfer, SwingKind
from engine.core.measured import with_measured
from engine.core.physics import Physics
from engine.core.swing import typical_launch
from engine.core.wind import CALM
from engine.errors import NoSolution

MID_IRON_RAD = radians(33.0)  # the club a stated natural curve belongs to
SHORTEST_M, LONGEST_M = 9.0, 320.0  # full-swing carries taken
_MOST_CURVE_RAD, _MOST_TILT_RAD = 0.15, 0.6
_CLOSE = 2e-5  # of the carry: 0.005 yd at 250 yd
_TRIES = 30
_SLOWEST_MPS, _FASTEST_MPS = 4.0, 97.0


class SpeedHunt:
    """Ball speeds on their way to wanted carries: the secant rule on the logarithms.

    Parameters
    ----------
    wanted_m : ndarray (n,)
        Carries to reach. [m]
    speed_mps : ndarray (n,)
        First guesses; afterwards the speeds to try next. [m s-1]
    """

    def __init__(self, *, wanted_m: Array, speed_mps: Array) -> None:
        self._wanted = np.log(wanted_m)
        self._at = np.log(np.clip(speed_mps, _SLOWEST_MPS, _FASTEST_MPS))
        self._gain = np.full(wanted_m.size, 1.6)  # d(log carry) / d(log speed)
        self._before: tuple[Array, Array] | None = None

    @property
    def speed_mps(self) -> Array:
        """Speeds to try. [m s-1]."""
        return np.exp(self._at)

    def close(self, carry_m: Array) -> NDArray[np.bool_]:
        """Take the carries of the speeds tried, move on, and say which were close enough."""
        got = np.log(carry_m)
        miss = self._wanted - got
        if self._before is not None:
            moved = self._at - self._before[0]
            known = np.abs(moved) > 1e-7
            slope = (got - self._before[1]) / np.where(known, moved, 1.0)
            self._gain = np.where(known, np.clip(slope, 0.25, 3.0), self._gain)
        self._before = self._at, got
        step = np.clip(miss / self._gain, -0.3, 0.3)
        self._at = np.clip(self._at + step, log(_SLOWEST_MPS), log(_FASTEST_MPS))
        done: NDArray[np.bool_] = np.abs(miss) < _CLOSE
        return done


@dataclass(frozen=True, slots=True)
class Swing:
    """One way to use one club of the bag.

    Attributes
    ----------
    club : str
        Name of the club.
    kind : SwingKind
        Full or another.
    family : Family
        Of the club.
    loft_rad : float
        Of the club. [rad]
    carry_m : float
        Calm, level, reference air, good lie. [m]
    spread_long, spread_side_rad : float
        Of solid shots with this swing, as on `Club`. [-, rad]
    """

    club: str
    kind: SwingKind
    family: Family
    loft_rad: float
    carry_m: float
    spread_long: float
    spread_side_rad: float


@lru_cache(maxsize=64)
def bag_launches(
    golfer: Golfer, *, physics: Physics, reference: Air = REFERENCE
) -> tuple[tuple[Swing, ...], Launch]:
    """Every swing of the bag with its launch; kept for the golfers seen last.

    Parameters
    ----------
    golfer : Golfer
        Clubs, curve and owned swings.
    physics : Physics
        Constants.
    reference : Air
        Air the stated carries belong to. Default 20 C, 1013.25 hPa, 50 %.

    Returns
    -------
    tuple of (tuple of n Swing, Launch)
        Launch fields (n,): calm and level in `reference`, each full swing carries its club's
        ``carry_m`` and every swing finishes on the target line after its natural curve.

    Raises
    ------
    OutOfRange
        A carry outside 9 to 320 m or a curve beyond 0.15 rad.
    NoSolution
        A carry that the club's launch cannot give.
    """
    clubs = golfer.clubs
    full = full_launch(clubs=clubs, curve_rad=golfer.curve_rad, physics=physics, air=reference)
    swings, picks, factors = [], [], []
    for index, club in enumerate(clubs):
        for rule in physics.swings:
            if rule.kind != "full" and rule.kind not in golfer.swings:
                continue
            if club.family not in rule.families:
                continue
            swings.append(
                Swing(
                    club=club.name,
                    kind=rule.kind,
                    family=club.family,
                    loft_rad=club.loft_rad,
                    carry_m=club.carry_m,
                    spread_long=club.spread_long * rule.spread_long,
                    spread_side_rad=club.spread_side_rad * rule.spread_side,
                )
            )
            picks.append(index)
            factors.append((rule.speed, rule.launch, rule.spin, rule.tilt))
    pick = np.array(picks)
    speed, up, spin, tilt = np.array(factors).T
    launch = Launch(
        speed_mps=full.speed_mps[pick] * speed,
        launch_rad=full.launch_rad[pick] * up,
        azimuth_rad=np.zeros(pick.size),
        spin_radps=full.spin_radps[pick] * spin,
        tilt_rad=full.tilt_rad[pick] * tilt,
    )
    launch, carry = finish_on_line(launch=launch, physics=physics, air=reference)
    return tuple(
        swing if swing.kind == "full" else replace(swing, carry_m=float(length))
        for swing, length in zip(swings, carry, strict=True)
    ), launch


def full_launch(
    *, clubs: tuple[Club, ...], curve_rad: float, physics: Physics, air: Air
) -> Launch:
    """Solve the ball speed, and the tilt of the spin axis, of every full swing.

    Parameters
    ----------
    clubs : tuple of n Club
        Measured launch, spin, apex and landing angle are used where given, see
        `with_measured`; the rest is `typical_launch`.
    curve_rad : float
        Finish minus start direction of a mid iron, right positive. [rad]
    physics : Physics
        Constants.
    air : Air
        Air the carries belong to.

    Returns
    -------
    Launch
        Fields (n,), start directions zero.

    Raises
    ------
    OutOfRange
        A carry outside 9 to 320 m or a curve beyond 0.15 rad.
    NoSolution
        A carry, an apex or a landing angle that the club's launch cannot give.

    Notes
    -----
    The share of spin that turns the ball sideways, in terms of ball speed, is taken as the
    same for every club: ``W sin(tilt)`` is constant. That follows from a face and a path that
    differ by the same angle with every club and makes the long clubs curve most. The tilt is
    held at 0.6 rad: a slow ball may then curve less than was told.
    """
    for club in clubs:
        within("carry", club.carry_m, SHORTEST_M, LONGEST_M, "m")
    within("curve", curve_rad, -_MOST_CURVE_RAD, _MOST_CURVE_RAD, "rad")
    clubs = tuple(with_measured(club=club, physics=physics, air=air) for club in clubs)
    wanted = np.array([club.carry_m for club in clubs])
    loft = np.array([club.loft_rad for club in clubs])
    mid = int(np.argmin(np.abs(loft - MID_IRON_RAD)))
    sideways = 3.0 * curve_rad  # W sin(tilt), a first guess
    hunt = SpeedHunt(wanted_m=wanted, speed_mps=4.7 * wanted**0.5)
    for _ in range(_TRIES):
        launch = _launch(clubs, hunt.speed_mps, sideways, physics)
        down = fly(launch=launch, air=air, wind=CALM, ball=physics.ball)
        found = hunt.close(np.hypot(down.carry_m, down.side_m))
        curve = float(np.arctan2(down.side_m[mid], down.carry_m[mid]))
        most = abs(launch.tilt_rad[mid]) > 0.999 * _MOST_TILT_RAD and abs(curve) < abs(curve_rad)
        if found.all() and (most or abs(curve - curve_rad) < 1e-5):
            return launch
        if curve:
            sideways *= float(np.clip(curve_rad / curve, 0.3, 3.0))
    name = f"carry of {clubs[int(np.argmin(found))].name}"
    raise NoSolution(name, "no ball speed up to 97 m/s gives it at this club's launch and spin")


def finish_on_line(*, launch: Launch, physics: Physics, air: Air) -> tuple[Launch, Array]:
    """Turn start directions so that every calm flight finishes on the target line.

    Parameters
    ----------
    launch : Launch
        Fields (n,); its azimuth is ignored.
    physics : Physics
        Constants.
    air : Air
        Air of the calm flight.

    Returns
    -------
    tuple of (Launch, ndarray (n,))
        The turned launch and its carry along the line. [m]
    """
    straight = replace(launch, azimuth_rad=np.zeros_like(launch.speed_mps))
    down = fly(launch=straight, air=air, wind=CALM, ball=physics.ball)
    turned = replace(launch, azimuth_rad=-np.arctan2(down.side_m, down.carry_m))
    return turned, np.hypot(down.carry_m, down.side_m)


def _launch(
    clubs: tuple[Club, ...], speed_mps: Array, sideways: float, physics: Physics
) -> Launch:
    """Launch of full swings at these ball speeds, measured values first."""
    up, ratio = typical_launch(clubs=clubs, speed_mps=speed_mps, tour=physics.tour)
    up = np.array(
        [u if c.launch_rad is None else c.launch_rad for u, c in zip(up, clubs, strict=True)]
    )
    spin = np.array(
        [
            w * v / physics.ball.radius_m if c.spin_radps is None else c.spin_radps
            for w, v, c in zip(ratio, speed_mps, clubs, strict=True)
        ]
    )
    most = np.sin(_MOST_TILT_RAD)
    lean = sideways * speed_mps / (physics.ball.radius_m * spin)
    return Launch(
        speed_mps=speed_mps,
        launch_rad=up,
        azimuth_rad=np.zeros_like(speed_mps),
        spin_radps=spin,
        tilt_rad=np.arcsin(np.clip(lean, -most, most)),
    )
