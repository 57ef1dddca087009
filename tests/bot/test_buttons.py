"""Every button of a question answers that question when a thumb sends its words."""

import pytest

from bot.model.answer import Ask
from bot.model.reading import Answered, Expecting, Result
from bot.text.read import read
from bot.wording import Style
from bot.wording.base import word
from bot.wording.plain import QUICK
from bot.wording.result import FINISHES
from bot.wording.shot import hit

CLUBS = ("D", "3w", "5w", "4h", "3i", "4i", "5i", "6i", "7i", "8i", "9i", "PW", "GW", "SW", "LW")
CASES = [(about, text) for about, texts in QUICK.items() for text in texts]


@pytest.mark.parametrize(("about", "text"), CASES)
def test_a_button_is_read_as_an_answer(about: str, text: str) -> None:
    expecting = Expecting.model_validate({"about": about})
    assert text in word(Ask(about=expecting), Style()).buttons
    (act,) = read(text, expecting).acts
    if about == "wind_dir":
        facts = getattr(act, "facts", None)
        assert facts is not None
        assert facts.wind.from_deg is not None
    else:
        assert isinstance(act, Answered)


@pytest.mark.parametrize("name", [*CLUBS, "52", "56", "60"])
def test_the_button_of_a_club_reads_as_that_club_hit(name: str) -> None:
    (act,) = read(hit(name)).acts
    assert isinstance(act, Result)
    assert act.club == name


@pytest.mark.parametrize("text", FINISHES)
def test_the_button_of_a_finish_reads_as_where_the_ball_is(text: str) -> None:
    (act,) = read(text).acts
    assert isinstance(act, Result)
    assert len(act.lie) == 1
