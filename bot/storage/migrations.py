"""How the tables came to be: numbered steps, never changed once released."""

from sqlite_utils import Database, Migrations

from bot.storage.steps import NAMES, SET

steps = Migrations(SET)

FIRST = """
CREATE TABLE documents (
    key TEXT PRIMARY KEY,
    version INTEGER NOT NULL,
    body TEXT NOT NULL
) STRICT;
CREATE TABLE messages (
    chat TEXT NOT NULL,
    message_id TEXT NOT NULL,
    player TEXT NOT NULL,
    name TEXT NOT NULL,
    at TEXT NOT NULL,
    chat_kind TEXT NOT NULL,
    text TEXT NOT NULL,
    reply_to TEXT,
    edit_of TEXT,
    reading TEXT NOT NULL,
    answers TEXT NOT NULL,
    reply TEXT NOT NULL,
    PRIMARY KEY (chat, message_id)
) STRICT;
CREATE INDEX messages_of_player ON messages (player, at);
CREATE INDEX messages_of_chat ON messages (chat, at);
CREATE TABLE entries (
    id INTEGER PRIMARY KEY,
    kind TEXT NOT NULL,
    chat TEXT NOT NULL,
    message_id TEXT NOT NULL,
    n INTEGER NOT NULL,
    player TEXT NOT NULL,
    at TEXT NOT NULL,
    round TEXT,
    hole INTEGER,
    profile_version INTEGER,
    engine_version TEXT,
    undoes INTEGER,
    body TEXT NOT NULL,
    UNIQUE (chat, message_id, n)
) STRICT;
CREATE INDEX entries_of_player ON entries (player, at);
CREATE INDEX entries_of_chat ON entries (chat, at);
CREATE INDEX entries_of_round ON entries (round, at) WHERE round IS NOT NULL;
CREATE INDEX entries_undoing ON entries (undoes) WHERE undoes IS NOT NULL;
CREATE INDEX profile_versions ON entries (player, profile_version) WHERE kind = 'profile';
CREATE TABLE blobs (
    kind TEXT NOT NULL,
    key TEXT NOT NULL,
    body BLOB NOT NULL,
    PRIMARY KEY (kind, key)
) STRICT;
CREATE TABLE inbox (
    source TEXT NOT NULL,
    update_id INTEGER NOT NULL,
    queue TEXT NOT NULL,
    at TEXT NOT NULL,
    raw TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('open', 'done', 'parked')),
    attempts INTEGER NOT NULL DEFAULT 0,
    why TEXT,
    PRIMARY KEY (source, update_id)
) STRICT;
CREATE INDEX inbox_open ON inbox (queue, at, update_id) WHERE state = 'open';
CREATE INDEX inbox_parked ON inbox (at) WHERE state = 'parked';
CREATE TABLE outbox (
    id INTEGER PRIMARY KEY,
    source TEXT,
    update_id INTEGER,
    n INTEGER NOT NULL,
    chat TEXT NOT NULL,
    kind TEXT NOT NULL,
    payload TEXT NOT NULL,
    answers TEXT,
    state TEXT NOT NULL CHECK (state IN ('waiting', 'sent', 'dropped')),
    attempts INTEGER NOT NULL DEFAULT 0,
    created TEXT NOT NULL,
    not_before TEXT NOT NULL DEFAULT '',
    sent_at TEXT,
    sent_id TEXT,
    why TEXT,
    UNIQUE (source, update_id, n)
) STRICT;
CREATE INDEX outbox_waiting ON outbox (chat, id) WHERE state = 'waiting';
CREATE INDEX outbox_sent ON outbox (chat, sent_id) WHERE sent_id IS NOT NULL;
CREATE VIEW standing AS
    SELECT e.* FROM entries e
    WHERE e.undoes IS NULL AND NOT EXISTS (
        SELECT 1 FROM entries u WHERE u.undoes = e.id AND NOT EXISTS (
            SELECT 1 FROM entries v WHERE v.undoes = u.id));
CREATE VIEW answers AS
    SELECT id, at, player, chat, round, hole, profile_version, engine_version, body
    FROM standing WHERE kind = 'answer';
CREATE VIEW results AS
    SELECT id, at, player, chat, round, hole, profile_version, engine_version, body
    FROM standing WHERE kind = 'result';
CREATE VIEW scores AS
    SELECT id, at, player, chat, round, hole, body FROM standing WHERE kind = 'score';
CREATE VIEW rounds AS
    SELECT round, player, min(at) AS began, max(at) AS ended, count(DISTINCT hole) AS holes,
        sum(kind = 'answer') AS answers, sum(kind = 'result') AS results
    FROM standing WHERE round IS NOT NULL GROUP BY round, player;
CREATE VIEW shots AS
    SELECT id, at, kind, player, chat, round, hole, body
    FROM standing WHERE kind IN ('answer', 'result');
"""

SECOND = """
CREATE TABLE marks (
    name TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT;
CREATE TABLE admitted (
    name TEXT PRIMARY KEY,
    at TEXT NOT NULL
) STRICT;
"""


# One line a result or answer with plain columns, for any SQLite tool. A view keeps nothing.
THIRD = """
DROP VIEW shots;
DROP VIEW answers;
DROP VIEW results;
CREATE VIEW answers AS
    SELECT id, at, player, chat, message_id, round, hole, profile_version, engine_version,
        json_extract(body, '$.advice.kind') AS asked,
        json_extract(body, '$.advice.distance.value') AS distance,
        json_extract(body, '$.advice.distance.unit') AS unit,
        json_extract(body, '$.advice.best.club') AS club,
        json_extract(body, '$.advice.best.swing') AS swing,
        coalesce(json_extract(body, '$.advice.best.strokes'),
                 json_extract(body, '$.advice.best.expected'),
                 json_extract(body, '$.advice.expected')) AS strokes,
        body
    FROM standing WHERE kind = 'answer';
CREATE VIEW results AS
    SELECT id, at, player, chat, message_id, round, hole, profile_version,
        json_extract(body, '$.shot') AS answer_message_id,
        json_extract(body, '$.club') AS club,
        json_extract(body, '$.told.depth') AS depth,
        json_extract(body, '$.told.side') AS side,
        json_extract(body, '$.told.contact') AS contact,
        json_extract(body, '$.told.lie[0]') AS lie,
        json_extract(body, '$.told.putts') AS putts,
        json_extract(body, '$.penalty') AS penalty,
        json_extract(body, '$.priced.best') AS best_strokes,
        json_extract(body, '$.priced.played') AS played_strokes,
        body
    FROM standing WHERE kind = 'result';
CREATE VIEW shots AS
    SELECT r.id, r.at, r.player, r.chat, r.round, r.hole, a.asked, a.distance, a.unit,
        a.club AS advised, a.swing AS advised_swing, r.club, r.depth, r.side, r.contact, r.lie,
        r.putts, r.penalty, r.best_strokes, r.played_strokes,
        r.played_strokes - r.best_strokes AS choice_cost
    FROM results r LEFT JOIN answers a
        ON a.chat = r.chat AND a.message_id = r.answer_message_id AND a.player = r.player
"""


@steps(name=NAMES[0])
def _first(db: Database) -> None:
    _run(db, FIRST)


@steps(name=NAMES[1])
def _second(db: Database) -> None:
    _run(db, SECOND)


@steps(name=NAMES[2])
def _third(db: Database) -> None:
    _run(db, THIRD)


def _run(db: Database, script: str) -> None:
    """Run statements inside the step's own transaction."""
    for statement in script.split(";\n"):
        if statement.strip():
            db.conn.execute(statement)
