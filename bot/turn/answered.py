"""What is kept of advice given: the shot in the player's memory, and an entry in the log."""

from __future__ import annotations

from bot.model.answer import Answer
from bot.model.reading import Expecting, Facts
from bot.turn.desk import Desk
from engine import ENGINE_VERSION


def keep(
    desk: Desk, facts: Facts, kind: str, advice: Answer, expecting: Expecting | None = None,
    laid: Facts | None = None,
) -> Desk:  # fmt: skip
    """Return a desk that remembers the shot and logs the advice with what was known of the day.

    `expecting` is the question the reply ends with, if any; `laid` are the facts with the notes
    of the hole under them, which the advice rests on and memory does not keep.
    """
    memory = desk.memory.model_copy(
        update={
            "shot": facts,
            "shot_kind": kind,
            "shot_at": desk.now,
            "expecting": expecting,
            "asked_for": None,
            "last_answer": desk.message.message_id,
            "open_shot": desk.message.message_id,
        }
    )
    body: dict[str, object] = {
        "facts": (laid or facts).model_dump(mode="json", exclude_defaults=True),
        "advice": advice.model_dump(mode="json"),
    }
    day = desk.trip.day.model_dump(mode="json", exclude_defaults=True)
    if day:
        body["day"] = day
    return desk.put(memory).log(
        "answer",
        body,
        profile_version=desk.player.profile.version,
        engine_version=ENGINE_VERSION,
    )
