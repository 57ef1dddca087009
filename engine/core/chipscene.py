"""What is known round a short shot, the ways to play it, and what one of them is worth."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from engine.core.landing import Ground
from engine.core.roll import Stretch

Array = NDArray[np.float64]
ChipKind = Literal["putter", "bump", "chip", "pitch", "flop", "splash", "blast"]


@dataclass(frozen=True, slots=True)
class ChipRule:
    """One way to play a short shot; one row of the table.

    Attributes
    ----------
    kind : ChipKind
    loft_low_rad, loft_high_rad : float
        Lofts it is played with. [rad]
    launch : float
        Launch angle over loft. [-]
    spin : float
        Spin ratio off clean turf. [-]
    spread, mishit : float
        Factors on those of a plain chip. [-]
    lies : frozenset of str
        Lies it can be played from.
    """

    kind: ChipKind
    loft_low_rad: float
    loft_high_rad: float
    launch: float
    spin: float
    spread: float
    mishit: float
    lies: frozenset[str]


@dataclass(frozen=True, slots=True)
class ChipLie:
    """What a lie does to a short shot; one row of the table.

    Attributes
    ----------
    name : str
    spin, spread, mishit : float
        Factors. [-]
    roll : float
        Rolling resistance for a putt through it, 0 where none can be played. [-]
    """

    name: str
    spin: float
    spread: float
    mishit: float
    roll: float


@dataclass(frozen=True, slots=True)
class ChipScene:
    """The ground between ball and hole.

    Attributes
    ----------
    distance_m : float
        To the hole. [m]
    edge_m : float
        To where the green begins. [m]
    over : bool
        Whether what lies before the green is trouble to be carried.
    lie : ChipLie
    green : Ground
        Turf of the green.
    stimp_m : float
        Level Stimpmeter reading. [m]
    on : Stretch
        Slope round the hole, along and across the line.
    up : float
        Rise of the green along the line, rise over run. [-]
    height_m : float
        Green above the ball. [m]
    """

    distance_m: float
    edge_m: float
    over: bool
    lie: ChipLie
    green: Ground
    stimp_m: float
    on: Stretch
    up: float = 0.0
    height_m: float = 0.0


@dataclass(frozen=True, slots=True)
class ChipOption:
    """One way to play it, and what comes of it.

    Attributes
    ----------
    kind : ChipKind
    club : str
        Name, ``putter`` for the putter.
    carry_m, run_m : float
        Where it is meant to land and how far it then runs; for the putter the level putt
        that needs the same hit, and 0. [m]
    past_m : float
        Where it is meant to stop, beyond the hole. [m]
    expected : float
        Mean strokes to hole out, this one included. [-]
    saves : float
        Chance to be in with two strokes or fewer. [-]
    short : float
        Chance to come down, or stop, before the green. [-]
    """

    kind: ChipKind
    club: str
    carry_m: float
    run_m: float
    past_m: float
    expected: float
    saves: float
    short: float
