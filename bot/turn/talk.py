"""What to answer when no golf was asked, or what was sent cannot be used."""

from __future__ import annotations

from bot.model.answer import Answer, CannotYet, Say
from bot.model.reading import Act, Nonsense, Reading, Talk
from bot.turn.desk import Desk


def take(desk: Desk, act: Act, reading: Reading) -> tuple[Desk, Answer]:
    """Answer thanks, help and the like."""
    assert isinstance(act, Talk)
    return desk, Say(topic=act.intent, detail=act.topic or "")


def refuse(desk: Desk, act: Act, reading: Reading) -> tuple[Desk, Answer]:
    """Say which number cannot be, and what to send instead."""
    assert isinstance(act, Nonsense)
    return desk, CannotYet(reason=f"nonsense_{act.why}", said=act.said)


def not_read(desk: Desk, reading: Reading) -> Answer:
    """Say that nothing was understood, and what a shot message looks like."""
    empty = not any(c.isalnum() for c in reading.text)
    return CannotYet(reason="empty" if empty else "not_read", said=reading.text[:40])
