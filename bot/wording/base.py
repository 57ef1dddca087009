"""How an answer becomes lines: one function a class of answer, registered here."""

from __future__ import annotations

from functools import singledispatch
from typing import NamedTuple

from bot.model.answer import Answer
from bot.model.state import Units

WIDTH = 64  # characters a line of a two-line reply may have
_PIECE = 16  # characters of a piece that are repeated


class Style(NamedTuple):
    """How this reader wants to be spoken to."""

    units: Units = "imperial"
    name: str = ""  # put before the first line in a group
    about: str = ""  # the player it is about, when not the asker: the line begins with them


class Lines(NamedTuple):
    """Lines of a reply and the texts a thumb may send back.

    `tail` says the same in a few words, for the end of another answer's line.
    """

    lines: tuple[str, ...]
    buttons: tuple[str, ...] = ()
    tail: str = ""
    attached: tuple[str, ...] = ()  # names of files that go with it


def fitting(*lines: str) -> str:
    """Return the first line that fits, else the last one."""
    return next((line for line in lines if len(line) <= WIDTH), lines[-1])


def capital(text: str) -> str:
    """Return a text that begins with a capital."""
    return text[:1].upper() + text[1:]


def not_got(unread: tuple[str, ...]) -> str:
    """Return the first piece of a message that could matter and was not read, as words."""
    piece = next(iter(unread), "")
    if len(piece) > _PIECE:
        piece = piece[:_PIECE].rpartition(" ")[0] or piece[:_PIECE]
    return f'Did not get "{piece}"' if piece else ""


@singledispatch
def word(answer: Answer, style: Style) -> Lines:
    """Return the lines for `answer`; every class of answer registers its own wording."""
    msg = f"no wording for {type(answer).__name__}"
    raise NotImplementedError(msg)
