"""Every button of a question answers that question when a thumb sends its words."""

import pytest

from bot.model.answer import Ask
from bot.model.reading import Answered, Expecting
from bot.text.read import read
from bot.wording import Style
from bot.wording.base import word
from bot.wording.plain import QUICK

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
