"""A stored club that no ball flight fits is named, and what to send is said."""

from bot.model.answer import CannotYet
from bot.wording.base import WIDTH, Style, word


def test_the_club_is_named_in_two_short_lines() -> None:
    lines = word(CannotYet(reason="no_flight", said="carry of 7i"), Style()).lines
    assert "carry of 7i" in lines[0]
    assert "7 iron 150" in lines[1]
    assert all(len(line) <= WIDTH for line in lines)
