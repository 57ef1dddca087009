"""What an error of the platform means for what was being sent."""

import warnings
from dataclasses import dataclass
from datetime import timedelta
from typing import Literal

from telegram.error import (
    BadRequest,
    ChatMigrated,
    Forbidden,
    RetryAfter,
    TelegramError,
)

from bot.transports.telegram.names import key

# Both forms of the waiting time are taken, so the library's notice of the new one is not news.
warnings.filterwarnings("ignore", message=".*retry_after")

Outcome = Literal["done", "drop", "gone", "renamed", "wait", "again"]
HARMLESS = ("message is not modified",)
NO_THREAD = ("message thread not found", "topic_closed", "topic_deleted")


@dataclass(frozen=True)
class Verdict:
    """What to do: it counts as done, give it up, forget the chat, rename it, wait, try again."""

    outcome: Outcome
    why: str
    seconds: float = 0.0
    chat: str = ""


def verdict(error: TelegramError) -> Verdict:
    """The verdict on an error; the order matters, as some of them are kinds of others.

    An unknown outcome (a time-out, a torn connection) is tried again: an answer twice is
    better than none.
    """
    why = type(error).__name__
    match error:
        case RetryAfter():
            after = error.retry_after
            seconds = after.total_seconds() if isinstance(after, timedelta) else float(after)
            return Verdict("wait", why, seconds)
        case ChatMigrated():
            return Verdict("renamed", why, chat=key(error.new_chat_id))
        case Forbidden():
            return Verdict("gone", why)
        case BadRequest():
            text = error.message.lower()
            if any(part in text for part in HARMLESS):
                return Verdict("done", why)
            return Verdict("drop", f"{why}: {error.message}")
        case _:
            return Verdict("again", why)
