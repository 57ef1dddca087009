"""Answers to a danger: they are worded before everything else."""

from typing import ClassVar, Literal

from bot.model.answer import Answer
from bot.model.measure import Measure

Peril = Literal[
    "despair", "medical", "tornado", "lightning", "people_in_range", "animal", "heat", "cold"
]


class Danger(Answer):
    """What to do now. `felt` and `band` where heat or cold could be worked out."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 8
    kind: Literal["danger"] = "danger"
    peril: Peril
    emergency: tuple[str, ...]  # numbers to call here
    felt: Measure | None = None
    band: str = "none"
    missing: tuple[str, ...] = ()  # not told, so there is no figure
    ill: bool = False  # somebody feels it already: heat or cold as a symptom
    strike: Measure | None = None  # how far off the last flash was
    brief: bool = False  # one line: golf was asked in the same breath


class StormHold(Answer):
    """The time since the last thunder or flash told in this group has not run out."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 7
    kind: Literal["storm_hold"] = "storm_hold"
    minutes_left: float


class StormOver(Answer):
    """Nothing was told for half an hour; the course decides when play goes on."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 7
    kind: Literal["storm_over"] = "storm_over"
    known: bool = True  # False: no thunder was ever told here
