"""Unit-aware answers to golf questions: flight, pattern, choice, putts, learning."""

from engine.api.profile import ClubFacts, PlayerFacts, club_family, start_bag
from engine.core.bag import StartBag
from engine.core.golfer import Club, Golfer, ShortGame
from engine.units import quantity, si

__all__ = [
    "Club",
    "ClubFacts",
    "Golfer",
    "PlayerFacts",
    "ShortGame",
    "StartBag",
    "club_family",
    "quantity",
    "si",
    "start_bag",
]
