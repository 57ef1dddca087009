"""Cold told with a wind in clubs."""

from bot.conversation import Conversation
from bot.storage import MemoryStore
from tests.support.chats import Speaker, say


def test_a_wind_in_clubs_does_not_break_a_word_of_care() -> None:
    conversation = Conversation(MemoryStore())
    handled = conversation.process(
        say(Speaker(), "freezing, -15C, one club wind into, hands numb", "1")
    )
    assert "broken" not in [a["kind"] for a in handled.answers]
