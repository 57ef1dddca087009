"""Which club and aim for a shot that was told."""

from __future__ import annotations

from bot.model.answer import Answer, CannotYet
from bot.model.reading import Answered, FollowUp, Reading, Shot
from bot.turn.desk import Desk


def take(desk: Desk, act: Shot, reading: Reading) -> tuple[Desk, Answer]:
    """Advise on a shot."""
    return desk, CannotYet(reason="act", said=act.kind)


def take_followup(desk: Desk, act: FollowUp, reading: Reading) -> tuple[Desk, Answer]:
    """Advise again after something changed, or explain."""
    return desk, CannotYet(reason="act", said=act.ask)


def take_answered(desk: Desk, act: Answered, reading: Reading) -> tuple[Desk, Answer]:
    """Go on with what the last question held up."""
    return desk, CannotYet(reason="act", said="answered")
