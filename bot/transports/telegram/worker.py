"""Works the inbox, one update at a time: read it, handle it, keep what is to be sent."""

import contextlib
import json
import logging
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Protocol

import telegram

from bot.conversation import Conversation
from bot.model.message import Message, Reply
from bot.storage.errors import StoreError
from bot.storage.store import Delivery, Mail, Send, Store, Work
from bot.transports.telegram import access, outgoing, words
from bot.transports.telegram.adapter import (
    Added,
    Asked,
    Fixed,
    Gone,
    Heard,
    Incoming,
    Me,
    Nothing,
    Place,
    Refused,
    Renamed,
    Started,
    translate,
)
from bot.transports.telegram.names import NO_CHAT, key
from bot.transports.telegram.outgoing import say
from bot.transports.telegram.turns import Turns

log = logging.getLogger(__name__)
MAX_ATTEMPTS = 5  # a process killed at work counts as one


class MailStore(Store, Mail, Protocol):
    """A store that also keeps mail."""


@dataclass(frozen=True)
class Rules:
    """Whom the bot serves, and from when on advice is too late."""

    open: bool
    allowed: frozenset[str]
    secret: bytes
    late: timedelta


class Worker:
    """Belongs to the thread that made it, with the store it was given."""

    def __init__(
        self, store: MailStore, conversation: Conversation, me: Me, rules: Rules,
        now: Callable[[], datetime], turns: Turns,
    ) -> None:  # fmt: skip
        self._store, self._conversation, self._me = store, conversation, me
        self._rules, self._now, self._turns = rules, now, turns
        self.queue = NO_CHAT  # the chat being worked

    def work(self) -> bool:
        """Work one update; says whether there was one."""
        work = self._turns.take(self._store)
        if work is None:
            self._tell_late()
            return False
        self.queue = work.queue
        try:
            self._work(work)
        finally:
            self._turns.done(work)
        return True

    def close(self) -> None:
        """Release the store."""
        self._store.close()

    def _work(self, work: Work) -> None:
        if work.attempts > MAX_ATTEMPTS:
            self._store.park(work.source, work.update_id, "tried too often")
            log.error("update parked", extra={"update": work.update_id})
            return
        try:
            incoming = self._read(work)
        except Exception as error:
            self._store.park(work.source, work.update_id, type(error).__name__)
            log.warning("unreadable update parked", extra=_named(work, error))
            return
        began = time.perf_counter()
        try:
            self._take(work, incoming)
            took = round(1e3 * (time.perf_counter() - began), 1)
            kind = type(incoming).__name__.lower()
            log.info("worked", extra={"update": work.update_id, "kind": kind, "ms": took})
        except StoreError:
            with contextlib.suppress(StoreError):
                self._store.release(work)
            raise
        except Exception as error:
            log.exception("update broke", extra=_named(work, error))
            if work.attempts >= MAX_ATTEMPTS:
                self._store.park(work.source, work.update_id, type(error).__name__)
                self._apologise(incoming)

    def _read(self, work: Work) -> Incoming:
        update = telegram.Update.de_json(json.loads(work.raw), None)
        return translate(
            update, at=work.at, now=self._now(), me=self._me, late=self._rules.late,
            answered=self._store.answered,
        )  # fmt: skip

    def _take(self, work: Work, incoming: Incoming) -> None:
        match incoming:
            case Heard():
                self._hear(work, incoming)
            case Started():
                self._start(work, incoming)
            case Asked(place):
                self._answer_if_admitted(work, place, self._invitation(place))
            case Fixed(place, text):
                self._answer_if_admitted(work, place, text)
            case Refused(chat, press, text):
                refusal = Send(chat=chat, kind="press", payload={"press": press, "text": text})
                self._finish(work, (refusal,))
            case Added(chat, by):
                self._come_in(work, chat, by)
            case Gone(chat):
                self._store.drop_chat(chat, "the bot was removed")
                self._finish(work)
            case Renamed(old, new):
                self._store.rename_chat(old, new)
                self._finish(work)
            case Nothing():
                self._finish(work)

    def _hear(self, work: Work, heard: Heard) -> None:
        place, message = heard.place, heard.message
        if not self._admit(place):
            self._turn_away(work, place, message.addressed)
            return
        if message.edit_of is not None and self._unchanged(message):
            self._finish(work)
            return

        def deliver(reply: Reply) -> Delivery:
            acknowledge, unbutton = _pressed(heard, "")[:1], _pressed(heard, "")[1:]
            return self._delivery(work, (*acknowledge, *self._sends(heard, reply), *unbutton))

        if message.late and message.addressed:
            self._turns.late(place)
        handled = self._conversation.process(message, deliver)
        if handled.repeated:
            self._finish(work, _pressed(heard, words.NOTED_BEFORE)[:1])

    def _sends(self, heard: Heard, reply: Reply) -> tuple[Send, ...]:
        place, message = heard.place, heard.message
        if not reply.text.strip():
            plain = heard.press is None and message.edit_of is None
            if plain and message.addressed and not message.late and place.to is not None:
                return (outgoing.nod(place.chat, place.to),)
            return ()
        return outgoing.replied(
            reply, place.chat, answers=message.message_id, to=place.to, thread=place.thread,
            asker=place.person,
        )  # fmt: skip

    def _unchanged(self, message: Message) -> bool:
        """Whether an edit left the text as it was: a preview, a button, a mark."""
        first = self._store.said(message.chat, message.edit_of or "")
        return first is not None and first.message.text == message.text

    def _start(self, work: Work, started: Started) -> None:
        place = started.place
        invitation = access.accept(self._rules.secret, started.payload, self._now())
        if invitation is None:
            if self._admit(place):
                self._hear(work, Heard(started.message, place))
            else:
                self._finish(work, say(place.chat, words.BAD_INVITATION))
            return
        self._store.admit(key(place.person), self._now())
        if invitation.group is not None:
            join = started.message.model_copy(
                update={
                    "chat": key(invitation.group),
                    "text": "join",
                    "message_id": f"j{place.person}.{started.message.message_id}",
                    "kind": "group",
                    "reply_to": None,
                }
            )
            self._conversation.process(join)
        self._hear(work, Heard(started.message, place))

    def _invitation(self, place: Place) -> str:
        group = int(place.chat.rpartition(":")[2]) if place.group else None
        payload = access.invite(self._rules.secret, self._now(), group)
        link = f"https://t.me/{self._me.username}?start={payload}"
        return words.invitation(link, place.group)

    def _come_in(self, work: Work, chat: int, by: int) -> None:
        group = key(chat)
        if self._welcome(key(by)) or self._welcome(group):
            self._store.admit(group, self._now())
            self._finish(work, say(group, words.greeting(self._me.username)))
        else:
            leave = Send(chat=group, kind="leave", payload={})
            self._finish(work, (*say(group, words.BY_INVITATION), leave))

    def _admit(self, place: Place) -> bool:
        """Whether this person may use the bot here; a guest of a group may everywhere."""
        person = key(place.person)
        if self._welcome(person):
            return True
        if place.group and self._welcome(place.chat):
            self._store.admit(person, self._now())
            return True
        return False

    def _welcome(self, name: str) -> bool:
        return self._rules.open or name in self._rules.allowed or self._store.admitted(name)

    def _turn_away(self, work: Work, place: Place, addressed: bool) -> None:
        aloud = addressed and not place.group
        self._finish(work, say(place.chat, words.BY_INVITATION) if aloud else ())

    def _answer_if_admitted(self, work: Work, place: Place, text: str) -> None:
        if self._admit(place):
            self._finish(work, say(place.chat, text, to=place.to, thread=place.thread))
        else:
            self._turn_away(work, place, addressed=True)

    def _apologise(self, incoming: Incoming) -> None:
        if isinstance(incoming, Heard) and incoming.message.addressed:
            place = incoming.place
            self._store.post(say(place.chat, words.TROUBLE, to=place.to, thread=place.thread))

    def _tell_late(self) -> None:
        """Say once per chat how many messages came too late."""
        for count, place in self._turns.told_late():
            self._store.post(say(place.chat, words.late(count), thread=place.thread))

    def _delivery(self, work: Work, sends: Sequence[Send]) -> Delivery:
        return Delivery(source=work.source, update_id=work.update_id, sends=tuple(sends))

    def _finish(self, work: Work, sends: Sequence[Send] = ()) -> None:
        self._store.finish(self._delivery(work, sends))


def _pressed(heard: Heard, text: str) -> tuple[Send, ...]:
    """What a button press itself needs: an acknowledgement, and its buttons taken away."""
    if heard.press is None:
        return ()
    chat = heard.place.chat
    return (
        Send(chat=chat, kind="press", payload={"press": heard.press, "text": text}),
        Send(chat=chat, kind="unbutton", payload={"message": heard.under}),
    )


def _named(work: Work, error: Exception) -> dict[str, object]:
    return {"update": work.update_id, "attempt": work.attempts, "why": type(error).__name__}
