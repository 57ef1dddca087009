"""Answers on the Rules, and on what a round by the Rules leaves unsaid."""

from typing import ClassVar, Literal

from bot.model.answer import Answer
from bot.model.base import Frozen
from bot.model.measure import Measure
from bot.model.reading import Reference

Kind = Literal["practice", "rules"]
Option = Literal["replay", "line", "sideways"]


class Ruling(Answer):
    """Help with a Rule: the same words for everybody, in every kind of round."""

    advice: ClassVar[bool] = False
    kind: Literal["ruling"] = "ruling"
    topic: str
    more: bool = False  # the longer text was asked for


class ReliefOption(Frozen):
    """One way on: the distance left after it and what it costs in strokes to hole out."""

    option: Option
    distance: Measure
    strokes: float  # expected, penalty included


class Relief(Answer):
    """Ways to go on, best first; for practice rounds only."""

    kind: Literal["relief"] = "relief"
    topic: str
    options: tuple[ReliefOption, ...]


class Withheld(Answer):
    """Kept without advice in a round by the Rules; only distances come back, as told."""

    advice: ClassVar[bool] = False
    kind: Literal["withheld"] = "withheld"
    distances: tuple[tuple[Reference | None, Measure], ...] = ()


class Kept(Answer):
    """A bare acknowledgement: something was logged, nothing is said about it."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 0
    kind: Literal["kept"] = "kept"
