"""Does anything get lost or half written when the machine or its keeper misbehaves?

Kills the service at random moments under load, by polling and by webhook (``--kills N`` in all,
20 by default; 300 take about twenty minutes), and tries a full disk, a read-only file, a file
held by another program, a clock that jumps, and a second instance. About two minutes; start-up
times are by the clock and count other work on the machine.
"""

from __future__ import annotations

import asyncio
import os
import sqlite3
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from bot import __main__, app
from bot.model.message import Message
from bot.storage import SqliteStore
from bot.storage.errors import StoreError, StoreFull
from tests.bench._table import Row, finish
from tests.bench.chat import FAST, kills, roomy
from tests.support.chats import DEMO, ROOT
from tests.support.service import Service

SHOT = "160, into 18 mph, water right"
NOBODY = 65534  # a user without rights, where the bench itself runs as root
ANOTHER = 6  # exit code of a second instance


async def main(argv: list[str]) -> int:
    """Print the table; 1 if a goal is missed."""
    count = int(argv[argv.index("--kills") + 1]) if "--kills" in argv else 20
    rows: list[Row] = []
    checks: tuple[tuple[str, Callable[[Path], bool]], ...] = (
        ("full disk: an answer lost or half kept", full_disk),
        ("read-only file: no clear message or file changed", read_only),
        ("file held elsewhere: no clear message, or lost", held),
        ("clock back and forth: a message lost or refused", clock_steps),
    )
    for name, check in checks:
        with tempfile.TemporaryDirectory() as folder:
            rows.append(Row(name, 0 if check(Path(folder)) else 1, 0))
    with tempfile.TemporaryDirectory() as folder:
        wrong = not await two_instances(Path(folder))
        rows.append(Row("second instance: not refused, or the first disturbed", wrong, 0))
    for mode in ("polling", "webhook"):
        with tempfile.TemporaryDirectory() as folder:
            rows += await kills(Path(folder), mode, max(1, count // 2))
    return finish("Faults: nothing lost, nothing half written", rows, argv)


def full_disk(folder: Path) -> bool:
    """Refuse whole and leave nothing; answer the same message when there is room again."""
    store = _demo(folder)
    conversation, conn = app.conversation(store), store._conn
    conversation.handle(_message(0))
    pages = conn.execute("PRAGMA page_count").fetchone()[0]
    conn.execute(f"PRAGMA max_page_count = {pages}")
    refused, n = False, 0
    while not refused and n < 500:
        n += 1
        before = _counts(conn)
        try:
            conversation.handle(_message(n))
        except StoreFull:
            refused = _counts(conn) == before
    conn.execute("PRAGMA max_page_count = 1000000")
    lines = conversation.handle(_message(n)).lines
    sound = conn.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
    store.close()
    return refused and len(lines) == 2 and sound


def read_only(folder: Path) -> bool:
    """Say so and exit with 1; the file stays as it was."""
    _demo(folder).close()
    data = folder / "caddie.sqlite"
    folder.chmod(0o555)
    data.chmod(0o444)
    before = data.read_bytes()
    code, said = _without_rights(data)
    folder.chmod(0o755)
    told = said.startswith("caddie: ") and "Traceback" not in said
    return code == 1 and told and data.read_bytes() == before


def _without_rights(data: Path) -> tuple[int, str]:
    """Return exit code and error output of a process that may not write where it is."""
    reads, writes = os.pipe()
    child = os.fork()
    if child == 0:
        os.dup2(writes, 2)
        if os.getuid() == 0:
            os.setgid(NOBODY)
            os.setuid(NOBODY)
        os._exit(__main__.main(["--data", str(data), SHOT]))
    os.close(writes)
    _, status = os.waitpid(child, 0)
    with os.fdopen(reads, encoding="utf-8") as said:
        return os.waitstatus_to_exitcode(status), said.read()


def held(folder: Path) -> bool:
    """Give up within the stated wait, say so, and work once the file is free."""
    _demo(folder).close()
    data = folder / "caddie.sqlite"
    other = sqlite3.connect(data)
    other.execute("BEGIN IMMEDIATE")
    began = time.monotonic()
    run = _caddie(data)
    waited = time.monotonic() - began
    other.rollback()
    other.close()
    clear = run.returncode == 1 and run.stderr.startswith("caddie: ") and waited < 30
    return clear and _caddie(data).returncode == 0


def clock_steps(folder: Path) -> bool:
    """Answer messages whose time jumps by years; the log keeps them all."""
    store = _demo(folder)
    conversation = app.conversation(store)
    jumps = (0, -3600, 7200, -86400 * 400, 86400 * 4000, 1, -(10**9), 0)
    replies = [
        conversation.handle(_message(n, timedelta(seconds=jump))).lines
        for n, jump in enumerate(jumps)
    ]
    kept = store._conn.execute("SELECT count(*) FROM messages WHERE chat = 'me'").fetchone()[0]
    store.close()
    return all(len(lines) == 2 for lines in replies) and kept == len(jumps)


async def two_instances(folder: Path) -> bool:
    """Refuse the second at its start; the first goes on answering."""
    platform = roomy()
    await platform.start()
    first = Service(platform, folder, "polling", FAST)
    await first.start()
    platform.say(SHOT, user=1)
    await platform.until(lambda: len(platform.texts(1)) == 1, 60)
    second = Service(platform, folder, "polling", FAST)
    await second.start()
    assert second.process is not None
    code = await asyncio.wait_for(second.process.wait(), 60)
    platform.say(SHOT, user=1)
    await platform.until(lambda: len(platform.texts(1)) == 2, 60)
    clean = await first.stop() == 0
    await platform.stop()
    return code == ANOTHER and clean


def _demo(folder: Path) -> SqliteStore:
    store = SqliteStore(folder / "caddie.sqlite")
    app.load_demo(store, DEMO)
    return store


def _message(number: int, later: timedelta = timedelta()) -> Message:
    at = datetime(2026, 6, 1, 9, tzinfo=UTC) + later
    return Message(chat="me", sender="me", text=SHOT, sent_at=at, message_id=str(number))


def _counts(conn: sqlite3.Connection) -> list[int]:
    tables = ("messages", "entries", "documents")
    return [conn.execute(f"SELECT count(*) FROM {t}").fetchone()[0] for t in tables]


def _caddie(data: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "bot", "--data", str(data), SHOT]
    return subprocess.run(
        command, check=False, capture_output=True, text=True, cwd=ROOT, timeout=120
    )


if __name__ == "__main__":
    try:
        sys.exit(asyncio.run(main(sys.argv[1:])))
    except StoreError as error:
        sys.exit(f"caddie: {error}")
