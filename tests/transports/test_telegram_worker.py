"""What each kind of update does: worked straight from its JSON, without a network."""

import json
import time
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from telegram import Location, MessageOriginUser, PhotoSize, Sticker, User, Voice

from bot.conversation import Conversation
from bot.storage.memory import MemoryStore
from bot.storage.store import Send
from bot.transports.telegram import access, words
from bot.transports.telegram.adapter import Me
from bot.transports.telegram.envelope import envelope
from bot.transports.telegram.names import ANONYMOUS_ADMIN
from bot.transports.telegram.turns import Turns
from bot.transports.telegram.worker import MAX_ATTEMPTS, Rules, Worker
from tests.support.platform import ME, Platform

GROUP = -1007
SECRET = b"secret"


class Bench:
    """A worker over a store in memory, and people who write to it."""

    def __init__(self, *, opened: bool = True, allowed: frozenset[str] = frozenset()) -> None:
        self.store = MemoryStore()
        self.people = Platform()
        self.clock = datetime.now(UTC)
        self.next = 1
        rules = Rules(opened, allowed, SECRET, timedelta(seconds=300))
        me = Me(ME.id, ME.username or "")
        self.talk = Conversation(self.store)
        self.worker = Worker(self.store, self.talk, me, rules, lambda: self.clock, Turns())

    def offer(self, **body: Any) -> None:
        self.raw({"update_id": self.next, **body})

    def raw(self, update: object) -> None:
        self.next += 1
        kept = envelope(update, self.clock)
        assert kept is not None
        self.store.receive([kept])

    def message(self, text: str | None, **where: Any) -> dict[str, Any]:
        where.setdefault("date", self.clock)
        return self.people.message(text, **where)

    def say(self, text: str | None, **where: Any) -> list[Send]:
        """Somebody writes; what is sent for it."""
        self.offer(message=self.message(text, **where))
        return self.sent()

    def sent(self) -> list[Send]:
        while self.worker.work():
            pass
        out = []
        while due := list(self.store.due(self.clock + timedelta(days=1))):
            for item in due:
                out.append(item.send)
                self.store.sent(item.id, str(900 + item.id), self.clock)
        return out

    def entries(self) -> list[str]:
        return [e.kind for e in self.store.entries()]


@pytest.fixture
def bench() -> Iterator[Bench]:
    made = Bench()
    yield made
    assert made.store.waiting().inbox == 0


def texts(sends: list[Send]) -> list[str]:
    return [s.payload["text"] for s in sends if s.kind == "say"]


def pressed(
    bench: Bench, data: str | None, *, by: int = 7, under: int = 901, age: int = 0
) -> None:
    at = bench.clock - timedelta(hours=age)
    message = bench.message("x", user=7, date=at)
    message["message_id"] = 901
    bench.offer(
        callback_query={
            "id": "p1",
            "from": User(by, "Ann", is_bot=False).to_dict(),
            "message": message,
            "chat_instance": "1",
            "data": data,
        }
    )


# who is spoken to


def test_in_private_everything_is_for_the_bot(bench: Bench) -> None:
    (send,) = bench.say("150, 10 mph into")
    assert send.chat == "tg:7"
    assert "to" not in send.payload


@pytest.mark.parametrize(
    "text", ["@pocket_test_bot help", "/help", "/HELP@Pocket_Test_Bot", "help @pocket_test_bot"]
)
def test_in_a_group_it_answers_those_who_speak_to_it(bench: Bench, text: str) -> None:
    message = bench.message(text, chat=GROUP)
    bench.offer(message=message)
    (send,) = bench.sent()
    assert send.payload["to"] == message["message_id"]


@pytest.mark.parametrize("text", ["nice one", "/help@another_bot", "see you at 9", "150 likes"])
def test_in_a_group_it_is_silent_in_talk_that_is_not_for_it(bench: Bench, text: str) -> None:
    assert bench.say(text, chat=GROUP) == []


def test_talk_that_is_not_for_it_leaves_no_words(bench: Bench) -> None:
    bench.say("my secret is 42 plums", chat=GROUP)
    assert "plums" not in "\n".join(bench.store._conn.iterdump())
    (said,) = bench.store.messages()
    assert (said.message.text, said.reply.lines) == ("", ())


def test_a_reply_to_it_is_for_it(bench: Bench) -> None:
    assert texts(bench.say("help", chat=GROUP, reply_to=3))


def test_a_reply_to_its_answer_names_the_message_it_answered(bench: Bench) -> None:
    bench.say("150", chat=GROUP)
    first = bench.message("@pocket_test_bot help", chat=GROUP)
    bench.offer(message=first)
    bench.sent()
    sent_id = int(bench.store._rows("SELECT max(sent_id) FROM outbox").fetchone()[0])
    bench.say("why", chat=GROUP, reply_to=sent_id)
    last = next(bench.store.messages(newest_first=True, limit=1))
    assert last.message.reply_to == str(first["message_id"])


def test_an_answer_in_a_topic_stays_in_its_topic(bench: Bench) -> None:
    sends = bench.say("/help", chat=GROUP, message_thread_id=55, is_topic_message=True)
    assert sends[0].payload["thread"] == 55


def test_thanks_in_a_group_costs_nobody_a_line_or_a_short_one(bench: Bench) -> None:
    sends = bench.say("@pocket_test_bot thanks", chat=GROUP)
    assert len(sends) == 1
    assert sends[0].kind in ("say", "nod")


# what a phone sends


def test_an_edit_is_worked_once_and_only_if_the_text_changed(bench: Bench) -> None:
    message = bench.message("help")
    bench.offer(message=message)
    bench.sent()
    stamp = int(time.time())
    bench.offer(edited_message={**message, "edit_date": stamp})
    assert bench.sent() == [], "the same text again"
    bench.offer(edited_message={**message, "text": "privacy", "entities": [], "edit_date": stamp})
    bench.offer(edited_message={**message, "text": "privacy", "entities": [], "edit_date": stamp})
    assert len(bench.sent()) == 1
    edit = next(bench.store.messages(newest_first=True, limit=1)).message
    assert edit.edit_of == str(message["message_id"])


def test_what_cannot_be_read_asks_to_type(bench: Bench) -> None:
    voice = Voice("f", "u", duration=3)
    photo = (PhotoSize("f", "u", 10, 10),)
    sticker = Sticker("f", "u", 10, 10, is_animated=False, is_video=False, type="regular")
    for more in ({"voice": voice}, {"photo": photo}, {"sticker": sticker}):
        assert texts(bench.say(None, **more)) == [words.TYPE_IT]
        assert bench.say(None, chat=GROUP, **more) == []


def test_a_caption_is_read_as_text(bench: Bench) -> None:
    photo = (PhotoSize("f", "u", 10, 10),)
    assert texts(bench.say(None, photo=photo, caption="help")) != [words.TYPE_IT]


def test_what_was_passed_on_is_not_logged(bench: Bench) -> None:
    origin = MessageOriginUser(bench.clock, User(9, "Bo", is_bot=False))
    assert texts(bench.say("150 into 10", forward_origin=origin)) == [words.FORWARDED]
    assert list(bench.store.messages()) == []


def test_a_shared_place_is_answered_once_and_never_kept(bench: Bench) -> None:
    place = Location(longitude=-1.25, latitude=53.512345, live_period=900)
    message = bench.message(None, location=place)
    bench.offer(message=message)
    assert len(texts(bench.sent())) == 1
    moved = {**message, "edit_date": int(time.time())}
    bench.offer(edited_message=moved)
    assert bench.sent() == []
    dump = "\n".join(bench.store._conn.iterdump())
    assert "53.5123" not in dump


def test_a_nameless_admin_is_asked_to_post_as_themselves(bench: Bench) -> None:
    message = bench.message("/help", chat=GROUP, user=ANONYMOUS_ADMIN, name="Group")
    message["from"]["is_bot"] = True
    message["sender_chat"] = message["chat"]
    bench.offer(message=message)
    assert texts(bench.sent()) == [words.NAMELESS]


def test_other_bots_are_not_answered(bench: Bench) -> None:
    message = bench.message("/help", chat=GROUP)
    message["from"]["is_bot"] = True
    bench.offer(message=message)
    assert bench.sent() == []


@pytest.mark.parametrize(
    "name", ["<b>*_[x](y)`", "שלום", "مرحبا\u202e", "a\nb\nc", "\u200b", "x" * 300]
)
def test_any_name_is_shown_on_one_line_and_turns_nothing_round(bench: Bench, name: str) -> None:
    sends = bench.say("/help", chat=GROUP, name=name)
    (text,) = texts(sends)
    assert len(text.split("\n")) <= 2
    assert "\u202e" not in text
    assert text.count("\u2068") == text.count("\u2069")


def test_files_go_with_a_reply_and_are_drawn_when_they_are_sent(bench: Bench) -> None:
    bench.say("hello")
    sends = bench.say("export")
    files = [s for s in sends if s.kind == "document"]
    assert files
    for file in files:
        fields = file.payload
        (drawn,) = bench.talk.attached(fields["in"], fields["of"], only=fields["name"])
        assert drawn.body
    assert bench.talk.attached("tg:7", files[0].payload["of"], only="another.csv") == ()
    assert [s.kind for s in bench.say("@pocket_test_bot export", chat=GROUP)] == ["say"]


# buttons


def test_a_press_is_worked_once_and_its_buttons_go(bench: Bench) -> None:
    pressed(bench, "7|help")
    kinds = [s.kind for s in bench.sent()]
    assert kinds == ["press", "say", "unbutton"]
    pressed(bench, "7|help")
    (send,) = bench.sent()
    assert (send.kind, send.payload["text"]) == ("press", words.NOTED_BEFORE)
    assert len(list(bench.store.messages())) == 1


@pytest.mark.parametrize(
    ("data", "by", "age", "told"),
    [
        ("7|help", 8, 0, words.NOT_YOURS),
        ("7|help", 7, 13, words.OLD_BUTTON),
        ("what is this", 7, 0, words.OLD_BUTTON),
        ("", 7, 0, words.OLD_BUTTON),
        ("\u0667|help", 7, 0, words.OLD_BUTTON),
        (None, 7, 0, words.OLD_BUTTON),
    ],
)
def test_other_presses_get_a_word_and_change_nothing(
    bench: Bench, data: str | None, by: int, age: int, told: str
) -> None:
    pressed(bench, data, by=by, age=age)
    (send,) = bench.sent()
    assert (send.kind, send.payload["text"]) == ("press", told)
    assert list(bench.store.messages()) == []


# late, poison, duplicates


def test_late_messages_get_no_advice_and_one_summary(bench: Bench) -> None:
    old = bench.clock - timedelta(minutes=20)
    for text in ("150 into 10", "160 into 10"):
        bench.offer(message=bench.message(text, date=old))
    assert texts(bench.sent()) == [words.late(2)]
    assert "answer" not in bench.entries()


def test_messages_are_worked_in_the_order_they_were_sent(bench: Bench) -> None:
    later = bench.message("second", date=bench.clock - timedelta(seconds=1))
    sooner = bench.message("first", date=bench.clock - timedelta(seconds=9))
    bench.offer(message=later)
    bench.offer(message=sooner)
    bench.sent()
    order = bench.store._rows("SELECT text FROM messages ORDER BY rowid").fetchall()
    assert order == [("first",), ("second",)]


@pytest.mark.parametrize(
    "body",
    [
        {"message": {"message_id": 1}},
        {"message": {"message_id": "x", "date": "y", "chat": 3}},
        {"message": {"message_id": 1, "date": 10**30, "chat": {"id": 7, "type": "private"}}},
        {"callback_query": {"id": 5}},
        {"edited_message": {}},
    ],
)
def test_a_malformed_update_is_parked_and_stops_nothing(
    bench: Bench, body: dict[str, Any]
) -> None:
    bench.offer(**body)
    assert texts(bench.say("help"))
    waiting = bench.store.waiting()
    assert (waiting.inbox, waiting.parked) == (0, 1)


def test_kinds_not_yet_invented_are_passed_over(bench: Bench) -> None:
    bench.offer(hologram={"id": 1})
    bench.raw({"update_id": 77})
    assert bench.sent() == []
    assert bench.store.waiting().parked == 0


def test_an_update_that_breaks_the_bot_is_given_up_with_a_word(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object) -> None:
        raise RuntimeError

    monkeypatch.setattr(bench.worker._conversation, "process", broken)
    bench.offer(message=bench.message("help"))
    for _ in range(MAX_ATTEMPTS):
        bench.worker.work()
    assert texts(bench.sent()) == [words.TROUBLE]
    assert bench.store.waiting().parked == 1


# chats


def member(bench: Bench, chat: int, was: str, now: str, by: int = 7) -> None:
    me = ME.to_dict()
    bench.offer(
        my_chat_member={
            "chat": {"id": chat, "type": "supergroup" if chat < 0 else "private", "title": "Trip"},
            "from": User(by, "Ann", is_bot=False).to_dict(),
            "date": int(bench.clock.timestamp()),
            "old_chat_member": {"user": me, "status": was, "until_date": 0},
            "new_chat_member": {"user": me, "status": now, "until_date": 0},
        }
    )


def test_coming_into_a_group_says_how_to_be_heard(bench: Bench) -> None:
    member(bench, GROUP, "left", "member")
    (text,) = texts(bench.sent())
    assert "@pocket_test_bot" in text
    assert "privacy mode" in text


def test_a_removed_bot_sends_no_more(bench: Bench) -> None:
    bench.store.post([Send(chat=f"tg:{GROUP}", payload={"text": "waits"})])
    member(bench, GROUP, "member", "kicked")
    assert bench.sent() == []


def test_a_group_that_gets_a_new_number_keeps_its_trip(bench: Bench) -> None:
    bench.say("/join", chat=-5)
    upgrade = bench.message(None, chat=-5)
    upgrade["migrate_to_chat_id"] = GROUP
    bench.offer(message=upgrade)
    twin = bench.message(None, chat=GROUP)
    twin["migrate_from_chat_id"] = -5
    bench.offer(message=twin)
    bench.sent()
    assert f"trip/tg:{GROUP}" in bench.store.keys("trip/")
    (text,) = texts(bench.say("/join", chat=GROUP))
    assert "already" in text


# who may use it


def test_by_invitation_strangers_are_turned_away_quietly() -> None:
    bench = Bench(opened=False, allowed=frozenset({"tg:7"}))
    assert texts(bench.say("150", user=8)) == [words.BY_INVITATION]
    assert bench.say("/help", user=8, chat=GROUP) == []
    assert texts(bench.say("help", user=7)) != [words.BY_INVITATION]


def test_an_invitation_lets_in_and_runs_out() -> None:
    bench = Bench(opened=False, allowed=frozenset({"tg:7"}))
    (text,) = texts(bench.say("/invite"))
    payload = text.partition("?start=")[2].split()[0]
    assert len(payload) <= 64
    bench.clock += timedelta(days=8)
    assert texts(bench.say(f"/start {payload}", user=8)) == [words.BAD_INVITATION]
    (text,) = texts(bench.say("/invite"))
    payload = text.partition("?start=")[2].split()[0]
    assert texts(bench.say(f"/start {payload}", user=8)) != [words.BAD_INVITATION]
    assert texts(bench.say("help", user=8)) != [words.BY_INVITATION]


@pytest.mark.parametrize("payload", ["x", "é", "AAAA" * 16, "_-_-", ""])
def test_a_forged_invitation_lets_nobody_in(payload: str) -> None:
    assert access.accept(SECRET, payload, datetime.now(UTC)) is None


def test_an_invitation_to_a_trip_joins_it_without_noise_in_the_group() -> None:
    bench = Bench(opened=False, allowed=frozenset({"tg:7"}))
    member(bench, GROUP, "left", "member")
    bench.sent()
    (text,) = texts(bench.say("/invite", chat=GROUP))
    payload = text.partition("?start=")[2].split()[0]
    sends = bench.say(f"/start {payload}", user=8, name="Bo")
    assert {s.chat for s in sends} == {"tg:8"}, "nothing is said in the group"
    trip = json.loads(bench.store.load([f"trip/tg:{GROUP}"])[f"trip/tg:{GROUP}"].body)
    assert trip["members"] == ["tg:8"]


def test_a_group_is_served_if_somebody_let_in_adds_the_bot() -> None:
    bench = Bench(opened=False, allowed=frozenset({"tg:7"}))
    member(bench, GROUP, "left", "member", by=8)
    kinds = [s.kind for s in bench.sent()]
    assert kinds == ["say", "leave"]
    member(bench, GROUP, "left", "member", by=7)
    bench.sent()
    assert texts(bench.say("/help", user=9, chat=GROUP))
    assert texts(bench.say("help", user=9)) != [words.BY_INVITATION]
