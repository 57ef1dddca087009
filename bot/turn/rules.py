"""Help with a Rule: the same words in every kind of round, and in practice what costs least."""

from __future__ import annotations

from bot.model.answer import Answer
from bot.model.reading import Reading, RulesHelp
from bot.model.ruling import Ruling
from bot.turn import relief
from bot.turn.desk import Desk

_SAND = frozenset({"bunker", "fairway_bunker", "greenside_bunker"})


def take(desk: Desk, act: RulesHelp, reading: Reading) -> tuple[Desk, Answer]:
    """Answer with the two lines on the topic, or the ways on ranked for a distance told.

    In a round by the Rules the distance never gets here.
    """
    topic: str = act.topic
    if topic in ("unplayable", "embedded") and _SAND & set(act.facts.lie):
        topic = f"{topic}_bunker"
    memory = desk.memory.model_copy(update={"rules_topic": topic})
    desk = desk.put(memory)
    return desk, relief.ranked(desk, act, topic) or Ruling(topic=topic)


def take_more(desk: Desk) -> Answer | None:
    """Return the longer text on the topic asked last; None where there is none."""
    topic = desk.memory.rules_topic
    return None if topic is None else Ruling(topic=topic, more=True)
