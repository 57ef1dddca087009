"""Is the split exact, does it find the true cost of choices, and how fast is a review?

About 50 s. Times and memory are of this process alone, on one thread.
"""

from __future__ import annotations

import json
import subprocess
import sys
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

sys.path.insert(0, str(Path(__file__).parents[2]))

from bot import app
from bot.conversation import Conversation
from engine import Leg, strokes_lost
from tests.bench._table import Row, finish
from tests.support.chats import Speaker, say
from tests.support.golfers import bogey
from tests.support.policies import play, spots, true_cost
from tests.support.seasons import season

ROUNDS = 200
BALLS = 150_000  # a swing and an aim, by brute force
SEASON = 100
ALONE = "--alone"  # a process that reviews the file named next, and nothing else


def main(argv: list[str]) -> int:
    """Print the table; 1 if a goal is missed."""
    return finish("Review", [*speed(), *policies()], argv)


def policies() -> list[Row]:
    """Known ways of choosing over simulated rounds: what the split makes of them."""
    player = bogey(miss=1)
    places = spots(player)
    true = true_cost(player, places, balls=BALLS, seed=3)
    flag = play(player, places, "flag", rounds=ROUNDS, seed=5)
    best = play(player, places, "best", rounds=ROUNDS, seed=7)
    (out,) = strokes_lost([Leg(before=4.4, played=4.4, after=4.4, penalty=1)])
    error = abs(flag.choice / true - 1.0)
    drift = max(abs(p.execution) / p.execution_error for p in (flag, best))
    return [
        Row("parts against score, worst", max(flag.worst_sum, best.worst_sum), 1e-9, "strokes"),
        Row("always at the flag: error of the cost", 100.0 * error, 10.0, "%"),
        Row(
            "always at the flag: measured cost", flag.choice, 1.1 * true, "strokes", baseline=true
        ),
        Row("perfect chooser: cost of choices", best.choice, 1e-9, "strokes"),
        Row("swings of a player true to pattern", drift, 3.0, "standard errors off 0"),
        Row("out of bounds, off two strokes", abs(out.total - 2.0), 1e-9, "strokes"),
    ]


def speed() -> list[Row]:
    """A season and a round, reviewed without pictures by a process that does nothing else."""
    with TemporaryDirectory() as there:
        path = Path(there) / "season.sqlite"
        store = app.open_store(str(path), None)
        _, shots = season(SEASON, store=store)
        store.close()
        done = subprocess.run(
            [sys.executable, __file__, ALONE, str(path)], capture_output=True, check=True,
            cwd=Path(__file__).parents[2],
        )  # fmt: skip
    one, whole, before, peak = json.loads(done.stdout)
    return [
        Row("one round", 1e3 * one, 150.0, "ms"),
        Row(
            f"a season, {SEASON} rounds and {shots} shots", whole, 2.0, "s", baseline=SEASON * one
        ),
        Row("a season, memory of the whole process", peak, 200.0, "MB", baseline=before),
    ]


def alone(path: str) -> int:
    """Review the season of a file; print CPU seconds and the process's memory in MB."""
    store = app.open_store(path, None)
    talk = Conversation(store)
    at = datetime(2026, 6, 1, tzinfo=UTC) + timedelta(days=7 * SEASON)

    def cost(text: str, key: str) -> float:
        message = say(Speaker(at=at), text, key)
        started = time.process_time()
        reply = talk.handle(message)
        took = time.process_time() - started
        assert "holes" in reply.lines[0], reply.lines
        return took

    def memory() -> float:
        # Not getrusage: across a fork it keeps the peak of the parent.
        lines = Path("/proc/self/status").read_text("ascii").splitlines()
        peak = next(line for line in lines if line.startswith("VmHWM"))
        return float(peak.split()[1]) / 1024.0

    one = min(cost("review", f"one {n}") for n in range(5))
    before = memory()
    whole = min(cost(f"review last {SEASON}", f"all {n}") for n in range(3))
    print(json.dumps((one, whole, before, memory())))
    store.close()
    return 0


if __name__ == "__main__":
    sys.exit(alone(sys.argv[2]) if sys.argv[1:2] == [ALONE] else main(sys.argv[1:]))
