"""One program at a time serves a store: a lock in a file beside it."""

import contextlib
import fcntl
from collections.abc import Iterator
from pathlib import Path

from bot.storage.errors import StoreError, StoreReadOnly


class AlreadyRunning(StoreError):
    """Another program serves this store."""

    def __init__(self, path: str) -> None:
        self.path = path
        super().__init__(f"{path} is served by another program: stop it and try again")


@contextlib.contextmanager
def locked(data: Path) -> Iterator[None]:
    """Hold the lock of the store at `data`.

    Raises `AlreadyRunning` where it is held, `StoreReadOnly` where it cannot be taken.
    """
    path = lock_file(data)
    try:
        path.touch(mode=0o600)
        file = path.open("w")
    except OSError as error:
        raise StoreReadOnly(str(path)) from error
    with file:
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as error:
            raise AlreadyRunning(str(data)) from error
        yield


def lock_file(data: Path) -> Path:
    """Where the lock of a store is."""
    return Path(f"{data}.lock")
