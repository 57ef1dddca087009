"""Which update is worked when: one after the other, and past one that takes long.

One lane, a thread with a store of its own, leads: it works update after update, round the chats.
Once an update takes long another lane takes the lead, so that a plan or a review of one chat
holds up no other. A chat is never worked by two lanes at once. Long is reckoned in the processor's
time: on a busy machine every message is slow, and working several at a time would slow all.
"""

from __future__ import annotations

import asyncio
import contextlib
import logging
import math
import threading
import time
from collections.abc import Awaitable, Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field

from bot.storage.errors import StoreError
from bot.transports.telegram.turns import Turns
from bot.transports.telegram.worker import Worker

log = logging.getLogger(__name__)
LANES = 4
PASS_AFTER = 0.1  # s of the processor; a shot takes 0.02
PASS_WAITING = 0.5  # s by the clock: it waits for something
TYPING_AFTER = 1.0
LOOK_AGAIN = 0.05
STORE_PAUSE = 2.0


@dataclass(eq=False)
class _Lane:
    """A thread and, once it was needed, the worker that belongs to it."""

    thread: ThreadPoolExecutor = field(default_factory=lambda: ThreadPoolExecutor(1))
    worker: Worker | None = None
    run: asyncio.Future[bool] | None = None
    began: float = 0.0  # its update, by the monotonic clock
    spent: float = 0.0  # what its thread had used of the processor then
    clock: int | None = None  # the clock of that
    shown: float = 0.0  # when the update that was shown to be on its way was begun

    def begin(self) -> None:
        """Note that an update is begun, on the lane's own thread."""
        self.clock = self.clock or time.pthread_getcpuclockid(threading.get_ident())
        self.began, self.spent = time.monotonic(), time.thread_time()

    def slow(self) -> bool:
        """Whether the update in work takes long."""
        used = 0.0 if self.clock is None else time.clock_gettime(self.clock) - self.spent
        return used > PASS_AFTER or time.monotonic() - self.began > PASS_WAITING


class Lanes:
    """The inbox at work.

    `make` makes a worker on the thread that will use it, `worked` is told of every update
    worked, and `typing` shows in a chat that its answer is on the way.
    """

    def __init__(
        self,
        make: Callable[[Turns], Worker],
        worked: Callable[[], None],
        typing: Callable[[str], Awaitable[None]],
    ) -> None:
        self._make, self._worked, self._typing = make, worked, typing
        self._turns = Turns()
        self._lanes = [_Lane() for _ in range(LANES)]
        self._lead: _Lane | None = None
        self._open = True  # something may wait that no lane has looked for
        self._changed = asyncio.Event()
        self._broken: BaseException | None = None
        self._shows: set[asyncio.Future[None]] = set()

    def wake(self) -> None:
        """There is something new to work."""
        self._open = True
        self._changed.set()

    async def run(self) -> None:
        """Work for ever; a store in trouble is waited for."""
        loop = asyncio.get_running_loop()
        while True:
            self._changed.clear()
            if self._broken is not None:
                raise self._broken
            self._give_lead(loop)
            busy = [lane for lane in self._lanes if lane.run is not None]
            self._show(busy)
            with contextlib.suppress(TimeoutError):
                async with asyncio.timeout(LOOK_AGAIN if busy else None):
                    await self._changed.wait()

    async def stop(self) -> None:
        """Let the updates in work be finished, and release the stores."""
        self._lead = None
        loop = asyncio.get_running_loop()
        runs = [lane.run for lane in self._lanes if lane.run is not None]
        await asyncio.gather(*runs, return_exceptions=True)
        for lane in self._lanes:
            if lane.worker is not None:
                await loop.run_in_executor(lane.thread, lane.worker.close)
            lane.thread.shutdown()

    def _give_lead(self, loop: asyncio.AbstractEventLoop) -> None:
        """Let a free lane lead where none does, or where the one that leads takes long."""
        lead = self._lead
        if lead is None and not self._open:
            return
        if lead is not None and not lead.slow():
            return
        free = next((lane for lane in self._lanes if lane.run is None), None)
        if free is None:
            return
        self._lead, self._open = free, False
        free.began, free.spent = time.monotonic(), math.inf  # nothing, until it begins
        free.run = loop.run_in_executor(free.thread, self._work, free, loop)
        free.run.add_done_callback(lambda run: self._ended(free, run))

    def _work(self, lane: _Lane, loop: asyncio.AbstractEventLoop) -> bool:
        """Work while this lane leads, on its own thread; says whether more may wait."""
        if lane.worker is None:
            lane.worker = self._make(self._turns)
        while self._lead is lane:
            lane.begin()
            if not lane.worker.work():
                return False
            loop.call_soon_threadsafe(self._worked)
        return True

    def _ended(self, lane: _Lane, run: asyncio.Future[bool]) -> None:
        lane.run = None
        if self._lead is lane:
            self._lead = None
        error = None if run.cancelled() else run.exception()
        if isinstance(error, StoreError):
            log.error("store in trouble", extra={"why": str(error)})
            asyncio.get_running_loop().call_later(STORE_PAUSE, self.wake)
        elif error is not None:
            self._broken = error
        elif not run.cancelled() and run.result():
            self._open = True  # its chat was held back from the others
        self._changed.set()

    def _show(self, busy: list[_Lane]) -> None:
        for lane in busy:
            took = time.monotonic() - lane.began
            if took < TYPING_AFTER or lane.worker is None or lane.shown == lane.began:
                continue
            lane.shown = lane.began
            show = asyncio.ensure_future(self._typing(lane.worker.queue))
            self._shows.add(show)
            show.add_done_callback(self._shows.discard)
