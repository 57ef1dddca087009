"""How the values of the store become rows and come back."""

import json
from collections.abc import Collection
from datetime import UTC, datetime
from typing import Any

from pydantic_core import from_json

from bot.model.entry import Entry
from bot.model.message import Message, Reply
from bot.storage.store import Change, Logged

GONE = "gone"


def stamp(at: datetime) -> str:
    """A time as text that sorts: UTC, microseconds. A time without a zone is taken as UTC."""
    aware = at if at.tzinfo else at.replace(tzinfo=UTC)
    return aware.astimezone(UTC).isoformat(timespec="microseconds")


def dump(value: Any) -> str:
    """JSON in one line; lone surrogates become escapes, which a database takes."""
    return json.dumps(value, separators=(",", ":"), ensure_ascii=True)


def marks(values: Collection[object]) -> str:
    """A place for each value in a statement.

    >>> marks(("a", "b"))
    '?,?'
    """
    return ",".join("?" * len(values))


def unnamed(value: Any, player: str, nobody: str) -> Any:
    """JSON with a player's id replaced everywhere, and the name kept under it struck out."""
    match value:
        case dict():
            return {
                nobody if key == player else key: "somebody"
                if key == player and isinstance(item, str)
                else unnamed(item, player, nobody)
                for key, item in value.items()
            }
        case list():
            return [unnamed(item, player, nobody) for item in value]
        case _:
            return nobody if value == player else value


def segment(name: str) -> str:
    """A name as it stands between the slashes of a key."""
    return name.replace("%", "%25").replace("/", "%2F")


def message_row(change: Change) -> tuple[Any, ...]:
    """The row of table ``messages`` for a change."""
    m, gone = change.message, change.forget is not None
    return (
        m.chat,
        m.message_id,
        GONE if gone else m.sender,
        "" if gone else m.name,
        stamp(m.sent_at),
        m.kind,
        "" if gone else m.text,
        m.reply_to,
        m.edit_of,
        "{}" if gone else dump(change.reading),
        "[]" if gone else dump(change.answers),
        dump(change.reply.model_dump()),
    )


def logged(row: tuple[Any, ...]) -> Logged:
    """A row of table ``messages`` as it was logged."""
    (chat, message_id, player, name, at, kind, text, reply_to, edit_of, *read, reply) = row
    reading, answers = read
    return Logged(
        message=Message(
            chat=chat,
            sender=player,
            name=name,
            text=text,
            sent_at=datetime.fromisoformat(at),
            message_id=message_id,
            kind=kind,
            reply_to=reply_to,
            edit_of=edit_of,
        ),
        reading=json.loads(reading),
        answers=tuple(json.loads(answers)),
        reply=Reply.model_validate_json(reply),
    )


ENTRY_COLUMNS = (
    "id, kind, chat, message_id, n, player, at, round, hole, profile_version, engine_version, "
    "undoes, body"
)


def entry_row(e: Entry) -> tuple[Any, ...]:
    """The row of table ``entries``, without its id."""
    return (
        e.kind,
        e.chat,
        e.message_id,
        e.n,
        e.player,
        stamp(e.at),
        e.round,
        e.hole,
        e.profile_version,
        e.engine_version,
        e.undoes,
        dump(e.body),
    )


def entry(row: tuple[Any, ...]) -> Entry:
    """A row of table ``entries`` as an entry."""
    names = ENTRY_COLUMNS.split(", ")
    fields = dict(zip(names, row, strict=True))
    fields["at"] = datetime.fromisoformat(fields["at"])
    fields["body"] = from_json(fields["body"])  # twice as fast on the long bodies of answers
    return Entry(**fields)
