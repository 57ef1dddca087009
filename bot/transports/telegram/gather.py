"""Stores what arrives at the same moment together: one commit for all who wait."""

import asyncio
from collections.abc import Awaitable, Callable
from typing import Any

Store = Callable[[list[Any]], Awaitable[None]]


class Gather:
    """Calls `store` with everything that came while its last call was under way."""

    def __init__(self, store: Store) -> None:
        self._store = store
        self._waiting: list[tuple[list[Any], asyncio.Future[None]]] = []
        self._task: asyncio.Task[None] | None = None

    async def put(self, items: list[Any]) -> None:
        """Return once `items` are stored; raise what storing them raised."""
        done: asyncio.Future[None] = asyncio.get_running_loop().create_future()
        self._waiting.append((items, done))
        if self._task is None or self._task.done():
            self._task = asyncio.create_task(self._run())
        await done

    async def _run(self) -> None:
        while self._waiting:
            batch, self._waiting = self._waiting, []
            try:
                await self._store([item for items, _ in batch for item in items])
            except Exception as error:
                for _, done in batch:
                    if not done.done():
                        done.set_exception(error)
            else:
                for _, done in batch:
                    if not done.done():
                        done.set_result(None)
