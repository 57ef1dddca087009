"""Silence where talk is not for the caddie; no advice for a shot long hit."""

from datetime import UTC, datetime

import pytest

from bot.model import reading as read
from bot.model.measure import Measure
from bot.model.message import Message
from bot.turn.hearing import heard

SHOT = read.Shot(facts=read.Facts(distance=Measure(value=160), lie=("rough",)))
VAGUE = read.Shot(facts=read.Facts(lie=("rough",)))
RESULT = read.Result(club="8 iron")
THANKS = read.Talk(intent="thanks")


def message(*, addressed: bool = True, late: bool = False) -> Message:
    return Message(
        chat="g",
        sender="ann",
        text="x",
        sent_at=datetime(2031, 5, 4, tzinfo=UTC),
        message_id="1",
        kind="group",
        addressed=addressed,
        late=late,
    )


def acts(reading: read.Reading | None) -> tuple[read.Act, ...] | None:
    return None if reading is None else reading.acts


def test_what_is_said_to_the_caddie_is_heard_whole() -> None:
    for reading in (read.Reading(text="x"), read.Reading(text="x", acts=(THANKS, VAGUE))):
        assert heard(message(), reading) is reading


@pytest.mark.parametrize(
    ("said", "kept"),
    [((), None), ((THANKS,), None), ((VAGUE,), None), ((SHOT, THANKS), (SHOT,))],
)
def test_talk_among_players_counts_only_where_it_is_golf(
    said: tuple[read.Act, ...], kept: tuple[read.Act, ...] | None
) -> None:
    assert acts(heard(message(addressed=False), read.Reading(text="x", acts=said))) == kept


@pytest.mark.parametrize(("said", "kept"), [((SHOT,), None), ((SHOT, RESULT), (RESULT,))])
def test_a_late_message_gets_no_advice_and_its_results_are_kept(
    said: tuple[read.Act, ...], kept: tuple[read.Act, ...] | None
) -> None:
    assert acts(heard(message(late=True), read.Reading(text="x", acts=said))) == kept
