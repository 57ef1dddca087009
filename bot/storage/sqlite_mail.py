"""Updates in and sends out, on SQLite."""

import json
import sqlite3
from collections.abc import Collection, Iterator, Sequence
from contextlib import AbstractContextManager
from datetime import datetime

from bot.storage.rows import dump, marks, segment, stamp
from bot.storage.store import Delivery, Due, Send, Update, Waiting, Work

OUTBOX_COLUMNS = "source, update_id, n, chat, kind, payload, answers, state, created"


class SqliteMail:
    """The half of the store that keeps a platform's mail."""

    path: str

    def _writing(self, *, durable: bool = True) -> AbstractContextManager[sqlite3.Connection]:
        raise NotImplementedError

    def _rows(self, sql: str, parameters: Sequence[object] = ()) -> sqlite3.Cursor:
        raise NotImplementedError

    def receive(self, updates: Sequence[Update]) -> int:
        """Keep updates durably; says how many were new. Known ones change nothing."""
        with self._writing() as conn:
            return sum(
                conn.execute(
                    "INSERT INTO inbox (source, update_id, queue, at, raw, state) "
                    "VALUES (?, ?, ?, ?, ?, 'open') ON CONFLICT DO NOTHING",
                    (u.source, u.update_id, u.queue, stamp(u.at), u.raw),
                ).rowcount
                for u in updates
            )

    def claim(self, after: str = "", busy: Collection[str] = ()) -> Work | None:
        """The oldest open update of the queue that follows `after`, going round."""
        sql = (
            "SELECT source, update_id, queue, at, raw, attempts FROM inbox "  # noqa: S608
            f"WHERE state = 'open' AND queue {{}} ? AND queue NOT IN ({marks(busy)}) "
            "ORDER BY queue, at, update_id LIMIT 1"
        )
        row = (
            self._rows(sql.format(">"), (after, *busy)).fetchone()
            or self._rows(sql.format(">="), ("", *busy)).fetchone()
        )
        if row is None:
            return None
        source, update_id, queue, at, raw, attempts = row
        with self._writing(durable=False) as conn:
            conn.execute(
                "UPDATE inbox SET attempts = attempts + 1 WHERE source = ? AND update_id = ?",
                (source, update_id),
            )
        return Work(
            source=source,
            update_id=update_id,
            queue=queue,
            at=datetime.fromisoformat(at),
            raw=raw,
            attempts=attempts + 1,
        )

    def release(self, work: Work) -> None:
        """Take a claim back, uncounted: the store was in trouble, not the update."""
        with self._writing(durable=False) as conn:
            conn.execute(
                "UPDATE inbox SET attempts = attempts - 1 WHERE source = ? AND update_id = ?",
                (work.source, work.update_id),
            )

    def finish(self, delivery: Delivery) -> None:
        """Complete an update that changed nothing else; what it sends is kept with it."""
        with self._writing() as conn:
            self._deliver(conn, delivery)

    def _deliver(self, conn: sqlite3.Connection, delivery: Delivery) -> None:
        """Mark an update done, drop its raw text and queue its sends, inside a transaction."""
        key = (delivery.source, delivery.update_id)
        done = conn.execute(
            "UPDATE inbox SET state = 'done', raw = '' "
            "WHERE source = ? AND update_id = ? AND state <> 'done'",
            key,
        ).rowcount
        if done:
            self._queue(conn, delivery.sends, key)

    def post(self, sends: Sequence[Send]) -> None:
        """Queue things to send that answer no update."""
        with self._writing() as conn:
            self._queue(conn, sends, (None, None))

    def _queue(
        self,
        conn: sqlite3.Connection,
        sends: Sequence[Send],
        key: tuple[str, int] | tuple[None, None],
    ) -> None:
        conn.executemany(
            f"INSERT INTO outbox ({OUTBOX_COLUMNS}) VALUES (?,?,?,?,?,?,?,'waiting',"  # noqa: S608
            "strftime('%Y-%m-%dT%H:%M:%f000+00:00', 'now'))",
            [(*key, n, s.chat, s.kind, dump(s.payload), s.answers) for n, s in enumerate(sends)],
        )

    def park(self, source: str, update_id: int, why: str) -> None:
        """Put aside an update that cannot be worked."""
        with self._writing() as conn:
            conn.execute(
                "UPDATE inbox SET state = 'parked', why = ? "
                "WHERE source = ? AND update_id = ? AND state = 'open'",
                (why, source, update_id),
            )

    def due(self, now: datetime) -> Iterator[Due]:
        """The first waiting send of every chat, if it may go now; each is read when taken."""
        rows = self._rows(
            "SELECT id, chat, kind, payload, answers, attempts, created FROM outbox WHERE id IN "
            "(SELECT min(id) FROM outbox WHERE state = 'waiting' GROUP BY chat) "
            "AND not_before <= ? ORDER BY id",
            (stamp(now),),
        ).fetchall()
        return (
            Due(
                id=id_,
                send=Send(chat=chat, kind=kind, payload=json.loads(payload), answers=answers),
                attempts=attempts,
                created=datetime.fromisoformat(created),
            )
            for id_, chat, kind, payload, answers, attempts, created in rows
        )

    def sent(self, id: int, sent_id: str | None, at: datetime) -> None:
        """Note that a send arrived, as which message."""
        with self._writing(durable=False) as conn:
            conn.execute(
                "UPDATE outbox SET state = 'sent', payload = '{}', sent_id = ?, sent_at = ? "
                "WHERE id = ?",
                (sent_id, stamp(at), id),
            )

    def put_off(self, id: int, until: datetime, why: str) -> None:
        """Try a send again, not before `until`."""
        with self._writing(durable=False) as conn:
            conn.execute(
                "UPDATE outbox SET attempts = attempts + 1, not_before = ?, why = ? WHERE id = ?",
                (stamp(until), why, id),
            )

    def drop(self, id: int, why: str) -> None:
        """Give a send up."""
        with self._writing() as conn:
            conn.execute(
                "UPDATE outbox SET state = 'dropped', payload = '{}', why = ? WHERE id = ?",
                (why, id),
            )

    def drop_chat(self, chat: str, why: str) -> None:
        """Give up everything that waits to be sent to a chat."""
        with self._writing() as conn:
            conn.execute(
                "UPDATE outbox SET state = 'dropped', payload = '{}', why = ? "
                "WHERE chat = ? AND state = 'waiting'",
                (why, chat),
            )

    def mark(self, name: str, value: str) -> None:
        """Keep a small note, such as when the platform was last heard."""
        with self._writing(durable=False) as conn:
            conn.execute("INSERT OR REPLACE INTO marks VALUES (?, ?)", (name, value))

    def marks(self) -> dict[str, str]:
        """All notes."""
        return dict(self._rows("SELECT name, value FROM marks").fetchall())

    def admit(self, name: str, at: datetime) -> None:
        """Let a person or a chat use the bot."""
        with self._writing() as conn:
            conn.execute(
                "INSERT INTO admitted VALUES (?, ?) ON CONFLICT DO NOTHING", (name, stamp(at))
            )

    def admitted(self, name: str) -> bool:
        """Whether a person or a chat was let in."""
        row = self._rows("SELECT 1 FROM admitted WHERE name = ?", (name,)).fetchone()
        return row is not None

    def answered(self, chat: str, sent_id: str) -> str | None:
        """The message that a message we sent was an answer to."""
        row = self._rows(
            "SELECT answers FROM outbox WHERE chat = ? AND sent_id = ?", (chat, sent_id)
        ).fetchone()
        return row[0] if row else None

    def rename_chat(self, old: str, new: str) -> None:
        """Move everything of a chat to its new name; old message ids keep the old name."""
        with self._writing() as conn:
            for (key,) in conn.execute("SELECT key FROM documents").fetchall():
                parts = key.split("/")
                if segment(old) in parts:
                    renamed = "/".join(
                        segment(new) if part == segment(old) else part for part in parts
                    )
                    conn.execute(
                        "UPDATE OR REPLACE documents SET key = ?, body = CASE "
                        "WHEN json_type(body, '$.ids') = 'array' THEN json_set(body, '$.ids', "
                        "(SELECT json_group_array(iif(value = ?, ?, value)) "
                        "FROM json_each(body, '$.ids'))) ELSE body END WHERE key = ?",
                        (renamed, old, new, key),
                    )
            conn.execute(  # a round names the chat it is played in
                "UPDATE documents SET body = json_set(body, '$.chat', ?) "
                "WHERE json_extract(body, '$.chat') = ?",
                (new, old),
            )
            for table in ("messages", "entries"):
                conn.execute(
                    f"UPDATE {table} SET chat = ?, message_id = ? || message_id WHERE chat = ?",  # noqa: S608
                    (new, f"{old}:", old),
                )
            conn.execute("UPDATE outbox SET chat = ?, sent_id = NULL WHERE chat = ?", (new, old))
            conn.execute("UPDATE inbox SET queue = ? WHERE queue = ?", (new, old))
            conn.execute(
                "INSERT INTO admitted SELECT ?, at FROM admitted WHERE name = ? "
                "ON CONFLICT DO NOTHING",
                (new, old),
            )

    def waiting(self) -> Waiting:
        """How much mail waits."""
        inbox, since = self._rows(
            "SELECT count(*), min(at) FROM inbox WHERE state = 'open'"
        ).fetchone()
        outbox, oldest = self._rows(
            "SELECT count(*), min(created) FROM outbox WHERE state = 'waiting'"
        ).fetchone()
        (parked,) = self._rows("SELECT count(*) FROM inbox WHERE state = 'parked'").fetchone()
        return Waiting(
            inbox=inbox,
            inbox_since=datetime.fromisoformat(since) if since else None,
            outbox=outbox,
            outbox_since=datetime.fromisoformat(oldest) if oldest else None,
            parked=parked,
        )

    def tidy(self, before: datetime) -> int:
        """Drop what completed mail leaves behind; says how much."""
        with self._writing(durable=False) as conn:
            gone = conn.execute(
                "DELETE FROM inbox WHERE state <> 'open' AND at < ?", (stamp(before),)
            ).rowcount
            return (
                gone
                + conn.execute(
                    "DELETE FROM outbox WHERE state <> 'waiting' AND created < ?", (stamp(before),)
                ).rowcount
            )
