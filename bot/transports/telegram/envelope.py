"""Under which key, in which queue and at what time a raw update is stored, read or not."""

import json
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from bot.storage.store import Update
from bot.transports.telegram.names import NO_CHAT, SOURCE, key

MAX_ID = 2**63 - 1


def envelope(raw: object, now: datetime) -> Update | None:
    """The update as it is stored, or None for something without a usable id.

    Nothing but the id is needed: what cannot be read is found out when it is worked.
    """
    if not isinstance(raw, dict):
        return None
    update_id = raw.get("update_id")
    if not isinstance(update_id, int) or isinstance(update_id, bool) or abs(update_id) > MAX_ID:
        return None
    queue, at = NO_CHAT, None
    for name, body in raw.items():
        if name != "update_id" and isinstance(body, dict):
            queue, at = _place(body)
    return Update(
        source=SOURCE,
        update_id=update_id,
        queue=queue,
        at=at or now,
        raw=json.dumps(raw, ensure_ascii=True, separators=(",", ":")),
    )


def _place(body: Mapping[str, Any]) -> tuple[str, datetime | None]:
    """The chat an update belongs to, and when it was sent; a button press has no time."""
    inner = body.get("message")
    holder = inner if isinstance(inner, dict) else body
    chat = holder.get("chat")
    chat_id = chat.get("id") if isinstance(chat, dict) else None
    queue = key(chat_id) if isinstance(chat_id, int) else NO_CHAT
    stamp = body.get("edit_date") or body.get("date")
    try:
        at = datetime.fromtimestamp(stamp, tz=UTC) if isinstance(stamp, int) else None
    except (ValueError, OverflowError, OSError):
        at = None
    return queue, at
