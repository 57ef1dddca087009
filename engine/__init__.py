"""Unit-aware answers to golf questions: flight, pattern, choice, putts, learning."""

from engine.api.learning import Lesson, ShotResult, lesson_of, seen_of, too_far
from engine.api.profile import ClubFacts, PlayerFacts, club_family, start_bag
from engine.core.bag import StartBag
from engine.core.golfer import Club, Golfer, ShortGame
from engine.core.learn_advice import Suggestion
from engine.core.seen import Seen
from engine.units import quantity, si

__all__ = [
    "Club",
    "ClubFacts",
    "Golfer",
    "Lesson",
    "PlayerFacts",
    "Seen",
    "ShortGame",
    "ShotResult",
    "StartBag",
    "Suggestion",
    "club_family",
    "lesson_of",
    "quantity",
    "seen_of",
    "si",
    "start_bag",
    "too_far",
]
