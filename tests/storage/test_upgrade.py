"""A store made by each earlier release: opened, brought up to date, and answering the same."""

import sqlite3
import stat
from pathlib import Path

import pytest
from sqlite_utils import Database

from bot import app
from bot.conversation import Conversation
from bot.storage import SqliteStore
from bot.storage import connect as opening
from bot.storage.backup import restore
from bot.storage.migrations import steps
from bot.storage.steps import NAMES, SET, TABLE
from tests.support.chats import DEMO, Speaker, say

EARLIER = NAMES[:-1]
TALK = ("160, into 18 mph, water right", "came up 10 short", "made 5", "150 from deep rough")


def _lines(store: SqliteStore, text: str, key: str) -> tuple[str, ...]:
    return Conversation(store).handle(say(Speaker(), text, key)).lines


def _store_of(path: Path, newest: str) -> None:
    """Make a file as the release whose newest step was `newest` left it, with talk in it."""
    SqliteStore(path).close()
    made = SqliteStore(path)
    app.load_demo(made, DEMO)
    for n, text in enumerate(TALK):
        _lines(made, text, str(n))
    made.close()
    old = path.with_suffix(".old")
    conn = sqlite3.connect(old)
    conn.execute("PRAGMA journal_mode = WAL")
    steps.apply(Database(conn), stop_before=NAMES[NAMES.index(newest) + 1])
    tables = [r[0] for r in conn.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
    conn.execute("ATTACH ? AS filled", (str(path),))
    for table in set(tables) - {TABLE, "sqlite_sequence"}:
        conn.execute(f"INSERT INTO main.{table} SELECT * FROM filled.{table}")
    conn.commit()
    conn.close()
    for beside in path.parent.glob(f"{path.name}*"):
        beside.unlink()
    old.rename(path)


def test_the_steps_are_those_named() -> None:
    assert tuple(step.name for step in steps._migrations) == NAMES
    assert steps.name == SET
    assert steps.migrations_table == TABLE


@pytest.mark.parametrize("newest", EARLIER)
def test_an_earlier_store_answers_the_same_and_a_copy_is_kept(tmp_path: Path, newest: str) -> None:
    path = tmp_path / "caddie.sqlite"
    fresh = SqliteStore(tmp_path / "fresh.sqlite")
    app.load_demo(fresh, DEMO)
    for n, text in enumerate(TALK):
        _lines(fresh, text, str(n))
    _store_of(path, newest)
    store = SqliteStore(path)
    for n, text in enumerate((*TALK, "why", "147 off the left 12")):
        assert _lines(store, text, str(n)) == _lines(fresh, text, str(n)), text
    store.close()
    kept = Path(f"{path}.{newest}")
    assert stat.S_IMODE(kept.stat().st_mode) == 0o600
    copy = sqlite3.connect(kept)
    assert {r[0] for r in copy.execute(f"SELECT name FROM {TABLE}")} == set(
        NAMES[: NAMES.index(newest) + 1]
    )
    assert copy.execute("SELECT count(*) FROM messages").fetchone()[0] == len(TALK) + 1
    copy.close()


@pytest.mark.parametrize("newest", EARLIER)
def test_a_step_cut_off_changes_nothing(
    tmp_path: Path, newest: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "caddie.sqlite"
    _store_of(path, newest)

    def cut_off(conn: sqlite3.Connection) -> None:
        steps.apply(Database(conn))
        raise KeyboardInterrupt

    monkeypatch.setattr(opening, "_bring_up_to_date", cut_off)
    with pytest.raises(KeyboardInterrupt):
        SqliteStore(path)
    monkeypatch.undo()
    plain = sqlite3.connect(path)
    assert {r[0] for r in plain.execute(f"SELECT name FROM {TABLE}")} == set(
        NAMES[: NAMES.index(newest) + 1]
    )
    plain.close()
    store = SqliteStore(path)
    assert _lines(store, TALK[0], "0")
    store.close()


def test_a_backup_of_an_earlier_release_is_put_back_without_another_copy(tmp_path: Path) -> None:
    from datetime import UTC, datetime

    old = tmp_path / "old.sqlite"
    _store_of(old, EARLIER[0])
    restore(old, tmp_path / "caddie.sqlite", datetime(2026, 6, 1, tzinfo=UTC))
    store = SqliteStore(tmp_path / "caddie.sqlite")
    assert _lines(store, TALK[0], "0")
    store.close()
    assert not [p for p in tmp_path.iterdir() if "0001" in p.name]
