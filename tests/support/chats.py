"""Runs a transcript: lines said and lines replied, as a reader sees them.

# why this conversation exists
@ demo                          put in the demo data
@ at 2026-06-01T09:00:00+00:00  set the clock
@ +5m                           move the clock (s, m, h, d)
@ in trip group                 chat id and kind
@ as oona Oona                  sender id and name
> what is said
< what is replied, line by line
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

from bot import app
from bot.conversation import Conversation
from bot.model.message import Message, Reply
from bot.storage.memory import MemoryStore
from bot.storage.store import Store

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "fixtures" / "demo.toml"
STEPS = {"s": "seconds", "m": "minutes", "h": "hours", "d": "days"}


@dataclass(frozen=True)
class Speaker:
    """Who speaks, where and when."""

    chat: str = "me"
    kind: str = "private"
    sender: str = "me"
    name: str = ""
    at: datetime = datetime(2026, 6, 1, 9, tzinfo=UTC)

    def directed(self, order: str) -> Speaker:
        """Return the speaker after one ``@`` line."""
        word, _, rest = order.partition(" ")
        if word == "at":
            return replace(self, at=datetime.fromisoformat(rest))
        if word == "in":
            chat, kind = rest.split()
            return replace(self, chat=chat, kind=kind)
        if word == "as":
            sender, _, name = rest.partition(" ")
            return replace(self, sender=sender, name=name)
        step = re.fullmatch(r"\+(\d+)([smhd])", word)
        assert step, f"unknown order {order!r}"
        return replace(self, at=self.at + timedelta(**{STEPS[step[2]]: int(step[1])}))


def play(text: str, store: Store | None = None) -> tuple[str, list[Reply]]:
    """Return the transcript with the replies as they are now, and the replies."""
    store = store or MemoryStore()
    conversation = Conversation(store)
    speaker, lines, replies = Speaker(), [], []
    for number, line in enumerate(text.splitlines()):
        if line.startswith("< "):
            continue
        lines.append(line)
        if line == "@ demo":
            app.load_demo(store, DEMO)
        elif line.startswith("@ "):
            speaker = speaker.directed(line[2:])
        elif line.startswith("> "):
            reply = conversation.handle(say(speaker, line[2:], f"m{number}"))
            replies.append(reply)
            lines.extend(f"< {r}" for r in reply.lines)
            speaker = replace(speaker, at=speaker.at + timedelta(seconds=30))
    return "\n".join(lines) + "\n", replies


def said(*messages: str) -> list[str]:
    """Return the lines of the last reply to messages of the demo player."""
    _, replies = play("# t\n@ demo\n" + "".join(f"> {m}\n" for m in messages))
    return list(replies[-1].lines)


def say(speaker: Speaker, text: str, message_id: str) -> Message:
    """Return the message of a speaker."""
    return Message(
        chat=speaker.chat,
        kind=speaker.kind,
        sender=speaker.sender,
        name=speaker.name,
        text=text,
        sent_at=speaker.at,
        message_id=message_id,
    )
