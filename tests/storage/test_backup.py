"""A backup is sound, made while the store is in use, and can be put back."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from bot.storage import SqliteStore
from bot.storage.backup import backup, restore
from bot.storage.errors import StoreCorrupt, StoreMissing
from tests.storage.test_store import fact, put, said

NOW = datetime(2031, 5, 4, tzinfo=UTC)


def test_a_restore_brings_back_what_was_there_at_the_backup(tmp_path: Path) -> None:
    data, copy = tmp_path / "caddie.sqlite", tmp_path / "copy.sqlite"
    store = SqliteStore(data)
    m = said(1)
    put(store, m, fact(m), documents={"player/ann": (0, "1")})
    assert backup(data, copy) > 0
    put(store, said(2), documents={"player/ann": (1, "2")})
    store.close()
    kept = restore(copy, data, NOW)
    again = SqliteStore(data)
    assert again.load(["player/ann"])["player/ann"].body == "1"
    assert again.said("c", "1") is not None
    assert again.said("c", "2") is None
    assert again.check() == []
    again.close()
    assert kept is not None
    before = SqliteStore(kept)
    assert before.said("c", "2") is not None, "what was there is kept aside"
    before.close()


def test_a_restore_onto_a_new_machine(tmp_path: Path) -> None:
    data, copy = tmp_path / "a.sqlite", tmp_path / "copy.sqlite"
    SqliteStore(data).close()
    backup(data, copy)
    assert restore(copy, tmp_path / "b.sqlite", NOW) is None
    assert (tmp_path / "b.sqlite").stat().st_mode & 0o077 == 0


@pytest.mark.parametrize("harm", ["cut", "other", "flipped"])
def test_an_unsound_copy_is_refused_and_nothing_changes(tmp_path: Path, harm: str) -> None:
    data, copy = tmp_path / "caddie.sqlite", tmp_path / "copy.sqlite"
    store = SqliteStore(data)
    for n in range(50):
        m = said(n)
        put(store, m, fact(m, body={"x": "y" * 500}))
    store.close()
    backup(data, copy)
    whole = copy.read_bytes()
    middle = len(whole) // 2
    harmed = {
        "cut": whole[:middle],
        "other": b"hello " * 1000,
        "flipped": whole[:middle] + b"\xff" * 4096 + whole[middle + 4096 :],
    }
    copy.write_bytes(harmed[harm])
    before = data.read_bytes()
    with pytest.raises(StoreCorrupt):
        restore(copy, data, NOW)
    assert data.read_bytes() == before
    assert not [p for p in tmp_path.iterdir() if "partial" in p.name or "before" in p.name]


def test_a_backup_of_nothing_says_so(tmp_path: Path) -> None:
    with pytest.raises(StoreMissing):
        backup(tmp_path / "none.sqlite", tmp_path / "copy.sqlite")
