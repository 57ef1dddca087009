"""Secrets, rights and what others can slip in: what a stranger or another user must not get."""

import io
import logging
import re
import stat
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest
from telegram.error import TelegramError
from telegram.request import HTTPXRequest

from bot.conversation import Conversation
from bot.model.message import Message
from bot.storage import MemoryStore, SqliteStore
from bot.storage.lock import locked
from bot.transports.logs import set_up
from tests.support.chats import ROOT, Speaker, say

TOKEN = "4100:an-invented_token-for-tests"
# Sandboxing every service should have, after systemd.exec(5).
UNIT = (
    "NoNewPrivileges=yes", "ProtectSystem=strict", "ProtectHome=yes", "PrivateTmp=yes",
    "PrivateDevices=yes", "DynamicUser=yes", "CapabilityBoundingSet=", "UMask=0077",
    "MemoryDenyWriteExecute=yes", "RestrictNamespaces=yes", "SystemCallFilter=@system-service",
    "RestrictAddressFamilies=AF_INET AF_INET6 AF_UNIX", "LockPersonality=yes",
)  # fmt: skip
NAMES = (
    "../../etc/passwd", "a/b\\c", "<b>Bo</b>", "[x](tg://user?id=1)", "*_`~", "%2F%00", "\u202eBo",
    "Bo\nKept: 7 iron 150.", "'; DROP TABLE documents; --", "N" * 256,
)  # fmt: skip


@pytest.fixture
def quiet_again():
    root = logging.getLogger()
    before = root.handlers[:], root.level
    yield
    root.handlers[:], root.level = before


@pytest.mark.parametrize("level", ["DEBUG", "INFO", "WARNING", "ERROR"])
@pytest.mark.usefixtures("quiet_again")
def test_the_token_is_struck_out_at_every_level(level: str) -> None:
    said = io.StringIO()
    set_up(level, [TOKEN], said)
    log = logging.getLogger("bot.any")
    url = f"https://api.example/bot{TOKEN}/getUpdates"
    for at in (logging.DEBUG, logging.INFO, logging.WARNING, logging.ERROR):
        log.log(at, "asked %s", url, extra={"where_to": url, "half": TOKEN.partition(":")[2]})
    try:
        raise ValueError(url)
    except ValueError:
        log.exception("failed at %s", url)
    assert said.getvalue()
    assert TOKEN not in said.getvalue()
    assert TOKEN.partition(":")[2] not in said.getvalue()


@pytest.mark.usefixtures("quiet_again")
def test_a_garbled_answer_of_the_platform_is_not_quoted() -> None:
    said = io.StringIO()
    set_up("DEBUG", [TOKEN], said)
    with pytest.raises(TelegramError):
        HTTPXRequest.parse_json_payload(b'{"text": "160 into the zebra wind"')
    assert "zebra" not in said.getvalue()


def test_no_words_of_a_player_are_logged(caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.DEBUG)
    conversation = Conversation(MemoryStore())
    speaker = Speaker(sender="someone-odd", name="Wilhelmina")
    for n, text in enumerate(
        ("160 into the zebra wind", "zebra", "my zebra is 12", "zebra" * 999)
    ):
        conversation.handle(say(speaker, text, str(n)))
    assert "zebra" not in caplog.text
    assert "Wilhelmina" not in caplog.text


@pytest.mark.parametrize("name", NAMES)
def test_names_are_only_names(tmp_path: Path, name: str) -> None:
    store = SqliteStore(tmp_path / "caddie.sqlite")
    conversation = Conversation(store)
    for n, text in enumerate(("7 iron 150", "150 into 10", f"let {name[:40]} ask for me", "bag")):
        reply = conversation.handle(
            Message(
                chat=name[:128], sender=name[:128], name=name, text=text, kind="group",
                sent_at=datetime(2026, 6, 1, 9, n, tzinfo=UTC), message_id=str(n),
            )
        )  # fmt: skip
        assert all("\n" not in line for line in reply.lines), reply.lines
        assert len(reply.lines) > 2 or all(len(line) <= 64 for line in reply.lines)
    store.close()
    assert {p.name.split("-")[0] for p in tmp_path.iterdir()} == {"caddie.sqlite"}


def test_files_of_the_store_are_the_owners_alone(tmp_path: Path) -> None:
    made = tmp_path / "new" / "caddie.sqlite"
    run = subprocess.run(
        [sys.executable, "-m", "bot", "--data", str(made), "help"],
        cwd=ROOT, check=True, capture_output=True, umask=0o000,
    )  # fmt: skip
    assert run.returncode == 0
    assert stat.S_IMODE(made.parent.stat().st_mode) == 0o700
    store = SqliteStore(made)
    Conversation(store).handle(say(Speaker(), "150", "1"))
    modes = {p.name: stat.S_IMODE(p.stat().st_mode) for p in made.parent.iterdir()}
    store.close()
    assert "caddie.sqlite-wal" in modes
    assert set(modes.values()) == {0o600}, modes


@pytest.mark.parametrize("line", UNIT)
def test_the_service_is_shut_in(line: str) -> None:
    assert line in (ROOT / "deploy/caddie.service").read_text("utf-8").splitlines()


@pytest.mark.parametrize("listed", ["requirements.txt", "requirements-dev.txt"])
def test_every_dependency_is_pinned_and_hashed(listed: str) -> None:
    text = (ROOT / "deploy" / listed).read_text("utf-8").replace("\\\n", " ")
    wanted = [line for line in text.splitlines() if line and not line.lstrip().startswith("#")]
    assert wanted
    for line in wanted:
        assert re.match(r"[A-Za-z0-9._-]+(\[[^\]]+\])?==\S+ ", line), line
        assert "--hash=sha256:" in line, line
        assert "://" not in line


def test_the_lock_beside_the_store_is_the_owners_alone(tmp_path: Path) -> None:
    with locked(tmp_path / "caddie.sqlite"):
        (made,) = tmp_path.iterdir()
        assert stat.S_IMODE(made.stat().st_mode) == 0o600
