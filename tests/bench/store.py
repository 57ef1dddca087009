"""Does the cost of a message stay flat with 10,000 players and 1,000,000 log entries?

About forty seconds, most of it to fill the large store. The baseline of each row is the same
question to a store with one player and a hundred entries. Medians of 200.
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

from bot.model.entry import Entry
from bot.model.message import Message, Reply
from bot.storage import Change, SqliteStore
from bot.storage.rows import ENTRY_COLUMNS, entry_row, stamp
from tests.bench._table import Row, finish

BEGAN = datetime(2031, 5, 4, 8, tzinfo=UTC)
EACH = 100  # entries a player
TRIES = 200
KINDS = ("answer", "result", "score", "message")


def filled(path: Path, players: int) -> SqliteStore:
    """A store with a hundred entries and messages of every player."""
    store = SqliteStore(path)
    conn = store._conn
    columns = ENTRY_COLUMNS.removeprefix("id, ")
    body = {"club": "7 iron", "plays": 156.2, "chance": 0.08, "said": "x" * 120}

    def rows() -> object:
        for n in range(players):
            for i in range(EACH):
                yield entry_row(
                    Entry(
                        kind=KINDS[i % 3],
                        chat=f"c{n}",
                        message_id=f"{i}",
                        player=f"p{n}",
                        at=BEGAN + timedelta(minutes=i * 7 + n % 7),
                        round=f"r{n}.{i // 50}",
                        hole=i % 18 + 1,
                        profile_version=1,
                        body=body,
                    )
                )

    conn.execute("BEGIN")
    marks = ",".join("?" * len(columns.split(",")))
    conn.executemany(f"INSERT INTO entries ({columns}) VALUES ({marks})", rows())
    text = "{" + '"x":"' + "y" * 2000 + '"}'
    conn.executemany(
        "INSERT INTO documents VALUES (?, 1, ?)",
        [(f"{kind}/{n}", text) for n in range(players) for kind in ("player", "memory/c", "trip")],
    )
    conn.executemany(
        "INSERT INTO messages VALUES (?,?,?,'',?,'private','x',NULL,NULL,'{}','[]',"
        '\'{"lines":[],"buttons":[]}\')',
        [
            (f"c{n}", str(i), f"p{n}", stamp(BEGAN + timedelta(minutes=i)))
            for n in range(players)
            for i in range(0, EACH, 2)
        ],
    )
    conn.execute("COMMIT")
    return store


def questions(store: SqliteStore, player: int) -> dict[str, Callable[[int], object]]:
    """What a message asks of the store, each by a number that makes it new."""
    p, c = f"p{player}", f"c{player}"

    def commit(n: int) -> bool:
        m = Message(
            chat=c, sender=p, text="150 into 10", sent_at=BEGAN + timedelta(days=1, seconds=n),
            message_id=f"new{n}",
        )  # fmt: skip
        entry = Entry(kind="answer", chat=c, message_id=m.message_id, player=p, at=m.sent_at)
        key = f"memory/new/{player}"
        document = {key: (n, '{"x":1}')}
        return store.commit(
            Change(message=m, reply=Reply(lines=("a", "b")), documents=document, entries=(entry,))
        )

    return {
        "keep a message": commit,
        "known before?": lambda n: store.said(c, str(n)),
        "load three documents": lambda n: store.load(
            [f"player/{player}", f"memory/c/{player}", f"trip/{player}"]
        ),
        "a player's last five results": lambda n: list(
            store.entries(player=p, kinds=("result",), newest_first=True, limit=5)
        ),
        "a round's entries": lambda n: list(store.entries(round=f"r{player}.1")),
        "a chat's last messages": lambda n: list(
            store.messages(chat=c, newest_first=True, limit=5)
        ),
    }


def median_us(ask: Callable[[int], object]) -> float:
    times = []
    for n in range(TRIES):
        began = time.perf_counter()
        ask(n)
        times.append(1e6 * (time.perf_counter() - began))
    return statistics.median(times)


def main(argv: list[str]) -> int:
    with tempfile.TemporaryDirectory() as folder:
        small = filled(Path(folder) / "small.sqlite", 1)
        large = filled(Path(folder) / "large.sqlite", 10_000)
        rows = []
        few, many = questions(small, 0), questions(large, 5000)
        for name, ask in many.items():
            baseline = median_us(few[name])
            rows.append(Row(name, median_us(ask), 2.0 * baseline, "us", baseline=baseline))
        (count,) = large._conn.execute("SELECT count(*) FROM entries").fetchone()
        rows.append(Row("entries in the large store", count, 1_000_000, "", "above"))
        small.close()
        large.close()
    return finish("Store: cost against size (goal: at most twice that of a small one)", rows, argv)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
