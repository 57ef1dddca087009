"""One line of the append-only log."""

from datetime import datetime
from typing import Any, Literal

from pydantic import Field

from bot.model.base import Frozen

EntryKind = Literal[
    "message",  # every message: text, reading, reply
    "answer",  # advice given: question, candidates, choice
    "withheld",  # asked in a round by the Rules: question only
    "result",  # what became of a shot
    "score",  # a hole's score
    "profile",  # a new profile version
    "round",  # a round started, set, ended
    "day",  # conditions told
    "note",  # a course note
    "plan",
    "safety",
    "undo",  # takes an earlier entry back
    "learned",
]


class Entry(Frozen):
    """A logged fact. `body` is JSON; `undoes` names the entry it takes back."""

    kind: EntryKind
    chat: str
    message_id: str
    n: int = 0  # order within one message
    player: str
    at: datetime
    round: str | None = None
    hole: int | None = None
    profile_version: int | None = None
    engine_version: str | None = None
    undoes: int | None = None
    id: int | None = None  # given by the store
    body: dict[str, Any] = Field(default_factory=dict)
