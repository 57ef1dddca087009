"""How a store is copied while it is in use, checked, and put back."""

import os
import shutil
import sqlite3
from datetime import datetime
from pathlib import Path

from bot.storage.connect import explaining, open_database
from bot.storage.errors import StoreCorrupt, StoreMissing

BESIDE = ("-wal", "-shm")  # files that belong to a store


def backup(data: Path, target: Path) -> int:
    """Copy the store to `target`, checked before it gets that name; returns its bytes.

    The store may be in use. Raises `StoreError`; an existing target is not touched by a copy
    that is not sound.
    """
    if not data.exists():
        raise StoreMissing(str(data))
    partial = target.with_name(f".{target.name}.partial")
    partial.unlink(missing_ok=True)
    with explaining(str(data)):
        source = sqlite3.connect(f"{data.absolute().as_uri()}?mode=ro", uri=True)
        try:
            source.execute("VACUUM INTO ?", (str(partial),))
        finally:
            source.close()
    partial.chmod(0o600)
    try:
        check_file(partial)
    except BaseException:
        partial.unlink(missing_ok=True)
        raise
    _settle(partial, target)
    return target.stat().st_size


def restore(copy: Path, data: Path, now: datetime) -> Path | None:
    """Put a copy in the store's place; returns where the store that was there is kept.

    The copy is checked and brought up to date first, under another name. Raises `StoreError`
    and changes nothing where it is not sound or is from a newer release. Nothing may use the
    store meanwhile.
    """
    if not copy.exists():
        raise StoreMissing(str(copy))
    partial = data.with_name(f".{data.name}.partial")
    partial.unlink(missing_ok=True)
    shutil.copyfile(copy, partial)
    partial.chmod(0o600)
    try:
        check_file(partial)
        open_database(str(partial), keep_copy=False).close()
    except BaseException:
        partial.unlink(missing_ok=True)
        raise
    finally:
        for ending in BESIDE:
            Path(f"{partial}{ending}").unlink(missing_ok=True)
    kept = None
    if data.exists():
        kept = data.with_name(f"{data.name}.before-{now:%Y%m%d-%H%M%S}")
        for ending in ("", *BESIDE):
            if (old := Path(f"{data}{ending}")).exists():
                old.replace(Path(f"{kept}{ending}"))
    _settle(partial, data)
    return kept


def check_file(path: Path) -> None:
    """Raise `StoreCorrupt` where the file is not a whole and sound store."""
    with explaining(str(path)):
        conn = sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)
        try:
            found = [row[0] for row in conn.execute("PRAGMA integrity_check")]
            keys = conn.execute("PRAGMA foreign_key_check").fetchall()
            tables = {row[0] for row in conn.execute("SELECT name FROM sqlite_master")}
        finally:
            conn.close()
    if found != ["ok"] or keys:
        raise StoreCorrupt(str(path), f"{(found + [str(k) for k in keys])[0]}")
    if "documents" not in tables:
        raise StoreCorrupt(str(path), "it holds no store")


def _settle(partial: Path, target: Path) -> None:
    """Make a file durable under its final name."""
    with partial.open("rb") as file:
        os.fsync(file.fileno())
    partial.replace(target)
    folder = os.open(target.parent, os.O_RDONLY)
    try:
        os.fsync(folder)
    finally:
        os.close(folder)
