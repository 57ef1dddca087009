"""Asked to be forgotten: once to be warned, once more to have everything deleted."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from types import MappingProxyType

from bot.model.answer import Answer, Say
from bot.turn.desk import Desk

WITHIN = timedelta(minutes=5)


def take(desk: Desk) -> tuple[Desk, Answer]:
    """Warn first; the second time within five minutes, leave nothing of the sender."""
    memory, now = desk.memory, desk.now
    asked = memory.forget_asked
    if asked is not None and timedelta(0) <= now - asked <= WITHIN:
        empty = replace(desk, changed=MappingProxyType({}), entries=())
        return replace(empty, forget=desk.message.sender), Say(topic="forgotten")
    return desk.put(memory.model_copy(update={"forget_asked": now})), Say(topic="forget_me")
