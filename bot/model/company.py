"""Answers about who plays along and what a day is like for all of them."""

from typing import ClassVar, Literal

from bot.model.answer import Answer
from bot.model.reading import Air, Green, Wind


class Joined(Answer):
    """The player is on the trip; `others` are the names of who else is."""

    advice: ClassVar[bool] = False
    kind: Literal["joined"] = "joined"
    others: tuple[str, ...] = ()
    again: bool = False
    newcomer: bool = False


class Left(Answer):
    """The player is off the trip; bag, log and card stay."""

    advice: ClassVar[bool] = False
    kind: Literal["left"] = "left"


class HelperKept(Answer):
    """Somebody may, or may no longer, ask for the player."""

    advice: ClassVar[bool] = False
    kind: Literal["helper"] = "helper"
    name: str
    allowed: bool


class DayKept(Answer):
    """Conditions kept for everybody in this chat."""

    advice: ClassVar[bool] = False
    kind: Literal["day"] = "day"
    shared: bool  # others hear it too
    wind: Wind | None = None
    air: Air | None = None
    green: Green | None = None
    turf: str | None = None
