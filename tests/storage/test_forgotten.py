"""Is nothing of a forgotten player left in the files, looked for byte by byte?"""

from pathlib import Path

from bot.conversation import Conversation
from bot.storage.sqlite import SqliteStore
from tests.bot.turn.test_review import ROUND
from tests.support.chats import Speaker, say

WHO = "zq-player-77"


def test_a_whole_round_is_forgotten_to_the_last_byte(tmp_path: Path) -> None:
    store = SqliteStore(tmp_path / "a.sqlite")
    talk = Conversation(store)
    me = Speaker(chat=WHO, sender=WHO, name="Zebulon")
    texts = [line[2:] for line in ROUND.splitlines() if line.startswith("> ")]
    texts = ["driver 230, 7 iron 150, fade, handicap 14", *texts, "review", "forget me"]
    for n, text in enumerate(texts):
        talk.handle(say(me, text, str(n)))
    before = b"".join(p.read_bytes() for p in tmp_path.iterdir())
    assert WHO.encode() in before
    assert b"Saltmarrow" in before
    talk.handle(say(me, "forget me", "last"))
    left = b"".join(p.read_bytes() for p in tmp_path.iterdir())
    store.close()
    for word in (WHO, "Zebulon", "Saltmarrow", "wind off the left"):
        assert word.encode() not in left, word


def test_a_round_shared_with_others_stays_without_the_name(tmp_path: Path) -> None:
    store = SqliteStore(tmp_path / "a.sqlite")
    talk = Conversation(store)
    for n, (who, text) in enumerate(
        [(WHO, "start round practice"), ("bo", "join"), (WHO, "made 5"), ("bo", "made 4"),
         (WHO, "forget me"), (WHO, "forget me")]
    ):  # fmt: skip
        talk.handle(say(Speaker(chat="trip", kind="group", sender=who, name=who), text, str(n)))
    (key,) = store.keys("round/")
    body = store.load([key])[key].body
    store.close()
    assert "bo" in body
    assert WHO not in body
