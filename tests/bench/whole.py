"""What does a whole message cost, of each kind, and does it stay so as the store grows?

The baseline of a kind is an echo: the same store asked whether the message is known, and one
durable commit of the text sent back. That of a size is the smallest store. Times are CPU of this
process, so that other work on the machine does not count; a commit's wait for the disk does not
either. About a minute; with ``--full`` the largest store has 1,000,000 entries (two minutes).
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from bot import app
from bot.model.message import Message, Reply
from bot.storage import Change, SqliteStore
from engine.core.aloft import landings
from tests.bench._table import Row, finish
from tests.bench.store import EACH, filled
from tests.support.chats import DEMO

TRIES = 60
BEGAN = datetime(2032, 6, 1, 9, tzinfo=UTC)
SHOTS = (
    "160, into 18 mph, uphill 8 ft, water right", "150", "176 off the right 16, bunker left",
    "142, 12 behind, ob left", "185 from deep rough, bunker short left",
)  # fmt: skip
KINDS: dict[str, tuple[tuple[str, ...], float]] = {  # what is said, and the goal for its median
    "shot": (SHOTS, 25.0),
    "putt": (("putt 22 ft uphill 4 in, breaks left", "putt 9 ft downhill, stimp 10"), 25.0),
    "chip": (("chip 18 yards from the fringe", "20 yard pitch from rough, green uphill"), 25.0),
    "result": (("came up 10 short", "7 iron pushed right into the bunker"), 10.0),
    "score": (("made 5", "made 4"), 10.0),
    "why": (("why",), 25.0),
    "bag": (("bag",), 10.0),
    "not read": (("lovely morning for it, isn't it",), 10.0),
}


def main(argv: list[str]) -> int:
    """Print the table; 1 if a goal is missed."""
    rows: list[Row] = []
    sizes = (10, 1_000, 10_000) if "--full" in argv else (10, 1_000)
    with tempfile.TemporaryDirectory() as folder:
        first = 0.0
        for players in sizes:
            store = filled(Path(folder) / f"{players}.sqlite", players)
            app.load_demo(store, DEMO)
            median = statistics.median(_costs(store, SHOTS, f"size {players}"))
            first = first or median
            told = f"shot, {players:,} players, {players * EACH:,} entries, median"
            rows.append(Row(told, median, 1.25 * first, "ms CPU", baseline=first))
            if players == sizes[0]:
                rows = _kinds(store) + rows
            store.close()
        own = filled(Path(folder) / "own.sqlite", 1)
        app.load_demo(own, DEMO)
        _costs(own, SHOTS, "own")
        copies = _copy_own(own, 20_000)
        median = statistics.median(_costs(own, SHOTS, "own, large"))
        told = f"shot, {copies:,} answers of the player's own, median"
        rows.append(Row(told, median, 1.25 * first, "ms CPU", baseline=first))
        own.close()
    return finish("A whole message; the baseline of a kind is an echo, durably kept", rows, argv)


def _kinds(store: SqliteStore) -> list[Row]:
    rows: list[Row] = []
    echo = statistics.median(_costs(store, SHOTS, "echo", _echo(store)))
    shots: list[float] = []
    for kind, (texts, goal) in KINDS.items():
        costs = sorted(_costs(store, texts, kind))
        shots = shots or costs
        rows.append(
            Row(f"{kind}, median", statistics.median(costs), goal, "ms CPU", baseline=echo)
        )
        if kind == "shot":
            worst = costs[int(0.99 * len(costs))]
            rows.append(Row(f"{kind}, 99th percentile", worst, 80.0, "ms CPU", baseline=echo))
    rate = 1e3 / statistics.mean(shots)
    rows.append(Row("shots a second of one core", rate, 60.0, "/s", "above", baseline=1e3 / echo))
    return rows


def _echo(store: SqliteStore) -> Callable[[Message], object]:
    def handle(message: Message) -> object:
        if store.said(message.chat, message.message_id) is not None:
            return None
        return store.commit(Change(message=message, reply=Reply(lines=(message.text,))))

    return handle


def _costs(
    store: SqliteStore,
    texts: tuple[str, ...],
    label: str,
    handle: Callable[[Message], object] | None = None,
) -> list[float]:
    """Return milliseconds of CPU of each message; the first of each text only warms up."""
    handle = handle or app.conversation(store).handle
    found = []
    for n in range(-len(texts), TRIES):
        message = Message(
            chat="me", sender="me", text=texts[n % len(texts)], message_id=f"{label} {n}",
            sent_at=BEGAN + timedelta(minutes=4 * n),
        )  # fmt: skip
        landings.cache_clear()  # every message as if its flights were new
        started = time.process_time()
        handle(message)
        if n >= 0:
            found.append((time.process_time() - started) * 1e3)
    return found


def _copy_own(store: SqliteStore, count: int) -> int:
    """Give the player `count` more answers like those there are, from earlier years."""
    conn = store._conn
    columns = "kind, chat, player, at, round, hole, profile_version, engine_version, undoes, body"
    source = f"SELECT {columns} FROM entries WHERE player = 'me' AND kind = 'answer'"
    found = conn.execute(source).fetchall()
    conn.execute("BEGIN")
    for n in range(count):
        row = list(found[n % len(found)])
        row[3] = (datetime(2020, 1, 1, tzinfo=UTC) + timedelta(hours=n)).isoformat()
        conn.execute(
            f"INSERT INTO entries (message_id, n, {columns}) VALUES (?, 0, ?,?,?,?,?,?,?,?,?,?)",
            (f"old {n}", *row),
        )
    conn.execute("COMMIT")
    return count


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
