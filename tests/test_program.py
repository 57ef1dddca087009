"""The program as a person starts it: answers, exit codes, and a store that cannot be used."""

import io
import json
import os
import sqlite3
from pathlib import Path

import pytest

from bot.__main__ import main
from tests.support.chats import DEMO

SHOT = "160, into 18 mph, uphill 8 ft, water right"


def run(capsys: pytest.CaptureFixture[str], *argv: str) -> tuple[int, str, str]:
    code = main(list(argv))
    out, err = capsys.readouterr()
    return code, out, err


def test_one_message_is_answered_in_two_lines(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, out, _ = run(capsys, "--data", str(tmp_path / "c.sqlite"), "--demo", str(DEMO), SHOT)
    assert code == 0
    lines = out.splitlines()
    assert len(lines) == 2
    assert all(len(line) <= 64 for line in lines)
    assert "water" in lines[1].lower()


def test_explain_shows_the_reading_and_the_numbers(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, "--data", ":memory:", "--demo", str(DEMO), "--explain", SHOT)
    shown = json.loads(out.partition("{")[1] + out.partition("{")[2])
    assert shown["reading"]["acts"][0]["act"] == "shot"
    assert shown["answer"][0]["best"]["club"]


def test_the_same_file_of_messages_adds_nothing_the_second_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    data = tmp_path / "c.sqlite"
    said = [
        SHOT,
        "why",
        "sorry 165",
        "7 iron, short right",
        "hole 2 par 4 400, ob right",
        "made 5",
    ]
    lines = "".join(
        json.dumps({
            "chat": "me", "sender": "me", "text": text, "message_id": str(n),
            "sent_at": f"2026-06-01T09:{n:02}:00+00:00",
        }) + "\n"
        for n, text in enumerate(said)
    )  # fmt: skip

    def piped() -> list[dict[str, object]]:
        stdin = io.TextIOWrapper(io.BytesIO(lines.encode()))
        monkeypatch.setattr("sys.stdin", stdin)
        code, out, _ = run(capsys, "--data", str(data), "--demo", str(DEMO), "pipe")
        assert code == 0
        return [json.loads(line) for line in out.splitlines()]

    def logged() -> int:
        with sqlite3.connect(data) as db:
            (count,) = db.execute("SELECT count(*) FROM entries").fetchone()
        return int(count)

    first = piped()
    count = logged()
    second = piped()
    assert count > 0
    assert logged() == count
    assert [a["reply"] for a in second] == [a["reply"] for a in first]
    assert [a["answer"] for a in second] == [a["answer"] for a in first]
    assert all(a["repeated"] for a in second)
    assert not any(a["repeated"] for a in first)


def test_a_file_that_is_no_store_is_named_and_left_alone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "c.sqlite"
    path.write_bytes(b"not a store at all" * 100)
    code, out, err = run(capsys, "--data", str(path), SHOT)
    assert code == 1
    assert out == ""
    assert str(path) in err
    assert path.read_bytes() == b"not a store at all" * 100


def test_a_store_of_a_newer_release_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "c.sqlite"
    run(capsys, "--data", str(path), SHOT)
    with sqlite3.connect(path) as db:
        table = "_sqlite_migrations"
        columns = [row[1] for row in db.execute(f"PRAGMA table_info({table})")]
        newest = list(db.execute(f"SELECT * FROM {table} ORDER BY rowid DESC LIMIT 1").fetchone())
        newest[columns.index("name")] = "step_of_the_future"
        if "id" in columns:
            newest[columns.index("id")] = None
        marks = ",".join("?" * len(columns))
        db.execute(f"INSERT INTO {table} VALUES ({marks})", newest)
    code, _, err = run(capsys, "--data", str(path), SHOT)
    assert code == 1
    assert "newer" in err


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write anywhere")
def test_a_directory_that_cannot_be_written_is_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    tmp_path.chmod(0o500)
    code, _, err = run(capsys, "--data", str(tmp_path / "c.sqlite"), SHOT)
    assert code == 1
    assert str(tmp_path) in err
