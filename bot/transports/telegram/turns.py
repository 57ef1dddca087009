"""Whose turn it is, where several workers share one inbox."""

from __future__ import annotations

import threading

from bot.storage.store import Mail, Work
from bot.transports.telegram.adapter import Place


class Turns:
    """Shared by the workers of all lanes, each on its own thread."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._busy: set[str] = set()
        self._after = ""
        self._late: dict[str, tuple[int, Place]] = {}

    def take(self, mail: Mail) -> Work | None:
        """The next update, going round the chats that nobody is working; `done` gives it back."""
        with self._lock:
            work = mail.claim(self._after, frozenset(self._busy))
            if work is not None:
                self._after = work.queue
                self._busy.add(work.queue)
            return work

    def done(self, work: Work) -> None:
        """Let others work the chat of `work`."""
        with self._lock:
            self._busy.discard(work.queue)

    def late(self, place: Place) -> None:
        """Count a message that came too late."""
        with self._lock:
            count = self._late.get(place.chat, (0, place))[0]
            self._late[place.chat] = (count + 1, place)

    def told_late(self) -> list[tuple[int, Place]]:
        """How many came too late in each chat since this was last asked."""
        with self._lock:
            told = list(self._late.values())
            self._late.clear()
            return told
