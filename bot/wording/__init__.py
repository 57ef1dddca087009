"""Put answers into words: the only place where numbers are rounded."""

from bot.wording import (  # noqa: F401  registers the wordings
    card,
    chip,
    company,
    course,
    golfer,
    learning,
    place,
    plain,
    plan,
    putt,
    result,
    review,
    rules,
    safety,
    shot,
)
from bot.wording.base import Style
from bot.wording.reply import reply

__all__ = ["Style", "reply"]
