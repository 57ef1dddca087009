"""The runbook's procedures, carried out as written against the stand-in platform."""

import contextlib
import os
import sqlite3
import subprocess
import sys
from collections.abc import AsyncIterator
from pathlib import Path

import pytest
from sqlite_utils import Database

from bot.storage.migrations import steps
from tests.support.platform import Platform
from tests.support.service import ROOT, Service

NEW_TOKEN = "4200:another-one_for-the_tests"


@pytest.fixture
def caddie(tmp_path: Path) -> str:
    """A `caddie` command for the scripts, from this checkout."""
    script = tmp_path / "caddie"
    script.write_text(f'#!/bin/sh\ncd "{ROOT}" && exec "{sys.executable}" -m bot "$@"\n')
    script.chmod(0o700)
    return str(script)


def run(*words: object, caddie: str) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "CADDIE": caddie}
    command = [str(w) for w in words]
    return subprocess.run(command, env=environment, capture_output=True, text=True, timeout=60)


@contextlib.asynccontextmanager
async def platform() -> AsyncIterator[Platform]:
    made = Platform()
    await made.start()
    try:
        yield made
    finally:
        await made.stop()


async def answered(made: Platform, service: Service, text: str = "150 into 10") -> None:
    """One message is sent and answered."""
    before = len(made.texts(7))
    made.say(text)
    await made.until(lambda: len(made.texts(7)) > before)


async def test_back_up_in_use_restore_and_carry_on(tmp_path: Path, caddie: str) -> None:
    async with platform() as made:
        service = Service(made, tmp_path)
        await service.start()
        await answered(made, service)
        copies = tmp_path / "copies"
        assert (
            run("bash", ROOT / "deploy/backup", service.data, copies, caddie=caddie).returncode
            == 0
        )
        (copy,) = copies.iterdir()
        await answered(made, service)
        refused = run("bash", ROOT / "deploy/restore", copy, service.data, caddie=caddie)
        assert refused.returncode == 1
        assert "stop it" in refused.stderr
        assert await service.stop() == 0
        restored = run("bash", ROOT / "deploy/restore", copy, service.data, caddie=caddie)
        assert restored.returncode == 0, restored.stderr
        assert service.rows("SELECT count(*) FROM messages") == [(1,)]
        await service.start()
        await answered(made, service)
        health = run(caddie, "health", "--data", service.data, caddie=caddie)
        assert health.returncode == 0, health.stdout
        assert await service.stop() == 0


async def test_move_to_another_machine(tmp_path: Path, caddie: str) -> None:
    async with platform() as made:
        old = tmp_path / "old"
        new = tmp_path / "new"
        old.mkdir()
        new.mkdir()
        first = Service(made, old)
        await first.start()
        await answered(made, first)
        assert await first.stop() == 0
        made.say("160 into 5")
        run("bash", ROOT / "deploy/backup", first.data, tmp_path / "copies", caddie=caddie)
        (copy,) = (tmp_path / "copies").iterdir()
        second = Service(made, new)
        moved = run("bash", ROOT / "deploy/restore", copy, second.data, caddie=caddie)
        assert moved.returncode == 0, moved.stderr
        await second.start()
        await made.until(lambda: len(made.texts(7)) == 2)
        assert second.rows("SELECT count(*) FROM messages") == [(2,)]
        assert await second.stop() == 0


async def test_change_the_token(tmp_path: Path) -> None:
    async with platform() as made:
        service = Service(made, tmp_path, "webhook")
        await service.start()
        await answered(made, service)
        secret = made.hook["secret_token"]
        made.token = NEW_TOKEN
        assert await service.stop() == 0
        await service.start()
        assert service.process is not None
        assert await service.process.wait() == 3, "the old token is refused"
        (tmp_path / "token").write_text(NEW_TOKEN)
        await service.start()
        await made.until(lambda: made.hook["secret_token"] != secret)
        await answered(made, service)
        assert await service.stop() == 0


async def test_upgrade_from_the_release_before(tmp_path: Path) -> None:
    async with platform() as made:
        service = Service(made, tmp_path)
        names = [step.name for step in steps.pending(Database(memory=True))]
        plain = sqlite3.connect(service.data)
        steps.apply(Database(plain), stop_before=names[-1])
        plain.close()
        await service.start()
        await answered(made, service)
        applied = service.rows("SELECT name FROM _sqlite_migrations ORDER BY name")
        assert [name for (name,) in applied] == names
        assert await service.stop() == 0
