"""Where everything is kept: documents, log, answered messages, mail."""

from bot.storage.connect import MEMORY
from bot.storage.errors import StaleState, StoreError
from bot.storage.memory import MemoryStore
from bot.storage.sqlite import SqliteStore
from bot.storage.store import Change, Delivery, Logged, Mail, Send, Store, Stored

__all__ = [
    "MEMORY",
    "Change",
    "Delivery",
    "Logged",
    "Mail",
    "MemoryStore",
    "Send",
    "SqliteStore",
    "StaleState",
    "Store",
    "StoreError",
    "Stored",
]
