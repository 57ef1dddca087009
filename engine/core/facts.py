"""What is known of a golfer before anything is worked out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from engine.core.golfer import SwingKind

CarryIs = Literal["usual", "good", "best", "total"]


@dataclass(frozen=True, slots=True)
class ClubFact:
    """What is known of one club; None is unknown.

    Attributes
    ----------
    name : str
        Short name as `club_type` knows it.
    carry_m : float or None
        Carry. [m]
    carry_is : {"usual", "good", "best", "total"}
        Whether it is the player's usual carry, that of the good ones, the best one
        remembered, or the usual length with its run.
    loft_rad, spread_long, spread_side_rad, lean_rad, mishit : float or None
        As in `Club`. [rad, -, rad, rad, -]
    learned : frozenset of str
        Names of the values above that came out of logged shots; the rest were told.
    """

    name: str
    carry_m: float | None = None
    carry_is: CarryIs = "usual"
    loft_rad: float | None = None
    spread_long: float | None = None
    spread_side_rad: float | None = None
    lean_rad: float | None = None
    mishit: float | None = None
    learned: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known of one golfer; None is unknown.

    Attributes
    ----------
    clubs : tuple of ClubFact
        Clubs spoken of.
    only : bool
        True if these are all the clubs there are.
    without : frozenset of str
        Clubs the player said they do not carry.
    handicap, score : float or None
        Handicap index, or the usual score over 18 holes. [-]
    driver_speed_mps : float or None
        Speed of the driver's head. [m/s]
    hand : int or None
        +1 right-handed, -1 left-handed.
    curve_rad, miss : float or None, int or None
        As in `Golfer`.
    short : mapping of str to float
        Values of `ShortGame` that are known.
    swings : frozenset of SwingKind or None
        Swings owned.
    learned : frozenset of str
        Names of the values above that came out of logged shots.
    """

    clubs: tuple[ClubFact, ...] = ()
    only: bool = False
    without: frozenset[str] = frozenset()
    handicap: float | None = None
    score: float | None = None
    driver_speed_mps: float | None = None
    hand: int | None = None
    curve_rad: float | None = None
    miss: int | None = None
    short: Mapping[str, float] = field(default_factory=dict)
    swings: frozenset[SwingKind] | None = None
    learned: frozenset[str] = frozenset()
