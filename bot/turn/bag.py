"""Which golfer a stored profile describes, as the engine knows one."""

from __future__ import annotations

from functools import lru_cache
from typing import Literal

from bot.model.reading import Shape
from bot.model.state import ClubFact, Profile
from bot.turn.measures import quantity_of
from engine import ClubFacts, PlayerFacts, StartBag, si, start_bag

# Curve of a stock mid iron for the shape a player names, degrees towards the shape's side:
# common practice, no source.
_CURVE_DEG = {"straight": 0.0, "draw": 2.0, "fade": 2.0, "hook": 4.0, "slice": 4.0}


# Values of a club by the engine's names, and the fields that hold them.
_FIELDS = {
    "spread_long": "spread_long",
    "spread_side_rad": "spread_side_deg",
    "lean_rad": "lean_deg",
    "mishit": "mishit",
}


@lru_cache(maxsize=512)
def bag_of(profile: Profile) -> StartBag:
    """Return the golfer for `profile`, with the origin of each value."""
    return start_bag(facts_of(profile))


def knows_bag(profile: Profile) -> bool:
    """Say whether enough is known to work out a bag: a club, a handicap or a usual score."""
    return bool(profile.clubs) or profile.handicap is not None or profile.usual_score is not None


def facts_of(profile: Profile) -> PlayerFacts:
    """Return what `profile` tells, as the engine takes it."""
    hand: Literal[-1, 1] | None = None
    if profile.hand is not None:
        hand = -1 if profile.hand == "left" else 1
    curve = None
    if profile.shape is not None and profile.shape in _CURVE_DEG:
        curve = quantity_of(curve_deg(profile.shape, hand or 1), "deg")
    sides: dict[str | None, Literal[-1, 0, 1]] = {"left": -1, "right": 1, "both": 0}
    speed = profile.speed
    return PlayerFacts(
        clubs=tuple(_club(c, good=profile.good_ones) for c in profile.clubs),
        without=frozenset(profile.without),
        handicap=profile.handicap,
        score=profile.usual_score,
        driver_speed=None if speed is None else quantity_of(speed.value, speed.unit or "mph"),
        hand=hand,
        curve=curve,
        miss=sides.get(profile.miss),
        short=_touch(profile),
        learned=frozenset(profile.learned),
    )


def _touch(profile: Profile) -> dict[str, float]:
    """Return what is known of the touch, by the engine's names."""
    known: dict[str, float] = {}
    if profile.putt_line_deg is not None:
        known["putt_line_rad"] = si(quantity_of(profile.putt_line_deg, "deg"), "rad")
    if profile.putt_pace is not None:
        known["putt_pace"] = profile.putt_pace
    return known


def curve_deg(shape: Shape, hand: int) -> float:
    """Return the curve of a shape in degrees, right positive, for a hand of +1 or -1.

    >>> curve_deg("slice", 1), curve_deg("slice", -1)
    (4.0, -4.0)
    """
    towards = -1 if shape in ("draw", "hook") else 1
    return _CURVE_DEG.get(shape, 0.0) * towards * hand


def told_only(profile: Profile) -> Profile:
    """Return the profile without what was learned: what learning has to start from."""
    return profile.model_copy(
        update={
            "clubs": tuple(_told_club(c) for c in profile.clubs),
            "miss": None if "miss" in profile.learned else profile.miss,
            "wind_feel": 1.0,
            "height_feel": 1.0,
            "putt_line_deg": None,
            "putt_pace": None,
            "learned": (),
        }
    )


def _told_club(fact: ClubFact) -> ClubFact:
    bare: dict[str, object] = {_FIELDS[name]: None for name in fact.learned if name in _FIELDS}
    if fact.carry_source == "learned":
        bare |= {"carry": fact.told_carry, "carry_source": "told", "told_carry": None}
    return fact.model_copy(update={**bare, "learned": (), "shots": 0})


def _club(fact: ClubFact, *, good: bool) -> ClubFacts:
    carry = fact.carry or fact.total
    carry_is: Literal["usual", "good", "best", "total"] = "usual"
    if fact.carry is None and fact.total is not None:
        carry_is = "total"
    elif fact.carry_source == "told" and fact.best_ever:
        carry_is = "best"
    elif fact.carry_source == "told" and good:
        carry_is = "good"
    learned = set(fact.learned) | ({"carry_m"} if fact.carry_source == "learned" else set())
    return ClubFacts(
        name=fact.name,
        carry=None if carry is None else quantity_of(carry.value, carry.unit or "yd"),
        carry_is=carry_is,
        learned=frozenset(learned),
        loft=None if fact.loft_deg is None else quantity_of(fact.loft_deg, "deg"),
        spread_long=fact.spread_long,
        spread_side=(
            None if fact.spread_side_deg is None else quantity_of(fact.spread_side_deg, "deg")
        ),
        lean=None if fact.lean_deg is None else quantity_of(fact.lean_deg, "deg"),
        mishit=fact.mishit,
    )
