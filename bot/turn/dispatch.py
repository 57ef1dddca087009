"""Which turn takes which act, and what happens when a message holds several."""

from __future__ import annotations

from collections.abc import Callable

from bot.model.answer import Answer, CannotYet
from bot.model.reading import Act, Reading
from bot.turn import shot, talk
from bot.turn.desk import Desk

Turn = Callable[[Desk, Act, Reading], tuple[Desk, Answer]]

TURNS: dict[str, Turn] = {
    "shot": shot.take,
    "followup": shot.take_followup,
    "answered": shot.take_answer,
    "nonsense": talk.refuse,
    "talk": talk.take,
}


def take_turn(desk: Desk, reading: Reading) -> tuple[Desk, tuple[Answer, ...]]:
    """Take every act of `reading` in order, each on the desk the one before it left."""
    if not reading.acts:
        return desk, (talk.not_read(desk, reading),)
    answers: list[Answer] = []
    for act in reading.acts:
        turn = TURNS.get(act.act)
        if turn is None:
            answers.append(CannotYet(reason="act", said=act.act))
            continue
        desk, answer = turn(desk, act, reading)
        answers.append(answer)
    return desk, tuple(answers)
