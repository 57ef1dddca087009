"""What a turn has before it: the message, the documents, the log, and what it changes.

A desk is a value. A turn never writes to it: `put` and `log` return a new desk that carries
the change, and the conversation saves all changes of a message in one transaction.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from types import MappingProxyType
from typing import Any, Protocol, TypeVar

from bot.model.entry import Entry, EntryKind
from bot.model.message import Message
from bot.model.state import Document, Memory, Played, Player, Trip, Units

D = TypeVar("D", bound=Document)


class Shelf(Protocol):
    """Read-only access to what was kept before this message."""

    def document(self, kind: type[D], *ids: str) -> D | None:
        """Return the document of this kind and ids, or None."""

    def entries(
        self,
        *,
        player: str | None = None,
        chat: str | None = None,
        kinds: Sequence[EntryKind] = (),
        round: str | None = None,
        newest_first: bool = False,
        limit: int | None = None,
    ) -> Iterator[Entry]:
        """Return log entries that match, oldest first unless told otherwise."""


@dataclass(frozen=True)
class Desk:
    """See the module's docstring; `tables` gives computed tables that are kept for reuse."""

    message: Message
    shelf: Shelf
    tables: Callable[[str, str, Callable[[], bytes]], bytes]
    changed: Mapping[str, Document] = field(default_factory=lambda: MappingProxyType({}))
    entries: tuple[Entry, ...] = ()
    forget: str | None = None  # id of the player of whom nothing may stay
    asked_for: str | None = None  # id of the player this is about, when not the sender
    spoken_for: str = ""  # name of a player this was about, when not the sender

    @property
    def now(self) -> datetime:
        """When the message was sent: the only clock a turn has."""
        return self.message.sent_at

    def get(self, kind: type[D], *ids: str) -> D:
        """Return the document as this message has left it, or a new one."""
        changed = self.changed.get(key_of(kind, ids))
        if isinstance(changed, kind):
            return changed
        return self.shelf.document(kind, *ids) or kind.new(*ids)

    def put(self, document: Document) -> Desk:
        """Return a desk on which `document` replaces what was kept under its key."""
        key = key_of(type(document), document.ids)
        return replace(self, changed=MappingProxyType({**self.changed, key: document}))

    def log(
        self,
        kind: EntryKind,
        body: Mapping[str, Any],
        *,
        player: str | None = None,
        hole: int | None = None,
        profile_version: int | None = None,
        engine_version: str | None = None,
        undoes: int | None = None,
    ) -> Desk:
        """Return a desk with one more entry for the log."""
        entry = Entry(
            kind=kind,
            chat=self.message.chat,
            message_id=self.message.message_id,
            n=len(self.entries),
            player=player or self.who,
            at=self.now,
            round=None if self.round is None else self.round.ids[0],
            hole=hole if hole is not None else hole_of(self.round, player or self.who),
            profile_version=profile_version,
            engine_version=engine_version,
            undoes=undoes,
            body=dict(body),
        )
        return replace(self, entries=(*self.entries, entry))

    @property
    def who(self) -> str:
        """Id of the player this is about: the sender, or the one asked for."""
        return self.asked_for or self.message.sender

    @property
    def player(self) -> Player:
        """The player this is about."""
        return self.get(Player, self.who)

    @property
    def units(self) -> Units:
        """The units that player speaks and hears."""
        return self.player.units or "imperial"

    @property
    def memory(self) -> Memory:
        """What that player said last in this chat."""
        return self.get(Memory, self.message.chat, self.who)

    @property
    def trip(self) -> Trip:
        """What everybody in this chat shares."""
        return self.get(Trip, self.message.chat)

    @property
    def round(self) -> Played | None:
        """The round being played in this chat; in private, the one the sender is in."""
        here = self.trip.round
        playing = self.get(Player, self.message.sender).playing
        if self.message.kind == "private" and playing and playing != here:
            elsewhere = self.get(Played, playing)
            if elsewhere.chat and elsewhere.ended_at is None:
                return elsewhere
        return self.get(Played, here) if here else None


def hole_of(played: Played | None, who: str) -> int | None:
    """Return the hole a player is on: the first to report one moves the group on, not them."""
    if played is None or played.ended_at is not None:
        return None
    here = played.hole or 1
    before = here - 1
    if before in played.scores.get(who, {}):
        return here
    moved_on = any(before in scores for scores in played.scores.values())
    return before if moved_on else here


def key_of(kind: type[Document], ids: Iterable[str]) -> str:
    """Return the storage key of a document; slashes in ids are kept apart by escaping.

    >>> from bot.model.state import Memory
    >>> key_of(Memory, ("a/b", "c"))
    'memory/a%2Fb/c'
    """
    parts = [i.replace("%", "%25").replace("/", "%2F") for i in ids]
    return "/".join([kind.shelf, *parts])
