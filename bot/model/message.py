"""What comes in from any transport, and what goes back."""

from datetime import datetime
from typing import Any, Literal

from pydantic import Field

from bot.model.base import Frozen


class Point(Frozen):
    """A place shared from a phone, in degrees; how far off it may be, in metres, if known."""

    latitude: float = Field(ge=-90, le=90)
    longitude: float = Field(ge=-180, le=180)
    accuracy_m: float | None = Field(default=None, ge=0)


class Message(Frozen):
    """One message of one person, as a transport hands it over.

    `chat`, `sender` and `message_id` are opaque strings; (`chat`, `message_id`) is the key
    under which a message is answered once. `edited` marks a corrected text of a message
    handled before: its `message_id` is that of the edit, `edit_of` that of the first text.
    `addressed` is false for talk in a group that was not said to the bot; `late` marks a message
    that arrived too late for advice. A `point` is never kept in the log.
    """

    chat: str = Field(min_length=1, max_length=128)
    sender: str = Field(min_length=1, max_length=128)
    name: str = Field(default="", max_length=256)
    text: str = Field(max_length=100_000)
    sent_at: datetime
    message_id: str = Field(min_length=1, max_length=128)
    kind: Literal["private", "group"] = "private"
    reply_to: str | None = None
    edit_of: str | None = None
    addressed: bool = True
    late: bool = False
    point: Point | None = None


class Reply(Frozen):
    """The lines to send back; empty means silence. `buttons` are texts a thumb may send.

    `attached` names files that go with it; they are drawn from the logged answers when wanted.
    """

    lines: tuple[str, ...]
    buttons: tuple[str, ...] = ()
    attached: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        """The lines as one text."""
        return "\n".join(self.lines)


class Handled(Frozen):
    """A reply with everything behind it, for transports that show it.

    `reading` and `answers` are JSON as they stand in the log; `repeated` marks a message
    that had been handled before.
    """

    reply: Reply
    reading: dict[str, Any] = Field(default_factory=dict)
    answers: tuple[dict[str, Any], ...] = ()
    repeated: bool = False
