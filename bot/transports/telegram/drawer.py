"""Draws the files that go with replies, on a thread of its own: a picture takes a second."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor

from bot.conversation import Conversation
from bot.transports.telegram.worker import MailStore


class Drawer:
    """One file at a time. The store is opened on the thread when the first is asked for."""

    def __init__(
        self, open_store: Callable[[], MailStore], converse: Callable[[MailStore], Conversation]
    ) -> None:
        self._open_store, self._converse = open_store, converse
        self._thread = ThreadPoolExecutor(1)
        self._store: MailStore | None = None

    async def draw(self, chat: str, message_id: str, name: str) -> bytes | None:
        """The file of that name that goes with the reply to a message, or None."""
        loop = asyncio.get_running_loop()
        return await loop.run_in_executor(self._thread, self._draw, chat, message_id, name)

    async def close(self) -> None:
        """Finish the file in work, and release the store."""
        await asyncio.get_running_loop().run_in_executor(self._thread, self._close)
        self._thread.shutdown()

    def _draw(self, chat: str, message_id: str, name: str) -> bytes | None:
        if self._store is None:
            self._store = self._open_store()
        found = self._converse(self._store).attached(chat, message_id, only=name)
        return next((file.body for file in found), None)

    def _close(self) -> None:
        if self._store is not None:
            self._store.close()
