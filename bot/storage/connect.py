"""How a SQLite file is opened, and what its errors mean to whoever runs the bot."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlite_utils import Database

from bot.storage.errors import (
    StoreBusy,
    StoreCorrupt,
    StoreError,
    StoreFull,
    StoreMissing,
    StoreReadOnly,
    StoreTooNew,
)
from bot.storage.migrations import steps

MEMORY = ":memory:"
BUSY_SECONDS = 5.0
SETTINGS = (
    "PRAGMA journal_mode = WAL",
    "PRAGMA synchronous = FULL",  # an update once confirmed is gone from the platform
    "PRAGMA foreign_keys = ON",
    "PRAGMA trusted_schema = OFF",
    "PRAGMA secure_delete = ON",
)
BY_CODE = {
    sqlite3.SQLITE_FULL: StoreFull,
    sqlite3.SQLITE_READONLY: StoreReadOnly,
    sqlite3.SQLITE_BUSY: StoreBusy,
    sqlite3.SQLITE_LOCKED: StoreBusy,
    sqlite3.SQLITE_CANTOPEN: StoreMissing,
}


def explained(error: sqlite3.Error, path: str) -> StoreError | None:
    """The error in words of whoever runs the bot; None where the code is to blame."""
    code = getattr(error, "sqlite_errorcode", 0) & 0xFF
    if code in BY_CODE:
        return BY_CODE[code](path)
    if code in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB):
        return StoreCorrupt(path, str(error))
    if code == sqlite3.SQLITE_IOERR:
        return StoreCorrupt(path, f"the disk answers with errors: {error}")
    return None


@contextmanager
def explaining(path: str) -> Iterator[None]:
    """Turn the errors of SQLite within the block into `StoreError`."""
    try:
        yield
    except sqlite3.Error as error:
        told = explained(error, path)
        if told is None:
            raise
        raise told from error


def open_database(path: str) -> Database:
    """The database at `path`, made or brought up to date; for the calling thread only.

    Raises `StoreError` and touches nothing where the file is from a newer release, is not a
    store, cannot be written or is held.
    """
    fresh = path == MEMORY or not Path(path).exists() or Path(path).stat().st_size == 0
    with explaining(path):
        if fresh and path != MEMORY:
            _make_private(path)
        conn = sqlite3.connect(path, timeout=BUSY_SECONDS)
        try:
            if not fresh:
                _refuse(conn, path)
            for setting in SETTINGS:
                conn.execute(setting)
            db = Database(conn)
            conn.execute("BEGIN IMMEDIATE")
            try:
                steps.apply(db)
                conn.execute("PRAGMA user_version = 1")  # fails now where nothing can be written
            except BaseException:
                conn.rollback()
                raise
            conn.execute("COMMIT")
        except BaseException:
            conn.close()
            raise
    return db


def _make_private(path: str) -> None:
    """Make the file readable by its owner only, as the files beside it then are too."""
    try:
        Path(path).touch(mode=0o600)
    except PermissionError as error:
        raise StoreReadOnly(path) from error
    except OSError as error:
        raise StoreMissing(path) from error


def _refuse(conn: sqlite3.Connection, path: str) -> None:
    """Raise for a file that is none of ours or of a newer release; reads only."""
    tables = {row[0] for row in conn.execute("SELECT name FROM sqlite_master")}
    if steps.migrations_table not in tables:
        if tables:
            raise StoreCorrupt(path, "it holds other tables")
        return
    applied = {
        row[0]
        for row in conn.execute(
            f"SELECT name FROM {steps.migrations_table} WHERE migration_set = ?",  # noqa: S608
            (steps.name,),
        )
    }
    known = {step.name for step in steps._migrations}
    if unknown := applied - known:
        raise StoreTooNew(path, tuple(sorted(unknown)))
