"""Sends what waits in the outbox: in order per chat, paced, every error dealt with once."""

import asyncio
import contextlib
import logging
from collections.abc import Awaitable, Callable
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
MESSAGES = ("say", "photo", "document")  # what the platform's limits on speed count
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
        self._under_way: dict[str, asyncio.Task[None]] = {}
        self._arrived: dict[int, str | None] = {}  # sent, and not yet marked as sent
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
                await asyncio.wait_for(self._wake.wait(), pause)

    async def stop(self, seconds: float) -> None:
        """Let what is under way, and what may still go, go for a few seconds."""
        self._stopping = True
        self._wake.set()
        deadline = asyncio.get_running_loop().time() + seconds
        while asyncio.get_running_loop().time() < deadline:
            await self._round()
            if not self._under_way:
                break
            await asyncio.wait(self._under_way.values(), timeout=0.1)
        for task in list(self._under_way.values()):
            task.cancel()

    async def _round(self) -> float:
        """Start every send that may go; returns how long nothing will change by itself."""
        due: list[Due] = await self._on_mail(lambda mail: mail.due(self._now()))
        pause = LOOK_AGAIN
        for item in due:
            chat = item.send.chat
            now = asyncio.get_running_loop().time()
            if chat in self._under_way:
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
            self._under_way.pop(chat, None)
            self._wake.set()

    async def _try(self, item: Due) -> None:
        if item.id in self._arrived:
            await self._mark(item)
            return
        limit = GIVE_UP.get(item.send.kind, GIVE_UP_OTHERS)
        if self._now() - item.created > limit:
            await self._settle(item, Verdict("drop", "too old"))
            return
        file = await self._file(item)
        if file is None and item.send.kind in ("photo", "document"):
            await self._settle(item, Verdict("drop", "nothing to draw"))
            return
        try:
            sent_id = await call(self._bot, item, file)
        except TelegramError as error:
            await self._settle(item, verdict(error))
            return
        self._failures, self._quiet_until = 0, 0.0
        self._arrived[item.id] = sent_id
        await self._mark(item)

    async def _file(self, item: Due) -> telegram.InputFile | None:
        """The file to send, drawn anew from what was logged; nothing is kept of it."""
        if item.send.kind not in ("photo", "document"):
            return None
        fields = item.send.payload
        body = await self._draw(fields["in"], fields["of"], fields["name"])
        return None if body is None else telegram.InputFile(body, filename=fields["name"])

    async def _mark(self, item: Due) -> None:
        """Mark as sent; where the store is in trouble this is tried again, the send is not."""
        sent_id = self._arrived[item.id]
        await self._on_mail(lambda mail: mail.sent(item.id, sent_id, self._now()))
        del self._arrived[item.id]

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
