"""Whatever is done in whatever order, with restarts between: a store against a plain model."""

import tempfile
from datetime import timedelta
from pathlib import Path

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule

from bot.storage import Delivery, Send, SqliteStore, StaleState
from bot.storage.store import Update
from tests.storage.test_store import NOON, fact, put, said

CHATS = st.sampled_from(["a", "b", "c"])
NUMBERS = st.integers(min_value=1, max_value=12)
KEYS = st.sampled_from(["player/ann", "trip/a", "memory/a/ann"])


class AnyOrder(RuleBasedStateMachine):
    """The model: which updates came and were worked, what each chat is owed, which documents."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()
        self.path = Path(self.folder.name) / "caddie.sqlite"
        self.store = SqliteStore(self.path)
        self.open: dict[int, str] = {}
        self.known: set[int] = set()
        self.answered: dict[tuple[str, str], int] = {}
        self.documents: dict[str, tuple[int, str]] = {}
        self.owed: dict[str, list[str]] = {}
        self.sent: list[str] = []

    def teardown(self) -> None:
        self.store.close()
        self.folder.cleanup()

    @rule()
    def restart(self) -> None:
        self.store.close()
        self.store = SqliteStore(self.path)

    @rule(number=NUMBERS, chat=CHATS)
    def receive(self, number: int, chat: str) -> None:
        new = number not in self.known
        update = Update(
            source="tg",
            update_id=number,
            queue=chat,
            at=NOON + timedelta(seconds=number),
            raw="{}",
        )
        assert self.store.receive([update]) == int(new)
        if new:
            self.known.add(number)
            self.open[number] = chat

    @rule(key=KEYS, stale=st.booleans(), dies=st.booleans())
    def work(self, key: str, stale: bool, dies: bool) -> None:
        work = self.store.claim()
        assert (work is None) == (not self.open)
        if work is None or dies:
            return
        assert self.open[work.update_id] == work.queue
        assert work.update_id == min(n for n, chat in self.open.items() if chat == work.queue)
        version, _ = self.documents.get(key, (0, ""))
        m = said(work.update_id, chat=work.queue)
        owed = f"to {work.update_id}"
        sends = (Send(chat=work.queue, payload={"text": owed}),)
        change = {
            "documents": {key: (version + stale, owed)},
            "delivery": Delivery(source="tg", update_id=work.update_id, sends=sends),
        }
        try:
            written = put(self.store, m, fact(m), **change)
        except StaleState:
            assert stale
            return
        assert written
        assert not stale
        assert not put(self.store, m, fact(m), **change), "said twice"
        self.documents[key] = (version + 1, owed)
        self.answered[work.queue, m.message_id] = work.update_id
        self.owed.setdefault(work.queue, []).append(owed)
        del self.open[work.update_id]

    @rule()
    def send(self) -> None:
        due = list(self.store.due(NOON + timedelta(days=9000)))
        assert {d.send.chat for d in due} == {c for c, owed in self.owed.items() if owed}
        for item in due:
            text = str(item.send.payload["text"])
            assert text == self.owed[item.send.chat].pop(0), "in the order of the chat"
            self.store.sent(item.id, f"s{item.id}", NOON)
            self.sent.append(text)

    @invariant()
    def nothing_is_lost_or_doubled(self) -> None:
        assert len(set(self.sent)) == len(self.sent)
        entries = [(e.chat, e.message_id) for e in self.store.entries()]
        assert sorted(entries) == sorted(self.answered)
        loaded = self.store.load(list(self.documents))
        assert {k: (d.version, d.body) for k, d in loaded.items()} == self.documents
        waiting = self.store.waiting()
        assert (waiting.inbox, waiting.outbox) == (
            len(self.open),
            sum(map(len, self.owed.values())),
        )


AnyOrder.TestCase.settings = settings(
    max_examples=25, stateful_step_count=30, deadline=None, derandomize=True
)
TestAnyOrder = AnyOrder.TestCase
