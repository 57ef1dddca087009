"""A player who protects a card says so, for one shot or until told otherwise."""

import pytest

from bot.model.reading import Profile, Shot
from bot.text.read import read
from tests.support.chats import said as replies_to

WEIGHS = "protecting a card"


def why_after(*messages: str) -> str:
    """Return the last reply to why, as one text."""
    return " ".join(replies_to(*messages, "why"))


@pytest.mark.parametrize(
    "said", ["150, protecting my score", "150 water right, playing it safe", "nursing a lead, 150"]
)
def test_told_with_a_shot_it_holds_for_that_shot_alone(said: str) -> None:
    (act,) = read(said).acts
    assert isinstance(act, Shot)
    assert act.facts.distance is not None
    assert act.facts.distance.value == 150
    assert WEIGHS in why_after(said)
    assert WEIGHS not in why_after(said, "140")


@pytest.mark.parametrize(
    ("said", "choice"), [("protect my card", "on"), ("stop playing safe", "off")]
)
def test_told_alone_it_is_a_setting(said: str, choice: str) -> None:
    (act,) = read(said).acts
    assert isinstance(act, Profile)
    assert (act.intent, act.choice) == ("set_card", choice)


def test_the_setting_holds_until_it_is_taken_back() -> None:
    assert WEIGHS in why_after("protect my card", "150", "140")
    assert WEIGHS not in why_after("protect my card", "150", "stop protecting my card", "140")


def test_the_card_itself_is_still_shown() -> None:
    assert read("show card").acts[0].act == "round"


def test_what_was_not_read_is_found_where_it_stands_in_the_message() -> None:
    text = "nursing a lead, 150 zorp left"
    reading = read(text)
    assert [span.text for span in reading.unread] == ["left"]
    assert all(text[span.start : span.end] == span.text for span in reading.unread)
