"""The store that keeps nothing: the same code on a database in memory."""

from bot.storage.connect import MEMORY
from bot.storage.sqlite import SqliteStore


class MemoryStore(SqliteStore):
    """A store for tests and for a chat that leaves no trace."""

    def __init__(self) -> None:
        super().__init__(MEMORY)
