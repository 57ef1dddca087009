"""The webhook's door, the page of health, and what a check of the whole finds."""

import asyncio
import json
import socket
from collections.abc import AsyncIterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from tornado.httpclient import AsyncHTTPClient, HTTPClientError, HTTPResponse

from bot.settings import Settings
from bot.storage import MemoryStore, Send, SqliteStore
from bot.storage.errors import StoreFull
from bot.storage.store import Update
from bot.transports.telegram import web
from bot.transports.telegram.doctor import examine
from bot.transports.telegram.health import ALIVE, HEARD, health
from bot.transports.telegram.notify import notify
from tests.support.platform import TOKEN, Platform
from tests.support.service import free_port

NOW = datetime(2031, 5, 4, 12, tzinfo=UTC)


@dataclass
class Door:
    """A webhook server and what came through it."""

    port: int = field(default_factory=free_port)
    came: list[Any] = field(default_factory=list)
    trouble: bool = False
    well: bool = True

    async def receive(self, raw: list[Any]) -> None:
        if self.trouble:
            raise StoreFull("x")
        self.came += raw

    async def health(self) -> dict[str, Any]:
        return {"healthy": self.well}

    async def post(
        self, body: bytes, secret: str = "right", path: str = "/telegram"
    ) -> HTTPResponse:
        return await AsyncHTTPClient().fetch(
            f"http://127.0.0.1:{self.port}{path}",
            method="POST",
            body=body,
            headers={web.SECRET_HEADER: secret},
            raise_error=False,
        )

    async def get(self) -> HTTPResponse:
        url = f"http://127.0.0.1:{self.port}/health"
        return await AsyncHTTPClient().fetch(url, raise_error=False)


@pytest.fixture
async def door() -> AsyncIterator[Door]:
    made = Door()
    server = web.serve(f"127.0.0.1:{made.port}", "right", made.receive, made.health)
    yield made
    server.stop()
    await server.close_all_connections()


async def test_an_update_is_taken_with_the_secret_only(door: Door) -> None:
    assert (await door.post(b'{"update_id":1}', "wrong")).code == 403
    assert (await door.post(b'{"update_id":1}', "")).code == 403
    assert door.came == []
    assert (await door.post(b'{"update_id":1}')).code == 200
    assert door.came == [{"update_id": 1}]


async def test_what_is_no_json_is_refused_and_what_is_not_stored_is_asked_for_again(
    door: Door,
) -> None:
    assert (await door.post(b"\xff\xfe{")).code == 400
    door.trouble = True
    assert (await door.post(b'{"update_id":1}')).code == 503
    assert (await door.post(b"{}", path="/else")).code == 404


async def test_a_body_beyond_the_limit_is_not_read(door: Door) -> None:
    body = b'"' + b"x" * (web.MAX_BODY + 10) + b'"'
    try:
        code = (await door.post(body)).code
    except (OSError, HTTPClientError):
        code = 400  # the connection was closed on us
    assert code >= 400
    assert door.came == []


async def test_the_page_of_health_follows_the_state(door: Door) -> None:
    assert (await door.get()).code == 200
    door.well = False
    answer = await door.get()
    assert answer.code == 503
    assert json.loads(answer.body) == {"healthy": False}


def test_health_names_what_is_wrong() -> None:
    store = MemoryStore()
    assert health(store, NOW, 55.0)["wrong"] == ["alive_s", "heard_s"]
    store.mark(ALIVE, NOW.isoformat())
    store.mark(HEARD, (NOW - timedelta(seconds=50)).isoformat())
    assert health(store, NOW, 55.0)["healthy"]
    assert health(store, NOW + timedelta(seconds=10), 55.0)["wrong"] == ["heard_s"]
    old = Update(source="tg", update_id=1, queue="c", at=NOW - timedelta(hours=1), raw="{}")
    store.receive([old])
    assert health(store, NOW, 55.0)["wrong"] == ["inbox_s"]
    store.post([Send(chat="c", payload={})])
    later = datetime.now(UTC) + timedelta(hours=1)
    assert "outbox_s" in health(store, later, 55.0)["wrong"]


async def _findings(settings: Settings, data: Path) -> dict[str, tuple[bool, str]]:
    def look() -> dict[str, tuple[bool, str]]:
        found = examine(settings, data, lambda: SqliteStore(data))
        return {f.what: (f.ok, f.detail) for f in found}

    return await asyncio.to_thread(look)


async def test_a_check_of_the_whole(tmp_path: Path) -> None:
    platform = Platform()
    await platform.start()
    token = tmp_path / "token"
    token.write_text(TOKEN)
    token.chmod(0o600)
    data = tmp_path / "caddie.sqlite"
    settings = Settings(token_file=token, api_url=platform.url, allowed=(7,))
    found = await _findings(settings, data)
    assert all(ok for ok, _ in found.values()), found
    assert "pocket_test_bot" in found["platform"][1]
    platform.token = "4200:changed-long_ago"
    found = await _findings(settings, data)
    assert found["platform"] == (False, "it refuses the token: make a new one")
    await platform.stop()
    found = await _findings(settings, data)
    assert not found["platform"][0]
    data.chmod(0o644)
    token.chmod(0o644)
    found = await _findings(settings.model_copy(update={"allowed": ()}), data)
    assert [what for what, (ok, _) in found.items() if not ok] == [
        "access",
        "permissions",
        "token",
    ]
    data.write_bytes(b"not a store at all" * 99)
    assert not (await _findings(settings, data))["store"][0]


def test_the_service_manager_is_told(tmp_path: Path) -> None:
    path = str(tmp_path / "notify")
    with socket.socket(socket.AF_UNIX, socket.SOCK_DGRAM) as manager:
        manager.bind(path)
        notify(path, "READY=1")
        assert manager.recv(99) == b"READY=1"
    notify(path, "nobody listens any more")
    notify(None, "READY=1")
