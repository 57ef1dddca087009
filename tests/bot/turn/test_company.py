"""A trip of several: joining, the shared day, who may ask for whom, being forgotten."""

from datetime import UTC, datetime, timedelta

import pytest

from bot.conversation import Conversation
from bot.model.message import Message, Point, Reply
from bot.model.state import Memory, Trip
from bot.storage.memory import MemoryStore
from bot.turn.desk import key_of
from tests.support.chats import play

NOON = datetime(2031, 5, 4, 12, tzinfo=UTC)


class Trips:
    """Several people who write to one bot in several chats."""

    def __init__(self) -> None:
        self.store = MemoryStore()
        self.bot = Conversation(self.store)
        self.n = 0

    def say(self, who: str, text: str, chat: str = "g", **more: object) -> Reply:
        self.n += 1
        private = chat == who
        return self.bot.handle(
            Message.model_validate(
                {
                    "chat": chat,
                    "kind": "private" if private else "group",
                    "sender": who,
                    "name": who.title(),
                    "text": text,
                    "sent_at": NOON + timedelta(minutes=self.n),
                    "message_id": str(self.n),
                    **more,
                }
            )
        )

    def trip(self, chat: str = "g") -> Trip:
        return Trip.model_validate_json(self.store.load([f"trip/{chat}"])[f"trip/{chat}"].body)


def test_joining_tells_who_else_is_there_and_is_done_once() -> None:
    trips = Trips()
    trips.say("ann", "join")
    assert "with Ann" in trips.say("bo", "join").text
    assert "already" in trips.say("bo", "I'm in").text
    assert trips.trip().members == ("ann", "bo")
    trips.say("bo", "leave")
    assert trips.trip().members == ("ann",)


def test_a_player_can_be_on_two_trips() -> None:
    trips = Trips()
    trips.say("ann", "join", "g")
    trips.say("ann", "join", "h")
    trips.say("bo", "wind 12 mph west", "g")
    assert trips.trip("g").day.wind is not None
    assert trips.trip("h").day.wind is None
    trips.say("ann", "leave", "g")
    assert trips.trip("h").members == ("ann",)


def test_what_one_tells_of_the_day_holds_for_all() -> None:
    trips = Trips()
    reply = trips.say("ann", "wind 12 mph from the west")
    assert "for all" in reply.text
    assert "12 mph" in reply.text
    day = trips.trip().day
    assert day.wind is not None
    assert (day.wind.compass, day.wind.speed and day.wind.speed.value) == ("W", 12.0)
    trips.say("bo", "skip")
    trips.say("bo", "skip")
    trips.say("bo", "150")
    key = key_of(Memory, ("g", "bo"))
    memory = Memory.model_validate_json(trips.store.load([key])[key].body)
    told = memory.shot.wind or (memory.asked_for and memory.asked_for.wind)
    assert told == day.wind


def test_a_coach_may_ask_once_the_player_says_so_and_until_the_player_says_no() -> None:
    trips = Trips()
    trips.say("dana", "join")
    trips.say("bo", "join")
    refused = trips.say("bo", "for Dana: 147 in, back pin").text
    assert "Only that player" in refused
    trips.say("dana", "let Bo ask for me")
    assert "Only that player" not in trips.say("bo", "for Dana: 147 in, back pin").text
    trips.say("dana", "Bo is not my coach")
    assert trips.say("bo", "for Dana: 147 in, back pin").text == refused
    assert "do not know that name" in trips.say("dana", "let Eve ask for me").text


def test_all_that_is_kept_of_a_player_is_not_handed_out_in_a_group() -> None:
    assert "in private" in Trips().say("ann", "export").text


def test_names_with_markup_or_of_two_people_guess_nothing() -> None:
    trips = Trips()
    trips.say("ann", "join", name="Sam")
    trips.say("bo", "join", name="Sam")
    assert "Who is it" in trips.say("cy", "for Sam: 147").text


def test_being_forgotten_takes_two_messages_and_leaves_nothing() -> None:
    trips = Trips()
    trips.say("ann", "join")
    trips.say("bo", "join")
    assert "once more" in trips.say("bo", "forget me").text
    assert trips.store.export("bo")["documents"] != {}
    assert "Done" in trips.say("bo", "forget me").text
    left = trips.store.export("bo")
    assert (left["documents"], left["messages"], left["entries"]) == ({}, [], [])
    assert "bo" not in trips.trip().members
    assert "Bo" not in trips.trip().names.values()
    assert "Ann" in trips.trip().names.values()


def test_a_warning_that_grew_old_is_given_again() -> None:
    trips = Trips()
    trips.say("ann", "forget me")
    trips.n += 10
    assert "once more" in trips.say("ann", "forget me").text


def test_a_point_without_a_map_asks_for_the_number_and_is_not_kept() -> None:
    trips = Trips()
    point = Point(latitude=53.5, longitude=-1.25)
    assert "number" in trips.say("ann", "", "ann", point=point).text
    assert "53.5" not in str(trips.store.export("ann"))


def test_notes_told_in_private_during_a_groups_round_are_the_groups() -> None:
    trips = Trips()
    trips.say("ann", "course Gull Head", "ann")
    trips.say("ann", "note hole 3 par 4 401 index 5", "ann")
    for who in ("ann", "bo"):
        trips.say(who, "join")
    trips.say("bo", "new round, practice")

    assert "par 5" in trips.say("ann", "note hole 3 par 5 510 index 9", "ann").text
    assert "par 5" in trips.say("bo", "show hole 3").text
    assert trips.trip("g").courses == ()  # no name of it was told yet
    trips.say("ann", "course Sandy Ness", "ann")
    assert trips.trip("g").course == "Sandy Ness"
    assert "par 5" in trips.say("bo", "show hole 3").text
    trips.say("bo", "end round")

    own = trips.say("ann", "show hole 3", "ann").text
    assert "par 4" in own
    assert "401" in own
    assert trips.trip("ann").course == "Gull Head"


def test_a_note_told_in_private_for_the_group_is_taken_back_there() -> None:
    trips = Trips()
    for who in ("ann", "bo"):
        trips.say(who, "join")
    trips.say("bo", "new round, practice")
    trips.say("ann", "note hole 3 par 5 510 index 9", "ann")
    trips.say("ann", "undo", "ann")
    assert "No notes" in trips.say("bo", "show hole 3").text


def test_a_reply_about_another_player_begins_with_whom_it_is_for() -> None:
    trips = Trips()
    for who in ("dana", "rolf"):
        trips.say(who, "join")
    trips.say("dana", "7 iron 150, handicap 12", "dana")
    trips.say("dana", "let Rolf ask for me")
    for asked in ("147 in", "147, 15 across", "20 ft putt, uphill"):
        assert trips.say("rolf", f"for Dana: {asked}").text.startswith("For Dana: "), asked
    assert trips.say("rolf", "for Dana bag").text.startswith("Rolf: Dana's bag")
    assert trips.say("rolf", "skip").text.startswith("Rolf: ")


ALLOWED = (
    "@ demo\n@ in saltmarrow-trip group\n@ as mika Mika\n> let Bram ask for me\n@ as bram Bram\n"
)


@pytest.mark.parametrize(
    "said",
    [
        "for Mika: 140, water left", "mika: 140, water left", "MIKA 140, water left",
        "Mika's 140, water left", "140 for mika", "140, water left, mika",
        "what should mika hit from 140", "ok, mika has 140, water left",
    ],
)  # fmt: skip
def test_a_player_known_here_is_asked_for_however_the_name_is_written(said: str) -> None:
    text, _ = play(f"# t\n{ALLOWED}> {said}\n")
    assert "< For Mika: 140 plays 140" in text


@pytest.mark.parametrize(
    "said", ["tavi: 150 into 10", "tavi 150 into 10", "150 for tavi", "Tavi hit 7 iron to 12 feet"]
)
def test_without_leave_nothing_is_answered_for_the_speaker_instead(said: str) -> None:
    _, replies = play(f"# t\n{ALLOWED}> {said}\n")
    assert replies[-1].lines == ("Bram: Only that player, or a helper they named, may do that.",)


@pytest.mark.parametrize(
    "said",
    ["Mika, I have 140", "mika what did you say, I'm 140 out", "bram: 140", "Mika and me, 140"],
)
def test_a_name_spoken_to_leaves_the_ball_the_speakers(said: str) -> None:
    text, replies = play(f"# t\n{ALLOWED}> {said}\n")
    assert "For Mika" not in text
    assert replies[-1].text.startswith("Bram: 140 plays 140")


def test_a_name_that_is_a_word_counts_only_where_it_is_marked() -> None:
    trips = Trips()
    for who in ("sandy", "bo"):
        trips.say(who, "join")
        trips.say(who, "7 iron 150, handicap 12")
    assert "Only that player" not in trips.say("bo", "sandy lie, 140").text
    assert "Only that player" in trips.say("bo", "sandy: 140").text
    assert "Only that player" in trips.say("bo", "140 for sandy").text
