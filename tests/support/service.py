"""The bot as a real process, set up against the stand-in platform."""

import asyncio
import os
import signal
import socket
import sqlite3
import sys
from dataclasses import dataclass, field
from pathlib import Path

from tests.support.platform import TOKEN, Platform

ROOT = Path(__file__).parents[2]


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@dataclass
class Service:
    """Starts, kills and stops `caddie telegram` on one store."""

    platform: Platform
    folder: Path
    mode: str = "polling"
    extra: dict[str, str] = field(default_factory=dict)
    process: asyncio.subprocess.Process | None = None
    module: str = "bot"

    def __post_init__(self) -> None:
        token = self.folder / "token"
        token.write_text(TOKEN)
        token.chmod(0o600)
        self.port = free_port()
        self.log = self.folder / "log.jsonl"

    @property
    def data(self) -> Path:
        return self.folder / "caddie.sqlite"

    @property
    def environment(self) -> dict[str, str]:
        return {
            "PATH": os.environ["PATH"],
            "OPENBLAS_NUM_THREADS": "1",
            "CADDIE_DATA": str(self.data),
            "CADDIE_TOKEN_FILE": str(self.folder / "token"),
            "CADDIE_API_URL": self.platform.url,
            "CADDIE_MODE": self.mode,
            "CADDIE_LISTEN": f"127.0.0.1:{self.port}",
            "CADDIE_PUBLIC_URL": f"http://127.0.0.1:{self.port}",
            "CADDIE_ACCESS": "open",
            "CADDIE_LOG": "DEBUG",
            **self.extra,
        }

    async def start(self) -> None:
        with self.log.open("ab") as log:
            self.process = await asyncio.create_subprocess_exec(
                sys.executable, "-m", self.module, "telegram",
                cwd=ROOT, env=self.environment, stdout=log, stderr=log,
            )  # fmt: skip

    async def kill(self) -> None:
        """As a power cut would: no warning."""
        assert self.process is not None
        if self.process.returncode is None:
            self.process.send_signal(signal.SIGKILL)
        await self.process.wait()

    async def stop(self) -> int:
        assert self.process is not None
        if self.process.returncode is None:
            self.process.send_signal(signal.SIGTERM)
        return await asyncio.wait_for(self.process.wait(), 20)

    def rows(self, sql: str) -> list[tuple[object, ...]]:
        """Read the store with an ordinary tool."""
        plain = sqlite3.connect(f"file:{self.data}?mode=ro", uri=True)
        try:
            return plain.execute(sql).fetchall()
        finally:
            plain.close()
