"""What every store promises: documents, a log, answered messages, and mail in and out.

Documents are JSON texts under slash-separated keys (``player/<id>``, ``trip/<chat>``,
``memory/<chat>/<player>``), each with a version that counts its changes from 1. The log is
append-only. Everything one message changes is one `Change` and lands whole or not at all.
"""

from collections.abc import Collection, Iterator, Sequence
from datetime import datetime
from typing import Any, Protocol

from pydantic import Field

from bot.model.base import Frozen
from bot.model.entry import Entry
from bot.model.message import Message, Reply


class Stored(Frozen):
    """A document as loaded."""

    version: int
    body: str


class Logged(Frozen):
    """A message handled before, how it was read and what was replied."""

    message: Message
    reading: dict[str, Any] = Field(default_factory=dict)
    answers: tuple[dict[str, Any], ...] = ()
    reply: Reply


class Send(Frozen):
    """One thing to send: to which chat, of which kind, with the platform's own fields."""

    chat: str
    kind: str = "message"
    payload: dict[str, Any]
    answers: str | None = None  # message id this answers


class Delivery(Frozen):
    """The update a change completes, and what is to be sent for it."""

    source: str
    update_id: int
    sends: tuple[Send, ...] = ()


class Change(Frozen):
    """Everything one message changes.

    `documents` maps a key to the version it was loaded with (0: it did not exist) and the new
    JSON text, or None to delete it. `forget` names a player of whom everything is removed
    first; the message is then logged without its text and sender.
    """

    message: Message
    reply: Reply
    reading: dict[str, Any] = Field(default_factory=dict)
    answers: tuple[dict[str, Any], ...] = ()
    documents: dict[str, tuple[int, str | None]] = Field(default_factory=dict)
    entries: tuple[Entry, ...] = ()
    forget: str | None = None
    delivery: Delivery | None = None


class Store(Protocol):
    """What a conversation needs."""

    def said(self, chat: str, message_id: str) -> Logged | None:
        """A message handled before, or None."""

    def load(self, keys: Sequence[str]) -> dict[str, Stored]:
        """The documents that exist among `keys`."""

    def keys(self, prefix: str) -> list[str]:
        """The keys of all documents under `prefix`, sorted."""

    def commit(self, change: Change) -> bool:
        """Write all of `change` in one transaction, and say whether it was written.

        A message handled before changes nothing (False). A document changed since it was
        loaded raises `StaleState` and nothing is written.
        """

    def entries(
        self,
        *,
        player: str | None = None,
        chat: str | None = None,
        round: str | None = None,
        kinds: Sequence[str] = (),
        since: datetime | None = None,
        limit: int | None = None,
        newest_first: bool = False,
        undone: bool = False,
    ) -> Iterator[Entry]:
        """Log entries in the order of their time; those taken back only if `undone`."""

    def profile(self, player: str, version: int) -> Entry | None:
        """The entry of kind ``profile`` that made this profile version."""

    def messages(
        self,
        *,
        player: str | None = None,
        chat: str | None = None,
        since: datetime | None = None,
        limit: int | None = None,
        newest_first: bool = False,
    ) -> Iterator[Logged]:
        """Handled messages in the order of their time."""

    def get_blob(self, kind: str, key: str) -> bytes | None:
        """A cached table, or None."""

    def put_blob(self, kind: str, key: str, body: bytes) -> None:
        """Cache a table; it may be dropped at any time without loss."""

    def export(self, player: str) -> dict[str, Any]:
        """Everything kept about a player, ready for JSON."""

    def take_in(
        self,
        documents: Sequence[dict[str, Any]],
        messages: Sequence[dict[str, Any]],
        entries: Sequence[dict[str, Any]],
    ) -> None:
        """Put exported records back in their order, all or none; ids are given anew."""

    def check(self) -> list[str]:
        """What is wrong with the store; empty means sound."""

    def close(self) -> None:
        """Release the store."""


class Update(Frozen):
    """A raw update of a platform. Updates of one `queue` are worked in the order of `at`."""

    source: str
    update_id: int
    queue: str
    at: datetime
    raw: str


class Work(Frozen):
    """An update to be worked, and how often that was begun, this time included."""

    source: str
    update_id: int
    queue: str
    at: datetime
    raw: str
    attempts: int


class Due(Frozen):
    """Something to send now."""

    id: int
    send: Send
    attempts: int
    created: datetime


class Waiting(Frozen):
    """How much mail waits and since when."""

    inbox: int = 0
    inbox_since: datetime | None = None
    outbox: int = 0
    outbox_since: datetime | None = None
    parked: int = 0


class Mail(Protocol):
    """What a platform needs to lose nothing and to do nothing twice."""

    def receive(self, updates: Sequence[Update]) -> int:
        """Keep updates durably; says how many were new. Known ones change nothing."""

    def claim(self, after: str = "", busy: Collection[str] = ()) -> Work | None:
        """The oldest open update of the queue that follows `after`, going round.

        Queues that are `busy` are passed over.
        """

    def release(self, work: Work) -> None:
        """Take a claim back, uncounted: the store was in trouble, not the update."""

    def finish(self, delivery: Delivery) -> None:
        """Complete an update that changed nothing else; what it sends is kept with it."""

    def post(self, sends: Sequence[Send]) -> None:
        """Queue things to send that answer no update."""

    def park(self, source: str, update_id: int, why: str) -> None:
        """Put aside an update that cannot be worked."""

    def due(self, now: datetime) -> Iterator[Due]:
        """The first waiting send of every chat, if it may go now; any thread may take them."""

    def sent(self, id: int, sent_id: str | None, at: datetime) -> None:
        """Note that a send arrived, as which message."""

    def put_off(self, id: int, until: datetime, why: str) -> None:
        """Try a send again, not before `until`."""

    def drop(self, id: int, why: str) -> None:
        """Give a send up."""

    def answered(self, chat: str, sent_id: str) -> str | None:
        """The message that a message we sent was an answer to."""

    def rename_chat(self, old: str, new: str) -> None:
        """Move everything of a chat to its new name."""

    def waiting(self) -> Waiting:
        """How much mail waits."""

    def drop_chat(self, chat: str, why: str) -> None:
        """Give up everything that waits to be sent to a chat."""

    def mark(self, name: str, value: str) -> None:
        """Keep a small note, such as when the platform was last heard."""

    def marks(self) -> dict[str, str]:
        """All notes."""

    def admit(self, name: str, at: datetime) -> None:
        """Let a person or a chat use the bot."""

    def admitted(self, name: str) -> bool:
        """Whether a person or a chat was let in."""

    def tidy(self, before: datetime) -> int:
        """Drop what completed mail leaves behind; says how much."""
