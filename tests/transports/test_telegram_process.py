"""The bot as a real process against the stand-in platform, by polling and by webhook."""

import asyncio
import contextlib
import json
from collections.abc import AsyncIterator
from pathlib import Path

import pytest

from tests.support.platform import TOKEN, Platform
from tests.support.service import Service


@contextlib.asynccontextmanager
async def serving(
    folder: Path, mode: str, **extra: str
) -> AsyncIterator[tuple[Platform, Service]]:
    platform = Platform()
    await platform.start()
    service = Service(platform, folder, mode, extra)
    await service.start()
    try:
        yield platform, service
    finally:
        with contextlib.suppress(ProcessLookupError):
            await service.stop()
        await platform.stop()


@pytest.mark.parametrize("mode", ["polling", "webhook"])
async def test_a_shot_is_answered_in_two_lines_and_every_request_is_allowed(
    tmp_path: Path, mode: str
) -> None:
    async with serving(tmp_path, mode) as (platform, service):
        platform.say("150, 10 mph into, water left")
        await platform.until(lambda: bool(platform.texts(7)))
        (text,) = platform.texts(7)
        assert 1 <= len(text.splitlines()) <= 2
        platform.say("/help@pocket_test_bot", chat=-100, user=8)
        platform.say("/help@another_bot", chat=-100, user=8)
        platform.say("nice morning", chat=-100, user=8)
        await platform.until(lambda: bool(platform.texts(-100)))
        await platform.until(lambda: not platform.pending or mode == "polling")
        await asyncio.sleep(0.3)
        assert len(platform.texts(-100)) == 1
        assert await service.stop() == 0
        assert platform.refused == []
        assert set(platform.commands) == {"all_private_chats", "all_group_chats"}
        log = service.log.read_text()
        assert TOKEN not in log
        assert TOKEN.partition(":")[2] not in log
        assert "water left" not in log, "no player's text is logged"
        for line in log.splitlines():
            json.loads(line)


async def test_a_shot_does_not_wait_for_another_chats_pictures(tmp_path: Path) -> None:
    async with serving(tmp_path, "webhook", CADDIE_SENDS_PER_CHAT="100") as (platform, _):
        played = (
            "7 iron 150, handicap 18", "skip", "start round", "practice round", "150 into 10",
            "made 5",
        )  # fmt: skip
        for n, text in enumerate(played):
            platform.say(text, user=7)
            await platform.until(lambda n=n: len(platform.texts(7)) > n)  # type: ignore[misc]
        platform.say("7 iron 150, handicap 18", user=8)
        await platform.until(lambda: bool(platform.texts(8)))
        platform.say("picture", user=7)
        await platform.until(lambda: "Pictures" in platform.texts(7)[-1])
        platform.say("160 into 10", user=8)
        await platform.until(lambda: any(s.method == "sendphoto" for s in platform.sent), 60)
        order = [s.method for s in platform.sent if s.method != "sendchataction"]
        assert order[-1] == "sendphoto"
        assert len(platform.texts(8)) == 2, "the shot was answered before the picture came"


async def test_a_second_instance_is_refused(tmp_path: Path) -> None:
    async with serving(tmp_path, "polling") as (platform, _):
        await platform.until(lambda: bool(platform.requests))
        second = Service(platform, tmp_path, "polling")
        await second.start()
        assert second.process is not None
        assert await asyncio.wait_for(second.process.wait(), 20) == 6


async def test_what_came_while_it_was_down_is_answered_after_the_start(tmp_path: Path) -> None:
    async with serving(tmp_path, "webhook") as (platform, service):
        await platform.until(lambda: bool(platform.hook))
        await service.kill()
        platform.say("150, 10 mph into")
        await asyncio.sleep(0.2)
        assert platform.texts(7) == []
        await service.start()
        await platform.until(lambda: bool(platform.texts(7)))
