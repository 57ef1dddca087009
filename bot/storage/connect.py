"""How a SQLite file is opened, and what its errors mean to whoever runs the bot."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from bot.storage.errors import (
    StoreBusy,
    StoreCorrupt,
    StoreError,
    StoreFull,
    StoreMissing,
    StoreReadOnly,
    StoreTooNew,
)
from bot.storage.steps import NAMES, SET, TABLE

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


def open_database(path: str, *, keep_copy: bool = True) -> sqlite3.Connection:
    """The database at `path`, made or brought up to date; for the calling thread only.

    A file of an earlier release is copied beside itself before it is changed, unless
    `keep_copy` is off. Raises `StoreError` and touches nothing where the file is from a newer
    release, is not a store, cannot be written or is held.
    """
    fresh = path == MEMORY or not Path(path).exists() or Path(path).stat().st_size == 0
    with explaining(path):
        if fresh and path != MEMORY:
            _make_private(path)
        conn = sqlite3.connect(path, timeout=BUSY_SECONDS)
        try:
            applied = set() if fresh else _applied(conn, path)
            for setting in SETTINGS:
                conn.execute(setting)
            if keep_copy and applied and applied != set(NAMES):
                _keep_copy(conn, path, max(applied))
            conn.execute("BEGIN IMMEDIATE")
            try:
                if applied != set(NAMES):
                    _bring_up_to_date(conn)
                conn.execute("PRAGMA user_version = 1")  # fails now where nothing can be written
            except BaseException:
                conn.rollback()
                raise
            conn.execute("COMMIT")
        except BaseException:
            conn.close()
            raise
    return conn


def _bring_up_to_date(conn: sqlite3.Connection) -> None:
    """Apply the steps not yet applied, inside the transaction that is open."""
    from sqlite_utils import Database  # 0.15 s to import, for stores that are new or old

    from bot.storage.migrations import steps

    steps.apply(Database(conn))


def _keep_copy(conn: sqlite3.Connection, path: str, newest: str) -> None:
    """Keep the store as it is before its tables change, under the name of its newest step."""
    kept = Path(f"{path}.{newest}")
    if kept.exists():
        return  # an earlier try was cut off: its copy is the one from before
    partial = Path(f"{kept}.partial")
    partial.unlink(missing_ok=True)
    _make_private(str(partial))
    conn.execute("VACUUM INTO ?", (str(partial),))
    partial.replace(kept)


def _make_private(path: str) -> None:
    """Make the file readable by its owner only, as the files beside it then are too."""
    try:
        Path(path).touch(mode=0o600)
    except PermissionError as error:
        raise StoreReadOnly(path) from error
    except OSError as error:
        raise StoreMissing(path) from error


def _applied(conn: sqlite3.Connection, path: str) -> set[str]:
    """The steps the file has seen; raises for one that is none of ours or of a newer release."""
    tables = {row[0] for row in conn.execute("SELECT name FROM sqlite_master")}
    if TABLE not in tables:
        if tables:
            raise StoreCorrupt(path, "it holds other tables")
        return set()
    applied = {
        row[0]
        for row in conn.execute(f"SELECT name FROM {TABLE} WHERE migration_set = ?", (SET,))  # noqa: S608
    }
    if unknown := applied - set(NAMES):
        raise StoreTooNew(path, tuple(sorted(unknown)))
    return applied
