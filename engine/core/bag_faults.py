"""What cannot be right about a told bag."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from typing import Final, Literal

from engine.core.bag import MOST_CLUBS
from engine.core.facts import ClubFact, Facts
from engine.core.gapping import club_type
from engine.core.golfer import Family

FaultKind = Literal["unknown", "twice", "too_many", "range", "order", "handicap", "score", "speed"]

# Usual carries no golfer is outside of, in metres (judgement; 300 m is a long-drive swing).
_RANGE_M: Final[dict[Family, tuple[float, float]]] = {
    "driver": (45.0, 320.0), "wood": (40.0, 285.0), "hybrid": (35.0, 255.0),
    "iron": (25.0, 240.0), "wedge": (15.0, 165.0), "putter": (0.0, 0.0),
}  # fmt: skip
# A lofted club may be told a little longer than a straighter one: woods and hybrids overlap
# irons for slow swings. Beyond this share it is a slip.
_OVERLAP: Final = 0.04
_APART_RAD: Final = math.radians(2.6)


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that cannot be right.

    Attributes
    ----------
    kind : FaultKind
        What is wrong.
    club, other : str
        Clubs concerned, empty where none.
    value, low, high : float
        What was told and its limits. [m, strokes or m/s; clubs for ``too_many``]
    """

    kind: FaultKind
    club: str = ""
    other: str = ""
    value: float = 0.0
    low: float = 0.0
    high: float = 0.0


def faults(facts: Facts) -> tuple[Fault, ...]:
    """List what cannot be right about told facts, worst first.

    Parameters
    ----------
    facts : Facts
        As told, checked by nothing before.

    Returns
    -------
    tuple of Fault
        Empty if a bag can be built.
    """
    found = [Fault("unknown", c.name) for c in facts.clubs if club_type(c.name) is None]
    if found:
        return tuple(found)
    count = Counter(c.name for c in facts.clubs)
    found += [Fault("twice", name) for name, n in count.items() if n > 1]
    if len(count) > MOST_CLUBS:
        found.append(Fault("too_many", value=len(count) + 1, high=MOST_CLUBS + 1))
    for club in facts.clubs:
        low, high = _RANGE_M[_type(club.name)[0]]
        if club.carry_m is not None and not low <= club.carry_m <= high:
            found.append(Fault("range", club.name, value=club.carry_m, low=low, high=high))
    found += _disorder(facts)
    limits: tuple[tuple[FaultKind, float | None, float, float], ...] = (
        ("handicap", facts.handicap, -10.0, 54.0),
        ("score", facts.score, 55.0, 160.0),
        ("speed", facts.driver_speed_mps, 18.0, 67.0),
    )
    found += [
        Fault(kind, value=value, low=low, high=high)
        for kind, value, low, high in limits
        if value is not None and not low <= value <= high
    ]
    return tuple(found)


def _type(name: str) -> tuple[Family, float]:
    found = club_type(name)
    assert found is not None  # noqa: S101 - `faults` has sorted unknown names out
    return found


def _disorder(facts: Facts) -> list[Fault]:
    """Pairs of clubs of which the more lofted one was told to go clearly further."""
    told = [(c, c.loft_rad or _type(c.name)[1]) for c in facts.clubs if c.carry_m]
    told.sort(key=lambda pair: pair[1])
    out = []
    for i, (straight, loft) in enumerate(told):
        for lofted, more in told[i + 1 :]:
            if more - loft < _APART_RAD:
                continue
            if _carry(lofted) > _carry(straight) * (
                1.0 + _OVERLAP * (not _like(straight, lofted))
            ):
                out.append(Fault("order", lofted.name, straight.name, value=_carry(lofted)))
    return out


def _carry(club: ClubFact) -> float:
    return club.carry_m or 0.0


def _like(one: ClubFact, other: ClubFact) -> bool:
    """Whether two clubs are of kinds that never overlap."""
    return _type(one.name)[0] == _type(other.name)[0]
