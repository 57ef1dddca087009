"""The root of every answer a turn can give; each subject defines its own beside it.

A class says what it is, so that one place can decide what may be shown: `advice` is True
(the careful default) for anything that leans on a player's shot, club, pattern or choice;
it is set to False only for what everybody may hear at any time.
"""

from typing import ClassVar, Literal

from bot.model.base import Frozen
from bot.model.reading import Expecting


class Answer(Frozen):
    """Numbers and names, unrounded and without words; `kind` names the class in JSON."""

    advice: ClassVar[bool] = True
    urgency: ClassVar[int] = 1  # the highest is worded first; 0 gives way to any other
    kind: str


class Ask(Answer):
    """One question to the player; the open `expecting` makes a word enough as an answer."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 3
    kind: Literal["ask"] = "ask"
    about: Expecting
    detail: str = ""


class CannotYet(Answer):
    """What was sent cannot be used; `reason` names a wording, `send` says what to send."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 2
    kind: Literal["cannot"] = "cannot"
    reason: str
    value: float | None = None
    low: float | None = None
    high: float | None = None
    unit: str = ""
    said: str = ""


class Noted(Answer):
    """Something was kept and needs no more than a word. `what` names a wording."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 0
    kind: Literal["noted"] = "noted"
    what: str
    detail: str = ""


class NotGot(Answer):
    """A piece of the message that could matter and was not read, beside what was."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 0
    kind: Literal["not_got"] = "not_got"
    piece: str


class Say(Answer):
    """A fixed text named by `topic`: help, thanks, privacy, greeting."""

    advice: ClassVar[bool] = False
    kind: Literal["say"] = "say"
    topic: str
    detail: str = ""


class Silence(Answer):
    """Nothing to send: talk that is not for the bot."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 0
    kind: Literal["silence"] = "silence"


class Broken(Answer):
    """A bug of ours: the reference finds it in the log; nothing was changed."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 9
    kind: Literal["broken"] = "broken"
    reference: str
