"""The store on SQLite: one file, one connection, one thread."""

import json
import secrets
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import Any

from bot.model.entry import Entry
from bot.storage.connect import explaining, open_database
from bot.storage.errors import StaleState
from bot.storage.rows import (
    ENTRY_COLUMNS,
    GONE,
    dump,
    entry,
    entry_row,
    logged,
    marks,
    message_row,
    segment,
    stamp,
    unnamed,
)
from bot.storage.sqlite_mail import SqliteMail
from bot.storage.store import Change, Logged, Stored

MESSAGE_COLUMNS = (
    "chat, message_id, player, name, at, chat_kind, text, reply_to, edit_of, reading, "
    "answers, reply"
)
MESSAGE_MARKS = ",".join("?" * len(MESSAGE_COLUMNS.split(",")))


class SqliteStore(SqliteMail):
    """A store in the file `path`; the thread that makes it is the only one that may use it.

    Other threads and programs open their own on the same file.
    """

    def __init__(self, path: str | Path) -> None:
        self.path = str(path)
        self._conn = open_database(self.path)

    @contextmanager
    def _writing(self, *, durable: bool = True) -> Iterator[sqlite3.Connection]:
        """One transaction that holds the write lock from its first statement.

        One that is not `durable` survives the death of the process, and may be lost with the
        power: for notes whose loss repeats a step and loses nothing.
        """
        with explaining(self.path):
            self._conn.execute(f"PRAGMA synchronous = {'FULL' if durable else 'NORMAL'}")
            self._conn.execute("BEGIN IMMEDIATE")
            try:
                yield self._conn
            except BaseException:
                if self._conn.in_transaction:
                    self._conn.execute("ROLLBACK")
                raise
            try:
                self._conn.execute("COMMIT")
            except BaseException:
                if self._conn.in_transaction:
                    self._conn.execute("ROLLBACK")
                raise

    def _rows(self, sql: str, parameters: Sequence[object] = ()) -> sqlite3.Cursor:
        with explaining(self.path):
            return self._conn.execute(sql, parameters)

    def said(self, chat: str, message_id: str) -> Logged | None:
        """A message handled before, or None."""
        row = self._rows(
            f"SELECT {MESSAGE_COLUMNS} FROM messages WHERE chat = ? AND message_id = ?",  # noqa: S608
            (chat, message_id),
        ).fetchone()
        return logged(row) if row else None

    def load(self, keys: Sequence[str]) -> dict[str, Stored]:
        """The documents that exist among `keys`."""
        found = {}
        for key in keys:
            row = self._rows(
                "SELECT version, body FROM documents WHERE key = ?", (key,)
            ).fetchone()
            if row:
                found[key] = Stored(version=row[0], body=row[1])
        return found

    def keys(self, prefix: str) -> list[str]:
        """The keys of all documents under `prefix`, sorted."""
        rows = self._rows(
            "SELECT key FROM documents WHERE key >= ? AND key < ? ORDER BY key",
            (prefix, prefix + "\U0010ffff"),
        )
        return [row[0] for row in rows]

    def commit(self, change: Change) -> bool:
        """Write all of `change` in one transaction, and say whether it was written."""
        message = change.message
        with self._writing() as conn:
            known = conn.execute(
                "SELECT 1 FROM messages WHERE chat = ? AND message_id = ?",
                (message.chat, message.message_id),
            ).fetchone()
            if not known:
                for key, (expected, body) in change.documents.items():
                    _write(conn, key, expected, body)
                if change.forget is not None:
                    _forget(conn, change.forget)
                conn.execute(
                    f"INSERT INTO messages ({MESSAGE_COLUMNS}) VALUES ({MESSAGE_MARKS})",  # noqa: S608
                    message_row(change),
                )
                if message.chat == change.forget:
                    gone = f"{GONE}-{secrets.token_hex(4)}"
                    named = (gone, message.chat, message.message_id)
                    conn.execute(
                        "UPDATE messages SET chat = ? WHERE chat = ? AND message_id = ?", named
                    )
                columns = ENTRY_COLUMNS.removeprefix("id, ")
                conn.executemany(
                    f"INSERT INTO entries ({columns}) VALUES (?,?,?,?,?,?,?,?,?,?,?,?)",  # noqa: S608
                    [entry_row(e) for e in change.entries],
                )
            if change.delivery is not None:
                self._deliver(conn, change.delivery)
        if change.forget is not None and not known:
            self._rows("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()  # nothing stays beside it
        return not known

    def entries(
        self,
        *,
        player: str | None = None,
        chat: str | None = None,
        round: str | None = None,
        kinds: Sequence[str] = (),
        since: datetime | None = None,
        limit: int | None = None,
        newest_first: bool = False,
        undone: bool = False,
    ) -> Iterator[Entry]:
        """Log entries in the order of their time; those taken back only if `undone`."""
        wanted = {"player": player, "chat": chat, "round": round}
        where = [f"{name} = ?" for name, value in wanted.items() if value is not None]
        values: list[object] = [value for value in wanted.values() if value is not None]
        if kinds:
            where.append(f"kind IN ({marks(kinds)})")
            values.extend(kinds)
        table = "entries" if undone else "standing"
        sql = _select(ENTRY_COLUMNS, table, where, values, since, limit, newest_first, "id")
        for row in self._rows(sql, values).fetchall():
            yield entry(row)

    def profile(self, player: str, version: int) -> Entry | None:
        """The entry of kind ``profile`` that made this profile version."""
        row = self._rows(
            f"SELECT {ENTRY_COLUMNS} FROM entries WHERE player = ? AND profile_version = ? "  # noqa: S608
            "AND kind = 'profile' ORDER BY id DESC LIMIT 1",
            (player, version),
        ).fetchone()
        return entry(row) if row else None

    def messages(
        self,
        *,
        player: str | None = None,
        chat: str | None = None,
        since: datetime | None = None,
        limit: int | None = None,
        newest_first: bool = False,
    ) -> Iterator[Logged]:
        """Handled messages in the order of their time."""
        wanted = {"player": player, "chat": chat}
        where = [f"{name} = ?" for name, value in wanted.items() if value is not None]
        values: list[object] = [value for value in wanted.values() if value is not None]
        sql = _select(
            MESSAGE_COLUMNS, "messages", where, values, since, limit, newest_first, "rowid"
        )
        for row in self._rows(sql, values).fetchall():
            yield logged(row)

    def get_blob(self, kind: str, key: str) -> bytes | None:
        """A cached table, or None."""
        row = self._rows(
            "SELECT body FROM blobs WHERE kind = ? AND key = ?", (kind, key)
        ).fetchone()
        return bytes(row[0]) if row else None

    def put_blob(self, kind: str, key: str, body: bytes) -> None:
        """Cache a table; it may be dropped at any time without loss."""
        with self._writing() as conn:
            conn.execute("INSERT OR REPLACE INTO blobs VALUES (?, ?, ?)", (kind, key, body))

    def export(self, player: str) -> dict[str, Any]:
        """Everything kept about a player, ready for JSON."""
        documents = {}
        for (key,) in self._rows("SELECT key FROM documents ORDER BY key").fetchall():
            if segment(player) in key.split("/"):
                documents[key] = json.loads(self.load([key])[key].body)
        return {
            "player": player,
            "documents": documents,
            "messages": [m.model_dump(mode="json") for m in self.messages(player=player)],
            "entries": [
                e.model_dump(mode="json") for e in self.entries(player=player, undone=True)
            ],
        }

    def take_in(
        self,
        documents: Sequence[dict[str, Any]],
        messages: Sequence[dict[str, Any]],
        entries: Sequence[dict[str, Any]],
    ) -> None:
        """Put exported records back in their order, all or none; ids are given anew."""
        said = [Logged.model_validate(m) for m in messages]
        logged_entries = [Entry.model_validate(e) for e in entries]
        columns = ENTRY_COLUMNS.removeprefix("id, ")
        ids: dict[int, int | None] = {}
        with self._writing() as conn:
            for document in documents:
                _write(conn, document["key"], 0, json.dumps(document["body"]))
            conn.executemany(
                f"INSERT INTO messages ({MESSAGE_COLUMNS}) VALUES ({MESSAGE_MARKS})",  # noqa: S608
                [
                    message_row(
                        Change(
                            message=m.message, reply=m.reply, reading=m.reading, answers=m.answers
                        )
                    )
                    for m in said
                ],
            )
            for e in logged_entries:
                undoes = None if e.undoes is None else ids[e.undoes]
                row = entry_row(e.model_copy(update={"undoes": undoes}))
                made = conn.execute(
                    f"INSERT INTO entries ({columns}) VALUES (?,?,?,?,?,?,?,?,?,?,?,?)",  # noqa: S608
                    row,
                )
                if e.id is not None:
                    ids[e.id] = made.lastrowid

    def check(self) -> list[str]:
        """What is wrong with the store; empty means sound."""
        found = [row[0] for row in self._rows("PRAGMA integrity_check").fetchall()]
        keys = self._rows("PRAGMA foreign_key_check").fetchall()
        return [line for line in found if line != "ok"] + [str(row) for row in keys]

    def close(self) -> None:
        """Release the store."""
        self._conn.close()


def _select(
    columns: str,
    table: str,
    where: list[str],
    values: list[object],
    since: datetime | None,
    limit: int | None,
    newest_first: bool,
    tie: str,
) -> str:
    """A SELECT in the order of time; `values` grows by what it needs."""
    if since is not None:
        where.append("at >= ?")
        values.append(stamp(since))
    way = "DESC" if newest_first else "ASC"
    sql = f"SELECT {columns} FROM {table}"  # noqa: S608
    if where:
        sql += " WHERE " + " AND ".join(where)
    sql += f" ORDER BY at {way}, {tie} {way}"
    if limit is not None:
        sql += " LIMIT ?"
        values.append(limit)
    return sql


def _write(conn: sqlite3.Connection, key: str, expected: int, body: str | None) -> None:
    """Write one document, or refuse a stale one."""
    row = conn.execute("SELECT version FROM documents WHERE key = ?", (key,)).fetchone()
    found = row[0] if row else 0
    if found != expected:
        raise StaleState(key, expected, found)
    if body is None:
        conn.execute("DELETE FROM documents WHERE key = ?", (key,))
    else:
        conn.execute("INSERT OR REPLACE INTO documents VALUES (?, ?, ?)", (key, found + 1, body))


def _forget(conn: sqlite3.Connection, player: str) -> None:
    """Remove everything of a player; keys of answered messages stay, so none is done twice."""
    nobody = f"{GONE}-{secrets.token_hex(4)}"
    for key, body in conn.execute(
        "SELECT key, body FROM documents WHERE key >= 'round/' AND key < 'round0'"
    ).fetchall():
        if json.loads(body).get("players") == [player]:  # nobody else's round
            conn.execute("DELETE FROM documents WHERE key = ?", (key,))
    for (key,) in conn.execute("SELECT key FROM documents").fetchall():
        if segment(player) in key.split("/"):
            conn.execute("DELETE FROM documents WHERE key = ?", (key,))
    for table, key in (("documents", "key"), ("entries", "id")):
        named = conn.execute(
            f"SELECT {key}, body FROM {table} WHERE instr(body, ?)",  # noqa: S608
            (dump(player),),
        ).fetchall()
        for row, body in named:
            conn.execute(
                f"UPDATE {table} SET body = ? WHERE {key} = ?",  # noqa: S608
                (dump(unnamed(json.loads(body), player, nobody)), row),
            )
    conn.execute(
        "UPDATE messages SET player = ?, name = '', text = '', reading = '{}', "
        "answers = '[]', reply = ? WHERE player = ?",
        (GONE, dump({"lines": [], "buttons": []}), player),
    )
    # A private chat may go by its player's own id; its messages are known no more then.
    conn.execute("UPDATE messages SET chat = ? WHERE chat = ?", (nobody, player))
    conn.execute("DELETE FROM entries WHERE player = ?", (player,))
    conn.execute("DELETE FROM blobs WHERE key = ?", (player,))
    conn.execute("DELETE FROM admitted WHERE name = ?", (player,))
    conn.execute("DELETE FROM outbox WHERE chat = ? AND state <> 'waiting'", (player,))
