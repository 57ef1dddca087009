"""When the next send may go: the platform's limits for a chat, a group and all together."""

from collections import deque
from dataclasses import dataclass, field

BURST = 3  # short bursts pass in one chat
MINUTE = 60.0
KEPT = 10_000  # chats remembered; the longest quiet ones are dropped


@dataclass
class Pacer:
    """Reserves a moment for each send. Times are seconds of one monotonic clock.

    A chat gets `a_second` sends after a burst of three; a group at most `a_minute` in any 60 s;
    all together `overall` a second, evenly spaced.
    """

    overall: float = 25.0
    a_second: float = 1.0
    a_minute: int = 20
    _next: float = 0.0
    _chats: dict[str, deque[float]] = field(default_factory=dict)

    def wait(self, chat: str, group: bool, now: float) -> float:
        """Seconds until a send to `chat` may go; 0 means now."""
        gone = self._chats.get(chat, deque())
        ready = self._next
        recent = list(gone)[-BURST:]
        if len(recent) == BURST:
            ready = max(ready, recent[0] + BURST / self.a_second)
        if group and len(gone) >= self.a_minute:
            ready = max(ready, gone[-self.a_minute] + MINUTE)
        return max(0.0, ready - now)

    def sent(self, chat: str, now: float) -> None:
        """Note a send that goes now."""
        self._next = max(now, self._next) + 1.0 / self.overall
        gone = self._chats.pop(chat, None) or deque(maxlen=max(BURST, self.a_minute))
        gone.append(now)
        self._chats[chat] = gone
        while len(self._chats) > KEPT:
            del self._chats[next(iter(self._chats))]
