"""Whether the bot is well: its store, when it was last heard of, how long mail waits."""

from datetime import datetime
from typing import Any

from bot.storage.errors import StoreError
from bot.storage.store import Mail

HEARD, ALIVE = "heard", "alive"  # names of marks in the store
ALIVE_SECONDS = 60.0
OUTBOX_SECONDS = 300.0
INBOX_SECONDS = 300.0


def health(mail: Mail, now: datetime, heard_seconds: float) -> dict[str, Any]:
    """Every check with its figure; ``healthy`` is true where all hold."""
    try:
        mail.mark("checked", now.isoformat())
    except StoreError as error:
        return {"healthy": False, "store": str(error)}
    marks, waiting = mail.marks(), mail.waiting()
    ages = {
        "alive_s": _age(now, marks.get(ALIVE)),
        "heard_s": _age(now, marks.get(HEARD)),
        "outbox_s": _since(now, waiting.outbox_since),
        "inbox_s": _since(now, waiting.inbox_since),
    }
    limits = {
        "alive_s": ALIVE_SECONDS,
        "heard_s": heard_seconds,
        "outbox_s": OUTBOX_SECONDS,
        "inbox_s": INBOX_SECONDS,
    }
    wrong = [name for name, age in ages.items() if age is None or age > limits[name]]
    return {
        "healthy": not wrong,
        "wrong": wrong,
        "store": "writable",
        **ages,
        "inbox": waiting.inbox,
        "outbox": waiting.outbox,
        "parked": waiting.parked,
    }


def _age(now: datetime, mark: str | None) -> float | None:
    return None if mark is None else _since(now, datetime.fromisoformat(mark))


def _since(now: datetime, then: datetime | None) -> float:
    return 0.0 if then is None else round(max(0.0, (now - then).total_seconds()), 1)
