"""Does any text break the bot? Generated messages through the whole of the seam.

Takes about a minute for the default number; ``--messages 500000`` takes about an hour and a half
of one core. A message that has to work out a player's table of expected strokes first, as after
a change of the bag, is counted apart. A text that misbehaves is printed with its number.
``--seed N`` makes other texts.
"""

from __future__ import annotations

import contextlib
import json
import logging
import random
import sys
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from bot import app
from bot.conversation import Conversation
from bot.model.message import Handled, Message
from bot.storage.memory import MemoryStore
from tests.bench._table import Row, finish
from tests.support.chats import DEMO
from tests.support.mutants import mutants

WIDTH, PAGE_WIDTH = 64, 100  # of a line of a two-line reply, and of a page such as why
LONGEST = 4096  # of a whole reply in UTF-16
SLOW_MS, NEW_TABLE_MS = 250.0, 600.0
BATCH = 500  # messages on one store: long enough for rounds, trips and histories to grow
PLACES = (("me", "private"), ("saltmarrow-trip", "group"), ("new", "private"))
SENDERS = ("me", "oona", "bram", "mika", "stranger")
TWO_LINES = frozenset({"shot", "putt", "chip", "result", "ask", "cannot", "noted", "say"})


def main(argv: list[str]) -> int:
    """Print the table; 1 if a goal is missed."""
    logging.disable(logging.CRITICAL)
    count, seed = _option(argv, "--messages", 2500), _option(argv, "--seed", 20310504)
    chance = random.Random(seed)
    broken = too_long = 0
    costs: list[float] = []
    tables: list[float] = [0.0]
    resident: list[float] = []
    store, now = _Counting(), datetime(2026, 6, 1, 9, tzinfo=UTC)
    conversation = _begin(store)
    for n, text in enumerate(mutants(count, seed)):
        if n and n % BATCH == 0:
            store.close()  # as a lane does that ends; else its connection waits for the collector
            store = _Counting()
            conversation = _begin(store)
            resident.append(_resident_mb())
        now += timedelta(seconds=chance.choice((5, 40, 600)))
        message = _message(text, n, now, chance)
        made, started = store.made, time.process_time()
        try:
            handled = conversation.process(message)
        except Exception as error:  # whatever it is, it is what is looked for
            broken += 1
            _show(n, message, type(error).__name__)
            continue
        took = (time.process_time() - started) * 1e3
        (costs if store.made == made else tables).append(took)
        if took > (SLOW_MS if store.made == made else NEW_TABLE_MS):
            _show(n, message, f"{took:.0f} ms")
        if any(a.get("kind") == "broken" for a in handled.answers):
            broken += 1
            _show(n, message, "broken")
        why = _over(handled)
        if why:
            too_long += 1
            _show(n, message, why)
    costs.sort()
    grown = resident[-1] - resident[len(resident) // 4] if len(resident) > 3 else 0.0
    rows = [
        Row(f"exceptions ({count} messages)", broken, 0),
        Row("replies over their limits", too_long, 0),
        Row(f"messages over {SLOW_MS:.0f} ms of CPU", sum(c > SLOW_MS for c in costs), 0),
        Row("slowest message", costs[-1], SLOW_MS, "ms CPU"),
        Row("slowest with a new table", max(tables), NEW_TABLE_MS, "ms CPU"),
        Row("99th percentile", costs[int(0.99 * len(costs))], 80.0, "ms CPU"),
        Row("memory grown after the first quarter", grown, 15.0, "MB"),
    ]
    return finish("Any text: no exception, no long reply, no slow message", rows, argv)


class _Counting(MemoryStore):
    """A store that knows how many tables were worked out for it."""

    made = 0

    def put_blob(self, kind: str, key: str, body: bytes) -> None:
        """Keep a table."""
        self.made += 1
        super().put_blob(kind, key, body)


def _begin(store: MemoryStore) -> Conversation:
    app.load_demo(store, DEMO)
    return app.conversation(store)


def _message(text: str, number: int, now: datetime, chance: random.Random) -> Message:
    """Return what the adapter would hand over: lone surrogates never come through it."""
    chat, kind = chance.choice(PLACES)
    sender = chance.choice(SENDERS) if kind == "group" else chat
    return Message.model_validate({
        "chat": chat, "kind": kind, "sender": sender, "name": sender.title(), "sent_at": now,
        "text": text.encode("utf-8", "replace").decode("utf-8"), "message_id": str(number),
        "addressed": chance.random() < 0.9, "late": chance.random() < 0.03,
    })  # fmt: skip


def _over(handled: Handled) -> str:
    """Say which limit a reply breaks, if any."""
    lines = handled.reply.lines
    widest = max(map(len, lines), default=0)
    if widest > (WIDTH if len(lines) <= 2 else PAGE_WIDTH):
        return f"a line of {widest}"
    if len(handled.reply.text.encode("utf-16-le")) // 2 > LONGEST:
        return "longer than a message"
    page = any(a.get("explain") for a in handled.answers)
    if len(lines) > 2 and not page and {a.get("kind") for a in handled.answers} & TWO_LINES:
        return f"{len(lines)} lines"
    with contextlib.suppress(UnicodeEncodeError):
        handled.reply.text.encode("utf-8")
        return ""
    return "a lone surrogate"


def _show(number: int, message: Message, why: str) -> None:
    text = json.dumps(message.text[:300])
    print(f"{number} {message.chat}/{message.sender} {why}: {text}", file=sys.stderr)


def _resident_mb() -> float:
    pages = int(Path("/proc/self/statm").read_text("ascii").split()[1])
    return pages * 4096 / 2**20


def _option(argv: list[str], name: str, otherwise: int) -> int:
    return int(argv[argv.index(name) + 1]) if name in argv else otherwise


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
