"""Who the golfer is: a full bag from whatever was told, each value with its origin."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from engine.api.standard import physics
from engine.core.bag import StartBag, build_bag
from engine.core.bag_faults import Fault, faults
from engine.core.facts import CarryIs, ClubFact, Facts
from engine.core.gapping import club_type
from engine.errors import OutOfRange
from engine.units import si_or_none

if TYPE_CHECKING:
    from engine.core.golfer import Family, SwingKind
    from engine.units import Q


@dataclass(frozen=True, slots=True)
class ClubFacts:
    """What is known of one club; None is unknown.

    Attributes
    ----------
    name : str
        ``D``, ``3w``, ``4h``, ``7i``, ``PW``, or a wedge's loft in degrees such as ``56``.
    carry : Quantity or None
        Carry. [length]
    carry_is : {"usual", "good", "best", "total"}
        Whether that is the usual carry, that of the good ones, the best one remembered, or
        the usual length with its run.
    loft : Quantity or None
        Static loft. [angle]
    spread_long : float or None
        Standard deviation of solid carries over the mean. [-]
    spread_side : Quantity or None
        Standard deviation of the finishing direction. [angle]
    lean : Quantity or None
        Mean finishing direction, right positive. [angle]
    mishit : float or None
        Share of shots that are not solid. [-]
    learned : frozenset of str
        Which of these names came out of logged shots; the rest were told.
    """

    name: str
    carry: Q | None = None
    carry_is: CarryIs = "usual"
    loft: Q | None = None
    spread_long: float | None = None
    spread_side: Q | None = None
    lean: Q | None = None
    mishit: float | None = None
    learned: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class PlayerFacts:
    """What is known of one golfer; None is unknown.

    Attributes
    ----------
    clubs : tuple of ClubFacts
        Clubs spoken of.
    only : bool
        True if there are no others.
    without : frozenset of str
        Clubs not carried.
    handicap, score : float or None
        Handicap index, or usual score over 18 holes. [-]
    driver_speed : Quantity or None
        Speed of the driver's head. [speed]
    hand : {+1, -1} or None
        +1 right-handed.
    curve : Quantity or None
        Curve of a stock mid iron, right positive. [angle]
    miss : {-1, 0, +1} or None
        Side of the big miss, right positive, 0 both.
    short : mapping of str to float
        Known values of touch, by the names of `ShortGame`. [rad or -]
    swings : frozenset of SwingKind or None
        Swings owned.
    learned : frozenset of str
        Which of these names came out of logged shots.
    """

    clubs: tuple[ClubFacts, ...] = ()
    only: bool = False
    without: frozenset[str] = frozenset()
    handicap: float | None = None
    score: float | None = None
    driver_speed: Q | None = None
    hand: Literal[-1, 1] | None = None
    curve: Q | None = None
    miss: Literal[-1, 0, 1] | None = None
    short: Mapping[str, float] = field(default_factory=dict)
    swings: frozenset[SwingKind] | None = None
    learned: frozenset[str] = frozenset()


def start_bag(facts: PlayerFacts) -> StartBag:
    """Build a full, plausible golfer from any subset of facts.

    Parameters
    ----------
    facts : PlayerFacts
        Whatever is known; nothing at all gives an average player.

    Returns
    -------
    StartBag
        The golfer, and through `StartBag.of` where each value came from.

    Raises
    ------
    OutOfRange
        A carry outside 10 to 400 yd, or a handicap outside -10 to 54.
    ValueError
        A club of no known kind.

    See Also
    --------
    engine.core.bag.build_bag : the model and its sources.
    """
    core_facts = _facts(facts)
    for club in core_facts.clubs:
        if club.carry_m is not None and not 9.0 <= club.carry_m <= 366.0:
            raise OutOfRange(
                name=f"{club.name} carry", value=club.carry_m, low=9.0, high=366.0, unit="m"
            )
    handicap = facts.handicap
    if handicap is not None and not -10.0 <= handicap <= 54.0:
        raise OutOfRange(name="handicap", value=handicap, low=-10.0, high=54.0, unit="strokes")
    return build_bag(core_facts, physics=physics())


def bag_faults(facts: PlayerFacts) -> tuple[Fault, ...]:
    """List what cannot be right about told facts, such as a 9-iron longer than a 7-iron.

    Parameters
    ----------
    facts : PlayerFacts
        As told.

    Returns
    -------
    tuple of Fault
        Worst first, lengths and speeds in SI; empty if a bag can be built.
    """
    return faults(_facts(facts))


def club_family(name: str) -> Family | None:
    """Return the family of a club by its short name, None if there is no such club."""
    found = club_type(name)
    return None if found is None else found[0]


def _facts(facts: PlayerFacts) -> Facts:
    return Facts(
        clubs=tuple(_club(c) for c in facts.clubs),
        only=facts.only,
        without=facts.without,
        handicap=facts.handicap,
        score=facts.score,
        driver_speed_mps=si_or_none(facts.driver_speed, "m/s"),
        hand=facts.hand,
        curve_rad=si_or_none(facts.curve, "rad"),
        miss=facts.miss,
        short=facts.short,
        swings=facts.swings,
        learned=facts.learned,
    )


def _club(club: ClubFacts) -> ClubFact:
    return ClubFact(
        name=club.name,
        carry_m=si_or_none(club.carry, "m"),
        carry_is=club.carry_is,
        loft_rad=si_or_none(club.loft, "rad"),
        spread_long=club.spread_long,
        spread_side_rad=si_or_none(club.spread_side, "rad"),
        lean_rad=si_or_none(club.lean, "rad"),
        mishit=club.mishit,
        learned=club.learned,
    )
