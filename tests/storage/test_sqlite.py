"""What only a file can do: survive, be refused, be opened by other tools."""

import sqlite3
import stat
from pathlib import Path

import pytest

from bot.storage import SqliteStore, StoreError
from bot.storage.errors import (
    StoreBusy,
    StoreCorrupt,
    StoreFull,
    StoreMissing,
    StoreReadOnly,
    StoreTooNew,
)
from tests.storage.test_store import fact, put, said


@pytest.fixture
def path(tmp_path: Path) -> str:
    return str(tmp_path / "caddie.db")


def filled(path: str) -> None:
    store = SqliteStore(path)
    m = said()
    put(store, m, fact(m, round="r1", hole=1), documents={"player/ann": (0, "1")})
    store.close()


def test_everything_is_there_after_opening_again(path: str) -> None:
    filled(path)
    store = SqliteStore(path)
    assert store.said("c", "1") is not None
    assert len(list(store.entries())) == 1
    store.close()


def test_commits_are_durable(path: str) -> None:
    store = SqliteStore(path)
    assert store._conn.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    put(store, said())
    assert store._conn.execute("PRAGMA synchronous").fetchone() == (2,)  # FULL
    store.mark("alive", "now")
    put(store, said(2))
    assert store._conn.execute("PRAGMA synchronous").fetchone() == (2,)
    assert store._conn.execute("PRAGMA foreign_keys").fetchone() == (1,)
    store.close()


def test_ordinary_tools_can_read_it(path: str) -> None:
    filled(path)
    plain = sqlite3.connect(path)
    for view in ("shots", "answers", "results", "rounds", "scores"):
        plain.execute(f"SELECT * FROM {view}").fetchall()
    assert plain.execute("SELECT player, hole FROM answers").fetchall() == [("ann", 1)]
    assert plain.execute("SELECT round, holes, answers FROM rounds").fetchall() == [("r1", 1, 1)]
    plain.close()


def test_a_newer_file_is_refused_and_untouched(path: str) -> None:
    filled(path)
    plain = sqlite3.connect(path)
    plain.execute(
        "INSERT INTO _sqlite_migrations (migration_set, name, applied_at) "
        "VALUES ('caddie', '0099_later', '2040')"
    )
    plain.commit()
    plain.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    plain.close()
    before = Path(path).read_bytes()
    with pytest.raises(StoreTooNew) as refused:
        SqliteStore(path)
    assert refused.value.unknown == ("0099_later",)
    assert Path(path).read_bytes() == before


@pytest.mark.parametrize("content", [b"not a database at all" * 100, b"SQLite format 3\x00" * 80])
def test_a_corrupt_file_is_refused_and_untouched(path: str, content: bytes) -> None:
    Path(path).write_bytes(content)
    with pytest.raises(StoreCorrupt):
        SqliteStore(path)
    assert Path(path).read_bytes() == content


def test_a_file_with_other_tables_is_refused(path: str) -> None:
    plain = sqlite3.connect(path)
    plain.execute("CREATE TABLE recipes (name)")
    plain.close()
    with pytest.raises(StoreCorrupt, match="other tables"):
        SqliteStore(path)


def test_a_read_only_store_is_refused(path: str, monkeypatch: pytest.MonkeyPatch) -> None:
    filled(path)
    real = sqlite3.connect
    monkeypatch.setattr(
        sqlite3, "connect", lambda p, **k: real(f"file:{p}?mode=ro", uri=True, **k)
    )
    with pytest.raises(StoreReadOnly):
        SqliteStore(path)


def test_a_missing_directory_is_named(tmp_path: Path) -> None:
    with pytest.raises(StoreMissing, match="nowhere"):
        SqliteStore(str(tmp_path / "nowhere" / "caddie.db"))


def test_a_full_disk_changes_nothing(path: str) -> None:
    store = SqliteStore(path)
    pages = store._conn.execute("PRAGMA page_count").fetchone()[0]
    store._conn.execute(f"PRAGMA max_page_count = {pages}")
    m = said()
    with pytest.raises(StoreFull):
        put(store, m, documents={"player/ann": (0, "x" * 100_000)})
    assert store.said("c", "1") is None
    store._conn.execute("PRAGMA max_page_count = 100000")
    assert put(store, m)
    store.close()


def test_a_held_store_says_so(path: str, monkeypatch: pytest.MonkeyPatch) -> None:
    store, other = SqliteStore(path), SqliteStore(path)
    store._conn.execute("PRAGMA busy_timeout = 10")
    other._conn.execute("BEGIN IMMEDIATE")
    with pytest.raises(StoreBusy):
        put(store, said())
    other._conn.execute("ROLLBACK")
    assert put(store, said())
    store.close()
    other.close()


def test_every_trouble_is_a_store_error() -> None:
    troubles = (StoreBusy, StoreCorrupt, StoreFull, StoreMissing, StoreReadOnly, StoreTooNew)
    assert all(issubclass(trouble, StoreError) for trouble in troubles)


def test_cost_does_not_grow_with_the_log(path: str) -> None:
    """Every question a message asks goes through an index."""
    store = SqliteStore(path)
    asked: list[str] = []
    store._conn.set_trace_callback(asked.append)
    list(store.entries(player="ann", kinds=["answer"], limit=5, newest_first=True))
    list(store.entries(round="r1"))
    list(store.entries(chat="c", limit=5))
    list(store.messages(player="ann", limit=5))
    store.profile("ann", 1)
    store.said("c", "1")
    store.load(["player/ann"])
    store._conn.set_trace_callback(None)
    for sql in asked:
        plan = [row[3] for row in store._conn.execute("EXPLAIN QUERY PLAN " + sql)]
        assert not any(step.startswith("SCAN") for step in plan), (sql, plan)
    store.close()


def test_a_forgotten_player_leaves_no_trace_in_the_files(path: str) -> None:
    store = SqliteStore(path)
    secret = "0123456789 a text of the player 9876543210"
    for n in range(20):
        m = said(n).model_copy(update={"text": f"{secret} {n}"})
        put(store, m, fact(m, body={"said": secret}), documents={f"memory/{n}/ann": (0, secret)})
    put(store, said(99), forget="ann")
    whole = b"".join(p.read_bytes() for p in Path(path).parent.iterdir())
    store.close()
    assert secret.encode() not in whole


def test_only_its_owner_can_read_a_new_store(path: str) -> None:
    SqliteStore(path).close()
    assert stat.S_IMODE(Path(path).stat().st_mode) & 0o077 == 0
