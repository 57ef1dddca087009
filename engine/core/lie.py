"""What does the ground under ball and feet do to a swing, and which clubs does it rule out?"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import radians
from typing import Literal

import numpy as np

from engine.core.aero import Array
from engine.core.checks import within
from engine.core.flight import Launch
from engine.errors import BadTable

LieKind = Literal[
    "tee",
    "fairway",
    "first_cut",
    "sitting_up",
    "rough",
    "sitting_down",
    "deep_rough",
    "flyer",
    "wet",
    "fairway_bunker",
    "divot",
    "hardpan",
    "pine_straw",
]

STEEPEST_RAD = radians(20.0)  # of a stance
_SPEED_PER_UPHILL_RAD = 0.34  # 0.6 % of ball speed a degree uphill; common practice, no source
_TURN_SHARE = 0.5  # of the face's full turn: players re-sole the club; common practice
_LIP_MARGIN_RAD = radians(3.0)  # launch must beat the lip by this; common practice, no source
_LOWEST_LAUNCH_RAD = radians(2.0)


@dataclass(frozen=True, slots=True)
class LieRule:
    """One row of the lie table.

    Attributes
    ----------
    kind : LieKind
    speed, spin : float
        Factors on ball speed and spin. [-]
    launch_rad : float
        Added to the launch angle. [rad]
    hook_rad : float
        Start direction towards the side a closed face points to. [rad]
    spread_long, spread_side : float
        Factors on the spreads of solid shots. [-]
    mishit : float
        Added to the share of shots that are not solid. [-]
    least_loft_rad : float
        Clubs with less loft are not to be played from here. [rad]
    """

    kind: LieKind
    speed: float
    spin: float
    launch_rad: float
    hook_rad: float
    spread_long: float
    spread_side: float
    mishit: float
    least_loft_rad: float


@dataclass(frozen=True, slots=True)
class Lie:
    """Where the ball sits and how the player stands to it.

    Attributes
    ----------
    kind : LieKind
        Row of the lie table.
    uphill_rad : float
        Slope along the shot, positive where the ground rises towards the target. [rad]
    above_rad : float
        Slope across the shot, positive where the ball is above the feet. [rad]
    lip_rad : float
        Angle from the ball up to the lip in front of it, 0 for none. [rad]
    """

    kind: LieKind = "fairway"
    uphill_rad: float = 0.0
    above_rad: float = 0.0
    lip_rad: float = 0.0


GOOD = Lie()


def rule_for(*, lie: Lie, rules: tuple[LieRule, ...]) -> LieRule:
    """Row of the lie table a lie belongs to.

    Raises
    ------
    OutOfRange
        A stance steeper than 20 deg or a lip above 80 deg.
    BadTable
        The table has no such row.
    """
    within("slope along the shot", lie.uphill_rad, -STEEPEST_RAD, STEEPEST_RAD, "rad")
    within("slope across the shot", lie.above_rad, -STEEPEST_RAD, STEEPEST_RAD, "rad")
    within("lip", lie.lip_rad, 0.0, 1.4, "rad")
    for rule in rules:
        if rule.kind == lie.kind:
            return rule
    name = "lies"
    raise BadTable(name, f"no row {lie.kind}")


def from_lie(*, launch: Launch, loft_rad: Array, hand: int, lie: Lie, rule: LieRule) -> Launch:
    """Launch of the same swings from a lie instead of a good one.

    Parameters
    ----------
    launch : Launch
        Fields (n,), from a good level lie.
    loft_rad : ndarray (n,)
        Loft of each swing's club. [rad]
    hand : int
        +1 right-handed, -1 left-handed.
    lie : Lie
        Slopes under the feet.
    rule : LieRule
        Its row of the table.

    Returns
    -------
    Launch
        Fields (n,).

    Notes
    -----
    A slope along the shot turns the launch by its own angle and takes a little speed uphill.
    A slope across it turns the face of a lofted club downhill by
    ``atan(tan(loft) sin(slope))`` [1]_, of which half is taken because players set the sole
    to the ground: a right-hander with the ball above the feet starts it left.

    References
    ----------
    .. [1] Geometry, as in A. Cochran, J. Stobbs, The Search for the Perfect Swing, 1968.
    """
    turn = np.arctan(np.tan(loft_rad) * np.sin(lie.above_rad)) * _TURN_SHARE + rule.hook_rad
    uphill = 1.0 - _SPEED_PER_UPHILL_RAD * max(lie.uphill_rad, 0.0)
    up = launch.launch_rad + rule.launch_rad + lie.uphill_rad
    return replace(
        launch,
        speed_mps=launch.speed_mps * rule.speed * uphill,
        launch_rad=np.clip(up, _LOWEST_LAUNCH_RAD, 1.1),
        azimuth_rad=launch.azimuth_rad - hand * turn,
        spin_radps=launch.spin_radps * rule.spin,
    )


def ruled_out(*, launch: Launch, loft_rad: Array, lie: Lie, rule: LieRule) -> tuple[str, ...]:
    """Why each swing is not to be played from a lie.

    Parameters
    ----------
    launch : Launch
        Fields (n,), already `from_lie`.
    loft_rad : ndarray (n,)
        Loft of each swing's club. [rad]
    lie : Lie
        Where the ball sits.
    rule : LieRule
        Its row of the table.

    Returns
    -------
    tuple of n str
        Empty where the swing is fine, else ``"loft"`` or ``"lip"``.
    """
    short = loft_rad < rule.least_loft_rad
    caught = (lie.lip_rad > 0.0) & (launch.launch_rad < lie.lip_rad + _LIP_MARGIN_RAD)
    return tuple(
        "loft" if low else "lip" if hit else "" for low, hit in zip(short, caught, strict=True)
    )
