"""Answers about where a shared point lies on a hole."""

from typing import ClassVar, Literal

from bot.model.answer import Answer
from bot.model.measure import Measure
from bot.model.reading import Hazard


class Placed(Answer):
    """Distances from a shared point: public facts, so they may be told in any round.

    `hazards` start and end as seen from the point; `give_or_take` is the phone's own radius.
    """

    advice: ClassVar[bool] = False
    kind: Literal["placed"] = "placed"
    hole: int
    front: Measure
    middle: Measure
    back: Measure
    hazards: tuple[Hazard, ...] = ()
    give_or_take: Measure | None = None


class FarAway(Answer):
    """The point is not on the hole being played."""

    advice: ClassVar[bool] = False
    kind: Literal["far_away"] = "far_away"
    hole: int
    distance: Measure
