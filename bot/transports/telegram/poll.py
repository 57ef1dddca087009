"""Fetches updates by long polling: stored first, confirmed by the next request."""

import asyncio
import logging
import warnings
from collections.abc import Awaitable, Callable
from typing import Any

import telegram
from telegram.error import Conflict, RetryAfter, TelegramError

from bot.transports.telegram.verdict import verdict

log = logging.getLogger(__name__)
ALLOWED = ["message", "edited_message", "callback_query", "my_chat_member"]
BATCH = 100
FIRST_PAUSE, LONGEST_PAUSE = 0.5, 5.0
CONFLICTS = 6  # in a row: somebody else polls with this token

warnings.filterwarnings("ignore", message=r"Please use 'Bot\.getUpdates'")


class SomebodyElse(Exception):
    """Another program polls with the same token."""


async def poll(
    bot: telegram.Bot,
    receive: Callable[[list[Any]], Awaitable[None]],
    ended: Callable[[bool], None],
    seconds: int,
) -> None:
    """Fetch for ever; `receive` returns once a batch is stored.

    `ended` is told of every poll whether it went well.
    Raw updates are fetched, so that one which cannot be read stops nothing. The offset comes
    from the latest batch alone: numbers may start afresh after a quiet week.
    """
    offset: int | None = None
    failures = conflicts = 0
    while True:
        fields = {"timeout": seconds, "limit": BATCH, "allowed_updates": ALLOWED}
        if offset is not None:
            fields["offset"] = offset
        try:
            batch = await bot.do_api_request(
                "getUpdates", api_kwargs=fields, read_timeout=seconds + 5
            )
            await receive(_listed(batch))
        except Conflict as error:
            conflicts += 1
            if conflicts >= CONFLICTS:
                raise SomebodyElse from error
            await asyncio.sleep(LONGEST_PAUSE)
            continue
        except TelegramError as error:
            pause = min(FIRST_PAUSE * 2**failures, LONGEST_PAUSE)
            if isinstance(error, RetryAfter):
                pause = max(pause, verdict(error).seconds)
            failures = min(failures + 1, 10)
            log.warning("poll failed", extra={"why": type(error).__name__, "pause": pause})
            ended(False)
            await asyncio.sleep(pause)
            continue
        failures = conflicts = 0
        ended(True)
        ids = [u["update_id"] for u in batch if isinstance(u, dict) and "update_id" in u]
        numbers = [n for n in ids if isinstance(n, int)]
        if numbers:
            offset = max(numbers) + 1
        elif batch:
            await asyncio.sleep(FIRST_PAUSE)


def _listed(batch: object) -> list[Any]:
    if isinstance(batch, list):
        return batch
    what = "updates are not a list"
    raise TelegramError(what)
