"""How the platform's numbers and people are named in the bot."""

import unicodedata

SOURCE = "telegram"
PREFIX = "tg:"
NO_CHAT = "none"  # queue of updates that belong to no chat
ANONYMOUS_ADMIN = 1087968824  # the platform's own placeholder for a group's unnamed admin
MAX_NAME = 40
RIGHT_TO_LEFT = {"R", "AL", "RLE", "RLO", "RLI"}
ISOLATE, END_ISOLATE = "\u2068", "\u2069"


def key(number: int) -> str:
    """The bot's name of a chat or a person.

    >>> key(-1001234)
    'tg:-1001234'
    """
    return f"{PREFIX}{number}"


def number(name: str) -> int:
    """The platform's number of a chat or a person."""
    return int(name.removeprefix(PREFIX))


def shown(name: str) -> str:
    r"""A person's name as one short run of text that cannot reorder or break a line.

    >>> shown("Ann\n<b>  the  3rd")
    'Ann <b> the 3rd'
    """
    kept = (" " if c.isspace() else c for c in name if c.isspace() or not _hidden(c))
    text = " ".join("".join(kept).split())[:MAX_NAME]
    if any(unicodedata.bidirectional(c) in RIGHT_TO_LEFT for c in text):
        return f"{ISOLATE}{text}{END_ISOLATE}"
    return text


def _hidden(character: str) -> bool:
    return unicodedata.category(character).startswith("C")
