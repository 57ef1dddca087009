"""Takes turns on readings given as values, keeping documents and log from one to the next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import TypeVar

from bot.model import reading as read
from bot.model.answer import Answer
from bot.model.entry import Entry, EntryKind
from bot.model.message import Message
from bot.model.state import Document
from bot.turn import take_turn
from bot.turn.desk import Desk, key_of
from bot.wording import Style, reply

D = TypeVar("D", bound=Document)


@dataclass
class Bench:
    """A chat with its documents; `now` moves by hand."""

    chat: str = "me"
    kind: str = "private"
    now: datetime = datetime(2026, 6, 1, 9, tzinfo=UTC)
    documents: dict[str, Document] = field(default_factory=dict)
    log: list[Entry] = field(default_factory=list)
    undone: set[int] = field(default_factory=set)
    count: int = 0

    def put(self, document: Document) -> None:
        self.documents[key_of(type(document), document.ids)] = document

    def get(self, kind: type[D], *ids: str) -> D:
        found = self.documents.get(key_of(kind, ids))
        return found if isinstance(found, kind) else kind.new(*ids)

    def document(self, kind: type[D], *ids: str) -> D | None:
        found = self.documents.get(key_of(kind, ids))
        return found if isinstance(found, kind) else None

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
        undone = {e.undoes for e in self.log}
        found = [
            e
            for e in self.log
            if e.id not in undone
            and e.undoes is None
            and (player is None or e.player == player)
            and (chat is None or e.chat == chat)
            and (not kinds or e.kind in kinds)
            and (round is None or e.round == round)
        ]
        return iter((found[::-1] if newest_first else found)[:limit])

    def pass_time(self, **span: float) -> None:
        self.now += timedelta(**span)

    def take(
        self,
        *acts: read.Act,
        sender: str = "me",
        chat: str | None = None,
        text: str = "",
        edit_of: str | None = None,
    ) -> tuple[Answer, ...]:
        self.count += 1
        chat = chat or self.chat
        message = Message(
            chat=chat,
            sender=sender,
            kind="group" if chat == self.chat and self.kind == "group" else "private",
            text=text,
            sent_at=self.now,
            message_id=str(self.count),
            edit_of=edit_of,
        )
        desk = Desk(message=message, shelf=self, tables=lambda _k, _n, make: make())
        desk, answers = take_turn(desk, read.Reading(text=text, acts=acts))
        self.documents.update(desk.changed)
        for entry in desk.entries:
            self.log.append(entry.model_copy(update={"id": len(self.log) + 1}))
        return answers

    def say(
        self, *acts: read.Act, sender: str = "me", chat: str | None = None, text: str = ""
    ) -> tuple[str, ...]:
        return reply(self.take(*acts, sender=sender, chat=chat, text=text), Style()).lines
