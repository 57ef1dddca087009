"""Which golfer a stored profile describes, as the engine knows one."""

from __future__ import annotations

from functools import lru_cache
from typing import Literal

from bot.model.state import ClubFact, Profile
from bot.turn.measures import quantity_of
from engine import ClubFacts, PlayerFacts, StartBag, start_bag

# Curve of a stock mid iron for the shape a player names, degrees towards the shape's side:
# common practice, no source.
_CURVE_DEG = {"straight": 0.0, "draw": 2.0, "fade": 2.0, "hook": 4.0, "slice": 4.0}


@lru_cache(maxsize=512)
def bag_of(profile: Profile) -> StartBag:
    """Return the golfer for `profile`, with the origin of each value."""
    hand: Literal[-1, 1] | None = None
    if profile.hand is not None:
        hand = -1 if profile.hand == "left" else 1
    curve = None
    if profile.shape in _CURVE_DEG:
        towards = -1 if profile.shape in ("draw", "hook") else 1
        curve = quantity_of(_CURVE_DEG[profile.shape] * towards * (hand or 1), "deg")
    sides: dict[str | None, Literal[-1, 0, 1]] = {"left": -1, "right": 1, "both": 0}
    speed = profile.speed
    return start_bag(
        PlayerFacts(
            clubs=tuple(_club(c) for c in profile.clubs),
            without=frozenset(profile.without),
            handicap=profile.handicap,
            score=profile.usual_score,
            driver_speed=None if speed is None else quantity_of(speed.value, speed.unit or "mph"),
            hand=hand,
            curve=curve,
            miss=sides.get(profile.miss),
        )
    )


def _club(fact: ClubFact) -> ClubFacts:
    carry = fact.carry
    return ClubFacts(
        name=fact.name,
        carry=None if carry is None else quantity_of(carry.value, carry.unit or "yd"),
        loft=None if fact.loft_deg is None else quantity_of(fact.loft_deg, "deg"),
        spread_long=fact.spread_long,
        spread_side=(
            None if fact.spread_side_deg is None else quantity_of(fact.spread_side_deg, "deg")
        ),
        lean=None if fact.lean_deg is None else quantity_of(fact.lean_deg, "deg"),
        mishit=fact.mishit,
    )
