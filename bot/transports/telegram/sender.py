"""Sends what waits in the outbox: in order per chat, paced, every error dealt with once."""

import asyncio
import contextlib
import logging
from collections.abc import Awaitable, Callable, Iterable
from datetime import datetime, timedelta
from typing import Any, TypeVar

import telegram
from telegram.error import TelegramError

from bot.storage.errors import StoreError
from bot.storage.store import Due, Mail
from bot.transports.telegram.names import number
from bot.transports.telegram.pace import Pacer
from bot.transports.telegram.verdict import Verdict, verdict

log = logging.getLogger(__name__)
T = TypeVar("T")
OnMail = Callable[[Callable[[Mail], T]], Awaitable[T]]
Draw = Callable[[str, str, str], Awaitable[bytes | None]]  # chat, message, name of a file

FIRST_PAUSE, LONGEST_PAUSE = 0.4, 5.0  # while the platform fails, all sends wait this long
LOOK_AGAIN = 1.0
STORE_PAUSE = 2.0
AT_ONCE = 32  # sends under way at most
# The next send waits for the last one to be marked, so that a crash doubles one answer at most;
# one that takes longer than this holds up no other.
OVERTAKE = 0.4
GIVE_UP = {
    "say": timedelta(hours=1),  # advice has no worth after that
    "photo": timedelta(hours=1),
    "document": timedelta(hours=1),
    "press": timedelta(seconds=140),  # a press can be acknowledged for 150 s
}
FILES = ("photo", "document")  # drawn when they are sent; nothing is kept of them
MESSAGES = ("say", *FILES)  # what the platform's limits on speed count
GIVE_UP_OTHERS = timedelta(minutes=10)


class Sender:
    """The outbox at work. `on_mail` runs a function on the thread that owns the mail."""

    def __init__(
        self,
        bot: telegram.Bot,
        on_mail: OnMail[Any],
        pacer: Pacer,
        now: Callable[[], datetime],
        draw: Draw,
    ) -> None:
        self._draw = draw
        self._bot, self._on_mail, self._pacer, self._now = bot, on_mail, pacer, now
        self._wake = asyncio.Event()
        self._one_round = asyncio.Lock()  # the last round of `run` and those of `stop` may meet
        self._under_way: dict[str, asyncio.Task[None]] = {}
        self._arrived: dict[int, tuple[str, str | None]] = {}  # chat and id; not yet marked sent
        self._drawing: dict[int, asyncio.Task[None]] = {}
        self._drawn: dict[int, bytes | None] = {}
        self._failures = 0
        self._quiet_until = 0.0
        self._last = 0.0  # when the last send was begun
        self._stopping = False

    def wake(self) -> None:
        """There is something new to send."""
        self._wake.set()

    async def run(self) -> None:
        """Send until `stop`."""
        while not self._stopping:
            self._wake.clear()
            try:
                pause = await self._round()
            except StoreError as error:
                log.error("store in trouble", extra={"why": str(error)})  # noqa: TRY400
                pause = STORE_PAUSE
            with contextlib.suppress(TimeoutError):
                async with asyncio.timeout(pause):
                    await self._wake.wait()

    async def stop(self, seconds: float) -> None:
        """Let what is under way, and what may still go, go for a few seconds."""
        self._stopping = True
        self._wake.set()
        deadline = asyncio.get_running_loop().time() + seconds
        while asyncio.get_running_loop().time() < deadline:
            try:
                await self._round()
            except StoreError as error:
                log.error("store in trouble", extra={"why": str(error)})  # noqa: TRY400
                break
            if not self._under_way:
                break
            await asyncio.wait(self._under_way.values(), timeout=0.1)
        for task in (*self._under_way.values(), *self._drawing.values()):
            task.cancel()

    async def _round(self) -> float:
        async with self._one_round:
            return self._begin(await self._marked())

    def _begin(self, due: Iterable[Due]) -> float:
        """Start every send that may go; returns how long nothing will change by itself."""
        pause = LOOK_AGAIN
        for item in due:
            chat = item.send.chat
            now = asyncio.get_running_loop().time()
            if chat in self._under_way or not self._ready(item):
                continue
            if len(self._under_way) >= (1 if self._failures else AT_ONCE):
                return pause
            if self._under_way and (left := self._last + OVERTAKE - now) > 0:
                return min(pause, left)
            wait = max(self._pacer.wait(chat, _group(chat), now), self._quiet_until - now)
            if item.send.kind not in MESSAGES:
                wait = max(0.0, self._quiet_until - now)
            if wait > 0:
                pause = min(pause, wait)
                continue
            if item.send.kind in MESSAGES:
                self._pacer.sent(chat, now)
            self._last = now
            self._under_way[chat] = asyncio.create_task(self._send(item))
        return pause

    async def _marked(self) -> Iterable[Due]:
        """Mark what arrived as sent, and return what is due then.

        Where the store is in trouble the marks are tried again, the sends are not.
        """
        arrived, now = dict(self._arrived), self._now()

        def mark(mail: Mail) -> Iterable[Due]:
            for id_, (_, sent_id) in arrived.items():
                mail.sent(id_, sent_id, now)
            return mail.due(now)

        due: Iterable[Due] = await self._on_mail(mark)
        for id_, (chat, _) in arrived.items():
            del self._arrived[id_]
            self._under_way.pop(chat, None)
        return due

    def _ready(self, item: Due) -> bool:
        """Whether a send has the file it needs; drawing one holds up no other chat."""
        if item.send.kind not in FILES or item.id in self._drawn:
            return True
        if item.id not in self._drawing:
            self._drawing[item.id] = asyncio.create_task(self._make(item))
        return False

    async def _make(self, item: Due) -> None:
        """Draw the file of a send anew from what was logged."""
        fields = item.send.payload
        try:
            self._drawn[item.id] = await self._draw(fields["in"], fields["of"], fields["name"])
        except StoreError as error:
            log.error("store in trouble", extra={"why": str(error)})  # noqa: TRY400
            await asyncio.sleep(STORE_PAUSE)
        except Exception:
            log.exception("not drawn", extra={"send": item.id, "kind": item.send.kind})
            self._drawn[item.id] = None
        finally:
            del self._drawing[item.id]
            self._wake.set()

    async def _send(self, item: Due) -> None:
        chat = item.send.chat
        try:
            await self._try(item)
        except StoreError as error:
            log.error("store in trouble", extra={"why": str(error)})  # noqa: TRY400
            await asyncio.sleep(STORE_PAUSE)
        except Exception as error:
            log.exception("send broke", extra={"send": item.id, "kind": item.send.kind})
            await self._settle(item, Verdict("drop", type(error).__name__))
        finally:
            if item.id not in self._arrived:
                self._under_way.pop(chat, None)
            self._wake.set()

    async def _try(self, item: Due) -> None:
        body = self._drawn.pop(item.id, None)
        limit = GIVE_UP.get(item.send.kind, GIVE_UP_OTHERS)
        if self._now() - item.created > limit:
            await self._settle(item, Verdict("drop", "too old"))
            return
        if body is None and item.send.kind in FILES:
            await self._settle(item, Verdict("drop", "nothing to draw"))
            return
        name = item.send.payload.get("name")
        file = None if body is None else telegram.InputFile(body, filename=name)
        try:
            sent_id = await call(self._bot, item, file)
        except TelegramError as error:
            await self._settle(item, verdict(error))
            return
        self._failures, self._quiet_until = 0, 0.0
        self._arrived[item.id] = (item.send.chat, sent_id)

    async def _settle(self, item: Due, judged: Verdict) -> None:
        extra = {"send": item.id, "kind": item.send.kind, "why": judged.why}
        log.warning("not sent: %s", judged.outcome, extra=extra)
        match judged.outcome:
            case "done":
                await self._on_mail(lambda mail: mail.sent(item.id, None, self._now()))
            case "drop":
                await self._on_mail(lambda mail: mail.drop(item.id, judged.why))
            case "gone":
                await self._on_mail(lambda mail: mail.drop_chat(item.send.chat, judged.why))
            case "renamed":
                await self._on_mail(lambda mail: mail.rename_chat(item.send.chat, judged.chat))
            case "wait" | "again":
                self._fail()
                pause = max(judged.seconds, self._quiet_until - asyncio.get_running_loop().time())
                until = self._now() + timedelta(seconds=pause)
                await self._on_mail(lambda mail: mail.put_off(item.id, until, judged.why))

    def _fail(self) -> None:
        """The platform fails: one send at a time, with growing pauses, until one arrives."""
        pause = min(FIRST_PAUSE * 2**self._failures, LONGEST_PAUSE)
        self._failures = min(self._failures + 1, 10)
        self._quiet_until = asyncio.get_running_loop().time() + pause


def _group(chat: str) -> bool:
    return number(chat) < 0


async def call(bot: telegram.Bot, item: Due, file: telegram.InputFile | None) -> str | None:
    """Make the request for a send; returns the id of the message it made, if any."""
    chat, fields = number(item.send.chat), item.send.payload
    match item.send.kind:
        case "say":
            sent = await bot.send_message(
                chat,
                fields["text"],
                message_thread_id=fields.get("thread"),
                reply_parameters=_reply_to(fields),
                reply_markup=_markup(fields.get("buttons")),
                link_preview_options=telegram.LinkPreviewOptions(is_disabled=True),
            )
            return str(sent.message_id)
        case "photo" | "document" if file is not None:
            send = bot.send_photo if item.send.kind == "photo" else bot.send_document
            sent = await send(
                chat,
                file,
                message_thread_id=fields.get("thread"),
                reply_parameters=_reply_to(fields),
            )
            return str(sent.message_id)
        case "press":
            await bot.answer_callback_query(fields["press"], text=fields.get("text"))
        case "unbutton":
            await bot.edit_message_reply_markup(chat, fields["message"], reply_markup=None)
        case "nod":
            await bot.set_message_reaction(chat, fields["message"], fields["emoji"])
        case "leave":
            await bot.leave_chat(chat)
        case kind:
            what = f"no way to send {kind!r}"
            raise ValueError(what)
    return None


def _reply_to(fields: dict[str, Any]) -> telegram.ReplyParameters | None:
    to = fields.get("to")
    return None if to is None else telegram.ReplyParameters(to, allow_sending_without_reply=True)


def _markup(rows: Any) -> telegram.InlineKeyboardMarkup | None:
    if not rows:
        return None
    return telegram.InlineKeyboardMarkup(
        [
            [telegram.InlineKeyboardButton(b["text"], callback_data=b["data"]) for b in row]
            for row in rows
        ]
    )
