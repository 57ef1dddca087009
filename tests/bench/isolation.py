"""Does anyone get another's answer? Many chats at once against each chat alone.

Groups of four talk in turns drawn at random, on one store in one process. Then every group
talks alone, on a store of its own. Replies must be the same to the byte. The default takes
about a minute; ``--chats 1000`` is 4,000 players and takes about half an hour of one core.
"""

from __future__ import annotations

import random
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from bot.conversation import Conversation
from bot.model.message import Message
from bot.storage import MemoryStore, SqliteStore, Store
from tests.bench._table import Row, finish

PLAYERS = 4
TALK: tuple[Callable[[random.Random], str], ...] = (
    lambda r: (
        f"{r.randint(90, 210)}, into {r.randint(4, 20)}, water {r.choice(('left', 'right'))}"
    ),
    lambda r: f"{r.randint(90, 210)} from rough",
    lambda r: f"wind {r.randint(5, 20)} mph from {r.choice(('12', '3', '6', '9'))} o'clock",
    lambda r: f"came up {r.randint(5, 20)} short",
    lambda r: f"putt {r.randint(4, 40)} ft uphill, stimp {r.randint(8, 12)}",
    lambda r: f"made {r.randint(3, 6)}",
    lambda r: f"on hole {r.randint(1, 18)}",
    lambda r: "why",
    lambda r: "undo",
    lambda r: f"7 iron goes {r.randint(120, 170)}",
    lambda r: f"what about {r.choice('5678')} iron",
    lambda r: "bag",
)


def main(argv: list[str]) -> int:
    """Print the table; 1 if a goal is missed."""
    chats = int(argv[argv.index("--chats") + 1]) if "--chats" in argv else 60
    chance = random.Random(20310504)
    scripts = [_script(n, random.Random(n)) for n in range(chats)]
    order = [n for n, script in enumerate(scripts) for _ in script]
    chance.shuffle(order)
    left = [iter(script) for script in scripts]
    together: list[list[tuple[str, ...]]] = [[] for _ in scripts]
    with tempfile.TemporaryDirectory() as folder:
        store = SqliteStore(Path(folder) / "caddie.sqlite")
        conversation = Conversation(store)
        started = time.process_time()
        for n in order:
            together[n].append(conversation.handle(next(left[n])).lines)
        crowd = time.process_time() - started
        store.close()
    started = time.process_time()
    alone = [_alone(script, MemoryStore()) for script in scripts]
    quiet = time.process_time() - started
    differ = 0
    for script, ours, theirs in zip(scripts, together, alone, strict=True):
        for message, one, other in zip(script, ours, theirs, strict=True):
            if one != other:
                differ += 1
                print(f"{message.chat} {message.text!r}: {one} / {other}", file=sys.stderr)
    said = len(order)
    rows = [
        Row(f"replies that differ ({chats} chats, {chats * PLAYERS} players, {said} messages)",
            differ, 0),
        Row("cost of a message in the crowd", crowd / said * 1e3, 50.0, "ms CPU",
            baseline=quiet / said * 1e3),
    ]  # fmt: skip
    return finish("Many chats at once; the baseline is each chat alone, in memory", rows, argv)


def _script(number: int, chance: random.Random) -> list[Message]:
    """Return what one group says, in its order: everybody is set up, then they play."""
    who = [f"p{number}-{k}" for k in range(PLAYERS)]
    said = [(p, text) for p in who for text in ("skip", f"handicap {chance.randint(0, 30)}")]
    said += [(chance.choice(who), chance.choice(TALK)(chance)) for _ in range(3 * PLAYERS)]
    now = datetime(2026, 6, 1, 9, tzinfo=UTC) + timedelta(minutes=chance.randint(0, 300))
    return [
        Message(
            chat=f"group-{number}", kind="group", sender=sender, name=sender, text=text,
            sent_at=now + timedelta(seconds=40 * n), message_id=str(n),
        )
        for n, (sender, text) in enumerate(said)
    ]  # fmt: skip


def _alone(script: list[Message], store: Store) -> list[tuple[str, ...]]:
    conversation = Conversation(store)
    return [conversation.handle(message).lines for message in script]


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
