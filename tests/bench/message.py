"""What one shot message costs: inside the seam, and as a whole process. Takes about 20 s."""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from bot import app
from bot.conversation import Conversation
from bot.model.state import Player
from bot.storage.memory import MemoryStore
from bot.turn.bag import bag_of
from engine import PlaysAsQuestion, WindFacts, quantity, shot_plays_as
from engine.core.aloft import landings
from tests.bench._table import Row, finish
from tests.support.chats import DEMO, ROOT, Speaker, say

SHOTS = (
    "160, into 18 mph, uphill 8 ft, water right",
    "205 up nine feet, pin tucked left",
    "165, 20 into off the right, water right",
    "150",
    "100 yards, back pin",
    "185 from deep rough, bunker short left",
    "90 downhill 30 ft helping 10",
    "176 off the right 16, bunker left",
    "142, 12 behind, ob left",
    "par 4 400 ob all down the right",
)
ROUNDS = 12
WHOLE = 5  # processes started


def main() -> int:
    """Print the table; 1 if a goal is missed."""
    store = MemoryStore()
    app.load_demo(store, DEMO)
    conversation = app.conversation(store)
    warm = _costs(conversation, "new")
    again = statistics.median(_costs(conversation, "again", kept=True))
    flight = _flight_ms(store)
    first = _after_a_change(conversation)
    seconds, memory_mb = _whole()
    rows = [
        Row("message, median", statistics.median(warm), 25.0, "ms", baseline=flight),
        Row("message, 95th", statistics.quantiles(warm, n=20)[-1], 80.0, "ms", baseline=flight),
        Row("where its flights were asked before, median", again, 25.0, "ms", baseline=flight),
        Row("the first shot after a change of the bag", first, 250.0, "ms"),
        Row("whole process, CPU", seconds, 1.0, "s"),
        Row("whole process, memory", memory_mb, 150.0, "MB"),
    ]
    return finish("One shot message; the baseline is its flight alone (CPU time)", rows, sys.argv)


def _costs(conversation: Conversation, label: str, *, kept: bool = False) -> list[float]:
    """Return milliseconds of each shot, with flights it was asked before or without."""
    cost = []
    for turn in range(ROUNDS):
        for n, text in enumerate(SHOTS):
            message = say(Speaker(), text, f"{label}-{turn}-{n}")
            if not kept:
                landings.cache_clear()
            started = time.process_time()
            conversation.handle(message)
            cost.append((time.process_time() - started) * 1e3)
    return cost[len(SHOTS) :]


def _after_a_change(conversation: Conversation) -> float:
    """Return the median milliseconds of a shot that finds another bag than the last."""
    cost = []
    for carry in range(151, 156):
        conversation.handle(say(Speaker(), f"7 iron carries {carry}", f"bag-{carry}"))
        message = say(Speaker(), SHOTS[0], f"first-{carry}")
        started = time.process_time()
        conversation.handle(message)
        cost.append((time.process_time() - started) * 1e3)
    return statistics.median(cost)


def _flight_ms(store: MemoryStore) -> float:
    body = store.load(["player/me"])["player/me"].body
    golfer = bag_of(Player.model_validate_json(body).profile).golfer
    question = PlaysAsQuestion(
        golfer=golfer,
        distance=quantity(160.0, "yd"),
        height=quantity(8.0, "ft"),
        wind=WindFacts(speed=quantity(18.0, "mph"), comes_from=quantity(0.0, "deg")),
    )
    shot_plays_as(question)
    cost = []
    for _ in range(20):
        landings.cache_clear()
        started = time.process_time()
        shot_plays_as(question)
        cost.append((time.process_time() - started) * 1e3)
    return statistics.median(cost)


def _whole() -> tuple[float, float]:
    """Return the median CPU seconds of a process that answers one message, and its memory."""
    took, memory = [], []
    probe = (
        "import resource, subprocess, sys; subprocess.run(sys.argv[1:], stdout=-3, check=True);"
        "r = resource.getrusage(resource.RUSAGE_CHILDREN);"
        "print(r.ru_utime + r.ru_stime, r.ru_maxrss)"
    )
    with tempfile.TemporaryDirectory() as folder:
        command = [
            sys.executable, "-c", probe, sys.executable, "-m", "bot",
            "--data", f"{folder}/caddie.sqlite", "--demo", str(DEMO), SHOTS[0],
        ]  # fmt: skip
        for _ in range(1 + WHOLE):
            run = subprocess.run(command, check=True, capture_output=True, cwd=ROOT, text=True)
            cpu_s, kilobytes = run.stdout.split()
            took.append(float(cpu_s))
            memory.append(int(kilobytes) / 1024)
    return statistics.median(took[1:]), max(memory[1:])


if __name__ == "__main__":
    raise SystemExit(main())
