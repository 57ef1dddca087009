"""The platform's client: how it is made, whom it serves, which commands it offers."""

import asyncio
import contextlib
import logging
from collections.abc import Awaitable, Callable

import telegram
from telegram.error import InvalidToken, TelegramError
from telegram.request import HTTPXRequest

from bot.settings import Settings
from bot.transports.telegram import words
from bot.transports.telegram.adapter import Me

log = logging.getLogger(__name__)
POOL = 64
FIRST_PAUSE, LONGEST_PAUSE = 0.5, 5.0


def make_bot(settings: Settings, token: str) -> telegram.Bot:
    """The platform's client, with its own connections for polling."""
    return telegram.Bot(
        token,
        base_url=settings.base_url,
        base_file_url=settings.base_file_url,
        request=HTTPXRequest(
            connection_pool_size=POOL, read_timeout=10, connect_timeout=5, pool_timeout=5
        ),
        get_updates_request=HTTPXRequest(
            connection_pool_size=4, read_timeout=10, connect_timeout=5, pool_timeout=5
        ),
    )


async def meet(bot: telegram.Bot, stop: asyncio.Event) -> Me | None:
    """The bot's own account; waits while the platform does not answer, None once stopped.

    Raises `InvalidToken` where the platform refuses the token.
    """
    pause = FIRST_PAUSE
    while not stop.is_set():
        try:
            await bot.initialize()
            user = await bot.get_me()
        except InvalidToken:
            raise
        except TelegramError as error:
            log.warning("platform not reached", extra={"why": type(error).__name__})
            with contextlib.suppress(TimeoutError):
                await asyncio.wait_for(stop.wait(), pause)
            pause = min(2 * pause, LONGEST_PAUSE)
        else:
            return Me(user.id, user.username or "")
    return None


async def retried(call: Callable[[], Awaitable[object]]) -> None:
    """Make a call that may be repeated freely until it succeeds."""
    pause = FIRST_PAUSE
    while True:
        try:
            await call()
        except TelegramError as error:
            log.warning("platform failed", extra={"why": type(error).__name__})
            await asyncio.sleep(pause)
            pause = min(2 * pause, LONGEST_PAUSE)
        else:
            return


async def introduce(bot: telegram.Bot) -> None:
    """Register the commands for private chats and groups."""
    private, groups = list(words.COMMANDS_PRIVATE.items()), list(words.COMMANDS_GROUP.items())
    in_private = telegram.BotCommandScopeAllPrivateChats()
    in_groups = telegram.BotCommandScopeAllGroupChats()
    await retried(lambda: bot.set_my_commands(private, scope=in_private))
    await retried(lambda: bot.set_my_commands(groups, scope=in_groups))
