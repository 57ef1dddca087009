"""Checks what a bot needs to run, and says of each what is wrong and what to do."""

import asyncio
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import telegram
from telegram.error import InvalidToken, TelegramError

from bot.settings import Settings, SettingsError, read_secret, read_token
from bot.storage.errors import StoreError
from bot.storage.lock import AlreadyRunning, lock_file, locked
from bot.storage.store import Store
from bot.transports.telegram.client import make_bot


@dataclass(frozen=True)
class Finding:
    """One thing checked."""

    what: str
    ok: bool
    detail: str


def examine(settings: Settings, data: Path, open_store: Callable[[], Store]) -> Iterator[Finding]:
    """Every finding, the local ones first; the platform is asked last, if it can be."""
    yield Finding("settings", True, f"mode {settings.mode}, access {settings.access}")
    if settings.access == "invited" and not settings.allowed:
        yield Finding("access", False, "nobody is let in: set CADDIE_ALLOWED to your own id")
    yield from _store(data, open_store)
    yield _running(data)
    try:
        token = read_token(settings).get_secret_value()
        read_secret(settings)
    except SettingsError as error:
        yield from (Finding("token", False, line) for line in error.lines)
        return
    yield Finding("token", True, f"{settings.token_file} holds one, closed to others")
    yield from asyncio.run(_platform(settings, token))


def _store(data: Path, open_store: Callable[[], Store]) -> Iterator[Finding]:
    try:
        store = open_store()
    except (StoreError, OSError) as error:
        yield Finding("store", False, str(error))
        return
    try:
        problems = store.check()
    except StoreError as error:
        problems = [str(error)]
    finally:
        store.close()
    if problems:
        yield Finding("store", False, f"not sound, restore a backup: {'; '.join(problems[:3])}")
    else:
        yield Finding("store", True, f"{data} is sound and can be written")
    mode = data.stat().st_mode
    if mode & 0o077:
        yield Finding("permissions", False, f"{data} is open to others: chmod 600 it")
    else:
        yield Finding("permissions", True, f"{data} is closed to others")


def _running(data: Path) -> Finding:
    if not lock_file(data).exists():
        return Finding("instance", True, "none has run on this store")
    try:
        with locked(data):
            return Finding("instance", True, "none runs on this store")
    except AlreadyRunning:
        return Finding("instance", True, "one runs on this store")
    except StoreError as error:
        return Finding("instance", False, str(error))


async def _platform(settings: Settings, token: str) -> list[Finding]:
    bot = make_bot(settings, token)
    try:
        await bot.initialize()
        user = await bot.get_me()
        hook = await bot.get_webhook_info()
    except InvalidToken:
        return [Finding("platform", False, "it refuses the token: make a new one")]
    except TelegramError as error:
        what = f"{settings.api_url} not reached ({type(error).__name__})"
        return [Finding("platform", False, what)]
    finally:
        await _closed(bot)
    reads_all = "reads all" if user.can_read_all_group_messages else "hears what is said to it"
    found = [Finding("platform", True, f"@{user.username}; in groups it {reads_all}")]
    if settings.mode == "webhook" and not hook.url:
        found.append(Finding("webhook", True, "not set yet; it is set at start"))
    if hook.url and settings.mode == "polling":
        found.append(Finding("webhook", True, "one is set; polling removes it at start"))
    if hook.last_error_message:
        found.append(Finding("webhook", False, f"last error: {hook.last_error_message}"))
    return found


async def _closed(bot: telegram.Bot) -> None:
    try:
        await bot.shutdown()
    except TelegramError:
        return
