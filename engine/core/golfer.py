"""Who is playing: the clubs, the shape and the spread of one golfer, in SI units."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Family = Literal["driver", "wood", "hybrid", "iron", "wedge", "putter"]
SwingKind = Literal[
    "full", "choked", "three_quarter", "half", "knocked_down", "high", "pitch"
]  # a pitch is played by feel, to any length short of a half swing


@dataclass(frozen=True, slots=True)
class Club:
    """One club as this golfer hits it from a good lie, calm, level, in reference air.

    Attributes
    ----------
    name : str
        Short name, such as ``D``, ``3w``, ``4h``, ``7i``, ``PW``, ``56``.
    family : Family
        Decides typical launch and spin where they are not measured.
    loft_rad : float
        Static loft. [rad]
    carry_m : float
        Mean carry of solid shots. [m]
    spread_long : float
        Standard deviation of solid carries over the mean carry. [-]
    spread_side_rad : float
        Standard deviation of the finishing direction of solid shots. [rad]
    lean_rad : float
        Mean finishing direction against the line the player means to finish on,
        right positive. [rad]
    mishit : float
        Share of shots that are not solid, 0 to 1. [-]
    launch_rad, spin_radps, apex_m, descent_rad : float or None
        Measured values where the player knows them. [rad, rad/s, m, rad]
    """

    name: str
    family: Family
    loft_rad: float
    carry_m: float
    spread_long: float
    spread_side_rad: float
    lean_rad: float = 0.0
    mishit: float = 0.08
    launch_rad: float | None = None
    spin_radps: float | None = None
    apex_m: float | None = None
    descent_rad: float | None = None


@dataclass(frozen=True, slots=True)
class ShortGame:
    """Touch: short shots and putts.

    Attributes
    ----------
    chip_spread : float
        Standard deviation of a chip or pitch's length over its length. [-]
    sand_spread : float
        The same out of greenside sand. [-]
    chip_mishit : float
        Share of short shots fluffed or thinned, 0 to 1. [-]
    putt_line_rad : float
        Standard deviation of a putt's start line. [rad]
    putt_pace : float
        Standard deviation of a putt's roll over the roll meant. [-]
    """

    chip_spread: float
    sand_spread: float
    chip_mishit: float
    putt_line_rad: float
    putt_pace: float


@dataclass(frozen=True, slots=True)
class Golfer:
    """A player as the engine knows one.

    Attributes
    ----------
    clubs : tuple of Club
        Longest first, putter left out.
    hand : int
        +1 right-handed, -1 left-handed.
    curve_rad : float
        Direction of the finish seen from the ball minus the start direction for a stock
        mid iron, right positive (a right-hander's fade is positive). [rad]
    miss : int
        Side of the big miss: -1 left, 0 both or unknown, +1 right.
    short : ShortGame
        Touch round the green.
    swings : frozenset of SwingKind
        Swings this player owns beside the full one.
    """

    clubs: tuple[Club, ...]
    hand: int
    curve_rad: float
    miss: int
    short: ShortGame
    swings: frozenset[SwingKind] = frozenset({"full", "choked", "three_quarter", "knocked_down"})
