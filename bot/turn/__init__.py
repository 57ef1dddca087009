"""Decide what a reading means now: desk and reading in, changed desk and answers out."""

from bot.turn.dispatch import take_turn

__all__ = ["take_turn"]
