"""A store with a long season in it, made of one played round told again and again."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path
from typing import Any

from bot.model.state import Played
from bot.storage.memory import MemoryStore
from bot.storage.store import Store
from tests.support.chats import ROOT, play

ONE = ROOT / "fixtures" / "conversations" / "demo_round.chat"


def season(rounds: int, chat: Path = ONE, store: Store | None = None) -> tuple[Store, int]:
    """Return a store with `rounds` copies of a round, a week apart, and its shots."""
    store = store or MemoryStore()
    play(chat.read_text("utf-8"), store)
    (key,) = store.keys("round/")
    first = Played.model_validate_json(store.load([key])[key].body)
    entries = list(store.entries(player="me", round=first.ids[0]))
    documents: list[dict[str, Any]] = []
    copies: list[dict[str, Any]] = []
    for n in range(1, rounds):
        by = timedelta(days=7 * n)
        name = f"{first.ids[0]}-{n}"
        times = {"started_at": first.started_at + by} if first.started_at else {}
        if first.ended_at:
            times["ended_at"] = first.ended_at + by
        copy = first.model_copy(update={"ids": (name,), **times})
        documents.append({"key": f"round/{name}", "body": copy.model_dump(mode="json")})
        for entry in entries:
            shot = entry.body.get("shot")
            told = {"shot": f"{shot}-{n}"} if shot else {}
            update = {
                "id": None, "at": entry.at + by, "round": name,
                "message_id": f"{entry.message_id}-{n}", "body": {**entry.body, **told},
            }  # fmt: skip
            copies.append(entry.model_copy(update=update).model_dump(mode="json"))
    store.take_in(documents, [], copies)
    return store, rounds * sum(e.kind == "result" for e in entries)
