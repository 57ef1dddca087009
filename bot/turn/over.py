"""Which of what was talked of is over: the putt of a holed ball, the shot of another hole?"""

from __future__ import annotations

from bot.model.measure import Measure
from bot.model.reading import Facts, FollowUp, Hole
from bot.model.state import Memory
from bot.turn.memory import moved_on

LONGEST_PUTT = 120.0  # a longer bare number, in feet, is no putt: judgement
_OF_A_ROUND = frozenset({"round_kind", "round_end", "result"})  # questions that outlive a hole


def on_hole(memory: Memory, hole: int | None) -> Memory:
    """Return the memory of a player whose round is on `hole`: what was told of another is gone."""
    if hole is None or hole == memory.hole:
        return memory
    if memory.hole is None:
        return memory.model_copy(update={"hole": hole})
    asked = memory.expecting
    kept = None if asked is None or asked.about not in _OF_A_ROUND else asked
    return ended(memory, hole).model_copy(update={"hole": hole, "expecting": kept})


def ended(memory: Memory, hole: int | None = None) -> Memory:
    """Return the memory once the ball lies elsewhere, on another `hole` where that is told."""
    other = Facts() if hole is None else Facts(hole=Hole(number=hole))
    shot = moved_on(memory.shot, other)
    return memory.model_copy(update={"shot": shot, "shot_kind": "shot"})


def ends_putt(told: FollowUp) -> bool:
    """Say whether what leans on a putt speaks of a full shot: a club, or trouble."""
    facts = told.facts
    clubs = {c for c in (facts.club, facts.club_excluded, *facts.clubs_compare) if c}
    return bool(clubs - {"P"}) or bool(facts.hazards)


def no_putt(number: Measure | None) -> bool:
    """Say whether a number told for the length of a putt can be none.

    >>> no_putt(Measure(value=164)), no_putt(Measure(value=30))
    (True, False)
    >>> no_putt(Measure(value=90, unit="yd"))
    True
    """
    if number is None:
        return False
    feet = {"": 1.0, "ft": 1.0, "yd": 3.0, "pace": 3.0, "m": 3.28}.get(number.unit)
    return feet is not None and number.value * feet > LONGEST_PUTT
