"""The seam: a message in, a reply out, everything it changed kept in one transaction."""

from __future__ import annotations

import hashlib
import logging
import time
import traceback
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Any, TypeVar

from bot.model.answer import Answer, Broken, CannotYet
from bot.model.entry import Entry, EntryKind
from bot.model.message import Handled, Message, Reply
from bot.model.reading import Reading
from bot.model.state import Document, Player
from bot.storage.errors import StaleState, StoreError
from bot.storage.portable import export_lines
from bot.storage.sheets import scores_sheet, shots_sheet
from bot.storage.store import Change, Delivery, Store
from bot.text.read import read
from bot.turn import take_turn
from bot.turn.desk import Desk, key_of
from bot.turn.edit import take_back
from bot.turn.facts import plain_facts
from bot.turn.group import others_here
from bot.turn.hearing import heard
from bot.wording import Style, reply
from bot.wording.attach import Attachment, attachment

log = logging.getLogger(__name__)

MAX_TEXT = 4096  # a longer message is not read as a shot
RETRIES = 5  # a stale document is loaded again this often

D = TypeVar("D", bound=Document)


class Conversation:
    """Handles messages one after the other; holds no state that the store does not have."""

    def __init__(self, store: Store) -> None:
        self._store = store

    def handle(self, message: Message) -> Reply:
        """Return the reply to `message`, which is answered and logged exactly once."""
        return self.process(message).reply

    def process(
        self, message: Message, deliver: Callable[[Reply], Delivery] | None = None
    ) -> Handled:
        """Return the reply with the reading and the answers behind it.

        `deliver` says what a platform has to send for a reply; it is kept with the change.
        """
        tried = 0
        while True:
            before = self._store.said(message.chat, message.message_id)
            if before is not None:
                return Handled(
                    reply=before.reply,
                    reading=before.reading,
                    answers=before.answers,
                    repeated=True,
                )
            try:
                return self._once(message, deliver)
            except StaleState as error:
                tried += 1
                if tried > RETRIES:  # no other writer: it would write what it never read
                    return self._broken(message, deliver, error)

    def attached(
        self, chat: str, message_id: str, *, only: str | None = None
    ) -> tuple[Attachment, ...]:
        """Return the files that go with the reply to a message, drawn from its answers.

        `only` names the one wanted.
        """
        said = self._store.said(chat, message_id)
        if said is None or not said.reply.attached:
            return ()
        shelf = _Shelf(self._store)
        player = shelf.document(Player, said.message.sender) or Player.new(said.message.sender)
        style = Style(units=player.units or "imperial")
        drawn = (
            self._exported(name, said.message.sender) or attachment(name, said.answers, style)
            for name in said.reply.attached
            if only in (None, name)
        )
        return tuple(a for a in drawn if a is not None)

    def _exported(self, name: str, player: str) -> Attachment | None:
        match name:
            case "caddie.jsonl":
                text = "".join(f"{line}\n" for line in export_lines(self._store, player))
            case "shots.csv":
                text = shots_sheet(self._store, player)
            case "scores.csv":
                text = scores_sheet(self._store, player)
            case _:
                return None
        return Attachment(name, text.encode("utf-8"))

    def _once(self, message: Message, deliver: Callable[[Reply], Delivery] | None) -> Handled:
        shelf = _Shelf(self._store)
        desk = Desk(message=message, shelf=shelf, tables=self._tables)
        started = time.perf_counter()
        reading = Reading(text="")
        try:
            desk, reading, answers = self._answer(desk)
            handled = _handled(desk, reading, answers)
        except StoreError:
            raise  # nothing was handled: whoever sent the message may send it again
        except Exception as error:
            return self._broken(message, deliver, error, reading)
        self._commit(desk, shelf.versions, reading, handled, deliver)
        log.debug("handled in %.1f ms", (time.perf_counter() - started) * 1e3)
        return handled

    def _broken(
        self,
        message: Message,
        deliver: Callable[[Reply], Delivery] | None,
        error: Exception,
        reading: Reading | None = None,
    ) -> Handled:
        """Answer that it broke on our side; nothing is changed, and the log tells where."""
        reference = _reference(message)
        log.error("bug %s: %s\n%s", reference, type(error).__name__, _frames(error))
        desk = Desk(message=message, shelf=_Shelf(self._store), tables=self._tables)
        reading = reading or Reading(text="")
        handled = _handled(desk, reading, (Broken(reference=reference),))
        self._commit(desk, {}, reading, handled, deliver)
        return handled

    def _commit(
        self,
        desk: Desk,
        versions: Mapping[str, int],
        reading: Reading,
        handled: Handled,
        deliver: Callable[[Reply], Delivery] | None,
    ) -> None:
        """Keep all that a message changed in one transaction."""
        self._store.commit(
            Change(
                message=_kept(desk.message, reading),
                reply=handled.reply,
                reading=handled.reading,
                answers=handled.answers,
                documents={
                    key: (versions.get(key, 0), document.model_dump_json())
                    for key, document in desk.changed.items()
                },
                entries=desk.entries,
                forget=desk.forget,
                delivery=None if deliver is None else deliver(handled.reply),
            )
        )

    def _answer(self, desk: Desk) -> tuple[Desk, Reading, tuple[Answer, ...]]:
        text = desk.message.text
        if len(text) > MAX_TEXT:
            return desk, Reading(text=""), (CannotYet(reason="too_long"),)
        if desk.message.edit_of is not None:
            desk = take_back(desk, desk.message.edit_of)
        reading = read(text, desk.memory.expecting, others_here(desk))
        reading = reading.model_copy(update={"facts": plain_facts(reading, desk)})
        meant = heard(desk.message, reading)
        if meant is None:
            return desk, reading if desk.message.addressed else Reading(text=""), ()
        desk, answers = take_turn(desk, meant)
        return desk, reading, answers

    def _tables(self, kind: str, key: str, make: Callable[[], bytes]) -> bytes:
        """Return a computed table, made once and kept."""
        kept = self._store.get_blob(kind, key)
        if kept is None:
            kept = make()
            self._store.put_blob(kind, key, kept)
        return kept


class _Shelf:
    """Reads documents once per message and remembers the version of each."""

    def __init__(self, store: Store) -> None:
        self._store = store
        self._read: dict[str, Document | None] = {}
        self.versions: dict[str, int] = {}

    def document(self, kind: type[D], *ids: str) -> D | None:
        key = key_of(kind, ids)
        if key not in self._read:
            stored = self._store.load([key]).get(key)
            self._read[key] = None if stored is None else _parsed(kind, stored.body)
            self.versions[key] = 0 if stored is None else stored.version
        found = self._read[key]
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
        return self._store.entries(
            player=player,
            chat=chat,
            kinds=kinds,
            round=round,
            newest_first=newest_first,
            limit=limit,
        )


@lru_cache(maxsize=64)
def _parsed(kind: type[Document], body: str) -> Document:
    """Return a document from its text; the ones read last are kept, for they never change."""
    return kind.model_validate_json(body)


def _handled(desk: Desk, reading: Reading, answers: tuple[Answer, ...]) -> Handled:
    player = desk.get(Player, desk.message.sender)
    named = desk.message.kind == "group" and desk.forget is None
    name = desk.message.name if named else ""
    style = Style(units=player.units or "imperial", name=name, about=desk.spoken_for)
    return Handled(
        reply=reply(answers, style),
        reading=_told(reading),
        answers=tuple(a.model_dump(mode="json") for a in answers),
    )


def _told(reading: Reading) -> dict[str, Any]:
    """Return a reading as JSON: what was said, each act under its name."""
    told = reading.model_dump(mode="json", exclude_defaults=True)
    if reading.acts:
        told["acts"] = [
            {"act": act.act} | kept for act, kept in zip(reading.acts, told["acts"], strict=True)
        ]
    return told


def _kept(message: Message, reading: Reading) -> Message:
    """Return the message as it is logged: talk that was not for the bot leaves no words."""
    if message.addressed or reading.acts:
        return message
    return message.model_copy(update={"text": "", "name": ""})


def _reference(message: Message) -> str:
    """Return a short name under which the log knows this message."""
    key = f"{message.chat}/{message.message_id}"
    return hashlib.sha256(key.encode("utf-8", "surrogatepass")).hexdigest()[:8]


def _frames(error: Exception) -> str:
    """Return where it broke, without the error's own text: that may hold a player's words."""
    return "".join(traceback.format_tb(error.__traceback__))
