"""How much can one process take by webhook, how long does a reply take, and what memory?

Real processes on loopback against the stand-in platform. The baseline is the same service with a
handler that sends the text back. For the rates the service is held to one core, since threads on
two spend a tenth more on moving what they share, and they are by the CPU of its own process, so
that the load generator and other work on the machine do not count; latencies are by the clock, on
all cores, and do include them. About a minute and a half; ``--messages N`` sends more than 400 in
the flood.
"""

from __future__ import annotations

import asyncio
import os
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.bench._table import Row, finish
from tests.bench.chat import FAST, PLAYER, roomy, shot
from tests.support.platform import Platform
from tests.support.service import Service

PLAYERS = range(1, 21)
FIRST = (*PLAYER, *map(shot, range(4)))
STEADY_RATE, STEADY = 4, 80  # messages a second, and how many, for the latencies


async def main(argv: list[str]) -> int:
    """Print the table; 1 if a goal is missed."""
    count = int(argv[argv.index("--messages") + 1]) if "--messages" in argv else 400
    ours = await _measure("bot", count)
    echo = await _measure("tests.support.echo_bot", count)
    waits, alone = ours["waits"], echo["waits"]
    rows = [
        Row("shots a second of one core", ours["rate"], max(60.0, 0.25 * echo["rate"]), "/s",
            "above", baseline=echo["rate"]),
        Row("reply, median", _at(waits, 0.5), 40.0, "ms", baseline=_at(alone, 0.5)),
        Row("reply, 95th percentile", _at(waits, 0.95), 90.0, "ms", baseline=_at(alone, 0.95)),
        Row("reply, 99th percentile", _at(waits, 0.99), 150.0, "ms", baseline=_at(alone, 0.99)),
        Row("memory, idle", ours["idle"], 130.0, "MB", baseline=echo["idle"]),
        Row(f"memory after {count + STEADY} messages", ours["after"], 200.0, "MB",
            baseline=echo["after"]),
        Row("requests refused or replies missing", ours["wrong"], 0),
    ]  # fmt: skip
    return finish("Load by webhook; the baseline is the service with an echo", rows, argv)


async def _measure(module: str, count: int) -> dict[str, object]:
    platform = roomy()
    await platform.start()
    with tempfile.TemporaryDirectory() as folder:
        service = Service(platform, Path(folder), "webhook", FAST, module=module)
        await service.start()
        await platform.until(lambda: bool(platform.hook), 60)
        assert service.process is not None
        pid = service.process.pid
        idle = _resident_mb(pid)
        for line in FIRST:
            await _said(platform, [(line, user) for user in PLAYERS])
        waits = await _steady(platform)
        _hold_to_one_core(pid)
        before = _cpu_s(pid)
        await _said(platform, [(shot(n), PLAYERS[n % len(PLAYERS)]) for n in range(count)])
        rate = count / (_cpu_s(pid) - before)
        after = _resident_mb(pid)
        await service.stop()
    said = len(PLAYERS) * len(FIRST) + STEADY + count
    wrong = len(platform.refused) + abs(said - len(platform.texts()))
    await platform.stop()
    return {"rate": rate, "waits": waits, "idle": idle, "after": after, "wrong": wrong}


async def _said(platform: Platform, said: list[tuple[str, int]]) -> None:
    """Say all at once and wait for every reply."""
    seen = len(platform.texts())
    for text, user in said:
        platform.say(text, user=user)
    await platform.until(lambda: len(platform.texts()) >= seen + len(said), 300)


async def _steady(platform: Platform) -> list[float]:
    """Return the milliseconds from each message to its reply, sorted, at an even rate."""
    waits = []
    for n in range(STEADY):
        user = PLAYERS[n % len(PLAYERS)]
        seen, began = len(platform.texts(user)), time.monotonic()
        platform.say(shot(n), user=user)
        await platform.until(lambda: len(platform.texts(user)) > seen, 60)  # noqa: B023
        waits.append((time.monotonic() - began) * 1e3)
        await asyncio.sleep(max(0.0, 1 / STEADY_RATE - (time.monotonic() - began)))
    return sorted(waits)


def _at(waits: object, share: float) -> float:
    assert isinstance(waits, list)
    return float(waits[min(len(waits) - 1, int(share * len(waits)))])


def _hold_to_one_core(pid: int) -> None:
    core = {max(os.sched_getaffinity(pid))}
    for thread in Path(f"/proc/{pid}/task").iterdir():
        os.sched_setaffinity(int(thread.name), core)


def _cpu_s(pid: int) -> float:
    fields = Path(f"/proc/{pid}/stat").read_text("ascii").rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def _resident_mb(pid: int) -> float:
    return int(Path(f"/proc/{pid}/statm").read_text("ascii").split()[1]) * 4096 / 2**20


if __name__ == "__main__":
    sys.exit(asyncio.run(main(sys.argv[1:])))
