"""Put answers into words: the only place where numbers are rounded."""

from bot.wording import card, golfer, plain, rules, safety  # noqa: F401  registers the wordings
from bot.wording.base import Style
from bot.wording.reply import reply

__all__ = ["Style", "reply"]
