"""Help with a Rule, the same in every kind of round."""

from __future__ import annotations

from bot.model.answer import Answer
from bot.model.reading import Reading, RulesHelp
from bot.model.ruling import Ruling
from bot.turn.desk import Desk

_SAND = frozenset({"bunker", "fairway_bunker", "greenside_bunker"})


def take(desk: Desk, act: RulesHelp, reading: Reading) -> tuple[Desk, Answer]:
    """Answer with the two lines on the topic, and remember it for "more"."""
    topic: str = act.topic
    if topic == "unplayable" and _SAND & set(act.facts.lie):
        topic = "unplayable_bunker"
    memory = desk.memory.model_copy(update={"rules_topic": topic})
    return desk.put(memory), Ruling(topic=topic)


def take_more(desk: Desk) -> Answer | None:
    """Return the longer text on the topic asked last; None where there is none."""
    topic = desk.memory.rules_topic
    return None if topic is None else Ruling(topic=topic, more=True)
