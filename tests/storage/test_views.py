"""Can an ordinary SQLite tool read shots, answers, results and rounds by plain column names?"""

import sqlite3
from pathlib import Path

import pytest

from bot.storage.sqlite import SqliteStore
from tests.bot.turn.test_review import ROUND
from tests.support.chats import play


def test_the_views_have_plain_columns(tmp_path: Path) -> None:
    store = SqliteStore(tmp_path / "a.sqlite")
    play(ROUND, store)
    store.close()
    conn = sqlite3.connect(tmp_path / "a.sqlite")
    conn.row_factory = sqlite3.Row
    approach = dict(conn.execute("SELECT * FROM shots WHERE club = '7i'").fetchone())
    assert (approach["hole"], approach["distance"], approach["unit"]) == (1, 148.0, "yd")
    assert (approach["advised"], approach["depth"], approach["side"]) == (
        "6i",
        "pin_high",
        "right",
    )
    gap = approach["played_strokes"] - approach["best_strokes"]
    assert approach["choice_cost"] == pytest.approx(gap)
    assert conn.execute("SELECT count(*) FROM answers WHERE strokes IS NULL").fetchone()[0] == 0
    assert conn.execute("SELECT sum(penalty) FROM results").fetchone()[0] == 1
    (row,) = conn.execute("SELECT player, answers, results FROM rounds").fetchall()
    assert row["player"] == "me"
    conn.close()
