"""A shot that waits for the kind of round is not advised on by another way round."""

from bot.conversation import Conversation
from bot.storage import MemoryStore
from tests.support.chats import Speaker, say


def test_a_fact_about_the_bag_opens_no_advice_before_the_kind_of_round_is_told() -> None:
    conversation = Conversation(MemoryStore())
    told = ("7 iron 150, handicap 18", "hole 2 par 4 380", "180 left", "6 iron carries 160")
    answers = [
        a["kind"]
        for n, text in enumerate(told)
        for a in conversation.process(say(Speaker(), text, str(n))).answers
    ]
    assert "ask" in answers
    assert "shot" not in answers
