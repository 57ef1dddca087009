"""Answers to what became of a shot."""

from typing import ClassVar, Literal

from bot.model.answer import Answer
from bot.model.measure import Measure
from bot.model.reading import Aim


class ResultKept(Answer):
    """A result was written down; `of_advice` says whether it answers a shot asked about."""

    urgency: ClassVar[int] = 0
    kind: Literal["result_kept"] = "result_kept"
    club: str | None = None
    aim: Aim | None = None
    side: str | None = None
    depth: str | None = None
    lie: tuple[str, ...] = ()
    putts: int | None = None
    penalty: int = 0
    of_advice: bool = False
    total: Measure | None = None
    proximity: Measure | None = None
    contact: str | None = None
    holed: bool = False
    provisional: bool = False
    implied: bool = False  # worked out from the next message
    again: bool = False  # told before: nothing more was kept
    corrected: bool = False  # takes the place of the result before


class ResultDoubted(Answer):
    """A result that cannot be: nothing was kept."""

    urgency: ClassVar[int] = 2
    kind: Literal["result_doubted"] = "result_doubted"
    club: str
