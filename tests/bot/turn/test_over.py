"""Is a putt over once the ball is holed, another hole is played, or a number can be no putt?

That a score or another hole ends the talk of a putt is common practice, no source.
"""

import pytest

from tests.support.chats import said

PUTTED = ("start round, practice", "putt 10 ft flat", "made 4")


@pytest.mark.parametrize(
    "news", ["wind's picked up to 20", "wind 20 from west", "wind is into 20", "wind dropped"]
)
def test_a_number_after_the_score_is_a_shot(news: str) -> None:
    first = said(*PUTTED, news, "164")[0]
    assert first.startswith(("164 plays", "Where is the wind")), first


def test_a_club_after_the_score_asks_for_the_pin() -> None:
    assert said(*PUTTED, "driver")[0].startswith("How far to the pin")


def test_a_club_after_a_putt_is_another_shot() -> None:
    assert said("putt 10 ft flat", "driver?")[0].startswith("How far to the pin")


@pytest.mark.parametrize(("number", "begun"), [("164", "164 plays"), ("30", "Straight")])
def test_a_number_longer_than_any_putt_is_a_shot(number: str, begun: str) -> None:
    assert said("150 into 10", "downhill putt")[0].startswith("How long is the putt")
    assert said("150 into 10", "downhill putt", number)[0].startswith(begun)


def test_a_hole_begun_with_its_tee_shot_can_be_asked_about() -> None:
    begun = ("start round, practice", "150 into 10", "hole 5 par 4 400")
    assert "How far" not in said(*begun, "3 wood or driver?")[0]
