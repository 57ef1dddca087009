"""Which turn takes which act, and what happens when a message holds several."""

from __future__ import annotations

from bot.model import reading as read
from bot.model.answer import Answer, CannotYet
from bot.turn import shot, talk
from bot.turn.desk import Desk


def take_turn(desk: Desk, reading: read.Reading) -> tuple[Desk, tuple[Answer, ...]]:
    """Take every act of `reading` in order, each on the desk the one before it left."""
    if not reading.acts:
        return desk, (talk.not_read(reading),)
    answers: list[Answer] = []
    for act in reading.acts:
        desk, answer = _take(desk, act, reading)
        answers.append(answer)
    return desk, tuple(answers)


def _take(desk: Desk, act: read.Act, reading: read.Reading) -> tuple[Desk, Answer]:
    match act:
        case read.Shot():
            return shot.take(desk, act, reading)
        case read.FollowUp():
            return shot.take_followup(desk, act, reading)
        case read.Answered():
            return shot.take_answered(desk, act, reading)
        case read.Talk():
            return desk, talk.take(act)
        case read.Nonsense():
            return desk, talk.refuse(act)
        case _:
            return desk, CannotYet(reason="act", said=act.act)
