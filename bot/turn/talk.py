"""What to answer when no golf was asked, or what was sent cannot be used."""

from __future__ import annotations

from bot.model.answer import Answer, CannotYet, Say
from bot.model.reading import Nonsense, Reading, Talk


def take(act: Talk) -> Answer:
    """Answer thanks, help and the like."""
    return Say(topic=act.intent, detail=act.topic or "")


def refuse(act: Nonsense) -> Answer:
    """Say which number cannot be, and what to send instead."""
    return CannotYet(reason=f"nonsense_{act.why}", said=act.said)


def not_read(reading: Reading) -> Answer:
    """Say that nothing was understood, and what a shot message looks like."""
    empty = not any(c.isalnum() for c in reading.text)
    return CannotYet(reason="empty" if empty else "not_read", said=reading.text[:40])
