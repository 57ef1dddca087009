"""Runs the bot on Telegram from start to a clean stop."""

import asyncio
import contextlib
import functools
import gc
import logging
import signal
import sys
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any, TypeVar

import telegram
from telegram.constants import ChatAction
from telegram.error import InvalidToken, TelegramError

from bot.conversation import Conversation
from bot.settings import Settings
from bot.storage.errors import StoreError
from bot.storage.lock import AlreadyRunning, locked
from bot.storage.store import Mail
from bot.transports.telegram import access, web
from bot.transports.telegram.adapter import Me
from bot.transports.telegram.client import introduce, make_bot, meet, retried
from bot.transports.telegram.drawer import Drawer
from bot.transports.telegram.envelope import envelope
from bot.transports.telegram.gather import Gather
from bot.transports.telegram.health import ALIVE, HEARD, health
from bot.transports.telegram.lanes import Lanes
from bot.transports.telegram.names import NO_CHAT, key, number
from bot.transports.telegram.notify import notify
from bot.transports.telegram.pace import Pacer
from bot.transports.telegram.poll import ALLOWED, SomebodyElse, poll
from bot.transports.telegram.sender import Sender
from bot.transports.telegram.turns import Turns
from bot.transports.telegram.worker import MailStore, Rules, Worker

log = logging.getLogger(__name__)
T = TypeVar("T")


DONE, BAD_TOKEN, ANOTHER, DEAF, LOCKED = 0, 3, 4, 5, 6
FLUSH_SECONDS = 5.0
BEAT_SECONDS = 5.0
# Beside a plan or a picture in work, a step from thread to thread takes 3 ms with this, not 16
# (95th percentile); the interpreter's own 5 ms suits programs whose threads do not wait on others.
SWITCH_SECONDS = 0.001
KEEP_MAIL = timedelta(days=3)
STORE_PAUSE = 2.0


@dataclass(frozen=True)
class Parts:
    """What the app hands over. Stores are opened on the thread that will use them."""

    settings: Settings
    token: str
    secret: str  # of the webhook
    open_store: Callable[[], MailStore]
    converse: Callable[[MailStore], Conversation]
    now: Callable[[], datetime]
    notify_address: str | None = None


def run(parts: Parts) -> int:
    """Serve until told to stop; returns the exit code."""
    sys.setswitchinterval(SWITCH_SECONDS)
    gc.freeze()  # what was imported stays: a collection that went through it would take 50 ms
    try:
        with locked(parts.settings.data or Path("caddie.sqlite")):
            return asyncio.run(_Service(parts).serve())
    except AlreadyRunning:
        log.error("another instance works on this store")  # noqa: TRY400
        return LOCKED


@dataclass
class _Service:
    """One running bot: threads that own a connection each, and the tasks of the loop."""

    parts: Parts
    mail_thread: ThreadPoolExecutor = field(default_factory=lambda: ThreadPoolExecutor(1))
    stop: asyncio.Event = field(default_factory=asyncio.Event)
    polled_at: float = 0.0  # the last poll ended, well or not
    heard_at: float = 0.0  # the platform last answered well
    code: int = DONE

    async def serve(self) -> int:
        parts, loop = self.parts, asyncio.get_running_loop()
        for sign in (signal.SIGTERM, signal.SIGINT):
            loop.add_signal_handler(sign, self.stop.set)
        self.mail: MailStore = await loop.run_in_executor(self.mail_thread, parts.open_store)
        bot = make_bot(parts.settings, parts.token)
        try:
            me = await meet(bot, self.stop)
            if me is not None:
                await self._run(bot, me)
        except InvalidToken:
            log.error("the platform refuses the token")  # noqa: TRY400
            self.code = BAD_TOKEN
        finally:
            with contextlib.suppress(TelegramError):
                await bot.shutdown()
            await self.on_mail(lambda mail: self.mail.close())
            self.mail_thread.shutdown()
        return self.code

    async def on_mail(self, do: Callable[[Mail], T]) -> T:
        loop = asyncio.get_running_loop()
        return await loop.run_in_executor(self.mail_thread, lambda: do(self.mail))

    async def _run(self, bot: telegram.Bot, me: Me) -> None:
        settings = self.parts.settings
        pacer = Pacer(settings.sends_per_second, settings.sends_per_chat, settings.sends_per_group)
        self.drawer = Drawer(self.parts.open_store, self.parts.converse)
        self.sender = Sender(bot, self.on_mail, pacer, self.parts.now, self.drawer.draw)
        self.lanes = Lanes(
            functools.partial(self._make_worker, me), self.sender.wake,
            functools.partial(_show_typing, bot),
        )  # fmt: skip
        self._polled(well=True)
        receiving = [asyncio.create_task(t, name="receive") for t in [self._receive_from(bot)]]
        others = [
            asyncio.create_task(self.sender.run(), name="send"),
            asyncio.create_task(self.lanes.run(), name="work"),
            asyncio.create_task(self._beat(), name="beat"),
            asyncio.create_task(introduce(bot), name="introduce"),
        ]
        stopped = asyncio.create_task(self.stop.wait())
        notify(self.parts.notify_address, "READY=1")
        log.info("serving", extra={"mode": settings.mode, "bot": me.username})
        watched = {*receiving, *others, stopped}
        while not self.stop.is_set():
            done, watched = await asyncio.wait(watched, return_when=asyncio.FIRST_COMPLETED)
            self._look_at(done - {stopped})
        notify(self.parts.notify_address, "STOPPING=1")
        await self._wind_down(receiving, others)
        log.info("stopped", extra={"code": self.code})

    def _look_at(self, done: set[asyncio.Task[Any]]) -> None:
        """A task that ended by an error stops the bot, so that its supervisor starts it anew."""
        for task in done:
            error = task.exception()
            if error is None:
                continue
            self.code = ANOTHER if isinstance(error, SomebodyElse) else DEAF
            log.error("task %s ended", task.get_name(), exc_info=error)
            self.stop.set()

    async def _wind_down(
        self, receiving: list[asyncio.Task[None]], others: list[asyncio.Task[None]]
    ) -> None:
        """Stop receiving, finish what is in work, send for a few seconds; the rest is kept."""
        for task in (*receiving, *others[1:]):
            task.cancel()
        await asyncio.gather(*receiving, *others[1:], return_exceptions=True)
        await self.lanes.stop()
        await self.sender.stop(FLUSH_SECONDS)
        await asyncio.gather(others[0], return_exceptions=True)
        await self.drawer.close()

    def _make_worker(self, me: Me, turns: Turns) -> Worker:
        parts, settings = self.parts, self.parts.settings
        store = parts.open_store()
        rules = Rules(
            open=settings.access == "open",
            allowed=frozenset(key(n) for n in settings.allowed),
            secret=access.derived(parts.token, "invitations"),
            late=timedelta(seconds=settings.late_seconds),
        )
        return Worker(store, parts.converse(store), me, rules, parts.now, turns)

    async def _receive(self, raw: list[Any]) -> None:
        now = self.parts.now()
        updates = [u for u in (envelope(r, now) for r in raw) if u is not None]
        if updates:
            await self.on_mail(lambda mail: mail.receive(updates))
            self.lanes.wake()
        if len(updates) < len(raw):
            log.warning("updates without an id", extra={"count": len(raw) - len(updates)})

    async def _receive_from(self, bot: telegram.Bot) -> None:
        settings = self.parts.settings
        if settings.mode == "polling":
            await retried(lambda: bot.delete_webhook(drop_pending_updates=False))
            await poll(bot, self._store_batch, self._polled, settings.poll_seconds)
            return
        secret = self.parts.secret
        gather = Gather(self._receive)
        server = web.serve(settings.listen, secret, gather.put, self._health)
        try:
            url = f"{(settings.public_url or '').rstrip('/')}{web.PATH}"
            await retried(
                lambda: bot.set_webhook(
                    url, secret_token=secret, allowed_updates=ALLOWED, max_connections=20
                )
            )
            await asyncio.Event().wait()
        finally:
            server.stop()
            await server.close_all_connections()

    async def _store_batch(self, raw: list[Any]) -> None:
        """Store a batch; a store in trouble is waited for, since the batch is not confirmed."""
        while True:
            try:
                return await self._receive(raw)
            except StoreError as error:
                log.error("store in trouble", extra={"why": str(error)})  # noqa: TRY400
                await asyncio.sleep(STORE_PAUSE)

    async def _beat(self) -> None:
        """Mark that the loop lives; end it where polling went silent."""
        loop = asyncio.get_running_loop()
        settings = self.parts.settings
        tidied = float("-inf")
        while True:
            now = self.parts.now()
            await self._mark(ALIVE, now)
            if settings.mode == "polling":
                silent = loop.time() - self.polled_at
                if silent > self._deaf_after():
                    what = f"no poll ended for {silent:.0f} s"
                    raise TimeoutError(what)
                await self._mark(HEARD, now - timedelta(seconds=loop.time() - self.heard_at))
            else:
                await self._mark(HEARD, now)
            notify(self.parts.notify_address, "WATCHDOG=1")
            if loop.time() - tidied > 3600:
                tidied = loop.time()
                await self.on_mail(functools.partial(_tidy, before=now - KEEP_MAIL))
            await asyncio.sleep(BEAT_SECONDS)

    async def _mark(self, name: str, at: datetime) -> None:
        with contextlib.suppress(StoreError):
            await self.on_mail(lambda mail: mail.mark(name, at.isoformat()))

    def _deaf_after(self) -> float:
        return self.parts.settings.poll_seconds + 30.0

    def _polled(self, well: bool) -> None:
        self.polled_at = asyncio.get_running_loop().time()
        if well:
            self.heard_at = self.polled_at

    async def _health(self) -> dict[str, Any]:
        now = self.parts.now()
        return await self.on_mail(lambda mail: health(mail, now, self._deaf_after()))


async def _show_typing(bot: telegram.Bot, chat: str) -> None:
    """Show in a private chat that its answer is on the way."""
    if chat != NO_CHAT and number(chat) > 0:
        with contextlib.suppress(TelegramError):
            await bot.send_chat_action(number(chat), ChatAction.TYPING)


def _tidy(mail: Mail, before: datetime) -> int:
    return mail.tidy(before)
